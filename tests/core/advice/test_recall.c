/* test_recall.c - what an advice job may keep from the question before: nothing, once any part of
 * a shot that it has weighed is said otherwise. */
#include "near.h"

#include <stdlib.h>

#include "core/advice/advice.h"
#include "store/files.h"

static Bag BAG;
static Pattern PATTERN;
static RuleSet RULES;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) && files_pattern("apron", &PATTERN, &error) &&
                   files_rules("coach", &RULES, &error)
               ? 0
               : -1;
}

/* Slices until the last shot has been weighed: one a shot. */
static int slices(AdviceJob *job, const AdviceInput *in)
{
    int count = 0;
    advice_begin(job, in);
    for (; !advice_result(job)->ready; count++)
        advice_step(job);
    return count;
}

static void every_part_of_a_shot_counts(void **state)
{
    (void)state;
    const Shot said = {.slot = 1,
                       .stance = 26,
                       .aim = 14.5,
                       .mph = 17.5,
                       .arrows = 14,
                       .breakpoint = 8,
                       .hit = HIT_HIGH,
                       .read = READ_EARLY,
                       .release = RELEASE_GOOD,
                       .left_said = true,
                       .left = 1 << 3};
    Shot otherwise[] = {said, said, said, said, said, said};
    otherwise[0].mph = 17.6;
    otherwise[1].arrows = 14.5;
    otherwise[2].arrows = 0; /* not said after all */
    otherwise[3].breakpoint = 7.5;
    otherwise[4].read = READ_LATE;
    otherwise[5].left = 1 << 6;
    Shot shots[3] = {said, said, said};
    AdviceInput in = {.bag = &BAG,
                      .pattern = &PATTERN,
                      .rules = &RULES,
                      .shots = shots,
                      .shot_count = 3,
                      .plan = {.slot = 1, .stance = 26, .aim = 14.5},
                      .game = 1,
                      .frame = 4,
                      .bowlers_on_pair = 1,
                      .certified = true};
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    int anew = slices(job, &in), again = slices(job, &in);
    assert_true(again < anew); /* the same once more: all three shots are kept */
    for (size_t i = 0; i < sizeof otherwise / sizeof *otherwise; i++) {
        shots[0] = otherwise[i];
        assert_int_equal(slices(job, &in), anew);
    }
    advice_job_free(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_part_of_a_shot_counts)};
    return cmocka_run_group_tests_name("recall", tests, set_up, NULL);
}
