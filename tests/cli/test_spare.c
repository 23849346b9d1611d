/* test_spare.c - settee spare and settee score by the real program: tables, JSON, faults, both
 * hands, and how long a spare takes. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_run.h"

static void faults(int status, const char *says, const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, status);
    if (!run.fault || !strstr(run.fault, says))
        fail_msg("'%s' does not say '%s'", run.fault ? run.fault : "", says);
    run_free(&run);
}
#define FAULTS(status, says, ...) faults(status, says, (const char *const[]){__VA_ARGS__, NULL})

static void says(const char *piece, const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, 0);
    if (!strstr(run.out, piece))
        fail_msg("does not say '%s':\n%s", piece, run.out);
    assert_true(widest_line(run.out) <= 80);
    run_free(&run);
}
#define SAYS(piece, ...) says(piece, (const char *const[]){__VA_ARGS__, NULL})

static cJSON *json_of(const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, 0);
    cJSON *json = run_json(&run);
    run_free(&run);
    return json;
}
#define JSON(...) json_of((const char *const[]){__VA_ARGS__, "--json", NULL})

/* The IBF rulebook's own sheet (text): a foul and a split in it. */
static void score_sheet(void **state)
{
    (void)state;
    cJSON *json = JSON("score", "X", "X", "X", "7", "2", "8:7-10", "/", "F", "9", "X", "7", "/",
                       "9", "-", "X", "X", "8");
    static const int TOTALS[] = {30, 57, 76, 85, 95, 104, 124, 143, 152, 180};
    for (int i = 0; i < 10; i++) {
        char path[32];
        snprintf(path, sizeof path, "frames.%d.total", i);
        assert_near(json_at(json, path), TOTALS[i], 0);
    }
    assert_near(json_at(json, "total"), 180, 0);
    const cJSON *fifth = cJSON_GetArrayItem(cJSON_GetObjectItem(json, "frames"), 4);
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(fifth, "split")));
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(json, "over")));
    cJSON_Delete(json);
    SAYS("8s /", "score", "XXX", "72", "8s/", "F9", "X", "7/", "9-", "XX8");
    SAYS("Score          180", "score", "XXX728s/F9X7/9-XX8");
}

static void score_under_way(void **state)
{
    (void)state;
    cJSON *json = JSON("score", "X", "7", "--target", "150");
    assert_near(json_at(json, "best_possible"), 280, 0);
    assert_near(json_at(json, "next.standing"), 3, 0);
    assert_near(json_at(json, "target.marks"), 3, 0);
    cJSON_Delete(json);
    SAYS("Best possible  280", "score", "X", "7");
    SAYS("out of reach", "score", "9-", "--target", "280");
    SAYS("Best possible  300", "score");
    FAULTS(1, "frame 1, ball 2: 4 pins, but only 3 stand", "score", "7", "4");
    FAULTS(1, "write X", "score", "10");
    FAULTS(2, "--target", "score", "--target", "301");
}

static void spare_answers(void **state)
{
    (void)state;
    cJSON *json = JSON("spare", "3", "6", "10");
    assert_string_equal(cJSON_GetStringValue(cJSON_GetObjectItem(json, "ball")), "plain-biscuit");
    assert_near(json_at(json, "hits.pin"), 3, 0);
    assert_true(json_at(json, "chance") > 0.7 && json_at(json, "chance") < 1.0);
    assert_true(json_at(json, "window.low") < json_at(json, "board_at_pin"));
    assert_true(json_at(json, "window.high") > json_at(json, "board_at_pin"));
    assert_near(json_at(json, "move_369.boards"), 3, 0);
    assert_true(cJSON_IsNull(cJSON_GetObjectItem(json, "sure")));
    cJSON_Delete(json);
    json = JSON("spare", "7-10");
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(json, "split")));
    assert_less(json_at(json, "chance"), 0.02);
    assert_true(json_at(json, "sure.pinfall") > 0.9);
    cJSON_Delete(json);
}

static void spare_tables(void **state)
{
    (void)state;
    SAYS("Stance", "spare", "3", "6", "10");
    SAYS("3-6-10 on", "spare", "3,6,10");
    SAYS("3-6-10 on", "spare", "3,6-10");
    SAYS("3-6-10 on", "spare", "3", "6,0");
    SAYS("under 2 %", "spare", "7", "0");
    SAYS("Make sure of 1", "spare", "7", "10");
    SAYS("10 on", "spare", "0");
    SAYS("Chance", "spare", "2-8", "--bag", "demo-left", "--pattern", "lintel");
    SAYS("Cobble Tenor", "spare", "5", "--ball", "cobble-tenor");
    SAYS("PINS", "spare", "--help");
    SAYS("3-6-9", "spare", "9", "--stance", "27", "--aim", "15", "--slot", "2");
}

static void spare_faults(void **state)
{
    (void)state;
    FAULTS(2, "which pins stand", "spare");
    FAULTS(2, "found '11'", "spare", "11");
    FAULTS(2, "found '3x'", "spare", "3x");
    FAULTS(2, "found pin 3 twice", "spare", "3", "3");
    FAULTS(2, "found pin 10 twice", "spare", "10-0");
    FAULTS(2, "found '3--6'", "spare", "3--6");
    FAULTS(2, "both --stance and --aim", "spare", "4", "--stance", "24");
    FAULTS(1, "no ball 'nope'", "spare", "4", "--ball", "nope");
    FAULTS(1, "no ball is in a slot", "spare", "4", "--bag", FIXTURE("empty-slots.json"));
}

/* A ball that is named is thrown, though no slot holds one. */
static void a_named_ball_from_the_locker(void **state)
{
    (void)state;
    static const char BAG[] =
        "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Few\"}, \"balls\":"
        " [{\"id\": \"a\", \"name\": \"A\"}, {\"id\": \"b\", \"name\": \"B\"}]}";
    Run run = run_with(
        BAG, (const char *const[]){"spare", "10", "--bag", "-", "--ball", "b", "--json", NULL});
    run_is(&run, 0);
    cJSON *json = run_json(&run);
    assert_string_equal(cJSON_GetObjectItem(json, "ball")->valuestring, "b");
    assert_true(cJSON_IsNull(cJSON_GetObjectItem(json, "slot")));
    assert_true(json_at(json, "chance") > 0.5);
    cJSON_Delete(json);
    run_free(&run);
    run = run_with(BAG, (const char *const[]){"spare", "10", "--bag", "-", NULL});
    run_is(&run, 1);
    assert_non_null(strstr(run.fault, "name one with --ball"));
    run_free(&run);
}

/* All of them are gone for where the sure pins are worth hardly more: a bowler throws at both. */
static void both_pins_are_gone_for(void **state)
{
    (void)state;
    cJSON *json = JSON("spare", "4", "5");
    assert_true(json_at(json, "chance") > 0.02 && json_at(json, "chance") < 0.5);
    assert_true(cJSON_IsNull(cJSON_GetObjectItem(json, "sure")));
    cJSON_Delete(json);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_named_ball_from_the_locker),
        cmocka_unit_test(score_sheet),
        cmocka_unit_test(score_under_way),
        cmocka_unit_test(spare_answers),
        cmocka_unit_test(both_pins_are_gone_for),
        cmocka_unit_test(spare_tables),
        cmocka_unit_test(spare_faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
