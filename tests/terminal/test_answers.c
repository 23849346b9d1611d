/* test_answers.c - what a terminal sends that nobody typed: answers to questions, reports of a
 * mouse, pasted text. None of it is a key. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

static void start(Pty *pty)
{
    pty_start(pty, 80, 24, NULL);
    pty_expect(pty, "q quit");
    pty_expect_either(pty, "a guess", "sure");
    pty_quiet(pty);
}

/* Then a shot is typed: it is the only entry, and it is as typed. */
static void expect_one_shot(Pty *pty, const char *after)
{
    char path[160], line[1024];
    int lines = 0;
    pty_type(pty, "heg4\r");
    pty_expect(pty, "frame 2");
    snprintf(path, sizeof path, "%s/settee/events/demo.journal", pty->home);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file))
        lines++;
    fclose(file);
    if (lines != 2 || !strstr(line, "\"kind\":\"shot\""))
        fail_msg("%d lines after %s, the last %s", lines, after, line);
    pty_end(pty);
}

static void answers_are_no_keys(void **state)
{
    (void)state;
    static const char *const ANSWERS[] = {
        "\033[<0;5;5M\033[<0;5;5m",             /* a mouse, as most report it */
        "\033[M !!",                            /* and as the oldest do */
        "\033[32;5;5M",                         /* and some between */
        "\033[?62;22c",                         /* what it is */
        "\033[5;10R",                           /* where the cursor is */
        "\033[?2026;2$y",                       /* which mode is on */
        "\033[I\033[O",                         /* focus */
        "\033P>|heg4\rheg4\r(1.2)\033\\",       /* its name */
        "\033P1$r0;heg4\rm\033\\",              /* a setting */
        "\033]11;rgb:1e1e/1e1e/heg4\r\033\\",   /* a colour */
        "\033]11;rgb:1e1e/1e1e/heg4\r\007",     /* the same, ended by a bell */
        "\033_Gi=31;heg4\r\033\\",              /* about pictures */
        "\033^heg4\r\033\\",                    /* a private message */
        "\033Xheg4\r\033\\",                    /* a string */
        "\302\233<0;5;5M\302\220heg4\r\302\234" /* by single characters */
    };
    for (size_t i = 0; i < sizeof ANSWERS / sizeof *ANSWERS; i++) {
        Pty pty;
        start(&pty);
        pty_type(&pty, ANSWERS[i]);
        pty_quiet(&pty);
        expect_one_shot(&pty, ANSWERS[i] + 1);
    }
}

/* In two parts, with a pause between, wherever they part after the first two characters. */
static void answers_in_parts(void **state)
{
    (void)state;
    static const char ANSWER[] = "\033]11;rgb:heg4/heg4\r\033\\";
    Pty pty;
    start(&pty);
    for (size_t part = 2; part + 2 < strlen(ANSWER); part += 5) {
        char first[64];
        snprintf(first, sizeof first, "%.*s", (int)part, ANSWER);
        pty_type(&pty, first);
        pty_quiet(&pty);
        pty_type(&pty, ANSWER + part);
        pty_quiet(&pty);
    }
    expect_one_shot(&pty, "parts");
}

static void many_reports_of_a_mouse(void **state)
{
    (void)state;
    enum { REPORTS = 4000 };
    Pty pty;
    start(&pty);
    for (int i = 0; i < REPORTS; i++)
        pty_type(&pty, "\033[<35;15;5M");
    expect_one_shot(&pty, "a mouse");
}

static void keys_are_still_keys(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    pty_type(&pty, "h");
    pty_expect(&pty, "e early");
    pty_type(&pty, "\033");
    pty_expect(&pty, "q quit");
    pty_type(&pty, "\033[?1;2c?"); /* the key after an answer */
    pty_expect(&pty, "Log a shot, first key");
    pty_type(&pty, "\033[6~");
    pty_expect_gone(&pty, "Log a shot, first key");
    pty_type(&pty, "\033[5~");
    pty_expect(&pty, "Log a shot, first key");
    pty_type(&pty, "\033");
    pty_expect(&pty, "q quit");
    expect_one_shot(&pty, "keys");
}

static void pasted_text_is_ignored(void **state)
{
    (void)state;
    Pty pty;
    start(&pty);
    pty_type(&pty, "\033[200~heg4\rheg4\r\033[A\033]11;\033[20\033[201~");
    pty_expect(&pty, "Pasted text was ignored");
    pty_expect(&pty, "frame 1");
    expect_one_shot(&pty, "paste");
}

static bool wrote(const Pty *pty, const char *bytes)
{
    size_t length = strlen(bytes);
    for (size_t i = 0; i + length <= pty->raw_size; i++)
        if (memcmp(pty->raw + i, bytes, length) == 0)
            return true;
    return false;
}

/* Pastes are marked while it runs and not after, whatever ends it; no mouse reports. */
static void modes_on_and_off(void **state)
{
    (void)state;
    static const int NUMBERS[] = {0, SIGTERM, SIGSEGV};
    for (size_t i = 0; i < sizeof NUMBERS / sizeof *NUMBERS; i++) {
        Pty pty;
        start(&pty);
        assert_true(wrote(&pty, "\033[?2004h"));
        assert_true(wrote(&pty, "\033[?1000l"));
        assert_false(wrote(&pty, "\033[?2004l"));
        if (NUMBERS[i])
            kill(pty.pid, NUMBERS[i]);
        else
            pty_type(&pty, "q");
        pty_wait(&pty);
        assert_true(wrote(&pty, "\033[?2004l"));
        pty_end(&pty);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_are_no_keys),     cmocka_unit_test(answers_in_parts),
        cmocka_unit_test(many_reports_of_a_mouse), cmocka_unit_test(keys_are_still_keys),
        cmocka_unit_test(pasted_text_is_ignored),  cmocka_unit_test(modes_on_and_off),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
