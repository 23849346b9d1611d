/* test_teach.c - the real program plays three lessons on a terminal: right at once, after a wrong
 * answer and a hint, and a level's question; what was done is there again, for the coach too. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define ROLLING "Rolling in real time"

static const char *const WORDS[] = {"teach", NULL};

static void quit(Pty *pty)
{
    pty_type(pty, "q");
    pty_wait(pty);
    assert_true(WIFEXITED(pty->status));
    assert_int_equal(WEXITSTATUS(pty->status), 0);
    pty_expect_restored(pty);
}

/* Whether it was ever sent, even if the screen has moved on. */
static bool came(const Pty *pty, const char *text)
{
    size_t length = strlen(text), at = 0;
    while (at + length <= pty->raw_size && memcmp(pty->raw + at, text, length) != 0)
        at++;
    return at + length <= pty->raw_size;
}

/* The shot on its way is ended by a key; one that had arrived already ignores it. */
static void see_the_shot(Pty *pty)
{
    pty_expect(pty, "feet on");
    pty_type(pty, " ");
    pty_expect_gone(pty, ROLLING);
    pty_type(pty, "\r");
    pty_expect(pty, "Where did the ball go?");
}

/* The question is another each time, so its answers are tried one by one. */
static void play_the_question(Pty *pty)
{
    pty_expect(pty, "Question of level 1");
    see_the_shot(pty);
    pty_type(pty, "1");
    pty_expect_either(pty, "Yes, that's what it did", "Look again");
    if (strstr(pty_text(pty), "Look again"))
        pty_type(pty, "3");
    pty_expect(pty, "Yes, that's what it did");
    for (const char *choice = "1234"; *choice; choice++) {
        pty_type(pty, (char[]){*choice, '\0'});
        pty_expect_either(pty, "None of the others does as well", "Does another one do better?");
        if (strstr(pty_text(pty), "None of the others does as well"))
            break;
        pty_type(pty, "\r");
        pty_expect_gone(pty, "Does another one do better?");
    }
    pty_expect(pty, "None of the others does as well");
    pty_type(pty, "\r");
    pty_expect(pty, "Feet go toward the miss, eyes away from it.");
    pty_type(pty, "\r");
    pty_expect_either(pty, "Right at once.", "The ball is a good teacher.");
}

static void three_lessons(int columns, int rows)
{
    Pty pty;
    pty_start_words(&pty, columns, rows, WORDS);
    pty_expect(&pty, "Lessons: a new name");
    pty_type(&pty, "Kai\r");
    pty_expect(&pty, "One board of feet is three at the pins");
    pty_type(&pty, "\r");
    pty_expect(&pty, "1-2-4 stand"); /* it has rolled to the pins by itself */
    assert_true(came(&pty, ROLLING));
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
    see_the_shot(&pty);
    pty_type(&pty, "1");
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

    pty_type(&pty, "jjjjj\r");
    play_the_question(&pty);
    pty_type(&pty, "c");
    pty_expect_either(&pty, "1  Boards and arrows                 2 of  7        1  not yet",
                      "1  Boards and arrows                 2 of  7        1  right");
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
