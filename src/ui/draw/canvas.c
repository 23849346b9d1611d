/* canvas.c - the cell grid. */
#include "ui/draw/canvas.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/draw/glyphs.h"
#include "ui/draw/widths.inc"

static int clamp(int value, int low, int high)
{
    return value < low ? low : value > high ? high : value;
}

bool canvas_init(Canvas *canvas, int columns, int rows)
{
    *canvas = (Canvas){.columns = clamp(columns, 1, CANVAS_COLUMNS_MAX),
                       .rows = clamp(rows, 1, CANVAS_ROWS_MAX)};
    canvas->cells = calloc((size_t)canvas->columns * (size_t)canvas->rows, sizeof(Cell));
    if (!canvas->cells)
        return false;
    canvas_erase(canvas);
    return true;
}

void canvas_fini(Canvas *canvas)
{
    free(canvas->cells);
    *canvas = (Canvas){0};
}

void canvas_erase(Canvas *canvas)
{
    for (int i = 0; i < canvas->columns * canvas->rows; i++)
        canvas->cells[i] = (Cell){.glyph = ' ', .role = ROLE_PLAIN, .ground = ROLE_PLAIN};
    canvas->cursor_row = canvas->cursor_column = -1;
    canvas->spilled = 0;
}

static Cell *cell_at(const Canvas *canvas, int row, int column)
{
    if (row < 0 || row >= canvas->rows || column < 0 || column >= canvas->columns)
        return NULL;
    return &canvas->cells[row * canvas->columns + column];
}

const Cell *canvas_at(const Canvas *canvas, int row, int column)
{
    return cell_at(canvas, row, column);
}

/* Whether it is in one of the sorted ranges. */
static bool within(uint32_t glyph, const uint32_t (*ranges)[2], size_t count)
{
    size_t low = 0, high = count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (ranges[middle][1] < glyph)
            low = middle + 1;
        else
            high = middle;
    }
    return low < count && ranges[low][0] <= glyph;
}

/* Not wcwidth: it depends on the locale, and a screen must be the same in all of them. */
int canvas_glyph_width(uint32_t glyph)
{
    if (glyph < NO_COLUMN[0][0])
        return 1;
    if (glyph >= 0x20000 && glyph <= 0x3fffd)
        return 2; /* planes reserved for ideographs */
    if (within(glyph, NO_COLUMN, sizeof NO_COLUMN / sizeof *NO_COLUMN))
        return 0;
    return within(glyph, TWO_COLUMNS, sizeof TWO_COLUMNS / sizeof *TWO_COLUMNS) ? 2 : 1;
}

int canvas_width(const char *text)
{
    int width = 0;
    for (uint32_t glyph; (glyph = text_next(&text));)
        width += canvas_glyph_width(glyph);
    return width;
}

/* Clears the other half of a wide character that is being overwritten. */
static void mend(Canvas *canvas, int row, int column)
{
    Cell *cell = cell_at(canvas, row, column), *next = cell_at(canvas, row, column + 1);
    Cell *last = cell_at(canvas, row, column - 1);
    if (cell->glyph == 0 && last)
        last->glyph = ' ';
    if (next && next->glyph == 0)
        next->glyph = ' ';
}

static void put(Canvas *canvas, int row, int column, uint32_t glyph, Role role, bool keep_ground)
{
    int width = canvas_glyph_width(glyph);
    if (canvas->ascii && glyph > 0x7e)
        glyph = glyphs_ascii(glyph);
    if (width == 0)
        return;
    for (int i = 0; i < width; i++) {
        Cell *cell = cell_at(canvas, row, column + i);
        if (!cell) {
            canvas->spilled++;
            continue;
        }
        mend(canvas, row, column + i);
        cell->glyph = i == 0 ? glyph : canvas->ascii ? '?' : 0;
        cell->role = (unsigned char)role;
        if (!keep_ground)
            cell->ground = (unsigned char)role;
    }
    if (width == 2 && !cell_at(canvas, row, column + 1) && cell_at(canvas, row, column))
        cell_at(canvas, row, column)->glyph = ' ';
}

void canvas_put(Canvas *canvas, int row, int column, uint32_t glyph, Role role)
{
    put(canvas, row, column, glyph, role, false);
}

void canvas_over(Canvas *canvas, int row, int column, uint32_t glyph, Role role)
{
    put(canvas, row, column, glyph, role, true);
}

/* Puts at most `width` columns of text[0..bytes). */
static int put_span(Canvas *canvas, int row, int column, int width, Role role, const char *text,
                    size_t bytes)
{
    const char *end = text + bytes;
    int used = 0;
    while (text < end) {
        uint32_t glyph = text_next(&text);
        int w = canvas_glyph_width(glyph);
        if (!glyph || used + w > width)
            break;
        canvas_put(canvas, row, column + used, glyph, role);
        used += w;
    }
    return used;
}

int canvas_text(Canvas *canvas, int row, int column, int width, Role role, const char *text)
{
    if (width <= 0)
        return 0;
    if (canvas_width(text) <= width)
        return put_span(canvas, row, column, width, role, text, strlen(text));
    int used = put_span(canvas, row, column, width - 1, role, text, strlen(text));
    canvas_put(canvas, row, column + used, 0x2026, role);
    return used + 1;
}

int canvas_print(Canvas *canvas, int row, int column, int width, Role role, const char *format, ...)
{
    char text[512];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    return canvas_text(canvas, row, column, width, role, text);
}

int canvas_text_right(Canvas *canvas, int row, int column, int width, Role role, const char *text)
{
    int wanted = canvas_width(text);
    if (wanted > width)
        wanted = width;
    return canvas_text(canvas, row, column - wanted, width, role, text);
}

/* Bytes of the first line of `text` when broken at `width` columns. */
static size_t line_bytes(const char *text, int width)
{
    const char *at = text, *space = NULL;
    int used = 0;
    while (*at) {
        const char *before = at;
        uint32_t glyph = text_next(&at);
        if (glyph == ' ')
            space = before;
        used += canvas_glyph_width(glyph);
        if (used > width && glyph != ' ')
            return (size_t)((space ? space : before > text ? before : at) - text);
    }
    return (size_t)(at - text);
}

int canvas_wrap(Canvas *canvas, int row, int column, int width, int rows, Role role,
                const char *text)
{
    int line = 0;
    while (*text && line < rows && width > 0) {
        size_t bytes = line_bytes(text, width);
        if (line == rows - 1 && text[bytes]) /* the rest doesn't fit: show an ellipsis */
            canvas_text(canvas, row + line, column, width, role, text);
        else
            put_span(canvas, row + line, column, width, role, text, bytes);
        text += bytes;
        while (*text == ' ')
            text++;
        line++;
    }
    return line;
}

int canvas_lines(int width, const char *text)
{
    int line = 0;
    for (; *text && width > 0; line++) {
        text += line_bytes(text, width);
        while (*text == ' ')
            text++;
    }
    return line;
}

void canvas_hline(Canvas *canvas, int row, int column, int width, uint32_t glyph, Role role)
{
    for (int i = 0; i < width; i++)
        canvas_put(canvas, row, column + i, glyph, role);
}

size_t canvas_plain(const Canvas *canvas, char *out, size_t size)
{
    size_t need = 0;
    for (int row = 0; row < canvas->rows; row++) {
        const Cell *cells = canvas->cells + (size_t)row * (size_t)canvas->columns;
        int last = canvas->columns;
        while (last > 0 && cells[last - 1].glyph == ' ')
            last--;
        for (int i = 0; i <= last; i++) {
            char bytes[5] = {'\n'};
            size_t n = 1;
            if (i < last && cells[i].glyph == 0)
                continue;
            if (i < last)
                n = text_encode(cells[i].glyph, bytes);
            if (need + n < size)
                memcpy(out + need, bytes, n);
            need += n;
        }
    }
    if (size > 0)
        out[need < size ? need : size - 1] = '\0';
    return need;
}
