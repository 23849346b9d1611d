/* test_cited.c - a comment that names a file names one that is there. The rule is our own; no
 * source outside. */
#include "near.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { PATHS_MAX = 4000, PATH_SIZE = 1024, TEXT_MAX = 1 << 18 };

static char *paths[PATHS_MAX]; /* of every file, from the project's top */
static int path_count;

static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), wanted = strlen(end);
    return length >= wanted && strcmp(text + length - wanted, end) == 0;
}

/* Files below `folder` ("" the top), but for what is hidden or built. */
static void gather(const char *folder)
{
    char full[3 * PATH_SIZE], path[2 * PATH_SIZE];
    snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, folder);
    DIR *dir = opendir(full);
    assert_non_null(dir);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        struct stat about;
        if (entry->d_name[0] == '.' || (!folder[0] && strncmp(entry->d_name, "build", 5) == 0))
            continue;
        snprintf(path, sizeof path, "%s%s%s", folder, folder[0] ? "/" : "", entry->d_name);
        snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, path);
        if (stat(full, &about) != 0)
            continue;
        if (S_ISDIR(about.st_mode)) {
            gather(path);
        } else {
            assert_true(path_count < PATHS_MAX);
            paths[path_count++] = strdup(path);
        }
    }
    closedir(dir);
}

/* A name is enough where it is a file's whole name; a path may leave out its first folders. */
static bool is_there(const char *cited)
{
    size_t length = strlen(cited);
    for (int i = 0; i < path_count; i++) {
        size_t whole = strlen(paths[i]);
        if (ends_with(paths[i], cited) && (whole == length || paths[i][whole - length - 1] == '/'))
            return true;
    }
    return false;
}

static bool is_part(char c)
{
    return c && strchr("/_-.", c)
               ? true
               : (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
}

/* Words of a comment that look like a source, a document or a list of this project and are not
 * there; `path` is the comment's, NULL: only counted. */
static int missing_in(const char *path, const char *comment, const char *end)
{
    static const char *const ENDINGS[] = {".c", ".h", ".md", ".def", ".inc"};
    int missing = 0;
    for (const char *at = comment; at < end;) {
        char word[PATH_SIZE];
        size_t length = 0;
        while (at + length < end && is_part(at[length]) && length < sizeof word - 1)
            length++;
        memcpy(word, at, length);
        at += length + 1;
        while (length > 0 && word[length - 1] == '.') /* the end of a sentence */
            length--;
        word[length] = '\0';
        bool file = false;
        for (size_t i = 0; i < sizeof ENDINGS / sizeof ENDINGS[0]; i++)
            file = file || (ends_with(word, ENDINGS[i]) && length > strlen(ENDINGS[i]));
        if (file && !strstr(word, "NAME") && !is_there(word)) { /* NAME: any of a kind */
            if (path)
                print_error("%s: a comment cites %s, which is not there\n", path, word);
            missing++;
        }
    }
    return missing;
}

static int missing_from(const char *path)
{
    static char text[TEXT_MAX];
    char full[3 * PATH_SIZE];
    snprintf(full, sizeof full, "%s/%s", SETTEE_SOURCE_DIR, path);
    FILE *file = fopen(full, "r");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    int missing = 0;
    for (const char *at = text; (at = strstr(at, "/*"));) {
        const char *end = strstr(at, "*/");
        end = end ? end : at + strlen(at);
        missing += missing_in(path, at + 2, end);
        at = end;
    }
    return missing;
}

static void comments_cite_what_is_there(void **state)
{
    (void)state;
    int missing = 0, read = 0;
    for (int i = 0; i < path_count; i++) {
        bool source =
            ends_with(paths[i], ".c") || ends_with(paths[i], ".h") || ends_with(paths[i], ".def");
        if (!source || strncmp(paths[i], "tests/arch/", 11) == 0) /* it names files made up */
            continue;
        read++;
        missing += missing_from(paths[i]);
    }
    assert_true(read > 200);
    assert_int_equal(missing, 0);
}

static void the_check_itself(void **state)
{
    (void)state;
    static const char SAYS[] = "as base/units.h and units.h. See no_such.c; nits.h, docs/no.md";
    assert_true(is_there("src/base/units.h") && is_there("units.h") && !is_there("nits.h"));
    assert_int_equal(missing_in(NULL, SAYS, SAYS + sizeof SAYS - 1), 3);
}

static int gather_all(void **state)
{
    (void)state;
    gather("");
    return 0;
}

static int let_go(void **state)
{
    (void)state;
    while (path_count > 0)
        free(paths[--path_count]);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_check_itself),
                                       cmocka_unit_test(comments_cite_what_is_there)};
    return cmocka_run_group_tests_name("cited", tests, gather_all, let_go);
}
