/* ranking.h - what each thing that was tried is worth, the best of each adjustment, and their order
 * and words as they are shown. */
#ifndef SETTEE_CORE_ADVICE_RANKING_H
#define SETTEE_CORE_ADVICE_RANKING_H

#include "core/advice/advice.h"
#include "core/advice/pairs.h"
#include "core/advice/votes.h"

/* A candidate with its forecast. */
typedef struct Tried {
    Candidate candidate;
    Line line;
    Outlook outlook;
    double value; /* about in chances of a strike, less what the change costs */
    double score; /* what it is ranked by: its gain, the rules' vote */
} Tried;

/* Where the best candidate of each adjustment is kept, and after them the best pair. */
enum { PLACE_PAIR = ADJUST_COUNT, PLACES };

typedef struct Ranking {
    const Setting *setting; /* these three: the caller's, and must outlive it */
    const Votes *votes;
    const RuleSet *rules;
    Outlook now; /* of the plan as it stands */
    double value_now;
    bool have[PLACES];
    Tried best[PLACES];
} Ranking;

/* Begins with holding: `now` and `line` are the plan's as it stands. */
void ranking_begin(Ranking *ranking, const Setting *setting, const Votes *votes,
                   const RuleSet *rules, const Outlook *now, const Line *line);

/* Keeps it if it is the best of its adjustment so far. */
void ranking_take(Ranking *ranking, const Candidate *candidate, const Line *line,
                  const Outlook *outlook);

/* What a candidate promises by an outlook alone, without its line: to tell what is worth more work.
 */
double ranking_promise(const Setting *setting, const Candidate *candidate, const Outlook *outlook);

/* The best single ones, for pairs_list; returns how many. */
int ranking_singles(const Ranking *ranking, Single out[ADJUST_COUNT]);

/* Writes the adjustments, best first. */
void ranking_write(const Ranking *ranking, Advice *out);

#endif
