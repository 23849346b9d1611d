/* adjustment.h - the closed set of things a bowler may change between two shots: one row of
 * adjustments.def each, and all that is known of it by itself stands there. */
#ifndef SETTEE_CORE_ADVICE_ADJUSTMENT_H
#define SETTEE_CORE_ADVICE_ADJUSTMENT_H

#include "core/advice/caution.h"

typedef enum AdjustmentKind {
#define ADJUSTMENT(id, name, words, changes, step, caution) ADJUST_##id,
#include "core/advice/adjustments.def"
#undef ADJUSTMENT
    ADJUST_COUNT
} AdjustmentKind;

/* What is changed. The unit of a step stands behind it. */
typedef enum Change {
    CHANGE_NOTHING,
    CHANGE_BALL,     /* places toward the weak end of the bag (strength.h) */
    CHANGE_FEET,     /* boards in */
    CHANGE_EYES,     /* boards in, the feet stay */
    CHANGE_SPEED,    /* mph */
    CHANGE_LOFT,     /* feet */
    CHANGE_ROTATION, /* degrees */
    CHANGE_SURFACE   /* abrasives, finer */
} Change;

typedef struct AdjustmentRow {
    Change changes;
    double step; /* the usual size (common practice, no source) */
    Caution caution;
} AdjustmentRow;

extern const AdjustmentRow ADJUSTMENTS[ADJUST_COUNT];
extern const char *const ADJUST_NAMES[ADJUST_COUNT + 1]; /* as in rules files; NULL ends */
extern const char *const ADJUST_WORDS[ADJUST_COUNT];

#endif
