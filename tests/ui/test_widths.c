/* test_widths.c - the columns of every character against wcwidth(3) of the C library, which curses
 * and most terminals go by. The table is of Unicode 14.0.0, as is glibc 2.36 of Debian 12; a newer
 * library knows more characters. */
#define _XOPEN_SOURCE 700 /* wcwidth */
#include "near.h"

#include <locale.h>
#include <stdbool.h>
#include <wchar.h>

#include "ui/draw/canvas.h"

/* How many characters may differ if the library knows another version of Unicode. */
enum { OF_ANOTHER_VERSION = 200 };

/* Known differences. wcwidth has no width (-1) for what is not assigned, where the table says what
 * its neighbours are, and for the separators of lines and paragraphs, which the table leaves out of
 * a row (0); control characters never come as far as a canvas. */
static bool known(uint32_t code, int library, int ours)
{
    bool separator = code == 0x2028 || code == 0x2029;
    return library == -1 && (!separator || ours == 0);
}

static void every_character(void **state)
{
    (void)state;
    if (!setlocale(LC_CTYPE, "C.UTF-8") || wcwidth(0x6728) != 2) {
        print_message("no C.UTF-8 here: nothing to compare with\n");
        skip();
    }
    int seen = 0, different = 0;
    for (uint32_t code = 0x20; code < 0x110000; code++) {
        if (code >= 0xd800 && code < 0xe000)
            continue; /* surrogates: no characters */
        int library = wcwidth((wchar_t)code), ours = canvas_glyph_width(code);
        assert_in_range(ours, 0, 2);
        seen += library >= 0;
        if (library == ours || known(code, library, ours))
            continue;
        if (different++ < 20)
            print_message("U+%04X takes %d columns, by wcwidth %d\n", (unsigned)code, ours,
                          library);
    }
    print_message("%d characters compared, %d differ\n", seen, different);
    assert_true(seen > 270000);
    assert_true(different <= (wcwidth(0x1e4d0) >= 0 ? OF_ANOTHER_VERSION : 0)); /* new in 15.0 */
}

static void some_by_name(void **state)
{
    (void)state;
    static const struct {
        uint32_t code;
        int width;
    } NAMED[] = {{'a', 1},     {0xad, 1},   {0xe9, 1},   {0x2026, 1},  {0x2500, 1},  {0x25cf, 1},
                 {0x300, 0},   {0x200b, 0}, {0x200d, 0}, {0xfe0f, 0},  {0xfeff, 0},  {0x1160, 0},
                 {0x1100, 2},  {0x3000, 2}, {0x6728, 2}, {0xac00, 2},  {0xff01, 2},  {0x1f3b3, 2},
                 {0x231a, 2},  {0x2614, 2}, {0x26bd, 2}, {0x1f6f8, 2}, {0x1f1e6, 1}, {0x20000, 2},
                 {0x1fa70, 2}, {0x94d, 0},  {0xe31, 0},  {0xe01ef, 0}, {0xe000, 1},  {0x10ffff, 1}};
    for (size_t i = 0; i < sizeof NAMED / sizeof NAMED[0]; i++)
        if (canvas_glyph_width(NAMED[i].code) != NAMED[i].width)
            fail_msg("U+%04X takes %d columns", (unsigned)NAMED[i].code,
                     canvas_glyph_width(NAMED[i].code));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_character),
                                       cmocka_unit_test(some_by_name)};
    return cmocka_run_group_tests_name("width", tests, NULL, NULL);
}
