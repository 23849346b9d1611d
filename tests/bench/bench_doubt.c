/* bench_doubt.c - what it costs to know the lane a little less: the player that knows the lane, but
 * whose hits are off by a normal error from shot to shot, against the one that holds.
 * Usage: bench_doubt [BLOCKS-PER-CELL [FIRST-SEED]]. */
#include <stdio.h>
#include <stdlib.h>

#include "cells.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

static double mean_value(RehearseJob *job, Rehearsal *out, RehearseSetup setup, const Bag *demo,
                         Pattern *pattern, int blocks, unsigned long first)
{
    double sum = 0.0;
    static Bag bag;
    Error error = {0};
    setup.bag = &bag;
    for (int p = 0; p < CELL_PATTERN_COUNT; p++)
        for (int b = 0; b < CELL_BOWLER_COUNT; b++)
            for (int k = 0; k < blocks; k++) {
                if (!files_pattern(CELL_PATTERNS[p], pattern, &error) || !cell_bag(b, demo, &bag))
                    exit(1);
                setup.bowlers_on_pair = cell_field(b);
                setup.seed = cell_seed(first, p, b, k);
                rehearse_play(job, &setup, out);
                sum += out->value;
            }
    return sum / (CELL_PATTERN_COUNT * CELL_BOWLER_COUNT * blocks);
}

int main(int argc, char **argv)
{
    static const double OFF[] = {0.0, 0.25, 0.5, 0.75, 1.0, 1.5};
    int blocks = argc > 1 ? atoi(argv[1]) : 1;
    unsigned long first = argc > 2 ? strtoul(argv[2], NULL, 10) : 1;
    static Bag bag;
    static Pattern pattern;
    static RuleSet rules;
    Error error = {0};
    RehearseJob *job = rehearse_new();
    Rehearsal *out = malloc(sizeof *out);
    if (!job || !out || blocks < 1 || !files_bag("demo", &bag, &error) ||
        !files_rules("coach", &rules, &error))
        return 1;
    RehearseSetup setup = {.pattern = &pattern,
                           .rules = &rules,
                           .world = &WORLD_KIN,
                           .player = &PLAYER_HOLD,
                           .games = 3};
    double hold = mean_value(job, out, setup, &bag, &pattern, blocks, first), all = 0.0;
    printf("hold: worth %.1f %%\n\n| hit off by, boards | worth | share of the gain "
           "|\n|---|---|---|\n",
           100.0 * hold);
    setup.player = &PLAYER_KNOWS;
    for (int i = 0; i < 6; i++) {
        setup.known_off_boards = OFF[i];
        double value = mean_value(job, out, setup, &bag, &pattern, blocks, first);
        if (i == 0)
            all = value - hold;
        printf("| %.2f | %.1f %% | %.0f %% |\n", OFF[i], 100.0 * value,
               100.0 * (value - hold) / all);
        fflush(stdout);
    }
    rehearse_free(job);
    free(out);
    return 0;
}
