/* test_logbook.c - whose journal it is: two bowlers on one event, two events of one name, events
 * that moved, journals of before there was a bowler in them; and an event put together again. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "base/text.h"
#include "store/load.h"
#include "store/logbook.h"

#define HOME "config/settee/"
#define JOURNAL(name) "data/settee/events/" name

static Session session;
static char notice[512];

static void begin_event(void)
{
    played_bag(HOME "bags/odile.json", "Odile Farrow", "left");
    played_bag(HOME "bags/ansgar.json", "Ansgar Pike", "right");
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-02", "apron", "odile");
}

static bool is_there(const char *below) { return access(played_path(below), F_OK) == 0; }

/* Opens the journal of that name; its shots, or -1 with the fault. */
static int shots_of(const char *name, Error *error)
{
    int count, shots = -2;
    JournalHead *heads = journal_list(&count, NULL);
    for (int i = 0; i < count; i++)
        if (strcmp(heads[i].name, name) == 0)
            shots = logbook_open(&heads[i], &session, notice, sizeof notice, error)
                        ? session.shot_count
                        : -1;
    free(heads);
    if (shots == -2)
        fail_msg("no journal %s", name);
    return shots;
}

static void expect_shots(const char *name, int shots)
{
    Error error = {0};
    int is = shots_of(name, &error);
    if (is != shots)
        fail_msg("%s has %d shots, expected %d: %s %s", name, is, shots, error.file, error.text);
    assert_string_equal(notice, "");
}

static void expect_names(const char *const *names)
{
    int count;
    JournalHead *heads = journal_list(&count, NULL);
    for (int i = 0; names[i]; i++) {
        if (i >= count)
            fail_msg("no journal %s", names[i]);
        assert_string_equal(heads[i].name, names[i]);
    }
    assert_null(names[count]);
    free(heads);
}
#define EXPECT_NAMES(...) expect_names((const char *const[]){__VA_ARGS__, NULL})

static void two_bowlers_on_one_event(void **state)
{
    (void)state;
    begin_event();
    played_shots("dusk", NULL, "xxs", notice);
    played_shots("dusk", "ansgar", "nN", notice);
    assert_string_equal(notice, "");
    played_shots("dusk", "odile", "x", notice); /* the event's own bag, said again */
    EXPECT_NAMES("dusk", "dusk+ansgar");
    expect_shots("dusk", 4);
    assert_string_equal(session.bag.bowler.name, "Odile Farrow");
    expect_shots("dusk+ansgar", 2);
    assert_string_equal(session.bag.bowler.name, "Ansgar Pike");
    assert_string_equal(session.event.bag, played_path(HOME "bags/ansgar.json"));
}

static void head_says_whose(void **state)
{
    (void)state;
    begin_event();
    played_shots("dusk", "ansgar", "x", NULL);
    int count;
    JournalHead *heads = journal_list(&count, NULL);
    assert_int_equal(count, 1);
    assert_string_equal(heads[0].event, "dusk");
    assert_string_equal(heads[0].date, "2026-05-02");
    assert_string_equal(heads[0].file, played_path(HOME "events/dusk.json"));
    assert_string_equal(heads[0].bag, played_path(HOME "bags/ansgar.json"));
    assert_string_equal(heads[0].pattern, "apron");
    assert_string_equal(heads[0].bowler, "Ansgar Pike");
    free(heads);
}

/* Both are called club.json and are of one day. */
static void two_events_of_one_name(void **state)
{
    (void)state;
    begin_event();
    played_event("a/club.json", "Club A", "2026-05-02", "apron", "odile");
    played_event("b/club.json", "Club B", "2026-05-02", "kerb", "odile");
    played_shots(played_path("a/club.json"), NULL, "xx", notice);
    assert_string_equal(notice, "");
    played_shots(played_path("b/club.json"), NULL, "s", notice);
    assert_string_equal(notice,
                        "a new journal starts, club.2: club is another event's or bowler's");
    played_shots(played_path("b/club.json"), NULL, "s", notice);
    assert_string_equal(notice, "");
    played_shots(played_path("a/club.json"), NULL, "x", notice);
    EXPECT_NAMES("club", "club.2");
    expect_shots("club", 3);
    assert_string_equal(session.event.name, "Club A");
    expect_shots("club.2", 2);
    assert_string_equal(session.event.name, "Club B");
    assert_string_equal(session.pattern.name, "Kerb");
}

/* Moved, it goes on; put back together from where it is now when that is the home. */
static void an_event_that_moved(void **state)
{
    (void)state;
    Error error = {0};
    begin_event();
    played_event("a/club.json", "Club", "2026-05-02", "apron", "odile");
    played_shots(played_path("a/club.json"), NULL, "xx", NULL);
    assert_int_equal(mkdir(played_path("c"), 0700), 0);
    assert_int_equal(rename(played_path("a/club.json"), played_path("c/club.json")), 0);
    played_shots(played_path("c/club.json"), NULL, "x", notice);
    assert_string_equal(notice, "");
    EXPECT_NAMES("club");
    assert_int_equal(shots_of("club", &error), -1);
    assert_non_null(strstr(error.text, "a/club.json is gone"));
    assert_int_equal(rename(played_path("c/club.json"), played_path(HOME "events/club.json")), 0);
    expect_shots("club", 3);
}

/* A bowler may change the bag, or correct a name; only both at once is someone else. */
static void another_bowler_in_the_events_bag(void **state)
{
    (void)state;
    begin_event();
    played_shots("dusk", NULL, "xx", NULL);
    played_bag(HOME "bags/odile.json", "Odile Farrow-Reed", "left");
    played_shots("dusk", NULL, "x", notice);
    assert_string_equal(notice, "");
    played_bag(HOME "bags/six.json", "Odile Farrow", "left");
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-02", "apron", "six");
    played_shots("dusk", NULL, "x", notice);
    assert_string_equal(notice, "");
    expect_shots("dusk", 4);
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-02", "apron", "ansgar");
    played_shots("dusk", NULL, "n", notice);
    assert_non_null(strstr(notice, "a new journal starts, dusk.2"));
    EXPECT_NAMES("dusk", "dusk.2");
}

/* Of before a journal said more than event and date. */
static void an_old_journal_goes_on(void **state)
{
    (void)state;
    begin_event();
    const char body[] = "{\"format\":\"settee-journal/1\",\"n\":0,\"event\":\"dusk\",\"date\":"
                        "\"2026-05-02\"";
    const char shot[] = "{\"n\":1,\"kind\":\"shot\",\"lane\":\"left\",\"shot\":{\"lane\":\"left\","
                        "\"slot\":1,\"hit\":\"flush\",\"left\":[]}";
    char text[512];
    snprintf(text, sizeof text, "%s,\"sum\":\"%08lx\"}\n%s,\"sum\":\"%08lx\"}\n", body,
             (unsigned long)load_crc32(body, strlen(body)), shot,
             (unsigned long)load_crc32(shot, strlen(shot)));
    played_write(JOURNAL("dusk.journal"), text);
    played_shots("dusk", NULL, "xx", notice);
    assert_string_equal(notice, "");
    EXPECT_NAMES("dusk");
    expect_shots("dusk", 3);
    char *after = played_read(JOURNAL("dusk.journal"));
    assert_int_equal(strncmp(after, text, strlen(text)), 0); /* it only grew */
    free(after);
}

/* Next week's date in the same file: last week's journal says itself what was played. */
static void an_earlier_date(void **state)
{
    (void)state;
    begin_event();
    played_shots("dusk", NULL, "xxs", NULL);
    played_shots("dusk", "ansgar", "nn", NULL);
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-09", "kerb", "ansgar");
    played_shots("dusk", NULL, "n", notice);
    assert_non_null(strstr(notice, "a new journal starts"));
    played_event(HOME "events/dusk.json", "Dusk open", "2026-05-09", "kerb", "odile");
    played_shots("dusk", NULL, "n", notice);
    assert_non_null(strstr(notice, "kept as dusk.journal.earlier-1"));
    EXPECT_NAMES("dusk+ansgar", "dusk.earlier-1", "dusk", "dusk.2");
    expect_shots("dusk.earlier-1", 3);
    assert_string_equal(session.event.date, "2026-05-02");
    assert_string_equal(session.pattern.name, "Apron");
    assert_string_equal(session.bag.bowler.name, "Odile Farrow");
    expect_shots("dusk+ansgar", 2);
    assert_string_equal(session.pattern.name, "Apron");
    expect_shots("dusk", 1);
    assert_string_equal(session.pattern.name, "Kerb");
}

static void what_is_gone_or_broken(void **state)
{
    (void)state;
    Error error = {0};
    begin_event();
    played_shots("dusk", "ansgar", "nn", NULL);
    played_write(HOME "bags/ansgar.json", "{\"format\": \"settee-bag/1\"}");
    assert_int_equal(shots_of("dusk+ansgar", &error), -1);
    assert_string_equal(error.file, played_path(HOME "bags/ansgar.json"));
    assert_int_equal(remove(played_path(HOME "bags/ansgar.json")), 0);
    assert_int_equal(shots_of("dusk+ansgar", &error), -1);
    assert_non_null(strstr(error.text, "no such file"));
    played_bag(HOME "bags/ansgar.json", "Ansgar Pike", "right");
    /* a line that was damaged: what is before it counts, and it is told */
    char *text = played_read(JOURNAL("dusk+ansgar.journal"));
    text[strlen(text) - 30] ^= 3;
    played_write(JOURNAL("dusk+ansgar.journal"), text);
    free(text);
    assert_int_equal(shots_of("dusk+ansgar", &error), 1);
    assert_non_null(strstr(notice, "line 3 of the journal can't be used"));
    int entries;
    assert_false(journal_verify("dusk+ansgar", &entries, &error));
    assert_int_equal(error.line, 3);
    assert_false(journal_verify("none", &entries, &error));
}

static void verify_counts(void **state)
{
    (void)state;
    Error error = {0};
    int entries;
    begin_event();
    played_shots("dusk", NULL, "", NULL);
    assert_true(journal_verify("dusk", &entries, &error));
    assert_int_equal(entries, 0);
    played_shots("dusk", NULL, "xxx", NULL);
    assert_true(journal_verify("dusk", &entries, &error));
    assert_int_equal(entries, 3);
}

static void found_by_event_or_name(void **state)
{
    (void)state;
    Error error = {0};
    JournalHead head;
    begin_event();
    played_shots("dusk", "ansgar", "n", NULL);
    assert_true(logbook_find("dusk+ansgar", NULL, &head, &error));
    assert_string_equal(head.name, "dusk+ansgar");
    assert_true(logbook_find("dusk", "ansgar", &head, &error));
    assert_string_equal(head.name, "dusk+ansgar");
    assert_true(logbook_find(played_path(HOME "events/dusk.json"), "ansgar", &head, &error));
    assert_false(logbook_find("dusk", NULL, &head, &error));
    assert_string_equal(error.text, "this event has no journal yet");
    assert_false(logbook_find("dawn", NULL, &head, &error));
    assert_non_null(strstr(error.text, "no such file"));
    assert_false(is_there(JOURNAL("dusk.journal"))); /* looking makes nothing */
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, played_begin, played_end)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(two_bowlers_on_one_event),
                                       TEST(head_says_whose),
                                       TEST(two_events_of_one_name),
                                       TEST(an_event_that_moved),
                                       TEST(another_bowler_in_the_events_bag),
                                       TEST(an_old_journal_goes_on),
                                       TEST(an_earlier_date),
                                       TEST(what_is_gone_or_broken),
                                       TEST(verify_counts),
                                       TEST(found_by_event_or_name)};
    return cmocka_run_group_tests_name("logbook", tests, NULL, NULL);
}
