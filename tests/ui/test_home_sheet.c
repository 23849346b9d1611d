/* test_home_sheet.c - a sheet typed in a form, key by key: strokes, readings, what is refused, a
 * copy, a change, and one typed for a new event. */
#include "near.h"

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

/* An empty sheet, its name and length typed, on the first stroke. */
static Fake *sheet(int columns, int rows)
{
    Fake *fake = fake_begin(false, columns, rows);
    fake_type(fake, "\t\tn");
    assert_int_equal(fake->home.filling, FORM_SHEET);
    fake_type(fake, "Breakwater\n41\n");
    fake_press(fake, PRESS_DOWN, 1);
    assert_int_equal(fake->home.form.row, SHEET_FIRST);
    return fake;
}

static void strokes_add_up(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    shows(fake, "no oil yet");
    fake_type(fake, "2L-2R 0-8 3\n10L-10R 41-8 1.5-2\n");
    shows(fake, "10-30 8-41 2-1.5");
    double before = fake->home.sheet_ml;
    fake_type(fake, "10-30 8-41 2"); /* as it is typed, before Enter */
    assert_less(before, fake->home.sheet_ml);
    assert_int_equal(fake->home.sheet.pattern.stroke_count, 2);
    fake_type(fake, "\n\t");
    assert_int_equal(fake->kept, 1);
    assert_int_equal(fake->home.mode, HOME_LIST);
    assert_string_equal(fake->pattern.name, "Breakwater");
    assert_near(fake->pattern.length_ft, 41, 0);
    assert_int_equal(fake->pattern.stroke_count, 3);
    assert_int_equal(fake->pattern.strokes[0].board_to, 38);
    assert_near(fake->pattern.strokes[1].units_start, 2, 0);
    shows(fake, "Kept among your patterns");
    free(fake);
}

static void what_is_refused_stays_typed(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    fake_type(fake, "2L-2R 0-48 3\n");
    shows(fake, "Stroke 1: found 0 to 48 feet; allowed: 0 to 41, the length");
    shows(fake, "2L-2R 0-48 3");
    assert_int_equal(fake->home.form.row, SHEET_FIRST);
    fake_type(fake, "\b\b\b\b41 3\n"); /* 0-41 */
    assert_int_equal(fake->home.sheet.pattern.stroke_count, 1);
    fake_press(fake, PRESS_UP, 3);
    fake_type(fake, "40\n");
    shows(fake, "a row below goes to 41 feet");
    fake_press(fake, PRESS_ESC, 1);
    fake_press(fake, PRESS_UP, 1);
    for (int i = 0; i < 10; i++)
        fake_type(fake, "\b");
    fake_type(fake, "\t");
    shows(fake, "Name: found nothing");
    assert_int_equal(fake->kept, 0);
    fake_press(fake, PRESS_ESC, 2);
    assert_int_equal(fake->home.ask, ASK_LEAVE);
    fake_type(fake, "y");
    assert_int_equal(fake->home.mode, HOME_LIST);
    assert_int_equal(fake->kept, 0);
    free(fake);
}

static void rows_go(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    fake_type(fake, "\t");
    shows(fake, "there is no oil yet: type a stroke first");
    fake_type(fake, "1-39 0-41 1\n2-38 0-41 2\n3-37 0-41 3\n");
    fake_press(fake, PRESS_UP, 2);
    fake_press(fake, PRESS_DELETE, 1); /* the second */
    assert_int_equal(fake->home.sheet.pattern.stroke_count, 2);
    assert_int_equal(fake->home.sheet.pattern.strokes[1].board_from, 3);
    fake_type(fake, " \n"); /* an empty row is none */
    assert_int_equal(fake->home.sheet.pattern.stroke_count, 1);
    free(fake);
}

static void it_holds_as_many_as_a_file(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    for (int i = 0; i < PATTERN_STROKES_MAX + 2; i++)
        fake_type(fake, "1-39 0-41 1\n");
    assert_int_equal(fake->home.sheet.pattern.stroke_count, PATTERN_STROKES_MAX);
    fake_type(fake, "\t");
    assert_int_equal(fake->pattern.stroke_count, PATTERN_STROKES_MAX);
    free(fake);
}

/* Both sides alike: twenty boards are enough; the next reading begins like the one before. */
static void readings_of_a_tape(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    fake_press(fake, PRESS_UP, 1);
    fake_press(fake, PRESS_RIGHT, 1);
    fake_type(fake, "\n\n22\n\n");
    for (int board = 1; board <= 20; board++) {
        char key[8];
        snprintf(key, sizeof key, "%d\n", board);
        fake_type(fake, key);
    }
    fake_type(fake, "\t");
    shows(fake, "22 ft, 10.3 units a board"); /* (2 * 190 + 20) / 39 */
    fake_type(fake, "\n22\n\t");
    shows(fake, "there is a reading at 22 feet already");
    fake_type(fake, "42\n\t");
    shows(fake, "0 to 41 feet, the length");
    fake_type(fake, "8\n");
    fake_press(fake, PRESS_DOWN, 1 + 29); /* board 30 by itself */
    fake_type(fake, "7\n\t\t");
    const Pattern *pattern = &fake->pattern;
    assert_int_equal(fake->kept, 1);
    assert_int_equal(pattern->stroke_count, 0);
    assert_int_equal(pattern->reading_count, 2);
    assert_near(pattern->readings[0].ft, 8, 0); /* by rising distance */
    assert_near(pattern->readings[0].units[29], 7, 0);
    assert_near(pattern->readings[0].units[9], 10, 0);
    for (int board = 1; board <= 39; board++)
        assert_near(pattern->readings[1].units[board - 1], board <= 20 ? board : 40 - board, 0);
    free(fake);
}

/* What is built in is copied under another name, without what it says of how it plays. */
static void a_copy_to_change(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "\t\t\n");
    shows(fake, "This is a copy");
    assert_int_equal(fake->home.sheet.pattern.stroke_count, 1);
    assert_string_equal(fake->home.sheet_name, "");
    fake_type(fake, "Other\n\t");
    assert_string_equal(fake->home.sheet_name, "typed");
    assert_string_equal(fake->pattern.name, "Other");
    assert_string_equal(fake->pattern.note, "");
    free(fake);
}

static void for_a_new_event(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "n");
    fake_press(fake, PRESS_DOWN, EVENT_PATTERN);
    fake_type(fake, "\nn");
    assert_int_equal(fake->home.filling, FORM_SHEET);
    fake_press(fake, PRESS_ESC, 1); /* nothing typed: back to the event */
    assert_int_equal(fake->home.filling, FORM_EVENT);
    assert_int_equal(fake->home.form.row, EVENT_PATTERN);
    fake_type(fake, "\nnGroyne\n\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "1-39 0-40 3\n\t");
    assert_int_equal(fake->home.filling, FORM_EVENT);
    assert_string_equal(fake->home.event.pattern, "typed");
    assert_int_equal(fake->home.form.row, EVENT_BAG);
    fake_type(fake, "\t");
    assert_string_equal(fake->event.pattern, "typed");
    free(fake);
}

static void a_full_disk_loses_nothing(void **state)
{
    (void)state;
    Fake *fake = sheet(80, 24);
    fake_type(fake, "1-39 0-41 1\n");
    fake->refuses = true;
    fake_type(fake, "\t");
    shows(fake, "NOT SAVED: no space left");
    assert_int_equal(fake->home.filling, FORM_SHEET);
    fake->refuses = false;
    fake_type(fake, "\t");
    assert_int_equal(fake->home.mode, HOME_LIST);
    free(fake);
}

/* No sequence of keys does what it must not, and what was kept of it goes on: 60 walks with a seed.
 */
static void any_keys_at_all(void **state)
{
    (void)state;
    static const uint32_t KEYS[] = {'\r',       '\r',       '\b',        '\t',         PRESS_UP,
                                    PRESS_DOWN, PRESS_LEFT, PRESS_RIGHT, PRESS_DELETE, PRESS_ESC};
    static const char *const ROWS[] = {"2L-2R 0-8 2.5\r", "1-39,30-2,3x50\r", "8\r", "x\r", "41\r"};
    unsigned seed = 7;
    int most = 0;
    for (int walk = 0; walk < 60; walk++) {
        Fake *fake = walk % 3 ? sheet(80, 24) : sheet(40, 12);
        for (int i = 0; i < 150; i++) {
            seed = seed * 1103515245u + 12345u;
            unsigned n = seed >> 16;
            if (n % 4 == 0)
                fake_type(fake, ROWS[n / 4 % (sizeof ROWS / sizeof *ROWS)]);
            else
                home_key(&fake->home, KEYS[n / 4 % (sizeof KEYS / sizeof *KEYS)]);
            fake->home.over = false;
            free(fake_screen(fake));
            const Pattern *pattern = &fake->home.sheet.pattern;
            assert_in_range(pattern->stroke_count, 0, PATTERN_STROKES_MAX);
            assert_in_range(pattern->reading_count, 0, PATTERN_READINGS_MAX);
            most = pattern->reading_count > most ? pattern->reading_count : most;
            for (int k = 1; k < pattern->reading_count; k++)
                assert_less(pattern->readings[k - 1].ft, pattern->readings[k].ft);
            if (n % 37 == 0) { /* killed, and gone on with */
                int columns = fake->home.columns, rows = fake->home.rows;
                home_begin(&fake->home, &fake->host);
                fake->home.columns = columns;
                fake->home.rows = rows;
                fake_type(fake, "y");
            }
        }
        free(fake);
    }
    assert_true(most > 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(strokes_add_up),
        cmocka_unit_test(what_is_refused_stays_typed),
        cmocka_unit_test(rows_go),
        cmocka_unit_test(it_holds_as_many_as_a_file),
        cmocka_unit_test(readings_of_a_tape),
        cmocka_unit_test(a_copy_to_change),
        cmocka_unit_test(for_a_new_event),
        cmocka_unit_test(a_full_disk_loses_nothing),
        cmocka_unit_test(any_keys_at_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
