/* test_teach.c - settee teach of the real program: the list, one lesson for either hand, checks
 * that hold and checks that don't, and a coach's own lesson in the home. */
#define _XOPEN_SOURCE 700 /* mkdtemp */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cli/helper_run.h"
#include "store/builtin.h"

#define GOOD(name) SETTEE_SOURCE_DIR "/tests/data/good/" name
#define BAD(name) SETTEE_SOURCE_DIR "/tests/data/bad/" name

static void lists_every_lesson(void **state)
{
    (void)state;
    Run run = RUN("teach", "list", "--json"), text = RUN("teach");
    run_is(&run, 0);
    run_is(&text, 0);
    assert_in_range(widest_line(text.out), 40, 80);
    cJSON *object = run_json(&run), *lessons = cJSON_GetObjectItem(object, "lessons");
    int count = 0, level = 1;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)
        count += strcmp(file->kind, "lessons") == 0;
    assert_int_equal(cJSON_GetArraySize(lessons), count);
    for (int i = 0; i < count; i++) {
        const cJSON *lesson = cJSON_GetArrayItem(lessons, i);
        int of = cJSON_GetObjectItem(lesson, "level")->valueint;
        assert_true(of == level || of == level + 1); /* by rising level */
        level = of;
        assert_false(cJSON_IsTrue(cJSON_GetObjectItem(lesson, "yours")));
        assert_non_null(strstr(text.out, cJSON_GetObjectItem(lesson, "id")->valuestring));
    }
    assert_int_equal(level, 5);
    cJSON_Delete(object);
    run_free(&run);
    run_free(&text);
}

/* The same lesson in a right-hander's words and a left-hander's, with the same figures. */
static void shows_one_for_either_hand(void **state)
{
    (void)state;
    Run right = RUN("teach", "show", "lesson", "--json");
    run_is(&right, 1);
    run_free(&right);
    right = RUN("teach", "show", "three-for-one", "--json");
    Run left = RUN("teach", "show", "three-for-one", "--bag", "demo-left", "--json");
    run_is(&right, 0);
    run_is(&left, 0);
    cJSON *object = run_json(&right), *mirror = run_json(&left);
    assert_non_null(strstr(cJSON_GetObjectItem(object, "words")->valuestring, "too far left"));
    assert_non_null(strstr(cJSON_GetObjectItem(mirror, "words")->valuestring, "too far right"));
    assert_true(json_at(object, "choices.0.points") > json_at(object, "choices.1.points") + 20.0);
    assert_true(json_at(object, "margin") >= json_at(object, "claims"));
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(mirror, "holds")));
    assert_null(strstr(right.out, "{in}"));
    cJSON_Delete(object);
    cJSON_Delete(mirror);
    run_free(&right);
    run_free(&left);
    right = RUN("teach", "show", "three-for-one");
    run_is(&right, 0);
    assert_in_range(widest_line(right.out), 60, 80);
    assert_non_null(strstr(right.out, "\nCaution     "));
    run_free(&right);
}

static void checks_what_a_lesson_claims(void **state)
{
    (void)state;
    Run run = RUN("teach", "check", "six-pin", GOOD("lesson-score.json"));
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "six-pin: left hand, hook: holds, by "));
    assert_non_null(strstr(run.out, "lesson-score.json: right hand, straight ball: holds\n"));
    run_free(&run);
    run = RUN("teach", "check", BAD("lesson-level.json"));
    run_is(&run, 1);
    assert_non_null(strstr(run.fault, "lesson-level.json:4: $.level: found 6"));
    run_free(&run);
    run = RUN("teach", "check", "straight-speed", "--bag", "demo");
    run_is(&run, 1);
    assert_non_null(strstr(run.fault, "is for a straight ball; this bag's bowler throws a hook"));
    run_free(&run);
    run = RUN("teach", "check", "straight-speed", "--bag", "demo", "--json");
    cJSON *object = run_json(&run);
    const cJSON *lesson = cJSON_GetArrayItem(cJSON_GetObjectItem(object, "lessons"), 0);
    assert_true(cJSON_IsFalse(cJSON_GetObjectItem(lesson, "ok")));
    cJSON_Delete(object);
    run_free(&run);
}

static void misuse_is_told(void **state)
{
    (void)state;
    static const char *const ROWS[][4] = {{"teach", "show", NULL},
                                          {"teach", "check", NULL},
                                          {"teach", "lesson", NULL},
                                          {"teach", "list", "more", NULL}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        Run run = run_with(NULL, ROWS[i]);
        run_is(&run, 2);
        run_free(&run);
    }
}

/* A lesson of one's own is copied into the home, listed there and among the lessons. */
static void a_coach_adds_one(void **state)
{
    (void)state;
    char home[] = "/tmp/settee-teach-XXXXXX";
    assert_non_null(mkdtemp(home));
    Run run = run_at(
        home, NULL,
        (const char *const[]){"home", "copy", "lesson", GOOD("lesson-score.json"), "marks", NULL});
    run_is(&run, 0);
    run_free(&run);
    run = run_at(home, NULL, (const char *const[]){"home", NULL});
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "\nLessons "));
    assert_non_null(strstr(run.out, "\n  marks "));
    run_free(&run);
    run = run_at(home, NULL, (const char *const[]){"teach", "list", NULL});
    run_is(&run, 0);
    assert_non_null(strstr(run.out, "any ball, yours\n"));
    run_free(&run);
    run = run_at(home, NULL, (const char *const[]){"teach", "check", "marks", NULL});
    run_is(&run, 0);
    run_free(&run);
    char command[64];
    snprintf(command, sizeof command, "rm -r %s", home);
    assert_int_equal(system(command), 0);
}

/* The coach's page, from a file as the screen writes it. */
static void reports_for_the_coach(void **state)
{
    (void)state;
    char home[] = "/tmp/settee-teach-XXXXXX", path[128], command[160];
    assert_non_null(mkdtemp(home));
    Run run = run_at(home, NULL, (const char *const[]){"teach", "report", NULL});
    run_is(&run, 1);
    assert_non_null(strstr(run.fault, "no junior in this home yet"));
    run_free(&run);
    snprintf(path, sizeof path, "%s/data/settee", home);
    snprintf(command, sizeof command, "mkdir -p %s", path);
    assert_int_equal(system(command), 0);
    snprintf(path, sizeof path, "%s/data/settee/juniors.json", home);
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs("{\"format\":\"settee-juniors/1\",\"juniors\":[{\"name\":\"Kai\",\"hand\":\"left\","
          "\"ball\":\"hook\",\"plays\":[{\"lesson\":\"two-and-one\",\"level\":2,\"skill\":\"feet\","
          "\"looked\":2,\"chose\":1,\"hints\":1}]}]}",
          file);
    assert_int_equal(fclose(file), 0);
    run = run_at(home, NULL, (const char *const[]){"teach", "report", "Kai", NULL});
    run_is(&run, 0);
    assert_in_range(widest_line(run.out), 60, 80);
    assert_non_null(strstr(run.out, "Kai: left hand, a hook\n"));
    assert_non_null(
        strstr(run.out, "2  Move toward the miss              1 of  7        0  not yet"));
    assert_non_null(strstr(run.out, "level 2: hesitated 2"));
    run_free(&run);
    run = run_at(home, NULL, (const char *const[]){"teach", "report", "--json", NULL});
    cJSON *object = run_json(&run);
    assert_near(json_at(object, "juniors.0.skills.0.looked_wrong"), 1, 0);
    assert_near(json_at(object, "juniors.0.levels.1.finished"), 1, 0);
    assert_near(json_at(object, "juniors.0.next.level"), 2, 0);
    cJSON_Delete(object);
    run_free(&run);
    run = run_at(home, NULL, (const char *const[]){"teach", "report", "Una", NULL});
    run_is(&run, 1);
    run_free(&run);
    snprintf(command, sizeof command, "rm -r %s", home);
    assert_int_equal(system(command), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(lists_every_lesson),
                                       cmocka_unit_test(shows_one_for_either_hand),
                                       cmocka_unit_test(checks_what_a_lesson_claims),
                                       cmocka_unit_test(misuse_is_told),
                                       cmocka_unit_test(a_coach_adds_one),
                                       cmocka_unit_test(reports_for_the_coach)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
