/* Strokes as people type them: what is read, what is refused and how, and there and back. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/rng.h"
#include "core/lane/sheet.h"

static Stroke read(const char *typed, double length_ft)
{
    Stroke stroke = {0};
    Error error = {0};
    if (!sheet_stroke_read(typed, length_ft, &stroke, &error))
        fail_msg("%s: %s", typed, error.text);
    return stroke;
}

static void assert_stroke(Stroke stroke, int from, int to, double start, double end, double first,
                          double last)
{
    assert_int_equal(stroke.board_from, from);
    assert_int_equal(stroke.board_to, to);
    assert_near(stroke.ft_start, start, 0.0);
    assert_near(stroke.ft_end, end, 0.0);
    assert_near(stroke.units_start, first, 0.0);
    assert_near(stroke.units_end, last, 0.0);
}

static void boards_feet_and_units(void **state)
{
    (void)state;
    assert_stroke(read("2-38 0-8 2.5-0.7", 40), 2, 38, 0, 8, 2.5, 0.7);
    assert_stroke(read("  10R-10L,8-38.5,3 ", 40), 10, 30, 8, 38.5, 3, 3);
    assert_stroke(read("2L-2R, 0-40, 1-.5", 40), 2, 38, 0, 40, 1, 0.5);
    assert_stroke(read("20-20 0-1 0", 40), 20, 20, 0, 1, 0, 0);
}

/* On the way back the farther distance comes first, and its units too. */
static void a_stroke_on_the_way_back(void **state)
{
    (void)state;
    assert_stroke(read("12L-12R 36-10 1-4", 40), 12, 28, 10, 36, 4, 1);
}

/* Loads by microlitres a board are a volume by their definition; what is laid is as much, to the
 * half foot by which the grid ends a stroke. */
static void loads_are_the_oil_they_say(void **state)
{
    (void)state;
    Pattern pattern = {.length_ft = 40, .stroke_count = 1};
    Oil oil;
    pattern.strokes[0] = read("2L-2R 4-34 3x45", 40);
    oil_lay(&pattern, &oil);
    assert_near(oil_volume_ml(&oil), 3 * 45e-3 * 37, 1e-9);
    pattern.strokes[0] = read("10L-10R 12-37 2x60", 40);
    oil_lay(&pattern, &oil);
    assert_near(oil_volume_ml(&oil), 2 * 60e-3 * 21, 1e-9);
}

static void refused(const char *typed, const char *why)
{
    Stroke stroke = {.board_from = 7};
    Error error = {0};
    assert_false(sheet_stroke_read(typed, 40, &stroke, &error));
    assert_int_equal(stroke.board_from, 7);
    if (!strstr(error.text, why))
        fail_msg("\"%s\": says \"%s\", expected \"%s\"", typed, error.text, why);
}

static void what_is_refused_says_what_is_allowed(void **state)
{
    (void)state;
    refused("", "found nothing");
    refused(" , ", "found nothing");
    refused("oil", "two boards first");
    refused("2 38 0-8 1", "two boards first");
    refused("0-38 0-8 1", "1 to 39");
    refused("2-40 0-8 1", "1 to 39");
    refused("2.5-38 0-8 1", "1 to 39");
    refused("0L-2R 0-8 1", "1 to 39");
    refused("2-38", "two distances next");
    refused("2-38 8 1", "two distances next");
    refused("2-38 0-41 1", "0 to 40, the length");
    refused("2-38 41-0 1", "0 to 40, the length");
    refused("2-38 8-8 1", "two distances");
    refused("2-38 0-8", "the oil last");
    refused("2-38 0-8 1-", "the oil last");
    refused("2-38 0-8 x50", "the oil last");
    refused("2-38 0-8 1-2 3", "the oil last");
    refused("2-38 0-8 1e3", "the oil last");
    refused("2-38 0-8 201", "0 to 200");
    refused("2-38 0-1 9x900", "0 to 200");
    refused("2-38 0-8 1-9999999999999999999999", "the oil last");
}

static double six_digits(Rng *rng, double most)
{
    char text[32];
    double value = 0.0;
    snprintf(text, sizeof text, "%.6g", rng_between(rng, 0.001, most));
    return sscanf(text, "%lf", &value) == 1 ? value : 0.0;
}

static void any_stroke_reads_back(void **state)
{
    (void)state;
    Rng rng = rng_seed(4711);
    for (int i = 0; i < 2000; i++) {
        Stroke stroke = {.board_from = 1 + (int)(rng_next(&rng) % 39)};
        stroke.board_to =
            stroke.board_from + (int)(rng_next(&rng) % (unsigned)(40 - stroke.board_from));
        stroke.ft_start = i % 3 ? six_digits(&rng, 20) : 0.0;
        stroke.ft_end = stroke.ft_start + 0.5 + (double)(rng_next(&rng) % 30);
        stroke.units_start = i % 5 ? six_digits(&rng, OIL_UNITS_MAX) : 0.0;
        stroke.units_end = i % 7 ? six_digits(&rng, OIL_UNITS_MAX) : stroke.units_start;
        char text[SHEET_TEXT_MAX];
        sheet_stroke_write(&stroke, text, sizeof text);
        Stroke back = read(text, PATTERN_LENGTH_MAX_FT);
        assert_stroke(back, stroke.board_from, stroke.board_to, stroke.ft_start, back.ft_end,
                      stroke.units_start, stroke.units_end);
        assert_near(back.ft_end, stroke.ft_end, 1e-4); /* its sum may have more digits */
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(boards_feet_and_units),
        cmocka_unit_test(a_stroke_on_the_way_back),
        cmocka_unit_test(loads_are_the_oil_they_say),
        cmocka_unit_test(what_is_refused_says_what_is_allowed),
        cmocka_unit_test(any_stroke_reads_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
