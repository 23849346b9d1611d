/* again.h - an event that was bowled, played again from one of its frames on lanes drawn from what
 * is now believed of that day: "what if I had balled down in game two?"
 *
 * Each draw is played twice with the same lane and luck: as it was bowled, throw by throw, and the
 * other way. A job in slices; pure. */
#ifndef SETTEE_CORE_REHEARSE_AGAIN_H
#define SETTEE_CORE_REHEARSE_AGAIN_H

#include "core/event/session.h"
#include "core/rehearse/rehearse.h"

enum { AGAIN_DRAWS_LEAST = 2, AGAIN_DRAWS_MAX = 1000, AGAIN_DRAWS_USUAL = 100 };

typedef struct AgainSetup {
    const Session *session; /* must outlive the job's steps; so must the rules */
    const RuleSet *rules;
    int game, frame; /* where the other way begins: a frame that was bowled */
    int draws;       /* AGAIN_DRAWS_LEAST..AGAIN_DRAWS_MAX */
    /* The first throw on each lane: its ball, feet and aim; 0 and NAN: as they were bowled. */
    int slot;
    double stance, aim;
    const Player *player; /* who goes on from there; not one that knows the lane */
    uint64_t seed;
} AgainSetup;

/* Of a number over the draws. */
typedef struct AgainSpread {
    double mean, low, high; /* a tenth of the draws is below `low`, a tenth above `high` */
    double error;           /* standard error of the mean */
} AgainSpread;

typedef struct Again {
    int draws; /* played so far; the numbers below them are there when all are */
    int first_game, last_game;
    int shots;                      /* of the day, from which the lanes are drawn */
    AgainSpread bowled, other;      /* pins of those games */
    AgainSpread difference;         /* other less bowled, of the same draw */
    double better;                  /* share of the draws in which the other way scores more */
    double strikes[2], strike_gain; /* mean chance of a strike: bowled, other; whatever the luck */
    double strike_gain_error;
} Again;

typedef struct AgainJob AgainJob;
AgainJob *again_new(void); /* heap, owned by the caller; NULL when out of memory */
void again_free(AgainJob *job);

/* False, with the reason: there is no such frame, or what was bowled before it isn't known. */
bool again_begin(AgainJob *job, const AgainSetup *setup, Again *out, Error *error);

/* Weighs a shot, or plays a draw both ways; true when done. */
bool again_step(AgainJob *job);

#endif
