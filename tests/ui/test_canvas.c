/* test_canvas.c - the cell grid keeps its bounds, cuts and breaks text, and minds wide characters.
 */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "ui/draw/canvas.h"
#include "ui/draw/glyphs.h"

static void expect(const Canvas *canvas, const char *text)
{
    char out[2048];
    assert_true(canvas_plain(canvas, out, sizeof out) < sizeof out);
    assert_string_equal(out, text);
}

static void nothing_outside_is_kept(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 4, 2));
    canvas_put(&canvas, -1, 0, 'x', ROLE_PLAIN);
    canvas_put(&canvas, 0, 4, 'x', ROLE_PLAIN);
    canvas_put(&canvas, 2, 0, 'x', ROLE_PLAIN);
    canvas_put(&canvas, 0, -1, 'x', ROLE_PLAIN);
    assert_int_equal(canvas.spilled, 4);
    expect(&canvas, "\n\n");
    assert_null(canvas_at(&canvas, 0, 4));
    canvas_text(&canvas, 1, 0, 4, ROLE_PLAIN, "abcd");
    expect(&canvas, "\nabcd\n");
    assert_int_equal(canvas.spilled, 4);
    canvas_erase(&canvas);
    assert_int_equal(canvas.spilled, 0);
    expect(&canvas, "\n\n");
    canvas_fini(&canvas);
}

static void sizes_are_bounded(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, -5, 0));
    assert_int_equal(canvas.columns, 1);
    assert_int_equal(canvas.rows, 1);
    canvas_fini(&canvas);
    assert_true(canvas_init(&canvas, 100000, 100000));
    assert_int_equal(canvas.columns, CANVAS_COLUMNS_MAX);
    assert_int_equal(canvas.rows, CANVAS_ROWS_MAX);
    canvas_fini(&canvas);
}

static void text_is_cut_with_a_mark(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 12, 1));
    assert_int_equal(canvas_text(&canvas, 0, 0, 6, ROLE_PLAIN, "boards"), 6);
    expect(&canvas, "boards\n");
    assert_int_equal(canvas_text(&canvas, 0, 0, 5, ROLE_PLAIN, "boards"), 5);
    expect(&canvas, "boar…s\n");
    assert_int_equal(canvas_text(&canvas, 0, 0, 0, ROLE_PLAIN, "x"), 0);
    canvas_erase(&canvas);
    assert_int_equal(canvas_text_right(&canvas, 0, 12, 12, ROLE_PLAIN, "63%"), 3);
    expect(&canvas, "         63%\n");
    canvas_erase(&canvas);
    assert_int_equal(canvas_print(&canvas, 0, 0, 12, ROLE_PLAIN, "%d at %.1f", 7, 41.25), 9);
    canvas_fini(&canvas);
}

static void text_is_broken_at_spaces(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 10, 4));
    assert_int_equal(canvas_wrap(&canvas, 0, 0, 10, 4, ROLE_PLAIN, "two in with the feet"), 3);
    expect(&canvas, "two in\nwith the\nfeet\n\n");
    canvas_fini(&canvas);
}

static void a_long_word_is_broken_anywhere(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 4, 3));
    assert_int_equal(canvas_wrap(&canvas, 0, 0, 4, 3, ROLE_PLAIN, "abcdefghij"), 3);
    expect(&canvas, "abcd\nefgh\nij\n");
    canvas_erase(&canvas);
    assert_int_equal(canvas_wrap(&canvas, 0, 0, 4, 2, ROLE_PLAIN, "abcdefghij"), 2);
    expect(&canvas, "abcd\nefg…\n\n");
    canvas_fini(&canvas);
}

static void wide_and_combining_characters(void **state)
{
    (void)state;
    Canvas canvas;
    assert_int_equal(canvas_width("木の葉"), 6);
    assert_int_equal(canvas_width("e\xcc\x81"), 1);
    assert_true(canvas_init(&canvas, 6, 1));
    canvas_text(&canvas, 0, 0, 6, ROLE_PLAIN, "木x");
    expect(&canvas, "木x\n");
    assert_int_equal(canvas_at(&canvas, 0, 1)->glyph, 0);
    canvas_put(&canvas, 0, 1, 'y', ROLE_PLAIN); /* its left half must not stay behind */
    expect(&canvas, " yx\n");
    canvas_text(&canvas, 0, 0, 6, ROLE_PLAIN, "木x");
    canvas_put(&canvas, 0, 0, 'z', ROLE_PLAIN);
    expect(&canvas, "z x\n");
    canvas_put(&canvas, 0, 5, 0x6728, ROLE_PLAIN); /* no room for its right half */
    assert_int_equal(canvas_at(&canvas, 0, 5)->glyph, ' ');
    canvas_erase(&canvas);
    canvas_text(&canvas, 0, 0, 6, ROLE_PLAIN, "e\xcc\x81t");
    expect(&canvas, "et\n");
    canvas_fini(&canvas);
}

static void ascii_is_ascii(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 12, 1));
    canvas.ascii = true;
    canvas_text(&canvas, 0, 0, 12, ROLE_PLAIN, "4.2° → 木é");
    expect(&canvas, "4.2  > ???\n");
    canvas_fini(&canvas);
}

static void a_path_keeps_the_oil_under_it(void **state)
{
    (void)state;
    Canvas canvas;
    assert_true(canvas_init(&canvas, 2, 1));
    canvas_put(&canvas, 0, 0, ':', ROLE_OIL2);
    canvas_over(&canvas, 0, 0, '*', ROLE_PATH);
    assert_int_equal(canvas_at(&canvas, 0, 0)->role, ROLE_PATH);
    assert_int_equal(canvas_at(&canvas, 0, 0)->ground, ROLE_OIL2);
    canvas_fini(&canvas);
}

static void glyph_tables_are_whole(void **state)
{
    (void)state;
    const Glyphs *tables[] = {&GLYPHS_UTF8, &GLYPHS_ASCII};
    for (int t = 0; t < 2; t++) {
        for (int d = 0; d < GLYPH_DIGITS; d++)
            assert_int_equal(canvas_width(tables[t]->digit[d]),
                             GLYPH_DIGIT_ROWS * GLYPH_DIGIT_COLUMNS);
        for (int i = 0; i < GLYPH_FILMS; i++)
            for (int k = 0; k < i; k++) /* shades differ without colour */
                assert_true(tables[t]->film[i] != tables[t]->film[k]);
        assert_true(tables[t]->path != tables[t]->path2);
        for (int d = 0; d < GLYPH_DIGITS; d++)
            for (int e = 0; e < d; e++)
                assert_string_not_equal(tables[t]->digit[d], tables[t]->digit[e]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_outside_is_kept),
        cmocka_unit_test(sizes_are_bounded),
        cmocka_unit_test(text_is_cut_with_a_mark),
        cmocka_unit_test(text_is_broken_at_spaces),
        cmocka_unit_test(a_long_word_is_broken_anywhere),
        cmocka_unit_test(wide_and_combining_characters),
        cmocka_unit_test(ascii_is_ascii),
        cmocka_unit_test(a_path_keeps_the_oil_under_it),
        cmocka_unit_test(glyph_tables_are_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
