/* test_quiz.c - a level's question is drawn fresh: the same seed gives the same one, others give
 * others, most of them hold, and those that do are right by the engine. No source outside. */
#include "near.h"

#include <string.h>

#include "core/teach/quiz.h"
#include "core/teach/teach.h"
#include "store/files.h"

enum { DRAWS = 12 };

static Lesson A, B;
static TeachScene SCENE;

static bool holds(const Bag *bag, TeachCheck *check)
{
    static Pattern pattern;
    Error error = {0};
    assert_true(files_pattern(A.pattern, &pattern, &error));
    TeachInput input = {&A, bag, &pattern, &pattern};
    return teach_scene(&input, &SCENE, &error) && teach_check(&SCENE, check, &error);
}

/* The right choice takes back what was wrong, or follows the rule that the lesson gives: so far
 * from the pocket, a third of it with the feet, the other way (common practice, no source). */
static void answers_its_own_question(void)
{
    const LessonChange *right = &A.choices[A.choice_right].change;
    assert_true(A.choice_count >= 2 && A.choice_right >= 0 && A.choice_right < A.choice_count);
    /* over the best line, or over a board of one's own half that has an arrow near */
    assert_true(A.over == 0.0 || (A.over >= 5.0 && A.over <= 20.0));
    assert_true(A.steady > 0.0 && A.steady <= 1.0);
    if (A.kind == LESSON_SPARE_BALL && right->feet != 0.0 && !A.choices[A.choice_right].pin) {
        int pin = 0;
        while (A.left != pin_bit(pin + 1))
            pin++;
        double away = 20.0 - lane_pin_right_in(pin + 1) / (41.5 / 39.0) - LANE_POCKET_BEST;
        assert_near(right->feet, -away / 3.0, 0.25 + 1e-9);
    }
    if (A.skill == SKILL_FEET || A.skill == SKILL_AIM) {
        assert_true(A.start.feet != 0.0 || A.start.eyes != 0.0);
        assert_near(right->feet, -A.start.feet, 0.0);
        assert_near(right->eyes, -A.start.eyes, 0.0);
    }
    if (A.skill == SKILL_SPEED)
        assert_near(right->mph, -A.today.mph, 0.0);
}

static void most_draws_hold(void **state)
{
    (void)state;
    for (int hook = 0; hook < 2; hook++)
        for (int level = 1; level <= LESSON_LEVELS; level++) {
            static Bag bag;
            int held = 0, places[LESSON_CHOICES_MAX] = {0};
            teach_own_bag(hook, level % 2 ? HAND_RIGHT : HAND_LEFT, &bag);
            for (uint64_t seed = 0; seed < DRAWS; seed++) {
                TeachCheck check;
                quiz_draw(level, hook, seed, &A);
                assert_int_equal(A.level, level);
                answers_its_own_question();
                if (!holds(&bag, &check))
                    continue;
                held++;
                places[A.choice_right]++;
                for (int i = 0; i < A.choice_count; i++)
                    assert_true(i == A.choice_right ||
                                check.points[i] + A.points <= check.points[A.choice_right]);
            }
            if (held < DRAWS * 2 / 3)
                fail_msg("level %d, hook %d: %d of %d hold", level, hook, held, DRAWS);
            for (int i = 0; i < 3; i++) /* the right one is not always in the same place */
                assert_true(places[i] < held);
        }
}

static void fresh_by_seed(void **state)
{
    (void)state;
    for (int level = 1; level <= LESSON_LEVELS; level++) {
        int alike = 0;
        for (uint64_t seed = 1; seed <= DRAWS; seed++) {
            quiz_draw(level, true, seed, &A);
            quiz_draw(level, true, seed, &B);
            assert_memory_equal(&A, &B, sizeof A);
            quiz_draw(level, true, seed - 1, &B);
            alike += memcmp(&A.choices, &B.choices, sizeof A.choices) == 0;
        }
        assert_true(alike < DRAWS / 2);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(most_draws_hold),
                                       cmocka_unit_test(fresh_by_seed)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
