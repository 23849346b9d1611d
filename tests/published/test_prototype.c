/* test_prototype.c - the first design's figures, met by the program. They are an independent run of
 * the same model, not a measurement (derived). */
#include "near.h"

#include <stdio.h>

#include "core/motion/motion.h"
#include "helper_lane.h"

typedef struct Row {
    const char *name;
    double rg, differential, intermediate;
    Cover cover;
    double strength, film; /* film 0: as the cover's */
    Surface surface;
    double arrows, break_board, break_ft, entry, move_ft, roll_ft; /* roll 0: skids */
} Row;

static const Row ROWS[] = {
    {"2.48 .054 .018 solid 2000",
     2.48,
     .054,
     .018,
     COVER_SOLID,
     1.0,
     0,
     {FINISH_GRIT, 2000, 0},
     14.9,
     8.2,
     42,
     3.8,
     21,
     53},
    {"2.50 .050 hybrid 1500",
     2.50,
     .050,
     0,
     COVER_HYBRID,
     1.0,
     0,
     {FINISH_GRIT, 1500, 0},
     15.0,
     7.9,
     42,
     4.0,
     24,
     53},
    {"2.52 .048 pearl 3000",
     2.52,
     .048,
     0,
     COVER_PEARL,
     1.0,
     0,
     {FINISH_GRIT, 3000, 0},
     15.7,
     8.7,
     43,
     4.3,
     28,
     56},
    {"2.57 .046 weak pearl polish",
     2.57,
     .046,
     0,
     COVER_PEARL,
     0.92,
     0.025,
     {FINISH_POLISH, 0, 0},
     16.3,
     9.6,
     44,
     4.8,
     33,
     59},
    {"2.58 .018 urethane 1000",
     2.58,
     .018,
     0,
     COVER_URETHANE,
     1.0,
     0,
     {FINISH_GRIT, 1000, 0},
     14.3,
     7.8,
     40,
     3.9,
     19,
     54},
    {"2.70 .010 polyester",
     2.70,
     .010,
     0,
     COVER_POLYESTER,
     1.0,
     0,
     {FINISH_POLISH, 0, 0},
     18.0,
     13.5,
     44,
     2.6,
     41,
     0},
};
/* The last two, urethane and polyester, are printed and not held: both grip less now, since with
 * the first figures urethane was the best ball on long fresh oil and polyester a strike ball
 * (docs/model.md, "Friction"). */
enum { ROWS_COUNT = sizeof ROWS / sizeof ROWS[0], REACTIVE = ROWS_COUNT - 2 };

static Oil lane;

static int lay_lane(void **unused)
{
    (void)unused;
    lane_shaped(40.0, 25.0, 3.0, &lane);
    return 0;
}

static MotionBody body_of_row(const Row *row)
{
    Ball ball = ball_default();
    MotionBody body;
    ball.rg_in = row->rg;
    ball.differential_in = row->differential;
    ball.intermediate_in = row->intermediate;
    ball.cover = row->cover;
    ball.cover_strength = row->strength;
    ball.surface = row->surface;
    motion_body(&ball, &body);
    if (row->film > 0.0)
        body.friction.mu_film = row->film;
    return body;
}

static void test_lane_is_the_prototypes(void **unused)
{
    (void)unused;
    assert_near(oil_volume_ml(&lane), 25.0, 1e-6);
    assert_near(oil_ratio(&lane), 3.0, 1e-6);
    assert_near(oil_length_ft(&lane), 40.0, 1e-9);
}

/* Boards within 1, feet within 3, entry within 0.5 degree. "Arrows" is where the ball is at 15 ft
 * (friction has bent its path by then); the low-flare ball is urethane, which model.md leaves out
 * and its first move and end of slip tell. */
static void test_six_balls(void **unused)
{
    (void)unused;
    int off = 0;
    printf("%-28s %15s %21s %13s %13s %13s\n", "laydown 22, to 17.5; / is model.md", "arrows",
           "breakpoint @ ft", "entry", "first move", "roll by");
    for (int i = 0; i < ROWS_COUNT; i++) {
        const Row *row = &ROWS[i];
        MotionBody body = body_of_row(row);
        Delivery delivery = lane_release(22.0);
        Roll roll;
        assert_true(lane_find_launch(&body, &lane, &delivery, 17.5));
        motion_roll(&body, &lane, &delivery, &roll);
        printf("%-28s %6.1f / %-6.1f %5.1f@%2.0f / %4.1f@%2.0f %6.1f / %-4.1f %6.0f / %-4.0f "
               "%6.0f / %-4.0f\n",
               row->name, roll.path[30].board, row->arrows, roll.breakpoint_board,
               roll.breakpoint_ft, row->break_board, row->break_ft, roll.entry_deg, row->entry,
               roll.first_move_ft, row->move_ft, roll.roll_ft, row->roll_ft);
        assert_near(roll.entry_board, 17.5, 0.05);
        if (i >= REACTIVE)
            continue;
        off += !(fabs(roll.path[30].board - row->arrows) <= 1.0);
        off += !(fabs(roll.breakpoint_board - row->break_board) <= 1.0);
        off += !(fabs(roll.breakpoint_ft - row->break_ft) <= 3.0);
        off += !(fabs(roll.entry_deg - row->entry) <= 0.5);
        off += !(fabs(roll.first_move_ft - row->move_ft) <= 3.0);
        off +=
            row->roll_ft > 0.0 ? !(fabs(roll.roll_ft - row->roll_ft) <= 3.0) : !isnan(roll.roll_ft);
    }
    assert_int_equal(off, 0);
}

/* The strong solid's line, changed a little. */
static double shifted(double mph, double rpm, double launch_deg, const Oil *oil)
{
    MotionBody body = body_of_row(&ROWS[0]);
    Delivery delivery = lane_release(22.0);
    assert_true(lane_find_launch(&body, oil, &delivery, 17.5));
    delivery.mph += mph;
    delivery.rpm += rpm;
    delivery.launch_deg += launch_deg;
    return motion_arrive(&body, oil, &delivery).board - 17.5;
}

/* One mph faster ends 3.1 boards lighter; 25 rpm more 1.7 higher. */
static void test_speed_and_revs(void **unused)
{
    (void)unused;
    double faster = shifted(1.0, 0.0, 0.0, &lane), more = shifted(0.0, 25.0, 0.0, &lane);
    printf("one mph faster: %.1f boards (model.md -3.1); 25 rpm more: %+.1f (+1.7)\n", faster,
           more);
    assert_near(faster, -3.1, 1.0);
    assert_near(more, 1.7, 0.7);
}

/* Two-handed, 475 rpm: enters at 5.7 to 6 degrees. */
static void test_two_handed_entry(void **unused)
{
    (void)unused;
    double least = 90.0, most = 0.0;
    for (int i = 0; i < 5; i++) {
        MotionBody body = body_of_row(&ROWS[i]);
        for (double laydown = 22.0; laydown <= 26.0; laydown += 2.0) {
            Delivery delivery = lane_release(laydown);
            delivery.rpm = 475.0;
            if (!lane_find_launch(&body, &lane, &delivery, 17.5))
                continue;
            double entry = motion_arrive(&body, &lane, &delivery).degrees;
            least = fmin(least, entry);
            most = fmax(most, entry);
        }
    }
    printf("475 rpm, five balls, laydown 22 to 26: enters at %.1f to %.1f (model.md 5.7 to 6)\n",
           least, most);
    assert_true(most > 5.2 && most < 7.5);
    assert_less(4.2, least);
}

/* A launch error of 0.25 degree moves the hit 1.9 boards on 3:1, 0.9 on 8:1; 3.0 on bare
 * geometry. model.md does not say of which ball: the strong two do so here (the pearls, which
 * read late, are forgiven less). Mean of both ways. */
static double launch_error(double ratio, int balls)
{
    Oil oil;
    lane_shaped(40.0, 25.0, ratio, &oil);
    double sum = 0.0;
    int n = 0;
    for (int i = 0; i < balls; i++) {
        MotionBody body = body_of_row(&ROWS[i]);
        Delivery delivery = lane_release(22.0);
        if (!lane_find_launch(&body, &oil, &delivery, 17.5))
            continue;
        for (int side = -1; side <= 1; side += 2) {
            Delivery off = delivery;
            off.launch_deg += 0.25 * side;
            Arrival end = motion_arrive(&body, &oil, &off);
            if (end.gutter)
                continue;
            sum += fabs(end.board - 17.5);
            n++;
        }
    }
    assert_true(n >= 2 * balls - 2);
    return sum / n;
}

static void test_house_shot_forgives(void **unused)
{
    (void)unused;
    double flat = launch_error(1.0, 2), sport = launch_error(3.0, 2), house = launch_error(8.0, 2);
    double bare = tan(0.25 * acos(-1.0) / 180.0) * LANE_LENGTH_M / LANE_BOARD_M;
    printf("0.25 degree of launch, solid and hybrid: %.1f boards flat, %.1f on 3:1 (model.md "
           "1.9), %.1f on 8:1 (0.9), %.1f bare; with both pearls %.1f and %.1f\n",
           flat, sport, house, bare, launch_error(3.0, 4), launch_error(8.0, 4));
    assert_near(bare, 3.0, 0.05);
    assert_near(sport, 1.9, 0.5);
    assert_near(house, 0.9, 0.4);
    assert_less(house, sport);
    assert_less(sport, flat);
    assert_less(launch_error(8.0, 4), launch_error(3.0, 4));
}

/* Pattern length less 31 (the trade's rule): 35 ft -> 3 to 4, 40 -> 8 to 9.5, 44 -> 10 to 12. The
 * laydown is the one a bowler would take: further in on the longer pattern. */
static void test_breakpoint_by_length(void **unused)
{
    (void)unused;
    const double lengths[] = {35, 40, 44}, laydowns[] = {17, 22, 25}, want[] = {3.5, 8.75, 11};
    for (int i = 0; i < 3; i++) {
        Oil oil;
        Roll roll;
        lane_shaped(lengths[i], 25.0, 3.0, &oil);
        MotionBody body = body_of_row(&ROWS[2]);
        Delivery delivery = lane_release(laydowns[i]);
        assert_true(lane_find_launch(&body, &oil, &delivery, 17.5));
        motion_roll(&body, &oil, &delivery, &roll);
        printf("%2.0f ft from laydown %2.0f: breakpoint %.1f (model.md %.1f)\n", lengths[i],
               laydowns[i], roll.breakpoint_board, want[i]);
        assert_near(roll.breakpoint_board, want[i], 3.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lane_is_the_prototypes), cmocka_unit_test(test_six_balls),
        cmocka_unit_test(test_speed_and_revs),         cmocka_unit_test(test_two_handed_entry),
        cmocka_unit_test(test_house_shot_forgives),    cmocka_unit_test(test_breakpoint_by_length),
    };
    return cmocka_run_group_tests(tests, lay_lane, NULL);
}
