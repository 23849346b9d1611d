/* test_sync_order.c - what the disk is asked for, and in which order, before an entry is confirmed.
 *
 * The store's calls come through here and are noted. At every one of them the power may fail: then
 * a file holds at least what was synced, and a folder the names that were synced; or all that was
 * asked for up to there. Both images are laid out and read: no confirmed entry is missing. */
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
#include "store/journal.h"

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
        snprintf(child, sizeof child, "%.60s/%.200s", path, row->d_name);
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
    expect_confirmed(true);
    expect_confirmed(false);
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

#define TEST(function) cmocka_unit_test_setup_teardown(function, setup, teardown)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(test_new),     TEST(test_goes_on), TEST(test_torn),
                                       TEST(test_unended), TEST(test_damaged), TEST(test_lost)};
    return cmocka_run_group_tests_name("order of syncs", tests, NULL, NULL);
}
