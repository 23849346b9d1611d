/* test_rehearse.c - a whole rehearsal of one game in the real program, at two sizes, by its
 * command and a block's two words. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdio.h>
#include <string.h>
#include <sys/wait.h>

static void choose_one_game(Pty *pty)
{
    pty_expect(pty, "Enter bowl");
    pty_type(pty, "jj-----"); /* down to the games, then as few as there are */
    pty_expect(pty, "Games of the block");
    pty_type(pty, "j---"); /* alone on the pair */
    pty_expect(pty, "Bowlers           1");
    pty_type(pty, "\r");
    pty_expect(pty, "The answers are hidden");
}

/* Ten to twelve first balls; then the page with the costs. */
static void bowl_to_the_end(Pty *pty)
{
    pty_type(pty, "\r");
    pty_expect(pty, "The ball is on its way");
    pty_expect(pty, "frame 2"); /* once it has come to the pins */
    for (int balls = 1; balls < 12 && !strstr(pty_text(pty), "what your decisions cost"); balls++) {
        pty_type(pty, "\r");
        pty_expect_either(pty, "The ball is on its way", "what your decisions cost");
        pty_type(pty, " ");
        pty_expect_either(pty, "what would you throw", "what your decisions cost");
    }
    pty_expect(pty, "what your decisions cost");
    pty_type(pty, "\r");
    pty_expect(pty, "Decisions cost ");
    pty_expect(pty, "The dearest decisions");
    pty_expect(pty, "settee rehearse --history");
    pty_type(pty, "q");
}

static void by_its_words(void **state)
{
    (void)state;
    static const char *const WORDS[] = {"rehearse", "demo", "--seed", "amber-otter", NULL};
    Pty pty;
    pty_start_words(&pty, 80, 24, WORDS);
    pty_expect(&pty, "amber-otter");
    choose_one_game(&pty);
    bowl_to_the_end(&pty);
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

static void by_its_words_in_a_large_window(void **state)
{
    (void)state;
    static const char *const WORDS[] = {"rehearse", "demo", "--seed", "7", NULL};
    Pty pty;
    pty_start_words(&pty, 120, 40, WORDS);
    choose_one_game(&pty);
    bowl_to_the_end(&pty);
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status) && WEXITSTATUS(pty.status) == 0);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(by_its_words),
                                       cmocka_unit_test(by_its_words_in_a_large_window)};
    return cmocka_run_group_tests_name("rehearse", tests, NULL, NULL);
}
