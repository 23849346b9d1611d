/* The order of a bag. What it must be is common practice, no source: the strong asymmetric solid
 * first, pearls behind solids and hybrids of the same numbers, a rough ball before its smooth twin,
 * the spare ball last; and it depends neither on slots nor on the side a bowler throws from. */
#include "near.h"

#include <stdio.h>

#include "core/line/strength.h"
#include "store/files.h"

static Bag BAG;

static Oil sheet_of(const char *name, Hand hand)
{
    Pattern pattern;
    Error error = {0};
    Oil oil;
    assert_true(files_pattern(name, &pattern, &error));
    oil_lay(&pattern, &oil);
    oil_for_hand(&oil, hand, &oil);
    return oil;
}

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) ? 0 : -1;
}

/* A hybrid is not "up" from the strong asymmetric solid, on any length. */
static void demo_from_strong_to_weak(void **state)
{
    (void)state;
    static const char *const SHEETS[] = {"thimble", "apron", "parlour", "loaf", "lintel"};
    for (int i = 0; i < 5; i++) {
        Oil sheet = sheet_of(SHEETS[i], BAG.bowler.hand);
        int slots[BAG_SLOTS];
        Strength strength[BAG_SLOTS];
        assert_int_equal(strength_order(&BAG, &sheet, slots, strength), 6);
        for (int k = 0; k < 6; k++)
            printf("%s%d %.1f boards, %.0f ft", k ? ", " : "", slots[k],
                   strength[slots[k] - 1].hook_boards, strength[slots[k] - 1].hook_ft);
        printf(" (%s)\n", SHEETS[i]);
        assert_int_equal(slots[5], 6);
        assert_true(strength[0].score > strength[2].score - STRENGTH_ALIKE); /* solid, hybrid */
        assert_true(strength[2].score > strength[3].score);                  /* hybrid, pearl */
        assert_true(strength[3].score > strength[4].score);                  /* pearl, weak pearl */
        assert_true(strength[0].score > strength[1].score);                  /* solid, urethane */
    }
}

static void cover_and_surface_order_twins(void **state)
{
    (void)state;
    Oil sheet = sheet_of("apron", BAG.bowler.hand);
    double score[COVER_COUNT], last = INFINITY;
    for (int cover = 0; cover < COVER_COUNT; cover++) {
        Ball ball = *bag_slot(&BAG, 3);
        MotionBody body;
        ball.cover = (Cover)cover;
        motion_body(&ball, &body);
        score[cover] = strength_of(&body, &sheet, &BAG.bowler).score;
    }
    assert_true(score[COVER_SOLID] > score[COVER_HYBRID]);
    assert_true(score[COVER_HYBRID] > score[COVER_PEARL]);
    assert_true(score[COVER_PEARL] > score[COVER_POLYESTER]);
    static const double GRITS[] = {500, 1000, 2000, 4000};
    for (int i = 0; i < 4; i++) {
        Ball ball = *bag_slot(&BAG, 1);
        MotionBody body;
        ball.surface = (Surface){.finish = FINISH_GRIT, .grit = GRITS[i]};
        motion_body(&ball, &body);
        double now = strength_of(&body, &sheet, &BAG.bowler).score;
        assert_true(now < last);
        last = now;
    }
}

static void hands_mirror(void **state)
{
    (void)state;
    Bag left = BAG;
    left.bowler.hand = HAND_LEFT;
    Oil sheet = sheet_of("slant", HAND_RIGHT), mirrored = sheet;
    int a[BAG_SLOTS], b[BAG_SLOTS];
    Strength x[BAG_SLOTS], y[BAG_SLOTS];
    assert_int_equal(strength_order(&BAG, &sheet, a, x), strength_order(&left, &mirrored, b, y));
    assert_memory_equal(a, b, sizeof a);
    assert_memory_equal(x, y, sizeof x);
}

static void empty_slots_are_left_out(void **state)
{
    (void)state;
    Bag bag = BAG;
    Oil sheet = sheet_of("apron", bag.bowler.hand);
    for (int i = 0; i < bag.count; i++)
        if (bag.balls[i].slot == 1 || bag.balls[i].slot == 6)
            bag.balls[i].slot = 0;
    int slots[BAG_SLOTS];
    assert_int_equal(strength_order(&bag, &sheet, slots, NULL), 4);
    for (int i = 0; i < 4; i++)
        assert_true(slots[i] != 1 && slots[i] != 6);
}

/* By written scores, whatever slots they are in: the strongest first, equal ones as in the bag,
 * what is polyester behind all others and among itself alike. */
static void the_strongest_first(void **state)
{
    (void)state;
    Bag bag = BAG;
    for (int spares = 0; spares <= 3; spares++)
        for (int turn = 0; turn < BAG_SLOTS; turn++) {
            Strength strength[BAG_SLOTS];
            int slots[BAG_SLOTS];
            for (int i = 0; i < bag.count; i++) {
                int slot = bag.balls[i].slot;
                if (slot == 0)
                    continue;
                bag.balls[i].cover = slot <= spares ? COVER_POLYESTER : COVER_SOLID;
                int score = (slot * 5 + turn) % BAG_SLOTS / 2; /* some are equal */
                strength[slot - 1] = (Strength){.score = score};
            }
            assert_int_equal(strength_rank(&bag, strength, slots), BAG_SLOTS);
            for (int k = 1; k < BAG_SLOTS; k++) {
                int a = slots[k - 1], b = slots[k];
                double ahead = strength[a - 1].score - strength[b - 1].score;
                bool spare_a = a <= spares, spare_b = b <= spares;
                assert_true(spare_b >= spare_a);
                if (spare_a == spare_b)
                    assert_true(ahead > 0.0 || (ahead == 0.0 && a < b));
            }
        }
}

/* A ball without revs goes straight on, so it hooks by nothing, on any length; and a score is the
 * boards, and a quarter more for each foot sooner than 45. */
static void what_a_score_is(void **state)
{
    (void)state;
    static const char *const SHEETS[] = {"thimble", "apron", "lintel"};
    for (int i = 0; i < 3; i++) {
        Oil sheet = sheet_of(SHEETS[i], BAG.bowler.hand);
        Bowler straight = BAG.bowler;
        straight.rpm = BOWLER_RPM_LOW;
        straight.rotation_deg = straight.tilt_deg = 0.0;
        MotionBody body;
        motion_body(bag_slot(&BAG, 6), &body);
        assert_near(strength_of(&body, &sheet, &straight).hook_boards, 0.0, 1.0);
        for (int slot = 1; slot <= BAG_SLOTS; slot++) {
            motion_body(bag_slot(&BAG, slot), &body);
            Strength strength = strength_of(&body, &sheet, &BAG.bowler);
            assert_true(strength.hook_boards > 0.0 && strength.hook_boards < 40.0);
            assert_near(strength.score, strength.hook_boards + 0.25 * (45.0 - strength.hook_ft),
                        1e-9);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(demo_from_strong_to_weak),
        cmocka_unit_test(cover_and_surface_order_twins),
        cmocka_unit_test(hands_mirror),
        cmocka_unit_test(empty_slots_are_left_out),
        cmocka_unit_test(the_strongest_first),
        cmocka_unit_test(what_a_score_is),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
