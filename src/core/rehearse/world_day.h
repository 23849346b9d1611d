/* world_day.h - the lanes of a day that was bowled, drawn from what is believed of it: for playing
 * an event again. Needs RehearseStart.given; so it is none of WORLDS. */
#ifndef SETTEE_CORE_REHEARSE_WORLD_DAY_H
#define SETTEE_CORE_REHEARSE_WORLD_DAY_H

#include "core/rehearse/world.h"

typedef struct Day {
    const Belief *after; /* all that was seen: what is true of lanes, balls and bowler */
    int particle;        /* which of its particles is the truth */
    Oil film[SIDE_COUNT][BELIEF_FILMS_MAX]; /* as worn where it begins, of usual volume */
} Day;

extern const World WORLD_DAY;

#endif
