/* test_journal_gaps.c - a journal with lines that can't be read: the lines after them are used, and
 * what they say of earlier entries is still understood. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "helper_journal.h"
#include "store/journal.h"

static char notice[512];

static Journal *begin(Session *session)
{
    Error error = {0};
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    return journal;
}

static Session *reread(void)
{
    Session *session = helper_session(1);
    journal_close(begin(session));
    return session;
}

/* A game as it is logged: plan, shot, and the spare said after it; frame by frame in turn. */
typedef struct Script {
    Session *session;
    Journal *journal;
    int entries;
} Script;

static Script script_begin(void)
{
    Script script = {.session = helper_session(0)};
    script.journal = begin(script.session);
    return script;
}

static void enter(Script *script, Entry entry)
{
    Error error = {0};
    assert_true(session_apply(script->session, &entry));
    /* as the screen does: with the ball that was named */
    Entry *named = &script->session->entries[script->session->entry_count - 1];
    assert_true(journal_append(script->journal, named, &error));
    script->entries++;
}

static void enter_plan(Script *script)
{
    Plan plan = script->session->plan[script->session->lane];
    plan.stance += 1;
    enter(script,
          (Entry){.kind = ENTRY_PLAN, .lane = script->session->lane, .apart = true, .plan = plan});
}

static void enter_shot(Script *script)
{
    Shot shot = session_next_shot(script->session);
    shot.hit = HIT_HIGH;
    shot.left_said = true;
    shot.left = 1 << 3;
    enter(script, (Entry){.kind = ENTRY_SHOT, .lane = shot.lane, .shot = shot});
}

static void enter_spare(Script *script)
{
    int last = script->session->shot_count - 1;
    Shot shot = script->session->shots[last];
    shot.spare_said = true;
    shot.spare_left = 0;
    enter(script, (Entry){.kind = ENTRY_EDIT, .lane = shot.lane, .index = last, .shot = shot});
}

/* Spoils the line of entry `number` so that neither sum nor JSON is right. */
static void spoil(int number)
{
    size_t size;
    char *text = helper_slurp(helper_journal, &size), *line = text;
    for (int i = 0; i < number; i++)
        line = strchr(line, '\n') + 1;
    memset(line + 5, '#', 12);
    helper_spill(helper_journal, text, size);
    free(text);
}

enum { FRAMES = 9 };

/* Every entry of a game is lost in turn: the other shots are there with their spares. */
static void test_each_entry_lost(void **state)
{
    (void)state;
    size_t size;
    Script script = script_begin();
    for (int frame = 0; frame < FRAMES; frame++) {
        enter_plan(&script);
        enter_shot(&script);
        enter_spare(&script);
    }
    journal_close(script.journal);
    char *whole = helper_slurp(helper_journal, &size);
    for (int number = 1; number <= script.entries; number++) {
        static const char *const KINDS[] = {"plan", "shot", "spare"};
        const char *kind = KINDS[(number - 1) % 3];
        bool shot = kind == KINDS[1], spare = kind == KINDS[2];
        helper_spill(helper_journal, whole, size);
        spoil(number);
        Session *session = reread();
        int spares = 0;
        for (int i = 0; i < session->shot_count; i++)
            spares += session->shots[i].spare_said;
        assert_int_equal(session->entry_count,
                         number < script.entries ? script.entries : script.entries - 1);
        assert_int_equal(session->shot_count, FRAMES - shot);
        if (spares != FRAMES - shot - spare)
            fail_msg("without entry %d, a %s: %d spares; %s", number, kind, spares, notice);
        Session *again = reread(); /* once mended, no more of it */
        assert_string_equal(notice, "");
        assert_int_equal(again->shot_count, FRAMES - shot);
    }
    free(whole);
}

/* What is told, and that entries go on with the right numbers. */
static void test_told_and_goes_on(void **state)
{
    (void)state;
    Error error = {0};
    int entries;
    Script script = script_begin();
    for (int i = 0; i < 6; i++)
        enter_shot(&script);
    journal_close(script.journal);
    spoil(3);
    script.session = reread();
    assert_string_equal(notice, "line 4 of the journal can't be used (the line does not match its "
                                "checksum): one entry is missing there, the 3 after it are kept; "
                                "the damaged file is harvest.journal.damaged-1");
    assert_int_equal(script.session->entries[2].kind, ENTRY_GAP);
    script.session = helper_session(0);
    script.journal = begin(script.session);
    enter_spare(&script);
    journal_close(script.journal);
    assert_true(journal_verify("harvest", &entries, &error));
    assert_int_equal(entries, 7);
    Session *session = reread();
    assert_string_equal(notice, "");
    assert_int_equal(session->shot_count, 5);
    assert_true(session->shots[4].spare_said);
}

/* Undo takes back what it did: the entry that is missing, when that came last. */
static void test_undo_of_what_is_missing(void **state)
{
    (void)state;
    Script script = script_begin();
    for (int i = 0; i < 3; i++)
        enter_shot(&script);
    enter(&script, (Entry){.kind = ENTRY_UNDO});
    journal_close(script.journal);
    spoil(3);
    Session *session = reread();
    assert_int_equal(session->shot_count, 2);
}

/* Several in a row, a last one that was never finished, and a bad header at once. */
static void test_much_is_wrong(void **state)
{
    (void)state;
    size_t size;
    Script script = script_begin();
    for (int i = 0; i < 9; i++)
        enter_shot(&script);
    journal_close(script.journal);
    spoil(0);
    spoil(4);
    spoil(5);
    char *text = helper_slurp(helper_journal, &size);
    helper_spill(helper_journal, text, size - 10);
    Session *session = reread();
    assert_int_equal(session->shot_count, 6);
    assert_int_equal(session->entry_count, 8);
    assert_non_null(strstr(notice, "line 1 of the journal can't be used"));
    assert_non_null(
        strstr(notice, "2 entries are missing there or further on, the other 6 are kept"));
    size_t kept_size;
    char path[200];
    snprintf(path, sizeof path, "%s.damaged-1", helper_journal);
    char *kept = helper_slurp(path, &kept_size);
    assert_int_equal(kept_size, size - 10);
    assert_memory_equal(kept, text, kept_size);
    free(kept);
    free(text);
}

/* Looking at it changes nothing, and sees the same. */
static void test_looking(void **state)
{
    (void)state;
    Error error = {0};
    size_t size, now;
    Script script = script_begin();
    for (int i = 0; i < 6; i++)
        enter_shot(&script);
    journal_close(script.journal);
    spoil(2);
    char *text = helper_slurp(helper_journal, &size);
    Session *session = helper_session(1);
    assert_true(journal_read(session, notice, sizeof notice, &error));
    assert_int_equal(session->shot_count, 5);
    assert_non_null(strstr(notice, "one entry is missing there, the 4 after it are kept"));
    char *again = helper_slurp(helper_journal, &now);
    assert_int_equal(now, size);
    assert_memory_equal(again, text, size);
    free(again);
    free(text);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, helper_setup, helper_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(test_each_entry_lost), TEST(test_told_and_goes_on),
                                       TEST(test_undo_of_what_is_missing), TEST(test_much_is_wrong),
                                       TEST(test_looking)};
    return cmocka_run_group_tests_name("journal gaps", tests, NULL, NULL);
}
