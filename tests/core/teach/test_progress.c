/* test_progress.c - what a junior did, in written rows, and what a coach reads of it. No source
 * outside: counted by hand. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/teach/coach.h"

static Lesson LESSONS[5];
static Junior JUNIOR;

static int set_up(void **state)
{
    (void)state;
    static const struct {
        const char *id;
        int level, order;
        Skill skill;
    } ROWS[5] = {{"a", 1, 1, SKILL_FEET},
                 {"b", 1, 2, SKILL_AIM},
                 {"c", 1, 3, SKILL_AIM},
                 {"d", 2, 1, SKILL_SPEED},
                 {"e", 2, 2, SKILL_AIM}};
    memset(LESSONS, 0, sizeof LESSONS);
    for (int i = 0; i < 5; i++) {
        LESSONS[i].level = ROWS[i].level;
        LESSONS[i].order = ROWS[i].order;
        LESSONS[i].skill = ROWS[i].skill;
        strcpy(LESSONS[i].id, ROWS[i].id);
        strcpy(LESSONS[i].name, ROWS[i].id);
    }
    JUNIOR = (Junior){.name = "Ola", .hand = HAND_LEFT};
    return 0;
}

static void did(const char *lesson, int level, Skill skill, int looked, int chose, int hints)
{
    Play play = {.level = level, .skill = skill, .looked = looked, .chose = chose, .hints = hints};
    strcpy(play.lesson, lesson);
    play.fresh = strcmp(lesson, "question") == 0;
    junior_add_play(&JUNIOR, &play);
}

static void next_is(int lesson, int level, const char *why)
{
    NextStep next = junior_next(&JUNIOR, LESSONS, 5);
    assert_int_equal(next.lesson, lesson);
    assert_int_equal(next.level, level);
    if (!strstr(next.why, why))
        fail_msg("\"%s\" does not hold \"%s\"", next.why, why);
}

static void goes_on_in_order(void **state)
{
    (void)state;
    bool at_once;
    next_is(0, 1, "it comes next");
    did("a", 1, SKILL_FEET, 1, 1, 0);
    assert_true(junior_did(&JUNIOR, "a", &at_once) && at_once);
    assert_false(junior_did(&JUNIOR, "b", &at_once) || at_once);
    next_is(1, 1, "it comes next");
    did("b", 1, SKILL_AIM, 1, 1, 0);
    did("c", 1, SKILL_AIM, 0, 1, 0); /* nothing was asked of the shot */
    assert_int_equal(junior_finished(&JUNIOR, LESSONS, 5, 1), 3);
    next_is(-1, 1, "level 1 is done but for its question");
    did("question", 1, SKILL_AIM, 1, 2, 0); /* answered at the second try: not passed */
    assert_false(junior_passed(&JUNIOR, 1));
    next_is(-1, 1, "question");
    did("question", 1, SKILL_AIM, 1, 1, 0);
    assert_true(junior_passed(&JUNIOR, 1));
    next_is(3, 2, "it comes next");
    assert_int_equal(junior_finished(&JUNIOR, LESSONS, 5, 1), 3); /* questions are no lessons */
}

static void where_they_hesitate(void **state)
{
    (void)state;
    SkillTally tally[SKILL_COUNT];
    did("a", 1, SKILL_FEET, 2, 1, 0);
    did("b", 1, SKILL_AIM, 2, 3, 1);
    junior_tally(&JUNIOR, tally);
    assert_int_equal(tally[SKILL_AIM].plays, 1);
    assert_int_equal(tally[SKILL_AIM].at_once, 0);
    assert_int_equal(tally[SKILL_AIM].looked_wrong, 1);
    assert_int_equal(tally[SKILL_AIM].chose_wrong, 2);
    assert_int_equal(tally[SKILL_AIM].hints, 1);
    assert_int_equal(tally[SKILL_SPEED].plays, 0);
    next_is(1, 1, "hesitated 4 times in 1 lesson about where to aim");
    did("b", 1, SKILL_AIM, 1, 1, 0);
    next_is(2, 1, "hesitated 4 times in 2 lessons about where to aim");
    did("c", 1, SKILL_AIM, 1, 1, 0); /* still the most, but every such lesson has gone right */
    next_is(-1, 1, "question");
}

static void the_oldest_goes_when_it_is_full(void **state)
{
    (void)state;
    did("a", 1, SKILL_FEET, 1, 1, 0);
    for (int i = 0; i < PLAYS_MAX; i++)
        did("b", 1, SKILL_AIM, 1, 1, 0);
    bool at_once;
    assert_int_equal(JUNIOR.play_count, PLAYS_MAX);
    assert_false(junior_did(&JUNIOR, "a", &at_once));
}

static char page[4096];

static void add_line(void *context, CoachLine kind, const char *text)
{
    (void)context;
    if (kind != COACH_SENTENCE)
        assert_true(text_length(text) <= COACH_COLUMNS);
    text_append(page, sizeof page, "%s\n", text);
}

static void the_coach_reads_it(void **state)
{
    (void)state;
    page[0] = '\0';
    did("a", 1, SKILL_FEET, 1, 1, 0);
    did("b", 1, SKILL_AIM, 2, 3, 1);
    coach_page(&JUNIOR, LESSONS, 5, add_line, NULL);
    static const char *const LINES[] = {
        "Ola: left hand, a straight ball\n",
        "1  Boards and arrows                 2 of  3        1  not yet\n",
        "2  Move toward the miss              0 of  2        0  not yet\n",
        "where to aim                1        0             1            2      1\n",
        "where to stand              1        1             0            0      0\n",
        "Next: \"b\" (b), level 1: hesitated 4 times in 1 lesson about where to aim.\n"};
    for (size_t i = 0; i < sizeof LINES / sizeof *LINES; i++)
        if (!strstr(page, LINES[i]))
            fail_msg("the page lacks\n%s\n%s", LINES[i], page);
}

/* Of who has done nothing yet there is nothing to tell but what comes first; a skill is told of
 * whatever others were passed over. */
static void the_first_page_and_a_later_one(void **state)
{
    (void)state;
    page[0] = '\0';
    coach_page(&JUNIOR, LESSONS, 5, add_line, NULL);
    assert_null(strstr(page, "looked wrong"));
    assert_non_null(strstr(page, "Next: \"a\" (a), level 1: "));
    page[0] = '\0';
    did("a", 1, (Skill)(SKILL_COUNT - 1), 1, 1, 0);
    coach_page(&JUNIOR, LESSONS, 5, add_line, NULL);
    int rows = 0, told[5] = {-1, -1, -1, -1, -1};
    for (int i = 0; i < SKILL_COUNT; i++) {
        char begins[64];
        snprintf(begins, sizeof begins, "\n%-21s ", SKILL_WORDS[i]);
        const char *row = strstr(page, begins);
        rows += row != NULL;
        if (row && i == SKILL_COUNT - 1)
            assert_int_equal(sscanf(row + strlen(begins), "%d%d%d%d%d", &told[0], &told[1],
                                    &told[2], &told[3], &told[4]),
                             5);
    }
    assert_int_equal(rows, 1);
    for (int i = 0; i < 5; i++) /* finished, at once; looked wrong, chose wrong, hints */
        assert_int_equal(told[i], i < 2);
}

static void lessons_are_sorted(void **state)
{
    (void)state;
    Lesson kept = LESSONS[0];
    LESSONS[0] = LESSONS[4];
    LESSONS[4] = kept;
    strcpy(LESSONS[2].name, "Z");
    LESSONS[2].order = 2; /* beside b */
    lessons_sort(LESSONS, 5);
    static const char *const IDS[] = {"a", "c", "b", "d", "e"}; /* "Z" before "b" */
    for (int i = 0; i < 5; i++)
        assert_string_equal(LESSONS[i].id, IDS[i]);
}

#define TEST(name) cmocka_unit_test_setup(name, set_up)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(goes_on_in_order),
                                       TEST(where_they_hesitate),
                                       TEST(the_oldest_goes_when_it_is_full),
                                       TEST(the_coach_reads_it),
                                       TEST(the_first_page_and_a_later_one),
                                       TEST(lessons_are_sorted)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
