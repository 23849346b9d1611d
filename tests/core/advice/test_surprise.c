/* A belief that can be surprised: what jumps is believed when it has been seen a few times, what is
 * typed at once, and what was seen on a line counts there most. Which way an answer must go is
 * common practice, no source. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_demo.h"

static void see_hits(Belief *belief, Hit hit, int times)
{
    Shot shot = shot_on(SIDE_LEFT, 1, hit, READ_ON_TIME, RELEASE_GOOD);
    for (int i = 0; i < times; i++)
        see(belief, &shot);
}

/* Three boards or more off after six flush: one is a bad throw as likely as not, three are the
 * lane. */
static void test_one_does_not_turn_it_three_do(void **state)
{
    (void)state;
    static const Hit HITS[] = {HIT_WIDE, HIT_THIN, HIT_CROSSED};
    for (int i = 0; i < 3; i++) {
        Belief *belief = begin(5);
        see_hits(belief, HIT_FLUSH, 6);
        double before = expected_board(belief, SIDE_LEFT, 1);
        double miss = shot_hit_board(HITS[i]) - before;
        see_hits(belief, HITS[i], 1);
        double once = (expected_board(belief, SIDE_LEFT, 1) - before) / miss;
        see_hits(belief, HITS[i], 2);
        double thrice = (expected_board(belief, SIDE_LEFT, 1) - before) / miss;
        if (getenv("SETTEE_SHOW"))
            print_message("of a miss of %.1f boards: after one %.2f, after three %.2f\n", miss,
                          once, thrice);
        assert_less(once, 0.5);
        assert_less(0.5, thrice);
        free(belief);
    }
}

/* A speed that jumps is taken over at once as typed, and comes back so. */
static void test_speed_is_believed_as_typed(void **state)
{
    (void)state;
    for (int way = -1; way <= 1; way += 2) {
        Belief *belief = begin(5);
        Shot shot = shot_on(SIDE_LEFT, 1, HIT_FLUSH, READ_ON_TIME, RELEASE_GOOD);
        for (int i = 0; i < 6; i++) {
            shot.mph = BAG.bowler.mph;
            see(belief, &shot);
        }
        double usual = belief_part(belief, PART_MPH).mean;
        shot.hit = HIT_UNSAID;
        shot.mph = BAG.bowler.mph + 1.1 * way;
        see(belief, &shot);
        double once = belief_part(belief, PART_MPH).mean;
        see(belief, &shot);
        double twice = belief_part(belief, PART_MPH).mean;
        shot.mph = BAG.bowler.mph;
        see(belief, &shot);
        see(belief, &shot);
        double back = belief_part(belief, PART_MPH).mean;
        if (getenv("SETTEE_SHOW"))
            print_message("speed %.2f, typed %+.1f: %.2f, again %.2f, as usual again %.2f\n", usual,
                          1.1 * way, once, twice, back);
        assert_less(0.7, way * once);
        assert_near(twice, 1.1 * way, 0.25);
        assert_near(back, 0.0, 0.25);
        free(belief);
    }
}

/* What nothing else explains of a line is known there, less well the farther from it. */
static void test_counts_most_where_it_was_seen(void **state)
{
    (void)state;
    Belief *belief = begin(5);
    see_hits(belief, HIT_NOSE, 5);
    double last = 0.0;
    for (int boards = 0; boards <= 6; boards += 2) {
        double laydown = BEST[0].laydown_board + boards, turn = BEST[0].breakpoint_board + boards;
        OffsetsAt here = offsets_at(SIDE_LEFT, 1, laydown, turn);
        OffsetsAt other_lane = offsets_at(SIDE_RIGHT, 1, laydown, turn);
        OffsetsAt other_ball = offsets_at(SIDE_LEFT, 2, laydown, turn);
        double sd = belief_off(belief, &here).sd;
        assert_less(last, sd);
        last = sd;
        assert_less(sd, belief_off(belief, &other_ball).sd);
        if (boards == 0)
            assert_less(sd + 0.3, belief_off(belief, &other_lane).sd);
    }
    free(belief);
}

/* The mean board of an answer's plan on the demo's sheet, thrown so much slower or faster. */
static double really_hits(const Plan *plan, double mph)
{
    DeliveryOffset day = {.mph = mph};
    Delivery meant = plan_delivery(&BAG.bowler, plan), d = delivery_offset(&meant, &day);
    Arrival at = motion_arrive(&BODY[plan->slot - 1], &SHEET, &d);
    return at.gutter ? 0.0 : at.board;
}

/* Flush for eight shots, then light for five good ones: something is another way now. Holding is
 * not the first answer, and what is, is one that hits higher. */
static void test_five_lights_after_eight_flush(void **state)
{
    (void)state;
    Asked *asked = ask();
    asked->in.plan =
        (Plan){.slot = 1, .stance = BEST[0].stance, .aim = lane_half_board(BEST[0].aim)};
    for (int i = 0; i < 13; i++)
        say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, i < 8 ? HIT_FLUSH : HIT_LIGHT, READ_ON_TIME,
            RELEASE_GOOD);
    AdviceJob *job = answer(&asked->in);
    const Adjustment *first = &advice_result(job)->adjustments[0];
    if (getenv("SETTEE_SHOW"))
        print_message("%s; pocket now %.2f\n", first->words, first->pocket_now);
    assert_int_not_equal(first->kind, ADJUST_HOLD);
    assert_less(really_hits(&asked->in.plan, 0.0) + 0.2, really_hits(&first->plan, 0.0));
    advice_job_free(job);
    free(asked);
}

/* High four times, each typed 1.1 mph under the usual speed: the first answer hits lower at that
 * speed than the line as it is. */
static void test_high_because_it_is_slow(void **state)
{
    (void)state;
    static const double SLOW[] = {-0.8, -1.1, -1.4};
    for (int k = 0; k < 3; k++) {
        Asked *asked = ask();
        asked->in.plan =
            (Plan){.slot = 1, .stance = BEST[0].stance, .aim = lane_half_board(BEST[0].aim)};
        for (int i = 0; i < 4; i++) {
            say(asked, i % 2 ? SIDE_RIGHT : SIDE_LEFT, HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
            asked->shots[i].mph = BAG.bowler.mph + SLOW[k];
        }
        AdviceJob *job = answer(&asked->in);
        const Adjustment *first = &advice_result(job)->adjustments[0];
        if (getenv("SETTEE_SHOW"))
            print_message("%+.1f mph: %s; from %.1f to %.1f\n", SLOW[k], first->words,
                          really_hits(&asked->in.plan, SLOW[k]),
                          really_hits(&first->plan, SLOW[k]));
        assert_int_not_equal(first->kind, ADJUST_HOLD);
        assert_less(really_hits(&first->plan, SLOW[k]),
                    really_hits(&asked->in.plan, SLOW[k]) - 0.2);
        advice_job_free(job);
        free(asked);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_does_not_turn_it_three_do),
        cmocka_unit_test(test_speed_is_believed_as_typed),
        cmocka_unit_test(test_counts_most_where_it_was_seen),
        cmocka_unit_test(test_five_lights_after_eight_flush),
        cmocka_unit_test(test_high_because_it_is_slow),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
