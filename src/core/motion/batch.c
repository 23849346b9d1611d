/* batch.c - the averaged motion for many deliveries side by side. */
#include "core/motion/batch.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "core/motion/axis.h"

enum { W = 16 }; /* deliveries side by side: two of the widest vectors in common use */
/* Compiled twice where possible: for machines with wide vectors, and for all. Both do the same
 * operations in the same order, so they give the same bits. */
#if defined(__x86_64__) && defined(__linux__)
#define BATCH_CLONES __attribute__((target_clones("avx2", "default")))
#else
#define BATCH_CLONES
#endif
#define GRAVITY_MPS2 ((float)UNITS_GRAVITY_MPS2)
#define STILL_MPS ((float)MOTION_STILL_MPS)
#define OUT_OF_REACH (-10.0) /* a heading no ball reaches: it makes no move */

/* Position and velocity of each delivery in a block. */
typedef struct Place {
    float x[W], y[W], vx[W], vy[W];
} Place;

/* Their change per metre down the lane. */
typedef struct Slope {
    float x[W], vx[W], vy[W];
} Slope;

/* One block of deliveries, each quantity an array. */
typedef struct Pack {
    Place at;
    float turn[W];                        /* since release, in places of the ball's tables */
    float keep_x[W], keep_y[W], lz_sq[W]; /* l + R (vy, -vx), kept by friction; lz squared */
    float film_scale[W], dry_scale[W];
    float stations[W];                     /* of the film given, in a metre of the lane */
    float move_tan[W], move_ft[W], off[W]; /* heading at its move; distance from it */
    float open[W];                         /* 1 while it slides, 0 once it is settled */
    float rest[W];                         /* part of a step in which slip ends */
    float gutter[W];
    float far_x[W]; /* farthest toward the bowler's own gutter */
} Pack;

/* What a step needs to know of the ball, constant during the step. */
typedef struct Step {
    float h[W];
    float reach[W]; /* R / k_sq */
    float thin[W];  /* film to places of the fade table */
    float dry[W];
    float ux[W], uy[W]; /* direction of slip at its start */
} Step;

/* Everything a step needs: ball, film, block, and the step's constants. */
typedef struct Ride {
    const BatchBall *ball;
    const BatchOil *oil;
    const Pack *pack;
    const Step *step;
} Ride;

/* The loops below run over a block of fixed size, so that compilers vectorize them; they are
 * inlined into each version of block_run. */
#define INLINE static inline __attribute__((always_inline))

void batch_ball(const MotionBody *body, BatchBall *ball)
{
    memset(ball, 0, sizeof *ball);
    double n[3] = {body->axis[0], body->axis[1], body->axis[2]};
    ball->pounds = body->pounds;
    ball->radius_m = (float)body->radius_m;
    for (int i = 0; i < BATCH_TABLE + 2; i++) {
        ball->k_sq[i] = (float)axis_k_sq(body->k_sq, n);
        double ring_m = 2.0 * UNITS_PI * body->radius_m * axis_walk_length(body->k_sq, n);
        ball->fresh[i] = (float)friction_fresh(ring_m);
        axis_turn(body->k_sq, n, 2.0 * UNITS_PI / BATCH_PER_TURN);
    }
    ball->k_sq_first = ball->k_sq[0];
    ball->mu_film = (float)body->friction.mu_film;
    ball->mu_dry = (float)body->friction.mu_dry;
    ball->dry_base = (float)body->friction.dry_base;
    ball->dry_fresh = (float)body->friction.dry_fresh;
    ball->per_unit = (float)(FRICTION_TABLE / body->friction.reach_units);
    for (int i = 0; i < FRICTION_TABLE + 2; i++)
        ball->fade[i] = (float)body->friction.fade[i];
}

/* The largest change of the film, in units, on any board between two neighbouring stations. */
static double change_after(const Oil *oil, int j)
{
    double most = 0.0;
    for (int b = 0; b < LANE_BOARDS; b++)
        most = fmax(most, fabs(oil->units[j + 1][b] - oil->units[j][b]));
    return most;
}

void batch_oil(const Oil *oil, double step_ft, BatchOil *ready)
{
    memset(ready, 0, sizeof *ready);
    for (int j = 0; j < OIL_STATIONS; j++) {
        for (int b = 0; b < LANE_BOARDS; b++) /* traces would become denormals: slow for nothing */
            ready->units[j][b] = oil->units[j][b] > 1e-4 ? (float)oil->units[j][b] : 0.0f;
        ready->units[j][LANE_BOARDS] = ready->units[j][LANE_BOARDS - 1];
    }
    /* A fraction of a station where the film changes a lot; two at once where it hardly changes. */
    double little = step_ft > BATCH_QUICK ? 2.0 : 0.5, much = 4.0 * little;
    for (int j = 0; j < OIL_STATIONS - 1;) {
        double change = change_after(oil, j);
        int parts = (change < little ? 1
                     : change < much ? 2
                                     : 4) *
                    (step_ft < OIL_STATION_FT ? 2 : 1);
        int stations = step_ft >= 2.0 * OIL_STATION_FT && parts == 1 && j + 2 < OIL_STATIONS &&
                               change_after(oil, j + 1) < little
                           ? 2
                           : 1;
        for (int p = 0; p < parts; p++)
            ready->step_m[ready->step_count++] =
                (float)(OIL_STATION_FT * 0.3048 * stations / parts);
        j += stations;
    }
}

/* Clamps without a branch: two conditionals in a row keep compilers from vectorizing. */
static inline float not_below_0(float a) { return 0.5f * (a + fabsf(a)); }
static inline float at_most(float a, float most) { return most - not_below_0(most - a); }

/* The film at the four grid points around each delivery, and its place between them: bilinear, as
 * oil_at. */
typedef struct Corners {
    float across[W], along[W], c00[W], c01[W], c10[W], c11[W];
} Corners;

INLINE void corners_about(const BatchOil *oil, const float *stations, const Place *at, Corners *c)
{
    const float per_board = (float)(1.0 / LANE_BOARD_M);
    const float *units = &oil->units[0][0];
    int cell[W];
    for (int k = 0; k < W; k++) {
        float a = at_most(not_below_0(at->x[k] * per_board - 0.5f), (float)(LANE_BOARDS - 1));
        float s = at_most(at->y[k] * stations[k], (float)(OIL_STATIONS - 1));
        int board = (int)a, row = (int)s;
        cell[k] = row * (LANE_BOARDS + 1) + board;
        c->across[k] = a - (float)board;
        c->along[k] = s - (float)row;
    }
    for (int k = 0; k < W; k++) {
        c->c00[k] = units[cell[k]];
        c->c01[k] = units[cell[k] + 1];
        c->c10[k] = units[cell[k] + LANE_BOARDS + 1];
        c->c11[k] = units[cell[k] + LANE_BOARDS + 2];
    }
}

INLINE void friction_at(const Ride *r, const Place *at, float *mu)
{
    const BatchBall *ball = r->ball;
    Corners c;
    float share[W]; /* of the way to the next place of the fade table */
    int place[W];
    corners_about(r->oil, r->pack->stations, at, &c);
    for (int k = 0; k < W; k++) {
        float low = c.c00[k] + c.across[k] * (c.c01[k] - c.c00[k]);
        float high = c.c10[k] + c.across[k] * (c.c11[k] - c.c10[k]);
        float film =
            at_most((low + c.along[k] * (high - low)) * r->step->thin[k], (float)FRICTION_TABLE);
        place[k] = (int)film;
        share[k] = film - (float)place[k];
    }
    for (int k = 0; k < W; k++) {
        float f0 = ball->fade[place[k]], f1 = ball->fade[place[k] + 1];
        mu[k] = ball->mu_film + (r->step->dry[k] - ball->mu_film) * (f0 + share[k] * (f1 - f0));
    }
}

/* Velocity of the ball's surface against the lane. */
INLINE float slip_x(const Ride *r, int k, float vx)
{
    return vx + r->step->reach[k] * (r->pack->keep_y[k] + r->ball->radius_m * vx);
}
INLINE float slip_y(const Ride *r, int k, float vy)
{
    return vy - r->step->reach[k] * (r->pack->keep_x[k] - r->ball->radius_m * vy);
}

/* Friction pushes against the slip. */
INLINE void slopes(const Ride *r, const Place *at, Slope *slope)
{
    const Step *st = r->step;
    float mu[W];
    friction_at(r, at, mu);
    for (int k = 0; k < W; k++) {
        float ux = slip_x(r, k, at->vx[k]), uy = slip_y(r, k, at->vy[k]);
        float slip = sqrtf(ux * ux + uy * uy);
        float ahead = ux * st->ux[k] + uy * st->uy[k];
        /* past the end of slip, inside a trial step: go on as before */
        float vy = at->vy[k] > STILL_MPS ? at->vy[k] : STILL_MPS;
        float per_slip = 1.0f / slip, per_m = 1.0f / vy;
        ux = ahead > 0.0f ? ux * per_slip : st->ux[k];
        uy = ahead > 0.0f ? uy * per_slip : st->uy[k];
        float push = -mu[k] * GRAVITY_MPS2 * per_m;
        slope->x[k] = at->vx[k] * per_m;
        slope->vx[k] = push * ux;
        slope->vy[k] = push * uy;
    }
}

/* The ball's numbers in the middle of a step of length h from here. */
INLINE void prepare(const BatchBall *ball, Pack *b, Step *st)
{
    const float place_per_rad = (float)(BATCH_PER_TURN / (2.0 * UNITS_PI));
    const Ride ride = {ball, NULL, b, st};
    float middle[W], share[W];
    int at[W];
    for (int k = 0; k < W; k++) {
        float lx = b->keep_x[k] - ball->radius_m * b->at.vy[k];
        float ly = b->keep_y[k] + ball->radius_m * b->at.vx[k];
        float spin = sqrtf(lx * lx + ly * ly + b->lz_sq[k]) / ball->k_sq_first;
        float turned = spin * st->h[k] / b->at.vy[k] * place_per_rad;
        middle[k] = b->turn[k] + 0.5f * turned;
        b->turn[k] += turned;
        middle[k] = at_most(not_below_0(middle[k]), (float)BATCH_TABLE);
        at[k] = (int)middle[k];
        share[k] = middle[k] - (float)at[k];
    }
    for (int k = 0; k < W; k++) {
        float k_sq = ball->k_sq[at[k]] + share[k] * (ball->k_sq[at[k] + 1] - ball->k_sq[at[k]]);
        float fresh = ball->fresh[at[k]] + share[k] * (ball->fresh[at[k] + 1] - ball->fresh[at[k]]);
        st->reach[k] = ball->radius_m / k_sq;
        st->thin[k] = ball->per_unit * b->film_scale[k] * (1.25f - 0.5f * fresh);
        st->dry[k] = ball->mu_dry * b->dry_scale[k] * (ball->dry_base + ball->dry_fresh * fresh);
        float ux = slip_x(&ride, k, b->at.vx[k]), uy = slip_y(&ride, k, b->at.vy[k]);
        float slip = sqrtf(ux * ux + uy * uy);
        st->ux[k] = slip > 1e-9f ? ux / slip : 0.0f;
        st->uy[k] = slip > 1e-9f ? uy / slip : 0.0f;
    }
}

/* Moves the block by a share of the step along a slope. */
INLINE void move(const Ride *r, const Slope *slope, float share, Place *to)
{
    const Place *from = &r->pack->at;
    for (int k = 0; k < W; k++) {
        float h = share * r->step->h[k];
        to->x[k] = from->x[k] + h * slope->x[k];
        to->y[k] = from->y[k] + h;
        to->vx[k] = from->vx[k] + h * slope->vx[k];
        to->vy[k] = from->vy[k] + h * slope->vy[k];
    }
}

/* One step by Runge and Kutta's fourth order from the block's place to the next. */
INLINE void carry(const Ride *r, Place *to)
{
    const Place *from = &r->pack->at;
    Slope k1, k2, k3, k4;
    Place trial;
    slopes(r, from, &k1);
    move(r, &k1, 0.5f, &trial);
    slopes(r, &trial, &k2);
    move(r, &k2, 0.5f, &trial);
    slopes(r, &trial, &k3);
    move(r, &k3, 1.0f, &trial);
    slopes(r, &trial, &k4);
    for (int k = 0; k < W; k++) {
        float sixth = r->step->h[k] * (1.0f / 6.0f);
        to->x[k] = from->x[k] + sixth * (k1.x[k] + 2.0f * (k2.x[k] + k3.x[k]) + k4.x[k]);
        to->vx[k] = from->vx[k] + sixth * (k1.vx[k] + 2.0f * (k2.vx[k] + k3.vx[k]) + k4.vx[k]);
        to->vy[k] = from->vy[k] + sixth * (k1.vy[k] + 2.0f * (k2.vy[k] + k3.vy[k]) + k4.vy[k]);
    }
}

/* Slip along its direction at the step's start, at a velocity; negative past the end of slip. */
INLINE float slip_left(const Ride *r, int k, float vx, float vy)
{
    return slip_x(r, k, vx) * r->step->ux[k] + slip_y(r, k, vy) * r->step->uy[k];
}

static void load(const BatchBall *ball, const BatchThrow *throws, int count, Pack *b)
{
    for (int k = 0; k < W; k++) { /* a short block is filled up with its last delivery */
        const BatchThrow *t = &throws[k < count ? k : count - 1];
        const Delivery *d = &t->delivery;
        double launch = rad_from_deg(d->launch_deg), v = mps_from_mph(d->mph);
        double rotation = rad_from_deg(d->rotation_deg) - launch, tilt = rad_from_deg(d->tilt_deg);
        double l = (double)ball->k_sq_first * radps_from_rpm(d->rpm), side = l * cos(tilt);
        double vx = -v * sin(launch), vy = v * cos(launch), loft = m_from_ft(d->loft_ft);
        double x = lane_x_of_board(d->laydown_board), x_down = x + vx / vy * loft;
        double turn = motion_turn_deg((double)ball->k_sq_first, (double)ball->radius_m, d);
        double move = turn < MOTION_TURN_LEAST_DEG /* heading at its move, turned over */
                          ? OUT_OF_REACH
                          : tan(launch - rad_from_deg(0.5 * turn));
        bool out = !(x >= 0.0 && x <= LANE_WIDTH_M && x_down >= 0.0 && x_down <= LANE_WIDTH_M);
        b->at.x[k] = (float)x_down;
        b->at.y[k] = (float)loft;
        b->at.vx[k] = (float)vx;
        b->at.vy[k] = (float)vy;
        b->keep_x[k] = (float)(side * cos(rotation) + (double)ball->radius_m * vy);
        b->keep_y[k] = (float)(-side * sin(rotation) - (double)ball->radius_m * vx);
        b->lz_sq[k] = (float)(l * l * sin(tilt) * sin(tilt));
        b->turn[k] =
            (float)(radps_from_rpm(d->rpm) * loft / vy * BATCH_PER_TURN / (2.0 * UNITS_PI));
        b->film_scale[k] = t->film_scale;
        b->dry_scale[k] = t->dry_scale;
        b->stations[k] = (float)(1.0 / 0.1524) / (1.0f + t->longer);
        b->move_tan[k] = (float)move;
        b->move_ft[k] = -1.0f;
        b->off[k] = b->at.vx[k] + b->move_tan[k] * b->at.vy[k];
        b->open[k] = out ? 0.0f : 1.0f;
        b->gutter[k] = out ? 1.0f : 0.0f;
        b->far_x[k] = (float)x_down;
        b->rest[k] = 0.0f;
    }
}

/* A choice without a branch (see not_below_0). */
INLINE float either(int which, float yes, float no) { return which ? yes : no; }

/* Applies a tried step to one delivery; if slip ends within the step, the delivery stays at its
 * start. */
INLINE void take_step(const Ride *r, Pack *b, const Place *to, const float *turn_before, float next,
                      int k)
{
    const float width = (float)LANE_WIDTH_M, ft_per_m = (float)(1.0 / 0.3048);
    float h = r->step->h[k], left = slip_left(r, k, to->vx[k], to->vy[k]);
    float was = slip_left(r, k, b->at.vx[k], b->at.vy[k]);
    int moving = h > 0.0f, settled = moving & (left <= 0.0f), go = moving & !settled;
    int out = go & ((to->x[k] < 0.0f) | (to->x[k] > width) | (to->vy[k] < STILL_MPS));
    float off = to->vx[k] + b->move_tan[k] * to->vy[k];
    float share = b->off[k] / (b->off[k] - off); /* off starts below 0 */
    int moves = moving & (b->move_ft[k] < 0.0f) & (off >= 0.0f);
    float until = was / (was - left);
    b->move_ft[k] = either(moves, (b->at.y[k] + share * h) * ft_per_m, b->move_ft[k]);
    b->rest[k] = either(settled, h * until, b->rest[k]);
    b->off[k] = either(go, off, b->off[k]);
    b->at.x[k] = either(go, to->x[k], b->at.x[k]);
    b->far_x[k] = at_most(b->far_x[k], b->at.x[k]);
    b->at.vx[k] = either(go, to->vx[k], b->at.vx[k]);
    b->at.vy[k] = either(go, to->vy[k], b->at.vy[k]);
    b->at.y[k] = either(go, next, b->at.y[k]);
    b->turn[k] = either(go, b->turn[k], turn_before[k]);
    b->open[k] = either(settled | out, 0.0f, b->open[k]);
    b->gutter[k] = either(out, 1.0f, b->gutter[k]);
}

/* Slides the block down the lane. */
INLINE void slide(const BatchBall *ball, const BatchOil *oil, Pack *b)
{
    Step st;
    Place to;
    const Ride ride = {ball, oil, b, &st};
    float turn[W], y = 0.0f;
    for (int i = 0; i < oil->step_count; i++) {
        float next = i + 1 < oil->step_count ? y + oil->step_m[i] : (float)LANE_LENGTH_M;
        int still_open = 0;
        for (int k = 0; k < W; k++) {
            float h = next - b->at.y[k]; /* from touchdown on */
            st.h[k] = b->open[k] * (h > 0.0f ? h : 0.0f);
            turn[k] = b->turn[k];
        }
        prepare(ball, b, &st);
        carry(&ride, &to);
        for (int k = 0; k < W; k++) {
            take_step(&ride, b, &to, turn, next, k);
            still_open += b->open[k] > 0.0f;
        }
        y = next;
        if (still_open == 0)
            break;
    }
}

/* The last part of a step, up to where slip ends: found by two iterations of regula falsi. */
INLINE void settle(const BatchBall *ball, const BatchOil *oil, Pack *b)
{
    Step st;
    Place to;
    const Ride ride = {ball, oil, b, &st};
    float turn[W];
    for (int pass = 0; pass < 2; pass++) {
        for (int k = 0; k < W; k++) {
            st.h[k] = b->rest[k];
            turn[k] = b->turn[k];
        }
        prepare(ball, b, &st);
        carry(&ride, &to);
        for (int k = 0; k < W; k++) {
            float left = slip_left(&ride, k, to.vx[k], to.vy[k]);
            float was = slip_left(&ride, k, b->at.vx[k], b->at.vy[k]);
            float better = was > left ? b->rest[k] * was / (was - left) : b->rest[k];
            if (pass == 0) {
                b->rest[k] = b->rest[k] > 0.0f ? better : 0.0f;
                b->turn[k] = turn[k];
            }
        }
    }
    for (int k = 0; k < W; k++) {
        bool rolls = b->rest[k] > 0.0f;
        float share = 1.0f / (1.0f + ball->radius_m * st.reach[k]); /* k2 / (k2 + R2) */
        float vx = to.vx[k] - share * slip_x(&ride, k, to.vx[k]);
        float vy = to.vy[k] - share * slip_y(&ride, k, to.vy[k]);
        b->at.x[k] = rolls ? to.x[k] : b->at.x[k];
        b->at.y[k] = rolls ? b->at.y[k] + b->rest[k] : b->at.y[k];
        b->at.vx[k] = rolls ? vx : b->at.vx[k];
        b->at.vy[k] = rolls ? vy : b->at.vy[k];
    }
}

static Arrival arrival_of(const Pack *b, int k)
{
    double vx = b->at.vx[k], vy = b->at.vy[k], to_go = LANE_LENGTH_M - b->at.y[k];
    double x = b->at.x[k] + vx / vy * to_go, move = b->move_ft[k] < 0.0f ? NAN : b->move_ft[k];
    if (b->gutter[k] > 0.0f || !(x >= 0.0 && x <= LANE_WIDTH_M))
        return (Arrival){NAN, NAN, NAN, move, NAN, true};
    double way = to_go * sqrt(1.0 + vx / vy * (vx / vy)), v_sq = vx * vx + vy * vy;
    if (b->rest[k] > 0.0f)
        v_sq -= 2.0 * MOTION_ROLLING_RESISTANCE * (double)GRAVITY_MPS2 * way;
    if (!(vy > 0.0 && v_sq > MOTION_STILL_MPS * MOTION_STILL_MPS)) /* it stops short of the pins */
        return (Arrival){NAN, NAN, NAN, move, NAN, true};
    return (Arrival){.board = lane_board_of_x(x),
                     .degrees = deg_from_rad(atan(vx / vy)),
                     .mph = mph_from_mps(sqrt(v_sq)),
                     .hook_ft = move,
                     .breakpoint = lane_board_of_x(b->far_x[k])};
}

BATCH_CLONES static void block_run(const BatchBall *ball, const BatchOil *oil, Pack *b)
{
    slide(ball, oil, b);
    settle(ball, oil, b);
}

void batch_arrive(const BatchBall *ball, const BatchOil *oil, const BatchThrow *throws, int count,
                  Arrival *arrivals)
{
    for (int first = 0; first < count; first += W) {
        int size = count - first < W ? count - first : W;
        Pack pack;
        load(ball, throws + first, size, &pack);
        block_run(ball, oil, &pack);
        for (int k = 0; k < size; k++)
            arrivals[first + k] = arrival_of(&pack, k);
    }
}
