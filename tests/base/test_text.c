/* Text that is safe to show: valid UTF-8, no control characters, cut at whole characters. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"

/* Bytes and where their first fault is; sources: RFC 3629 and the Unicode Standard's table 3-7
 * (both from memory). */
typedef struct Bytes {
    const char *name, *bytes;
    size_t length, fault;
} Bytes;

#define BYTES(name, text, fault)                                                                   \
    {                                                                                              \
        name, text, sizeof(text) - 1, fault                                                        \
    }
static const Bytes BYTES_CASES[] = {
    BYTES("empty", "", 0),
    BYTES("ASCII", "board 17", 8),
    BYTES("a NUL is a character", "a\0b", 3),
    BYTES("two bytes, the first there is", "\xc2\x80", 2),
    BYTES("two bytes, the last there is", "\xdf\xbf", 2),
    BYTES("three bytes, the first there is", "\xe0\xa0\x80", 3),
    BYTES("last before the surrogates", "\xed\x9f\xbf", 3),
    BYTES("first after the surrogates", "\xee\x80\x80", 3),
    BYTES("U+FFFF", "\xef\xbf\xbf", 3),
    BYTES("four bytes, the first there is", "\xf0\x90\x80\x80", 4),
    BYTES("U+10FFFF", "\xf4\x8f\xbf\xbf", 4),
    BYTES("overlong slash in two", "a\xc0\xaf", 1),
    BYTES("overlong in two, c1", "\xc1\xbf", 0),
    BYTES("overlong in three", "ab\xe0\x9f\xbf", 2),
    BYTES("overlong in four", "\xf0\x8f\xbf\xbf", 0),
    BYTES("first surrogate", "\xed\xa0\x80", 0),
    BYTES("last surrogate", "\xed\xbf\xbf", 0),
    BYTES("past U+10FFFF", "\xf4\x90\x80\x80", 0),
    BYTES("f5 begins nothing", "\xf5\x80\x80\x80", 0),
    BYTES("ff begins nothing", "x\xff", 1),
    BYTES("a continuation alone", "\x80", 0),
    BYTES("two bytes cut", "ab\xc3", 2),
    BYTES("three bytes cut to one", "\xe2", 0),
    BYTES("three bytes cut to two", "\xe2\x82", 0),
    BYTES("four bytes cut to three", "\xf0\x9f\x8e", 0),
    BYTES("ASCII where a continuation is due", "\xc3(", 0),
    BYTES("ASCII as third byte", "\xe2\x82(", 0),
    BYTES("ASCII as fourth byte", "\xf0\x9f\x8e(", 0),
    BYTES("a start where a continuation is due", "\xc3\xc3\xa9", 0),
    BYTES("good ones before the bad one", "\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3\x80", 9),
};

static void test_fault(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof BYTES_CASES / sizeof BYTES_CASES[0]; i++) {
        const Bytes *c = &BYTES_CASES[i];
        size_t fault = text_utf8_fault(c->bytes, c->length);
        if (fault != c->fault)
            fail_msg("%s: fault at %zu, expected %zu", c->name, fault, c->fault);
    }
}

static size_t encode(uint32_t c, char *out)
{
    if (c < 0x80) {
        out[0] = (char)c;
        return 1;
    }
    size_t size = c < 0x800 ? 2 : c < 0x10000 ? 3 : 4;
    static const unsigned char FIRST[] = {0, 0, 0xc0, 0xe0, 0xf0};
    for (size_t i = size - 1; i > 0; i--) {
        out[i] = (char)(0x80 | (c & 0x3f));
        c >>= 6;
    }
    out[0] = (char)(FIRST[size] | c);
    return size;
}

/* Every code point there is, there and back; surrogates are faults. */
static void test_every_code_point(void **state)
{
    (void)state;
    for (uint32_t c = 1; c <= 0x10ffff; c++) {
        char bytes[5] = {0};
        size_t size = encode(c, bytes);
        bool surrogate = c >= 0xd800 && c <= 0xdfff;
        const char *at = bytes;
        uint32_t got = text_next(&at);
        if (text_utf8_fault(bytes, size) != (surrogate ? 0 : size) ||
            got != (surrogate ? 0xfffd : c) || (size_t)(at - bytes) != (surrogate ? 1 : size))
            fail_msg("U+%04X is read as U+%04X", (unsigned)c, (unsigned)got);
    }
}

static void test_next_ends(void **state)
{
    (void)state;
    const char *at = "";
    assert_int_equal(text_next(&at), 0);
    assert_int_equal(text_next(&at), 0); /* stays at the end */
    const char *cut = "\xe2\x82";        /* a cut character is one bad byte after the other */
    assert_int_equal(text_next(&cut), 0xfffd);
    assert_int_equal(text_next(&cut), 0xfffd);
    assert_int_equal(text_next(&cut), 0);
}

static void test_length(void **state)
{
    (void)state;
    static const uint32_t EDGES[] = {1, 0x7f, 0x80, 0x7ff, 0x800, 0xffff, 0x10000, 0x10ffff};
    for (size_t k = 0; k < sizeof EDGES / sizeof *EDGES; k++) { /* encoded and decoded again */
        char bytes[5];
        const char *at = bytes;
        size_t size = text_encode(EDGES[k], bytes);
        assert_int_equal(strlen(bytes), size);
        assert_int_equal(text_next(&at), EDGES[k]);
        assert_ptr_equal(at, bytes + size);
    }
    assert_int_equal(text_length(""), 0);
    assert_int_equal(text_length("board"), 5);
    assert_int_equal(text_length("\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3"), 3);
}

static void assert_cleaned(const char *from, const char *expected, bool same)
{
    char out[64];
    assert_true(text_clean(out, sizeof out, from) == same);
    assert_string_equal(out, expected);
}

static void test_clean(void **state)
{
    (void)state;
    assert_cleaned("", "", true);
    assert_cleaned("a plain line", "a plain line", true);
    assert_cleaned("\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3", "\xc3\xa9\xe2\x82\xac\xf0\x9f\x8e\xb3",
                   true);
    assert_cleaned("a\tb\nc\rd", "a b c d", false);
    assert_cleaned("a\x1b[31mred\x1b[0m", "a[31mred[0m", false); /* an escape sequence */
    assert_cleaned("a\x1b]0;title\x07"
                   "b",
                   "a]0;titleb", false); /* a terminal's title */
    assert_cleaned("a\xc2\x9b"
                   "31mb",
                   "a31mb", false); /* C1: CSI in one character */
    assert_cleaned("a\x9b"
                   "31mb",
                   "a31mb", false); /* C1 as a bare byte */
    assert_cleaned("a\x7f"
                   "b",
                   "ab", false);                    /* DEL */
    assert_cleaned("\xc2\xa0x", "\xc2\xa0x", true); /* first after C1 */
    assert_cleaned("a\xc0\xaf"
                   "b",
                   "ab", false);
    assert_cleaned("a\xed\xa0\x80"
                   "b",
                   "ab", false);
    assert_cleaned("a\xe2\x82", "a", false);
    assert_cleaned("\x01\x02\x1f", "", false);
}

static void test_clean_drops_every_control(void **state)
{
    (void)state;
    for (uint32_t c = 1; c < 0x100; c++) {
        char from[8] = {0}, out[8];
        size_t size = encode(c, from);
        bool control = c < 0x20 || (c >= 0x7f && c < 0xa0);
        bool blank = c == '\t' || c == '\n' || c == '\r';
        bool same = text_clean(out, sizeof out, from);
        assert_true(same == !control);
        if (blank)
            assert_string_equal(out, " ");
        else if (control)
            assert_string_equal(out, "");
        else
            assert_memory_equal(out, from, size + 1);
    }
}

/* Characters that would turn the text around them, hide in it or break the line (Unicode 15.0,
 * chapter 23, "Special Areas and Format Characters"); and their neighbours, which are text. */
static void test_clean_drops_format_characters(void **state)
{
    (void)state;
    static const struct {
        uint32_t first, last;
        const char *becomes;
    } ROWS[] = {{0x061c, 0x061c, ""},   {0x200e, 0x200f, ""},  {0x2028, 0x2029, " "},
                {0x202a, 0x202e, ""},   {0x2066, 0x206f, ""},  {0xfff9, 0xfffb, ""},
                {0xe0000, 0xe007f, ""}, {0xe0100, 0xe01ef, ""}};
    static const uint32_t TEXT[] = {0x061b, 0x061d, 0x200d, 0x2010, 0x2027,  0x202f,
                                    0x2065, 0x2070, 0xfff8, 0xfffc, 0xdffff, 0xe1000};
    char from[16], expected[16];
    for (size_t row = 0; row < sizeof ROWS / sizeof *ROWS; row++)
        for (uint32_t c = ROWS[row].first; c <= ROWS[row].last; c++) {
            from[0] = 'a';
            size_t size = text_encode(c, from + 1);
            strcpy(from + 1 + size, "b");
            snprintf(expected, sizeof expected, "a%sb", ROWS[row].becomes);
            assert_cleaned(from, expected, false);
        }
    for (size_t i = 0; i < sizeof TEXT / sizeof *TEXT; i++) {
        text_encode(TEXT[i], from);
        assert_cleaned(from, from, true);
    }
}

/* Whatever the bytes, what comes out is valid, without controls, and cleaning again is no change.
 */
static void test_clean_of_noise(void **state)
{
    (void)state;
    uint32_t seed = 12345;
    for (int round = 0; round < 5000; round++) {
        char from[40], out[40], again[40];
        size_t length = 0;
        for (; length < sizeof from - 1; length++) {
            seed = seed * 1664525u + 1013904223u;
            unsigned char byte = (unsigned char)(seed >> 24);
            if (byte == 0)
                break;
            from[length] = (char)byte;
        }
        from[length] = '\0';
        text_clean(out, sizeof out, from);
        assert_int_equal(text_utf8_fault(out, strlen(out)), strlen(out));
        const char *at = out;
        for (uint32_t c = text_next(&at); c; c = text_next(&at))
            assert_true(c >= 0x20 && !(c >= 0x7f && c < 0xa0));
        assert_true(text_clean(again, sizeof again, out));
        assert_string_equal(again, out);
    }
}

/* "aéx€y🎳z": characters begin at 0 1 3 4 7 8 12, the end is at 13. */
static const char MIXED[] = "a\xc3\xa9x\xe2\x82\xacy\xf0\x9f\x8e\xb3z";
static size_t whole_below(size_t room)
{
    static const size_t STARTS[] = {0, 1, 3, 4, 7, 8, 12, 13};
    size_t whole = 0;
    for (size_t i = 0; i < sizeof STARTS / sizeof STARTS[0]; i++)
        if (STARTS[i] <= room)
            whole = STARTS[i];
    return whole;
}

static void test_cut_at_every_size(void **state)
{
    (void)state;
    size_t length = strlen(MIXED);
    for (size_t size = 1; size <= length + 2; size++) {
        for (int way = 0; way < 3; way++) {
            char out[32];
            memset(out, '#', sizeof out);
            out[0] = '\0';
            bool whole = way == 0   ? text_copy(out, size, MIXED)
                         : way == 1 ? text_append(out, size, "%s", MIXED)
                                    : text_clean(out, size, MIXED);
            size_t expected = whole_below(size - 1);
            assert_true(whole == (length < size));
            assert_int_equal(strlen(out), expected);
            assert_memory_equal(out, MIXED, expected);
            for (size_t i = size; i < sizeof out; i++) /* nothing is written past the end */
                assert_int_equal(out[i], '#');
        }
    }
}

static void test_append_to_what_is_there(void **state)
{
    (void)state;
    for (size_t size = 4; size <= 20; size++) {
        char out[32];
        memset(out, '#', sizeof out);
        strcpy(out, "ab:");
        text_append(out, size, "%s%d", MIXED, 7);
        size_t room = size - 1 - 3, expected = room >= 14 ? 14 : whole_below(room);
        assert_int_equal(strlen(out), 3 + expected);
        assert_int_equal(text_utf8_fault(out, strlen(out)), strlen(out));
        for (size_t i = size; i < sizeof out; i++)
            assert_int_equal(out[i], '#');
    }
    char full[4] = "abc";
    assert_false(text_append(full, sizeof full, "d"));
    assert_string_equal(full, "abc");
}

static void test_copy_within_itself(void **state)
{
    (void)state;
    char out[16] = "  feet";
    assert_true(text_copy(out, sizeof out, out + 2));
    assert_string_equal(out, "feet");
}

static const char *const NAMES[] = {"stance", "aim", "mph", "rotation_deg", "slot", "solid",
                                    "pearl",  "",    0};

static void assert_nearest(const char *word, const char *expected)
{
    const char *got = text_nearest(word, NAMES);
    if (expected == NULL ? got != NULL : got == NULL || strcmp(got, expected) != 0)
        fail_msg("\"%s\" is near \"%s\", expected \"%s\"", word, got ? got : "nothing",
                 expected ? expected : "nothing");
}

static void test_nearest(void **state)
{
    (void)state;
    assert_nearest("stance", "stance");
    assert_nearest("stnace", "stance"); /* neighbours swapped */
    assert_nearest("ami", "aim");
    assert_nearest("stanc", "stance");
    assert_nearest("stancee", "stance");
    assert_nearest("stanxe", "stance");
    assert_nearest("rotation", "rotation_deg");
    assert_nearest("rotatoin_deg", "rotation_deg");
    assert_nearest("slto", "slot");
    assert_nearest("parle", "pearl");
    assert_nearest("", NULL);
    assert_nearest("zzzzzz", NULL);
    assert_nearest("qq", NULL);
    assert_nearest("temperature", NULL);
    const char *const none[] = {0};
    assert_null(text_nearest("aim", none));
}

static void test_nearest_of_long_words(void **state)
{
    (void)state;
    char word[80];
    for (size_t length = 40; length < 79; length++) {
        memset(word, 'a', length);
        word[length] = '\0';
        const char *got = text_nearest(word, NAMES); /* must stay inside its tables */
        assert_null(got);
    }
}

/* The nearest wins, and the first of two as near. */
static void test_nearest_of_several(void **state)
{
    (void)state;
    const char *const two[] = {"move-in", "move-out", "aim-in", 0};
    assert_string_equal(text_nearest("move-on", two), "move-in");
    assert_string_equal(text_nearest("move-ou", two), "move-out");
    assert_string_equal(text_nearest("aim-on", two), "aim-in");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fault),
        cmocka_unit_test(test_every_code_point),
        cmocka_unit_test(test_next_ends),
        cmocka_unit_test(test_length),
        cmocka_unit_test(test_clean),
        cmocka_unit_test(test_clean_drops_every_control),
        cmocka_unit_test(test_clean_drops_format_characters),
        cmocka_unit_test(test_clean_of_noise),
        cmocka_unit_test(test_cut_at_every_size),
        cmocka_unit_test(test_append_to_what_is_there),
        cmocka_unit_test(test_copy_within_itself),
        cmocka_unit_test(test_nearest),
        cmocka_unit_test(test_nearest_of_long_words),
        cmocka_unit_test(test_nearest_of_several),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
