/* known.h - the best ball and line under the truth: a search in steps, a laydown board each. */
#ifndef SETTEE_CORE_REHEARSE_KNOWN_H
#define SETTEE_CORE_REHEARSE_KNOWN_H

#include "core/rehearse/world.h"

typedef struct KnownLine {
    Plan plan;
    double pocket, strike; /* chances under the truth */
} KnownLine;

/* The caller's storage; only `best` is for the caller to read. */
typedef struct KnownSearch {
    const Truth *truth; /* must not change until the search is done */
    Side lane;
    int slot, tried; /* the ball being tried, and how many of its laydowns were */
    double to_beat;
    double middle;  /* laydown of the best of the wide tries */
    KnownLine own;  /* that ball's best so far */
    KnownLine best; /* once done: the best, or the plan to begin with where little is gained */
} KnownSearch;

/* From the lane's plan as it is now. */
void known_begin(KnownSearch *search, Truth *truth, Side lane, int game, const Plan *now);
bool known_step(KnownSearch *search); /* about a millisecond; true when done */

#endif
