/* canvas.h - a grid of cells that the views draw into: what a screen is before any terminal.
 *
 * A cell is a character and the role it plays; colours come later, from the theme. Nothing drawn
 * outside is kept, but it is counted, so that a test can say no view ever does. Must not know
 * about bowling or about curses. */
#ifndef SETTEE_UI_DRAW_CANVAS_H
#define SETTEE_UI_DRAW_CANVAS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "base/theme.h"

enum { CANVAS_COLUMNS_MAX = 500, CANVAS_ROWS_MAX = 200 };

typedef struct Cell {
    uint32_t glyph;       /* 0: right half of the wide character before it */
    unsigned char role;   /* Role of the character */
    unsigned char ground; /* Role whose background lies under it; usually the same */
} Cell;

typedef struct Canvas {
    int columns, rows;
    Cell *cells;                   /* owned, rows * columns */
    int cursor_row, cursor_column; /* where the field being filled in is; row -1: none */
    bool ascii;                    /* text is brought down to ASCII as it is put */
    int spilled;                   /* cells that were put outside */
} Canvas;

/* Empty canvas of that size (brought into 1..MAX); false when memory is short. */
bool canvas_init(Canvas *canvas, int columns, int rows);
void canvas_fini(Canvas *canvas);
void canvas_erase(Canvas *canvas);

const Cell *canvas_at(const Canvas *canvas, int row, int column); /* NULL outside */

/* One character; its background stays that of its own role. */
void canvas_put(Canvas *canvas, int row, int column, uint32_t glyph, Role role);
/* The same, on the background that is already there. */
void canvas_over(Canvas *canvas, int row, int column, uint32_t glyph, Role role);

/* Text in at most `width` columns, cut with an ellipsis; returns the columns it took. */
int canvas_text(Canvas *canvas, int row, int column, int width, Role role, const char *text);
int canvas_print(Canvas *canvas, int row, int column, int width, Role role, const char *format, ...)
    __attribute__((format(printf, 6, 7)));
/* Text that ends at `column` (not included). */
int canvas_text_right(Canvas *canvas, int row, int column, int width, Role role, const char *text);

/* Text broken at spaces into at most `rows` lines; returns the lines it took. */
int canvas_wrap(Canvas *canvas, int row, int column, int width, int rows, Role role,
                const char *text);

void canvas_hline(Canvas *canvas, int row, int column, int width, uint32_t glyph, Role role);

/* Columns that a character or a text takes: 0 for marks that combine, 2 for wide ones. */
int canvas_glyph_width(uint32_t glyph);
int canvas_width(const char *text);

/* The characters alone as UTF-8 lines without blanks at their ends; returns the bytes needed
 * (without the NUL), as snprintf does. */
size_t canvas_plain(const Canvas *canvas, char *out, size_t size);

#endif
