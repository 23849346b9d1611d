/* test_first.c - the ball and line to begin with, on the demo's bag and the patterns carried. */
#include "near.h"

#include "core/line/first.h"
#include "core/line/line.h"
#include "store/files.h"

static Bag BAG;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) ? 0 : -1;
}

static void film_of(const char *id, Hand hand, Oil *oil)
{
    Pattern pattern;
    Oil sheet;
    Error error = {0};
    assert_true(files_pattern(id, &pattern, &error));
    oil_lay(&pattern, &sheet);
    oil_for_hand(&sheet, hand, oil);
}

static Line line_of(const Bag *bag, int slot, const Oil *oil)
{
    MotionBody body;
    Delivery usual = delivery_of(&bag->bowler, 20.0, 12.0);
    motion_body(bag_slot(bag, slot), &body);
    return line_best(&body, oil, &bag->bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
}

/* No ball of the bag but a spare ball has a better line, and the plan is on the ball's own. */
static void no_other_ball_is_better(void **state)
{
    (void)state;
    static const char *const IDS[] = {"apron", "kerb", "lintel"};
    for (int i = 0; i < 3; i++) {
        Oil oil;
        film_of(IDS[i], HAND_RIGHT, &oil);
        Plan plan = first_plan(&BAG, &oil);
        assert_in_range(plan.slot, 1, BAG_SLOTS);
        Line own = line_of(&BAG, plan.slot, &oil);
        assert_true(own.found && own.breakpoint_board >= 3.0);
        assert_near(plan.stance, own.stance, 0.0);
        assert_near(plan.aim, own.aim, 0.25);
        assert_near(plan.aim * 2.0, round(plan.aim * 2.0), 0.0);
        for (int slot = 1; slot <= BAG_SLOTS; slot++) {
            const Ball *ball = bag_slot(&BAG, slot);
            if (!ball || ball->cover == COVER_POLYESTER)
                continue;
            Line other = line_of(&BAG, slot, &oil);
            assert_false(line_better(&other, &own));
        }
    }
}

/* Its first step is no answer yet, its last one the best of every ball and laydown. */
static void steps_lead_to_the_plan(void **state)
{
    (void)state;
    Oil oil;
    film_of("kerb", HAND_RIGHT, &oil);
    FirstJob job = first_begin(&BAG, &oil);
    int steps = 0;
    assert_int_equal(job.plan.slot, 0);
    while (!first_step(&job)) {
        if (++steps == 1)
            assert_int_equal(job.plan.slot, 0);
        assert_true(steps < 200);
    }
    assert_true(steps > BAG_SLOTS); /* more than a ball a step would keep keys waiting */
    Line best = line_of(&BAG, job.plan.slot, &oil);
    assert_near(job.plan.stance, best.stance, 0.0);
    assert_near(job.plan.aim, best.aim, 0.25);
}

/* A left-hander on the mirrored lane begins as a right-hander does. */
static void hands_begin_alike(void **state)
{
    (void)state;
    Oil right, left;
    Bag bag = BAG;
    film_of("apron", HAND_RIGHT, &right); /* the same from both sides */
    film_of("apron", HAND_LEFT, &left);
    bag.bowler.hand = HAND_LEFT;
    Plan a = first_plan(&BAG, &right), b = first_plan(&bag, &left);
    assert_int_equal(a.slot, b.slot);
    assert_near(a.stance, b.stance, 0.0);
    assert_near(a.aim, b.aim, 0.0);
}

/* A spare ball is thrown first only where there is nothing else; without a ball there is no plan.
 */
static void spare_ball_is_the_last_resort(void **state)
{
    (void)state;
    Oil oil;
    Bag bag = BAG;
    film_of("apron", HAND_RIGHT, &oil);
    bag.count = 2;
    bag.balls[0] = bag.balls[1] = ball_default();
    bag.balls[0].cover = COVER_POLYESTER;
    for (int swap = 0; swap < 2; swap++) { /* wherever it lies */
        bag.balls[0].slot = swap ? 4 : 2;
        bag.balls[1].slot = swap ? 2 : 4;
        assert_int_equal(first_plan(&bag, &oil).slot, bag.balls[1].slot);
    }
    bag.count = 1;
    assert_int_equal(first_plan(&bag, &oil).slot, 4);
    bag.count = 0;
    assert_int_equal(first_plan(&bag, &oil).slot, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_other_ball_is_better),
        cmocka_unit_test(steps_lead_to_the_plan),
        cmocka_unit_test(hands_begin_alike),
        cmocka_unit_test(spare_ball_is_the_last_resort),
    };
    return cmocka_run_group_tests_name("first", tests, set_up, NULL);
}
