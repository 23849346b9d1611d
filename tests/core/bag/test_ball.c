/* Balls, the bag, what leaves the hand, and the words for a shot. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/units.h"
#include "core/event/shot.h"
#include "core/motion/delivery.h"
#include "core/motion/friction.h"

static double roughness(Finish finish, double grit, double games)
{
    Surface surface = {.finish = finish, .grit = grit, .games_since = games};
    return ball_roughness_um(&surface);
}

/* The table of docs/model.md (assumed). */
static void test_roughness_table(void **state)
{
    (void)state;
    static const double TABLE[][2] = {{180, 1.27}, {360, 1.25},  {500, 1.2},
                                      {800, 0.9},  {1000, 0.8},  {1500, 0.55},
                                      {2000, 0.5}, {3000, 0.35}, {4000, 0.25}};
    for (size_t i = 0; i < sizeof TABLE / sizeof TABLE[0]; i++)
        assert_near(roughness(FINISH_GRIT, TABLE[i][0], 0.0), TABLE[i][1], 1e-12);
    assert_near(roughness(FINISH_COMPOUND, 0.0, 0.0), 0.2, 1e-12);
    assert_near(roughness(FINISH_POLISH, 0.0, 0.0), 0.1, 1e-12);
}

/* A lower grit number is rougher (common practice); never past the rules' 50 microinch, 1.27 um. */
static void test_roughness_is_monotone(void **state)
{
    (void)state;
    double last = 1.27 + 1e-12;
    for (double grit = BALL_GRIT_MIN; grit <= BALL_GRIT_MAX; grit += 10.0) {
        double um = roughness(FINISH_GRIT, grit, 0.0);
        assert_true(um <= last && um > 0.0);
        last = um;
    }
    assert_less(roughness(FINISH_COMPOUND, 0.0, 0.0), last);
    assert_less(roughness(FINISH_POLISH, 0.0, 0.0), roughness(FINISH_COMPOUND, 0.0, 0.0));
    assert_near(roughness(FINISH_GRIT, 100.0, 0.0), 1.27, 0.0); /* held at the table's ends */
    assert_near(roughness(FINISH_GRIT, 9000.0, 0.0), roughness(FINISH_GRIT, 5000.0, 0.0), 0.0);
}

/* Half-way to 2000 grit in 12 games (assumed). */
static void test_wear_with_games(void **state)
{
    (void)state;
    assert_near(roughness(FINISH_GRIT, 500.0, 12.0), 0.5 * (1.2 + 0.5), 1e-12);
    assert_near(roughness(FINISH_GRIT, 500.0, 24.0), 0.5 + 0.25 * 0.7, 1e-12);
    assert_near(roughness(FINISH_GRIT, 2000.0, 30.0), 0.5, 1e-12); /* use does not roughen */
    assert_near(roughness(FINISH_GRIT, 4000.0, 30.0), 0.25, 1e-12);
    assert_near(roughness(FINISH_POLISH, 0.0, 30.0), 0.1, 1e-12);
    double last = 10.0;
    for (double games = 0.0; games < 200.0; games += 1.0) {
        double um = roughness(FINISH_GRIT, 800.0, games);
        assert_less(um, last);
        assert_true(um >= 0.5);
        last = um;
    }
}

static void test_surface_words(void **state)
{
    (void)state;
    char out[32];
    ball_surface_words(&(Surface){.finish = FINISH_GRIT, .grit = 2000.0}, out, sizeof out);
    assert_string_equal(out, "2000 grit");
    ball_surface_words(&(Surface){.finish = FINISH_COMPOUND}, out, sizeof out);
    assert_string_equal(out, "compound");
    ball_surface_words(&(Surface){.finish = FINISH_POLISH}, out, sizeof out);
    assert_string_equal(out, "polish");
    ball_surface_words(&(Surface){.finish = FINISH_POLISH}, out, 4);
    assert_string_equal(out, "pol");
}

/* USBC Equipment Specifications and Certifications Manual: weight and diameter (page), RG and
 * differential (text). */
static void test_default_ball_is_legal(void **state)
{
    (void)state;
    Ball ball = ball_default();
    assert_true(ball.pounds > 0.0 && ball.pounds <= 16.0);
    assert_true(ball.rg_in >= 2.46 && ball.rg_in <= 2.8);
    assert_true(ball.differential_in <= 0.060 && ball.intermediate_in <= ball.differential_in);
    assert_int_equal(ball.slot, 0);
    assert_near(2.0 * BALL_RADIUS_IN, 8.595, 1e-12);
    assert_near(BALL_RG_MAX_IN, 2.8, 0.0);
    assert_near(BALL_POUNDS_MAX, 16.0, 0.0);
    /* the pin is at most a quarter turn from the axis (arithmetic: 6.75 in on the surface) */
    assert_near(BALL_PIN_TO_PAP_MAX_IN / BALL_RADIUS_IN, 0.5 * UNITS_PI, 2e-4);
}

static void test_names(void **state)
{
    (void)state;
    assert_string_equal(COVER_NAMES[COVER_SOLID], "solid");
    assert_string_equal(COVER_NAMES[COVER_POLYESTER], "polyester");
    assert_null(COVER_NAMES[COVER_COUNT]);
    assert_string_equal(STYLE_NAMES[STYLE_TWO_HANDED], "two-handed");
    assert_null(STYLE_NAMES[STYLE_COUNT]);
    assert_string_equal(HAND_NAMES[HAND_LEFT], "left");
    assert_null(HAND_NAMES[2]);
    assert_string_equal(SIDE_NAMES[SIDE_RIGHT], "right");
    assert_null(SIDE_NAMES[SIDE_COUNT]);
    assert_string_equal(HIT_NAMES[HIT_FLUSH], "flush");
    assert_null(HIT_NAMES[HIT_COUNT]);
    assert_string_equal(READ_NAMES[READ_ON_TIME], "on-time");
    assert_null(READ_NAMES[READ_COUNT]);
    assert_string_equal(RELEASE_NAMES[RELEASE_OFF], "off");
    assert_null(RELEASE_NAMES[RELEASE_COUNT]);
}

static void test_bag(void **state)
{
    (void)state;
    Bag bag = {.bowler = bowler_default(), .count = 3};
    static const char *const IDS[] = {"one", "two", "spare"};
    for (int i = 0; i < 3; i++) {
        bag.balls[i] = ball_default();
        strcpy(bag.balls[i].id, IDS[i]);
    }
    bag.balls[0].slot = 6;
    bag.balls[1].slot = 1;
    bag.balls[2].slot = 0; /* in the locker */
    assert_ptr_equal(bag_slot(&bag, 6), &bag.balls[0]);
    assert_ptr_equal(bag_slot(&bag, 1), &bag.balls[1]);
    assert_null(bag_slot(&bag, 2));
    assert_null(bag_slot(&bag, 0)); /* the locker is no slot */
    assert_null(bag_slot(&bag, -1));
    assert_null(bag_slot(&bag, 7));
    assert_ptr_equal(bag_find(&bag, "spare"), &bag.balls[2]);
    assert_null(bag_find(&bag, "spar"));
    assert_null(bag_find(&bag, ""));
    bag.count = 0;
    assert_null(bag_slot(&bag, 6));
    assert_null(bag_find(&bag, "one"));
}

static void test_stance_aim_launch_round_trip(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    for (double offset = -5.0; offset <= 20.0; offset += 2.5) {
        bowler.laydown_offset_boards = offset;
        for (double stance = 5.0; stance <= 45.0; stance += 3.3)
            for (double aim = 1.0; aim <= 30.0; aim += 2.7) {
                Delivery d = delivery_of(&bowler, stance, aim);
                assert_near(delivery_stance(&bowler, d.laydown_board), stance, 1e-12);
                assert_near(delivery_aim_board(d.laydown_board, d.launch_deg), aim, 1e-10);
                assert_near(delivery_launch_deg(d.laydown_board, aim), d.launch_deg, 0.0);
            }
    }
}

/* What a plan changes is against the usual release; nothing is lofted less than not at all. */
static void test_plan_delivery(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    Plan plan = {.slot = 1, .stance = 26.0, .aim = 15.0};
    Delivery usual = delivery_of(&bowler, 26.0, 15.0), same = plan_delivery(&bowler, &plan);
    assert_near(same.launch_deg, usual.launch_deg, 0.0);
    assert_near(same.mph, usual.mph, 0.0);
    assert_near(same.loft_ft, usual.loft_ft, 0.0);
    assert_near(same.rotation_deg, usual.rotation_deg, 0.0);
    plan.mph_change = -0.5;
    plan.loft_change_ft = -3.0; /* of one foot */
    plan.rotation_change_deg = -10.0;
    Delivery changed = plan_delivery(&bowler, &plan);
    assert_near(changed.mph, 17.5, 0.0);
    assert_near(changed.loft_ft, 0.0, 0.0);
    assert_near(changed.rotation_deg, 40.0, 0.0);
    assert_near(changed.rpm, usual.rpm, 0.0);
    assert_near(changed.tilt_deg, usual.tilt_deg, 0.0);
}

static void test_plan_same(void **state)
{
    (void)state;
    const Plan plan = {2, 26.0, 15.0, 0.5, 1.0, 10.0};
    Plan others[6] = {plan, plan, plan, plan, plan, plan};
    others[0].slot = 3;
    others[1].stance += 0.5;
    others[2].aim += 0.5;
    others[3].mph_change = 0.0;
    others[4].loft_change_ft = 0.0;
    others[5].rotation_change_deg = 0.0;
    assert_true(plan_same(&plan, &plan));
    for (int i = 0; i < 6; i++)
        assert_false(plan_same(&plan, &others[i]));
}

static void test_delivery(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    bowler.laydown_offset_boards = 6.0;
    Delivery d = delivery_of(&bowler, 26.0, 20.0);
    assert_near(d.laydown_board, 20.0, 0.0);
    assert_near(d.launch_deg, 0.0, 1e-12); /* straight down the boards */
    assert_near(d.mph, bowler.mph, 0.0);
    assert_near(d.rpm, bowler.rpm, 0.0);
    assert_near(d.rotation_deg, bowler.rotation_deg, 0.0);
    assert_near(d.tilt_deg, bowler.tilt_deg, 0.0);
    assert_near(d.loft_ft, bowler.loft_ft, 0.0);
    assert_true(delivery_launch_deg(20.0, 15.0) > 0.0); /* aimed toward the own gutter */
    /* five boards of 27.03 mm in 15 ft: 1.693 degrees (arithmetic) */
    assert_near(delivery_launch_deg(20.0, 15.0), 1.6930, 1e-3);
    /* a straight line from the lane's edge at the foul line to the head pin: 1.6508 degrees
     * (derived from the standards) */
    double per_ft = (20.0 - 0.5) / LANE_LENGTH_FT;
    assert_near(-delivery_launch_deg(0.5, 0.5 + per_ft * LANE_ARROWS_FT), 1.6508, 1e-3);
}

/* The hits' names, by board of the ball's centre at the head pin (assumed, docs/model.md). */
static void test_hit_bounds(void **state)
{
    (void)state;
    static const struct {
        double board;
        Hit below, above;
    } BOUNDS[] = {{13.7, HIT_WIDE, HIT_THIN},   {16.0, HIT_THIN, HIT_LIGHT},
                  {17.0, HIT_LIGHT, HIT_FLUSH}, {18.7, HIT_FLUSH, HIT_HIGH},
                  {19.4, HIT_HIGH, HIT_NOSE},   {20.7, HIT_NOSE, HIT_CROSSED}};
    for (size_t i = 0; i < sizeof BOUNDS / sizeof BOUNDS[0]; i++) {
        assert_int_equal(shot_hit_of_board(BOUNDS[i].board - 1e-9), BOUNDS[i].below);
        assert_int_equal(shot_hit_of_board(BOUNDS[i].board), BOUNDS[i].above);
    }
    assert_int_equal(shot_hit_of_board(-5.0), HIT_WIDE);
    assert_int_equal(shot_hit_of_board(39.0), HIT_CROSSED);
    assert_int_equal(shot_hit_of_board(LANE_POCKET_BEST), HIT_FLUSH);
    /* wide: ball and head pin, on board 20, do not touch (widest allowed; test_geometry.c) */
    double touch = 20.0 - (4.2975 + 0.5 * 4.766) / (LANE_WIDTH_IN / LANE_BOARDS);
    assert_near(touch, 13.7, 0.05);
}

/* A hit has one name, and the pocket is those that are called light or flush, no more, no less. */
static void test_pocket_and_name_agree(void **state)
{
    (void)state;
    for (double board = 10.0; board < 24.0; board += 0.01) {
        Shot shot = {.hit = shot_hit_of_board(board)};
        assert_true(shot_pocket(&shot) == (board >= LANE_POCKET_LOW && board < LANE_POCKET_HIGH));
    }
}

static void test_hit_there_and_back(void **state)
{
    (void)state;
    double last = 0.0;
    for (Hit hit = HIT_WIDE; hit <= HIT_CROSSED; hit++) {
        double board = shot_hit_board(hit);
        assert_int_equal(shot_hit_of_board(board), hit);
        assert_less(last, board); /* from the own side to across */
        last = board;
    }
    assert_true(isnan(shot_hit_board(HIT_UNSAID)));
    assert_true(isnan(shot_hit_board(HIT_GUTTER)));
    assert_true(isnan(shot_hit_board(HIT_COUNT)));
}

static void test_shot_words(void **state)
{
    (void)state;
    Shot shot = {.left_said = true};
    assert_true(shot_strike(&shot));
    shot.left = pin_bit(10);
    assert_false(shot_strike(&shot));
    shot = (Shot){0};
    assert_false(shot_strike(&shot)); /* nobody said what was left */
    for (int release = 0; release < RELEASE_COUNT; release++) {
        shot.release = (Release)release;
        assert_true(shot_good(&shot) == (release == RELEASE_UNSAID || release == RELEASE_GOOD));
    }
}

/* Friction: between a full film and dry, falling with film, rising with roughness. */
static void test_friction_curve(void **state)
{
    (void)state;
    for (int cover = 0; cover < COVER_COUNT; cover++) {
        Ball ball = ball_default();
        ball.cover = (Cover)cover;
        FrictionCurve friction, rough;
        friction_curve(&ball, &friction);
        ball.surface.grit = 500.0;
        friction_curve(&ball, &rough);
        for (double phi = 0.0; phi <= 1.0; phi += 0.25) {
            double last = INFINITY;
            for (double units = 0.0; units < 80.0; units += 0.25) {
                double mu = friction_mu(&friction, units, phi);
                assert_true(mu <= last && mu >= friction.mu_film && mu <= friction.mu_dry);
                assert_true(friction_mu(&rough, units, phi) >= mu - 1e-12);
                last = mu;
            }
            assert_near(friction_mu(&friction, 0.0, phi),
                        friction.mu_dry * (friction.dry_base + friction.dry_fresh * phi), 1e-12);
            assert_near(friction_mu(&friction, 1e6, phi), friction.mu_film, 1e-12);
        }
    }
    assert_near(friction_fresh(0.0), 0.0, 0.0);
    assert_near(friction_fresh(0.35 * 0.0254), 1.0 - exp(-1.0), 1e-12);
    assert_less(0.999, friction_fresh(1.0));
}

/* The table against the formula it stands for, docs/model.md. */
static void test_friction_table(void **state)
{
    (void)state;
    Ball ball = ball_default();
    FrictionCurve friction;
    friction_curve(&ball, &friction);
    double sigma = sqrt(0.5 * 0.5 + 0.25 * 0.25);
    for (double units = 0.0; units < 20.0; units += 0.137)
        for (double phi = 0.0; phi <= 1.0; phi += 0.5) {
            double lambda = 0.18 * units / sigma * (1.25 - 0.5 * phi);
            double mu =
                0.040 + (0.200 * (0.85 + 0.15 * phi) - 0.040) * exp(-pow(lambda / 0.8, 1.3));
            assert_near(friction_mu(&friction, units, phi), mu, 2e-5);
        }
    FrictionCurve constant;
    friction_constant(0.12, &constant);
    for (double units = 0.0; units < 20.0; units += 0.37)
        assert_near(friction_mu(&constant, units, 0.4), 0.12, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_roughness_table),
        cmocka_unit_test(test_roughness_is_monotone),
        cmocka_unit_test(test_wear_with_games),
        cmocka_unit_test(test_surface_words),
        cmocka_unit_test(test_default_ball_is_legal),
        cmocka_unit_test(test_names),
        cmocka_unit_test(test_bag),
        cmocka_unit_test(test_stance_aim_launch_round_trip),
        cmocka_unit_test(test_plan_delivery),
        cmocka_unit_test(test_plan_same),
        cmocka_unit_test(test_delivery),
        cmocka_unit_test(test_hit_bounds),
        cmocka_unit_test(test_pocket_and_name_agree),
        cmocka_unit_test(test_hit_there_and_back),
        cmocka_unit_test(test_shot_words),
        cmocka_unit_test(test_friction_curve),
        cmocka_unit_test(test_friction_table),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
