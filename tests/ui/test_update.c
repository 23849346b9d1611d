/* test_update.c - keys in, session out: logging, undo, editing, and what is refused. */
#include "near.h"

#include "base/text.h"
#include "ui/input/update.h"
#include "ui/pinned.h"

static void three_keys_and_enter_log_a_shot(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "fog");
    assert_int_equal(pinned->session.shot_count, 0);
    Effects effects = pinned_press(pinned, PRESS_ENTER);
    assert_true(effects.keep && effects.advise && effects.draw);
    assert_int_equal(pinned->session.shot_count, 1);
    const Shot *shot = &pinned->session.shots[0];
    assert_int_equal(shot->hit, HIT_FLUSH);
    assert_int_equal(shot->read, READ_ON_TIME);
    assert_int_equal(shot->release, RELEASE_GOOD);
    assert_true(shot_strike(shot));
    assert_int_equal(shot->slot, 1);
    assert_near(shot->stance, 28.0, 0);
    assert_near(shot->aim, 14.0, 0);
    assert_int_equal(shot->lane, SIDE_LEFT);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_int_equal(pinned->model.lane, SIDE_RIGHT); /* the next frame's */
    free(pinned);
}

static void every_word_has_its_key(void **state)
{
    (void)state;
    static const char HITS[] = "gwtlfhnc", READS[] = "eoln", RELEASES[] = "giofsx";
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    for (int h = 0; HITS[h]; h++)
        for (int r = 0; READS[r]; r++)
            for (int e = 0; RELEASES[e]; e++) {
                pinned_press(pinned, (unsigned char)HITS[h]);
                pinned_press(pinned, (unsigned char)READS[r]);
                pinned_press(pinned, (unsigned char)RELEASES[e]);
                const Shot *shot = &pinned->model.typing.shot;
                assert_int_equal(shot->hit, HIT_GUTTER + h);
                assert_int_equal(shot->read, READ_EARLY + r);
                assert_int_equal(shot->release, RELEASE_GOOD + e);
                assert_int_equal(shot->left, h == 0 ? PINS_ALL : 0);
                pinned_press(pinned, PRESS_ESC);
                assert_int_equal(pinned->model.mode, MODE_LANE);
            }
    assert_int_equal(pinned->session.entry_count, 0);
    free(pinned);
}

static void leave_is_typed_as_pins(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "hog360");
    assert_int_equal(pinned->model.typing.shot.left, pin_bit(3) | pin_bit(6) | pin_bit(10));
    pinned_type(pinned, "6");
    assert_int_equal(pinned->model.typing.shot.left, pin_bit(3) | pin_bit(10));
    pinned_type(pinned, "r"); /* not a corner pin alone */
    assert_false(pinned->model.typing.shot.ringing);
    pinned_type(pinned, "3r");
    assert_true(pinned->model.typing.shot.ringing);
    pinned_type(pinned, "\r\r"); /* a key was refused: the first Enter only says so */
    assert_int_equal(pinned->session.shots[0].left, pin_bit(10));
    assert_true(pinned->session.shots[0].ringing);

    pinned_type(pinned, "log-");
    assert_false(pinned->model.typing.shot.left_said);
    pinned_press(pinned, PRESS_ENTER);
    assert_false(pinned->session.shots[1].left_said);

    pinned_type(pinned, "gng5"); /* the first pin ends "all ten stand" */
    assert_int_equal(pinned->model.typing.shot.left, pin_bit(5));
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_int_equal(pinned->model.typing.shot.left, PINS_ALL);
    free(pinned);
}

/* A flush hit takes the head pin: Enter says so, and the shot stays to be put right. */
static void what_cannot_be_is_refused(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "fog12");
    pinned_press(pinned, PRESS_ENTER);
    assert_int_equal(pinned->session.shot_count, 0);
    assert_int_equal(pinned->model.mode, MODE_ENTRY);
    assert_string_equal(pinned->model.message,
                        "that hit takes the 1 pin down; allowed with the 1: wide, thin or crossed");
    pinned_type(pinned, "1");
    pinned_press(pinned, PRESS_ENTER);
    assert_int_equal(pinned->session.shot_count, 1);
    assert_int_equal(pinned->session.shots[0].left, pin_bit(2));
    free(pinned);
}

static void the_spare_is_said_at_once_or_later(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "log36/\r");
    assert_true(shot_spare(&pinned->session.shots[0]));
    pinned_type(pinned, "log360.6\r"); /* missed, the 6 still up */
    assert_true(pinned->session.shots[1].spare_said);
    assert_int_equal(pinned->session.shots[1].spare_left, pin_bit(6));
    pinned_type(pinned, "log4\r");
    pinned_type(pinned, "/");
    assert_true(shot_spare(&pinned->session.shots[2]));
    assert_int_equal(pinned->session.shot_count, 3);
    pinned_type(pinned, "log46\r.4\r");
    assert_int_equal(pinned->session.shots[3].spare_left, pin_bit(4));
    assert_true(pinned->session.shots[3].spare_said);
    Score score;
    assert_true(session_score(&pinned->session, 1, &score));
    assert_int_equal(score.total, 17 + 9 + 18 + 9); /* 8/ 7 and 2, 9/ 8 and 1 */
    pinned_type(pinned, "log57\r.3");               /* the 3 was down already */
    assert_int_equal(pinned->model.typing.shot.spare_left, pin_bit(5) | pin_bit(7));
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_false(pinned->model.typing.shot.spare_said);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "fog/"); /* nothing to spare */
    assert_false(pinned->model.typing.shot.spare_said);
    pinned_type(pinned, "\r");
    assert_true(pinned_press(pinned, '/').bell);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "log4/6\r"); /* another leave ends what was said of the spare */
    assert_false(pinned->session.shots[6].spare_said);
    free(pinned);
}

/* README: nothing typed is a strike after light, flush or high, all ten after a gutter ball, else
 * not seen; at whichever part Enter is pressed, and the line shows it. */
static void enter_at_any_part_keeps_the_usual_leave(void **state)
{
    (void)state;
    static const struct {
        const char *keys;
        bool said;
        Pins left;
        const char *shown;
    } CASES[] = {{"g", true, PINS_ALL, "all ten"},      {"gl", true, PINS_ALL, "all ten"},
                 {"f", true, 0, "X all down"},          {"fo", true, 0, "X all down"},
                 {"fog", true, 0, "X all down"},        {"fog\177", true, 0, "X all down"},
                 {"l", true, 0, "X all down"},          {"h ", true, 0, "X all down"},
                 {"t", false, 0, "not seen"},           {"wo", false, 0, "not seen"},
                 {"f\177g", true, PINS_ALL, "all ten"}, {"fog-\177", true, 0, "X all down"}};
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        pinned_type(pinned, CASES[i].keys);
        char *screen = pinned_screen(&pinned->model);
        if (!strstr(screen, CASES[i].shown))
            fail_msg("after \"%s\" the line does not show \"%s\"", CASES[i].keys, CASES[i].shown);
        free(screen);
        pinned_type(pinned, "\r");
        assert_int_equal(pinned->session.shot_count, i + 1);
        assert_int_equal(pinned->session.shots[i].left_said, CASES[i].said);
        assert_int_equal(pinned->session.shots[i].left, CASES[i].left);
    }
    assert_int_equal(pinned->session.shots[2].read, READ_UNSAID);
    free(pinned);
    pinned = pinned_fresh(HAND_RIGHT); /* so the score goes on */
    pinned_type(pinned, "f\rfo\rg\r/");
    Score score;
    assert_true(session_score(&pinned->session, 1, &score));
    assert_int_equal(score.total, 20 + 20); /* a spare waits for the next ball */
    free(pinned);
}

static void back_and_cancel(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "le");
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_int_equal(pinned->model.typing.field, FIELD_READ);
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_int_equal(pinned->model.typing.field, FIELD_HIT);
    pinned_type(pinned, "h");
    assert_int_equal(pinned->model.typing.shot.hit, HIT_HIGH);
    pinned_press(pinned, PRESS_BACKSPACE);
    pinned_press(pinned, PRESS_BACKSPACE);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    pinned_type(pinned, "log");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_int_equal(pinned->session.entry_count, 0);
    free(pinned);
}

static void shot_may_differ_from_the_plan(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "log");
    pinned_press(pinned, PRESS_LEFT);
    pinned_type(pinned, "]b3m17.45\r\r"); /* Enter ends the speed, Enter ends the shot */
    const Shot *shot = &pinned->session.shots[0];
    assert_near(shot->stance, 29.0, 0);
    assert_near(shot->aim, 13.0, 0);
    assert_int_equal(shot->slot, 3);
    assert_near(shot->mph, 17.4, 1e-9);                            /* four figures are enough */
    assert_near(pinned->session.plan[SIDE_RIGHT].stance, 28.0, 0); /* the plan stays */
    pinned_type(pinned, "logb4");
    assert_int_equal(pinned->model.typing.field, FIELD_SLOT); /* slot 4 is empty */
    pinned_type(pinned, "\r");
    pinned_type(pinned, "m3");
    assert_true(pinned_press(pinned, PRESS_ENTER).bell);
    assert_int_equal(pinned->model.typing.field, FIELD_SEEN); /* to be put right there */
    assert_near(pinned->model.typing.shot.mph, 0.0, 0);
    pinned_press(pinned, PRESS_BACKSPACE);
    pinned_type(pinned, "17\r");
    assert_near(pinned->model.typing.shot.mph, 17.0, 0);
    pinned_type(pinned, "\t\r");
    assert_int_equal(pinned->session.shots[1].lane, SIDE_LEFT);
    free(pinned);
}

/* The boards of a shot: a field as the speed's; out of range is refused, nothing is lost. */
static void boards_that_were_seen(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    const Shot *typed = &pinned->model.typing.shot;
    pinned_type(pinned, "la12.5\rop7\r"); /* wherever in the shot */
    assert_int_equal(pinned->model.typing.field, FIELD_RELEASE);
    assert_near(typed->arrows, 12.5, 0);
    assert_near(typed->breakpoint, 7.0, 0);
    pinned_type(pinned, "a39.5");
    assert_true(pinned_press(pinned, PRESS_ENTER).bell);
    assert_string_equal(pinned->model.message, "arrows: board 1 to 39, or 0 if you did not see it");
    for (int i = 0; i < 5; i++)
        pinned_press(pinned, PRESS_BACKSPACE); /* the figures, then out of the field */
    pinned_type(pinned, "p.");
    assert_true(pinned_press(pinned, PRESS_ENTER).bell);
    pinned_type(pinned, "5");
    assert_true(pinned_press(pinned, PRESS_ENTER).bell);
    for (int i = 0; i < 3; i++)
        pinned_press(pinned, PRESS_BACKSPACE);
    assert_near(typed->arrows, 12.5, 0);
    assert_near(typed->breakpoint, 7.0, 0);
    pinned_type(pinned, "a3");
    pinned_press(pinned, PRESS_BACKSPACE);
    pinned_type(pinned, "\r"); /* nothing typed: as it was */
    assert_near(typed->arrows, 12.5, 0);
    assert_near(typed->mph, 0.0, 0);
    pinned_type(pinned, "m17.4\rg\r");
    const Shot *kept = &pinned->session.shots[0];
    assert_near(kept->mph, 17.4, 1e-9);
    assert_near(kept->arrows, 12.5, 0);
    assert_near(kept->breakpoint, 7.0, 0);
    pinned_type(pinned, "e\rt\r"); /* an edit keeps what it does not change */
    kept = &pinned->session.shots[0];
    assert_int_equal(kept->hit, HIT_THIN);
    assert_near(kept->arrows, 12.5, 0);
    assert_near(kept->breakpoint, 7.0, 0);
    pinned_type(pinned, "e\ra0\rp6.5\r\r"); /* 0 unsays it */
    kept = &pinned->session.shots[0];
    assert_near(kept->arrows, 0.0, 0);
    assert_near(kept->breakpoint, 6.5, 0);
    free(pinned);
}

static void undo_and_redo(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "fog\r");
    Effects effects = pinned_press(pinned, 'u');
    assert_true(effects.keep && effects.advise);
    assert_int_equal(pinned->session.shot_count, 0);
    assert_int_equal(pinned->model.lane, SIDE_LEFT);
    pinned_type(pinned, "U");
    assert_int_equal(pinned->session.shot_count, 1);
    pinned_type(pinned, "uu");
    assert_int_equal(pinned->session.shot_count, 0);
    assert_true(pinned->model.message[0] != '\0'); /* nothing left to undo: said */
    free(pinned);
}

static void earlier_shot_is_edited(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_play(pinned);
    int shots = pinned->session.shot_count;
    pinned_type(pinned, "e");
    assert_int_equal(pinned->model.mode, MODE_PICK);
    pinned_press(pinned, PRESS_DOWN);
    pinned_press(pinned, PRESS_ENTER);
    assert_int_equal(pinned->model.typing.index, shots - 2);
    pinned_type(pinned, "t  "); /* another hit, the rest as it is */
    assert_int_equal(pinned->model.typing.field, FIELD_LEAVE);
    pinned_type(pinned, "\r");
    const Shot *shot = &pinned->session.shots[shots - 2];
    assert_int_equal(pinned->session.shot_count, shots);
    assert_int_equal(shot->hit, HIT_THIN);
    assert_int_equal(shot->read, READ_EARLY);
    assert_int_equal(shot->release, RELEASE_INSIDE);
    assert_int_equal(shot->left, pin_bit(3) | pin_bit(6) | pin_bit(10));
    pinned_type(pinned, "e\r   7\r"); /* a typed leave takes the place of the old one */
    assert_int_equal(pinned->session.shots[shots - 1].left, pin_bit(7));
    free(pinned);
}

static void edit_needs_a_shot(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Effects effects = pinned_press(pinned, 'e');
    assert_true(effects.bell);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    free(pinned);
}

static void enter_when_idle_changes_nothing(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_play(pinned);
    int entries = pinned->session.entry_count;
    pinned_type(pinned, "\r\r\n");
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, PRESS_BACKSPACE);
    pinned_type(pinned, "0789xyz");
    assert_int_equal(pinned->session.entry_count, entries);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    free(pinned);
}

/* A leave as bowlers write it, straight after the hit. */
static void leave_is_typed_as_written(void **state)
{
    (void)state;
    enum { P1 = 1 << 0, P2 = 1 << 1, P3 = 1 << 2, P6 = 1 << 5, P7 = 1 << 6, P10 = 1 << 9 };
    static const struct {
        const char *keys;
        int left;
    } ROWS[] = {{"h6-10", P6 | P10},
                {"ho6,10", P6 | P10},
                {"hog10", P10},
                {"ho3-6-10", P3 | P6 | P10},
                {"t1-2-10", P1 | P2 | P10},
                {"t01", P1 | P10},
                {"ho7", P7}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        Pinned *pinned = pinned_fresh(HAND_RIGHT);
        pinned_type(pinned, ROWS[i].keys);
        assert_true(pinned->model.typing.shot.left_said);
        assert_int_equal(pinned->model.typing.shot.left, ROWS[i].left);
        pinned_type(pinned, "\r");
        assert_int_equal(pinned->session.shot_count, 1);
        free(pinned);
    }
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "h6-10.10\r");
    assert_int_equal(pinned->session.shots[0].left, pin_bit(6) | pin_bit(10));
    assert_int_equal(pinned->session.shots[0].spare_left, pin_bit(10));
    pinned_type(pinned, "S10");
    assert_int_equal(pinned->model.spare_pins, pin_bit(10));
    free(pinned);
}

/* What was typed past a key that meant nothing may not be what was meant. */
static void refused_key_stops_the_first_enter(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "lol");
    assert_string_equal(pinned->model.message,
                        "no such key here: the last line shows those that work");
    pinned_type(pinned, "6\r");
    assert_int_equal(pinned->session.shot_count, 0);
    assert_int_equal(pinned->model.mode, MODE_ENTRY);
    assert_string_equal(pinned->model.message,
                        "a key was refused: check the line, then Enter once more");
    pinned_type(pinned, "\r");
    assert_int_equal(pinned->session.shot_count, 1);
    assert_int_equal(pinned->session.shots[0].left, pin_bit(6));
    free(pinned);
}

static void next_game_and_quit_ask(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "Gn");
    assert_int_equal(pinned->session.game, 1);
    pinned_type(pinned, "Gy");
    assert_int_equal(pinned->session.game, 2);
    pinned_type(pinned, "lq");
    assert_int_equal(pinned->model.mode, MODE_ASK);
    assert_false(pinned_press(pinned, 'n').quit);
    assert_int_equal(pinned->model.mode, MODE_ENTRY); /* what was typed is still there */
    assert_int_equal(pinned->model.typing.shot.hit, HIT_LIGHT);
    pinned_type(pinned, "q");
    assert_true(pinned_press(pinned, 'y').quit);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_true(pinned_press(pinned, 'q').quit);
    free(pinned);
}

/* A shot is put right without leaving the lane that is looked at. */
static void an_edit_leaves_the_lane_shown(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "fog\rllf0/\r");
    Side shown = pinned->model.lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    pinned_press(pinned, PRESS_TAB);
    assert_int_equal(pinned->model.lane, shown);
    pinned_type(pinned, "e\rn\r"); /* the last shot: it was on the nose */
    assert_int_equal(pinned->session.shots[pinned->session.shot_count - 1].hit, HIT_NOSE);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_int_equal(pinned->model.lane, shown);
    pinned_type(pinned, "L+81\r"); /* a frame told at the end is news of the lane */
    assert_int_equal(pinned->model.lane, pinned->session.lane);
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, PRESS_TAB);
    shown = pinned->model.lane;
    assert_true(shown != pinned->session.lane);
    pinned_type(pinned, "Lk\r"); /* put right, it is none */
    assert_int_equal(pinned->model.mode, MODE_TOLD);
    assert_string_equal(pinned->model.typed, "81");
    pinned_type(pinned, "\b\b9/\r");
    assert_int_equal(pinned->model.mode, MODE_LOG);
    assert_int_equal(pinned->session.told_count, 1);
    assert_int_equal(pinned->model.lane, shown);
    free(pinned);
}

static void what_is_over_is_said_at_once(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_type(pinned, "GyGy");
    for (int i = 0; i < 10; i++)
        pinned_type(pinned, "log4\r");
    assert_true(pinned->session.game_over);
    assert_true(pinned_press(pinned, 'f').bell);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_true(pinned_press(pinned, 'G').bell);
    free(pinned);
}

static bool shots_same(const Session *a, const Session *b)
{
    if (a->shot_count != b->shot_count || a->entry_count != b->entry_count)
        return false;
    for (int i = 0; i < a->shot_count; i++)
        if (a->shots[i].hit != b->shots[i].hit || a->shots[i].read != b->shots[i].read ||
            a->shots[i].release != b->shots[i].release || a->shots[i].left != b->shots[i].left)
            return false;
    return true;
}

/* The rest of a shot that was refused must not land anywhere else. */
static void a_refused_shot_takes_its_followers_along(void **state)
{
    (void)state;
    static const char *const TYPED[] = {"heg4/\rnog\r", "fog\r",    "hog36.6\r",
                                        "lb3og\r",      "tm17.4\r", "h[[\t\r"};
    for (size_t i = 0; i < sizeof TYPED / sizeof *TYPED; i++) {
        Pinned *pinned = pinned_fresh(HAND_RIGHT);
        pinned_type(pinned, "GyGy");
        for (int frame = 0; frame < 10; frame++)
            pinned_type(pinned, "log4\r");
        pinned_advise(pinned);
        static Session before;
        before = pinned->session;
        Plan plan = model_plan(&pinned->model);
        for (const char *at = TYPED[i]; *at; at++) {
            Effects effects = pinned_press(pinned, (unsigned char)*at);
            assert_true(effects.bell || *at == '\r'); /* each says so */
            assert_true(!effects.bell || strstr(pinned->model.message, "Esc"));
        }
        Plan after = model_plan(&pinned->model);
        assert_true(plan_same(&plan, &after));
        assert_true(shots_same(&before, &pinned->session));
        assert_int_equal(pinned->model.mode, MODE_LANE);
        pinned_press(pinned, PRESS_ESC); /* from here on keys count again */
        assert_false(pinned_press(pinned, 'e').bell);
        assert_int_equal(pinned->model.mode, MODE_PICK);
        free(pinned);
    }
}

/* After any refusal no shot begins until a key works: what it stood on may not be so. */
static void no_shot_begins_after_a_refusal(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    assert_true(pinned_press(pinned, '4').bell); /* an empty slot */
    pinned_type(pinned, "fog\r");
    assert_int_equal(pinned->session.shot_count, 0);
    pinned_press(pinned, PRESS_ESC);
    assert_true(pinned_press(pinned, '4').bell);
    assert_false(pinned_press(pinned, '3').bell); /* another one works */
    pinned_type(pinned, "fog\r");
    assert_int_equal(pinned->session.shot_count, 1);
    assert_true(pinned_press(pinned, '.').bell); /* a strike: nothing was missed */
    pinned_type(pinned, "2\r");                  /* a pin, not a ball */
    assert_int_equal(model_plan(&pinned->model).slot, 3);
    pinned_type(pinned, "u");
    assert_int_equal(pinned->session.shot_count, 0);
    pinned_type(pinned, "e");
    pinned_type(pinned, "\rt  \r"); /* there was nothing to edit: no new shot */
    assert_int_equal(pinned->session.shot_count, 0);
    free(pinned);
}

/* A notice of what was lost or kept elsewhere is read to its end. */
static void a_long_notice_is_not_cut_off(void **state)
{
    (void)state;
    static const char NOTICE[] = "line 7 of the journal can't be used (the line does not match its "
                                 "checksum): one entry is missing there, the 17 after it are kept; "
                                 "the damaged file is harvest-singles.journal.damaged-1";
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    update(&pinned->model, (Msg){.kind = MSG_NOTICE, .text = NOTICE});
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "\n line 7 of the journal can't be used (the line does not"));
    assert_non_null(strstr(screen, "harvest-singles.journal.damaged-1\n"));
    free(screen);
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = 40, .rows = 12});
    screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "harvest-singles.journal.damaged-1\n"));
    free(screen);
    free(pinned);
}

static void a_refusing_disk_stays_on_the_screen(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    update(&pinned->model, (Msg){.kind = MSG_KEPT, .text = "disk\x1b[31m full"});
    pinned_type(pinned, "xyz");
    assert_true(pinned->model.unsaved);
    char *screen = pinned_screen(&pinned->model);
    assert_non_null(strstr(screen, "NOT SAVED: disk[31m full"));
    free(screen);
    assert_false(pinned_press(pinned, 'q').quit); /* asks first */
    assert_int_equal(pinned->model.mode, MODE_ASK);
    pinned_press(pinned, 'n');
    update(&pinned->model, (Msg){.kind = MSG_KEPT, .ok = true});
    assert_false(pinned->model.unsaved);
    assert_true(pinned_press(pinned, 'q').quit);
    free(pinned);
}

static void a_small_screen_takes_no_shots(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = 39, .rows = 12});
    pinned_type(pinned, "fog\r3au");
    assert_int_equal(pinned->session.entry_count, 0);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    assert_true(pinned_press(pinned, 'q').quit);
    free(pinned);
}

static void slots_fill_in_while_answers_wait(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    Model *model = &pinned->model;
    Advice *advice = &pinned->advice;
    advice->done = false;
    advice->revision = model->asked.advice;
    update(model, (Msg){.kind = MSG_ADVICE, .advice = advice});
    assert_true(model->slot[0].now.ready && model_slot_current(model, 1));
    assert_null(model_adjustment(model, 0));
    assert_false(model_advice_current(model));
    advice->done = true;
    update(model, (Msg){.kind = MSG_ADVICE, .advice = advice});
    assert_non_null(model_adjustment(model, 0));
    assert_true(model_advice_current(model));
    free(pinned);
}

/* An answer counts for the question that it was asked for and for no other. */
static void answers_have_a_date(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Model *model = &pinned->model;
    Advice late = pinned->advice; /* the answer to a question before the next one */
    snprintf(late.adjustments[0].because, sizeof late.adjustments[0].because, "late");
    late.slot[0].line.pocket = 0.99;
    pinned_press(pinned, PRESS_LEFT);
    assert_true(model_advice_input(model).revision > late.revision);
    update(model, (Msg){.kind = MSG_ADVICE, .advice = &late});
    assert_string_not_equal(model_adjustment(model, 0)->because, "late");
    assert_false(model_advice_current(model));
    assert_false(model_slot_current(model, 1));
    /* half done: what has come is of now, the rest is still of before and says so */
    Advice half = pinned->advice;
    half.revision = model->asked.advice;
    half.done = false;
    half.slot[1].ready = half.slot[2].ready = false;
    half.slot[0].line.pocket = 0.77;
    update(model, (Msg){.kind = MSG_ADVICE, .advice = &half});
    assert_true(model_slot_current(model, 1));
    assert_near(model->slot[0].now.line.pocket, 0.77, 0);
    assert_false(model_slot_current(model, 2));
    assert_false(model_advice_current(model));
    char *screen = pinned_screen(model);
    assert_non_null(strstr(screen, "calculating…"));
    assert_non_null(strstr(screen, "now… breaks"));
    free(screen);
    free(pinned);
}

/* A ball put in another slot: nothing is shown or done by what its slot's ball did before. */
static void swapped_balls_do_not_keep_their_lines(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Model *model = &pinned->model;
    pinned_type(pinned, "3B1\033"); /* the ball in hand, Cinder Loom, goes to slot 1 */
    assert_string_equal(bag_slot(&pinned->session.bag, 3)->name, "Ash Rail");
    Plan before = model_plan(model);
    assert_true(pinned_press(pinned, '=').bell);
    Plan after = model_plan(model);
    assert_true(plan_same(&before, &after));
    assert_null(model_adjustment(model, 0));
    pinned_advise(pinned);
    pinned_type(pinned, "3=");
    assert_near(model_plan(model).stance, 30.0, 0);
    free(pinned);
}

static void sureness_stands_on_three_things(void **state)
{
    (void)state;
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    Advice *shown = &pinned->model.shown;
    shown->lane.scale_sd = 0.05;
    assert_int_equal(model_sureness(&pinned->model), 2);
    shown->adjustments[1].score = shown->adjustments[0].score - 0.001; /* no clear lead */
    assert_int_equal(model_sureness(&pinned->model), 1);
    shown->adjustments[0].vote = 0.0; /* no rule asks for it */
    assert_int_equal(model_sureness(&pinned->model), 0);
    shown->adjustments[0].vote = 0.6;
    shown->adjustments[1].score = 0.0;
    shown->lane.scale_sd = 0.3; /* the lane is hardly known */
    assert_int_equal(model_sureness(&pinned->model), 1);
    shown->lane.scale_sd = 0.05;
    shown->adjustments[0].disagrees = true;
    assert_int_equal(model_sureness(&pinned->model), 0);
    shown->adjustments[0] = shown->adjustments[2]; /* hold, while another promises far more */
    assert_int_equal(model_sureness(&pinned->model), 0);
    shown->adjustment_count = 0;
    assert_int_equal(model_sureness(&pinned->model), -1);
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_keys_and_enter_log_a_shot),
        cmocka_unit_test(every_word_has_its_key),
        cmocka_unit_test(leave_is_typed_as_pins),
        cmocka_unit_test(what_cannot_be_is_refused),
        cmocka_unit_test(the_spare_is_said_at_once_or_later),
        cmocka_unit_test(enter_at_any_part_keeps_the_usual_leave),
        cmocka_unit_test(back_and_cancel),
        cmocka_unit_test(shot_may_differ_from_the_plan),
        cmocka_unit_test(boards_that_were_seen),
        cmocka_unit_test(undo_and_redo),
        cmocka_unit_test(earlier_shot_is_edited),
        cmocka_unit_test(edit_needs_a_shot),
        cmocka_unit_test(enter_when_idle_changes_nothing),
        cmocka_unit_test(leave_is_typed_as_written),
        cmocka_unit_test(refused_key_stops_the_first_enter),
        cmocka_unit_test(next_game_and_quit_ask),
        cmocka_unit_test(an_edit_leaves_the_lane_shown),
        cmocka_unit_test(what_is_over_is_said_at_once),
        cmocka_unit_test(a_refused_shot_takes_its_followers_along),
        cmocka_unit_test(no_shot_begins_after_a_refusal),
        cmocka_unit_test(a_long_notice_is_not_cut_off),
        cmocka_unit_test(a_refusing_disk_stays_on_the_screen),
        cmocka_unit_test(a_small_screen_takes_no_shots),
        cmocka_unit_test(slots_fill_in_while_answers_wait),
        cmocka_unit_test(answers_have_a_date),
        cmocka_unit_test(swapped_balls_do_not_keep_their_lines),
        cmocka_unit_test(sureness_stands_on_three_things),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
