/* eyes.c - the filter of eyes.h. */
#include "eyes.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/pins/rack.h"
#include "eyes_field.h"

enum { THROWS = 16 }; /* that may have been thrown, of each particle's shot; a batch's width */
#define RESAMPLE_BELOW 0.5
enum { MOVES = 3 }; /* after each resampling */
/* Outside the rack's table a leave is taken to say nothing more than that; about what an odd leave
 * has inside it. */
#define TABLE_LOW 13.0
#define TABLE_HIGH 27.0
#define LEAVE_OUTSIDE 0.02
#define IMPOSSIBLE 1e-9 /* a film that the throws miss may still be nearly right */

typedef struct Guess {
    double part[EYES_PARTS];
    uint64_t luck;
    double fit;                    /* log likelihood of all that was seen */
    double expected_ft[BAG_SLOTS]; /* the move that the bowler has come to expect */
    Grain grain[SIDE_COUNT];       /* by the luck */
    Oil film[SIDE_COUNT];
} Guess;

struct Eyes {
    const RehearseSetup *setup;
    const Bowler *bowler;
    Oil sheet; /* in the bowler's frame */
    MotionBody body[BAG_SLOTS];
    BatchBall ball[BAG_SLOTS];
    int count;
    Guess *particle, *other; /* count, and one to try */
    double *weight;          /* count; they add up to 1 */
    EyesField *field[SESSION_GAMES_MAX][SIDE_COUNT];
    struct {
        Shot shot;
        int game;
        bool shut;
    } seen[REHEARSE_SHOTS_MAX];
    int seen_count;
    Rng rng;
    EyesReport report;
};

static const Spreads *const SPREADS = &WORLD_KIN_SPREADS;
static const Senses *const SENSES = &WORLD_KIN_SENSES;

DeliveryOffset eyes_scatter(int i, const double shift[4], const Scatter *scatter)
{
    static const double STEP[4] = {0.8566748838545029, 0.7338918566271260, 0.6287067210378087,
                                   0.5385972572236101};
    double u[4];
    for (int d = 0; d < 4; d++)
        u[d] = fmod(shift[d] + (i + 1) * STEP[d], 1.0);
    double r = sqrt(-2.0 * log(1.0 - u[0])), q = sqrt(-2.0 * log(1.0 - u[2]));
    return (DeliveryOffset){.launch_deg = scatter->launch_deg * r * cos(2.0 * UNITS_PI * u[1]),
                            .mph = scatter->mph * r * sin(2.0 * UNITS_PI * u[1]),
                            .rpm = scatter->rpm * q * cos(2.0 * UNITS_PI * u[3]),
                            .laydown_boards =
                                scatter->laydown_boards * q * sin(2.0 * UNITS_PI * u[3])};
}

void eyes_ball(const BatchBall *usual, double mu_film, double dry, double fade, BatchBall *ball)
{
    *ball = *usual;
    ball->mu_film *= (float)mu_film;
    ball->mu_dry *= (float)dry;
    ball->per_unit /= (float)fade;
}

/* ---- a particle ---- */

static double scale_of(const Guess *p, double spread, int part)
{
    return exp(spread * p->part[part]);
}

static double mph_of(const Guess *p, int game)
{
    return SPREADS->mph * p->part[EYES_MPH] -
           SPREADS->tired_mph * normal_below(p->part[EYES_TIRED]) * (game - 1);
}

static double rough_at(const Guess *p, int b)
{
    const double *board = &p->part[EYES_BOARDS];
    int left = b > 0 ? b - 1 : b, right = b < LANE_BOARDS - 1 ? b + 1 : b;
    return SPREADS->board * (board[left] + 2.0 * board[b] + board[right]) / 4.0;
}

static double log_volume(const Guess *p, Side lane)
{
    return SPREADS->volume * p->part[EYES_VOLUME] + SPREADS->lane * p->part[EYES_LANE + (int)lane];
}

static void lay(const Eyes *eyes, Guess *p)
{
    double volume[SIDE_COUNT], scale[SIDE_COUNT][LANE_BOARDS];
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        volume[lane] = log_volume(p, (Side)lane);
        for (int b = 0; b < LANE_BOARDS; b++)
            scale[lane][b] = exp(volume[lane] + rough_at(p, b));
        p->film[lane] = eyes->sheet;
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                p->film[lane].units[j][b] *= scale[lane][b];
    }
    for (int slot = 0; slot < BAG_SLOTS; slot++)
        p->expected_ft[slot] = NAN;
    p->fit = 0.0;
}

static void draw_grain(Guess *p)
{
    static Others none; /* the grain of a lane without others */
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        others_begin(&none, NULL, 0, HAND_RIGHT, p->luck, lane);
        p->grain[lane] = none.grain;
    }
}

/* ---- what was seen ---- */

/* A throw that may have been, and how much of all it stands for. */
typedef struct MayBe {
    BatchThrow toss;
    double share; /* a density of the speed too, where it was shown */
} MayBe;

static Release bad_kind(double u)
{
    return u < 0.3   ? RELEASE_INSIDE
           : u < 0.6 ? RELEASE_OUTSIDE
           : u < 0.8 ? RELEASE_FAST
                     : RELEASE_SLOW;
}

static void add_bad(DeliveryOffset *off, const Scatter *s, Release bad)
{
    double by = SENSES->bad_deviations;
    off->launch_deg += bad == RELEASE_INSIDE    ? -by * s->launch_deg
                       : bad == RELEASE_OUTSIDE ? by * s->launch_deg
                                                : 0.0;
    off->mph += bad == RELEASE_FAST ? by * s->mph : bad == RELEASE_SLOW ? -by * s->mph : 0.0;
}

/* How the ball may have been thrown, as the release was called and the speed was shown. One throw
 * in THROWS stands for the bad ones that nobody told of. */
static void list_throws(const Eyes *eyes, const Guess *p, const Shot *shot, int game, Rng *rng,
                        MayBe may[THROWS])
{
    const Scatter *s = &eyes->bowler->scatter;
    Plan plan = shot_plan(shot);
    Delivery meant = plan_delivery(eyes->bowler, &plan);
    double missed = SENSES->bad_share * (1.0 - SENSES->told_share), shift[4];
    double untold = missed / (1.0 - SENSES->bad_share + missed), kind = rng_uniform(rng);
    bool told = shot->release != RELEASE_GOOD && shot->release != RELEASE_UNSAID;
    for (int d = 0; d < 4; d++)
        shift[d] = rng_uniform(rng);
    for (int i = 0; i < THROWS; i++) {
        DeliveryOffset off = eyes_scatter(i, shift, s), day = {0};
        day.mph = mph_of(p, game);
        day.launch_deg = SPREADS->launch_deg * p->part[EYES_LAUNCH];
        if (told)
            add_bad(&day, s, shot->release);
        else if (i == THROWS - 1)
            add_bad(&day, s, bad_kind(kind));
        may[i].share = told              ? 1.0 / THROWS
                       : i == THROWS - 1 ? untold
                                         : (1.0 - untold) / (THROWS - 1);
        if (shot->mph > 0.0) { /* shown to a tenth */
            off.mph = shot->mph + 0.1 * (rng_uniform(rng) - 0.5) - meant.mph - day.mph;
            double z = off.mph / s->mph;
            may[i].share *= exp(-0.5 * z * z) / s->mph;
        }
        Delivery thrown = delivery_offset(&meant, &off);
        may[i].toss = (BatchThrow){
            .delivery = delivery_offset(&thrown, &day), .film_scale = 1.0f, .dry_scale = 1.0f};
    }
}

static double move_of(double hook_ft) { return isnan(hook_ft) ? LANE_LENGTH_FT : hook_ft; }

static double hit_chance(Hit hit, double board)
{
    double low, high;
    if (hit == HIT_UNSAID || hit == HIT_GUTTER)
        return hit == HIT_UNSAID;
    shot_hit_span(hit, &low, &high);
    double over = hit == HIT_WIDE ? 0.0 : normal_below((low - board) / SENSES->eye_boards);
    double under = hit == HIT_CROSSED ? 1.0 : normal_below((high - board) / SENSES->eye_boards);
    return under - over;
}

static double read_chance(Read read, double hook_ft, double expected_ft)
{
    if (read == READ_UNSAID)
        return 1.0;
    if (isnan(hook_ft) || read == READ_NONE)
        return isnan(hook_ft) && read == READ_NONE;
    double later = isnan(expected_ft) ? 0.0 : hook_ft - expected_ft;
    double early = normal_below((-SENSES->read_ft - later) / SENSES->eye_feet);
    double late = normal_below((later - SENSES->read_ft) / SENSES->eye_feet);
    return read == READ_EARLY ? early : read == READ_LATE ? late : 1.0 - early - late;
}

/* Chance of all that was seen at the pins and of the move, of a throw that arrives so. */
static double seen_chance(const Eyes *eyes, const Shot *shot, const Arrival *at, double expected_ft)
{
    double chance = read_chance(shot->read, at->hook_ft, expected_ft);
    if (at->gutter || shot->hit == HIT_GUTTER)
        return at->gutter && shot->hit == HIT_GUTTER ? chance : 0.0;
    chance *= hit_chance(shot->hit, at->board);
    if (!shot->left_said || chance < 1e-12)
        return chance;
    if (at->board < TABLE_LOW || at->board > TABLE_HIGH)
        return chance * (shot->left == 0 ? 0.0 : LEAVE_OUTSIDE);
    Pins left = eyes->bowler->hand == HAND_LEFT ? lane_mirror_pins(shot->left) : shot->left;
    return chance * rack_leave_chance(left, at->board, at->degrees, at->mph,
                                      bag_slot(eyes->setup->bag, shot->slot)->pounds);
}

/* Weighs the throws; returns the chance of what was seen and, in `thrown`, one of them. */
static double weigh_throws(const Eyes *eyes, Guess *p, const Shot *shot, int game, bool shut,
                           Rng *rng, Delivery *thrown)
{
    static BatchOil oil;
    MayBe may[THROWS];
    BatchThrow tosses[THROWS];
    Arrival at[THROWS];
    BatchBall ball;
    int slot = shot->slot - 1;
    double sum = 0.0, chance[THROWS];
    list_throws(eyes, p, shot, game, rng, may);
    double pick = rng_uniform(rng);
    for (int i = 0; i < THROWS; i++)
        tosses[i] = may[i].toss;
    if (!shut) {
        eyes_ball(&eyes->ball[slot], scale_of(p, SPREADS->film, EYES_FILM + slot),
                  scale_of(p, SPREADS->dry, EYES_DRY), scale_of(p, SPREADS->fade, EYES_FADE),
                  &ball);
        batch_oil(&p->film[shot->lane], BATCH_ROUGH, &oil);
        batch_arrive(&ball, &oil, tosses, THROWS, at);
    }
    for (int i = 0; i < THROWS; i++) {
        double seen = shut ? 1.0 : seen_chance(eyes, shot, &at[i], p->expected_ft[slot]);
        chance[i] = may[i].share * (seen + IMPOSSIBLE);
        sum += chance[i];
    }
    int one = 0;
    pick *= sum;
    while (one < THROWS - 1 && pick >= chance[one])
        pick -= chance[one++];
    *thrown = tosses[one].delivery;
    return shut ? 1.0 : sum;
}

/* The lane is worn by the throw and by one of each of the others. */
static void wear(const Eyes *eyes, Guess *p, const Shot *shot, int game, const Delivery *thrown,
                 Rng *rng)
{
    int slot = shot->slot - 1;
    Side lane = shot->lane;
    MotionBody body = eyes->body[slot];
    Roll roll;
    Track track;
    WearRate rate = {.pick = SPREADS->pick_middle * scale_of(p, SPREADS->pick, EYES_PICK),
                     .carry = SPREADS->carry_middle * scale_of(p, SPREADS->carry, EYES_CARRY)};
    body.friction.mu_film *= scale_of(p, SPREADS->film, EYES_FILM + slot);
    body.friction.mu_dry *= scale_of(p, SPREADS->dry, EYES_DRY);
    body.friction.reach_units *= scale_of(p, SPREADS->fade, EYES_FADE);
    motion_roll(&body, &p->film[lane], thrown, &roll);
    track_of(&roll, 0.0, &track);
    track_grain(&track, &p->grain[lane]);
    wear_track(&p->film[lane], &track, bag_slot(eyes->setup->bag, slot + 1)->cover, rate);
    double move = move_of(roll.hook_ft), *expected = &p->expected_ft[slot];
    *expected = isnan(*expected) ? move : *expected + 0.2 * (move - *expected);
    const EyesField *field = eyes->field[game - 1][lane];
    int one = (int)(p->luck % EYES_FIELDS);
    for (int who = 0; field && who < field->count; who++) {
        double u = rng_uniform(rng), v = rng_uniform(rng);
        track = *eyes_track(field, one, who, log_volume(p, lane), u, v);
        track_grain(&track, &p->grain[lane]);
        wear_track(&p->film[lane], &track, field->who[one][0][who].cover, rate);
    }
}

/* A particle sees the shot of that number and wears its lane; returns the log of its chance. */
static double go_on(const Eyes *eyes, Guess *p, int which)
{
    const Shot *shot = &eyes->seen[which].shot;
    Rng rng = rng_seed(p->luck + 0x9e3779b97f4a7c15u * (uint64_t)(which + 1));
    Delivery thrown;
    double chance =
        weigh_throws(eyes, p, shot, eyes->seen[which].game, eyes->seen[which].shut, &rng, &thrown);
    wear(eyes, p, shot, eyes->seen[which].game, &thrown, &rng);
    double fit = log(fmax(chance, 1e-300));
    p->fit += fit;
    return fit;
}

/* ---- all of them ---- */

Eyes *eyes_new(const RehearseSetup *setup, int particles, uint64_t seed)
{
    Eyes *eyes = calloc(1, sizeof *eyes);
    if (!eyes)
        return NULL;
    eyes->setup = setup;
    eyes->bowler = &setup->bag->bowler;
    eyes->count = particles;
    eyes->particle = malloc((size_t)particles * sizeof *eyes->particle);
    eyes->weight = malloc((size_t)particles * sizeof *eyes->weight);
    eyes->other = malloc(sizeof *eyes->other);
    if (!eyes->particle || !eyes->weight || !eyes->other) {
        eyes_free(eyes);
        return NULL;
    }
    eyes->rng = rng_seed(seed);
    eyes->report.least = 1.0;
    oil_lay(setup->pattern, &eyes->sheet);
    oil_for_hand(&eyes->sheet, eyes->bowler->hand, &eyes->sheet);
    for (int slot = 0; slot < BAG_SLOTS; slot++)
        if (bag_slot(setup->bag, slot + 1)) {
            motion_body(bag_slot(setup->bag, slot + 1), &eyes->body[slot]);
            batch_ball(&eyes->body[slot], &eyes->ball[slot]);
        }
    for (int i = 0; i < particles; i++) {
        Guess *p = &eyes->particle[i];
        for (int k = 0; k < EYES_PARTS; k++)
            p->part[k] = rng_normal(&eyes->rng);
        p->luck = rng_next(&eyes->rng);
        eyes->weight[i] = 1.0 / particles;
        draw_grain(p);
        lay(eyes, p);
    }
    return eyes;
}

void eyes_free(Eyes *eyes)
{
    if (!eyes)
        return;
    for (int game = 0; game < SESSION_GAMES_MAX; game++) {
        if (game > 0 || eyes->field[game][SIDE_RIGHT] != eyes->field[game][SIDE_LEFT])
            free(eyes->field[game][SIDE_RIGHT]);
        free(eyes->field[game][SIDE_LEFT]);
    }
    free(eyes->particle);
    free(eyes->weight);
    free(eyes->other);
    free(eyes);
}

/* The lane's film on the mean, at usual volume. */
static void usual_film(const Eyes *eyes, Side lane, Oil *film)
{
    *film = eyes->sheet;
    memset(film->units, 0, sizeof film->units);
    for (int i = 0; i < eyes->count; i++) {
        const Guess *p = &eyes->particle[i];
        double share = eyes->weight[i] / exp(log_volume(p, lane));
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                film->units[j][b] += share * p->film[lane].units[j][b];
    }
}

/* Before the others' first throws of a game; in the first one both lanes are as oiled. */
static void look_for_lines(Eyes *eyes, Side lane, int game)
{
    EyesField *(*field)[SIDE_COUNT] = eyes->field;
    Oil film;
    int others = eyes->setup->bowlers_on_pair - 1;
    if (field[game - 1][lane] || others < 1)
        return;
    EyesField *now = calloc(1, sizeof *now);
    if (!now)
        abort();
    if (game == 1)
        film = eyes->sheet;
    else
        usual_film(eyes, lane, &film);
    eyes_field(now, game > 1 ? field[game - 2][lane] : NULL, &eyes->setup->mix, others,
               eyes->bowler->hand, &film, 77u);
    field[game - 1][lane] = now;
    if (game == 1)
        field[0][!lane] = now;
}

/* Scales the weights to 1; returns the share of particles that count. */
static double settle(Eyes *eyes, const double *fit)
{
    double most = -HUGE_VAL, sum = 0.0, square = 0.0;
    for (int i = 0; i < eyes->count; i++)
        most = fmax(most, fit[i]);
    for (int i = 0; i < eyes->count; i++)
        sum += eyes->weight[i] *= exp(fit[i] - most);
    for (int i = 0; i < eyes->count; i++) {
        eyes->weight[i] /= sum;
        square += eyes->weight[i] * eyes->weight[i];
    }
    return 1.0 / (square * eyes->count);
}

/* How often each is drawn, as evenly as possible. */
static void draw_evenly(Eyes *eyes, int count, int *index)
{
    double at = rng_uniform(&eyes->rng) / count, sum = eyes->weight[0];
    int from = 0;
    for (int i = 0; i < count; i++, at += 1.0 / count) {
        while (sum < at && from < eyes->count - 1)
            sum += eyes->weight[++from];
        index[i] = from;
    }
}

static void resample(Eyes *eyes)
{
    int count = eyes->count, *index = malloc((size_t)count * sizeof *index);
    int *times = calloc((size_t)count, sizeof *times);
    if (!index || !times)
        abort();
    draw_evenly(eyes, count, index);
    for (int i = 0; i < count; i++)
        times[index[i]]++;
    for (int i = 0, dead = 0; i < count; i++)
        for (; times[i] > 1; times[i]--) {
            while (times[dead] > 0)
                dead++;
            eyes->particle[dead] = eyes->particle[i];
            times[dead] = 1;
        }
    for (int i = 0; i < count; i++)
        eyes->weight[i] = 1.0 / count;
    free(index);
    free(times);
}

/* Plays the particle's block from its first shot. */
static void play_again(const Eyes *eyes, Guess *p)
{
    draw_grain(p);
    lay(eyes, p);
    for (int i = 0; i < eyes->seen_count; i++)
        go_on(eyes, p, i);
}

/* Steps of the constants along the line between two other particles; returns the log of the ratio
 * of the priors. */
static double step_parts(Eyes *eyes, const Guess *from, Guess *to)
{
    static const double LONG[4] = {0.2, 0.4, 0.7, 1.0};
    const Guess *a = &eyes->particle[(int)(rng_uniform(&eyes->rng) * eyes->count)];
    const Guess *b = &eyes->particle[(int)(rng_uniform(&eyes->rng) * eyes->count)];
    double by = LONG[(int)(4.0 * rng_uniform(&eyes->rng))], prior = 0.0;
    for (int k = 0; k < EYES_BOARDS; k++) {
        to->part[k] =
            from->part[k] + by * (a->part[k] - b->part[k]) + 0.05 * rng_normal(&eyes->rng);
        prior += 0.5 * (from->part[k] * from->part[k] - to->part[k] * to->part[k]);
    }
    return prior;
}

/* Steps that keep the prior: of all boards, and of some of the constants by much, so that those of
 * which nothing is learnt stay as wide as they were; and a new seed. */
static void step_luck(Eyes *eyes, const Guess *from, Guess *to)
{
    for (int k = 0; k < EYES_PARTS; k++) {
        bool board = k >= EYES_BOARDS;
        double keep = board ? 0.7 : 0.4, u = rng_uniform(&eyes->rng);
        if (board || u < 0.3)
            to->part[k] = keep * from->part[k] + sqrt(1.0 - keep * keep) * rng_normal(&eyes->rng);
    }
    if (rng_uniform(&eyes->rng) < 0.5)
        to->luck = rng_next(&eyes->rng);
}

static void move(Eyes *eyes, Guess *p, int kind)
{
    Guess *to = eyes->other;
    memcpy(to->part, p->part, sizeof to->part);
    to->luck = p->luck;
    double ratio = 0.0;
    if (kind == 0)
        ratio = step_parts(eyes, p, to);
    else
        step_luck(eyes, p, to);
    play_again(eyes, to);
    eyes->report.moves[kind] += 1.0;
    if (log(1.0 - rng_uniform(&eyes->rng)) >= ratio + to->fit - p->fit)
        return;
    eyes->report.taken[kind] += 1.0;
    *p = *to;
}

void eyes_see(Eyes *eyes, const Shot *shot, int game, bool shut)
{
    int which = eyes->seen_count++;
    double *fit = malloc((size_t)eyes->count * sizeof *fit);
    if (!fit)
        abort();
    look_for_lines(eyes, shot->lane, game);
    eyes->seen[which].shot = *shot;
    if (shut) {
        eyes->seen[which].shot.mph = 0.0;
        eyes->seen[which].shot.release = RELEASE_UNSAID;
    }
    eyes->seen[which].game = game;
    eyes->seen[which].shut = shut;
    for (int i = 0; i < eyes->count; i++)
        fit[i] = go_on(eyes, &eyes->particle[i], which);
    double counts = settle(eyes, fit);
    free(fit);
    eyes->report.shots += 1.0;
    eyes->report.ess += counts;
    eyes->report.least = fmin(eyes->report.least, counts);
    if (counts >= RESAMPLE_BELOW)
        return;
    eyes->report.resampled += 1.0;
    resample(eyes);
    for (int m = 0; m < MOVES; m++)
        for (int i = 0; i < eyes->count; i++)
            move(eyes, &eyes->particle[i], (m + 1) % 2);
}

const EyesReport *eyes_report(const Eyes *eyes) { return &eyes->report; }

void eyes_lanes(Eyes *eyes, Side lane, int game, int count, EyesLane *lanes)
{
    int *index = malloc((size_t)count * sizeof *index);
    if (!index)
        abort();
    draw_evenly(eyes, count, index);
    for (int i = count - 1; i > 0; i--) { /* in no order: some of them stand for all */
        int j = (int)(rng_uniform(&eyes->rng) * (i + 1)), was = index[i];
        index[i] = index[j];
        index[j] = was;
    }
    for (int i = 0; i < count; i++) {
        const Guess *p = &eyes->particle[index[i]];
        lanes[i] = (EyesLane){.film = &p->film[lane],
                              .dry = scale_of(p, SPREADS->dry, EYES_DRY),
                              .fade = scale_of(p, SPREADS->fade, EYES_FADE),
                              .mph = mph_of(p, game),
                              .launch_deg = SPREADS->launch_deg * p->part[EYES_LAUNCH]};
        for (int slot = 0; slot < BAG_SLOTS; slot++)
            lanes[i].mu_film[slot] = scale_of(p, SPREADS->film, EYES_FILM + slot);
    }
    free(index);
}

EyesLane eyes_truth_lane(const Truth *truth, Side lane, int game)
{
    EyesLane told = {
        .film = &truth->oil[lane], .mph = truth_mph(truth, game), .launch_deg = truth->launch_deg};
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        MotionBody usual;
        if (!truth->filled[slot])
            continue;
        motion_body(bag_slot(truth->bag, slot + 1), &usual);
        const FrictionCurve *now = &truth->body[slot].friction, *was = &usual.friction;
        told.mu_film[slot] = now->mu_film / was->mu_film;
        told.dry = now->mu_dry / was->mu_dry;
        told.fade = now->reach_units / was->reach_units;
    }
    return told;
}

static void mean_of(const Eyes *eyes, double (*value)(const Guess *, int), int which, double *mean,
                    double *sd)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < eyes->count; i++) {
        double x = value(&eyes->particle[i], which);
        sum += eyes->weight[i] * x;
        square += eyes->weight[i] * x * x;
    }
    *mean = sum;
    *sd = sqrt(fmax(0.0, square - sum * sum));
}

static double part_of(const Guess *p, int part) { return p->part[part]; }

void eyes_part(const Eyes *eyes, int part, double *mean, double *sd)
{
    mean_of(eyes, part_of, part, mean, sd);
}

static double volume_of(const Guess *p, int lane)
{
    double rough = 0.0;
    for (int b = 0; b < LANE_BOARDS; b++)
        rough += rough_at(p, b) / LANE_BOARDS;
    return log_volume(p, (Side)lane) + rough;
}

void eyes_volume(const Eyes *eyes, Side lane, double *mean, double *sd)
{
    mean_of(eyes, volume_of, (int)lane, mean, sd);
}
