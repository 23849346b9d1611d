/* test_random_keys.c - a hundred thousand random keys, and every size of screen: nothing breaks,
 * nothing is drawn outside. */
#include "near.h"

#include "base/rng.h"
#include "base/text.h"
#include "ui/input/ball_form.h"
#include "ui/pinned_bag.h"

static uint32_t random_key(Rng *rng)
{
    static const uint32_t OTHERS[] = {PRESS_TAB,   PRESS_ENTER, PRESS_ESC, PRESS_BACKSPACE,
                                      PRESS_ENTER, 0x1f600,     0xe9,      0};
    double u = rng_uniform(rng);
    if (u < 0.15)
        return PRESS_LEFT + (uint32_t)(rng_uniform(rng) * (PRESS_LAST + 1 - PRESS_LEFT));
    if (u < 0.35)
        return OTHERS[(int)(rng_uniform(rng) * 8)];
    return 0x20 + (uint32_t)(rng_uniform(rng) * 95);
}

/* Whatever was typed, the bag is one that its file's checks would let through. */
static void bag_is_sound(const Model *model)
{
    const Session *session = model->session;
    const Bag *bag = &session->bag;
    int slots = 0;
    assert_in_range(bag->count, 1, BAG_BALLS_MAX);
    assert_in_range(model->ball, 0, bag->count - 1);
    assert_in_range(model->form_row, 0, FORM_ROWS - 1);
    assert_in_range(session->bag_log.standing, 0, session->bag_log.count);
    for (int i = 0; i < bag->count; i++) {
        Ball ball = bag->balls[i];
        char text[64];
        assert_true(text_utf8_fault(ball.name, strlen(ball.name)) == strlen(ball.name));
        assert_ptr_equal(bag_find(bag, ball.id), &bag->balls[i]);
        assert_true(ball.slot == 0 || bag_slot(bag, ball.slot) == &bag->balls[i]);
        slots += ball.slot > 0;
        for (int row = 0; row < FORM_ROWS; row++) {
            Error why = {0};
            form_show(&ball, row, text, sizeof text);
            if (text[0] && !form_put(&ball, row, text, &why))
                fail_msg("%s", why.text);
        }
    }
    assert_true(slots > 0);
    for (int i = 0; i < session->shot_count; i++)
        assert_non_null(bag_find(bag, session->shots[i].ball));
}

static void session_is_sound(const Model *model)
{
    const Session *session = model->session;
    assert_in_range(session->frame, 1, 10);
    assert_in_range(session->game, 1, session->event.games);
    assert_in_range(session->shot_count, 0, SESSION_SHOTS_MAX);
    assert_in_range(session->entry_count, 0, SESSION_ENTRIES_MAX);
    Plan plan = model_plan(model);
    assert_non_null(bag_slot(&session->bag, plan.slot));
    assert_true(plan.stance >= 1.0 && plan.stance <= 50.0);
    assert_true(plan.aim >= 1.0 && plan.aim <= 39.0);
    assert_in_range(model->lane, SIDE_LEFT, SIDE_RIGHT);
    assert_true(model->help_top >= 0);
    if (model->mode == MODE_PICK)
        assert_in_range(model->pick, 0, session->shot_count - 1);
    if (model->mode == MODE_ENTRY && model->typing.index >= 0)
        assert_true(model->typing.index < session->shot_count);
    for (int i = 0; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        assert_true(shot->hit != HIT_UNSAID || shot->left_said);
        assert_true((shot->left & ~PINS_ALL) == 0);
        assert_true((shot->spare_left & ~shot->left) == 0);
        assert_true(!shot->spare_said || shot->left != 0);
        assert_true(shot->mph == 0.0 || (shot->mph >= 5.0 && shot->mph <= 35.0));
        assert_true(shot->arrows == 0.0 || (shot->arrows >= 1.0 && shot->arrows <= 39.0));
        assert_true(shot->breakpoint == 0.0 ||
                    (shot->breakpoint >= 1.0 && shot->breakpoint <= 39.0));
        assert_true(!shot->ringing || shot->left == pin_bit(7) || shot->left == pin_bit(10));
    }
}

static void drawn_inside(const Model *model)
{
    Canvas canvas;
    assert_true(canvas_init(&canvas, model->columns, model->rows));
    view_draw(model, &canvas);
    if (canvas.spilled)
        fail_msg("%d cells outside at %dx%d", canvas.spilled, model->columns, model->rows);
    assert_true(canvas.cursor_row < canvas.rows && canvas.cursor_column < canvas.columns);
    canvas_fini(&canvas);
}

static void random_keys(void **state)
{
    (void)state;
    static Arsenal arsenal;
    Rng rng = rng_seed(20261125);
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    int asked = 0, kept = 0, shots = 0, edits = 0;
    for (int i = 0; i < 100000; i++) {
        if (i % 1000 == 0) { /* else the event is over and little happens */
            pinned_begin(pinned, i % 2000 ? HAND_LEFT : HAND_RIGHT, 80 + i % 60, 24 + i % 20);
            pinned_advise(pinned);
        }
        Effects effects = pinned_press(pinned, random_key(&rng));
        kept += effects.keep;
        asked += effects.quit;
        edits += effects.save_bag;
        if (pinned->session.shot_count > shots)
            shots = pinned->session.shot_count;
        if (i % 7 == 0) /* as when newer advice has come */
            pinned_advise(pinned);
        if (effects.arsenal && i % 3 == 0 && pinned->session.bag.count > 4)
            pinned_show_arsenal(pinned, &arsenal); /* it speaks of the first five balls */
        if (i % 25 == 0) {
            session_is_sound(&pinned->model);
            bag_is_sound(&pinned->model);
            drawn_inside(&pinned->model);
        }
    }
    print_message("%d entries, at most %d shots at once, %d edits of the bag, %d wishes to quit\n",
                  kept, shots, edits, asked);
    assert_true(kept > 1000 && shots > 3 && edits > 200 &&
                asked > 10); /* the keys did reach something */
    free(pinned);
}

static void every_size(void **state)
{
    (void)state;
    static const char *const STATES[] = {
        "",      "l",       "log", "logb", "e",   "?",  "G",
        "logm1", "log36.6", "B",   "B\r1", "B+Q", "B-", "la12.5\rp7.5\rm17.4\rp39"};
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    for (size_t s = 0; s < sizeof STATES / sizeof *STATES; s++) {
        pinned_begin(pinned, HAND_RIGHT, 80, 24);
        pinned_play(pinned);
        pinned_advise(pinned);
        pinned->model.shown.adjustments[0].caution = CAUTION_SURFACE;
        pinned->model.shown.adjustments[0].disagrees = true;
        pinned_type(pinned, STATES[s]);
        for (int rows = 1; rows <= 60; rows += rows < 30 ? 1 : 7)
            for (int columns = 1; columns <= 200; columns += columns < 130 ? 3 : 9) {
                update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = columns, .rows = rows});
                drawn_inside(&pinned->model);
            }
    }
    free(pinned);
}

/* Names of the greatest length, wide characters, figures that are not numbers. */
static void unusual_contents(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_LEFT, 80, 24);
    pinned_play(pinned);
    Session *session = &pinned->session;
    snprintf(session->event.name, sizeof session->event.name, "%s",
             "葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉");
    snprintf(session->pattern.name, sizeof session->pattern.name, "%s",
             "A name of a pattern so long that no screen of usual size has it");
    for (int i = 0; i < session->bag.count; i++)
        snprintf(session->bag.balls[i].name, sizeof session->bag.balls[i].name, "%s",
                 "木の葉木の葉木の葉木の葉木の葉");
    Advice *advice = &pinned->advice;
    for (int i = 0; i < BAG_SLOTS; i++)
        advice->slot[i].line =
            (Line){.found = true, .first_move_ft = NAN, .entry_deg = NAN, .pocket = 1.0};
    for (int i = 0; i < 3; i++) {
        memset(advice->adjustments[i].words, 'w', sizeof advice->adjustments[i].words - 1);
        memset(advice->adjustments[i].because, 'b', sizeof advice->adjustments[i].because - 1);
        advice->adjustments[i].plan.stance = -7.3;
        advice->adjustments[i].plan.aim = 1e9;
        advice->adjustments[i].margin_in = INFINITY;
    }
    pinned_advise(pinned);
    pinned->model.path.gutter = true;
    pinned->model.path.count = 40;
    static const int SIZES[][2] = {{80, 24}, {100, 30}, {120, 40}, {200, 60}};
    for (int i = 0; i < 4; i++) {
        update(&pinned->model,
               (Msg){.kind = MSG_SIZE, .columns = SIZES[i][0], .rows = SIZES[i][1]});
        drawn_inside(&pinned->model);
    }
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_keys),
        cmocka_unit_test(every_size),
        cmocka_unit_test(unusual_contents),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
