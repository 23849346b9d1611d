/* pairs.h - answers that change two things at once, where a bowler would.
 *
 * Not every combination: the best single answers of different kinds, two at a time. Bowlers usually
 * change one thing at a time, so a pair must be worth more than either part. */
#ifndef SETTEE_CORE_ADVICE_PAIRS_H
#define SETTEE_CORE_ADVICE_PAIRS_H

#include "core/advice/candidates.h"

/* A single answer with its score. */
typedef struct Single {
    Candidate candidate;
    double score;
} Single;

/* Lists the pairs to try from the best single answer of each kind: ball, line, speed, loft,
 * rotation. The ball or else the line is the bigger part, `kind`; `with` is never a second change
 * to the body, so a pair has at most one caution. The aim is still to be found. Returns how many
 * were added. */
int pairs_list(const Setting *setting, const Single *singles, int count, Candidate *out, int max);

#endif
