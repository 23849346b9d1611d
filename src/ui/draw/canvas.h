/* canvas.h - a grid of cells that the views draw into: what a screen is before any terminal.
 *
 * A cell is a character and its role; colours come later, from the theme. Drawing outside has no
 * effect but is counted, so that a test can check that no view does it. Must not know about bowling
 * or curses. */
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
    unsigned char ground; /* Role whose background it has; usually the same */
} Cell;

typedef struct Canvas {
    int columns, rows;
    Cell *cells;                   /* owned, rows * columns */
    int cursor_row, cursor_column; /* the field being filled in; row -1: none */
    bool ascii;                    /* text is converted to ASCII when put */
    int spilled;                   /* cells put outside */
} Canvas;

/* Empty canvas of that size (clamped to 1..MAX); false if out of memory. */
bool canvas_init(Canvas *canvas, int columns, int rows);
void canvas_fini(Canvas *canvas);
void canvas_erase(Canvas *canvas);

const Cell *canvas_at(const Canvas *canvas, int row, int column); /* NULL outside */

/* One character, on its own role's background. */
void canvas_put(Canvas *canvas, int row, int column, uint32_t glyph, Role role);
/* The same, on the background that is already there. */
void canvas_over(Canvas *canvas, int row, int column, uint32_t glyph, Role role);

/* Text in at most `width` columns, cut with an ellipsis; returns the columns it took. */
int canvas_text(Canvas *canvas, int row, int column, int width, Role role, const char *text);
int canvas_print(Canvas *canvas, int row, int column, int width, Role role, const char *format, ...)
    __attribute__((format(printf, 6, 7)));
/* Text that ends at `column` (not included). */
int canvas_text_right(Canvas *canvas, int row, int column, int width, Role role, const char *text);

/* Text wrapped at spaces into at most `rows` lines; returns how many. */
int canvas_wrap(Canvas *canvas, int row, int column, int width, int rows, Role role,
                const char *text);

/* How many lines that takes. */
int canvas_lines(int width, const char *text);

void canvas_hline(Canvas *canvas, int row, int column, int width, uint32_t glyph, Role role);

/* Columns that a character or a text takes: 0 for marks that combine, 2 for wide ones. */
int canvas_glyph_width(uint32_t glyph);
int canvas_width(const char *text);

/* The characters alone as UTF-8 lines without trailing blanks; returns the bytes needed (without
 * the NUL), as snprintf does. */
size_t canvas_plain(const Canvas *canvas, char *out, size_t size);

#endif
