/* test_motion_exact.c - motion against exact values from outside the project. "Read" says how far
 * the source was read: full, second hand, or derived (own arithmetic on textbook physics). */
#include "near.h"

#include <string.h>

#include "core/motion/motion.h"

static const double PI = 3.14159265358979323846;
static const double G = 9.80665;
static const double ROLLING = 0.01; /* rolling resistance, docs/model.md (assumed) */
static const double R = 4.2975 * 0.0254;

static Oil dry_lane;

static MotionBody body_of(double radius_m, double k_sq, double mu)
{
    MotionBody body = {.radius_m = radius_m, .axis = {1.0, 0.0, 0.0}};
    for (int i = 0; i < 3; i++)
        body.k_sq[i] = k_sq;
    friction_constant(mu, &body.friction);
    return body;
}

/* A ball at the foul line with this velocity and this spin (lab axes). */
static MotionState thrown(const MotionBody *body, double vx, double vy, double wx, double wy)
{
    return (MotionState){.x_m = 0.5 * LANE_WIDTH_M,
                         .vx = vx,
                         .vy = vy,
                         .lx = body->k_sq[0] * wx,
                         .ly = body->k_sq[0] * wy,
                         .n = {1.0, 0.0, 0.0},
                         .roll_m = NAN};
}

/* The state at a time: the program steps over distance, so y is solved for (bisection). */
static MotionState at_time(const MotionBody *body, MotionState state, double t_s)
{
    double low = 0.0, high = 60.0 * 0.3048;
    MotionState found = state;
    for (int i = 0; i < 60; i++) {
        double y = 0.5 * (low + high);
        found = state;
        motion_advance(body, &dry_lane, &found, y, MOTION_STEP_M);
        if (found.t_s < t_s)
            low = y;
        else
            high = y;
    }
    return found;
}

/* --- Drake robotics library, multibody benchmark "bowling_ball" (read: full). R 0.10795 m,
 * m 6.35 kg, I 0.0296 kg m2, g 9.8 m/s2, mu 0.12; v = 8 m/s down-lane, spin 8 pi rad/s about the
 * down-lane axis. Our g is 9.80665, so mu is scaled to the same mu g. --- */

static MotionBody drake_body(void) { return body_of(0.10795, 0.0296 / 6.35, 0.12 * 9.8 / G); }

/* The ball goes 1.065 m sideways, which is more than a lane is wide: the whole is turned by
 * DRAKE_TURN toward the bowler's gutter (friction knows no direction) and turned back to compare.
 * Spin of the sense that brings the ball to the bowler's other side (+x). */
#define DRAKE_TURN (2.5 * PI / 180.0)

static MotionState drake_release(const MotionBody *body)
{
    double c = cos(DRAKE_TURN), s = sin(DRAKE_TURN), w = -8.0 * PI;
    return thrown(body, -8.0 * s, 8.0 * c, -w * s, w * c);
}

static void drake_back(const MotionState *start, const MotionState *now, double at[2],
                       double velocity[2])
{
    double c = cos(DRAKE_TURN), s = sin(DRAKE_TURN), x = now->x_m - start->x_m;
    at[0] = c * x + s * now->y_m;
    at[1] = c * now->y_m - s * x;
    velocity[0] = c * now->vx + s * now->vy;
    velocity[1] = c * now->vy - s * now->vx;
}

static void test_drake_one_second(void **unused)
{
    (void)unused;
    MotionBody body = drake_body();
    MotionState start = drake_release(&body), s = at_time(&body, start, 1.0);
    double at[2], v[2];
    drake_back(&start, &s, at, v);
    assert_near(s.t_s, 1.0, 1e-9);
    assert_near(at[0], 0.188846948, 1e-4);
    assert_near(at[1], 7.44315099, 1e-4);
    assert_near(v[0], 0.377693896, 1e-4);
    assert_near(v[1], 6.88630198, 1e-4);
    assert_false(s.rolling);
}

static void test_drake_end_of_slip(void **unused)
{
    (void)unused;
    MotionBody body = drake_body();
    MotionState start = drake_release(&body);
    MotionState before = at_time(&body, start, 2.0523), after = at_time(&body, start, 2.0525);
    assert_false(before.rolling); /* rolls at 2.0524 s */
    assert_true(after.rolling);
    MotionState at = start;
    motion_advance(&body, &dry_lane, &at, after.roll_m, MOTION_STEP_M);
    assert_near(at.t_s, 2.0524, 1e-4);
}

/* At 2.4 s it rolls, and Drake's ball has no rolling resistance: ours is taken out along its
 * straight path (derived: a = 0.01 g since the end of slip). */
static void test_drake_rolling(void **unused)
{
    (void)unused;
    MotionBody body = drake_body();
    MotionState start = drake_release(&body), roll = start, s = at_time(&body, start, 2.4);
    motion_advance(&body, &dry_lane, &roll, s.roll_m, MOTION_STEP_M);
    double since = 2.4 - roll.t_s, lost = ROLLING * G * since, way = 0.5 * lost * since;
    double at[2], v[2];
    drake_back(&start, &s, at, v);
    double speed = hypot(v[0], v[1]), ex = v[0] / speed, ey = v[1] / speed;
    assert_near(at[0] + way * ex, 1.06494181, 1e-4);
    assert_near(at[1] + way * ey, 16.0598286, 1e-4);
    assert_near(v[0] + lost * ex, 0.775181741, 1e-4);
    assert_near(v[1] + lost * ey, 5.71423797, 1e-4);
}

/* The closed form itself, to 1e-6: it is what the other tests lean on. */
static void test_drake_closed_form(void **unused)
{
    (void)unused;
    double k = 0.0296 / 6.35 / (0.10795 * 0.10795), a = 0.12 * 9.8;
    double ux = -0.10795 * 8.0 * PI, uy = 8.0, u = hypot(ux, uy);
    double end = u / (a * (1.0 + 1.0 / k));
    assert_near(end, 2.0524, 5e-5);
    assert_near(-0.5 * a * ux / u, 0.188846948, 1e-6);
    assert_near(8.0 - 0.5 * a * uy / u, 7.44315099, 1e-6);
    assert_near(-a * ux / u, 0.377693896, 1e-6);
    assert_near(8.0 - a * uy / u, 6.88630198, 1e-6);
    double vx = -a * end * ux / u, vy = 8.0 - a * end * uy / u;
    assert_near(vx, 0.775181741, 1e-6);
    assert_near(vy, 5.71423797, 1e-6);
    assert_near(0.5 * vx * end + vx * (2.4 - end), 1.06494181, 1e-6);
    assert_near(0.5 * (8.0 + vy) * end + vy * (2.4 - end), 16.0598286, 1e-6);
}

/* --- Uniform sphere without spin, 8 m/s (textbook, derived): rolls at 5/7 of it. --- */

static void rolls_at(double mu, double seconds, double metres)
{
    MotionBody body = body_of(R, 0.4 * R * R, mu);
    MotionState s = thrown(&body, 0.0, 8.0, 0.0, 0.0), at = s;
    motion_advance(&body, &dry_lane, &s, 18.0, MOTION_STEP_M);
    assert_true(s.rolling);
    assert_near(s.roll_m, metres, 1e-4);
    motion_advance(&body, &dry_lane, &at, s.roll_m, MOTION_STEP_M);
    assert_near(at.t_s, seconds, 1e-4);
    assert_near(at.vy, 5.7142857, 1e-4);
    assert_near(at.vx, 0.0, 1e-12);
}

static void test_uniform_sphere_mu_012(void **unused)
{
    (void)unused;
    rolls_at(0.12, 1.9423166, 13.3187);
}

static void test_uniform_sphere_mu_020(void **unused)
{
    (void)unused;
    rolls_at(0.20, 1.1653900, 7.9912);
}

/* --- Rolling velocity (v0 + k q0)/(1 + k), k = (RG/R)^2: friction has no say in it (derived).
 * 17.9 mph, 416 rpm, rotation 45, tilt 0, RG 2.50, R 4.2975 in: heading changes by 7.097 degrees,
 * 15.394 mph. --- */

static const Delivery TOUR = {
    .laydown_board = 20.0, .mph = 17.9, .rpm = 416.0, .rotation_deg = 45.0};

static void rolls_the_same(double mu, double laydown)
{
    double k_sq = 2.50 * 0.0254 * 2.50 * 0.0254;
    MotionBody body = body_of(R, k_sq, mu);
    Delivery release = TOUR;
    release.laydown_board = laydown;
    release.launch_deg = 5.0; /* so that it stays on the lane; friction knows no direction */
    MotionState s = motion_release(&body, &release), at = s;
    motion_advance(&body, &dry_lane, &s, LANE_LENGTH_M, MOTION_STEP_M);
    assert_true(s.rolling && !s.gutter);
    motion_advance(&body, &dry_lane, &at, s.roll_m, MOTION_STEP_M);
    assert_near(atan2(s.vx, s.vy) * 180.0 / PI + 5.0, 7.097, 1e-3);
    assert_near(hypot(at.vx, at.vy) / 0.44704, 15.394, 1e-3);
    double k = 2.5 * 2.5 / (4.2975 * 4.2975), v = 17.9 * 0.44704;
    double q = R * 416.0 * PI / 30.0 * sqrt(0.5);
    double turn = 5.0 * PI / 180.0, c = cos(turn), n = sin(turn);
    assert_near(c * at.vx + n * at.vy, k * q / (1.0 + k), 1e-6);
    assert_near(c * at.vy - n * at.vx, (v + k * q) / (1.0 + k), 1e-6);
}

static void test_friction_as_it_is(void **unused)
{
    (void)unused;
    rolls_the_same(0.14, 20.0);
}

static void test_friction_halved(void **unused)
{
    (void)unused;
    rolls_the_same(0.07, 30.0);
}

static void test_friction_doubled(void **unused)
{
    (void)unused;
    rolls_the_same(0.28, 20.0);
}

/* --- mu 0.04 for 40 ft, then 0.20; that release, launched 1.8 degrees toward the bowler's gutter
 * (friction: Frohlich, Am. J. Phys. 72, 1170, read second hand; the numbers derived, two codes
 * agree). They have no rolling resistance: its share is taken out of speed and time. --- */

static void two_zones(double k_sq, double x_m, double degrees, double speed_mps, double seconds,
                      double roll_ft)
{
    Delivery release = TOUR;
    release.launch_deg = 1.8;
    MotionBody oiled = body_of(R, k_sq, 0.04), dry = body_of(R, k_sq, 0.20);
    MotionState start = motion_release(&oiled, &release), s = start;
    motion_advance(&oiled, &dry_lane, &s, 40.0 * 0.3048, MOTION_STEP_M);
    assert_false(s.rolling);
    MotionState at = s;
    motion_advance(&dry, &dry_lane, &s, LANE_LENGTH_M, MOTION_STEP_M);
    assert_near(s.roll_m / 0.3048, roll_ft, 1e-3);
    assert_near(s.x_m - start.x_m, x_m, 5e-4);
    assert_near(atan2(s.vx, s.vy) * 180.0 / PI, degrees, 0.01);
    motion_advance(&dry, &dry_lane, &at, s.roll_m, MOTION_STEP_M);
    double rolling = hypot(at.vx, at.vy), way = hypot(s.x_m - at.x_m, s.y_m - at.y_m);
    assert_near(rolling, speed_mps, 5e-4);
    assert_near(at.t_s + way / rolling, seconds, 5e-4);
    /* and the resistance is what model.md says */
    assert_near(hypot(s.vx, s.vy), sqrt(rolling * rolling - 2.0 * ROLLING * G * way), 1e-6);
}

static void test_two_zones_rg_250(void **unused)
{
    (void)unused;
    two_zones(2.50 * 0.0254 * 2.50 * 0.0254, 0.345745, 5.2967, 6.8816, 2.44158, 49.995);
}

static void test_two_zones_uniform_sphere(void **unused)
{
    (void)unused;
    two_zones(0.4 * R * R, 0.398126, 6.3883, 6.7452, 2.45040, 52.130);
}

/* The same two zones as a film of oil on the grid, not as two grips: a film that ends within a
 * half-foot (docs/model.md's grid) moves the end by little. */
static void test_two_zones_as_oil(void **unused)
{
    (void)unused;
    Delivery release = TOUR;
    release.launch_deg = 1.8;
    Oil oil;
    memset(&oil, 0, sizeof oil);
    for (int j = 0; j <= 80; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            oil.units[j][b] = 100.0;
    MotionBody body = body_of(R, 2.50 * 0.0254 * 2.50 * 0.0254, 0.04);
    Ball ball = ball_default();
    friction_curve(&ball, &body.friction);
    body.friction.mu_film = 0.04;
    body.friction.mu_dry = 0.20;
    body.friction.dry_base = 1.0;
    body.friction.dry_fresh = 0.0;
    Arrival end = motion_arrive(&body, &oil, &release);
    assert_near((end.board - 20.0) * LANE_BOARD_M, 0.345745, 0.03);
    assert_near(end.degrees, 5.2967, 0.1);
}

/* --- Slip keeps its direction on any lane, symmetric core (textbook, derived). --- */

static void test_direction_of_slip_through_zones(void **unused)
{
    (void)unused;
    MotionBody body = body_of(R, 2.52 * 0.0254 * 2.52 * 0.0254, 0.1);
    MotionState s = motion_release(&body, &TOUR);
    double ux, uy;
    motion_slip(&body, &s, &ux, &uy);
    double direction = atan2(uy, ux);
    for (int zone = 0; zone < 12; zone++) {
        friction_constant(0.01 + 0.03 * (zone % 4), &body.friction);
        motion_advance(&body, &dry_lane, &s, (zone + 1) * 1.0, MOTION_STEP_M);
        motion_slip(&body, &s, &ux, &uy);
        if (!s.rolling)
            assert_near(atan2(uy, ux), direction, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_drake_one_second),
        cmocka_unit_test(test_drake_end_of_slip),
        cmocka_unit_test(test_drake_rolling),
        cmocka_unit_test(test_drake_closed_form),
        cmocka_unit_test(test_uniform_sphere_mu_012),
        cmocka_unit_test(test_uniform_sphere_mu_020),
        cmocka_unit_test(test_friction_as_it_is),
        cmocka_unit_test(test_friction_halved),
        cmocka_unit_test(test_friction_doubled),
        cmocka_unit_test(test_two_zones_rg_250),
        cmocka_unit_test(test_two_zones_uniform_sphere),
        cmocka_unit_test(test_two_zones_as_oil),
        cmocka_unit_test(test_direction_of_slip_through_zones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
