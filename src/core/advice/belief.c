/* belief.c - the particle filter. */
#include "core/advice/belief.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/normal.h"
#include "base/text.h"
#include "base/units.h"
#include "core/advice/belief_parts.h"
#include "core/pins/rack.h"

/* Prior spreads, with those of belief_parts.h (assumed; rehearsals tune them, docs/advice.md). */
#define MPH_SD 0.25 /* the bowler's day against their usual */
#define LAUNCH_SD_DEG 0.08
#define LONGER_SD 0.03 /* share of its length that a sheet is wrong by */
static const double PICK_RATE[BELIEF_PICKS] = {0.6, 1.0, 1.7};
static const double PICK_PRIOR[BELIEF_PICKS] = {0.3, 0.4, 0.3};
static const double CARRY_RATE[BELIEF_CARRIES] = {0.5, 2.0};
static const double CARRY_PRIOR[BELIEF_CARRIES] = {0.5, 0.5};

/* Evidence (assumed). */
#define HIT_SEEN_BOARDS 0.5 /* error of the eye */
#define HIT_RANDOM 0.04     /* share of reported hits that mean nothing */
#define READ_STEP_FT 2.0    /* a difference a bowler would call early or late */
#define READ_SOFT_FT 0.8
#define READ_RANDOM 0.15
#define SPEED_SEEN_MPH 0.2
#define SPEED_RANDOM 0.005 /* share of speeds that mean nothing, over their spread */
#define LEAVE_FIRST 10.0   /* boards from which the rack is asked */
#define LEAVE_LAST 30.0
#define ARROWS_SEEN_BOARDS 0.8
#define BREAKPOINT_SEEN_BOARDS 2.0 /* nobody sees it well */
#define SIGHT_RANDOM 0.05          /* share of boards seen that mean nothing */
#define BAD_SHIFT 2.0              /* a bad release is off by that many standard deviations ... */
#define BAD_WIDE 2.0               /* ... and scatters that much wider */
#define OFF_WIDE 3.0
#define RESAMPLE_BELOW 0.5 /* share of particles that still count */
#define FRESH_SHARE 0.02   /* drawn from the prior when resampling: keeps the tails */
#define SHRINK 0.97        /* each is drawn toward the mean, so that jitter widens nothing */
#define MPH_DRIFT 0.03     /* a shot's random walk of the bowler's day */
#define LAUNCH_DRIFT_DEG 0.01
#define OTHERS_SEED 0x0be5u /* who the others are, as far as nobody knows */
#define SETTLE_AT_ONCE 3    /* of them find a line in a step, before the first shot */
/* Now and then something jumps: the bowler's speed, and what shows at the pins only. */
#define JUMP_MPH_CHANCE 0.03
#define JUMP_MPH 0.9
#define JUMP_CHANCE 0.05
#define UNTOLD_SHARE 0.12 /* of releases that were bad and not said to be */
#define UNTOLD_WIDE 3.0

static int pick_from(Rng *rng, const double *chances, int count)
{
    double u = rng_uniform(rng);
    int i = 0;
    while (i < count - 1 && u >= chances[i])
        u -= chances[i++];
    return i;
}

int belief_film_count(const Belief *belief)
{
    return belief->may_be.count > 0 ? BELIEF_FILMS * belief->may_be.count : BELIEF_FILMS;
}

static int pick_sheet(Rng *rng, const AboutSheets *may_be)
{
    double chances[ABOUT_SHEETS_MAX];
    for (int i = 0; i < may_be->count; i++)
        chances[i] = may_be->one[i].share;
    return pick_from(rng, chances, may_be->count);
}

static Particle prior_draw(Rng *rng, const AboutSheets *may_be)
{
    Particle p = {.weight = 1.0 / BELIEF_PARTICLES};
    double volume_sd = hypot(VOLUME_COMMON_SD, may_be->volume_sd);
    double volume = volume_sd * rng_normal(rng), dry = DRY_COMMON_SD * rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        p.part[PART_VOLUME + lane] = exp(volume + VOLUME_LANE_SD * rng_normal(rng));
        p.part[PART_DRY + lane] = exp(dry + DRY_LANE_SD * rng_normal(rng));
    }
    p.part[PART_MPH] = MPH_SD * rng_normal(rng);
    p.part[PART_LAUNCH_DEG] = LAUNCH_SD_DEG * rng_normal(rng);
    p.part[PART_LONGER] = hypot(LONGER_SD, may_be->longer_sd) * rng_normal(rng);
    int pick = pick_from(rng, PICK_PRIOR, BELIEF_PICKS);
    p.film = pick * BELIEF_CARRIES + pick_from(rng, CARRY_PRIOR, BELIEF_CARRIES);
    if (may_be->count > 1)
        p.film += BELIEF_FILMS * pick_sheet(rng, may_be);
    return p;
}

/* By film, so that a batch of particles shares one; particles with the same film keep their order.
 */
static void sort_by_film(Particle *particles)
{
    Particle old[BELIEF_PARTICLES];
    int next[BELIEF_FILMS_MAX + 1] = {0}; /* where the next of each film goes */
    memcpy(old, particles, sizeof old);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        next[old[i].film + 1]++;
    for (int film = 0; film < BELIEF_FILMS_MAX; film++)
        next[film + 1] += next[film];
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        particles[next[old[i].film]++] = old[i];
}

static void draw_particles(Belief *belief)
{
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        belief->particles[i] = prior_draw(&belief->rng, &belief->may_be);
    sort_by_film(belief->particles);
    offsets_begin(&belief->doubt);
}

void belief_begin(Belief *belief, const Oil *sheet_in_frame, uint64_t seed)
{
    memset(belief, 0, sizeof *belief);
    belief->rng = rng_seed(seed);
    belief->sheet = *sheet_in_frame;
    belief_lay(belief);
    draw_particles(belief);
}

void belief_begin_about(Belief *belief, const About *about, const Oil *middle, uint64_t seed)
{
    memset(belief, 0, sizeof *belief);
    belief->rng = rng_seed(seed);
    belief->sheet = *middle;
    about_sheets(about, &belief->may_be);
    belief_lay(belief);
    draw_particles(belief);
}

void belief_copy(Belief *to, const Belief *from)
{
    size_t films = (size_t)belief_film_count(from) * sizeof(Oil);
    memcpy(to, from, offsetof(Belief, film));
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        memcpy(to->film[lane], from->film[lane], films);
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

/* How likely what was seen at the pins is, by the board on which the ball was meant to hit. */
enum { PLACES_A_BOARD = 4, PLACES = 45 * PLACES_A_BOARD + 1 };
#define PLACES_FIRST (-4.0) /* board of the first place */
typedef struct PinsTable {
    double chance[PLACES];
} PinsTable;

static double board_of(int place) { return PLACES_FIRST + (double)place / PLACES_A_BOARD; }

/* As it was seen, of a ball that hit just there. */
static double seen_chance(const Throw *t, double board, double degrees, double mph)
{
    const Shot *shot = t->shot;
    if (shot->hit == HIT_GUTTER)
        return (1.0 - HIT_RANDOM) * normal_below((2.0 - board) / HIT_SEEN_BOARDS) +
               HIT_RANDOM / (HIT_COUNT - 1);
    double chance = shot->hit == HIT_UNSAID ? 1.0 : named_chance(shot->hit, board, HIT_SEEN_BOARDS);
    /* all ten standing means gutter or a miss, which the hit says better; without an entry angle
     * the table can't be read */
    if (!shot->left_said || shot->left == PINS_ALL || !isfinite(degrees))
        return chance;
    Pins left = t->bowler->hand == HAND_LEFT ? lane_mirror_pins(shot->left) : shot->left;
    return chance * rack_leave_likelihood(left, fmax(LEAVE_FIRST, fmin(board, LEAVE_LAST)), degrees,
                                          mph, t->ball->pounds);
}

/* Adds `share` of what was seen, scattered by `sd`. */
static void add_scattered(const PinsTable *seen, double share, double sd, PinsTable *table)
{
    double bell[PLACES], sum = 0.0;
    int reach = (int)fmin(3.0 * sd * PLACES_A_BOARD + 1.0, PLACES - 1.0);
    for (int d = 0; d <= reach; d++) {
        double z = d / (sd * PLACES_A_BOARD);
        bell[d] = exp(-0.5 * z * z);
        sum += d > 0 ? 2.0 * bell[d] : bell[d];
    }
    for (int i = 0; i < PLACES; i++)
        for (int d = -reach; d <= reach; d++) {
            int from = i + d < 0 ? 0 : i + d >= PLACES ? PLACES - 1 : i + d;
            table->chance[i] += share * bell[abs(d)] / sum * seen->chance[from];
        }
}

static void pins_table(const Throw *t, double sd, double degrees, double mph, PinsTable *table)
{
    PinsTable seen;
    for (int i = 0; i < PLACES; i++)
        seen.chance[i] = seen_chance(t, board_of(i), degrees, mph);
    memset(table, 0, sizeof *table);
    bool told = t->shot->release != RELEASE_GOOD && t->shot->release != RELEASE_UNSAID;
    double untold = told ? 0.0 : UNTOLD_SHARE;
    add_scattered(&seen, 1.0 - untold, sd, table);
    if (untold > 0.0)
        add_scattered(&seen, untold, UNTOLD_WIDE * sd, table);
}

static double chance_at(const PinsTable *table, double board)
{
    double at = fmax(0.0, fmin((board - PLACES_FIRST) * PLACES_A_BOARD, PLACES - 1.001));
    int i = (int)at;
    return table->chance[i] + (at - i) * (table->chance[i + 1] - table->chance[i]);
}

/* A number that was normal about 0, as evidence leaves it. */
typedef struct Learnt {
    double chance, mean, square;
} Learnt;

/* What was seen at the pins of an arrival that is uncertain by `sd`. */
static Learnt learn(const PinsTable *table, double board, double sd)
{
    Learnt sum = {0};
    double weights = 0.0;
    for (int k = -6; k <= 6; k++) {
        double z = 0.45 * k, weight = exp(-0.5 * z * z), by = z * sd;
        double chance = weight * chance_at(table, board + by);
        sum.chance += chance;
        sum.mean += chance * by;
        sum.square += chance * by * by;
        weights += weight;
    }
    sum.mean /= sum.chance;
    sum.square /= sum.chance;
    sum.chance /= weights;
    return sum;
}

static double read_chance(Read read, double feet_later)
{
    double early = 1.0 / (1.0 + exp((feet_later + READ_STEP_FT) / READ_SOFT_FT));
    double late = 1.0 / (1.0 + exp((READ_STEP_FT - feet_later) / READ_SOFT_FT));
    double said = read == READ_EARLY ? early : read == READ_ON_TIME ? 1.0 - early - late : late;
    return (1.0 - READ_RANDOM) * fmax(said, 0.0) + READ_RANDOM / 3.0;
}

/* Likelihood of seeing a board `away` from the expected one. */
static double sight_chance(double away, double sd)
{
    away /= sd;
    return (1.0 - SIGHT_RANDOM) * exp(-0.5 * away * away) + SIGHT_RANDOM;
}

/* Rolls the delivery for every particle on its own film. */
static void roll_particles(const Belief *belief, Side lane, const BatchBall *batch,
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
                                 .dry_scale = (float)p->part[PART_DRY + lane],
                                 .longer = (float)p->part[PART_LONGER]};
    }
    for (int first = 0, last; first < BELIEF_PARTICLES; first = last) {
        int film = belief->particles[first].film;
        for (last = first; last < BELIEF_PARTICLES && belief->particles[last].film == film; last++)
            ;
        BatchOil ready;
        batch_oil(&belief->film[lane][film], BATCH_ROUGH, &ready);
        batch_arrive(batch, &ready, throws + first, last - first, arrivals + first);
    }
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

/* Evenly spaced picks by weight. */
static void pick_even(const Particle *particles, double first, int picks[BELIEF_PARTICLES])
{
    double at = first / BELIEF_PARTICLES, sum = particles[0].weight;
    int from = 0;
    for (int i = 0; i < BELIEF_PARTICLES; i++, at += 1.0 / BELIEF_PARTICLES) {
        while (sum < at && from < BELIEF_PARTICLES - 1)
            sum += particles[++from].weight;
        picks[i] = from;
    }
}

/* A little toward the mean, and as much along the way from the mean to another pick: what goes
 * together still does (as Liu and West 2001, whose jitter is normal). */
static void blend(const double *mean, const double *own, const double *other, int count,
                  double *out)
{
    double other_way = sqrt(1.0 - SHRINK * SHRINK);
    for (int k = 0; k < count; k++)
        out[k] = mean[k] + SHRINK * (own[k] - mean[k]) + other_way * (other[k] - mean[k]);
}

/* Which of the picks, from `first`, are on the same sheet: those before the end that is returned.
 * Picks are in order of film. */
static int same_sheet(const Particle *old, const int picks[BELIEF_PARTICLES], int first)
{
    int end = first;
    while (end < BELIEF_PARTICLES &&
           particle_sheet(&old[picks[end]]) == particle_sheet(&old[picks[first]]))
        end++;
    return end;
}

static void resample(Belief *belief)
{
    static const double LEAST[PART_MPH] = {0.2, 0.2, 0.5, 0.5}; /* of the scales */
    Particle old[BELIEF_PARTICLES];
    int picks[BELIEF_PARTICLES];
    double mean[ABOUT_SHEETS_MAX][PART_COUNT], offsets[ABOUT_SHEETS_MAX][OFFSETS_COUNT];
    memcpy(old, belief->particles, sizeof old);
    for (int part = 0; part < PART_COUNT; part++)
        mean[0][part] = belief_part(belief, part).mean;
    belief_offsets(belief, offsets[0]);
    for (int sheet = 0; sheet < belief->may_be.count; sheet++)
        belief_sheet_means(belief, sheet, mean[sheet], offsets[sheet]);
    pick_even(old, rng_uniform(&belief->rng), picks);
    for (int i = 0, first = 0, end = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        if (i == end) {
            first = i;
            end = same_sheet(old, picks, first);
        }
        const Particle *own = &old[picks[i]];
        const Particle *other =
            &old[picks[first + (int)(rng_uniform(&belief->rng) * (end - first))]];
        int sheet = particle_sheet(own);
        blend(mean[sheet], own->part, other->part, PART_COUNT, p->part);
        blend(offsets[sheet], own->offsets, other->offsets, OFFSETS_COUNT, p->offsets);
        for (int part = 0; part < PART_MPH; part++)
            p->part[part] = fmax(p->part[part], LEAST[part]);
        if (rng_uniform(&belief->rng) < FRESH_SHARE)
            memcpy(p->part, prior_draw(&belief->rng, &belief->may_be).part, sizeof p->part);
        p->film = own->film; /* what the lane went through stays likely */
        p->weight = 1.0 / BELIEF_PARTICLES;
    }
    sort_by_film(belief->particles);
}

/* Angle and speed at the pins of those that get there, and where they turn; NAN when none does. */
typedef struct Mean {
    double degrees, mph, turn;
} Mean;

static Mean mean_arrival(const Belief *belief, const Arrival *arrivals)
{
    Mean mean = {0};
    double weights = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double weight = belief->particles[i].weight;
        if (arrivals[i].gutter)
            continue;
        mean.turn += weight * arrivals[i].breakpoint;
        mean.degrees += weight * arrivals[i].degrees;
        mean.mph += weight * arrivals[i].mph;
        weights += weight;
    }
    mean.turn = weights > 0.0 ? mean.turn / weights : NAN;
    mean.degrees = weights > 0.0 ? mean.degrees / weights : NAN;
    mean.mph = weights > 0.0 ? mean.mph / weights : NAN;
    return mean;
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

/* Weighs the read. A read is about the lane, so it is compared with the move at the bowler's usual
 * speed (or the speed seen). Otherwise, in oil so heavy that the first move depends on speed alone,
 * "early" would mean slow, slow would more than explain a high hit, and the film would come out
 * thicker. And "early" means earlier than expected of that ball and line when it was thrown. */
static void read_chances(const Belief *belief, const Throw *t, const Spread *spread,
                         const Arrival *as_thrown, double chances[BELIEF_PARTICLES])
{
    const Shot *shot = t->shot;
    Arrival as_usual[BELIEF_PARTICLES];
    const Arrival *moves = as_thrown;
    bool said = shot->read != READ_UNSAID && shot->release != RELEASE_OFF;
    if (said && shot->mph <= 0.0) {
        roll_particles(belief, shot->lane, t->batch, t->delivery, spread, true, as_usual);
        moves = as_usual;
    }
    double expected = 0.0;
    for (int i = 0; said && i < BELIEF_PARTICLES; i++)
        expected += belief->particles[i].weight * move_ft(&moves[i]);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        chances[i] = said ? read_chance(shot->read, move_ft(&moves[i]) - expected) : 1.0;
}

/* What all particles together learn of what nothing else explains: without a jump and after one. */
typedef struct Lesson {
    Doubt doubt;
    double with[OFFSETS_COUNT], was, is, weights;
} Lesson;

static void begin_lesson(Lesson *lesson, const OffsetsAt *at)
{
    lesson->was = offsets_variance(&lesson->doubt, at, lesson->with);
    lesson->is = lesson->weights = 0.0;
}

/* Of one particle; returns by how much its numbers move, in lesson->with. */
static double take_lesson(Lesson *lesson, const Learnt *off, double weight)
{
    lesson->is += weight * (off->square - off->mean * off->mean);
    lesson->weights += weight;
    return off->mean / lesson->was;
}

static void end_lesson(Lesson *lesson)
{
    if (lesson->weights > 1e-300)
        offsets_learn(&lesson->doubt, lesson->with, lesson->was, lesson->is / lesson->weights);
}

/* Weighs the pins, and lets each particle learn from them what nothing else explains. Either all
 * goes on or something has jumped: what is kept of the two is their mean and their spread. */
static void weigh_pins(Belief *belief, const Throw *t, const Spread *spread, int which,
                       const Arrival *arrivals, const double read[BELIEF_PARTICLES])
{
    PinsTable table;
    Lesson on = {.doubt = belief->doubt}, jump;
    Mean meant = mean_arrival(belief, arrivals);
    double xx = 0.0, yy = 0.0, xy = 0.0;
    pins_table(t, spread->boards, meant.degrees, meant.mph, &table);
    OffsetsAt at = offsets_at(t->shot->lane, which, t->delivery->laydown_board, meant.turn);
    offsets_jumped(&belief->doubt, t->shot->lane, &jump.doubt);
    begin_lesson(&on, &at);
    begin_lesson(&jump, &at);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        p->weight *= read[i];
        if (arrivals[i].gutter) {
            p->weight *= t->shot->hit == HIT_GUTTER ? 0.9 : chance_at(&table, 0.0);
            continue;
        }
        double board = arrivals[i].board + offsets_mean(&at, p->offsets);
        Learnt goes_on = learn(&table, board, sqrt(on.was));
        Learnt jumped = learn(&table, board, sqrt(jump.was));
        double chance = (1.0 - JUMP_CHANCE) * goes_on.chance + JUMP_CHANCE * jumped.chance;
        double share = JUMP_CHANCE * jumped.chance / chance;
        p->weight *= chance;
        double x = take_lesson(&on, &goes_on, p->weight * (1.0 - share));
        double y = take_lesson(&jump, &jumped, p->weight * share);
        for (int k = 0; k < OFFSETS_COUNT; k++)
            p->offsets[k] += (1.0 - share) * x * on.with[k] + share * y * jump.with[k];
        double either = p->weight * share * (1.0 - share);
        xx += either * x * x;
        yy += either * y * y;
        xy -= either * x * y;
    }
    end_lesson(&on);
    end_lesson(&jump);
    double all = on.weights + jump.weights;
    if (!(all > 1e-300))
        return;
    belief->doubt = on.doubt;
    offsets_mix(&belief->doubt, &jump.doubt, jump.weights / all, on.with, jump.with, xx / all,
                yy / all, xy / all);
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

/* The density of a normal, but for a constant. */
static double bell(double away, double variance)
{
    return exp(-0.5 * away * away / variance) / sqrt(variance);
}

/* The bowler's day goes on; speed may jump. Where it was seen, each particle goes where that says:
 * what is typed is taken over at once. */
static void go_on(Belief *belief, const Throw *t, const Spread *spread)
{
    double seen_sd = hypot(t->bowler->scatter.mph, SPEED_SEEN_MPH), seen = seen_sd * seen_sd;
    double drift = MPH_DRIFT * MPH_DRIFT, jump = JUMP_MPH * JUMP_MPH;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        double *mph = &p->part[PART_MPH], u = rng_uniform(&belief->rng), by = 0.0;
        double even = rng_normal(&belief->rng);
        double jumps = JUMP_MPH_CHANCE, step = u < jumps ? jump : drift;
        if (t->shot->mph > 0.0) {
            double away = t->shot->mph - spread->mph_shift - t->bowler->mph - *mph;
            double goes_on = (1.0 - jumps) * bell(away, drift + seen);
            double jumped = jumps * bell(away, jump + seen);
            double nothing = SPEED_RANDOM; /* a density as of a mile an hour or two */
            p->weight *= goes_on + jumped + nothing;
            u *= goes_on + jumped + nothing;
            step = u < jumped ? jump : drift;
            if (u < jumped + goes_on) {
                double gain = step / (step + seen);
                by = gain * away;
                step = gain * seen;
            }
        }
        *mph += by + sqrt(step) * even;
        p->part[PART_LAUNCH_DEG] += LAUNCH_DRIFT_DEG * rng_normal(&belief->rng);
    }
}

/* The film that a throw is thought to scatter on: with a sheet that of usual wear, else the most
 * likely one. */
static int middle_film(const Belief *belief)
{
    double share[BELIEF_FILMS_MAX] = {0};
    int likely = 0;
    if (belief->may_be.count == 0)
        return BELIEF_FILMS / 2;
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        share[belief->particles[i].film] += belief->particles[i].weight;
    for (int f = 1; f < BELIEF_FILMS_MAX; f++)
        if (share[f] > share[likely])
            likely = f;
    return likely;
}

static void weigh(Belief *belief, const Throw *t)
{
    const Shot *shot = t->shot;
    int which = note_ball(belief, t->ball->id);
    BatchOil middle;
    batch_oil(&belief->film[shot->lane][middle_film(belief)], BATCH_ROUGH, &middle);
    Spread spread = spread_of(t->batch, &middle, t->bowler, t->delivery, shot);
    Arrival arrivals[BELIEF_PARTICLES];
    double read[BELIEF_PARTICLES];
    go_on(belief, t, &spread);
    offsets_drift(&belief->doubt, shot->lane);
    roll_particles(belief, shot->lane, t->batch, t->delivery, &spread, shot->mph > 0.0, arrivals);
    read_chances(belief, t, &spread, arrivals, read);
    weigh_sights(belief, t->body, t->delivery, &spread, shot, arrivals);
    weigh_pins(belief, t, &spread, which, arrivals, read);
    if (settle_weights(belief) < RESAMPLE_BELOW * BELIEF_PARTICLES)
        resample(belief);
}

static void wear_films(Belief *belief, Side lane, const Track *track, Cover cover)
{
    bool used[BELIEF_FILMS_MAX] = {false}; /* of many films those that nobody is on don't matter */
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        used[belief->particles[i].film] = true;
    for (int f = 0; f < belief_film_count(belief); f++)
        if (used[f] || belief->may_be.count == 0)
            wear_track(&belief->film[lane][f], track, cover, belief_rate(f));
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

static Delivery delivered(const Bowler *bowler, const Shot *shot)
{
    Delivery delivery = delivery_of(bowler, shot->stance, shot->aim);
    if (shot->mph > 0.0)
        delivery.mph = shot->mph;
    return delivery;
}

void belief_weigh(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                  const BatchBall *batch, const Shot *shot)
{
    Delivery delivery = delivered(bowler, shot);
    weigh(belief, &(Throw){bowler, ball, body, batch, &delivery, shot});
    belief->shots++;
}

void belief_thrown(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                   const Shot *shot, int bowlers_on_pair)
{
    Delivery delivery = delivered(bowler, shot);
    while (belief_settle(belief, bowler->hand, bowlers_on_pair))
        ;
    wear(belief, &(Throw){bowler, ball, body, NULL, &delivery, shot}, bowlers_on_pair);
}

void belief_see(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                const BatchBall *batch, const Shot *shot, int bowlers_on_pair)
{
    belief_weigh(belief, bowler, ball, body, batch, shot);
    belief_thrown(belief, bowler, ball, body, shot, bowlers_on_pair);
}

void belief_played(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                   const Shot *as, int bowlers_on_pair)
{
    Shot unseen = *as;
    unseen.mph = 0.0;
    belief_thrown(belief, bowler, ball, body, &unseen, bowlers_on_pair);
}

/* The film drawn out along the lane by a share. */
static void draw_out(Oil *oil, double longer)
{
    const Oil from = *oil;
    for (int j = 0; j < OIL_STATIONS; j++) {
        double at = fmin(j / (1.0 + longer), OIL_STATIONS - 1.0);
        int i = (int)fmin(at, OIL_STATIONS - 2.0);
        for (int b = 0; b < LANE_BOARDS; b++)
            oil->units[j][b] =
                from.units[i][b] + (at - i) * (from.units[i + 1][b] - from.units[i][b]);
    }
    oil->length_ft *= 1.0 + longer;
}

void belief_film(const Belief *belief, Side lane, Oil *oil)
{
    double share[BELIEF_FILMS_MAX] = {0};
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        share[belief->particles[i].film] +=
            belief->particles[i].weight * belief->particles[i].part[PART_VOLUME + lane];
    memset(oil, 0, sizeof *oil);
    oil->length_ft = belief_length_ft(belief);
    for (int f = 0; f < BELIEF_FILMS_MAX; f++)
        if (share[f] > 0.0)
            for (int j = 0; j < OIL_STATIONS; j++)
                for (int b = 0; b < LANE_BOARDS; b++)
                    oil->units[j][b] += share[f] * belief->film[lane][f].units[j][b];
    draw_out(oil, belief_part(belief, PART_LONGER).mean);
}

Estimate belief_wear(const Belief *belief)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        double rate = PICK_RATE[belief->particles[i].film % BELIEF_FILMS / BELIEF_CARRIES];
        sum += belief->particles[i].weight * rate;
        square += belief->particles[i].weight * rate * rate;
    }
    return (Estimate){sum, sqrt(fmax(0.0, square - sum * sum))};
}

WearRate belief_rate(int film)
{
    int rate = film % BELIEF_FILMS;
    return (WearRate){PICK_RATE[rate / BELIEF_CARRIES], CARRY_RATE[rate % BELIEF_CARRIES]};
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
