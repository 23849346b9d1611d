/* test_adjustments.c - the table of adjustments: each has a direction and an opposite, and whatever
 * can hurt someone or something has a caution. */
#include "near.h"

#include <stdbool.h>
#include <string.h>

#include "core/advice/adjustment.h"

static void test_rows(void **state)
{
    (void)state;
    for (int kind = 0; kind < ADJUST_COUNT; kind++) {
        const AdjustmentRow *row = &ADJUSTMENTS[kind];
        assert_true(ADJUST_NAMES[kind][0] && ADJUST_WORDS[kind][0]);
        assert_true((row->changes == CHANGE_NOTHING) == (kind == ADJUST_HOLD));
        assert_true((row->step == 0.0) == (kind == ADJUST_HOLD));
        bool opposite = kind == ADJUST_HOLD;
        for (int other = 0; other < ADJUST_COUNT; other++) {
            opposite |= ADJUSTMENTS[other].changes == row->changes &&
                        (ADJUSTMENTS[other].step < 0.0) != (row->step < 0.0);
            assert_true(other == kind || strcmp(ADJUST_NAMES[other], ADJUST_NAMES[kind]) != 0);
        }
        assert_true(opposite);
    }
    assert_null(ADJUST_NAMES[ADJUST_COUNT]);
}

/* More speed and more loft strain the body, a turned wrist whichever way; abrasives have rules and
 * dust. */
static void test_cautions(void **state)
{
    (void)state;
    for (int kind = 0; kind < ADJUST_COUNT; kind++) {
        const AdjustmentRow *row = &ADJUSTMENTS[kind];
        Caution expected = row->changes == CHANGE_SURFACE                    ? CAUTION_SURFACE
                           : row->changes == CHANGE_ROTATION                 ? CAUTION_HAND
                           : row->changes == CHANGE_LOFT && row->step > 0.0  ? CAUTION_LOFT
                           : row->changes == CHANGE_SPEED && row->step > 0.0 ? CAUTION_SPEED
                                                                             : CAUTION_NONE;
        assert_int_equal(row->caution, expected);
    }
    for (int caution = 0; caution < CAUTION_COUNT; caution++) {
        assert_true((CAUTION_WORDS[caution][0] == '\0') == (caution == CAUTION_NONE));
        assert_true((CAUTION_NAMES[caution][0] == '\0') == (caution == CAUTION_NONE));
    }
    assert_null(CAUTION_NAMES[CAUTION_COUNT]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_rows),
                                       cmocka_unit_test(test_cautions)};
    return cmocka_run_group_tests_name("adjustments", tests, NULL, NULL);
}
