/* test_json_out.c - the writer of JSON: commas, escapes, and numbers that read back the same. */
#include "near.h"

#include <float.h>
#include <stdlib.h>
#include <string.h>

#include "base/json_out.h"
#include "base/rng.h"
#include "base/text.h"
#include "store/json_scan.h"

static void assert_written(JsonOut *out, const char *expected)
{
    const char *text = json_out_text(out);
    assert_non_null(text);
    assert_string_equal(text, expected);
    JsonSpot spot;
    assert_true(json_scan(text, strlen(text), JSON_SCAN_ALL, &spot));
    json_out_free(out);
    assert_null(out->text);
}

static void test_nesting(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_number(&out, "ft", 12.5);
    json_out_array(&out, "path");
    json_out_object(&out, NULL);
    json_out_integer(&out, "board", -7);
    json_out_bool(&out, "oil", true);
    json_out_end(&out);
    json_out_number(&out, NULL, 20);
    json_out_array(&out, NULL);
    json_out_end(&out);
    json_out_end(&out);
    json_out_null(&out, "roll_ft");
    json_out_string(&out, "who", NULL);
    json_out_bool(&out, "done", false);
    assert_null(json_out_text(&out)); /* not closed yet */
    json_out_end(&out);
    assert_written(&out, "{\"ft\":12.5,\"path\":[{\"board\":-7,\"oil\":true},20,[]],"
                         "\"roll_ft\":null,\"who\":null,\"done\":false}");
}

static void test_strings(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_array(&out, NULL);
    json_out_string(&out, NULL, "a \"b\" \\ /");
    json_out_string(&out, NULL, "\x1b[2J\n\t\x7f");
    json_out_string(&out, NULL,
                    "\xc2\x9b"
                    "31m"); /* a control sequence of one character */
    json_out_string(&out, NULL, "\xc3\xa9\xf0\x9f\x8e\xb3");
    json_out_string(&out, NULL, "\xff.\xed\xa0\x80");
    json_out_string(&out, NULL, "");
    json_out_end(&out);
    assert_written(&out,
                   "[\"a \\\"b\\\" \\\\ /\",\"\\u001b[2J\\u000a\\u0009\\u007f\",\"\\u009b31m\","
                   "\"\xc3\xa9\xf0\x9f\x8e\xb3\",\"\\ufffd.\\ufffd\\ufffd\\ufffd\",\"\"]");
}

static void test_numbers(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_array(&out, NULL);
    json_out_number(&out, NULL, 0.1);
    json_out_number(&out, NULL, 1.0 / 3.0);
    json_out_number(&out, NULL, 1e300);
    json_out_number(&out, NULL, DBL_MIN);
    json_out_number(&out, NULL, (double)NAN);
    json_out_number(&out, NULL, -(double)INFINITY);
    json_out_rounded(&out, NULL, 17.499999999999996, 2);
    json_out_rounded(&out, NULL, -0.001, 2);
    json_out_rounded(&out, NULL, (double)NAN, 2);
    json_out_end(&out);
    assert_written(&out, "[0.1,0.3333333333333333,1e+300,2.2250738585072014e-308,null,null,17.5,0,"
                         "null]");
}

static void test_numbers_read_back(void **state)
{
    (void)state;
    Rng rng = rng_seed(11);
    for (int i = 0; i < 20000; i++) {
        uint64_t bits = rng_next(&rng);
        double value;
        memcpy(&value, &bits, sizeof value);
        if (!isfinite(value))
            continue;
        JsonOut out = json_out_start();
        json_out_number(&out, NULL, value);
        double back = strtod(json_out_text(&out), NULL);
        assert_memory_equal(&back, &value, sizeof value);
        json_out_free(&out);
    }
}

/* Misuse gives no text rather than text that is no JSON. */
static void test_misuse(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_number(&out, NULL, 1); /* no key */
    json_out_end(&out);
    assert_null(json_out_text(&out));
    json_out_free(&out);
    json_out_array(&out, NULL);
    json_out_number(&out, "key", 1);
    json_out_end(&out);
    assert_null(json_out_text(&out));
    json_out_free(&out);
    json_out_end(&out);
    assert_null(json_out_text(&out));
    json_out_free(&out);
    json_out_number(&out, NULL, 1);
    json_out_number(&out, NULL, 2); /* a second value at the top */
    assert_null(json_out_text(&out));
    json_out_free(&out);
    for (int i = 0; i < 40; i++)
        json_out_array(&out, NULL);
    for (int i = 0; i < 40; i++)
        json_out_end(&out);
    assert_null(json_out_text(&out));
    json_out_free(&out);
}

static void test_grows(void **state)
{
    (void)state;
    JsonOut out = json_out_start();
    json_out_array(&out, NULL);
    for (int i = 0; i < 20000; i++)
        json_out_integer(&out, NULL, i);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    assert_non_null(text);
    assert_non_null(strstr(text, ",19999]"));
    json_out_free(&out);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_nesting), cmocka_unit_test(test_strings),
        cmocka_unit_test(test_numbers), cmocka_unit_test(test_numbers_read_back),
        cmocka_unit_test(test_misuse),  cmocka_unit_test(test_grows)};
    return cmocka_run_group_tests_name("json out", tests, NULL, NULL);
}
