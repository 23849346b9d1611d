/* test_home.c - the welcome, Home and its forms, key by key, on files in memory. */
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

static void no_key_means_two_things(void **state)
{
    (void)state;
    for (int a = 0; a < HOME_TABLE.count; a++)
        for (int b = 0; b < a; b++) {
            const KeyRow *x = key_row(&HOME_TABLE, a), *y = key_row(&HOME_TABLE, b);
            if (!(x->where & y->where))
                continue;
            bool ranges = x->from <= y->to && y->from <= x->to;
            bool also =
                (x->also && ((x->also >= y->from && x->also <= y->to) || x->also == y->also)) ||
                (y->also && y->also >= x->from && y->also <= x->to);
            if (ranges || also)
                fail_msg("\"%s\" and \"%s\" share a key", x->help, y->help);
        }
}

/* d and m stand beside figures and words, which take neither letter. */
static void help_tells_every_key(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 120);
    fake_type(fake, "?");
    char *screen = fake_screen(fake);
    for (int i = 0; i < HOME_TABLE.count; i++)
        if (!strstr(screen, key_row(&HOME_TABLE, i)->help))
            fail_msg("the help does not tell \"%s\"", key_row(&HOME_TABLE, i)->help);
    free(screen);
    fake_press(fake, PRESS_ESC, 1);
    assert_int_equal(fake->home.mode, HOME_LIST);
    free(fake);
}

static void the_welcome_is_for_an_empty_home(void **state)
{
    (void)state;
    Fake *fake = fake_begin(true, 80, 24);
    assert_int_equal(fake->home.mode, HOME_WELCOME);
    shows(fake, "Some other stage");
    fake_type(fake, "v");
    assert_true(fake->home.over);
    assert_int_equal(fake->host.leave, HOME_DOOR);
    assert_int_equal(fake->host.door, 0);
    free(fake);
    fake = fake_begin(true, 80, 24);
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\n");
    assert_int_equal(fake->host.leave, HOME_OPENS);
    assert_string_equal(fake->host.event, "demo");
    free(fake);
}

/* Three steps; every value that nobody gave says that it is usual. */
static void from_the_welcome_to_an_event(void **state)
{
    (void)state;
    Fake *fake = fake_begin(true, 80, 24);
    fake->bag.count = 0;
    fake_type(fake, "s");
    shows(fake, "step 1 of 3");
    shows(fake, "usual for the level");
    fake_press(fake, PRESS_RIGHT, 1);
    fake_type(fake, "\n");
    fake_press(fake, PRESS_DOWN, 2);
    fake_type(fake, "17.5\n");
    shows(fake, "yours");
    fake_type(fake, "\t\n");
    assert_int_equal(fake->kept, 1);
    assert_int_equal(fake->bag.bowler.hand, HAND_LEFT);
    assert_int_equal(fake->bag.bowler.from.mph, SOURCE_SAID);
    assert_int_equal(fake->bag.bowler.from.rpm, SOURCE_PRESET);
    assert_int_equal(fake->bag.balls[0].kind, 1);
    assert_int_equal(fake->bag.balls[0].slot, 1);
    fake_press(fake, PRESS_DOWN, 8);
    fake_type(fake, "\n\n\b\t");
    assert_int_equal(fake->bag.count, 2);
    assert_string_equal(fake->bag.balls[1].id, "spare");
    shows(fake, "step 3 of 3");
    fake_type(fake, "Night\n\t");
    assert_true(fake->home.over);
    assert_string_equal(fake->event.name, "Night");
    assert_string_equal(fake->event.date, "2026-05-17");
    assert_string_equal(fake->event.bag, "mine");
    assert_string_equal(fake->host.event, "made");
    free(fake);
}

static Fake *at_bowler(int row)
{
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "\t\nb");
    assert_int_equal(fake->home.filling, FORM_BOWLER);
    fake_press(fake, PRESS_DOWN, row - fake->home.form.row);
    assert_int_equal(fake->home.form.row, row);
    return fake;
}

/* What is refused stays typed, and says what is allowed. */
static void a_form_keeps_what_was_typed(void **state)
{
    (void)state;
    Fake *fake = at_bowler(BOWLER_MPH);
    fake_type(fake, "50\n");
    shows(fake, "8 to 28 mph");
    assert_string_equal(fake->home.form.typed, "50");
    assert_int_equal(fake->home.form.row, BOWLER_MPH);
    fake_press(fake, PRESS_ESC, 1); /* drops it */
    assert_int_equal(fake->home.mode, HOME_FORM);
    fake_press(fake, PRESS_ESC, 1); /* nothing was filled in: leaves */
    assert_int_equal(fake->home.mode, HOME_BAG);
    fake_type(fake, "b");
    fake_press(fake, PRESS_DOWN, BOWLER_MPH - BOWLER_HAND);
    fake_type(fake, "15\n");
    fake_press(fake, PRESS_ESC, 1);
    shows(fake, "Leave this form?");
    fake_type(fake, "n");
    assert_int_equal(fake->home.mode, HOME_FORM);
    assert_near(fake->home.bowler.mph, 15, 0);
    fake_press(fake, PRESS_ESC, 1);
    fake_type(fake, "y");
    assert_int_equal(fake->home.mode, HOME_BAG);
    assert_near(fake->home.bag.bowler.mph, 16.5, 0);
    free(fake);
}

/* A level or style brings its numbers, except those that somebody gave; d takes the usual one. */
static void presets_fill_what_nobody_gave(void **state)
{
    (void)state;
    Fake *fake = at_bowler(BOWLER_MPH);
    const Bowler *bowler = &fake->home.bowler;
    fake_type(fake, "15\n");
    fake_press(fake, PRESS_UP, BOWLER_RPM - BOWLER_LEVEL);
    fake_press(fake, PRESS_RIGHT, 1); /* tournament */
    fake_type(fake, "\n");
    assert_near(bowler->mph, 15, 0);
    assert_near(bowler->rpm, 340, 1e-9);
    assert_near(bowler->scatter.launch_deg, 0.15, 1e-12);
    fake_press(fake, PRESS_DOWN, BOWLER_MPH - BOWLER_PLAY);
    fake_type(fake, "d");
    assert_near(bowler->mph, 18, 0);
    assert_int_equal(bowler->from.mph, SOURCE_PRESET);
    fake_type(fake, "\t");
    assert_int_equal(fake->bag.bowler.from.level, 4);
    free(fake);
}

/* Each number that can be measured: the result is taken over and says where it came from. */
static void measuring_marks_the_number(void **state)
{
    (void)state;
    for (int row = BOWLER_MPH; row <= BOWLER_SCATTER; row++) {
        Fake *fake = at_bowler(row);
        fake_type(fake, "m");
        assert_int_equal(fake->home.filling, FORM_MEASURE);
        fake_type(fake, "\t");
        if (fake->home.filling != FORM_BOWLER)
            fail_msg("%s: %s", BOWLER_FORM.rows[row].name, fake->home.message);
        shows(fake, "measured");
        free(fake);
    }
    Fake *fake = at_bowler(BOWLER_RPM); /* 1 turn in 30 frames of 240 a second */
    fake_type(fake, "m\n30\n\t");
    assert_near(fake->home.bowler.rpm, 480, 0);
    assert_int_equal(fake->home.bowler.from.rpm, SOURCE_MEASURED);
    fake_press(fake, PRESS_UP, 1);
    fake_type(fake, "m\n2000\n");
    shows(fake, "Revs: 7.2");
    fake_type(fake, "\t");
    shows(fake, "50 to 650 rpm"); /* refused, and still here */
    assert_int_equal(fake->home.filling, FORM_MEASURE);
    fake_press(fake, PRESS_ESC, 1);
    assert_near(fake->home.bowler.rpm, 480, 0);
    free(fake);
}

static void a_ball_can_be_put_right(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "\t\n\n");
    assert_int_equal(fake->home.filling, FORM_BALL);
    fake_press(fake, PRESS_DOWN, BALL_GRIT);
    fake_type(fake, "1000\n\t");
    assert_near(fake->bag.balls[0].surface.grit, 1000, 0);
    assert_false(fake->bag.balls[0].surface_usual);
    fake_type(fake, "3"); /* swaps with the ball that is there */
    assert_int_equal(fake->bag.balls[0].slot, 3);
    assert_int_equal(fake->bag.balls[2].slot, 1);
    fake_type(fake, "-y");
    assert_int_equal(fake->bag.count, 3);
    fake->refuses = true;
    fake_type(fake, "0");
    shows(fake, "NOT SAVED: no space left on the device");
    free(fake);
}

static Fake *at_event(int row)
{
    Fake *fake = fake_begin(false, 80, 24);
    fake_type(fake, "n");
    assert_int_equal(fake->home.filling, FORM_EVENT);
    fake_press(fake, PRESS_DOWN, row);
    assert_int_equal(fake->home.form.row, row);
    return fake;
}

static void an_event_is_checked_field_by_field(void **state)
{
    (void)state;
    static const struct {
        int row;
        const char *typed, *why;
    } CASES[] = {{EVENT_VOLUME, "50", "10 to 40 mL"},
                 {EVENT_NAME, " ", "not empty"},
                 {EVENT_DATE, "2026-02-29", "a day such as"},
                 {EVENT_LANES, "17,17", "two lanes"},
                 {EVENT_LANES, "17", "two lanes"},
                 {EVENT_MOVE, "-2", "lane"},
                 {EVENT_GAMES, "25", "1 to 24"},
                 {EVENT_BOWLERS, "11", "1 to 10"},
                 {EVENT_RIGHT, "4", "4 others"},
                 {EVENT_URETHANE, "4", "4 with urethane"}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        Fake *fake = at_event(CASES[i].row);
        fake_type(fake, CASES[i].typed);
        fake_type(fake, "\n");
        if (!strstr(fake->home.message, CASES[i].why))
            fail_msg("%s: \"%s\"", CASES[i].typed, fake->home.message);
        assert_string_equal(fake->home.form.typed, CASES[i].typed);
        free(fake);
    }
}

static void an_event_may_move_and_warm_up(void **state)
{
    (void)state;
    Fake *fake = at_event(EVENT_LANES);
    fake_type(fake, "17,18\n2\n4\n");
    fake_press(fake, PRESS_RIGHT, 1);
    fake_type(fake, "\n");
    shows(fake, "G starts game 1");
    fake_type(fake, "\t");
    const EventInfo *event = &fake->event;
    assert_true(event->warm_up);
    assert_int_equal(event->games, 4);
    assert_int_equal(event->pair[0], 17);
    assert_int_equal(event->pairs[3][0], 23);
    assert_int_equal(event->pairs[3][1], 24);
    free(fake);
}

static void oil_and_bag_come_from_their_lists(void **state)
{
    (void)state;
    Fake *fake = at_event(EVENT_PATTERN);
    fake_type(fake, "\n");
    shows(fake, "Choose for the event");
    fake_press(fake, PRESS_DOWN, 1);
    fake_press(fake, PRESS_ESC, 1);
    assert_string_equal(fake->home.event.pattern, "about:house");
    shows(fake, "House shot");
    fake_type(fake, "\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\n"); /* only its length: asked for at once */
    assert_int_equal(fake->home.form.row, EVENT_LENGTH);
    fake_type(fake, "61\n");
    shows(fake, "20 to 60 feet");
    fake_type(fake, "\b\b43\n22\n");
    assert_string_equal(fake->home.event.pattern, "about:43ft,22ml");
    fake_press(fake, PRESS_UP, 1);
    fake_type(fake, "\b\b\n"); /* not known after all */
    assert_string_equal(fake->home.event.pattern, "about:43ft");
    fake_press(fake, PRESS_UP, EVENT_BAG - EVENT_PATTERN);
    fake_type(fake, "\n");
    fake_press(fake, PRESS_DOWN, 3);
    fake_type(fake, "\n");
    assert_string_equal(fake->home.event.pattern, "quay");
    assert_int_equal(fake->home.form.row, EVENT_BAG);
    fake_type(fake, "\n");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "\n");
    assert_string_equal(fake->home.event.bag, "demo");
    free(fake);
}

static void files_are_handled_on_the_lists(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    assert_string_equal(home_item(&fake->home)->name, "winter"); /* the latest first */
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "p");
    shows(fake, "Rope Walk Pairs is put away");
    assert_int_equal(fake->home.count[HOME_EVENTS], 2);
    fake_type(fake, "a");
    assert_int_equal(fake->home.count[HOME_EVENTS], 3);
    fake_press(fake, PRESS_UP, 1);
    fake_type(fake, "r");
    shows(fake, "New name of Rope Walk Pairs");
    fake_type(fake, "\b\b\b\b\bTrios\n");
    assert_string_equal(fake->said, "Rope Walk Trios");
    fake_press(fake, PRESS_UP, 1);
    fake_type(fake, "xn");
    assert_int_equal(fake->trashed, 0);
    fake_type(fake, "xy");
    assert_int_equal(fake->trashed, 1);
    assert_string_equal(fake->said, "winter");
    fake_press(fake, PRESS_DOWN, 2); /* one with a fault says so, and isn't opened */
    fake_type(fake, "\n");
    assert_false(fake->home.over);
    shows(fake, "found 0; allowed: 1 to 24");
    fake_type(fake, "\t");
    fake_press(fake, PRESS_DOWN, 1);
    fake_type(fake, "x");
    shows(fake, "built in");
    assert_int_equal(fake->trashed, 1);
    fake->refuses = true;
    fake_type(fake, "c\n");
    shows(fake, "no space left on the device");
    assert_int_equal(fake->home.mode, HOME_NAME); /* the name can be put right */
    free(fake);
}

/* No sequence of keys does what it must not: 40 walks of 200 keys, with a seed. */
static void any_keys_at_all(void **state)
{
    (void)state;
    static const uint32_t KEYS[] = {'\r',       '\t',       '\b',        ' ',          '-',
                                    '+',        '.',        '?',         PRESS_ESC,    PRESS_UP,
                                    PRESS_DOWN, PRESS_LEFT, PRESS_RIGHT, PRESS_DELETE, PRESS_REDRAW,
                                    0xe9,       PRESS_LAST};
    unsigned seed = 1;
    for (int walk = 0; walk < 40; walk++) {
        Fake *fake = fake_begin(walk % 2, walk % 7 ? 80 : 39 + walk % 3, walk % 7 ? 24 : 12);
        for (int i = 0; i < 200; i++) {
            seed = seed * 1103515245u + 12345u;
            unsigned n = seed >> 16;
            uint32_t key = n % 3 ? 'a' + n / 3 % 26 : KEYS[n / 3 % (sizeof KEYS / sizeof *KEYS)];
            if (n % 11 == 0)
                key = '0' + n / 11 % 10;
            home_key(&fake->home, key);
            fake->home.over = false; /* as if it came back at once */
            char *screen = fake_screen(fake);
            assert_non_null(screen);
            free(screen);
            assert_in_range(fake->home.bag.count, 0, BAG_BALLS_MAX);
            for (int kind = 0; kind < HOME_KINDS; kind++)
                assert_in_range(fake->home.at[kind], 0, HOME_ITEMS_MAX);
        }
        free(fake);
    }
}

/* Nothing changes unasked; one is taken over and put back, on the page and in the form; a number
 * that was changed meanwhile is no longer offered. */
static void learnt_is_taken_over_and_put_back(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    assert_non_null(fake);
    fake_knows(fake);
    const Bowler was = fake->bag.bowler;
    fake_type(fake, "l");
    assert_int_equal(fake->kept, 0);
    assert_true(bowler_same(&fake->home.bag.bowler, &was));
    fake_type(fake, "\n");
    assert_int_equal(fake->kept, 1);
    assert_true(fake->bag.bowler.mph == 17.4);
    assert_int_equal(fake->bag.bowler.from.mph, SOURCE_LEARNT);
    fake_type(fake, "\n"); /* not twice */
    assert_int_equal(fake->kept, 1);
    fake_type(fake, "b");
    assert_true(bowler_same(&fake->bag.bowler, &was));
    fake_type(fake, "\n\x1b"); /* again, and back to the events */
    assert_int_equal(fake->home.mode, HOME_LIST);
    fake_type(fake, "\t\nb"); /* the bowler's form */
    fake_press(fake, PRESS_DOWN, BOWLER_MPH - BOWLER_HAND);
    fake_type(fake, "b\t");
    assert_true(bowler_same(&fake->bag.bowler, &was));
    fake->home.bag.balls[2].cover_strength = 1.01;
    HomeLearntRow rows[LEARNT_MAX];
    assert_int_equal(home_learnt_rows(&fake->home, rows), 1); /* the speed alone */
    free(fake);
}

/* The search shows the keys of an event as the bowler bound them. */
static void the_search_knows_own_keys(void **state)
{
    (void)state;
    Fake *fake = fake_begin(false, 80, 24);
    Bindings own = {.count = 1, .item = {{PLACE_LANE, "look-oil", "~"}}};
    char why[256];
    if (bound_refuses(&own, why, sizeof why) >= 0)
        fail_msg("%s", why);
    fake_type(fake, "?/the oil now");
    shows(fake, "O  ");
    fake->host.keys = &own;
    home_begin(&fake->home, &fake->host);
    fake_type(fake, "?/the oil now");
    shows(fake, "~  ");
    free(fake);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(learnt_is_taken_over_and_put_back),
        cmocka_unit_test(no_key_means_two_things),
        cmocka_unit_test(help_tells_every_key),
        cmocka_unit_test(the_welcome_is_for_an_empty_home),
        cmocka_unit_test(from_the_welcome_to_an_event),
        cmocka_unit_test(a_form_keeps_what_was_typed),
        cmocka_unit_test(presets_fill_what_nobody_gave),
        cmocka_unit_test(measuring_marks_the_number),
        cmocka_unit_test(a_ball_can_be_put_right),
        cmocka_unit_test(an_event_is_checked_field_by_field),
        cmocka_unit_test(an_event_may_move_and_warm_up),
        cmocka_unit_test(oil_and_bag_come_from_their_lists),
        cmocka_unit_test(files_are_handled_on_the_lists),
        cmocka_unit_test(the_search_knows_own_keys),
        cmocka_unit_test(any_keys_at_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
