/* test_learn.c - settee learn: what three events say of a bag's numbers, taken over and back. */
#define _XOPEN_SOURCE 700
#include "played.h"

#include "helper_run.h"

#define HOME "config/settee/"
#define AT(...) run_at(played_home, NULL, (const char *const[]){__VA_ARGS__, NULL})

static void has(const char *text, const char *piece)
{
    if (!strstr(text, piece))
        fail_msg("lacks \"%s\" in\n%s", piece, text);
}

/* Odile's bag says 18 mph; the monitor showed 19.2 in three events, and in none of Ansgar's. */
static int begin(void **state)
{
    if (played_begin(state) != 0)
        return 1;
    played_bag(HOME "bags/odile.json", "Odile Farrow", "right");
    played_bag(HOME "bags/ansgar.json", "Ansgar Pike", "right");
    played_event(HOME "events/dusk.json", "Dusk open", "2026-04-18", "apron", "odile");
    played_event(HOME "events/dawn.json", "Dawn open", "2026-05-02", "kerb", "odile");
    played_event(HOME "events/noon.json", "Noon open", "2026-05-09", "kerb", "odile");
    played_shots("dusk", NULL, "mmmmmm", NULL);
    played_shots("dawn", NULL, "mmmmmmM", NULL);
    played_shots("dusk", "ansgar", "xxxxxx", NULL);
    return 0;
}

static void two_events_are_too_few(void **state)
{
    (void)state;
    Run run = AT("learn", "odile");
    run_is(&run, 0);
    has(run.out, "2 events with scored shots were bowled with this bag; 3 are needed");
    run_free(&run);
    run = AT("learn", "odile", "take", "speed");
    run_is(&run, 1);
    has(run.fault, "nothing to take over: 2 events with this bag, 3 needed");
    run_free(&run);
}

static cJSON *json_of(const char *bag)
{
    Run run = AT("learn", bag, "--json");
    run_is(&run, 0);
    cJSON *root = run_json(&run);
    run_free(&run);
    return root;
}

static void three_events_offer_a_speed(void **state)
{
    (void)state;
    Run run = AT("review");
    run_is(&run, 0);
    has(run.out, "Where these events differ from the bag's numbers: settee learn odile\n");
    if (strstr(run.out, "settee learn ansgar")) /* one event is too few */
        fail_msg("%s", run.out);
    run_free(&run);
    run = AT("learn", "odile");
    run_is(&run, 0);
    has(run.out, "What the last 3 events say of the numbers in bag odile:");
    has(run.out, "You throw 19.2 mph, not 18 (19 shots).");
    has(run.out, "settee learn odile take WHAT");
    assert_true(widest_line(run.out) <= 80);
    run_free(&run);
    cJSON *root = json_of("odile");
    assert_near(json_at(root, "events"), 3.0, 0.0);
    assert_string_equal(
        cJSON_GetArrayItem(cJSON_GetObjectItem(root, "values"), 0)->child->valuestring, "speed");
    assert_near(json_at(root, "values.0.now"), 18.0, 0.0);
    assert_near(json_at(root, "values.0.learnt"), 19.2, 1e-9);
    assert_near(json_at(root, "values.0.shots"), 19.0, 0.0);
    assert_true(cJSON_IsTrue(cJSON_GetObjectItem(
        cJSON_GetArrayItem(cJSON_GetObjectItem(root, "values"), 0), "offered")));
    cJSON_Delete(root);
}

/* Looking changes nothing: the file is the same to the byte. */
static void nothing_is_taken_unasked(void **state)
{
    (void)state;
    char *was = played_read(HOME "bags/odile.json");
    Run run = AT("learn", "odile");
    char *is = played_read(HOME "bags/odile.json");
    assert_string_equal(was, is);
    run_free(&run);
    free(was);
    free(is);
}

static void taken_over_and_back(void **state)
{
    (void)state;
    Bag bag;
    Error error;
    Run run = AT("learn", "odile", "take", "speed");
    run_is(&run, 0);
    has(run.out, "taken over, now 19.2; settee learn odile back speed puts back 18");
    run_free(&run);
    assert_true(files_bag("odile", &bag, &error));
    assert_near(bag.bowler.mph, 19.2, 1e-9);
    assert_int_equal(bag.bowler.from.mph, SOURCE_LEARNT);
    run = AT("learn", "odile"); /* no longer offered, and what stood before is told */
    run_is(&run, 0);
    has(run.out, "Speed 19.2 is learnt; before, it was 18.");
    assert_null(strstr(run.out, "You throw"));
    run_free(&run);
    run = AT("learn", "odile", "take", "speed");
    run_is(&run, 1);
    has(run.fault, "no clear difference");
    run_free(&run);
    run = AT("learn", "odile", "back", "speed");
    run_is(&run, 0);
    has(run.out, "put back, now 18");
    run_free(&run);
    assert_true(files_bag("odile", &bag, &error));
    assert_near(bag.bowler.mph, 18.0, 0.0);
    assert_int_equal(bag.bowler.from.mph, SOURCE_SAID);
    run = AT("learn", "odile", "back", "speed");
    run_is(&run, 1);
    has(run.fault, "nothing to put back");
    run_free(&run);
}

static void refused(void **state)
{
    (void)state;
    Run run = AT("learn");
    run_is(&run, 2);
    has(run.fault, "name a bag");
    run_free(&run);
    run = AT("learn", "odile", "take", "hope");
    run_is(&run, 2);
    has(run.fault, "allowed: speed, scatter or the id of a ball");
    run_free(&run);
    run = AT("learn", "odil");
    run_is(&run, 1);
    has(run.fault, "the nearest name in your home is \"odile\"");
    run_free(&run);
}

static int third_event(void **state)
{
    (void)state;
    played_shots("noon", NULL, "mmmmmm", NULL);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_events_are_too_few),
        cmocka_unit_test_setup(three_events_offer_a_speed, third_event),
        cmocka_unit_test(nothing_is_taken_unasked),
        cmocka_unit_test(taken_over_and_back),
        cmocka_unit_test(refused),
    };
    return cmocka_run_group_tests(tests, begin, played_end);
}
