/* test_seed.c - seeds as pairs of words: every one comes back, and no two are alike. */
#include "near.h"

#include <ctype.h>
#include <string.h>

#include "core/rehearse/seed.h"

static void test_there_and_back(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= SEED_PAIRS; seed++) {
        char text[SEED_TEXT_MAX], near[SEED_TEXT_MAX];
        uint64_t back = 0;
        seed_text(seed, text);
        assert_true(strlen(text) + 2 < SEED_TEXT_MAX); /* room to spare */
        assert_non_null(strchr(text, '-'));
        assert_true(seed_of_text(text, &back, near));
        assert_true(back == seed); /* so that all pairs differ */
        for (const char *c = text; *c; c++)
            assert_true(islower((unsigned char)*c) || *c == '-');
    }
}

/* These were given out: a pair must mean the same block for ever. */
static void test_pairs_stay(void **state)
{
    (void)state;
    static const struct {
        uint64_t seed;
        const char *text;
    } GIVEN[] = {
        {1, "amber-acorn"}, {16510, "amber-otter"}, {2, "marble-camel"}, {65536, "giving-mitten"}};
    char text[SEED_TEXT_MAX];
    for (size_t i = 0; i < sizeof GIVEN / sizeof *GIVEN; i++) {
        seed_text(GIVEN[i].seed, text);
        assert_string_equal(text, GIVEN[i].text);
    }
}

static void test_what_is_none(void **state)
{
    (void)state;
    static const char *const NONE[] = {"",
                                       "amber",
                                       "amber-",
                                       "-otter",
                                       "amber_otter",
                                       "otter-amber",
                                       "7",
                                       "amber-otter-acorn",
                                       "a-very-long-line-of-words-that-no-seed-is-called"};
    uint64_t seed = 0;
    char text[SEED_TEXT_MAX], near[SEED_TEXT_MAX];
    for (size_t i = 0; i < sizeof NONE / sizeof *NONE; i++)
        assert_false(seed_of_text(NONE[i], &seed, near));
    assert_false(seed_of_text("ambr-oter", &seed, near));
    assert_string_equal(near, "amber-otter");
    assert_true(seed_of_text("Amber-OTTER", &seed, near));
    assert_int_equal(seed, 16510);
    seed_text(SEED_PAIRS + 1, text);
    assert_string_equal(text, "65537");
    seed_text(0, text);
    assert_string_equal(text, "0");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_there_and_back),
                                       cmocka_unit_test(test_pairs_stay),
                                       cmocka_unit_test(test_what_is_none)};
    return cmocka_run_group_tests_name("seed", tests, NULL, NULL);
}
