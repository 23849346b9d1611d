/* test_teach.c - the real program plays three lessons on a terminal: right at once, after a wrong
 * answer and a hint, and a level's question; what was done is there again, for the coach too. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *const WORDS[] = {"teach", NULL};

static void quit(Pty *pty)
{
    pty_type(pty, "q");
    pty_wait(pty);
    assert_true(WIFEXITED(pty->status));
    assert_int_equal(WEXITSTATUS(pty->status), 0);
    pty_expect_restored(pty);
}

static void three_lessons(int columns, int rows)
{
    Pty pty;
    pty_start_words(&pty, columns, rows, WORDS);
    pty_expect(&pty, "Lessons: a new name");
    pty_type(&pty, "Kai\r");
    pty_expect(&pty, "One board of feet is three at the pins");
    pty_type(&pty, "\r");
    pty_expect(&pty, "feet on");
    pty_type(&pty, "\r");
    pty_expect(&pty, "Where did the ball go?");
    pty_type(&pty, "1");
    pty_expect(&pty, "Yes, that's what it did");
    pty_type(&pty, "1");
    pty_expect(&pty, "None of the others does as well");
    pty_type(&pty, "\r");
    pty_expect(&pty, "see-saw");
    pty_type(&pty, "\r");
    pty_expect(&pty, "Right at once.");

    pty_type(&pty, "\r"); /* the next one of the list */
    pty_expect(&pty, "the other way round");
    pty_type(&pty, "\r1");
    pty_expect(&pty, "Look again");
    pty_type(&pty, "h3");
    pty_expect(&pty, "Yes, that's what it did");
    pty_type(&pty, "1");
    pty_expect(&pty, "The same throw makes the same miss.");
    pty_expect(&pty, "Does another one do better?");
    pty_type(&pty, "\r");
    pty_expect(&pty, "What would you change?");
    pty_type(&pty, "2");
    pty_expect(&pty, "None of the others does as well");
    pty_type(&pty, "\r\r");
    pty_expect(&pty, "The ball is a good teacher.");

    pty_type(&pty, "jjjjj\r"); /* the question of level 1 */
    pty_expect(&pty, "Question of level 1");
    pty_expect(&pty, "feet on");
    pty_type(&pty, "\r1");
    pty_expect_either(&pty, "Yes, that's what it did", "Look again");
    pty_type(&pty, "\033");
    pty_expect(&pty, "2  Move toward the miss");
    pty_type(&pty, "c");
    pty_expect(&pty, "1  Boards and arrows                 2 of  7        1  not yet");
    quit(&pty);

    pty_start_again(&pty);
    pty_expect(&pty, "right hand, a straight ball; 2 of 38 lessons");
    quit(&pty);
    pty_end(&pty);
}

static void in_a_small_terminal(void **state)
{
    (void)state;
    three_lessons(80, 24);
}

static void in_a_large_terminal(void **state)
{
    (void)state;
    three_lessons(120, 40);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(in_a_small_terminal),
                                       cmocka_unit_test(in_a_large_terminal)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
