/* pairs.h - answers that change two things at once, where a bowler would.
 *
 * Not the full product: the best single answers of different kinds are put together, two and two.
 * One new thing at a time is the usual way, so a pair has to be worth more than either part. */
#ifndef SETTEE_CORE_ADVICE_PAIRS_H
#define SETTEE_CORE_ADVICE_PAIRS_H

#include "core/advice/candidates.h"

/* A single answer that has been reckoned, and what it is ranked by. */
typedef struct Single {
    Candidate candidate;
    double score;
} Single;

/* Lists the pairs to try, of the best single of each kind: ball, line, speed, loft, rotation. The
 * ball or else the line is the bigger part, `action`; what goes `with` it is never a second thing
 * of the body's, so a pair has one caution at most. The aim is still to be found. Returns how many
 * were added. */
int pairs_list(const Setting *setting, const Single *singles, int count, Candidate *out, int max);

#endif
