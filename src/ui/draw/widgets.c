/* widgets.c - figures, bars, leaves. */
#include "ui/draw/widgets.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"

static void figure(Canvas *canvas, const Glyphs *glyphs, int row, int column, Role role, int digit)
{
    const char *cells = glyphs->digit[digit];
    for (int i = 0; i < GLYPH_DIGIT_ROWS * GLYPH_DIGIT_COLUMNS; i++) {
        uint32_t glyph = text_next(&cells);
        canvas_put(canvas, row + i / GLYPH_DIGIT_COLUMNS, column + i % GLYPH_DIGIT_COLUMNS, glyph,
                   role);
    }
}

int widget_figures(Canvas *canvas, const Glyphs *glyphs, int row, int column, Role role,
                   double value)
{
    char text[16];
    int used = 0;
    long halves = lround(value * 2.0);
    if (halves < 0)
        halves = 0;
    if (halves > 199)
        halves = 199;
    snprintf(text, sizeof text, "%ld", halves / 2);
    for (const char *at = text; *at; at++) {
        if (used > 0)
            used++;
        figure(canvas, glyphs, row, column + used, role, *at - '0');
        used += GLYPH_DIGIT_COLUMNS;
    }
    if (halves % 2) {
        int down = glyphs->ascii ? GLYPH_DIGIT_ROWS - 1 : 0;
        used += canvas_text(canvas, row + down, column + used, 2, role, glyphs->ascii ? ".5" : "½");
    }
    return used;
}

void widget_plan(Canvas *canvas, const Glyphs *glyphs, Area area, Role role,
                 const double values[PLAN_FIGURES], int columns[PLAN_FIGURES])
{
    static const char *const NAMES[PLAN_FIGURES] = {"ball", "feet", "aim"};
    static const int AT[PLAN_FIGURES] = {0, 7, 17};
    int wide = area.columns, spread = wide >= 40 ? 4 : wide >= 36 ? 3 : wide >= 32 ? 2 : wide >= 30;
    for (int i = 0; i < PLAN_FIGURES; i++) {
        columns[i] = area.column + AT[i] + i * spread;
        canvas_text(canvas, area.row, columns[i], 6, ROLE_DIM, NAMES[i]);
        widget_figures(canvas, glyphs, area.row + 1, columns[i], role, values[i]);
    }
}

void widget_chance(Canvas *canvas, const Glyphs *glyphs, int row, int column, int width, double now,
                   double after)
{
    int a = (int)lround(now * width), b = (int)lround(after * width);
    for (int i = 0; i < width; i++) {
        uint32_t glyph = glyphs->bar_rest;
        Role role = ROLE_DIM;
        if (i < a && i < b) {
            glyph = glyphs->bar;
            role = ROLE_PLAIN;
        } else if (i < b) {
            glyph = glyphs->bar_gain;
            role = ROLE_GOOD;
        } else if (i < a) {
            glyph = glyphs->bar_loss;
            role = ROLE_BAD;
        }
        canvas_put(canvas, row, column + i, glyph, role);
    }
}

void widget_board(char *out, size_t size, double board)
{
    snprintf(out, size, "%g", round(board * 2.0) / 2.0);
}

void widget_leave(char *out, size_t size, const Shot *shot, int width)
{
    text_copy(out, size, "");
    const char *spare = !shot->spare_said       ? ""
                        : shot->spare_foul      ? " F"
                        : shot->spare_left == 0 ? "/"
                                                : " -";
    if (shot->foul) {
        text_append(out, size, "F%s", spare);
        return;
    }
    if (!shot->left_said) {
        text_copy(out, size, "?");
        return;
    }
    if (shot->left == 0) {
        text_copy(out, size, "X");
        return;
    }
    int room = width - canvas_width(spare);
    if (shot->left == PINS_ALL)
        text_copy(out, size, room >= 7 ? "all ten" : "all");
    for (int pin = 1; shot->left != PINS_ALL && pin <= 10; pin++)
        if (shot->left & pin_bit(pin))
            text_append(out, size, "%s%d", out[0] ? "-" : "", pin);
    if (shot->ringing && width >= 10)
        text_append(out, size, " ringing");
    if (canvas_width(out) > room) {
        text_copy(out, size, "");
        text_append(out, size, room >= 6 ? "%d pins" : "%dp", lane_pin_count(shot->left));
    }
    text_append(out, size, "%s", spare);
}

int widget_sentences(Canvas *canvas, int row, int column, int width, int rows, Role role,
                     const char *text)
{
    char whole[512];
    text_copy(whole, sizeof whole, text);
    while (canvas_lines(width, whole) > rows) {
        size_t end = strlen(whole);
        while (end > 1 && !(whole[end - 1] == ' ' && whole[end - 2] == '.'))
            end--;
        if (end <= 1)
            break;
        whole[end - 1] = '\0';
    }
    return canvas_wrap(canvas, row, column, width, rows, role, whole);
}

void widget_brief(char *out, size_t size, const char *text, int width)
{
    text_copy(out, size, text);
    while (canvas_width(out) > width) {
        size_t end = strlen(out);
        while (end > 1 && !(out[end - 1] == ' ' && strchr(",:;.", out[end - 2])))
            end--;
        if (end <= 1) {
            text_copy(out, size, text);
            return;
        }
        out[end - 2] = '\0';
    }
}

void widget_too_small(Canvas *canvas, const char *question, int columns, int rows)
{
    char text[200] = "";
    if (question[0])
        text_append(text, sizeof text, "%s y/n", question);
    else
        text_append(text, sizeof text,
                    "settee needs %dx%d; this is %dx%d. Make the window larger, or press q to "
                    "quit.",
                    columns, rows, canvas->columns, canvas->rows);
    int row = canvas->rows > 4 ? canvas->rows / 3 : 0;
    canvas_wrap(canvas, row, 0, canvas->columns, canvas->rows - row, ROLE_PLAIN, text);
}
