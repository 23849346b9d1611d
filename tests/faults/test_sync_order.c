/* test_sync_order.c - what the disk is asked for, and in which order, before an entry is confirmed
 * or a file is said to be saved.
 *
 * The store's calls come through here and are noted. At every one of them the power may fail: then
 * a file holds at least what was synced, and a folder the names that were synced; or all that was
 * asked for up to there. Both images are laid out and read: no confirmed entry is missing, and a
 * file that is written whole is the old one or the new one, the new one once it is confirmed. */
#define _XOPEN_SOURCE 700 /* setenv, mkdtemp */
#include "near.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "helper_journal.h"
#include "store/draft_file.h"
#include "store/files.h"
#include "store/home_edit.h"
#include "store/journal.h"
#include "store/juniors.h"
#include "store/rehearsals.h"
#include "store/settings.h"

enum { FILES = 24, NAMES = 64, BYTES = 1 << 14, PATH = 320 };

/* A file or a folder, now and as the disk is sure to have it. */
typedef struct File {
    ino_t inode;
    bool folder;
    size_t size, safe_size;
    char bytes[BYTES], safe[BYTES];
} File;

typedef struct Name {
    char path[PATH];
    File *file, *safe; /* NULL: not there */
} Name;

static File files[FILES];
static Name names[NAMES];
static int file_count, name_count;
static bool noting;
static int confirmed; /* entries that must be there */
static int crashes;
static void (*expect)(bool safe_only); /* what holds after a crash */

ssize_t __real_write(int fd, const void *bytes, size_t size);
int __real_fsync(int fd);
int __real_fdatasync(int fd);
int __real_ftruncate(int fd, off_t length);
int __real_rename(const char *from, const char *to);
int __real_link(const char *from, const char *to);
int __real_unlink(const char *path);
int __real_mkdir(const char *path, mode_t mode);
ssize_t __wrap_write(int fd, const void *bytes, size_t size);
int __wrap_fsync(int fd);
int __wrap_fdatasync(int fd);
int __wrap_ftruncate(int fd, off_t length);
int __wrap_rename(const char *from, const char *to);
int __wrap_link(const char *from, const char *to);
int __wrap_unlink(const char *path);
int __wrap_mkdir(const char *path, mode_t mode);

/* ---- the model of the disk ---- */

static Name *name_of(const char *path)
{
    for (int i = 0; i < name_count; i++)
        if (strcmp(names[i].path, path) == 0)
            return &names[i];
    assert_true(name_count < NAMES);
    Name *name = &names[name_count++];
    *name = (Name){0};
    snprintf(name->path, sizeof name->path, "%s", path);
    return name;
}

static File *file_of(ino_t inode, bool folder)
{
    for (int i = 0; i < file_count; i++)
        if (files[i].inode == inode)
            return &files[i];
    assert_true(file_count < FILES);
    File *file = &files[file_count++];
    *file = (File){.inode = inode, .folder = folder};
    return file;
}

static void path_of(int fd, char *path)
{
    char link_path[64];
    snprintf(link_path, sizeof link_path, "/proc/self/fd/%d", fd);
    ssize_t length = readlink(link_path, path, PATH - 1);
    assert_true(length > 0);
    path[length] = '\0';
}

/* The file that a call is about; what is new has a name from its making on. */
static File *opened(int fd)
{
    char path[PATH];
    struct stat status;
    assert_int_equal(fstat(fd, &status), 0);
    int before = file_count;
    File *file = file_of(status.st_ino, S_ISDIR(status.st_mode));
    path_of(fd, path);
    if (file_count > before && !file->folder)
        name_of(path)->file = file;
    return file;
}

static bool lies_in(const char *path, const char *folder)
{
    size_t length = strlen(folder);
    return strncmp(path, folder, length) == 0 && path[length] == '/' &&
           !strchr(path + length + 1, '/');
}

/* Everything as it is on the disk now, and sure to stay. */
static void look(const char *path)
{
    DIR *folder = opendir(path);
    for (struct dirent *row; folder && (row = readdir(folder));) {
        char child[PATH];
        struct stat status;
        if (row->d_name[0] == '.')
            continue;
        snprintf(child, sizeof child, "%.200s/%.100s", path, row->d_name);
        assert_int_equal(stat(child, &status), 0);
        Name *name = name_of(child);
        name->file = name->safe = file_of(status.st_ino, S_ISDIR(status.st_mode));
        if (name->file->folder) {
            look(child);
            continue;
        }
        char *text = helper_slurp(child, &name->file->size);
        memcpy(name->file->bytes, text, name->file->size);
        memcpy(name->file->safe, text, name->file->size);
        name->file->safe_size = name->file->size;
        free(text);
    }
    if (folder)
        closedir(folder);
}

static void look_again(void)
{
    file_count = name_count = 0;
    look(helper_folder);
}

/* ---- a crash ---- */

static char image[PATH];

static bool is_safe_folder(const char *path)
{
    char above[PATH];
    strncpy(above, path, sizeof above - 1);
    above[sizeof above - 1] = '\0';
    for (;;) {
        *strrchr(above, '/') = '\0';
        if (strcmp(above, helper_folder) == 0)
            return true;
        if (!name_of(above)->safe)
            return false;
    }
}

static void lay_out(bool safe_only)
{
    char path[2 * PATH];
    for (int pass = 0; pass < 2; pass++) /* folders first; they were noted from above */
        for (int i = 0; i < name_count; i++) {
            const File *file = safe_only ? names[i].safe : names[i].file;
            if (!file || file->folder != (pass == 0) ||
                (safe_only && !is_safe_folder(names[i].path)))
                continue;
            snprintf(path, sizeof path, "%s%s", image, names[i].path + strlen(helper_folder));
            if (file->folder)
                assert_int_equal(__real_mkdir(path, 0700), 0);
            else
                helper_spill(path, safe_only ? file->safe : file->bytes,
                             safe_only ? file->safe_size : file->size);
        }
}

static void remove_image(void)
{
    char command[2 * PATH];
    snprintf(command, sizeof command, "rm -rf %s/*", image);
    assert_int_equal(system(command), 0);
}

static void expect_confirmed(bool safe_only)
{
    static Session session;
    char notice[512];
    Error error = {0};
    session = *helper_session(1);
    lay_out(safe_only);
    assert_int_equal(setenv("XDG_DATA_HOME", image, 1), 0);
    bool read = journal_read(&session, notice, sizeof notice, &error);
    assert_int_equal(setenv("XDG_DATA_HOME", helper_folder, 1), 0);
    int held = 0;
    for (int i = 0; read && i < session.entry_count; i++)
        held += session.entries[i].kind == helper_entry(i).kind;
    if (held < confirmed)
        fail_msg("crash %d, %s: %d of %d confirmed entries; %s%s", crashes,
                 safe_only ? "what was synced" : "all that was asked for", held, confirmed, notice,
                 error.text);
    remove_image();
}

static void crash(void)
{
    if (!noting)
        return;
    noting = false;
    crashes++;
    expect(true);
    expect(false);
    noting = true;
}

/* ---- the calls ---- */

ssize_t __wrap_write(int fd, const void *bytes, size_t size)
{
    if (!noting)
        return __real_write(fd, bytes, size);
    File *file = opened(fd);
    crash();
    for (size_t part = size / 2; size > 0; part = size) { /* half of it, then all */
        assert_true(file->size + size <= BYTES);
        memcpy(file->bytes + file->size, bytes, part);
        file->size += part;
        crash();
        if (part == size)
            break;
        file->size -= part;
    }
    return __real_write(fd, bytes, size);
}

int __wrap_ftruncate(int fd, off_t length)
{
    if (noting)
        opened(fd)->size = (size_t)length;
    crash();
    return __real_ftruncate(fd, length);
}

static void sync_noted(int fd)
{
    char path[PATH];
    if (!noting)
        return;
    File *file = opened(fd);
    path_of(fd, path);
    memcpy(file->safe, file->bytes, file->size);
    file->safe_size = file->size;
    for (int i = 0; file->folder && i < name_count; i++)
        if (lies_in(names[i].path, path))
            names[i].safe = names[i].file;
    crash();
}

int __wrap_fsync(int fd)
{
    int result = __real_fsync(fd);
    sync_noted(fd);
    return result;
}

int __wrap_fdatasync(int fd)
{
    int result = __real_fdatasync(fd);
    sync_noted(fd);
    return result;
}

int __wrap_rename(const char *from, const char *to)
{
    int result = __real_rename(from, to);
    if (noting && result == 0) {
        name_of(to)->file = name_of(from)->file;
        name_of(from)->file = NULL;
        crash();
    }
    return result;
}

int __wrap_link(const char *from, const char *to)
{
    int result = __real_link(from, to);
    if (noting && result == 0) {
        name_of(to)->file = name_of(from)->file;
        crash();
    }
    return result;
}

int __wrap_unlink(const char *path)
{
    int result = __real_unlink(path);
    if (noting && result == 0) {
        name_of(path)->file = NULL;
        crash();
    }
    return result;
}

int __wrap_mkdir(const char *path, mode_t mode)
{
    struct stat status;
    int result = __real_mkdir(path, mode);
    if (noting && result == 0) {
        assert_int_equal(stat(path, &status), 0);
        name_of(path)->file = file_of(status.st_ino, true);
        crash();
    }
    return result;
}

/* ---- lives of a journal ---- */

static Journal *open_noted(Session **session)
{
    char notice[512];
    Error error = {0};
    *session = helper_session(0);
    look_again();
    noting = true;
    Journal *journal = journal_open(*session, notice, sizeof notice, &error);
    if (!journal)
        fail_msg("%s", error.text);
    return journal;
}

static void append_noted(Journal *journal, Session *session, int from, int to)
{
    Error error = {0};
    for (int i = from; i < to; i++) {
        Entry entry = helper_entry(i);
        assert_true(session_apply(session, &entry));
        assert_true(journal_append(journal, &entry, &error));
        confirmed = i + 1;
        crash();
    }
}

static void close_noted(Journal *journal)
{
    journal_close(journal);
    crash();
    noting = false;
}

static void test_new(void **state)
{
    (void)state;
    Session *session;
    Journal *journal = open_noted(&session);
    append_noted(journal, session, 0, HELPER_ENTRIES);
    close_noted(journal);
}

static void test_goes_on(void **state)
{
    (void)state;
    Session *session;
    helper_write_journal(5);
    confirmed = 5;
    Journal *journal = open_noted(&session);
    append_noted(journal, session, 5, HELPER_ENTRIES);
    close_noted(journal);
}

static void test_torn(void **state)
{
    (void)state;
    size_t size;
    Session *session;
    helper_write_journal(6);
    char *text = helper_slurp(helper_journal, &size);
    helper_spill(helper_journal, text, size - 20);
    free(text);
    confirmed = 5;
    Journal *journal = open_noted(&session);
    append_noted(journal, session, 5, HELPER_ENTRIES);
    close_noted(journal);
}

/* The last line lacks its line end and nothing else. */
static void test_unended(void **state)
{
    (void)state;
    size_t size;
    Session *session;
    helper_write_journal(6);
    char *text = helper_slurp(helper_journal, &size);
    helper_spill(helper_journal, text, size - 1);
    free(text);
    confirmed = 6;
    Journal *journal = open_noted(&session);
    append_noted(journal, session, 6, HELPER_ENTRIES);
    close_noted(journal);
}

static void test_damaged(void **state)
{
    (void)state;
    size_t size;
    Session *session;
    helper_write_journal(6);
    char *text = helper_slurp(helper_journal, &size);
    text[size - 20] ^= 3;
    helper_spill(helper_journal, text, size);
    free(text);
    confirmed = 5;
    Journal *journal = open_noted(&session);
    append_noted(journal, session, 5, HELPER_ENTRIES);
    close_noted(journal);
}

/* What another program took away is confirmed again with the next entry. */
static void test_lost(void **state)
{
    (void)state;
    char from[PATH], to[PATH];
    for (int how = 0; how < 3; how++) {
        snprintf(from, sizeof from, "%s/settee", helper_folder);
        snprintf(to, sizeof to, "%s/elsewhere", helper_folder);
        Session *session;
        Journal *journal = open_noted(&session);
        append_noted(journal, session, 0, 5);
        noting = false;
        confirmed = 0;
        if (how == 0)
            assert_int_equal(__real_unlink(helper_journal), 0);
        else if (how == 1)
            helper_spill(helper_journal, "other", 5);
        else
            assert_int_equal(__real_rename(from, to), 0);
        look_again();
        noting = true;
        append_noted(journal, session, 5, HELPER_ENTRIES);
        close_noted(journal);
        helper_teardown(NULL);
        assert_int_equal(helper_setup(NULL), 0);
        confirmed = 0;
    }
}

static int setup(void **state)
{
    confirmed = crashes = 0;
    expect = expect_confirmed;
    if (helper_setup(state) != 0)
        return 1;
    strcpy(image, "/dev/shm/settee-image-XXXXXX");
    if (access("/dev/shm", W_OK) != 0)
        strcpy(image, "/tmp/settee-image-XXXXXX");
    return mkdtemp(image) ? 0 : 1;
}

static int teardown(void **state)
{
    noting = false;
    remove_image();
    rmdir(image);
    return helper_teardown(state);
}

/* ---- files that are written whole ---- */

typedef struct Whole {
    const char *to;           /* the file it is about, below the test's folder */
    const char *from;         /* where it was, if it is moved; else NULL */
    bool (*prepare)(Error *); /* what is there before; NULL: nothing, not even the folders */
    bool (*make)(Error *);
} Whole;

static const Whole *change;
static char *before, *after; /* what the file holds; NULL: there is none */
static bool done;

static char *text_in(const char *folder, const char *path)
{
    char whole[2 * PATH];
    size_t size;
    snprintf(whole, sizeof whole, "%s/%s", folder, path);
    return helper_slurp(whole, &size);
}

static bool same_text(const char *a, const char *b) { return a && b ? strcmp(a, b) == 0 : a == b; }

static void expect_whole(bool safe_only)
{
    lay_out(safe_only);
    char *there = text_in(image, change->to);
    char *left = change->from ? text_in(image, change->from) : NULL;
    bool unmoved = !change->from || same_text(left, after);
    if (!same_text(there, after) && (done || !same_text(there, before) || !unmoved))
        fail_msg("crash %d, %s: %s %s", crashes,
                 safe_only ? "what was synced" : "all that was asked for", change->to,
                 there ? "is neither the old file nor the new one" : "is lost");
    free(there);
    free(left);
    remove_image();
}

static void must(bool (*step)(Error *))
{
    Error error = {0};
    if (step && !step(&error))
        fail_msg("%s: %s", change->to, error.text);
}

/* Makes the change twice: to know what it comes to, and then with a crash at every call. */
static void test_whole(void **state)
{
    char command[2 * PATH], config[2 * PATH];
    change = *state;
    assert_int_equal(setup(NULL), 0);
    expect = expect_whole;
    snprintf(config, sizeof config, "%s/config", helper_folder);
    assert_int_equal(setenv("XDG_CONFIG_HOME", config, 1), 0);
    must(change->prepare);
    must(change->make);
    after = text_in(helper_folder, change->to);
    assert_non_null(after);
    snprintf(command, sizeof command, "rm -rf %s/*", helper_folder);
    assert_int_equal(system(command), 0);
    must(change->prepare);
    before = text_in(helper_folder, change->to);
    assert_false(same_text(before, after));
    look_again();
    done = false;
    noting = true;
    must(change->make);
    done = true;
    crash();
    noting = false;
    assert_true(crashes >= 4);
    free(before);
    free(after);
    assert_int_equal(teardown(NULL), 0);
}

static bool write_settings(Error *error)
{
    return settings_write(&(Settings){.theme = "mono"}, error);
}

static bool write_other_settings(Error *error)
{
    return settings_write(&(Settings){.theme = "plain"}, error);
}

static bool write_draft(Error *error)
{
    Draft draft = {.form = DRAFT_EVENT};
    draft_note(&draft, "name", "Spring");
    return draft_write(&draft, error);
}

static bool write_other_draft(Error *error)
{
    Draft draft = {.form = DRAFT_BALL, .of = "mine", .part = "strong"};
    draft_note(&draft, "name", "Strong");
    draft_note(&draft, "cover", "solid");
    return draft_write(&draft, error);
}

static bool write_juniors(Error *error)
{
    static Juniors juniors;
    juniors = (Juniors){.count = 1, .all = {{.name = "Robin"}}};
    return juniors_write(&juniors, error);
}

static bool write_other_juniors(Error *error)
{
    static Juniors juniors;
    juniors = (Juniors){.count = 2, .all = {{.name = "Robin"}, {.name = "Kim"}}};
    return juniors_write(&juniors, error);
}

/* The journal has made settee's folder, and left it to its first entry to sync. */
static bool write_juniors_by_a_journal(Error *error)
{
    char notice[512];
    journal_close(journal_open(helper_session(0), notice, sizeof notice, error));
    return write_juniors(error);
}

static bool keep_rehearsal(Error *error)
{
    char path[1024];
    RehearsalRecord record = {.date = "2026-05-17",
                              .bowler = "Robin",
                              .player = RECORD_YOU,
                              .pattern = "Apron",
                              .length_ft = 40,
                              .world = "kin",
                              .seed = 1,
                              .bowlers_on_pair = 2,
                              .games = 1,
                              .game = {{.score = 190, .expected = 180, .best = 200}}};
    return rehearsals_keep(&record, path, sizeof path, error);
}

static bool new_bag(Error *error)
{
    char path[1024];
    return files_copy("bags", "demo", "mine", path, sizeof path, error);
}

static bool keep_bag(const char *name, Error *error)
{
    static Bag bag;
    BagFile file;
    if (!files_bag_open(name, &bag, &file, error))
        return false;
    bag.bowler.mph += 0.5;
    return files_bag_keep(&file, &bag, error);
}

static bool edit_bag(Error *error) { return keep_bag("mine", error); }

static bool edit_builtin_bag(Error *error) { return keep_bag("demo", error); }

static bool trash_bag(Error *error)
{
    char path[1024];
    return files_trash("bags", "mine", path, sizeof path, error);
}

static bool new_pattern(Error *error)
{
    char path[1024];
    return files_copy("patterns", "apron", "mine", path, sizeof path, error);
}

static bool rename_pattern(Error *error) { return files_rename("patterns", "mine", "ours", error); }

static bool new_event(Error *error)
{
    char path[1024];
    EventInfo event = {.name = "Spring",
                       .date = "2026-05-17",
                       .pattern = "apron",
                       .bag = "demo",
                       .pair = {1, 2},
                       .games = 3,
                       .bowlers_on_pair = 2};
    return files_new_event("spring", &event, path, sizeof path, error);
}

static bool retitle_event(Error *error) { return files_retitle("spring", "Summer", error); }

#define CONFIG "config/settee/"
static const Whole CHANGES[] = {
    {CONFIG "settings.json", NULL, NULL, write_settings},
    {CONFIG "settings.json", NULL, write_settings, write_other_settings},
    {CONFIG "draft.json", NULL, NULL, write_draft},
    {CONFIG "draft.json", NULL, write_draft, write_other_draft},
    {"settee/juniors.json", NULL, NULL, write_juniors},
    {"settee/juniors.json", NULL, write_juniors, write_other_juniors},
    {"settee/juniors.json", NULL, NULL, write_juniors_by_a_journal},
    {"settee/rehearsals/2026-05-17-001.json", NULL, NULL, keep_rehearsal},
    {"settee/rehearsals/2026-05-17-002.json", NULL, keep_rehearsal, keep_rehearsal},
    {CONFIG "bags/mine.json", NULL, NULL, new_bag},
    {CONFIG "bags/mine.json", NULL, new_bag, edit_bag},
    {CONFIG "bags/demo.json", NULL, NULL, edit_builtin_bag},
    {CONFIG "trash/bags/mine.json", CONFIG "bags/mine.json", new_bag, trash_bag},
    {CONFIG "patterns/mine.json", NULL, NULL, new_pattern},
    {CONFIG "patterns/ours.json", CONFIG "patterns/mine.json", new_pattern, rename_pattern},
    {CONFIG "events/spring.json", NULL, NULL, new_event},
    {CONFIG "events/spring.json", NULL, new_event, retitle_event},
};

#define TEST(function) cmocka_unit_test_setup_teardown(function, setup, teardown)

int main(void)
{
    enum { CHANGE_COUNT = sizeof CHANGES / sizeof *CHANGES };
    const struct CMUnitTest tests[] = {TEST(test_new),     TEST(test_goes_on), TEST(test_torn),
                                       TEST(test_unended), TEST(test_damaged), TEST(test_lost)};
    struct CMUnitTest whole[CHANGE_COUNT];
    for (int i = 0; i < CHANGE_COUNT; i++)
        whole[i] = (struct CMUnitTest){CHANGES[i].to, test_whole, NULL, NULL,
                                       (void *)(uintptr_t)&CHANGES[i]};
    return cmocka_run_group_tests_name("order of syncs", tests, NULL, NULL) +
           _cmocka_run_group_tests("order of syncs of whole files", whole, CHANGE_COUNT, NULL,
                                   NULL);
}
