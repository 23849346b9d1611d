/* test_bag_edit.c - edits of a bag that can't be done leave it as it was. Derived; no outside
 * source. */
#include "near.h"

#include <limits.h>
#include <string.h>

#include "core/bag/bag_edit.h"

static Bag two(void)
{
    Bag bag = {.bowler = bowler_default(), .count = 2};
    for (int i = 0; i < 2; i++) {
        bag.balls[i] = ball_default();
        bag.balls[i].id[0] = (char)('a' + i);
        bag.balls[i].id[1] = '\0';
        bag.balls[i].slot = i + 1;
    }
    return bag;
}

/* No ball is there: before the first, behind the last, and as far away as a number reaches. */
static void no_such_ball(void **state)
{
    (void)state;
    static const int AT[] = {-1, 2, BAG_BALLS_MAX, INT_MIN, INT_MAX};
    static const BagEditKind KINDS[] = {BAG_CHANGE, BAG_REMOVE, BAG_PLACE};
    Bag bag = two(), before = bag;
    for (int i = 0; i < 5; i++)
        for (int k = 0; k < 3; k++) {
            Error error = {0};
            BagEdit edit = {.kind = KINDS[k], .at = AT[i], .slot = 1, .ball = ball_default()};
            assert_false(bag_apply(&bag, &edit, &error));
            assert_string_equal(error.text, "no such ball");
            assert_memory_equal(&bag, &before, sizeof bag);
        }
}

/* A new ball has no place yet: `at` is ignored. */
static void a_ball_joins(void **state)
{
    (void)state;
    Bag bag = two();
    BagEdit edit = {.kind = BAG_ADD, .at = INT_MIN, .ball = ball_default()};
    assert_true(bag_apply(&bag, &edit, NULL));
    assert_int_equal(bag.count, 3);
    assert_string_equal(bag.balls[2].id, "ball");
    assert_int_equal(bag.balls[2].slot, 0);
    assert_false(bag_apply(&bag, &edit, NULL)); /* the id is taken */
    assert_int_equal(bag.count, 3);
}

static void the_last_ball_leaves(void **state)
{
    (void)state;
    Bag bag = two();
    assert_true(bag_apply(&bag, &(BagEdit){.kind = BAG_REMOVE, .at = 1}, NULL));
    assert_true(bag_apply(&bag, &(BagEdit){.kind = BAG_REMOVE, .at = 0}, NULL));
    assert_int_equal(bag.count, 0);
    assert_false(bag_apply(&bag, &(BagEdit){.kind = BAG_REMOVE, .at = 0}, NULL));
}

static void slots_change_places(void **state)
{
    (void)state;
    Bag bag = two(), before = bag;
    assert_true(bag_apply(&bag, &(BagEdit){.kind = BAG_PLACE, .at = 0, .slot = 2}, NULL));
    assert_int_equal(bag.balls[0].slot, 2);
    assert_int_equal(bag.balls[1].slot, 1);
    bag = before;
    assert_false(bag_apply(&bag, &(BagEdit){.kind = BAG_PLACE, .at = 0, .slot = 7}, NULL));
    assert_memory_equal(&bag, &before, sizeof bag);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_such_ball),
        cmocka_unit_test(a_ball_joins),
        cmocka_unit_test(the_last_ball_leaves),
        cmocka_unit_test(slots_change_places),
    };
    return cmocka_run_group_tests_name("bag edit", tests, NULL, NULL);
}
