/* test_words.c - the glossary has every trade word that the advice uses, and docs/words.md is the
 * glossary. SETTEE_GOLDEN_UPDATE=1 rewrites the page. */
#include "near.h"

#include <ctype.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/rules.h"
#include "core/words/glossary.h"
#include "docs/helper_page.h"
#include "store/files.h"

/* How the advice may put a trade word, and its entry. Longer ones first: "flat ten" is not the
 * "flat" of a pattern. */
static const struct {
    const char *shown, *entry;
} TERMS[] = {
    {"back end", "back end"},
    {"ball down", "ball down"},
    {"ball up", "ball up"},
    {"burn up", "burn"},
    {"burning up", "burn"},
    {"burns up", "burn"},
    {"carrydown", "carrydown"},
    {"clean", "clean"},
    {"cleaner", "clean"},
    {"come around it", "come around it"},
    {"corner pin", "corner pin"},
    {"crossed over", "crossed over"},
    {"dry", "dry"},
    {"drying out", "dry"},
    {"early", "early"},
    {"flat pattern", "flat pattern"},
    {"flat ten", "flat ten"},
    {"flush", "flush"},
    {"fresh oil", "fresh"},
    {"friction", "friction"},
    {"head pin", "head pin"},
    {"heads", "heads"},
    {"high", "high"},
    {"hold", "hold"},
    {"hook", "hook"},
    {"hooks", "hook"},
    {"inside", "inside"},
    {"late", "late"},
    {"leave", "leave"},
    {"light", "light"},
    {"line", "line"},
    {"loft", "loft"},
    {"lofted", "loft"},
    {"move in", "move in"},
    {"move out", "move out"},
    {"nose", "nose"},
    {"oil", "oil"},
    {"over/under", "over/under"},
    {"pattern", "pattern"},
    {"pocket", "pocket"},
    {"reads", "read"},
    {"release", "release"},
    {"ringing ten", "ringing ten"},
    {"rolls out", "roll out"},
    {"rotation", "axis rotation"},
    {"skids", "skid"},
    {"smoother", "smooth"},
    {"split", "split"},
    {"stay behind it", "stay behind it"},
    {"strongest", "strong"},
    {"surface", "surface"},
    {"swing", "swing"},
    {"tighter", "tight"},
    {"transition", "transition"},
    {"wide", "wide"},
};
enum { TERM_COUNT = sizeof TERMS / sizeof *TERMS };

/* Whether `term` is in `text` as whole words, in any case. */
static bool uses(const char *text, const char *term)
{
    size_t length = strlen(term);
    for (const char *at = text; *at; at++) {
        size_t same = 0;
        while (same < length && tolower((unsigned char)at[same]) == term[same])
            same++;
        if (same == length && (at == text || !isalpha((unsigned char)at[-1])) &&
            !isalpha((unsigned char)at[length]))
            return true;
    }
    return false;
}

/* Every sign, rule, adjustment and caution, one after the other. */
static char *all_advice(void)
{
    static RuleSet rules;
    Error error = {0};
    enum { SIZE = 1 << 16 };
    char *all = calloc(1, SIZE);
    assert_non_null(all);
    assert_true(files_rules("coach", &rules, &error));
    for (int i = 0; i < SIGN_COUNT; i++)
        assert_true(text_append(all, SIZE, "%s\n%s\n", sign_words((Sign)i, HAND_RIGHT),
                                sign_words((Sign)i, HAND_LEFT)));
    for (int i = 0; i < ADJUST_COUNT; i++)
        assert_true(text_append(all, SIZE, "%s\n", ADJUST_WORDS[i]));
    for (int i = 0; i < CAUTION_COUNT; i++)
        assert_true(text_append(all, SIZE, "%s\n", CAUTION_WORDS[i]));
    for (int i = 0; i < rules.count; i++)
        assert_true(text_append(all, SIZE, "%s\n", rules.rules[i].because));
    return all;
}

static void advice_uses_explained_words(void **state)
{
    (void)state;
    char *all = all_advice();
    int used = 0;
    for (int i = 0; i < TERM_COUNT; i++) {
        if (!uses(all, TERMS[i].shown))
            continue;
        used++;
        if (!word_find(TERMS[i].entry))
            fail_msg("the advice says \"%s\", which the glossary does not explain", TERMS[i].shown);
    }
    assert_true(used > 40); /* it did read them */
    free(all);
}

/* The page as the table makes it. */
static char *page_of_words(void)
{
    char *page = calloc(1, PAGE_SIZE_MAX);
    assert_non_null(page);
    text_append(
        page, PAGE_SIZE_MAX,
        "# Words\n\n"
        "What the words of the trade mean, as settee uses them (common practice, no source).\n"
        "`settee words` prints this list, `settee words WORD` one of them; on the screen press "
        "`?`, then `w`.\n\n"
        "| word | what it means | see also |\n|---|---|---|\n");
    for (int i = 0; i < WORD_COUNT; i++)
        assert_true(text_append(page, PAGE_SIZE_MAX, "| %s | %s | %s |\n", WORDS[i].word,
                                WORDS[i].means, WORDS[i].like));
    return page;
}

static void words_page_is_the_glossary(void **state)
{
    (void)state;
    char *expected = page_of_words();
    if (getenv("SETTEE_GOLDEN_UPDATE"))
        page_write("docs/words.md", expected);
    char *page = page_read("docs/words.md");
    if (strcmp(page, expected) != 0)
        fail_msg("docs/words.md is not the glossary; SETTEE_GOLDEN_UPDATE=1 rewrites it");
    free(page);
    free(expected);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(advice_uses_explained_words),
        cmocka_unit_test(words_page_is_the_glossary),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
