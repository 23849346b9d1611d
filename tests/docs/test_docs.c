/* test_docs.c - what the documents list is what the program has: rules, signs, adjustments,
 * patterns, keys, source files; links lead to a heading; README stays short; and the words are
 * those that a bowler or a programmer would use. */
#include "near.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/rules.h"
#include "docs/helper_page.h"
#include "store/builtin.h"
#include "store/files.h"

#define SOURCE(name) SETTEE_SOURCE_DIR "/" name

enum { README_LINES_MAX = 199 };

static int rows_of(const char *text)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, "\n| `")); at++)
        count++;
    return count;
}

static void expect_row(const char *page, const char *text, const char *row)
{
    if (!strstr(text, row))
        fail_msg("%s lacks the row\n%s", page, row);
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
    char *page = page_read("docs/rules.md"), *text = page_section(page, "\n## Rules\n");
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
        expect_row("docs/rules.md", text, row);
    }
    assert_int_equal(rows_of(text), rules.count);
    free(text);
    free(page);
}

static void rules_page_holds_every_sign_and_action(void **state)
{
    (void)state;
    char row[256], *page = page_read("docs/rules.md");
    char *signs = page_section(page, "\n## Signs\n"),
         *actions = page_section(page, "\n## Actions\n");
    for (int i = 0; i < SIGN_COUNT; i++) {
        const char *right = sign_words((Sign)i, HAND_RIGHT), *left = sign_words((Sign)i, HAND_LEFT);
        snprintf(row, sizeof row, "\n| `%s` | %s%s%s%s | ", SIGN_NAMES[i], right,
                 strcmp(left, right) == 0 ? "" : " (left-handed: ", left == right ? "" : left,
                 strcmp(left, right) == 0 ? "" : ")");
        expect_row("docs/rules.md", signs, row);
    }
    for (int i = 0; i < ADJUST_COUNT; i++) {
        snprintf(row, sizeof row, "\n| `%s` | %s | ", ADJUST_NAMES[i], ADJUST_WORDS[i]);
        expect_row("docs/rules.md", actions, row);
    }
    assert_int_equal(rows_of(signs), SIGN_COUNT);
    assert_int_equal(rows_of(actions), ADJUST_COUNT);
    free(signs);
    free(actions);
    free(page);
}

/* Every pattern that is carried has its row: name, length and note as in its file. */
static void patterns_page_holds_every_pattern(void **state)
{
    (void)state;
    char *page = page_read("docs/patterns.md"), row[512];
    int count = 0;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++) {
        static Pattern pattern;
        Error error = {0};
        if (strcmp(file->kind, "patterns") != 0)
            continue;
        assert_true(files_pattern(file->id, &pattern, &error));
        snprintf(row, sizeof row, "\n| `%s` | %g | %s |\n", file->id, pattern.length_ft,
                 pattern.note);
        expect_row("docs/patterns.md", page, row);
        count++;
    }
    assert_int_equal(rows_of(page), count);
    free(page);
}

/* The keys in the table of commands are in the page of screens: each letter, digit and sign. Second
 * keys that do the same, keys with a name and typed text are left out. */
static void screens_page_names_every_key(void **state)
{
    (void)state;
    char *page = page_read("docs/screens.md"), *table = page_read("src/ui/input/commands.def");
    char key[8];
    int count = 0;
    for (const char *at = table; (at = strstr(at, "\nCOMMAND(")); at++) {
        for (const char *pair = at + 1; *pair != '\n'; pair++) { /* 'a', 'z' */
            if (pair[0] != '\'' || strncmp(pair + 2, "', '", 4) != 0 || pair[7] != '\'')
                continue;
            if (pair[1] != ' ')
                for (int i = 0; i < 2; i++, count++) {
                    snprintf(key, sizeof key, "`%c`", pair[1 + 5 * i]);
                    if (!strstr(page, key))
                        fail_msg("docs/screens.md lacks the key %s", key);
                }
            break;
        }
    }
    assert_true(count > 100);
    free(table);
    free(page);
}

/* DEVELOPERS' map has every source file: its name without the ending, in backticks. */
static void map_names_every_file(void **state)
{
    (void)state;
    char *page = page_read("DEVELOPERS.md"), *map = page_section(page, "\n## Map\n");
    char path[128], word[64];
    FILE *list = popen("cd " SOURCE("src") " && find base core store ui cli tools -name '*.[ch]' "
                                           "-o -name '*.def' -o -name '*.inc'",
                       "r");
    assert_non_null(list);
    int count = 0;
    for (; fgets(path, sizeof path, list); count++) {
        path[strcspn(path, "\n")] = '\0';
        char *name = strrchr(path, '/') + 1, *dot = strrchr(name, '.');
        if (strcmp(dot, ".c") == 0 || strcmp(dot, ".h") == 0)
            *dot = '\0';
        snprintf(word, sizeof word, "`%.40s`", name);
        if (!strstr(map, word))
            fail_msg("DEVELOPERS.md's map lacks %s", word);
    }
    pclose(list);
    assert_true(count > 100);
    free(map);
    free(page);
}

/* The name that a heading has in a link: "## Names, and your home" is names-and-your-home. */
static void slug_of(const char *heading, size_t length, char *out, size_t size)
{
    size_t used = 0;
    for (size_t i = 0; i < length && used < size - 1; i++) {
        unsigned char c = (unsigned char)heading[i];
        if (isalnum(c) || c == '-' || c == '_')
            out[used++] = (char)tolower(c);
        else if (c == ' ')
            out[used++] = '-';
    }
    out[used] = '\0';
}

static bool has_heading(const char *page, const char *slug)
{
    char own[128];
    for (const char *at = strstr(page, "\n#"); at; at = strstr(at + 1, "\n#")) {
        const char *words = at + 1 + strspn(at + 1, "#") + 1;
        slug_of(words, strcspn(words, "\n"), own, sizeof own);
        if (strcmp(own, slug) == 0)
            return true;
    }
    return false;
}

/* Links that name a place in a page; that the page is there is tests/arch's to hold. */
static void links_lead_to_headings(void **state)
{
    (void)state;
    PageNames names = page_names();
    int count = 0;
    for (int i = 0; names.name[i][0]; i++) {
        char *page = page_read(names.name[i]), target[256], path[512];
        for (const char *at = page; (at = strstr(at, "](")); at++) {
            snprintf(target, sizeof target, "%.*s", (int)strcspn(at + 2, ")\n"), at + 2);
            char *slug = strchr(target, '#');
            if (!slug || strstr(target, "://"))
                continue;
            *slug++ = '\0';
            const char *folder = strrchr(names.name[i], '/');
            snprintf(path, sizeof path, "%.*s%s", folder ? (int)(folder + 1 - names.name[i]) : 0,
                     names.name[i], target);
            char *there = page_read(target[0] ? path : names.name[i]);
            if (!has_heading(there, slug))
                fail_msg("%s links to %s#%s, a heading that is not there", names.name[i], target,
                         slug);
            free(there);
            count++;
        }
        free(page);
    }
    assert_true(count > 5);
}

static void readme_is_short(void **state)
{
    (void)state;
    char *page = page_read("README.md");
    int lines = 0;
    for (const char *at = page; *at; at++)
        lines += *at == '\n';
    if (lines > README_LINES_MAX)
        fail_msg("README.md has %d lines; allowed: %d", lines, README_LINES_MAX);
    free(page);
}

/* Words that nobody says, in anything that people read. */
static void words_are_plain(void **state)
{
    (void)state;
    static const char *const AVOIDED[] = {"reckon",  " anew",   "afresh",    "oftener",
                                          "so many", "rub out", "ran short", NULL};
    static const char *const PLACES = "README.md DEVELOPERS.md docs patterns themes src tests";
    char command[1024], line[512];
    for (int i = 0; AVOIDED[i]; i++) {
        snprintf(command, sizeof command, "cd '%s' && grep -rniF --exclude=test_docs.c -- '%s' %s",
                 SETTEE_SOURCE_DIR, AVOIDED[i], PLACES);
        FILE *found = popen(command, "r");
        assert_non_null(found);
        if (fgets(line, sizeof line, found))
            fail_msg("\"%s\" stands in %s", AVOIDED[i], line);
        pclose(found);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rules_page_holds_every_rule),
        cmocka_unit_test(rules_page_holds_every_sign_and_action),
        cmocka_unit_test(patterns_page_holds_every_pattern),
        cmocka_unit_test(screens_page_names_every_key),
        cmocka_unit_test(map_names_every_file),
        cmocka_unit_test(links_lead_to_headings),
        cmocka_unit_test(readme_is_short),
        cmocka_unit_test(words_are_plain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
