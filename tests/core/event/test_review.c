/* test_review.c - the interval against its own equation and closed forms, and the counts of
 * invented sessions against a count by hand. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include <gsl/gsl_cdf.h>

#include "core/event/review.h"

static Session session;
static Review review;

/* The bounds are the two rates p whose distance from the seen share is z deviations of their own:
 * (share - p)^2 = z^2 p (1 - p) / n. Solved nowhere here; only put in. */
static void interval_solves_its_equation(void **state)
{
    (void)state;
    double z = gsl_cdf_ugaussian_Pinv(0.975);
    for (int of = 1; of <= 400; of += of < 20 ? 1 : 37)
        for (int hits = 0; hits <= of; hits++) {
            double low, high, share = (double)hits / of;
            review_interval(hits, of, &low, &high);
            assert_true(low >= 0.0 && low <= share && share <= high && high <= 1.0);
            assert_near((share - low) * (share - low), z * z * low * (1.0 - low) / of, 1e-12);
            assert_near((share - high) * (share - high), z * z * high * (1.0 - high) / of, 1e-12);
        }
}

static void interval_at_the_ends(void **state)
{
    (void)state;
    double low, high, z = gsl_cdf_ugaussian_Pinv(0.975);
    review_interval(0, 0, &low, &high);
    assert_true(low == 0.0 && high == 1.0);
    review_interval(0, 10, &low, &high);
    assert_true(low == 0.0);
    assert_near(high, z * z / (10 + z * z), 1e-12); /* closed form for no hit */
    review_interval(10, 10, &low, &high);
    assert_true(high == 1.0);
    assert_near(low, 10 / (10 + z * z), 1e-12);
    review_interval(5, 10, &low, &high);
    assert_near(low + high, 1.0, 1e-12);
    assert_near(low, 0.2366, 5e-5); /* 5 of 10, from memory of printed tables */
}

/* Wider than 0.30: with half of them hits that ends between 38 and 39. */
static void few_say_little(void **state)
{
    (void)state;
    assert_true(review_says_little(0, 0));
    assert_true(review_says_little(11, 22));
    assert_true(review_says_little(19, 38));
    assert_false(review_says_little(20, 40));
    assert_false(review_says_little(38, 40));
}

static void begin(const char *date, const char *pattern)
{
    EventInfo event = {.pair = {7, 8}, .games = 6};
    static Bag bag;
    Pattern on = {.length_ft = 40};
    Plan first = {.slot = 1};
    snprintf(event.date, sizeof event.date, "%s", date);
    snprintf(on.name, sizeof on.name, "%s", pattern);
    bag = (Bag){.bowler = bowler_default(), .count = 3};
    for (int i = 0; i < 3; i++) {
        bag.balls[i] = ball_default();
        snprintf(bag.balls[i].id, sizeof bag.balls[i].id, "ball-%d", i);
        snprintf(bag.balls[i].name, sizeof bag.balls[i].name, "Ball %d", i);
        bag.balls[i].slot = i == 2 ? BAG_SLOTS : 2 * i + 1;
    }
    session_begin(&session, &event, &bag, &on, &first);
}

static void throw_some(int count, int slot, Hit hit, bool said, Pins left, bool spare)
{
    for (int i = 0; i < count; i++) {
        Entry entry = {.kind = ENTRY_SHOT,
                       .shot = {.lane = session.lane,
                                .slot = slot,
                                .hit = hit,
                                .left_said = said,
                                .left = left,
                                .spare_said = spare}};
        assert_true(session_apply(&session, &entry));
    }
}

static void next_game(void)
{
    Entry entry = {.kind = ENTRY_GAME};
    assert_true(session_apply(&session, &entry));
}

static void counts_by_hand(void **state)
{
    (void)state;
    review_begin(&review);
    begin("2026-05-09", "Apron");
    throw_some(12, 1, HIT_FLUSH, true, 0, false); /* 300 */
    throw_some(3, 3, HIT_LIGHT, true, pin_bit(10), true);
    throw_some(1, 3, HIT_HIGH, false, 0, false); /* a leave not seen: no score */
    assert_true(review_add(&review, &session));
    begin("2026-04-30", "Kerb");
    throw_some(10, 1, HIT_NOSE, true, pin_bit(4), true);
    throw_some(1, 1, HIT_FLUSH, true, pin_bit(4), false); /* 9 spare each frame, then 9 */
    next_game();
    throw_some(1, 1, HIT_UNSAID, true, 0, false);
    assert_true(review_add(&review, &session));

    assert_int_equal(review.month_count, 2);
    const ReviewMonth *april = &review.months[0], *may = &review.months[1];
    assert_string_equal(april->month, "2026-04");
    assert_string_equal(may->month, "2026-05");
    assert_int_equal(may->events, 1);
    assert_int_equal(may->games, 2);
    assert_int_equal(may->complete, 1);
    assert_int_equal(may->score_sum, 300);
    assert_int_equal(may->tally.shots, 16);
    assert_int_equal(may->tally.hits, 16);
    assert_int_equal(may->tally.pockets, 15);
    assert_int_equal(may->tally.leaves, 15);
    assert_int_equal(may->tally.strikes, 12);
    assert_int_equal(may->tally.pins, 12 * 10 + 3 * 9);
    assert_int_equal(april->games, 2);
    assert_int_equal(april->complete, 1);
    assert_int_equal(april->score_sum, 190); /* nine spares and nine more: 19 a frame */
    assert_int_equal(april->tally.shots, 12);
    assert_int_equal(april->tally.hits, 11); /* one has only a leave */
    assert_int_equal(april->tally.pockets, 1);
    assert_int_equal(review.total.events, 2);
    assert_int_equal(review.total.score_sum, 490);
    assert_int_equal(review.total.tally.shots, 28);

    assert_int_equal(review.ball_count, 3);
    assert_string_equal(review.balls[0].id, "ball-0");
    assert_int_equal(review.balls[0].tally.shots, 24);
    assert_int_equal(review.balls[0].in_game[0], 23);
    assert_int_equal(review.balls[0].in_game[1], 1);
    assert_int_equal(review.balls[1].tally.shots, 4);
    assert_int_equal(review.balls[1].in_game[1], 4);
    assert_int_equal(review.balls[2].tally.shots, 0); /* never thrown */
    assert_int_equal(review.balls[2].slot, BAG_SLOTS);
    assert_int_equal(review.pattern_count, 2);
    assert_int_equal(review.patterns[0].of_ball[0], 12);
    assert_int_equal(review.patterns[0].of_ball[1], 4);
    assert_int_equal(review.patterns[1].of_ball[0], 12);
    assert_int_equal(review.patterns[1].of_ball[1], 0);
}

static void without_shots_nothing_counts(void **state)
{
    (void)state;
    review_begin(&review);
    begin("2026-05-09", "Apron");
    assert_true(review_add(&review, &session));
    assert_int_equal(review.total.events + review.month_count + review.ball_count, 0);
}

static void without_a_date(void **state)
{
    (void)state;
    review_begin(&review);
    begin("2026-05-09", "Apron");
    throw_some(1, 1, HIT_FLUSH, true, 0, false);
    assert_true(review_add(&review, &session));
    begin("", "Apron");
    throw_some(2, BAG_SLOTS, HIT_FLUSH, true, 0, false);
    assert_true(review_add(&review, &session));
    assert_int_equal(review.month_count, 2);
    assert_string_equal(review.months[0].month, "");
    assert_int_equal(review.months[0].tally.shots, 2);
    assert_int_equal(review.pattern_count, 1);
}

/* A ball that went to the locker keeps its counts and has no slot. */
static void a_bag_that_changed(void **state)
{
    (void)state;
    review_begin(&review);
    begin("2026-05-09", "Apron");
    throw_some(2, 3, HIT_FLUSH, true, 0, false);
    assert_true(review_add(&review, &session));
    begin("2026-05-16", "Apron");
    session.bag.balls[1].slot = 0;
    session.bag.balls[2].slot = 3;
    throw_some(1, 3, HIT_FLUSH, true, 0, false);
    assert_true(review_add(&review, &session));
    assert_int_equal(review.balls[1].slot, 0);
    assert_int_equal(review.balls[1].tally.shots, 2);
    assert_int_equal(review.balls[2].slot, 3);
    assert_int_equal(review.balls[2].tally.shots, 1);
    begin("2026-05-23", "Apron");
    session.bag.balls[0].slot = 0; /* the first one as well as any other */
    throw_some(1, 3, HIT_FLUSH, true, 0, false);
    assert_true(review_add(&review, &session));
    assert_int_equal(review.balls[0].slot, 0);
}

/* A ball that was thrown and is now in the locker is still listed by name. */
static void a_ball_thrown_from_the_locker(void **state)
{
    (void)state;
    review_begin(&review);
    begin("2026-05-09", "Apron");
    throw_some(2, 3, HIT_FLUSH, true, 0, false);
    session.bag.balls[1].slot = 0;
    assert_true(review_add(&review, &session));
    assert_int_equal(review.ball_count, 3);
    for (int i = 0; i < review.ball_count; i++)
        assert_string_equal(review.balls[i].name,
                            strcmp(review.balls[i].id, "ball-0") == 0   ? "Ball 0"
                            : strcmp(review.balls[i].id, "ball-1") == 0 ? "Ball 1"
                                                                        : "Ball 2");
    assert_string_equal(review.balls[2].id, "ball-1"); /* behind those of the slots */
    assert_int_equal(review.balls[2].slot, 0);
    assert_int_equal(review.balls[2].tally.shots, 2);
}

/* An event whose balls have no room, be they in slots or in the locker by now, is not counted at
 * all; one that brings no new ball still is. */
static void no_room_for_its_balls(void **state)
{
    (void)state;
    enum { BALLS = 10, FREE = BALLS - 2 };
    review_begin(&review);
    begin("2026-05-09", "Apron");
    session.bag.count = session.shot_count = BALLS;
    for (int i = 0; i < BALLS; i++) { /* all thrown, one of them in a slot still */
        session.bag.balls[i] = ball_default();
        session.bag.balls[i].slot = i == 0 ? 1 : 0;
        snprintf(session.bag.balls[i].id, sizeof session.bag.balls[i].id, "new-%d", i);
        session.shots[i] = (Shot){.hit = HIT_FLUSH};
        snprintf(session.shots[i].ball, sizeof session.shots[i].ball, "new-%d", i);
        session.shot_game[i] = 1;
    }
    for (; review.ball_count < REVIEW_BALLS_MAX - FREE; review.ball_count++)
        snprintf(review.balls[review.ball_count].id, sizeof review.balls[0].id, "other-%d",
                 review.ball_count);
    static Review before;
    before = review;
    assert_false(review_add(&review, &session));
    assert_memory_equal(&review, &before, sizeof review);
    session.shot_count = FREE;
    assert_true(review_add(&review, &session));
    assert_int_equal(review.ball_count, REVIEW_BALLS_MAX);
    assert_true(review_add(&review, &session));
    assert_int_equal(review.total.tally.shots, 2 * FREE);
}

static void more_than_there_is_room_for(void **state)
{
    (void)state;
    char date[16];
    int added = 0;
    review_begin(&review);
    for (int i = 0; i < REVIEW_MONTHS_MAX + 5; i++) {
        snprintf(date, sizeof date, "%04d-%02d-01", 2000 + i / 12, 1 + i % 12);
        begin(date, "Apron");
        throw_some(1, 1, HIT_FLUSH, true, 0, false);
        added += review_add(&review, &session);
    }
    assert_int_equal(added, REVIEW_MONTHS_MAX);
    assert_int_equal(review.total.tally.shots, REVIEW_MONTHS_MAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(interval_solves_its_equation),
        cmocka_unit_test(interval_at_the_ends),
        cmocka_unit_test(few_say_little),
        cmocka_unit_test(counts_by_hand),
        cmocka_unit_test(without_shots_nothing_counts),
        cmocka_unit_test(without_a_date),
        cmocka_unit_test(a_bag_that_changed),
        cmocka_unit_test(a_ball_thrown_from_the_locker),
        cmocka_unit_test(no_room_for_its_balls),
        cmocka_unit_test(more_than_there_is_room_for),
    };
    return cmocka_run_group_tests_name("review", tests, NULL, NULL);
}
