/* candidates.h - from an action in words to plans that can be thrown, and what each would do. */
#ifndef SETTEE_CORE_ADVICE_CANDIDATES_H
#define SETTEE_CORE_ADVICE_CANDIDATES_H

#include <stddef.h>

#include "core/advice/rules.h"
#include "core/bag/bag.h"
#include "core/motion/delivery.h"

/* One thing to try: a plan, or a laydown from which the best aim is still to be found. */
typedef struct Candidate {
    AdjustmentKind kind;
    AdjustmentKind with; /* what else changes, of a pair; ADJUST_HOLD: nothing */
    Plan plan;
    bool find_aim;
    double surface_grit; /* a surface answer; 0 otherwise */
    double promise;      /* what a rough forecast makes of it, less what it costs */
} Candidate;

enum { CANDIDATES_MAX = 160 };

/* What each slot's ball is: how strong on the sheet (strength.h), and where it would hook if thrown
 * on the plan's line right now. */
typedef struct SlotTrait {
    bool strikes;    /* filled, and a ball for strikes (not polyester) */
    double strength; /* its score: higher is stronger */
    double hook_ft;  /* LANE_LENGTH_FT if it never hooks */
} SlotTrait;

typedef struct Setting {
    const Bag *bag;
    const Bowler *bowler;
    Plan plan;
    const SlotTrait *traits; /* BAG_SLOTS of them */
    int least_move;          /* boards with the feet: how small a move may be, 1.. */
    bool certified;
    AdjustmentKind
        slot_kind[BAG_SLOTS]; /* what taking each ball is called; ADJUST_HOLD: not taken */
} Setting;

/* Says what taking the ball of each slot is called: of the changes of ball that it is and that no
 * rule forbids, the one the rules ask for most. `vote` and `avoided` are by action. */
void candidates_name_balls(Setting *setting, const double *vote, const bool *avoided);

/* Whether its laydown is on the lane, a board from either edge. */
bool candidate_on_lane(const Bowler *bowler, const Plan *plan);

/* Whether it is tried though no rule asks. */
bool candidate_unasked(AdjustmentKind kind);

/* Lists what to try for one action; returns how many were added (0: it can't be done here). */
int candidates_list(const Setting *setting, AdjustmentKind kind, Candidate *out, int max);

/* Whether what became of the candidate still is its action (a move in whose aim went out is not).
 */
bool candidate_fits(const Setting *setting, const Candidate *candidate);

/* What a change costs before it gains: the unfamiliar, in chance of a strike (assumed). */
double candidate_cost(const Setting *setting, const Candidate *candidate);

/* "Ball down, 4 Kiln: 2 in with the feet, 1 in with the eyes; and +0.5 mph". */
void candidate_words(const Setting *setting, const Candidate *candidate, char *out, size_t size);

/* What of the release differs between two plans: "+0.5 mph, 10 degrees less rotation", or "". */
void candidate_changes(const Plan *from, const Plan *to, char *out, size_t size);

#endif
