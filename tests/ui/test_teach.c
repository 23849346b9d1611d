/* test_teach.c - the lessons' stage: a name is given, lessons are played right and wrong, hints are
 * counted, what was done is kept. No source outside. */
#include "ui/school.h"

#include "base/rng.h"

static void school_shows(const char *text)
{
    if (!strstr(fake.screen, text))
        fail_msg("the screen lacks \"%s\"\n%s", text, fake.screen);
}

static int set_up(void **state)
{
    (void)state;
    school_begin(80, 24);
    return 0;
}

static const Play *last_play(void)
{
    const Junior *junior = &school.juniors.all[0];
    assert_true(junior->play_count > 0);
    return &junior->plays[junior->play_count - 1];
}

static void a_name_is_given(void **state)
{
    (void)state;
    school_type("");
    school_shows("Lessons: a new name");
    school_type("\r"); /* none was typed */
    school_shows("Type a name first");
    assert_int_equal(fake.bells, 1);
    assert_int_equal(school.juniors.count, 0);
    school_type("Kaj\x7fi <^\r");
    assert_int_equal(school.juniors.count, 1);
    assert_string_equal(school.juniors.all[0].name, "Kai");
    assert_int_equal(school.juniors.all[0].hand, HAND_LEFT);
    assert_true(school.juniors.all[0].hook);
    assert_int_equal(school.kept, 1);
    school_shows("One board of feet is three at the pins");
    school_type("nKai\r");
    school_shows("That name is there already");
    school_type("nUna\r~");
    assert_int_equal(school.juniors.count, 2);
    school_shows("right hand, a straight ball; 0 of 38 lessons");
}

static void a_lesson_right_at_once(void **state)
{
    (void)state;
    school_type("Kai\r\r");
    school_shows("three boards too far");
    school_type("\r\r\r1"); /* Kai, the first lesson, on from the shot, short of the pocket */
    school_shows("Yes, that's what it did");
    school_type("\r\r\r11");
    school_shows("yours: ");
    school_shows("None of the others does as well.");
    school_type("\r\r\r11\r");
    school_shows("The arrow is like the middle of a see-saw.");
    school_shows("Use a ball light enough to swing freely");
    assert_int_equal(school.juniors.all[0].play_count, 0); /* not yet */
    school_type("\r\r\r11\r\r");
    school_shows("Right at once.");
    const Play *play = last_play();
    assert_string_equal(play->lesson, "three-for-one");
    assert_int_equal(play->looked, 1);
    assert_int_equal(play->chose, 1);
    assert_int_equal(play->hints, 0);
    assert_true(play_at_once(play));
    assert_int_equal(school.kept, 2);
}

static void wrong_is_shown_by_the_ball(void **state)
{
    (void)state;
    school_type("Kai\r\r\r3");
    school_shows("Look again");
    school_type("\r\r\r3h"); /* the second start takes the name by Enter */
    school_shows("Feet go toward the miss.");
    school_type("\r\r\r3h12");
    school_shows("Now it misses by twice as much.");
    school_shows("yours: 0 of 30");
    school_shows("Does another one do better?");
    school_type("\r\r\r3h12\r9"); /* there is no ninth choice */
    school_shows("What would you change?");
    school_type("\r\r\r3h12\r1\r\r");
    school_shows("Done. The ball is a good teacher.");
    const Play *play = last_play();
    assert_int_equal(play->looked, 2);
    assert_int_equal(play->chose, 2);
    assert_int_equal(play->hints, 1);
    assert_false(play_at_once(play));
    school_type("\rc");
    school_shows("where to stand              1        0             1            1      1");
}

static void leaving_counts_nothing(void **state)
{
    (void)state;
    school_type("Kai\r\r\r3~");
    school_shows("2  Move toward the miss");
    assert_int_equal(school.juniors.all[0].play_count, 0);
    school_type("\r\r?~\r1"); /* help in between loses nothing */
    school_shows("What would you change?");
}

static void a_level_has_a_fresh_question(void **state)
{
    (void)state;
    school_type("Kai\rvvvvvvv\r");
    school_shows("Question of level 1");
    school_shows("Somebody stands or aims not quite right");
    char *first = strdup(fake.screen);
    Play play = {.level = 1, .chose = 2};
    junior_add_play(&school.juniors.all[0], &play); /* the next one is another */
    school_type("\rvvvvvvv\r");
    if (strcmp(first, fake.screen) == 0)
        fail_msg("the same question again\n%s", first);
    free(first);
}

static void spares_and_scores(void **state)
{
    (void)state;
    static char down[] = "\r"
                         "vvvvvvvvvvvvvvvvvvvvvvvvvvvvvvv";
    char keys[128] = "Kai";
    text_append(keys, sizeof keys, "%s", down);
    school_type(keys);
    school_shows("A spare on your own side");
    keys[0] = '\0';
    text_append(keys, sizeof keys, "%s\r", down);
    school_type(keys);
    school_shows("The 6 stands: nine boards from the pocket");
    text_append(keys, sizeof keys, "1");
    school_type(keys);
    school_shows("took them all. One board of feet is three at the pins");
    keys[0] = '\0';
    text_append(keys, sizeof keys, "%svvvvvvvv\r", down);
    school_type(keys);
    school_shows("9/ X 9- 8/ X 7/ 9- X 9-  Wanted: 160");
    text_append(keys, sizeof keys, "1");
    school_type(keys);
    school_shows("160: one spare at the least");
    text_append(keys, sizeof keys, "\r2\r");
    school_type(keys);
    school_shows("Without a mark you end just short.");
}

/* A reader's own bag throws where it can; where it can't, the lesson's own does, and says so. */
static void with_a_bag_of_ones_own(void **state)
{
    (void)state;
    static Bag bag;
    Error error = {0};
    assert_true(files_bag("demo", &bag, &error));
    school.bag = &bag;
    school_type("Kai\r\r");
    school_shows("Tarn Ledger, feet on");
    school_type("\rvvvvvvvvvvvv\r");
    school_shows("Harder is not straighter");
    school_shows("a friend throws");
    assert_null(strstr(fake.screen, "Tarn Ledger"));
}

static void a_disk_that_refuses_is_told(void **state)
{
    (void)state;
    school.refuses = true;
    school_type("Kai\r");
    school_shows("the disk is full");
}

/* What stands behind `before` as a number; the test fails without it. */
static double number_behind(const char *before)
{
    const char *at = strstr(fake.screen, before);
    if (!at)
        fail_msg("the screen lacks \"%s\"\n%s", before, fake.screen);
    return at ? strtod(at + strlen(before), NULL) : 0.0;
}

static bool shows(const char *text) { return strstr(fake.screen, text) != NULL; }

/* After a second and a half it is as far down the lane as a speed between its release and now takes
 * it; until it is at the pins, they stand. */
static void a_shot_rolls_in_real_time(void **state)
{
    (void)state;
    school.moves = true;
    school_type("Kai\r\r");
    school_shows("1-2-4 stand"); /* nobody touched a key */
    assert_true(school.clock_ms > 2500 && school.clock_ms < 6000);
    double released = number_behind("1-2-4 stand, ");
    school.patience = 30; /* of 50 ms */
    school_type("\r\r");
    school_shows("Rolling in real time; any key ends it");
    assert_false(shows("1-2-4 stand"));
    double ft = number_behind("1.5 s, "), mph = number_behind(" ft, ");
    assert_true(ft > 1.5 * mph * 5280.0 / 3600.0 - 1.0);
    assert_true(ft < 1.5 * released * 5280.0 / 3600.0 + 1.0);
}

static void any_key_ends_a_roll(void **state)
{
    (void)state;
    school.moves = true;
    school.patience = 5;
    school_type("Kai\r\r\r"); /* the last does no more than end it */
    assert_false(shows("Rolling in real time"));
    assert_false(shows("Where did the ball go?"));
    school_shows("1-2-4 stand");
    assert_int_equal(fake.bells, 0);
    school_type("\r\rx\r");
    school_shows("Where did the ball go?");
    assert_int_equal(fake.bells, 0);
    school_type("\r\r~");
    school_shows("2  Move toward the miss");
}

/* Seen again, a shot rolls too, and the question comes back after it. */
static void a_shot_seen_again_rolls(void **state)
{
    (void)state;
    school.moves = true;
    school_type("Kai\r\r\r");
    school_shows("Where did the ball go?");
    long before = school.clock_ms;
    school_type("\r\r\r<");
    school_shows("Where did the ball go?");
    assert_true(school.clock_ms - before > 2 * 2500); /* it rolled twice */
    school.patience = 5;
    school_type("\r\rx\r<");
    school_shows("Rolling in real time; any key ends it");
    assert_false(shows("Where did the ball go?"));
    school_type("\r\rx\r<x");
    school_shows("Where did the ball go?");
    assert_int_equal(fake.bells, 0);
    school.moves = false;
    school_type("\r\r\r<");
    school_shows("Where did the ball go?");
}

/* Whatever is typed, wherever: nothing is drawn outside, and the lessons go on. */
static void any_keys(void **state)
{
    (void)state;
    static const char KEYS[] = "\r\r\r123123h~^v<cn?qT4 \x7fx";
    static uint32_t keys[201];
    Rng rng = rng_seed(3);
    for (int round = 0; round < 12; round++) {
        school_begin(round % 2 ? 80 : 72, round % 2 ? 24 : 20);
        school.moves = round % 4 > 1;
        school.patience = round;
        school.juniors.count = 1;
        strcpy(school.juniors.all[0].name, "Kai");
        school.juniors.all[0].hook = round % 3 == 0;
        for (int i = 0; i < 60; i++) {
            char key = KEYS[rng_next(&rng) % (sizeof KEYS - 1)];
            keys[i] = key == '~'   ? PRESS_ESC
                      : key == '^' ? PRESS_UP
                      : key == 'v' ? PRESS_DOWN
                      : key == '<' ? PRESS_LEFT
                                   : (unsigned char)key;
        }
        keys[60] = 0;
        StageEnd end = school_keys(keys);
        assert_true(end == STAGE_OVER || end == STAGE_STOPPED);
    }
}

static void too_small_a_terminal(void **state)
{
    (void)state;
    school_begin(40, 12);
    school_type("Kai\r\r\r");
    school_shows("Lessons need 72x20; this is");
}

#define TEST(name) cmocka_unit_test_setup(name, set_up)

int main(void)
{
    const struct CMUnitTest tests[] = {TEST(a_name_is_given),
                                       TEST(a_lesson_right_at_once),
                                       TEST(wrong_is_shown_by_the_ball),
                                       TEST(leaving_counts_nothing),
                                       TEST(a_level_has_a_fresh_question),
                                       TEST(spares_and_scores),
                                       TEST(with_a_bag_of_ones_own),
                                       TEST(a_disk_that_refuses_is_told),
                                       TEST(a_shot_rolls_in_real_time),
                                       TEST(any_key_ends_a_roll),
                                       TEST(a_shot_seen_again_rolls),
                                       TEST(any_keys),
                                       TEST(too_small_a_terminal)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
