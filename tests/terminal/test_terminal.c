/* test_terminal.c - the real program in a terminal: it starts, takes shots, answers, resizes, gives
 * the terminal back whatever ends it, and writes nothing that need not be written. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

/* Advice is there when it says how sure it is. */
static void expect_adjustment(Pty *pty)
{
    pty_expect_either(pty, "a guess", "sure");
    pty_quiet(pty);
    pty_expect_either(pty, "a guess", "sure");
}

/* What stands at the right of the screen under "Throw". */
static char *throw_panel(Pty *pty)
{
    char *out = calloc(1, 16384);
    assert_non_null(out);
    for (int row = 1; row < pty->rows - 3; row++) {
        VTermRect rect = {.start_row = row,
                          .end_row = row + 1,
                          .start_col = pty->columns - 27,
                          .end_col = pty->columns};
        size_t used = strlen(out);
        size_t n = vterm_screen_get_text(pty->screen, out + used, 16384 - used - 2, rect);
        out[used + n] = '\n';
    }
    return out;
}

static void a_game_is_logged(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "Throw");
    expect_adjustment(&pty);
    assert_true(pty.alternate);
    assert_false(pty_cursor_shown(&pty));
    char *before = throw_panel(&pty);
    static const char *const SHOTS[] = {"heg4\r", "heg36\r", "heg4\r", "neg46\r", "heg4\r"};
    for (int i = 0; i < 5; i++) {
        char frame[32];
        pty_type(&pty, SHOTS[i]);
        snprintf(frame, sizeof frame, "frame %d", i + 2);
        pty_expect(&pty, frame);
        pty_expect(&pty, i == 3 ? "nose" : "high");
    }
    expect_adjustment(&pty);
    char *after = throw_panel(&pty);
    assert_string_not_equal(before, after);
    free(before);
    free(after);
    pty_type(&pty, "u");
    pty_expect(&pty, "frame 5");
    pty_type(&pty, "h");
    pty_expect(&pty, "e early");
    pty_quiet(&pty);
    assert_true(pty_cursor_shown(&pty)); /* on the field being filled in */
    pty_type(&pty, "\033");
    pty_expect(&pty, "q quit");
    pty_resize(&pty, 40, 12);
    pty_expect(&pty, "lane 17 L");
    pty_resize(&pty, 40, 11);
    pty_expect(&pty, "settee needs 40x12");
    pty_resize(&pty, 120, 40);
    pty_expect(&pty, "What your shots say");
    pty_type(&pty, "q");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    assert_int_equal(WEXITSTATUS(pty.status), 0);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

static void starts_large(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 120, 40, NULL);
    expect_adjustment(&pty);
    pty_expect(&pty, "What your shots say");
    pty_type(&pty, "?");
    pty_expect(&pty, "Log a shot, first key");
    pty_type(&pty, "q");
    pty_expect(&pty, "Throw");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* Bytes from a quiet screen to the end, with some keys typed that change nothing before. */
static size_t bytes_to_the_end(const char *keys)
{
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    expect_adjustment(&pty);
    pty_type(&pty, "z"); /* takes a message away, if there was one */
    pty_quiet(&pty);
    size_t before = pty.raw_size;
    pty_type(&pty, keys);
    assert_int_equal(pty_quiet(&pty), 0);
    pty_type(&pty, "q");
    pty_wait(&pty);
    size_t bytes = pty.raw_size - before;
    pty_end(&pty);
    return bytes;
}

static void an_unchanged_screen_costs_no_byte(void **state)
{
    (void)state;
    size_t plain = bytes_to_the_end(""), idle = bytes_to_the_end("zzzyyxx\r\r");
    assert_int_equal(plain, idle);
}

static void ended_by(int number)
{
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "Throw");
    assert_true(pty.alternate);
    kill(pty.pid, number);
    pty_wait(&pty);
    pty_expect_restored(&pty);
    if (number != SIGSEGV) {
        assert_true(WIFSIGNALED(pty.status));
        assert_int_equal(WTERMSIG(pty.status), number);
    }
    pty_end(&pty);
}

static void signals_give_the_terminal_back(void **state)
{
    (void)state;
    ended_by(SIGTERM);
    ended_by(SIGHUP);
    ended_by(SIGINT);
    ended_by(SIGSEGV);
}

static void stopped_and_continued(void **state)
{
    (void)state;
    Pty pty;
    pty_start_under_shell(&pty, 80, 24);
    expect_adjustment(&pty);
    pty_type(&pty, "\032"); /* ^Z */
    pty_expect_stopped(&pty);
    pty_expect_restored(&pty);
    assert_null(strstr(pty_text(&pty), "Throw"));
    pty_go_on(&pty);
    pty_expect(&pty, "Throw"); /* what is typed before that is dropped, as by any program */
    pty_expect(&pty, "q quit");
    pty_quiet(&pty);
    assert_true(pty.alternate);
    pty_type(&pty, "h");
    pty_expect(&pty, "e early");
    pty_type(&pty, "\033");
    pty_expect(&pty, "q quit");
    pty_type(&pty, "q");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    assert_int_equal(WEXITSTATUS(pty.status), 0);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

static bool modes_are(Pty *pty, const void *modes)
{
    const struct termios *wanted = modes;
    struct termios now;
    return tcgetattr(pty->slave, &now) == 0 && now.c_lflag == wanted->c_lflag &&
           now.c_iflag == wanted->c_iflag && now.c_oflag == wanted->c_oflag;
}

/* SIGSTOP can't be caught, so nothing is tidied up before it; after it the shell's modes are on. */
static void stopped_without_notice(void **state)
{
    (void)state;
    Pty pty;
    struct termios running;
    pty_start_under_shell(&pty, 80, 24);
    expect_adjustment(&pty);
    assert_int_equal(tcgetattr(pty.slave, &running), 0);
    assert_int_equal(kill(-tcgetpgrp(pty.master), SIGSTOP), 0);
    pty_expect_stopped(&pty);
    assert_false(modes_are(&pty, &running));
    pty_go_on(&pty);
    pty_expect_that(&pty, modes_are, &running, "in the program's modes", "the shell's stayed");
    pty_quiet(&pty);
    pty_type(&pty, "h");
    pty_expect(&pty, "e early");
    pty_type(&pty, "\033");
    pty_expect(&pty, "q quit");
    pty_type(&pty, "q");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    pty_expect_restored(&pty);
    pty_end(&pty);
}

static void control_c_ends_it(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "Throw");
    pty_type(&pty, "\003");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* Whether a colour is set anywhere: SGR 30..49 and 90..107. */
static int colours_set(const Pty *pty)
{
    int count = 0;
    for (size_t i = 0; i + 2 < pty->raw_size; i++) {
        if (pty->raw[i] != 0x1b || pty->raw[i + 1] != '[')
            continue;
        size_t at = i + 2;
        int number = 0, colours = 0;
        for (; at < pty->raw_size && (pty->raw[at] < 0x40 || pty->raw[at] > 0x7e); at++) {
            if (pty->raw[at] >= '0' && pty->raw[at] <= '9') {
                number = number * 10 + (pty->raw[at] - '0');
                continue;
            }
            colours += (number >= 30 && number <= 49) || (number >= 90 && number <= 107);
            number = 0;
        }
        colours += (number >= 30 && number <= 49) || (number >= 90 && number <= 107);
        if (at < pty->raw_size && pty->raw[at] == 'm')
            count += colours;
    }
    return count;
}

static void no_color_is_obeyed(void **state)
{
    (void)state;
    for (int plain = 0; plain < 2; plain++) {
        static const char *const SETTINGS[] = {"NO_COLOR=1", NULL};
        Pty pty;
        pty_start(&pty, 80, 24, plain ? SETTINGS : NULL);
        expect_adjustment(&pty);
        pty_type(&pty, "TTT"); /* other themes: still none */
        pty_type(&pty, "heg4\r");
        pty_expect(&pty, "frame 2");
        pty_type(&pty, "q");
        pty_wait(&pty);
        if (plain)
            assert_int_equal(colours_set(&pty), 0);
        else
            assert_true(colours_set(&pty) > 10); /* the check can see colours */
        pty_end(&pty);
    }
}

static void ascii_where_the_locale_says_so(void **state)
{
    (void)state;
    static const char *const SETTINGS[] = {"LC_ALL=C", NULL};
    Pty pty;
    pty_start(&pty, 80, 24, SETTINGS);
    expect_adjustment(&pty);
    pty_type(&pty, "log4\r");
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "?");
    pty_expect(&pty, "Log a shot, first key");
    pty_type(&pty, "qq");
    pty_wait(&pty);
    for (size_t i = 0; i < pty.raw_size; i++)
        assert_true(pty.raw[i] < 0x80);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* An unknown key of the terminal is no shot, and Esc alone is Esc. */
static void unknown_sequences_are_no_keys(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    expect_adjustment(&pty);
    pty_type(&pty, "\033[57;9u\033[1;7Z\033f");
    pty_quiet(&pty);
    assert_non_null(strstr(pty_text(&pty), "frame 1"));
    assert_non_null(strstr(pty_text(&pty), "g gutter"));
    pty_type(&pty, "h");
    pty_expect(&pty, "e early");
    pty_type(&pty, "\033");
    pty_expect(&pty, "g gutter");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

static void terminals_with_few_colours(void **state)
{
    (void)state;
    static const char *const TERMS[] = {"TERM=linux", "TERM=vt100", "TERM=xterm-16color",
                                        "TERM=screen", "TERM=xterm-direct"};
    for (size_t i = 0; i < sizeof TERMS / sizeof *TERMS; i++) {
        const char *settings[] = {TERMS[i], NULL};
        Pty pty;
        pty_start(&pty, 80, 24, settings);
        pty_expect(&pty, "Throw");
        pty_type(&pty, "q");
        pty_wait(&pty);
        assert_true(WIFEXITED(pty.status));
        assert_int_equal(WEXITSTATUS(pty.status), 0);
        pty_end(&pty);
    }
}

/* One that nobody has described, and one that only prints line after line. */
static void a_terminal_without_screens_is_said(void **state)
{
    (void)state;
    static const char *const SETTINGS[][2] = {{"TERM=no-such-terminal", NULL}, {"TERM=dumb", NULL}};
    static const char *const SAID[] = {"settee: the terminal \"no-such-terminal\" is not known",
                                       "settee: the terminal \"dumb\" can't move its cursor"};
    for (int i = 0; i < 2; i++) {
        Pty pty;
        pty_start(&pty, 80, 24, SETTINGS[i]);
        pty_wait(&pty);
        assert_true(WIFEXITED(pty.status));
        assert_int_equal(WEXITSTATUS(pty.status), 1);
        assert_non_null(strstr(pty_text(&pty), SAID[i]));
        pty_expect_restored(&pty);
        pty_end(&pty);
    }
}

static void nothing_entered_is_lost_to_a_kill(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    expect_adjustment(&pty);
    pty_type(&pty, "neg46\r");
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "log\r");
    pty_expect(&pty, "frame 3");
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "frame 3");
    pty_expect(&pty, "nose  early 4-6");
    pty_type(&pty, "u"); /* and it can still be taken back */
    pty_expect(&pty, "frame 2");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* The settings file in the test's home, heap; NULL: there is none. */
static char *settings_of(const Pty *pty)
{
    char path[128];
    snprintf(path, sizeof path, "%s/settee/settings.json", pty->home);
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = calloc(1, 512);
    assert_non_null(text);
    assert_true(fread(text, 1, 511, file) < 511);
    fclose(file);
    return text;
}

static bool has_settings(Pty *pty, const void *expected)
{
    char *text = settings_of(pty);
    bool same = text && strcmp(text, expected) == 0;
    free(text);
    return same;
}

static void expect_settings(Pty *pty, const char *expected)
{
    pty_expect_that(pty, has_settings, expected, "that of settings", expected);
}

/* Types T, and a key behind it by which one sees that it was taken. */
static void change_theme(Pty *pty)
{
    pty_type(pty, "Th");
    pty_expect(pty, "e early");
    pty_type(pty, "\033");
    pty_expect_gone(pty, "e early");
}

static void the_theme_is_kept(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "q quit");
    assert_null(settings_of(&pty));
    change_theme(&pty);
    expect_settings(&pty, "{\"format\":\"settee-settings/1\",\"theme\":\"contrast\"}");
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "q quit");
    change_theme(&pty); /* from there on: it began with what was kept */
    expect_settings(&pty, "{\"format\":\"settee-settings/1\",\"theme\":\"dark\"}");
    char path[128];
    snprintf(path, sizeof path, "%s/settee/settings.json", pty.home);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    fputs("{\"theme\": \"light\"", file);
    assert_int_equal(fclose(file), 0);
    pty_kill_and_restart(&pty);
    pty_expect(&pty, "T and M are not saved: settings.json:1:");
    change_theme(&pty);
    expect_settings(&pty, "{\"theme\": \"light\""); /* not written over */
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* M is kept as T is; what the environment says is not, and M can't change it. */
static void motion_is_kept(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect_either(&pty, "a guess", "sure");
    pty_type(&pty, "R");
    pty_expect(&pty, "Rolling in real time");
    pty_type(&pty, "M");
    pty_expect(&pty, "Motion is off");
    expect_settings(&pty, "{\"format\":\"settee-settings/1\",\"theme\":\"\",\"motion\":\"off\"}");
    pty_kill_and_restart(&pty);
    pty_expect_either(&pty, "a guess", "sure");
    pty_type(&pty, "R");
    pty_expect(&pty, "to the pins; motion is off, M turns it on");
    pty_type(&pty, "M");
    pty_expect(&pty, "Motion is on");
    expect_settings(&pty, "{\"format\":\"settee-settings/1\",\"theme\":\"\"}");
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
    pty_start(&pty, 80, 24, (const char *const[]){"SETTEE_MOTION=off", NULL});
    pty_expect_either(&pty, "a guess", "sure");
    pty_type(&pty, "M");
    pty_expect(&pty, "Motion stays off: SETTEE_MOTION=off is set");
    assert_null(settings_of(&pty));
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

static void an_unseen_theme_is_not_kept(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, (const char *const[]){"NO_COLOR=1", NULL});
    pty_expect(&pty, "q quit");
    change_theme(&pty);
    assert_null(settings_of(&pty));
    pty_type(&pty, "T");
    pty_expect(&pty, "No colours are shown: NO_COLOR is set");
    assert_null(settings_of(&pty));
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

/* The disk is full after some shots: the screen goes on, says so, and asks before it quits. */
static void a_full_disk_is_said(void **state)
{
    (void)state;
    struct rlimit before, little;
    assert_int_equal(getrlimit(RLIMIT_FSIZE, &before), 0);
    little = (struct rlimit){.rlim_cur = 900, .rlim_max = before.rlim_max};
    signal(SIGXFSZ, SIG_IGN); /* the write fails instead; a child inherits both */
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &little), 0);
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    assert_int_equal(setrlimit(RLIMIT_FSIZE, &before), 0);
    signal(SIGXFSZ, SIG_DFL);
    expect_adjustment(&pty);
    for (int i = 0; i < 6; i++) {
        char frame[32];
        pty_type(&pty, "heg4\r");
        snprintf(frame, sizeof frame, "frame %d", i + 2);
        pty_expect(&pty, frame);
    }
    pty_expect(&pty, "NOT SAVED: can't be written: File too large; kept in memory");
    pty_type(&pty, "q");
    pty_expect(&pty, "Not everything is saved");
    pty_type(&pty, "y");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* Prints how long a key waits for the screen while advice is computed; asserts nothing about it. */
static void a_key_does_not_wait_for_advice(void **state)
{
    (void)state;
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    expect_adjustment(&pty);
    double worst = 0.0;
    for (int i = 0; i < 8; i++) {
        struct timespec a, b;
        pty_type(&pty, "heg4\r"); /* sets the engine to work */
        clock_gettime(CLOCK_MONOTONIC, &a);
        pty_type(&pty, "?");
        pty_expect(&pty, "Log a shot, first key");
        clock_gettime(CLOCK_MONOTONIC, &b);
        double ms = (double)(b.tv_sec - a.tv_sec) * 1e3 + (double)(b.tv_nsec - a.tv_nsec) * 1e-6;
        worst = ms > worst ? ms : worst;
        pty_type(&pty, "q");
        pty_expect(&pty, "Throw");
    }
    print_message("worst of 8 keys while calculating: %.1f ms from key to screen\n", worst);
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_game_is_logged),
        cmocka_unit_test(starts_large),
        cmocka_unit_test(an_unchanged_screen_costs_no_byte),
        cmocka_unit_test(signals_give_the_terminal_back),
        cmocka_unit_test(stopped_and_continued),
        cmocka_unit_test(stopped_without_notice),
        cmocka_unit_test(control_c_ends_it),
        cmocka_unit_test(no_color_is_obeyed),
        cmocka_unit_test(ascii_where_the_locale_says_so),
        cmocka_unit_test(unknown_sequences_are_no_keys),
        cmocka_unit_test(terminals_with_few_colours),
        cmocka_unit_test(a_terminal_without_screens_is_said),
        cmocka_unit_test(nothing_entered_is_lost_to_a_kill),
        cmocka_unit_test(the_theme_is_kept),
        cmocka_unit_test(motion_is_kept),
        cmocka_unit_test(an_unseen_theme_is_not_kept),
        cmocka_unit_test(a_full_disk_is_said),
        cmocka_unit_test(a_key_does_not_wait_for_advice),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
