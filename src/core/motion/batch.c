/* batch.c - the averaged motion for many deliveries side by side. */
#include "core/motion/batch.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "core/motion/axis.h"

enum { W = 16 }; /* deliveries side by side: two of the widest vectors in common use */
/* Compiled twice where that is possible: for machines with wide vectors and for all. The same
 * operations in the same order either way, so the same bits. */
#if defined(__x86_64__) && defined(__linux__)
#define BATCH_CLONES __attribute__((target_clones("avx2", "default")))
#else
#define BATCH_CLONES
#endif
#define LOOP for (int k = 0; k < W; k++)
#define GRAVITY_MPS2 ((float)UNITS_GRAVITY_MPS2)
#define STILL_MPS ((float)MOTION_STILL_MPS)

/* One block of deliveries, each quantity an array. */
typedef struct Pack {
    float x[W], vx[W], vy[W], turn[W], y[W]; /* turn: in places of the ball's tables */
    float keep_x[W], keep_y[W], lz_sq[W];    /* l + R (vy, -vx), kept by friction; lz squared */
    float film_scale[W], dry_scale[W];
    float move_tan[W], move_ft[W], off[W]; /* heading of the first move; distance behind it */
    float open[W];                         /* 1 while it slides, 0 once it is settled */
    float rest[W];                         /* part of a step in which slip ends */
    float gutter[W];
    float far_x[W]; /* farthest toward the bowler's own gutter */
} Pack;

/* What a step needs of the ball, fixed over the step. */
typedef struct Step {
    float h[W];
    float reach[W]; /* R / k_sq */
    float thin[W];  /* film to places of the fade table */
    float dry[W];
    float ux[W], uy[W]; /* direction of slip at its start */
} Step;

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

/* The film's greatest change, units, on any board between two neighbouring stations. */
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
        for (int b = 0; b < LANE_BOARDS; b++) /* traces would become denormals: slow and nothing */
            ready->units[j][b] = oil->units[j][b] > 1e-4 ? (float)oil->units[j][b] : 0.0f;
        ready->units[j][LANE_BOARDS] = ready->units[j][LANE_BOARDS - 1];
    }
    /* Shorter than a station where much changes; two stations only where little does in both. */
    for (int j = 0; j < OIL_STATIONS - 1;) {
        double change = change_after(oil, j);
        int parts = (change < 0.5 ? 1 : change < 2.0 ? 2 : 4) * (step_ft < OIL_STATION_FT ? 2 : 1);
        int stations = step_ft >= 2.0 * OIL_STATION_FT && parts == 1 && j + 2 < OIL_STATIONS &&
                               change_after(oil, j + 1) < 0.5
                           ? 2
                           : 1;
        for (int p = 0; p < parts; p++)
            ready->step_m[ready->step_count++] =
                (float)(OIL_STATION_FT * 0.3048 * stations / parts);
        j += stations;
    }
}

/* Clamps without a branch: two in a row as conditionals keep a compiler from making vectors. */
static inline float not_below_0(float a) { return 0.5f * (a + fabsf(a)); }
static inline float at_most(float a, float most) { return most - not_below_0(most - a); }

/* Friction over g times the direction of slip, and the slopes they make, at one place. */
static inline __attribute__((always_inline)) void
slopes(const BatchBall *ball, const BatchOil *oil, const Pack *b, const Step *st,
       const float *restrict x, const float *restrict y, const float *restrict vx,
       const float *restrict vy, float *restrict dx, float *restrict dvx, float *restrict dvy)
{
    const float per_board = (float)(1.0 / LANE_BOARD_M), per_station = (float)(1.0 / 0.1524);
    float film[W], mu[W];
    int cell[W];
    float across[W], along[W];
    LOOP
    {
        float a = at_most(not_below_0(x[k] * per_board - 0.5f), (float)(LANE_BOARDS - 1));
        float s = at_most(y[k] * per_station, (float)(OIL_STATIONS - 1));
        int board = (int)a, row = (int)s;
        cell[k] = row * (LANE_BOARDS + 1) + board;
        across[k] = a - (float)board;
        along[k] = s - (float)row;
    }
    const float *units = &oil->units[0][0];
    float c00[W], c01[W], c10[W], c11[W];
    LOOP
    {
        c00[k] = units[cell[k]];
        c01[k] = units[cell[k] + 1];
        c10[k] = units[cell[k] + LANE_BOARDS + 1];
        c11[k] = units[cell[k] + LANE_BOARDS + 2];
    }
    int place[W];
    LOOP
    {
        float low = c00[k] + across[k] * (c01[k] - c00[k]);
        float high = c10[k] + across[k] * (c11[k] - c10[k]);
        film[k] = at_most((low + along[k] * (high - low)) * st->thin[k], (float)FRICTION_TABLE);
        place[k] = (int)film[k];
        film[k] -= (float)place[k];
    }
    LOOP
    {
        float f0 = ball->fade[place[k]], f1 = ball->fade[place[k] + 1];
        mu[k] = ball->mu_film + (st->dry[k] - ball->mu_film) * (f0 + film[k] * (f1 - f0));
    }
    LOOP
    {
        float ux = vx[k] + st->reach[k] * (b->keep_y[k] + ball->radius_m * vx[k]);
        float uy = vy[k] - st->reach[k] * (b->keep_x[k] - ball->radius_m * vy[k]);
        float slip = sqrtf(ux * ux + uy * uy);
        float ahead = ux * st->ux[k] + uy * st->uy[k];
        /* past the end of slip, inside a trial step: go on as before */
        float per_slip = 1.0f / slip, per_m = 1.0f / (vy[k] > STILL_MPS ? vy[k] : STILL_MPS);
        ux = ahead > 0.0f ? ux * per_slip : st->ux[k];
        uy = ahead > 0.0f ? uy * per_slip : st->uy[k];
        float push = -mu[k] * GRAVITY_MPS2 * per_m;
        dx[k] = vx[k] * per_m;
        dvx[k] = push * ux;
        dvy[k] = push * uy;
    }
}

/* What the ball is in the middle of a step of length h from here. */
static inline __attribute__((always_inline)) void prepare(const BatchBall *ball, Pack *b, Step *st)
{
    const float place_per_rad = (float)(BATCH_PER_TURN / (2.0 * UNITS_PI));
    float middle[W], share[W];
    int at[W];
    LOOP
    {
        float lx = b->keep_x[k] - ball->radius_m * b->vy[k];
        float ly = b->keep_y[k] + ball->radius_m * b->vx[k];
        float spin = sqrtf(lx * lx + ly * ly + b->lz_sq[k]) / ball->k_sq_first;
        float turned = spin * st->h[k] / b->vy[k] * place_per_rad;
        middle[k] = b->turn[k] + 0.5f * turned;
        b->turn[k] += turned;
        middle[k] = at_most(not_below_0(middle[k]), (float)BATCH_TABLE);
        at[k] = (int)middle[k];
        share[k] = middle[k] - (float)at[k];
    }
    LOOP
    {
        float k_sq = ball->k_sq[at[k]] + share[k] * (ball->k_sq[at[k] + 1] - ball->k_sq[at[k]]);
        float fresh = ball->fresh[at[k]] + share[k] * (ball->fresh[at[k] + 1] - ball->fresh[at[k]]);
        st->reach[k] = ball->radius_m / k_sq;
        st->thin[k] = ball->per_unit * b->film_scale[k] * (1.25f - 0.5f * fresh);
        st->dry[k] = ball->mu_dry * b->dry_scale[k] * (ball->dry_base + ball->dry_fresh * fresh);
        float ux = b->vx[k] + st->reach[k] * (b->keep_y[k] + ball->radius_m * b->vx[k]);
        float uy = b->vy[k] - st->reach[k] * (b->keep_x[k] - ball->radius_m * b->vy[k]);
        float slip = sqrtf(ux * ux + uy * uy);
        st->ux[k] = slip > 1e-9f ? ux / slip : 0.0f;
        st->uy[k] = slip > 1e-9f ? uy / slip : 0.0f;
    }
}

/* One step by Runge and Kutta's fourth order from the block's state into x, vx, vy. */
static inline __attribute__((always_inline)) void carry(const BatchBall *ball, const BatchOil *oil,
                                                        const Pack *b, const Step *st,
                                                        float *restrict x, float *restrict vx,
                                                        float *restrict vy)
{
    float k1x[W], k1u[W], k1v[W], k2x[W], k2u[W], k2v[W], k3x[W], k3u[W], k3v[W];
    float tx[W], ty[W], tu[W], tv[W];
    slopes(ball, oil, b, st, b->x, b->y, b->vx, b->vy, k1x, k1u, k1v);
    LOOP
    {
        float half = 0.5f * st->h[k];
        tx[k] = b->x[k] + half * k1x[k];
        ty[k] = b->y[k] + half;
        tu[k] = b->vx[k] + half * k1u[k];
        tv[k] = b->vy[k] + half * k1v[k];
    }
    slopes(ball, oil, b, st, tx, ty, tu, tv, k2x, k2u, k2v);
    LOOP
    {
        float half = 0.5f * st->h[k];
        tx[k] = b->x[k] + half * k2x[k];
        tu[k] = b->vx[k] + half * k2u[k];
        tv[k] = b->vy[k] + half * k2v[k];
    }
    slopes(ball, oil, b, st, tx, ty, tu, tv, k3x, k3u, k3v);
    LOOP
    {
        tx[k] = b->x[k] + st->h[k] * k3x[k];
        ty[k] = b->y[k] + st->h[k];
        tu[k] = b->vx[k] + st->h[k] * k3u[k];
        tv[k] = b->vy[k] + st->h[k] * k3v[k];
    }
    float k4x[W], k4u[W], k4v[W];
    slopes(ball, oil, b, st, tx, ty, tu, tv, k4x, k4u, k4v);
    LOOP
    {
        float sixth = st->h[k] * (1.0f / 6.0f);
        x[k] = b->x[k] + sixth * (k1x[k] + 2.0f * (k2x[k] + k3x[k]) + k4x[k]);
        vx[k] = b->vx[k] + sixth * (k1u[k] + 2.0f * (k2u[k] + k3u[k]) + k4u[k]);
        vy[k] = b->vy[k] + sixth * (k1v[k] + 2.0f * (k2v[k] + k3v[k]) + k4v[k]);
    }
}

/* Slip along its direction at the step's start, at a state; negative past the end of slip. */
static inline float slip_left(const BatchBall *ball, const Pack *b, const Step *st, int k, float vx,
                              float vy)
{
    float ux = vx + st->reach[k] * (b->keep_y[k] + ball->radius_m * vx);
    float uy = vy - st->reach[k] * (b->keep_x[k] - ball->radius_m * vy);
    return ux * st->ux[k] + uy * st->uy[k];
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
        double move = tan(launch - rad_from_deg(1.0)); /* heading of the first move, turned over */
        bool out = !(x >= 0.0 && x <= LANE_WIDTH_M && x_down >= 0.0 && x_down <= LANE_WIDTH_M);
        b->x[k] = (float)x_down;
        b->y[k] = (float)loft;
        b->vx[k] = (float)vx;
        b->vy[k] = (float)vy;
        b->keep_x[k] = (float)(side * cos(rotation) + (double)ball->radius_m * vy);
        b->keep_y[k] = (float)(-side * sin(rotation) - (double)ball->radius_m * vx);
        b->lz_sq[k] = (float)(l * l * sin(tilt) * sin(tilt));
        b->turn[k] =
            (float)(radps_from_rpm(d->rpm) * loft / vy * BATCH_PER_TURN / (2.0 * UNITS_PI));
        b->film_scale[k] = t->film_scale;
        b->dry_scale[k] = t->dry_scale;
        b->move_tan[k] = (float)move;
        b->move_ft[k] = -1.0f;
        b->off[k] = b->vx[k] + b->move_tan[k] * b->vy[k];
        b->open[k] = out ? 0.0f : 1.0f;
        b->gutter[k] = out ? 1.0f : 0.0f;
        b->far_x[k] = (float)x_down;
        b->rest[k] = 0.0f;
    }
}

/* Slides the block down the lane; where slip ends inside a step a delivery stays at its start. */
static inline __attribute__((always_inline)) void slide(const BatchBall *ball, const BatchOil *oil,
                                                        Pack *b)
{
    Step st;
    float x[W], vx[W], vy[W], turn[W], y = 0.0f;
    const float width = (float)LANE_WIDTH_M, ft_per_m = (float)(1.0 / 0.3048);
    for (int i = 0; i < oil->step_count; i++) {
        float next = i + 1 < oil->step_count ? y + oil->step_m[i] : (float)LANE_LENGTH_M;
        float still_open = 0.0f;
        LOOP
        {
            float h = next - b->y[k]; /* from touchdown on */
            st.h[k] = b->open[k] * (h > 0.0f ? h : 0.0f);
            turn[k] = b->turn[k];
        }
        prepare(ball, b, &st);
        carry(ball, oil, b, &st, x, vx, vy);
        LOOP
        {
            float h = st.h[k], left = slip_left(ball, b, &st, k, vx[k], vy[k]);
            float was = slip_left(ball, b, &st, k, b->vx[k], b->vy[k]);
            int moving = h > 0.0f, settled = moving & (left <= 0.0f), go = moving & !settled;
            /* no branches: see above */
            int out = go & ((x[k] < 0.0f) | (x[k] > width) | (vy[k] < STILL_MPS));
            float off = vx[k] + b->move_tan[k] * vy[k];
            float share = b->off[k] / (b->off[k] - off); /* off starts below 0 */
            int moves = moving & (b->move_ft[k] < 0.0f) & (off >= 0.0f);
            float until = was / (was - left);
            float place = (b->y[k] + share * h) * ft_per_m;
            b->move_ft[k] = moves ? place : b->move_ft[k];
            b->rest[k] = settled ? h * until : b->rest[k];
            b->off[k] = go ? off : b->off[k];
            b->x[k] = go ? x[k] : b->x[k];
            b->far_x[k] = at_most(b->far_x[k], b->x[k]);
            b->vx[k] = go ? vx[k] : b->vx[k];
            b->vy[k] = go ? vy[k] : b->vy[k];
            b->y[k] = go ? next : b->y[k];
            b->turn[k] = go ? b->turn[k] : turn[k];
            b->open[k] = (settled | out) ? 0.0f : b->open[k];
            b->gutter[k] = out ? 1.0f : b->gutter[k];
            still_open += b->open[k];
        }
        y = next;
        if (!(still_open > 0.0f))
            break;
    }
}

/* The last part of a step, up to where slip ends: found by two turns of regula falsi. */
static inline __attribute__((always_inline)) void settle(const BatchBall *ball, const BatchOil *oil,
                                                         Pack *b)
{
    Step st;
    float x[W], vx[W], vy[W], turn[W];
    for (int pass = 0; pass < 2; pass++) {
        LOOP
        {
            st.h[k] = b->rest[k];
            turn[k] = b->turn[k];
        }
        prepare(ball, b, &st);
        carry(ball, oil, b, &st, x, vx, vy);
        LOOP
        {
            float left = slip_left(ball, b, &st, k, vx[k], vy[k]);
            float was = slip_left(ball, b, &st, k, b->vx[k], b->vy[k]);
            float better = was > left ? b->rest[k] * was / (was - left) : b->rest[k];
            if (pass == 0) {
                b->rest[k] = b->rest[k] > 0.0f ? better : 0.0f;
                b->turn[k] = turn[k];
            }
        }
    }
    LOOP
    {
        bool rolls = b->rest[k] > 0.0f;
        float ux = vx[k] + st.reach[k] * (b->keep_y[k] + ball->radius_m * vx[k]);
        float uy = vy[k] - st.reach[k] * (b->keep_x[k] - ball->radius_m * vy[k]);
        float share = 1.0f / (1.0f + ball->radius_m * st.reach[k]); /* k2 / (k2 + R2) */
        b->x[k] = rolls ? x[k] : b->x[k];
        b->y[k] = rolls ? b->y[k] + b->rest[k] : b->y[k];
        b->vx[k] = rolls ? vx[k] - share * ux : b->vx[k];
        b->vy[k] = rolls ? vy[k] - share * uy : b->vy[k];
    }
}

static Arrival arrival_of(const Pack *b, int k)
{
    double vx = b->vx[k], vy = b->vy[k], to_go = LANE_LENGTH_M - b->y[k];
    double x = b->x[k] + vx / vy * to_go, move = b->move_ft[k] < 0.0f ? NAN : b->move_ft[k];
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
                     .first_move_ft = move,
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
