/* Oil taken up and carried on. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/line/line.h"
#include "core/motion/wear.h"
#include "store/files.h"
#include "traffic.h"

static Bag BAG;
static Oil SHEET; /* the demo's pattern, a right-hander's frame */
static MotionBody BODY[BAG_SLOTS];
static Line BEST[BAG_SLOTS]; /* each ball's own line on the sheet */

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    Pattern pattern;
    if (!files_bag("demo", &BAG, &error) || !files_pattern("apron", &pattern, &error))
        return -1;
    oil_lay(&pattern, &SHEET);
    for (int i = 0; i < BAG_SLOTS; i++) {
        motion_body(bag_slot(&BAG, i + 1), &BODY[i]);
        Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
        BEST[i] = line_search(&BODY[i], &SHEET, &BAG.bowler, &usual, 21.0, 0.0);
    }
    return 0;
}

static Delivery best_delivery(int slot)
{
    return delivery_of(&BAG.bowler, BEST[slot - 1].stance, BEST[slot - 1].aim);
}

static Roll roll_of(int slot, const Oil *oil)
{
    Roll roll;
    Delivery delivery = best_delivery(slot);
    motion_roll(&BODY[slot - 1], oil, &delivery, &roll);
    return roll;
}

static void assert_conserved(Oil *oil, const Roll *roll, Cover cover, double shift)
{
    double before = oil_volume_ml(oil);
    double held = wear_delivery(oil, roll, cover, shift), after = oil_volume_ml(oil);
    assert_true(held >= 0.0);
    assert_near(before - after, held, 1e-9 * before);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_true(oil->units[j][b] >= 0.0);
}

/* What leaves the lane is on the ball, to the last bits, whoever throws what and where. */
static void test_oil_is_conserved(void **state)
{
    (void)state;
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        for (int cover = 0; cover < COVER_COUNT; cover++) {
            Oil oil = SHEET;
            Roll roll = roll_of(slot, &oil);
            for (int k = 0; k < 20; k++)
                assert_conserved(&oil, &roll, (Cover)cover, k - 10.0);
        }
}

static void test_conserved_on_odd_films(void **state)
{
    (void)state;
    Rng rng = rng_seed(4);
    for (int round = 0; round < 50; round++) {
        Oil oil = {.length_ft = 60.0};
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                oil.units[j][b] = rng_uniform(&rng) < 0.3 ? 0.0 : rng_between(&rng, 0.0, 100.0);
        Delivery delivery =
            delivery_of(&BAG.bowler, rng_between(&rng, 8.0, 40.0), rng_between(&rng, 0.0, 30.0));
        Roll roll; /* some of them end in the gutter */
        motion_roll(&BODY[round % BAG_SLOTS], &oil, &delivery, &roll);
        for (int k = 0; k < 10; k++)
            assert_conserved(&oil, &roll, (Cover)(k % COVER_COUNT), rng_between(&rng, -12.0, 12.0));
    }
}

static void test_off_the_lane_nothing_happens(void **state)
{
    (void)state;
    Oil oil = SHEET;
    Roll roll = roll_of(1, &oil);
    assert_near(wear_delivery(&oil, &roll, COVER_SOLID, 100.0), 0.0, 0.0);
    assert_near(wear_delivery(&oil, &roll, COVER_SOLID, -100.0), 0.0, 0.0);
    assert_memory_equal(&oil, &SHEET, sizeof oil);
}

/* Only the film under the track changes: nothing four standard deviations, 2.4 boards, away. */
static void test_only_the_track(void **state)
{
    (void)state;
    Oil oil = SHEET;
    Roll roll = roll_of(1, &oil);
    wear_delivery(&oil, &roll, COVER_SOLID, 0.0);
    for (int j = 0; j < roll.count; j++)
        for (int b = 1; b <= LANE_BOARDS; b++)
            if (fabs(b - roll.path[j].board) > 2.5)
                assert_true(oil.units[j][b - 1] == SHEET.units[j][b - 1]);
    int middle = (int)floor(roll.path[40].board + 0.5);
    assert_less(oil.units[40][middle - 1], SHEET.units[40][middle - 1]);
}

/* Oil where the pattern had none, after one ball. */
static double carried_past_the_end(Cover cover)
{
    Oil oil = SHEET;
    Roll roll = roll_of(3, &oil);
    wear_delivery(&oil, &roll, cover, 0.0);
    double sum = 0.0;
    for (int j = (int)(SHEET.length_ft / OIL_STATION_FT) + 1; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            sum += oil.units[j][b];
    return sum;
}

static void test_hard_covers_carry_further(void **state)
{
    (void)state;
    double solid = carried_past_the_end(COVER_SOLID);
    assert_less(0.0, solid);
    assert_near(carried_past_the_end(COVER_PEARL), solid, 1e-12); /* reactive is reactive here */
    assert_less(2.0 * solid, carried_past_the_end(COVER_URETHANE));
    assert_less(2.0 * solid, carried_past_the_end(COVER_POLYESTER));
}

/* The same line hits higher as a lane burns (common practice). */
static void test_same_line_higher_as_it_burns(void **state)
{
    (void)state;
    for (int slot = 1; slot <= 3; slot++) {
        Oil oil = SHEET;
        Delivery delivery = best_delivery(slot);
        double first = motion_arrive(&BODY[slot - 1], &oil, &delivery).board, last = first;
        for (int burst = 0; burst < 4; burst++) {
            for (int k = 0; k < 15; k++) {
                Roll roll = roll_of(slot, &oil);
                if (roll.gutter)
                    break;
                wear_delivery(&oil, &roll, COVER_SOLID, 0.0);
            }
            double board = motion_arrive(&BODY[slot - 1], &oil, &delivery).board;
            assert_less(last, board);
            last = board;
        }
        assert_less(first + 1.0, last);
    }
}

/* One ball after the other takes a share of what is left, and others' tracks lie beside it. */
static void test_traffic(void **state)
{
    (void)state;
    Oil alone = SHEET, four = SHEET;
    Roll roll = roll_of(1, &SHEET);
    for (int k = 0; k < 9; k++) {
        wear_delivery(&alone, &roll, COVER_SOLID, 0.0);
        wear_delivery(&four, &roll, COVER_SOLID, 0.0);
        for (int other = 0; other < 3; other++)
            wear_delivery(&four, &roll, COVER_SOLID, traffic_shift(3 * k + other));
    }
    double sheet = oil_volume_ml(&SHEET), one = oil_volume_ml(&alone);
    assert_less(one, sheet);
    assert_less(2.0 * (sheet - one), sheet - oil_volume_ml(&four));
    double sum = 0.0;
    for (int turn = 0; turn < 900; turn++) {
        assert_true(fabs(traffic_shift(turn)) <= 10.0 && traffic_shift(turn) != 0.0);
        sum += traffic_shift(turn);
    }
    assert_near(sum / 900.0, 0.0, 1.0); /* as many on either side */
}

/* A track made ready wears as the delivery does, and faster rates take more and carry further. */
static void test_rates(void **state)
{
    (void)state;
    Roll roll = roll_of(2, &SHEET);
    Track track;
    track_of(&roll, 0.5, &track);
    for (int cover = 0; cover < COVER_COUNT; cover++) {
        Oil a = SHEET, b = SHEET, fast = SHEET, none = SHEET;
        double held = wear_delivery(&a, &roll, (Cover)cover, 0.5);
        assert_near(wear_track(&b, &track, (Cover)cover, (WearRate){1.0, 1.0}), held, 0.0);
        assert_memory_equal(&a, &b, sizeof a);
        double before = oil_volume_ml(&fast);
        double more = wear_track(&fast, &track, (Cover)cover, (WearRate){2.0, 1.0});
        assert_less(1.5 * held, more);
        assert_near(before - oil_volume_ml(&fast), more, 1e-9 * before);
        assert_near(wear_track(&none, &track, (Cover)cover, (WearRate){0.0, 0.0}), 0.0, 0.0);
        assert_memory_equal(&none, &SHEET, sizeof none);
        double less = wear_track(&none, &track, (Cover)cover, (WearRate){1.0, 3.0});
        assert_less(less, held); /* more of it lies on the lane again */
    }
}

/* Rates far past any lane's still take no more than there is. */
static void test_wild_rates(void **state)
{
    (void)state;
    Roll roll = roll_of(1, &SHEET);
    Track track;
    track_of(&roll, 0.0, &track);
    Oil oil = SHEET;
    for (int k = 0; k < 20; k++) {
        double before = oil_volume_ml(&oil);
        double held = wear_track(&oil, &track, COVER_URETHANE, (WearRate){10.0, 100.0});
        assert_near(before - oil_volume_ml(&oil), held, 1e-9 * before);
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                assert_true(oil.units[j][b] >= 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_oil_is_conserved),
        cmocka_unit_test(test_conserved_on_odd_films),
        cmocka_unit_test(test_off_the_lane_nothing_happens),
        cmocka_unit_test(test_only_the_track),
        cmocka_unit_test(test_hard_covers_carry_further),
        cmocka_unit_test(test_same_line_higher_as_it_burns),
        cmocka_unit_test(test_traffic),
        cmocka_unit_test(test_rates),
        cmocka_unit_test(test_wild_rates),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
