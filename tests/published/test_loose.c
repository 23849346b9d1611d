/* test_loose.c - what papers and governing bodies say of ball motion, loosely: orders of size and
 * regions, not digits. Each with its source and how far it was read. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/motion/motion.h"
#include "helper_lane.h"

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

enum { TRIES = 200 };

/* Change of the arrival in boards when one thing is swung over its range, median of TRIES lines. */
static double swing(void (*low)(Ball *, FrictionCurve *), void (*high)(Ball *, FrictionCurve *))
{
    static double changes[TRIES];
    Rng rng = rng_seed(71);
    for (int n = 0; n < TRIES;) {
        Ball ball = ball_default();
        MotionBody body;
        Oil oil;
        ball.rg_in = 2.52;
        ball.differential_in = 0.040;
        ball.cover = (Cover)(rng_uniform(&rng) * 3.0);
        double length = rng_between(&rng, 37.0, 43.0), volume = rng_between(&rng, 22.0, 28.0);
        lane_shaped(length, volume, rng_between(&rng, 2.0, 5.0), &oil);
        Delivery delivery = lane_any_release(&rng);
        motion_body(&ball, &body);
        if (!lane_find_launch(&body, &oil, &delivery, 17.5))
            continue;
        double ends[2];
        for (int i = 0; i < 2; i++) {
            Ball changed = ball;
            (i ? high : low)(&changed, NULL);
            motion_body(&changed, &body);
            (i ? high : low)(&changed, &body.friction);
            ends[i] = motion_arrive(&body, &oil, &delivery).board;
        }
        if (isnan(ends[0]) || isnan(ends[1]))
            continue;
        changes[n++] = fabs(ends[1] - ends[0]);
    }
    qsort(changes, TRIES, sizeof *changes, rising);
    return changes[TRIES / 2];
}

static void grit_500(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->surface.grit = 500.0;
}
static void grit_4000(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->surface.grit = 4000.0;
}
static void film_low(Ball *ball, FrictionCurve *friction)
{
    (void)ball;
    if (friction)
        friction->mu_film *= 0.8;
}
static void film_high(Ball *ball, FrictionCurve *friction)
{
    (void)ball;
    if (friction)
        friction->mu_film *= 1.2;
}
static void dry_low(Ball *ball, FrictionCurve *friction)
{
    (void)ball;
    if (friction)
        friction->mu_dry *= 0.9;
}
static void dry_high(Ball *ball, FrictionCurve *friction)
{
    (void)ball;
    if (friction)
        friction->mu_dry *= 1.1;
}
static void rg_low(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->rg_in = 2.47;
}
static void rg_high(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->rg_in = 2.60;
}
static void differential_low(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->differential_in = 0.025;
}
static void differential_high(Ball *ball, FrictionCurve *friction)
{
    (void)friction;
    ball->differential_in = 0.055;
}

/* Governing body's ball motion study 2006-08 (second hand): surface roughness and oiled friction
 * matter most, then dry friction, then RG and differential. Ranges are ours: grits 500 to 4000,
 * oiled friction +- 20 %, dry +- 10 %, RG 2.47 to 2.60, differential 0.025 to 0.055. */
static void test_what_matters_in_order(void **unused)
{
    (void)unused;
    double surface = swing(grit_500, grit_4000), film = swing(film_low, film_high);
    double dry = swing(dry_low, dry_high), rg = swing(rg_low, rg_high);
    double differential = swing(differential_low, differential_high);
    printf("boards at the pins, median: surface %.1f, oiled friction %.1f, dry friction %.1f, "
           "RG %.1f, differential %.1f\n",
           surface, film, dry, rg, differential);
    assert_less(dry, surface);
    assert_less(rg, surface);
    assert_less(differential, surface);
    assert_less(rg, film);
}

/* Ji et al., AIP Advances 15, 045222 (second hand), a hold-out: a tour release of 17.9 mph, 416
 * rpm, 45 degrees is best from board 12 (28th from the left), 1.8 degrees out. Two zones, 40 ft of
 * oil then dry at 0.20 (Frohlich's, second hand); the oiled friction is fitted, once, so that it
 * arrives in the pocket: then that friction must be one a lane can have, and the entry angle in
 * the region where strikes are (4 to 6.5 degrees at 17 to 18.5; within 1.5 boards, 0.4 degree). */
static void test_tour_release_hold_out(void **unused)
{
    (void)unused;
    MotionBody oiled = {.radius_m = 4.2975 * 0.0254, .axis = {1.0, 0.0, 0.0}}, dry;
    for (int i = 0; i < 3; i++)
        oiled.k_sq[i] = 2.50 * 0.0254 * 2.50 * 0.0254;
    dry = oiled;
    friction_constant(0.20, &dry.friction);
    static Oil lane;
    Delivery release = {12.0, 1.8, 17.9, 416.0, 45.0, 0.0, 0.0};
    double low = 0.0, high = 0.06, mu = 0.0, board = 0.0, degrees = 0.0;
    for (int i = 0; i < 50; i++) {
        mu = 0.5 * (low + high);
        friction_constant(mu, &oiled.friction);
        MotionState s = motion_release(&oiled, &release);
        motion_advance(&oiled, &lane, &s, 40.0 * 0.3048, MOTION_STEP_M);
        motion_advance(&dry, &lane, &s, LANE_LENGTH_M, MOTION_STEP_M);
        board = s.gutter ? 0.0 : lane_board_of_x(s.x_m);
        degrees = atan2(s.vx, s.vy) * 180.0 / acos(-1.0);
        *(board > 17.78 ? &high : &low) = mu;
    }
    printf("tour release: oiled friction %.4f brings it to board %.2f at %.2f degrees\n", mu, board,
           degrees);
    assert_near(board, 17.78, 0.01);
    assert_true(mu > 0.005 && mu < 0.06);
    assert_true(degrees > 4.0 - 0.4 && degrees < 6.5 + 0.4);
}

/* A textbook's thresholds of mixed lubrication: near dry under lambda 0.3, a full film above 3
 * (common knowledge of tribology; derived from model.md's formula). */
static void test_lubrication_thresholds(void **unused)
{
    (void)unused;
    Ball ball = ball_default();
    FrictionCurve friction;
    friction_curve(&ball, &friction);
    double sigma = sqrt(0.5 * 0.5 + 0.25 * 0.25), phi = 0.5; /* 2000 grit, solid; factor is 1 */
    double dry = friction_mu(&friction, 0.0, phi), film = friction_mu(&friction, 200.0, phi);
    double near_dry = friction_mu(&friction, 0.3 * sigma / OIL_UM_PER_UNIT, phi);
    double full = friction_mu(&friction, 3.0 * sigma / OIL_UM_PER_UNIT, phi);
    assert_less(0.7, (near_dry - film) / (dry - film));
    assert_less((full - film) / (dry - film), 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_matters_in_order),
        cmocka_unit_test(test_tour_release_hold_out),
        cmocka_unit_test(test_lubrication_thresholds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
