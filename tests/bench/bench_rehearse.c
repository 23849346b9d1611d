/* bench_rehearse.c - four players, six patterns, four bowlers: what following the advice is worth.
 * Usage: bench_rehearse [BLOCKS-PER-CELL [FIRST-SEED [PRACTICE [sights]]]]. Prints the tables of
 * docs/advice.md. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cells.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

enum { BINS = 10, GAMES = 3 };

typedef struct Sum {
    double n, sum, square;
} Sum;

static void add(Sum *s, double x)
{
    s->n += 1.0;
    s->sum += x;
    s->square += x * x;
}
static double mean(const Sum *s) { return s->n > 0.0 ? s->sum / s->n : 0.0; }
static double half_width(const Sum *s) /* of the 95 % interval of the mean */
{
    double m = mean(s);
    return s->n > 1.0 ? 1.96 * sqrt(fmax(0.0, s->square / s->n - m * m) / (s->n - 1.0)) : 0.0;
}

/* All that is summed up; numbers only, so that tables of several processes can be added. */
typedef struct Tables {
    Sum pins[PLAYER_COUNT], values[PLAYER_COUNT];
    Sum cell[CELL_PATTERN_COUNT][CELL_BOWLER_COUNT][PLAYER_COUNT];
    Sum over_hold[CELL_PATTERN_COUNT][CELL_BOWLER_COUNT];
    Sum gain_advisor, gain_knows, over_rules, value_advisor, value_knows;
    double shots[PLAYER_COUNT], pocket[PLAYER_COUNT], strike[PLAYER_COUNT];
    double bin_n[BINS], bin_said[BINS], bin_hit[BINS];
    double brier, stated, hit, intervals, inside;
} Tables;

static void add_tables(Tables *to, const Tables *from)
{
    double *a = (double *)to;
    const double *b = (const double *)from;
    for (size_t i = 0; i < sizeof *to / sizeof *a; i++)
        a[i] += b[i];
}

static void add_stated(Tables *t, const RehearseShot *shot)
{
    int bin = (int)fmin(BINS - 1.0, shot->stated * BINS);
    t->bin_n[bin] += 1.0;
    t->bin_said[bin] += shot->stated;
    t->bin_hit[bin] += shot->pocket;
    t->brier += (shot->stated - shot->pocket) * (shot->stated - shot->pocket);
    t->hit += shot->pocket;
    t->stated += 1.0;
}

static void play_block(Tables *t, RehearseJob *job, Rehearsal *out, RehearseSetup setup, int p,
                       int b)
{
    double score[PLAYER_COUNT], value[PLAYER_COUNT];
    for (int player = 0; player < PLAYER_COUNT; player++) {
        setup.player = (Player)player;
        rehearse_play(job, &setup, out);
        score[player] = out->mean_pins;
        value[player] = out->value;
        add(&t->values[player], out->value);
        add(&t->pins[player], out->mean_pins);
        add(&t->cell[p][b][player], out->mean_pins);
        t->shots[player] += out->shot_count;
        t->pocket[player] += out->pockets;
        t->strike[player] += out->strikes;
        t->intervals += out->intervals;
        t->inside += out->inside;
        for (int i = 0; player == PLAYER_ADVISOR && i < out->shot_count; i++)
            add_stated(t, &out->shots[i]);
    }
    add(&t->gain_advisor, score[PLAYER_ADVISOR] - score[PLAYER_HOLD]);
    add(&t->gain_knows, score[PLAYER_KNOWS] - score[PLAYER_HOLD]);
    add(&t->value_advisor, value[PLAYER_ADVISOR] - value[PLAYER_HOLD]);
    add(&t->value_knows, value[PLAYER_KNOWS] - value[PLAYER_HOLD]);
    add(&t->over_rules, score[PLAYER_ADVISOR] - score[PLAYER_RULES]);
    add(&t->over_hold[p][b], score[PLAYER_ADVISOR] - score[PLAYER_HOLD]);
}

/* What was asked for on the command line. */
typedef struct Asked {
    int blocks, practice;
    unsigned long first;
    bool sights;
} Asked;

static bool play_pattern(const Asked *asked, int p, Tables *t)
{
    static Bag bag;
    static Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    bool ready = job && out && files_bag("demo", &bag, &error) &&
                 files_rules("coach", &rules, &error) &&
                 files_pattern(CELL_PATTERNS[p], &pattern, &error);
    Bowler usual = bag.bowler;
    for (int b = 0; ready && b < CELL_BOWLER_COUNT; b++) {
        bag.bowler = cell_bowler(b, &usual);
        for (int k = 0; k < asked->blocks; k++)
            play_block(t, job, out,
                       (RehearseSetup){.bag = &bag,
                                       .pattern = &pattern,
                                       .rules = &rules,
                                       .games = GAMES,
                                       .bowlers_on_pair = cell_field(b),
                                       .practice = asked->practice,
                                       .sights = asked->sights,
                                       .seed = cell_seed(asked->first, p, b, k)},
                       p, b);
        fprintf(stderr, "%s, %s done\n", CELL_PATTERNS[p], CELL_BOWLERS[b]);
    }
    rehearse_free(job);
    free(out);
    return ready;
}

/* A process a pattern, so that all cores are used; the tables are added in the patterns' order. */
static bool play_all(const Asked *asked, Tables *sum)
{
    int pipes[CELL_PATTERN_COUNT][2];
    bool all = true;
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        if (pipe(pipes[p]) != 0)
            return false;
        pid_t child = fork();
        if (child < 0)
            return false;
        if (child == 0) {
            static Tables own;
            bool played = play_pattern(asked, p, &own);
            ssize_t written = played ? write(pipes[p][1], &own, sizeof own) : 0;
            _exit(written == (ssize_t)sizeof own ? 0 : 1);
        }
        close(pipes[p][1]);
    }
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        static Tables own;
        size_t have = 0;
        for (ssize_t got = 1; got > 0 && have < sizeof own; have += (size_t)(got > 0 ? got : 0))
            got = read(pipes[p][0], (char *)&own + have, sizeof own - have);
        all &= have == sizeof own;
        if (have == sizeof own)
            add_tables(sum, &own);
        close(pipes[p][0]);
    }
    while (wait(NULL) > 0)
        ;
    return all;
}

static void print_tables(const Asked *asked, const Tables *t)
{
    printf("%d blocks of %d games, %d patterns, %d bowlers, seeds from %lu, %d practice "
           "balls%s\n\n",
           asked->blocks * CELL_PATTERN_COUNT * CELL_BOWLER_COUNT, GAMES, CELL_PATTERN_COUNT,
           CELL_BOWLER_COUNT, asked->first, asked->practice, asked->sights ? ", boards told" : "");
    printf("| player | pins a game | 95 %% +- | pocket | strikes | worth "
           "|\n|---|---|---|---|---|---|\n");
    for (int i = 0; i < PLAYER_COUNT; i++)
        printf("| %s | %.1f | %.1f | %.1f %% | %.1f %% | %.1f %% |\n", PLAYER_NAMES[i],
               mean(&t->pins[i]), half_width(&t->pins[i]), 100.0 * t->pocket[i] / t->shots[i],
               100.0 * t->strike[i] / t->shots[i], 100.0 * mean(&t->values[i]));
    printf("\nadvisor over hold %.1f +- %.1f; knows-the-lane over hold %.1f +- %.1f; share "
           "%.0f %%\n\n",
           mean(&t->gain_advisor), half_width(&t->gain_advisor), mean(&t->gain_knows),
           half_width(&t->gain_knows), 100.0 * mean(&t->gain_advisor) / mean(&t->gain_knows));
    printf("by worth (chance of a strike of what was chosen, under the truth): share %.0f %%\n\n",
           100.0 * mean(&t->value_advisor) / mean(&t->value_knows));
    printf("advisor over rules %.1f +- %.1f\n\n", mean(&t->over_rules), half_width(&t->over_rules));
    printf("| pattern | bowler | hold | rules | advisor | knows | advisor - hold "
           "|\n|---|---|---|---|---|---|---|\n");
    for (int p = 0; p < CELL_PATTERN_COUNT; p++)
        for (int b = 0; b < CELL_BOWLER_COUNT; b++)
            printf("| %s | %s | %.0f | %.0f | %.0f | %.0f | %+.1f +- %.1f |\n", CELL_PATTERNS[p],
                   CELL_BOWLERS[b], mean(&t->cell[p][b][0]), mean(&t->cell[p][b][1]),
                   mean(&t->cell[p][b][2]), mean(&t->cell[p][b][3]), mean(&t->over_hold[p][b]),
                   half_width(&t->over_hold[p][b]));
    printf("\n| stated pocket chance | shots | said | happened |\n|---|---|---|---|\n");
    for (int i = 0; i < BINS; i++)
        if (t->bin_n[i] > 0.0)
            printf("| %d-%d %% | %.0f | %.0f %% | %.0f %% |\n", 10 * i, 10 * (i + 1), t->bin_n[i],
                   100.0 * t->bin_said[i] / t->bin_n[i], 100.0 * t->bin_hit[i] / t->bin_n[i]);
    double base = t->hit / t->stated;
    printf("\nBrier %.3f (always saying %.0f %%: %.3f); 80 %% interval for the film in the track "
           "holds the truth %.0f %% of %.0f times\n",
           t->brier / t->stated, 100.0 * base, base * (1.0 - base),
           t->intervals > 0.0 ? 100.0 * t->inside / t->intervals : 0.0, t->intervals);
}

int main(int argc, char **argv)
{
    Asked asked = {.blocks = argc > 1 ? atoi(argv[1]) : 1,
                   .first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1,
                   .practice = argc > 3 ? atoi(argv[3]) : 0,
                   .sights = argc > 4 && strcmp(argv[4], "sights") == 0};
    static Tables tables;
    if (asked.blocks < 1 || asked.practice < 0 || asked.practice > REHEARSE_PRACTICE_MAX) {
        fputs("bench_rehearse: blocks from 1, practice 0 to 40\n", stderr);
        return 2;
    }
    if (!play_all(&asked, &tables)) {
        fputs("bench_rehearse: a pattern was not played\n", stderr);
        return 1;
    }
    print_tables(&asked, &tables);
    return 0;
}
