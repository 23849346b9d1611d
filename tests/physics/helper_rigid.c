/* helper_rigid.c - full rigid body and averaged equations, RK4 and GSL. See helper_rigid.h. */
#include "helper_rigid.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <math.h>
#include <string.h>

static const double PI = 3.14159265358979323846;
static const double INCH = 0.0254, FOOT = 0.3048, BOARD = 41.5 * 0.0254 / 39.0;

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static void cross(const double a[3], const double b[3], double c[3])
{
    c[0] = a[1] * b[2] - a[2] * b[1];
    c[1] = a[2] * b[0] - a[0] * b[2];
    c[2] = a[0] * b[1] - a[1] * b[0];
}

/* ---- ball and friction, from the tables of docs/model.md ---- */

static double roughness(const Surface *surface)
{
    static const double grit[] = {180, 360, 500, 800, 1000, 1500, 2000, 3000, 4000};
    static const double ra[] = {1.27, 1.25, 1.2, 0.9, 0.8, 0.55, 0.5, 0.35, 0.25};
    if (surface->finish == FINISH_COMPOUND)
        return 0.2;
    if (surface->finish == FINISH_POLISH)
        return 0.1;
    for (int i = 0; i < 9; i++)
        if (grit[i] == surface->grit)
            return ra[i];
    return NAN; /* the references are used on the grits of the table only */
}

RigidBall rigid_ball(const Ball *ball)
{
    static const double film[] = {0.040, 0.035, 0.030, 0.038, 0.015};
    static const double dry[] = {0.200, 0.200, 0.200, 0.150, 0.100};
    static const double chi[] = {1.0, 0.9, 0.8, 0.9, 0.5};
    static const double base[] = {0.85, 0.85, 0.85, 0.70, 0.60};
    double low = ball->rg_in * INCH, high = (ball->rg_in + ball->differential_in) * INCH;
    double middle = high - ball->intermediate_in * INCH;
    double theta = ball->pin_to_pap_in / 4.2975, beta = ball->mass_bias_deg * PI / 180.0;
    double ra = roughness(&ball->surface);
    return (RigidBall){.radius = 4.2975 * INCH,
                       .k2 = {low * low, middle * middle, high * high},
                       .n = {cos(theta), sin(theta) * sin(beta), sin(theta) * cos(beta)},
                       .mu_film = film[ball->cover] * ball->cover_strength,
                       .mu_dry = dry[ball->cover] * ball->cover_strength,
                       .dry_base = base[ball->cover],
                       .sigma_um = sqrt(ra * ra + 0.25 * 0.25) * chi[ball->cover],
                       .mu_fixed = -1.0,
                       .rolling = RIGID_ROLLING,
                       .creep = 0.01};
}

double rigid_mu(const RigidBall *ball, double film_units, double ring_m)
{
    if (ball->mu_fixed >= 0.0)
        return ball->mu_fixed;
    double fresh = 1.0 - exp(-ring_m / (0.35 * INCH));
    double lambda = 0.18 * film_units / ball->sigma_um * (1.25 - 0.5 * fresh);
    double dry = ball->mu_dry * (ball->dry_base + (1.0 - ball->dry_base) * fresh);
    return ball->mu_film + (dry - ball->mu_film) * exp(-pow(lambda / 0.8, 1.3));
}

double rigid_film(const Oil *oil, double x, double y)
{
    double column = x / BOARD - 0.5, row = y / (0.5 * FOOT);
    if (!oil || row > OIL_STATIONS - 1 + 1e-9)
        return 0.0;
    column = fmin(fmax(column, 0.0), LANE_BOARDS - 1.0);
    row = fmin(fmax(row, 0.0), OIL_STATIONS - 1.0);
    int i = column < LANE_BOARDS - 2 ? (int)column : LANE_BOARDS - 2;
    int j = row < OIL_STATIONS - 2 ? (int)row : OIL_STATIONS - 2;
    double a = column - i, b = row - j;
    const double *near = oil->units[j], *far = oil->units[j + 1];
    return (1 - b) * ((1 - a) * near[i] + a * near[i + 1]) +
           b * ((1 - a) * far[i] + a * far[i + 1]);
}

/* ---- the state ---- */

enum { X, Y, VX, VY, SPIN, TURN = 7 };

int rigid_dimension(RigidKind kind) { return kind == RIGID_FULL ? 13 : 12; }

static void rotation(const double q[4], double m[3][3])
{
    double w = q[0], x = q[1], y = q[2], z = q[3];
    double s = 2.0 / (w * w + x * x + y * y + z * z);
    m[0][0] = 1 - s * (y * y + z * z);
    m[0][1] = s * (x * y - w * z);
    m[0][2] = s * (x * z + w * y);
    m[1][0] = s * (x * y + w * z);
    m[1][1] = 1 - s * (x * x + z * z);
    m[1][2] = s * (y * z - w * x);
    m[2][0] = s * (x * z - w * y);
    m[2][1] = s * (y * z + w * x);
    m[2][2] = 1 - s * (x * x + y * y);
}

static void to_lab(const double q[4], const double body[3], double lab[3])
{
    double m[3][3];
    rotation(q, m);
    for (int i = 0; i < 3; i++)
        lab[i] = dot(m[i], body);
}

static double inertia_about(const double k2[3], const double n[3])
{
    return k2[0] * n[0] * n[0] + k2[1] * n[1] * n[1] + k2[2] * n[2] * n[2];
}

void rigid_spin(const RigidSystem *system, const double *state, double spin[3])
{
    if (system->kind == RIGID_FULL) {
        to_lab(state + TURN, state + SPIN, spin);
        return;
    }
    double k2 = inertia_about(system->ball->k2, state + TURN) / dot(state + TURN, state + TURN);
    for (int i = 0; i < 3; i++)
        spin[i] = state[SPIN + i] / k2;
}

void rigid_momentum(const RigidSystem *system, const double *state, double momentum[3])
{
    if (system->kind == RIGID_FULL) {
        double body[3];
        for (int i = 0; i < 3; i++)
            body[i] = system->ball->k2[i] * state[SPIN + i];
        to_lab(state + TURN, body, momentum);
    } else {
        memcpy(momentum, state + SPIN, 3 * sizeof *momentum);
    }
}

double rigid_energy(const RigidSystem *system, const double *state)
{
    double kinetic = 0.5 * (state[VX] * state[VX] + state[VY] * state[VY]);
    if (system->kind == RIGID_FULL)
        return kinetic + 0.5 * inertia_about(system->ball->k2, state + SPIN);
    double spin[3];
    rigid_spin(system, state, spin);
    return kinetic + 0.5 * dot(spin, state + SPIN);
}

void rigid_slip(const RigidSystem *system, const double *state, double slip[2])
{
    double spin[3];
    rigid_spin(system, state, spin);
    /* spin x (0, 0, R), z down */
    slip[0] = state[VX] + system->ball->radius * spin[1];
    slip[1] = state[VY] - system->ball->radius * spin[0];
}

void rigid_axis(const RigidSystem *system, const double *state, double axis[3])
{
    const double *from = system->kind == RIGID_FULL ? state + SPIN : state + TURN;
    double size = sqrt(dot(from, from));
    for (int i = 0; i < 3; i++)
        axis[i] = size > 0.0 ? from[i] / size : system->ball->n[i];
}

/* Torque-free Euler: d(spin)/dt in the body, K^-1 ((K w) x w). */
static void euler(const double k2[3], const double w[3], double rate[3])
{
    rate[0] = (k2[1] - k2[2]) * w[1] * w[2] / k2[0];
    rate[1] = (k2[2] - k2[0]) * w[2] * w[0] / k2[1];
    rate[2] = (k2[0] - k2[1]) * w[0] * w[1] / k2[2];
}

/* The part of `rate` across w, over |w|: the rate of the direction of w. */
static double turning(const double w[3], const double rate[3], double across[3])
{
    double ww = dot(w, w), along = ww > 0.0 ? dot(w, rate) / ww : 0.0, size = 0.0;
    for (int i = 0; i < 3; i++) {
        across[i] = ww > 0.0 ? (rate[i] - along * w[i]) / sqrt(ww) : 0.0;
        size += across[i] * across[i];
    }
    return sqrt(size);
}

void rigid_rate(const RigidSystem *system, const double *state, double *rate)
{
    const RigidBall *ball = system->ball;
    double m[3][3], spin[3], free[3], across[3], walk, size;
    bool full = system->kind == RIGID_FULL;

    /* How the spin axis walks over the ball with no torque. Friction's torque turns with the ball
     * as seen from it: it makes the axis circle once a revolution and leaves the next ring where
     * it was, so it has no part in the distance between rings. */
    if (full) {
        const double *w = state + SPIN;
        rotation(state + TURN, m);
        for (int i = 0; i < 3; i++)
            spin[i] = dot(m[i], w);
        size = sqrt(dot(w, w));
        euler(ball->k2, w, free);
        walk = turning(w, free, across);
    } else {
        double unit[3];
        rigid_axis(system, state, unit);
        rigid_spin(system, state, spin);
        size = sqrt(dot(spin, spin));
        euler(ball->k2, unit, free);
        walk = size * turning(unit, free, across);
        for (int i = 0; i < 3; i++)
            across[i] *= size;
    }

    double ux = state[VX] + ball->radius * spin[1], uy = state[VY] - ball->radius * spin[0];
    double u2 = ux * ux + uy * uy, fx = 0.0, fy = 0.0, drag = 0.0;
    if (!system->airborne) {
        double ring = size > 0.0 ? 2.0 * PI * ball->radius * walk / size : 0.0;
        double film = ball->mu_fixed >= 0.0 ? 0.0 : rigid_film(system->oil, state[X], state[Y]);
        double mu =
            ball->friction ? ball->friction(ball->with, film, ring) : rigid_mu(ball, film, ring);
        double s = sqrt(u2 + ball->creep * ball->creep);
        fx = s > 0.0 ? -mu * RIGID_G * ux / s : 0.0;
        fy = s > 0.0 ? -mu * RIGID_G * uy / s : 0.0;
        /* Rolling resistance slows travel and roll together; none to speak of while it slides. A
         * rolling full body wobbles, and so keeps a slip of about the creep. */
        double speed = sqrt(state[VX] * state[VX] + state[VY] * state[VY]);
        double held = 1.0 / (1.0 + u2 / (25.0 * ball->creep * ball->creep));
        drag = speed > 0.0 ? held * held * ball->rolling * RIGID_G / speed : 0.0;
    }
    rate[X] = state[VX];
    rate[Y] = state[VY];
    rate[VX] = fx - drag * state[VX];
    rate[VY] = fy - drag * state[VY];
    double torque[3] = {-ball->radius * fy, ball->radius * fx, 0.0}; /* (0, 0, R) x F */

    if (full) {
        const double *w = state + SPIN, *q = state + TURN;
        for (int i = 0; i < 3; i++) {
            double body = m[0][i] * torque[0] + m[1][i] * torque[1];
            double level = m[0][i] * spin[0] + m[1][i] * spin[1];
            rate[SPIN + i] = free[i] + body / ball->k2[i] - drag * level;
        }
        rate[TURN] = -0.5 * (q[1] * w[0] + q[2] * w[1] + q[3] * w[2]);
        rate[TURN + 1] = 0.5 * (q[0] * w[0] + q[2] * w[2] - q[3] * w[1]);
        rate[TURN + 2] = 0.5 * (q[0] * w[1] + q[3] * w[0] - q[1] * w[2]);
        rate[TURN + 3] = 0.5 * (q[0] * w[2] + q[1] * w[1] - q[2] * w[0]);
        rate[11] = 1.0;
        rate[12] = system->airborne ? 0.0 : walk * ball->radius;
    } else {
        for (int i = 0; i < 3; i++) {
            rate[SPIN + i] = torque[i] - (i < 2 ? drag * state[SPIN + i] : 0.0);
            rate[TURN + i] = across[i];
        }
        rate[10] = 1.0;
        rate[11] = system->airborne ? 0.0 : walk * ball->radius;
    }
}

static void multiply(const double a[4], const double b[4], double c[4])
{
    c[0] = a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3];
    c[1] = a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2];
    c[2] = a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1];
    c[3] = a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0];
}

void rigid_release(const RigidSystem *system, const Delivery *delivery, double phase, double *state)
{
    const RigidBall *ball = system->ball;
    double degree = PI / 180.0, launch = delivery->launch_deg * degree;
    double speed = delivery->mph * 0.44704, rate = delivery->rpm * PI / 30.0;
    double tilt = delivery->tilt_deg * degree, hand = delivery->rotation_deg * degree - launch;
    /* surface roll q = R (-spin_y, spin_x), so q = R W cos(tau) (sin, cos)(rho - a) */
    double lab[3] = {cos(tilt) * cos(hand), -cos(tilt) * sin(hand), sin(tilt)};

    memset(state, 0, RIGID_STATE_MAX * sizeof *state);
    state[X] = (delivery->laydown_board - 0.5) * BOARD;
    state[VX] = -speed * sin(launch);
    state[VY] = speed * cos(launch);
    if (system->kind == RIGID_AVERAGED) {
        double k2 = inertia_about(ball->k2, ball->n);
        for (int i = 0; i < 3; i++) {
            state[SPIN + i] = k2 * rate * lab[i];
            state[TURN + i] = ball->n[i];
        }
        return;
    }
    for (int i = 0; i < 3; i++)
        state[SPIN + i] = rate * ball->n[i];
    /* least turn that brings the axis from the body's to the lab's, then the phase about it */
    double least[4] = {1.0 + dot(ball->n, lab), 0, 0, 0};
    cross(ball->n, lab, least + 1);
    if (least[0] < 1e-9) { /* opposite: half a turn about anything across */
        double any[3] = {fabs(lab[0]) < 0.6, fabs(lab[0]) >= 0.6, 0};
        least[0] = 0;
        cross(lab, any, least + 1);
    }
    double turn[4] = {cos(0.5 * phase), sin(0.5 * phase) * lab[0], sin(0.5 * phase) * lab[1],
                      sin(0.5 * phase) * lab[2]};
    multiply(turn, least, state + TURN);
    double *q = state + TURN, size = sqrt(dot(q, q) + q[3] * q[3]);
    for (int i = 0; i < 4; i++)
        q[i] /= size;
}

/* ---- integrators ---- */

void rigid_rk4(const RigidSystem *system, double *state, double dt)
{
    double a[RIGID_STATE_MAX], b[RIGID_STATE_MAX], c[RIGID_STATE_MAX], d[RIGID_STATE_MAX];
    double at[RIGID_STATE_MAX];
    int n = rigid_dimension(system->kind);
    rigid_rate(system, state, a);
    for (int i = 0; i < n; i++)
        at[i] = state[i] + 0.5 * dt * a[i];
    rigid_rate(system, at, b);
    for (int i = 0; i < n; i++)
        at[i] = state[i] + 0.5 * dt * b[i];
    rigid_rate(system, at, c);
    for (int i = 0; i < n; i++)
        at[i] = state[i] + dt * c[i];
    rigid_rate(system, at, d);
    for (int i = 0; i < n; i++)
        state[i] += dt / 6.0 * (a[i] + 2.0 * (b[i] + c[i]) + d[i]);
}

static RigidEnd end_of(const RigidSystem *system, const double *state, bool gutter)
{
    int n = rigid_dimension(system->kind);
    return (RigidEnd){.board = state[X] / BOARD + 0.5,
                      .degrees = atan2(state[VX], state[VY]) * 180.0 / PI,
                      .mph = hypot(state[VX], state[VY]) / 0.44704,
                      .seconds = state[n - 2],
                      .flare_m = state[n - 1],
                      .gutter = gutter};
}

static bool off_lane(const double *state) { return state[X] < 0.0 || state[X] > 39 * BOARD; }

RigidEnd rigid_roll(RigidKind kind, const RigidBall *ball, const Oil *oil, const Delivery *delivery,
                    double phase, double dt)
{
    double state[RIGID_STATE_MAX], stop[2] = {delivery->loft_ft * FOOT, 60.0 * FOOT};
    RigidSystem system = {kind, ball, oil, true};
    rigid_release(&system, delivery, phase, state);
    long steps = 0;
    for (int stage = 0; stage < 2; stage++) {
        system.airborne = stage == 0;
        while (state[Y] < stop[stage] - 1e-12) {
            double slip[2], step = dt;
            rigid_slip(&system, state, slip);
            /* friction takes slip away at up to 3.5 * 0.22 * g = 7.5 m/s2: small steps toward
             * rolling, well inside RK4's stability (0.75 of 2.78) */
            double u = hypot(slip[0], slip[1]);
            if (!system.airborne && u < 0.08)
                step = fmin(step, 0.1 * ball->creep);
            step = fmin(step, (stop[stage] - state[Y]) / state[VY]);
            rigid_rk4(&system, state, step);
            steps++;
            if (off_lane(state))
                return end_of(&system, state, true);
        }
    }
    RigidEnd end = end_of(&system, state, false);
    end.evaluations = 4 * steps;
    return end;
}

typedef struct Counted {
    const RigidSystem *system;
    long evaluations;
} Counted;

/* d(state)/dy */
static int rate_over_distance(double y, const double state[], double rate[], void *data)
{
    Counted *counted = data;
    int n = rigid_dimension(counted->system->kind);
    double at[RIGID_STATE_MAX];
    memcpy(at, state, (size_t)n * sizeof *at);
    at[Y] = y;
    rigid_rate(counted->system, at, rate);
    if (!(at[VY] > 0.0))
        return GSL_EBADFUNC;
    for (int i = 0; i < n; i++)
        rate[i] /= at[VY];
    counted->evaluations++;
    return GSL_SUCCESS;
}

RigidEnd rigid_gsl(RigidKind kind, const RigidBall *ball, const Oil *oil, const Delivery *delivery,
                   double phase, const RigidGsl *how)
{
    double state[RIGID_STATE_MAX], touchdown = delivery->loft_ft * FOOT;
    RigidSystem system = {kind, ball, oil, true};
    Counted counted = {&system, 0};
    gsl_odeiv2_system equations = {rate_over_distance, NULL, (size_t)rigid_dimension(kind),
                                   &counted};
    double cell = 0.5 * FOOT;
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&equations, how->stepper, 0.2 * cell,
                                      how->tolerance > 0 ? how->tolerance : 1e-6, how->tolerance);
    rigid_release(&system, delivery, phase, state);
    double y = 0.0;
    bool gutter = false;
    int status = GSL_SUCCESS;
    /* cell by cell: the film's slope changes at each station, and friction starts at touchdown */
    for (int k = 1; k < OIL_STATIONS && !gutter && status == GSL_SUCCESS;) {
        if (how->whole)
            k = OIL_STATIONS - 1;
        double stop = k * cell;
        system.airborne = y < touchdown - 1e-12;
        if (system.airborne && touchdown < stop)
            stop = touchdown;
        else
            k++;
        if (stop - y < 1e-12)
            continue;
        gsl_odeiv2_driver_reset(driver);
        if (how->steps_per_cell > 0)
            status =
                gsl_odeiv2_driver_apply_fixed_step(driver, &y, (stop - y) / how->steps_per_cell,
                                                   (unsigned long)how->steps_per_cell, state);
        else
            status = gsl_odeiv2_driver_apply(driver, &y, stop, state);
        y = stop;
        gutter = off_lane(state);
    }
    gsl_odeiv2_driver_free(driver);
    RigidEnd end = end_of(&system, state, gutter);
    if (status != GSL_SUCCESS)
        end.board = end.degrees = NAN;
    end.evaluations = counted.evaluations;
    return end;
}
