/* test_ranges.c - files at the ends of what they may hold: `settee check` calls them ok, so no
 * command may end on them with anything but an answer or one line of fault. Run it with the
 * sanitizers on: what they find is no such line. No source outside: the ranges are the formats'
 * own, read from docs/files.md. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "helper_run.h"

enum { ENDS = 16, PATH_SIZE = 64, TEXT_SIZE = 2048 };

static char folder[] = "/tmp/settee-ranges-XXXXXX";
static char bag[PATH_SIZE], pattern[PATH_SIZE], shots[PATH_SIZE];

static void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs(text, file);
    assert_int_equal(fclose(file), 0);
}

/* Which end a factor is at in a case. Over cases 0..15 any two factors 1..15 meet in all four ways,
 * four times each (an orthogonal array of strength two: the columns of a Hadamard matrix). */
static int end_of(int row, int factor)
{
    int both = row & factor, odd = 0;
    for (; both; both >>= 1)
        odd ^= both & 1;
    return odd;
}

static void write_bag(int row)
{
    char text[TEXT_SIZE];
#define END(factor, low, high) (end_of(row, factor) ? (high) : (low))
    snprintf(text, sizeof text,
             "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Ends\", \"hand\": \"%s\","
             " \"mph\": %d, \"rpm\": %d, \"rotation_deg\": %d, \"tilt_deg\": %d, \"loft_ft\": %d,"
             " \"laydown_offset_boards\": %d, \"scatter\": {\"launch_deg\": %d, \"mph\": %d,"
             " \"rpm\": %d, \"laydown_boards\": %d}}, \"balls\": ["
             "{\"id\": \"a\", \"name\": \"A\", \"slot\": 1, \"pounds\": %d, \"rg_in\": %g,"
             " \"differential_in\": %g, \"cover\": \"%s\", \"cover_strength\": %g,"
             " \"surface\": {%s}, \"layout\": {\"pin_to_pap_in\": %g, \"mass_bias_deg\": %d}},"
             "{\"id\": \"b\", \"name\": \"B\", \"slot\": 2}]}",
             END(11, "right", "left"), END(1, 28, 8), END(2, 50, 650), END(3, 0, 110),
             END(4, 0, 60), END(5, 0, 15), END(6, -5, 20), END(7, 0, 3), END(8, 0, 5),
             END(9, 0, 100), END(10, 0, 10), END(12, 6, 16), END(12, 2.43, 2.8), END(13, 0.0, 0.08),
             END(13, "polyester", "solid"), END(14, 0.8, 1.1),
             END(14, "\"finish\": \"polish\"", "\"grit\": 180"), END(15, 0.0, 6.75),
             END(15, 0, 180));
    write_file(bag, text);
}

static void write_pattern(int row)
{
    char text[TEXT_SIZE];
    int length = END(6, 60, 20);
    snprintf(text, sizeof text,
             "{\"format\": \"settee-pattern/1\", \"name\": \"Ends\", \"length_ft\": %d,"
             " \"strokes\": [{\"boards\": [%d, %d], \"feet\": [0, %d], \"units\": [%d, %d]}]}",
             length, END(3, 1, 20), END(5, 39, 20), length, END(9, 200, 0), END(10, 0, 200));
    write_file(pattern, text);
}

static void write_shots(int row)
{
    char text[TEXT_SIZE];
    snprintf(text, sizeof text,
             "[{\"slot\": 1, \"stance\": %d, \"aim\": %d, \"mph\": %d, \"mph_change\": %d,"
             " \"loft_change_ft\": %d, \"rotation_change_deg\": %d, \"hit\": \"%s\","
             " \"release\": \"%s\", \"left\": [%s]},"
             " {\"slot\": 2, \"hit\": \"flush\", \"arrows\": %d, \"breakpoint\": %d,"
             " \"mph_change\": %d, \"rotation_change_deg\": %d, \"read\": \"none\"}]",
             END(2, -10, 60), END(4, -10, 60), END(8, 5, 35), END(1, 2, -2), END(5, -3, 5),
             END(3, -110, 110), END(7, "gutter", "crossed"), END(9, "slow", "inside"),
             END(14, "", "1,2,3,4,5,6,7,8,9,10"), END(10, 1, 39), END(11, 1, 39), END(12, 2, -2),
             END(13, -110, 110));
    write_file(shots, text);
#undef END
}

/* An answer without a number that is none, or one line of fault: run_is holds the rest. */
static void ends_well(const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, run.status == 1 ? 1 : 0);
    assert_null(strstr(run.out, "nan"));
    assert_null(strstr(run.out, " inf"));
    run_free(&run);
}
#define ENDS_WELL(...) ends_well((const char *const[]){__VA_ARGS__, NULL})

static void check_says_ok(const char *path)
{
    Run run = RUN("check", path);
    run_is(&run, 0);
    run_free(&run);
}

static void the_ends_of_every_range(void **state)
{
    (void)state;
    for (int row = 0; row < ENDS; row++) {
        write_bag(row);
        write_pattern(row);
        write_shots(row);
        check_says_ok(bag);
        check_says_ok(pattern);
        ENDS_WELL("roll", "--bag", bag, "--pattern", pattern, "--laydown", row % 2 ? "1" : "39",
                  "--launch", row % 3 ? "10" : "-10");
        if (row % 4 == 0) /* these take longer, sanitized */
            ENDS_WELL("line", "--bag", bag, "--pattern", pattern);
        if (row % 4 == 1)
            ENDS_WELL("spare", "7", "--bag", bag, "--stance", "-10", "--aim", "60");
        ENDS_WELL("advise", "--bag", bag, "--pattern", pattern, "--shots", shots, "--stance", "25",
                  "--aim", "12");
    }
}

/* The two bags that ended the program: permitted scatter that draws less than no speed and no
 * turns. */
static void scatter_below_nothing(void **state)
{
    (void)state;
    static const char *const BOWLERS[] = {
        "\"rpm\": 100, \"loft_ft\": 15, \"scatter\": {\"rpm\": 80}",
        "\"mph\": 8, \"scatter\": {\"mph\": 5}", "\"mph\": 8, \"rpm\": 650, \"rotation_deg\": 110"};
    for (int i = 0; i < 3; i++) {
        char text[TEXT_SIZE];
        snprintf(text, sizeof text,
                 "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Ends\", %s},"
                 " \"balls\": [{\"id\": \"a\", \"name\": \"A\", \"slot\": 1},"
                 " {\"id\": \"b\", \"name\": \"B\", \"slot\": 2, \"cover\": \"pearl\"}]}",
                 BOWLERS[i]);
        write_file(bag, text);
        check_says_ok(bag);
        ENDS_WELL("roll", "--bag", bag, "--laydown", "20", "--launch", "2");
        ENDS_WELL("roll", "--bag", bag, "--laydown", "20", "--launch", "2", "--json");
        ENDS_WELL("advise", "--bag", bag, "--stance", "25", "--aim", "12");
        ENDS_WELL("spare", "7", "--bag", bag);
        if (i == 0)
            ENDS_WELL("bag", "--bag", bag, "--games", "1", "--certified");
        ENDS_WELL("block", "--bag", bag, "--games", "1");
        ENDS_WELL("rehearse", "--bag", bag, "--games", "1", "--player", "hold");
    }
}

static int make_folder(void **state)
{
    (void)state;
    if (!mkdtemp(folder))
        return -1;
    snprintf(bag, sizeof bag, "%s/bag.json", folder);
    snprintf(pattern, sizeof pattern, "%s/pattern.json", folder);
    snprintf(shots, sizeof shots, "%s/shots.json", folder);
    return 0;
}

static int remove_folder(void **state)
{
    (void)state;
    unlink(bag);
    unlink(pattern);
    unlink(shots);
    return rmdir(folder);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_ends_of_every_range),
                                       cmocka_unit_test(scatter_below_nothing)};
    return cmocka_run_group_tests_name("ranges", tests, make_folder, remove_folder);
}
