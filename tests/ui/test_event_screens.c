/* test_event_screens.c - the keys of the screens beside the lane: the oil. */
#include "near.h"

#include "ui/input/commands.h"
#include "ui/pinned.h"

static Pinned *begin(void)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_play(pinned);
    pinned_advise(pinned);
    return pinned;
}

static void shows(const Pinned *pinned, const char *text)
{
    char *screen = pinned_screen(&pinned->model);
    if (!strstr(screen, text))
        fail_msg("no \"%s\" on\n%s", text, screen);
    free(screen);
}

static void the_cut_moves_and_stays_on_the_lane(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "O");
    shows(pinned, "Across at 25 ft");
    pinned_press(pinned, PRESS_UP);
    shows(pinned, "Across at 26 ft");
    pinned_press(pinned, PRESS_PAGE_DOWN);
    shows(pinned, "Across at 21 ft");
    for (int i = 0; i < 20; i++)
        pinned_press(pinned, PRESS_PAGE_DOWN);
    shows(pinned, "Across at 0 ft");
    for (int i = 0; i < 20; i++)
        pinned_press(pinned, PRESS_PAGE_UP);
    shows(pinned, "Across at 60 ft");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    pinned_type(pinned, "O"); /* where it was left */
    shows(pinned, "Across at 60 ft");
    free(pinned);
}

/* Each lane has a film of its own: the other one is asked for, and marked until it comes. */
static void the_other_lane_has_its_own_oil(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "O");
    Effects effects = pinned_press(pinned, '\t');
    assert_true(effects.advise);
    assert_int_equal(pinned->model.mode, MODE_OIL);
    shows(pinned, "lane 17 left");
    shows(pinned, "calculating…");
    pinned_advise(pinned);
    shows(pinned, "93 ± 10%");
    free(pinned);
}

/* What the screen says of the sheet is what settee oil says: measured by oil.h on the pattern. */
static void the_sheet_is_measured(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Oil sheet;
    char text[64];
    pinned_type(pinned, "O");
    oil_lay(&pinned->session.pattern, &sheet);
    snprintf(text, sizeof text, "sheet    %.1f mL  %.1f ft    %.1f:1", oil_volume_ml(&sheet),
             oil_length_ft(&sheet), oil_ratio(&sheet));
    shows(pinned, text);
    shows(pinned, "Rule of 31: 41 ft less 31");
    pinned->session.pattern.length_ft = 30.0;
    shows(pinned, "30 ft is too short for it");
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_cut_moves_and_stays_on_the_lane),
        cmocka_unit_test(the_other_lane_has_its_own_oil),
        cmocka_unit_test(the_sheet_is_measured),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
