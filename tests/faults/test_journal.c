/* test_journal.c - the journal under torn writes, flipped bits, a full disk, a second settee, a
 * sudden death and folders that can't be written. */
#include "near.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/text.h"
#include "helper_journal.h"
#include "store/files.h"
#include "store/journal.h"

static char notice[512];

static Journal *reopen(Session *session)
{
    char clean[512];
    Error error = {0};
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    assert_true(text_clean(clean, sizeof clean, notice)); /* one line that a terminal may show */
    return journal;
}

static void assert_reads(int count, bool told)
{
    Session *session = helper_session(1);
    journal_close(reopen(session));
    if (!helper_holds(session, count))
        fail_msg("holds %d entries, expected %d; notice: %s", session->entry_count, count, notice);
    assert_int_equal(notice[0] != '\0', told);
}

static bool exists(const char *path) { return access(path, F_OK) == 0; }

static const char *beside(const char *suffix)
{
    static char path[200];
    snprintf(path, sizeof path, "%s%s", helper_journal, suffix);
    return path;
}

/* Applies and appends entries [from, to). */
static void append_some(Journal *journal, Session *session, int from, int to)
{
    Error error = {0};
    for (int i = from; i < to; i++) {
        Entry entry = helper_entry(i);
        assert_true(session_apply(session, &entry));
        if (!journal_append(journal, &entry, &error))
            fail_msg("%s", error.text);
    }
}

static void test_round_trip(void **state)
{
    (void)state;
    helper_write_journal(HELPER_ENTRIES);
    assert_reads(HELPER_ENTRIES, false);
    struct stat status;
    assert_int_equal(stat(helper_journal, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0600);
}

static void test_goes_on(void **state)
{
    (void)state;
    helper_write_journal(5);
    Session *session = helper_session(1);
    Journal *journal = reopen(session);
    append_some(journal, session, 5, HELPER_ENTRIES);
    journal_close(journal);
    assert_reads(HELPER_ENTRIES, false);
}

/* Every line is complete on its own, and says what it is to a person. */
static void test_lines(void **state)
{
    (void)state;
    size_t size;
    helper_write_journal(1);
    char *text = helper_slurp(helper_journal, &size);
    assert_non_null(strstr(text, "{\"format\":\"settee-journal/1\",\"n\":0,\"event\":\"harvest\","
                                 "\"date\":\"2026-10-03\",\"sum\":\""));
    assert_non_null(strstr(text,
                           "\n{\"n\":1,\"kind\":\"shot\",\"lane\":\"left\",\"shot\":{\"lane\":"
                           "\"left\",\"slot\":1,\"stance\":24,\"aim\":12,\"mph\":17.4,\"arrows\":"
                           "12.5,\"breakpoint\":7,\"hit\":"
                           "\"flush\",\"read\":\"on-time\",\"release\":\"good\",\"left\":[]},"
                           "\"sum\":\""));
    free(text);
}

/* A journal from before the boards of a shot could be said, to the byte: they are not said. */
static void test_older_lines(void **state)
{
    (void)state;
    static const char OLD[] = "{\"format\":\"settee-journal/"
                              "1\",\"n\":0,\"event\":\"harvest\",\"date\":\"2026-10-03\",\"sum\":"
                              "\"182b3f42\"}\n"
                              "{\"n\":1,\"kind\":\"shot\",\"lane\":\"left\",\"shot\":{\"lane\":"
                              "\"left\",\"slot\":1,\"stance\":24,"
                              "\"aim\":12,\"mph\":17.4,\"hit\":\"flush\",\"read\":\"on-time\","
                              "\"release\":\"good\",\"left\":[]},"
                              "\"sum\":\"832572a6\"}\n";
    helper_write_journal(0);
    helper_spill(helper_journal, OLD, sizeof OLD - 1);
    Session *session = helper_session(1);
    journal_close(reopen(session));
    assert_string_equal(notice, "");
    assert_int_equal(session->shot_count, 1);
    assert_near(session->shots[0].mph, 17.4, 0);
    assert_near(session->shots[0].arrows, 0, 0);
    assert_near(session->shots[0].breakpoint, 0, 0);
}

/* How many entries of a text are whole when it ends at `cut`: a line is whole with its brace. */
static int whole_entries(const char *text, size_t cut)
{
    int lines = 0;
    for (size_t i = 0; i <= cut; i++)
        lines += text[i] == '\n';
    return lines > 0 ? lines - 1 : 0;
}

static void test_cut_at_every_byte(void **state)
{
    (void)state;
    size_t size, left;
    helper_write_journal(HELPER_ENTRIES);
    char *text = helper_slurp(helper_journal, &size);
    for (size_t cut = 0; cut < size; cut++) {
        helper_spill(helper_journal, text, cut);
        bool line_end = cut == 0 || text[cut - 1] == '\n' || text[cut] == '\n';
        int whole = whole_entries(text, cut);
        assert_reads(whole, !line_end);
        if (!line_end)
            assert_non_null(strstr(notice, "the journal's last line was never finished"));
        assert_reads(whole, false); /* and once put right it stays right */
        Session *session = helper_session(1);
        Journal *journal = reopen(session);
        append_some(journal, session, whole, HELPER_ENTRIES);
        journal_close(journal);
        char *again = helper_slurp(helper_journal, &left);
        assert_int_equal(left, size);
        assert_memory_equal(again, text, size); /* byte for byte as if nothing had happened */
        free(again);
    }
    assert_false(exists(beside(".damaged-1")));
    free(text);
}

/* Entries of the session that are not gaps, each of them the one of its number. */
static int held(const Session *session)
{
    int count = 0;
    for (int i = 0; i < session->entry_count; i++) {
        if (session->entries[i].kind == ENTRY_GAP)
            continue;
        assert_int_equal(session->entries[i].kind, helper_entry(i).kind);
        count++;
    }
    return count;
}

/* One flipped bit in every byte is put right (unless it makes or was a line end), and nothing is
 * lost: what was on disk is there to the byte, under the journal's name or beside it. */
static void test_flipped_bits(void **state)
{
    (void)state;
    size_t size, kept_size;
    helper_write_journal(HELPER_ENTRIES);
    char *text = helper_slurp(helper_journal, &size);
    for (size_t i = 0; i + 1 < size; i++) {
        char before = text[i];
        int line = whole_entries(text, i) + 1;
        bool header = i < (size_t)(strchr(text, '\n') - text);
        text[i] = (char)(text[i] ^ (1 << i % 8));
        helper_spill(helper_journal, text, size);
        Session *session = helper_session(1);
        journal_close(reopen(session));
        if (!strstr(notice, "harvest.journal.damaged-1"))
            fail_msg("byte %zu: %s", i, notice);
        bool line_end = before == '\n' || before == ('\n' ^ (1 << i % 8));
        int lost = header || !line_end ? 0 : before != '\n' ? 1 : line == 1 ? 1 : 2;
        /* an undo that is lost leaves nothing to redo; an edit's shot may be lost */
        if (held(session) < HELPER_ENTRIES - lost - line_end ||
            held(session) > HELPER_ENTRIES - lost)
            fail_msg("byte %zu, line %d: %d entries; %s", i, line, held(session), notice);
        if (!line_end && !helper_holds(session, HELPER_ENTRIES))
            fail_msg("byte %zu: an entry is not as it was; %s", i, notice);
        int count = held(session);
        char *kept = helper_slurp(beside(".damaged-1"), &kept_size);
        assert_non_null(kept);
        assert_int_equal(kept_size, size);
        assert_memory_equal(kept, text, size);
        free(kept);
        session = helper_session(1); /* and once put right it stays right */
        journal_close(reopen(session));
        assert_string_equal(notice, "");
        assert_int_equal(held(session), count);
        unlink(beside(".damaged-1"));
        text[i] = before;
    }
    free(text);
}

static void test_set_aside_never_overwrites(void **state)
{
    (void)state;
    size_t size;
    helper_write_journal(3);
    char *text = helper_slurp(helper_journal, &size);
    for (int n = 1; n <= 3; n++) {
        char suffix[16];
        snprintf(suffix, sizeof suffix, ".damaged-%d", n);
        text[30 + n] ^= 1;
        helper_spill(helper_journal, text, size);
        assert_false(exists(beside(suffix)));
        assert_reads(3, true);
        assert_true(exists(beside(suffix)));
    }
    assert_false(exists(beside(".new")));
    free(text);
}

/* A file system may give a torn tail as zeros. */
static void test_zero_tail(void **state)
{
    (void)state;
    helper_write_journal(4);
    struct stat status;
    assert_int_equal(stat(helper_journal, &status), 0);
    assert_int_equal(truncate(helper_journal, status.st_size + 4096), 0);
    assert_reads(4, true);
    assert_non_null(strstr(notice, "4096 bytes were cut off, 4 entries remain"));
}

static void test_rubbish(void **state)
{
    (void)state;
    unsigned char bytes[3000];
    helper_write_journal(0);
    for (size_t i = 0; i < sizeof bytes; i++)
        bytes[i] = (unsigned char)(i * 131 + 7);
    helper_spill(helper_journal, bytes, sizeof bytes);
    assert_reads(0, true);
    assert_true(exists(beside(".damaged-1")));
    assert_reads(0, false);
}

/* Lines lost, doubled or swapped, each whole in itself: the numbers bring them in order. */
static void test_lines_out_of_place(void **state)
{
    (void)state;
    size_t size;
    helper_write_journal(3);
    char *text = helper_slurp(helper_journal, &size), mixed[8192];
    char *line[5];
    line[0] = text;
    for (int i = 1; i < 5; i++)
        line[i] = strchr(line[i - 1], '\n') + 1;
    static const struct {
        int order[5], count, stand, held, fault_line;
        const char *told;
    } ROWS[] = {
        {{0, 1, 3}, 3, 3, 2, 3, "one entry is missing there, the 1 after it is kept"},
        {{0, 2, 3}, 3, 3, 2, 2, "one entry is missing there, the 2 after it are kept"},
        {{0, 1, 1, 2}, 4, 2, 2, 3, "no entry is missing"},
        {{0, 2, 1}, 3, 2, 2, 2, "no entry is missing"},
    };
    for (size_t row = 0; row < sizeof ROWS / sizeof ROWS[0]; row++) {
        size_t used = 0;
        for (int i = 0; i < ROWS[row].count; i++) {
            int from = ROWS[row].order[i];
            size_t length = (size_t)(line[from + 1] - line[from]);
            memcpy(mixed + used, line[from], length);
            used += length;
        }
        helper_spill(helper_journal, mixed, used);
        Session *session = helper_session(1);
        journal_close(reopen(session));
        assert_int_equal(session->entry_count, ROWS[row].stand);
        assert_int_equal(held(session), ROWS[row].held);
        char expected[64];
        snprintf(expected, sizeof expected, "line %d of the journal is out of place (found entry",
                 ROWS[row].fault_line);
        if (!strstr(notice, expected) || !strstr(notice, ROWS[row].told))
            fail_msg("row %zu: %s", row, notice);
    }
    free(text);
}

/* An entry that the event no longer allows: here it has been cut to one game. */
static void test_refused_entry(void **state)
{
    (void)state;
    helper_write_journal(12);
    Session *session = helper_session(1);
    session->event.games = 1;
    journal_close(reopen(session));
    assert_int_equal(session->entry_count, 12);
    assert_int_equal(held(session), 11);
    assert_non_null(strstr(notice, "line 12 of the journal can't be used (the entry does not fit "
                                   "this event: that was the last game): one entry is missing "
                                   "there, the 1 after it is kept"));
    assert_true(exists(beside(".damaged-1")));
}

/* A bag that was edited since is no fault: a shot stays with the ball it names, in whatever slot it
 * lies now, and with its surface; a plan goes to a slot that is filled. */
static void test_bag_changed_since(void **state)
{
    (void)state;
    Session *session = helper_session(0);
    Journal *journal = reopen(session);
    Error error = {0};
    for (int i = 0; i < 3; i++) {
        Entry entry = helper_entry(i);
        assert_true(session_apply(session, &entry));
        assert_true(journal_append(journal, &session->entries[i], &error));
    }
    journal_close(journal);
    session = helper_session(1);
    Ball *ember = &session->bag.balls[0], *glint = &session->bag.balls[1];
    ember->slot = 2;
    ember->surface = (Surface){.finish = FINISH_POLISH};
    glint->slot = 0;
    journal_close(reopen(session));
    assert_string_equal(notice, "");
    assert_int_equal(session->entry_count, 3);
    assert_string_equal(session->shots[0].ball, "ember");
    assert_int_equal(session->shots[0].slot, 2);
    assert_int_equal(session->shots[0].surface.finish, FINISH_GRIT);
    assert_near(session->shots[0].surface.grit, 2000.0, 0);
    assert_string_equal(session->shots[1].ball, "glint");
    assert_int_equal(session->shots[1].slot, 0);
    assert_int_equal(session->plan[SIDE_LEFT].slot, 2);

    /* a ball that is in the bag no more, and entries that name none */
    session = helper_session(1);
    session->bag.count = 1;
    journal_close(reopen(session));
    assert_string_equal(notice, "");
    assert_int_equal(session->entry_count, 3);
    assert_int_equal(session->shots[1].slot, 0);
    assert_int_equal(unlink(helper_journal), 0);
    helper_write_journal(8);
    session = helper_session(1);
    session->bag.count = 1;
    journal_close(reopen(session));
    assert_string_equal(notice, "");
    assert_int_equal(session->entry_count, 8);
    assert_string_equal(session->shots[0].ball, "ember");
    assert_string_equal(session->shots[1].ball, "");
}

static void test_other_day(void **state)
{
    (void)state;
    helper_write_journal(4);
    Session *session = helper_session(1);
    strcpy(session->event.date, "2026-10-10");
    journal_close(reopen(session));
    assert_int_equal(session->entry_count, 0);
    assert_non_null(strstr(notice, "the journal of 2026-10-03 is kept as "
                                   "harvest.journal.earlier-1"));
    assert_int_equal(rename(beside(".earlier-1"), helper_journal), 0);
    assert_reads(4, false);
}

static void test_newer_format(void **state)
{
    (void)state;
    static const char LINE[] = "{\"format\":\"settee-journal/2\",\"n\":0,\"sum\":\"00000000\"}\n";
    Error error = {0};
    size_t size;
    helper_write_journal(2);
    helper_spill(helper_journal, LINE, strlen(LINE)); /* its sum is wrong: damaged, not foreign */
    assert_reads(0, true);
    /* with the right sum it is left alone */
    static const char WHOLE[] = "{\"format\":\"settee-journal/2\",\"n\":0,\"sum\":\"%08lx\"}\n";
    char whole[128];
    unsigned long sum = 0xffffffffu;
    for (const char *c = "{\"format\":\"settee-journal/2\",\"n\":0"; *c; c++) {
        sum ^= (unsigned char)*c;
        for (int bit = 0; bit < 8; bit++)
            sum = sum >> 1 ^ (sum & 1 ? 0xedb88320u : 0);
    }
    snprintf(whole, sizeof whole, WHOLE, sum ^ 0xffffffffu);
    helper_spill(helper_journal, whole, strlen(whole));
    assert_null(journal_open(helper_session(1), notice, sizeof notice, &error));
    assert_non_null(strstr(error.text, "this program reads \"settee-journal/1\" here; rename"));
    assert_false(journal_check(whole, strlen(whole), &error));
    assert_non_null(strstr(error.text, "this program reads \"settee-journal/1\" here"));
    char *text = helper_slurp(helper_journal, &size);
    assert_string_equal(text, whole);
    free(text);
}

/* ---- a full disk ---- */

static void limit_file_size(rlim_t bytes)
{
    struct rlimit limit;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    limit.rlim_cur = bytes == RLIM_INFINITY ? limit.rlim_max : bytes;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
}

/* The disk fills up at every possible byte; the event goes on; when there is room again nothing
 * is missing. */
static void test_full_disk(void **state)
{
    (void)state;
    size_t size, now;
    signal(SIGXFSZ, SIG_IGN);
    helper_write_journal(HELPER_ENTRIES);
    char *text = helper_slurp(helper_journal, &size);
    size_t header = (size_t)(strchr(text, '\n') + 1 - text);
    for (size_t full = header; full < size; full += 7) {
        helper_spill(helper_journal, text, header);
        Session *session = helper_session(1);
        Journal *journal = reopen(session);
        limit_file_size(full);
        int refused = 0;
        for (int i = 0; i < HELPER_ENTRIES; i++) {
            Error error = {0};
            Entry entry = helper_entry(i);
            if (i == HELPER_ENTRIES - 1)
                limit_file_size(RLIM_INFINITY);
            assert_true(session_apply(session, &entry));
            if (journal_append(journal, &entry, &error)) {
                assert_int_equal(journal_waiting(journal), 0);
                continue;
            }
            refused++;
            assert_int_equal(journal_waiting(journal), refused);
            assert_non_null(strstr(error.text, "can't be written: "));
            char *part = helper_slurp(helper_journal, &now);
            assert_true(now <= full && part[now - 1] == '\n'); /* whole lines only */
            assert_memory_equal(part, text, now);
            free(part);
        }
        journal_close(journal);
        char *again = helper_slurp(helper_journal, &now);
        assert_int_equal(now, size);
        assert_memory_equal(again, text, size);
        free(again);
    }
    free(text);
    assert_reads(HELPER_ENTRIES, false);
}

/* A disk that is full before the event, and has room again in the middle of it. */
static void test_full_disk_at_start(void **state)
{
    (void)state;
    Error error = {0};
    Session *session = helper_session(1);
    signal(SIGXFSZ, SIG_IGN);
    limit_file_size(10);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    assert_non_null(strstr(notice, "can't write: File too large; what you log is kept in memory"));
    for (int i = 0; i < 4; i++) {
        Entry entry = helper_entry(i);
        if (i == 2)
            limit_file_size(RLIM_INFINITY);
        assert_true(session_apply(session, &entry));
        assert_int_equal(journal_append(journal, &entry, &error), i >= 2);
        assert_int_equal(journal_waiting(journal), i < 2 ? i + 1 : 0);
        assert_int_equal(
            strcmp(error.text, "can't be written: File too large; kept in memory") == 0, i < 2);
    }
    assert_int_equal(journal_close(journal), 0);
    assert_reads(4, false);
}

/* Then nothing was entered: what is left is no reason to complain. */
static void test_full_disk_and_nothing_entered(void **state)
{
    (void)state;
    Error error = {0};
    signal(SIGXFSZ, SIG_IGN);
    limit_file_size(10);
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    assert_int_equal(journal_close(journal), 0);
    limit_file_size(RLIM_INFINITY);
    assert_reads(0, false);
}

/* No room for the new file when a damaged one is to be set aside: the old one is untouched. */
static void test_full_disk_at_repair(void **state)
{
    (void)state;
    Error error = {0};
    size_t size, now;
    signal(SIGXFSZ, SIG_IGN);
    helper_write_journal(6);
    char *text = helper_slurp(helper_journal, &size);
    text[size - 30] ^= 3;
    helper_spill(helper_journal, text, size);
    limit_file_size(200);
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    limit_file_size(RLIM_INFINITY);
    assert_null(journal);
    assert_non_null(strstr(error.text, "the journal can't be repaired: "));
    char *again = helper_slurp(helper_journal, &now);
    assert_int_equal(now, size);
    assert_memory_equal(again, text, size);
    assert_false(exists(beside(".new")));
    free(again);
    free(text);
    assert_reads(5, true);
}

/* ---- other processes ---- */

static void test_second_settee(void **state)
{
    (void)state;
    helper_write_journal(2);
    Journal *journal = reopen(helper_session(1));
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        Error error = {0};
        Journal *second = journal_open(helper_session(0), notice, sizeof notice, &error);
        _exit(!second && strstr(error.text, "this event is open in another settee") ? 0 : 1);
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    Error error = {0};
    assert_null(
        journal_open(helper_session(0), notice, sizeof notice, &error)); /* nor twice here */
    /* reading needs no lock */
    Session *session = helper_session(0);
    assert_true(journal_read(session, notice, sizeof notice, &error));
    assert_int_equal(session->entry_count, 2);
    journal_close(journal);
    assert_reads(2, false);
}

/* The lock stays with the journal when the damaged file has been set aside. */
static void test_lock_after_repair(void **state)
{
    (void)state;
    size_t size;
    helper_write_journal(2);
    char *text = helper_slurp(helper_journal, &size);
    text[40] ^= 1;
    helper_spill(helper_journal, text, size);
    free(text);
    Journal *journal = reopen(helper_session(1));
    Error error = {0};
    assert_null(journal_open(helper_session(0), notice, sizeof notice, &error));
    assert_non_null(strstr(error.text, "open in another settee"));
    journal_close(journal);
}

/* Appends plans without end, telling each that was kept. */
static void append_for_ever(int tell)
{
    Error error = {0};
    Session *session = helper_session(1);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    for (int i = 0; journal && i < SESSION_ENTRIES_MAX; i++) {
        Entry entry = {.kind = ENTRY_PLAN, .plan = {.slot = 1, .stance = i % 60, .aim = 10}};
        if (!session_apply(session, &entry) || !journal_append(journal, &entry, &error) ||
            write(tell, "k", 1) != 1)
            break;
    }
    _exit(1);
}

static void test_killed_while_appending(void **state)
{
    (void)state;
    int total = 0;
    for (int round = 1; round <= 20; round++) {
        int ends[2], status, told = 0;
        char byte;
        assert_int_equal(pipe(ends), 0);
        pid_t child = fork();
        assert_true(child >= 0);
        if (child == 0)
            append_for_ever(ends[1]);
        close(ends[1]);
        while (told < round * 2 && read(ends[0], &byte, 1) == 1)
            told++;
        assert_int_equal(kill(child, SIGKILL), 0);
        assert_int_equal(waitpid(child, &status, 0), child);
        while (read(ends[0], &byte, 1) == 1) /* what it had told before it died */
            told++;
        close(ends[0]);
        assert_true(WIFSIGNALED(status));
        total += told;
        Session *session = helper_session(1);
        journal_close(reopen(session));
        assert_true(session->entry_count >= total);
        assert_true(session->entry_count <= total + 1); /* one may be kept and not told */
        total = session->entry_count;
    }
}

/* ---- folders ---- */

/* Runs `test` as a user who is bound by permissions; the tests may run as root. */
static void as_plain_user(int (*test)(void))
{
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        if (getuid() == 0 && (setgid(65534) != 0 || setuid(65534) != 0))
            _exit(9);
        _exit(test());
    }
    int status;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
}

static int open_refused(void)
{
    Error error = {0};
    if (journal_open(helper_session(1), notice, sizeof notice, &error))
        return 1;
    return strstr(error.text, "Permission denied") ? 0 : 2;
}

static void test_read_only_folder(void **state)
{
    (void)state;
    assert_int_equal(chmod(helper_folder, 0555), 0);
    as_plain_user(open_refused);
}

static void test_read_only_journal(void **state)
{
    (void)state;
    helper_write_journal(2);
    char path[128]; /* the way there is open, the file is not */
    const char *const WAY[] = {"", "/settee", "/settee/events"};
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s%s", helper_folder, WAY[i]);
        assert_int_equal(chmod(path, 0755), 0);
    }
    assert_int_equal(chmod(helper_journal, 0444), 0);
    as_plain_user(open_refused);
    assert_reads(2, false);
}

static void test_file_in_the_way(void **state)
{
    (void)state;
    Error error = {0};
    char path[128];
    snprintf(path, sizeof path, "%s/settee", helper_folder);
    helper_spill(path, "x", 1);
    assert_null(journal_open(helper_session(1), notice, sizeof notice, &error));
    assert_non_null(strstr(error.text, "can't make the folder"));
}

static void test_looking_makes_nothing(void **state)
{
    (void)state;
    Error error = {0};
    char path[128];
    int count;
    assert_null(journal_list(&count, NULL));
    assert_int_equal(count, 0);
    assert_false(journal_read(helper_session(1), notice, sizeof notice, &error));
    assert_string_equal(error.text, "this event has no journal yet");
    snprintf(path, sizeof path, "%s/settee", helper_folder);
    assert_false(exists(path));
}

/* What can't be read is not taken for nothing. */
static int folder_told(void)
{
    Error error = {0};
    int count = 0;
    return !journal_list(&count, &error) && count == -1 &&
                   strstr(error.text, "the folder can't be read: Permission denied")
               ? 0
               : 1;
}

static void test_unreadable_folder(void **state)
{
    (void)state;
    char path[128];
    helper_write_journal(2);
    const char *const WAY[] = {"", "/settee", "/settee/events"};
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s%s", helper_folder, WAY[i]);
        assert_int_equal(chmod(path, i < 2 ? 0755 : 0711), 0);
    }
    as_plain_user(folder_told);
}

static void test_no_home(void **state)
{
    (void)state;
    Error error = {0};
    int count = 0;
    char *home = strdup(getenv("HOME") ? getenv("HOME") : "");
    assert_non_null(home);
    unsetenv("XDG_DATA_HOME");
    unsetenv("HOME");
    assert_null(journal_list(&count, &error));
    setenv("HOME", home, 1);
    free(home);
    assert_int_equal(count, -1);
    assert_non_null(strstr(error.text, "neither XDG_DATA_HOME nor HOME is an absolute path"));
}

static void test_list_and_check(void **state)
{
    (void)state;
    Error error = {0};
    const char *kind;
    size_t size;
    int count;
    helper_write_journal(5);
    helper_spill(beside(".damaged-1"), "x", 1);
    JournalHead *heads = journal_list(&count, NULL);
    assert_int_equal(count, 1);
    assert_string_equal(heads[0].name, "harvest");
    assert_string_equal(heads[0].date, "2026-10-03");
    free(heads);
    assert_true(files_check(helper_journal, &kind, &error));
    assert_string_equal(kind, "journal");
    char *text = helper_slurp(helper_journal, &size);
    text[size - 40] ^= 3;
    helper_spill(helper_journal, text, size);
    assert_false(files_check(helper_journal, &kind, &error));
    assert_string_equal(error.text, "the line does not match its checksum");
    assert_int_equal(error.line, 6);
    helper_spill(helper_journal, text, size - 3);
    assert_false(files_check(helper_journal, &kind, &error));
    assert_non_null(strstr(error.text, "the last line was never finished"));
    /* looking at a damaged journal leaves it as it is */
    Session *session = helper_session(1);
    assert_true(journal_read(session, notice, sizeof notice, &error));
    assert_int_equal(session->entry_count, 4);
    assert_non_null(strstr(notice, "line 6 of the journal can't be used"));
    free(text);
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, helper_setup, helper_teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(test_round_trip),
                                       TEST(test_goes_on),
                                       TEST(test_lines),
                                       TEST(test_older_lines),
                                       TEST(test_cut_at_every_byte),
                                       TEST(test_flipped_bits),
                                       TEST(test_set_aside_never_overwrites),
                                       TEST(test_zero_tail),
                                       TEST(test_rubbish),
                                       TEST(test_lines_out_of_place),
                                       TEST(test_refused_entry),
                                       TEST(test_bag_changed_since),
                                       TEST(test_other_day),
                                       TEST(test_newer_format),
                                       TEST(test_full_disk),
                                       TEST(test_full_disk_at_start),
                                       TEST(test_full_disk_and_nothing_entered),
                                       TEST(test_full_disk_at_repair),
                                       TEST(test_second_settee),
                                       TEST(test_lock_after_repair),
                                       TEST(test_killed_while_appending),
                                       TEST(test_read_only_folder),
                                       TEST(test_read_only_journal),
                                       TEST(test_file_in_the_way),
                                       TEST(test_looking_makes_nothing),
                                       TEST(test_unreadable_folder),
                                       TEST(test_no_home),
                                       TEST(test_list_and_check)};
    return cmocka_run_group_tests_name("journal", tests, NULL, NULL);
}
