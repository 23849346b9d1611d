/* test_learnt.c - what three events say of a bowler's numbers, where the truth is known: nearer to
 * it than the presets in most cases, and nothing is offered where the presets are true. The numbers
 * of many more are in docs/learnt.md (bench_learnt). */
#include "near.h"

#include "core/advice/learnt.h"
#include "core/bag/preset.h"
#include "made_events.h"

#include "base/text.h"

enum { EVENTS = 3 };
static Bag BAG;
static Pattern PATTERNS[2];
static LearntJob *JOB;
static Session SESSION;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    JOB = learnt_new();
    if (!JOB || !files_bag("demo", &BAG, &error) || !files_pattern("apron", &PATTERNS[0], &error) ||
        !files_pattern("loaf", &PATTERNS[1], &error))
        return -1;
    BAG.bowler.scatter = preset_level("league")->scatter;
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    learnt_free(JOB);
    return 0;
}

static int learn_from(const MadeTruth *truth, int events, uint64_t seed, LearntValue *values)
{
    learnt_begin(JOB, &BAG);
    for (int e = 0; e < events; e++) {
        assert_true(made_event(&BAG, &PATTERNS[e % 2], &WORLD_KIN, truth, seed * 100u + (uint64_t)e,
                               &SESSION));
        assert_true(learnt_event(JOB, &SESSION));
        while (learnt_step(JOB))
            ;
    }
    assert_int_equal(learnt_events(JOB), events);
    return learnt_values(JOB, values);
}

static const LearntValue *of_kind(const LearntValue *values, int count, LearntKind kind)
{
    for (int i = 0; i < count; i++)
        if (values[i].kind == kind)
            return &values[i];
    return NULL;
}

static void two_events_say_nothing(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    assert_int_equal(learn_from(&(MadeTruth){.scatter = 1.0, .mph = 2.0}, 2, 1, values), 0);
}

static void true_presets_are_left_alone(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    int offered = 0, said = 0;
    for (uint64_t seed = 11; seed < 14; seed++) {
        int count = learn_from(&(MadeTruth){.scatter = 1.0}, EVENTS, seed, values);
        said += count;
        for (int i = 0; i < count; i++)
            offered += values[i].offered;
    }
    assert_true(said >= 3 * 4); /* speed, scatter, and balls */
    assert_true(offered <= 1);
}

static void a_speed_that_is_off_is_offered(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    for (int sign = -1; sign <= 1; sign += 2) {
        MadeTruth truth = {.mph = 1.2 * sign, .scatter = 1.0};
        int count = learn_from(&truth, EVENTS, 21, values);
        const LearntValue *speed = of_kind(values, count, LEARNT_MPH);
        assert_non_null(speed);
        assert_true(speed->offered);
        assert_near(speed->to, BAG.bowler.mph + truth.mph, 0.5);
        assert_true(speed->low < speed->to && speed->to < speed->high);
    }
}

/* Twice and half the scatter of the bag. */
static void scatter_goes_the_right_way(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    double to[2];
    for (int wide = 0; wide < 2; wide++) {
        int count = learn_from(&(MadeTruth){.scatter = wide ? 2.0 : 0.5}, EVENTS, 31, values);
        const LearntValue *scatter = of_kind(values, count, LEARNT_SCATTER);
        assert_non_null(scatter);
        to[wide] = scatter->to / scatter->now;
    }
    assert_true(to[0] < 0.85);
    assert_true(to[1] > 1.15);
}

/* One ball of three is stronger than its numbers, one weaker; both are told from the third. */
static void balls_go_the_right_way(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    MadeTruth truth = {.scatter = 1.0, .strength = {0.09, -0.09, 0.0}};
    double boards[MADE_BALLS] = {0};
    int count = learn_from(&truth, EVENTS, 41, values);
    for (int i = 0; i < count; i++)
        if (values[i].kind == LEARNT_BALL && BAG.balls[values[i].ball].slot <= MADE_BALLS)
            boards[BAG.balls[values[i].ball].slot - 1] = values[i].boards;
    assert_true(boards[0] > 0.5);
    assert_true(boards[1] < -0.5);
    assert_true(boards[2] < boards[0] && boards[2] > boards[1]);
}

/* Taken over, it is no longer far from what the events say. */
static void taken_over_it_is_settled(void **state)
{
    (void)state;
    LearntValue values[LEARNT_MAX];
    Bag was = BAG;
    MadeTruth truth = {.mph = 1.2, .scatter = 1.0};
    int count = learn_from(&truth, EVENTS, 21, values);
    learnt_take(of_kind(values, count, LEARNT_MPH), &BAG);
    truth.mph = was.bowler.mph + 1.2 - BAG.bowler.mph;
    count = learn_from(&truth, EVENTS, 21, values);
    assert_false(of_kind(values, count, LEARNT_MPH)->offered);
    BAG = was;
}

static void in_a_coachs_words(void **state)
{
    (void)state;
    char words[160];
    LearntValue value = {.kind = LEARNT_BALL, .ball = 0, .boards = -0.84, .shots = 62};
    text_copy(BAG.balls[0].name, sizeof BAG.balls[0].name, "3000 pearl");
    learnt_words(&value, &BAG, words, sizeof words);
    assert_string_equal(words,
                        "Your 3000 pearl hits 0.8 board lighter than its numbers (62 shots).");
    value.boards = 1.2;
    learnt_words(&value, &BAG, words, sizeof words);
    assert_string_equal(words,
                        "Your 3000 pearl hits 1.2 boards higher than its numbers (62 shots).");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_events_say_nothing),
        cmocka_unit_test(true_presets_are_left_alone),
        cmocka_unit_test(a_speed_that_is_off_is_offered),
        cmocka_unit_test(scatter_goes_the_right_way),
        cmocka_unit_test(balls_go_the_right_way),
        cmocka_unit_test(taken_over_it_is_settled),
        cmocka_unit_test(in_a_coachs_words),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
