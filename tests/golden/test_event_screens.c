/* test_event_screens.c - the screens beside the lane (oil, log), what if, the compact view. */
#include "golden/helper_golden.h"

static void oil_at_each_size(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}, {200, 60}};
    for (int i = 0; i < 3; i++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        pinned_type(pinned, "O");
        assert_int_equal(pinned->model.mode, MODE_OIL);
        snprintf(name, sizeof name, "oil-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

static void oil_of_a_left_hander_in_ascii(void **state)
{
    (void)state;
    Pinned *pinned = playing(HAND_LEFT, 80, 24);
    pinned->model.glyphs = &GLYPHS_ASCII;
    pinned_type(pinned, "O");
    pinned_press(pinned, PRESS_PAGE_UP);
    pinned_press(pinned, PRESS_UP);
    compare("oil-left-ascii-80x24", &pinned->model);
    free(pinned);
}

static void what_if_is_marked(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}};
    for (int i = 0; i < 2; i++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        pinned_type(pinned, "Whe");
        snprintf(name, sizeof name, "suppose-typing-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        pinned_type(pinned, "g47\r");
        if (i == 0)
            compare("suppose-calculating-80x24", &pinned->model);
        pinned_advise(pinned);
        snprintf(name, sizeof name, "suppose-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

/* A phone's size: the answer, the line where a shot is typed, the last shots. */
static void compact_view(void **state)
{
    (void)state;
    static const struct {
        const char *keys, *name;
    } STATES[] = {{"l", "compact-read-40x12"},
                  {"lg68", "compact-leave-40x12"},
                  {".8", "compact-spare-40x12"},
                  {"\x1blogm17", "compact-speed-40x12"},
                  {"\x1b\x1b?", "compact-help-40x12"},
                  {"/spare m", "compact-search-40x12"},
                  {"\x1b", "compact-help-40x12"},
                  {"\x1b"
                   "G",
                   "compact-ask-40x12"},
                  {"ne", "compact-pick-40x12"},
                  {"\r", "compact-edit-40x12"},
                  {"\x1bO", "compact-oil-40x12"}};
    Pinned *pinned = playing(HAND_RIGHT, 40, 12);
    for (size_t i = 0; i < sizeof STATES / sizeof *STATES; i++) {
        pinned_type(pinned, STATES[i].keys);
        compare(STATES[i].name, &pinned->model);
    }
    free(pinned);
    pinned = playing(HAND_RIGHT, 40, 12);
    pinned->advice.adjustments[0].caution = CAUTION_SURFACE;
    pinned->advice.adjustments[0].surface_grit = 2000.0;
    pinned_type(pinned, "-");
    pinned_advise(pinned);
    compare("compact-caution-40x12", &pinned->model);
    free(pinned);
    pinned = playing(HAND_RIGHT, 40, 12);
    pinned_spares(pinned, pin_bit(3) | pin_bit(6) | pin_bit(10), false);
    compare("compact-spares-40x12", &pinned->model);
    free(pinned);
    pinned = playing(HAND_LEFT, 60, 20);
    pinned->model.glyphs = &GLYPHS_ASCII;
    compare("compact-left-ascii-60x20", &pinned->model);
    free(pinned);
    static Block block;
    pinned = playing(HAND_RIGHT, 40, 12);
    pinned_type(pinned, "K");
    pinned_show_block(pinned, &block);
    compare("compact-block-40x12", &pinned->model);
    free(pinned);
    pinned = playing(HAND_RIGHT, 39, 12);
    compare("small-39x12", &pinned->model);
    free(pinned);
}

/* The bag and a ball's fields, at a phone's sizes. */
static void compact_bag(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{40, 12}, {60, 20}};
    static Arsenal arsenal;
    for (int i = 0; i < 2; i++) {
        Pinned *pinned = playing(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        pinned->session.event.certified = false;
        pinned_type(pinned, "B+");
        pinned_press(pinned, PRESS_DOWN);
        if (i == 0)
            compare("compact-kinds-40x12", &pinned->model);
        pinned_press(pinned, PRESS_UP);
        pinned_type(pinned, "\rFern Lid\r");
        pinned_press(pinned, PRESS_ESC);
        for (int up = 0; up < 4; up++)
            pinned_press(pinned, PRESS_UP);
        pinned_show_arsenal(pinned, &arsenal);
        pinned->model.arsenal_surfaces = true;
        int pages = screen_bag_pages(&pinned->model);
        assert_int_equal(pages, 6);
        for (int page = 1; page <= pages; page++) {
            snprintf(name, sizeof name, "compact-bag-%d-%dx%d", page, SIZES[i][0], SIZES[i][1]);
            compare(name, &pinned->model);
            pinned_press(pinned, '\t');
        }
        pinned_press(pinned, '\r');
        pinned_press(pinned, '\r');
        pinned_press(pinned, '\r');
        snprintf(name, sizeof name, "compact-ball-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

/* A game with spares, fouls, and frames of which only the pins are known. */
static Pinned *logged(Hand hand, int columns, int rows)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, hand, columns, rows);
    pinned_type(pinned, "fog\rllf0/\rheg4.4\rcei3610./\rhegF.710\rtog1.F\r");
    pinned_type(pinned, "L+81\r+x\r");
    return pinned;
}

static void log_at_each_size(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}, {40, 12}, {200, 60}};
    for (int i = 0; i < 4; i++) {
        Pinned *pinned = logged(HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        snprintf(name, sizeof name, "log-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

static void log_is_changed_in_place(void **state)
{
    (void)state;
    Pinned *pinned = logged(HAND_LEFT, 80, 24);
    pinned->model.glyphs = &GLYPHS_ASCII;
    pinned_type(pinned, "kk\r");
    compare("log-told-ascii-80x24", &pinned->model);
    pinned_type(pinned, "\x1bkk\rfeg");
    compare("log-edit-ascii-80x24", &pinned->model);
    pinned_type(pinned, "\x1bt170\r");
    compare("log-target-ascii-80x24", &pinned->model);
    pinned_press(pinned, PRESS_ESC);
    pinned_type(pinned, "GyL");
    pinned_press(pinned, PRESS_LEFT);
    pinned_type(pinned, "\r");
    compare("log-ask-ascii-80x24", &pinned->model);
    free(pinned);
}

static void a_ball_on_its_way(void **state)
{
    (void)state;
    static const int SIZES[][2] = {{80, 24}, {120, 40}};
    for (int i = 0; i < 2; i++) {
        Pinned *pinned = playing(i ? HAND_LEFT : HAND_RIGHT, SIZES[i][0], SIZES[i][1]);
        char name[64];
        for (int k = 0; k < ROLL_POINTS_MAX; k++)
            pinned->model.path.path[k].mph = 17.0;
        pinned_type(pinned, "R");
        update(&pinned->model, (Msg){.kind = MSG_TICK, .milliseconds = 1900});
        snprintf(name, sizeof name, "roll-%dx%d", SIZES[i][0], SIZES[i][1]);
        compare(name, &pinned->model);
        free(pinned);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(oil_at_each_size),  cmocka_unit_test(oil_of_a_left_hander_in_ascii),
        cmocka_unit_test(what_if_is_marked), cmocka_unit_test(compact_view),
        cmocka_unit_test(compact_bag),       cmocka_unit_test(a_ball_on_its_way),
        cmocka_unit_test(log_at_each_size),  cmocka_unit_test(log_is_changed_in_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
