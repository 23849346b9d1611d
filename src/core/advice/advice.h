/* advice.h - what to change next, by how much, and why.
 *
 * Rules turn signs into answers to try; the motion model puts numbers on each, and they are ranked
 * together. The work is done in slices so that the screen stays responsive: advice_begin, then
 * advice_step until it returns true. Partial results may be shown at any time. Deterministic.
 * Allocates nothing. */
#ifndef SETTEE_CORE_ADVICE_ADVICE_H
#define SETTEE_CORE_ADVICE_ADVICE_H

#include "core/advice/forecast.h"
#include "core/advice/frame.h"
#include "core/advice/signs.h"
#include "core/advice/votes.h"
#include "core/event/stays.h"
#include "core/line/line.h"

/* At most one answer per adjustment, and one pair. */
enum { ADVICE_ADJUSTMENTS_MAX = ADJUST_COUNT + 1 };

typedef struct AdviceInput {
    const Bag *bag;         /* the plan's slot must hold a ball */
    const Pattern *pattern; /* with a sheet or only with something known about it */
    const RuleSet *rules;
    const Shot *shots; /* oldest first, both lanes */
    int shot_count;
    Side lane;         /* lane of the next shot */
    Plan plan;         /* what would be thrown there next */
    bool apart;        /* each lane of the pair has a plan of its own */
    int warm_up_count; /* the first shots, if they are not of a frame */
    int game, frame;   /* frames up to this one that no shot tells of have worn the pair too */
    int stay_count; /* of the pairs bowled on so far, in turn (stays.h); up to 1: all was on one */
    Stay stays[SESSION_GAMES_MAX];
    int bowlers_on_pair;
    FieldMix mix; /* the others among them, as far as they are known */
    bool certified;
    Need need;     /* what the scoreboard asks of the frame */
    long revision; /* the caller's number for this question; returned with the answer */
} AdviceInput;

/* The question of an event as it stands: what to throw next on that lane, where the plan is to be
 * `plan`. Points into the session. */
AdviceInput advice_input(const Session *session, Side lane, const Plan *plan, const RuleSet *rules);

typedef struct Adjustment {
    AdjustmentKind kind;
    AdjustmentKind with;             /* a pair's second change; ADJUST_HOLD: not a pair */
    Plan plan;                       /* what to throw */
    double surface_grit;             /* the grit to put on; 0: not a surface answer */
    double pocket_now, pocket_after; /* chance, 0..1, on the lane as estimated */
    double pocket_known; /* after, if the lane is just as estimated: no doubt about it */
    double strike_now, strike_after; /* chance, from pocket hits and entry angle */
    FrameOutlook frame_now, frame_after;
    double entry_deg;
    double hit_boards;            /* by which it hits higher than holding would, by its own roll */
    double margin_in, margin_out; /* boards of aim */
    double vote;                  /* how much the rules ask for it, 0..1 */
    double score;                 /* what it is ranked by; higher first */
    int rule_count;
    int rules[ADJUSTMENT_RULES_MAX]; /* indices into the rule set, most insistent first */
    Caution caution;
    bool disagrees;  /* the rules insist on it, but the forecast says it loses */
    char words[192]; /* "Ball down, 4 Kiln: 2 in with the feet, 1 in with the eyes" */
    char hits[40];   /* "hits about 1.5 boards lighter"; "" for holding */
    char because[200];
} Adjustment;

/* What a slot's ball would do now on its own best line near the plan's laydown. */
typedef struct SlotNow {
    bool filled; /* a ball is in it */
    bool ready;  /* calculated */
    Line line;
    double pocket_known; /* as line.pocket, if the lane is just as estimated */
} SlotNow;

/* What the lane of the next shot is thought to be like now. */
typedef struct LaneNow {
    Side side;
    double scale, scale_sd; /* film against the usually worn sheet, with its standard deviation */
    Estimate dry, wear;     /* friction of bare lane, rate of wear; both against usual */
    Estimate mph;           /* the bowler today, against their usual */
    DeliveryOffset today;   /* how they throw today, mean: for plan_today */
    Estimate off;           /* boards of the current ball that nothing else explains */
    int deliveries;         /* thrown on it so far by all bowlers */
    char words[80];         /* "track at 10-14 about a third thinner"; without a sheet as
                             * sheet_words */
    int sheet_count;        /* of the sheets that a pattern without one may be; 0: it has one */
    SheetLeft sheets[ABOUT_SHEETS_MAX]; /* most likely first */
    char sheet_words[80];               /* "most like a 41 ft, flat; 3 others possible", or "" */
    char off_words[80];                 /* "hits a board higher here than its numbers say", or "" */
    double offsets[OFFSETS_COUNT];      /* boards that nothing else explains, on the mean: for
                                         * offsets_mean */
    int which[BAG_SLOTS];               /* the slots' balls there, by belief_ball */
} LaneNow;

/* All of it answers the question of advice_begin; nothing is left of an earlier one. */
typedef struct Advice {
    Signs signs;
    LaneNow lane;
    Oil film; /* that lane's film as estimated, bowler's frame */
    SlotNow slot[BAG_SLOTS];
    Line now;             /* the current plan */
    double now_known;     /* its pocket chance if the lane is just as estimated */
    Roll now_roll;        /* its path */
    int adjustment_count; /* best first */
    Adjustment adjustments[ADVICE_ADJUSTMENTS_MAX];
    bool strikes_rare; /* for this bowler: answers go by the frame's score, where no need is said */
    bool ready;        /* signs, film, now and a first answer are there */
    bool done;
    long revision; /* of the question it answers */
} Advice;

typedef struct AdviceJob AdviceJob;
/* Heap, owned by the caller; NULL if out of memory. */
AdviceJob *advice_job_new(void);
void advice_job_free(AdviceJob *job);

/* What `input` points to must outlive the job's steps (its shots are copied). A job keeps its
 * belief: if the shots continue those it saw last, only the new ones are weighed, with the same
 * result as from the start. */
void advice_begin(AdviceJob *job, const AdviceInput *input);

/* Does one slice (at most a few milliseconds); true when done. */
bool advice_step(AdviceJob *job);

/* Only the part of it that weighs the shots; false when none is left. For those who want the belief
 * and no answer. */
bool advice_weigh(AdviceJob *job);

/* The result so far; owned by the job. */
const Advice *advice_result(const AdviceJob *job);

/* Whether the answers are final (the slots may still be in progress). */
bool advice_adjustments_done(const AdviceJob *job);

/* What the rules alone ask for most; ADJUST_HOLD if nothing. Usable once ready. */
AdjustmentKind advice_asked(const AdviceJob *job);

/* The belief after the given shots; owned by the job. */
const Belief *advice_belief(const AdviceJob *job);

/* The path of a plan on that lane, as the bowler throws today, with what was learnt of line and
 * ball. `surface_grit`: what its ball is sanded to first; 0: as it is. A ball must be in the plan's
 * slot, and the advice be ready. */
void advice_roll(const Advice *advice, const Bag *bag, const Plan *plan, double surface_grit,
                 Roll *roll);

#endif
