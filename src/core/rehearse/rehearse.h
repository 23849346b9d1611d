/* rehearse.h - a block played against a hidden lane that the advice may not see.
 *
 * The truth is drawn from wider priors than the belief's and rolled with other constants: the film
 * as dressed with error, friction, wear, carry, the other bowlers on the pair, the bowler's day and
 * scatter. The same seed gives every player the same truth and the same luck. Pure. */
#ifndef SETTEE_CORE_REHEARSE_REHEARSE_H
#define SETTEE_CORE_REHEARSE_REHEARSE_H

#include "core/advice/advice.h"

typedef enum Player {
    PLAYER_HOLD,    /* the first line, all day */
    PLAYER_RULES,   /* what the rules ask for most, by the usual sizes, no model */
    PLAYER_ADVISOR, /* the first answer of advice.h */
    PLAYER_KNOWS,   /* the best ball and line under the truth */
    PLAYER_COUNT
} Player;
extern const char *const PLAYER_NAMES[PLAYER_COUNT + 1];

typedef struct RehearseSetup {
    const Bag *bag;
    const Pattern *pattern;
    const RuleSet *rules;
    int games, bowlers_on_pair; /* 1..SESSION_GAMES_MAX, 1..10 */
    int practice;               /* first balls before the first game, 0..REHEARSE_PRACTICE_MAX */
    bool sights; /* the bowler says the boards at the arrows and at the breakpoint too */
    Player player;
    double known_off_boards; /* PLAYER_KNOWS: deviation of the hit from what it thinks; usually 0 */
    uint64_t seed;
} RehearseSetup;

enum { REHEARSE_SHOTS_MAX = 12 * SESSION_GAMES_MAX, REHEARSE_PRACTICE_MAX = 40 };

/* One first ball: what was chosen, and what came of it. */
typedef struct RehearseShot {
    int game, frame;
    Shot shot;           /* as the bowler saw it */
    AdjustmentKind kind; /* taken before it */
    double stated;       /* pocket chance that was stated; NAN where the player states none */
    double value;        /* chance of a strike of what was chosen, under the truth */
    double board, degrees;
    bool pocket, strike;
} RehearseShot;

typedef struct Rehearsal {
    int games, shot_count, strikes, pockets;
    double value; /* mean over the shots: what the choices were worth, whatever the luck */
    int score[SESSION_GAMES_MAX];
    double mean_pins; /* a game */
    RehearseShot shots[REHEARSE_SHOTS_MAX];
    int intervals,
        inside; /* belief's 80 % intervals for the film in the track, and how many held it */
} Rehearsal;

typedef struct RehearseJob RehearseJob;
RehearseJob *rehearse_new(void); /* heap, owned by the caller; NULL when memory is short */
void rehearse_free(RehearseJob *job);

/* Plays a whole block. */
void rehearse_play(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out);

#endif
