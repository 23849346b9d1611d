/* test_install.c - what `cmake --install` brings: a program that runs, a manual page without a
 * warning, and completions that are complete: groff, bash, zsh and fish themselves read them, and
 * are asked what they offer. The tables of commands and options say what must be there. */
#define _XOPEN_SOURCE 700 /* mkdtemp, popen */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "cli/cli.h"

enum { SAID_MAX = 1 << 16 };
static char root[] = "/tmp/settee-install-XXXXXX";

/* What a shell command prints, both streams; in static storage. `status` may be NULL. */
static const char *said_by(int *status, const char *command)
{
    static char said[SAID_MAX];
    char line[4096];
    assert_true((size_t)snprintf(line, sizeof line,
                                 "cd '%s' && PATH=\"$PWD/usr/bin:/usr/bin:/bin\" HOME=\"$PWD\" "
                                 "LC_ALL=C.UTF-8 && export PATH HOME LC_ALL && { %s\n} 2>&1",
                                 root, command) < sizeof line);
    FILE *pipe = popen(line, "r");
    assert_non_null(pipe);
    size_t size = fread(said, 1, sizeof said - 1, pipe);
    assert_true(size < sizeof said - 1);
    said[size] = '\0';
    int ended = pclose(pipe);
    if (status)
        *status = ended;
    else if (ended != 0)
        fail_msg("%s\nsaid: %s", command, said);
    return said;
}

static bool there(const char *program)
{
    char command[128];
    int status;
    snprintf(command, sizeof command, "command -v %s", program);
    said_by(&status, command);
    return status == 0;
}

static void needs(const char *program)
{
    if (there(program))
        return;
    print_message("no %s here: not checked\n", program);
    skip();
}

static int install_all(void **state)
{
    (void)state;
    char command[1024];
    if (!mkdtemp(root))
        return 1;
    snprintf(command, sizeof command, "DESTDIR='%s' '%s' --install '%s' --prefix /usr >/dev/null",
             root, SETTEE_CMAKE, SETTEE_BINARY_DIR);
    return system(command);
}

static int remove_all(void **state)
{
    (void)state;
    char command[256];
    snprintf(command, sizeof command, "rm -rf '%s'", root);
    return system(command);
}

static void everything_is_in_its_place(void **state)
{
    (void)state;
    static const char *const FILES[] = {"bin/settee",
                                        "share/man/man1/settee.1.gz",
                                        "share/bash-completion/completions/settee",
                                        "share/zsh/vendor-completions/_settee",
                                        "share/fish/vendor_completions.d/settee.fish",
                                        "share/doc/settee/README.md",
                                        "share/doc/settee/copyright",
                                        "share/doc/settee/changelog.gz",
                                        "share/doc/settee/docs/files.md"};
    for (size_t i = 0; i < sizeof FILES / sizeof *FILES; i++) {
        char path[256];
        snprintf(path, sizeof path, "%s/usr/%s", root, FILES[i]);
        if (access(path, R_OK) != 0)
            fail_msg("%s was not installed", FILES[i]);
    }
    assert_int_equal(strncmp(said_by(NULL, "settee version"), "settee ", 7), 0);
}

/* The section of a command ends where the next begins. */
static void page_has_every_command_and_option(void **state)
{
    (void)state;
    char *page = strdup(said_by(NULL, "gzip -dc usr/share/man/man1/settee.1.gz"));
    assert_non_null(page);
    CliCommand command;
    int options = 0;
    for (int i = 0; cli_command(i, &command); i++) {
        char heading[64];
        snprintf(heading, sizeof heading, "\n.SS \"settee%s%s", i ? " " : "",
                 i ? command.name : " [EVENT]");
        const char *start = strstr(page, heading);
        if (!start)
            fail_msg("the page lacks %s", heading + 1);
        const char *end = strstr(start + 4, "\n.S");
        assert_non_null(end);
        int found = 0;
        for (OptionId id = 0; id < OPTION_COUNT; id++) {
            char row[64];
            if (!(command.options & OPTION_BIT(id)))
                continue;
            snprintf(row, sizeof row, "\n.BR \\-\\-%s", option_name(id));
            for (char *dash = row + 10; (dash = strchr(dash, '-'));) { /* of --no-spare */
                memmove(dash + 1, dash, strlen(dash) + 1);
                *dash = '\\';
                dash += 2;
            }
            const char *at = start;
            do
                at = strstr(at + 1, row);
            while (at && at < end && !strchr(" \n", at[strlen(row)]));
            if (!at || at > end)
                fail_msg("%s lacks %s", heading + 1, row + 1);
            found++;
        }
        for (const char *at = start; (at = strstr(at + 1, "\n.BR \\-\\-")) && at < end; found--)
            ;
        assert_int_equal(found, 0); /* and no option that it does not take */
        options += (int)(command.options != 0);
    }
    assert_true(options > 10);
    free(page);
}

static void page_has_no_warning(void **state)
{
    (void)state;
    needs("groff");
    assert_string_equal(
        said_by(NULL, "gzip -dc usr/share/man/man1/settee.1.gz | groff -man -Tutf8 -ww -z"), "");
    needs("man");
    assert_string_equal(
        said_by(NULL, "man --warnings -l usr/share/man/man1/settee.1.gz >/dev/null"), "");
}

/* Whether `said` has that word as a line of its own, up to a tab, a [ or a =. */
static bool offers(const char *said, const char *word)
{
    size_t length = strlen(word);
    for (const char *at = said; (at = strstr(at, word)); at++)
        if ((at == said || at[-1] == '\n') && strchr("\t\n[=", at[length]))
            return true;
    return false;
}

/* Asked for each command, whose name stands between `before` and `after`, it prints its words in
 * lines. */
static void expect_options(const char *before, const char *after)
{
    CliCommand command;
    for (int i = 0; cli_command(i, &command); i++) {
        char line[1024];
        snprintf(line, sizeof line, "%s%s%s", before, i ? command.name : "demo", after);
        const char *said = said_by(NULL, line);
        int count = 0, wanted = 0;
        for (OptionId id = 0; id < OPTION_COUNT; id++) {
            char word[64];
            snprintf(word, sizeof word, "--%s", option_name(id));
            if (!(command.options & OPTION_BIT(id)))
                continue;
            wanted++;
            if (!offers(said, word))
                fail_msg("%s: no %s among\n%s", command.name, word, said);
        }
        for (const char *at = said; (at = strstr(at, "--")); at += 2)
            count += (at == said || at[-1] == '\n') && strncmp(at, "--help", 6) != 0;
        if (count != wanted)
            fail_msg("%s: %d options, not %d, among\n%s", command.name, count, wanted, said);
    }
}

static void expect_words(const char *script, const char *const *words)
{
    const char *said = said_by(NULL, script);
    for (; *words; words++)
        if (!offers(said, *words))
            fail_msg("no %s among\n%s", *words, said);
}

static void expect_commands(const char *script)
{
    CliCommand command;
    const char *words[64] = {"demo"}; /* an event, which settee itself names */
    int count = 1;
    for (int i = 1; cli_command(i, &command); i++)
        words[count++] = command.name;
    assert_true(count > 10 && count < 64);
    words[count] = NULL;
    expect_words(script, words);
}

static const char *const BAGS[] = {"demo", "demo-left", NULL};
static const char *const LANES[] = {"left", "right", NULL};
static const char *const LOGS[] = {"list", "show", "export", "verify", "repair", NULL};

#define BASH(words) BASH_FIRST words BASH_LAST
#define BASH_FIRST                                                                                 \
    "bash --norc -c '. usr/share/bash-completion/completions/settee; COMP_WORDS=(settee "
#define BASH_LAST                                                                                  \
    "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _settee; printf \"%s\\n\" \"${COMPREPLY[@]}\"'"

static void bash_completes(void **state)
{
    (void)state;
    needs("bash");
    assert_string_equal(said_by(NULL, "bash -n usr/share/bash-completion/completions/settee"), "");
    expect_options(BASH_FIRST, " --" BASH_LAST);
    expect_commands(BASH("\"\""));
    expect_words(BASH("line --bag \"\""), BAGS);
    expect_words(BASH("line --bag = de"), BAGS);
    expect_words(BASH("advise --lane ="), LANES);
    expect_words(BASH("log \"\""), LOGS);
}

/* zsh's own completion system needs a terminal; here it is asked what it would be told. */
#define ZSH(words, count) ZSH_FIRST words ZSH_LAST(count)
#define ZSH_FIRST                                                                                  \
    "zsh -f -c '_arguments() { print -rl -- \"$@\"; }; _files() { :; }; compadd() { print -rl "    \
    "-- ${(P)2}; }; _describe() { print -rl -- ${${(P)4}%%:*}; }; words=(settee "
#define ZSH_LAST(count) "); CURRENT=" count "; . usr/share/zsh/vendor-completions/_settee'"

static void zsh_completes(void **state)
{
    (void)state;
    needs("zsh");
    assert_string_equal(said_by(NULL, "zsh -n usr/share/zsh/vendor-completions/_settee"), "");
    expect_options(ZSH_FIRST, " --" ZSH_LAST("3"));
    expect_commands(ZSH("x", "2"));
}

#define FISH(words) FISH_FIRST words FISH_LAST
#define FISH_FIRST                                                                                 \
    "fish --no-config -c 'set fish_complete_path; source usr/share/fish/vendor_completions.d/"     \
    "settee.fish; complete -C \"settee "
#define FISH_LAST "\"'"

static void fish_completes(void **state)
{
    (void)state;
    needs("fish");
    assert_string_equal(
        said_by(NULL, "fish --no-execute usr/share/fish/vendor_completions.d/settee.fish"), "");
    expect_options(FISH_FIRST, " --" FISH_LAST);
    expect_commands(FISH(""));
    expect_words(FISH("line --bag "), BAGS);
    expect_words(FISH("advise --lane "), LANES);
    expect_words(FISH("log "), LOGS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(everything_is_in_its_place),
        cmocka_unit_test(page_has_every_command_and_option),
        cmocka_unit_test(page_has_no_warning),
        cmocka_unit_test(bash_completes),
        cmocka_unit_test(zsh_completes),
        cmocka_unit_test(fish_completes),
    };
    return cmocka_run_group_tests_name("install", tests, install_all, remove_all);
}
