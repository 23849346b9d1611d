/* candidates.h - from an adjustment to plans that can be thrown, and what each change costs. */
#ifndef SETTEE_CORE_ADVICE_CANDIDATES_H
#define SETTEE_CORE_ADVICE_CANDIDATES_H

#include <stddef.h>

#include "core/advice/frame.h"
#include "core/advice/rules.h"
#include "core/bag/bag.h"
#include "core/motion/delivery.h"

/* One thing to try: a plan, or a laydown from which the best aim is still to be found. */
typedef struct Candidate {
    AdjustmentKind kind;
    AdjustmentKind with; /* a pair's second change; ADJUST_HOLD: not a pair */
    Plan plan;
    bool find_aim;
    double surface_grit; /* a surface answer; 0 otherwise */
    double promise;      /* its value by a rough forecast, less its cost */
} Candidate;

enum { CANDIDATES_MAX = 160 };

/* Each slot's ball: how strong it is on the sheet (strength.h), and where it would hook if thrown
 * now on the plan's line. */
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
    int least_move;          /* smallest move with the feet, boards, 1.. */
    bool certified;
    Need need;         /* what the frame is to come to */
    bool strikes_rare; /* for this bowler, even with the mean hit where it is best */
    AdjustmentKind
        slot_kind[BAG_SLOTS]; /* what changing to each ball is called; ADJUST_HOLD: not tried */
} Setting;

/* Names the change to each slot's ball: of the names that fit and that no rule forbids, the one the
 * rules ask for most. `vote` and `avoided` are by adjustment. */
void candidates_name_balls(Setting *setting, const double *vote, const bool *avoided);

/* Whether the plan's laydown is on the lane, at least a board from either edge, and the feet are on
 * the approach. */
bool candidate_on_lane(const Bowler *bowler, const Plan *plan);

/* Whether it is tried even if no rule asks for it. */
bool candidate_unasked(AdjustmentKind kind);

/* Boards in, between half boards: what is said of a change of feet and of aim. */
double candidate_feet_in(const Plan *from, const Plan *to);
double candidate_eyes_in(const Plan *from, const Plan *to);

/* Lists what to try for one adjustment; returns how many were added (0: it can't be done here). */
int candidates_list(const Setting *setting, AdjustmentKind kind, Candidate *out, int max);

/* Whether the candidate, once its aim is found, is still its adjustment (a move in whose aim went
 * out is not). */
bool candidate_fits(const Setting *setting, const Candidate *candidate);

/* What a change costs just for being unfamiliar, in chances of a strike (assumed). */
double candidate_cost(const Setting *setting, const Candidate *candidate);

/* "Ball down, 4 Kiln: 2 in with the feet, 1 in with the eyes; and +0.5 mph". */
void candidate_words(const Setting *setting, const Candidate *candidate, char *out, size_t size);

/* How the release differs between two plans: "+0.5 mph, 10 degrees less rotation", or "". */
void candidate_changes(const Plan *from, const Plan *to, char *out, size_t size);

#endif
