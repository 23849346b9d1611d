/* test_juniors.c - what juniors did is written and read back to the last count; a file with faults
 * is told and not used. */
#define _XOPEN_SOURCE 700 /* mkdtemp, setenv */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "store/files.h"
#include "store/juniors.h"

static Juniors juniors, again;
static char home[64], path[128];

static int set_up(void **state)
{
    (void)state;
    strcpy(home, "/tmp/settee-juniors-XXXXXX");
    if (!mkdtemp(home))
        return 1;
    snprintf(path, sizeof path, "%s/settee/juniors.json", home);
    return setenv("XDG_DATA_HOME", home, 1);
}

static int tear_down(void **state)
{
    (void)state;
    char command[96];
    snprintf(command, sizeof command, "rm -rf %s", home);
    return system(command);
}

static void none_yet_is_no_fault(void **state)
{
    (void)state;
    Error error = {0};
    assert_true(juniors_read(&juniors, &error));
    assert_int_equal(juniors.count, 0);
}

static void written_and_read_back(void **state)
{
    (void)state;
    Error error = {0};
    const char *kind;
    memset(&juniors, 0, sizeof juniors);
    juniors.count = 2;
    strcpy(juniors.all[0].name, "Una \xc3\x85s");
    juniors.all[0].hand = HAND_LEFT;
    strcpy(juniors.all[1].name, "Kai");
    juniors.all[1].hook = true;
    Play play = {.level = 3, .skill = SKILL_PINS, .looked = 2, .chose = 3, .hints = 1};
    strcpy(play.lesson, "pins-high");
    junior_add_play(&juniors.all[1], &play);
    play = (Play){.level = 1, .skill = SKILL_AIM, .looked = 1, .chose = 1, .fresh = true};
    strcpy(play.lesson, "question");
    junior_add_play(&juniors.all[1], &play);
    assert_true(juniors_write(&juniors, &error));
    assert_true(juniors_read(&again, &error));
    assert_int_equal(again.count, 2);
    for (int i = 0; i < 2; i++) {
        const Junior *a = &juniors.all[i], *b = &again.all[i];
        assert_string_equal(a->name, b->name);
        assert_int_equal(a->hand, b->hand);
        assert_int_equal(a->hook, b->hook);
        assert_int_equal(a->play_count, b->play_count);
        for (int k = 0; k < a->play_count; k++) {
            assert_string_equal(a->plays[k].lesson, b->plays[k].lesson);
            assert_int_equal(a->plays[k].level, b->plays[k].level);
            assert_int_equal(a->plays[k].skill, b->plays[k].skill);
            assert_int_equal(a->plays[k].fresh, b->plays[k].fresh);
            assert_int_equal(a->plays[k].looked, b->plays[k].looked);
            assert_int_equal(a->plays[k].chose, b->plays[k].chose);
            assert_int_equal(a->plays[k].hints, b->plays[k].hints);
        }
    }
    assert_true(files_check(path, &kind, &error));
    assert_string_equal(kind, "juniors");
}

static void a_broken_file_is_told(void **state)
{
    (void)state;
    Error error = {0};
    FILE *file = fopen(path, "w");
    assert_non_null(file);
    fputs("{\"format\": \"settee-juniors/1\", \"juniors\": [\n{\"name\": \"Kai\", \"hand\": "
          "\"both\", "
          "\"ball\": \"hook\", \"plays\": []}]}",
          file);
    fclose(file);
    assert_false(juniors_read(&again, &error));
    assert_int_equal(again.count, 0);
    assert_int_equal(error.line, 2);
    assert_string_equal(error.where, "$.juniors[0].hand");
    assert_non_null(strstr(error.text, "unknown hand \"both\""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(none_yet_is_no_fault),
                                       cmocka_unit_test(written_and_read_back),
                                       cmocka_unit_test(a_broken_file_is_told)};
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
