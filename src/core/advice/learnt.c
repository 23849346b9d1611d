/* learnt.c - sums over the events of a bag, and what they come to. */
#include "core/advice/learnt.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/normal.h"
#include "base/text.h"
#include "base/units.h"
#include "core/advice/advice.h"
#include "core/motion/measure.h"

static const double Z95 = 1.959963984540054; /* 0.975 quantile of the normal distribution */

#define DAY_MPH                                                                                    \
    0.35 /* standard deviation of a bowler's days (assumed; wider than the belief's, to offer      \
            less) */
#define SPEEDS_LEAST 5 /* typed in an event, for its mean to count */
#define BALL_SD 1.2    /* boards; the belief's prior of a ball (offsets.c) */
#define STRENGTH_STEP 0.02

/* ---- means over events ---- */

/* What some events say of a number, each with its own uncertainty. */
typedef struct Sums {
    int events, shots;
    double weights, sum, squares; /* of 1 over the variance: with the values, their squares */
} Sums;

static void add(Sums *sums, double value, double variance, int shots)
{
    sums->events++;
    sums->shots += shots;
    sums->weights += 1.0 / variance;
    sums->sum += value / variance;
    sums->squares += value * value / variance;
}

/* How much wider the events lie apart than their uncertainties explain, at least 1 (R. T. Birge,
 * Phys. Rev. 40 (1932) 207, from memory): what is not the same in all of them widens the interval.
 */
static double apart(const Sums *sums)
{
    double chi = sums->squares - sums->sum * sums->sum / sums->weights;
    return sums->events > 1 ? sqrt(fmax(1.0, chi / (sums->events - 1))) : 1.0;
}

/* The mean of the events, with a prior about 0 once. */
typedef struct Told {
    double mean, sd;
} Told;

static Told with_prior(const Sums *sums, double prior_sd)
{
    double wide = apart(sums), told = sums->weights / (wide * wide);
    double weights = told + 1.0 / (prior_sd * prior_sd);
    return (Told){sums->sum / (wide * wide) / weights, 1.0 / sqrt(weights)};
}

/* ---- scatter: the hits of balls thrown one after the other ---- */

/* What is tried: factors of the bag's scatter of launch and laydown, by equal steps of their
 * logarithm; and launches beside the one that was meant, which stand for all that a lane differs in
 * from its numbers. */
enum { FACTORS = 13, FAN = 121 };
#define FACTOR_FIRST 0.4
#define FACTOR_LAST 2.5
/* Of the logarithm: how far bowlers are from what is usual (assumed), how wrong a lane that is not
 * as modelled makes one event's, and all events' alike, however many they are (both from made
 * events, docs/learnt.md). */
#define FACTOR_SD 0.5
#define MISFIT_SD 0.2
#define MISFIT_ALL_SD 0.3
#define FAN_STEP_DEG 0.05
#define EYE_BOARDS 0.5 /* error of the eye; this and the next ones assumed, as in belief.c */
#define NAMED_AT_RANDOM 0.02
#define BAD_SHARE 0.03  /* of releases that were bad and not said to be, */
#define BAD_WIDE 3.0    /* so much wider */
#define DRIFT_DEG 0.04  /* of the lane from ball to ball, where the line stays, */
#define MOVE_DEG 0.08   /* and where it moves */
#define JUMP_SHARE 0.01 /* the lane changes at once, or the bowler: anywhere is possible */

static double factor_at(int i)
{
    return FACTOR_FIRST * pow(FACTOR_LAST / FACTOR_FIRST, i / (FACTORS - 1.0));
}

static double fan_deg(int i)
{
    const int middle = FAN / 2;
    return FAN_STEP_DEG * (i - middle);
}

/* Which of the fan the lane stands at, and how likely, for each factor. */
typedef struct Level {
    double chance[FACTORS][FAN];
} Level;

/* A line on the lane as it is thought to be: where each launch ends, NAN: in the gutter; how far
 * speed and revs scatter it at the pins; and what launch and laydown scatter, as a launch. */
typedef struct LineFan {
    double board[FAN], rest, aimed_deg;
} LineFan;

/* The mean of its neighbours, by a bell of `sd` places. */
static void spread(const double from[FAN], double sd, double share, double to[FAN])
{
    double bell[FAN], sum = 0.0;
    int reach = (int)fmin(ceil(3.0 * sd), FAN - 1.0);
    for (int d = 0; d <= reach; d++) {
        bell[d] = exp(-0.5 * d * d / (sd * sd));
        sum += d > 0 ? 2.0 * bell[d] : bell[d];
    }
    for (int i = 0; i < FAN; i++)
        for (int d = -reach; d <= reach; d++) {
            int at = i + d < 0 ? 0 : i + d >= FAN ? FAN - 1 : i + d;
            to[i] += share * from[at] * bell[abs(d)] / sum;
        }
}

static double named(Hit hit, double board, double sd)
{
    double low, high;
    if (isnan(board) || hit == HIT_GUTTER)
        return isnan(board) && hit == HIT_GUTTER;
    shot_hit_span(hit, &low, &high);
    return normal_below((high - board) / sd) - normal_below((low - board) / sd);
}

/* Weighs one more hit; adds to the logarithms how likely it was for each factor. */
static void weigh_hit(Level *level, Hit hit, const LineFan *fan, double likely[FACTORS])
{
    for (int f = 0; f < FACTORS; f++) {
        double factor = factor_at(f), sd = factor * fan->aimed_deg / FAN_STEP_DEG, total = 0.0;
        double seen[FAN], thrown[FAN] = {0};
        for (int i = 0; i < FAN; i++)
            seen[i] = (1.0 - NAMED_AT_RANDOM) *
                          named(hit, fan->board[i], hypot(factor * fan->rest, EYE_BOARDS)) +
                      NAMED_AT_RANDOM / (HIT_COUNT - 1);
        spread(seen, fmax(sd, 0.1), 1.0 - BAD_SHARE, thrown);
        spread(seen, fmax(BAD_WIDE * sd, 0.1), BAD_SHARE, thrown);
        for (int i = 0; i < FAN; i++)
            total += level->chance[f][i] *= thrown[i];
        for (int i = 0; i < FAN; i++)
            level->chance[f][i] /= total;
        likely[f] += log(total);
    }
}

/* The lane goes on from one ball to the next. */
static void drift(Level *level, double deg)
{
    for (int f = 0; f < FACTORS; f++) {
        double moved[FAN] = {0};
        spread(level->chance[f], deg / FAN_STEP_DEG, 1.0 - JUMP_SHARE, moved);
        for (int i = 0; i < FAN; i++)
            level->chance[f][i] = moved[i] + JUMP_SHARE / FAN;
    }
}

static void begin_level(Level *level)
{
    for (int f = 0; f < FACTORS; f++)
        for (int i = 0; i < FAN; i++)
            level->chance[f][i] = 1.0 / FAN;
}

/* ---- the job ---- */

typedef struct BallSums {
    Sums boards; /* without the prior */
    int shots;
    double slope; /* boards a unit of cover_strength, summed over the shots */
} BallSums;

/* A ball on its line. */
typedef struct Thrown {
    const Shot *shot; /* NULL: none yet */
    Ball ball;
    LineFan fan;
} Thrown;

struct LearntJob {
    Bag bag;
    AdviceJob *advice;
    const Session *session; /* being weighed; NULL: none */
    int read;               /* its shots that were read after weighing; -1: still weighing */
    int events;
    Sums mph, scatter; /* the latter: logarithms of factors, without the prior */
    BallSums ball[BAG_BALLS_MAX];
    int scatter_shots;       /* of this event */
    double likely[FACTORS];  /* their hits' logarithms */
    Level level[SIDE_COUNT]; /* of the balls thrown alike on each lane */
    Thrown last[SIDE_COUNT];
    BatchOil film[SIDE_COUNT];
};

LearntJob *learnt_new(void)
{
    LearntJob *job = calloc(1, sizeof *job);
    if (job && !(job->advice = advice_job_new())) {
        free(job);
        return NULL;
    }
    return job;
}

void learnt_free(LearntJob *job)
{
    if (job)
        advice_job_free(job->advice);
    free(job);
}

void learnt_begin(LearntJob *job, const Bag *bag)
{
    AdviceJob *advice = job->advice;
    memset(job, 0, sizeof *job);
    job->advice = advice;
    job->bag = *bag;
}

int learnt_events(const LearntJob *job) { return job->events; }

bool learnt_event(LearntJob *job, const Session *session)
{
    if (session->shot_count == session->warm_up_count)
        return false;
    AdviceInput input = advice_input(session, session->lane, &session->plan[session->lane], NULL);
    advice_begin(job->advice, &input);
    job->session = session;
    job->read = -1;
    return true;
}

/* ---- speed ---- */

static void read_speeds(LearntJob *job)
{
    const Session *session = job->session;
    double spread = job->bag.bowler.scatter.mph, sum = 0.0;
    int count = 0;
    for (int i = 0; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        if (shot->mph <= 0.0 || !shot_good(shot))
            continue;
        sum += shot->mph - shot->mph_change;
        count++;
    }
    if (count >= SPEEDS_LEAST)
        add(&job->mph, sum / count, DAY_MPH * DAY_MPH + spread * spread / count, count);
}

/* ---- balls ---- */

static int bag_index(const Bag *bag, const char *id)
{
    int at = 0;
    while (at < bag->count && strcmp(bag->balls[at].id, id) != 0)
        at++;
    return at < bag->count ? at : -1;
}

/* What the event said of a ball: the belief's estimate without its prior, so that the events can be
 * added up. */
static void read_ball(LearntJob *job, const char *id, int which)
{
    const OffsetsAt own = {.count = 1, .index = {OFFSETS_FIRST_BALL + which - 1}, .share = {1.0}};
    int at = bag_index(&job->bag, id), shots = 0;
    Estimate off = belief_off(advice_belief(job->advice), &own);
    double told = 1.0 / (off.sd * off.sd) - 1.0 / (BALL_SD * BALL_SD);
    for (int i = 0; i < job->session->shot_count; i++) {
        const Ball *ball = session_ball(job->session, &job->session->shots[i]);
        shots += ball && strcmp(ball->id, id) == 0;
    }
    if (at >= 0 && told > 0.01)
        add(&job->ball[at].boards, off.mean / (off.sd * off.sd) / told, 1.0 / told, shots);
}

static void read_balls(LearntJob *job)
{
    const Belief *belief = advice_belief(job->advice);
    for (int which = 1; which <= belief->ball_count; which++)
        read_ball(job, belief->ball_id[which - 1], which);
}

/* ---- shot by shot ---- */

static bool same_line(const Shot *a, const Shot *b)
{
    return a->stance == b->stance && a->aim == b->aim && a->mph_change == b->mph_change &&
           a->loft_change_ft == b->loft_change_ft &&
           a->rotation_change_deg == b->rotation_change_deg;
}

/* One standard deviation more of speed and revs, and a stronger cover. */
enum { MEANT, SPEED, REVS, WAYS };

/* Boards at the pins to which a degree of launch comes on a straight line; a board of laydown comes
 * to one. */
static double boards_a_degree(void)
{
    return m_from_ft(LANE_LENGTH_FT) * tan(rad_from_deg(1.0)) / LANE_BOARD_M;
}

static double differs(const Arrival *a, const Arrival *b)
{
    return a->gutter || b->gutter ? 0.0 : a->board - b->board;
}

static void roll_fan(const LearntJob *job, const Shot *shot, const BatchBall *batch, LineFan *fan,
                     Delivery *best)
{
    Plan plan = {.stance = shot->stance,
                 .aim = shot->aim,
                 .mph_change = shot->mph_change,
                 .loft_change_ft = shot->loft_change_ft,
                 .rotation_change_deg = shot->rotation_change_deg};
    DeliveryOffset today = belief_today(advice_belief(job->advice));
    Delivery meant = plan_today(&job->session->bag.bowler, &plan, &today);
    BatchThrow throws[FAN];
    Arrival arrivals[FAN];
    double nearest = INFINITY;
    for (int i = 0; i < FAN; i++) {
        throws[i] = (BatchThrow){.delivery = meant, .film_scale = 1.0f, .dry_scale = 1.0f};
        throws[i].delivery.launch_deg += fan_deg(i);
    }
    batch_arrive(batch, &job->film[shot->lane], throws, FAN, arrivals);
    *best = meant;
    for (int i = 0; i < FAN; i++) {
        fan->board[i] = arrivals[i].gutter ? NAN : arrivals[i].board;
        double away = fabs(fan->board[i] - 0.5 * (LANE_POCKET_LOW + LANE_POCKET_HIGH));
        if (away < nearest) {
            nearest = away;
            *best = throws[i].delivery;
        }
    }
}

/* Rolls a shot's line; the slope is in boards a unit of cover_strength. */
static void roll_line(const LearntJob *job, const Shot *shot, const Ball *ball, LineFan *fan,
                      double *slope)
{
    const Scatter *scatter = &job->bag.bowler.scatter;
    BatchThrow throws[WAYS];
    Arrival arrivals[WAYS], stronger;
    MotionBody body;
    BatchBall batch;
    Delivery best;
    Ball more = *ball;
    motion_body(ball, &body);
    batch_ball(&body, &batch);
    roll_fan(job, shot, &batch, fan, &best);
    for (int i = 0; i < WAYS; i++)
        throws[i] = (BatchThrow){.delivery = best, .film_scale = 1.0f, .dry_scale = 1.0f};
    throws[SPEED].delivery.mph += scatter->mph;
    throws[REVS].delivery.rpm += scatter->rpm;
    batch_arrive(&batch, &job->film[shot->lane], throws, WAYS, arrivals);
    fan->rest = hypot(differs(&arrivals[SPEED], &arrivals[MEANT]),
                      differs(&arrivals[REVS], &arrivals[MEANT]));
    fan->aimed_deg = hypot(scatter->launch_deg, scatter->laydown_boards / boards_a_degree());
    more.cover_strength += STRENGTH_STEP;
    motion_body(&more, &body);
    batch_ball(&body, &batch);
    batch_arrive(&batch, &job->film[shot->lane], throws, 1, &stronger);
    *slope = differs(&stronger, &arrivals[MEANT]) / STRENGTH_STEP;
}

static void read_slope(LearntJob *job, const Ball *ball, double slope)
{
    int at = bag_index(&job->bag, ball->id);
    if (at >= 0 && slope > 0.0) {
        job->ball[at].slope += slope;
        job->ball[at].shots++;
    }
}

/* The level goes on from the last ball on that lane, or begins with another ball. */
static void read_shot(LearntJob *job, const Shot *shot)
{
    Thrown *last = &job->last[shot->lane];
    Level *level = &job->level[shot->lane];
    Ball ball;
    double slope;
    if (shot->stance == 0.0 || shot->aim == 0.0 || !shot_ball(shot, &job->session->bag, &ball))
        return;
    bool same = last->shot && strcmp(last->ball.id, ball.id) == 0 &&
                ball_same_surface(&last->ball.surface, &ball.surface);
    bool stays = same && same_line(last->shot, shot);
    if (!stays) {
        roll_line(job, shot, &ball, &last->fan, &slope);
        read_slope(job, &ball, slope);
    }
    last->shot = shot;
    last->ball = ball;
    if (same)
        drift(level, stays ? DRIFT_DEG : MOVE_DEG);
    else
        begin_level(level);
    if (shot->hit == HIT_UNSAID || !shot_good(shot) || !(last->fan.aimed_deg > 0.0))
        return;
    job->scatter_shots += same;
    weigh_hit(level, shot->hit, &last->fan, job->likely);
}

static void begin_reading(LearntJob *job)
{
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        Oil film;
        belief_film(advice_belief(job->advice), (Side)lane, &film);
        batch_oil(&film, BATCH_QUICK, &job->film[lane]);
        job->last[lane].shot = NULL;
    }
    read_speeds(job);
    read_balls(job);
    memset(job->likely, 0, sizeof job->likely);
    job->scatter_shots = 0;
    job->events++;
    job->read = 0;
}

/* What the event said of the scatter, without the prior. */
static void read_scatter(LearntJob *job)
{
    double weights = 0.0, sum = 0.0, squares = 0.0, most = -INFINITY;
    for (int f = 0; f < FACTORS; f++) {
        double z = log(factor_at(f)) / FACTOR_SD;
        job->likely[f] -= 0.5 * z * z;
        most = fmax(most, job->likely[f]);
    }
    for (int f = 0; f < FACTORS; f++) {
        double weight = exp(job->likely[f] - most), at = log(factor_at(f));
        weights += weight;
        sum += weight * at;
        squares += weight * at * at;
    }
    double mean = sum / weights, variance = squares / weights - mean * mean;
    double told = 1.0 / variance - 1.0 / (FACTOR_SD * FACTOR_SD);
    if (job->scatter_shots > 0 && told > 0.01)
        add(&job->scatter, mean / variance / told, 1.0 / told + MISFIT_SD * MISFIT_SD,
            job->scatter_shots);
}

bool learnt_step(LearntJob *job)
{
    if (!job->session)
        return false;
    if (job->read < 0) {
        if (!advice_weigh(job->advice))
            begin_reading(job);
        return true;
    }
    if (job->read < job->session->shot_count) {
        read_shot(job, &job->session->shots[job->read++]);
        return true;
    }
    read_scatter(job);
    job->session = NULL;
    return false;
}

/* ---- what it comes to ---- */

static bool outside(double value, double low, double high) { return value < low || value > high; }

static bool say_mph(const LearntJob *job, LearntValue *value)
{
    const Sums *sums = &job->mph;
    if (sums->events < LEARNT_EVENTS_LEAST)
        return false;
    double mean = sums->sum / sums->weights, sd = apart(sums) / sqrt(sums->weights);
    *value =
        (LearntValue){.kind = LEARNT_MPH,
                      .now = job->bag.bowler.mph,
                      .to = fmax(BOWLER_MPH_LOW, fmin(round(10.0 * mean) / 10.0, BOWLER_MPH_HIGH)),
                      .low = mean - Z95 * sd,
                      .high = mean + Z95 * sd,
                      .shots = sums->shots,
                      .events = sums->events};
    value->offered = outside(value->now, value->low, value->high) &&
                     fabs(value->to - value->now) >= LEARNT_LEAST_MPH - 1e-9;
    return true;
}

static bool say_scatter(const LearntJob *job, LearntValue *value)
{
    const Sums *sums = &job->scatter;
    double now = measure_scatter_at_arrows(&job->bag.bowler.scatter);
    if (sums->events < LEARNT_EVENTS_LEAST || !(now > 0.0))
        return false;
    Told told = with_prior(sums, FACTOR_SD);
    told.sd = hypot(told.sd, MISFIT_ALL_SD);
    *value = (LearntValue){.kind = LEARNT_SCATTER,
                           .now = now,
                           .to = round(10.0 * now * exp(told.mean)) / 10.0,
                           .low = now * exp(told.mean - Z95 * told.sd),
                           .high = now * exp(told.mean + Z95 * told.sd),
                           .shots = sums->shots,
                           .events = sums->events};
    value->offered = outside(now, value->low, value->high) && value->to > 0.0 &&
                     fabs(value->to - now) >= LEARNT_LEAST_ARROWS_BOARDS;
    return true;
}

static bool say_ball(const LearntJob *job, int at, LearntValue *value)
{
    const BallSums *own = &job->ball[at];
    const Sums *sums = &own->boards;
    if (sums->events < LEARNT_EVENTS_LEAST || own->shots == 0)
        return false;
    Told told = with_prior(sums, BALL_SD);
    double now = job->bag.balls[at].cover_strength;
    double to = now + told.mean / (own->slope / own->shots);
    *value = (LearntValue){
        .kind = LEARNT_BALL,
        .ball = at,
        .now = now,
        .to = fmax(BALL_STRENGTH_MIN, fmin(round(1000.0 * to) / 1000.0, BALL_STRENGTH_MAX)),
        .boards = told.mean,
        .low = told.mean - Z95 * told.sd,
        .high = told.mean + Z95 * told.sd,
        .shots = sums->shots,
        .events = sums->events};
    value->offered = outside(0.0, value->low, value->high) &&
                     fabs(told.mean) >= LEARNT_LEAST_HIT_BOARDS && value->to != now;
    return true;
}

int learnt_values(const LearntJob *job, LearntValue out[LEARNT_MAX])
{
    int count = 0;
    if (job->events < LEARNT_EVENTS_LEAST)
        return 0;
    count += say_mph(job, &out[count]);
    count += say_scatter(job, &out[count]);
    for (int i = 0; i < job->bag.count; i++)
        count += say_ball(job, i, &out[count]);
    return count;
}

void learnt_take(const LearntValue *value, Bag *bag)
{
    taken_over(bag, value->kind, value->ball,
               value->kind == LEARNT_SCATTER ? value->to / value->now : value->to);
}

void learnt_words(const LearntValue *value, const Bag *bag, char *out, unsigned long size)
{
    const Ball *ball = value->kind == LEARNT_BALL ? &bag->balls[value->ball] : NULL;
    out[0] = '\0';
    switch (value->kind) {
    case LEARNT_MPH:
        text_append(out, size, "You throw %.1f mph, not %.4g (%d shots).", value->to, value->now,
                    value->shots);
        break;
    case LEARNT_SCATTER:
        text_append(out, size, "You scatter %.1f boards at the arrows, not %.1f (%d shots).",
                    value->to, value->now, value->shots);
        break;
    case LEARNT_BALL:
        text_append(out, size, "Your %s hits %.1f board%s %s than its numbers (%d shots).",
                    ball->name, fabs(value->boards), fabs(value->boards) >= 0.95 ? "s" : "",
                    value->boards > 0.0 ? "higher" : "lighter", value->shots);
        break;
    }
}
