/* test_lost.c - a journal that vanishes under the real program, one that is nearly full, and a
 * program that is killed at any moment: no confirmed shot is lost. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "base/rng.h"
#include "store/journal_line.h"

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

/* Ends it by hand and lets it start on a journal of that many entries. */
static void start_with(Pty *pty, int entries)
{
    char path[160];
    pty_start(pty, 80, 24, NULL);
    pty_expect(pty, "q quit");
    pty_type(pty, "q");
    pty_wait(pty);
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty->home);
    FILE *file = fopen(path, "a");
    assert_non_null(file);
    for (int i = 1; i <= entries; i++) {
        Entry entry = {.kind = ENTRY_PLAN, .plan = {.slot = 1, .stance = 20 + i % 9, .aim = 10}};
        char *line = journal_entry_line(i, &entry);
        assert_non_null(line);
        fputs(line, file);
        free(line);
    }
    assert_int_equal(fclose(file), 0);
    pty_start_again(pty);
}

static void a_log_nearly_full_is_told(void **state)
{
    (void)state;
    enum { LEFT = 400 };
    Pty pty;
    start_with(&pty, SESSION_ENTRIES_MAX - SESSION_ROOM_FOR_SHOTS - LEFT - 1);
    pty_expect(&pty, "q quit");
    pty_type(&pty, "heg4\r");
    pty_expect(&pty, "This event's log has room for 400 more entries");
    pty_expect(&pty, "frame 2");
    pty_end(&pty);
}

/* Shots typed into a block, the program killed at a moment drawn by seed: what the screen had
 * confirmed is there at the next start, and at most one shot more. */
static int shots_in_journal(const Pty *pty)
{
    char path[160], line[4096];
    int shots = 0;
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty->home);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file))
        shots += strstr(line, "\"kind\":\"shot\"") && strchr(line, '\n');
    fclose(file);
    return shots;
}

static bool shows_frame(Pty *pty, int frame)
{
    char text[24];
    snprintf(text, sizeof text, "frame %d", frame);
    return strstr(pty_text(pty), text) != NULL;
}

static void a_killed_program_loses_no_shot(void **state)
{
    (void)state;
    static const char SHOT[] = "heg4\r";
    const char *said = getenv("SETTEE_KILLS");
    int kills = said ? atoi(said) : 24, shots = 0;
    Rng rng = rng_seed(20261126);
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    for (int kill_number = 0; kill_number < kills; kill_number++) {
        if (shots == 9) { /* another home: the tenth frame has rules of its own */
            pty_end(&pty);
            pty_start(&pty, 80, 24, NULL);
            shots = 0;
        }
        char frame[24];
        snprintf(frame, sizeof frame, "frame %d", shots + 1);
        pty_expect(&pty, frame);
        pty_type(&pty, SHOT);
        struct timespec moment = {.tv_nsec = (long)rng_between(&rng, 0.0, 1.2e8)};
        nanosleep(&moment, NULL);
        kill(pty.pid, SIGKILL); /* its screen is read up to there */
        pty_wait(&pty);
        tcflush(pty.slave, TCIFLUSH); /* keys that it had not read yet */
        bool confirmed = shows_frame(&pty, shots + 2);
        int kept = shots_in_journal(&pty);
        assert_in_range(kept, shots + confirmed, shots + 1);
        shots = kept;
        pty_start_again(&pty);
    }
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_deleted_journal_is_written_again),
        cmocka_unit_test(a_log_nearly_full_is_told),
        cmocka_unit_test(a_killed_program_loses_no_shot),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
