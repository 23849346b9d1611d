/* The bag during an event: what edits do, what they leave alone (shots thrown), what is refused,
 * and undo and redo all the way back. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/advice/advice.h"
#include "core/event/session.h"

static Session *begin(bool certified)
{
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    EventInfo event = {
        .id = "day", .games = 3, .pair = {11, 12}, .bowlers_on_pair = 2, .certified = certified};
    Bag bag = {.bowler = bowler_default(), .count = 4};
    for (int i = 0; i < 4; i++) {
        bag.balls[i] = ball_default();
        bag.balls[i].slot = (i + 1) % 4; /* slots 1, 2, 3; the last lies in the locker */
        bag.balls[i].rg_in = 2.47 + 0.02 * i;
        snprintf(bag.balls[i].id, sizeof bag.balls[i].id, "ball-%c", 'a' + i);
        snprintf(bag.balls[i].name, sizeof bag.balls[i].name, "Ball %c", 'a' + i);
    }
    Pattern pattern = {.length_ft = 40.0, .stroke_count = 1};
    pattern.strokes[0] = (Stroke){
        .board_from = 4, .board_to = 36, .ft_end = 40.0, .units_start = 30, .units_end = 6};
    session_begin(session, &event, &bag, &pattern, &(Plan){.slot = 1, .stance = 26, .aim = 13});
    return session;
}

static void edit(Session *session, BagEdit edit)
{
    Error error = {0};
    if (!session_bag_edit(session, &edit, &error))
        fail_msg("refused: %s", error.text);
}

static void place(Session *session, int at, int slot)
{
    edit(session, (BagEdit){.kind = BAG_PLACE, .at = at, .slot = slot});
}

static void refuse(Session *session, BagEdit edit, const char *why)
{
    static Session before; /* too large for the stack */
    Error error = {0};
    before = *session;
    assert_false(session_bag_edit(session, &edit, &error));
    if (strcmp(error.text, why) != 0)
        fail_msg("refused with \"%s\", expected \"%s\"", error.text, why);
    assert_memory_equal(&before, session, sizeof before);
}

static BagEdit change(const Session *session, int at)
{
    return (BagEdit){.kind = BAG_CHANGE, .at = at, .ball = session->bag.balls[at]};
}

static void throw_shot(Session *session, int slot, Hit hit)
{
    Entry entry = {.kind = ENTRY_SHOT, .shot = session_next_shot(session)};
    entry.lane = entry.shot.lane;
    entry.shot.slot = slot;
    entry.shot.hit = hit;
    assert_true(session_apply(session, &entry));
}

static const char *in_slot(const Session *session, int slot)
{
    const Ball *ball = bag_slot(&session->bag, slot);
    return ball ? ball->id : "";
}

static void test_places(void **state)
{
    (void)state;
    Session *s = begin(false);
    place(s, 3, 1); /* from the locker: what was there goes into it */
    assert_string_equal(in_slot(s, 1), "ball-d");
    assert_int_equal(s->bag.balls[0].slot, 0);
    place(s, 3, 2); /* two slots swap */
    assert_string_equal(in_slot(s, 1), "ball-b");
    assert_string_equal(in_slot(s, 2), "ball-d");
    place(s, 3, 6); /* to an empty one */
    assert_string_equal(in_slot(s, 2), "");
    assert_string_equal(in_slot(s, 6), "ball-d");
    place(s, 3, 0);
    assert_string_equal(in_slot(s, 6), "");
    refuse(s, (BagEdit){.kind = BAG_PLACE, .at = 3, .slot = 7}, "no such slot");
    refuse(s, (BagEdit){.kind = BAG_PLACE, .at = 4, .slot = 1}, "no such ball");
    free(s);
}

static void test_add_and_remove(void **state)
{
    (void)state;
    Session *s = begin(false);
    Ball copy = bag_copy_of(&s->bag, &s->bag.balls[1]);
    assert_string_equal(copy.id, "ball-b-2");
    edit(s, (BagEdit){.kind = BAG_ADD, .ball = copy});
    assert_int_equal(s->bag.count, 5);
    assert_int_equal(s->bag.balls[4].slot, 0);
    assert_string_equal(bag_copy_of(&s->bag, &s->bag.balls[4]).id, "ball-b-3");
    refuse(s, (BagEdit){.kind = BAG_ADD, .ball = copy}, "found the id \"ball-b-2\" a second time");
    edit(s, (BagEdit){.kind = BAG_REMOVE, .at = 1});
    assert_int_equal(s->bag.count, 4);
    assert_null(bag_find(&s->bag, "ball-b"));
    assert_string_equal(s->bag.balls[3].id, "ball-b-2");
    while (s->bag.count < BAG_BALLS_MAX)
        edit(s, (BagEdit){.kind = BAG_ADD,
                          .ball = bag_copy_of(&s->bag, &s->bag.balls[s->bag.count - 1])});
    refuse(s, (BagEdit){.kind = BAG_ADD, .ball = bag_copy_of(&s->bag, &s->bag.balls[0])},
           "found 41 balls; allowed: 1 to 40");
    Ball longest = ball_default();
    memset(longest.id, 'k', sizeof longest.id - 1); /* no room behind it for a number */
    Bag bag = {.count = 1, .balls = {longest}};
    assert_int_equal(strlen(bag_copy_of(&bag, &longest).id), 30);
    free(s);
}

/* Whatever happens to the bag, a shot keeps its ball and the surface it had. */
static void test_what_was_thrown_stays(void **state)
{
    (void)state;
    Session *s = begin(false);
    throw_shot(s, 1, HIT_HIGH);
    throw_shot(s, 2, HIT_FLUSH);
    place(s, 0, 2);
    assert_string_equal(s->shots[0].ball, "ball-a");
    assert_int_equal(s->shots[0].slot, 2);
    assert_int_equal(s->shots[1].slot, 1);
    BagEdit sand = change(s, 0);
    sand.ball.surface = (Surface){.finish = FINISH_GRIT, .grit = 500};
    edit(s, sand);
    Ball thrown;
    assert_true(shot_ball(&s->shots[0], &s->bag, &thrown));
    assert_near(thrown.surface.grit, 2000, 0);
    throw_shot(s, 2, HIT_LIGHT);
    assert_true(shot_ball(&s->shots[2], &s->bag, &thrown));
    assert_near(thrown.surface.grit, 500, 0);
    place(s, 0, 0);
    assert_int_equal(s->shots[0].slot, 0);
    assert_true(shot_ball(&s->shots[0], &s->bag, &thrown));
    assert_string_equal(thrown.id, "ball-a");
    assert_string_equal(session_ball(s, &s->shots[0])->id, "ball-a");
    Shot unnamed = {.slot = 2};
    assert_ptr_equal(session_ball(s, &unnamed), bag_slot(&s->bag, 2));

    /* edited, it keeps its ball; another slot is another ball */
    Entry other = {.kind = ENTRY_EDIT, .index = 0, .shot = s->shots[0]};
    other.shot.hit = HIT_NOSE;
    assert_true(session_apply(s, &other));
    assert_string_equal(s->shots[0].ball, "ball-a");
    assert_int_equal(s->shots[0].hit, HIT_NOSE);
    other.shot.slot = 3;
    assert_true(session_apply(s, &other));
    assert_string_equal(s->shots[0].ball, "ball-c");
    assert_true(session_apply(s, &(Entry){.kind = ENTRY_UNDO}));
    assert_string_equal(s->shots[0].ball, "ball-a");

    /* and it can't leave the bag, not even while its shots are taken back */
    refuse(s, (BagEdit){.kind = BAG_REMOVE, .at = 0},
           "Ball a was thrown in this event: it stays, in the locker (x)");
    for (int i = 0; i < 4; i++)
        assert_true(session_apply(s, &(Entry){.kind = ENTRY_UNDO}));
    assert_int_equal(s->shot_count, 0);
    refuse(s, (BagEdit){.kind = BAG_REMOVE, .at = 0},
           "Ball a was thrown in this event: it stays, in the locker (x)");
    edit(s, (BagEdit){.kind = BAG_REMOVE, .at = 3}); /* never thrown */
    free(s);
}

static void test_plans_find_a_ball(void **state)
{
    (void)state;
    Session *s = begin(false);
    Plan plan = {.slot = 3, .stance = 30, .aim = 14};
    assert_true(session_apply(s, &(Entry){.kind = ENTRY_PLAN, .plan = plan}));
    place(s, 2, 0);
    assert_int_equal(s->plan[SIDE_LEFT].slot, 1);
    assert_near(s->plan[SIDE_LEFT].stance, 30, 0);
    place(s, 0, 0);
    assert_int_equal(s->plan[SIDE_RIGHT].slot, 2);
    refuse(s, (BagEdit){.kind = BAG_PLACE, .at = 1, .slot = 0},
           "the last ball in a slot stays there: put another in one first");
    refuse(s, (BagEdit){.kind = BAG_REMOVE, .at = 1},
           "the last ball in a slot stays there: put another in one first");
    place(s, 2, 3); /* its plan is there again */
    assert_int_equal(s->plan[SIDE_LEFT].slot, 3);
    free(s);
}

static void test_surfaces_in_scored_play(void **state)
{
    (void)state;
    for (int certified = 0; certified < 2; certified++) {
        Session *s = begin(certified);
        BagEdit polish = change(s, 1);
        polish.ball.surface.finish = FINISH_POLISH;
        edit(s, polish); /* before the first shot it is the bowler's own affair */
        throw_shot(s, 1, HIT_FLUSH);
        BagEdit sand = change(s, 0);
        sand.ball.surface.grit = 1000;
        Error error = {0};
        if (certified) {
            refuse(s, sand, SESSION_SURFACES_CLOSED);
            assert_false(session_bag_undo(s, &error)); /* undo would change one too */
            assert_string_equal(error.text, SESSION_SURFACES_CLOSED);
            BagEdit used = change(s, 0); /* counting games changes no surface */
            used.ball.surface.games_since = 12;
            edit(s, used);
            used.ball.rg_in = 2.6;
            edit(s, used);
        } else {
            edit(s, sand);
            assert_true(session_bag_undo(s, &error));
            assert_true(session_bag_undo(s, &error));
            assert_int_equal(s->bag.balls[1].surface.finish, FINISH_GRIT);
        }
        free(s);
    }
}

/* An undone addition that was thrown meanwhile would take the ball out of the bag. */
static void test_undo_is_held_to_the_same(void **state)
{
    (void)state;
    Session *s = begin(true);
    Error error = {0};
    assert_false(session_bag_undo(s, &error));
    assert_string_equal(error.text, "nothing to undo in the bag");
    edit(s, (BagEdit){.kind = BAG_ADD, .ball = bag_copy_of(&s->bag, &s->bag.balls[0])});
    place(s, 4, 5);
    throw_shot(s, 5, HIT_FLUSH);
    assert_true(session_bag_undo(s, &error));
    assert_int_equal(s->shots[0].slot, 0);
    assert_false(session_bag_undo(s, &error));
    assert_non_null(strstr(error.text, "was thrown in this event"));
    assert_true(session_bag_redo(s, &error));
    assert_int_equal(s->shots[0].slot, 5);
    assert_false(session_bag_redo(s, &error));
    assert_string_equal(error.text, "nothing to redo in the bag");
    free(s);
}

/* Random edits, then all the way back and forth: every bag along the way comes back. */
static void test_all_the_way_back(void **state)
{
    (void)state;
    enum { EDITS = 300 };
    static Bag met[EDITS + 1];
    Rng rng = rng_seed(20261126);
    Session *s = begin(false);
    Error error = {0};
    met[0] = s->bag;
    while (s->bag_log.standing < EDITS) {
        BagEdit next = change(s, (int)(rng_uniform(&rng) * s->bag.count));
        next.kind = (BagEditKind)(int)(rng_uniform(&rng) * 4);
        next.slot = (int)(rng_uniform(&rng) * (BAG_SLOTS + 1));
        next.ball.pounds = 6.0 + (int)(rng_uniform(&rng) * 11);
        if (next.kind == BAG_ADD)
            next.ball = bag_copy_of(&s->bag, &next.ball);
        if (session_bag_edit(s, &next, &error))
            met[s->bag_log.standing] = s->bag;
        assert_non_null(bag_slot(&s->bag, s->plan[SIDE_LEFT].slot));
    }
    for (int i = EDITS - 1; i >= 0; i--) {
        assert_true(session_bag_undo(s, &error));
        assert_int_equal(s->bag.count, met[i].count);
        assert_memory_equal(s->bag.balls, met[i].balls, (size_t)met[i].count * sizeof(Ball));
    }
    for (int i = 1; i <= EDITS; i++) {
        assert_true(session_bag_redo(s, &error));
        assert_memory_equal(s->bag.balls, met[i].balls, (size_t)met[i].count * sizeof(Ball));
    }
    assert_true(session_bag_undo(s, &error));
    edit(s, change(s, 0)); /* a new edit clears what could be redone */
    assert_false(session_bag_redo(s, &error));
    while (s->bag_log.standing < BAG_EDITS_MAX)
        edit(s, change(s, 0));
    refuse(s, change(s, 0), "the bag was edited 1000 times: restart settee to edit more");
    free(s);
}

static void believe(AdviceJob *job, const Session *session, const RuleSet *rules)
{
    AdviceInput input = {.bag = &session->bag,
                         .pattern = &session->pattern,
                         .rules = rules,
                         .shots = session->shots,
                         .shot_count = session->shot_count,
                         .plan = session->plan[SIDE_LEFT],
                         .game = 1,
                         .frame = session->frame,
                         .bowlers_on_pair = 2};
    advice_begin(job, &input);
    while (!advice_result(job)->ready)
        advice_step(job);
}

/* The belief depends on the balls as thrown: swapping slots or changing a surface later doesn't
 * matter; correcting a core does, and its shots are weighed again. */
static void test_belief_rests_on_what_was_thrown(void **state)
{
    (void)state;
    static RuleSet rules;
    Session *s = begin(false);
    AdviceJob *job = advice_job_new(), *other = advice_job_new();
    assert_true(job && other);
    throw_shot(s, 1, HIT_HIGH);
    throw_shot(s, 2, HIT_HIGH);
    throw_shot(s, 1, HIT_NOSE);
    believe(job, s, &rules);
    Belief *before = malloc(sizeof *before);
    assert_non_null(before);
    *before = *advice_belief(job);
    assert_int_equal(before->shots, 3);
    assert_true(advice_result(job)->signs.seen[SIGN_HIGH_TWICE]);

    place(s, 0, 2);
    place(s, 0, 0);
    place(s, 3, 6);
    BagEdit sand = change(s, 1);
    sand.ball.surface.grit = 500;
    edit(s, sand);
    believe(job, s, &rules);
    assert_memory_equal(advice_belief(job)->particles, before->particles, sizeof before->particles);
    believe(other, s, &rules); /* from the start, without what was believed before */
    assert_memory_equal(advice_belief(other)->particles, before->particles,
                        sizeof before->particles);
    /* the current ball has a different surface from the one that went high */
    assert_false(advice_result(other)->signs.seen[SIGN_HIGH_TWICE]);

    BagEdit core = change(s, 0);
    core.ball.rg_in = 2.6;
    edit(s, core);
    believe(job, s, &rules);
    assert_memory_not_equal(advice_belief(job)->particles, before->particles,
                            sizeof before->particles);
    believe(other, s, &rules);
    assert_memory_equal(advice_belief(other)->particles, advice_belief(job)->particles,
                        sizeof before->particles);
    free(before);
    advice_job_free(job);
    advice_job_free(other);
    free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_places),
        cmocka_unit_test(test_add_and_remove),
        cmocka_unit_test(test_what_was_thrown_stays),
        cmocka_unit_test(test_plans_find_a_ball),
        cmocka_unit_test(test_surfaces_in_scored_play),
        cmocka_unit_test(test_undo_is_held_to_the_same),
        cmocka_unit_test(test_all_the_way_back),
        cmocka_unit_test(test_belief_rests_on_what_was_thrown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
