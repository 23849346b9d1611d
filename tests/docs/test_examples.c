/* test_examples.c - the examples of README and docs against the real program, in a home and a
 * folder of their own: JSON blocks pass `settee check`, what a page says a command prints is what
 * it prints, lines of "sh" blocks run, and the keys of --json are those that are listed.
 *
 * SETTEE_GOLDEN_UPDATE=1 renews the outputs in the pages; read the difference before keeping it. */
#define _XOPEN_SOURCE 700 /* mkdtemp, nftw, setenv */
#include "near.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "docs/helper_page.h"
#include "played.h"
#include "store/files.h"

enum { OUTPUT_MAX = 1 << 16, LINE_MAX_BYTES = 512 };

/* Where a page's JSON block is saved: under its own name, or numbered within the page. */
static void json_path(const char *page_name, const Block *block, int number, char *out, size_t size)
{
    const char *base = strrchr(page_name, '/');
    if (block->name[0])
        snprintf(out, size, "%s/desk/%s", played_home, block->name);
    else
        snprintf(out, size, "%s/desk/%s-%d.json", played_home, base ? base + 1 : page_name, number);
}

static void unpack_json(const char *page_name)
{
    char *page = page_read(page_name), path[256];
    Block block;
    int number = 0;
    for (const char *at = page; page_block(&at, &block);) {
        if (strcmp(block.language, "json") != 0)
            continue;
        json_path(page_name, &block, number++, path, sizeof path);
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        size_t size = (size_t)(block.end - block.start);
        assert_int_equal(fwrite(block.start, 1, size, file), size);
        assert_int_equal(fclose(file), 0);
    }
    free(page);
}

/* The folder of the examples, and two events in the home that `settee review` looks back on. */
static int begin(void **state)
{
    if (played_begin(state) != 0 || mkdir(played_path("desk"), 0700) != 0 ||
        mkdir(played_path("desk/src"), 0700) != 0 ||
        symlink(SETTEE_BINARY, played_path("desk/settee")) != 0 ||
        symlink(SETTEE_BINARY, played_path("desk/src/start")) != 0)
        return 1;
    PageNames names = page_names();
    for (int i = 0; names.name[i][0]; i++)
        unpack_json(names.name[i]);
    played_event("config/settee/events/spring.json", "Spring doubles", "2026-04-11", "apron",
                 "demo");
    played_shots("spring", NULL, "xsxxnxsxxnXSXXSNXXSN", NULL);
    played_event("config/settee/events/may.json", "May singles", "2026-05-09", "parlour", "demo");
    played_shots("may", NULL, "xxsnxsxxsnXXXSXXXNSN", NULL);
    return 0;
}

static void json_passes_check(void **state)
{
    (void)state;
    PageNames names = page_names();
    int count = 0;
    for (int i = 0; names.name[i][0]; i++) {
        char *page = page_read(names.name[i]), path[256], line[ERROR_LINE_MAX];
        Block block;
        int number = 0;
        for (const char *at = page; page_block(&at, &block);) {
            const char *kind;
            Error error = {0};
            if (strcmp(block.language, "json") != 0)
                continue;
            json_path(names.name[i], &block, number++, path, sizeof path);
            count++;
            if (!files_check(path, &kind, &error)) {
                error_line(&error, line, sizeof line);
                fail_msg("%s, JSON block %d: %s", names.name[i], number, line);
            }
        }
        free(page);
    }
    assert_true(count >= 10);
}

/* Runs a line as a shell in the folder would; both outputs in `out`. Returns its exit status. */
static int run_line(const char *line, char *out, size_t size)
{
    char command[2 * LINE_MAX_BYTES];
    assert_true(snprintf(command, sizeof command,
                         "cd %s/desk && PATH=%s/desk:$PATH && export PATH && { %s\n} 2>&1",
                         played_home, played_home, line) < (int)sizeof command);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t used = fread(out, 1, size - 1, pipe);
    out[used] = '\0';
    return pclose(pipe);
}

static void add(char *text, const char *more, size_t size)
{
    size_t used = strlen(text);
    assert_true(used + size < PAGE_SIZE_MAX - 1);
    memcpy(text + used, more, size);
    text[used + size] = '\0';
}

/* The first lines of `text`, as many as `like` has, in bytes. */
static size_t as_many_lines(const char *text, const char *like, size_t like_size)
{
    const char *at = text;
    for (size_t i = 0; i < like_size; i++)
        if (like[i] == '\n' && strchr(at, '\n'))
            at = strchr(at, '\n') + 1;
    return (size_t)(at - text);
}

/* Each "$ command" of a page with what follows it, up to the next or the end of its block. A last
 * line "..." stands for all that the command prints from there on. Returns how many there were. */
static int console_of(const char *page_name, bool update)
{
    char *page = page_read(page_name), *renewed = calloc(1, PAGE_SIZE_MAX);
    char *out = malloc(OUTPUT_MAX);
    assert_true(renewed && out);
    const char *copied = page;
    int commands = 0;
    Block block;
    for (const char *at = page; page_block(&at, &block);) {
        if (strcmp(block.language, "console") != 0)
            continue;
        for (const char *line = block.start; line < block.end; commands++) {
            char command[LINE_MAX_BYTES];
            size_t size = strcspn(line, "\n");
            assert_true(strncmp(line, "$ ", 2) == 0 && size < sizeof command);
            snprintf(command, sizeof command, "%.*s", (int)size - 2, line + 2);
            const char *said = line + size + 1, *end = said;
            while (end < block.end && strncmp(end, "$ ", 2) != 0)
                end = strchr(end, '\n') + 1;
            bool part = end - said >= 4 && strncmp(end - 4, "...\n", 4) == 0;
            size_t told = (size_t)(end - said) - (part ? 4 : 0);
            run_line(command, out, OUTPUT_MAX);
            bool same = strncmp(said, out, told) == 0 && (part || out[told] == '\0');
            if (!same && !update)
                fail_msg("%s says of\n%s\n%.*s\nbut it prints\n%s", page_name, command, (int)told,
                         said, out);
            add(renewed, copied, (size_t)(said - copied));
            add(renewed, out, part ? as_many_lines(out, said, told) : strlen(out));
            copied = said + told;
            line = end;
        }
    }
    if (update && commands > 0) {
        add(renewed, copied, strlen(copied));
        page_write(page_name, renewed);
    }
    free(out);
    free(renewed);
    free(page);
    return commands;
}

static void console_blocks_are_real(void **state)
{
    (void)state;
    const char *renew = getenv("SETTEE_GOLDEN_UPDATE");
    PageNames names = page_names();
    int commands = 0;
    for (int i = 0; names.name[i][0]; i++)
        commands += console_of(names.name[i], renew && renew[0] == '1');
    assert_true(commands >= 12);
}

static void lines_of_shell_blocks_run(void **state)
{
    (void)state;
    static char out[OUTPUT_MAX];
    PageNames names = page_names();
    int lines = 0;
    for (int i = 0; names.name[i][0]; i++) {
        char *page = page_read(names.name[i]), line[LINE_MAX_BYTES];
        Block block;
        for (const char *at = page; page_block(&at, &block);) {
            if (strcmp(block.language, "sh") != 0)
                continue;
            for (const char *from = block.start; from < block.end; lines++) {
                size_t size = strcspn(from, "\n");
                assert_true(snprintf(line, sizeof line, "%.*s", (int)size, from) <
                            (int)sizeof line);
                if (run_line(line, out, sizeof out) != 0)
                    fail_msg("%s: %s\n%s", names.name[i], line, out);
                from += size + 1;
            }
        }
        free(page);
    }
    assert_true(lines >= 12);
}

/* Whether a text has this word, by itself. */
static bool has_word(const char *text, const char *word)
{
    static const char *const LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789_";
    size_t length = strlen(word);
    for (const char *at = strstr(text, word); at; at = strstr(at + 1, word))
        if (!strchr(LETTERS, at[length]) && (at == text || !strchr(LETTERS, at[-1])))
            return true;
    return false;
}

/* Every key a command prints with --json is on the page of formats. */
static void json_keys_are_listed(void **state)
{
    (void)state;
    static char out[OUTPUT_MAX];
    static const char *const COMMANDS[] = {"roll",
                                           "line --bag my-bag.json",
                                           "line --slot 1",
                                           "oil",
                                           "rack --board 17.5 --degrees 5",
                                           "spare 3 6 10",
                                           "spare 7 10",
                                           "score X 9 / 7 2",
                                           "advise --bag my-bag.json --shots my-shots.json",
                                           "rehearse --games 1 --player hold --costs",
                                           "rehearse --event spring --draws 2",
                                           "rehearse --games 1 --player hold --keep",
                                           "rehearse --history",
                                           "bag --pick 3 --games 2 --bag my-bag.json",
                                           "block --games 2 --bag my-bag.json",
                                           "card practice --bag my-bag.json",
                                           "home",
                                           "home copy bag demo other",
                                           "check my-bag.json",
                                           "teach list",
                                           "teach show small-moves",
                                           "teach check need-one",
                                           "log list",
                                           "log show spring",
                                           "log verify",
                                           "review",
                                           "help",
                                           "version",
                                           NULL};
    char *page = page_read("docs/files.md"), line[LINE_MAX_BYTES], key[64];
    char *listed = page_section(page, "\n## What `--json` prints\n");
    int keys = 0;
    for (int i = 0; COMMANDS[i]; i++) {
        snprintf(line, sizeof line, "settee %s --json", COMMANDS[i]);
        assert_int_equal(run_line(line, out, sizeof out), 0);
        for (const char *at = out; (at = strstr(at, "\":")); at++) {
            const char *start = at;
            while (start > out && start[-1] != '"')
                start--;
            snprintf(key, sizeof key, "%.*s", (int)(at - start), start);
            if (!has_word(listed, key))
                fail_msg("docs/files.md lacks the key \"%s\" of %s", key, line);
            keys++;
        }
    }
    assert_true(keys > 500);
    free(listed);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(json_passes_check),
        cmocka_unit_test(console_blocks_are_real),
        cmocka_unit_test(lines_of_shell_blocks_run),
        cmocka_unit_test(json_keys_are_listed),
    };
    return cmocka_run_group_tests(tests, begin, played_end);
}
