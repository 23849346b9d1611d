/* test_candidates.c - the candidates of each action, on their own: which, how many, in what words
 * and at what cost. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "helper_demo.h"

static void keep_only(Bag *bag, int slot)
{
    for (int i = 0; i < bag->count; i++)
        if (bag->balls[i].slot != slot)
            bag->balls[i].slot = 0;
}

static void test_candidates_of_every_action(void **state)
{
    (void)state;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        for (int slot = 1; slot <= BAG_SLOTS; slot++)
            for (int max = 0; max <= CANDIDATES_MAX; max += 7) {
                Setting setting = setting_of(&BAG, slot);
                Candidate out[CANDIDATES_MAX];
                int count = candidates_list(&setting, (AdjustmentKind)kind, out, max);
                assert_true(count >= 0 && count <= max);
                for (int i = 0; i < count; i++) {
                    assert_int_equal(out[i].kind, kind);
                    assert_non_null(bag_slot(&BAG, out[i].plan.slot));
                    assert_true(candidate_cost(&setting, &out[i]) >= 0.0);
                    char words[256];
                    candidate_words(&setting, &out[i], words, sizeof words);
                    assert_true(words[0] >= 'A' && words[0] <= 'Z');
                }
            }
}

static int list(Setting setting, AdjustmentKind kind, Candidate out[CANDIDATES_MAX])
{
    double vote[ADJUST_COUNT] = {0};
    vote[kind] = 0.5;
    const bool avoided[ADJUST_COUNT] = {false};
    candidates_name_balls(&setting, vote, avoided);
    return candidates_list(&setting, kind, out, CANDIDATES_MAX);
}

static void test_moves(void **state)
{
    (void)state;
    Candidate out[CANDIDATES_MAX];
    Setting setting = setting_of(&BAG, 1);
    static const double SIZES[] = {1, 2, 3, 4, 5, 6, 8, 10, 12, 14};
    int count = list(setting, ADJUST_MOVE_IN, out);
    assert_int_equal(count, 10);
    for (int i = 0; i < count; i++)
        assert_near(out[i].plan.stance, 26.0 + SIZES[i], 0.0);
    assert_int_equal(list(setting, ADJUST_MOVE_OUT, out), 10);
    for (int i = 0; i < count; i++)
        assert_near(out[i].plan.stance, 26.0 - SIZES[i], 0.0);
    setting.least_move = 3;
    assert_int_equal(list(setting, ADJUST_MOVE_IN, out), 8);
    assert_near(out[0].plan.stance, 29.0, 0.0);
    setting.plan.stance = 43.0; /* laydown 37: one board of lane is left */
    setting.least_move = 1;
    assert_int_equal(list(setting, ADJUST_MOVE_IN, out), 1);
    setting.plan.stance = 44.0;
    assert_int_equal(list(setting, ADJUST_MOVE_IN, out), 0);
}

static void test_which_balls(void **state)
{
    (void)state;
    Candidate out[CANDIDATES_MAX];
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        static const struct {
            AdjustmentKind kind;
            int way; /* later slots hook less and start later */
        } CASES[] = {
            {ADJUST_BALL_DOWN, 1}, {ADJUST_BALL_UP, -1}, {ADJUST_ROUGHER, -1}, {ADJUST_CLEANER, 1}};
        for (int k = 0; k < 4; k++) {
            int count = list(setting_of(&BAG, slot), CASES[k].kind, out);
            int balls = CASES[k].way > 0 ? (slot <= 5 ? 5 - slot : 0) : slot - 1;
            assert_int_equal(count, 15 * balls); /* from fifteen places each */
            for (int i = 0; i < count; i++) {
                assert_true(CASES[k].way * (out[i].plan.slot - slot) > 0);
                assert_true(out[i].find_aim);
            }
        }
    }
}

/* A ball that is more than one thing is called what the rules ask for most; never what they forbid.
 */
static void test_what_taking_a_ball_is_called(void **state)
{
    (void)state;
    Setting setting = setting_of(&BAG, 3);
    double vote[ADJUST_COUNT] = {0};
    bool avoided[ADJUST_COUNT] = {false};
    const AdjustmentKind *name = setting.slot_kind;
    candidates_name_balls(&setting, vote, avoided);
    assert_int_equal(name[1], ADJUST_BALL_UP);
    assert_int_equal(name[2], ADJUST_HOLD);      /* in hand */
    assert_int_equal(name[3], ADJUST_BALL_DOWN); /* less hook, and later */
    assert_int_equal(name[5], ADJUST_HOLD);      /* polyester */
    vote[ADJUST_CLEANER] = 0.3;
    candidates_name_balls(&setting, vote, avoided);
    assert_int_equal(name[3], ADJUST_CLEANER);
    avoided[ADJUST_CLEANER] = true;
    candidates_name_balls(&setting, vote, avoided);
    assert_int_equal(name[3], ADJUST_BALL_DOWN);
    avoided[ADJUST_BALL_DOWN] = avoided[ADJUST_SMOOTHER] = true;
    candidates_name_balls(&setting, vote, avoided);
    assert_int_equal(name[3], ADJUST_HOLD);
    Candidate out[CANDIDATES_MAX];
    setting.slot_kind[3] = ADJUST_CLEANER;
    assert_int_equal(candidates_list(&setting, ADJUST_BALL_DOWN, out, CANDIDATES_MAX), 0);
    assert_int_equal(candidates_list(&setting, ADJUST_CLEANER, out, CANDIDATES_MAX), 15);
}

static void test_balls_that_are_alike(void **state)
{
    (void)state;
    Candidate out[CANDIDATES_MAX];
    Setting setting = setting_of(&BAG, 3);
    for (int i = 0; i < BAG_SLOTS; i++) {
        TRAITS[i].strength = 17.5 + 0.05 * i;
        TRAITS[i].hook_ft = 30.0 + 0.1 * i;
    }
    assert_int_equal(list(setting, ADJUST_BALL_DOWN, out), 0);
    assert_int_equal(list(setting, ADJUST_BALL_UP, out), 0);
    assert_int_equal(list(setting, ADJUST_ROUGHER, out), 0);
    assert_int_equal(list(setting, ADJUST_CLEANER, out), 0);
}

static void test_empty_neighbours(void **state)
{
    (void)state;
    static Bag bag;
    bag = BAG;
    keep_only(&bag, 2);
    Setting setting = setting_of(&BAG, 2);
    setting.bag = &bag;
    Candidate out[CANDIDATES_MAX];
    static const AdjustmentKind BALLS[] = {ADJUST_BALL_DOWN, ADJUST_BALL_UP, ADJUST_ROUGHER,
                                           ADJUST_CLEANER, ADJUST_SMOOTHER};
    for (int k = 0; k < 5; k++)
        assert_int_equal(list(setting, BALLS[k], out), 0);
    assert_int_equal(list(setting, ADJUST_HOLD, out), 1);
}

static void test_speed_and_loft_stay_moderate(void **state)
{
    (void)state;
    Candidate out[CANDIDATES_MAX];
    Setting setting = setting_of(&BAG, 1);
    assert_int_equal(list(setting, ADJUST_FASTER, out), 2);
    setting.plan.mph_change = 1.5;
    assert_int_equal(list(setting, ADJUST_FASTER, out), 0);
    assert_int_equal(list(setting, ADJUST_SLOWER, out), 2);
    setting = setting_of(&BAG, 1);
    int count = list(setting, ADJUST_LOFT_MORE, out);
    for (int i = 0; i < count; i++)
        assert_true(BAG.bowler.loft_ft + out[i].plan.loft_change_ft <= 6.0);
    assert_int_equal(ADJUSTMENTS[ADJUST_LOFT_MORE].caution, CAUTION_LOFT);
    assert_int_equal(ADJUSTMENTS[ADJUST_FASTER].caution, CAUTION_SPEED);
    assert_int_equal(ADJUSTMENTS[ADJUST_SURFACE_FINE].caution, CAUTION_SURFACE);
    assert_int_equal(ADJUSTMENTS[ADJUST_HOLD].caution, CAUTION_NONE);
    assert_int_equal(list(setting, ADJUST_LOFT_LESS, out), 0); /* one foot: no less to be had */
}

static void test_surface_steps(void **state)
{
    (void)state;
    static Bag bag;
    bag = BAG;
    Ball *ball = NULL;
    for (int i = 0; i < bag.count; i++)
        if (bag.balls[i].slot == 1)
            ball = &bag.balls[i];
    assert_non_null(ball);
    static const struct {
        double grit, rougher, finer; /* 0: none */
    } CASES[] = {{500, 0, 1000},     {1000, 500, 1500}, {2000, 1500, 3000},
                 {2500, 2000, 3000}, {4000, 3000, 0},   {360, 0, 500}};
    Setting setting = setting_of(&BAG, 1);
    setting.bag = &bag;
    Candidate out[CANDIDATES_MAX];
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        ball->surface = (Surface){.finish = FINISH_GRIT, .grit = CASES[i].grit};
        int rough = list(setting, ADJUST_SURFACE_ROUGH, out);
        assert_int_equal(rough, CASES[i].rougher > 0.0);
        if (rough)
            assert_near(out[0].surface_grit, CASES[i].rougher, 0.0);
        int fine = list(setting, ADJUST_SURFACE_FINE, out);
        assert_int_equal(fine, CASES[i].finer > 0.0);
        if (fine)
            assert_near(out[0].surface_grit, CASES[i].finer, 0.0);
    }
    setting.certified = true;
    assert_int_equal(list(setting, ADJUST_SURFACE_ROUGH, out), 0);
    assert_int_equal(list(setting, ADJUST_SURFACE_FINE, out), 0);
}

static void test_fits(void **state)
{
    (void)state;
    Setting setting = setting_of(&BAG, 1);
    Candidate c = {.kind = ADJUST_MOVE_IN, .plan = setting.plan};
    static const struct {
        AdjustmentKind kind;
        double feet, eyes;
        bool fits;
    } CASES[] = {{ADJUST_MOVE_IN, 2.0, 1.0, true},     {ADJUST_MOVE_IN, 2.0, 0.0, true},
                 {ADJUST_MOVE_IN, 2.0, -0.5, false},   {ADJUST_MOVE_IN, 2.0, 3.0, false},
                 {ADJUST_MOVE_OUT, -2.0, -1.0, true},  {ADJUST_MOVE_OUT, -2.0, 0.0, true},
                 {ADJUST_MOVE_OUT, -2.0, 1.0, false},  {ADJUST_MOVE_OUT, -2.0, -3.0, false},
                 {ADJUST_BALL_DOWN, 0.0, -15.0, true}, {ADJUST_BALL_DOWN, 0.0, -16.0, false}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        c.kind = CASES[i].kind;
        c.plan.stance = setting.plan.stance + CASES[i].feet;
        c.plan.aim = setting.plan.aim + CASES[i].eyes;
        if (candidate_fits(&setting, &c) != CASES[i].fits)
            fail_msg("%s, feet %g, eyes %g", ADJUST_NAMES[c.kind], CASES[i].feet, CASES[i].eyes);
    }
}

static void assert_words(Candidate c, const char *expected)
{
    Setting setting = setting_of(&BAG, 1);
    char words[128];
    candidate_words(&setting, &c, words, sizeof words);
    assert_string_equal(words, expected);
}

static void test_words_of_candidates(void **state)
{
    (void)state;
    Plan plan = setting_of(&BAG, 1).plan;
    Candidate c = {.kind = ADJUST_HOLD, .plan = plan};
    assert_words(c, "Hold: same ball, same line");
    c.kind = ADJUST_MOVE_IN;
    c.plan.stance += 2.0;
    c.plan.aim += 1.0;
    assert_words(c, "Move in 2-and-1: 2 in with the feet, 1 in with the eyes");
    c.kind = ADJUST_MOVE_OUT;
    c.plan = plan;
    c.plan.stance -= 3.0;
    assert_words(c, "Move out, feet only: 3 out with the feet");
    c.plan.aim -= 3.0;
    assert_words(c, "Move out, parallel: 3 out with the feet, 3 out with the eyes");
    c.plan.aim = plan.aim - 1.5; /* nobody says 3-and-1.5 */
    assert_words(c, "Move out: 3 out with the feet, 1.5 out with the eyes");
    c.kind = ADJUST_FASTER;
    c.plan = plan;
    c.plan.mph_change = 0.5;
    assert_words(c, "More speed: +0.5 mph, same line");
    c.kind = ADJUST_BALL_DOWN;
    c.plan = plan;
    c.plan.slot = 4;
    c.plan.aim -= 1.5;
    assert_words(c, "Ball down, 4 Thaw Pulley: 1.5 out with the eyes");
    c.kind = ADJUST_SURFACE_ROUGH;
    c.plan = plan;
    c.surface_grit = 1500.0;
    assert_words(c, "Rougher surface: 1500 grit, same line");
}

/* A bigger change costs more, and holding nothing. */
static void test_costs(void **state)
{
    (void)state;
    Setting setting = setting_of(&BAG, 1);
    Candidate hold = {.kind = ADJUST_HOLD, .plan = setting.plan}, two = hold, four = hold,
              ball = hold;
    two.plan.stance += 2.0;
    four.plan.stance += 4.0;
    ball.plan.slot = 3;
    assert_near(candidate_cost(&setting, &hold), 0.0, 0.0);
    assert_less(0.0, candidate_cost(&setting, &two));
    assert_less(candidate_cost(&setting, &two), candidate_cost(&setting, &four));
    assert_less(0.0, candidate_cost(&setting, &ball));
    two.plan.slot = 3;
    assert_less(candidate_cost(&setting, &ball), candidate_cost(&setting, &two));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_candidates_of_every_action),
        cmocka_unit_test(test_moves),
        cmocka_unit_test(test_which_balls),
        cmocka_unit_test(test_what_taking_a_ball_is_called),
        cmocka_unit_test(test_balls_that_are_alike),
        cmocka_unit_test(test_empty_neighbours),
        cmocka_unit_test(test_speed_and_loft_stay_moderate),
        cmocka_unit_test(test_surface_steps),
        cmocka_unit_test(test_fits),
        cmocka_unit_test(test_words_of_candidates),
        cmocka_unit_test(test_costs),
    };
    return cmocka_run_group_tests_name("candidates", tests, demo_set_up, NULL);
}
