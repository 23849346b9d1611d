/* test_mutated_files.c - good files with bytes changed, lost, doubled and swapped, many thousand
 * times from fixed seeds: each is read or refused in one line; none crashes the reader. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "base/text.h"
#include "helper_journal.h"
#include "store/journal.h"
#include "store/json_scan.h"
#include "store/load.h"

enum { ROUNDS = 3000, ROOM = 16384 };

static Bag bag;
static Pattern pattern;
static EventInfo event;
static Theme theme;
static RuleSet rules;
static Lesson lesson;
static Shot shots[SESSION_SHOTS_MAX];

static bool parse(const char *name, const Loaded *file, Error *error)
{
    int count;
    if (strncmp(name, "shots", 5) == 0)
        return shots_parse(file, shots, SESSION_SHOTS_MAX, &count, error);
    JsonDoc *doc = json_read(file->text, file->length, 1, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    bool read = strcmp(name, "bag.json") == 0     ? bag_parse(&root, &bag)
                : strcmp(name, "event.json") == 0 ? event_parse(&root, file, &event)
                : strcmp(name, "theme.json") == 0 ? theme_parse(&root, file, &theme)
                : strcmp(name, "rules.json") == 0 ? rules_parse(&root, &rules)
                : strncmp(name, "lesson", 6) == 0 ? lesson_parse(&root, file, &lesson)
                                                  : pattern_parse(&root, file, &pattern);
    json_free(doc);
    return read;
}

/* Pieces that break readers elsewhere. */
static const char *const PIECES[] = {
    "\"",   "{",        "}",   "[",      "]",       ",",    ":",        "\\",
    "\\u",  "1e999",    "-",   "0.",     "null",    "true", "\n",       "\x1b",
    "\xff", "\xc3\xa9", "NaN", "1e-400", "\\ud800", "{}",   "[[[[[[[[", "\"format\":"};
enum { PIECE_COUNT = sizeof PIECES / sizeof PIECES[0] };

static size_t mutate(Rng *rng, char *text, size_t size)
{
    for (uint64_t changes = 1 + rng_next(rng) % 3; changes > 0 && size > 1; changes--) {
        size_t at = (size_t)(rng_next(rng) % size), length = 1 + (size_t)(rng_next(rng) % 12);
        const char *piece = PIECES[rng_next(rng) % PIECE_COUNT];
        if (at + length > size)
            length = size - at;
        switch (rng_next(rng) % 4) {
        case 0: /* another byte */
            text[at] = (char)(rng_next(rng) & 0xff);
            break;
        case 1: /* some lost */
            memmove(text + at, text + at + length, size - at - length);
            size -= length;
            break;
        case 2: /* some doubled */
            if (size + length < ROOM) {
                memmove(text + at + length, text + at, size - at);
                size += length;
            }
            break;
        default: /* a piece put in */
            if (size + strlen(piece) < ROOM) {
                memmove(text + at + strlen(piece), text + at, size - at);
                memcpy(text + at, piece, strlen(piece));
                size += strlen(piece);
            }
        }
    }
    text[size] = '\0';
    return size;
}

static void assert_one_line(const Error *error, int lines)
{
    char line[ERROR_LINE_MAX], clean[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    assert_true(text_clean(clean, sizeof clean, line));
    assert_true(error->text[0] != '\0');
    if (error->line < 1 || error->line > lines)
        fail_msg("line %d of %d: %s", error->line, lines, line);
    /* what the scan lets through, the tree builder takes too */
    assert_null(strstr(error->text, "out of memory"));
}

static void test_file(void **state)
{
    const char *name = *state;
    char path[512];
    size_t size;
    snprintf(path, sizeof path, "%s/tests/data/good/%s", SETTEE_SOURCE_DIR, name);
    char *good = helper_slurp(path, &size);
    char *text = malloc(ROOM + 1);
    assert_true(good && text && size < ROOM);
    Loaded file = {.text = text, .id = "mutated"};
    snprintf(file.folder, sizeof file.folder, "%s/tests/data/good", SETTEE_SOURCE_DIR);
    Rng rng = rng_seed(size);
    int read = 0;
    for (int round = 0; round < ROUNDS; round++) {
        Error error = {0};
        memcpy(text, good, size + 1);
        file.length = round == 0 ? size : mutate(&rng, text, size);
        if (parse(name, &file, &error)) {
            read++;
            continue;
        }
        assert_one_line(&error, json_line(text, file.length));
    }
    assert_in_range(read, 1, ROUNDS / 2);
    free(text);
    free(good);
}

/* The file cut at every byte: never read as whole, never a crash. */
static void test_cut(void **state)
{
    const char *name = *state;
    char path[512];
    size_t size;
    snprintf(path, sizeof path, "%s/tests/data/good/%s", SETTEE_SOURCE_DIR, name);
    char *good = helper_slurp(path, &size);
    assert_non_null(good);
    Loaded file = {.id = "cut", .folder = SETTEE_SOURCE_DIR "/tests/data/good"};
    for (size_t cut = 1; cut + 1 < size; cut++) {
        Error error = {0};
        file.text = malloc(cut + 1); /* of its own size, so that a read past it is seen */
        assert_non_null(file.text);
        memcpy(file.text, good, cut);
        file.text[cut] = '\0';
        file.length = cut;
        bool lines = strcmp(name, "shots.jsonl") == 0;
        if (!parse(name, &file, &error))
            assert_one_line(&error, json_line(file.text, cut));
        else
            assert_true(lines);
        free(file.text);
    }
    free(good);
}

static void test_journal(void **state)
{
    (void)state;
    size_t size;
    helper_write_journal(HELPER_ENTRIES);
    char *good = helper_slurp(helper_journal, &size);
    char *text = malloc(ROOM + 1);
    assert_true(good && text);
    Rng rng = rng_seed(7);
    for (int round = 0; round < ROUNDS; round++) {
        Error error = {0};
        memcpy(text, good, size + 1);
        size_t length = mutate(&rng, text, size);
        if (length == size && memcmp(text, good, size) == 0)
            continue;
        if (!journal_check(text, length, &error))
            assert_one_line(&error, json_line(text, length));
        else /* only a line end or whole last lines can go unnoticed */
            assert_true(length < size && memcmp(text, good, length) == 0);
    }
    free(text);
    free(good);
}

int main(void)
{
    static const char *const NAMES[] = {"bag.json",    "sandbar.json",      "taped.json",
                                        "event.json",  "theme.json",        "rules.json",
                                        "lesson.json", "lesson-spare.json", "lesson-score.json",
                                        "shots.json",  "shots.jsonl"};
    enum { NAME_COUNT = sizeof NAMES / sizeof NAMES[0] };
    static struct CMUnitTest tests[2 * NAME_COUNT + 1];
    static char cut_names[NAME_COUNT][64];
    for (int i = 0; i < NAME_COUNT; i++) {
        void *name = (void *)(uintptr_t)NAMES[i];
        snprintf(cut_names[i], sizeof cut_names[i], "cut %s", NAMES[i]);
        tests[2 * i] = (struct CMUnitTest){NAMES[i], test_file, NULL, NULL, name};
        tests[2 * i + 1] = (struct CMUnitTest){cut_names[i], test_cut, NULL, NULL, name};
    }
    tests[2 * NAME_COUNT] = (struct CMUnitTest)cmocka_unit_test_setup_teardown(
        test_journal, helper_setup, helper_teardown);
    return cmocka_run_group_tests_name("mutated files", tests, NULL, NULL);
}
