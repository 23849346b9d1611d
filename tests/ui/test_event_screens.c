/* test_event_screens.c - the keys of the screens beside the lane: the oil, what if. */
#include "near.h"

#include "ui/draw/rolling.h"
#include "ui/input/commands.h"
#include "ui/input/update.h"
#include "ui/pinned_bag.h"

static Pinned *begin(void)
{
    Pinned *pinned = pinned_fresh(HAND_RIGHT);
    pinned_play(pinned);
    pinned_advise(pinned);
    return pinned;
}

static void shows(const Pinned *pinned, const char *text)
{
    char *screen = pinned_screen(&pinned->model);
    if (!strstr(screen, text))
        fail_msg("no \"%s\" on\n%s", text, screen);
    free(screen);
}

static void the_cut_moves_and_stays_on_the_lane(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "O");
    shows(pinned, "Across at 25 ft");
    pinned_press(pinned, PRESS_UP);
    shows(pinned, "Across at 26 ft");
    pinned_press(pinned, PRESS_PAGE_DOWN);
    shows(pinned, "Across at 21 ft");
    for (int i = 0; i < 20; i++)
        pinned_press(pinned, PRESS_PAGE_DOWN);
    shows(pinned, "Across at 0 ft");
    for (int i = 0; i < 20; i++)
        pinned_press(pinned, PRESS_PAGE_UP);
    shows(pinned, "Across at 60 ft");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    pinned_type(pinned, "O"); /* where it was left */
    shows(pinned, "Across at 60 ft");
    free(pinned);
}

/* Each lane has a film of its own: the other one is asked for, and marked until it comes. */
static void the_other_lane_has_its_own_oil(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "O");
    Effects effects = pinned_press(pinned, '\t');
    assert_true(effects.advise);
    assert_int_equal(pinned->model.mode, MODE_OIL);
    shows(pinned, "lane 17 left");
    shows(pinned, "calculating…");
    pinned_advise(pinned);
    shows(pinned, "93 ± 10%");
    free(pinned);
}

/* What the screen says of the sheet is what settee oil says: measured by oil.h on the pattern. */
static void the_sheet_is_measured(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Oil sheet;
    char text[64];
    pinned_type(pinned, "O");
    oil_lay(&pinned->session.pattern, &sheet);
    snprintf(text, sizeof text, "sheet    %.1f mL  %.1f ft    %.1f:1", oil_volume_ml(&sheet),
             oil_length_ft(&sheet), oil_ratio(&sheet));
    shows(pinned, text);
    shows(pinned, "Rule of 31: 41 ft less 31");
    pinned->model.shown.film.units[98][20] = 1.0; /* 49 ft: the pattern is no longer by it */
    shows(pinned, "41.0 ft");
    shows(pinned, "ratio carried to");
    shows(pinned, "2.5:1      49 ft");
    pinned->session.pattern.length_ft = 30.0;
    shows(pinned, "30 ft is too short for it");
    free(pinned);
}

/* What if: answers come for a shot that was never thrown, and the session stays as it was, to the
 * last byte. */
static void what_if_keeps_nothing(void **state)
{
    (void)state;
    static Session before;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned_press(pinned, PRESS_LEFT); /* moves that are not entered yet count, and stay so */
    pinned_advise(pinned);
    Plan plan = model_plan(model);
    before = pinned->session;
    bool kept = false, asked = false;
    for (const char *key = "Whegm17\r47\r"; *key; key++) {
        Effects effects = pinned_press(pinned, (unsigned char)*key);
        kept |= effects.keep;
        asked |= effects.advise;
    }
    assert_int_equal(model->mode, MODE_SUPPOSE);
    assert_true(asked && !kept);
    AdviceInput input = model_advice_input(model);
    assert_int_equal(input.shot_count, before.shot_count + 1);
    assert_int_equal(input.shots[before.shot_count].hit, HIT_HIGH);
    assert_int_equal(input.shots[before.shot_count].left, pin_bit(4) | pin_bit(7));
    assert_true(input.shots[before.shot_count].mph == 17.0);
    assert_true(input.shots[before.shot_count].ball[0]); /* it names its ball as any shot does */
    assert_int_equal(input.lane, SIDE_RIGHT);
    assert_true(plan_same(&input.plan, &plan));
    shows(pinned, "What if: nothing of this is kept");
    shows(pinned, "What if: throw");
    pinned_advise(pinned);
    shows(pinned, "Ball down");

    pinned_type(pinned, "Wle"); /* another, dropped half-way: the first is still supposed */
    shows(pinned, "What if");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(model->mode, MODE_SUPPOSE);
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(model->mode, MODE_LANE);
    assert_memory_equal(&before, &pinned->session, sizeof before);
    input = model_advice_input(model);
    assert_ptr_equal(input.shots, pinned->session.shots);
    assert_int_equal(input.shot_count, before.shot_count);
    Plan after = model_plan(model);
    assert_true(plan_same(&after, &plan));
    free(pinned);
}

/* No answer of the one is ever shown as an answer of the other. */
static void what_if_and_what_was_are_told_apart(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    pinned->advice.adjustments[0].kind = ADJUST_MOVE_IN;
    pinned_type(pinned, "Whe\r");
    char *screen = pinned_screen(model);
    assert_null(strstr(screen, "Ball down"));
    assert_non_null(strstr(screen, "calculating…"));
    free(screen);
    pinned_advise(pinned);
    shows(pinned, "Move in");
    pinned_press(pinned, PRESS_ESC);
    shows(pinned, "Ball down"); /* what was shown before, while it is asked for again */
    shows(pinned, "calculating…");
    Effects effects = pinned_press(pinned, 'a');
    assert_true(effects.bell && !effects.keep);
    free(pinned);
}

static void what_cannot_be_is_not_supposed(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "W\r");
    assert_int_equal(pinned->model.mode, MODE_ENTRY);
    shows(pinned, "neither hit nor leave");
    pinned_press(pinned, PRESS_ESC);
    assert_int_equal(pinned->model.mode, MODE_LANE);
    Effects effects = pinned_press(pinned, 'W');
    effects = pinned_press(pinned, 'q'); /* nothing would be lost */
    assert_true(effects.quit);
    free(pinned);
}

/* A whole frame on a phone: every key does there what it does on a large screen. */
static void a_phone_logs_as_a_large_screen_does(void **state)
{
    (void)state;
    static const char *const KEYS[] = {"h",    "e", "g",  "47", "\r", ".",    "7",  "\r",      "[",
                                       "<",    "2", "=",  "p",  "\t", "l",    "o",  "m17.4\r", "b3",
                                       "\r",   "u", "U",  "e",  "\r", "x",    "\r", "-",       "k",
                                       "a",    "S", "10", "b",  "x",  "\x1b", "W",  "h",       "\r",
                                       "\x1b", "G", "y",  "/",  "?",  "w",    "q"};
    Pinned *large = begin(), *phone = begin();
    update(&phone->model, (Msg){.kind = MSG_SIZE, .columns = 40, .rows = 12});
    for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++) {
        pinned_type(large, KEYS[i]);
        pinned_type(phone, KEYS[i]);
        assert_int_equal(large->model.mode, phone->model.mode);
        assert_string_equal(large->model.message, phone->model.message);
    }
    assert_true(large->session.entry_count > 8);
    assert_int_equal(large->session.entry_count, phone->session.entry_count);
    assert_memory_equal(large->session.entries, phone->session.entries,
                        (size_t)large->session.entry_count * sizeof(Entry));
    free(large);
    free(phone);
}

/* On a small screen the bag's pages follow the chosen ball, and work as on a large one. */
static void the_bag_on_a_phone(void **state)
{
    (void)state;
    static Arsenal arsenal;
    Pinned *pinned = begin();
    pinned->session.event.certified = false;
    pinned_type(pinned, "B");
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = 40, .rows = 12});
    pinned_show_arsenal(pinned, &arsenal);
    int balls = pinned->session.bag.count;
    pinned->model.bag_page = 1;
    shows(pinned, "first out on fresh oil");
    pinned_press(pinned, PRESS_DOWN);
    assert_int_equal(pinned->model.bag_page, 1);
    shows(pinned, "in reserve: adds little");
    pinned_type(pinned, "+\r");
    assert_int_equal(pinned->session.bag.count, balls + 1);
    shows(pinned, "Copied to the locker: now give it a");
    shows(pinned, "\n name");
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, PRESS_ESC);
    shows(pinned, "lane 18 R");
    free(pinned);
}

/* What another program logged is taken over at once, but not while a shot is supposed. */
static void an_event_is_followed(void **state)
{
    (void)state;
    Pinned *pinned = begin(), *other = begin();
    Model *model = &pinned->model;
    model->read_only = true;
    pinned_press(pinned, PRESS_LEFT); /* only tried */
    pinned_type(pinned, "L");
    pinned_type(other, "fogx\r");
    assert_true(model_may_follow(model));
    Effects effects = update(model, (Msg){.kind = MSG_FOLLOW, .session = &other->session});
    assert_true(effects.advise && effects.draw && !effects.keep && !effects.save_bag);
    assert_int_equal(pinned->session.entry_count, other->session.entry_count);
    assert_int_equal(model->lane, other->session.lane);
    assert_false(model->draft_on);
    assert_int_equal(model->mode, MODE_LOG);
    assert_true(update_log_at_end(model));
    pinned_press(pinned, PRESS_ESC);
    shows(pinned, "follows, read-only");
    update(model, (Msg){.kind = MSG_SIZE, .columns = 40, .rows = 12});
    shows(pinned, "Follows another settee, read-only");
    pinned_type(pinned, "W");
    assert_false(model_may_follow(model));
    pinned_type(pinned, "?"); /* the help over it */
    assert_false(model_may_follow(model));
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, PRESS_ESC);
    assert_true(model_may_follow(model));
    /* a bag with a ball less is another bag: what named its balls is asked for again */
    other->session.bag.count--;
    pinned_type(pinned, "B");
    effects = update(model, (Msg){.kind = MSG_FOLLOW, .session = &other->session});
    assert_true(effects.arsenal && effects.advise && !effects.save_bag);
    free(pinned);
    free(other);
}

/* The keys of every day stand on the screen, at its least size too. */
static void the_keys_that_matter_are_shown(void **state)
{
    (void)state;
    static const char *const KEYS[] = {
        "B bag",    "K block",   "S spares", "G game", "p both",   "O oil",  "L log",  "/ made",
        ". missed", "W what if", "? help",   "q quit", "Tab lane", "u undo", "e edit", "a take"};
    Pinned *pinned = begin();
    for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++)
        shows(pinned, KEYS[i]);
    free(pinned);
}

static void caps_lock_is_told(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned_type(pinned, "H");
    assert_string_equal(pinned->model.message, "");
    pinned_type(pinned, "E");
    shows(pinned, "Caps Lock?");
    pinned_type(pinned, "h"); /* it is off again */
    pinned_type(pinned, "E");
    assert_null(strstr(pinned->model.message, "Caps Lock"));
    pinned_type(pinned, "O"); /* while a shot is typed too */
    shows(pinned, "Caps Lock?");
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "f");
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "BT"); /* capitals that mean something say nothing */
    assert_null(strstr(pinned->model.message, "Caps Lock"));
    free(pinned);
}

static void the_score_and_what_it_takes(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    pinned_type(pinned, "fog\rfog\rllg0/\r");
    shows(pinned, "49, best 279"); /* 29 and 20; with the spare 20 more, then seven times 30 */
    pinned_type(pinned, "Lt200\r\x1b");
    Score score;
    char words[32];
    assert_true(session_score(&pinned->session, 1, &score));
    snprintf(words, sizeof words, "200: %d marks", score_need(&score, 200).marks);
    shows(pinned, words);
    free(pinned);
}

static void pass(Pinned *pinned, int milliseconds)
{
    update(&pinned->model, (Msg){.kind = MSG_TICK, .milliseconds = milliseconds});
}

/* In real time: after a second and a half at 17 mph it is 1.5 x 17 x 1.4667 ft down the lane. */
static void the_planned_ball_rolls(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    Model *model = &pinned->model;
    for (int i = 0; i < ROLL_POINTS_MAX; i++)
        model->path.path[i].mph = 17.0;
    pinned_type(pinned, "R");
    assert_int_equal(model->mode, MODE_ROLL);
    shows(pinned, "0.0 s, 0 ft, 17.0 mph");
    pass(pinned, 1000);
    pass(pinned, 500);
    shows(pinned, "1.5 s, 37 ft, 17.0 mph");
    assert_true(rolling_seconds(&model->path) > 60.0 / (17.0 * 5280.0 / 3600.0) - 1e-6);
    assert_true(rolling_seconds(&model->path) < 60.0 / (17.0 * 5280.0 / 3600.0) + 1e-6);
    pass(pinned, 1500);
    shows(pinned, "2.4 s, 60 ft");
    pass(pinned, 1000);
    assert_int_equal(model->mode, MODE_LANE);
    pinned_type(pinned, "Rf"); /* a key ends it, and works */
    assert_int_equal(model->mode, MODE_ENTRY);
    assert_int_equal(model->typing.shot.hit, HIT_FLUSH);
    pass(pinned, 50); /* a tick that comes late does nothing */
    assert_int_equal(model->mode, MODE_ENTRY);
    free(pinned);
}

static void nothing_moves_where_motion_is_off(void **state)
{
    (void)state;
    Pinned *pinned = begin();
    pinned->model.still = true;
    for (int i = 0; i < ROLL_POINTS_MAX; i++)
        pinned->model.path.path[i].mph = 17.0;
    pinned_type(pinned, "R");
    assert_int_equal(pinned->model.mode, MODE_LANE);
    shows(pinned, "2.4 s to the pins; motion is off");
    Effects effects = pinned_press(pinned, 'M');
    assert_true(effects.motion && !pinned->model.still);
    shows(pinned, "Motion is on");
    pinned->model.still = pinned->model.still_fixed = true;
    effects = pinned_press(pinned, 'M');
    assert_true(!effects.motion && pinned->model.still);
    pinned->model.still = false;
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = 60, .rows = 20});
    pinned_type(pinned, "R"); /* there is no lane to roll on */
    assert_int_equal(pinned->model.mode, MODE_LANE);
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_cut_moves_and_stays_on_the_lane),
        cmocka_unit_test(the_other_lane_has_its_own_oil),
        cmocka_unit_test(the_sheet_is_measured),
        cmocka_unit_test(what_if_keeps_nothing),
        cmocka_unit_test(what_if_and_what_was_are_told_apart),
        cmocka_unit_test(what_cannot_be_is_not_supposed),
        cmocka_unit_test(a_phone_logs_as_a_large_screen_does),
        cmocka_unit_test(the_bag_on_a_phone),
        cmocka_unit_test(an_event_is_followed),
        cmocka_unit_test(the_keys_that_matter_are_shown),
        cmocka_unit_test(caps_lock_is_told),
        cmocka_unit_test(the_score_and_what_it_takes),
        cmocka_unit_test(the_planned_ball_rolls),
        cmocka_unit_test(nothing_moves_where_motion_is_off),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
