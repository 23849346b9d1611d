/* restraint.h - what a coach would not say, whatever the forecast makes of it.
 *
 * The forecast compares chances under a belief; a coach also keeps to what was just seen. These
 * rules say which answers may be given and which of them may come first. All are common practice,
 * without a source; docs/advice.md says why each is here and what it costs. */
#ifndef SETTEE_CORE_ADVICE_RESTRAINT_H
#define SETTEE_CORE_ADVICE_RESTRAINT_H

#include "core/advice/adjustment.h"
#include "core/event/shot.h"
#include "core/motion/delivery.h"

typedef struct Restraint {
    int thrown;  /* first balls so far today, on either lane */
    bool gross;  /* the last missed by far: nose, crossed over, wide, gutter */
    bool bad;    /* the last release was off, which says nothing of the line */
    bool swings; /* now high, now light (SIGN_ALTERNATING); the caller sets it */
    /* To which side the last good balls of this line on this lane missed (1 high, -1 light, 0
     * neither), and how many of them in a row. Where they did not miss: the side of the last good
     * ball on this lane, and 0; where none was seen to hit there, of the last one of this line on
     * the other lane, and where that did not miss of the last one of all. */
    int side, in_a_row;
    double seen_board; /* where those in a row hit on the mean; NAN: in the gutter, or none */
} Restraint;

/* Reads shots[0..count-1], oldest first, for the next ball on `lane` by `plan`. */
Restraint restraint_read(const Shot *shots, int count, Side lane, bool apart, const Plan *plan);

/* Whether a change may move the hit by that many boards (+ higher): never farther to the side of
 * the last misses, and after two of them half a board away from it at least. */
bool restraint_allows_hit(const Restraint *restraint, double boards);

/* Whether the same again is no answer after that many misses. */
bool restraint_must_move(const Restraint *restraint);

/* Whether it may come first with its hit that many boards farther from the pocket than holding. */
bool restraint_allows_off(const Restraint *restraint, double off_boards);

/* What is known of an answer that would come first. */
typedef struct FirstAnswer {
    AdjustmentKind kind, with; /* `with`: ADJUST_HOLD for a single one */
    bool asked;                /* by a rule */
    double feet;               /* boards in */
    double gain;               /* over holding, a chance: of what leads */
    double gain_at_best;       /* the same, of whichever shown number gains most */
    double off_boards;         /* by which it hits farther from the pocket than holding would */
} FirstAnswer;

/* Whether it may come first. */
bool restraint_allows_first(const Restraint *restraint, const FirstAnswer *answer);

/* Whether an answer that changes the hand gains enough to come before `other`, a change that leaves
 * it as it is: the hand is changed last. */
bool restraint_hand_pays(const FirstAnswer *hand, const FirstAnswer *other);

#endif
