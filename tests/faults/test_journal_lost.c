/* test_journal_lost.c - what other programs do to a journal while it is open: it is deleted, moved,
 * replaced, cut or written over. Every entry that was confirmed is there at the next start, and
 * whatever lay in its place is there too. */
#include "near.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "helper_journal.h"
#include "store/journal.h"

enum { BEFORE = 5 };

static char notice[512];

static Journal *begin(Session **session)
{
    Error error = {0};
    *session = helper_session(1);
    Journal *journal = journal_open(*session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    return journal;
}

/* Applies and appends entry `i`; whether it was confirmed. */
static bool append(Journal *journal, Session *session, int i)
{
    Error error = {0};
    Entry entry = helper_entry(i);
    assert_true(session_apply(session, &entry));
    return journal_append(journal, &entry, &error);
}

/* The first BEFORE entries, none of them with news. */
static Journal *begin_some(Session **session)
{
    Journal *journal = begin(session);
    for (int i = 0; i < BEFORE; i++) {
        assert_true(append(journal, *session, i));
        assert_string_equal(journal_news(journal), "");
    }
    return journal;
}

static void append_rest(Journal *journal, Session *session, int from)
{
    for (int i = from; i < HELPER_ENTRIES; i++) {
        assert_true(append(journal, session, i));
        assert_string_equal(journal_news(journal), "");
    }
}

static void expect_all(void)
{
    Session *session;
    journal_close(begin(&session));
    assert_string_equal(notice, "");
    if (!helper_holds(session, HELPER_ENTRIES))
        fail_msg("%d entries of %d", session->entry_count, HELPER_ENTRIES);
}

static const char *beside(const char *suffix)
{
    static char path[200];
    snprintf(path, sizeof path, "%s%s", helper_journal, suffix);
    return path;
}

static void expect_file(const char *path, const char *bytes, size_t size)
{
    size_t is;
    char *text = helper_slurp(path, &is);
    if (!text)
        fail_msg("%s is not there", path);
    assert_int_equal(is, size);
    assert_memory_equal(text, bytes, size);
    free(text);
}

static void test_deleted(void **state)
{
    (void)state;
    Session *session;
    Journal *journal = begin_some(&session);
    assert_int_equal(unlink(helper_journal), 0);
    assert_true(append(journal, session, BEFORE));
    assert_string_equal(journal_news(journal),
                        "The journal's file was gone: all 6 entries are written again");
    append_rest(journal, session, BEFORE + 1);
    journal_close(journal);
    expect_all();
}

/* Deleted after the last entry: found out when it is closed. */
static void test_deleted_last(void **state)
{
    (void)state;
    Session *session;
    Journal *journal = begin(&session);
    append_rest(journal, session, 0);
    assert_int_equal(unlink(helper_journal), 0);
    journal_close(journal);
    expect_all();
}

/* One without entries is nothing that could be lost. */
static void test_deleted_unused(void **state)
{
    (void)state;
    Session *session;
    Journal *journal = begin(&session);
    assert_int_equal(unlink(helper_journal), 0);
    journal_close(journal);
    assert_int_equal(access(helper_journal, F_OK), -1);
}

static void test_moved(void **state)
{
    (void)state;
    size_t size;
    Session *session;
    Journal *journal = begin_some(&session);
    char *text = helper_slurp(helper_journal, &size);
    assert_int_equal(rename(helper_journal, beside(".mine")), 0);
    append_rest(journal, session, BEFORE + append(journal, session, BEFORE));
    journal_close(journal);
    expect_all();
    expect_file(beside(".mine"), text, size);
    free(text);
}

/* By rename, as a program does that brings files from another machine: an older state of it. */
static void test_replaced(void **state)
{
    (void)state;
    size_t size;
    Session *session;
    helper_write_journal(2);
    char *older = helper_slurp(helper_journal, &size);
    assert_int_equal(unlink(helper_journal), 0);
    Journal *journal = begin_some(&session);
    for (int again = 0; again < 2; again++) {
        helper_spill(beside(".tmp"), older, size);
        assert_int_equal(rename(beside(".tmp"), helper_journal), 0);
        assert_true(append(journal, session, BEFORE + again));
        char expected[160];
        snprintf(expected, sizeof expected,
                 "The journal was replaced: it is written again; the other is "
                 "harvest.journal.replaced-%d",
                 again + 1);
        assert_string_equal(journal_news(journal), expected);
    }
    append_rest(journal, session, BEFORE + 2);
    journal_close(journal);
    expect_all();
    expect_file(beside(".replaced-1"), older, size);
    expect_file(beside(".replaced-2"), older, size);
    free(older);
}

/* In place, without another name: as an editor or a copy does. */
static void test_cut(void **state)
{
    (void)state;
    Session *session;
    Journal *journal = begin_some(&session);
    assert_int_equal(truncate(helper_journal, 100), 0);
    assert_true(append(journal, session, BEFORE));
    assert_non_null(strstr(journal_news(journal), "harvest.journal.replaced-1"));
    append_rest(journal, session, BEFORE + 1);
    journal_close(journal);
    expect_all();
    assert_int_equal(access(beside(".replaced-1"), F_OK), 0);
}

static void test_folder_gone(void **state)
{
    (void)state;
    char from[160], to[160];
    Session *session;
    Journal *journal = begin_some(&session);
    snprintf(from, sizeof from, "%s/settee", helper_folder);
    snprintf(to, sizeof to, "%s/elsewhere", helper_folder);
    assert_int_equal(rename(from, to), 0);
    assert_true(append(journal, session, BEFORE));
    append_rest(journal, session, BEFORE + 1);
    journal_close(journal);
    expect_all();
}

/* A file where the folder was: the entries wait in memory, as with a full disk. */
static void test_folder_in_the_way(void **state)
{
    (void)state;
    char from[160], to[160];
    Session *session;
    Journal *journal = begin_some(&session);
    snprintf(from, sizeof from, "%s/settee", helper_folder);
    snprintf(to, sizeof to, "%s/elsewhere", helper_folder);
    assert_int_equal(rename(from, to), 0);
    helper_spill(from, "x", 1);
    assert_false(append(journal, session, BEFORE));
    assert_false(append(journal, session, BEFORE + 1));
    assert_int_equal(journal_waiting(journal), 2);
    assert_int_equal(unlink(from), 0);
    assert_true(append(journal, session, BEFORE + 2));
    assert_int_equal(journal_waiting(journal), 0);
    assert_string_equal(journal_news(journal),
                        "The journal's file was gone: all 8 entries are written again");
    append_rest(journal, session, BEFORE + 3);
    journal_close(journal);
    expect_all();
}

/* Deleted, and begun again by a second settee: neither takes the other's file away. */
static void test_second_settee(void **state)
{
    (void)state;
    Session *session;
    Error error = {0};
    Journal *journal = begin_some(&session);
    assert_int_equal(unlink(helper_journal), 0);
    Session *others = helper_session(0);
    Journal *second = journal_open(others, notice, sizeof notice, &error);
    assert_non_null(second);
    assert_true(append(second, others, 0));
    assert_true(append(journal, session, BEFORE));
    assert_string_equal(journal_news(journal), "Another settee took this journal: all 6 entries of "
                                               "this one are in harvest.journal.replaced-1");
    append_rest(journal, session, BEFORE + 1);
    assert_true(append(second, others, 1));
    assert_string_equal(journal_news(second), "");
    journal_close(second);
    journal_close(journal);
    journal_close(begin(&session));
    assert_true(helper_holds(session, 2));
    assert_int_equal(rename(beside(".replaced-1"), helper_journal), 0);
    expect_all();
}

/* The new file is locked as the old one was. */
static void test_still_locked(void **state)
{
    (void)state;
    Session *session;
    Error error = {0};
    Journal *journal = begin_some(&session);
    assert_int_equal(unlink(helper_journal), 0);
    assert_true(append(journal, session, BEFORE));
    assert_null(journal_open(helper_session(0), notice, sizeof notice, &error));
    assert_non_null(strstr(error.text, "open in another settee"));
    journal_close(journal);
}

/* Somebody put a link where the new file is written first: what it leads to stays as it is. */
static void test_planted_link(void **state)
{
    (void)state;
    char target[160];
    Session *session;
    snprintf(target, sizeof target, "%s/precious", helper_folder);
    helper_spill(target, "precious", 8);
    Journal *journal = begin_some(&session);
    assert_int_equal(symlink(target, beside(".new")), 0);
    assert_int_equal(unlink(helper_journal), 0);
    append_rest(journal, session, BEFORE + append(journal, session, BEFORE));
    journal_close(journal);
    expect_all();
    expect_file(target, "precious", 8);
}

/* A pipe under the journal's name is refused, not waited for. */
static void test_pipe(void **state)
{
    (void)state;
    Error error = {0};
    Session *session;
    journal_close(begin(&session));
    assert_int_equal(unlink(helper_journal), 0);
    assert_int_equal(mkfifo(helper_journal, 0600), 0);
    alarm(60);
    assert_null(journal_open(helper_session(1), notice, sizeof notice, &error));
    assert_string_equal(error.text, "found a pipe or a device; expected a file");
    assert_false(journal_read(helper_session(1), notice, sizeof notice, &error));
    alarm(0);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, helper_setup, helper_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(test_deleted),      TEST(test_deleted_last),      TEST(test_deleted_unused),
        TEST(test_moved),        TEST(test_replaced),          TEST(test_cut),
        TEST(test_folder_gone),  TEST(test_folder_in_the_way), TEST(test_second_settee),
        TEST(test_still_locked), TEST(test_planted_link),      TEST(test_pipe)};
    return cmocka_run_group_tests_name("journal lost", tests, NULL, NULL);
}
