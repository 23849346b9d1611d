/* The lane as a place: boards, pins, mirror and splits. */
#include "near.h"

#include <stdio.h>

#include "core/lane/lane.h"

#define P(n) (Pins)(1 << ((n)-1))

/* USBC Equipment Specifications and Certifications Manual: 41 1/2 in wide (page), 39 boards and
 * 60 ft to the head pin (text); a board is 1.0641 in or 27.03 mm (arithmetic). */
static void test_sizes(void **state)
{
    (void)state;
    assert_int_equal(LANE_BOARDS, 39);
    assert_near(LANE_WIDTH_M, 1.05410, 1e-9);
    assert_near(LANE_BOARD_M, 0.02703, 1e-5);
    assert_near(LANE_BOARD_M / 0.0254, 1.0641, 1e-4);
    assert_near(LANE_LENGTH_M, 18.288, 1e-9);
}

static void test_boards(void **state)
{
    (void)state;
    assert_near(lane_x_of_board(20.0), 0.5 * LANE_WIDTH_M, 1e-12); /* 20 is the centre (text) */
    assert_near(lane_x_of_board(0.5), 0.0, 1e-15);
    assert_near(lane_x_of_board(39.5), LANE_WIDTH_M, 1e-12);
    for (double board = -3.0; board < 45.0; board += 0.37) {
        assert_near(lane_board_of_x(lane_x_of_board(board)), board, 1e-12);
        assert_near(lane_mirror_board(lane_mirror_board(board)), board, 1e-12);
        assert_near(lane_x_of_board(board) + lane_x_of_board(lane_mirror_board(board)),
                    LANE_WIDTH_M, 1e-12);
    }
    assert_near(lane_mirror_board(1.0), 39.0, 0.0);
    assert_near(lane_mirror_board(20.0), 20.0, 0.0);
    /* 6 cm off the centre line is board 17.78 (derived from the standards) */
    assert_near(lane_board_of_x(0.5 * LANE_WIDTH_M - 0.06), 17.78, 1e-2);
}

/* The manual: 12 in apart in a triangle of 36 in, rows 10.392 in, back row 31.177 in behind the
 * head pin (text); 2/3, 4/6, 7/10 stand 5.64, 11.28, 16.92 boards from the centre (arithmetic). */
static void test_pin_positions(void **state)
{
    (void)state;
    static const double RIGHT[] = {0, 0, -6, 6, -12, 0, 12, -18, -6, 6, 18};
    static const double BACK[] = {0,      0,      10.392, 10.392, 20.785, 20.785,
                                  20.785, 31.177, 31.177, 31.177, 31.177};
    for (int pin = 1; pin <= 10; pin++) {
        assert_near(lane_pin_right_in(pin), RIGHT[pin], 1e-12);
        assert_near(lane_pin_back_in(pin), BACK[pin], 1e-3);
    }
    double board_in = LANE_WIDTH_IN / LANE_BOARDS;
    assert_near(lane_pin_right_in(3) / board_in, 5.64, 5e-3);
    assert_near(lane_pin_right_in(6) / board_in, 11.28, 5e-3);
    assert_near(lane_pin_right_in(10) / board_in, 16.92, 5e-3);
}

/* Every pin's nearest neighbour is 12 in away, and the corners of the triangle are 36 in apart. */
static void test_pin_spacing(void **state)
{
    (void)state;
    for (int a = 1; a <= 10; a++) {
        double nearest = 1e9;
        for (int b = 1; b <= 10; b++)
            if (a != b)
                nearest = fmin(nearest, hypot(lane_pin_right_in(a) - lane_pin_right_in(b),
                                              lane_pin_back_in(a) - lane_pin_back_in(b)));
        assert_near(nearest, 12.0, 1e-9);
    }
    assert_near(hypot(lane_pin_right_in(7), lane_pin_back_in(7)), 36.0, 1e-9);
    assert_near(lane_pin_right_in(10) - lane_pin_right_in(7), 36.0, 1e-9);
}

static void test_counts(void **state)
{
    (void)state;
    assert_int_equal(lane_pin_count(0), 0);
    assert_int_equal(lane_pin_count(PINS_ALL), 10);
    for (int set = 0; set < 1024; set++) {
        int n = 0;
        for (int rest = set; rest; rest &= rest - 1)
            n++;
        assert_int_equal(lane_pin_count((Pins)set), n);
    }
}

static void test_mirror(void **state)
{
    (void)state;
    for (int set = 0; set < 1024; set++) {
        Pins mirrored = lane_mirror_pins((Pins)set);
        assert_int_equal(lane_mirror_pins(mirrored), set);
        assert_int_equal(lane_pin_count(mirrored), lane_pin_count((Pins)set));
    }
    for (int pin = 1; pin <= 10; pin++) /* where the mirrored pin stands */
        for (int other = 1; other <= 10; other++)
            if (lane_mirror_pins(pin_bit(pin)) == pin_bit(other)) {
                assert_near(lane_pin_right_in(other), -lane_pin_right_in(pin), 1e-12);
                assert_near(lane_pin_back_in(other), lane_pin_back_in(pin), 1e-12);
            }
}

/* The rule's text (USBC, IBF): the head pin down, and a pin down between two that stand or
 * immediately ahead of two. The first six are examples given with it; the rest is common practice,
 * no source. */
static void test_splits(void **state)
{
    (void)state;
    static const Pins SPLITS[] = {
        P(7) | P(9),
        P(3) | P(10),
        P(5) | P(6),
        P(4) | P(6),
        P(7) | P(10),
        P(2) | P(7),
        P(2) | P(10),
        P(3) | P(7),
        P(4) | P(5),
        P(5) | P(7),
        P(5) | P(10),
        P(8) | P(10),
        P(4) | P(9),
        P(6) | P(8),
        P(4) | P(10),
        P(6) | P(7),
        P(7) | P(8),
        P(9) | P(10),
        P(8) | P(9),
        P(4) | P(5) | P(7),
        P(5) | P(6) | P(10),
        P(5) | P(7) | P(9),
        P(5) | P(8) | P(10),
        P(6) | P(7) | P(10),
        P(4) | P(7) | P(10),
        P(3) | P(4) | P(6) | P(7) | P(10),
        P(3) | P(6) | P(7) | P(10),
        P(2) | P(4) | P(8) | P(10),
        P(4) | P(6) | P(7) | P(10),
        P(4) | P(6) | P(7) | P(8) | P(10),
        P(4) | P(6) | P(7) | P(9) | P(10),
        P(3) | P(4) | P(6) | P(7) | P(8) | P(10),
    };
    for (size_t i = 0; i < sizeof SPLITS / sizeof SPLITS[0]; i++)
        if (!lane_split(SPLITS[i]))
            fail_msg("pins %#x are a split", (unsigned)SPLITS[i]);
}

static void test_no_splits(void **state)
{
    (void)state;
    static const Pins WHOLE[] = {
        0,
        PINS_ALL,
        P(2) | P(8),
        P(3) | P(9),
        P(1) | P(2) | P(10), /* a washout: the head pin stands */
        P(1) | P(2) | P(4) | P(10),
        P(1) | P(7) | P(10),
        P(2) | P(4),
        P(2) | P(5),
        P(3) | P(5),
        P(3) | P(6),
        P(4) | P(7),
        P(4) | P(8),
        P(5) | P(8),
        P(5) | P(9),
        P(6) | P(9),
        P(6) | P(10),
        P(3) | P(6) | P(10),
        P(2) | P(4) | P(7),
        P(2) | P(4) | P(5),
        P(2) | P(4) | P(8),
        P(2) | P(4) | P(5) | P(8),
        P(3) | P(5) | P(6) | P(9),
        P(3) | P(5) | P(6),
        P(3) | P(6) | P(9) | P(10),
        P(2) | P(4) | P(7) | P(8),
    };
    for (size_t i = 0; i < sizeof WHOLE / sizeof WHOLE[0]; i++)
        if (lane_split(WHOLE[i]))
            fail_msg("pins %#x are no split", (unsigned)WHOLE[i]);
}

static void test_split_over_all_sets(void **state)
{
    (void)state;
    for (int set = 0; set < 1024; set++) {
        bool split = lane_split((Pins)set);
        assert_true(split == lane_split(lane_mirror_pins((Pins)set)));
        if (lane_pin_count((Pins)set) < 2 || (set & P(1)))
            assert_false(split);
    }
}

/* Two pins, by geometry alone: no split exactly when the one stands behind the other, at most a
 * row pitch and a half spacing off, or straight behind with no spot between. */
static void test_split_of_two_pins(void **state)
{
    (void)state;
    for (int a = 2; a <= 10; a++)
        for (int b = a + 1; b <= 10; b++) {
            double aside = fabs(lane_pin_right_in(a) - lane_pin_right_in(b));
            double behind = lane_pin_back_in(b) - lane_pin_back_in(a);
            bool diagonal = behind > 1.0 && behind < 11.0 && aside < 7.0;
            bool straight = behind > 1.0 && behind < 21.0 && aside < 1.0;
            if (lane_split((Pins)(P(a) | P(b))) != !(diagonal || straight))
                fail_msg("%d-%d", a, b);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes),
        cmocka_unit_test(test_boards),
        cmocka_unit_test(test_pin_positions),
        cmocka_unit_test(test_pin_spacing),
        cmocka_unit_test(test_counts),
        cmocka_unit_test(test_mirror),
        cmocka_unit_test(test_splits),
        cmocka_unit_test(test_no_splits),
        cmocka_unit_test(test_split_over_all_sets),
        cmocka_unit_test(test_split_of_two_pins),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
