/* test_convergence.c - the program's steps are small enough, converge as they should, and stand
 * what is thrown at them. Derived: Runge and Kutta's fourth order, textbook. */
#include "near.h"

#include <float.h>
#include <stdio.h>
#include <string.h>

#include "core/motion/motion.h"
#include "helper_cases.h"

static const double FOOT = 0.3048;

/* As motion_arrive goes (station by station), with another step. */
static MotionState arrive(const MotionBody *body, const Oil *oil, const Delivery *delivery,
                          double step_m)
{
    MotionState state = motion_release(body, delivery);
    for (int j = 1; j < OIL_STATIONS; j++)
        motion_advance(body, oil, &state, j * 0.5 * FOOT, step_m);
    return state;
}

static double board_with(const MotionBody *body, const Oil *oil, const Delivery *delivery,
                         double step_m)
{
    MotionState end = arrive(body, oil, delivery, step_m);
    return end.gutter ? NAN : lane_board_of_x(end.x_m);
}

/* A lane with sudden ends of oil that no machine lays: strokes stacked at random. */
static bool is_heap(const Oil *oil)
{
    for (int j = 1; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++) {
            double change = oil->units[j][b] - oil->units[j - 1][b];
            if (change > 1e-9 || (j * 0.5 < oil->length_ft && change < -2.0))
                return true;
        }
    return false;
}

static void halving(bool heaps, double *median, double *worst)
{
    enum { N = 500 };
    static double change[N];
    Rng rng = rng_seed(heaps ? 31 : 32);
    for (int n = 0; n < N;) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        if (is_heap(&c.oil) != heaps)
            continue;
        motion_body(&c.ball, &body);
        double at = board_with(&body, &c.oil, &c.delivery, MOTION_STEP_M);
        double half = board_with(&body, &c.oil, &c.delivery, 0.5 * MOTION_STEP_M);
        if (isnan(at) || isnan(half))
            continue;
        change[n++] = fabs(at - half);
    }
    *median = case_quantile(change, N, 0.5);
    *worst = change[N - 1];
    printf("halving the step, 500 deliveries on %s: median %.5f, 99 %% %.5f, worst %.5f board\n",
           heaps ? "heaps of sharp strokes" : "patterns of tournament shape", *median,
           case_quantile(change, N, 0.99), *worst);
}

static void test_halving_the_step_on_shaped_patterns(void **unused)
{
    (void)unused;
    double median, worst;
    halving(false, &median, &worst);
    assert_less(worst, 0.01);
    assert_less(median, 0.001);
}

/* Twelve units that end from one half-foot to the next, across the ball's path. */
static void test_halving_the_step_on_sharp_heaps(void **unused)
{
    (void)unused;
    double median, worst;
    halving(true, &median, &worst);
    assert_less(worst, 0.05);
    assert_less(median, 0.001);
}

/* Median error over 200 random releases of a usual ball against steps of 1/128 ft, and the order
 * between successive halvings; returns the mean order. */
static double order_of(const char *name, const Oil *oil, const double *steps_ft, int count)
{
    enum { N = 200, STEPS_MAX = 5 };
    static double errors[STEPS_MAX][N];
    MotionBody body;
    Ball ball = ball_default();
    motion_body(&ball, &body);
    Rng rng = rng_seed(33);
    for (int n = 0; n < N;) {
        Delivery delivery = {0};
        delivery.laydown_board = rng_between(&rng, 14.0, 26.0);
        delivery.launch_deg = rng_between(&rng, 0.0, 4.0);
        delivery.mph = rng_between(&rng, 16.0, 20.0);
        delivery.rpm = rng_between(&rng, 250.0, 450.0);
        delivery.rotation_deg = rng_between(&rng, 30.0, 60.0);
        delivery.tilt_deg = rng_between(&rng, 5.0, 20.0);
        MotionState fine = motion_release(&body, &delivery);
        motion_advance(&body, oil, &fine, LANE_LENGTH_M, FOOT / 128);
        if (fine.gutter)
            continue;
        for (int i = 0; i < count; i++) {
            MotionState end = motion_release(&body, &delivery);
            motion_advance(&body, oil, &end, LANE_LENGTH_M, steps_ft[i] * FOOT);
            errors[i][n] = fabs(end.x_m - fine.x_m) / LANE_BOARD_M;
        }
        n++;
    }
    double before = NAN, sum = 0.0;
    printf("order of convergence on %s, median of %d:\n", name, N);
    for (int i = 0; i < count; i++) {
        double error = case_quantile(errors[i], N, 0.5), order = log2(before / error);
        if (i == 0)
            printf("  step %6.4f ft: error %.2e board\n", steps_ft[i], error);
        else
            printf("  step %6.4f ft: error %.2e board, order %.2f\n", steps_ft[i], error, order);
        sum += i > 0 ? order / (count - 1) : 0.0;
        before = error;
    }
    return sum;
}

/* A film that falls evenly from 4.0 units to 1.6 over all of the lane, where friction changes
 * fastest, has no corner but those of the friction table: fourth order until that is reached. */
static void test_order_on_a_smooth_film(void **unused)
{
    (void)unused;
    Pattern pattern = {
        .length_ft = 60.0, .stroke_count = 1, .strokes = {{1, 39, 0.0, 60.0, 4.0, 1.6}}};
    Oil oil;
    oil_lay(&pattern, &oil);
    const double steps[] = {6.0, 3.0, 1.5};
    double order = order_of("a film that falls evenly, 4.0 to 1.6 units", &oil, steps, 3);
    assert_less(2.8, order);
}

/* Real patterns are bilinear between boards and stations: the slope has corners on every board
 * crossed, so that the order is about two; what counts is how small the error is. */
static void test_order_on_a_pattern(void **unused)
{
    (void)unused;
    Pattern pattern = {.length_ft = 40.0, .stroke_count = 8};
    for (int i = 0; i < 8; i++)
        pattern.strokes[i] = (Stroke){1 + 2 * i, 39 - 2 * i, 0.0, 40.0, 3.0, 0.8};
    Oil oil;
    oil_lay(&pattern, &oil);
    const double steps[] = {1.0, 0.5, 0.25, 0.125, 0.0625};
    double order = order_of("a pattern of 40 ft", &oil, steps, 5);
    assert_less(1.0, order);
}

/* Friction only takes energy away. Energy per mass v^2/2 + L^2/(2 k2(n)): in the averaged body k2
 * changes as the axis walks, so that a spinning ball in flight may gain or lose up to the
 * differential's share; a ball whose three inertias are equal may not. */
static void test_energy_never_grows(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(17);
    for (int i = 0; i < 300; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        bool uniform = i % 2 == 0;
        if (uniform)
            body.k_sq[1] = body.k_sq[2] = body.k_sq[0];
        MotionState state = motion_release(&body, &c.delivery);
        double before = INFINITY;
        for (int j = 0; j < OIL_STATIONS && !state.gutter; j++) {
            motion_advance(&body, &c.oil, &state, j * 0.5 * FOOT, MOTION_STEP_M);
            double k2 = 0.0;
            for (int k = 0; k < 3; k++)
                k2 += body.k_sq[k] * state.n[k] * state.n[k];
            double l2 = state.lx * state.lx + state.ly * state.ly + state.lz * state.lz;
            double energy = 0.5 * (state.vx * state.vx + state.vy * state.vy) + 0.5 * l2 / k2;
            assert_true(energy <= before * (1.0 + (uniform ? 1e-12 : 2e-3)));
            before = energy;
        }
    }
}

/* The spin axis stays a unit vector, and time, turns and flare only grow. */
static void test_state_stays_sane(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(18);
    for (int i = 0; i < 200; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        MotionState state = motion_release(&body, &c.delivery), before = state;
        for (int j = 1; j < OIL_STATIONS && !state.gutter; j++) {
            motion_advance(&body, &c.oil, &state, j * 0.5 * FOOT, MOTION_STEP_M);
            double n2 = 0.0;
            for (int k = 0; k < 3; k++)
                n2 += state.n[k] * state.n[k];
            assert_near(n2, 1.0, 1e-12);
            assert_less(before.t_s, state.t_s);
            assert_less(before.revs, state.revs);
            assert_true(state.flare_m >= before.flare_m);
            if (!state.gutter)
                assert_true(state.y_m == j * 0.5 * FOOT);
            before = state;
        }
    }
}

static double any(Rng *rng, double low, double high)
{
    double u = rng_uniform(rng); /* the ends count as much as what lies between */
    return u < 0.2 ? low : u < 0.4 ? high : rng_between(rng, low, high);
}

static void extreme(Rng *rng, Ball *ball, Oil *oil, Delivery *delivery)
{
    *ball = ball_default();
    ball->pounds = any(rng, BALL_POUNDS_MIN, BALL_POUNDS_MAX);
    ball->rg_in = any(rng, BALL_RG_MIN_IN, BALL_RG_MAX_IN);
    ball->differential_in = any(rng, 0.0, BALL_DIFFERENTIAL_MAX_IN);
    ball->intermediate_in = any(rng, 0.0, ball->differential_in);
    ball->pin_to_pap_in = any(rng, 0.0, BALL_PIN_TO_PAP_MAX_IN);
    ball->mass_bias_deg = any(rng, 0.0, 90.0);
    ball->cover = (Cover)(rng_uniform(rng) * COVER_COUNT);
    ball->cover_strength = any(rng, BALL_STRENGTH_MIN, BALL_STRENGTH_MAX);
    ball->surface.finish = (Finish)(rng_uniform(rng) * 3.0);
    ball->surface.grit = any(rng, BALL_GRIT_MIN, BALL_GRIT_MAX);
    ball->surface.games_since = any(rng, 0.0, 500.0);
    double most = any(rng, 0.0, OIL_UNITS_MAX);
    bool noise = rng_uniform(rng) < 0.5;
    oil->length_ft = any(rng, PATTERN_LENGTH_MIN_FT, PATTERN_LENGTH_MAX_FT);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            oil->units[j][b] = j * 0.5 > oil->length_ft ? 0.0
                               : noise                  ? rng_between(rng, 0.0, most)
                                                        : most;
    delivery->laydown_board = any(rng, 1.0, 39.0);
    delivery->launch_deg = any(rng, -10.0, 10.0);
    delivery->mph = any(rng, 8.0, 28.0);
    delivery->rpm = any(rng, 0.0, 650.0);
    delivery->rotation_deg = any(rng, 0.0, 90.0);
    delivery->tilt_deg = any(rng, 0.0, 60.0);
    delivery->loft_ft = any(rng, 0.0, 15.0);
    if (rng_uniform(rng) < 0.6) { /* so that enough of them stay on the lane */
        delivery->laydown_board = rng_between(rng, 12.0, 30.0);
        delivery->launch_deg = rng_between(rng, -1.0, 2.5);
        delivery->rpm = any(rng, 0.0, 300.0);
    }
}

/* No NaN but where motion.h says so, for 4,000 deliveries at the ends of every allowed range. */
static void test_extremes_give_numbers(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(19);
    int gutters = 0;
    for (int i = 0; i < 4000; i++) {
        Ball ball;
        Delivery delivery;
        MotionBody body;
        static Oil oil;
        static Roll roll;
        extreme(&rng, &ball, &oil, &delivery);
        motion_body(&ball, &body);
        motion_roll(&body, &oil, &delivery, &roll);
        Arrival end = motion_arrive(&body, &oil, &delivery);
        assert_true(roll.gutter == end.gutter);
        gutters += roll.gutter;
        assert_true(roll.count >= 1 && roll.count <= ROLL_POINTS_MAX);
        if (roll.gutter) {
            assert_true(isnan(roll.entry_board) && isnan(end.board) && isnan(end.degrees));
        } else {
            assert_true(roll.count == ROLL_POINTS_MAX);
            assert_true(roll.entry_board == end.board && roll.entry_deg == end.degrees);
            assert_true(roll.entry_board >= 0.5 && roll.entry_board <= 39.5);
            assert_true(fabs(roll.entry_deg) < 45.0 && roll.entry_mph > 2.0);
        }
        assert_true(isfinite(roll.breakpoint_board) && isfinite(roll.breakpoint_ft));
        assert_true(isfinite(roll.flare_in) && isfinite(roll.revs) && isfinite(roll.seconds));
        assert_true(isnan(roll.first_move_ft) || roll.first_move_ft > 0.0);
        assert_true(isnan(roll.roll_ft) || (roll.roll_ft >= 0.0 && roll.roll_ft <= 60.0));
        for (int p = 0; p < roll.count; p++) {
            const PathPoint *at = &roll.path[p];
            assert_true(isfinite(at->ft) && isfinite(at->board) && isfinite(at->degrees));
            assert_true(isfinite(at->mph) && isfinite(at->rpm) && isfinite(at->slip_mps));
            assert_true(at->mu >= 0.0 && at->mu < 0.3 && at->units >= 0.0);
        }
    }
    printf("4,000 extremes: %d in the gutter, no NaN where a number is due\n", gutters);
}

/* A ball thrown with no spin at all, into no oil at all, and one set down already rolling. */
static void test_no_spin_and_no_slip(void **unused)
{
    (void)unused;
    MotionBody body;
    Ball ball = ball_default();
    motion_body(&ball, &body);
    static Oil dry;
    Delivery delivery = {.laydown_board = 20.0, .mph = 17.0, .rotation_deg = 90.0};
    Arrival end = motion_arrive(&body, &dry, &delivery);
    assert_near(end.board, 20.0, 1e-9); /* no spin: nothing to hook with */
    assert_near(end.degrees, 0.0, 1e-9);
    double rolling = 17.0 * 0.44704 / (4.2975 * 0.0254) * 30.0 / 3.14159265358979323846;
    delivery = (Delivery){.laydown_board = 20.0, .mph = 17.0, .rpm = rolling};
    Roll roll;
    motion_roll(&body, &dry, &delivery, &roll);
    assert_near(roll.entry_board, 20.0, 1e-6);
    assert_less(roll.roll_ft, 0.6); /* rolls from where it touches down */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_halving_the_step_on_shaped_patterns),
        cmocka_unit_test(test_halving_the_step_on_sharp_heaps),
        cmocka_unit_test(test_order_on_a_smooth_film),
        cmocka_unit_test(test_order_on_a_pattern),
        cmocka_unit_test(test_energy_never_grows),
        cmocka_unit_test(test_state_stays_sane),
        cmocka_unit_test(test_extremes_give_numbers),
        cmocka_unit_test(test_no_spin_and_no_slip),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
