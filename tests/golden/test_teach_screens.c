/* test_teach_screens.c - the lessons' screens. */
#include "golden/helper_golden.h"

#include <stdio.h>

#include "ui/school.h"

static bool ascii_only;

/* A junior who has done a few lessons, and what is typed then. */
static void shot(const char *name, int columns, int rows, Hand hand, const char *keys)
{
    char typed[128] = "\r", file[64];
    school_begin(columns, rows);
    fake.ascii = ascii_only;
    school.juniors.count = 1;
    Junior *junior = &school.juniors.all[0];
    *junior = (Junior){.name = "Kai", .hand = hand};
    static const Play PLAYS[] = {{"three-for-one", 1, SKILL_FEET, false, 1, 1, 0},
                                 {"too-far-out", 1, SKILL_FEET, false, 2, 2, 0},
                                 {"small-moves", 1, SKILL_FEET, false, 1, 1, 1},
                                 {"your-arrow", 1, SKILL_AIM, false, 1, 1, 0}};
    for (size_t i = 0; i < sizeof PLAYS / sizeof *PLAYS; i++)
        junior_add_play(junior, &PLAYS[i]);
    text_append(typed, sizeof typed, "%s", keys);
    school_type(typed);
    snprintf(file, sizeof file, "teach-%s-%dx%d", name, columns, rows);
    compare_text(file, fake.screen);
}

static const int SIZES[][2] = {{80, 24}, {120, 40}};

static void names(void **state)
{
    (void)state;
    school_begin(80, 24);
    school_type("Ida<");
    compare_text("teach-new-80x24", fake.screen);
    school_begin(80, 24);
    school_type("Ida<\r~nKai\r~");
    compare_text("teach-names-80x24", fake.screen);
}

static void the_list(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++)
        shot("list", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "");
}

/* The next to do is "You stand too far outside": its third answer and its second choice are right.
 */
static void a_lesson(void **state)
{
    (void)state;
    for (int i = 0; i < 2; i++) {
        shot("look", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "\r");
        shot("ask", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "\r\r2");
        shot("choose", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "\r\r3h");
        shot("wrong", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "\r\r31");
        shot("why", SIZES[i][0], SIZES[i][1], HAND_RIGHT, "\r\r32\r");
    }
    shot("left", 80, 24, HAND_LEFT, "\r\r31");
}

static void three_shots_a_spare_and_a_score(void **state)
{
    (void)state;
    shot("three", 80, 24, HAND_RIGHT, "vvvvvvvvvvvvvvvvvvvvvvvv\r\r\r\r");
    shot("spare", 80, 24, HAND_LEFT, "vvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvv\r1");
    shot("score", 80, 24, HAND_RIGHT, "vvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvvv\r1");
}

static void pages(void **state)
{
    (void)state;
    shot("coach", 80, 24, HAND_RIGHT, "c");
    shot("help", 80, 24, HAND_RIGHT, "?");
    shot("search", 80, 24, HAND_RIGHT, "?/hint");
}

static void in_ascii(void **state)
{
    (void)state;
    ascii_only = true;
    shot("ascii", 80, 24, HAND_RIGHT, "\r\r31");
    ascii_only = false;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(names),    cmocka_unit_test(the_list),
        cmocka_unit_test(a_lesson), cmocka_unit_test(three_shots_a_spare_and_a_score),
        cmocka_unit_test(pages),    cmocka_unit_test(in_ascii)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
