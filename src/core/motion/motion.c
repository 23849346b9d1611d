/* motion.c - the averaged motion of a ball, integrated along the lane with fourth-order Runge-Kutta
 * steps of distance, not time: see motion.h. */
#include "core/motion/motion.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/units.h"
#include "core/motion/axis.h"

#ifndef SETTEE_CONSTANTS_VARY /* tests/bench/bench_constants.c makes variables of this */
#define GRAVITY_MPS2 UNITS_GRAVITY_MPS2
#endif

const char *const PHASE_NAMES[4] = {"skid", "hook", "roll", 0};

/* The state as a vector for the integrator. */
enum { T, X, VX, VY, LX, LY, N0, N1, N2, REVS, FLARE, STATE_SIZE };

typedef enum Regime { REGIME_FLIGHT, REGIME_SLIDE, REGIME_ROLL } Regime;

typedef struct Stepper {
    const MotionBody *body;
    const Oil *oil;
    Regime regime;
    double lz;
    double ux, uy; /* direction of slip at the start of the step, a unit vector */
} Stepper;

void motion_body(const Ball *ball, MotionBody *body)
{
    double k1 = m_from_in(ball->rg_in), k3 = k1 + m_from_in(ball->differential_in);
    double k2 = k3 - m_from_in(ball->intermediate_in);
    double theta = ball->pin_to_pap_in / BALL_RADIUS_IN, beta = rad_from_deg(ball->mass_bias_deg);
    body->pounds = ball->pounds;
    body->radius_m = m_from_in(BALL_RADIUS_IN);
    body->k_sq[0] = k1 * k1;
    body->k_sq[1] = k2 * k2;
    body->k_sq[2] = k3 * k3;
    body->axis[0] = cos(theta);
    body->axis[1] = sin(theta) * sin(beta);
    body->axis[2] = sin(theta) * cos(beta);
    friction_curve(ball, &body->friction);
}

static double length3(const double v[3]) { return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]); }

/* Slip velocity of the surface at the contact: u = v + omega x (0, 0, R). */
static void slip_of(const MotionBody *body, double vx, double vy, double wx, double wy, double *ux,
                    double *uy)
{
    *ux = vx + body->radius_m * wy;
    *uy = vy - body->radius_m * wx;
}

static void slope(const Stepper *st, double y, const double s[STATE_SIZE], double d[STATE_SIZE])
{
    const MotionBody *body = st->body;
    const double *n = s + N0;
    double radius = body->radius_m, k_sq = axis_k_sq(body->k_sq, n);
    double walk[3];
    axis_walk(body->k_sq, n, walk);
    double walk_length = length3(walk);
    double wx = s[LX] / k_sq, wy = s[LY] / k_sq, wz = st->lz / k_sq, ax = 0.0, ay = 0.0;

    if (st->regime == REGIME_ROLL) {
        double drag =
            -MOTION_ROLLING_RESISTANCE * GRAVITY_MPS2 / sqrt(s[VX] * s[VX] + s[VY] * s[VY]);
        ax = drag * s[VX];
        ay = drag * s[VY];
        wx = s[VY] / radius;
        wy = -s[VX] / radius;
    } else if (st->regime == REGIME_SLIDE) {
        double ux, uy;
        slip_of(body, s[VX], s[VY], wx, wy, &ux, &uy);
        double slip = sqrt(ux * ux + uy * uy);
        if (ux * st->ux + uy * st->uy > 0.0) {
            ux /= slip;
            uy /= slip;
        } else { /* past the end of slip, inside a trial step: go on as before, so that slip
                  * crosses zero smoothly and can be located */
            ux = st->ux;
            uy = st->uy;
        }
        double phi = friction_fresh(2.0 * UNITS_PI * radius * walk_length);
        double mu = friction_mu(&body->friction, oil_at(st->oil, s[X], y), phi);
        ax = -mu * GRAVITY_MPS2 * ux;
        ay = -mu * GRAVITY_MPS2 * uy;
    }
    double spin = sqrt(wx * wx + wy * wy + wz * wz);
    double per_m =
        1.0 / (s[VY] > MOTION_STILL_MPS ? s[VY] : MOTION_STILL_MPS); /* trial steps too */
    d[T] = per_m;
    d[X] = s[VX] * per_m;
    d[VX] = ax * per_m;
    d[VY] = ay * per_m;
    d[LX] = -radius * ay * per_m;
    d[LY] = radius * ax * per_m;
    for (int i = 0; i < 3; i++)
        d[N0 + i] = spin * walk[i] * per_m;
    d[REVS] = spin * per_m / (2.0 * UNITS_PI);
    d[FLARE] = st->regime == REGIME_FLIGHT ? 0.0 : radius * spin * walk_length * per_m;
}

/* One step of length h from s at y into out. */
static void step(const Stepper *st, double y, double h, const double s[STATE_SIZE],
                 double out[STATE_SIZE])
{
    double k1[STATE_SIZE], k2[STATE_SIZE], k3[STATE_SIZE], k4[STATE_SIZE], at[STATE_SIZE];
    slope(st, y, s, k1);
    for (int i = 0; i < STATE_SIZE; i++)
        at[i] = s[i] + 0.5 * h * k1[i];
    slope(st, y + 0.5 * h, at, k2);
    for (int i = 0; i < STATE_SIZE; i++)
        at[i] = s[i] + 0.5 * h * k2[i];
    slope(st, y + 0.5 * h, at, k3);
    for (int i = 0; i < STATE_SIZE; i++)
        at[i] = s[i] + h * k3[i];
    slope(st, y + h, at, k4);
    for (int i = 0; i < STATE_SIZE; i++)
        out[i] = s[i] + h / 6.0 * (k1[i] + 2.0 * k2[i] + 2.0 * k3[i] + k4[i]);
    double length = length3(out + N0); /* keep the axis a unit vector */
    for (int i = 0; i < 3; i++)
        out[N0 + i] /= length;
}

/* Slip in the direction it had at the step's start: crosses zero where slip ends. */
static double slip_left(const Stepper *st, const double s[STATE_SIZE])
{
    double k_sq = axis_k_sq(st->body->k_sq, s + N0), ux, uy;
    slip_of(st->body, s[VX], s[VY], s[LX] / k_sq, s[LY] / k_sq, &ux, &uy);
    return ux * st->ux + uy * st->uy;
}

/* Distance to the nearer edge of the lane: crosses zero where the ball drops into the gutter. */
static double edge_left(const Stepper *st, const double s[STATE_SIZE])
{
    (void)st;
    return s[X] < LANE_WIDTH_M - s[X] ? s[X] : LANE_WIDTH_M - s[X];
}

/* Finds the step length in (0, h) at which `left` crosses zero (Illinois regula falsi) and puts the
 * state there into out. `left` is positive at 0 and not at h. */
static double locate(const Stepper *st, double y, double h, const double s[STATE_SIZE],
                     double (*left)(const Stepper *, const double *), double out[STATE_SIZE])
{
    double low = 0.0, high = h, f_low = left(st, s), f_high = left(st, out), at = h;
    for (int i = 0; i < 40 && high - low > 1e-12 * h; i++) {
        at = high - f_high * (high - low) / (f_high - f_low);
        if (!(at > low && at < high))
            at = 0.5 * (low + high);
        step(st, y, at, s, out);
        double f = left(st, out);
        if (fabs(f) < 1e-12)
            break;
        if (f > 0.0) {
            low = at;
            f_low = f;
            f_high *= 0.5;
        } else {
            high = at;
            f_high = f;
            f_low *= 0.5;
        }
    }
    return at;
}

void motion_slip(const MotionBody *body, const MotionState *state, double *ux, double *uy)
{
    double k_sq = axis_k_sq(body->k_sq, state->n);
    slip_of(body, state->vx, state->vy, state->lx / k_sq, state->ly / k_sq, ux, uy);
}

MotionState motion_release(const MotionBody *body, const Delivery *delivery)
{
    double launch = rad_from_deg(delivery->launch_deg), v = mps_from_mph(delivery->mph);
    double rotation = rad_from_deg(delivery->rotation_deg), tilt = rad_from_deg(delivery->tilt_deg);
    double w = radps_from_rpm(delivery->rpm), k_sq = axis_k_sq(body->k_sq, body->axis);
    MotionState state = {.x_m = lane_x_of_board(delivery->laydown_board),
                         .vx = -v * sin(launch),
                         .vy = v * cos(launch),
                         .lx = k_sq * w * cos(tilt) * cos(rotation - launch),
                         .ly = -k_sq * w * cos(tilt) * sin(rotation - launch),
                         .lz = -k_sq * w * sin(tilt), /* z is down: the top turns to x */
                         .n = {body->axis[0], body->axis[1], body->axis[2]},
                         .touchdown_m = m_from_ft(delivery->loft_ft),
                         .roll_m = NAN};
    state.gutter = !(state.x_m >= 0.0 && state.x_m <= LANE_WIDTH_M);
    return state;
}

double motion_turn_deg(double k_sq, double radius_m, const Delivery *delivery)
{
    double launch = rad_from_deg(delivery->launch_deg), v = mps_from_mph(delivery->mph);
    double rotation = rad_from_deg(delivery->rotation_deg) - launch;
    double spin = radps_from_rpm(delivery->rpm) * cos(rad_from_deg(delivery->tilt_deg));
    double share = k_sq / radius_m; /* of the surface's speed that becomes the ball's, over R */
    double vx = -v * sin(launch) * radius_m + share * spin * radius_m * sin(rotation);
    double vy = v * cos(launch) * radius_m + share * spin * radius_m * cos(rotation);
    return deg_from_rad(atan2(vx, vy) + launch);
}

bool motion_breaks(double breakpoint_ft) { return breakpoint_ft >= LANE_ARROWS_FT; }

static void pack(const MotionState *state, double s[STATE_SIZE])
{
    double v[STATE_SIZE] = {state->t_s,  state->x_m,  state->vx,     state->vy,
                            state->lx,   state->ly,   state->n[0],   state->n[1],
                            state->n[2], state->revs, state->flare_m};
    memcpy(s, v, sizeof v);
}

static void unpack(const double s[STATE_SIZE], double y, MotionState *state)
{
    state->t_s = s[T];
    state->x_m = s[X];
    state->y_m = y;
    state->vx = s[VX];
    state->vy = s[VY];
    state->lx = s[LX];
    state->ly = s[LY];
    memcpy(state->n, s + N0, sizeof state->n);
    state->revs = s[REVS];
    state->flare_m = s[FLARE];
}

/* Removes the last trace of slip by an impulse at the contact, so that spin matches speed. */
static void start_rolling(const MotionBody *body, double s[STATE_SIZE])
{
    double k_sq = axis_k_sq(body->k_sq, s + N0), r = body->radius_m, ux, uy;
    slip_of(body, s[VX], s[VY], s[LX] / k_sq, s[LY] / k_sq, &ux, &uy);
    double share = k_sq / (k_sq + r * r);
    s[VX] -= share * ux;
    s[VY] -= share * uy;
}

static void fit_spin_to_speed(const MotionBody *body, double s[STATE_SIZE])
{
    double k_sq = axis_k_sq(body->k_sq, s + N0);
    s[LX] = k_sq * s[VY] / body->radius_m;
    s[LY] = -k_sq * s[VX] / body->radius_m;
}

/* Shortens a step in which the film changes a lot, since friction then changes too sharply.
 * Compared with steps 1/16 as long on 1,000 random tournament shapes, this ends within 0.005 board
 * and whole steps within 0.08 (tests/physics/test_convergence.c); it takes a third more time. */
static double step_share(const Stepper *st, double y, double h, const double s[STATE_SIZE])
{
    double change = fabs(oil_at(st->oil, s[X] + h * s[VX] / s[VY], y + h) -
                         oil_at(st->oil, s[X], y)); /* units */
    return change < 0.3 ? 1.0 : change < 1.0 ? 0.5 : change < 3.0 ? 0.25 : 0.125;
}

/* What the ball does from y on; a flight stops at touchdown. */
static Regime regime_at(const MotionState *state, double y, double *stop)
{
    if (y >= state->touchdown_m)
        return state->rolling ? REGIME_ROLL : REGIME_SLIDE;
    *stop = fmin(*stop, state->touchdown_m);
    return REGIME_FLIGHT;
}

/* The direction of slip at the start of a step; false when there is none. */
static bool slip_begins(Stepper *st, const double s[STATE_SIZE])
{
    double k_sq = axis_k_sq(st->body->k_sq, s + N0);
    slip_of(st->body, s[VX], s[VY], s[LX] / k_sq, s[LY] / k_sq, &st->ux, &st->uy);
    double slip = sqrt(st->ux * st->ux + st->uy * st->uy);
    if (!(slip > 1e-9))
        return false;
    st->ux /= slip;
    st->uy /= slip;
    return true;
}

static void begin_roll(MotionState *state, double y)
{
    state->rolling = true;
    state->roll_m = y;
}

/* Cuts a step of length h (from s at y to `next`) at the end of slip or the lane's edge if one lies
 * within; returns its length. */
static double cut_step(const Stepper *st, MotionState *state, double y, double h,
                       const double s[STATE_SIZE], double next[STATE_SIZE])
{
    if (st->regime == REGIME_SLIDE && slip_left(st, next) <= 0.0) {
        h = locate(st, y, h, s, slip_left, next);
        start_rolling(st->body, next);
        begin_roll(state, y + h);
    }
    if (edge_left(st, next) < 0.0) {
        h = locate(st, y, h, s, edge_left, next);
        state->gutter = true;
        if (st->regime != REGIME_ROLL) { /* fell before slip ended */
            state->rolling = false;
            state->roll_m = NAN;
        }
    }
    return h;
}

void motion_advance(const MotionBody *body, const Oil *oil, MotionState *state, double y_stop_m,
                    double step_m)
{
    Stepper st = {.body = body, .oil = oil, .lz = state->lz};
    double s[STATE_SIZE], next[STATE_SIZE], y = state->y_m;
    pack(state, s);
    while (!state->gutter && y < y_stop_m) {
        double stop = y_stop_m;
        st.regime = regime_at(state, y, &stop);
        if (st.regime == REGIME_SLIDE && !slip_begins(&st, s)) { /* released without slip */
            begin_roll(state, y);
            continue;
        }
        double h = stop - y, most = step_m;
        if (st.regime == REGIME_SLIDE)
            most *= step_share(&st, y, h < step_m ? h : step_m, s);
        bool last = h <= most * (1.0 + 1e-9);
        double length = last ? h : most;
        step(&st, y, length, s, next);
        h = cut_step(&st, state, y, length, s, next);
        if (next[VY] < MOTION_STILL_MPS)
            state->gutter = true;
        if (state->rolling)
            fit_spin_to_speed(body, next);
        memcpy(s, next, sizeof s);
        y = last && h == length ? stop : y + h; /* arrive on stations exactly */
    }
    unpack(s, y, state);
}

/* What is recorded on the way, station by station. */
typedef struct Watch {
    double launch_rad; /* heading at release */
    double heading_before;
    double hook_rad; /* heading at which it makes its move; beyond reach if it never does */
    double first_move_ft, hook_ft;
    double breakpoint_x, breakpoint_y;
    bool turned; /* breakpoint passed */
} Watch;

static double heading(const MotionState *state) { return atan2(state->vx, state->vy); }

/* Where between two stations the heading passes `at`; NAN if it doesn't. */
static double passes_ft(const Watch *w, const MotionState *before, double span_m, double now,
                        double at)
{
    if (now < at)
        return NAN;
    double share =
        now > w->heading_before ? (at - w->heading_before) / (now - w->heading_before) : 1.0;
    return ft_from_m(before->y_m + share * span_m);
}

static void watch(Watch *w, const MotionState *before, const MotionState *now)
{
    double h = heading(now), span = now->y_m - before->y_m;
    if (isnan(w->first_move_ft))
        w->first_move_ft = passes_ft(w, before, span, h, w->launch_rad + rad_from_deg(1.0));
    if (isnan(w->hook_ft))
        w->hook_ft = passes_ft(w, before, span, h, w->hook_rad);
    if (!w->turned) {
        if (h < 0.0) {
            w->breakpoint_x = now->x_m;
            w->breakpoint_y = now->y_m;
        } else {
            w->turned = true;
            if (w->heading_before < 0.0) { /* heading nearly linear in between, so a parabola */
                double share = w->heading_before / (w->heading_before - h);
                w->breakpoint_y = before->y_m + share * span;
                w->breakpoint_x = before->x_m + 0.5 * tan(w->heading_before) * share * span;
            }
        }
    }
    w->heading_before = h;
}

static PathPoint point_of(const MotionBody *body, const Oil *oil, const MotionState *state,
                          bool moved)
{
    double ux, uy, walk[3], k_sq = axis_k_sq(body->k_sq, state->n);
    motion_slip(body, state, &ux, &uy);
    axis_walk(body->k_sq, state->n, walk);
    double units = oil_at(oil, state->x_m, state->y_m);
    double phi = friction_fresh(2.0 * UNITS_PI * body->radius_m * length3(walk));
    bool sliding = !state->rolling && state->y_m >= state->touchdown_m;
    double spin =
        sqrt(state->lx * state->lx + state->ly * state->ly + state->lz * state->lz) / k_sq;
    return (PathPoint){.ft = ft_from_m(state->y_m),
                       .board = lane_board_of_x(state->x_m),
                       .degrees = deg_from_rad(heading(state)),
                       .mph = mph_from_mps(sqrt(state->vx * state->vx + state->vy * state->vy)),
                       .rpm = rpm_from_radps(spin),
                       .slip_mps = state->rolling ? 0.0 : sqrt(ux * ux + uy * uy),
                       .mu = sliding ? friction_mu(&body->friction, units, phi) : 0.0,
                       .units = units,
                       .phase = state->rolling ? PHASE_ROLL
                                : moved        ? PHASE_HOOK
                                               : PHASE_SKID};
}

/* Carries a delivery to the pins; roll may be NULL. */
static MotionState carry(const MotionBody *body, const Oil *oil, const Delivery *delivery, Watch *w,
                         Roll *roll)
{
    MotionState state = motion_release(body, delivery);
    double turn = motion_turn_deg(axis_k_sq(body->k_sq, body->axis), body->radius_m, delivery);
    *w = (Watch){.launch_rad = heading(&state),
                 .heading_before = heading(&state),
                 .hook_rad = turn < MOTION_TURN_LEAST_DEG
                                 ? UNITS_PI
                                 : heading(&state) + rad_from_deg(0.5 * turn),
                 .first_move_ft = NAN,
                 .hook_ft = NAN,
                 .breakpoint_x = state.x_m,
                 .breakpoint_y = state.y_m};
    for (int j = 0; j < OIL_STATIONS; j++) {
        MotionState before = state;
        if (j > 0) {
            motion_advance(body, oil, &state, j * MOTION_STEP_M, MOTION_STEP_M);
            watch(w, &before, &state);
        }
        if (roll)
            roll->path[roll->count++] = point_of(body, oil, &state, !isnan(w->first_move_ft));
        if (state.gutter)
            break;
    }
    return state;
}

void motion_roll(const MotionBody *body, const Oil *oil, const Delivery *delivery, Roll *roll)
{
    Watch w;
    roll->count = 0;
    MotionState end = carry(body, oil, delivery, &w, roll);
    const PathPoint *last = &roll->path[roll->count - 1];
    roll->first_move_ft = w.first_move_ft;
    roll->hook_ft = w.hook_ft;
    roll->breakpoint_board = lane_board_of_x(w.breakpoint_x);
    roll->breakpoint_ft = ft_from_m(w.breakpoint_y);
    roll->roll_ft = ft_from_m(end.roll_m);
    roll->entry_board = end.gutter ? NAN : last->board;
    roll->entry_deg = end.gutter ? NAN : last->degrees;
    roll->entry_mph = end.gutter ? NAN : last->mph;
    roll->flare_in = in_from_m(end.flare_m);
    roll->revs = end.revs;
    roll->seconds = end.t_s;
    roll->gutter = end.gutter;
}

Arrival motion_arrive(const MotionBody *body, const Oil *oil, const Delivery *delivery)
{
    Watch w;
    MotionState end = carry(body, oil, delivery, &w, NULL);
    if (end.gutter)
        return (Arrival){NAN, NAN, NAN, w.hook_ft, NAN, true};
    return (Arrival){.board = lane_board_of_x(end.x_m),
                     .degrees = deg_from_rad(heading(&end)),
                     .mph = mph_from_mps(sqrt(end.vx * end.vx + end.vy * end.vy)),
                     .hook_ft = w.hook_ft,
                     .breakpoint = lane_board_of_x(w.breakpoint_x)};
}
