/* test_measure.c - a bowler's numbers from what can be counted or read. */
#include "near.h"

#include <math.h>

#include "core/motion/measure.h"
#include "core/motion/motion.h"

/* 300 rpm is 5 turns a second: 48 frames a turn at 240 frames a second. */
static void revs_are_frames(void **state)
{
    (void)state;
    assert_near(measure_rpm(1, 48, 240), 300, 1e-9);
    assert_near(measure_rpm(2, 12, 30), 300, 1e-9);
    assert_near(measure_rpm(1, 0, 30), 0, 0);
}

/* 60 feet by the seconds is the mean speed; the ball left the hand faster and arrives slower.
 */
static void speed_is_that_of_the_hand(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    for (double seconds = 2.2; seconds < 3.2; seconds += 0.2) {
        double mean = 60.0 / seconds * 3600.0 / 5280.0;
        double mph = measure_mph_of_seconds(&bowler, seconds);
        assert_in_range((long)(1000.0 * mph), (long)(1000.0 * (mean + 0.3)),
                        (long)(1000.0 * (mean + 3.0)));
        if (seconds > 2.2)
            assert_true(mph < measure_mph_of_seconds(&bowler, seconds - 0.2));
    }
    double near_pins = measure_mph_of_pins(&bowler, 15.0);
    assert_true(near_pins > 15.5 && near_pins < 19.0);
    assert_near(measure_mph_of_seconds(&bowler, 0.5), BOWLER_MPH_HIGH, 1e-6);
    assert_near(measure_mph_of_pins(&bowler, 1.0), BOWLER_MPH_LOW, 1e-6);
}

/* A ring through the ball's centre has no tilt; half a ball's width across: 60 degrees. */
static void tilt_is_the_rings(void **state)
{
    (void)state;
    assert_near(measure_tilt_deg(2.0 * BALL_RADIUS_IN), 0, 0);
    assert_near(measure_tilt_deg(9.0), 0, 0);
    assert_near(measure_tilt_deg(BALL_RADIUS_IN), 60, 1e-9);
    assert_near(measure_rotation_deg(1.5), 45, 1e-12);
}

/* Of a normal variable 68.27 % lie within one deviation, 95.45 % within two (standard tables). */
static void scatter_is_a_share(void **state)
{
    (void)state;
    assert_near(measure_arrows_sd(68227 - 1, 100000), 1.0, 0.01);
    assert_near(measure_arrows_sd(95449, 100000), 0.5, 0.001);
    for (int i = 1; i <= 10; i++)
        assert_true(measure_arrows_sd(i, 10) < measure_arrows_sd(i - 1, 10));
    assert_true(measure_arrows_sd(10, 10) > 0.3);
    for (int of = 1; of <= 12;
         of++) /* within a board: erf(1 / (sd sqrt 2)), the error function's */
        for (int within = 0; within <= of; within++)
            assert_near(erf(1.0 / (measure_arrows_sd(within, of) * sqrt(2.0))),
                        (within + 0.5) / (of + 1.0), 1e-9);
    /* a degree turned is 15 ft times its tangent at the arrows; with the laydown at right angles */
    double degree = 15.0 * 12.0 * tan(3.14159265358979 / 180.0) / (41.5 / 39.0);
    assert_near(measure_scatter_at_arrows(&(Scatter){.launch_deg = 1.0}), degree, 1e-3);
    assert_near(measure_scatter_at_arrows(&(Scatter){.launch_deg = 0.5, .laydown_boards = 1.5}),
                hypot(0.5 * degree, 1.5), 1e-3);
    Scatter still = measure_scatter_of(&(Scatter){.mph = 1.0}, 2.0); /* nothing to stretch */
    assert_near(measure_scatter_at_arrows(&still), 0.0, 0.0);
    Scatter scatter = bowler_default().scatter;
    Scatter wider = measure_scatter_of(&scatter, 1.25);
    assert_near(measure_scatter_at_arrows(&wider), 1.25, 1e-9);
    assert_near(wider.launch_deg / scatter.launch_deg,
                wider.laydown_boards / scatter.laydown_boards, 1e-9);
    assert_near(wider.mph, scatter.mph, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(revs_are_frames),
        cmocka_unit_test(speed_is_that_of_the_hand),
        cmocka_unit_test(tilt_is_the_rings),
        cmocka_unit_test(scatter_is_a_share),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
