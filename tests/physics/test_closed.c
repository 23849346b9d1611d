/* test_closed.c - the program's motion and friction against closed forms, over random releases.
 * Textbook mechanics of a sphere that slips, then rolls, and of a body no torque acts on
 * (derived). */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "core/motion/motion.h"
#include "helper_cases.h"
#include "helper_rigid.h"

static const double PI = 3.14159265358979323846;
static const double G = 9.80665;
enum { TRIES = 300 };

static MotionBody round_body(double k, double mu) /* k = (radius of gyration / radius)^2 */
{
    MotionBody body = {.radius_m = 4.2975 * 0.0254, .axis = {1.0, 0.0, 0.0}};
    for (int i = 0; i < 3; i++)
        body.k_sq[i] = k * body.radius_m * body.radius_m;
    friction_constant(mu, &body.friction);
    return body;
}

static Delivery any_release(Rng *rng)
{
    Delivery d = {0};
    d.laydown_board = rng_between(rng, 15.0, 25.0);
    d.launch_deg = rng_between(rng, -2.0, 4.0);
    d.mph = rng_between(rng, 12.0, 24.0);
    d.rpm = rng_between(rng, 0.0, 550.0);
    d.rotation_deg = rng_between(rng, 0.0, 90.0);
    d.tilt_deg = rng_between(rng, 0.0, 40.0);
    return d;
}

/* Surface roll at release, from the delivery's own numbers. */
static void roll_at_release(const Delivery *d, double q[2])
{
    double turn = (d->rotation_deg - d->launch_deg) * PI / 180.0;
    double w = 4.2975 * 0.0254 * d->rpm * PI / 30.0 * cos(d->tilt_deg * PI / 180.0);
    q[0] = w * sin(turn);
    q[1] = w * cos(turn);
}

static void test_release_is_what_the_bowler_threw(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(41);
    for (int i = 0; i < TRIES; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        MotionState s = motion_release(&body, &c.delivery);
        double q[2], ux, uy, launch = c.delivery.launch_deg * PI / 180.0;
        double v = c.delivery.mph * 0.44704;
        roll_at_release(&c.delivery, q);
        motion_slip(&body, &s, &ux, &uy);
        assert_near(s.vx, -v * sin(launch), 1e-12);
        assert_near(s.vy, v * cos(launch), 1e-12);
        assert_near(ux, s.vx - q[0], 1e-12);
        assert_near(uy, s.vy - q[1], 1e-12);
        assert_near(s.x_m, (c.delivery.laydown_board - 0.5) * 41.5 * 0.0254 / 39, 1e-12);
        assert_near(s.touchdown_m, c.delivery.loft_ft * 0.3048, 1e-12);
    }
}

/* In slip: parabola at -mu g along the fixed direction of slip; slip shrinks by (1 + 1/k) mu g. */
static void test_parabola_and_slip(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(42);
    static Oil dry;
    for (int i = 0; i < TRIES; i++) {
        double k = rng_between(&rng, 0.30, 0.45), mu = rng_between(&rng, 0.02, 0.2);
        MotionBody body = round_body(k, mu);
        Delivery release = any_release(&rng);
        MotionState s = motion_release(&body, &release);
        double ux, uy, x0 = s.x_m, vx = s.vx, vy = s.vy;
        motion_slip(&body, &s, &ux, &uy);
        double u = hypot(ux, uy), end = u / ((1.0 + 1.0 / k) * mu * G);
        double t = rng_between(&rng, 0.1, 0.95) * end;
        double y = vy * t - 0.5 * mu * G * t * t * uy / u;
        if (y > 18.0 || y < 0.3)
            continue;
        motion_advance(&body, &dry, &s, y, MOTION_STEP_M);
        if (s.gutter)
            continue;
        double wx, wy;
        motion_slip(&body, &s, &wx, &wy);
        assert_near(s.t_s, t, 2e-6);
        assert_near(s.x_m, x0 + vx * t - 0.5 * mu * G * t * t * ux / u, 2e-6);
        assert_near(s.vx, vx - mu * G * t * ux / u, 2e-5);
        assert_near(s.vy, vy - mu * G * t * uy / u, 2e-5);
        assert_near(atan2(wy, wx), atan2(uy, ux), 1e-6);
        assert_false(s.rolling);
    }
}

/* Any mu(x, y): slip keeps its direction, and where it ends is (v0 + k q0)/(1 + k). */
static void test_slip_keeps_its_direction_on_any_lane(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(43);
    int rolled = 0;
    for (int i = 0; i < TRIES; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        c.ball.differential_in = c.ball.intermediate_in = 0.0;
        c.ball.cover = COVER_SOLID;
        motion_body(&c.ball, &body);
        double k = body.k_sq[0] / (body.radius_m * body.radius_m), q[2], ux, uy;
        MotionState s = motion_release(&body, &c.delivery);
        double vx = (s.vx + k * (roll_at_release(&c.delivery, q), q[0])) / (1.0 + k);
        double vy = (s.vy + k * q[1]) / (1.0 + k);
        motion_slip(&body, &s, &ux, &uy);
        double direction = atan2(uy, ux);
        for (int j = 1; j < OIL_STATIONS && !s.gutter; j++) {
            motion_advance(&body, &c.oil, &s, j * 0.1524, MOTION_STEP_M);
            motion_slip(&body, &s, &ux, &uy);
            if (!s.rolling && hypot(ux, uy) > 0.01)
                assert_near(remainder(atan2(uy, ux) - direction, 2.0 * PI), 0.0, 1e-6);
        }
        if (s.rolling) {
            assert_near(atan2(s.vx, s.vy), atan2(vx, vy), 1e-9);
            assert_true(hypot(s.vx, s.vy) <= hypot(vx, vy) * (1.0 + 1e-9));
            rolled++;
        }
    }
    printf("closed form of rolling met on %d of %d random lanes that let it roll\n", rolled, TRIES);
    assert_true(rolled >= 60);
}

/* A ball that is said to roll has no slip, in the gutter too: one that fell off before its slip
 * ended, even in the same step, has not rolled. */
static void test_a_rolling_ball_has_no_slip(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(49);
    int fell_rolling = 0, fell_slipping = 0;
    for (int i = 0; i < 5000; i++) {
        Case c;
        MotionBody body;
        double ux, uy;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        MotionState s = motion_release(&body, &c.delivery);
        motion_advance(&body, &c.oil, &s, LANE_LENGTH_M, MOTION_STEP_M);
        motion_slip(&body, &s, &ux, &uy);
        if (s.rolling) {
            assert_near(hypot(ux, uy), 0.0, 1e-9);
            assert_true(s.roll_m <= s.y_m);
        } else {
            assert_true(isnan(s.roll_m));
        }
        fell_rolling += s.gutter && s.rolling;
        fell_slipping += s.gutter && !s.rolling;
    }
    assert_true(fell_rolling > 100 && fell_slipping > 100);
}

/* Rolling: straight on, slowed by 0.01 g (assumed in model.md), v^2 = v0^2 - 2 a s. */
static void test_rolling_is_straight(void **unused)
{
    (void)unused;
    static Oil dry;
    MotionBody body = round_body(0.34, 0.2);
    Delivery release = {20.0, 1.0, 17.0, 300.0, 15.0, 0.0, 0.0};
    MotionState s = motion_release(&body, &release);
    motion_advance(&body, &dry, &s, 10.0, MOTION_STEP_M);
    assert_true(s.rolling);
    MotionState a = s;
    motion_advance(&body, &dry, &s, 18.0, MOTION_STEP_M);
    assert_false(s.gutter);
    double way = hypot(s.x_m - a.x_m, s.y_m - a.y_m);
    assert_near(atan2(s.vx, s.vy), atan2(a.vx, a.vy), 1e-12);
    assert_near(atan2(s.x_m - a.x_m, s.y_m - a.y_m), atan2(a.vx, a.vy), 1e-9);
    assert_near(s.vx * s.vx + s.vy * s.vy,
                a.vx * a.vx + a.vy * a.vy - 2.0 * RIGID_ROLLING * G * way, 1e-7);
}

/* Symmetric core: the axis circles the pin at a constant angle, and rings lie
 * 2 pi R (1 - k1/k3) sin cos apart (k squared radii). Flare in all: that times the turns. */
static void test_flare_of_a_symmetric_core(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(44);
    for (int i = 0; i < TRIES; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        c.ball.intermediate_in = 0.0;
        c.delivery.loft_ft = 0.0;
        motion_body(&c.ball, &body);
        MotionState s = motion_release(&body, &c.delivery);
        motion_advance(&body, &c.oil, &s, 12.0, MOTION_STEP_M);
        double theta = c.ball.pin_to_pap_in / 4.2975;
        double ring = 2.0 * PI * body.radius_m * (1.0 - body.k_sq[0] / body.k_sq[2]) * sin(theta) *
                      cos(theta);
        assert_near(s.n[0], cos(theta), 1e-7);
        assert_near(s.flare_m, fabs(ring) * s.revs, 1e-7);
    }
}

/* Any core: the axis stays on its polhode, where |K n|^2 / (n K n) = L^2 / (2 E) is constant. */
static void test_axis_stays_on_its_polhode(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(45);
    for (int i = 0; i < TRIES; i++) {
        Case c;
        MotionBody body;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        MotionState s = motion_release(&body, &c.delivery);
        double first = 0.0;
        for (int j = 0; j < OIL_STATIONS && !s.gutter; j++) {
            motion_advance(&body, &c.oil, &s, j * 0.1524, MOTION_STEP_M);
            double kn2 = 0.0, nkn = 0.0;
            for (int k = 0; k < 3; k++) {
                kn2 += body.k_sq[k] * body.k_sq[k] * s.n[k] * s.n[k];
                nkn += body.k_sq[k] * s.n[k] * s.n[k];
            }
            first = j == 0 ? kn2 / nkn : first;
            assert_near(kn2 / nkn / first, 1.0, 1e-8);
        }
    }
}

/* The program's table of friction against the formula of model.md, written apart. */
static void test_friction_table_against_the_formula(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(46);
    double worst = 0.0;
    for (int i = 0; i < 20000; i++) {
        Ball ball = case_ball(&rng);
        FrictionCurve friction;
        friction_curve(&ball, &friction);
        RigidBall own = rigid_ball(&ball);
        double units =
            rng_uniform(&rng) < 0.5 ? rng_between(&rng, 0.0, 8.0) : rng_between(&rng, 0.0, 200.0);
        double ring = rng_uniform(&rng) < 0.1 ? 0.0 : rng_between(&rng, 0.0, 0.02);
        double mu = friction_mu(&friction, units, friction_fresh(ring));
        worst = fmax(worst, fabs(mu - rigid_mu(&own, units, ring)));
        assert_true(mu >= fmin(friction.mu_film, friction.mu_dry) && mu <= friction.mu_dry);
    }
    printf("friction: table against formula, worst %.1e\n", worst);
    assert_less(worst, 1e-4);
}

/* More oil never grips more, and a constant grip is constant. */
static void test_friction_falls_with_oil(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(47);
    for (int i = 0; i < 500; i++) {
        Ball ball = case_ball(&rng);
        FrictionCurve friction;
        friction_curve(&ball, &friction);
        double before = INFINITY, phi = rng_uniform(&rng);
        for (double units = 0.0; units < 100.0; units += 0.37) {
            double mu = friction_mu(&friction, units, phi);
            assert_true(mu <= before);
            before = mu;
        }
        friction_constant(0.07, &friction);
        assert_near(friction_mu(&friction, rng_between(&rng, 0.0, 200.0), phi), 0.07, 1e-15);
    }
}

/* Worn grits, finishes and the table's rows (assumed values of model.md). */
static void test_roughness(void **unused)
{
    (void)unused;
    const double rows[][2] = {{180, 1.27}, {500, 1.2},   {800, 0.9},   {1000, 0.8}, {1500, 0.55},
                              {2000, 0.5}, {3000, 0.35}, {4000, 0.25}, {360, 1.25}};
    for (int i = 0; i < 9; i++) {
        Surface fresh = {FINISH_GRIT, rows[i][0], 0.0}, worn = {FINISH_GRIT, rows[i][0], 12.0};
        assert_near(ball_roughness_um(&fresh), rows[i][1], 1e-12);
        if (rows[i][1] > 0.5) /* half-way to 2000 grit in 12 games */
            assert_near(ball_roughness_um(&worn), 0.5 * (rows[i][1] + 0.5), 1e-12);
    }
    assert_near(ball_roughness_um(&(Surface){FINISH_COMPOUND, 0, 0}), 0.2, 1e-12);
    assert_near(ball_roughness_um(&(Surface){FINISH_POLISH, 0, 0}), 0.1, 1e-12);
}

/* The film's reading against an own bilinear one. */
static void test_film_between_boards(void **unused)
{
    (void)unused;
    Rng rng = rng_seed(48);
    for (int i = 0; i < 40; i++) {
        Case c;
        case_random(&rng, &c);
        for (int k = 0; k < 500; k++) {
            double x = rng_between(&rng, -0.05, 1.1), y = rng_between(&rng, 0.0, 18.28);
            assert_near(oil_at(&c.oil, x, y), rigid_film(&c.oil, x, y), 1e-9);
        }
        for (int b = 0; b < LANE_BOARDS; b += 5)
            assert_near(oil_at(&c.oil, lane_x_of_board(b + 1), 7 * 0.1524), c.oil.units[7][b],
                        1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_release_is_what_the_bowler_threw),
        cmocka_unit_test(test_parabola_and_slip),
        cmocka_unit_test(test_slip_keeps_its_direction_on_any_lane),
        cmocka_unit_test(test_a_rolling_ball_has_no_slip),
        cmocka_unit_test(test_rolling_is_straight),
        cmocka_unit_test(test_flare_of_a_symmetric_core),
        cmocka_unit_test(test_axis_stays_on_its_polhode),
        cmocka_unit_test(test_friction_table_against_the_formula),
        cmocka_unit_test(test_friction_falls_with_oil),
        cmocka_unit_test(test_roughness),
        cmocka_unit_test(test_film_between_boards),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
