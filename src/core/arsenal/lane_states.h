/* lane_states.h - what a lane may be like during a block: its films game by game as the field wears
 * them, and the seven lane states a bag must cope with.
 *
 * Pure. The films are made in steps of a few milliseconds, so that the screen stays responsive. */
#ifndef SETTEE_CORE_ARSENAL_LANE_STATES_H
#define SETTEE_CORE_ARSENAL_LANE_STATES_H

#include "core/event/shot.h"
#include "core/line/fit.h"
#include "core/line/others.h"
#include "core/motion/wear.h"

enum { BLOCK_GAMES_MAX = 24, BLOCK_BOWLERS_MAX = 10 };

/* First balls one bowler throws on each lane in a game: five of ten frames, and on the right lane
 * the fill balls of the tenth (one, assumed). */
int block_deliveries(Side lane);

/* One game's wear of one lane: you throw `ball` as planned by `delivery` (NULL: nothing) with your
 * scatter, and the field throws theirs. Their lines are found first. */
typedef struct GameWear {
    const Bowler *bowler;
    const MotionBody *body;
    Cover cover;
    const Delivery *delivery;
    WearRate rate;
} GameWear;
void block_wear(Oil *oil, Others *others, const GameWear *wear, Side lane);

typedef enum LaneState {
    LANE_FRESH,
    LANE_TRANSITION,
    LANE_BURNT,
    LANE_CARRIED,
    LANE_LONG,
    LANE_SHORT,
    LANE_CLIFFED,
    LANE_STATE_COUNT
} LaneState;
extern const char *const LANE_STATE_NAMES[LANE_STATE_COUNT + 1]; /* "fresh", ... */
extern const char *const LANE_STATE_WORDS[LANE_STATE_COUNT];     /* what each is, in words */

/* The share of a block of that many games for each state; sums to 1 (assumed). */
void lane_state_weights(int games, double weight[LANE_STATE_COUNT]);

/* Each state as dressed, and with a sixth less and more oil: a lane is never quite the sheet. */
enum { STATE_VOLUMES = 3, STATE_FILMS = LANE_STATE_COUNT * STATE_VOLUMES };
extern const double STATE_VOLUME[STATE_VOLUMES];       /* 1, 0.85, 1.15 */
extern const double STATE_VOLUME_SHARE[STATE_VOLUMES]; /* a half, a quarter, a quarter */

typedef struct LaneFilms {
    int games, bowlers;
    Bowler bowler;
    int done;                      /* steps taken */
    Oil game[BLOCK_GAMES_MAX + 1]; /* before each game, and after the last; usual wear */
    Oil state[LANE_STATE_COUNT];
    Oil work[2];      /* half-made: worn fast, worn by hard covers */
    Others others[3]; /* of the usual wear, of the fast, of hard covers */
} LaneFilms;

/* sheet: in the bowler's frame; mix: the others as far as known, NULL: unknown. */
void lane_films_begin(LaneFilms *films, const Oil *sheet, const Bowler *bowler, int games,
                      int bowlers, const FieldMix *mix);
bool lane_films_step(LaneFilms *films); /* true when all are made */

#endif
