/* widgets.h - small pieces shared by the screens. */
#ifndef SETTEE_UI_DRAW_WIDGETS_H
#define SETTEE_UI_DRAW_WIDGETS_H

#include "core/event/shot.h"
#include "ui/draw/canvas.h"
#include "ui/draw/glyphs.h"

typedef struct Area {
    int row, column, rows, columns;
} Area;

/* A whole or half number in figures three rows tall; returns the columns it took. */
int widget_figures(Canvas *canvas, const Glyphs *glyphs, int row, int column, Role role,
                   double value);

/* Ball, feet and aim under their names, five rows including the one below the figures; receives
 * where the three begin. */
enum { PLAN_FIGURES = 3 };
void widget_plan(Canvas *canvas, const Glyphs *glyphs, Area area, Role role,
                 const double values[PLAN_FIGURES], int columns[PLAN_FIGURES]);

/* A chance now and after, as one bar. */
void widget_chance(Canvas *canvas, const Glyphs *glyphs, int row, int column, int width, double now,
                   double after);

/* "27" or "27.5": a board to the nearest half. */
void widget_board(char *out, size_t size, double board);

/* "X", "3-6-10", "all ten", "10 ringing", "?", "F" a foul; if wider than `width`: "5 pins". */
void widget_leave(char *out, size_t size, const Shot *shot, int width);

/* As many whole sentences as fit into the rows; the first is cut if not even that fits. Returns the
 * rows used. */
int widget_sentences(Canvas *canvas, int row, int column, int width, int rows, Role role,
                     const char *text);

/* For a window too small for anything else: the question that is open, or how large it must be. */
void widget_too_small(Canvas *canvas, const char *question, int columns, int rows);

/* The text if it fits into the width, else what of it does up to a comma, colon or full stop. */
void widget_brief(char *out, size_t size, const char *text, int width);

#endif
