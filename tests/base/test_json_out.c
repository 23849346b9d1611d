/* JSON as written: numbers that read back, escapes, commas, and mistakes that are noticed. */
#include "near.h"

#include <float.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/json_out.h"
#include "base/rng.h"

static void assert_text(JsonOut *out, const char *expected)
{
    const char *text = json_out_text(out);
    if (!expected) {
        assert_null(text);
    } else {
        assert_non_null(text);
        assert_string_equal(text, expected);
    }
    json_out_free(out);
    assert_null(out->text);
}

static void assert_number(double value, const char *expected)
{
    JsonOut out = json_out_start();
    json_out_number(&out, NULL, value);
    assert_text(&out, expected);
}

/* For people: the outer levels a value a line, what lies deeper on one. */
static void test_lines(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    out.lines = 2;
    json_out_object(&out, NULL);
    json_out_integer(&out, "a", 1);
    json_out_array(&out, "b");
    for (int i = 0; i < 2; i++) {
        json_out_object(&out, NULL);
        json_out_integer(&out, "x", i);
        json_out_integer(&out, "y", 7);
        json_out_end(&out);
    }
    json_out_end(&out);
    json_out_array(&out, "c");
    json_out_end(&out);
    json_out_end(&out);
    assert_text(&out, "{\n  \"a\": 1,\n  \"b\": [\n    {\"x\": 0, \"y\": 7},\n    {\"x\": 1, "
                      "\"y\": 7}\n  ],\n  \"c\": []\n}\n");
}

static void test_numbers(void **state)
{
    (void)state;
    assert_number(0.0, "0");
    assert_number(1.0, "1");
    assert_number(-17.5, "-17.5");
    assert_number(0.1, "0.1");
    assert_number(1.0 / 3.0, "0.3333333333333333");
    assert_number(1e-300, "1e-300");
    assert_number(1e300, "1e+300");
    assert_number(NAN, "null");
    assert_number(INFINITY, "null");
    assert_number(-INFINITY, "null");
}

static void assert_reads_back(double value)
{
    JsonOut out = json_out_start();
    json_out_number(&out, NULL, value);
    assert_non_null(json_out_text(&out));
    double back = strtod(json_out_text(&out), NULL);
    if (memcmp(&back, &value, sizeof value) != 0)
        fail_msg("%a is written as %s", value, json_out_text(&out));
    json_out_free(&out);
}

static void test_numbers_read_back(void **state)
{
    (void)state;
    static const double HARD[] = {0.1,
                                  0.3,
                                  1e-300,
                                  5e-324,
                                  DBL_MIN,
                                  DBL_MAX,
                                  DBL_EPSILON,
                                  -0.0,
                                  9007199254740993.0,
                                  2.2250738585072011e-308,
                                  17.499999999999996};
    for (size_t i = 0; i < sizeof HARD / sizeof HARD[0]; i++) {
        assert_reads_back(HARD[i]);
        assert_reads_back(-HARD[i]);
    }
    Rng rng = rng_seed(1);
    for (int i = 0; i < 20000; i++) {
        uint64_t bits = rng_next(&rng);
        double value;
        memcpy(&value, &bits, sizeof value);
        if (isfinite(value))
            assert_reads_back(value);
        assert_reads_back(rng_between(&rng, -100.0, 100.0));
    }
}

static void assert_rounded(double value, int decimals, const char *expected)
{
    JsonOut out = json_out_start();
    json_out_rounded(&out, NULL, value, decimals);
    assert_text(&out, expected);
}

static void test_rounded(void **state)
{
    (void)state;
    assert_rounded(17.499999999999996, 3, "17.5");
    assert_rounded(17.123456, 2, "17.12");
    assert_rounded(17.126, 2, "17.13");
    assert_rounded(17.6, 0, "18");
    assert_rounded(-0.0004, 2, "0"); /* no "-0" */
    assert_rounded(17.6, -5, "18");
    assert_rounded(0.1, 40, "0.1");
    assert_rounded(DBL_MAX, 2, "1.7976931348623157e+308");
    assert_rounded(NAN, 2, "null");
    assert_rounded(INFINITY, 2, "null");
}

static void assert_string(const char *text, const char *expected)
{
    JsonOut out = json_out_start();
    json_out_string(&out, NULL, text);
    assert_text(&out, expected);
}

static void test_strings(void **state)
{
    (void)state;
    assert_string(NULL, "null");
    assert_string("", "\"\"");
    assert_string("feet 2 in", "\"feet 2 in\"");
    assert_string("a\"b\\c/d", "\"a\\\"b\\\\c/d\"");
    assert_string("a\nb\tc\rd", "\"a\\u000ab\\u0009c\\u000dd\"");
    assert_string("\x01\x1b[0m\x1f", "\"\\u0001\\u001b[0m\\u001f\"");
    assert_string("\x7f", "\"\\u007f\"");
    assert_string("\xc2\x9b", "\"\\u009b\"");
    assert_string("\xc2\xa0", "\"\xc2\xa0\"");
    assert_string("\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3",
                  "\"\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3\"");
    assert_string("a\xff"
                  "b",
                  "\"a\\ufffdb\"");
    assert_string("\xed\xa0\x80", "\"\\ufffd\\ufffd\\ufffd\"");
    assert_string("cut \xe2\x82", "\"cut \\ufffd\\ufffd\"");
}

static void test_whole(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_number(&out, "ft", 12.5);
    json_out_array(&out, "boards");
    json_out_number(&out, NULL, 20);
    json_out_integer(&out, NULL, -9000000000000000000LL);
    json_out_object(&out, NULL);
    json_out_end(&out);
    json_out_array(&out, NULL);
    json_out_end(&out);
    json_out_null(&out, NULL);
    json_out_number(&out, NULL, NAN);
    json_out_end(&out);
    json_out_bool(&out, "found", true);
    json_out_bool(&out, "gutter", false);
    json_out_string(&out, "a \"key\"\n", "x");
    json_out_null(&out, "roll_ft");
    json_out_end(&out);
    assert_text(&out,
                "{\"ft\":12.5,\"boards\":[20,-9000000000000000000,{},[],null,null],\"found\":true,"
                "\"gutter\":false,\"a \\\"key\\\"\\u000a\":\"x\",\"roll_ft\":null}");
}

static void test_unclosed_is_not_text(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    assert_null(json_out_text(&out));
    json_out_object(&out, NULL);
    assert_null(json_out_text(&out));
    json_out_end(&out);
    assert_text(&out, "{}");
}

static void test_mistakes(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_end(&out); /* nothing to end */
    assert_text(&out, NULL);

    out = json_out_start();
    json_out_object(&out, NULL);
    json_out_number(&out, NULL, 1.0); /* a member without a key */
    json_out_end(&out);
    assert_text(&out, NULL);

    out = json_out_start();
    json_out_array(&out, NULL);
    json_out_number(&out, "key", 1.0); /* an element with one */
    json_out_end(&out);
    assert_text(&out, NULL);

    out = json_out_start();
    json_out_number(&out, NULL, 1.0);
    json_out_number(&out, NULL, 2.0); /* two values at the top */
    assert_text(&out, NULL);

    out = json_out_start();
    json_out_number(&out, "key", 1.0); /* a key at the top */
    assert_text(&out, NULL);
}

static void test_depth(void **state)
{
    (void)state;
    for (int depth = JSON_OUT_DEPTH_MAX; depth <= JSON_OUT_DEPTH_MAX + 1; depth++) {
        JsonOut out = json_out_start();
        for (int i = 0; i < depth; i++)
            json_out_array(&out, NULL);
        for (int i = 0; i < depth; i++)
            json_out_end(&out);
        if (depth > JSON_OUT_DEPTH_MAX) {
            assert_text(&out, NULL);
            continue;
        }
        char expected[2 * JSON_OUT_DEPTH_MAX + 1] = {0};
        memset(expected, '[', JSON_OUT_DEPTH_MAX);
        memset(expected + JSON_OUT_DEPTH_MAX, ']', JSON_OUT_DEPTH_MAX);
        assert_text(&out, expected);
    }
}

/* Growing past every room it had leaves nothing out. */
static void test_long(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_array(&out, NULL);
    for (int i = 0; i < 5000; i++)
        json_out_integer(&out, NULL, i);
    json_out_end(&out);
    const char *at = json_out_text(&out);
    assert_non_null(at);
    for (int i = 0; i < 5000; i++) {
        assert_int_equal(*at++, i == 0 ? '[' : ',');
        char *end;
        assert_int_equal(strtol(at, &end, 10), i);
        at = end;
    }
    assert_string_equal(at, "]");
    json_out_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_numbers),
        cmocka_unit_test(test_lines),
        cmocka_unit_test(test_numbers_read_back),
        cmocka_unit_test(test_rounded),
        cmocka_unit_test(test_strings),
        cmocka_unit_test(test_whole),
        cmocka_unit_test(test_unclosed_is_not_text),
        cmocka_unit_test(test_mistakes),
        cmocka_unit_test(test_depth),
        cmocka_unit_test(test_long),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
