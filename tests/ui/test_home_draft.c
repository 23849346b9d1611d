/* test_home_draft.c - a half-filled form outlasts the program: what was taken, field by field, is
 * offered at the next start, goes on as it was, and is gone once the form is done or dropped. */
#include "near.h"

#include "ui/form/ball_form.h"
#include "ui/form/event_form.h"
#include "ui/home_fake.h"

static void shows(const Fake *fake, const char *text)
{
    char *screen = fake_screen(fake);
    assert_non_null(screen);
    if (!strstr(screen, text))
        fail_msg("\"%s\" is not on the screen:\n%s", text, screen);
    free(screen);
}

/* The program was ended and begins again on the same files. */
static void restart(Fake *fake)
{
    int columns = fake->home.columns, rows = fake->home.rows;
    home_begin(&fake->home, &fake->host);
    fake->home.columns = columns;
    fake->home.rows = rows;
}

static void an_event_goes_on(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "n");
    assert_int_equal(fake->draft.form, DRAFT_NONE); /* nothing typed, nothing kept */
    fake_type(fake, "Spring\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\n"); /* the oil: the second row of its list */
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\n41\n");
    fake_press(fake, PRESS_DOWN, 2);
    fake_type(fake, "17,18\n2\n5\n");
    restart(fake);
    shows(fake, "Go on with the new event you were filling in? No drops it.");
    fake_type(fake, "y");
    shows(fake, "Here is what you had");
    const EventInfo *event = &fake->home.event;
    assert_string_equal(event->name, "Spring");
    assert_string_equal(event->pattern, "about:41ft");
    assert_string_equal(event->bag, "mine");
    assert_int_equal(event->pair[1], 18);
    assert_int_equal(event->pairs[4][0], 25); /* two lanes on after each of five games */
    assert_int_equal(event->games, 5);
    fake_type(fake, "\t");
    assert_true(fake->home.over);
    assert_string_equal(fake->event.name, "Spring");
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    free(fake);
}

/* What was said stays said, what is usual stays usual, and "don't know" too. */
static void a_bowler_goes_on(void **state)
{
    (void)state;
    Fake *fake = fake_begin(true, 80, 24);
    fake->bag.count = 0;
    fake_type(fake, "s");
    fake_press(fake, PRESS_DOWN, 1);
    fake_press(fake, PRESS_RIGHT, 1); /* the next level */
    fake_press(fake, PRESS_DOWN, 2);
    fake_type(fake, "17.5\n300\n");
    fake_press(fake, PRESS_UP, 1);
    fake_type(fake, "d");
    Bowler before = fake->home.bowler;
    restart(fake);
    shows(fake, "Go on with the bowler");
    fake_type(fake, "y");
    shows(fake, "step 1 of 3");
    assert_near(fake->home.bowler.mph, 17.5, 0);
    assert_int_equal(fake->home.bowler.from.mph, SOURCE_SAID);
    assert_int_equal(fake->home.bowler.from.rpm, SOURCE_PRESET);
    assert_memory_equal(&fake->home.bowler, &before, sizeof before);
    fake_type(fake, "\t");
    assert_int_equal(fake->draft.form, DRAFT_NONE); /* the bag keeps what comes now */
    free(fake);
}

static void a_ball_goes_on(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "\t\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\nWedge\n14\n");
    char id[64];
    text_copy(id, sizeof id, fake->home.ball_draft.id);
    restart(fake);
    shows(fake, "Go on with the ball");
    fake_type(fake, "y");
    assert_string_equal(fake->home.ball_draft.id, id);
    assert_string_equal(fake->home.ball_draft.name, "Wedge");
    assert_near(fake->home.ball_draft.pounds, 14, 0);
    fake_type(fake, "\t");
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    fake->draft = (Draft){.form = DRAFT_BALL, .of = "mine", .part = "no-such"};
    restart(fake);
    fake_type(fake, "y");
    shows(fake, "not in the bag any more");
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    free(fake);
}

static void a_sheet_goes_on(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "\t\tnGroyne\n42\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "2L-2R 0-8 3\n1-39 0-42 1\n10-30 8-40 2-1.5\n");
    fake_press(fake, PRESS_UP, 2);
    fake_press(fake, PRESS_DELETE, 1);
    fake_press(fake, PRESS_UP, 2);
    fake_press(fake, PRESS_RIGHT, 1); /* readings */
    fake_type(fake, "\n\n8\n\n5\n6\n");
    restart(fake);
    shows(fake, "Go on with the sheet");
    fake_type(fake, "y");
    const Sheet *sheet = &fake->home.sheet;
    assert_string_equal(sheet->pattern.name, "Groyne");
    assert_near(sheet->pattern.length_ft, 42, 0);
    assert_int_equal(sheet->way, SHEET_READINGS);
    assert_int_equal(sheet->pattern.stroke_count, 2);
    assert_int_equal(sheet->pattern.strokes[1].board_from, 10);
    assert_near(sheet->pattern.strokes[1].units_end, 1.5, 0);
    assert_int_equal(sheet->pattern.reading_count, 1); /* even the one that was open */
    assert_near(sheet->pattern.readings[0].units[1], 6, 0);
    assert_near(sheet->pattern.readings[0].units[38], 5, 0);
    fake_type(fake, "\t");
    assert_int_equal(fake->kept, 1);
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    free(fake);
}

/* A sheet typed for an event does not cost what was typed for the event. */
static void an_event_behind_a_sheet(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "nSpring\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\nnGroyne\n");
    fake_press(fake, PRESS_ESC, 1);
    fake_type(fake, "y");
    assert_int_equal(fake->home.filling, FORM_EVENT);
    assert_true(fake->home.touched);
    restart(fake);
    fake_type(fake, "y");
    assert_string_equal(fake->home.event.name, "Spring");
    free(fake);
}

static void left_or_refused_it_is_gone(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "nSpring\n");
    assert_int_equal(fake->draft.form, DRAFT_EVENT);
    fake_press(fake, PRESS_ESC, 1);
    fake_type(fake, "y");
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    fake_type(fake, "nSpring\n");
    restart(fake);
    fake_type(fake, "n");
    assert_int_equal(fake->draft.form, DRAFT_NONE);
    assert_int_equal(fake->home.mode, HOME_LIST);
    fake->refuses = true;
    fake_type(fake, "nSpring\n");
    shows(fake, "Kept only while settee runs: no space left");
    free(fake);
}

/* Keys say which field is meant, so no two fields of a form share one. */
static void every_field_has_a_key(void **state)
{
    (void)state;
    const FormKind *const KINDS[] = {&EVENT_FORM, &BOWLER_FORM, &BALL_FORM};
    for (int k = 0; k < 3; k++)
        for (int a = 0; a < KINDS[k]->count; a++) {
            const char *key = form_field(KINDS[k], a).key;
            assert_non_null(key);
            assert_true(strlen(key) < DRAFT_KEY_SIZE);
            for (int b = 0; b < a; b++)
                assert_string_not_equal(key, form_field(KINDS[k], b).key);
        }
}

/* Whatever a file says, a form holds what it allows. */
static void nonsense_changes_nothing(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake->draft = (Draft){.form = DRAFT_EVENT, .of = "mine"};
    draft_add(&fake->draft, "games", "900");
    draft_add(&fake->draft, "no-such-field", "1");
    draft_add(&fake->draft, "pair", "x");
    draft_add(&fake->draft, "bowlers_on_pair", "6");
    restart(fake);
    fake_type(fake, "y");
    assert_int_equal(fake->home.event.games, 3);
    assert_int_equal(fake->home.event.bowlers_on_pair, 6);
    fake->draft = (Draft){.form = DRAFT_SHEET};
    draft_add(&fake->draft, "length_ft", "41");
    draft_add(&fake->draft, "reading", "8 1 2");
    draft_add(&fake->draft, "stroke", "1-39 0-60 1");
    draft_add(&fake->draft, "row", "1-39 0-40 1");
    restart(fake);
    fake_type(fake, "y");
    assert_int_equal(fake->home.sheet.pattern.reading_count, 0);
    assert_near(fake->home.sheet.pattern.length_ft, 41, 0);
    free(fake);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_event_goes_on),        cmocka_unit_test(a_bowler_goes_on),
        cmocka_unit_test(a_ball_goes_on),          cmocka_unit_test(a_sheet_goes_on),
        cmocka_unit_test(an_event_behind_a_sheet), cmocka_unit_test(left_or_refused_it_is_gone),
        cmocka_unit_test(every_field_has_a_key),   cmocka_unit_test(nonsense_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
