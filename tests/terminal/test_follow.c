/* test_follow.c - two programs on one event: the second shows what the first logs, as it is
 * logged, and enters nothing. */
#include "near.h"

#include "terminal/helper_pty.h"

#define ESC "\033"

static void both(Pty *first, Pty *second)
{
    pty_start(first, 80, 24, NULL);
    pty_expect_either(first, "a guess", "sure");
    pty_start_beside(second, 80, 24, first);
    pty_expect(second, "follows, read-only");
    pty_expect_either(second, "a guess", "sure");
}

static void end(Pty *first, Pty *second)
{
    pty_type(second, "q");
    pty_wait(second);
    pty_expect_restored(second);
    pty_type(first, "q");
    pty_wait(first);
    pty_end(second);
    pty_end(first);
}

static void shots_and_answers_follow(void **state)
{
    (void)state;
    Pty first, second;
    both(&first, &second);
    pty_expect(&second, "frame 1");
    pty_type(&first, "heg4\r");
    pty_expect(&first, "frame 2");
    pty_expect(&second, "frame 2");
    pty_expect(&second, "early");
    pty_expect_either(&second, "a guess", "sure");
    pty_type(&second, "fogx\r");
    pty_expect(&second, "read only: this event is open");
    pty_type(&second, ESC);
    pty_type(&first, "heg4\r");
    pty_expect(&second, "frame 3");
    pty_type(&first, "u"); /* what is taken back goes there too */
    pty_expect(&second, "frame 2");
    end(&first, &second);
}

/* What is looked at stays, and follows as well; a shot supposed there is not disturbed. */
static void other_screens_follow(void **state)
{
    (void)state;
    Pty first, second;
    both(&first, &second);
    pty_type(&second, "L");
    pty_expect(&second, "In a shot F marks a foul");
    pty_type(&first, "heg4\r");
    pty_expect(&second, "early");
    pty_expect(&second, "In a shot F marks a foul");
    pty_type(&second, ESC);
    pty_expect_gone(&second, "In a shot F marks a foul");
    pty_type(&second, "Wlog4\r");
    pty_expect(&second, "What if");
    pty_type(&first, "fogx\r");
    pty_expect(&first, "frame 3");
    pty_type(&second, ESC);
    pty_expect(&second, "frame 3");
    end(&first, &second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shots_and_answers_follow),
        cmocka_unit_test(other_screens_follow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
