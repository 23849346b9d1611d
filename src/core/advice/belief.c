/* belief.c - the particle filter. */
#include "core/advice/belief.h"

#include <math.h>
#include <string.h>

#include "base/normal.h"
#include "base/text.h"
#include "base/units.h"
#include "core/pins/rack.h"

/* Prior spreads (assumed; rehearsals tune them, docs/advice.md). */
#define VOLUME_COMMON_SD 0.14 /* log; how far what was laid may be from the sheet */
#define VOLUME_LANE_SD 0.07   /* log; one lane of the pair against the other */
#define DRY_COMMON_SD 0.07    /* log; the house's lane surface */
#define DRY_LANE_SD 0.03
#define MPH_SD 0.25 /* the bowler's day against their usual */
#define LAUNCH_SD_DEG 0.08
#define LANE_BOARDS_SD                                                                             \
    0.5 /* at the pins: what the model leaves unexplained of a lane, of a ball                     \
         */
#define BALL_BOARDS_SD 0.9
static const double PICK_RATE[BELIEF_PICKS] = {0.5, 0.72, 1.0, 1.4, 2.0};
static const double PICK_PRIOR[BELIEF_PICKS] = {0.12, 0.23, 0.30, 0.23, 0.12};
static const double CARRY_RATE[BELIEF_CARRIES] = {0.3, 1.0, 3.0};
static const double CARRY_PRIOR[BELIEF_CARRIES] = {0.25, 0.5, 0.25};

/* Evidence (assumed). */
#define HIT_SEEN_BOARDS 0.5 /* error of the eye */
#define HIT_RANDOM 0.04     /* share of reported hits that mean nothing */
#define READ_STEP_FT 2.0    /* a difference a bowler would call early or late */
#define READ_SOFT_FT 0.8
#define READ_RANDOM 0.15
#define SPEED_SEEN_MPH 0.2
#define ARROWS_SEEN_BOARDS 0.8
#define BREAKPOINT_SEEN_BOARDS 2.0 /* nobody sees it well */
#define SIGHT_RANDOM 0.05          /* share of boards seen that mean nothing */
/* A hit shows what a film does, not how thick it is: the share of the film between ball and lane is
 * known no better than this. */
#define FILM_UNTOLD 0.15
#define BAD_SHIFT 2.0 /* a bad release is off by that many standard deviations ... */
#define BAD_WIDE 2.0  /* ... and scatters that much wider */
#define OFF_WIDE 3.0
#define RESAMPLE_BELOW 0.5 /* share of particles that still count */
#define FRESH_SHARE                                                                                \
    0.02               /* replaced by new draws from the prior when resampling: keeps the tails    \
                        */
#define SHRINK 0.97    /* each is drawn toward the mean, so that jitter widens nothing */
#define MPH_DRIFT 0.03 /* a shot's random walk of the bowler's day */
#define LAUNCH_DRIFT_DEG 0.01
#define OTHERS_SEED 0x0be5u   /* who the others are, as far as nobody knows */
#define OTHERS_SEEK 2         /* of them look for a line after each shot */
#define SETTLE_AT_ONCE 3      /* of them find a line in a step, before the first shot */
#define LANE_DRIFT_BOARDS 0.1 /* and of the unexplained part of a lane */

static int pick_from(Rng *rng, const double *chances, int count)
{
    double u = rng_uniform(rng);
    int i = 0;
    while (i < count - 1 && u >= chances[i])
        u -= chances[i++];
    return i;
}

static Particle prior_draw(Rng *rng)
{
    Particle p = {.weight = 1.0 / BELIEF_PARTICLES};
    double volume = VOLUME_COMMON_SD * rng_normal(rng), dry = DRY_COMMON_SD * rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        p.part[PART_VOLUME + lane] = exp(volume + VOLUME_LANE_SD * rng_normal(rng));
        p.part[PART_DRY + lane] = exp(dry + DRY_LANE_SD * rng_normal(rng));
    }
    p.part[PART_MPH] = MPH_SD * rng_normal(rng);
    p.part[PART_LAUNCH_DEG] = LAUNCH_SD_DEG * rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        p.part[PART_LANE_BOARDS + lane] = LANE_BOARDS_SD * rng_normal(rng);
    for (int ball = 0; ball < BELIEF_BALLS; ball++)
        p.part[PART_BALL_BOARDS + ball] = BALL_BOARDS_SD * rng_normal(rng);
    int pick = pick_from(rng, PICK_PRIOR, BELIEF_PICKS);
    p.film = pick * BELIEF_CARRIES + pick_from(rng, CARRY_PRIOR, BELIEF_CARRIES);
    return p;
}

/* By film, so that a batch of particles shares one; particles with the same film keep their order.
 */
static void sort_by_film(Particle *particles)
{
    Particle old[BELIEF_PARTICLES];
    int next[BELIEF_FILMS + 1] = {0}; /* where the next of each film goes */
    memcpy(old, particles, sizeof old);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        next[old[i].film + 1]++;
    for (int film = 0; film < BELIEF_FILMS; film++)
        next[film + 1] += next[film];
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        particles[next[old[i].film]++] = old[i];
}

void belief_begin(Belief *belief, const Oil *sheet_in_frame, uint64_t seed)
{
    memset(belief, 0, sizeof *belief);
    belief->rng = rng_seed(seed);
    belief->sheet = *sheet_in_frame;
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        for (int f = 0; f < BELIEF_FILMS; f++)
            belief->film[lane][f] = *sheet_in_frame;
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        belief->particles[i] = prior_draw(&belief->rng);
    sort_by_film(belief->particles);
}

/* How a throw may differ from what was intended, and what that does. */
typedef struct Spread {
    double mph_shift, launch_shift_deg; /* from the reported release */
    double boards;                      /* standard deviation of the hit from throw to throw */
    double far_boards;                  /* of the breakpoint */
    double arrows;                      /* of the board seen at the arrows */
    double hit_pull, far_pull;          /* boards that hit and breakpoint shift per board there */
} Spread;

/* Turns the reported release into shifts; returns how much wider than usual it scatters. */
static double read_release(const Scatter *s, Release release, Spread *spread)
{
    switch (release) {
    case RELEASE_INSIDE: /* pulled: less toward the bowler's own gutter */
        spread->launch_shift_deg = -BAD_SHIFT * s->launch_deg;
        return BAD_WIDE;
    case RELEASE_OUTSIDE:
        spread->launch_shift_deg = BAD_SHIFT * s->launch_deg;
        return BAD_WIDE;
    case RELEASE_FAST:
        spread->mph_shift = BAD_SHIFT * s->mph;
        return BAD_WIDE;
    case RELEASE_SLOW:
        spread->mph_shift = -BAD_SHIFT * s->mph;
        return BAD_WIDE;
    case RELEASE_OFF:
        return OFF_WIDE;
    default:
        return 1.0;
    }
}

/* One standard deviation each of launch, speed, revs and laydown, rolled; and the intended throw,
 * last. */
enum { LAUNCH, SPEED, REVS, LAYDOWN, WAYS };
typedef struct Ways {
    BatchThrow throws[WAYS + 1];
    Arrival at[WAYS + 1];
} Ways;

static void roll_ways(const BatchBall *batch, const BatchOil *film, const Scatter *scatter,
                      const Delivery *delivery, Ways *ways)
{
    for (int i = 0; i <= WAYS; i++)
        ways->throws[i] =
            (BatchThrow){.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
    ways->throws[LAUNCH].delivery.launch_deg += fmax(scatter->launch_deg, 0.01);
    ways->throws[SPEED].delivery.mph += scatter->mph;
    ways->throws[REVS].delivery.rpm += scatter->rpm;
    ways->throws[LAYDOWN].delivery.laydown_board += scatter->laydown_boards;
    batch_arrive(batch, film, ways->throws, WAYS + 1, ways->at);
}

/* Sums over the ways: squares of hit, breakpoint and board at the arrows, and the products of the
 * first two with the last. */
typedef struct Sums {
    double hit, far, crossed, hit_with, far_with;
} Sums;

static double aim_of(const Delivery *delivery)
{
    return delivery_aim_board(delivery->laydown_board, delivery->launch_deg);
}

static Sums sum_ways(const Ways *ways, bool speed_seen)
{
    Sums sums = {0};
    const Arrival *meant = &ways->at[WAYS];
    for (int i = 0; i < WAYS; i++) {
        if (i == SPEED && speed_seen) /* no longer unknown */
            continue;
        bool lost = ways->at[i].gutter || meant->gutter;
        double hit = lost ? 1.0 : ways->at[i].board - meant->board;
        double far = lost ? 1.0 : ways->at[i].breakpoint - meant->breakpoint;
        double arrows = aim_of(&ways->throws[i].delivery) - aim_of(&ways->throws[WAYS].delivery);
        sums.hit += hit * hit;
        sums.far += far * far;
        sums.hit_with += hit * arrows;
        sums.far_with += far * arrows;
        sums.crossed += arrows * arrows;
    }
    return sums;
}

/* How far a throw scatters at the pins, the breakpoint and the arrows. What was seen reduces the
 * scatter: a measured speed removes its part entirely, the board at the arrows as much as a linear
 * estimate can (launch and laydown show there). */
static Spread spread_of(const BatchBall *batch, const BatchOil *film, const Bowler *bowler,
                        const Delivery *delivery, const Shot *shot)
{
    Ways ways;
    Spread spread = {0};
    roll_ways(batch, film, &bowler->scatter, delivery, &ways);
    Sums sums = sum_ways(&ways, shot->mph > 0.0);
    double wide = read_release(&bowler->scatter, shot->release, &spread), square = wide * wide;
    spread.arrows = sqrt(square * sums.crossed + ARROWS_SEEN_BOARDS * ARROWS_SEEN_BOARDS);
    if (shot->arrows > 0.0) {
        spread.hit_pull = square * sums.hit_with / (spread.arrows * spread.arrows);
        spread.far_pull = square * sums.far_with / (spread.arrows * spread.arrows);
    }
    double hit = square * sums.hit - spread.hit_pull * square * sums.hit_with;
    double far = square * sums.far - spread.far_pull * square * sums.far_with;
    spread.boards = sqrt(fmax(hit, 0.01));
    spread.far_boards = hypot(sqrt(fmax(far, 0.0)), BREAKPOINT_SEEN_BOARDS);
    return spread;
}

/* Chance that a bowler gives a hit on `board` this name, seeing it with an error of `sd` boards. */
static double named_chance(Hit hit, double board, double sd)
{
    double low, high;
    shot_hit_span(hit, &low, &high);
    double said = normal_below((high - board) / sd) - normal_below((low - board) / sd);
    return (1.0 - HIT_RANDOM) * said + HIT_RANDOM / (HIT_COUNT - 1);
}

/* What a leave says about the board that was hit: the rack's likelihood, every quarter board. */
enum { LEAVE_FIRST = 10, LEAVE_PLACES = 81 }; /* boards 10 to 30 */
typedef struct LeaveTable {
    bool said;
    double chance[LEAVE_PLACES];
} LeaveTable;

static void leave_table(const Shot *shot, const Bowler *bowler, double pounds, double degrees,
                        double mph, LeaveTable *table)
{
    Pins left = bowler->hand == HAND_LEFT ? lane_mirror_pins(shot->left) : shot->left;
    /* all ten standing means gutter or a miss, which the hit says better; without an entry angle
     * the table can't be read */
    table->said = shot->left_said && left != PINS_ALL && isfinite(degrees);
    for (int i = 0; table->said && i < LEAVE_PLACES; i++)
        table->chance[i] =
            rack_leave_likelihood(left, LEAVE_FIRST + 0.25 * i, degrees, mph, pounds);
}

static double leave_at(const LeaveTable *table, double board)
{
    int i = (int)((board - LEAVE_FIRST) * 4.0 + 0.5);
    return table->chance[i < 0 ? 0 : i >= LEAVE_PLACES ? LEAVE_PLACES - 1 : i];
}

/* Chance of what was seen at the pins: hit and leave follow from one board, which is not known
 * better than the throw's scatter. */
static double pins_chance(const Shot *shot, const Arrival *arrival, const LeaveTable *leaves,
                          double sd)
{
    double board = arrival->gutter ? 0.0 : arrival->board, eye = HIT_SEEN_BOARDS;
    if (shot->hit == HIT_GUTTER) {
        double said = arrival->gutter ? 0.9 : normal_below((2.0 - board) / sd);
        return (1.0 - HIT_RANDOM) * said + HIT_RANDOM / (HIT_COUNT - 1);
    }
    if (!leaves->said)
        return shot->hit == HIT_UNSAID ? 1.0 : named_chance(shot->hit, board, hypot(sd, eye));
    double sum = 0.0, weights = 0.0;
    for (int k = -5; k <= 5; k++) {
        double z = 0.5 * k, weight = exp(-0.5 * z * z), at = board + z * sd;
        double hit = shot->hit == HIT_UNSAID ? 1.0 : named_chance(shot->hit, at, eye);
        sum += weight * hit * leave_at(leaves, at);
        weights += weight;
    }
    return sum / weights;
}

static double read_chance(Read read, double feet_later)
{
    double early = 1.0 / (1.0 + exp((feet_later + READ_STEP_FT) / READ_SOFT_FT));
    double late = 1.0 / (1.0 + exp((READ_STEP_FT - feet_later) / READ_SOFT_FT));
    double said = read == READ_EARLY ? early : read == READ_ON_TIME ? 1.0 - early - late : late;
    return (1.0 - READ_RANDOM) * fmax(said, 0.0) + READ_RANDOM / 3.0;
}

static double speed_chance(double seen, double expected, double sd)
{
    double away = (seen - expected) / sd;
    return 0.9 * exp(-0.5 * away * away) + 0.1;
}

/* Likelihood of seeing a board `away` from the expected one. */
static double sight_chance(double away, double sd)
{
    away /= sd;
    return (1.0 - SIGHT_RANDOM) * exp(-0.5 * away * away) + SIGHT_RANDOM;
}

/* Rolls the delivery for every particle on its own film. */
static void roll_particles(const Belief *belief, Side lane, int which, const BatchBall *batch,
                           const Delivery *delivery, const Spread *spread, bool speed_seen,
                           Arrival *arrivals)
{
    BatchThrow throws[BELIEF_PARTICLES];
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &belief->particles[i];
        DeliveryOffset offset = {.launch_deg = p->part[PART_LAUNCH_DEG] + spread->launch_shift_deg,
                                 .mph = speed_seen ? 0.0 : p->part[PART_MPH] + spread->mph_shift};
        throws[i] = (BatchThrow){.delivery = delivery_offset(delivery, &offset),
                                 .film_scale = (float)p->part[PART_VOLUME + lane],
                                 .dry_scale = (float)p->part[PART_DRY + lane]};
    }
    for (int first = 0, last; first < BELIEF_PARTICLES; first = last) {
        int film = belief->particles[first].film;
        for (last = first; last < BELIEF_PARTICLES && belief->particles[last].film == film; last++)
            ;
        BatchOil ready;
        batch_oil(&belief->film[lane][film], BATCH_QUICK, &ready);
        batch_arrive(batch, &ready, throws + first, last - first, arrivals + first);
    }
    for (int i = 0; i < BELIEF_PARTICLES; i++) /* NAN in the gutter stays so */
        arrivals[i].board += belief_unexplained(&belief->particles[i], lane, which);
}

/* How far it has hooked by the arrows, boards: a straight line would not cross there. */
static double bent_at_arrows(const Belief *belief, const MotionBody *body, const Delivery *delivery,
                             Side lane)
{
    Oil film;
    Roll roll;
    const int at = (int)(LANE_ARROWS_FT / OIL_STATION_FT);
    belief_film(belief, lane, &film);
    motion_roll(body, &film, delivery, &roll);
    return roll.count > at ? roll.path[at].board -
                                 delivery_aim_board(delivery->laydown_board, delivery->launch_deg)
                           : 0.0;
}

/* Weighs the boards seen on the way, and shifts each particle's hit and breakpoint by what the
 * board at the arrows says about this throw. */
static void weigh_sights(Belief *belief, const MotionBody *body, const Delivery *delivery,
                         const Spread *spread, const Shot *shot, Arrival *arrivals)
{
    double bent = shot->arrows > 0.0 ? bent_at_arrows(belief, body, delivery, shot->lane) : 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        double crossed = 0.0;
        if (shot->arrows > 0.0) {
            double launch =
                delivery->launch_deg + p->part[PART_LAUNCH_DEG] + spread->launch_shift_deg;
            crossed = shot->arrows - bent - delivery_aim_board(delivery->laydown_board, launch);
            p->weight *= sight_chance(crossed, spread->arrows);
            crossed = fmax(-3.0 * spread->arrows, fmin(crossed, 3.0 * spread->arrows));
        }
        if (arrivals[i].gutter)
            continue;
        arrivals[i].board += spread->hit_pull * crossed;
        if (shot->breakpoint > 0.0)
            p->weight *=
                sight_chance(shot->breakpoint - arrivals[i].breakpoint - spread->far_pull * crossed,
                             spread->far_boards);
    }
}

/* Evenly spaced picks by weight, each drawn a little toward the mean and jittered by as much as
 * that took away (Liu and West 2001); a few are new draws from the prior, so that some particle is
 * near any surprise. */
static Particle jittered(Particle p, const Estimate *spread, Rng *rng)
{
    static const double LEAST[PART_MPH] = {0.2, 0.2, 0.5, 0.5}; /* of the scales */
    double jitter = sqrt(1.0 - SHRINK * SHRINK);
    for (int part = 0; part < PART_COUNT; part++) {
        double mean = spread[part].mean, kept = SHRINK * (p.part[part] - mean);
        double value = mean + kept + jitter * spread[part].sd * rng_normal(rng);
        p.part[part] = part < PART_MPH ? fmax(value, LEAST[part]) : value;
    }
    return p;
}

static void resample(Belief *belief)
{
    Particle old[BELIEF_PARTICLES];
    Estimate spread[PART_COUNT];
    memcpy(old, belief->particles, sizeof old);
    for (int part = 0; part < PART_COUNT; part++)
        spread[part] = belief_part(belief, part);
    double at = rng_uniform(&belief->rng) / BELIEF_PARTICLES, sum = old[0].weight;
    int from = 0;
    for (int i = 0; i < BELIEF_PARTICLES; i++, at += 1.0 / BELIEF_PARTICLES) {
        while (sum < at && from < BELIEF_PARTICLES - 1)
            sum += old[++from].weight;
        Particle *p = &belief->particles[i];
        if (rng_uniform(&belief->rng) < FRESH_SHARE) {
            *p = prior_draw(&belief->rng);
            p->film = old[from].film; /* the wear so far stays as likely as it was */
        } else {
            *p = jittered(old[from], spread, &belief->rng);
        }
        p->weight = 1.0 / BELIEF_PARTICLES;
    }
    sort_by_film(belief->particles);
}

/* Mean angle and speed at the pins over those that get there; NAN if none does. */
static void mean_arrival(const Belief *belief, const Arrival *arrivals, double *degrees,
                         double *mph)
{
    double weights = 0.0;
    *degrees = *mph = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        if (!arrivals[i].gutter) {
            *degrees += belief->particles[i].weight * arrivals[i].degrees;
            *mph += belief->particles[i].weight * arrivals[i].mph;
            weights += belief->particles[i].weight;
        }
    *degrees = weights > 0.0 ? *degrees / weights : NAN;
    *mph = weights > 0.0 ? *mph / weights : NAN;
}

int belief_ball(const Belief *belief, const char *id)
{
    int i = 0;
    while (i < belief->ball_count && strcmp(belief->ball_id[i], id) != 0)
        i++;
    return i < BELIEF_BALLS ? i + 1 : 0;
}

static int note_ball(Belief *belief, const char *id)
{
    int which = belief_ball(belief, id);
    if (which > belief->ball_count) {
        text_copy(belief->ball_id[belief->ball_count], sizeof belief->ball_id[0], id);
        belief->ball_count = which;
    }
    return which;
}

/* Where the ball made its move; past the pins if it never does. */
static double move_ft(const Arrival *arrival)
{
    return isnan(arrival->hook_ft) ? LANE_LENGTH_FT : arrival->hook_ft;
}

/* A throw being weighed. */
typedef struct Throw {
    const Bowler *bowler;
    const Ball *ball;
    const MotionBody *body;
    const BatchBall *batch;
    const Delivery *delivery;
    const Shot *shot;
} Throw;

/* Weighs the read. A read is about the lane, so it is compared with the move at the bowler's usual
 * speed (or the speed seen). Otherwise, in oil so heavy that the first move depends on speed alone,
 * "early" would mean slow, slow would more than explain a high hit, and the film would come out
 * thicker. And "early" means earlier than expected of that ball and line when it was thrown. */
static void read_chances(const Belief *belief, const Throw *t, int which, const Spread *spread,
                         const Arrival *as_thrown, double chances[BELIEF_PARTICLES])
{
    const Shot *shot = t->shot;
    Arrival as_usual[BELIEF_PARTICLES];
    const Arrival *moves = as_thrown;
    bool said = shot->read != READ_UNSAID && shot->release != RELEASE_OFF;
    if (said && shot->mph <= 0.0) {
        roll_particles(belief, shot->lane, which, t->batch, t->delivery, spread, true, as_usual);
        moves = as_usual;
    }
    double expected = 0.0;
    for (int i = 0; said && i < BELIEF_PARTICLES; i++)
        expected += belief->particles[i].weight * move_ft(&moves[i]);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        chances[i] = said ? read_chance(shot->read, move_ft(&moves[i]) - expected) : 1.0;
}

/* Weighs the pins and the speed seen, on top of the read's chances. */
static void weigh_rest(Belief *belief, const Throw *t, const Spread *spread,
                       const Arrival *arrivals, const double read[BELIEF_PARTICLES])
{
    LeaveTable leaves;
    double degrees = 0.0, mph = 0.0;
    mean_arrival(belief, arrivals, &degrees, &mph);
    leave_table(t->shot, t->bowler, t->ball->pounds, degrees, mph, &leaves);
    double speed_sd = hypot(t->bowler->scatter.mph, SPEED_SEEN_MPH);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        double chance = pins_chance(t->shot, &arrivals[i], &leaves, spread->boards) * read[i];
        if (t->shot->mph > 0.0)
            chance *= speed_chance(
                t->shot->mph, t->bowler->mph + p->part[PART_MPH] + spread->mph_shift, speed_sd);
        p->weight *= chance;
    }
}

/* Scales the weights to a sum of 1; returns how many particles still count. */
static double settle_weights(Belief *belief)
{
    double total = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        total += belief->particles[i].weight;
    belief->surprise = -log10(fmax(total, 1e-300));
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double *weight = &belief->particles[i].weight;
        *weight = total > 1e-300 ? *weight / total : 1.0 / BELIEF_PARTICLES;
        square += *weight * *weight;
    }
    return 1.0 / square;
}

static void weigh(Belief *belief, const Throw *t)
{
    const Shot *shot = t->shot;
    int which = note_ball(belief, t->ball->id);
    BatchOil middle;
    batch_oil(&belief->film[shot->lane][BELIEF_FILMS / 2], BATCH_QUICK, &middle);
    Spread spread = spread_of(t->batch, &middle, t->bowler, t->delivery, shot);
    Arrival arrivals[BELIEF_PARTICLES];
    double read[BELIEF_PARTICLES];
    roll_particles(belief, shot->lane, which, t->batch, t->delivery, &spread, shot->mph > 0.0,
                   arrivals);
    read_chances(belief, t, which, &spread, arrivals, read);
    weigh_sights(belief, t->body, t->delivery, &spread, shot, arrivals);
    weigh_rest(belief, t, &spread, arrivals, read);
    if (settle_weights(belief) < RESAMPLE_BELOW * BELIEF_PARTICLES)
        resample(belief);
}

static void wear_films(Belief *belief, Side lane, const Track *track, Cover cover)
{
    for (int f = 0; f < BELIEF_FILMS; f++)
        wear_track(&belief->film[lane][f], track, cover,
                   (WearRate){PICK_RATE[f / BELIEF_CARRIES], CARRY_RATE[f % BELIEF_CARRIES]});
}

bool belief_settle(Belief *belief, Hand hand, int bowlers_on_pair)
{
    Others *others = belief->others; /* of both lanes, which are alike before the first ball */
    if (bowlers_on_pair < 2)
        return false;
    for (int lane = 0; lane < SIDE_COUNT && others[lane].count == 0; lane++)
        others_begin_usual(&others[lane], &belief->mix, bowlers_on_pair - 1, hand, OTHERS_SEED,
                           lane);
    int count = others[SIDE_LEFT].count;
    if (belief->settled >= count)
        return false;
    for (int i = 0; i < SETTLE_AT_ONCE && belief->settled < count; i++) {
        int who = belief->settled++;
        others_seek_one(&others[SIDE_LEFT], &belief->sheet, who);
        others[SIDE_RIGHT].who[who] = others[SIDE_LEFT].who[who];
    }
    return true;
}

/* The others between two shots, in turn, on the film as it is on the mean. One of them looks for a
 * new line each time: one after the other, so that no step gets long. */
static void wear_others(Belief *belief, Side lane, const Oil *mean, int count)
{
    Others *others = &belief->others[lane];
    others_seek_one(others, mean, belief->sought[lane]++ % others->count);
    for (int k = 0; k < count; k++) {
        int who = (belief->deliveries[lane] + k) % others->count;
        Track track;
        others_track(others, mean, who, &track);
        wear_films(belief, lane, &track, others->who[who].ball.cover);
    }
}

static void wear(Belief *belief, const Throw *t, int bowlers_on_pair)
{
    Side lane = t->shot->lane;
    Oil mean;
    Roll roll;
    Track track;
    belief_film(belief, lane, &mean);
    motion_roll(t->body, &mean, t->delivery, &roll);
    track_of(&roll, 0.0, &track);
    wear_films(belief, lane, &track, t->ball->cover);
    if (bowlers_on_pair > 1)
        wear_others(belief, lane, &mean, bowlers_on_pair - 1);
    belief->deliveries[lane] += bowlers_on_pair;
}

/* The bowler's day drifts, and a new line is known less well. */
static void drift(Belief *belief, Side lane, double laydown_board)
{
    double *last = &belief->last_laydown[lane];
    double moved = *last > 0.0 ? belief_move_sd(laydown_board - *last) : 0.0;
    *last = laydown_board;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double *part = belief->particles[i].part;
        part[PART_MPH] += MPH_DRIFT * rng_normal(&belief->rng);
        part[PART_LAUNCH_DEG] += LAUNCH_DRIFT_DEG * rng_normal(&belief->rng);
        part[PART_LANE_BOARDS + lane] += hypot(LANE_DRIFT_BOARDS, moved) * rng_normal(&belief->rng);
    }
}

void belief_see(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                const BatchBall *batch, const Shot *shot, int bowlers_on_pair)
{
    Delivery delivery = delivery_of(bowler, shot->stance, shot->aim);
    if (shot->mph > 0.0)
        delivery.mph = shot->mph;
    drift(belief, shot->lane, delivery.laydown_board);
    while (belief_settle(belief, bowler->hand, bowlers_on_pair))
        ;
    Throw thrown = {bowler, ball, body, batch, &delivery, shot};
    weigh(belief, &thrown);
    wear(belief, &thrown, bowlers_on_pair);
    belief->shots++;
}

void belief_played(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                   const Shot *as, int bowlers_on_pair)
{
    Delivery delivery = delivery_of(bowler, as->stance, as->aim);
    while (belief_settle(belief, bowler->hand, bowlers_on_pair))
        ;
    wear(belief, &(Throw){bowler, ball, body, NULL, &delivery, as}, bowlers_on_pair);
}

void belief_film(const Belief *belief, Side lane, Oil *oil)
{
    double share[BELIEF_FILMS] = {0};
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        share[belief->particles[i].film] +=
            belief->particles[i].weight * belief->particles[i].part[PART_VOLUME + lane];
    memset(oil, 0, sizeof *oil);
    oil->length_ft = belief->sheet.length_ft;
    for (int f = 0; f < BELIEF_FILMS; f++)
        if (share[f] > 0.0)
            for (int j = 0; j < OIL_STATIONS; j++)
                for (int b = 0; b < LANE_BOARDS; b++)
                    oil->units[j][b] += share[f] * belief->film[lane][f].units[j][b];
}

static Estimate estimate(double sum, double square)
{
    return (Estimate){sum, sqrt(fmax(0.0, square - sum * sum))};
}

Estimate belief_part(const Belief *belief, int part)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double weight = belief->particles[i].weight, value = belief->particles[i].part[part];
        sum += weight * value;
        square += weight * value * value;
    }
    return estimate(sum, square);
}

DeliveryOffset belief_today(const Belief *belief)
{
    return (DeliveryOffset){.mph = belief_part(belief, PART_MPH).mean,
                            .launch_deg = belief_part(belief, PART_LAUNCH_DEG).mean};
}

Estimate belief_wear(const Belief *belief)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double rate = PICK_RATE[belief->particles[i].film / BELIEF_CARRIES];
        sum += belief->particles[i].weight * rate;
        square += belief->particles[i].weight * rate * rate;
    }
    return estimate(sum, square);
}

static double mean_film(const Oil *oil, int low, int high, double from_ft, double to_ft)
{
    double sum = 0.0;
    int count = 0;
    for (int j = (int)(from_ft / OIL_STATION_FT); j <= (int)(to_ft / OIL_STATION_FT); j++)
        for (int b = low; b <= high; b++, count++)
            sum += oil->units[j][b - 1];
    return count > 0 ? sum / count : 0.0;
}

Estimate belief_track(const Belief *belief, Side lane, int low, int high, double from_ft,
                      double to_ft)
{
    double film[BELIEF_FILMS], sum = 0.0, square = 0.0;
    for (int f = 0; f < BELIEF_FILMS; f++)
        film[f] = mean_film(&belief->film[lane][f], low, high, from_ft, to_ft);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double units =
            belief->particles[i].part[PART_VOLUME + lane] * film[belief->particles[i].film];
        sum += belief->particles[i].weight * units;
        square += belief->particles[i].weight * units * units;
    }
    Estimate told = estimate(sum, square);
    told.sd = hypot(told.sd, FILM_UNTOLD * told.mean);
    return told;
}

void belief_words(const Belief *belief, Side lane, const Roll *path, char *out, size_t size)
{
    double from_ft = 15.0, to_ft = fmin(35.0, belief->sheet.length_ft);
    double low = LANE_BOARDS, high = 1.0;
    for (int i = 0; i < path->count; i++)
        if (path->path[i].ft >= from_ft && path->path[i].ft <= to_ft) {
            low = fmin(low, path->path[i].board);
            high = fmax(high, path->path[i].board);
        }
    out[0] = '\0';
    if (low > high)
        return;
    int first = (int)fmax(1.0, floor(low)), last = (int)fmin(LANE_BOARDS, ceil(high));
    double sheet = mean_film(&belief->sheet, first, last, from_ft, to_ft);
    Estimate now = belief_track(belief, lane, first, last, from_ft, to_ft);
    double change = sheet > 0.0 ? now.mean / sheet - 1.0 : 0.0, size_of = fabs(change);
    const char *how = size_of < 0.08   ? "about as on the sheet"
                      : size_of < 0.17 ? "a little"
                      : size_of < 0.29 ? "about a quarter"
                      : size_of < 0.42 ? "about a third"
                      : size_of < 0.60 ? "about half"
                                       : "far";
    text_append(out, size, "track at %d-%d %s", first, last, how);
    if (size_of >= 0.08)
        text_append(out, size, " %s", change < 0.0 ? "thinner" : "thicker");
    else if (belief->shots > 0) /* no change to speak of yet */
        text_append(out, size, " so far");
}

Estimate belief_off(const Belief *belief, Side lane, int ball)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &belief->particles[i];
        double boards = belief_unexplained(p, lane, ball);
        sum += p->weight * boards;
        square += p->weight * boards * boards;
    }
    return estimate(sum, square);
}

void belief_off_words(Estimate off, char *out, size_t size)
{
    double boards = fabs(off.mean);
    out[0] = '\0';
    if (boards < 0.5 || boards < off.sd) /* too little to mention */
        return;
    text_append(out, size, "hits %s %s here than its numbers say",
                boards < 0.8   ? "half a board"
                : boards < 1.3 ? "a board"
                : boards < 1.8 ? "a board and a half"
                               : "two boards or more",
                off.mean > 0.0 ? "higher" : "lighter");
}

void belief_draw(const Belief *belief, int *indices, int count)
{
    double at = 0.5 / count, sum = belief->particles[0].weight;
    int from = 0;
    for (int i = 0; i < count; i++, at += 1.0 / count) {
        while (sum < at && from < BELIEF_PARTICLES - 1)
            sum += belief->particles[++from].weight;
        indices[i] = from;
    }
}
