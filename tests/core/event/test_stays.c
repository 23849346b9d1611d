/* Several pairs in one event, and warm-up before it. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/event/review.h"
#include "core/event/stays.h"

static const Plan FIRST = {.slot = 1, .stance = 26.0, .aim = 15.0};

static Session *begin(const EventInfo *event)
{
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    Bag bag = {.bowler = bowler_default(), .count = 1, .balls = {ball_default()}};
    bag.balls[0].slot = 1;
    memcpy(bag.balls[0].id, "one", 4);
    Pattern pattern = {.length_ft = 40.0};
    session_begin(session, event, &bag, &pattern, &FIRST);
    return session;
}

static EventInfo an_event(void)
{
    return (EventInfo){
        .id = "day", .games = 4, .pair = {11, 12}, .bowlers_on_pair = 4, .certified = true};
}

static void apply(Session *session, Entry entry)
{
    const char *refused = session_refuses(session, &entry);
    if (refused)
        fail_msg("refused: %s", refused);
    assert_true(session_apply(session, &entry));
}

static void throw_open(Session *session)
{
    Shot shot = session_next_shot(session);
    shot.hit = HIT_HIGH;
    shot.left_said = true;
    shot.left = pin_bit(4);
    apply(session, (Entry){.kind = ENTRY_SHOT, .shot = shot});
}

static void play_game(Session *session)
{
    for (int frame = 1; frame <= 10; frame++)
        throw_open(session);
    assert_true(session->game_over);
}

static void assert_pair(const int *pair, int left, int right)
{
    assert_int_equal(pair[0], left);
    assert_int_equal(pair[1], right);
}

static void test_one_pair(void **state)
{
    (void)state;
    EventInfo event = an_event();
    for (int game = 1; game <= SESSION_GAMES_MAX + 1; game++)
        assert_pair(event_pair(&event, game), 11, 12);
    assert_false(event_moves(&event, 2));
    Session *s = begin(&event);
    Stay stays[SESSION_GAMES_MAX];
    play_game(s);
    throw_open(s);
    assert_int_equal(session_stays(s, stays), 1);
    assert_int_equal(stays[0].shot, 0);
    assert_int_equal(stays[0].frames, 0);
    free(s);
}

static void test_moves(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Error error = {0};
    assert_true(event_move(&event, 4, 0, &error));
    assert_pair(event_pair(&event, 1), 11, 12);
    assert_pair(event_pair(&event, 2), 15, 16);
    assert_pair(event_pair(&event, 4), 23, 24);
    assert_pair(event_pair(&event, 5), 23, 24); /* no more games: they stay */
    assert_true(event_moves(&event, 2));

    assert_true(event_move(&event, -2, 0, &error));
    assert_pair(event_pair(&event, 4), 5, 6);
}

static void test_round_the_house(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Error error = {0};
    assert_true(event_move(&event, 2, 16, &error));
    assert_pair(event_pair(&event, 3), 15, 16);
    assert_pair(event_pair(&event, 4), 1, 2);
    assert_true(event_move(&event, -6, 16, &error));
    assert_pair(event_pair(&event, 2), 5, 6);
    assert_pair(event_pair(&event, 3), 15, 16);
}

static void test_lanes_there_are_not(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Error error = {0};
    assert_false(event_move(&event, -4, 0, &error));
    assert_string_equal(error.text, "game 4 would be on lane -1; allowed: 1 to 99");
    assert_false(event_move(&event, 2, 10, &error));
    assert_string_equal(error.text, "lanes 11 and 12 are not in a house of 10 lanes");
}

static void test_a_new_pair(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Stay stays[SESSION_GAMES_MAX];
    static const int PAIRS[3][2] = {{11, 12}, {11, 12}, {21, 22}};
    memcpy(event.pairs, PAIRS, sizeof PAIRS);
    Session *s = begin(&event);
    play_game(s);
    apply(s, (Entry){.kind = ENTRY_PLAN,
                     .lane = SIDE_RIGHT,
                     .apart = true,
                     .plan = {.slot = 1, .stance = 30.0, .aim = 17.0}});
    play_game(s);
    assert_pair(s->pair, 11, 12);
    assert_true(s->apart);
    assert_int_equal(session_stays(s, stays), 1);

    throw_open(s); /* the first ball of game 3 */
    assert_pair(s->pair, 21, 22);
    assert_false(s->apart); /* both lanes go on with what was thrown last */
    assert_true(plan_same(&s->plan[SIDE_LEFT], &s->plan[SIDE_RIGHT]));
    assert_near(s->plan[SIDE_LEFT].stance, 30.0, 1e-12);
    assert_int_equal(session_stays(s, stays), 2);
    assert_int_equal(stays[1].shot, 20);
    assert_int_equal(stays[1].frames, 20); /* others have bowled two games there */

    apply(s, (Entry){.kind = ENTRY_UNDO}); /* the ball */
    assert_pair(s->pair, 11, 12);
    assert_true(s->apart);
    apply(s, (Entry){.kind = ENTRY_GAME}); /* they move before any ball there */
    assert_pair(s->pair, 21, 22);
    assert_int_equal(session_stays(s, stays), 2);
    assert_int_equal(stays[1].shot, 20);
    assert_int_equal(stays[1].frames, 20);
    free(s);
}

static void test_frames_that_no_shot_tells_of(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Stay stays[SESSION_GAMES_MAX];
    static const int PAIRS[2][2] = {{11, 12}, {21, 22}};
    memcpy(event.pairs, PAIRS, sizeof PAIRS);
    Session *s = begin(&event);
    throw_open(s);
    apply(s, (Entry){.kind = ENTRY_GAME}); /* nine frames were not logged */
    apply(s, (Entry){.kind = ENTRY_GAME}); /* nor was game 2, on the second pair */
    throw_open(s);
    assert_int_equal(session_stays(s, stays), 2);
    assert_int_equal(stays[0].frames, 9);
    assert_int_equal(stays[1].shot, 1);
    assert_int_equal(stays[1].frames, 20);
    free(s);
}

static void test_warm_up(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Score score;
    event.warm_up = true;
    Session *s = begin(&event);
    assert_true(s->warm_up);
    for (int ball = 0; ball < 13; ball++)
        throw_open(s);
    assert_true(s->warm_up); /* as many as one likes */
    assert_int_equal(s->warm_up_count, 13);
    assert_int_equal(s->shot_game[12], 0);
    assert_false(s->shot_second[12]);
    assert_int_equal(s->lane, SIDE_RIGHT);
    assert_int_equal(s->game, 1);
    assert_int_equal(s->frame, 1);
    assert_true(session_surfaces_free(s));

    apply(s, (Entry){.kind = ENTRY_GAME});
    assert_false(s->warm_up);
    assert_int_equal(s->game, 1);
    assert_int_equal(s->lane, SIDE_LEFT);
    assert_true(session_surfaces_free(s)); /* until the first scored ball */
    throw_open(s);
    assert_false(session_surfaces_free(s));
    assert_int_equal(s->shot_game[13], 1);
    assert_int_equal(s->shot_frame[13], 1);
    assert_int_equal(s->frame, 2);
    assert_true(session_score(s, 1, &score));
    assert_int_equal(score.ball_count, 1);

    apply(s, (Entry){.kind = ENTRY_UNDO});
    apply(s, (Entry){.kind = ENTRY_UNDO});
    assert_true(s->warm_up);
    assert_int_equal(s->shot_count, 13);
    free(s);
}

/* The last game, too, may be said to begin after a warm-up; no more than that. */
static void test_warm_up_of_one_game(void **state)
{
    (void)state;
    EventInfo event = an_event();
    event.warm_up = true;
    event.games = 1;
    Session *s = begin(&event);
    apply(s, (Entry){.kind = ENTRY_GAME});
    assert_string_equal(session_refuses(s, &(Entry){.kind = ENTRY_GAME}), "that was the last game");
    free(s);
}

static void test_warm_up_is_not_reviewed(void **state)
{
    (void)state;
    EventInfo event = an_event();
    Review *review = calloc(1, sizeof *review);
    assert_non_null(review);
    event.warm_up = true;
    Session *s = begin(&event);
    throw_open(s);
    review_begin(review);
    assert_true(review_add(review, s));
    assert_int_equal(review->total.events, 0); /* nothing was scored */
    apply(s, (Entry){.kind = ENTRY_GAME});
    throw_open(s);
    assert_true(review_add(review, s));
    assert_int_equal(review->total.events, 1);
    assert_int_equal(review->total.games, 1);
    assert_int_equal(review->total.tally.shots, 1);
    assert_int_equal(review->balls[0].tally.shots, 1);
    assert_int_equal(review->balls[0].in_game[0], 1);
    free(s);
    free(review);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_one_pair),
        cmocka_unit_test(test_moves),
        cmocka_unit_test(test_round_the_house),
        cmocka_unit_test(test_lanes_there_are_not),
        cmocka_unit_test(test_a_new_pair),
        cmocka_unit_test(test_frames_that_no_shot_tells_of),
        cmocka_unit_test(test_warm_up),
        cmocka_unit_test(test_warm_up_of_one_game),
        cmocka_unit_test(test_warm_up_is_not_reviewed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
