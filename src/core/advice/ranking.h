/* ranking.h - the value of each candidate, the best of each adjustment, and the order and words in
 * which they are shown. */
#ifndef SETTEE_CORE_ADVICE_RANKING_H
#define SETTEE_CORE_ADVICE_RANKING_H

#include "core/advice/advice.h"
#include "core/advice/pairs.h"
#include "core/advice/restraint.h"
#include "core/advice/votes.h"

/* No answer brings the ball farther out than this board (common practice, no source). */
#define RANKING_EDGE_LAST 2.0

/* A candidate with its forecast. */
typedef struct Tried {
    Candidate candidate;
    Line line;
    Outlook outlook;
    FrameOutlook frame;
    double value; /* roughly in chances of a strike, less what the change costs */
    double score; /* what it is ranked by: its gain plus the rules' vote */
    bool near;    /* hits near enough to the pocket to come first */
} Tried;

/* Places for the best candidate of each adjustment, then one for the best pair. */
enum { PLACE_PAIR = ADJUST_COUNT, PLACES };

typedef struct Ranking {
    const Setting *setting; /* these four are the caller's and must outlive the ranking */
    const Votes *votes;
    const RuleSet *rules;
    const Restraint *restraint;
    Outlook now; /* of the current plan */
    Line line_now;
    FrameOutlook frame_now;
    double value_now;
    bool have[PLACES];
    Tried best[PLACES];
} Ranking;

/* Begins with "hold": `now` and `line` are the current plan's. */
void ranking_begin(Ranking *ranking, const Setting *setting, const Votes *votes,
                   const RuleSet *rules, const Restraint *restraint, const Outlook *now,
                   const Line *line);

/* Whether a change may be answered that rolls so on the lane as estimated: the board it hits and
 * the one where it comes farthest out. */
bool ranking_allows_roll(const Ranking *ranking, double board, double breakpoint);

/* Keeps it if it may be answered (restraint.h) and is the best of its adjustment so far. */
void ranking_take(Ranking *ranking, const Candidate *candidate, const Line *line,
                  const Outlook *outlook);

/* A candidate's value from an outlook alone, without its line: to choose which are worth a full
 * forecast. */
double ranking_promise(const Setting *setting, const Candidate *candidate, const Outlook *outlook);

/* The best candidate of each adjustment, for pairs_list; returns how many. */
int ranking_singles(const Ranking *ranking, Single out[ADJUST_COUNT]);

/* Writes the adjustments, best first. */
void ranking_write(const Ranking *ranking, Advice *out);

#endif
