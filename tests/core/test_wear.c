/* Oil taken up and carried on, and the film as estimated from shots. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/line.h"
#include "core/wear.h"
#include "store/files.h"

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
        BEST[i] = line_search(&BODY[i], &SHEET, &BAG.bowler, &usual, 21.0);
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

/* Only what lies under the track changes: nothing four deviations, 2.4 boards, away. */
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

/* Oil that lies where the pattern had none, after one ball. */
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
    assert_less(3.0 * solid, carried_past_the_end(COVER_URETHANE));
    assert_less(3.0 * solid, carried_past_the_end(COVER_POLYESTER));
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

static Shot shot_on(int slot, double mph)
{
    return (Shot){.lane = SIDE_LEFT,
                  .slot = slot,
                  .stance = BEST[slot - 1].stance,
                  .aim = BEST[slot - 1].aim,
                  .mph = mph,
                  .release = RELEASE_GOOD};
}

static void test_lane_begin(void **state)
{
    (void)state;
    static LaneState lane;
    lane_begin(&lane, &SHEET);
    assert_near(lane.scale, 1.0, 0.04); /* the sheet is taken at its word */
    assert_near(lane.scale_sd, 0.18, 0.03);
    assert_int_equal(lane.deliveries, 0);
    assert_int_equal(lane.evidence, 0);
    assert_memory_equal(&lane.oil, &SHEET, sizeof SHEET);
}

static void test_lane_wear(void **state)
{
    (void)state;
    static LaneState alone, four;
    lane_begin(&alone, &SHEET);
    lane_begin(&four, &SHEET);
    Shot shot = shot_on(1, 0.0);
    for (int k = 0; k < 9; k++) {
        lane_wear(&alone, &BAG.bowler, &BODY[0], bag_slot(&BAG, 1), &shot, 1);
        lane_wear(&four, &BAG.bowler, &BODY[0], bag_slot(&BAG, 1), &shot, 4);
    }
    assert_int_equal(alone.deliveries, 9);
    assert_int_equal(four.deliveries, 36);
    double sheet = oil_volume_ml(&SHEET), one = oil_volume_ml(&alone.oil);
    assert_less(one, sheet);
    assert_less(sheet - one, 0.5 * (sheet - oil_volume_ml(&four.oil))); /* others wear it too */
}

static void test_lane_film(void **state)
{
    (void)state;
    static LaneState lane;
    lane_begin(&lane, &SHEET);
    lane.scale = 0.7;
    Oil film;
    lane_film(&lane, &film);
    assert_near(oil_volume_ml(&film), 0.7 * oil_volume_ml(&SHEET), 1e-9);
    assert_near(oil_volume_ml(&lane.oil), oil_volume_ml(&SHEET), 0.0);
}

/* What a bowler would say of a shot on a lane whose film is `truth` times the sheet. */
static Shot seen_on(double truth, int slot, Rng *rng)
{
    Oil film = SHEET;
    oil_scale(&film, truth);
    Shot shot = shot_on(slot, BAG.bowler.mph);
    Delivery delivery = delivery_of(&BAG.bowler, shot.stance, shot.aim);
    double expected = motion_arrive(&BODY[slot - 1], &SHEET, &delivery).first_move_ft;
    delivery.launch_deg += BAG.bowler.scatter.launch_deg * rng_normal(rng);
    delivery.rpm += BAG.bowler.scatter.rpm * rng_normal(rng);
    Arrival arrival = motion_arrive(&BODY[slot - 1], &film, &delivery);
    shot.hit =
        arrival.gutter ? HIT_GUTTER : shot_hit_of_board(arrival.board + 0.5 * rng_normal(rng));
    double later = arrival.first_move_ft - expected;
    shot.read = later > 2.0 ? READ_LATE : later < -2.0 ? READ_EARLY : READ_ON_TIME;
    return shot;
}

static double estimate(double truth, uint64_t seed, int shots, double trust, double *deviation)
{
    static LaneState lane;
    Rng rng = rng_seed(seed);
    lane_begin(&lane, &SHEET);
    for (int k = 0; k < shots; k++) {
        int slot = 1 + k % 4;
        Shot shot = seen_on(truth, slot, &rng);
        lane_weigh(&lane, &BAG.bowler, &BODY[slot - 1], &shot, trust);
    }
    assert_int_equal(lane.evidence, shots);
    *deviation = lane.scale_sd;
    return lane.scale;
}

static void test_estimate_moves_toward_the_truth(void **state)
{
    (void)state;
    double sd, less = 0.0, same = 0.0, more = 0.0;
    for (uint64_t seed = 1; seed <= 5; seed++) {
        double low = estimate(0.8, seed, 12, 1.0, &sd), high = estimate(1.2, seed, 12, 1.0, &sd);
        assert_less(low, 1.0);
        assert_less(1.0, high);
        less += low / 5.0;
        more += high / 5.0;
        same += estimate(1.0, seed, 12, 1.0, &sd) / 5.0;
    }
    assert_near(less, 0.8, 0.1);
    assert_near(same, 1.0, 0.1);
    assert_near(more, 1.2, 0.12);
}

static void test_deviation_shrinks(void **state)
{
    (void)state;
    double none, few, many;
    estimate(1.0, 1, 0, 1.0, &none);
    estimate(1.0, 1, 4, 1.0, &few);
    estimate(1.0, 1, 16, 1.0, &many);
    assert_less(few, none);
    assert_less(many, few);
    assert_less(0.0, many);
}

static void test_trust(void **state)
{
    (void)state;
    double sd, full = estimate(0.8, 2, 6, 1.0, &sd), half = estimate(0.8, 2, 6, 0.4, &sd),
               none = estimate(0.8, 2, 6, 0.0, &sd);
    assert_less(full, half);
    assert_less(half, none);
    static LaneState fresh;
    lane_begin(&fresh, &SHEET);
    assert_near(none, fresh.scale, 1e-12);
}

static void test_bad_releases_change_nothing(void **state)
{
    (void)state;
    static LaneState lane, before;
    lane_begin(&lane, &SHEET);
    before = lane;
    for (int release = RELEASE_GOOD + 1; release < RELEASE_COUNT; release++)
        for (int hit = 0; hit < HIT_COUNT; hit++) {
            Shot shot = shot_on(1, 0.0);
            shot.release = (Release)release;
            shot.hit = (Hit)hit;
            shot.read = READ_EARLY;
            lane_weigh(&lane, &BAG.bowler, &BODY[0], &shot, 1.0);
        }
    assert_memory_equal(&lane, &before, sizeof lane);
}

static void test_unsaid_changes_nothing(void **state)
{
    (void)state;
    static LaneState lane, before;
    lane_begin(&lane, &SHEET);
    before = lane;
    Shot shot = shot_on(1, 0.0);
    shot.left_said = true;
    lane_weigh(&lane, &BAG.bowler, &BODY[0], &shot, 1.0);
    assert_memory_equal(&lane, &before, sizeof lane);
}

/* Early says less film, late says more; a hit higher than it should be less, a lighter one more. */
static void test_which_way(void **state)
{
    (void)state;
    static LaneState lane;
    static const struct {
        Hit hit;
        Read read;
        int way;
    } CASES[] = {{HIT_UNSAID, READ_EARLY, -1}, {HIT_UNSAID, READ_LATE, 1},
                 {HIT_UNSAID, READ_NONE, 1},   {HIT_NOSE, READ_UNSAID, -1},
                 {HIT_THIN, READ_UNSAID, 1},   {HIT_NOSE, READ_EARLY, -1},
                 {HIT_THIN, READ_LATE, 1}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        lane_begin(&lane, &SHEET);
        double before = lane.scale;
        Shot shot = shot_on(1, 0.0);
        shot.hit = CASES[i].hit;
        shot.read = CASES[i].read;
        lane_weigh(&lane, &BAG.bowler, &BODY[0], &shot, 1.0);
        assert_int_equal(lane.evidence, 1);
        assert_less(0.0, CASES[i].way * (lane.scale - before));
    }
}

/* Contradictions without end leave numbers, and a scale inside the grid. */
static void test_contradictions(void **state)
{
    (void)state;
    static LaneState lane;
    lane_begin(&lane, &SHEET);
    for (int k = 0; k < 100; k++) {
        Shot shot = shot_on(1 + k % BAG_SLOTS, 5.0 + k % 30);
        shot.hit = (Hit)(1 + k % (HIT_COUNT - 1));
        shot.read = (Read)(k % READ_COUNT);
        lane_weigh(&lane, &BAG.bowler, &BODY[k % BAG_SLOTS], &shot, 1.0);
        assert_true(isfinite(lane.scale) && lane.scale > 0.5 && lane.scale < 1.5);
        assert_true(isfinite(lane.scale_sd) && lane.scale_sd >= 0.0);
    }
}

/* No oil at all: nothing to take, nothing to weigh, no NaN. */
static void test_dry_lane(void **state)
{
    (void)state;
    static LaneState lane;
    Oil dry = {.length_ft = 20.0};
    lane_begin(&lane, &dry);
    Shot shot = shot_on(1, 0.0);
    shot.hit = HIT_CROSSED;
    shot.read = READ_EARLY;
    lane_weigh(&lane, &BAG.bowler, &BODY[0], &shot, 1.0);
    lane_wear(&lane, &BAG.bowler, &BODY[0], bag_slot(&BAG, 1), &shot, 4);
    assert_near(oil_volume_ml(&lane.oil), 0.0, 0.0);
    assert_near(lane.scale, 1.0, 0.04);
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
        cmocka_unit_test(test_lane_begin),
        cmocka_unit_test(test_lane_wear),
        cmocka_unit_test(test_lane_film),
        cmocka_unit_test(test_estimate_moves_toward_the_truth),
        cmocka_unit_test(test_deviation_shrinks),
        cmocka_unit_test(test_trust),
        cmocka_unit_test(test_bad_releases_change_nothing),
        cmocka_unit_test(test_unsaid_changes_nothing),
        cmocka_unit_test(test_which_way),
        cmocka_unit_test(test_contradictions),
        cmocka_unit_test(test_dry_lane),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
