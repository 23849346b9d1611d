/* test_rehearse.c - settee rehearse: its worlds and players by name. */
#define _XOPEN_SOURCE 700 /* setenv, mkdtemp, nftw */
#include "played.h"

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

/* A past event, another way from its second game: the keys that are promised, the same bytes twice,
 * and what can't be played. */
static void test_event_again(void **state)
{
    (void)state;
    played_bag("config/settee/bags/two.json", "Ada Quill", "right");
    played_event("config/settee/events/spring.json", "Spring", "2026-05-17", "apron", "two");
    played_shots("spring", NULL, "xsnxsxxsnsxsnxxsxsnxsxxs", NULL);
    const char *json[] = {"rehearse", "--event", "spring", "--from", "2.1",    "--slot", "3",
                          "--draws",  "4",       "--seed", "7",      "--json", NULL};
    const char *plain[] = {"rehearse", "--event", "spring",   "--from", "2.1",
                           "--draws",  "4",       "--player", "coach",  NULL};
    const char *none[] = {"rehearse", "--event", "autumn", NULL};
    const char *place[] = {"rehearse", "--event", "spring", "--from", "2,1", NULL};
    const char *later[] = {"rehearse", "--event", "spring", "--from", "4.9", NULL};
    const char *empty[] = {"rehearse", "--event", "spring", "--slot", "2", NULL};
    const char *knows[] = {"rehearse", "--event", "spring", "--player", "knows-the-lane", NULL};
    const char *stray[] = {"rehearse", "--slot", "2", NULL};
    Run a = run_at(played_home, NULL, json), b = run_at(played_home, NULL, json),
        c = run_at(played_home, NULL, plain);
    run_is(&a, 0);
    run_is(&c, 0);
    assert_string_equal(a.out, b.out);
    cJSON *object = run_json(&a);
    assert_string_equal(cJSON_GetObjectItem(object, "way")->valuestring, "3 Moss Ferry, then hold");
    assert_near(number(object, "draws"), 4, 0.0);
    assert_near(number(object, "shots"), 24, 0.0);
    double bowled = number(cJSON_GetObjectItem(object, "as_bowled"), "mean");
    double other = number(cJSON_GetObjectItem(object, "other_way"), "mean");
    assert_near(number(cJSON_GetObjectItem(object, "difference"), "mean"), other - bowled, 0.011);
    cJSON_Delete(object);
    run_says(&c, "Spring from game 2, frame 1, on 4 pairs of lanes as your 24 shots tell of them");
    for (const char *line = c.out; *line; line += strcspn(line, "\n") + 1)
        assert_true(strcspn(line, "\n") <= 90);
    run_free(&a);
    run_free(&b);
    run_free(&c);
    const struct {
        const char **words;
        int status;
        const char *fault;
    } BAD[] = {{none, 1, "autumn"},
               {place, 2, "--from: found '2,1'; allowed is GAME.FRAME, as 2.1"},
               {later, 1, "no first ball was entered in game 4, frame 9"},
               {empty, 1, "no ball of this bag is in slot 2"},
               {knows, 2, "can't play an event again"},
               {stray, 2, "go with --event"}};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        Run run = run_at(played_home, NULL, BAD[i].words);
        run_is(&run, BAD[i].status);
        if (!strstr(run.fault, BAD[i].fault))
            fail_msg("said: %s", run.fault);
        run_free(&run);
    }
}

/* What is kept is in the history and in nothing else. */
static void test_history(void **state)
{
    (void)state;
    const char *keep[] = {"rehearse", "--games", "1",      "--player",   "coach", "--bowlers",
                          "1",        "--keep",  "--date", "2026-05-17", NULL};
    const char *history[] = {"rehearse", "--history", NULL};
    const char *json[] = {"rehearse", "--history", "--json", NULL};
    const char *review[] = {"review", NULL};
    const char *day[] = {"rehearse", "--keep", "--date", "17 May", NULL};
    char home[] = "/tmp/settee-test-XXXXXX", path[128];
    assert_non_null(mkdtemp(home));
    Run none = run_at(home, NULL, history), a = run_at(home, NULL, keep);
    Run b = run_at(home, NULL, keep), c = run_at(home, NULL, history), d = run_at(home, NULL, json);
    Run e = run_at(home, NULL, review), f = run_at(home, NULL, day);
    run_is(&none, 1);
    run_is(&a, 0);
    run_is(&b, 0);
    run_is(&c, 0);
    run_is(&e, 1);
    run_is(&f, 2);
    run_says(&c, "Imre Holloway  coach  ");
    run_says(&c, "Apron              2 ");
    for (const char *line = c.out; *line; line += strcspn(line, "\n") + 1)
        assert_true(strcspn(line, "\n") <= 100);
    cJSON *object = run_json(&d);
    const cJSON *row = cJSON_GetArrayItem(cJSON_GetObjectItem(object, "patterns"), 0);
    assert_near(number(row, "games"), 2, 0.0);
    const cJSON *cost = cJSON_GetObjectItem(row, "cost");
    assert_near(number(cost, "low"), number(cost, "mean"), 0.002); /* the same block twice */
    cJSON_Delete(object);
    assert_non_null(strstr(e.fault, "nothing to review"));
    snprintf(path, sizeof path, "%s/data/settee/rehearsals/2026-05-17-002.json", home);
    assert_int_equal(access(path, F_OK), 0);
    assert_int_equal(nftw(home, played_remove, 8, FTW_DEPTH | FTW_PHYS), 0);
    run_free(&none);
    run_free(&a);
    run_free(&b);
    run_free(&c);
    run_free(&d);
    run_free(&e);
    run_free(&f);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_list),         cmocka_unit_test(test_world),
        cmocka_unit_test(test_no_such_name), cmocka_unit_test(test_seed_words),
        cmocka_unit_test(test_costs),        cmocka_unit_test(test_steady),
        cmocka_unit_test(test_event_again),  cmocka_unit_test(test_history)};
    return cmocka_run_group_tests_name("rehearse", tests, played_begin, played_end);
}
