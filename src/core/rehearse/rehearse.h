/* rehearse.h - a block played on a hidden lane that the advice can't see.
 *
 * A world (world.h) draws the truth; a player (players.h), or a person throw by throw, chooses each
 * throw from what a bowler sees. The same seed gives everybody the same truth and the same luck.
 * Pure. */
#ifndef SETTEE_CORE_REHEARSE_REHEARSE_H
#define SETTEE_CORE_REHEARSE_REHEARSE_H

#include "core/event/score.h"
#include "core/rehearse/players.h"
#include "core/rehearse/world.h"

/* A block that goes on from where an event was. */
typedef struct RehearseStart {
    const void *given; /* for the world's draw */
    const Shot *shots; /* what was thrown on the pair before, oldest first */
    int shot_count;    /* 0..SESSION_SHOTS_MAX */
    Plan plan[SIDE_COUNT];
    Side lane; /* of the next throw; the next frame is on the other one */
    int game;  /* of the next throw; its frame is the score's */
    Score score;
} RehearseStart;

typedef struct RehearseSetup {
    const Bag *bag;
    const Pattern *pattern; /* the sheet the player gets */
    const RuleSet *rules;
    const World *world;
    const Player *player;       /* NULL: somebody else chooses, by rehearse_throw */
    int games, bowlers_on_pair; /* 1..SESSION_GAMES_MAX, 1..10 */
    FieldMix mix;               /* the others, as far as they are known */
    int practice;               /* first balls before the first game, 0..REHEARSE_PRACTICE_MAX */
    bool sights; /* the bowler also reports the boards at the arrows and the breakpoint */
    bool steady; /* each throw goes as it was meant: to see the decisions alone */
    double known_off_boards; /* PLAYER_KNOWS: standard deviation of its error, boards; usually 0 */
    uint64_t seed;
    const RehearseStart *start; /* NULL: from the first frame; then no practice is thrown, and the
                                 * first score is that of the start's game */
} RehearseSetup;

enum { REHEARSE_SHOTS_MAX = 12 * SESSION_GAMES_MAX, REHEARSE_PRACTICE_MAX = 40 };

/* One first ball: what was chosen, and the result. */
typedef struct RehearseShot {
    int game, frame;
    Shot shot;            /* as the bowler saw it */
    AdjustmentKind kind;  /* taken before it */
    double stated;        /* stated chance of a pocket hit; NAN if none */
    double stated_strike; /* and of a strike */
    double value;         /* chance of a strike with this choice, under the truth */
    double board, degrees;
    bool pocket, strike;
} RehearseShot;

typedef struct Rehearsal {
    int games, shot_count, strikes, pockets;
    double value; /* mean over the shots: what the choices were worth, whatever the luck */
    int score[SESSION_GAMES_MAX];
    double mean_pins; /* a game */
    RehearseShot shots[REHEARSE_SHOTS_MAX];
    int practice_count;
    Plan practice[REHEARSE_PRACTICE_MAX]; /* what was thrown before the first game */
    int intervals, inside; /* the advisor's 80 % intervals for the film in the track, and how many
                            * contained the true film */
} Rehearsal;

typedef struct RehearseJob RehearseJob;
RehearseJob *rehearse_new(void); /* heap, owned by the caller; NULL when out of memory */
void rehearse_free(RehearseJob *job);

/* Plays a whole block with the setup's player. A ball must be in a slot. */
void rehearse_play(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out);

/* The same throw by throw: begin, and throw until it is over. Setup and `out` must outlive the
 * block; `out` holds what was played so far. */
void rehearse_begin(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out);
bool rehearse_over(const RehearseJob *job);

/* What is known before the next throw; owned by the job, usable until the block is over. */
const View *rehearse_view(const RehearseJob *job);

/* Throws that plan on the lane whose turn it is, then the spare ball if one is due. A ball must be
 * in its slot. */
void rehearse_throw(RehearseJob *job, const Choice *choice);

/* The last throw as the bowler saw it, its spare ball too, and its true path: NULL before the
 * first. Owned by the job. */
const Shot *rehearse_seen(const RehearseJob *job);
const Roll *rehearse_roll(const RehearseJob *job);

/* The game under way, or the last one. */
const Score *rehearse_score(const RehearseJob *job);

/* The hidden lane as it is now; for those who may know. */
Truth *rehearse_truth(RehearseJob *job);

/* What was meant by a shot. */
Plan shot_plan(const Shot *shot);

/* Mean film of boards low..high from 15 to 35 ft, units. */
double rehearse_film(const Oil *oil, int low, int high);

#endif
