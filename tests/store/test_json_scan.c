/* test_json_scan.c - which texts are JSON, and where one stops being it. Source outside: the
 * grammar of RFC 8259, sections 2 to 7; the limits of depth, of a number's length and against
 * \u0000 are the program's own. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "store/json.h"
#include "store/json_scan.h"

static bool scan(const char *text, JsonSpot *spot)
{
    /* a copy without an end, so that a sanitizer sees any byte read past it */
    size_t length = strlen(text);
    char *copy = malloc(length > 0 ? length : 1);
    assert_non_null(copy);
    memcpy(copy, text, length);
    bool good = json_scan(copy, length, JSON_SCAN_ALL, spot);
    free(copy);
    return good;
}

static void takes_what_the_rfc_takes(void **state)
{
    (void)state;
    static const char *const GOOD[] = {
        "0",
        "-0",
        "7",
        "10",
        "-12.5",
        "0.5",
        "1e3",
        "1E3",
        "1e+3",
        "1e-3",
        "1.25e10",
        "0e0",
        "true",
        "false",
        "null",
        "\"\"",
        "\"a\"",
        "\"\\\"\\\\\\/\\b\\f\\n\\r\\t\"",
        "\"\\u00e9\\uABCD\\uabcd\\u9999\"",
        "\"\\ud834\\udd1e\"",
        "\"\\uD800\\uDC00\"",
        "\"\\udbff\\udfff\"",
        "\"\\ud7ff\\ue000\"",
        "\"\x7f\"",
        "\" \"",
        "[]",
        "{}",
        " [ ] ",
        "\t{\r\n}\t",
        "[1]",
        "[1,2]",
        "[ 1 , 2 ]",
        "[[],{}]",
        "{\"a\":1}",
        "{ \"a\" : 1 , \"b\" : [ ] }",
        "{\"a\":{\"a\":{}}}",
        "[true,false,null]",
        " 1 ",
        "\n1\n",
        "{\"\":0}",
        "[\"]\",\"}\",\",\"]",
        "123456789012345678901234567890123456789012345678901234567890"};
    for (size_t i = 0; i < sizeof GOOD / sizeof *GOOD; i++) {
        JsonSpot spot;
        if (!scan(GOOD[i], &spot))
            fail_msg("%s: %s", GOOD[i], spot.words);
    }
}

/* The text up to `^` is the beginning of some JSON; where the fault is. */
static void refuses_what_the_rfc_refuses(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        size_t at;
        const char *says;
    } BAD[] = {
        {"", 0, "the end of the text"},
        {" ", 0, "the end of the text"},
        {"\n", 0, "the end of the text"},
        {" \n\t\r\n", 0, "the end of the text"},
        {"[1\n\n", 2, "the end of the text"},
        {"[", 1, "the end of the text"},
        {"{", 1, "the end of the text"},
        {"[1,", 3, "the end of the text"},
        {"{\"a\"", 4, "a colon"},
        {"{\"a\":", 5, "the end of the text"},
        {"{\"a\" 1}", 5, "a colon"},
        {"{\"a\":1,}", 7, "no comma may stand before }"},
        {"{a:1}", 1, "a key in double quotes"},
        {"{1:1}", 1, "a key in double quotes"},
        {"[1,]", 3, "no comma may stand before ]"},
        {"[,1]", 1, "','"},
        {"[1 2]", 3, "a comma or ]"},
        {"{\"a\":1 \"b\":2}", 7, "a comma or }"},
        {"{\"a\":1 2}", 7, "a comma or }"},
        {"[1}", 2, "a comma or ]"},
        {"{\"a\":1]", 6, "a comma or }"},
        {"]", 0, "']'"},
        {"1 1", 2, "nothing more"},
        {"[] []", 3, "nothing more"},
        {"{}}", 2, "nothing more"},
        {"01", 0, "a number"},
        {"-01", 0, "a number"},
        {"-", 0, "a number"},
        {"1.", 0, "a number"},
        {".5", 0, "found .5"},
        {"1.e3", 0, "a number"},
        {"1e", 0, "a number"},
        {"1e+", 0, "a number"},
        {"1e3.5", 0, "a number"},
        {"+1", 0, "found +1"},
        {"0x10", 0, "a number"},
        {"1a", 0, "a number"},
        {"1_000", 0, "a number"},
        {"NaN", 0, "found NaN"},
        {"-Infinity", 0, "a number"},
        {"True", 0, "found True"},
        {"tru", 0, "found tru"},
        {"truer", 0, "found truer"},
        {"nullx", 0, "found nullx"},
        {"// x", 0, "no comments"},
        {"# x", 0, "no comments"},
        {"'a'", 0, "'''"},
        {"\x01", 0, "byte 0x01"},
        {"\"a", 0, "never ends"},
        {"[\"a\n\"]", 1, "does not end on its line"},
        {"[\"a\r\"]", 1, "does not end on its line"},
        {"\"a\tb\"", 2, "0x09"},
        {"\"a\x1f\"", 2, "0x1f"},
        {"\"\\a\"", 1, "an escape that JSON does not have"},
        {"\"\\'\"", 1, "an escape that JSON does not have"},
        {"\"\\", 1, "an escape that JSON does not have"},
        {"\"\\u12g4\"", 1, "four hexadecimal digits"},
        {"\"\\u123\"", 1, "four hexadecimal digits"},
        {"\"\\u12", 1, "four hexadecimal digits"},
        {"\"\\uG000\"", 1, "four hexadecimal digits"},
        {"\"\\u000/\"", 1, "four hexadecimal digits"},
        {"\"\\u000:\"", 1, "four hexadecimal digits"},
        {"\"\\u000`\"", 1, "four hexadecimal digits"},
        {"\"\\u0000\"", 1, "must not contain it"},
        {"\"\\udc00\"", 1, "without its first"},
        {"\"\\udfff\"", 1, "without its first"},
        {"\"\\ud800\"", 1, "without its second"},
        {"\"\\ud800\\", 1, "without its second"},
        {"\"\\ud800\\u", 1, "without its second"},
        {"\"\\ud800xudc00\"", 1, "without its second"},
        {"\"\\ud800\\ndc00\"", 1, "without its second"},
        {"\"\\ud800\\udbff\"", 1, "without its second"},
        {"\"\\ud800\\ue000\"", 1, "without its second"},
        {"\"\\udbff\\u0041\"", 1, "without its second"},
        {"1234567890123456789012345678901234567890123456789012345678901", 0, "60 characters"}};
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++) {
        JsonSpot spot;
        if (scan(BAD[i].text, &spot))
            fail_msg("%s is taken", BAD[i].text);
        if (spot.fault != BAD[i].at || !strstr(spot.words, BAD[i].says))
            fail_msg("%s: at %zu: %s", BAD[i].text, spot.fault, spot.words);
    }
}

static void thirty_two_deep(void **state)
{
    (void)state;
    char text[2 * (JSON_DEPTH_MAX + 1) + 1] = "";
    JsonSpot spot;
    memset(text, '[', JSON_DEPTH_MAX);
    memset(text + JSON_DEPTH_MAX, ']', JSON_DEPTH_MAX);
    text[2 * JSON_DEPTH_MAX] = '\0';
    assert_true(scan(text, &spot));
    memset(text, '[', JSON_DEPTH_MAX + 1);
    memset(text + JSON_DEPTH_MAX + 1, ']', JSON_DEPTH_MAX + 1);
    text[2 * (JSON_DEPTH_MAX + 1)] = '\0';
    assert_false(scan(text, &spot));
    assert_int_equal(spot.fault, JSON_DEPTH_MAX);
}

/* Every value and its key, in the order in which values begin. */
static void finds_each_value(void **state)
{
    (void)state;
    static const char TEXT[] =
        "{ \"a\" : [1, {\"b\" : -2.5}, \"x\\\"y\"],\n \"c\": \"z\", \"d\":\n[]}";
    static const struct {
        const char *value, *key; /* the text begins so there */
        size_t size;             /* of a scalar */
        int line;
    } AT[] = {{"{ \"a\"", "{ \"a\"", 0, 1}, {"[1,", "\"a\"", 0, 1},
              {"1, {", "1, {", 1, 1},       {"{\"b\"", "{\"b\"", 0, 1},
              {"-2.5}", "\"b\"", 4, 1},     {"\"x\\\"y\"]", "\"x\\\"y\"]", 6, 1},
              {"\"z\",", "\"c\"", 3, 2},    {"[]}", "\"d\"", 0, 3}};
    size_t count = sizeof AT / sizeof *AT, length = sizeof TEXT - 1;
    for (size_t i = 0; i < count; i++) {
        JsonSpot spot;
        assert_true(json_scan(TEXT, length, i, &spot));
        assert_int_equal(spot.value, strstr(TEXT, AT[i].value) - TEXT);
        assert_int_equal(spot.key, strstr(TEXT, AT[i].key) - TEXT);
        assert_int_equal(json_line(TEXT, spot.value), AT[i].line);
        if (AT[i].size > 0)
            assert_int_equal(json_scalar_size(TEXT, length, spot.value), AT[i].size);
    }
    assert_int_equal(json_scalar_size("true", 4, 0), 4);
    assert_int_equal(json_scalar_size("[1e-3,", 6, 1), 4);
    assert_int_equal(json_scalar_size("\"a", 2, 0), 2);
    assert_int_equal(json_scalar_size("\"a\\", 3, 0), 3);
}

static int count_of(const char *text, int min, int max, Error *error)
{
    *error = (Error){0};
    JsonDoc *doc = json_read(text, strlen(text), 1, error);
    assert_non_null(doc);
    Json root = json_root(doc, error);
    int count = json_count(&root, min, max, "pins");
    json_free(doc);
    return count;
}

/* -1 and a fault, or how many: json.h. */
static void counts_an_array(void **state)
{
    (void)state;
    Error error;
    assert_int_equal(count_of("[]", 0, 2, &error), 0);
    assert_int_equal(count_of("[1,2]", 0, 2, &error), 2);
    assert_int_equal(count_of("[1,2]", 2, 2, &error), 2);
    assert_string_equal(error.text, "");
    assert_int_equal(count_of("[1,2,3]", 0, 2, &error), -1);
    assert_string_equal(error.text, "found 3 pins; allowed: 0 to 2");
    assert_int_equal(count_of("[1]", 2, 2, &error), -1);
    assert_string_equal(error.text, "found 1 pins; allowed: exactly 2");
    assert_int_equal(count_of("{\"a\":1}", 0, 2, &error), -1);
    assert_string_equal(error.text, "found an object; allowed: an array of pins");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(takes_what_the_rfc_takes), cmocka_unit_test(refuses_what_the_rfc_refuses),
        cmocka_unit_test(thirty_two_deep), cmocka_unit_test(finds_each_value),
        cmocka_unit_test(counts_an_array)};
    return cmocka_run_group_tests_name("json_scan", tests, NULL, NULL);
}
