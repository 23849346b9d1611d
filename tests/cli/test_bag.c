/* test_bag.c - settee bag and settee block of the real program: tables, JSON, faults. */
#define _DEFAULT_SOURCE /* mkstemps */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <unistd.h>

#include "helper_run.h"

static void says_fault(int status, const char *says, const char *const *words)
{
    Run run = run_with(NULL, words);
    run_is(&run, status);
    if (!run.fault || !strstr(run.fault, says))
        fail_msg("'%s' does not say '%s'", run.fault ? run.fault : "", says);
    run_free(&run);
}
#define FAULTS(status, says, ...) says_fault(status, says, (const char *const[]){__VA_ARGS__, NULL})

#define SMALL SETTEE_SOURCE_DIR "/tests/data/good/bag.json" /* sanitized runs are slow */

static void tables_fit(void **state)
{
    (void)state;
    const char *const lines[][12] = {
        {"bag", "--games", "2"},
        {"bag", "--games", "9", "--bowlers", "1", "--pattern", "loaf", "--pick", "6",
         "--certified"},
        {"bag", "--games", "1", "--bag", "demo-left", "--pick", "4", "--no-spare", "--certified"},
        {"bag", "--games", "1", "--bag", SMALL, "--pick", "12", "--surfaces"},
        {"block", "--games", "2"},
        {"block", "--games", "12", "--pattern", "spire", "--bag", "demo-left"},
    };
    for (size_t i = 0; i < sizeof lines / sizeof *lines; i++) {
        Run run = run_with(NULL, lines[i]);
        run_is(&run, 0);
        if (widest_line(run.out) > 80)
            fail_msg("%s %s is %d columns wide:\n%s", lines[i][0], lines[i][2],
                     widest_line(run.out), run.out);
        run_free(&run);
    }
}

/* With no more balls than places none is taken out for spares: not the only one, not one of two. */
static void small_bags_keep_their_balls(void **state)
{
    (void)state;
    static const char *const BALLS[] = {
        "{\"id\": \"a\", \"name\": \"A\", \"slot\": 1}",
        "{\"id\": \"a\", \"name\": \"A\", \"slot\": 1, \"cover\": \"polyester\"}",
        ("{\"id\": \"a\", \"name\": \"A\", \"slot\": 1},"
         " {\"id\": \"b\", \"name\": \"B\", \"slot\": 2, \"cover\": \"pearl\"}")};
    for (int i = 0; i < 3; i++) {
        char bag[512];
        snprintf(bag, sizeof bag,
                 "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"Few\"}, \"balls\": [%s]}",
                 BALLS[i]);
        Run run = run_with(bag, (const char *const[]){"bag", "--bag", "-", "--games", "1", "--pick",
                                                      "6", "--certified", "--json", NULL});
        run_is(&run, 0);
        cJSON *object = run_json(&run);
        assert_true(json_at(object, "pick_worth") > 0.2);
        assert_near(json_at(object, "pick_worth"), json_at(object, "worth"), 1e-9);
        assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "pick")), i < 2 ? 1 : 2);
        cJSON_Delete(object);
        run_free(&run);
        run = run_with(bag, (const char *const[]){"block", "--bag", "-", "--games", "1", NULL});
        run_is(&run, 0);
        assert_null(strstr(run.out, "no ball of the bag"));
        run_free(&run);
    }
}

static void bag_has_the_keys(void **state)
{
    (void)state;
    Run run = RUN("bag", "--games", "2", "--pick", "6", "--certified", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    static const char *const KEYS[] = {"games", "bowlers",         "balls", "overlaps",
                                       "lanes", "surface_changes", "jobs",  "worth",
                                       "pick",  "pick_worth"};
    assert_int_equal(cJSON_GetArraySize(object), sizeof KEYS / sizeof *KEYS);
    for (size_t i = 0; i < sizeof KEYS / sizeof *KEYS; i++)
        assert_true(cJSON_HasObjectItem(object, KEYS[i]));
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "balls")), 14);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "overlaps")), 10);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "lanes")), 7);
    assert_near(json_at(object, "balls.0.games.2.after_games"), 2.0, 0.0);
    assert_true(json_at(object, "pick_worth") >= json_at(object, "worth") - 1e-4);
    const cJSON *pick = cJSON_GetObjectItem(object, "pick"), *place;
    assert_int_equal(cJSON_GetArraySize(pick), 6);
    int spares = 0, slot = 1;
    cJSON_ArrayForEach(place, pick)
    {
        assert_near(json_at(place, "slot"), slot++, 0.0);
        assert_true(strlen(cJSON_GetStringValue(cJSON_GetObjectItem(place, "job"))) > 0);
        assert_true(cJSON_HasObjectItem(place, "stand_in"));
        spares += cJSON_IsTrue(cJSON_GetObjectItem(place, "spare"));
    }
    assert_int_equal(spares, 1);
    cJSON_Delete(object);
    run_free(&run);
}

/* Scored play: no other surface is tried or advised. */
static void certified_play_keeps_its_surfaces(void **state)
{
    (void)state;
    Run run = RUN("bag", "--games", "1", "--certified", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "surface_changes")), 0);
    const cJSON *ball = cJSON_GetArrayItem(cJSON_GetObjectItem(object, "balls"), 0);
    assert_false(cJSON_HasObjectItem(ball, "surfaces"));
    cJSON_Delete(object);
    run_free(&run);
    FAULTS(2, "no surface may change once scored", "bag", "--surfaces", "--certified");
}

static void weights_are_read(void **state)
{
    (void)state;
    Run run = RUN("bag", "--games", "1", "--bag", SMALL, "--weights", "fresh=3,burnt=1", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    assert_near(json_at(object, "lanes.0.weight"), 0.75, 1e-9);
    assert_near(json_at(object, "lanes.2.weight"), 0.25, 1e-9);
    assert_near(json_at(object, "lanes.3.weight"), 0.0, 1e-9);
    cJSON_Delete(object);
    run_free(&run);
    FAULTS(2, "did you mean 'burnt'", "bag", "--weights", "brunt=2");
    FAULTS(2, "fresh=2", "bag", "--weights", "fresh");
    FAULTS(2, "needs a number", "bag", "--weights", "fresh=-1");
    FAULTS(2, "needs a number", "bag", "--weights", "fresh=2x");
    FAULTS(2, "all of them are 0", "bag", "--weights", "fresh=0");
    FAULTS(2, "from 1 to 12", "bag", "--pick", "0");
    FAULTS(2, "from 1 to 24", "block", "--games", "25");
    FAULTS(1, "no-such", "bag", "--bag", "no-such.json");
}

static void block_has_the_keys(void **state)
{
    (void)state;
    Run run = RUN("block", "--games", "3", "--bowlers", "6", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run);
    const cJSON *games = cJSON_GetObjectItem(object, "games"), *game;
    assert_int_equal(cJSON_GetArraySize(games), 3);
    int number = 1;
    cJSON_ArrayForEach(game, games)
    {
        assert_near(json_at(game, "game"), number++, 0.0);
        assert_true(strlen(cJSON_GetStringValue(cJSON_GetObjectItem(game, "watch"))) > 0);
        for (int lane = 0; lane < 2; lane++) {
            const cJSON *plan = cJSON_GetArrayItem(cJSON_GetObjectItem(game, "lanes"), lane);
            assert_true(json_at(plan, "slot") >= 1 && json_at(plan, "slot") <= 6);
            assert_true(json_at(plan, "stance_low") <= json_at(plan, "stance_high"));
            assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(plan, "slots")), 3);
        }
    }
    cJSON_Delete(object);
    run_free(&run);
    FAULTS(1, "no ball is in a slot", "block", "--bag", FIXTURE("empty-slots.json"));
}

/* The pick written as a bag: it passes check, and its slots are the pick. */
static void pick_is_saved(void **state)
{
    (void)state;
    char path[] = "/tmp/settee-bag-XXXXXX.json";
    int fd = mkstemps(path, 5);
    assert_true(fd >= 0);
    close(fd);
    Run run = RUN("bag", "--games", "1", "--bag", SMALL, "--pick", "2", "--surfaces", "--save",
                  path, "--json");
    run_is(&run, 0);
    cJSON *picked = run_json(&run);
    Run check = RUN("check", path);
    run_is(&check, 0);
    run_free(&check);
    Run again = RUN("bag", "--games", "1", "--bag", path, "--json");
    run_is(&again, 0);
    cJSON *object = run_json(&again);
    const cJSON *place, *ball;
    int matched = 0;
    cJSON_ArrayForEach(place, cJSON_GetObjectItem(picked, "pick"))
        cJSON_ArrayForEach(ball, cJSON_GetObjectItem(object, "balls"))
    {
        const cJSON *slot = cJSON_GetObjectItem(ball, "slot");
        matched += cJSON_IsNumber(slot) && slot->valuedouble == json_at(place, "slot") &&
                   strcmp(cJSON_GetStringValue(cJSON_GetObjectItem(ball, "id")),
                          cJSON_GetStringValue(cJSON_GetObjectItem(place, "id"))) == 0;
    }
    assert_int_equal(matched, 2);
    assert_near(json_at(object, "worth"), json_at(picked, "pick_worth"), 1e-4);
    cJSON_Delete(object);
    cJSON_Delete(picked);
    run_free(&again);
    run_free(&run);
    remove(path);
    FAULTS(2, "--save needs --pick", "bag", "--save", "/tmp/x.json");
    FAULTS(1, "no-such-folder", "bag", "--games", "1", "--certified", "--bag", SMALL, "--pick", "2",
           "--save", "/no-such-folder/x.json");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(tables_fit),       cmocka_unit_test(small_bags_keep_their_balls),
        cmocka_unit_test(bag_has_the_keys), cmocka_unit_test(certified_play_keeps_its_surfaces),
        cmocka_unit_test(weights_are_read), cmocka_unit_test(block_has_the_keys),
        cmocka_unit_test(pick_is_saved),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
