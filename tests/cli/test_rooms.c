/* test_rooms.c - one command for each room of the core, by the program and by the same program with
 * all of its core under sanitizers: no fault, and the same bytes.
 *
 * The numeric tests run on an optimised core, whose faults nothing would see; this walks through
 * every room with a core that ends at its first one. No source outside. */
#define _XOPEN_SOURCE 700 /* setenv */
#include "near.h"

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define LITTLE_BAG " --bag " SETTEE_SOURCE_DIR "/tests/data/good/bag.json"
#define SHOTS " --shots " SETTEE_SOURCE_DIR "/tests/data/cli/shots.json"

static const struct {
    const char *room; /* folder of src/core */
    const char *words;
} ROOMS[] = {
    {"lane", "oil --pattern parlour --json"},
    {"words", "words pocket --json"},
    {"bag", "check " SETTEE_SOURCE_DIR "/tests/data/good/bag.json"},
    {"motion", "roll --pattern slant --bag demo-left --slot 2 --json"},
    {"pins", "rack --board 18.5 --degrees 4 --json"},
    {"line", "line --pattern lintel --json"},
    {"spare", "spare 3 6 10 --json"},
    {"event", "score X 7 / 9 - F 8 X X"},
    {"advice", "advise --json" SHOTS},
    {"arsenal", "bag --json --games 1 --certified" LITTLE_BAG},
    {"teach", "teach check three-for-one two-and-one six-pin need-one --json"},
    {"rehearse", "rehearse --games 1 --player by-the-miss --json"},
};
enum { ROOMS_COUNT = sizeof ROOMS / sizeof ROOMS[0], OUTPUT_SIZE = 1 << 20 };

/* Keeps what it printed; ends the test when it did not end well. */
static void run(const char *program, const char *words, char out[OUTPUT_SIZE])
{
    char line[2048];
    snprintf(line, sizeof line, "'%s' %s 2>&1", program, words);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    size_t size = fread(out, 1, OUTPUT_SIZE - 1, pipe);
    out[size] = '\0';
    if (pclose(pipe) != 0 || size == 0)
        fail_msg("%s says %s", line, out);
}

static void each_room_is_sound(void **state)
{
    (void)state;
    static char fast[OUTPUT_SIZE], checked[OUTPUT_SIZE];
    for (int i = 0; i < ROOMS_COUNT; i++) {
        run(SETTEE_BINARY, ROOMS[i].words, fast);
        run(SETTEE_CHECKED_BINARY, ROOMS[i].words, checked);
        if (strcmp(fast, checked) != 0)
            fail_msg("settee %s: not the same bytes under sanitizers", ROOMS[i].words);
    }
}

static void no_room_is_left_out(void **state)
{
    (void)state;
    DIR *core = opendir(SETTEE_SOURCE_DIR "/src/core");
    assert_non_null(core);
    int rooms = 0;
    for (struct dirent *entry = readdir(core); entry; entry = readdir(core)) {
        bool there = entry->d_name[0] == '.';
        rooms += !there;
        for (int i = 0; i < ROOMS_COUNT; i++)
            there = there || strcmp(entry->d_name, ROOMS[i].room) == 0;
        if (!there)
            fail_msg("src/core/%s has no command here", entry->d_name);
    }
    closedir(core);
    assert_int_equal(rooms, ROOMS_COUNT);
}

int main(void)
{
    /* nobody's home: nothing is read from it or written into it */
    setenv("XDG_CONFIG_HOME", "/nonexistent", 1);
    setenv("XDG_DATA_HOME", "/nonexistent", 1);
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_room_is_sound),
                                       cmocka_unit_test(no_room_is_left_out)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
