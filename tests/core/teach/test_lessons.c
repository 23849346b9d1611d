/* test_lessons.c - every lesson that is shipped is right by the engine: for right and left hand, a
 * junior's straight ball and a hook, with the lesson's own bag and with bags of readers. Common
 * practice, no source; the engine is what they are held to. */
#include "near.h"

#include <string.h>

#include "base/text.h"
#include "core/bag/preset.h"
#include "core/teach/teach.h"
#include "store/builtin.h"
#include "store/files.h"

enum { LESSONS_LEAST = 30, LEVEL_LEAST = 5 };

static Lesson LESSON;
static Pattern PATTERN, LEARNED;
static TeachScene SCENE;

typedef struct ReaderBag {
    const char *name;
    bool hook;
    Bag bag;
} ReaderBag;
enum { READERS = 8, OWN = 4 };
static ReaderBag READER[READERS];

/* A junior with other numbers than the lessons' own. */
static void a_junior(Hand hand, double mph, double pounds, ReaderBag *reader)
{
    reader->bag.bowler = preset_bowler(preset_level("junior"), preset_style("straight"), hand);
    reader->bag.bowler.mph = mph;
    preset_balls("spare", pounds, &reader->bag, NULL);
}

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    static const char *const NAMES[READERS] = {"right straight",    "left straight",
                                               "right hook",        "left hook",
                                               "a stronger junior", "a lighter left-handed junior",
                                               "the demo's bag",    "the demo's left-handed bag"};
    for (int i = 0; i < READERS; i++) {
        READER[i].name = NAMES[i];
        READER[i].hook = i == 2 || i == 3 || i >= 6;
        if (i < OWN)
            teach_own_bag(READER[i].hook, i % 2 ? HAND_LEFT : HAND_RIGHT, &READER[i].bag);
    }
    a_junior(HAND_RIGHT, 15.0, 12.0, &READER[4]);
    a_junior(HAND_LEFT, 11.0, 8.0, &READER[5]);
    if (!files_bag("demo", &READER[6].bag, &error) ||
        !files_bag("demo-left", &READER[7].bag, &error))
        return -1;
    for (int i = 0; i < READERS; i++)
        if (teach_hooks(&READER[i].bag) != READER[i].hook)
            return -1;
    return 0;
}

static void read_lesson(const char *id)
{
    Error error = {0};
    if (!files_lesson(id, &LESSON, &error) ||
        (LESSON.kind != LESSON_SCORE &&
         (!files_pattern(LESSON.pattern, &PATTERN, &error) ||
          !files_pattern(LESSON.learned[0] ? LESSON.learned : LESSON.pattern, &LEARNED, &error))))
        fail_msg("%s: %s", id, error.text);
}

static void every_lesson_holds_for_every_reader(void **state)
{
    (void)state;
    int levels[LESSON_LEVELS] = {0}, count = 0, wrong = 0;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++) {
        if (strcmp(file->kind, "lessons") != 0)
            continue;
        read_lesson(file->id);
        count++;
        levels[LESSON.level - 1]++;
        for (int i = 0; i < READERS; i++) {
            TeachInput input = {&LESSON, &READER[i].bag, &PATTERN, &LEARNED};
            TeachCheck check;
            Error error = {0};
            if (READER[i].hook ? !LESSON.hook : !LESSON.straight)
                continue;
            if (teach_scene(&input, &SCENE, &error) && teach_check(&SCENE, &check, &error))
                continue;
            print_error("%s, %s: %s\n", file->id, READER[i].name, error.text);
            wrong++;
        }
    }
    assert_int_equal(wrong, 0);
    assert_true(count >= LESSONS_LEAST);
    for (int level = 0; level < LESSON_LEVELS; level++)
        assert_true(levels[level] >= LEVEL_LEAST);
}

/* What it says fits: no text is cut, for either hand, and every caution is said somewhere. */
static void words_fit_and_cautions_are_said(void **state)
{
    (void)state;
    bool said[LESSON_CAUTION_COUNT] = {true};
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++) {
        if (strcmp(file->kind, "lessons") != 0)
            continue;
        read_lesson(file->id);
        said[LESSON.caution] = true;
        assert_string_equal(LESSON.id, file->id);
        for (int i = 0; i < LESSON.choice_count; i++) {
            char right[128], left[128];
            assert_true(lesson_say(LESSON.choices[i].say, HAND_RIGHT, right, sizeof right));
            assert_true(lesson_say(LESSON.choices[i].say, HAND_LEFT, left, sizeof left));
            if (text_length(right) > 74 || text_length(left) > 74)
                fail_msg("%s: \"%s\" is more than a line", file->id, right);
        }
    }
    for (int i = 0; i < LESSON_CAUTION_COUNT; i++)
        if (!said[i])
            fail_msg("no lesson says \"%s\"", LESSON_CAUTION_NAMES[i]);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_lesson_holds_for_every_reader),
                                       cmocka_unit_test(words_fit_and_cautions_are_said)};
    return cmocka_run_group_tests(tests, set_up, NULL);
}
