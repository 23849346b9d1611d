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

/* Each question is waited for, to the end of what stands in brackets: what is typed ahead is echoed
 * where it happens to come. */
static void answer(Pty *pty, const char *question, const char *keys)
{
    pty_expect(pty, question);
    pty_expect_end(pty, "]");
    pty_type(pty, keys);
}

/* From an empty home to the first answer: a bag and an event of one's own by answering questions,
 * a wrong answer asked again, no file written by hand. */
static void from_an_empty_home(void **state)
{
    (void)state;
    static const char *const BAG[] = {"new", "bag", "mine", NULL};
    static const char *const EVENT[] = {"new", "event", "night", NULL};
    static const char *const PLAY[] = {"night", NULL};
    Pty pty;
    pty_start_words(&pty, 80, 50, BAG);
    answer(&pty, "Your name? [You]", "Robin\r");
    answer(&pty, "hand? [right]", "both\r");
    answer(&pty, "allowed: right, left", "left\r");
    answer(&pty, "Level? [league]", "\r");
    answer(&pty, "Style? [tweener]", "\r");
    answer(&pty, "mph? [16.5]", "\r");
    answer(&pty, "minute? [306]", "\r");
    answer(&pty, "lb? [15]", "\r");
    answer(&pty, "[strong-solid,hybrid,weak-pearl,spare]", "benchmark, perl\r");
    answer(&pty, "did you mean 'pearl'?", "benchmark pearl plastic\r");
    pty_expect(&pty, "Next: settee new event");
    pty_expect(&pty, "Bag mine: Robin, left-handed, 16.5 mph, 306 rpm");
    pty_wait(&pty);
    pty.words = EVENT;
    pty_start_again(&pty);
    answer(&pty, "Date? [", "tomorrow\r");
    answer(&pty, "allowed: a day such as", "\r");
    answer(&pty, "[parlour]", "\r");
    answer(&pty, "Bag? [mine]", "\r");
    answer(&pty, "lanes? [1,2]", "17,18\r");
    answer(&pty, "Games? [3]", "\r");
    answer(&pty, "left)? [0]", "two\r");
    answer(&pty, "a whole number from 0 to 98", "-2\r");
    answer(&pty, "with you? [4]", "\r");
    answer(&pty, "change [yes]", "\r");
    answer(&pty, "game 1? [yes]", "no\r");
    pty_expect(&pty, "Start it: settee night");
    pty_expect(&pty, "Event night: parlour, bag mine, lanes 17 and 18, 3 games");
    pty_wait(&pty);
    pty.words = PLAY;
    pty_start_again(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    pty_expect(&pty, "Benchmark");
    pty_type(&pty, "ho6-10\r");
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* ^D at a question: nothing is written. */
static void leaving_the_questions_writes_nothing(void **state)
{
    (void)state;
    static const char *const BAG[] = {"new", "bag", "mine", NULL};
    Pty pty;
    pty_start_words(&pty, 80, 40, BAG);
    answer(&pty, "Your name? [You]", "Robin\r");
    answer(&pty, "hand? [right]", "\x04");
    pty_expect(&pty, "nothing was written");
    pty_wait(&pty);
    char path[160];
    snprintf(path, sizeof path, "%s/settee/bags/mine.json", pty.home);
    assert_null(fopen(path, "r"));
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_journal_knows_no_haste),
        cmocka_unit_test(from_an_empty_home),
        cmocka_unit_test(leaving_the_questions_writes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
