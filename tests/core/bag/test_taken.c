/* test_taken.c - numbers taken over from events and taken back: the bag is then as it was. */
#include "near.h"

#include "core/bag/preset.h"
#include "core/bag/taken.h"

static Bag bag_of(void)
{
    Bag bag = {.bowler =
                   preset_bowler(preset_level("league"), preset_style("tweener"), HAND_RIGHT)};
    Error error = {0};
    assert_true(preset_balls("pearl,spare", 15.0, &bag, &error));
    return bag;
}

static void taken_and_back(void **state)
{
    (void)state;
    const Bag was = bag_of();
    for (int kind = LEARNT_MPH; kind <= LEARNT_BALL; kind++) {
        Bag bag = was;
        assert_false(taken_is(&bag, (LearntKind)kind, 0));
        assert_false(taken_back(&bag, (LearntKind)kind, 0));
        taken_over(&bag, (LearntKind)kind, 0, kind == LEARNT_MPH ? 19.0 : 1.05);
        assert_true(taken_is(&bag, (LearntKind)kind, 0));
        assert_false(bowler_same(&bag.bowler, &was.bowler) &&
                     ball_same(&bag.balls[0], &was.balls[0]));
        assert_true(taken_back(&bag, (LearntKind)kind, 0));
        assert_true(bowler_same(&bag.bowler, &was.bowler));
        assert_true(ball_same(&bag.balls[0], &was.balls[0]));
    }
}

/* Learnt twice: what is put back is what stood there before the first time. */
static void the_first_stays(void **state)
{
    (void)state;
    Bag bag = bag_of();
    double was = bag.bowler.mph, launch = bag.bowler.scatter.launch_deg;
    taken_over(&bag, LEARNT_MPH, 0, 19.0);
    taken_over(&bag, LEARNT_MPH, 0, 19.5);
    assert_near(bag.bowler.mph, 19.5, 0.0);
    taken_back(&bag, LEARNT_MPH, 0);
    assert_near(bag.bowler.mph, was, 0.0);
    assert_int_equal(bag.bowler.from.mph, SOURCE_PRESET);
    taken_over(&bag, LEARNT_SCATTER, 0, 0.5);
    taken_over(&bag, LEARNT_SCATTER, 0, 0.5);
    assert_near(bag.bowler.scatter.launch_deg, 0.25 * launch, 1e-15);
    taken_back(&bag, LEARNT_SCATTER, 0);
    assert_near(bag.bowler.scatter.launch_deg, launch, 0.0);
}

/* A number somebody gives afterwards is theirs: there is nothing to take back. */
static void said_since(void **state)
{
    (void)state;
    Bag bag = bag_of();
    taken_over(&bag, LEARNT_MPH, 0, 19.0);
    bag.bowler.mph = 18.2;
    bag.bowler.from.mph = SOURCE_SAID;
    assert_false(taken_back(&bag, LEARNT_MPH, 0));
    assert_near(bag.bowler.mph, 18.2, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(taken_and_back),
        cmocka_unit_test(the_first_stays),
        cmocka_unit_test(said_since),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
