/* test_event_screens.c - the screens beside the lane: the oil. */
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

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(oil_at_each_size),
        cmocka_unit_test(oil_of_a_left_hander_in_ascii),
        cmocka_unit_test(what_if_is_marked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
