/* test_widths.c - the columns that a character takes on the canvas are those that the C library
 * gives it, by which curses counts. SETTEE_GOLDEN_UPDATE=1 writes the canvas's table from it. */
#include "near.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <wchar.h>

#include "ui/draw/canvas.h"

extern int wcwidth(wchar_t c); /* XSI, and so not among what <wchar.h> shows here */

#define TABLE SETTEE_SOURCE_DIR "/src/ui/draw/widths.inc"

/* A newer library knows some characters that the table does not. */
enum { FIRST = 0xa0, LAST = 0x10ffff, NEWER_MAX = 100 };

/* -1 where the library has no opinion: what no one has assigned yet. */
static int library_width(uint32_t c)
{
    return c >= 0xd800 && c <= 0xdfff ? -1 : wcwidth((wchar_t)c);
}

/* The ranges of one width. What is not assigned joins those around it where `join` says so: in the
 * blocks of wide characters more of them are to come. */
static void write_ranges(FILE *file, const char *name, int width, bool join)
{
    fprintf(file, "static const uint32_t %s[][2] = {", name);
    int count = 0;
    for (uint32_t c = FIRST; c <= LAST; c++) {
        if (library_width(c) != width)
            continue;
        uint32_t last = c;
        for (uint32_t next = c + 1; next <= LAST; next++) {
            int is = library_width(next);
            if (is == width)
                last = next;
            else if (is >= 0 || !join)
                break;
        }
        fprintf(file, "%s{0x%x, 0x%x},", count++ % 4 ? " " : "\n    ", (unsigned)c, (unsigned)last);
        c = last;
    }
    fprintf(file, "\n};\n");
}

static void write_table(void)
{
    FILE *file = fopen(TABLE, "wb");
    assert_non_null(file);
    fputs("/* Characters that take no column, and those that take two, in their order; all others "
          "take\n * one. From the C library's wcwidth (Debian 12, glibc 2.36) by "
          "tests/ui/test_widths.c. */\n",
          file);
    write_ranges(file, "NO_COLUMN", 0, false);
    write_ranges(file, "TWO_COLUMNS", 2, true);
    assert_int_equal(fclose(file), 0);
}

static void every_character_is_as_wide_as_curses_thinks(void **state)
{
    (void)state;
    int known = 0, wrong = 0;
    assert_non_null(setlocale(LC_CTYPE, "C.UTF-8"));
    if (getenv("SETTEE_GOLDEN_UPDATE"))
        write_table();
    for (uint32_t c = FIRST; c <= LAST; c++) {
        int width = library_width(c);
        known += width >= 0;
        if (width < 0 || width == canvas_glyph_width(c))
            continue;
        if (wrong++ < 5)
            print_message("U+%04X takes %d, not %d\n", (unsigned)c, width, canvas_glyph_width(c));
    }
    assert_true(known > 100000); /* the locale knows more than ASCII */
    assert_in_range(wrong, 0, NEWER_MAX);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_character_is_as_wide_as_curses_thinks),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
