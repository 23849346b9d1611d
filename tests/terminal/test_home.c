/* test_home.c - the real program from an empty home: the welcome, a bowler by presets, three balls,
 * a pattern, an event, the first shots; killed half-way and started again; Home. No file is written
 * by hand. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#define DOWN "\033OB"
#define RIGHT "\033OC"
#define ESC "\033"

enum { KEYS_AT_MOST = 60 };
static int keys;

/* Types keys one by one, so that they can be counted: an arrow is one. */
static void press(Pty *pty, const char *text)
{
    for (const char *at = text; *at; at++)
        keys += !(at[0] == 'O' && at > text && at[-1] == '\033') &&
                !(at - text >= 2 && at[-1] == 'O' && at[-2] == '\033');
    pty_type(pty, text);
}

static void answer(Pty *pty, const char *question, const char *typed)
{
    pty_expect(pty, question);
    press(pty, typed);
}

static const char *const NOTHING[] = {NULL};

static void start(Pty *pty)
{
    keys = 0;
    pty_start_words(pty, 80, 24, NOTHING);
}

static bool there(const Pty *pty, const char *below)
{
    char path[200];
    struct stat status;
    snprintf(path, sizeof path, "%s/%s", pty->home, below);
    return stat(path, &status) == 0;
}

/* From the welcome to a bag of three balls: a tournament bowler, a cranker. */
static void make_bag(Pty *pty)
{
    answer(pty, "Start an event", "\r");
    answer(pty, "step 1 of 3", DOWN RIGHT "\r"); /* from hand to level: tournament */
    answer(pty, "bowls events on sport patterns", RIGHT);
    pty_expect(pty, "cranker");
    answer(pty, "was tweener", "\r");
    pty_expect(pty, "430");
    press(pty, "\t");
    answer(pty, "0 balls in the bag", DOWN "\r");
    answer(pty, "1 ball in the bag", DOWN DOWN "\r");
    answer(pty, "2 balls in the bag", DOWN DOWN DOWN DOWN DOWN "\r");
    answer(pty, "3 balls in the bag", "\t");
    pty_expect(pty, "New event");
}

/* The event: its oil from the list, then on to the screen. */
static void make_event(Pty *pty)
{
    answer(pty, "Event of 20", DOWN DOWN "\r");
    answer(pty, "Choose for the event",
           DOWN DOWN DOWN DOWN DOWN DOWN DOWN "\r"); /* from the house shot */
    answer(pty, "latch", "\t");
    pty_expect(pty, "Latch");
}

static void from_the_welcome_to_the_first_answer(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    pty_expect(&pty, "Quit");
    assert_null(strstr(pty_text(&pty), "\u2026")); /* no row of it is cut off */
    make_bag(&pty);
    make_event(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    if (keys > KEYS_AT_MOST)
        fail_msg("%d keys to the first answer", keys);
    print_message("%d keys from the welcome to the first answer\n", keys);
    pty_expect(&pty, "Strong solid");
    pty_expect(&pty, "scored");
    press(&pty, "ho6-10\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 3");
    press(&pty, "q"); /* back to Home, which knows what was bowled */
    pty_expect(&pty, "Events 1");
    pty_expect(&pty, "Latch 34 ft");
    press(&pty, "q");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    assert_true(there(&pty, "settee/bags/mine.json"));
    pty_end(&pty);
}

/* Killed after the second ball: the bag is there, with two, and Home offers the event. Killed again
 * after a shot: it goes on where it was. */
static void killed_half_way(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    answer(&pty, "Start an event", "\r");
    answer(&pty, "step 1 of 3", "\t");
    answer(&pty, "0 balls in the bag", "\r");
    answer(&pty, "1 ball in the bag", DOWN "\r");
    pty_expect(&pty, "2 balls in the bag");
    pty_kill_and_restart(&pty);
    answer(&pty, "No event yet", "n");
    make_event(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "ho6-10\r");
    pty_expect(&pty, "frame 2");
    pty_kill_and_restart(&pty);
    answer(&pty, "Events 1", "\r");
    pty_expect(&pty, "frame 2");
    pty_expect(&pty, "Strong asymmetric");
    press(&pty, "q");
    answer(&pty, "Events 1", "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* Killed in the middle of a form: what was taken is offered, and gone once the form is done. */
static void a_half_filled_form_outlasts_a_kill(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    make_bag(&pty);
    answer(&pty, "Event of 20", "Spring\r");
    answer(&pty, "a day such as", DOWN DOWN DOWN DOWN DOWN "17,18\r");
    pty_expect(&pty, "to the right; -2: left");
    pty_kill_and_restart(&pty);
    answer(&pty, "Go on with the new event you were filling in?", "y");
    pty_expect(&pty, "step 3 of 3");
    pty_expect(&pty, "Spring");
    answer(&pty, "17,18", "\t");
    pty_expect_either(&pty, "a guess", "sure");
    assert_false(there(&pty, "settee/draft.json"));
    press(&pty, "q");
    answer(&pty, "Spring", "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* Three games on two pairs, a house shot nobody has the sheet of: warm-up, then the whole first
 * game, killed in the middle of it. */
static void warm_up_and_the_first_game(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    make_bag(&pty);
    answer(&pty, "House shot, no sheet", DOWN DOWN DOWN DOWN DOWN DOWN "17,18\r2\r\r" RIGHT "\r");
    answer(&pty, "G starts game 1", "\t");
    pty_expect_either(&pty, "a guess", "sure");
    answer(&pty, "warm-up", "ho6-10\r");
    answer(&pty, "Shot logged", "G");
    answer(&pty, "End the warm-up and start game 1?", "y");
    pty_expect(&pty, "game 1/3  frame 1");
    for (int i = 0; i < 5; i++)
        press(&pty, "fogx\r");
    pty_expect(&pty, "frame 6");
    pty_kill_and_restart(&pty);
    answer(&pty, "(120)", "\r"); /* five strikes and no other pin: 30 30 30 20 10 */
    pty_expect(&pty, "frame 6");
    for (int i = 0; i < 7; i++)
        press(&pty, "fogx\r");
    pty_expect(&pty, "frame 10 over");
    press(&pty, "G");
    answer(&pty, "Start the next game?", "y");
    pty_expect(&pty, "game 2/3  frame 1");
    pty_expect(&pty, "lane 19");
    press(&pty, "q");
    pty_expect(&pty, "House shot");
    answer(&pty, "300", "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* The same on 40 by 12, as on a phone: everything as is usual, a ball, the event, its first shot.
 */
static void from_an_empty_home_on_a_small_screen(void **state)
{
    (void)state;
    Pty pty;
    keys = 0;
    pty_start_words(&pty, 40, 12, NOTHING);
    answer(&pty, "Start an event", "s");
    answer(&pty, "step 1 of 3", "\t");
    answer(&pty, "0 balls in the bag", "\r");
    answer(&pty, "1 ball in the bag", "\t");
    answer(&pty, "Event of 20", "\t");
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "ho6-10\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "q");
    answer(&pty, "[Events 1]", "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* The demo says what it is, begins again at one key, and is not in the review. */
static void the_demo_counts_for_nothing(void **state)
{
    (void)state;
    static const char *const REVIEW[] = {"review", NULL};
    Pty pty;
    start(&pty);
    answer(&pty, "Look round", "d");
    pty_expect_either(&pty, "a guess", "sure");
    pty_expect(&pty, "demo  lane 17");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 2");
    answer(&pty, "Shot logged", "D");
    answer(&pty, "Begin the demo again?", "y");
    pty_expect(&pty, "frame 1");
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "q");
    answer(&pty, "There is nothing of yours here yet", "q");
    pty_wait(&pty);
    pty.words = REVIEW;
    pty_start_again(&pty);
    pty_expect(&pty, "no journal holds a shot but the demo's");
    pty_wait(&pty);
    pty_end(&pty);
}

/* Deleted on Home, it is in the trash with its log, and nothing else is touched. */
static void deleting_keeps_everything_in_the_trash(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    make_bag(&pty);
    make_event(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "q");
    answer(&pty, "Events 1", "x");
    answer(&pty, "and its log?", "y");
    pty_expect(&pty, "in the trash folder");
    pty_expect(&pty, "Events 0");
    assert_true(there(&pty, "settee/trash/events"));
    assert_true(there(&pty, "settee/bags/mine.json"));
    press(&pty, "\t");
    answer(&pty, "[Bags", "c");
    answer(&pty, "Name of the copy: mine-2", "\r");
    pty_expect(&pty, "Copied to mine-2");
    press(&pty, "p");
    pty_expect(&pty, "mine-2 is put away");
    press(&pty, "q");
    pty_wait(&pty);
    assert_true(there(&pty, "settee/bags/mine-2.json"));
    pty_end(&pty);
}

/* An event that was bowled with another bag than its own is not shown as one that has not begun. */
static void home_shows_what_was_bowled_with_any_bag(void **state)
{
    (void)state;
    static const char *const WITH_MINE_2[] = {"spring", "--bag", "mine-2", NULL};
    Pty pty;
    start(&pty);
    make_bag(&pty);
    answer(&pty, "Event of 20", "spring\t");
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "q");
    answer(&pty, "not begun", "\t");
    answer(&pty, "[Bags", "c");
    answer(&pty, "Name of the copy: mine-2", "\r");
    answer(&pty, "Copied to mine-2", "q");
    pty_wait(&pty);
    pty.words = WITH_MINE_2;
    pty_start_again(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "ho6-10\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "q");
    pty_wait(&pty);
    pty.words = NOTHING;
    pty_start_again(&pty);
    pty_expect(&pty, "mine-2 (8)");
    answer(&pty, "With other bags: mine-2 (8)", "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* Another program has the event open: it is shown as it stands, nothing is entered, and q leaves.
 */
static void the_second_on_an_event_only_reads(void **state)
{
    (void)state;
    Pty pty;
    char path[200];
    pty_start(&pty, 80, 24, NULL);
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 2");
    press(&pty, "q");
    pty_wait(&pty);
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty.home);
    int fd = open(path, O_RDONLY);
    assert_true(fd >= 0 && flock(fd, LOCK_EX | LOCK_NB) == 0);
    pty_start_again(&pty);
    pty_expect(&pty, "Read only: this event is open in another settee");
    pty_expect(&pty, "frame 2  follows, read-only");
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "fogx\r");
    pty_expect(&pty, "read only: this event is open");
    press(&pty, ESC);
    pty_expect_gone(&pty, "read only: this event is open");
    press(&pty, "1q");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    close(fd);
    pty_end(&pty);
}

/* Nothing can be written: it plays all the same, and says what is not kept. */
static void a_home_that_cannot_be_written_plays(void **state)
{
    (void)state;
    Pty pty;
    char folder[200], aside[200];
    pty_start(&pty, 80, 24, NULL);
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "q");
    pty_wait(&pty);
    snprintf(folder, sizeof folder, "%s/settee", pty.home);
    snprintf(aside, sizeof aside, "%s/aside", pty.home);
    assert_int_equal(rename(folder, aside), 0);
    fclose(fopen(folder, "w")); /* a file is in the way, which stops even root */
    pty_start_again(&pty);
    pty_expect(&pty, "What you log is NOT KEPT");
    pty_expect_either(&pty, "a guess", "sure");
    press(&pty, "fogx\r");
    pty_expect(&pty, "frame 2");
    pty_expect(&pty, "NOT SAVED: can't make the folder");
    press(&pty, "q");
    answer(&pty, "Not everything is saved", "y");
    pty_expect(&pty, "settee: NOT SAVED: the last 1 entry of this event");
    pty_wait(&pty);
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(from_the_welcome_to_the_first_answer),
        cmocka_unit_test(killed_half_way),
        cmocka_unit_test(a_half_filled_form_outlasts_a_kill),
        cmocka_unit_test(warm_up_and_the_first_game),
        cmocka_unit_test(from_an_empty_home_on_a_small_screen),
        cmocka_unit_test(the_demo_counts_for_nothing),
        cmocka_unit_test(deleting_keeps_everything_in_the_trash),
        cmocka_unit_test(home_shows_what_was_bowled_with_any_bag),
        cmocka_unit_test(the_second_on_an_event_only_reads),
        cmocka_unit_test(a_home_that_cannot_be_written_plays),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
