/* bench_eyes.c - what anyone could reach with the evidence that the advisor has, in the world
 * `kin`: prints the tables of docs/advice.md.
 *
 *   bench_eyes [BLOCKS-PER-CELL [FIRST-SEED [PARTICLES [GAMES [WORD...]]]]]
 *
 * Blocks of six patterns and the four kinds of bowler who hook most. Besides the players of
 * rehearsals there are four, who all pick the ball and line that strikes most (and by the pins)
 * over the lanes that they think possible:
 *
 *   unbound     the advisor's belief and forecast, without what binds its answers
 *   same-eyes   a filter over the world's own generator, fed with what the advisor is told (eyes.h)
 *   eyes-shut   the same without evidence: the best that is known before the first ball
 *   told        the lane as it is: knows-the-lane by this search, so what the search is worth
 *
 * All look one shot ahead; a player that explores might do a little better still. A word is the
 * name of a player: then only these play; or `no-read`, `no-leave`, `no-speed`: same-eyes is not
 * told of that. A line for each block goes to stderr as it is done. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "cells.h"
#include "eyes.h"
#include "store/files.h"

enum { BOWLERS = 4, CELLS = CELL_PATTERN_COUNT * BOWLERS };
enum { WHO_COUNT = 9, BLOCKS_MAX = 512, SHOT_GROUPS = 6, GROUP = 6 };
enum { HOLD, BY_THE_MISS, COACH, ADVISOR, UNBOUND, SHUT, SAME, TOLD, KNOWS };
static const char *const WHO[WHO_COUNT] = {"hold",      "by-the-miss", "coach",
                                           "advisor",   "unbound",     "eyes-shut",
                                           "same-eyes", "told",        "knows-the-lane"};

/* What is checked of the filter against the truth. */
enum { VOLUME_LEFT, VOLUME_RIGHT, DRY, FADE, PICK, CARRY, MPH, LAUNCH, FILM, CHECKS };
static const char *const CHECK[CHECKS] = {
    "volume, left",        "volume, right",    "dry friction",
    "where contact fades", "rate of wear",     "rate of carry",
    "the day's speed",     "the day's launch", "the first ball's friction in the film"};

typedef struct Played {
    double pins, value; /* a game; chance of a strike under the truth, a shot */
    double shots, strikes, said, said_bad;
    double group[SHOT_GROUPS], in_group[SHOT_GROUPS]; /* value by the shot's number */
} Played;

typedef struct Block {
    int pattern, bowler;
    Played played[WHO_COUNT];
    EyesReport report;
    double seconds;                 /* of same-eyes, processor */
    double off[CHECKS], sd[CHECKS]; /* (belief - truth) / sd; sd, of the prior's deviation */
} Block;

typedef struct Asked {
    int blocks, particles, games;
    unsigned long first;
    bool plays[WHO_COUNT], no_read, no_leave, no_speed;
} Asked;

/* ---- one block ---- */

static void sum_up(const Rehearsal *out, Played *played)
{
    played->pins = out->mean_pins;
    played->value = out->value;
    played->shots = out->shot_count;
    played->strikes = out->strikes;
    for (int i = 0; i < out->shot_count; i++) {
        int group = i / GROUP < SHOT_GROUPS ? i / GROUP : SHOT_GROUPS - 1;
        played->group[group] += out->shots[i].value;
        played->in_group[group] += 1.0;
        if (!isnan(out->shots[i].stated_strike))
            played->said += out->shots[i].stated_strike;
    }
}

/* The truth in the terms of the filter. */
static void true_parts(const Truth *truth, const Oil *sheet, int slot, double parts[CHECKS])
{
    const Spreads *s = &WORLD_KIN_SPREADS;
    EyesLane lane = eyes_truth_lane(truth, SIDE_LEFT, 1);
    for (int side = 0; side < SIDE_COUNT; side++) {
        double sum = 0.0, count = 0.0;
        for (int b = 0; b < LANE_BOARDS; b++)
            if (sheet->units[20][b] > 0.0) {
                sum += log(truth->oil[side].units[20][b] / sheet->units[20][b]);
                count += 1.0;
            }
        parts[VOLUME_LEFT + side] = count > 0.0 ? sum / count : NAN;
    }
    parts[DRY] = log(lane.dry) / s->dry;
    parts[FADE] = log(lane.fade) / s->fade;
    parts[PICK] = log(truth->rate.pick / s->pick_middle) / s->pick;
    parts[CARRY] = log(truth->rate.carry / s->carry_middle) / s->carry;
    parts[MPH] = truth->mph / s->mph;
    parts[LAUNCH] = truth->launch_deg / s->launch_deg;
    parts[FILM] = log(lane.mu_film[slot - 1]) / s->film;
}

static void check(const Eyes *eyes, int slot, const double truth[CHECKS], Block *block)
{
    static const int PART[CHECKS] = {0,          0,        EYES_DRY,    EYES_FADE, EYES_PICK,
                                     EYES_CARRY, EYES_MPH, EYES_LAUNCH, EYES_FILM};
    const Spreads *s = &WORLD_KIN_SPREADS;
    for (int k = 0; k < CHECKS; k++) {
        double mean, sd, prior = 1.0;
        if (k <= VOLUME_RIGHT) {
            eyes_volume(eyes, (Side)(k - VOLUME_LEFT), &mean, &sd);
            prior = hypot(s->volume, s->lane);
        } else {
            eyes_part(eyes, PART[k] + (k == FILM ? slot - 1 : 0), &mean, &sd);
        }
        block->off[k] = sd > 0.0 ? (mean - truth[k]) / sd : 0.0;
        block->sd[k] = sd / prior;
    }
}

static void play_eyes(const Asked *asked, RehearseJob *job, RehearseSetup setup, int who,
                      Rehearsal *out, Block *block)
{
    static EyesLane lanes[EYES_DRAWS];
    static Oil sheet;
    double truth[CHECKS], said_bad = 0.0;
    clock_t begun = clock();
    setup.player = NULL;
    rehearse_begin(job, &setup, out);
    Eyes *eyes = who == TOLD ? NULL : eyes_new(&setup, asked->particles, setup.seed + 5u);
    if (who != TOLD && !eyes)
        abort();
    int first = rehearse_view(job)->plan[SIDE_LEFT].slot;
    oil_lay(setup.pattern, &sheet);
    oil_for_hand(&sheet, setup.bag->bowler.hand, &sheet);
    true_parts(rehearse_truth(job), &sheet, first, truth);
    while (!rehearse_over(job)) {
        const View *view = rehearse_view(job);
        int game = view->game, count = who == TOLD ? 1 : EYES_DRAWS;
        if (who == TOLD)
            lanes[0] = eyes_truth_lane(rehearse_truth(job), view->lane, game);
        else
            eyes_lanes(eyes, view->lane, game, count, lanes);
        EyesBest best = eyes_best(setup.bag, lanes, count, &view->plan[view->lane],
                                  setup.seed * 977u + (uint64_t)view->shot_count);
        Choice choice = {.plan = best.plan, .pocket = NAN, .strike = best.strike};
        said_bad += best.strike_bad;
        rehearse_throw(job, &choice);
        if (!eyes)
            continue;
        Shot seen = *rehearse_seen(job);
        seen.read = asked->no_read ? READ_UNSAID : seen.read;
        seen.mph = asked->no_speed ? 0.0 : seen.mph;
        seen.left_said &= !asked->no_leave;
        eyes_see(eyes, &seen, game, who == SHUT);
    }
    sum_up(out, &block->played[who]);
    block->played[who].said_bad = said_bad;
    if (who == SAME) {
        block->report = *eyes_report(eyes);
        check(eyes, first, truth, block);
        block->seconds = (double)(clock() - begun) / CLOCKS_PER_SEC;
    }
    eyes_free(eyes);
}

/* What the advisor believes, taken at its word. */
static void play_unbound(RehearseJob *job, RehearseSetup setup, Rehearsal *out, Played *played)
{
    setup.player = NULL;
    rehearse_begin(job, &setup, out);
    while (!rehearse_over(job)) {
        const View *view = rehearse_view(job);
        player_ask(view);
        while (!advice_result(view->advice)->ready && !advice_step(view->advice))
            ;
        EyesBest best = eyes_believed(setup.bag, advice_belief(view->advice), view->lane,
                                      &view->plan[view->lane]);
        Choice choice = {.plan = best.plan, .pocket = NAN, .strike = best.strike};
        rehearse_throw(job, &choice);
    }
    sum_up(out, played);
}

static bool play_block(const Asked *asked, int pattern_at, int bowler, int round, Block *block)
{
    static Bag demo, bag;
    static Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    if (!job || !out || !files_bag("demo", &demo, &error) || !cell_bag(bowler, &demo, &bag) ||
        !files_rules("coach", &rules, &error) ||
        !files_pattern(CELL_PATTERNS[pattern_at], &pattern, &error))
        return false;
    RehearseSetup setup = {.bag = &bag,
                           .pattern = &pattern,
                           .rules = &rules,
                           .world = &WORLD_KIN,
                           .games = asked->games,
                           .bowlers_on_pair = cell_field(bowler),
                           .seed = cell_seed(asked->first, pattern_at, bowler, round)};
    block->pattern = pattern_at;
    block->bowler = bowler;
    for (int who = 0; who < WHO_COUNT; who++) {
        setup.player = player_find(WHO[who]);
        if (!asked->plays[who])
            continue;
        if (setup.player) {
            rehearse_play(job, &setup, out);
            sum_up(out, &block->played[who]);
        } else if (who == UNBOUND) {
            play_unbound(job, setup, out, &block->played[who]);
        } else {
            play_eyes(asked, job, setup, who, out, block);
        }
    }
    rehearse_free(job);
    free(out);
    return true;
}

/* ---- all blocks ---- */

static bool read_block(int pipe_end, Block *block)
{
    size_t have = 0;
    for (ssize_t got = 1; got > 0 && have < sizeof *block; have += (size_t)(got > 0 ? got : 0))
        got = read(pipe_end, (char *)block + have, sizeof *block - have);
    close(pipe_end);
    return have == sizeof *block;
}

static int begin_block(const Asked *asked, int which)
{
    int cell = which % CELLS, ends[2];
    fflush(stdout);
    if (pipe(ends) != 0)
        return -1;
    pid_t child = fork();
    if (child == 0) {
        static Block block;
        bool played = play_block(asked, cell % CELL_PATTERN_COUNT, cell / CELL_PATTERN_COUNT,
                                 which / CELLS, &block);
        _exit(played && write(ends[1], &block, sizeof block) == (ssize_t)sizeof block ? 0 : 1);
    }
    close(ends[1]);
    return child < 0 ? -1 : ends[0];
}

static void report_block(const Asked *asked, int which, const Block *block)
{
    fprintf(stderr, "%d %s, %s:", which + 1, CELL_PATTERNS[block->pattern],
            CELL_BOWLERS[block->bowler]);
    for (int who = 0; who < WHO_COUNT; who++)
        if (asked->plays[who])
            fprintf(stderr, " %s %.0f %.3f", WHO[who], block->played[who].pins,
                    block->played[who].value);
    if (asked->plays[SAME])
        fprintf(stderr, "; counts %.2f, taken %.2f %.2f, %.0f s",
                block->report.ess / block->report.shots,
                block->report.taken[0] / block->report.moves[0],
                block->report.taken[1] / block->report.moves[1], block->seconds);
    fputc('\n', stderr);
}

/* ---- tables ---- */

/* Over blocks: of a player's pins (0) or value in % (1), less those of `less`, if that is not -1.
 */
static double figure(const Block *block, int who, int less, int what)
{
    const Played *a = &block->played[who];
    double x = what == 0 ? a->pins : 100.0 * a->value;
    return less < 0 ? x : x - figure(block, less, -1, what);
}

static double mean_of(const Block *blocks, int count, int who, int less, int what, double *wide)
{
    double sum = 0.0, square = 0.0;
    for (int i = 0; i < count; i++) {
        double x = figure(&blocks[i], who, less, what);
        sum += x;
        square += x * x;
    }
    double mean = sum / count;
    *wide = count > 1 ? 1.96 * sqrt(fmax(0.0, square / count - mean * mean) / (count - 1)) : NAN;
    return mean;
}

static double total(const Block *blocks, int count, int who, size_t at)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        sum += *(const double *)((const char *)&blocks[i].played[who] + at);
    return sum;
}

/* A figure less that of `less`, if both play; -1: of nobody. */
static void print_figure(const Asked *asked, const Block *blocks, int count, int who, int less,
                         int what)
{
    double wide;
    if (less >= 0 && (!asked->plays[less] || less == who)) {
        printf(" |");
        return;
    }
    double mean = mean_of(blocks, count, who, less, what, &wide);
    printf(less < 0 ? " %.1f" : " %+.1f", mean);
    printf(" +- %.1f%s |", wide, what == 1 ? " %" : "");
}

static void print_players(const Asked *asked, const Block *blocks, int count)
{
    printf(
        "| player | pins a game | worth | over hold, pins | worth | advisor over it, worth | "
        "strikes said | with bad releases | happened |\n|---|---|---|---|---|---|---|---|---|\n");
    for (int who = 0; who < WHO_COUNT; who++) {
        if (!asked->plays[who])
            continue;
        printf("| %s |", WHO[who]);
        print_figure(asked, blocks, count, who, -1, 0);
        print_figure(asked, blocks, count, who, -1, 1);
        print_figure(asked, blocks, count, who, HOLD, 0);
        print_figure(asked, blocks, count, who, HOLD, 1);
        if (asked->plays[ADVISOR] && who != ADVISOR) {
            double wide, over = mean_of(blocks, count, ADVISOR, who, 1, &wide);
            printf(" %+.1f +- %.1f %% |", over, wide);
        } else {
            printf(" |");
        }
        double shots = total(blocks, count, who, offsetof(Played, shots));
        double said = total(blocks, count, who, offsetof(Played, said));
        double bad = total(blocks, count, who, offsetof(Played, said_bad));
        printf(said > 0.0 ? " %.1f %% |" : " |", 100.0 * said / shots);
        printf(bad > 0.0 ? " %.1f %% |" : " |", 100.0 * bad / shots);
        printf(" %.1f %% |\n",
               100.0 * total(blocks, count, who, offsetof(Played, strikes)) / shots);
    }
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y ? 1 : 0;
}

/* (advisor - hold) / (player - hold), with an interval from blocks drawn again. */
static void print_share(const Block *blocks, int count, int who, int what)
{
    enum { AGAIN = 4000 };
    static double share[AGAIN];
    Rng rng = rng_seed(1u);
    double wide, over = mean_of(blocks, count, ADVISOR, HOLD, what, &wide);
    double most = mean_of(blocks, count, who, HOLD, what, &wide);
    for (int k = 0; k < AGAIN; k++) {
        double a = 0.0, b = 0.0;
        for (int i = 0; i < count; i++) {
            const Block *block = &blocks[(int)(rng_uniform(&rng) * count)];
            a += figure(block, ADVISOR, HOLD, what);
            b += figure(block, who, HOLD, what);
        }
        share[k] = a / b;
    }
    qsort(share, AGAIN, sizeof *share, by_size);
    printf("the advisor gains %.0f %% (95 %%: %.0f to %.0f %%) of what %s gains over hold, in %s\n",
           100.0 * over / most, 100.0 * share[AGAIN / 40], 100.0 * share[AGAIN - AGAIN / 40 - 1],
           WHO[who], what == 0 ? "pins" : "worth");
}

static void print_shares(const Asked *asked, const Block *blocks, int count)
{
    putchar('\n');
    for (int who = SAME; who < WHO_COUNT; who++)
        for (int what = 0; what < 2; what++)
            if (asked->plays[who] && asked->plays[HOLD] && asked->plays[ADVISOR])
                print_share(blocks, count, who, what);
}

static int first_of(const Asked *asked)
{
    int who = 0;
    while (!asked->plays[who])
        who++;
    return who;
}

static int last_of(const Asked *asked)
{
    int who = WHO_COUNT - 1;
    while (!asked->plays[who])
        who--;
    return who;
}

/* Worth by bowler and by the number of the shot in the block. */
static void print_head(const Asked *asked, const char *first)
{
    int columns = 1;
    printf("\n| %s |", first);
    for (int who = 0; who < WHO_COUNT; who++)
        if (asked->plays[who])
            columns += printf(" %s |", WHO[who]) > 0;
    printf("\n|");
    while (columns-- > 0)
        printf("---|");
    putchar('\n');
}

static void print_bowlers(const Asked *asked, const Block *blocks, int count)
{
    print_head(asked, "bowler, worth");
    for (int b = 0; b < BOWLERS; b++) {
        printf("| %s |", CELL_BOWLERS[b]);
        for (int who = 0; who < WHO_COUNT; who++) {
            double sum = 0.0, n = 0.0;
            for (int i = 0; i < count; i++)
                if (blocks[i].bowler == b) {
                    sum += 100.0 * blocks[i].played[who].value;
                    n += 1.0;
                }
            if (asked->plays[who])
                printf(" %.1f %% |", sum / n);
        }
        putchar('\n');
    }
}

static void print_groups(const Asked *asked, const Block *blocks, int count)
{
    print_head(asked, "shots, worth");
    for (int g = 0; g < SHOT_GROUPS; g++) {
        size_t at = sizeof(double) * (size_t)g;
        for (int who = 0; who < WHO_COUNT; who++) {
            double n = total(blocks, count, who, offsetof(Played, in_group) + at);
            if (!(n > 0.0)) /* doesn't play, or the games are over */
                continue;
            if (who == first_of(asked))
                printf("| from %d |", g * GROUP + 1);
            printf(" %.1f %% |",
                   100.0 * total(blocks, count, who, offsetof(Played, group) + at) / n);
            if (who == last_of(asked))
                putchar('\n');
        }
    }
}

/* Whether it is the true filter. */
static void print_filter(const Block *blocks, int count)
{
    EyesReport all = {.least = 1.0};
    printf(
        "\n| of same-eyes after the block | off, in its own deviations: mean | root mean square | "
        "its deviation, of the prior's |\n|---|---|---|---|\n");
    for (int k = 0; k < CHECKS; k++) {
        double off = 0.0, square = 0.0, sd = 0.0;
        for (int i = 0; i < count; i++) {
            off += blocks[i].off[k] / count;
            square += blocks[i].off[k] * blocks[i].off[k] / count;
            sd += blocks[i].sd[k] / count;
        }
        printf("| %s | %+.2f | %.2f | %.2f |\n", CHECK[k], off, sqrt(square), sd);
    }
    for (int i = 0; i < count; i++) {
        const EyesReport *r = &blocks[i].report;
        all.shots += r->shots;
        all.ess += r->ess;
        all.least = fmin(all.least, r->least);
        all.resampled += r->resampled;
        for (int k = 0; k < 2; k++) {
            all.moves[k] += r->moves[k];
            all.taken[k] += r->taken[k];
        }
    }
    printf(
        "\nafter a shot %.0f %% of the particles count, at the least %.1f %%; resampled after %.0f "
        "%% of the shots; of the moves of constants %.0f %% are taken, of boards and seeds %.0f "
        "%%\n",
        100.0 * all.ess / all.shots, 100.0 * all.least, 100.0 * all.resampled / all.shots,
        100.0 * all.taken[0] / all.moves[0], 100.0 * all.taken[1] / all.moves[1]);
}

static void print_all(const Asked *asked, const Block *blocks, int count)
{
    printf("%d blocks of %d games in kin, %d patterns, %d bowlers, seeds from %lu, %d particles"
           "%s%s%s\n\n",
           count, asked->games, CELL_PATTERN_COUNT, BOWLERS, asked->first, asked->particles,
           asked->no_read ? ", no reads" : "", asked->no_leave ? ", no leaves" : "",
           asked->no_speed ? ", no speeds" : "");
    print_players(asked, blocks, count);
    print_shares(asked, blocks, count);
    print_bowlers(asked, blocks, count);
    print_groups(asked, blocks, count);
    if (asked->plays[SAME])
        print_filter(blocks, count);
    putchar('\n');
    fflush(stdout);
}

/* As many at once as there are cores; tables after each round of all cells. */
static bool play_all(const Asked *asked, int count, Block *blocks)
{
    enum { AT_ONCE_MAX = 16 };
    int ends[AT_ONCE_MAX], begun = 0;
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    int at_once = cores < 1 ? 1 : cores > AT_ONCE_MAX ? AT_ONCE_MAX : (int)cores;
    bool all = true;
    for (int done = 0; done < count; done++) {
        for (; begun < count && begun < done + at_once; begun++)
            all &= (ends[begun % at_once] = begin_block(asked, begun)) >= 0;
        if (!all || !read_block(ends[done % at_once], &blocks[done]))
            return false;
        report_block(asked, done, &blocks[done]);
        if ((done + 1) % CELLS == 0)
            print_all(asked, blocks, done + 1);
    }
    while (wait(NULL) > 0)
        ;
    return true;
}

static bool read_word(const char *word, Asked *asked, bool *named)
{
    for (int who = 0; who < WHO_COUNT; who++)
        if (strcmp(word, WHO[who]) == 0) {
            if (!*named)
                memset(asked->plays, 0, sizeof asked->plays);
            return *named = asked->plays[who] = true;
        }
    if (strcmp(word, "no-read") == 0)
        return asked->no_read = true;
    if (strcmp(word, "no-leave") == 0)
        return asked->no_leave = true;
    if (strcmp(word, "no-speed") == 0)
        return asked->no_speed = true;
    return false;
}

int main(int argc, char **argv)
{
    static Block blocks[BLOCKS_MAX];
    Asked asked = {.blocks = argc > 1 ? atoi(argv[1]) : 1,
                   .first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1,
                   .particles = argc > 3 ? atoi(argv[3]) : 300,
                   .games = argc > 4 ? atoi(argv[4]) : 1};
    int count = asked.blocks * CELLS;
    bool named = false, read = count >= 1 && count <= BLOCKS_MAX && asked.particles >= 2 &&
                               asked.games >= 1 && asked.games <= 3;
    for (int who = 0; who < WHO_COUNT; who++)
        asked.plays[who] = true;
    for (int i = 5; read && i < argc; i++)
        read = read_word(argv[i], &asked, &named);
    if (!read) {
        fprintf(stderr,
                "bench_eyes: 1 to %d blocks, a seed, particles from 2, games 1 to 3, then players, "
                "no-read, no-leave or no-speed\n",
                BLOCKS_MAX / CELLS);
        return 2;
    }
    if (!play_all(&asked, count, blocks)) {
        fputs("bench_eyes: a block was not played\n", stderr);
        return 1;
    }
    return 0;
}
