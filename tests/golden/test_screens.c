/* test_screens.c - whole screens as text, compared with files in tests/golden.
 *
 * SETTEE_GOLDEN_UPDATE=1 writes the files again; read the difference before keeping it. */
#include "golden/helper_golden.h"

static void lane_at_each_size(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}, {40, 12}, {200, 60}};
    for (size_t i = 0; i < sizeof SIZES / sizeof *SIZES; i++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        snprintf(name, sizeof name, "lane-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

static void before_anything_is_known(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_RIGHT, 80, 24);
    compare("start-80x24", &pinned->model);
    static const Plan unknown = {0}; /* before that: its first line is not found yet */
    session_say_first(&pinned->session, &unknown);
    compare("first-80x24", &pinned->model);
    free(pinned);
}

static void hold_is_as_calm_as_a_change(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    Advice *advice = &pinned->advice;
    advice->adjustments[0] = advice->adjustments[2];
    advice->adjustment_count = 2;
    pinned_advise(pinned);
    compare("hold-80x24", &pinned->model);
    free(pinned);
}

static void left_hander_is_mirrored(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_LEFT, 80, 24);
    compare("left-80x24", &pinned->model);
    free(pinned);
}

static void ascii_has_no_other_bytes(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned->model.glyphs = &GLYPHS_ASCII;
    compare("ascii-80x24", &pinned->model);
    char *screen = pinned_screen(&pinned->model);
    for (const char *at = screen; *at; at++)
        assert_true((unsigned char)*at < 0x80);
    free(screen);
    free(pinned);
}

static void a_shot_is_typed(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned_type(pinned, "l");
    compare("typing-read-80x24", &pinned->model);
    pinned_type(pinned, "lg68");
    compare("typing-leave-80x24", &pinned->model);
    pinned_type(pinned, ".8");
    compare("typing-spare-80x24", &pinned->model);
    pinned_type(pinned, "/");
    compare("typing-spare-made-80x24", &pinned->model);
    pinned_type(pinned, "m17.4");
    compare("typing-speed-80x24", &pinned->model);
    pinned_type(pinned, "\ra12.5\rp7");
    compare("typing-breakpoint-80x24", &pinned->model);
    pinned_type(pinned, "\r\re"); /* kept; and looked at again */
    compare("pick-seen-80x24", &pinned->model);
    free(pinned);
}

static void caution_and_doubt_are_shown(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    Adjustment *adjustment = &pinned->advice.adjustments[0];
    *adjustment = pinned_adjustment(
        ADJUST_FASTER, (Plan){.slot = 1, .stance = 28.5, .aim = 14.5, .mph_change = 0.5}, 0.44,
        "More speed: +0.5 mph", "The ball reads early, and you slowed down.");
    adjustment->caution = CAUTION_SPEED;
    adjustment->disagrees = true;
    pinned_advise(pinned);
    compare("caution-80x24", &pinned->model);
    free(pinned);
}

/* Two changes in one answer: neither is cut, wherever it stands. */
static void pairs_are_shown_whole(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    Adjustment *adjustments = pinned->advice.adjustments;
    adjustments[0] = pinned_adjustment(
        ADJUST_BALL_DOWN,
        (Plan){.slot = 3, .stance = 28.5, .aim = 15.5, .rotation_change_deg = -10.0}, 0.66,
        "Ball down, 3 Cinder Loom: 0.5 in with the feet, 1.5 in with the eyes; and 10 degrees less "
        "rotation",
        "High and early: the line is drying out. Move in after the oil, or take the next ball "
        "down.");
    adjustments[0].with = ADJUST_ROTATION_LESS;
    adjustments[0].caution = CAUTION_HAND;
    pinned_advise(pinned);
    compare("pair-80x24", &pinned->model);
    Adjustment pair = adjustments[0];
    adjustments[0] = adjustments[1];
    adjustments[1] = pair;
    pinned_advise(pinned);
    compare("pair-second-80x24", &pinned->model);
    adjustments[1].kind = ADJUST_MOVE_IN;
    adjustments[1].with = ADJUST_FASTER;
    adjustments[1].plan = (Plan){.slot = 1, .stance = 31.5, .aim = 15.5, .mph_change = 0.5};
    pinned_advise(pinned);
    compare("pair-speed-80x24", &pinned->model);
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = 120, .rows = 40});
    adjustments[0] = pair;
    pinned_advise(pinned);
    compare("pair-120x40", &pinned->model);
    free(pinned);
}

/* A release that is planned otherwise than usual is seen, and so is its caution. */
static void planned_release_is_shown(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned->session.bag.bowler.rotation_least_deg = 35.0;
    pinned->session.bag.bowler.rotation_most_deg = 65.0;
    pinned_type(pinned, "-((");
    compare("release-80x24", &pinned->model);
    free(pinned);
}

/* The longest possible texts must not run into what is below. */
static void long_texts_keep_their_place(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    Adjustment *adjustment = &pinned->advice.adjustments[0];
    memset(adjustment->because, 'y', sizeof adjustment->because - 1);
    for (size_t i = 7; i < sizeof adjustment->because - 1; i += 8)
        adjustment->because[i] = ' ';
    pinned_advise(pinned);
    compare("long-80x24", &pinned->model);
    adjustment->caution = CAUTION_SURFACE;
    adjustment->disagrees = true;
    adjustment->surface_grit = 2000.0;
    adjustment->kind = ADJUST_SURFACE_FINE;
    pinned_advise(pinned);
    compare("long-caution-80x24", &pinned->model);
    free(pinned);
}

static void earlier_answer_stands_while_calculating(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned_press(pinned, PRESS_LEFT);
    compare("calculating-80x24", &pinned->model);
    free(pinned);
}

static void choosing_a_shot(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 120, 40);
    pinned_press(pinned, 'e');
    pinned_press(pinned, PRESS_DOWN);
    compare("pick-120x40", &pinned->model);
    pinned_press(pinned, PRESS_ENTER);
    compare("edit-shot-120x40", &pinned->model);
    free(pinned);
}

static void what_is_not_saved_is_said(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    update(&pinned->model, (Msg){.kind = MSG_KEPT, .text = "no space left on the device"});
    compare("unsaved-80x24", &pinned->model);
    free(pinned);
}

static void picking_up_what_is_left(void **state)
{
    (void)state;
    Pins three = pin_bit(3) | pin_bit(6) | pin_bit(10), split = pin_bit(7) | pin_bit(10);
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned_spares(pinned, three, false);
    compare("spares-80x24", &pinned->model);
    pinned_press(pinned, 'x');
    compare("spares-empty-80x24", &pinned->model);
    free(pinned);
    pinned = playing(HAND_RIGHT, 120, 40);
    pinned_spares(pinned, split, true);
    compare("spares-120x40", &pinned->model);
    free(pinned);
    pinned = playing(HAND_LEFT, 80, 24);
    pinned_spares(pinned, lane_mirror_pins(three), false);
    pinned->model.spare.line.pin = 2;
    pinned->model.spare.line.side = SPARE_LEFT_SIDE;
    compare("spares-left-80x24", &pinned->model);
    free(pinned);
}

static void help_and_question(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned_press(pinned, '?');
    compare("help-80x24", &pinned->model);
    for (int i = 0; i < 40; i++)
        pinned_press(pinned, PRESS_PAGE_DOWN);
    compare("help-end-80x24", &pinned->model);
    pinned_type(pinned, "/");
    compare("search-all-80x24", &pinned->model);
    pinned_type(pinned, "feet");
    compare("search-80x24", &pinned->model);
    pinned_type(pinned, " moon");
    compare("search-none-80x24", &pinned->model);
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, 'w');
    compare("words-80x24", &pinned->model);
    pinned_press(pinned, PRESS_ESC);
    pinned_press(pinned, 'G');
    compare("ask-80x24", &pinned->model);
    free(pinned);
    pinned = playing(HAND_RIGHT, 120, 40);
    pinned_press(pinned, '?');
    compare("help-120x40", &pinned->model);
    free(pinned);
}

static void bag_and_block_at_two_sizes(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}};
    static Arsenal arsenal;
    static Block block;
    for (int i = 0; i < 2; i++) {
        Pinned *pinned = malloc(sizeof *pinned);
        assert_non_null(pinned);
        pinned_begin(pinned, i ? HAND_LEFT : HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        Effects effects = pinned_press(pinned, 'B');
        assert_true(effects.arsenal);
        snprintf(name, sizeof name, "bag-start-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        pinned_show_arsenal(pinned, &arsenal);
        int pages = screen_bag_pages(&pinned->model);
        for (int page = 1; page <= pages; page++) {
            snprintf(name, sizeof name, "bag-%d-%dx%d", page, SIZES[i][0], SIZES[i][1]);
            compare(name, &pinned->model);
            pinned_press(pinned, '\t');
        }
        assert_int_equal(pinned->model.bag_page, 0);
        effects = pinned_press(pinned, 'K');
        assert_true(effects.block);
        pinned_show_block(pinned, &block);
        pinned_press(pinned, PRESS_DOWN);
        snprintf(name, sizeof name, "block-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        pinned_press(pinned, PRESS_ESC);
        assert_int_equal(pinned->model.mode, MODE_LANE);
        free(pinned);
    }
}

/* A surface that the bag does not say, in the list and among the ball's fields; and a ball for
 * spares. */
static void a_usual_surface_is_marked(void **state)
{
    (void)state;
    static Arsenal arsenal;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    pinned->session.event.certified = false;
    Ball *balls = pinned->session.bag.balls;
    balls[0].surface_usual = true;
    balls[3].cover = COVER_POLYESTER;
    balls[3].surface_usual = true;
    pinned_press(pinned, 'B');
    pinned_show_arsenal(pinned, &arsenal);
    compare("bag-usual-80x24", &pinned->model);
    pinned_press(pinned, '\r');
    compare("edit-usual-80x24", &pinned->model);
    free(pinned);
}

/* A ball put in a slot, its fields, what is asked, and a disk that refuses. */
static void bag_is_edited(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}};
    static Arsenal arsenal;
    for (int i = 0; i < 2; i++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        Model *model = &pinned->model;
        char name[64];
        pinned->session.event.certified = false;
        pinned_type(pinned, "B+");
        pinned_press(pinned, PRESS_DOWN);
        snprintf(name, sizeof name, "edit-kinds-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, model);
        pinned_press(pinned, PRESS_UP);
        pinned_type(pinned, "\rFern Lid\r");
        pinned_press(pinned, PRESS_ESC);
        pinned_type(pinned, "4x");
        pinned_show_arsenal(pinned, &arsenal);
        update(model, (Msg){.kind = MSG_SAVED, .ok = true, .text = "/home/q/bags/quay.json"});
        snprintf(name, sizeof name, "edit-bag-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, model);
        pinned_type(pinned, "-");
        snprintf(name, sizeof name, "edit-ask-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, model);
        pinned_type(pinned, "n");
        pinned_press(pinned, PRESS_UP);
        pinned_type(pinned, "\r");
        snprintf(name, sizeof name, "edit-ball-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, model);
        pinned_type(pinned, "17\r");
        snprintf(name, sizeof name, "edit-refused-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, model);
        free(pinned);
    }
}

static void surface_is_edited(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_RIGHT, 80, 24);
    Model *model = &pinned->model;
    model->glyphs = &GLYPHS_ASCII;
    pinned->session.event.certified = false;
    pinned_type(pinned, "B\r\r\r");
    pinned_press(pinned, PRESS_RIGHT);
    update(model, (Msg){.kind = MSG_SAVED,
                        .text = "the file changed on disk: restart settee to read it "
                                "(/home/q/bags/quay.json)"});
    compare("edit-surface-ascii-80x24", model);
    free(pinned);
    pinned = playing(HAND_RIGHT, 80, 24); /* scored, and shots were thrown */
    pinned_type(pinned, "B\r\r\r\r1000\r");
    compare("edit-scored-80x24", &pinned->model);
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lane_at_each_size),
        cmocka_unit_test(before_anything_is_known),
        cmocka_unit_test(hold_is_as_calm_as_a_change),
        cmocka_unit_test(left_hander_is_mirrored),
        cmocka_unit_test(ascii_has_no_other_bytes),
        cmocka_unit_test(a_shot_is_typed),
        cmocka_unit_test(caution_and_doubt_are_shown),
        cmocka_unit_test(pairs_are_shown_whole),
        cmocka_unit_test(planned_release_is_shown),
        cmocka_unit_test(long_texts_keep_their_place),
        cmocka_unit_test(earlier_answer_stands_while_calculating),
        cmocka_unit_test(choosing_a_shot),
        cmocka_unit_test(what_is_not_saved_is_said),
        cmocka_unit_test(picking_up_what_is_left),
        cmocka_unit_test(help_and_question),
        cmocka_unit_test(bag_and_block_at_two_sizes),
        cmocka_unit_test(bag_is_edited),
        cmocka_unit_test(a_usual_surface_is_marked),
        cmocka_unit_test(surface_is_edited),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
