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

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_list), cmocka_unit_test(test_world),
                                       cmocka_unit_test(test_no_such_name)};
    return cmocka_run_group_tests_name("rehearse", tests, NULL, NULL);
}
