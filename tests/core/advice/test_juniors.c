/* test_juniors.c - advice for who throws one ball slowly and nearly straight: after three misses to
 * one side a coach has them move their feet to that side, and leaves the body alone (common
 * practice, no source). And what is asked of the frame changes what an answer is worth. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/line/first.h"
#include "helper_demo.h"
#include "store/files.h"

static const char *const SHEETS[] = {"parlour", "apron", "latch"};
enum { SHEET_COUNT = sizeof SHEETS / sizeof SHEETS[0] };

/* A child of ten and one of fifteen: a house ball of polyester and a wide scatter (assumed). */
static const struct {
    const char *who;
    double mph, rpm, pounds;
} JUNIORS[] = {{"10 mph", 10.0, 80.0, 8.0}, {"14 mph", 14.0, 140.0, 12.0}};

static void junior(int which, Hand hand, Bag *bag)
{
    Ball ball = *bag_slot(&BAG, 6);
    ball.pounds = JUNIORS[which].pounds;
    ball.slot = 1;
    bag->count = 1;
    bag->balls[0] = ball;
    bag->bowler = bowler_default();
    bag->bowler.hand = hand;
    bag->bowler.mph = JUNIORS[which].mph;
    bag->bowler.rpm = JUNIORS[which].rpm;
    bag->bowler.rotation_deg = 15.0;
    bag->bowler.tilt_deg = 10.0;
    bag->bowler.loft_ft = 0.5;
    bag->bowler.scatter = (Scatter){0.35, 0.4, 12.0, 0.8};
}

static Asked *ask_junior(int which, Hand hand, const Pattern *pattern)
{
    Asked *asked = ask();
    Oil sheet, oil;
    junior(which, hand, &asked->bag);
    asked->in.pattern = pattern;
    asked->in.game = 1;
    oil_lay(pattern, &sheet);
    oil_for_hand(&sheet, hand, &oil);
    asked->in.plan = first_plan(&asked->bag, &oil);
    assert_int_equal(asked->in.plan.slot, 1);
    return asked;
}

static bool forces(const Adjustment *a)
{
    return a->plan.mph_change > 0.0 || a->plan.loft_change_ft > 0.0 ||
           ADJUSTMENTS[a->kind].changes == CHANGE_BALL;
}

static void test_feet_follow_the_miss(void **state)
{
    (void)state;
    static const struct {
        Hit hits[3];
        Read read;
        AdjustmentKind feet; /* for either hand: in is away from the own edge */
    } MISSES[] = {{{HIT_HIGH, HIT_HIGH, HIT_NOSE}, READ_UNSAID, ADJUST_MOVE_IN},
                  {{HIT_NOSE, HIT_CROSSED, HIT_NOSE}, READ_UNSAID, ADJUST_MOVE_IN},
                  {{HIT_LIGHT, HIT_THIN, HIT_LIGHT}, READ_UNSAID, ADJUST_MOVE_OUT},
                  {{HIT_THIN, HIT_WIDE, HIT_THIN}, READ_LATE, ADJUST_MOVE_OUT}};
    int wrong = 0;
    for (int p = 0; p < SHEET_COUNT; p++)
        for (int which = 0; which < 2; which++)
            for (int hand = 0; hand < 2; hand++)
                for (size_t m = 0; m < sizeof MISSES / sizeof MISSES[0]; m++) {
                    Error error = {0};
                    Pattern pattern;
                    assert_true(files_pattern(SHEETS[p], &pattern, &error));
                    Asked *asked = ask_junior(which, (Hand)hand, &pattern);
                    for (int i = 0; i < 3; i++)
                        say(asked, SIDE_LEFT, MISSES[m].hits[i], MISSES[m].read, RELEASE_GOOD);
                    AdviceJob *job = answer(&asked->in);
                    const Advice *advice = advice_result(job);
                    const Adjustment *first = &advice->adjustments[0];
                    bool forced = false;
                    for (int i = 0; i < advice->adjustment_count; i++)
                        forced |= forces(&advice->adjustments[i]);
                    if (forced || first->kind != MISSES[m].feet) {
                        wrong++;
                        printf("%s on %s, misses %d, from %g over %g:\n", JUNIORS[which].who,
                               SHEETS[p], (int)m, asked->in.plan.stance, asked->in.plan.aim);
                        for (int i = 0; i < advice->adjustment_count; i++)
                            printf("  %s; %s, strike %.3f > %.3f, frame %.2f > %.2f, score %.3f\n",
                                   advice->adjustments[i].words, advice->adjustments[i].hits,
                                   advice->adjustments[i].strike_now,
                                   advice->adjustments[i].strike_after,
                                   advice->adjustments[i].frame_now.score,
                                   advice->adjustments[i].frame_after.score,
                                   advice->adjustments[i].score);
                    }
                    advice_job_free(job);
                    free(asked);
                }
    assert_int_equal(wrong, 0);
}

/* Lines differ where strikes hardly do: a line that comes in three boards lighter is worth less of
 * a frame than the first one. */
static void test_lines_differ(void **state)
{
    (void)state;
    for (int which = 0; which < 2; which++) {
        Asked *asked = ask_junior(which, HAND_RIGHT, &PATTERN);
        AdviceJob *best = answer(&asked->in);
        asked->in.plan.aim -= 1.0;
        AdviceJob *off = answer(&asked->in);
        assert_true(advice_result(best)->strikes_rare);
        assert_less(advice_result(off)->adjustments[0].frame_now.score + 0.2,
                    advice_result(best)->adjustments[0].frame_now.score);
        advice_job_free(best);
        advice_job_free(off);
        free(asked);
    }
}

/* Whoever strikes more often goes by strikes; the frame's numbers hang together. */
static void test_frame_and_need(void **state)
{
    (void)state;
    for (int need = 0; need < NEED_COUNT; need++) {
        Asked *asked = ask();
        asked->in.need = (Need)need;
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
        AdviceJob *job = answer(&asked->in);
        const Advice *advice = advice_result(job);
        assert_false(advice->strikes_rare);
        for (int i = 0; i < advice->adjustment_count; i++) {
            const Adjustment *a = &advice->adjustments[i];
            assert_true(a->frame_after.clean >= a->strike_after && a->frame_after.clean <= 1.0);
            assert_true(a->frame_after.score > 0.0 && a->frame_after.score <= 30.0);
            assert_true(a->kind == ADJUST_HOLD || a->hits[0]);
        }
        const Adjustment *first = &advice->adjustments[0];
        if (need == NEED_CLEAN)
            assert_true(first->frame_after.clean >= first->frame_now.clean - 0.01);
        else
            assert_true(first->strike_after >= first->strike_now - 0.01);
        advice_job_free(job);
        free(asked);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_feet_follow_the_miss),
        cmocka_unit_test(test_lines_differ),
        cmocka_unit_test(test_frame_and_need),
    };
    return cmocka_run_group_tests_name("juniors", tests, demo_set_up, NULL);
}
