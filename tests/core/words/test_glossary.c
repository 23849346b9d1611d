/* test_glossary.c - the table of words is in order, short, and points only at itself. */
#include "near.h"

#include <ctype.h>
#include <string.h>

#include "core/words/glossary.h"

enum { MEANS_MAX = 160, NAME_MAX = 14 };

static int compare_lower(const char *a, const char *b)
{
    while (*a && tolower((unsigned char)*a) == tolower((unsigned char)*b)) {
        a++;
        b++;
    }
    return tolower((unsigned char)*a) - tolower((unsigned char)*b);
}

static void words_are_in_order(void **state)
{
    (void)state;
    for (int i = 1; i < WORD_COUNT; i++)
        if (compare_lower(WORDS[i - 1].word, WORDS[i].word) >= 0)
            fail_msg("%s comes after %s", WORDS[i - 1].word, WORDS[i].word);
}

/* One sentence: a capital, one full stop, at the end. */
static void each_has_one_short_sentence(void **state)
{
    (void)state;
    for (int i = 0; i < WORD_COUNT; i++) {
        const char *means = WORDS[i].means;
        size_t length = strlen(means);
        if (length < 20 || length > MEANS_MAX)
            fail_msg("%s: %zu characters", WORDS[i].word, length);
        if (!isupper((unsigned char)means[0]) || strchr(means, '.') != means + length - 1)
            fail_msg("%s: not one sentence", WORDS[i].word);
        assert_in_range(strlen(WORDS[i].word), 2, NAME_MAX);
    }
}

static void likes_are_other_words(void **state)
{
    (void)state;
    for (int i = 0; i < WORD_COUNT; i++) {
        const char *at = WORDS[i].like;
        assert_true(*at != '\0');
        while (*at) {
            char like[32] = "";
            size_t length = strcspn(at, ",");
            assert_in_range(length, 1, sizeof like - 1);
            memcpy(like, at, length);
            const Word *other = word_find(like);
            if (!other || other == &WORDS[i])
                fail_msg("%s is like \"%s\"?", WORDS[i].word, like);
            at += length;
            if (*at) {
                assert_int_equal(strncmp(at, ", ", 2), 0);
                at += 2;
            }
        }
    }
}

static void words_are_found_in_any_case(void **state)
{
    (void)state;
    for (int i = 0; i < WORD_COUNT; i++) {
        assert_ptr_equal(word_find(WORDS[i].word), &WORDS[i]);
        assert_string_equal(WORD_NAMES[i], WORDS[i].word);
    }
    assert_null(WORD_NAMES[WORD_COUNT]);
    assert_ptr_equal(word_find("FLAT Ten"), word_find("flat ten"));
    assert_ptr_equal(word_find("rg"), word_find("RG"));
    assert_non_null(word_find("rg"));
    assert_null(word_find("flat"));
    assert_null(word_find("flat tenth"));
    assert_null(word_find(""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_are_in_order),
        cmocka_unit_test(each_has_one_short_sentence),
        cmocka_unit_test(likes_are_other_words),
        cmocka_unit_test(words_are_found_in_any_case),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
