/* test_table.c - the table that the program ships: made by the generator that is checked in, whole
 * in every cell, and read as rack.h says. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "tools/rackgen/cells.h"

static const uint32_t HASHES[] = {
#include "tools/rackgen/hashes.inc"
};

/* A sample of the cells, rolled again here, gives the very racks that the table was made of. */
static void cells_are_reproduced(void **state)
{
    (void)state;
    assert_int_equal(sizeof HASHES / sizeof *HASHES, CELLS);
    static CellCount count;
    Rng rng = rng_seed(51);
    for (int k = 0; k < 12; k++) {
        int cell = k == 0 ? 0 : k == 1 ? CELLS - 1 : (int)(rng_uniform(&rng) * CELLS);
        cell_roll(cell, &count);
        if (cell_hash(&count) != HASHES[cell])
            fail_msg("cell %d: 0x%08x, not 0x%08x", cell, (unsigned)cell_hash(&count),
                     (unsigned)HASHES[cell]);
    }
}

static Table *made_of(CellCount *counts)
{
    static Table table;
    assert_true(table_make(counts, &table));
    return &table;
}

/* Smoothing of racks that are known: what every cell agrees on stays as it is. */
static void even_counts_stay(void **state)
{
    (void)state;
    CellCount *counts = calloc(CELLS, sizeof *counts);
    assert_non_null(counts);
    for (int cell = 0; cell < CELLS; cell++) {
        counts[cell].of[0] = CELL_RACKS / 2;
        counts[cell].of[pin_bit(5)] = CELL_RACKS / 2; /* its own mirror image */
    }
    const Table *table = made_of(counts);
    for (int cell = 0; cell < CELLS; cell++) {
        assert_near(table->cells[cell].strike, 0.5 * RACK_SHARE_ONE, 0.005 * RACK_SHARE_ONE);
        assert_near(table->cells[cell].share[RACK_FIVE], 0.5 * RACK_SHARE_ONE,
                    0.005 * RACK_SHARE_ONE);
        assert_near(table->cells[cell].pinfall, 9.5 * RACK_PIN_ONE, 1.0);
    }
    assert_int_equal(table->listed[0][0].pins, pin_bit(5));
    assert_int_equal(table->listed[0][0].within, RACK_WITHIN_ONE);
    assert_int_equal(table->listed[0][1].pins, 0);
    free(counts);
}

/* One odd cell is spread over its neighbours; nothing is lost on the way. */
static void one_cell_is_spread(void **state)
{
    (void)state;
    CellCount *counts = calloc(CELLS, sizeof *counts);
    assert_non_null(counts);
    for (int cell = 0; cell < CELLS; cell++)
        counts[cell].of[pin_bit(5)] = CELL_RACKS;
    int middle = cell_index(14, 4, 1, 1);
    counts[middle].of[pin_bit(5)] = 0;
    counts[middle].of[0] = CELL_RACKS;
    const Table *table = made_of(counts);
    double sum = 0.0, none = table->cells[0].strike;
    for (int cell = 0; cell < CELLS; cell++)
        sum += table->cells[cell].strike - none;
    assert_near(sum, RACK_SHARE_ONE, 0.02 * RACK_SHARE_ONE);
    assert_near((table->cells[middle].strike - none) / (double)RACK_SHARE_ONE,
                10.0 / 12.0 * 6.0 / 8.0 * 14.0 / 16.0 * 30.0 / 32.0, 0.005);
    assert_less(table->cells[cell_index(13, 4, 1, 1)].strike, table->cells[middle].strike);
    assert_less(none, table->cells[cell_index(13, 4, 1, 1)].strike);
    free(counts);
}

static void for_hits(void (*check)(double, double, double, double))
{
    Rng rng = rng_seed(52);
    for (int i = 0; i < 1000; i++)
        check(rng_between(&rng, 11.0, 29.0), rng_between(&rng, -8.5, 8.5),
              rng_between(&rng, 5.0, 21.0), rng_between(&rng, 6.0, 17.0));
    check(17.5, 6.0, 16.5, 16.0);
    check(1e300, -1e300, 1e300, -1e300);
    check(NAN, NAN, NAN, NAN);
}

static void chances_are_whole_here(double board, double degrees, double mph, double pounds)
{
    RackChances chances;
    rack_chances(board, degrees, mph, pounds, &chances);
    assert_near(chances.strike, rack_strike(board, degrees, mph, pounds), 0.0);
    assert_near(chances.pinfall, rack_pinfall(board, degrees, mph, pounds), 0.0);
    assert_true(chances.strike >= 0.0 && chances.strike <= 1.0);
    assert_true(chances.pinfall > 0.0 && chances.pinfall <= 10.0);
    assert_true(chances.leave_count > 0 && chances.leave_count <= RACK_LEAVES_MAX);
    double sum = chances.strike;
    for (int i = 0; i < chances.leave_count; i++) {
        assert_true(chances.leave[i] > 0 && chances.leave[i] <= PINS_ALL);
        assert_true(chances.leave_chance[i] >= 0.0);
        if (i > 0)
            assert_true(chances.leave_chance[i] <= chances.leave_chance[i - 1]);
        for (int k = 0; k < i; k++)
            assert_int_not_equal(chances.leave[k], chances.leave[i]);
        sum += chances.leave_chance[i];
    }
    assert_true(sum <= 1.001);
}
static void chances_are_whole(void **state)
{
    (void)state;
    for_hits(chances_are_whole_here);
}

static void leaves_sum_to_one_here(double board, double degrees, double mph, double pounds)
{
    double sum = 0.0;
    for (Pins left = 0; left <= PINS_ALL; left++) {
        double chance = rack_leave_chance(left, board, degrees, mph, pounds);
        double likelihood = rack_leave_likelihood(left, board, degrees, mph, pounds);
        assert_true(chance >= 0.0 && chance <= 1.0);
        assert_true(likelihood >= pow(RACK_DOUBT, RACK_TEMPER) && likelihood <= 1.0);
        sum += chance;
    }
    assert_near(sum, 1.0, 1e-9);
}
static void leaves_sum_to_one(void **state)
{
    (void)state;
    Rng rng = rng_seed(53);
    for (int i = 0; i < 40; i++)
        leaves_sum_to_one_here(rng_between(&rng, 13.0, 27.0), rng_between(&rng, -8.0, 8.0),
                               rng_between(&rng, 14.0, 19.0), rng_between(&rng, 10.0, 16.0));
}

/* The floor: the most telling rack, right against wrong, weighs less than the temper allows. */
static void one_rack_convinces_nobody(void **state)
{
    (void)state;
    double most = 0.0;
    for (Pins left = 0; left <= PINS_ALL; left++) {
        double low = 1.0, high = 0.0;
        for (double board = 13.0; board <= 27.0; board += 0.5) {
            double likelihood = rack_leave_likelihood(left, board, 5.0, 16.5, 15.0);
            low = fmin(low, likelihood);
            high = fmax(high, likelihood);
        }
        most = fmax(most, high / low);
    }
    assert_true(most <= 1.0 / pow(RACK_DOUBT, RACK_TEMPER)); /* 25 to 1 */
}

static void mirror_here(double board, double degrees, double mph, double pounds)
{
    board = floor(board * 64.0) / 64.0; /* its mirror image is exact in binary */
    if (degrees == 0.0 || isnan(board))
        return;
    double other = lane_mirror_board(board);
    if (lane_mirror_board(other) != board)
        return;
    assert_near(rack_strike(board, degrees, mph, pounds), rack_strike(other, -degrees, mph, pounds),
                0.0);
    RackChances a, b;
    rack_chances(board, degrees, mph, pounds, &a);
    rack_chances(other, -degrees, mph, pounds, &b);
    assert_int_equal(a.leave_count, b.leave_count);
    for (int i = 0; i < a.leave_count; i++) {
        assert_int_equal(lane_mirror_pins(a.leave[i]), b.leave[i]);
        assert_near(a.leave_chance[i], b.leave_chance[i], 0.0);
        assert_near(rack_leave_chance(a.leave[i], board, degrees, mph, pounds),
                    rack_leave_chance(b.leave[i], other, -degrees, mph, pounds), 0.0);
    }
}
/* Headings toward the bowler's own side are read in the mirror; head-on both sides agree. */
static void mirror(void **state)
{
    (void)state;
    for_hits(mirror_here);
    for (double board = 13.0; board <= 20.0; board += 0.25) {
        double other = lane_mirror_board(board);
        assert_near(rack_strike(board, 0.0, 16.5, 15.0), rack_strike(other, 0.0, 16.5, 15.0), 1e-9);
        assert_near(rack_pinfall(board, 0.0, 16.5, 15.0), rack_pinfall(other, 0.0, 16.5, 15.0),
                    1e-9);
    }
}

/* Between cells the answer lies between theirs and moves without jumps. */
static void reading_is_continuous(void **state)
{
    (void)state;
    for (double board = 12.5; board < 27.5; board += 0.01) {
        double a = rack_strike(board, 5.5, 16.0, 14.0),
               b = rack_strike(board + 0.01, 5.5, 16.0, 14.0);
        assert_near(a, b, 0.02);
    }
    assert_near(rack_strike(12.0, 5.0, 16.5, 15.0), rack_strike(13.0, 5.0, 16.5, 15.0), 0.0);
    assert_near(rack_strike(17.0, 9.0, 30.0, 20.0), rack_strike(17.0, 8.0, 20.0, 16.0), 0.0);
}

/* A full rack that is rolled falls as the table says: what the advice counts on is what is played.
 * 20,000 racks a hit; for each of the 4,096 counts five deviations are allowed, and two racks. */
static void racks_fall_as_the_table_says(void **state)
{
    (void)state;
    enum { RACKS = 20000 };
    static const RackHit HITS[] = {{17.5, 5.3, 16.4, 0.0, 15.0},
                                   {15.8, 3.0, 14.2, 0.0, 13.0},
                                   {20.3, -2.6, 8.0, 0.0, 9.0},
                                   {13.0, 0.0, 17.0, 0.0, 16.0}};
    Rng rng = rng_seed(54);
    for (size_t h = 0; h < sizeof HITS / sizeof *HITS; h++) {
        const RackHit *hit = &HITS[h];
        int fell[PINS_ALL + 1] = {0};
        for (int i = 0; i < RACKS; i++)
            fell[rack_roll(hit, PINS_ALL, &rng)]++;
        for (int left = 0; left <= PINS_ALL; left++) {
            double chance =
                rack_leave_chance((Pins)left, hit->board, hit->degrees, hit->mph, hit->pounds);
            assert_near(fell[left], RACKS * chance, 2.0 + 5.0 * sqrt(RACKS * chance));
        }
    }
}

static void classes_hold_their_leaves(void **state)
{
    (void)state;
    const struct {
        Pins left;
        RackClass class;
    } rows[] = {
        {pin_bit(10), RACK_TEN},
        {pin_bit(7), RACK_SEVEN},
        {pin_bit(4), RACK_FOUR_SIX},
        {pin_bit(9), RACK_EIGHT_NINE},
        {pin_bit(5), RACK_FIVE},
        {pin_bit(6) | pin_bit(10), RACK_PAIR_RIGHT},
        {pin_bit(3) | pin_bit(6) | pin_bit(10), RACK_PAIR_RIGHT},
        {pin_bit(4) | pin_bit(7), RACK_PAIR_LEFT},
        {pin_bit(2) | pin_bit(8), RACK_CLUSTER},
        {pin_bit(2) | pin_bit(4) | pin_bit(5) | pin_bit(8), RACK_CLUSTER},
        {pin_bit(7) | pin_bit(10), RACK_CORNERS},
        {pin_bit(8) | pin_bit(10), RACK_SPLIT_TWO},
        {pin_bit(4) | pin_bit(6) | pin_bit(7) | pin_bit(10), RACK_SPLIT_MORE},
        {pin_bit(1) | pin_bit(2) | pin_bit(10), RACK_WASHOUT},
        {pin_bit(1) | pin_bit(2) | pin_bit(4), RACK_HEAD},
        {PINS_ALL, RACK_HEAD},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        assert_int_equal(rack_class(rows[i].left), rows[i].class);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(cells_are_reproduced),
        cmocka_unit_test(even_counts_stay),
        cmocka_unit_test(one_cell_is_spread),
        cmocka_unit_test(chances_are_whole),
        cmocka_unit_test(leaves_sum_to_one),
        cmocka_unit_test(one_rack_convinces_nobody),
        cmocka_unit_test(mirror),
        cmocka_unit_test(reading_is_continuous),
        cmocka_unit_test(racks_fall_as_the_table_says),
        cmocka_unit_test(classes_hold_their_leaves),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
