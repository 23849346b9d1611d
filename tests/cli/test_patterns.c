/* test_patterns.c - what the program carries inside: every pattern, bag and event loads,
 * is what its words say, and does the job that it is there for. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/builtin.h"
#include "store/files.h"

static int count_of(const char *kind)
{
    int count = 0;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)
        count += strcmp(file->kind, kind) == 0;
    return count;
}

#define EACH(file, of_kind)                                                                        \
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)                              \
        if (strcmp(file->kind, of_kind) == 0)

static void must(bool done, const BuiltinFile *file, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    if (!done)
        fail_msg("%s/%s: %s", file->kind, file->id, line);
}

/* The ratio that a note tells: "3:1" or "0.8:1"; 0 when it tells none. */
static double ratio_told(const char *note)
{
    const char *colon = strstr(note, ":1");
    if (!colon)
        return 0.0;
    const char *from = colon;
    while (from > note && (from[-1] == '.' || (from[-1] >= '0' && from[-1] <= '9')))
        from--;
    return strtod(from, NULL);
}

static void patterns_are_as_they_say(void **state)
{
    (void)state;
    int taped = 0, shorter = 0, longer = 0, flat = 0;
    assert_true(count_of("patterns") >= 12);
    EACH(file, "patterns")
    {
        static Pattern pattern;
        static Oil oil;
        Error error = {0};
        must(files_pattern(file->id, &pattern, &error), file, &error);
        assert_true(strlen(pattern.name) > 0);
        assert_true(strlen(pattern.note) > 40);
        oil_lay(&pattern, &oil);
        double volume = oil_volume_ml(&oil), ratio = oil_ratio(&oil);
        if (volume < 15.0 || volume > 35.0)
            fail_msg("%s has %.1f mL", file->id, volume);
        assert_near(oil_length_ft(&oil), pattern.length_ft, 0.0);
        double told = ratio_told(pattern.note);
        if (!(fabs(told - ratio) <= 0.05 + 0.02 * ratio))
            fail_msg("%s says %.2f:1 and is %.2f:1", file->id, told, ratio);
        taped += pattern.reading_count > 0;
        shorter += pattern.length_ft <= 35.0;
        longer += pattern.length_ft >= 45.0;
        flat += ratio > 1.0 && ratio <= 1.5;
        /* less oil outside, on either side, wherever the note does not say otherwise */
        if (told > 1.0)
            for (int j = 0; j < 2 * (int)pattern.length_ft; j++) {
                assert_true(oil.units[j][1] < oil.units[j][19]);
                assert_true(oil.units[j][37] < oil.units[j][19]);
            }
    }
    assert_true(taped >= 2 && shorter >= 2 && longer >= 2 && flat >= 2);
}

static bool even(const Oil *oil)
{
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            if (fabs(oil->units[j][b] - oil->units[j][LANE_BOARDS - 1 - b]) > 1e-9)
                return false;
    return true;
}

static void only_slant_differs_between_sides(void **state)
{
    (void)state;
    EACH(file, "patterns")
    {
        static Pattern pattern;
        static Oil oil;
        Error error = {0};
        must(files_pattern(file->id, &pattern, &error), file, &error);
        oil_lay(&pattern, &oil);
        if (even(&oil) != (strcmp(file->id, "slant") != 0))
            fail_msg("%s is %s", file->id, even(&oil) ? "even" : "not even");
    }
}

/* Kerb's cliff: the film changes more between boards 10 and 11 than anywhere else. */
static void kerb_has_its_edge_at_ten(void **state)
{
    (void)state;
    static Pattern pattern;
    static Oil oil;
    assert_true(files_pattern("kerb", &pattern, NULL));
    oil_lay(&pattern, &oil);
    const double *units = oil.units[40];
    for (int b = 0; b < 19; b++)
        if (b != 9)
            assert_less(3.0 * (units[b + 1] - units[b]), units[10] - units[9]);
}

/* The pattern of docs/model.md: level to 8 ft, a quarter at 40 ft (0.6 of that in the last two
 * feet), flat outside board 5 and inside board 13, half on board 1. Files hold tenths of a unit. */
static void apron_is_the_models_pattern(void **state)
{
    (void)state;
    static Pattern pattern;
    static Oil oil;
    assert_true(files_pattern("apron", &pattern, NULL));
    oil_lay(&pattern, &oil);
    const double *heads = oil.units[0];
    assert_near(pattern.length_ft, 40.0, 0.0);
    assert_near(oil_volume_ml(&oil), 25.0, 0.3);
    assert_near(heads[0], 0.5 * heads[4], 0.1);
    assert_near(heads[1], heads[4], 1e-9);
    assert_near(heads[12], heads[19], 0.1);
    assert_near(oil.units[15][19], heads[19], 1e-9);
    assert_near(oil.units[80][19], 0.25 * 0.6 * heads[19], 0.6);
    assert_near(oil.units[48][19], 0.625 * heads[19], 0.6); /* half-way, 24 ft */
}

static void bags_are_full(void **state)
{
    (void)state;
    assert_true(count_of("bags") >= 2);
    EACH(file, "bags")
    {
        static Bag bag;
        Error error = {0};
        must(files_bag(file->id, &bag, &error), file, &error);
        assert_true(strlen(bag.bowler.name) > 0);
        for (int slot = 1; slot <= BAG_SLOTS; slot++)
            assert_non_null(bag_slot(&bag, slot));
        assert_int_equal(bag_slot(&bag, 6)->cover, COVER_POLYESTER); /* the spare ball */
        for (int i = 0; i < bag.count; i++) {
            const Ball *ball = &bag.balls[i];
            /* all of them within today's rules of approval */
            assert_true(ball->rg_in >= 2.46 && ball->rg_in <= 2.80);
            assert_true(ball->differential_in <= 0.060);
            assert_true(ball->pounds <= 16.0);
        }
    }
    static Bag demo;
    assert_true(files_bag("demo", &demo, NULL));
    assert_int_equal(demo.count, 14);
    assert_int_equal(demo.bowler.hand, HAND_RIGHT);
    static Bag left;
    assert_true(files_bag("demo-left", &left, NULL));
    assert_int_equal(left.bowler.hand, HAND_LEFT);
    assert_int_equal(left.bowler.style, STYLE_TWO_HANDED);
}

static void events_find_what_they_name(void **state)
{
    (void)state;
    bool certified = false, practice = false;
    EACH(file, "events")
    {
        static EventInfo event;
        static Bag bag;
        static Pattern pattern;
        Error error = {0};
        must(files_event(file->id, &event, &error), file, &error);
        must(files_bag(event.bag, &bag, &error), file, &error);
        must(files_pattern(event.pattern, &pattern, &error), file, &error);
        assert_int_equal(event.pair[1], event.pair[0] + 1);
        assert_int_equal(event.pair[0] % 2, 1); /* a pair begins on an odd lane */
        certified = certified || event.certified;
        practice = practice || !event.certified;
    }
    assert_true(certified && practice);
    static EventInfo demo;
    assert_true(files_event("demo", &demo, NULL));
    assert_true(demo.certified && demo.games == 6 && demo.bowlers_on_pair == 4);
    assert_true(demo.pair[0] == 17 && demo.pair[1] == 18);
    assert_string_equal(demo.pattern, "apron");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(patterns_are_as_they_say),
        cmocka_unit_test(only_slant_differs_between_sides),
        cmocka_unit_test(kerb_has_its_edge_at_ten),
        cmocka_unit_test(apron_is_the_models_pattern),
        cmocka_unit_test(bags_are_full),
        cmocka_unit_test(events_find_what_they_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
