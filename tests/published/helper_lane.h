/* helper_lane.h - lanes and lines for the tests of published and common-practice statements. */
#ifndef SETTEE_TESTS_HELPER_LANE_H
#define SETTEE_TESTS_HELPER_LANE_H

#include <stdbool.h>

#include "base/rng.h"
#include "core/lane/oil.h"
#include "core/motion/motion.h"

/* A pattern of one family, from the bowler's side and the same from both: flat outside board 5
 * and inside board 13 with a smooth step between, half on board 1; level to 8 ft, then falling to
 * a quarter at `length_ft`, 0.6 of that in the last two feet (docs/model.md, the prototype's). */
void lane_shaped(double length_ft, double volume_ml, double ratio, Oil *oil);

/* The release of docs/model.md: 350 rpm, 18.3 mph, rotation 50, tilt 12, loft 1 ft. */
Delivery lane_release(double laydown_board);

/* A bowler of tournaments, right or left, one- or two-handed. */
Delivery lane_any_release(Rng *rng);

/* Sets the launch that brings the ball to `board` at the head pin, by a scan from the gutter side
 * and secants; false when none between -1 and 6 degrees does. */
bool lane_find_launch(const MotionBody *body, const Oil *oil, Delivery *delivery, double board);

#endif
