/* test_paths.c - where the user's files live, and files that are written whole or not at all. */
#define _XOPEN_SOURCE 700
#include "near.h"

#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/atomic.h"
#include "store/paths.h"

static char folder[64];
static char path[256];

static void test_config(void **state)
{
    (void)state;
    Error error = {0};
    setenv("HOME", "/home/quill", 1);
    setenv("XDG_CONFIG_HOME", "/conf", 1);
    assert_true(paths_config("theme.json", path, sizeof path, &error));
    assert_string_equal(path, "/conf/settee/theme.json");
    unsetenv("XDG_CONFIG_HOME");
    assert_true(paths_config("theme.json", path, sizeof path, &error));
    assert_string_equal(path, "/home/quill/.config/settee/theme.json");
    setenv("XDG_CONFIG_HOME", "", 1);
    assert_true(paths_config("theme.json", path, sizeof path, &error));
    assert_string_equal(path, "/home/quill/.config/settee/theme.json");
}

/* The specification: a relative value is invalid and is ignored. */
static void test_relative_values(void **state)
{
    (void)state;
    Error error = {0};
    setenv("HOME", "/home/quill", 1);
    setenv("XDG_CONFIG_HOME", "conf", 1);
    assert_true(paths_config("x", path, sizeof path, &error));
    assert_string_equal(path, "/home/quill/.config/settee/x");
    setenv("HOME", "home", 1);
    assert_false(paths_config("x", path, sizeof path, &error));
    assert_non_null(strstr(error.text, "neither XDG_CONFIG_HOME nor HOME"));
    unsetenv("HOME");
    unsetenv("XDG_DATA_HOME");
    assert_false(paths_data("x", path, sizeof path, &error));
    assert_non_null(strstr(error.text, "neither XDG_DATA_HOME nor HOME"));
}

static void test_data_makes_folders(void **state)
{
    (void)state;
    Error error = {0};
    struct stat status;
    char below[128], expected[160];
    snprintf(below, sizeof below, "%s/deep/data", folder);
    setenv("XDG_DATA_HOME", below, 1);
    assert_true(paths_data_look("events/a.journal", path, sizeof path, &error));
    assert_int_not_equal(stat(below, &status), 0);
    assert_true(paths_data("events/a.journal", path, sizeof path, &error));
    snprintf(expected, sizeof expected, "%s/settee/events/a.journal", below);
    assert_string_equal(path, expected);
    assert_int_not_equal(stat(path, &status), 0);
    *strrchr(expected, '/') = '\0';
    assert_int_equal(stat(expected, &status), 0);
    assert_true(S_ISDIR(status.st_mode));
    assert_int_equal(status.st_mode & 0777, 0700);
    assert_true(paths_data("events/a.journal", path, sizeof path, &error)); /* and again */
    for (int i = 0; i < 4; i++) {
        rmdir(expected);
        *strrchr(expected, '/') = '\0';
    }
}

static void test_too_long(void **state)
{
    (void)state;
    Error error = {0};
    char small[12];
    setenv("XDG_CONFIG_HOME", "/conf", 1);
    assert_false(paths_config("theme.json", small, sizeof small, &error));
    assert_non_null(strstr(error.text, "too long"));
    char *name = malloc(9000);
    assert_non_null(name);
    memset(name, '/', 9000);
    name[8999] = '\0';
    setenv("XDG_CONFIG_HOME", name, 1);
    assert_false(paths_config("x", path, sizeof path, &error));
    free(name);
}

static void assert_text(const char *name, const char *expected)
{
    char text[64] = "";
    FILE *file = fopen(name, "rb");
    assert_non_null(file);
    assert_true(fread(text, 1, sizeof text - 1, file) < sizeof text);
    fclose(file);
    assert_string_equal(text, expected);
}

static void in_folder(const char *name) { snprintf(path, sizeof path, "%s/%s", folder, name); }

static void test_write_and_replace(void **state)
{
    (void)state;
    Error error = {0};
    struct stat status;
    in_folder("a.csv");
    assert_true(atomic_write(path, "one", 3, &error));
    assert_text(path, "one");
    assert_int_equal(chmod(path, 0640), 0);
    assert_true(atomic_write(path, "", 0, &error));
    assert_text(path, "");
    assert_true(atomic_write(path, "three", 5, &error));
    assert_text(path, "three");
    assert_int_equal(stat(path, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0640);
    unlink(path);
}

/* A link stays a link, and what it points to is replaced. */
static void test_write_through_link(void **state)
{
    (void)state;
    Error error = {0};
    char target[128];
    struct stat status;
    snprintf(target, sizeof target, "%s/target", folder);
    in_folder("link");
    assert_true(atomic_write(target, "old", 3, &error));
    assert_int_equal(symlink(target, path), 0);
    assert_true(atomic_write(path, "new", 3, &error));
    assert_int_equal(lstat(path, &status), 0);
    assert_true(S_ISLNK(status.st_mode));
    assert_text(target, "new");
    unlink(path);
    unlink(target);
}

static void test_full_disk_keeps_the_old(void **state)
{
    (void)state;
    Error error = {0};
    struct rlimit limit, small;
    in_folder("a.csv");
    assert_true(atomic_write(path, "old", 3, &error));
    signal(SIGXFSZ, SIG_IGN);
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &limit), 0);
    small = limit;
    small.rlim_cur = 100;
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &small), 0);
    char bytes[500] = {0};
    bool written = atomic_write(path, bytes, sizeof bytes, &error);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &limit), 0);
    assert_false(written);
    assert_string_equal(error.file, path);
    assert_non_null(strstr(error.text, "can't be written: "));
    assert_text(path, "old");
    unlink(path);
    assert_int_equal(rmdir(folder), 0); /* no temporary file is left */
    assert_int_equal(mkdir(folder, 0700), 0);
}

/* Only where nothing has the name, not even a link that leads nowhere. */
static void test_write_new(void **state)
{
    (void)state;
    Error error = {0};
    in_folder("a.csv");
    assert_true(atomic_write_new(path, "one", 3, &error));
    assert_false(atomic_write_new(path, "two", 3, &error));
    assert_string_equal(error.text, "can't be written: File exists");
    assert_text(path, "one");
    unlink(path);
    assert_int_equal(symlink("/nowhere/at/all", path), 0);
    assert_false(atomic_write_new(path, "two", 3, &error));
    unlink(path);
    assert_int_equal(rmdir(folder), 0); /* no temporary file is left */
    assert_int_equal(mkdir(folder, 0700), 0);
}

static void test_nowhere_to_write(void **state)
{
    (void)state;
    Error error = {0};
    assert_false(atomic_write(folder, "x", 1, &error));
    assert_non_null(strstr(error.text, "can't be written: Is a directory"));
    in_folder("none/a.csv");
    assert_false(atomic_write(path, "x", 1, &error));
    assert_non_null(strstr(error.text, "No such file or directory"));
    assert_false(atomic_write("", "x", 1, NULL));
}

static int make_folder(void **state)
{
    (void)state;
    strcpy(folder, "/tmp/settee-paths-XXXXXX");
    return mkdtemp(folder) ? 0 : 1;
}

static int remove_folder(void **state)
{
    (void)state;
    return rmdir(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_config),
                                       cmocka_unit_test(test_relative_values),
                                       cmocka_unit_test(test_data_makes_folders),
                                       cmocka_unit_test(test_too_long),
                                       cmocka_unit_test(test_write_and_replace),
                                       cmocka_unit_test(test_write_through_link),
                                       cmocka_unit_test(test_full_disk_keeps_the_old),
                                       cmocka_unit_test(test_write_new),
                                       cmocka_unit_test(test_nowhere_to_write)};
    return cmocka_run_group_tests_name("paths", tests, make_folder, remove_folder);
}
