/* test_docs.c - the documents against the program: the rules' page holds every rule, sign and
 * action as they are; JSON in README and docs/files.md passes `settee check`; what README says a
 * command prints is what it prints; links resolve.
 *
 * SETTEE_GOLDEN_UPDATE=1 writes README's output blocks anew; read the difference. */
#define _XOPEN_SOURCE 700 /* mkdtemp, nftw */
#include "near.h"

#include <ftw.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"
#include "core/advice/rules.h"
#include "store/files.h"

#define SOURCE(name) SETTEE_SOURCE_DIR "/" name

enum { TEXT_MAX = 1 << 18, OUTPUT_MAX = 1 << 16 };

static const char *const PAGES[] = {
    "README.md",     "DEVELOPERS.md",    "docs/files.md", "docs/rules.md",
    "docs/model.md", "docs/accuracy.md", "docs/bag.md",   NULL};

static char *read_text(const char *name)
{
    char path[512];
    snprintf(path, sizeof path, "%s/%s", SETTEE_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    char *text = calloc(1, TEXT_MAX);
    assert_non_null(text);
    if (!file)
        fail_msg("%s is missing", path);
    size_t size = fread(text, 1, TEXT_MAX - 1, file);
    assert_true(size > 0 && size < TEXT_MAX - 1);
    fclose(file);
    return text;
}

static void write_text(const char *path, const char *text, size_t size)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(text, 1, size, file), size);
    assert_int_equal(fclose(file), 0);
}

static int remove_one(const char *path, const struct stat *status, int kind, struct FTW *walk)
{
    (void)status;
    (void)kind;
    (void)walk;
    return remove(path);
}

static void remove_folder(const char *path) { nftw(path, remove_one, 8, FTW_DEPTH | FTW_PHYS); }

/* The text from after `title` to the next title of its level. */
static char *section(const char *page, const char *title)
{
    const char *start = strstr(page, title);
    if (!start)
        fail_msg("no section \"%s\"", title);
    start += strlen(title);
    const char *end = strstr(start, "\n## ");
    size_t size = end ? (size_t)(end - start) : strlen(start);
    char *text = calloc(1, size + 1);
    assert_non_null(text);
    memcpy(text, start, size);
    return text;
}

static int rows_of(const char *text)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, "\n| `")); at++)
        count++;
    return count;
}

static void expect_row(const char *text, const char *row)
{
    if (!strstr(text, row))
        fail_msg("docs/rules.md lacks the row\n%s", row);
}

static void add_words(char *row, size_t size, const char *const *names, const int *list, int count)
{
    text_append(row, size, " ");
    for (int i = 0; i < count; i++)
        text_append(row, size, "%s%s", i ? ", " : "", names[list[i]]);
    text_append(row, size, " |");
}

static void rules_page_holds_every_rule(void **state)
{
    (void)state;
    static RuleSet rules;
    Error error = {0};
    assert_true(files_rules("coach", &rules, &error));
    char *page = read_text("docs/rules.md"), *text = section(page, "\n## Rules\n");
    for (int i = 0; i < rules.count; i++) {
        const Rule *rule = &rules.rules[i];
        char row[2048] = "";
        int list[RULE_ADJUSTMENTS_MAX];
        text_append(row, sizeof row, "\n| `%s` |", rule->id);
        for (int k = 0; k < rule->when_count; k++)
            list[k] = (int)rule->when[k];
        add_words(row, sizeof row, SIGN_NAMES, list, rule->when_count);
        for (int k = 0; k < rule->unless_count; k++)
            list[k] = (int)rule->unless[k];
        add_words(row, sizeof row, SIGN_NAMES, list, rule->unless_count);
        for (int k = 0; k < rule->try_count; k++)
            list[k] = (int)rule->try_[k];
        add_words(row, sizeof row, ADJUST_NAMES, list, rule->try_count);
        for (int k = 0; k < rule->avoid_count; k++)
            list[k] = (int)rule->avoid[k];
        add_words(row, sizeof row, ADJUST_NAMES, list, rule->avoid_count);
        assert_true(text_append(row, sizeof row, " %d | %s | %s |\n", rule->weight, rule->because,
                                rule->source));
        expect_row(text, row);
    }
    assert_int_equal(rows_of(text), rules.count);
    free(text);
    free(page);
}

static void rules_page_holds_every_sign_and_action(void **state)
{
    (void)state;
    char row[256], *page = read_text("docs/rules.md");
    char *signs = section(page, "\n## Signs\n"), *actions = section(page, "\n## Actions\n");
    for (int i = 0; i < SIGN_COUNT; i++) {
        snprintf(row, sizeof row, "\n| `%s` | %s | ", SIGN_NAMES[i], SIGN_WORDS[i]);
        expect_row(signs, row);
    }
    for (int i = 0; i < ADJUST_COUNT; i++) {
        snprintf(row, sizeof row, "\n| `%s` | %s | ", ADJUST_NAMES[i], ADJUST_WORDS[i]);
        expect_row(actions, row);
    }
    assert_int_equal(rows_of(signs), SIGN_COUNT);
    assert_int_equal(rows_of(actions), ADJUST_COUNT);
    free(signs);
    free(actions);
    free(page);
}

/* Every [words](target) that is not an address or a place on the page names a file that is there.
 */
static void links_resolve(void **state)
{
    (void)state;
    for (int i = 0; PAGES[i]; i++) {
        char *page = read_text(PAGES[i]), folder[256], path[1024];
        snprintf(folder, sizeof folder, "%s/%s", SETTEE_SOURCE_DIR, PAGES[i]);
        *strrchr(folder, '/') = '\0';
        for (const char *at = page; (at = strstr(at, "](")); at++) {
            size_t size = strcspn(at + 2, ")#\n");
            if (size == 0 || strncmp(at + 2, "http", 4) == 0)
                continue;
            snprintf(path, sizeof path, "%s/%.*s", folder, (int)size, at + 2);
            if (access(path, R_OK) != 0)
                fail_msg("%s links to %.*s, which is not there", PAGES[i], (int)size, at + 2);
        }
        free(page);
    }
}

/* A fenced block: where its text begins and ends, and what stands behind the fence. */
typedef struct Block {
    const char *start, *end; /* the end is the closing fence */
    char language[16], name[64];
} Block;

static bool next_block(const char **at, Block *block)
{
    const char *fence = strncmp(*at, "```", 3) == 0 ? *at : strstr(*at, "\n```");
    if (!fence)
        return false;
    fence += *fence == '\n';
    *block = (Block){.start = strchr(fence, '\n')};
    assert_non_null(block->start);
    block->start++;
    if (sscanf(fence + 3, "%15[^ \n] %63[^ \n]", block->language, block->name) < 1)
        block->language[0] = '\0';
    block->end = strstr(block->start, "\n```");
    assert_non_null(block->end);
    block->end++;
    *at = block->end + 3;
    return true;
}

/* Writes every JSON block of a page into a folder, unnamed ones by number; how many there are. */
static int unpack_json(const char *page, const char *folder)
{
    int count = 0;
    Block block;
    for (const char *at = page; next_block(&at, &block);) {
        if (strcmp(block.language, "json") != 0)
            continue;
        char path[256];
        count++;
        if (block.name[0])
            snprintf(path, sizeof path, "%s/%s", folder, block.name);
        else
            snprintf(path, sizeof path, "%s/block-%d.json", folder, count);
        write_text(path, block.start, (size_t)(block.end - block.start));
    }
    return count;
}

static void check_json_of(const char *page_name, int at_least)
{
    char folder[] = "/tmp/settee-docs-XXXXXX";
    assert_non_null(mkdtemp(folder));
    char *page = read_text(page_name);
    assert_true(unpack_json(page, folder) >= at_least);
    Block block;
    int number = 0;
    for (const char *at = page; next_block(&at, &block);) {
        if (strcmp(block.language, "json") != 0)
            continue;
        char path[256], line[ERROR_LINE_MAX];
        const char *kind;
        Error error = {0};
        number++;
        if (block.name[0])
            snprintf(path, sizeof path, "%s/%s", folder, block.name);
        else
            snprintf(path, sizeof path, "%s/block-%d.json", folder, number);
        if (!files_check(path, &kind, &error)) {
            error_line(&error, line, sizeof line);
            fail_msg("%s, JSON block %d: %s", page_name, number, line);
        }
    }
    free(page);
    remove_folder(folder);
}

static void json_of_readme_passes_check(void **state)
{
    (void)state;
    check_json_of("README.md", 4);
}

static void json_of_formats_passes_check(void **state)
{
    (void)state;
    check_json_of("docs/files.md", 6);
}

/* Runs a line of a console block as a shell in the folder would; both outputs in one. */
static void run_line(const char *folder, const char *line, char *out, size_t size)
{
    char command[2048];
    assert_true(snprintf(command, sizeof command,
                         "cd %s && PATH=%s:$PATH XDG_DATA_HOME=%s XDG_CONFIG_HOME=%s HOME=%s && "
                         "export PATH XDG_DATA_HOME XDG_CONFIG_HOME HOME && { %s ; } 2>&1",
                         folder, folder, folder, folder, folder, line) < (int)sizeof command);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    size_t used = fread(out, 1, size - 1, pipe);
    out[used] = '\0';
    pclose(pipe);
}

static void add(char *text, const char *more, size_t size)
{
    size_t used = strlen(text);
    assert_true(used + size < TEXT_MAX - 1);
    memcpy(text + used, more, size);
    text[used + size] = '\0';
}

/* Each "$ command" with what follows it, up to the next or the end. A last line "..." stands for
 * all that the command prints from there on. */
static void console_of_readme_is_real(void **state)
{
    (void)state;
    char folder[] = "/tmp/settee-docs-XXXXXX", path[256];
    assert_non_null(mkdtemp(folder));
    snprintf(path, sizeof path, "%s/settee", folder);
    assert_int_equal(symlink(SETTEE_BINARY, path), 0);
    snprintf(path, sizeof path, "%s/src", folder);
    assert_int_equal(mkdir(path, 0700), 0);
    snprintf(path, sizeof path, "%s/src/start", folder);
    assert_int_equal(symlink(SETTEE_BINARY, path), 0);
    char *page = read_text("README.md"), *anew = calloc(1, TEXT_MAX), *out = malloc(OUTPUT_MAX);
    assert_true(anew && out);
    unpack_json(page, folder);
    const char *renew = getenv("SETTEE_GOLDEN_UPDATE"), *copied = page;
    bool update = renew && renew[0] == '1';
    int commands = 0;
    Block block;
    for (const char *at = page; next_block(&at, &block);) {
        if (strcmp(block.language, "console") != 0)
            continue;
        for (const char *line = block.start; line < block.end;) {
            char command[512];
            size_t size = strcspn(line, "\n");
            assert_true(strncmp(line, "$ ", 2) == 0 && size < sizeof command);
            memcpy(command, line + 2, size - 2);
            command[size - 2] = '\0';
            const char *said = line + size + 1, *end = said;
            while (end < block.end && strncmp(end, "$ ", 2) != 0)
                end = strchr(end, '\n') + 1;
            run_line(folder, command, out, OUTPUT_MAX);
            bool part = end - said >= 4 && strncmp(end - 4, "...\n", 4) == 0;
            size_t told = (size_t)(end - said) - (part ? 4 : 0);
            bool same = strncmp(said, out, told) == 0 && (part || out[told] == '\0');
            if (!same && !update)
                fail_msg("README says of\n%s\n%.*s\nbut it prints\n%s", command, (int)told, said,
                         out);
            if (!same) { /* a part is cut where as many lines are told */
                size_t lines = 0, keep = strlen(out);
                for (size_t i = 0; part && i < told; i++)
                    lines += said[i] == '\n';
                for (size_t i = 0; part && out[i] && lines > 0; i++) {
                    lines -= out[i] == '\n';
                    keep = i + 1;
                }
                add(anew, copied, (size_t)(said - copied));
                add(anew, out, keep);
                copied = said + told;
            }
            commands++;
            line = end;
        }
    }
    assert_true(commands >= 5);
    if (update) {
        add(anew, copied, strlen(copied));
        write_text(SOURCE("README.md"), anew, strlen(anew));
    }
    free(out);
    free(anew);
    free(page);
    remove_folder(folder);
}

/* Every pattern that is carried is named where README lists them. */
static void readme_names_every_pattern(void **state)
{
    (void)state;
    char *page = read_text("README.md"), *text = section(page, "\n## Five minutes");
    char path[128], word[64], line[ERROR_LINE_MAX];
    FILE *list = popen("cd " SOURCE("patterns") " && ls *.json", "r");
    assert_non_null(list);
    int count = 0;
    while (fgets(path, sizeof path, list)) {
        *strstr(path, ".json") = '\0';
        snprintf(word, sizeof word, "`%.40s`", path);
        if (!strstr(text, word)) {
            snprintf(line, sizeof line, "README does not name the pattern %s", word);
            fail_msg("%s", line);
        }
        count++;
    }
    pclose(list);
    assert_true(count >= 12);
    free(text);
    free(page);
}

/* DEVELOPERS' map has every source file: its name without the ending, in backticks. */
static void map_names_every_file(void **state)
{
    (void)state;
    char *page = read_text("DEVELOPERS.md"), *map = section(page, "\n## Map\n");
    char path[128], word[64];
    FILE *list = popen("cd " SOURCE("src") " && ls base/*.[ch] core/*.[ch] store/*.[ch] ui/*.[ch] "
                                           "cli/*.[ch]",
                       "r");
    assert_non_null(list);
    int count = 0;
    for (; fgets(path, sizeof path, list); count++) {
        *strrchr(path, '.') = '\0';
        snprintf(word, sizeof word, "`%.40s`", strchr(path, '/') + 1);
        if (!strstr(map, word))
            fail_msg("DEVELOPERS.md's map lacks %s", word);
    }
    pclose(list);
    assert_true(count > 60);
    free(map);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rules_page_holds_every_rule),
        cmocka_unit_test(rules_page_holds_every_sign_and_action),
        cmocka_unit_test(links_resolve),
        cmocka_unit_test(json_of_readme_passes_check),
        cmocka_unit_test(json_of_formats_passes_check),
        cmocka_unit_test(console_of_readme_is_real),
        cmocka_unit_test(readme_names_every_pattern),
        cmocka_unit_test(map_names_every_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
