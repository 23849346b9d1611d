/* test_update_plan.c - keys in, plans out: moves, balls and answers, each lane's own, and what
 * takes them back. */
#include "near.h"

#include "ui/input/update.h"
#include "ui/pinned.h"

static void arrows_move_as_the_screen_shows(void **state)
{
    (void)state;
    for (int hand = 0; hand < 2; hand++) {
        Pinned *pinned = pinned_fresh((Hand)hand);
        double left = hand == HAND_RIGHT ? 1.0 : -1.0;
        pinned_press(pinned, PRESS_LEFT);
        pinned_press(pinned, PRESS_LEFT);
        pinned_press(pinned, PRESS_RIGHT);
        pinned_type(pinned, "[[<{");
        Plan plan = model_plan(&pinned->model);
        assert_near(plan.stance, 28.0 + left * 1.5, 0);
        assert_near(plan.aim, 14.0 + left * 2.5, 0);
        assert_int_equal(pinned->session.entry_count, 0); /* one entry in the end, not seven */
        pinned_type(pinned, "fog\r");
        assert_int_equal(pinned->session.entry_count, 2);
        assert_int_equal(pinned->session.entries[0].kind, ENTRY_PLAN);
        assert_near(pinned->session.shots[0].stance, 28.0 + left * 1.5, 0);
        free(pinned);
    }
}

static void undo_takes_moves_back_first(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "fog\r");
    pinned_press(pinned, PRESS_LEFT);
    pinned_type(pinned, "u");
    assert_near(model_plan(&pinned->model).stance, 28.0, 0);
    assert_int_equal(pinned->session.shot_count, 1);
    free(pinned);
}

static void redo_keeps_moves_that_it_does_not_replace(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_press(pinned, PRESS_LEFT);
    Effects effects = pinned_press(pinned, 'U');
    assert_true(effects.bell);
    assert_true(pinned->model.draft_on);
    assert_near(model_plan(&pinned->model).stance, 29.0, 0);
    pinned_press(pinned, 'u');
    pinned_type(pinned, "fog\ru");
    pinned_press(pinned, PRESS_LEFT);
    effects = pinned_press(pinned, 'U'); /* the shot is back, the moves are gone: said */
    assert_true(effects.advise && !effects.bell);
    assert_int_equal(pinned->session.shot_count, 1);
    assert_false(pinned->model.draft_on);
    assert_non_null(strstr(pinned->model.message, "moves"));
    free(pinned);
}

static void moves_have_bounds(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    for (int i = 0; i < 200; i++) {
        pinned_press(pinned, PRESS_RIGHT);
        pinned_type(pinned, "]+k");
    }
    Plan plan = model_plan(&pinned->model);
    Entry entry = {.kind = ENTRY_PLAN, .plan = plan};
    assert_null(session_refuses(&pinned->session, &entry));
    for (int i = 0; i < 200; i++) {
        pinned_press(pinned, PRESS_LEFT);
        pinned_type(pinned, "[-j");
    }
    entry.plan = model_plan(&pinned->model);
    assert_null(session_refuses(&pinned->session, &entry));
    free(pinned);
}

/* The hand turns as far as the bag says, with its caution; a bag that says nothing keeps it still.
 */
static void rotation_stays_within_the_bag(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Bowler *bowler = &pinned->session.bag.bowler; /* 50 degrees */
    pinned_type(pinned, "(");
    assert_non_null(strstr(pinned->model.message, "rotation_range_deg"));
    assert_false(pinned->model.draft_on);
    bowler->rotation_least_deg = 42.0;
    bowler->rotation_most_deg = 60.0;
    pinned_type(pinned, "(");
    assert_string_equal(pinned->model.message, CAUTION_WORDS[CAUTION_HAND]);
    assert_true(model_plan(&pinned->model).rotation_change_deg == -5.0);
    pinned_type(pinned, "(((");
    assert_true(model_plan(&pinned->model).rotation_change_deg == -8.0);
    pinned_type(pinned, "))))))");
    assert_true(model_plan(&pinned->model).rotation_change_deg == 10.0);
    pinned_type(pinned, "+hog4\r"); /* the shot keeps how it was meant */
    assert_int_equal(pinned->session.shot_count, 1);
    assert_true(pinned->session.shots[0].rotation_change_deg == 10.0);
    assert_true(pinned->session.shots[0].mph_change == 0.5);
    assert_true(pinned->session.plan[SIDE_LEFT].rotation_change_deg == 10.0);
    free(pinned);
}

static void answers_are_taken_by_their_keys(void **state)
{
    (void)state;
    static const char KEYS[] = "asd";
    for (int i = 0; i < 3; i++) {
        Pinned *pinned = pinned_fresh(HAND_RIGHT);
        Effects effects = pinned_press(pinned, (unsigned char)KEYS[i]);
        assert_int_equal(effects.keep, i < 2); /* the third is to hold: no news for the log */
        Plan plan = model_plan(&pinned->model), wanted = pinned->advice.adjustments[i].plan;
        assert_int_equal(plan.slot, wanted.slot);
        assert_near(plan.stance, wanted.stance, 0);
        assert_near(plan.aim, wanted.aim, 0);
        /* while newer answers are being computed, those shown can't be taken */
        int entries = pinned->session.entry_count;
        assert_true(pinned_press(pinned, 'a').bell);
        assert_int_equal(pinned->session.entry_count, entries);
        free(pinned);
    }
}

static void a_plan_that_stands_is_no_entry(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_press(pinned, PRESS_LEFT);
    pinned_press(pinned, PRESS_RIGHT);
    pinned_type(pinned, "fog\r");
    assert_int_equal(pinned->session.entry_count, 1);
    pinned_advise(pinned);
    pinned_type(pinned, "d"); /* hold */
    assert_int_equal(pinned->session.entry_count, 1);
    free(pinned);
}

static void slot_keys_take_a_ball(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "3");
    assert_int_equal(model_plan(&pinned->model).slot, 3);
    assert_near(model_plan(&pinned->model).stance, 28.0, 0);
    assert_true(pinned_press(pinned, '4').bell); /* empty */
    assert_int_equal(model_plan(&pinned->model).slot, 3);
    pinned_type(pinned, "=");
    assert_near(model_plan(&pinned->model).stance, 30.0, 0);
    assert_near(model_plan(&pinned->model).aim, 15.0, 0);
    free(pinned);
}

static void each_lane_keeps_its_own_plan(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    const Session *session = &pinned->session;
    pinned_type(pinned, "3"); /* before the first shot: for the day */
    assert_int_equal(session->plan[SIDE_LEFT].slot, 3);
    assert_int_equal(session->plan[SIDE_RIGHT].slot, 3);
    pinned_type(pinned, "fog\r");
    assert_int_equal(pinned->model.lane, SIDE_RIGHT);
    pinned_type(pinned, "2");
    assert_int_equal(session->plan[SIDE_LEFT].slot, 3);
    assert_int_equal(session->plan[SIDE_RIGHT].slot, 2);
    pinned_type(pinned, "\t");
    assert_int_equal(model_plan(&pinned->model).slot, 3);
    /* a move not entered yet goes along */
    pinned_type(pinned, "[p");
    assert_int_equal(session->plan[SIDE_RIGHT].slot, 3);
    assert_true(plan_same(&session->plan[SIDE_LEFT], &session->plan[SIDE_RIGHT]));
    assert_string_equal(pinned->model.message, "Both lanes now have this plan; u undoes it");
    pinned_type(pinned, "p");
    assert_string_equal(pinned->model.message, "Both lanes have this plan already");
    pinned_type(pinned, "u");
    assert_int_equal(session->plan[SIDE_RIGHT].slot, 2);
    free(pinned);
}

/* What was drafted stays drafted when an answer can't be taken. */
static void a_refused_plan_drops_no_move(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Effects effects = {0};
    pinned_type(pinned, "]");
    Plan drafted = model_plan(&pinned->model), empty = drafted;
    empty.slot = 9;
    assert_false(update_enter_plan(&pinned->model, &effects, empty));
    Plan plan = model_plan(&pinned->model);
    assert_true(plan_same(&plan, &drafted));
    assert_true(pinned->model.draft_on);
    free(pinned);
}

/* Who moves and quits has moved: it is what they throw next. */
static void moves_are_kept_at_quit(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    double feet = pinned->session.plan[SIDE_LEFT].stance;
    pinned_press(pinned, PRESS_LEFT);
    assert_true(pinned->model.draft_on);
    Effects effects = pinned_press(pinned, 'q');
    assert_true(effects.quit && effects.keep);
    assert_near(pinned->session.plan[SIDE_LEFT].stance, feet + 1.0, 0.0);
    assert_int_equal(pinned->session.entry_count, 1);
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(arrows_move_as_the_screen_shows),
        cmocka_unit_test(undo_takes_moves_back_first),
        cmocka_unit_test(redo_keeps_moves_that_it_does_not_replace),
        cmocka_unit_test(moves_have_bounds),
        cmocka_unit_test(rotation_stays_within_the_bag),
        cmocka_unit_test(answers_are_taken_by_their_keys),
        cmocka_unit_test(a_plan_that_stands_is_no_entry),
        cmocka_unit_test(slot_keys_take_a_ball),
        cmocka_unit_test(each_lane_keeps_its_own_plan),
        cmocka_unit_test(a_refused_plan_drops_no_move),
        cmocka_unit_test(moves_are_kept_at_quit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
