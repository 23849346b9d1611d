/* Changes of the hand, and two changes in one answer: which go together, in what sizes, in what
 * words, and that a pair has to be worth its doubt. What goes together is common practice. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/advice/pairs.h"
#include "helper_demo.h"
#include "store/files.h"

/* With two feet of loft, and 50 of 20 to 80 degrees. */
static Setting able(int slot)
{
    static Bag bag;
    bag = BAG;
    bag.bowler.loft_ft = 2.0;
    bag.bowler.rotation_deg = 50.0;
    bag.bowler.rotation_least_deg = 20.0;
    bag.bowler.rotation_most_deg = 80.0;
    return setting_of(&bag, slot);
}

/* The first size of an action, as a single answer of that score. */
static Single single_of(const Setting *now, AdjustmentKind kind, double score)
{
    Setting setting = *now;
    double vote[ADJUST_COUNT] = {0};
    bool avoided[ADJUST_COUNT] = {false};
    Candidate out[CANDIDATES_MAX];
    vote[kind] = 0.5;
    candidates_name_balls(&setting, vote, avoided);
    int count = candidates_list(&setting, kind, out, CANDIDATES_MAX);
    if (count == 0)
        fail_msg("nothing to try for %s", ADJUST_NAMES[kind]);
    return (Single){out[0], score};
}

static void test_rotation_within_the_range(void **state)
{
    (void)state;
    static const struct {
        double least, most, planned;
        int more, less;
    } CASES[] = {{20, 80, 0, 2, 2}, {35, 65, 0, 1, 1},   {45, 75, 0, 2, 0},
                 {30, 50, 0, 0, 2}, {30, 50, -10, 1, 1}, {41, 59, 0, 0, 0},
                 {40, 60, 0, 1, 1}, {50, 50, 0, 0, 0},   {35, 65, -15, 2, 0}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        Setting setting = able(1);
        Bowler bowler = *setting.bowler;
        bowler.rotation_least_deg = CASES[i].least;
        bowler.rotation_most_deg = CASES[i].most;
        setting.bowler = &bowler;
        setting.plan.rotation_change_deg = CASES[i].planned;
        Candidate out[CANDIDATES_MAX];
        int more = candidates_list(&setting, ADJUST_ROTATION_MORE, out, CANDIDATES_MAX);
        assert_int_equal(more, CASES[i].more);
        for (int k = 0; k < more; k++)
            assert_near(out[k].plan.rotation_change_deg, CASES[i].planned + 10.0 * (k + 1), 0.0);
        int less = candidates_list(&setting, ADJUST_ROTATION_LESS, out, CANDIDATES_MAX);
        assert_int_equal(less, CASES[i].less);
        for (int k = 0; k < less; k++)
            assert_near(out[k].plan.rotation_change_deg, CASES[i].planned - 10.0 * (k + 1), 0.0);
    }
}

/* A bag that says nothing of it gets no answer that changes the hand. */
static void test_rotation_unsaid(void **state)
{
    (void)state;
    Setting setting = able(1);
    Bowler bowler = *setting.bowler;
    bowler.rotation_least_deg = bowler.rotation_most_deg = 0.0;
    setting.bowler = &bowler;
    Candidate out[CANDIDATES_MAX];
    assert_int_equal(candidates_list(&setting, ADJUST_ROTATION_MORE, out, CANDIDATES_MAX), 0);
    assert_int_equal(candidates_list(&setting, ADJUST_ROTATION_LESS, out, CANDIDATES_MAX), 0);
}

/* A forced hand hurts; and twice the change costs more. */
static void test_rotation_caution_and_cost(void **state)
{
    (void)state;
    assert_int_equal(ADJUSTMENTS[ADJUST_ROTATION_MORE].caution, CAUTION_HAND);
    assert_int_equal(ADJUSTMENTS[ADJUST_ROTATION_LESS].caution, CAUTION_HAND);
    Setting setting = able(1);
    Candidate out[CANDIDATES_MAX];
    candidates_list(&setting, ADJUST_ROTATION_LESS, out, CANDIDATES_MAX);
    assert_less(0.0, candidate_cost(&setting, &out[0]));
    assert_less(candidate_cost(&setting, &out[0]), candidate_cost(&setting, &out[1]));
}

/* 0 ball, 1 line, 2 speed, 3 loft, 4 rotation, -1 neither holding nor a surface goes with any. */
static int kind_of(AdjustmentKind kind)
{
    static const int KINDS[ADJUST_COUNT] = {
        [ADJUST_HOLD] = -1,         [ADJUST_MOVE_IN] = 1,       [ADJUST_MOVE_OUT] = 1,
        [ADJUST_AIM_IN] = 1,        [ADJUST_AIM_OUT] = 1,       [ADJUST_FASTER] = 2,
        [ADJUST_SLOWER] = 2,        [ADJUST_LOFT_MORE] = 3,     [ADJUST_LOFT_LESS] = 3,
        [ADJUST_ROTATION_MORE] = 4, [ADJUST_ROTATION_LESS] = 4, [ADJUST_SURFACE_ROUGH] = -1,
        [ADJUST_SURFACE_FINE] = -1};
    return KINDS[kind];
}

static void test_what_goes_together(void **state)
{
    (void)state;
    static const bool TOGETHER[5][5] = {/* ball with speed, rotation; line with the body */
                                        {0, 0, 1, 0, 1},
                                        {0, 0, 1, 1, 1},
                                        {1, 1, 0, 0, 0},
                                        {0, 1, 0, 0, 0},
                                        {1, 1, 0, 0, 0}};
    Setting setting = able(3);
    for (int a = 0; a < ADJUST_COUNT; a++)
        for (int b = 0; b < ADJUST_COUNT; b++) {
            if (a == b)
                continue;
            Single singles[2] = {single_of(&setting, (AdjustmentKind)a, 0.1),
                                 single_of(&setting, (AdjustmentKind)b, 0.2)};
            Candidate out[CANDIDATES_MAX];
            int count = pairs_list(&setting, singles, 2, out, CANDIDATES_MAX);
            int i = kind_of((AdjustmentKind)a), k = kind_of((AdjustmentKind)b);
            if ((count > 0) != (i >= 0 && k >= 0 && TOGETHER[i][k]))
                fail_msg("%s and %s: %d pairs", ADJUST_NAMES[a], ADJUST_NAMES[b], count);
            for (int n = 0; n < count; n++) {
                assert_int_equal(out[n].kind, i < k ? a : b); /* the bigger part first */
                assert_int_equal(out[n].with, i < k ? b : a);
                assert_true(out[n].find_aim && out[n].surface_grit == 0.0);
                assert_true(ADJUSTMENTS[out[n].kind].caution == CAUTION_NONE ||
                            ADJUSTMENTS[out[n].with].caution == CAUTION_NONE);
            }
        }
}

static void test_sizes_of_a_pair(void **state)
{
    (void)state;
    Setting setting = able(1);
    Single singles[2] = {single_of(&setting, ADJUST_MOVE_IN, 0.0),
                         single_of(&setting, ADJUST_FASTER, 0.0)};
    singles[0].candidate.plan.stance = 29.0; /* three in: and two, its half */
    Candidate out[CANDIDATES_MAX];
    assert_int_equal(pairs_list(&setting, singles, 2, out, CANDIDATES_MAX), 4);
    for (int i = 0; i < 4; i++) {
        assert_near(out[i].plan.stance, i < 2 ? 29.0 : 28.0, 0.0);
        assert_near(out[i].plan.mph_change, i % 2 ? 1.0 : 0.5, 0.0);
        assert_int_equal(out[i].plan.slot, 1);
    }
    for (int max = 0; max < 4; max++)
        assert_int_equal(pairs_list(&setting, singles, 2, out, max), max);
    singles[0].candidate.plan.stance = 27.0; /* one board has no half */
    assert_int_equal(pairs_list(&setting, singles, 2, out, CANDIDATES_MAX), 2);
    singles[0].candidate.plan.stance = 45.0; /* off the lane; the half is on it */
    assert_int_equal(pairs_list(&setting, singles, 2, out, CANDIDATES_MAX), 2);
}

/* A new ball comes with the usual release, but for what goes with it. */
static void test_ball_and_hand(void **state)
{
    (void)state;
    Setting setting = able(1);
    setting.plan.mph_change = 0.5;
    setting.plan.rotation_change_deg = 10.0;
    Single singles[2] = {single_of(&setting, ADJUST_BALL_DOWN, 0.0),
                         single_of(&setting, ADJUST_ROTATION_LESS, 0.0)};
    Candidate out[CANDIDATES_MAX];
    assert_int_equal(pairs_list(&setting, singles, 2, out, CANDIDATES_MAX), 2);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(out[i].plan.slot, 2);
        assert_near(out[i].plan.rotation_change_deg, i ? -10.0 : 0.0, 0.0);
        assert_near(out[i].plan.mph_change, 0.0, 0.0);
    }
}

/* Of the singles of one kind the one that scores highest is taken. */
static void test_best_of_a_kind(void **state)
{
    (void)state;
    Setting setting = able(1);
    Single singles[3] = {single_of(&setting, ADJUST_MOVE_OUT, 0.05),
                         single_of(&setting, ADJUST_MOVE_IN, 0.06),
                         single_of(&setting, ADJUST_SLOWER, -1.0)};
    Candidate out[CANDIDATES_MAX];
    int count = pairs_list(&setting, singles, 3, out, CANDIDATES_MAX);
    assert_int_equal(count, 2);
    for (int i = 0; i < count; i++)
        assert_int_equal(out[i].kind, ADJUST_MOVE_IN);
    singles[0].score = 0.07;
    count = pairs_list(&setting, singles, 3, out, CANDIDATES_MAX);
    for (int i = 0; i < count; i++)
        assert_int_equal(out[i].kind, ADJUST_MOVE_OUT);
}

/* Both parts cost, and each still has to be what it is called. */
static void test_cost_and_fit_of_a_pair(void **state)
{
    (void)state;
    Setting setting = able(1);
    Candidate move = {.kind = ADJUST_MOVE_IN, .plan = setting.plan}, both;
    move.plan.stance += 2.0;
    both = move;
    both.with = ADJUST_FASTER;
    both.plan.mph_change = 0.5;
    Candidate speed = {.kind = ADJUST_FASTER, .plan = setting.plan};
    speed.plan.mph_change = 0.5;
    assert_near(candidate_cost(&setting, &both),
                candidate_cost(&setting, &move) + candidate_cost(&setting, &speed), 1e-12);
    assert_true(candidate_fits(&setting, &both));
    both.plan.aim -= 0.5; /* a move in whose eyes go out */
    assert_false(candidate_fits(&setting, &both));
    Candidate ball = {.kind = ADJUST_BALL_DOWN, .with = ADJUST_MOVE_IN, .plan = move.plan};
    ball.plan.slot = 2;
    assert_true(candidate_fits(&setting, &ball));
    ball.plan.aim -= 0.5;
    assert_false(candidate_fits(&setting, &ball));
    ball.with = ADJUST_HOLD; /* a ball alone is aimed wherever it hits */
    assert_true(candidate_fits(&setting, &ball));
    Candidate aim = {.kind = ADJUST_AIM_IN, .with = ADJUST_SLOWER, .plan = setting.plan};
    assert_false(candidate_fits(&setting, &aim));
    aim.plan.aim += 0.5;
    assert_true(candidate_fits(&setting, &aim));
}

static void assert_words(Candidate c, const char *expected)
{
    Setting setting = able(1);
    char words[192];
    candidate_words(&setting, &c, words, sizeof words);
    assert_string_equal(words, expected);
}

static void test_words(void **state)
{
    (void)state;
    Plan plan = able(1).plan;
    Candidate c = {.kind = ADJUST_ROTATION_LESS, .plan = plan};
    c.plan.rotation_change_deg = -10.0;
    assert_words(c, "Stay behind it: 10 degrees less rotation, same line");
    c.kind = ADJUST_ROTATION_MORE;
    c.plan.rotation_change_deg = 20.0;
    c.plan.aim -= 1.0;
    assert_words(c, "Come around it: 20 degrees more rotation, 1 out with the eyes");
    c = (Candidate){.kind = ADJUST_MOVE_IN, .with = ADJUST_FASTER, .plan = plan};
    c.plan.stance += 3.0;
    c.plan.aim += 2.0;
    c.plan.mph_change = 0.5;
    assert_words(c, "Move in 3-and-2: 3 in with the feet, 2 in with the eyes; and +0.5 mph");
    c.with = ADJUST_LOFT_MORE;
    c.plan.mph_change = 0.0;
    c.plan.loft_change_ft = 2.0;
    assert_words(c, "Move in 3-and-2: 3 in with the feet, 2 in with the eyes; and +2 ft of loft");
    c = (Candidate){.kind = ADJUST_BALL_DOWN, .with = ADJUST_ROTATION_LESS, .plan = plan};
    c.plan.slot = 4;
    c.plan.rotation_change_deg = -10.0;
    assert_words(c, "Ball down, 4 Thaw Pulley, same line; and 10 degrees less rotation");
    c.with = ADJUST_HOLD; /* back to the usual speed with it */
    c.plan.rotation_change_deg = 0.0;
    c.plan.stance += 3.0;
    c.plan.mph_change = 0.5;
    assert_words(c, "Ball down, 4 Thaw Pulley: +0.5 mph, 3 in with the feet");
}

static const Adjustment *adjustment_of(const Advice *advice, AdjustmentKind kind,
                                       AdjustmentKind with)
{
    for (int i = 0; i < advice->adjustment_count; i++)
        if (advice->adjustments[i].kind == kind && advice->adjustments[i].with == with)
            return &advice->adjustments[i];
    return NULL;
}

static bool quotes(const Adjustment *adjustment, AdjustmentKind kind)
{
    for (int i = 0; i < adjustment->rule_count; i++) {
        const Rule *rule = &RULES.rules[adjustment->rules[i]];
        for (int k = 0; k < rule->try_count; k++)
            if (rule->try_[k] == kind)
                return true;
    }
    return false;
}

static void assert_pays(const Advice *advice, const Adjustment *pair)
{
    const AdjustmentKind parts[3] = {pair->kind, pair->with, ADJUST_HOLD};
    for (int i = 0; i < 3; i++) {
        const Adjustment *part = adjustment_of(advice, parts[i], ADJUST_HOLD);
        if (part) /* another name may have said the same ball on the same line */
            assert_less(part->score + 0.02, pair->score);
        if (part && part->vote > 0.0 && i < 2)
            assert_true(quotes(pair, parts[i]) && pair->vote >= part->vote);
    }
    assert_non_null(strstr(pair->words, "; and "));
    assert_int_equal(pair->caution, ADJUSTMENTS[pair->with].caution);
    assert_true(pair->surface_grit == 0.0);
}

/* What the rules insist on most stands among the first two, by itself or in a pair. */
static void assert_in_sight(const Advice *advice)
{
    const Adjustment *most = &advice->adjustments[0];
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *single = &advice->adjustments[i];
        if (single->with == ADJUST_HOLD && (most->with != ADJUST_HOLD || single->vote > most->vote))
            most = single;
    }
    bool seen = most->vote < 0.5;
    for (int i = 0; i < 2 && i < advice->adjustment_count; i++) {
        const Adjustment *adjustment = &advice->adjustments[i];
        seen |= adjustment == most ||
                (adjustment->with != ADJUST_HOLD &&
                 (adjustment->kind == most->kind || adjustment->with == most->kind));
    }
    assert_true(seen);
}

/* Days on which much is asked: whenever a pair is among the answers it pays, and on some it is. */
static void test_a_pair_pays(void **state)
{
    (void)state;
    static const struct {
        const char *pattern;
        int slot, game;
        double stance, aim;
        Hit hit;
        Read read;
    } DAYS[] = {{"kerb", 4, 3, 26.0, 15.0, HIT_HIGH, READ_LATE},
                {"latch", 5, 3, 19.0, 12.0, HIT_NOSE, READ_LATE},
                {"apron", 5, 2, 20.0, 13.0, HIT_HIGH, READ_LATE},
                {"parlour", 4, 3, 19.0, 11.0, HIT_HIGH, READ_LATE},
                {"lintel", 3, 2, 25.0, 10.0, HIT_HIGH, READ_LATE},
                {"apron", 1, 1, 26.0, 12.0, HIT_FLUSH, READ_EARLY},
                {"apron", 1, 2, 26.0, 14.0, HIT_HIGH, READ_EARLY},
                {"parlour", 5, 3, 21.0, 14.0, HIT_LIGHT, READ_EARLY},
                {"latch", 2, 4, 26.0, 16.0, HIT_HIGH, READ_LATE},
                {"kerb", 3, 3, 23.0, 15.0, HIT_THIN, READ_EARLY}};
    enum { DAYS_COUNT = sizeof DAYS / sizeof DAYS[0] };
    int pairs = 0;
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    for (int day = 0; day < DAYS_COUNT; day++) {
        Shot shots[3];
        Pattern pattern;
        Error error = {0};
        assert_true(files_pattern(DAYS[day].pattern, &pattern, &error));
        for (int i = 0; i < 3; i++)
            shots[i] = (Shot){.lane = i % 2 ? SIDE_RIGHT : SIDE_LEFT,
                              .slot = DAYS[day].slot,
                              .stance = DAYS[day].stance,
                              .aim = DAYS[day].aim,
                              .hit = DAYS[day].hit,
                              .read = DAYS[day].read,
                              .release = RELEASE_GOOD};
        AdviceInput input = {
            .bag = &BAG,
            .pattern = &pattern,
            .rules = &RULES,
            .shots = shots,
            .shot_count = 3,
            .plan = {.slot = DAYS[day].slot, .stance = DAYS[day].stance, .aim = DAYS[day].aim},
            .game = DAYS[day].game,
            .frame = 3,
            .bowlers_on_pair = 2,
            .certified = true};
        advice_begin(job, &input);
        while (!advice_step(job))
            ;
        const Advice *advice = advice_result(job);
        assert_in_sight(advice);
        for (int i = 0; i < advice->adjustment_count; i++)
            if (advice->adjustments[i].with != ADJUST_HOLD) {
                pairs++;
                assert_pays(advice, &advice->adjustments[i]);
            }
    }
    advice_job_free(job);
    if (getenv("SETTEE_SHOW"))
        print_message("%d pairs\n", pairs);
    assert_true(pairs >= 2 && pairs < DAYS_COUNT);
}

static AdviceJob *advise(const Bag *bag, const Shot *shots, const Plan *plan)
{
    AdviceInput input = {.bag = bag,
                         .pattern = &PATTERN,
                         .rules = &RULES,
                         .shots = shots,
                         .shot_count = 2,
                         .plan = *plan,
                         .game = 2,
                         .frame = 3,
                         .bowlers_on_pair = 2,
                         .certified = true};
    return answer(&input);
}

/* Thrown faster, with more loft and another hand as planned, a shot tells of the lane what it would
 * from a bowler whose usual that is; and it is of the plan's line. */
static void test_meant_otherwise_is_no_surprise(void **state)
{
    (void)state;
    Bag usual = BAG;
    usual.bowler.mph += 0.5;
    usual.bowler.loft_ft += 2.0;
    usual.bowler.rotation_deg += 10.0;
    Plan plain = {.slot = 1, .stance = 26.0, .aim = 14.5}, planned = plain;
    planned.mph_change = 0.5;
    planned.loft_change_ft = 2.0;
    planned.rotation_change_deg = 10.0;
    Shot thrown = session_shot(SIDE_LEFT, &plain), meant = session_shot(SIDE_LEFT, &planned);
    thrown.hit = meant.hit = HIT_LIGHT;
    thrown.read = meant.read = READ_LATE;
    AdviceJob *a = advise(&usual, (Shot[]){thrown, thrown}, &plain);
    AdviceJob *b = advise(&BAG, (Shot[]){meant, meant}, &planned);
    AdviceJob *unsaid = advise(&BAG, (Shot[]){thrown, thrown}, &planned);
    const Advice *x = advice_result(a), *y = advice_result(b), *z = advice_result(unsaid);
    assert_near(x->lane.scale, y->lane.scale, 0.0);
    assert_near(x->lane.mph.mean, y->lane.mph.mean, 0.0);
    assert_near(x->now.pocket, y->now.pocket, 0.0);
    assert_true(x->signs.seen[SIGN_LIGHT_TWICE] && y->signs.seen[SIGN_LIGHT_TWICE]);
    assert_true(z->lane.scale != y->lane.scale); /* else the test would show nothing */
    assert_false(z->signs.seen[SIGN_LIGHT_TWICE]);
    advice_job_free(a);
    advice_job_free(b);
    advice_job_free(unsaid);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rotation_within_the_range),
        cmocka_unit_test(test_rotation_unsaid),
        cmocka_unit_test(test_rotation_caution_and_cost),
        cmocka_unit_test(test_what_goes_together),
        cmocka_unit_test(test_sizes_of_a_pair),
        cmocka_unit_test(test_ball_and_hand),
        cmocka_unit_test(test_best_of_a_kind),
        cmocka_unit_test(test_cost_and_fit_of_a_pair),
        cmocka_unit_test(test_words),
        cmocka_unit_test(test_a_pair_pays),
        cmocka_unit_test(test_meant_otherwise_is_no_surprise),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
