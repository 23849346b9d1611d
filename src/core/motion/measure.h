/* measure.h - a bowler's numbers from what anybody can count or read in a centre: frames of a
 * video, a stopwatch, the house's monitor, the first ring of oil on the ball, ten balls. */
#ifndef SETTEE_CORE_MOTION_MEASURE_H
#define SETTEE_CORE_MOTION_MEASURE_H

#include "core/bag/bag.h"

/* Turns a minute, from the video frames that `turns` take and the frames a second; 0 for no frame.
 */
double measure_rpm(double turns, double frames, double frames_a_second);

/* Speed at release that this bowler's ball must have had to take that long from the foul line to
 * the head pin, or to be that fast near the pins. The model slows it: a ball of usual numbers on an
 * even film of 15 units over 40 ft, rolled end over end (assumed; half or twice as much oil moves
 * the answer by some tenths). Within BOWLER_MPH_LOW and BOWLER_MPH_HIGH. */
double measure_mph_of_seconds(const Bowler *bowler, double seconds);
double measure_mph_of_pins(const Bowler *bowler, double mph_at_pins);

/* Axis tilt from the first ring of oil, measured straight across the ball in inches: the ring's
 * plane is as far from the centre as the sine of the tilt (geometry). 0 where the ring is as wide
 * as the ball. */
double measure_tilt_deg(double ring_in);

/* Axis rotation from where the axis point looks at release, as a clock seen from above with the
 * pins at 12: hours from straight sideways (3 or 9) toward the bowler; an hour is 30 degrees. */
double measure_rotation_deg(double hours);

/* The standard deviation of where balls cross the arrows, in boards, of which `within` of `of`
 * crossed within a board of the target: (within + 1/2) of (of + 1), so that all or none say
 * something too. */
double measure_arrows_sd(int within, int of);

/* The same of a scatter: what its launch and laydown come to at the arrows; and a scatter that
 * comes to `boards` there, launch and laydown each by the same factor. */
double measure_scatter_at_arrows(const Scatter *scatter);
Scatter measure_scatter_of(const Scatter *scatter, double boards);

#endif
