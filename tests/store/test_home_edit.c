/* test_home_edit.c - files of the home renamed, thrown away, put away: nothing is ever lost. */
#define _XOPEN_SOURCE 700 /* nftw */
#include "near.h"

#include "played.h"
#include "store/home_edit.h"
#include "store/settings.h"

#define HOME "config/settee/"
#define DATA "data/settee/"

static void must(bool done, const Error *error)
{
    if (!done)
        fail_msg("%s: %s", error->file, error->text);
}

static bool there(const char *below)
{
    char *text = played_read(below);
    free(text);
    return text != NULL;
}

static void make(void)
{
    played_bag(HOME "bags/mine.json", "Robin", "right");
    played_bag(HOME "bags/other.json", "Robin", "right");
    played_event(HOME "events/night.json", "Night", "2026-11-20", "parlour", "mine");
}

static void what_an_event_names_stays(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024];
    make();
    assert_false(files_trash("bags", "mine", path, sizeof path, &error));
    assert_non_null(strstr(error.text, "the event \"Night\" names it"));
    assert_false(files_rename("bags", "mine", "yours", &error));
    assert_true(there(HOME "bags/mine.json"));
    must(files_rename("bags", "other", "yours", &error), &error);
    assert_false(there(HOME "bags/other.json"));
    assert_true(there(HOME "bags/yours.json"));
    assert_false(files_rename("bags", "yours", "mine", &error));
    assert_non_null(strstr(error.text, "taken"));
    assert_false(files_rename("bags", "yours", "a/b", &error));
    assert_false(files_trash("bags", "demo", path, sizeof path, &error)); /* built in */
    must(files_trash("bags", "yours", path, sizeof path, &error), &error);
    assert_true(there(HOME "trash/bags/yours.json"));
}

/* The journals go with the event, and a second one of that name finds another place. */
static void an_event_goes_with_its_journals(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024];
    for (int i = 0; i < 2; i++) {
        make();
        played_shots("night", NULL, "xx", NULL);
        assert_true(there(DATA "events/night.journal"));
        must(files_trash("events", "night", path, sizeof path, &error), &error);
        assert_false(there(HOME "events/night.json"));
        assert_false(there(DATA "events/night.journal"));
    }
    assert_true(there(HOME "trash/events/night.json"));
    assert_true(there(HOME "trash/events/night-2.json"));
    assert_true(there(DATA "trash/events/night.journal"));
    assert_true(there(DATA "trash/events/night.journal-2"));
    char event[64];
    assert_false(files_in_use("bags", "mine", event, sizeof event)); /* no longer */
}

static void a_title_changes_and_the_journal_stays(void **state)
{
    (void)state;
    Error error = {0};
    EventInfo event;
    make();
    must(files_retitle("night", "Night, \xc3\xa9t\xc3\xa9", &error), &error);
    must(files_event("night", &event, &error), &error);
    assert_string_equal(event.name, "Night, \xc3\xa9t\xc3\xa9");
    assert_string_equal(event.date, "2026-11-20");
    assert_string_equal(event.id, "night");
    assert_false(files_retitle("night", "", &error));
    assert_false(files_retitle("demo", "Mine", &error));
}

static void what_was_put_away_is_remembered(void **state)
{
    (void)state;
    Error error = {0};
    Settings settings = {.theme = "light"};
    assert_true(settings_put_away(&settings, "events", "night", true));
    assert_true(settings_put_away(&settings, "bags", "mine", true));
    assert_true(settings_put_away(&settings, "events", "night", true)); /* once is enough */
    must(settings_write(&settings, &error), &error);
    must(settings_read(&settings, &error), &error);
    assert_int_equal(settings.away_count, 2);
    assert_true(settings_away(&settings, "events", "night"));
    assert_false(settings_away(&settings, "events", "mine"));
    assert_true(settings_put_away(&settings, "events", "night", false));
    assert_false(settings_away(&settings, "events", "night"));
    assert_true(settings_away(&settings, "bags", "mine"));
    for (int i = 1; i < SETTINGS_AWAY_MAX; i++) {
        char name[16];
        snprintf(name, sizeof name, "n%d", i);
        assert_true(settings_put_away(&settings, "bags", name, true));
    }
    assert_false(settings_put_away(&settings, "bags", "one too many", true));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(what_an_event_names_stays, played_begin, played_end),
        cmocka_unit_test_setup_teardown(an_event_goes_with_its_journals, played_begin, played_end),
        cmocka_unit_test_setup_teardown(a_title_changes_and_the_journal_stays, played_begin,
                                        played_end),
        cmocka_unit_test_setup_teardown(what_was_put_away_is_remembered, played_begin, played_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
