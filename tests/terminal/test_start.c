/* test_start.c - the real program from its start on: what is typed before it shows anything is
 * taken as if it had been typed later. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The demo's journal in the test's home, heap. */
static char *journal_of(const Pty *pty)
{
    enum { MOST = 4096 };
    char path[160];
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty->home);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = calloc(1, MOST);
    assert_non_null(text);
    assert_true(fread(text, 1, MOST - 1, file) < MOST - 1);
    fclose(file);
    return text;
}

static char *journal_of_a_shot(bool at_once)
{
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    if (!at_once)
        pty_expect_either(&pty, "a guess", "sure");
    pty_type(&pty, "heg4\r");
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "q");
    pty_wait(&pty);
    char *text = journal_of(&pty);
    pty_end(&pty);
    return text;
}

static void the_journal_knows_no_haste(void **state)
{
    (void)state;
    char *later = journal_of_a_shot(false), *at_once = journal_of_a_shot(true);
    assert_non_null(strstr(later, "\"kind\":\"shot\""));
    assert_string_equal(at_once, later);
    free(at_once);
    free(later);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_journal_knows_no_haste),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
