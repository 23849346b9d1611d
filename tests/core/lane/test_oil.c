/* Laying a pattern, measuring it, and reading it between boards and stations. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/lane/oil.h"

static Oil lay(const Pattern *pattern)
{
    Oil oil;
    oil_lay(pattern, &oil);
    return oil;
}

static Pattern one_stroke(int from, int to, double start, double end, double units_start,
                          double units_end, double length)
{
    Pattern pattern = {.length_ft = length, .stroke_count = 1};
    pattern.strokes[0] = (Stroke){from, to, start, end, units_start, units_end};
    return pattern;
}

static void test_nothing_laid(void **state)
{
    (void)state;
    Pattern pattern = {.length_ft = 40.0};
    Oil oil;
    memset(&oil, 0x55, sizeof oil); /* what was there is gone */
    oil_lay(&pattern, &oil);
    assert_near(oil_volume_ml(&oil), 0.0, 0.0);
    assert_near(oil_length_ft(&oil), 0.0, 0.0);
    assert_near(oil.length_ft, 40.0, 0.0);
}

static void test_one_stroke(void **state)
{
    (void)state;
    Pattern pattern = one_stroke(5, 12, 10.0, 30.0, 20.0, 10.0, 40.0);
    Oil oil = lay(&pattern);
    assert_near(oil.units[20][4], 20.0, 1e-12);  /* 10 ft, board 5 */
    assert_near(oil.units[40][11], 15.0, 1e-12); /* 20 ft, board 12 */
    assert_near(oil.units[59][7], 10.25, 1e-12); /* 29.5 ft */
    assert_near(oil.units[40][3], 0.0, 0.0);
    assert_near(oil.units[40][12], 0.0, 0.0);
    assert_near(oil.units[19][7], 0.0, 0.0);
    assert_near(oil.units[61][7], 0.0, 0.0);
}

static void test_strokes_add_up(void **state)
{
    (void)state;
    Pattern pattern = one_stroke(1, 20, 0.0, 40.0, 3.0, 3.0, 40.0);
    pattern.strokes[pattern.stroke_count++] = (Stroke){10, 39, 0.0, 40.0, 4.0, 4.0};
    pattern.strokes[pattern.stroke_count++] = (Stroke){15, 15, 0.0, 40.0, 5.0, 5.0};
    Oil oil = lay(&pattern);
    assert_near(oil.units[30][4], 3.0, 1e-12);
    assert_near(oil.units[30][9], 7.0, 1e-12);
    assert_near(oil.units[30][14], 12.0, 1e-12);
    assert_near(oil.units[30][38], 4.0, 1e-12);
}

/* Two strokes that meet lay at the joint what one of them lays there, not both. */
static void test_joint_is_not_doubled(void **state)
{
    (void)state;
    static const double JOINTS[] = {8.0, 8.5, 20.0, 39.5};
    for (size_t i = 0; i < sizeof JOINTS / sizeof JOINTS[0]; i++) {
        Pattern pattern = one_stroke(1, 39, 0.0, JOINTS[i], 6.0, 6.0, 40.0);
        pattern.strokes[pattern.stroke_count++] = (Stroke){1, 39, JOINTS[i], 40.0, 6.0, 6.0};
        Oil oil = lay(&pattern);
        for (int j = 0; j <= 80; j++)
            assert_near(oil.units[j][19], 6.0, 1e-12);
        assert_near(oil.units[81][19], 0.0, 0.0);
    }
}

static void test_stroke_to_the_pins(void **state)
{
    (void)state;
    Pattern pattern = one_stroke(1, 39, 0.0, 60.0, 6.0, 6.0, 60.0);
    Oil oil = lay(&pattern);
    assert_near(oil.units[120][0], 6.0, 0.0);
    assert_near(oil_length_ft(&oil), 60.0, 0.0);
}

/* Oil that balls have carried past the end counts from some three tenths of a unit on. */
static void test_carried(void **state)
{
    (void)state;
    Pattern pattern = one_stroke(1, 39, 0.0, 40.0, 6.0, 6.0, 40.0);
    Oil oil = lay(&pattern);
    assert_near(oil_carried_ft(&oil, oil.length_ft), 40.0, 0.0);
    oil.units[110][20] = 0.1;
    assert_near(oil_carried_ft(&oil, oil.length_ft), 40.0, 0.0);
    oil.units[98][8] = 0.5;
    assert_near(oil_carried_ft(&oil, oil.length_ft), 49.0, 0.0);
}

static Pattern two_tapes(double length)
{
    Pattern pattern = {.length_ft = length, .reading_count = 2};
    pattern.readings[0].ft = 10.0;
    pattern.readings[1].ft = 30.0;
    for (int b = 0; b < LANE_BOARDS; b++) {
        pattern.readings[0].units[b] = b;
        pattern.readings[1].units[b] = 0.5 * b;
    }
    return pattern;
}

static void test_readings(void **state)
{
    (void)state;
    Pattern pattern = two_tapes(38.0);
    Oil oil = lay(&pattern);
    for (int b = 0; b < LANE_BOARDS; b++) {
        assert_near(oil.units[0][b], b, 1e-12);  /* level before the first */
        assert_near(oil.units[20][b], b, 1e-12); /* on it */
        assert_near(oil.units[40][b], 0.75 * b, 1e-12);
        assert_near(oil.units[30][b], 0.875 * b, 1e-12);
        assert_near(oil.units[60][b], 0.5 * b, 1e-12);
        assert_near(oil.units[76][b], 0.5 * b, 1e-12); /* the last value up to the end */
        assert_near(oil.units[77][b], 0.0, 0.0);       /* and nothing past it */
    }
}

static void test_one_reading(void **state)
{
    (void)state;
    Pattern pattern = two_tapes(25.0);
    pattern.reading_count = 1;
    Oil oil = lay(&pattern);
    assert_near(oil.units[0][10], 10.0, 0.0);
    assert_near(oil.units[50][10], 10.0, 0.0);
    assert_near(oil.units[51][10], 0.0, 0.0);
}

/* One unit is 0.0167 mL a square foot (from memory); 60 ft of 41.5 in are 207.5 sq ft. */
static void test_volume_of_a_uniform_film(void **state)
{
    (void)state;
    Pattern pattern = one_stroke(1, 39, 0.0, 60.0, 10.0, 10.0, 60.0);
    Oil oil = lay(&pattern);
    assert_near(oil_volume_ml(&oil), 10.0 * 207.5 * 0.0167, 1e-9);
    oil_scale(&oil, 0.5);
    assert_near(oil_volume_ml(&oil), 5.0 * 207.5 * 0.0167, 1e-9);
    /* 0.18 um of film is 0.0167 mL over a square foot: 0.3048^2 m2 x 0.18 um (arithmetic) */
    assert_near(OIL_UM_PER_UNIT * 1e-6 * 0.3048 * 0.3048 * 1e6, OIL_ML_PER_UNIT_SQFT, 5e-5);
    /* 1.481 uL a board-foot (arithmetic) */
    assert_near(1e3 * OIL_ML_PER_UNIT_SQFT * LANE_BOARD_M / 0.3048, 1.481, 1e-3);
}

/* A board of a foot's length, and a wedge: half of the full film. */
static void test_volume_of_pieces(void **state)
{
    (void)state;
    Pattern board = one_stroke(20, 20, 0.0, 60.0, 12.0, 0.0, 60.0);
    Oil oil = lay(&board);
    assert_near(oil_volume_ml(&oil), 6.0 * 60.0 * 1.481e-3, 1e-3);
}

static void test_ratio(void **state)
{
    (void)state;
    Pattern flat = one_stroke(1, 39, 0.0, 40.0, 10.0, 5.0, 40.0);
    Oil oil = lay(&flat);
    assert_near(oil_ratio(&oil), 1.0, 1e-12);
    Pattern three = one_stroke(1, 39, 0.0, 40.0, 10.0, 5.0, 40.0);
    three.strokes[three.stroke_count++] = (Stroke){11, 29, 0.0, 40.0, 20.0, 10.0};
    oil = lay(&three);
    assert_near(oil_ratio(&oil), 3.0, 1e-12);
    Pattern outside = one_stroke(1, 10, 0.0, 40.0, 10.0, 10.0, 40.0);
    oil = lay(&outside);
    assert_near(oil_ratio(&oil), 0.0, 1e-12);
    Pattern inside = one_stroke(11, 29, 0.0, 40.0, 10.0, 10.0, 40.0);
    oil = lay(&inside);
    assert_true(isinf(oil_ratio(&oil)));
}

static void test_length(void **state)
{
    (void)state;
    for (double length = 20.0; length <= 60.0; length += 0.5) {
        Pattern pattern = one_stroke(7, 7, 0.0, length, 3.0, 1.0, length);
        Oil oil = lay(&pattern);
        assert_near(oil_length_ft(&oil), length, 0.0);
    }
    Pattern trace = one_stroke(1, 39, 0.0, 40.0, 3.0, 3.0, 40.0);
    trace.strokes[trace.stroke_count++] = (Stroke){1, 39, 0.0, 40.0, 3.0, 3.0};
    Oil oil = lay(&trace);
    oil.units[100][5] = 0.05; /* a trace does not count */
    assert_near(oil_length_ft(&oil), 40.0, 0.0);
    oil.units[100][5] = 0.06;
    assert_near(oil_length_ft(&oil), 50.0, 0.0);
}

static Oil uneven(void)
{
    Oil oil = {.length_ft = 42.0};
    Rng rng = rng_seed(5);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            oil.units[j][b] = rng_between(&rng, 0.0, 30.0);
    return oil;
}

static void test_for_hand(void **state)
{
    (void)state;
    Oil oil = uneven(), right, left, back;
    memset(&left, 0, sizeof left);
    oil_for_hand(&oil, HAND_RIGHT, &right);
    assert_memory_equal(&right, &oil, sizeof oil);
    oil_for_hand(&oil, HAND_LEFT, &left);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_true(left.units[j][b] == oil.units[j][38 - b]);
    oil_for_hand(&left, HAND_LEFT, &back);
    assert_memory_equal(&back, &oil, sizeof oil);
    oil_for_hand(&back, HAND_LEFT, &back); /* in place */
    assert_memory_equal(&back, &left, sizeof oil);
    assert_near(left.length_ft, 42.0, 0.0);
    assert_near(oil_volume_ml(&left), oil_volume_ml(&oil), 1e-9);
    assert_near(oil_ratio(&left), oil_ratio(&oil), 1e-12);
}

static double station_m(double j) { return j * OIL_STATION_FT * 0.3048; }

static void test_at_grid_points(void **state)
{
    (void)state;
    Oil oil = uneven();
    for (int j = 0; j < OIL_STATIONS - 1; j++)
        for (int b = 1; b <= LANE_BOARDS; b++)
            assert_near(oil_at(&oil, lane_x_of_board(b), station_m(j)), oil.units[j][b - 1], 1e-9);
}

static void test_at_is_bilinear(void **state)
{
    (void)state;
    Oil oil = uneven();
    Rng rng = rng_seed(6);
    for (int i = 0; i < 2000; i++) {
        int j = (int)rng_between(&rng, 0.0, 119.0), b = (int)rng_between(&rng, 0.0, 38.0);
        double u = rng_uniform(&rng), v = rng_uniform(&rng);
        double expected = (1 - v) * ((1 - u) * oil.units[j][b] + u * oil.units[j][b + 1]) +
                          v * ((1 - u) * oil.units[j + 1][b] + u * oil.units[j + 1][b + 1]);
        assert_near(oil_at(&oil, lane_x_of_board(b + 1 + u), station_m(j + v)), expected, 1e-9);
    }
}

static void test_at_the_edges(void **state)
{
    (void)state;
    Oil oil = uneven();
    double y = station_m(33.0);
    assert_near(oil_at(&oil, 0.0, y), oil.units[33][0], 1e-9); /* outside the centres: the edge's */
    assert_near(oil_at(&oil, -1.0, y), oil.units[33][0], 1e-9);
    assert_near(oil_at(&oil, LANE_WIDTH_M, y), oil.units[33][38], 1e-9);
    assert_near(oil_at(&oil, 5.0, y), oil.units[33][38], 1e-9);
    assert_near(oil_at(&oil, lane_x_of_board(39.0), y), oil.units[33][38], 1e-9);
    assert_near(oil_at(&oil, lane_x_of_board(7.0), -0.1), oil.units[0][6], 1e-9);
    assert_near(oil_at(&oil, lane_x_of_board(7.0), LANE_LENGTH_M + 0.01), 0.0, 0.0);
    assert_near(oil_at(&oil, lane_x_of_board(7.0), 1e9), 0.0, 0.0);
    assert_near(oil_at(&oil, lane_x_of_board(7.0), NAN), 0.0, 0.0);
}

static void test_scale(void **state)
{
    (void)state;
    Oil oil = uneven(), scaled = oil;
    oil_scale(&scaled, 0.8);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_near(scaled.units[j][b], 0.8 * oil.units[j][b], 1e-12);
    assert_near(scaled.length_ft, oil.length_ft, 0.0);
    oil_scale(&scaled, 0.0);
    assert_near(oil_volume_ml(&scaled), 0.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nothing_laid),
        cmocka_unit_test(test_one_stroke),
        cmocka_unit_test(test_strokes_add_up),
        cmocka_unit_test(test_joint_is_not_doubled),
        cmocka_unit_test(test_stroke_to_the_pins),
        cmocka_unit_test(test_carried),
        cmocka_unit_test(test_readings),
        cmocka_unit_test(test_one_reading),
        cmocka_unit_test(test_volume_of_a_uniform_film),
        cmocka_unit_test(test_volume_of_pieces),
        cmocka_unit_test(test_ratio),
        cmocka_unit_test(test_length),
        cmocka_unit_test(test_for_hand),
        cmocka_unit_test(test_at_grid_points),
        cmocka_unit_test(test_at_is_bilinear),
        cmocka_unit_test(test_at_the_edges),
        cmocka_unit_test(test_scale),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
