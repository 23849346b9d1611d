/* test_ending.c - whatever ends the real program, what the disk refused before and has room for now
 * is kept. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <signal.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>

/* Linux: the limits of another process. POSIX names no way to do so. */
extern int prlimit(pid_t pid, int resource, const struct rlimit *now, struct rlimit *before);

static struct rlimit room;

/* From here on every write of a file fails, as on a full disk. */
static void fill_disk(const Pty *pty)
{
    struct rlimit none;
    assert_int_equal(prlimit(pty->pid, RLIMIT_FSIZE, NULL, &room), 0);
    none = (struct rlimit){.rlim_cur = 1, .rlim_max = room.rlim_max};
    assert_int_equal(prlimit(pty->pid, RLIMIT_FSIZE, &none, NULL), 0);
}

static void free_disk(const Pty *pty)
{
    assert_int_equal(prlimit(pty->pid, RLIMIT_FSIZE, &room, NULL), 0);
}

/* A shot and an edit of the bag, neither of them taken by the disk. */
static void start_unsaved(Pty *pty)
{
    signal(SIGXFSZ, SIG_IGN); /* the write fails instead; the child inherits it */
    pty_start(pty, 80, 24, NULL);
    signal(SIGXFSZ, SIG_DFL);
    pty_expect(pty, "q quit");
    fill_disk(pty);
    pty_type(pty, "heg4\r");
    pty_expect(pty, "frame 2");
    pty_expect(pty, "NOT SAVED");
    pty_type(pty, "B\r14.5\r");
    pty_expect(pty, "14.5 lb");
    pty_expect(pty, "Not saved:");
}

static void expect_kept(Pty *pty)
{
    pty_start_again(pty);
    pty_expect(pty, "frame 2");
    pty_type(pty, "B\r");
    pty_expect(pty, "14.5");
    pty_end(pty);
}

static void quitting_keeps_it(void **state)
{
    (void)state;
    Pty pty;
    start_unsaved(&pty);
    free_disk(&pty);
    pty_type(&pty, "\033");
    pty_expect(&pty, "in the locker");
    pty_type(&pty, "q");
    pty_expect(&pty, "NOT SAVED");
    pty_type(&pty, "q");
    pty_expect(&pty, "Not everything is saved");
    pty_type(&pty, "y");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    assert_int_equal(WEXITSTATUS(pty.status), 0);
    expect_kept(&pty);
}

static void expect_ended_by(Pty *pty, int number)
{
    pty_wait(pty);
    pty_expect_restored(pty);
    assert_true(WIFSIGNALED(pty->status));
    assert_int_equal(WTERMSIG(pty->status), number);
    expect_kept(pty);
}

static void signals_keep_it(void **state)
{
    (void)state;
    const int NUMBERS[] = {SIGTERM, SIGHUP,  SIGINT,  SIGQUIT,   SIGUSR1, SIGUSR2,
                           SIGALRM, SIGXCPU, SIGPROF, SIGVTALRM, SIGPIPE, SIGRTMIN};
    for (size_t i = 0; i < sizeof NUMBERS / sizeof *NUMBERS; i++) {
        Pty pty;
        start_unsaved(&pty);
        free_disk(&pty);
        if (NUMBERS[i] == SIGINT)
            pty_type(&pty, "\003");
        else if (NUMBERS[i] == SIGQUIT)
            pty_type(&pty, "\034");
        else
            kill(pty.pid, NUMBERS[i]);
        expect_ended_by(&pty, NUMBERS[i]);
    }
}

/* With the disk full to the end: what is not saved is said where the shell shows it. */
static void what_is_lost_is_told(void **state)
{
    (void)state;
    Pty pty;
    start_unsaved(&pty);
    kill(pty.pid, SIGTERM);
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_expect(&pty, "settee: NOT SAVED: the last 1 entry of this event");
    pty_expect(&pty, "settee: NOT SAVED: the bag as you edited it");
    assert_true(WIFSIGNALED(pty.status));
    pty_end(&pty);
}

/* What is a fault of the program's ends it at once; the terminal is given back all the same. */
static void faults_give_the_terminal_back(void **state)
{
    (void)state;
    static const int NUMBERS[] = {SIGSYS, SIGTRAP, SIGABRT};
    for (size_t i = 0; i < sizeof NUMBERS / sizeof *NUMBERS; i++) {
        Pty pty;
        pty_start(&pty, 80, 24, NULL);
        pty_expect(&pty, "q quit");
        kill(pty.pid, NUMBERS[i]);
        pty_wait(&pty);
        pty_expect_restored(&pty);
        assert_true(WIFSIGNALED(pty.status));
        assert_int_equal(WTERMSIG(pty.status), NUMBERS[i]);
        pty_end(&pty);
    }
}

/* A shell and the kernel may both say, at any moment, that the terminal is gone. */
static void more_signals_wait(void **state)
{
    (void)state;
    Pty pty;
    start_unsaved(&pty);
    free_disk(&pty);
    siginfo_t info = {0};
    while (info.si_pid == 0) {
        kill(pty.pid, SIGHUP);
        assert_int_equal(waitid(P_PID, (id_t)pty.pid, &info, WEXITED | WNOHANG | WNOWAIT), 0);
    }
    expect_ended_by(&pty, SIGHUP);
}

int main(void)
{
    setrlimit(RLIMIT_CORE, &(struct rlimit){0}); /* the program inherits it */
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quitting_keeps_it),    cmocka_unit_test(signals_keep_it),
        cmocka_unit_test(what_is_lost_is_told), cmocka_unit_test(faults_give_the_terminal_back),
        cmocka_unit_test(more_signals_wait),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
