/* test_words.c - settee words of the real program: the list, one word, JSON, and what it says to a
 * word that is not there. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "cli/helper_run.h"
#include "core/words/glossary.h"

/* Runs of spaces and line ends as one space, so that a wrapped sentence reads on. */
static void join_lines(char *text)
{
    char *to = text;
    for (const char *from = text; *from; from++)
        if ((*from != ' ' && *from != '\n') || (to > text && to[-1] != ' '))
            *to++ = *from == '\n' ? ' ' : *from;
    *to = '\0';
}

static void lists_every_word_in_80_columns(void **state)
{
    (void)state;
    Run run = RUN("words");
    run_is(&run, 0);
    assert_in_range(widest_line(run.out), 60, 80);
    join_lines(run.out);
    for (int i = 0; i < WORD_COUNT; i++) {
        char entry[256];
        snprintf(entry, sizeof entry, "%s %s", WORDS[i].word, WORDS[i].means);
        if (!strstr(run.out, entry))
            fail_msg("does not list \"%s\"", entry);
    }
    run_free(&run);
}

/* A word of two parts needs no quotes, and case does not matter. */
static void tells_one_word(void **state)
{
    (void)state;
    Run run = RUN("words", "Flat", "TEN");
    run_is(&run, 0);
    assert_int_equal(strncmp(run.out, "flat ten  ", 10), 0);
    assert_non_null(strstr(run.out, "ringing ten\n"));
    assert_null(strstr(run.out, "pocket hit"));
    run_free(&run);
}

static void json_has_the_table(void **state)
{
    (void)state;
    Run run = RUN("words", "--json");
    run_is(&run, 0);
    cJSON *object = run_json(&run), *words = cJSON_GetObjectItem(object, "words");
    assert_int_equal(cJSON_GetArraySize(words), WORD_COUNT);
    for (int i = 0; i < WORD_COUNT; i++) {
        const cJSON *word = cJSON_GetArrayItem(words, i);
        const cJSON *like = cJSON_GetObjectItem(word, "like");
        assert_string_equal(cJSON_GetObjectItem(word, "word")->valuestring, WORDS[i].word);
        assert_string_equal(cJSON_GetObjectItem(word, "means")->valuestring, WORDS[i].means);
        assert_true(cJSON_GetArraySize(like) >= 1);
        for (const cJSON *one = like->child; one; one = one->next)
            assert_non_null(word_find(one->valuestring));
    }
    cJSON_Delete(object);
    run_free(&run);
    run = RUN("words", "area", "--json");
    run_is(&run, 0);
    object = run_json(&run);
    assert_int_equal(cJSON_GetArraySize(cJSON_GetObjectItem(object, "words")), 1);
    cJSON_Delete(object);
    run_free(&run);
}

static void unknown_words_get_near_ones(void **state)
{
    (void)state;
    static const struct {
        const char *asked, *says;
    } CASES[] = {{"ten", "did you mean: flat ten, ringing ten?"},
                 {"pokcet", "did you mean: pocket?"},
                 {"qqqqqqqqqqqq", "'settee words' lists them all"},
                 {"", "'settee words' lists them all"}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        Run run = RUN("words", CASES[i].asked);
        run_is(&run, 1);
        if (!strstr(run.fault, CASES[i].says))
            fail_msg("'%s' does not say '%s'", run.fault, CASES[i].says);
        run_free(&run);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lists_every_word_in_80_columns),
        cmocka_unit_test(tells_one_word),
        cmocka_unit_test(json_has_the_table),
        cmocka_unit_test(unknown_words_get_near_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
