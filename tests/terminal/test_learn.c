/* test_learn.c - the real program in a home with three short events in which the monitor showed
 * another speed than the bag's: Home offers it, it is taken over, and put back. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "terminal/helper_pty.h"

#define TAB "\t"
#define ESC "\033"

static const char *const NOTHING[] = {NULL};

/* The home of the program on the terminal is the test's too. */
static void three_events(const Pty *pty)
{
    assert_true(strlen(pty->home) < sizeof played_home);
    strcpy(played_home, pty->home);
    setenv("XDG_CONFIG_HOME", pty->home, 1);
    setenv("XDG_DATA_HOME", pty->home, 1);
    played_bag("settee/bags/odile.json", "Odile Farrow", "right");
    played_event("settee/events/dusk.json", "Dusk open", "2026-04-18", "apron", "odile");
    played_event("settee/events/dawn.json", "Dawn open", "2026-05-02", "kerb", "odile");
    played_event("settee/events/noon.json", "Noon open", "2026-05-09", "kerb", "odile");
    played_shots("dusk", NULL, "mmmmmm", NULL);
    played_shots("dawn", NULL, "mmmmmm", NULL);
    played_shots("noon", NULL, "mmmmmm", NULL);
}

static void mph_is(double mph, Source from)
{
    Bag bag;
    Error error = {0};
    assert_true(files_bag("odile", &bag, &error));
    assert_near(bag.bowler.mph, mph, 1e-9);
    assert_int_equal(bag.bowler.from.mph, from);
}

static void offered_taken_over_and_put_back(void **state)
{
    (void)state;
    Pty pty;
    pty_start_words(&pty, 80, 24, NOTHING);
    pty_expect(&pty, "Welcome");
    pty_type(&pty, "q");
    pty_wait(&pty);
    three_events(&pty);
    pty_start_again(&pty);
    pty_expect(&pty, "learnt from 3 events with bag odile: l looks");
    mph_is(18.0, SOURCE_SAID);
    pty_type(&pty, "l");
    pty_expect(&pty, "You throw 19.2 mph, not 18 (18 shots).");
    pty_type(&pty, "\r");
    pty_expect(&pty, "Speed 19.2 mph is learnt; before, it was 18.");
    mph_is(19.2, SOURCE_LEARNT);
    pty_type(&pty, ESC);
    pty_expect(&pty, "[Events 3]");
    pty_type(&pty, TAB "\r");
    pty_expect(&pty, "Bag odile");
    pty_type(&pty, "b\033OB\033OB"); /* the form says where it came from */
    pty_expect(&pty, "learnt from your events; was 18");
    pty_type(&pty, "\t");
    pty_expect(&pty, "Bag odile");
    pty_type(&pty, "l");
    pty_expect(&pty, "Speed 19.2 mph is learnt");
    pty_type(&pty, "b");
    pty_expect(&pty, "Put back, as it was before");
    mph_is(18.0, SOURCE_SAID);
    pty_type(&pty, ESC);
    pty_expect(&pty, "Bag odile");
    pty_type(&pty, ESC);
    pty_expect(&pty, "[Bags");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* What was worked out once is worked out again when an event goes on. */
static void an_event_that_goes_on_counts(void **state)
{
    (void)state;
    Pty pty;
    pty_start_words(&pty, 80, 24, NOTHING);
    pty_expect(&pty, "Welcome");
    pty_type(&pty, "q");
    pty_wait(&pty);
    three_events(&pty);
    pty_start_again(&pty);
    pty_expect(&pty, "learnt from 3 events with bag odile: l looks");
    played_shots("noon", NULL, "mmmmmm", NULL);
    pty_type(&pty, "\r"); /* the latest: noon */
    pty_expect(&pty, "Last shots");
    pty_type(&pty, "q");
    pty_expect(&pty, "learnt from 3 events with bag odile: l looks");
    pty_type(&pty, "l");
    pty_expect(&pty, "You throw 19.2 mph, not 18 (24 shots).");
    pty_type(&pty, ESC);
    pty_expect(&pty, "[Events 3]");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(offered_taken_over_and_put_back),
                                       cmocka_unit_test(an_event_that_goes_on_counts)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
