/* test_command.c - settee rack, by the real program. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#include <cjson/cJSON.h>

#include "core/pins/rack.h"

/* Exit status; what it printed into `out`. */
static int run(const char *words, char *out, size_t size)
{
    char line[512];
    snprintf(line, sizeof line, "'%s' %s 2>&1", SETTEE_BINARY, words);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    size_t used = fread(out, 1, size - 1, pipe);
    out[used] = '\0';
    int status = pclose(pipe);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

static char out[1 << 16];

static void json_is_the_table(void **state)
{
    (void)state;
    assert_int_equal(
        run("rack --board 17 --degrees 4 --mph 17 --pounds 14 --json", out, sizeof out), 0);
    cJSON *object = cJSON_Parse(out);
    assert_non_null(object);
    RackChances chances;
    rack_chances(17.0, 4.0, 17.0, 14.0, &chances);
    assert_near(cJSON_GetObjectItem(object, "strike")->valuedouble, chances.strike, 1e-4);
    assert_near(cJSON_GetObjectItem(object, "pinfall")->valuedouble, chances.pinfall, 1e-3);
    cJSON *leaves = cJSON_GetObjectItem(object, "leaves"), *leave;
    int i = 0;
    cJSON_ArrayForEach(leave, leaves)
    {
        Pins pins = 0;
        cJSON *pin;
        cJSON_ArrayForEach(pin, cJSON_GetObjectItem(leave, "pins")) pins |= pin_bit(pin->valueint);
        assert_int_equal(pins, chances.leave[i]);
        assert_near(cJSON_GetObjectItem(leave, "p")->valuedouble, chances.leave_chance[i], 1e-4);
        i++;
    }
    assert_true(i >= 5 && i <= chances.leave_count);
    cJSON_Delete(object);
}

/* A junior's ball reaches the pins at 7 or 8 mph; none does at 5. */
static void slow_balls(void **state)
{
    (void)state;
    assert_int_equal(run("rack --board 17.5 --degrees 3 --mph 7.5 --pounds 8", out, sizeof out), 0);
    assert_int_equal(run("rack --board 17.5 --degrees 3 --mph 6", out, sizeof out), 0);
    assert_int_equal(run("rack --board 17.5 --degrees 3 --mph 5.9", out, sizeof out), 2);
    assert_non_null(strstr(out, "from 6 to 28 mph"));
    assert_int_equal(run("roll --mph 7.5", out, sizeof out), 2); /* at release */
    assert_non_null(strstr(out, "from 8 to 28 mph"));
}

static void table_for_people(void **state)
{
    (void)state;
    assert_int_equal(run("rack --board 17 --degrees 4", out, sizeof out), 0);
    assert_non_null(strstr(out, "Strike"));
    assert_non_null(strstr(out, "Pinfall"));
    assert_non_null(strstr(out, "\n  10 "));
    for (char *line = strtok(out, "\n"); line; line = strtok(NULL, "\n"))
        assert_true(strlen(line) <= 80);
}

static void wrong_usage(void **state)
{
    (void)state;
    const char *const words[] = {"rack",
                                 "rack --board 17",
                                 "rack --degrees 4",
                                 "rack --board 40 --degrees 4",
                                 "rack --board 17 --degrees 16",
                                 "rack --board 17 --degrees 4 --pounds 17",
                                 "rack --board 17 --degrees 4 --stance 20"};
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        assert_int_equal(run(words[i], out, sizeof out), 2);
        assert_true(strncmp(out, "settee: ", 8) == 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_is_the_table),
        cmocka_unit_test(slow_balls),
        cmocka_unit_test(table_for_people),
        cmocka_unit_test(wrong_usage),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
