/* test_bag_edit.c - the bag edited by keys: each operation, each refusal, undo and redo, and what
 * must be saved and computed again afterwards. */
#include "near.h"

#include "core/bag/preset.h"

#include "ui/form/ball_form.h"
#include "ui/pinned_bag.h"

/* The pinned bag (slots 1, 2, 3, 5, 6) with a ball in the locker; the ball in hand is chosen. */
static Pinned *at_bag(bool certified)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned->session.event.certified = certified;
    Ball ball = ball_default();
    strcpy(ball.id, "fern-lid");
    strcpy(ball.name, "Fern Lid");
    ball.surface = (Surface){.finish = FINISH_GRIT, .grit = 1500, .games_since = 9};
    assert_true(
        session_bag_edit(&pinned->session, &(BagEdit){.kind = BAG_ADD, .ball = ball}, NULL));
    pinned->session.bag_log.first = pinned->session.bag;
    pinned->session.bag_log.count = pinned->session.bag_log.standing = 0;
    pinned_press(pinned, 'B');
    assert_int_equal(pinned->model.mode, MODE_BAG);
    return pinned;
}

static const Ball *chosen(const Pinned *pinned)
{
    return &pinned->session.bag.balls[pinned->model.ball];
}

static void choose(Pinned *pinned, const char *name)
{
    for (int i = 0; i < BAG_BALLS_MAX; i++)
        pinned_press(pinned, PRESS_UP);
    for (int i = 0; i < BAG_BALLS_MAX && strcmp(chosen(pinned)->name, name) != 0; i++)
        pinned_press(pinned, PRESS_DOWN);
    assert_string_equal(chosen(pinned)->name, name);
}

static const char *in_slot(const Pinned *pinned, int slot)
{
    const Ball *ball = bag_slot(&pinned->session.bag, slot);
    return ball ? ball->name : "";
}

static void assert_done(Effects effects)
{
    assert_true(effects.save_bag && effects.arsenal && effects.advise && effects.draw);
    assert_false(effects.bell || effects.keep);
}

static void assert_refused(const Pinned *pinned, Effects effects, const char *why)
{
    assert_true(effects.bell);
    assert_false(effects.save_bag || effects.arsenal || effects.advise);
    if (strcmp(pinned->model.message, why) != 0)
        fail_msg("says \"%s\", expected \"%s\"", pinned->model.message, why);
}

static void slots_and_locker(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    assert_string_equal(chosen(pinned)->name, "Ash Rail"); /* in hand */
    assert_done(pinned_press(pinned, '3'));
    assert_string_equal(in_slot(pinned, 3), "Ash Rail");
    assert_string_equal(in_slot(pinned, 1), "Cinder Loom");
    assert_string_equal(pinned->model.message,
                        "Ash Rail: slot 3. Cinder Loom: slot 1. Now throwing: 1 Cinder Loom");
    assert_refused(pinned, pinned_press(pinned, '3'), "that ball is already in that slot");
    assert_done(pinned_press(pinned, '4'));
    assert_string_equal(in_slot(pinned, 4), "Ash Rail");
    assert_string_equal(in_slot(pinned, 3), "");
    choose(pinned, "Fern Lid");
    assert_refused(pinned, pinned_press(pinned, 'x'), "that ball is already in the locker");
    assert_done(pinned_press(pinned, '4'));
    assert_string_equal(pinned->model.message, "Fern Lid: slot 4. Ash Rail: the locker");
    assert_int_equal(bag_find(&pinned->session.bag, "ball-1")->slot, 0);
    assert_done(pinned_press(pinned, 'x'));
    assert_string_equal(in_slot(pinned, 4), "");
    free(pinned);
}

static void last_ball_stays(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    static const char *const NAMES[] = {"Ash Rail", "Bell Crank and a Long Tail", "Cinder Loom",
                                        "Drift Plank"};
    for (int i = 0; i < 4; i++) {
        choose(pinned, NAMES[i]);
        assert_done(pinned_press(pinned, '0'));
        assert_non_null(bag_slot(&pinned->session.bag, model_plan(&pinned->model).slot));
    }
    assert_int_equal(model_plan(&pinned->model).slot, 6);
    choose(pinned, "Eel Spout");
    static const char WHY[] = "the last ball in a slot stays there: put another in one first";
    assert_refused(pinned, pinned_press(pinned, '0'), WHY);
    assert_refused(pinned, pinned_press(pinned, '-'), WHY); /* without asking first */
    assert_int_equal(pinned->model.mode, MODE_BAG);
    free(pinned);
}

/* A move of feet that was not entered yet must not keep a slot that is empty now. */
static void moves_not_entered_find_a_ball(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, PRESS_LEFT);
    assert_true(pinned->model.draft_on);
    pinned_type(pinned, "B0");
    assert_int_equal(model_plan(&pinned->model).slot, 2);
    assert_near(model_plan(&pinned->model).stance, 29.0, 0);
    free(pinned);
}

static void fields_are_typed(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    Model *model = &pinned->model;
    pinned_press(pinned, PRESS_ENTER);
    assert_int_equal(model->mode, MODE_BALL);
    assert_int_equal(model->form.row, BALL_WEIGHT);
    pinned_type(pinned, "14");
    assert_near(chosen(pinned)->pounds, 15, 0); /* not before Enter */
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_near(chosen(pinned)->pounds, 14, 0);
    assert_int_equal(model->form.row, BALL_COVER);
    pinned_press(pinned, PRESS_RIGHT);
    assert_int_equal(chosen(pinned)->cover, COVER_SOLID);
    assert_done(pinned_press(pinned, PRESS_DOWN)); /* going on keeps it too */
    assert_int_equal(chosen(pinned)->cover, COVER_HYBRID);
    pinned_press(pinned, PRESS_UP);
    pinned_press(pinned, PRESS_LEFT);
    pinned_press(pinned, PRESS_LEFT);
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_int_equal(chosen(pinned)->cover, COVER_POLYESTER); /* in a circle */

    pinned_press(pinned, PRESS_UP);
    pinned_press(pinned, PRESS_UP);
    pinned_press(pinned, PRESS_UP);
    assert_int_equal(model->form.row, BALL_NAME);
    pinned_type(pinned, "q?u");
    pinned_press(pinned, 0xe9);
    pinned_press(pinned, 0x1f3b3);
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_string_equal(model->form.typed, "q?u\xc3\xa9");
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_string_equal(chosen(pinned)->name, "q?u\xc3\xa9");
    pinned_press(pinned, PRESS_UP);
    pinned_press(pinned, PRESS_BACKSPACE); /* begins with what stands there */
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_string_equal(model->form.typed, "q?");
    Effects effects = pinned_press(pinned, PRESS_ESC);
    assert_false(effects.save_bag);
    assert_false(model->form.typed_on);
    assert_int_equal(model->mode, MODE_BALL);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(model->mode, MODE_BAG);
    assert_string_equal(chosen(pinned)->name, "q?u\xc3\xa9");
    free(pinned);
}

/* Types a value into a row of the chosen ball's form. */
static Effects put(Pinned *pinned, int row, const char *value)
{
    pinned->model.mode = MODE_BAG;
    pinned_press(pinned, PRESS_ENTER);
    while (pinned->model.form.row < row)
        pinned_press(pinned, PRESS_DOWN);
    while (pinned->model.form.row > row)
        pinned_press(pinned, PRESS_UP);
    pinned_type(pinned, value);
    return pinned_press(pinned, PRESS_ENTER);
}

static int row_of(const char *key)
{
    for (int i = 0; i < BALL_ROWS; i++)
        if (strcmp(ball_form_key(i), key) == 0)
            return i;
    fail_msg("no row %s", key);
    return -1;
}

static void values_are_held_to_the_limits(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    static const struct {
        const char *key, *value, *why;
    } CASES[] = {
        {"pounds", "17", "Weight: found 17; allowed: a number from 6 to 16 pounds"},
        {"pounds", "5.9", "Weight: found 5.9; allowed: a number from 6 to 16 pounds"},
        {"pounds", ".", "Weight: found .; allowed: a number from 6 to 16 pounds"},
        {"pounds", "1.5.", "Weight: found 1.5.; allowed: a number from 6 to 16 pounds"},
        {"rg_in", "2.9", "RG: found 2.9; allowed: a number from 2.43 to 2.8 inches"},
        {"differential_in", "0.09",
         "Differential: found 0.09; allowed: a number from 0 to 0.08 inches"},
        {"intermediate_in", "0.05",
         "Intermediate: found 0.05; allowed: at most the differential, 0.04 inches"},
        {"cover_strength", "2",
         "Cover strength: found 2; allowed: a number from 0.8 to 1.1 (1 is usual)"},
        {"grit", "100", "Grit: found 100; allowed: a number from 180 to 5000 grit"},
        {"games_since", "1001", "Games: found 1001; allowed: a number from 0 to 1000 games"},
        {"pin_to_pap_in", "7", "Pin to PAP: found 7; allowed: a number from 0 to 6.75 inches"},
        {"mass_bias_deg", "181", "Mass bias: found 181; allowed: a number from 0 to 180 degrees"},
        {"name", "   ", "Name: found nothing; allowed: text that is not empty"},
    };
    Ball before = *chosen(pinned);
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        Effects effects = put(pinned, row_of(CASES[i].key), CASES[i].value);
        assert_refused(pinned, effects, CASES[i].why);
        assert_string_equal(pinned->model.form.typed, CASES[i].value); /* to be put right */
        pinned_press(pinned, PRESS_ESC);
        assert_memory_equal(&before, chosen(pinned), sizeof before);
    }
    assert_done(put(pinned, row_of("intermediate_in"), "0.02"));
    assert_refused(pinned, put(pinned, row_of("differential_in"), "0.01"),
                   "Intermediate: found 0.02; allowed: at most the differential, 0.01 inches");
    pinned_press(pinned, PRESS_ESC);
    Effects same = put(pinned, row_of("intermediate_in"), "0.020"); /* no news: nothing to undo */
    assert_false(same.save_bag || same.bell);
    for (int i = 0; i < 60; i++) /* as long as the field is, and no longer */
        pinned_type(pinned, "1");
    assert_true(strlen(pinned->model.form.typed) < sizeof(double));
    free(pinned);
}

static void surfaces_change(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    choose(pinned, "Fern Lid");
    assert_near(chosen(pinned)->surface.games_since, 9, 0);
    assert_done(put(pinned, BALL_GRIT, "1000"));
    assert_near(chosen(pinned)->surface.grit, 1000, 0);
    assert_near(chosen(pinned)->surface.games_since, 0, 0); /* it was just put on */
    assert_done(put(pinned, row_of("games_since"), "4"));
    assert_near(chosen(pinned)->surface.games_since, 4, 0);
    put(pinned, BALL_COVER, "");
    assert_int_equal(pinned->model.form.row, BALL_FINISH);
    pinned_press(pinned, PRESS_LEFT);
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_int_equal(chosen(pinned)->surface.finish, FINISH_POLISH);
    assert_done(put(pinned, BALL_GRIT, "500")); /* a grit that is typed is one */
    assert_int_equal(chosen(pinned)->surface.finish, FINISH_GRIT);
    pinned->model.mode = MODE_BAG;
    choose(pinned, "Drift Plank"); /* polished since ever: no grit is known */
    put(pinned, BALL_COVER, "");
    pinned_press(pinned, PRESS_RIGHT);
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_near(chosen(pinned)->surface.grit, 2000, 0);
    free(pinned);
}

static void no_surface_changes_in_scored_play(void **state)
{
    (void)state;
    for (int certified = 0; certified < 2; certified++) {
        Pinned *pinned = at_bag(certified);
        assert_done(put(pinned, BALL_GRIT, "1000")); /* before the first shot */
        pinned->model.mode = MODE_LANE;
        pinned_type(pinned, "fog\rB");
        assert_int_equal(pinned->session.shot_count, 1);
        Effects effects = put(pinned, BALL_GRIT, "500");
        if (certified) {
            assert_refused(pinned, effects, "Scored play has begun: no ball's surface may change.");
            pinned_press(pinned, PRESS_ESC);
            assert_refused(pinned, pinned_press(pinned, 'u'),
                           "Scored play has begun: no ball's surface may change.");
            assert_near(chosen(pinned)->surface.grit, 1000, 0);
            char *screen = pinned_screen(&pinned->model);
            assert_non_null(strstr(screen, "! Scored play has begun"));
            free(screen);
        } else {
            assert_done(effects);
            Ball thrown; /* and what was thrown stays what it was */
            assert_true(shot_ball(&pinned->session.shots[0], &pinned->session.bag, &thrown));
            assert_near(thrown.surface.grit, 1000, 0);
        }
        free(pinned);
    }
}

static void cautions_stand_where_they_matter(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    static const struct {
        int row;
        const char *words;
    } ROWS[] = {{BALL_WEIGHT, "A junior's ball must be light enough to swing freely"},
                {BALL_FINISH, "mind the dust"},
                {BALL_GRIT, "mind the dust"}};
    for (int i = 0; i < 3; i++) {
        put(pinned, ROWS[i].row, "");
        pinned_press(pinned, PRESS_UP);
        assert_int_equal(pinned->model.form.row, ROWS[i].row);
        char *screen = pinned_screen(&pinned->model);
        assert_non_null(strstr(screen, ROWS[i].words));
        free(screen);
    }
    free(pinned);
}

static void balls_come_and_go(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    Model *model = &pinned->model;
    choose(pinned, "Cinder Loom");
    assert_false(pinned_press(pinned, '+').save_bag); /* what to add is asked first */
    assert_int_equal(model->mode, MODE_KINDS);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->session.bag.count, 6);
    pinned_press(pinned, '+');
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_int_equal(model->mode, MODE_BALL);
    assert_int_equal(model->form.row, BALL_NAME);
    assert_string_equal(chosen(pinned)->id, "ball-4"); /* a copy of ball-3: 4 is free */
    assert_int_equal(chosen(pinned)->slot, 0);
    assert_near(chosen(pinned)->surface.grit, 3000, 0);
    pinned_type(pinned, "Gourd");
    pinned_press(pinned, PRESS_ENTER);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->session.bag.count, 7);

    Effects effects = pinned_press(pinned, '-');
    assert_false(effects.save_bag);
    assert_int_equal(model->mode, MODE_ASK);
    char *screen = pinned_screen(model);
    assert_non_null(strstr(screen, "Take Gourd out of the bag?"));
    free(screen);
    pinned_press(pinned, 'n');
    assert_int_equal(model->mode, MODE_BAG);
    assert_int_equal(pinned->session.bag.count, 7);
    pinned_press(pinned, PRESS_DELETE);
    assert_done(pinned_press(pinned, 'y'));
    assert_int_equal(pinned->session.bag.count, 6);
    assert_int_equal(model->mode, MODE_BAG);
    assert_null(bag_find(&pinned->session.bag, "ball-4"));
    assert_done(pinned_press(pinned, 'u'));
    assert_string_equal(chosen(pinned)->name, "Gourd"); /* it is shown again */
    while (pinned->session.bag.count < BAG_BALLS_MAX) {
        pinned_press(pinned, '+');
        pinned_press(pinned, PRESS_ENTER);
        pinned_press(pinned, PRESS_ESC);
    }
    assert_refused(pinned, pinned_press(pinned, '+'), "found 41 balls; allowed: 1 to 40");
    free(pinned);
}

/* A kind brings what is usual for it, into the locker, undone at a key. */
static void a_ball_of_a_kind_is_added(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    Model *model = &pinned->model;
    pinned_press(pinned, '+');
    char *screen = pinned_screen(model);
    assert_non_null(strstr(screen, "a copy of"));
    for (const BallPreset *kind = BALL_PRESETS; kind->name; kind++)
        assert_non_null(strstr(screen, kind->name));
    free(screen);
    for (int i = 0; i < 40; i++) /* the list ends */
        pinned_press(pinned, PRESS_DOWN);
    assert_string_equal(BALL_PRESETS[model->kind - 1].name, "spare");
    assert_done(pinned_press(pinned, PRESS_ENTER));
    assert_int_equal(model->mode, MODE_BALL);
    assert_int_equal(chosen(pinned)->cover, COVER_POLYESTER);
    assert_string_equal(BALL_KIND_NAMES[chosen(pinned)->kind], "spare");
    assert_int_equal(chosen(pinned)->slot, 0);
    assert_true(chosen(pinned)->surface_usual);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->session.bag.count, 7);
    assert_done(pinned_press(pinned, 'u'));
    assert_int_equal(pinned->session.bag.count, 6);
    free(pinned);
}

static void a_thrown_ball_stays(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(true);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "fog\rB");
    assert_string_equal(pinned->session.shots[0].ball, "ball-1");
    assert_refused(pinned, pinned_press(pinned, '-'),
                   "Ash Rail was thrown in this event: it stays, in the locker (x)");
    assert_done(pinned_press(pinned, 'x')); /* as it says */
    assert_int_equal(pinned->session.shots[0].slot, 0);
    pinned_press(pinned, PRESS_ESC);
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "1L - flush")); /* no slot has it now */
    free(screen);
    pinned_type(pinned, "e\r"); /* edited it is still that ball's */
    pinned_type(pinned, "heg4\r");
    assert_string_equal(pinned->session.shots[0].ball, "ball-1");
    assert_int_equal(pinned->session.shots[0].hit, HIT_HIGH);
    pinned_type(pinned, "e\rb2\r");
    assert_string_equal(pinned->session.shots[0].ball, "ball-2");
    free(pinned);
}

static void undo_and_redo_all_the_way(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    Bag first = pinned->session.bag;
    put(pinned, BALL_WEIGHT, "14");
    put(pinned, BALL_GRIT, "800");
    pinned->model.mode = MODE_BAG;
    pinned_type(pinned, "5+\r");
    pinned_type(pinned, "Gourd\r");
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "4-y");
    choose(pinned, "Fern Lid");
    pinned_type(pinned, "-y");
    Bag last = pinned->session.bag;
    int edits = 0;
    while (!pinned_press(pinned, 'u').bell)
        edits++;
    assert_int_equal(edits, 8);
    assert_string_equal(pinned->model.message, "nothing to undo in the bag");
    assert_int_equal(pinned->session.bag.count, first.count);
    assert_memory_equal(pinned->session.bag.balls, first.balls, (size_t)first.count * sizeof(Ball));
    for (; edits > 0; edits--)
        assert_done(pinned_press(pinned, 'U'));
    assert_refused(pinned, pinned_press(pinned, 'U'), "nothing to redo in the bag");
    assert_memory_equal(pinned->session.bag.balls, last.balls, (size_t)last.count * sizeof(Ball));
    assert_int_equal(pinned->session.entry_count, 0); /* the event's log is not concerned */
    put(pinned, BALL_WEIGHT, "1"); /* refused, and still there: u drops it first */
    pinned_press(pinned, 'u');
    assert_false(pinned->model.form.typed_on);
    assert_memory_equal(pinned->session.bag.balls, last.balls, (size_t)last.count * sizeof(Ball));
    free(pinned);
}

static void saving_is_shown(void **state)
{
    (void)state;
    Pinned *pinned = at_bag(false);
    Model *model = &pinned->model;
    pinned_press(pinned, '4');
    update(model, (Msg){.kind = MSG_SAVED, .ok = false, .text = "No space left (/x/bag.json)"});
    assert_true(model->bag_unsaved);
    char *screen = pinned_screen(model);
    assert_non_null(strstr(screen, "! Not saved: No space left"));
    free(screen);
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, 'q');
    assert_int_equal(model->mode, MODE_ASK);
    assert_int_equal(model->prompt, PROMPT_QUIT_UNSAVED);
    pinned_type(pinned, "nB");
    assert_done(pinned_press(pinned, '5')); /* tried again with the next */
    update(model, (Msg){.kind = MSG_SAVED, .ok = true, .text = "/x/bag.json"});
    screen = pinned_screen(model);
    assert_non_null(strstr(screen, "Saved in /x/bag.json"));
    assert_null(strstr(screen, "Not saved"));
    free(screen);
    pinned_press(pinned, PRESS_ESC);
    assert_true(pinned_press(pinned, 'q').quit);
    free(pinned);
}

/* What was computed for the bag as it was is not shown for the bag as it is. */
static void an_answer_for_another_bag_is_not_shown(void **state)
{
    (void)state;
    static Arsenal arsenal;
    static Block block;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    Model *model = &pinned->model;
    pinned_type(pinned, "K");
    pinned_show_block(pinned, &block);
    pinned_type(pinned, "B");
    pinned_show_arsenal(pinned, &arsenal);
    assert_non_null(model_block(model));
    assert_non_null(model_arsenal(model));
    assert_true(pinned_press(pinned, '4').arsenal); /* the ball in hand, to the empty slot */
    assert_null(model_arsenal(model));
    assert_null(model_block(model));
    update(model, (Msg){.kind = MSG_ARSENAL, .arsenal = &arsenal}); /* a late answer */
    assert_null(model_arsenal(model));
    pinned_show_arsenal(pinned, &arsenal);
    assert_non_null(model_arsenal(model));
    assert_true(pinned_press(pinned, 'K').block);
    pinned_show_block(pinned, &block);
    assert_non_null(model_block(model));
    assert_false(pinned_press(pinned, 'B').arsenal); /* nothing has changed since */
    assert_false(pinned_press(pinned, 'K').block);
    free(pinned);
}

/* A surface that nobody said is no longer the usual one once its form is typed in, or the cover is
 * another. */
static void a_surface_is_said(void **state)
{
    (void)state;
    static const struct {
        int row;
        const char *typed;
        bool usual;
    } ROWS[] = {{BALL_NAME, "Else", true},
                {BALL_WEIGHT, "14", true},
                {BALL_GRIT, "1000", false},
                {BALL_FINISH, "polish", false},
                {BALL_COVER, "pearl", false}};
    for (size_t i = 0; i < sizeof ROWS / sizeof ROWS[0]; i++) {
        Ball ball = ball_default();
        Error error = {0};
        ball.surface_usual = true;
        assert_true(BALL_FORM.put(&ball, ROWS[i].row, ROWS[i].typed, &error));
        assert_true(ball.surface_usual == ROWS[i].usual);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slots_and_locker),
        cmocka_unit_test(last_ball_stays),
        cmocka_unit_test(moves_not_entered_find_a_ball),
        cmocka_unit_test(fields_are_typed),
        cmocka_unit_test(values_are_held_to_the_limits),
        cmocka_unit_test(surfaces_change),
        cmocka_unit_test(a_surface_is_said),
        cmocka_unit_test(no_surface_changes_in_scored_play),
        cmocka_unit_test(cautions_stand_where_they_matter),
        cmocka_unit_test(balls_come_and_go),
        cmocka_unit_test(a_ball_of_a_kind_is_added),
        cmocka_unit_test(a_thrown_ball_stays),
        cmocka_unit_test(undo_and_redo_all_the_way),
        cmocka_unit_test(saving_is_shown),
        cmocka_unit_test(an_answer_for_another_bag_is_not_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
