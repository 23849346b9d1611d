/* adjustment.c - the columns of adjustments.def. */
#include "core/advice/adjustment.h"

#define ADJUSTMENT(id, name, words, changes, step, caution)                                        \
    {CHANGE_##changes, step, CAUTION_##caution},
const AdjustmentRow ADJUSTMENTS[ADJUST_COUNT] = {
#include "core/advice/adjustments.def"
};
#undef ADJUSTMENT

#define ADJUSTMENT(id, name, words, changes, step, caution) name,
const char *const ADJUST_NAMES[ADJUST_COUNT + 1] = {
#include "core/advice/adjustments.def"
    0};
#undef ADJUSTMENT

#define ADJUSTMENT(id, name, words, changes, step, caution) words,
const char *const ADJUST_WORDS[ADJUST_COUNT] = {
#include "core/advice/adjustments.def"
};
#undef ADJUSTMENT
