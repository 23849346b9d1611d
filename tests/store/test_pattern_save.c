/* test_pattern_save.c - patterns written as files: the reader finds what was written, to the last
 * bit; nothing of anybody else's is overwritten. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "base/rng.h"

static void must(bool good, const Error *error)
{
    if (!good)
        fail_msg("%s: %s", error->file, error->text);
}

static double units(Rng *rng)
{
    uint64_t kind = rng_next(rng) % 4;
    return kind == 0   ? 0.0
           : kind == 1 ? OIL_UNITS_MAX
           : kind == 2 ? (double)(rng_next(rng) % 200)
                       : rng_between(rng, 0.0, OIL_UNITS_MAX);
}

static Pattern random_strokes(Rng *rng)
{
    Pattern pattern = {.name = "Drawn \"by\" lot", .length_ft = rng_between(rng, 20.0, 60.0)};
    pattern.stroke_count = 1 + (int)(rng_next(rng) % PATTERN_STROKES_MAX);
    for (int i = 0; i < pattern.stroke_count; i++) {
        Stroke *stroke = &pattern.strokes[i];
        stroke->board_from = 1 + (int)(rng_next(rng) % LANE_BOARDS);
        stroke->board_to = stroke->board_from +
                           (int)(rng_next(rng) % (unsigned)(LANE_BOARDS + 1 - stroke->board_from));
        stroke->ft_start = rng_between(rng, 0.0, pattern.length_ft / 2.0);
        stroke->ft_end = rng_between(rng, pattern.length_ft / 2.0, pattern.length_ft);
        stroke->units_start = units(rng);
        stroke->units_end = units(rng);
    }
    return pattern;
}

static Pattern random_readings(Rng *rng)
{
    Pattern pattern = {.name = "Tape", .note = "Taken\\at noon", .length_ft = 45.5};
    pattern.reading_count = 1 + (int)(rng_next(rng) % PATTERN_READINGS_MAX);
    for (int i = 0; i < pattern.reading_count; i++) {
        pattern.readings[i].ft = i * 1.5 + rng_between(rng, 0.0, 1.0);
        for (int board = 0; board < LANE_BOARDS; board++)
            pattern.readings[i].units[board] = units(rng);
    }
    return pattern;
}

static void assert_same(const Pattern *a, const Pattern *b)
{
    assert_string_equal(a->name, b->name);
    assert_string_equal(a->note, b->note);
    assert_true(a->length_ft == b->length_ft);
    assert_int_equal(a->stroke_count, b->stroke_count);
    assert_int_equal(a->reading_count, b->reading_count);
    assert_memory_equal(a->strokes, b->strokes, sizeof a->strokes);
    assert_memory_equal(a->readings, b->readings, sizeof a->readings);
}

static void any_pattern_reads_back(void **state)
{
    (void)state;
    Rng rng = rng_seed(29);
    for (int i = 0; i < 120; i++) {
        Pattern pattern = i % 2 ? random_strokes(&rng) : random_readings(&rng), back;
        Error error = {0};
        char name[32], path[1024];
        snprintf(name, sizeof name, "drawn-%d", i);
        must(files_new_pattern(name, &pattern, path, sizeof path, &error), &error);
        must(files_pattern(name, &back, &error), &error);
        assert_same(&pattern, &back);
        assert_string_equal(back.id, name);
    }
}

static void nothing_unreadable_is_written(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024];
    Pattern pattern = {.name = "Empty", .length_ft = 40.0};
    assert_false(files_new_pattern("empty", &pattern, path, sizeof path, &error));
    pattern.stroke_count = 1;
    pattern.strokes[0] = (Stroke){2, 38, 0.0, 41.0, 1.0, 1.0};
    assert_false(files_new_pattern("long", &pattern, path, sizeof path, &error));
    assert_non_null(strstr(error.text, "0 to 40"));
    assert_null(played_read("config/settee/patterns/long.json"));
    pattern.strokes[0].ft_end = 40.0;
    must(files_new_pattern("long", &pattern, path, sizeof path, &error), &error);
    assert_false(files_new_pattern("long", &pattern, path, sizeof path, &error));
    assert_non_null(strstr(error.text, "taken"));
}

/* A change replaces what was read, and only that. */
static void a_change_replaces_what_was_read(void **state)
{
    (void)state;
    Error error = {0};
    char path[1024];
    Pattern before = {.name = "Mine", .length_ft = 40.0, .stroke_count = 1}, after, back;
    before.strokes[0] = (Stroke){2, 38, 0.0, 40.0, 3.0, 1.0};
    after = before;
    after.strokes[0].units_end = 2.0;
    must(files_new_pattern("mine", &before, path, sizeof path, &error), &error);
    must(files_pattern_keep("mine", &before, &after, &error), &error);
    must(files_pattern("mine", &back, &error), &error);
    assert_same(&after, &back);
    assert_false(files_pattern_keep("mine", &before, &after, &error));
    assert_non_null(strstr(error.text, "changed on disk"));
    after.strokes[0].units_end = 201.0;
    assert_false(files_pattern_keep("mine", &back, &after, &error));
    assert_false(files_pattern_keep("parlour", &back, &back, &error)); /* built in */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(any_pattern_reads_back, played_begin, played_end),
        cmocka_unit_test_setup_teardown(nothing_unreadable_is_written, played_begin, played_end),
        cmocka_unit_test_setup_teardown(a_change_replaces_what_was_read, played_begin, played_end),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
