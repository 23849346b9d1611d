/* cells.h - the cells of the rehearsals: six patterns, four bowlers, one seed a block. */
#ifndef SETTEE_TESTS_BENCH_CELLS_H
#define SETTEE_TESTS_BENCH_CELLS_H

#include "core/bag/bag.h"

enum { CELL_PATTERN_COUNT = 6, CELL_BOWLER_COUNT = 4 };
static const char *const CELL_PATTERNS[CELL_PATTERN_COUNT] = {"apron",    "latch", "lintel",
                                                              "tabletop", "kerb",  "parlour"};
static const char *const CELL_BOWLERS[CELL_BOWLER_COUNT] = {"tournament", "two-handed", "low revs",
                                                            "left-handed"};

/* Bowlers on the pair: fewer throw on the left-hander's side. */
static inline int cell_field(int bowler) { return bowler == 3 ? 2 : 4; }

static inline unsigned long cell_seed(unsigned long first, int pattern, int bowler, int block)
{
    return first + (unsigned long)(block + 1000 * (bowler + 10 * pattern));
}

static inline Bowler cell_bowler(int kind, const Bowler *usual)
{
    Bowler b = *usual;
    switch (kind) {
    case 1:
        b.style = STYLE_TWO_HANDED;
        b.mph = 17.8;
        b.rpm = 460.0;
        b.rotation_deg = 45.0;
        b.tilt_deg = 8.0;
        b.scatter = (Scatter){.launch_deg = 0.14, .mph = 0.18, .rpm = 10.0, .laydown_boards = 0.4};
        break;
    case 2:
        b.mph = 16.5;
        b.rpm = 240.0;
        b.rotation_deg = 45.0;
        b.scatter = (Scatter){.launch_deg = 0.18, .mph = 0.25, .rpm = 8.0, .laydown_boards = 0.5};
        break;
    case 3:
        b.hand = HAND_LEFT;
        break;
    default:
        break;
    }
    return b;
}

#endif
