/* test_spares.c - the spares view by its keys: what it opens on, pins, balls, and saying the spare.
 */
#include "near.h"

#include "ui/pinned.h"

static Pinned *playing(void)
{
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_play(pinned);
    pinned_advise(pinned);
    return pinned;
}

/* The answer to what is asked now, as the runtime brings it. */
static void find(Pinned *pinned)
{
    Model *model = &pinned->model;
    SpareInput input = model_spare_input(model);
    Spare spare;
    Roll roll;
    spare_find(&input, &spare);
    model_roll_spare(model, spare.take ? &spare.sure : &spare.line, &roll);
    update(
        model,
        (Msg){.kind = MSG_SPARE, .spare = &spare, .roll = &roll, .revision = model->asked.spare});
}

static void opens_on_the_last_leave(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    const Shot *last = &pinned->session.shots[pinned->session.shot_count - 1];
    pinned_press(pinned, 'S');
    assert_int_equal(pinned->model.mode, MODE_SPARES);
    assert_int_equal(pinned->model.spare_pins, last->left);
    assert_null(model_spare_line(&pinned->model)); /* not computed yet */
    find(pinned);
    const SpareLine *line = model_spare_line(&pinned->model);
    assert_non_null(line);
    assert_non_null(line->ball);
    assert_true(pinned->model.spare_path.count > 0);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    free(pinned);
}

/* If the last shot left nothing to pick up, or its leave was not seen, no older leave is shown. */
static void no_leave_of_before(void **state)
{
    (void)state;
    static const char *const LAST[] = {"f\r", "fo\r", "t\r", "log4/\r"};
    for (int i = 0; i < 4; i++) {
        Pinned *pinned = playing();
        pinned_press(pinned, 'S');
        assert_true(pinned->model.spare_pins != 0);
        pinned_press(pinned, PRESS_ESC);
        pinned_type(pinned, LAST[i]);
        pinned_press(pinned, 'S');
        assert_int_equal(pinned->model.mode, MODE_SPARES);
        assert_int_equal(pinned->model.spare_pins, 0);
        free(pinned);
    }
}

static void pins_are_typed(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    pinned_press(pinned, 'S');
    pinned_type(pinned, "x360");
    assert_int_equal(pinned->model.spare_pins, pin_bit(3) | pin_bit(6) | pin_bit(10));
    pinned_type(pinned, "6");
    assert_int_equal(pinned->model.spare_pins, pin_bit(3) | pin_bit(10));
    find(pinned);
    assert_true(pinned->model.spare.split);
    pinned_type(pinned, "x");
    assert_null(model_spare_line(&pinned->model));
    assert_int_equal(pinned->session.shot_count, 5); /* nothing of it is a shot */
    pinned_press(pinned, PRESS_ESC);
    free(pinned);
}

/* The balls of the bag in turn, the empty slot left out; then the best again. */
static void balls_in_turn(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    static const int SLOTS[] = {1, 2, 3, 5, 6, 0};
    pinned_press(pinned, 'S');
    pinned_type(pinned, "x7");
    for (int i = 0; i < 6; i++) {
        pinned_press(pinned, 'b');
        assert_int_equal(pinned->model.spare_slot, SLOTS[i]);
        find(pinned);
        if (SLOTS[i])
            assert_int_equal(model_spare_line(&pinned->model)->ball->slot, SLOTS[i]);
    }
    free(pinned);
}

static void the_spare_is_said(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    const Session *session = &pinned->session;
    int last = session->shot_count - 1;
    pinned_type(pinned, "Sx3");
    Effects effects = pinned_press(pinned, '/'); /* these pins are not the last shot's */
    assert_true(effects.bell);
    assert_false(session->shots[last].spare_said);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "S/");
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_true(shot_spare(&session->shots[last]));
    pinned_press(pinned, 'u');
    assert_false(session->shots[last].spare_said);
    pinned_type(pinned, "S.");
    assert_int_equal(pinned->model.mode, MODE_ENTRY);
    pinned_press(pinned, PRESS_ENTER);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_true(session->shots[last].spare_said);
    assert_int_equal(session->shots[last].spare_left, session->shots[last].left);
    free(pinned);
}

/* Help comes back to the view, at its own keys. */
static void help_and_back(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    pinned_type(pinned, "S?");
    assert_int_equal(pinned->model.mode, MODE_HELP);
    assert_true(pinned->model.help_top > 0);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_SPARES);
    free(pinned);
}

/* An answer that comes after the question has changed is of other pins, or of an older film. */
static void a_late_answer_is_not_shown(void **state)
{
    (void)state;
    Pinned *pinned = playing();
    Model *model = &pinned->model;
    pinned_type(pinned, "Sx7");
    long asked = model->asked.spare;
    pinned_type(pinned, "0");
    static Roll roll;
    Spare seven = {.found = true, .left = pin_bit(7)};
    Msg late = {.kind = MSG_SPARE, .spare = &seven, .roll = &roll, .revision = asked};
    assert_false(update(model, late).draw);
    assert_null(model_spare_line(model));
    find(pinned);
    assert_int_equal(model->spare.left, pin_bit(7) | pin_bit(10));
    pinned->advice.revision = model->asked.advice;
    update(model, (Msg){.kind = MSG_ADVICE, .advice = &pinned->advice}); /* another film */
    assert_null(model_spare_line(model));
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_late_answer_is_not_shown),
        cmocka_unit_test(opens_on_the_last_leave),
        cmocka_unit_test(no_leave_of_before),
        cmocka_unit_test(pins_are_typed),
        cmocka_unit_test(balls_in_turn),
        cmocka_unit_test(the_spare_is_said),
        cmocka_unit_test(help_and_back),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
