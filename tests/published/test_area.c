/* test_area.c - how far a bowler may miss at the arrows and still hit the pocket: a house pattern
 * against a flat one.
 *
 * A = common practice, no source: a house shot gives two to three boards of area in all
 * B = a college team's page on house and sport shots (read): five boards either way on a house
 *     shot, "might only have one board" on a sport shot
 * C = an article of a governing body on its sport leagues (a page with its opening, read): to miss
 *     by a single board on a sport pattern can be a disaster
 * The governing body's comparison of 8:1 with 2:1 at 40 ft was found as pictures only: not read.
 * A and B do not agree on house shots; the model is held to A there. */
#include "near.h"

#include <stdio.h>

#include "core/line/line.h"
#include "helper_lane.h"
#include "store/files.h"

#define HOUSE "parlour" /* 8.6 to 1, 39 ft */
enum { STRIKE_BALLS = 5 };

typedef struct Area {
    double least, mean, most;
} Area;

static Bag BAG;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) ? 0 : -1;
}

static void house(Oil *oil)
{
    Pattern pattern;
    Error error = {0};
    assert_true(files_pattern(HOUSE, &pattern, &error));
    oil_lay(&pattern, oil);
    assert_near(oil_ratio(oil), 8.5, 0.75);
}

/* Of every strike ball of the bag on its own best line, and the boards it hits with a miss. */
static Area area_of(const char *name, const Oil *oil, const Bowler *bowler)
{
    Area area = {.least = 9.0};
    printf("%s:\n", name);
    for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
        MotionBody body;
        motion_body(bag_slot(&BAG, slot), &body);
        Delivery usual = delivery_of(bowler, 26.0, 15.0);
        Line line = line_best(&body, oil, bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
        assert_true(line.found);
        double boards = line.margin_in + line.margin_out;
        area.least = fmin(area.least, boards);
        area.most = fmax(area.most, boards);
        area.mean += boards / STRIKE_BALLS;
        printf("  slot %d over %4.1f: area %.1f (in %.1f, out %.1f); off by -2 -1 0 +1 +2 hits",
               slot, line.aim, boards, line.margin_in, line.margin_out);
        for (double off = -2.0; off <= 2.0; off += 1.0) {
            Delivery thrown = delivery_of(bowler, line.stance, line.aim + off);
            Arrival at = motion_arrive(&body, oil, &thrown);
            printf(" %4.1f", at.gutter ? 0.0 : at.board);
        }
        puts("");
    }
    printf("  least %.1f, mean %.1f, most %.1f\n", area.least, area.mean, area.most);
    return area;
}

/* A and, for the flat pattern, B and C: a board off on it is a miss. */
static void house_against_flat(void **state)
{
    (void)state;
    static Oil oil;
    house(&oil);
    double volume = oil_volume_ml(&oil);
    Area eight = area_of("house, 8.6:1 at 39 ft (A: 2 to 3 boards; B: 10)", &oil, &BAG.bowler);
    lane_shaped(40.0, volume, 2.0, &oil);
    Area two = area_of("flat, 2:1 at 40 ft, as much oil (B: 1 board)", &oil, &BAG.bowler);
    assert_near(eight.mean, 2.5, 0.5);
    assert_true(eight.least >= 2.0);
    assert_true(two.mean < 1.5 && two.least > 0.3);
    assert_true(eight.mean > 2.0 * two.mean);
}

/* A miss of about a board either way still finds the pocket on the house pattern, whatever the
 * ball. */
static void a_board_either_way(void **state)
{
    (void)state;
    static Oil oil;
    house(&oil);
    for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
        MotionBody body;
        motion_body(bag_slot(&BAG, slot), &body);
        Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
        Line line =
            line_best(&body, &oil, &BAG.bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
        for (double off = -1.0; off <= 1.0; off += 0.25) {
            Delivery thrown = delivery_of(&BAG.bowler, line.stance, line.aim + off);
            Arrival at = motion_arrive(&body, &oil, &thrown);
            assert_false(at.gutter);
            assert_true(at.board > LANE_POCKET_LOW - 0.25 && at.board < LANE_POCKET_HIGH + 0.25);
        }
    }
}

/* Polyester is no strike ball, neither the demo's nor a two-hander's (common practice, no source):
 * on a house pattern a ball made for striking is worth more. */
static void polyester_is_for_spares(void **state)
{
    (void)state;
    static const char *const BAGS[] = {"demo", "demo-left"};
    for (int b = 0; b < 2; b++) {
        static Oil oil;
        Bag bag;
        Error error = {0};
        double best = 0.0, spare = 1.0;
        assert_true(files_bag(BAGS[b], &bag, &error));
        house(&oil);
        oil_for_hand(&oil, bag.bowler.hand, &oil);
        for (int slot = 1; slot <= BAG_SLOTS; slot++) {
            const Ball *ball = bag_slot(&bag, slot);
            MotionBody body;
            motion_body(ball, &body);
            Delivery usual = delivery_of(&bag.bowler, 26.0, 15.0);
            Line line =
                line_best(&body, &oil, &bag.bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
            double value = line_value(&line);
            printf("%s slot %d: pocket %.0f %%, worth %.3f\n", BAGS[b], slot, 100.0 * line.pocket,
                   value);
            if (ball->cover == COVER_POLYESTER)
                spare = value;
            else
                best = fmax(best, value);
        }
        assert_less(spare + 0.03, best);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(house_against_flat),
        cmocka_unit_test(a_board_either_way),
        cmocka_unit_test(polyester_is_for_spares),
    };
    return cmocka_run_group_tests_name("area", tests, set_up, NULL);
}
