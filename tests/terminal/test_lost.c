/* test_lost.c - a journal that vanishes under the real program: told on the screen, and no shot is
 * lost. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <unistd.h>

static void a_deleted_journal_is_written_again(void **state)
{
    (void)state;
    Pty pty;
    char path[160];
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "q quit");
    pty_type(&pty, "heg4\r");
    pty_expect(&pty, "frame 2");
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty.home);
    assert_int_equal(unlink(path), 0);
    pty_type(&pty, "hegx\r");
    pty_expect(&pty, "The journal's file was gone: all 2 entries are written again");
    pty_expect(&pty, "frame 3");
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "frame 3");
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_deleted_journal_is_written_again)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
