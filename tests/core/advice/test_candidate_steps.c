/* test_candidate_steps.c - in and out, more and less are tried alike; what is asked of whom; which
 * ball reads smoother. Common practice, no source. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/candidates.h"
#include "helper_demo.h"

static int listed(const Setting *setting, AdjustmentKind kind, Candidate *out)
{
    return candidates_list(setting, kind, out, CANDIDATES_MAX);
}

/* A plan in the middle of everything, so that no limit cuts one side. */
static Setting middle(Bowler *bowler)
{
    Setting setting = setting_of(&BAG, 1);
    *bowler = BAG.bowler;
    bowler->mph = 17.0;
    bowler->loft_ft = 3.0;
    bowler->rotation_deg = 45.0;
    bowler->rotation_least_deg = 0.0;
    bowler->rotation_most_deg = 90.0;
    setting.bowler = bowler;
    setting.plan.stance = 0.5 * (2.0 + LANE_BOARDS) + bowler->laydown_offset_boards - 0.5;
    setting.plan.aim = 15.0;
    return setting;
}

static void assert_mirrored(const Plan *from, const Plan *a, const Plan *b)
{
    assert_int_equal(a->slot, b->slot);
    assert_near(a->stance - from->stance, from->stance - b->stance, 1e-12);
    assert_near(a->aim - from->aim, from->aim - b->aim, 1e-12);
    assert_near(a->mph_change, -b->mph_change, 1e-12);
    assert_near(a->rotation_change_deg, -b->rotation_change_deg, 1e-12);
}

static void each_way_alike(void **state)
{
    (void)state;
    static const AdjustmentKind WAYS[][2] = {{ADJUST_MOVE_IN, ADJUST_MOVE_OUT},
                                             {ADJUST_AIM_IN, ADJUST_AIM_OUT},
                                             {ADJUST_FASTER, ADJUST_SLOWER},
                                             {ADJUST_ROTATION_MORE, ADJUST_ROTATION_LESS}};
    Bowler bowler;
    Setting setting = middle(&bowler);
    Candidate a[CANDIDATES_MAX], b[CANDIDATES_MAX];
    for (size_t k = 0; k < sizeof WAYS / sizeof *WAYS; k++) {
        int count = listed(&setting, WAYS[k][0], a);
        assert_true(count >= 2);
        assert_int_equal(listed(&setting, WAYS[k][1], b), count);
        for (int i = 0; i < count; i++) {
            assert_mirrored(&setting.plan, &a[i].plan, &b[i].plan);
            assert_near(candidate_cost(&setting, &a[i]), candidate_cost(&setting, &b[i]), 1e-12);
            assert_true(i == 0 || candidate_cost(&setting, &a[i - 1]) <
                                      candidate_cost(&setting, &a[i])); /* the smallest first */
        }
    }
}

/* The eyes alone go half a board at first and three at most; the feet a board at first, then every
 * board to six. */
static void steps_that_are_tried(void **state)
{
    (void)state;
    Bowler bowler;
    Setting setting = middle(&bowler);
    Candidate out[CANDIDATES_MAX];
    int count = listed(&setting, ADJUST_AIM_IN, out);
    double last = 0.0;
    for (int i = 0; i < count; i++) {
        double boards = out[i].plan.aim - setting.plan.aim;
        assert_true(boards - last >= 0.5 && boards - last <= 1.0 && boards <= 3.0);
        assert_false(out[i].find_aim);
        last = boards;
    }
    assert_near(last, 3.0, 0.0);
    count = listed(&setting, ADJUST_MOVE_IN, out);
    assert_true(count >= 6);
    for (int i = 0; i < 6; i++) {
        assert_near(out[i].plan.stance - setting.plan.stance, i + 1.0, 0.0);
        assert_true(out[i].find_aim);
    }
    setting.least_move = 3;
    listed(&setting, ADJUST_MOVE_OUT, out);
    assert_near(setting.plan.stance - out[0].plan.stance, 3.0, 0.0);
}

/* Who throws slowly is not asked to throw harder or to loft it; the other way they may go. */
static void nobody_slow_is_asked_to_force_it(void **state)
{
    (void)state;
    Bowler bowler;
    Setting setting = middle(&bowler);
    Candidate out[CANDIDATES_MAX];
    for (double mph = 9.0; mph < 20.0; mph += 0.5) {
        bowler.mph = mph;
        bool slow = mph < 15.0;
        assert_int_equal(listed(&setting, ADJUST_FASTER, out) > 0, !slow);
        assert_int_equal(listed(&setting, ADJUST_LOFT_MORE, out) > 0, !slow);
        assert_true(listed(&setting, ADJUST_SLOWER, out) > 0);
        assert_true(listed(&setting, ADJUST_LOFT_LESS, out) > 0);
    }
}

/* A change costs by how far it goes from what is thrown now, not from the usual. */
static void what_is_done_already_costs_nothing(void **state)
{
    (void)state;
    Bowler bowler;
    Setting setting = middle(&bowler);
    Candidate same = {.kind = ADJUST_HOLD}, more;
    setting.plan.mph_change = 0.5;
    setting.plan.loft_change_ft = 1.0;
    setting.plan.rotation_change_deg = 10.0;
    same.plan = setting.plan;
    assert_near(candidate_cost(&setting, &same), 0.0, 0.0);
    more = same;
    more.plan.mph_change = 0.0;
    assert_less(0.0, candidate_cost(&setting, &more));
    more = same;
    more.plan.loft_change_ft = 0.0;
    assert_less(0.0, candidate_cost(&setting, &more));
    more = same;
    more.plan.rotation_change_deg = 0.0;
    assert_less(0.0, candidate_cost(&setting, &more));
}

static bool smoother(const Ball *ball, const Ball *than)
{
    static Bag bag;
    static SlotTrait traits[BAG_SLOTS];
    double vote[ADJUST_COUNT] = {0};
    bool avoided[ADJUST_COUNT];
    bag = (Bag){.bowler = BAG.bowler, .count = 2, .balls = {*than, *ball}};
    bag.balls[0].slot = 1;
    bag.balls[1].slot = 2;
    for (int i = 0; i < BAG_SLOTS; i++)
        traits[i] = (SlotTrait){.strikes = i < 2, .strength = 1.0, .hook_ft = 40.0};
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        avoided[kind] = kind != ADJUST_SMOOTHER;
    Setting setting = setting_of(&bag, 1);
    setting.traits = traits;
    candidates_name_balls(&setting, vote, avoided);
    assert_true(setting.slot_kind[1] == ADJUST_SMOOTHER || setting.slot_kind[1] == ADJUST_HOLD);
    return setting.slot_kind[1] == ADJUST_SMOOTHER;
}

/* Urethane before anything, solid before pearl and hybrid, less flare where the cover is no
 * cleaner; nothing is smoother than itself, nor two things each than the other. */
static void which_ball_is_smoother(void **state)
{
    (void)state;
    for (int a = COVER_SOLID; a <= COVER_URETHANE; a++)
        for (int b = COVER_SOLID; b <= COVER_URETHANE; b++) {
            Ball one = ball_default(), other = one;
            one.cover = (Cover)a;
            other.cover = (Cover)b;
            bool expected = (a == COVER_URETHANE && b != COVER_URETHANE) ||
                            (a == COVER_SOLID && (b == COVER_PEARL || b == COVER_HYBRID));
            assert_int_equal(smoother(&one, &other), expected);
            assert_false(smoother(&one, &other) && smoother(&other, &one));
            one.differential_in = 0.020;
            other.differential_in = 0.050;
            /* covers stand from the smoothest to the cleanest, urethane apart */
            assert_int_equal(smoother(&one, &other), a == COVER_URETHANE || a <= b);
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(each_way_alike),
                                       cmocka_unit_test(steps_that_are_tried),
                                       cmocka_unit_test(nobody_slow_is_asked_to_force_it),
                                       cmocka_unit_test(what_is_done_already_costs_nothing),
                                       cmocka_unit_test(which_ball_is_smoother)};
    return cmocka_run_group_tests_name("candidate_steps", tests, demo_set_up, NULL);
}
