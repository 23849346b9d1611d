/* test_home_screens.c - the welcome, Home, its forms. */
#include "golden/helper_golden.h"

#include "ui/home_fake.h"

/* Types the keys (< > ^ v are arrows) at both sizes and compares. */
static bool learnt;
static void at_each_size(const char *name, bool empty, const char *keys)
{
    static const int SIZES[][2] = {{80, 24}, {120, 40}, {40, 12}};
    for (int i = 0; i < 3; i++) {
        Fake *fake = fake_begin(empty, SIZES[i][0], SIZES[i][1]);
        char file[64];
        assert_non_null(fake);
        if (learnt)
            fake_knows(fake);
        for (const char *at = keys; *at; at++) {
            uint32_t key = *at == '>'    ? PRESS_RIGHT
                           : *at == 'v'  ? PRESS_DOWN
                           : *at == '^'  ? PRESS_UP
                           : *at == '\n' ? '\r'
                                         : (uint32_t)*at;
            home_key(&fake->home, key);
        }
        snprintf(file, sizeof file, "home-%s-%dx%d", name, SIZES[i][0], SIZES[i][1]);
        char *screen = fake_screen(fake);
        compare_text(file, screen);
        free(screen);
        free(fake);
    }
}

static void welcome(void **state)
{
    (void)state;
    at_each_size("welcome", true, "^");
}
static void events(void **state)
{
    (void)state;
    at_each_size("events", false, "^");
}
static void bowled_with_another_bag(void **state)
{
    (void)state;
    at_each_size("others", false, "v");
}
static void learnt_line(void **state)
{
    (void)state;
    learnt = true;
    at_each_size("offers", false, "^");
    learnt = false;
}
static void learnt_page(void **state)
{
    (void)state;
    learnt = true;
    at_each_size("learnt", false, "lv");
    learnt = false;
}
static void learnt_taken(void **state)
{
    (void)state;
    learnt = true;
    at_each_size("taken", false, "l\n");
    learnt = false;
}
static void learnt_in_the_form(void **state)
{
    (void)state;
    learnt = true;
    at_each_size("put-back", false,
                 "\t\nl\n\x1b"
                 "bvvv");
    learnt = false;
}
static void learnt_nothing(void **state)
{
    (void)state;
    at_each_size("learnt-nothing", false, "l");
}
static void bags(void **state)
{
    (void)state;
    at_each_size("bags", false, "\t");
}
static void patterns(void **state)
{
    (void)state;
    at_each_size("patterns", false, "\t\t");
}
static void choosing_oil(void **state)
{
    (void)state;
    at_each_size("oil", false, "nvv\nv");
}
static void delete_asks(void **state)
{
    (void)state;
    at_each_size("delete", false, "x");
}
static void copy_asks_for_a_name(void **state)
{
    (void)state;
    at_each_size("copy", false, "c");
}
static void bag(void **state)
{
    (void)state;
    at_each_size("bag", false, "\t\nv");
}
static void bowler(void **state)
{
    (void)state;
    at_each_size("bowler", true, "svv>\n17");
}
static void measure(void **state)
{
    (void)state;
    at_each_size("measure", false, "\t\nbvvvvm");
}
static void kinds(void **state)
{
    (void)state;
    at_each_size("kinds", true, "s\tv\nvv\n");
}
static void ball(void **state)
{
    (void)state;
    at_each_size("ball", false, "\t\n\nv");
}
static void event(void **state)
{
    (void)state;
    at_each_size("event", false, "nvvvvvv17");
}
static void sheet(void **state)
{
    (void)state;
    at_each_size("sheet", false, "\t\tnBreakwater\n41\nv2L-2R 0-8 40\n10L-10R 8-36 3x50\n12R-");
}
static void sheet_refused(void **state)
{
    (void)state;
    at_each_size("sheet-refused", false, "\t\tnBreakwater\n41\nv2L-2R 0-48 40\n");
}
static void reading(void **state)
{
    (void)state;
    at_each_size("reading", false, "\t\tnTape\n41\n>\n\n8\n\n5\n5\n7\n");
}
static void refused(void **state)
{
    (void)state;
    at_each_size("refused", false, "nvvvvvv17\n");
}
static void leave(void **state)
{
    (void)state;
    at_each_size("leave", false, "n1\n\x1b");
}
static void help(void **state)
{
    (void)state;
    at_each_size("help", false, "?");
    at_each_size("search", false, "?/rename");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(welcome),
        cmocka_unit_test(events),
        cmocka_unit_test(bowled_with_another_bag),
        cmocka_unit_test(learnt_line),
        cmocka_unit_test(learnt_page),
        cmocka_unit_test(learnt_taken),
        cmocka_unit_test(learnt_in_the_form),
        cmocka_unit_test(learnt_nothing),
        cmocka_unit_test(bags),
        cmocka_unit_test(patterns),
        cmocka_unit_test(choosing_oil),
        cmocka_unit_test(delete_asks),
        cmocka_unit_test(copy_asks_for_a_name),
        cmocka_unit_test(bag),
        cmocka_unit_test(bowler),
        cmocka_unit_test(measure),
        cmocka_unit_test(kinds),
        cmocka_unit_test(ball),
        cmocka_unit_test(event),
        cmocka_unit_test(sheet),
        cmocka_unit_test(sheet_refused),
        cmocka_unit_test(reading),
        cmocka_unit_test(refused),
        cmocka_unit_test(leave),
        cmocka_unit_test(help),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
