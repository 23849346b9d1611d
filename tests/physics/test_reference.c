/* test_reference.c - the references of helper_rigid.c stand on their own: conservation, closed
 * forms, two integrators, and what their step, creep and number of phases cost. */
#include "near.h"

#include <gsl/gsl_odeiv2.h>
#include <stdio.h>
#include <string.h>

#include "helper_cases.h"
#include "helper_rigid.h"

static const double PI = 3.14159265358979323846;
static const double G = 9.80665;

static Delivery usual_release(void) { return (Delivery){22.0, 2.0, 18.3, 350.0, 50.0, 12.0, 1.0}; }

static double size3(const double v[3]) { return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]); }

/* Torque-free spin: energy and angular momentum constant to 1e-9 (textbook, derived). */
static void test_torque_free_conserves(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(1);
    for (int i = 0; i < 40; i++) {
        Case c;
        case_random(&rng, &c);
        RigidBall ball = rigid_ball(&c.ball);
        RigidSystem system = {RIGID_FULL, &ball, NULL, true};
        double state[RIGID_STATE_MAX], before[3], after[3];
        rigid_release(&system, &c.delivery, 6.0 * rng_uniform(&rng), state);
        double energy = rigid_energy(&system, state);
        rigid_momentum(&system, state, before);
        for (int step = 0; step < 10000; step++)
            rigid_rk4(&system, state, 0.00025); /* 2.5 s, some 15 turns */
        rigid_momentum(&system, state, after);
        assert_near(rigid_energy(&system, state) / energy, 1.0, 1e-9);
        double size = size3(before);
        for (int k = 0; k < 3; k++)
            assert_near(after[k] / size, before[k] / size, 1e-9);
        double *q = state + 7;
        assert_near(q[0] * q[0] + q[1] * q[1] + q[2] * q[2] + q[3] * q[3], 1.0, 1e-9);
    }
}

/* A body with two equal inertias: the spin axis circles the odd one at (k1 - k3)/k3 of the spin
 * along it (Euler's regular precession; textbook, derived). */
static void test_regular_precession(void **unused)
{
    (void)unused;
    Ball made = ball_default();
    made.differential_in = 0.05;
    made.intermediate_in = 0.0; /* middle = highest */
    made.pin_to_pap_in = 3.0;
    RigidBall ball = rigid_ball(&made);
    RigidSystem system = {RIGID_FULL, &ball, NULL, true};
    double state[RIGID_STATE_MAX];
    Delivery release = usual_release();
    rigid_release(&system, &release, 0.4, state);
    double along = state[4], b0 = state[5], c0 = state[6];
    double rate = (ball.k2[0] - ball.k2[1]) / ball.k2[1] * along, t = 2.0;
    for (int step = 0; step < 8000; step++)
        rigid_rk4(&system, state, t / 8000);
    /* d(w2)/dt = (k3 - k1)/k3 w3 w1 = -rate w3, d(w3)/dt = rate w2 */
    double turn = rate * t;
    assert_near(state[4], along, 1e-9);
    assert_near(state[5], b0 * cos(turn) - c0 * sin(turn), 1e-7);
    assert_near(state[6], c0 * cos(turn) + b0 * sin(turn), 1e-7);
}

/* Uniform sphere on constant friction (textbook, derived): the direction of slip never changes,
 * slip ends at 2 u0 / (7 mu g), and the path is a parabola. */
static void test_uniform_sphere(void **unused)
{
    (void)unused;
    for (int kind = 0; kind < 2; kind++) {
        RigidBall ball = rigid_ball(&(Ball){.rg_in = 2.5, .surface = {FINISH_GRIT, 2000.0, 0.0}});
        double k2 = 0.4 * ball.radius * ball.radius, mu = 0.12;
        for (int i = 0; i < 3; i++)
            ball.k2[i] = k2;
        ball.mu_fixed = mu;
        ball.creep = 0.0;
        RigidSystem system = {(RigidKind)kind, &ball, NULL, false};
        double state[RIGID_STATE_MAX], u0[2], u[2];
        Delivery release = usual_release();
        rigid_release(&system, &release, 1.0, state);
        double x0 = state[0], y0 = state[1], vx = state[2], vy = state[3];
        rigid_slip(&system, state, u0);
        double slip = hypot(u0[0], u0[1]), end = 2.0 * slip / (7.0 * mu * G);
        for (int step = 0; step < 4000; step++)
            rigid_rk4(&system, state, 0.999 * end / 4000);
        double t = 0.999 * end;
        rigid_slip(&system, state, u);
        assert_near(atan2(u[1], u[0]), atan2(u0[1], u0[0]), 1e-6);
        assert_near(hypot(u[0], u[1]), 0.001 * slip, 1e-9);
        assert_near(state[0], x0 + vx * t - 0.5 * mu * G * t * t * u0[0] / slip, 1e-9);
        assert_near(state[1], y0 + vy * t - 0.5 * mu * G * t * t * u0[1] / slip, 1e-9);
        assert_near(state[2], vx - 2.0 / 7.0 * 0.999 * u0[0], 1e-9);
    }
}

/* Friction only ever takes energy away. */
static void test_energy_never_grows(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(7);
    for (int i = 0; i < 60; i++) {
        Case c;
        case_random(&rng, &c);
        RigidBall ball = rigid_ball(&c.ball);
        RigidSystem system = {i % 2 ? RIGID_FULL : RIGID_AVERAGED, &ball, &c.oil, false};
        double state[RIGID_STATE_MAX];
        rigid_release(&system, &c.delivery, 6.0 * rng_uniform(&rng), state);
        /* In the averaged body energy follows L^2 / (2 k2(n)), and n walks by the unaveraged
         * body's rules: its energy is constant in flight to the differential's second order. */
        double slack = system.kind == RIGID_FULL ? 1e-9 : 2e-4;
        double energy = rigid_energy(&system, state);
        for (int step = 0; step < 1500; step++) {
            rigid_rk4(&system, state, 0.001);
            double now = rigid_energy(&system, state);
            assert_true(now <= energy * (1.0 + slack));
            energy = now;
        }
    }
}

/* The distance between track rings used by friction, 2 pi R |dn/dt| / |w| with the torque-free
 * part of dn/dt, against the distance measured on the simulated ball: where the axis is one turn
 * later. The torque's own part circles once a turn and cancels. */
static void test_ring_distance_as_measured(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(11);
    double worst = 0.0, ratios[60];
    int n = 0;
    while (n < 60) {
        Case c;
        case_random(&rng, &c);
        if (c.ball.differential_in < 0.02 || c.delivery.rpm < 250.0)
            continue;
        RigidBall ball = rigid_ball(&c.ball);
        ball.mu_fixed = 0.05;
        RigidSystem system = {RIGID_FULL, &ball, NULL, false};
        double state[RIGID_STATE_MAX], from[3], to[3], rate[RIGID_STATE_MAX], angle = 0.0;
        rigid_release(&system, &c.delivery, 6.0 * rng_uniform(&rng), state);
        rigid_axis(&system, state, from);
        double walked = state[12], dt = 1e-4;
        while (angle < 2.0 * PI) {
            rigid_rate(&system, state, rate);
            angle += size3(state + 4) * dt;
            rigid_rk4(&system, state, dt);
        }
        rigid_axis(&system, state, to);
        double gap = 0.0;
        for (int k = 0; k < 3; k++)
            gap += (to[k] - from[k]) * (to[k] - from[k]);
        gap = sqrt(gap) * ball.radius;
        walked = state[12] - walked;
        ratios[n++] = walked / gap;
        worst = fmax(worst, fabs(walked - gap));
    }
    double low = case_quantile(ratios, n, 0.05), high = case_quantile(ratios, n, 0.95);
    printf("ring distance, by formula over as measured: median %.3f, 5 to 95 %%: %.3f to %.3f, "
           "worst %.2f mm\n",
           case_quantile(ratios, n, 0.5), low, high, 1000.0 * worst);
    assert_near(case_quantile(ratios, n, 0.5), 1.0, 0.02);
    assert_less(worst, 0.002);
}

static bool on_lane(const RigidEnd *end)
{
    return !end->gutter && end->board > 2 && end->board < 38;
}

/* RK4 in time against GSL over distance, both systems (GSL ode-initval2, rk8pd, 1e-9). */
static void test_two_integrators_agree(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(20261125);
    RigidGsl gsl = {gsl_odeiv2_step_rk8pd, 1e-9, 0, false};
    double worst[2] = {0.0, 0.0}, degrees[2] = {0.0, 0.0};
    for (int n = 0; n < 200;) {
        Case c;
        case_random(&rng, &c);
        RigidBall ball = rigid_ball(&c.ball);
        double phase = 2.0 * PI * rng_uniform(&rng);
        bool counted = false;
        for (int kind = 0; kind < 2; kind++) {
            RigidEnd own = rigid_roll((RigidKind)kind, &ball, &c.oil, &c.delivery, phase, 0.001);
            if (!on_lane(&own))
                continue;
            RigidEnd by = rigid_gsl((RigidKind)kind, &ball, &c.oil, &c.delivery, phase, &gsl);
            worst[kind] = fmax(worst[kind], fabs(own.board - by.board));
            degrees[kind] = fmax(degrees[kind], fabs(own.degrees - by.degrees));
            assert_near(own.seconds, by.seconds, 1e-5);
            assert_near(own.flare_m, by.flare_m, 1e-4);
            counted = true;
        }
        n += counted;
    }
    printf("own RK4 against GSL rk8pd over 200 deliveries, worst: full %.5f board %.5f degree, "
           "averaged %.5f board %.5f degree\n",
           worst[0], degrees[0], worst[1], degrees[1]);
    assert_less(fmax(worst[0], worst[1]), 0.002);
    assert_less(fmax(degrees[0], degrees[1]), 0.01);
}

static double mean_board(const RigidBall *ball, const Case *c, int phases, double dt, bool *fine)
{
    double sum = 0.0;
    for (int p = 0; p < phases; p++) {
        RigidEnd end =
            rigid_roll(RIGID_FULL, ball, &c->oil, &c->delivery, 2.0 * PI * p / phases, dt);
        *fine = *fine && on_lane(&end);
        sum += end.board;
    }
    return sum / phases;
}

/* What the choices of test_accuracy.c cost: steps of 2 ms, creep of 1 cm/s, eight phases, and
 * the sense of the vertical spin, each against something finer. */
static void test_cost_of_step_creep_and_phases(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(5);
    enum { N = 60 };
    double step[N], creep[N], phases[N], sense[N];
    for (int n = 0; n < N;) {
        Case c;
        case_random(&rng, &c);
        RigidBall ball = rigid_ball(&c.ball), finer = ball;
        bool fine = true;
        double base = mean_board(&ball, &c, 8, 0.002, &fine);
        if (!fine)
            continue;
        step[n] = fabs(base - mean_board(&ball, &c, 8, 0.0005, &fine));
        finer.creep = 0.002;
        creep[n] = fabs(base - mean_board(&finer, &c, 8, 0.002, &fine));
        phases[n] = fabs(base - mean_board(&ball, &c, 24, 0.002, &fine));
        c.delivery.tilt_deg = -c.delivery.tilt_deg;
        sense[n] = fabs(base - mean_board(&ball, &c, 8, 0.002, &fine));
        n += fine;
    }
    const char *what[] = {"steps 2 ms to 0.5 ms", "creep 10 to 2 mm/s", "phases 8 to 24",
                          "sense of the tilt"};
    double *values[] = {step, creep, phases, sense};
    printf("full body, change of the phase mean, boards, median and worst of %d:\n", N);
    for (int i = 0; i < 4; i++) {
        double median = case_quantile(values[i], N, 0.5); /* sorts */
        printf("  %-22s %.5f %.5f\n", what[i], median, values[i][N - 1]);
    }
    assert_less(step[N - 1], 0.01);
    assert_less(creep[N - 1], 0.01);
    assert_less(phases[N - 1], 0.02);
    assert_less(case_quantile(sense, N, 0.5), 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_torque_free_conserves),
        cmocka_unit_test(test_regular_precession),
        cmocka_unit_test(test_uniform_sphere),
        cmocka_unit_test(test_energy_never_grows),
        cmocka_unit_test(test_ring_distance_as_measured),
        cmocka_unit_test(test_two_integrators_agree),
        cmocka_unit_test(test_cost_of_step_creep_and_phases),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
