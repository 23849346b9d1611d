/* A pattern without a sheet on a hidden lane: what the shots leave of what it may be. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/advice.h"
#include "core/line/first.h"
#include "core/rehearse/world.h"
#include "store/files.h"

static Bag BAG;
static RuleSet RULES;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) && files_rules("coach", &RULES, &error) ? 0 : -1;
}

/* A built-in pattern drawn out, or in, to a length: none of the family's shapes. */
static void of_length(const char *name, double length_ft, Pattern *pattern)
{
    Error error = {0};
    assert_true(files_pattern(name, pattern, &error));
    double by = length_ft / pattern->length_ft;
    for (int i = 0; i < pattern->stroke_count; i++) {
        pattern->strokes[i].ft_start *= by;
        pattern->strokes[i].ft_end *= by;
    }
    pattern->length_ft = length_ft;
}

enum { SHOTS = 16 };

/* Bowls on the hidden lane, on the first answer of the advice, which knows `about` alone. */
static void bowl(const Bag *bag, const Pattern *hidden, const char *about_name, uint64_t seed,
                 LaneNow *now)
{
    static Shot shots[SHOTS];
    Pattern about;
    Error error = {0};
    Oil sheet;
    Truth *truth = truth_new();
    AdviceJob *job = advice_job_new();
    Rng luck = rng_seed(seed + 1000u);
    assert_non_null(truth);
    assert_non_null(job);
    assert_true(files_pattern(about_name, &about, &error));
    oil_lay(hidden, &sheet);
    oil_for_hand(&sheet, bag->bowler.hand, &sheet);
    truth_draw(truth, &WORLD_KIN, bag, &sheet, seed);
    oil_lay(&about, &sheet);
    Plan plan = first_plan(bag, &sheet);
    for (int i = 0;; i++) {
        AdviceInput in = {.bag = bag,
                          .pattern = &about,
                          .rules = &RULES,
                          .shots = shots,
                          .shot_count = i,
                          .lane = (Side)(i % 2),
                          .plan = plan,
                          .game = 1 + i / 10,
                          .frame = 1 + i % 10,
                          .bowlers_on_pair = 1,
                          .certified = true};
        advice_begin(job, &in);
        while (!advice_adjustments_done(job))
            advice_step(job);
        *now = advice_result(job)->lane;
        if (i == SHOTS)
            break;
        plan = advice_result(job)->adjustments[0].plan;
        Roll roll;
        Release told;
        Delivery thrown = truth_throw(truth, &plan, 1, &luck, &told);
        truth->world->roll(truth, in.lane, plan.slot, &thrown, &luck, &roll);
        shots[i] = session_shot(in.lane, &plan);
        shots[i].release = told;
        truth_see(truth, &roll, &thrown, true, &luck, &shots[i]);
        truth_wear(truth, in.lane, 1, &roll, bag_slot(bag, plan.slot)->cover, 1, &luck);
    }
    advice_job_free(job);
    truth_free(truth);
}

static double weight_below(const LaneNow *now, double ft)
{
    double sum = 0.0;
    for (int i = 0; i < now->sheet_count; i++)
        sum += now->sheets[i].sheet.length_ft < ft ? now->sheets[i].sheet.share : 0.0;
    return sum;
}

/* Between the short and the long half of what an unknown pattern may be. */
#define MIDDLE_FT 40.0

/* The weight on short patterns over a few days, on the mean. */
static double weight_on_short(const char *name, double ft, Hand hand, uint64_t first_seed)
{
    enum { DAYS = 3 };
    Pattern hidden;
    Bag bag = BAG;
    double sum = 0.0;
    bag.bowler.hand = hand;
    of_length(name, ft, &hidden);
    for (uint64_t seed = first_seed; seed < first_seed + DAYS; seed++) {
        LaneNow now;
        bowl(&bag, &hidden, "about:nothing", seed, &now);
        assert_int_equal(now.sheet_count, 8);
        assert_non_null(strstr(now.sheet_words, "most like a "));
        assert_string_equal(now.words, now.sheet_words);
        sum += weight_below(&now, MIDDLE_FT);
    }
    return sum / DAYS;
}

/* Before the first shot half of it is on short ones. Measured: 0.89 and 0.86. */
static void test_short_oil(void **state)
{
    (void)state;
    assert_less(0.65, weight_on_short("apron", 36.0, HAND_RIGHT, 1));
    assert_less(0.65, weight_on_short("apron", 36.0, HAND_LEFT, 4));
}

/* Measured: 0.19. */
static void test_long_oil(void **state)
{
    (void)state;
    assert_less(weight_on_short("parlour", 44.0, HAND_RIGHT, 1), 0.35);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_short_oil),
        cmocka_unit_test(test_long_oil),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
