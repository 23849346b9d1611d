/* test_log.c - the log: changing shots in place, frames known only by their pins, fouls, a finished
 * game that asks first, the score to aim for. */
#include "near.h"

#include "ui/log_rows.h"
#include "ui/pinned.h"

static Pinned *begin(void)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    return pinned;
}

static void shows(const Pinned *pinned, const char *text)
{
    char *screen = pinned_screen(&pinned->model);
    if (!strstr(screen, text))
        fail_msg("no \"%s\" on\n%s", text, screen);
    free(screen);
}

static void sheet_is(const Pinned *pinned, int game, const char *sheet)
{
    char why[96];
    Score score, expected = score_begin();
    assert_true(score_read(&expected, sheet, why, sizeof why));
    assert_true(session_score(&pinned->session, game, &score));
    assert_int_equal(score.ball_count, expected.ball_count);
    for (int i = 0; i < score.ball_count; i++) {
        assert_int_equal(score.balls[i].pins, expected.balls[i].pins);
        assert_int_equal(score.balls[i].foul, expected.balls[i].foul);
    }
}

static void frames_are_told_anywhere(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned_type(pinned, "fog\rllf0/\rL+81\r"); /* after the last shot */
    sheet_is(pinned, 1, "X 9/ 81");
    shows(pinned, "Frame added");
    assert_int_equal(model->lane, pinned->session.lane);
    pinned_type(pinned, "kk"); /* the second shot: before it */
    pinned_type(pinned, "+-/\r");
    sheet_is(pinned, 1, "X -/ 9/ 81");
    assert_int_equal(pinned->session.told[1].lane, SIDE_LEFT); /* lanes take turns */
    assert_int_equal(model_advice_input(model).shot_count, 2); /* the belief sees shots alone */
    pinned_type(pinned, "k\r");                                /* the one just added, changed */
    assert_int_equal(model->mode, MODE_TOLD);
    assert_string_equal(model->typed, "-/");
    pinned_type(pinned, "\b\b7f\r");
    sheet_is(pinned, 1, "X 7F 9/ 81");
    shows(pinned, "Frame changed");
    pinned_type(pinned, "-");
    sheet_is(pinned, 1, "X 9/ 81");
    pinned_type(pinned, "u");
    sheet_is(pinned, 1, "X 7F 9/ 81");
    pinned_type(pinned, "uuuuuuuu"); /* what was chosen is gone */
    assert_int_equal(pinned->session.shot_count, 0);
    pinned_type(pinned, "jk\r\x1b+\x1b-");
    assert_int_equal(model->mode, MODE_LOG);
    free(pinned);
}

static void what_is_no_frame_stays_to_be_corrected(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned_type(pinned, "L+10");
    Effects effects = pinned_press(pinned, '\r');
    assert_true(effects.bell && !effects.keep);
    shows(pinned, "a frame is written X, 9/, 81");
    assert_string_equal(model->typed, "10");
    pinned_type(pinned, "\b-\r");
    sheet_is(pinned, 1, "1-");
    pinned_type(pinned, "+XXXXXXXXXX"); /* no longer than any frame */
    assert_int_equal(strlen(model->typed), TOLD_SIZE - 1);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(model->mode, MODE_LOG);
    assert_int_equal(pinned->session.told_count, 1);
    free(pinned);
}

/* Before a frame that nobody logged either: its place is the one that was chosen. */
static void before_another_such_frame(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "L+81\r+9/\r");
    sheet_is(pinned, 1, "81 9/");
    pinned_type(pinned, "k+X\r");
    sheet_is(pinned, 1, "81 X 9/");
    assert_int_equal(pinned->session.told[2].lane, SIDE_LEFT); /* lanes take turns */
    shows(pinned, "Frame added");
    pinned_type(pinned, "k+7/\r"); /* before that */
    sheet_is(pinned, 1, "81 7/ X 9/");
    pinned_type(pinned, "\r\b6/\r"); /* Enter changes the chosen one */
    sheet_is(pinned, 1, "81 7/ 6/ 9/");
    pinned_type(pinned, "uuu");
    sheet_is(pinned, 1, "81 9/");
    free(pinned);
}

static void a_shot_is_changed_in_place(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned_type(pinned, "fog\rllf0/\rL");
    pinned_type(pinned, "kk\r");
    assert_int_equal(model->mode, MODE_ENTRY);
    shows(pinned, "Editing a shot");
    shows(pinned, "Hits by lane and game"); /* the log stays in sight */
    pinned_type(pinned, "heg4\r");
    assert_int_equal(model->mode, MODE_LOG);
    assert_int_equal(pinned->session.shots[0].hit, HIT_HIGH);
    pinned_type(pinned, "\rl\x1b");
    assert_int_equal(model->mode, MODE_LOG);
    assert_int_equal(pinned->session.shots[0].hit, HIT_HIGH);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(model->mode, MODE_LANE);
    free(pinned);
}

static void fouls(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "fogF/\r"); /* all ten count for the second ball */
    sheet_is(pinned, 1, "F/");
    pinned_type(pinned, "fogFF\r"); /* twice: it was none */
    sheet_is(pinned, 1, "F/ X");
    pinned_type(pinned, "llg10.F\r");
    sheet_is(pinned, 1, "F/ X 9F");
    pinned_type(pinned, "llg410.F4\r"); /* a pin says that it was none after all */
    sheet_is(pinned, 1, "F/ X 9F 81");
    pinned_type(pinned, "fogF.37\r");
    sheet_is(pinned, 1, "F/ X 9F 81 F8");
    pinned_type(pinned, "nF\r");
    pinned_type(pinned, "S"); /* all ten stand for the spare ball */
    assert_int_equal(pinned->model.spare_pins, PINS_ALL);
    pinned_type(pinned, "/");
    sheet_is(pinned, 1, "F/ X 9F 81 F8 F/");
    free(pinned);
}

static void play_a_game(Pinned *pinned)
{
    for (int frame = 0; frame < 9; frame++)
        pinned_type(pinned, "llf10/\r");
    pinned_type(pinned, "heg4.4\r");
    assert_true(pinned->session.game_over);
}

static void a_finished_game_asks_first(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    play_a_game(pinned);
    pinned_type(pinned, "L\r");
    shows(pinned, "That game is finished. Change it?");
    pinned_type(pinned, "n");
    assert_int_equal(model->mode, MODE_LOG);
    pinned_type(pinned, "\ry");
    assert_int_equal(model->mode, MODE_ENTRY);
    pinned_type(pinned, "\x1b+");
    assert_int_equal(model->mode, MODE_ASK);
    pinned_type(pinned, "yX\r");
    shows(pinned, "that game has its ten frames");
    pinned_type(pinned, "\x1b\x1b");
    pinned_type(pinned, "e\r"); /* from the lane too */
    shows(pinned, "That game is finished. Change it?");
    pinned_type(pinned, "y");
    assert_int_equal(model->mode, MODE_ENTRY);
    pinned_type(pinned, "\x1b");
    assert_int_equal(model->mode, MODE_LANE);
    pinned_type(pinned, "fog\re\r"); /* the game under way does not */
    assert_int_equal(model->mode, MODE_ENTRY);
    free(pinned);
}

static void games_in_turn(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    play_a_game(pinned);
    pinned_type(pinned, "Gyfog\rL");
    assert_int_equal(model->log_game, 2);
    shows(pinned, "Game 2");
    pinned_press(pinned, PRESS_LEFT);
    shows(pinned, "Game 1");
    shows(pinned, "This game is finished");
    pinned_press(pinned, PRESS_LEFT);
    assert_int_equal(model->log_game, 1);
    pinned_press(pinned, PRESS_RIGHT);
    pinned_press(pinned, PRESS_RIGHT);
    assert_int_equal(model->log_game, 2);
    free(pinned);
}

static void the_warm_up_is_listed(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned->session.event.warm_up = true;
    session_fold(&pinned->session);
    pinned_type(pinned, "heg\rL");
    shows(pinned, "Warm-up: not scored");
    pinned_type(pinned, "+");
    shows(pinned, "the warm-up has no frames");
    pinned_type(pinned, "\x1bGyfog\rL");
    shows(pinned, "Game 1");
    pinned_press(pinned, PRESS_LEFT);
    shows(pinned, "Warm-up: not scored");
    shows(pinned, "high");
    free(pinned);
}

static void a_score_to_aim_for(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned_type(pinned, "fog\rLt301");
    Effects effects = pinned_press(pinned, '\r');
    assert_true(effects.bell);
    assert_int_equal(model->mode, MODE_TARGET);
    pinned_type(pinned, "\b0\r");
    assert_int_equal(pinned->session.target, 300);
    assert_int_equal(pinned->session.entry_count, 2); /* it is kept with the event */
    pinned_type(pinned, "t\r");                       /* the same again: no news */
    assert_int_equal(pinned->session.entry_count, 2);
    char words[64];
    Score score;
    assert_true(session_score(&pinned->session, 1, &score));
    snprintf(words, sizeof words, "%.40s", score_need(&score, 300).words);
    shows(pinned, words);
    pinned_type(pinned, "t\b\b\b0\r");
    assert_int_equal(pinned->session.target, 0);
    pinned_type(pinned, "u");
    assert_int_equal(pinned->session.target, 300);
    pinned_type(pinned, "u");
    assert_int_equal(pinned->session.target, 0);
    assert_int_equal(pinned->session.shot_count, 1);
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frames_are_told_anywhere),
        cmocka_unit_test(what_is_no_frame_stays_to_be_corrected),
        cmocka_unit_test(before_another_such_frame),
        cmocka_unit_test(a_shot_is_changed_in_place),
        cmocka_unit_test(fouls),
        cmocka_unit_test(a_finished_game_asks_first),
        cmocka_unit_test(games_in_turn),
        cmocka_unit_test(the_warm_up_is_listed),
        cmocka_unit_test(a_score_to_aim_for),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
