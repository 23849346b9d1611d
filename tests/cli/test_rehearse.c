/* test_rehearse.c - settee rehearse: its worlds and players by name. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/rehearse/rehearse.h"
#include "helper_run.h"

static void run_says(const Run *run, const char *text)
{
    if (!strstr(run->out, text))
        fail_msg("not said: %s", text);
}

static void test_list(void **state)
{
    (void)state;
    const char *words[] = {"rehearse", "--list", NULL},
               *json[] = {"rehearse", "--list", "--json", NULL};
    Run plain = run_with(NULL, words), structured = run_with(NULL, json);
    run_is(&plain, 0);
    run_is(&structured, 0);
    for (int i = 0; WORLDS[i]; i++) {
        run_says(&plain, WORLDS[i]->name);
        run_says(&plain, WORLDS[i]->sentence);
        run_says(&structured, WORLDS[i]->sentence);
    }
    for (int i = 0; PLAYERS[i]; i++) {
        run_says(&plain, PLAYERS[i]->name);
        run_says(&plain, PLAYERS[i]->sentence);
        run_says(&structured, PLAYERS[i]->sentence);
    }
    for (const char *line = plain.out; *line; line += strcspn(line, "\n") + 1)
        assert_true(strcspn(line, "\n") <= 100);
    run_free(&plain);
    run_free(&structured);
}

/* The world is said where it was asked for; without it the lane is kin's. */
static void test_world(void **state)
{
    (void)state;
    const char *kin[] = {"rehearse", "--games", "1", "--player", "coach", "--world", "kin", NULL};
    const char *unsaid[] = {"rehearse", "--games", "1", "--player", "coach", NULL};
    const char *other[] = {"rehearse", "--games", "1",      "--player", "coach",
                           "--world",  "house",   "--json", NULL};
    Run a = run_with(NULL, kin), b = run_with(NULL, unsaid), c = run_with(NULL, other);
    run_is(&a, 0);
    run_is(&b, 0);
    run_is(&c, 0);
    run_says(&a, "player coach, world kin\n");
    run_says(&b, "player coach\n");
    assert_string_equal(strchr(a.out, '\n'), strchr(b.out, '\n'));
    cJSON *object = run_json(&c);
    assert_string_equal(cJSON_GetObjectItem(object, "world")->valuestring, "house");
    cJSON_Delete(object);
    run_free(&a);
    run_free(&b);
    run_free(&c);
}

static void test_no_such_name(void **state)
{
    (void)state;
    const char *world[] = {"rehearse", "--world", "moon", NULL};
    const char *player[] = {"rehearse", "--player", "nobody", NULL};
    Run a = run_with(NULL, world), b = run_with(NULL, player);
    run_is(&a, 2);
    run_is(&b, 2);
    assert_non_null(
        strstr(a.fault, "--world is kin, tilted, jumpy, stranger, house or blunt, not \"moon\""));
    assert_non_null(strstr(b.fault, "by-the-miss or coach, not \"nobody\""));
    run_free(&a);
    run_free(&b);
}

/* Two words and their number are the same block; the words are printed, and a misspelt pair is
 * answered with the one that was meant. */
static void test_seed_words(void **state)
{
    (void)state;
    const char *pair[] = {"rehearse", "--games",     "1",      "--player", "coach",
                          "--seed",   "amber-otter", "--json", NULL};
    const char *number[] = {"rehearse", "--games", "1",      "--player", "coach",
                            "--seed",   "16510",   "--json", NULL};
    const char *plain[] = {"rehearse", "--games", "1",           "--player",
                           "hold",     "--seed",  "Amber-Otter", NULL};
    const char *big[] = {"rehearse", "--games", "1", "--player", "hold", "--seed", "70000", NULL};
    const char *wrong[] = {"rehearse", "--seed", "amber-oter", NULL};
    const char *none[] = {"rehearse", "--seed", "moon", NULL};
    Run a = run_with(NULL, pair), b = run_with(NULL, number), c = run_with(NULL, plain);
    Run d = run_with(NULL, big), e = run_with(NULL, wrong), f = run_with(NULL, none);
    run_is(&a, 0);
    run_is(&b, 0);
    run_is(&c, 0);
    run_is(&d, 0);
    run_is(&e, 2);
    run_is(&f, 2);
    assert_string_equal(a.out, b.out);
    run_says(&a, "\"seed\":16510,\"seed_words\":\"amber-otter\"");
    run_says(&c, "\nBlock   amber-otter: --seed amber-otter is the same lane and the same luck\n");
    run_says(&d, "\nBlock   70000: --seed 70000 ");
    assert_non_null(strstr(e.fault, "did you mean 'amber-otter'?"));
    assert_non_null(strstr(f.fault, "or a block's two words (amber-otter)"));
    run_free(&a);
    run_free(&b);
    run_free(&c);
    run_free(&d);
    run_free(&e);
    run_free(&f);
}

static double number(const cJSON *object, const char *key)
{
    return cJSON_GetObjectItem(object, key)->valuedouble;
}

/* The decisions' costs, to the last place that is printed, are what the game lost; each of the
 * dearest is one of them and has its lane. */
static void test_costs(void **state)
{
    (void)state;
    const char *costs[] = {"rehearse", "--games",     "1",       "--player", "hold",
                           "--seed",   "amber-otter", "--costs", "--json",   NULL};
    const char *plain[] = {"rehearse", "--games",     "1",       "--player", "hold",
                           "--seed",   "amber-otter", "--costs", NULL};
    Run a = run_with(NULL, costs), b = run_with(NULL, plain);
    run_is(&a, 0);
    run_is(&b, 0);
    cJSON *object = run_json(&a), *one;
    const cJSON *expected = cJSON_GetArrayItem(cJSON_GetObjectItem(object, "expected"), 0);
    double lane = 0.0, known = 0.0;
    int count = 0;
    cJSON_ArrayForEach(one, cJSON_GetObjectItem(object, "decisions"))
    {
        lane += number(one, "cost");
        known += number(one, "cost_as_known");
        count++;
    }
    assert_near(lane, number(expected, "best") - number(expected, "chosen"), 0.01);
    assert_near(lane, number(object, "cost"), 0.01);
    assert_near(known, number(expected, "best_as_known") - number(expected, "chosen_as_known"),
                0.01);
    assert_near(known, number(object, "cost_as_known"), 0.01);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "dearest")), 3);
    cJSON_ArrayForEach(one, cJSON_GetObjectItem(object, "dearest"))
    {
        assert_in_range((int)number(one, "decision"), 1, count);
        assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(one, "film")), 39);
    }
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "same_block")), 1);
    cJSON_Delete(object);
    run_says(&b, "\nThe dearest decisions\n1. Game 1, frame ");
    run_says(&b, "On the same block advisor bowled ");
    for (const char *line = b.out; *line; line += strcspn(line, "\n") + 1)
        assert_true(strcspn(line, "\n") <= 100);
    run_free(&a);
    run_free(&b);
}

/* With a steady arm no release is bad, and the same throw on the same lane hits nearly alike. */
static void test_steady(void **state)
{
    (void)state;
    const char *words[] = {"rehearse", "--games",  "2",        "--player", "hold",
                           "--world",  "stranger", "--steady", "--json",   NULL};
    Run run = run_with(NULL, words);
    run_is(&run, 0);
    cJSON *object = run_json(&run), *one;
    cJSON_ArrayForEach(one, cJSON_GetObjectItem(object, "decisions"))
        assert_string_equal(cJSON_GetObjectItem(one, "release")->valuestring, "good");
    cJSON_Delete(object);
    run_free(&run);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_list),         cmocka_unit_test(test_world),
        cmocka_unit_test(test_no_such_name), cmocka_unit_test(test_seed_words),
        cmocka_unit_test(test_costs),        cmocka_unit_test(test_steady)};
    return cmocka_run_group_tests_name("rehearse", tests, NULL, NULL);
}
