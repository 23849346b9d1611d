/* world.c - the list of worlds, and what they share. */
#include "core/rehearse/world.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/line/line.h"
#include "core/pins/rack.h"
#include "core/rehearse/world_day.h"

const World *const WORLDS[] = {&WORLD_KIN,   &WORLD_TILTED, &WORLD_JUMPY, &WORLD_STRANGER,
                               &WORLD_HOUSE, &WORLD_BLUNT,  NULL};

const Spreads WORLD_SPREADS = {.volume = 0.18,
                               .lane = 0.12,
                               .board = 0.11,
                               .dry = 0.13,
                               .film = 0.16,
                               .fade = 0.16,
                               .pick_middle = 1.25,
                               .pick = 0.6,
                               .carry_middle = 0.6,
                               .carry = 1.1,
                               .mph = 0.36,
                               .launch_deg = 0.13,
                               .field_boards = 5.0,
                               .tired_mph = 0.15};

const Senses WORLD_SENSES = {.bad_share = 0.10,
                             .bad_deviations = 2.3,
                             .told_share = 0.75,
                             .eye_boards = 0.7,
                             .eye_feet = 1.4,
                             .arrows_boards = 0.6,
                             .breakpoint_boards = 1.3,
                             .read_ft = 2.4,
                             .random_reads = 0.08,
                             .speed_shown = 0.4};

const World *world_find(const char *name)
{
    for (const World *const *world = WORLDS; *world; world++)
        if (strcmp((*world)->name, name) == 0)
            return *world;
    return NULL;
}

static size_t own_size(void)
{
    size_t size = WORLD_DAY.own_size;
    for (const World *const *world = WORLDS; *world; world++)
        if ((*world)->own_size > size)
            size = (*world)->own_size;
    return size;
}

Truth *truth_new(void)
{
    Truth *truth = calloc(1, sizeof *truth);
    if (truth && !(truth->own = calloc(1, own_size()))) {
        free(truth);
        return NULL;
    }
    return truth;
}

void truth_free(Truth *truth)
{
    if (truth)
        free(truth->own);
    free(truth);
}

void truth_draw(Truth *truth, const World *world, const Bag *bag, const Oil *sheet, uint64_t seed)
{
    Rng rng = rng_seed(seed);
    truth->world = world;
    truth->bag = bag;
    truth->off_boards = 0.0;
    truth->steady = false;
    memset(truth->own, 0, own_size());
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        truth->filled[slot] = bag_slot(bag, slot + 1) != NULL;
        truth->expected_ft[slot] = NAN;
    }
    world->draw(truth, sheet, &rng);
    truth_meet(truth, NULL, 0, seed);
}

double truth_mph(const Truth *truth, int game) { return truth->mph - truth->tired * (game - 1); }

/* Draws how a release is bad, and changes the delivery. */
static Release spoil(Delivery *d, const Scatter *scatter, double deviations, double kind)
{
    DeliveryOffset bad = {0};
    Release what = kind < 0.3   ? RELEASE_INSIDE
                   : kind < 0.6 ? RELEASE_OUTSIDE
                   : kind < 0.8 ? RELEASE_FAST
                                : RELEASE_SLOW;
    bad.launch_deg = what == RELEASE_INSIDE    ? -deviations * scatter->launch_deg
                     : what == RELEASE_OUTSIDE ? deviations * scatter->launch_deg
                                               : 0.0;
    bad.mph = what == RELEASE_FAST   ? deviations * scatter->mph
              : what == RELEASE_SLOW ? -deviations * scatter->mph
                                     : 0.0;
    *d = delivery_offset(d, &bad);
    return what;
}

Delivery truth_throw(const Truth *truth, const Plan *plan, int game, Rng *luck, Release *told)
{
    const Bowler *bowler = &truth->bag->bowler;
    const Scatter *s = &bowler->scatter;
    const Senses *senses = truth->world->senses;
    DeliveryOffset off; /* drawn in this order */
    off.mph = truth_mph(truth, game) + s->mph * rng_normal(luck);
    off.launch_deg = truth->launch_deg + s->launch_deg * rng_normal(luck);
    off.rpm = s->rpm * rng_normal(luck);
    off.laydown_boards = s->laydown_boards * rng_normal(luck);
    Delivery meant = plan_delivery(bowler, plan), d = delivery_offset(&meant, &off);
    double bad = rng_uniform(luck), kind = rng_uniform(luck), known = rng_uniform(luck);
    *told = RELEASE_GOOD;
    if (truth->steady) {
        DeliveryOffset day = {.mph = truth_mph(truth, game), .launch_deg = truth->launch_deg};
        return delivery_offset(&meant, &day);
    }
    if (bad < senses->bad_share) {
        Release what = spoil(&d, s, senses->bad_deviations, kind);
        if (known < senses->told_share)
            *told = what;
    }
    return d;
}

static double seen_board(double board)
{
    return fmax(SHOT_BOARD_LOW, fmin(lane_half_board(board), SHOT_BOARD_HIGH));
}

/* Early or late, compared with what the bowler has come to expect of that ball. */
static Read seen_move(const Senses *senses, double move_ft, double error_ft, double *expected_ft,
                      Rng *luck)
{
    bool moves = !isnan(move_ft);
    double move = moves ? move_ft : LANE_LENGTH_FT;
    if (isnan(*expected_ft))
        *expected_ft = move; /* the first throw with a ball sets what is expected */
    double later = move + error_ft - *expected_ft;
    *expected_ft += 0.2 * (move - *expected_ft); /* expectations follow */
    if (senses->random_reads > 0.0 && rng_uniform(luck) < senses->random_reads)
        return (Read)(READ_EARLY + (int)(3.0 * rng_uniform(luck)));
    return !moves                     ? READ_NONE
           : later < -senses->read_ft ? READ_EARLY
           : later > senses->read_ft  ? READ_LATE
                                      : READ_ON_TIME;
}

void truth_see(Truth *truth, const Roll *roll, const Delivery *delivery, bool sights, Rng *luck,
               Shot *shot)
{
    const Senses *senses = truth->world->senses;
    double eye = senses->eye_boards * rng_normal(luck), feet = senses->eye_feet * rng_normal(luck);
    double shown = rng_uniform(luck), arrows = senses->arrows_boards * rng_normal(luck);
    double far = senses->breakpoint_boards * rng_normal(luck);
    shot->hit = roll->gutter ? HIT_GUTTER : shot_hit_of_board(roll->entry_board + eye);
    shot->read = seen_move(senses, roll->hook_ft, feet, &truth->expected_ft[shot->slot - 1], luck);
    shot->mph = shown < senses->speed_shown ? 0.1 * round(10.0 * delivery->mph) : 0.0;
    const int arrows_at = (int)(LANE_ARROWS_FT / OIL_STATION_FT);
    if (!sights || roll->gutter || roll->count <= arrows_at)
        return;
    shot->arrows = seen_board(roll->path[arrows_at].board + arrows);
    shot->breakpoint = seen_board(roll->breakpoint_board + far);
}

void truth_meet(Truth *truth, const FieldMix *mix, int others, uint64_t seed)
{
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        others_begin(&truth->others[lane], mix, others, truth->bag->bowler.hand, seed, lane);
        truth->sought[lane] = 0;
    }
}

/* Before each game everybody looks for a line. */
static void wear_by_people(Truth *truth, Side lane, int game)
{
    Others *others = &truth->others[lane];
    if (truth->sought[lane] != game)
        others_seek(others, &truth->oil[lane]);
    truth->sought[lane] = game;
    for (int who = 0; who < others->count; who++)
        others_throw(others, &truth->oil[lane], who, truth->rate);
}

void truth_wear(Truth *truth, Side lane, int game, const Roll *roll, Cover cover,
                int bowlers_on_pair, Rng *luck)
{
    truth->world->wear(truth, lane, roll, 0.0, cover);
    if (truth->world->people)
        wear_by_people(truth, lane, game);
    else
        for (int i = 1; i < bowlers_on_pair; i++)
            truth->world->wear(truth, lane, roll, truth->field_boards[i - 1] + rng_normal(luck),
                               COVER_SOLID);
}

void truth_prepare(Truth *truth, Side lane, int game)
{
    forecast_of_truth(&truth->forecast, &truth->oil[lane], truth_mph(truth, game),
                      truth->launch_deg, &truth->bag->bowler);
    truth->forecast.off_boards = truth->off_boards;
}

Outlook truth_outlook(const Truth *truth, Side lane, int slot, const Delivery *meant)
{
    BatchThrow throws[FORECAST_DRAWS];
    Arrival arrivals[FORECAST_DRAWS];
    int every = truth->world->every;
    int count = forecast_throws(&truth->forecast, meant, every, throws);
    truth->world->arrive(truth, lane, slot, throws, count, arrivals);
    return forecast_sum(&truth->forecast, 0, bag_slot(truth->bag, slot)->pounds, meant, every,
                        arrivals);
}

/* A sheet as it was really laid: off as a whole, on each lane, and on each board. */
static void draw_film(Truth *truth, const Oil *sheet, const Spreads *spreads, Rng *rng)
{
    double volume = spreads->volume * rng_normal(rng), board[LANE_BOARDS];
    for (int b = 0; b < LANE_BOARDS; b++)
        board[b] = rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        double own = spreads->lane * rng_normal(rng);
        truth->oil[lane] = *sheet;
        for (int b = 0; b < LANE_BOARDS; b++) {
            int left = b > 0 ? b - 1 : b, right = b < LANE_BOARDS - 1 ? b + 1 : b;
            double rough = (board[left] + 2.0 * board[b] + board[right]) / 4.0; /* smooth across */
            double scale = exp(volume + own + spreads->board * rough);
            for (int j = 0; j < OIL_STATIONS; j++)
                truth->oil[lane].units[j][b] *= scale;
        }
    }
}

/* Gives each ball its own friction: more or less in the film and on the dry, fading elsewhere. */
static void draw_balls(Truth *truth, const Spreads *spreads, Rng *rng)
{
    double dry = exp(spreads->dry * rng_normal(rng)), fade = exp(spreads->fade * rng_normal(rng));
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        if (!truth->filled[slot])
            continue;
        MotionBody *body = &truth->body[slot];
        motion_body(bag_slot(truth->bag, slot + 1), body);
        body->friction.mu_film *= exp(spreads->film * rng_normal(rng));
        body->friction.mu_dry *= dry;
        body->friction.reach_units *= fade;
        batch_ball(body, &truth->batch[slot]);
    }
}

void world_draw(Truth *truth, const Oil *sheet, const Spreads *spreads, Rng *rng)
{
    draw_film(truth, sheet, spreads, rng);
    draw_balls(truth, spreads, rng);
    truth->rate.pick = spreads->pick_middle * exp(spreads->pick * rng_normal(rng));
    truth->rate.carry = spreads->carry_middle * exp(spreads->carry * rng_normal(rng));
    truth->mph = spreads->mph * rng_normal(rng);
    truth->launch_deg = spreads->launch_deg * rng_normal(rng);
    truth->tired = spreads->tired_mph * rng_uniform(rng);
    for (int i = 0; i < WORLD_FIELD_MAX; i++)
        truth->field_boards[i] = spreads->field_boards * rng_normal(rng);
}

void world_roll(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                Roll *roll)
{
    (void)luck;
    motion_roll(&truth->body[slot - 1], &truth->oil[lane], delivery, roll);
}

void world_arrive(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                  Arrival *arrivals)
{
    (void)lane; /* truth_prepare has prepared its film */
    batch_arrive(&truth->batch[slot - 1], &truth->forecast.oil[0], throws, count, arrivals);
}

double world_aim(const Truth *truth, Side lane, int slot, const Delivery *usual, double laydown)
{
    return line_aim(&truth->body[slot - 1], &truth->oil[lane], &truth->bag->bowler, usual, laydown,
                    0.0);
}

double world_aim_by_rolls(const Truth *truth, Side lane, int slot, const Delivery *usual,
                          double laydown)
{
    enum { AIMS = 48 }; /* from 22 boards outside the laydown to a board and a half inside it */
    BatchThrow throws[AIMS];
    Arrival arrivals[AIMS];
    double first = lane_half_board(laydown) - 22.0, value[AIMS] = {0}, most = -1.0, best = first;
    double pounds = bag_slot(truth->bag, slot)->pounds;
    for (int i = 0; i < AIMS; i++) {
        throws[i] = (BatchThrow){.delivery = *usual, .film_scale = 1.0f, .dry_scale = 1.0f};
        throws[i].delivery.laydown_board = laydown;
        throws[i].delivery.launch_deg =
            delivery_launch_deg(laydown, first + 0.5 * i) + truth->launch_deg;
        throws[i].delivery.mph += truth->mph;
    }
    truth->world->arrive(truth, lane, slot, throws, AIMS, arrivals);
    for (int i = 0; i < AIMS; i++)
        if (!arrivals[i].gutter)
            value[i] = rack_strike(arrivals[i].board, arrivals[i].degrees, arrivals[i].mph, pounds);
    for (int i = 1; i < AIMS - 1; i++) {
        double about = value[i - 1] + 2.0 * value[i] + value[i + 1]; /* a throw scatters */
        if (about > most) {
            most = about;
            best = first + 0.5 * i;
        }
    }
    return best;
}

void world_wear(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover)
{
    Track track;
    track_of(roll, shift_boards, &track);
    wear_track(&truth->oil[lane], &track, cover, truth->rate);
}

void world_stretch(const Oil *oil, double factor, Oil *out)
{
    for (int j = 0; j < OIL_STATIONS; j++) {
        double at = j / factor;
        int i = (int)at;
        for (int b = 0; b < LANE_BOARDS; b++) {
            double near = i < OIL_STATIONS ? oil->units[i][b] : 0.0;
            double far = i + 1 < OIL_STATIONS ? oil->units[i + 1][b] : 0.0;
            out->units[j][b] = near + (at - i) * (far - near);
        }
    }
    out->length_ft = oil->length_ft * factor;
}
