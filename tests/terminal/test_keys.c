/* test_keys.c - a file of own keys in the home: the program takes it, or says why not. */
#include "near.h"

#include <stdio.h>
#include <sys/stat.h>

#include "terminal/helper_pty.h"

static void write_keys(const Pty *pty, const char *keys)
{
    char path[128];
    snprintf(path, sizeof path, "%s/settee", pty->home);
    mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/settee/keys.json", pty->home);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fprintf(file, "{\"format\": \"settee-keys/1\", \"keys\": [\n%s\n]}\n", keys);
    assert_int_equal(fclose(file), 0);
}

static void own_keys_work(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "q quit");
    pty_expect(&pty, "u undo");
    write_keys(&pty, "{\"in\": \"lane\", \"action\": \"event-undo\", \"key\": \"z\"}");
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "z undo");
    pty_type(&pty, "hegx\r");
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "u"); /* does nothing now */
    pty_type(&pty, "z");
    pty_expect(&pty, "frame 1");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

static void faults_are_told_and_the_usual_keys_work(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "q quit");
    write_keys(&pty, "{\"in\": \"lane\", \"action\": \"event-undo\", \"key\": \"z\"},\n"
                     "{\"in\": \"lane\", \"action\": \"look-bag\", \"key\": \"z\"}");
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "Usual keys: keys.json:3: ");
    pty_expect(&pty, "u undo");
    pty_type(&pty, "B");
    pty_expect(&pty, "Enter edit");
    pty_type(&pty, "\033"); /* with a key right behind it, it would be Alt and that key */
    pty_expect_gone(&pty, "Enter edit");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(own_keys_work),
        cmocka_unit_test(faults_are_told_and_the_usual_keys_work),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
