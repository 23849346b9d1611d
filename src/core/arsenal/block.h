/* block.h - the games ahead: which ball and line for each, on each lane of the pair, as the field
 * wears it.
 *
 * Plays the block three times, with slower, usual and faster wear. Before each game it takes the
 * ball and line with the most value, but changes nothing for a tiny gain. A job in slices, as in
 * advice.h. Deterministic; allocates nothing but the job. */
#ifndef SETTEE_CORE_ARSENAL_BLOCK_H
#define SETTEE_CORE_ARSENAL_BLOCK_H

#include "core/arsenal/lane_states.h"

typedef enum Pace { PACE_SLOW, PACE_USUAL, PACE_FAST, PACE_COUNT } Pace;
extern const char *const PACE_NAMES[PACE_COUNT + 1];
extern const double PACE_RATE[PACE_COUNT]; /* of wear, against usual: 0.72, 1, 1.4 (belief.c's) */

typedef struct BlockInput {
    const Bag *bag; /* throws the balls in slots, except those for spares (bag_for_spares) */
    const Pattern *pattern;
    int games, bowlers; /* 1..BLOCK_GAMES_MAX, 1..BLOCK_BOWLERS_MAX */
    long revision;      /* the caller's number for this question; returned with the answer */
    FieldMix mix;       /* the others, as far as known */
} BlockInput;

/* What to throw in a game. */
typedef struct BlockGame {
    bool ready;
    int slot; /* 0: no ball of the bag finds the pocket */
    Line line;
    double value;
    /* What this ball and line would do on the lane after the game. */
    double later_board, later_move_ft,
        later_hook_ft; /* NAN in the gutter, or when it never moves */
} BlockGame;

/* A game of one lane over all paces. */
typedef struct BlockSpread {
    double stance_low, stance_high, aim_low, aim_high;
    int slots; /* how many different balls */
    int slot[PACE_COUNT];
} BlockSpread;

typedef struct Block {
    int games, bowlers;
    BlockGame game[PACE_COUNT][SIDE_COUNT][BLOCK_GAMES_MAX];
    double volume_ml[PACE_COUNT][BLOCK_GAMES_MAX + 1]; /* left lane */
    int steps, steps_all;
    bool done;
    long revision; /* of the question it answers */
} Block;

BlockSpread block_spread(const Block *block, Side lane, int game); /* game from 0; when done */

/* How to notice during that game (from 0) that the lane has changed, and what to do then, in one or
 * two sentences; in the last game, what to watch for until the end. */
void block_watch(const Block *block, const Bag *bag, Side lane, int game, char *out,
                 unsigned long size);

typedef struct BlockJob BlockJob;
BlockJob *block_job_new(void); /* heap, owned by the caller; NULL if out of memory */
void block_job_free(BlockJob *job);
void block_begin(BlockJob *job, const BlockInput *input); /* copies bag and film */
bool block_step(BlockJob *job);                           /* a few milliseconds */
const Block *block_result(const BlockJob *job);           /* owned by the job */

#endif
