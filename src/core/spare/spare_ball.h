/* spare_ball.h - one straight ball at a leave, for rehearsals, aimed where it is worth most and
 * rolled at the same simulated pins that spare.h uses. In the bowler's own frame; pure. */
#ifndef SETTEE_CORE_SPARE_SPARE_BALL_H
#define SETTEE_CORE_SPARE_SPARE_BALL_H

#include "core/spare/spare_hits.h"

/* Standard deviations, in boards at the pins, with stored aims; the next wider one is used. */
enum { SPARE_WIDTHS = 3 };
extern const double SPARE_WIDTH[SPARE_WIDTHS];

/* Heading of a straight ball over the middle arrow to this board at the pins. */
double spare_heading_deg(double board);

/* The board, at the row of the foremost pin, to aim at; 1 <= left < PINS_ALL. */
double spare_aim(Pins left, double deviation_boards);

/* What is left after one ball with that scatter. */
Pins spare_ball(Pins left, double deviation_boards, double mph, double pounds, Rng *rng);

/* For the generator and its test: recomputes the aims that spare_aim stores; `effort` as in
 * spare_hits_roll. */
void spare_aims_of(Pins left, double effort, uint8_t place[SPARE_WIDTHS]);

#endif
