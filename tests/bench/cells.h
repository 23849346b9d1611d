/* cells.h - the cells of the rehearsals: six patterns, eight bowlers, one seed a block. */
#ifndef SETTEE_TESTS_BENCH_CELLS_H
#define SETTEE_TESTS_BENCH_CELLS_H

#include "core/bag/preset.h"

enum { CELL_PATTERN_COUNT = 6, CELL_BOWLER_COUNT = 8 };
static const char *const CELL_PATTERNS[CELL_PATTERN_COUNT] = {"apron",    "latch", "lintel",
                                                              "tabletop", "kerb",  "parlour"};
static const char *const CELL_BOWLERS[CELL_BOWLER_COUNT] = {
    "tournament", "two-handed", "low revs",       "left-handed",
    "league",     "senior",     "junior, 14 mph", "junior, 10 mph"};

/* Bowlers on the pair: fewer throw on the left-hander's side. */
static inline int cell_field(int bowler) { return bowler == 3 ? 2 : 4; }

static inline unsigned long cell_seed(unsigned long first, int pattern, int bowler, int block)
{
    return first + (unsigned long)(block + 1000 * (bowler + 10 * pattern));
}

/* A child with one ball, which goes nearly straight. */
static inline bool cell_junior(double mph, double pounds, Bag *bag)
{
    Error error = {0};
    bag->bowler = preset_bowler(preset_level("junior"), preset_style("straight"), HAND_RIGHT);
    bag->bowler.mph = mph;
    return preset_balls("spare", pounds, bag, &error);
}

static inline bool cell_level(const char *name, Bag *bag)
{
    const LevelPreset *level = preset_level(name);
    Error error = {0};
    bag->bowler = preset_bowler(level, preset_style(level->style), HAND_RIGHT);
    return preset_balls(level->balls, level->pounds, bag, &error);
}

/* The bag of a kind of bowler: `demo` with other hands and arms, or one of usual numbers. */
static inline bool cell_bag(int kind, const Bag *demo, Bag *bag)
{
    *bag = *demo;
    Bowler *b = &bag->bowler;
    switch (kind) {
    case 1:
        b->style = STYLE_TWO_HANDED;
        b->mph = 17.8;
        b->rpm = 460.0;
        b->rotation_deg = 45.0;
        b->tilt_deg = 8.0;
        b->scatter = (Scatter){.launch_deg = 0.14, .mph = 0.18, .rpm = 10.0, .laydown_boards = 0.4};
        return true;
    case 2:
        b->mph = 16.5;
        b->rpm = 240.0;
        b->rotation_deg = 45.0;
        b->scatter = (Scatter){.launch_deg = 0.18, .mph = 0.25, .rpm = 8.0, .laydown_boards = 0.5};
        return true;
    case 3:
        b->hand = HAND_LEFT;
        return true;
    case 4:
        return cell_level("league", bag);
    case 5:
        return cell_level("senior", bag);
    case 6:
        return cell_junior(14.0, 12.0, bag);
    case 7:
        return cell_junior(10.0, 8.0, bag);
    default:
        return true;
    }
}

#endif
