/* One fault in one line: every combination of its parts, and never a control character. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"

static void test_every_combination(void **state)
{
    (void)state;
    static const char *const EXPECTED[8] = {
        "too light",
        "bag.json: too light",
        "7: too light",
        "bag.json:7: too light",
        "$.balls[2].rg_in: too light",
        "bag.json: $.balls[2].rg_in: too light",
        "7: $.balls[2].rg_in: too light",
        "bag.json:7: $.balls[2].rg_in: too light",
    };
    for (int parts = 0; parts < 8; parts++) {
        Error error = {.line = parts & 2 ? 7 : 0};
        strcpy(error.text, "too light");
        if (parts & 1)
            strcpy(error.file, "bag.json");
        if (parts & 4)
            strcpy(error.where, "$.balls[2].rg_in");
        char line[ERROR_LINE_MAX];
        error_line(&error, line, sizeof line);
        assert_string_equal(line, EXPECTED[parts]);
    }
}

static void test_set(void **state)
{
    (void)state;
    Error error = {.file = "a.json", .line = 3, .where = "$.games"};
    assert_false(error_set(&error, "found %d; allowed: %s", 0, "1 to 24"));
    assert_string_equal(error.text, "found 0; allowed: 1 to 24");
    assert_string_equal(error.file, "a.json"); /* the rest stays */
    assert_int_equal(error.line, 3);
    assert_string_equal(error.where, "$.games");
    assert_false(error_set(&error, "again"));
    assert_string_equal(error.text, "again");
    assert_false(error_set(NULL, "nobody asks: %d", 1));
}

static void assert_one_clean_line(const char *line)
{
    assert_int_equal(text_utf8_fault(line, strlen(line)), strlen(line));
    for (uint32_t c = text_next(&line); c; c = text_next(&line))
        assert_true(c >= 0x20 && !(c >= 0x7f && c < 0xa0));
}

static void test_never_a_control_character(void **state)
{
    (void)state;
    Error error = {.file = "evil\n\x1b[2Jname.json",
                   .line = 2,
                   .where = "$.a\r\nb\x9b"
                            "c"};
    error_set(&error, "found \"%s\"", "x\n\x1b]0;t\x07\xc2\x9by\x7f");
    assert_one_clean_line(error.text);
    char line[ERROR_LINE_MAX];
    error_line(&error, line, sizeof line);
    assert_one_clean_line(line);
    assert_non_null(strstr(line, "name.json:2: $.a"));
}

static void test_text_too_long(void **state)
{
    (void)state;
    char lots[2 * ERROR_TEXT_MAX];
    for (size_t i = 0; i + 2 < sizeof lots; i += 2)
        memcpy(lots + i, "\xc3\xa9", 3);
    Error error = {0};
    for (size_t shift = 0; shift < 3; shift++) { /* the cut falls on each byte of a character */
        error_set(&error, "%.*s%s", (int)shift, "abc", lots);
        assert_one_clean_line(error.text);
        assert_true(strlen(error.text) >= ERROR_TEXT_MAX - 4);
    }
}

/* The longest parts there can be still fit the line that is meant for them. */
static void test_longest_fits(void **state)
{
    (void)state;
    Error error = {.line = 2147483647};
    memset(error.file, 'f', sizeof error.file - 1);
    memset(error.where, 'w', sizeof error.where - 1);
    memset(error.text, 't', sizeof error.text - 1);
    char line[ERROR_LINE_MAX];
    error_line(&error, line, sizeof line);
    assert_int_equal(strlen(line), ERROR_FILE_MAX - 1 + strlen(":2147483647: ") + ERROR_WHERE_MAX -
                                       1 + strlen(": ") + ERROR_TEXT_MAX - 1);
}

static void test_small_buffers(void **state)
{
    (void)state;
    Error error = {.file = "caf\xc3\xa9.json", .line = 7, .where = "$", .text = "\xe2\x82\xac?"};
    char whole[64];
    error_line(&error, whole, sizeof whole);
    for (size_t size = 1; size <= sizeof whole; size++) {
        char line[64];
        memset(line, '#', sizeof line);
        error_line(&error, line, size);
        assert_true(strlen(line) < size);
        assert_one_clean_line(line);
        for (size_t i = size; i < sizeof line; i++)
            assert_int_equal(line[i], '#');
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_every_combination),
        cmocka_unit_test(test_set),
        cmocka_unit_test(test_never_a_control_character),
        cmocka_unit_test(test_text_too_long),
        cmocka_unit_test(test_longest_fits),
        cmocka_unit_test(test_small_buffers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
