/* world_stranger.c - lane and balls follow laws the program doesn't know: the full rigid body with
 * whatever phase it has, another friction law, wear of another shape. All numbers assumed.
 *
 * Per unit of mass. Lab axes: x from the bowler's own edge across, y down the lane, z down into it.
 * The body's axes are the ball's principal ones, the pin's first. */
#include "core/rehearse/world.h"

#include <math.h>

#include "base/units.h"

/* Friction: falls with the film like half / (half + film^2 / half), and rises as slip dies. */
#define FILM_RISE 0.22  /* how much more friction there is when slip is nearly gone */
#define RISE_MPS 1.2    /* slip at which that starts to fade */
#define LANE_UM 0.3     /* the lane's own roughness, on top of the ball's */
#define HALF_SHARE 0.54 /* of both: the film at which half of dry contact is left */
static const struct {
    double film, dry, stands; /* friction; how much of its roughness reaches through a film */
    double takes;             /* oil taken up, against a solid */
} COVERS[COVER_COUNT] = {[COVER_SOLID] = {0.036, 0.180, 1.0, 1.0},
                         [COVER_HYBRID] = {0.032, 0.182, 0.92, 0.9},
                         [COVER_PEARL] = {0.026, 0.186, 0.84, 0.8},
                         [COVER_URETHANE] = {0.048, 0.150, 1.15, 1.1},
                         [COVER_POLYESTER] = {0.016, 0.105, 0.45, 0.4}};

#define ROLLING 0.012 /* deceleration of a rolling ball over g */
#define STEP_S 0.005  /* a sixth of a radian: within 0.04 board of a tenth of it, as measured */
#define ROLL_MPS 0.02 /* slip under which it rolls */
#define SLIP_S2_PER_M 0.05        /* near that, a step removes at most a third of the slip */
#define SLOWEST_MPS 0.5           /* nothing slower reaches the pins */
#define GOLDEN 0.6180339887498949 /* evenly filling phases */

/* Wear: a band with straight shoulders loses a fixed number of units per ball, however much oil is
 * there, and more where the ball slides hard; past the oil's end it drops a share of what it holds.
 */
#define TAKE_MIDDLE 0.07 /* units a ball in the band */
#define TAKE_SPREAD 0.5  /* of its logarithm, from block to block */
#define BAND_BOARDS 0.8  /* to either side; the shoulders are a board wide */
#define DROP_MIDDLE 0.1  /* of what it holds, dropped over DROP_FT */
#define DROP_SPREAD 0.7
#define DROP_FT 12.0

typedef struct RigidBall {
    double radius_m, k_sq[3], axis[3]; /* as motion.h has them: facts of a body, not laws */
    double mu_film, mu_dry, half_units;
} RigidBall;

typedef struct Own {
    RigidBall ball[BAG_SLOTS];
    double take_units, drop;
} Own;

/* A body in motion: place and velocity, spin in the body's axes (rad/s), and the quaternion that
 * turns body axes into the lab's. */
enum { X, Y, VX, VY, SPIN, TURN = SPIN + 3, NUMBERS = TURN + 4 };

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static void rotation(const double q[4], double m[3][3])
{
    double w = q[0], x = q[1], y = q[2], z = q[3];
    double s = 2.0 / (w * w + x * x + y * y + z * z);
    m[0][0] = 1.0 - s * (y * y + z * z);
    m[0][1] = s * (x * y - w * z);
    m[0][2] = s * (x * z + w * y);
    m[1][0] = s * (x * y + w * z);
    m[1][1] = 1.0 - s * (x * x + z * z);
    m[1][2] = s * (y * z - w * x);
    m[2][0] = s * (x * z - w * y);
    m[2][1] = s * (y * z + w * x);
    m[2][2] = 1.0 - s * (x * x + y * y);
}

/* Rotation b followed by a. */
static void compose(const double a[4], const double b[4], double out[4])
{
    out[0] = a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3];
    out[1] = a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2];
    out[2] = a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1];
    out[3] = a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0];
}

/* The ball leaves the hand with its axis where the hand puts it, rotated around it by `phase`. */
static void release(const RigidBall *ball, const Delivery *d, double phase, double state[NUMBERS])
{
    double launch = rad_from_deg(d->launch_deg), tilt = rad_from_deg(d->tilt_deg);
    double hand = rad_from_deg(d->rotation_deg) - launch, speed = mps_from_mph(d->mph);
    double lab[3] = {cos(tilt) * cos(hand), -cos(tilt) * sin(hand), sin(tilt)};
    const double *n = ball->axis;
    state[X] = lane_x_of_board(d->laydown_board);
    state[Y] = 0.0;
    state[VX] = -speed * sin(launch);
    state[VY] = speed * cos(launch);
    /* the smallest rotation that takes the body's axis to the lab's; then the phase around it */
    double least[4] = {1.0 + dot(n, lab), n[1] * lab[2] - n[2] * lab[1],
                       n[2] * lab[0] - n[0] * lab[2], n[0] * lab[1] - n[1] * lab[0]};
    double size = sqrt(dot(least + 1, least + 1) + least[0] * least[0]);
    double about[4] = {cos(0.5 * phase), sin(0.5 * phase) * lab[0], sin(0.5 * phase) * lab[1],
                       sin(0.5 * phase) * lab[2]};
    for (int i = 0; i < 4; i++)
        least[i] = size > 1e-9 ? least[i] / size : i == 3; /* opposite: half a turn about z */
    compose(about, least, state + TURN);
    for (int i = 0; i < 3; i++)
        state[SPIN + i] = radps_from_rpm(d->rpm) * n[i];
}

/* Velocity of the ball's surface against the lane; `m` is the state's rotation. */
static double slip_of(const RigidBall *ball, const double state[NUMBERS], double m[3][3],
                      double u[2])
{
    u[0] = state[VX] + ball->radius_m * dot(m[1], state + SPIN);
    u[1] = state[VY] - ball->radius_m * dot(m[0], state + SPIN);
    return sqrt(u[0] * u[0] + u[1] * u[1]);
}

static double friction_of(const RigidBall *ball, double film_units, double slip_mps)
{
    double film = film_units / ball->half_units;
    double mu = ball->mu_film + (ball->mu_dry - ball->mu_film) / (1.0 + film * film);
    return mu * (1.0 + FILM_RISE * exp(-slip_mps / RISE_MPS));
}

/* d/dt of the state; no friction where there is no oil to lie on (`oil` NULL: in the air). */
static void rate_of(const RigidBall *ball, const Oil *oil, const double state[NUMBERS],
                    double rate[NUMBERS])
{
    double m[3][3], u[2], push[2] = {0.0, 0.0};
    const double *w = state + SPIN, *q = state + TURN, *k = ball->k_sq;
    rotation(q, m);
    double slip = slip_of(ball, state, m, u);
    if (oil && slip > 0.0) {
        double mu = friction_of(ball, oil_at(oil, state[X], state[Y]), slip);
        push[0] = -mu * UNITS_GRAVITY_MPS2 * u[0] / slip;
        push[1] = -mu * UNITS_GRAVITY_MPS2 * u[1] / slip;
    }
    rate[X] = state[VX];
    rate[Y] = state[VY];
    rate[VX] = push[0];
    rate[VY] = push[1];
    double torque[2] = {-ball->radius_m * push[1], ball->radius_m * push[0]}; /* (0, 0, R) x F */
    for (int i = 0; i < 3; i++) { /* Euler's equations */
        int a = (i + 1) % 3, b = (i + 2) % 3;
        rate[SPIN + i] =
            ((k[a] - k[b]) * w[a] * w[b] + m[0][i] * torque[0] + m[1][i] * torque[1]) / k[i];
    }
    rate[TURN] = -0.5 * (q[1] * w[0] + q[2] * w[1] + q[3] * w[2]);
    rate[TURN + 1] = 0.5 * (q[0] * w[0] + q[2] * w[2] - q[3] * w[1]);
    rate[TURN + 2] = 0.5 * (q[0] * w[1] + q[3] * w[0] - q[1] * w[2]);
    rate[TURN + 3] = 0.5 * (q[0] * w[2] + q[1] * w[1] - q[2] * w[0]);
}

/* One Runge-Kutta step. */
static void step(const RigidBall *ball, const Oil *oil, double state[NUMBERS], double dt)
{
    static const double SHARE[3] = {0.5, 0.5, 1.0};
    double k[4][NUMBERS], at[NUMBERS];
    rate_of(ball, oil, state, k[0]);
    for (int stage = 0; stage < 3; stage++) {
        for (int i = 0; i < NUMBERS; i++)
            at[i] = state[i] + SHARE[stage] * dt * k[stage][i];
        rate_of(ball, oil, at, k[stage + 1]);
    }
    for (int i = 0; i < NUMBERS; i++)
        state[i] += dt / 6.0 * (k[0][i] + 2.0 * (k[1][i] + k[2][i]) + k[3][i]);
}

/* A ball on its way. */
typedef struct Way {
    const RigidBall *ball;
    const Oil *oil;
    double touchdown_m;
    bool rolling;
    double state[NUMBERS];
} Way;

/* Slip has ended: the ball rolls straight on and slows down a little. */
static void roll_on(Way *way, double dt)
{
    double *s = way->state, speed = sqrt(s[VX] * s[VX] + s[VY] * s[VY]);
    double slower = fmax(0.5, 1.0 - ROLLING * UNITS_GRAVITY_MPS2 * dt / speed);
    s[X] += s[VX] * dt;
    s[Y] += s[VY] * dt;
    s[VX] *= slower;
    s[VY] *= slower;
}

static double slip_now(const Way *way, double u[2])
{
    double m[3][3];
    rotation(way->state + TURN, m);
    return slip_of(way->ball, way->state, m, u);
}

/* Removes the last of the slip at once, into speed and spin as for a sphere. */
static void settle(Way *way, const double u[2])
{
    const double *k = way->ball->k_sq, middle = (k[0] + k[1] + k[2]) / 3.0;
    double share = middle / (middle + way->ball->radius_m * way->ball->radius_m);
    way->state[VX] -= share * u[0];
    way->state[VY] -= share * u[1];
    way->rolling = true;
}

/* On to y_m, in steps that end exactly there, at touchdown, and where slip ends. */
static void go_to(Way *way, double y_m)
{
    double *s = way->state;
    while (s[Y] < y_m - 1e-9 && s[VY] > SLOWEST_MPS) {
        bool air = s[Y] < way->touchdown_m - 1e-9;
        double stop = air ? fmin(way->touchdown_m, y_m) : y_m, longest = STEP_S;
        if (!air && !way->rolling) {
            double u[2], slip = slip_now(way, u);
            longest = fmin(STEP_S, SLIP_S2_PER_M * slip);
            if (slip < ROLL_MPS)
                settle(way, u);
        }
        double dt = fmin(longest, (stop - s[Y]) / s[VY]);
        if (way->rolling)
            roll_on(way, dt);
        else
            step(way->ball, air ? NULL : way->oil, s, dt);
    }
}

static PathPoint point_of(const Way *way, double ft)
{
    const double *s = way->state, *w = s + SPIN;
    double u[2], slip = way->rolling ? 0.0 : slip_now(way, u);
    double units = oil_at(way->oil, s[X], s[Y]);
    return (PathPoint){.ft = ft,
                       .board = lane_board_of_x(s[X]),
                       .degrees = deg_from_rad(atan2(s[VX], s[VY])),
                       .mph = mph_from_mps(sqrt(s[VX] * s[VX] + s[VY] * s[VY])),
                       .rpm = rpm_from_radps(sqrt(dot(w, w))),
                       .slip_mps = slip,
                       .mu = friction_of(way->ball, units, slip),
                       .units = units,
                       .phase = way->rolling ? PHASE_ROLL : PHASE_SKID};
}

/* Sets `ft` to where the heading has turned by `degrees`, if between the path's last two points. */
static void note_turn(const Roll *roll, double degrees, double *ft)
{
    const PathPoint *p = &roll->path[roll->count - 1];
    double turned = p->degrees - roll->path[0].degrees - degrees;
    if (!isnan(*ft) || turned < 0.0 || roll->count < 2)
        return;
    double before = p[-1].degrees - roll->path[0].degrees - degrees;
    *ft = p->ft - (p->ft - p[-1].ft) * turned / fmax(turned - before, 1e-9);
}

static double whole_turn(const RigidBall *ball, const Delivery *d)
{
    double k_sq = 0.0;
    for (int i = 0; i < 3; i++)
        k_sq += ball->k_sq[i] * ball->axis[i] * ball->axis[i];
    return motion_turn_deg(k_sq, ball->radius_m, d);
}

static void roll_at(const Truth *truth, Side lane, int slot, const Delivery *d, double phase,
                    Roll *roll)
{
    const Own *own = truth->own;
    Way way = {.ball = &own->ball[slot - 1],
               .oil = &truth->oil[lane],
               .touchdown_m = m_from_ft(d->loft_ft)};
    release(way.ball, d, phase, way.state);
    double turn = whole_turn(way.ball, d);
    *roll = (Roll){.first_move_ft = NAN,
                   .hook_ft = NAN,
                   .roll_ft = NAN,
                   .entry_board = NAN,
                   .entry_deg = NAN,
                   .entry_mph = NAN,
                   .breakpoint_board = d->laydown_board};
    for (int j = 0; j < OIL_STATIONS && !roll->gutter; j++) {
        double ft = j * OIL_STATION_FT;
        go_to(&way, m_from_ft(ft));
        PathPoint *point = &roll->path[roll->count++];
        *point = point_of(&way, ft);
        note_turn(roll, 1.0, &roll->first_move_ft);
        if (turn >= MOTION_TURN_LEAST_DEG)
            note_turn(roll, 0.5 * turn, &roll->hook_ft);
        if (way.rolling && isnan(roll->roll_ft))
            roll->roll_ft = ft;
        if (point->board < roll->breakpoint_board) {
            roll->breakpoint_board = point->board;
            roll->breakpoint_ft = ft;
        }
        roll->gutter =
            way.state[X] < 0.0 || way.state[X] > LANE_WIDTH_M || way.state[VY] <= SLOWEST_MPS;
    }
    if (roll->gutter)
        return;
    roll->entry_board = roll->path[roll->count - 1].board;
    roll->entry_deg = roll->path[roll->count - 1].degrees;
    roll->entry_mph = roll->path[roll->count - 1].mph;
}

static void roll_ball(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                      Roll *roll)
{
    roll_at(truth, lane, slot, delivery, 2.0 * UNITS_PI * rng_uniform(luck), roll);
}

static void arrive(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                   Arrival *arrivals)
{
    for (int i = 0; i < count; i++) {
        Roll roll;
        double phase = 2.0 * UNITS_PI * fmod((i + 0.5) * GOLDEN, 1.0);
        roll_at(truth, lane, slot, &throws[i].delivery, phase, &roll);
        arrivals[i] = (Arrival){.board = roll.entry_board,
                                .degrees = roll.entry_deg,
                                .mph = roll.entry_mph,
                                .hook_ft = roll.hook_ft,
                                .breakpoint = roll.breakpoint_board,
                                .gutter = roll.gutter};
    }
}

static RigidBall rigid_of(const Ball *ball)
{
    MotionBody body;
    motion_body(ball, &body);
    double um = (ball_roughness_um(&ball->surface) + LANE_UM) * COVERS[ball->cover].stands;
    RigidBall rigid = {.radius_m = body.radius_m,
                       .mu_film = COVERS[ball->cover].film * ball->cover_strength,
                       .mu_dry = COVERS[ball->cover].dry * ball->cover_strength,
                       .half_units = HALF_SHARE * um / OIL_UM_PER_UNIT};
    for (int i = 0; i < 3; i++) {
        rigid.k_sq[i] = body.k_sq[i];
        rigid.axis[i] = body.axis[i];
    }
    return rigid;
}

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    Own *own = truth->own;
    world_draw(truth, sheet, &WORLD_SPREADS, rng);
    own->take_units = TAKE_MIDDLE * exp(TAKE_SPREAD * rng_normal(rng));
    own->drop = DROP_MIDDLE * exp(DROP_SPREAD * rng_normal(rng));
    double dry = exp(WORLD_SPREADS.dry * rng_normal(rng));
    double fade = exp(WORLD_SPREADS.fade * rng_normal(rng));
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        if (!truth->filled[slot])
            continue;
        RigidBall *ball = &own->ball[slot];
        *ball = rigid_of(bag_slot(truth->bag, slot + 1));
        ball->mu_film *= exp(WORLD_SPREADS.film * rng_normal(rng));
        ball->mu_dry *= dry;
        ball->half_units *= fade;
    }
}

/* 1 in the middle of the band, falling off over a board. */
static double band(double away) { return fmax(0.0, fmin(1.0, BAND_BOARDS + 1.0 - fabs(away))); }

static void wear(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover)
{
    const Own *own = truth->own;
    Oil *oil = &truth->oil[lane];
    double held = 0.0, end = oil->length_ft;
    for (int j = 0; j < roll->count; j++) {
        const PathPoint *p = &roll->path[j];
        double middle = p->board + shift_boards, across = 2.0 * BAND_BOARDS + 1.0, up = 0.0;
        double take = own->take_units * COVERS[cover].takes * (0.5 + 0.2 * p->slip_mps);
        double down = p->ft > end && p->ft <= end + DROP_FT
                          ? fmin(1.0, own->drop * OIL_STATION_FT / DROP_FT) * held
                          : 0.0;
        for (int b = 1; b <= LANE_BOARDS; b++) {
            double share = band(b - middle), *units = &oil->units[j][b - 1];
            double taken = fmin(*units, take * share);
            *units += down * share / across - taken;
            up += taken;
        }
        held += up - down;
    }
}

const World WORLD_STRANGER = {.name = "stranger",
                              .sentence = "other laws of motion, friction and wear",
                              .senses = &WORLD_SENSES,
                              .own_size = sizeof(Own),
                              .every = 4,
                              .draw = draw,
                              .roll = roll_ball,
                              .arrive = arrive,
                              .aim = world_aim_by_rolls,
                              .wear = wear};
