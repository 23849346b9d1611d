/* test_failing_calls.c - every allocation and every call to the disk fails once, in turn; and the
 * program dies once at each of them. Linked so that the store's own calls come through here. */
#include "near.h"

#include <cJSON.h>
#include <dirent.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/json_out.h"
#include "helper_journal.h"
#include "store/atomic.h"
#include "store/draft_file.h"
#include "store/files.h"
#include "store/journal.h"

typedef enum Strike { STRIKE_NEVER, STRIKE_MEMORY, STRIKE_DISK, STRIKE_DEAD } Strike;
static Strike strike;
static int countdown; /* calls until it strikes */
static int files_synced, folders_synced;
static bool next_write_fails; /* after a write that got half through */
static size_t write_most;     /* bytes that a write takes at once; 0: any number */
static bool next_cut_fails;
static bool interrupted;          /* the next read or write is, by a signal */
static void (*before_lock)(void); /* what happens just before the next lock */

static void strike_at(Strike what, int call)
{
    strike = what;
    countdown = call;
    next_write_fails = false;
}

static bool struck(Strike what)
{
    if (strike != what || --countdown != 0)
        return false;
    errno = what == STRIKE_MEMORY ? ENOMEM : EIO;
    return true;
}

static bool disk_struck(void)
{
    if (struck(STRIKE_DEAD))
        _exit(7);
    return struck(STRIKE_DISK);
}

/* The linker sends a call of f to __wrap_f, and one of __real_f to f. */
void *__real_malloc(size_t size);
void *__real_calloc(size_t count, size_t size);
void *__real_realloc(void *old, size_t size);
ssize_t __real_write(int fd, const void *bytes, size_t size);
int __real_fsync(int fd);
int __real_fdatasync(int fd);
int __real_ftruncate(int fd, off_t length);
int __real_rename(const char *from, const char *to);
int __real_link(const char *from, const char *to);
ssize_t __real_read(int fd, void *bytes, size_t size);
int __real_flock(int fd, int what);
void *__wrap_malloc(size_t size);
void *__wrap_calloc(size_t count, size_t size);
void *__wrap_realloc(void *old, size_t size);
ssize_t __wrap_write(int fd, const void *bytes, size_t size);
ssize_t __wrap_read(int fd, void *bytes, size_t size);
int __wrap_flock(int fd, int what);
int __wrap_fsync(int fd);
int __wrap_fdatasync(int fd);
int __wrap_ftruncate(int fd, off_t length);
int __wrap_rename(const char *from, const char *to);
int __wrap_link(const char *from, const char *to);

void *__wrap_malloc(size_t size) { return struck(STRIKE_MEMORY) ? NULL : __real_malloc(size); }
void *__wrap_calloc(size_t count, size_t size)
{
    return struck(STRIKE_MEMORY) ? NULL : __real_calloc(count, size);
}
void *__wrap_realloc(void *old, size_t size)
{
    return struck(STRIKE_MEMORY) ? NULL : __real_realloc(old, size);
}
int __wrap_fsync(int fd)
{
    folders_synced++;
    return disk_struck() ? -1 : __real_fsync(fd);
}
int __wrap_fdatasync(int fd)
{
    files_synced++;
    return disk_struck() ? -1 : __real_fdatasync(fd);
}
static bool was_interrupted(void)
{
    bool now = interrupted;
    interrupted = false;
    if (now)
        errno = EINTR;
    return now;
}

ssize_t __wrap_read(int fd, void *bytes, size_t size)
{
    return was_interrupted() ? -1 : __real_read(fd, bytes, size);
}

int __wrap_flock(int fd, int what)
{
    void (*happens)(void) = before_lock;
    before_lock = NULL;
    if (happens)
        happens();
    return __real_flock(fd, what);
}

int __wrap_ftruncate(int fd, off_t length)
{
    if (next_cut_fails) {
        next_cut_fails = false;
        errno = EIO;
        return -1;
    }
    return disk_struck() ? -1 : __real_ftruncate(fd, length);
}
int __wrap_rename(const char *from, const char *to)
{
    return disk_struck() ? -1 : __real_rename(from, to);
}
int __wrap_link(const char *from, const char *to)
{
    return disk_struck() ? -1 : __real_link(from, to);
}

/* A write that fails gets half of it through first, and so does a death. */
ssize_t __wrap_write(int fd, const void *bytes, size_t size)
{
    if (was_interrupted())
        return -1;
    if (write_most > 0 && size > write_most)
        size = write_most;
    if (next_write_fails) {
        next_write_fails = false;
        errno = ENOSPC;
        return -1;
    }
    if (strike != STRIKE_DEAD && !struck(STRIKE_DISK))
        return __real_write(fd, bytes, size);
    if (strike == STRIKE_DEAD && !struck(STRIKE_DEAD))
        return __real_write(fd, bytes, size);
    ssize_t half = __real_write(fd, bytes, size / 2);
    if (strike == STRIKE_DEAD)
        _exit(7);
    next_write_fails = true;
    return half;
}

static void *counted_malloc(size_t size) { return malloc(size); }

/* ---- memory ---- */

static Bag bag;
static Pattern pattern;
static EventInfo event;
static Theme theme;
static RuleSet rules;
static Shot shots[SESSION_SHOTS_MAX];

#define GOOD(name) SETTEE_SOURCE_DIR "/tests/data/good/" name

static bool read_everything(int which, Error *error)
{
    const char *kind;
    int count;
    switch (which) {
    case 0:
        return files_bag(GOOD("bag.json"), &bag, error);
    case 1:
        return files_pattern(GOOD("taped.json"), &pattern, error);
    case 2:
        return files_event(GOOD("event.json"), &event, error);
    case 3:
        return files_theme(GOOD("theme.json"), &theme, error);
    case 4:
        return files_rules(GOOD("rules.json"), &rules, error);
    case 5:
        return files_shots(GOOD("shots.json"), shots, SESSION_SHOTS_MAX, &count, error);
    case 6:
        return files_shots(GOOD("shots.jsonl"), shots, SESSION_SHOTS_MAX, &count, error);
    case 7:
        return files_check(GOOD("rules.json"), &kind, error);
    default:
        return files_bag("demo", &bag, error);
    }
}

static void test_memory_of_files(void **state)
{
    (void)state;
    for (int which = 0; which < 9; which++) {
        bool read = false;
        int call = 1;
        for (; !read; call++) {
            Error error = {0};
            strike_at(STRIKE_MEMORY, call);
            read = read_everything(which, &error);
            bool unused = countdown > 0;
            strike_at(STRIKE_NEVER, 0);
            assert_int_equal(read, unused); /* a missing piece of memory never goes unnoticed */
            assert_int_equal(error.text[0] == '\0', read);
            assert_true(call < 10000);
        }
        assert_true(call > 3);
    }
}

static void test_memory_of_json_out(void **state)
{
    (void)state;
    bool done = false;
    for (int call = 1; !done; call++) {
        JsonOut out = json_out_start();
        strike_at(STRIKE_MEMORY, call);
        json_out_array(&out, NULL);
        for (int i = 0; i < 1000; i++)
            json_out_integer(&out, NULL, i);
        json_out_end(&out);
        bool unused = countdown > 0;
        strike_at(STRIKE_NEVER, 0);
        done = json_out_text(&out) != NULL;
        assert_int_equal(done, unused);
        json_out_free(&out);
    }
}

/* ---- a journal's life, by how far it got ---- */

typedef enum Story { STORY_FRESH, STORY_TORN, STORY_DAMAGED, STORY_OTHER_DAY, STORY_COUNT } Story;

/* Lays out what the story begins with; how many entries of it stand. */
static int prepare(Story story)
{
    size_t size;
    if (story == STORY_FRESH)
        return 0;
    helper_write_journal(6);
    char *text = helper_slurp(helper_journal, &size);
    if (story == STORY_TORN)
        helper_spill(helper_journal, text, size - 20);
    if (story == STORY_DAMAGED) {
        text[size - 20] ^= 3;
        helper_spill(helper_journal, text, size);
    }
    free(text);
    return story == STORY_OTHER_DAY ? 0 : 5;
}

static Session *begin(Story story)
{
    Session *session = helper_session(1);
    if (story == STORY_OTHER_DAY)
        strcpy(session->event.date, "2026-10-10");
    return session;
}

/* Opens and appends the rest; how many entries were told to be kept. `tell` receives a byte for
 * each, for a parent that outlives this. */
static int live(Story story, int stand, int tell, bool *opened)
{
    char notice[512];
    int kept = stand;
    Error error = {0};
    Session *session = begin(story);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    *opened = journal != NULL;
    if (!journal) {
        assert_true(error.text[0] != '\0');
        return kept;
    }
    for (int i = stand; i < HELPER_ENTRIES; i++) {
        Entry entry = helper_entry(i);
        if (session_apply(session, &entry) && journal_append(journal, &entry, &error)) {
            kept = i + 1;
            if (tell >= 0 && __real_write(tell, "k", 1) != 1)
                break;
        }
    }
    journal_close(journal);
    return kept;
}

/* All that was on disk before is there still, under some name. */
static bool still_there(const char *old, size_t old_size)
{
    char folder[160], path[512];
    bool found = false;
    snprintf(folder, sizeof folder, "%s/settee/events", helper_folder);
    DIR *files = opendir(folder);
    for (struct dirent *row; files && !found && (row = readdir(files));) {
        size_t size = 0;
        snprintf(path, sizeof path, "%s/%s", folder, row->d_name);
        char *text = row->d_name[0] == '.' ? NULL : helper_slurp(path, &size);
        found = text && size >= old_size && memcmp(text, old, old_size) == 0;
        free(text);
    }
    if (files)
        closedir(files);
    return found;
}

/* Without further faults: at least what was reported as saved is there, all in order. */
static void assert_whole(Story story, int kept, const char *old, size_t old_size)
{
    char notice[512];
    Error error = {0};
    Session *session = begin(story);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    journal_close(journal);
    if (session->entry_count < kept || !helper_holds(session, session->entry_count))
        fail_msg("story %d: %d entries of %d; notice: %s", (int)story, session->entry_count, kept,
                 notice);
    if (old)
        assert_true(still_there(old, old_size));
}

/* What must never vanish: a damaged or an earlier journal. A torn tail may be cut. */
static char *must_stay(Story story, size_t *size)
{
    return story == STORY_DAMAGED || story == STORY_OTHER_DAY ? helper_slurp(helper_journal, size)
                                                              : NULL;
}

static void fresh_folder(void)
{
    helper_teardown(NULL);
    assert_int_equal(helper_setup(NULL), 0);
}

static void fail_each(Strike what, bool must_end_whole)
{
    for (Story story = 0; story < STORY_COUNT; story++) {
        bool unused = false;
        for (int call = 1; !unused; call++) {
            size_t size = 0;
            bool opened;
            fresh_folder();
            int stand = prepare(story);
            char *old = must_stay(story, &size);
            strike_at(what, call);
            int kept = live(story, stand, -1, &opened);
            unused = countdown > 0;
            strike_at(STRIKE_NEVER, 0);
            if (unused)
                assert_int_equal(kept, HELPER_ENTRIES);
            /* one failure is made up for by the next append, or when the journal is closed */
            assert_whole(story, opened && must_end_whole ? HELPER_ENTRIES : kept, old, size);
            free(old);
        }
    }
}

static void test_disk(void **state)
{
    (void)state;
    fail_each(STRIKE_DISK, true);
}

static void test_memory_of_journal(void **state)
{
    (void)state;
    fail_each(STRIKE_MEMORY, false);
}

/* Dies at the n-th call to the disk, a write half done, for every n. */
static void test_death(void **state)
{
    (void)state;
    for (Story story = 0; story < STORY_COUNT; story++) {
        bool lived = false;
        for (int call = 1; !lived; call++) {
            int ends[2], status;
            size_t size = 0;
            char byte;
            fresh_folder();
            int kept = prepare(story);
            char *old = must_stay(story, &size);
            assert_int_equal(pipe(ends), 0);
            pid_t child = fork();
            assert_true(child >= 0);
            if (child == 0) {
                bool opened;
                strike_at(STRIKE_DEAD, call);
                _exit(live(story, kept, ends[1], &opened) == HELPER_ENTRIES ? 0 : 1);
            }
            close(ends[1]);
            while (read(ends[0], &byte, 1) == 1)
                kept++;
            close(ends[0]);
            assert_int_equal(waitpid(child, &status, 0), child);
            assert_true(WIFEXITED(status) &&
                        (WEXITSTATUS(status) == 7 || WEXITSTATUS(status) == 0));
            lived = WEXITSTATUS(status) == 0;
            assert_whole(story, kept, old, size);
            free(old);
        }
    }
}

/* A journal without entries makes nobody wait for the disk; every entry is on it before its append
 * returns, and with the first one the journal's name. */
static void test_what_is_waited_for(void **state)
{
    (void)state;
    for (int again = 0; again < 2; again++) { /* begun, and begun but never used */
        char notice[256];
        Error error = {0};
        fresh_folder();
        if (again)
            journal_close(journal_open(helper_session(1), notice, sizeof notice, &error));
        files_synced = folders_synced = 0;
        Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
        assert_non_null(journal);
        assert_int_equal(files_synced + folders_synced, 0);
        for (int i = 0; i < 3; i++) {
            Entry entry = helper_entry(i);
            assert_true(journal_append(journal, &entry, &error));
            assert_int_equal(files_synced, i + 1);
            assert_int_equal(folders_synced, 3); /* events, settee, and the one above */
        }
        journal_close(journal);
    }
}

/* Half of an entry got through, and could not be cut off again: it is before the next entry. */
static void test_a_tail_that_stays(void **state)
{
    (void)state;
    char notice[256];
    size_t size;
    Error error = {0};
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    assert_non_null(journal);
    for (int i = 0; i < 3; i++) {
        Entry entry = helper_entry(i);
        next_cut_fails = i == 1;
        strike_at(i == 1 ? STRIKE_DISK : STRIKE_NEVER, 1);
        assert_int_equal(journal_append(journal, &entry, &error), i != 1);
        strike_at(STRIKE_NEVER, 0);
        assert_false(next_cut_fails);
    }
    assert_int_equal(journal_close(journal), 0);
    char *text = helper_slurp(helper_journal, &size);
    if (!journal_check(text, size, &error))
        fail_msg("line %d: %s", error.line, error.text);
    free(text);
}

static void put_another_there(void)
{
    size_t size;
    char path[200], *text = helper_slurp(helper_journal, &size);
    snprintf(path, sizeof path, "%s.other", helper_journal);
    helper_spill(path, text, size);
    assert_int_equal(__real_rename(path, helper_journal), 0);
    free(text);
}

/* Replaced between being opened and being locked: the lock must be on what is there now. */
static void test_the_lock_is_on_what_is_there(void **state)
{
    (void)state;
    char notice[256];
    Error error = {0};
    helper_write_journal(3);
    before_lock = put_another_there;
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    assert_non_null(journal);
    assert_null(before_lock);
    assert_null(journal_open(helper_session(0), notice, sizeof notice, &error));
    assert_non_null(strstr(error.text, "open in another settee"));
    journal_close(journal);
}

/* A signal is no reason to fail. */
static void test_interrupted_calls(void **state)
{
    (void)state;
    char notice[256];
    Error error = {0};
    Entry entry = helper_entry(0);
    interrupted = true;
    assert_true(files_bag(GOOD("bag.json"), &bag, &error));
    assert_false(interrupted);
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    assert_non_null(journal);
    interrupted = true;
    assert_true(journal_append(journal, &entry, &error));
    assert_false(interrupted);
    journal_close(journal);
}

/* A disk that takes a few bytes at a time gets all of them, in order. */
static void test_short_writes(void **state)
{
    (void)state;
    char notice[256], path[128];
    Error error = {0};
    size_t size;
    Journal *journal = journal_open(helper_session(1), notice, sizeof notice, &error);
    assert_non_null(journal);
    snprintf(path, sizeof path, "%s/short", helper_folder);
    write_most = 7;
    for (int i = 0; i < 3; i++) {
        Entry entry = helper_entry(i);
        assert_true(journal_append(journal, &entry, &error));
    }
    assert_true(atomic_write(path, "a line that is longer than that", 31, &error));
    write_most = 0;
    journal_close(journal);
    Session *session = helper_session(0);
    assert_true(journal_read(session, notice, sizeof notice, &error));
    assert_string_equal(notice, "");
    assert_true(helper_holds(session, 3));
    char *text = helper_slurp(path, &size);
    assert_string_equal(text, "a line that is longer than that");
    free(text);
}

/* ---- a file that is written whole or not at all ---- */

static void test_atomic(void **state)
{
    (void)state;
    char path[128];
    bool done = false;
    for (int call = 1; !done; call++) {
        size_t size;
        Error error = {0};
        fresh_folder();
        snprintf(path, sizeof path, "%s/a.csv", helper_folder);
        helper_spill(path, "old", 3);
        strike_at(STRIKE_DISK, call);
        bool written = atomic_write(path, "a new text", 10, &error);
        done = countdown > 0;
        strike_at(STRIKE_NEVER, 0);
        char *text = helper_slurp(path, &size);
        assert_string_equal(text, written ? "a new text" : "old");
        free(text);
        unlink(path);
        assert_int_equal(rmdir(helper_folder), 0); /* nothing is left over */
        assert_int_equal(mkdir(helper_folder, 0700), 0);
    }
}

/* ---- a half-filled form ---- */

static Draft draft_of(const char *name)
{
    Draft draft = {.form = DRAFT_EVENT, .starting = true};
    draft_note(&draft, "name", name);
    draft_note(&draft, "pattern", "about:house");
    return draft;
}

/* Whether the draft that is kept is that of `name`, and is read whatever happened before. */
static bool draft_is(const char *name)
{
    static Draft draft;
    Error error = {0};
    if (!draft_read(&draft, &error))
        fail_msg("%s", error.text);
    return draft.form == DRAFT_EVENT && draft.starting && draft.count == 2 &&
           strcmp(draft.rows[0].value, name) == 0;
}

static void in_home(const char *folder)
{
    char config[128];
    fresh_folder();
    snprintf(config, sizeof config, "%s%s", helper_folder, folder);
    assert_int_equal(setenv("XDG_CONFIG_HOME", config, 1), 0);
}

/* Every call to the disk and every allocation of a second draft fails once: the first one stays. */
static void test_draft_fails(void **state)
{
    (void)state;
    for (Strike what = STRIKE_MEMORY; what <= STRIKE_DISK; what++) {
        bool unused = false;
        int call = 1, kept = 0;
        for (; !unused; call++) {
            Error error = {0};
            Draft first = draft_of("First"), second = draft_of("Second");
            in_home("");
            assert_true(draft_write(&first, &error));
            strike_at(what, call);
            bool written = draft_write(&second, &error);
            unused = countdown > 0;
            strike_at(STRIKE_NEVER, 0);
            /* whether the folder could be synced only a power cut could tell */
            assert_true(written == unused || (what == STRIKE_DISK && written));
            assert_int_equal(error.text[0] == '\0', written);
            assert_true(draft_is(written ? "Second" : "First"));
            kept += !written;
        }
        assert_true(call > 2 && kept > 0);
    }
}

/* A draft that can't be read for want of memory is a fault, and no half a draft. */
static void test_memory_of_draft(void **state)
{
    (void)state;
    static Draft draft;
    Error error = {0};
    bool read = false;
    int call = 1;
    Draft first = draft_of("First");
    in_home("");
    assert_true(draft_write(&first, &error));
    for (; !read; call++) {
        strike_at(STRIKE_MEMORY, call);
        read = draft_read(&draft, &error);
        bool unused = countdown > 0;
        strike_at(STRIKE_NEVER, 0);
        assert_int_equal(read, unused);
        assert_int_equal(error.text[0] == '\0', read);
        assert_int_equal(draft.count, read ? 2 : 0);
    }
    assert_true(call > 3);
}

/* The program dies at every call to the disk: then it is the first draft, or the second. Where
 * there was none, not even the folder, it is none or the second. */
static void test_draft_death(void **state)
{
    (void)state;
    for (int there = 0; there < 2; there++) {
        bool lived = false;
        int call = 1, kept = 0;
        for (; !lived; call++) {
            static Draft draft;
            int status;
            Error error = {0};
            Draft first = draft_of("First"), second = draft_of("Second");
            in_home(there ? "" : "/new");
            assert_true(!there || draft_write(&first, &error));
            pid_t child = fork();
            assert_true(child >= 0);
            if (child == 0) {
                strike_at(STRIKE_DEAD, call);
                _exit(draft_write(&second, &error) ? 0 : 1);
            }
            assert_int_equal(waitpid(child, &status, 0), child);
            assert_true(WIFEXITED(status) &&
                        (WEXITSTATUS(status) == 7 || WEXITSTATUS(status) == 0));
            lived = WEXITSTATUS(status) == 0;
            assert_true(draft_read(&draft, &error));
            bool none = draft.form == DRAFT_NONE;
            kept += none || draft_is("First");
            assert_true(draft_is("Second") || (!lived && (there ? draft_is("First") : none)));
        }
        assert_true(kept > 1 && call > 3);
    }
}

#define TEST(function) cmocka_unit_test_setup_teardown(function, helper_setup, helper_teardown)

int main(void)
{
    cJSON_InitHooks(&(cJSON_Hooks){.malloc_fn = counted_malloc, .free_fn = free});
    const struct CMUnitTest tests[] = {TEST(test_memory_of_files),
                                       TEST(test_memory_of_json_out),
                                       TEST(test_memory_of_journal),
                                       TEST(test_disk),
                                       TEST(test_death),
                                       TEST(test_what_is_waited_for),
                                       TEST(test_a_tail_that_stays),
                                       TEST(test_the_lock_is_on_what_is_there),
                                       TEST(test_interrupted_calls),
                                       TEST(test_short_writes),
                                       TEST(test_atomic),
                                       TEST(test_draft_fails),
                                       TEST(test_memory_of_draft),
                                       TEST(test_draft_death)};
    return cmocka_run_group_tests_name("failing calls", tests, NULL, NULL);
}
