/* test_delivery.c - what leaves the hand when it is not as meant, and what becomes of a ball that
 * hardly anybody could throw. Derived from the functions' own words; no outside source. */
#include "near.h"

#include <string.h>

#include "core/motion/batch.h"

static void an_offset_adds(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    Delivery meant = delivery_of(&bowler, 25.0, 12.0);
    DeliveryOffset by = {.launch_deg = -0.25, .mph = 0.5, .rpm = -12.0, .laydown_boards = 0.75};
    Delivery thrown = delivery_offset(&meant, &by);
    assert_near(thrown.launch_deg, meant.launch_deg - 0.25, 0.0);
    assert_near(thrown.mph, meant.mph + 0.5, 0.0);
    assert_near(thrown.rpm, meant.rpm - 12.0, 0.0);
    assert_near(thrown.laydown_board, meant.laydown_board + 0.75, 0.0);
    assert_near(thrown.rotation_deg, meant.rotation_deg, 0.0);
    assert_near(thrown.tilt_deg, meant.tilt_deg, 0.0);
    assert_near(thrown.loft_ft, meant.loft_ft, 0.0);
}

static void nobody_throws_less_than_nothing(void **state)
{
    (void)state;
    Delivery meant = {.mph = 8.0, .rpm = 50.0};
    Delivery thrown = delivery_offset(&meant, &(DeliveryOffset){.mph = -12.0, .rpm = -300.0});
    assert_near(thrown.mph, DELIVERY_MPH_LEAST, 0.0);
    assert_near(thrown.rpm, 0.0, 0.0);
}

/* A plan's own changes and the day's add up; loft and speed keep their floors. */
static void a_plan_on_a_day(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    Plan plan = {.slot = 1,
                 .stance = 25.0,
                 .aim = 12.0,
                 .mph_change = -0.5,
                 .loft_change_ft = -3.0,
                 .rotation_change_deg = 10.0};
    DeliveryOffset today = {.launch_deg = 0.1, .mph = 0.3}, usual = {0};
    Delivery meant = plan_delivery(&bowler, &plan), thrown = plan_today(&bowler, &plan, &today);
    assert_near(meant.mph, bowler.mph - 0.5, 0.0);
    assert_near(meant.loft_ft, 0.0, 0.0);
    assert_near(meant.rotation_deg, bowler.rotation_deg + 10.0, 0.0);
    assert_near(thrown.mph, meant.mph + 0.3, 0.0);
    assert_near(thrown.launch_deg, meant.launch_deg + 0.1, 0.0);
    assert_near(thrown.loft_ft, 0.0, 0.0);
    Delivery same = plan_today(&bowler, &plan, &usual);
    assert_memory_equal(&same, &meant, sizeof meant);
    today.mph = -30.0;
    assert_near(plan_today(&bowler, &plan, &today).mph, DELIVERY_MPH_LEAST, 0.0);
}

/* Aimed at what plan_aim_today says, a throw of today crosses the board that was asked for. */
static void an_aim_on_a_day(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    for (double crosses = 3.0; crosses <= 25.0; crosses += 2.0)
        for (double off = -0.4; off <= 0.4; off += 0.2) {
            DeliveryOffset today = {.launch_deg = off, .laydown_boards = 2.0 * off};
            Plan plan = {.slot = 1, .stance = 26.0};
            double laydown = plan.stance - bowler.laydown_offset_boards;
            plan.aim = plan_aim_today(laydown, crosses, &today);
            Delivery thrown = plan_today(&bowler, &plan, &today);
            assert_near(delivery_aim_board(thrown.laydown_board, thrown.launch_deg), crosses, 1e-9);
        }
}

static void ready(MotionBody *body, BatchBall *batch, Oil *oil, BatchOil *film)
{
    Ball ball = ball_default();
    Pattern pattern = {.length_ft = 40.0, .stroke_count = 1};
    pattern.strokes[0] = (Stroke){1, 39, 0.0, 40.0, 60.0, 10.0};
    motion_body(&ball, body);
    batch_ball(body, batch);
    oil_lay(&pattern, oil);
    batch_oil(oil, BATCH_QUICK, film);
}

/* Turning backward as fast as it goes forward: friction takes all of its speed. */
static void a_ball_that_stops_never_arrives(void **state)
{
    (void)state;
    static MotionBody body;
    static BatchBall batch;
    static Oil oil;
    static BatchOil film;
    static Roll roll;
    Arrival arrival;
    BatchThrow one = {
        .delivery = {.laydown_board = 20.0, .mph = 8.0, .rpm = 650.0, .rotation_deg = 180.0},
        .film_scale = 1.0f,
        .dry_scale = 1.0f};
    ready(&body, &batch, &oil, &film);
    motion_roll(&body, &oil, &one.delivery, &roll);
    assert_true(roll.gutter);
    const PathPoint *last = &roll.path[roll.count - 1];
    assert_near(last->board, 20.0, 1e-6);
    assert_true(last->ft < LANE_LENGTH_FT);
    assert_near(last->mph, 0.0, 3.0);
    batch_arrive(&batch, &film, &one, 1, &arrival);
    assert_true(arrival.gutter);
}

/* Every corner of what can be asked for, and beyond: either it comes to the pins, with figures
 * that are numbers, or it does not. */
static void every_corner_ends(void **state)
{
    (void)state;
    static const double MPH[] = {DELIVERY_MPH_LEAST, 8.0, 28.0, 45.0}, RPM[] = {0.0, 50.0, 900.0};
    static const double TURN[] = {-110.0, 0.0, 110.0, 220.0}, TILT[] = {0.0, 60.0};
    static const double LOFT[] = {0.0, 20.0}, LAYDOWN[] = {-30.0, 1.0, 20.0, 39.0, 75.0};
    static const double LAUNCH[] = {-35.0, 0.0, 35.0};
    static MotionBody body;
    static BatchBall batch;
    static Oil oil;
    static BatchOil film;
    enum { CORNERS = 4 * 3 * 4 * 2 * 2 * 5 * 3 };
    static BatchThrow throws[CORNERS];
    static Arrival arrivals[CORNERS];
    ready(&body, &batch, &oil, &film);
    for (int i = 0; i < CORNERS; i++) {
        int at = i;
        Delivery *d = &throws[i].delivery;
        throws[i].film_scale = throws[i].dry_scale = 1.0f;
        d->mph = MPH[at % 4], at /= 4;
        d->rpm = RPM[at % 3], at /= 3;
        d->rotation_deg = TURN[at % 4], at /= 4;
        d->tilt_deg = TILT[at % 2], at /= 2;
        d->loft_ft = LOFT[at % 2], at /= 2;
        d->laydown_board = LAYDOWN[at % 5], at /= 5;
        d->launch_deg = LAUNCH[at % 3];
    }
    batch_arrive(&batch, &film, throws, CORNERS, arrivals);
    int arrived = 0, apart = 0;
    for (int i = 0; i < CORNERS; i++) {
        Arrival one = motion_arrive(&body, &oil, &throws[i].delivery);
        const Arrival *both[] = {&arrivals[i], &one};
        for (int k = 0; k < 2; k++) {
            assert_true(both[k]->gutter || (both[k]->board >= 0.5 && both[k]->board <= 39.5));
            assert_true(both[k]->gutter || (isfinite(both[k]->degrees) && both[k]->mph > 0.0));
        }
        apart += one.gutter != arrivals[i].gutter;
        arrived += !one.gutter;
    }
    assert_true(arrived > 100 && arrived < CORNERS - 100);
    assert_true(apart <= 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(an_offset_adds),
        cmocka_unit_test(nobody_throws_less_than_nothing),
        cmocka_unit_test(a_plan_on_a_day),
        cmocka_unit_test(an_aim_on_a_day),
        cmocka_unit_test(a_ball_that_stops_never_arrives),
        cmocka_unit_test(every_corner_ends),
    };
    return cmocka_run_group_tests_name("delivery", tests, NULL, NULL);
}
