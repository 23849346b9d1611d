/* measure.c - a bowler's numbers from what can be counted or read. */
#include "core/motion/measure.h"

#include <math.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/motion/motion.h"

#define FILM_FT 40.0 /* all assumed, see the header */
#define FILM_UNITS 15.0

double measure_rpm(double turns, double frames, double frames_a_second)
{
    return frames > 0.0 ? 60.0 * turns * frames_a_second / frames : 0.0;
}

/* The roll at that speed, end over end down the middle, so that no ball ends in the gutter. */
static Roll roll_at(const Bowler *bowler, double mph)
{
    Pattern pattern = {.length_ft = FILM_FT, .stroke_count = 1};
    pattern.strokes[0] = (Stroke){.board_from = 1,
                                  .board_to = LANE_BOARDS,
                                  .ft_end = FILM_FT,
                                  .units_start = FILM_UNITS,
                                  .units_end = FILM_UNITS};
    Oil oil;
    oil_lay(&pattern, &oil);
    Ball ball = ball_default();
    MotionBody body;
    motion_body(&ball, &body);
    Delivery delivery = {.laydown_board = 0.5 * (LANE_BOARDS + 1),
                         .mph = mph,
                         .rpm = bowler->rpm,
                         .loft_ft = bowler->loft_ft};
    Roll roll;
    motion_roll(&body, &oil, &delivery, &roll);
    return roll;
}

/* The release speed at which `read` gives `value`, by halving; `sign` 1: it grows with speed. */
static double speed_for(const Bowler *bowler, double value, double sign,
                        double (*read)(const Roll *))
{
    double low = BOWLER_MPH_LOW, high = BOWLER_MPH_HIGH;
    for (int i = 0; i < 40; i++) {
        double middle = 0.5 * (low + high);
        Roll roll = roll_at(bowler, middle);
        if (sign * read(&roll) < sign * value)
            low = middle;
        else
            high = middle;
    }
    return 0.5 * (low + high);
}

static double seconds_of(const Roll *roll) { return roll->seconds; }
static double mph_of(const Roll *roll) { return roll->entry_mph; }

double measure_mph_of_seconds(const Bowler *bowler, double seconds)
{
    return speed_for(bowler, seconds, -1.0, seconds_of);
}

double measure_mph_of_pins(const Bowler *bowler, double mph_at_pins)
{
    return speed_for(bowler, mph_at_pins, 1.0, mph_of);
}

double measure_tilt_deg(double ring_in)
{
    double share = ring_in / (2.0 * BALL_RADIUS_IN);
    return share >= 1.0 ? 0.0 : deg_from_rad(acos(share));
}

double measure_rotation_deg(double hours) { return 30.0 * hours; }

double measure_arrows_sd(int within, int of)
{
    double share = (within + 0.5) / (of + 1.0), low = 0.0, high = 100.0;
    for (int i = 0; i < 60; i++) { /* how many deviations a board is */
        double middle = 0.5 * (low + high);
        if (2.0 * normal_below(middle) - 1.0 < share)
            low = middle;
        else
            high = middle;
    }
    return 1.0 / low;
}

/* How many boards further a launch turned by a degree crosses the arrows. */
static double boards_a_degree(void)
{
    return m_from_ft(LANE_ARROWS_FT) * tan(rad_from_deg(1.0)) / LANE_BOARD_M;
}

double measure_scatter_at_arrows(const Scatter *scatter)
{
    return hypot(scatter->launch_deg * boards_a_degree(), scatter->laydown_boards);
}

Scatter measure_scatter_of(const Scatter *scatter, double boards)
{
    Scatter scaled = *scatter;
    double now = measure_scatter_at_arrows(scatter);
    double factor = now > 0.0 ? boards / now : 0.0;
    scaled.launch_deg *= factor;
    scaled.laydown_boards *= factor;
    return scaled;
}
