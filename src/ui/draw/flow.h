/* flow.h - a page of lines that is longer than the screen: help, words, a lesson's text. The same
 * calls count the lines and draw those that show. */
#ifndef SETTEE_UI_DRAW_FLOW_H
#define SETTEE_UI_DRAW_FLOW_H

#include "ui/draw/canvas.h"
#include "ui/input/keytable.h"

typedef struct Flow {
    Canvas *canvas;          /* NULL: only counts */
    int columns;             /* of the page */
    int line;                /* lines so far */
    int top, row, row_count; /* with a canvas: line `top` is drawn in row `row`, and so on */
} Flow;

/* The row of the next line, -1: it doesn't show. */
int flow_row(const Flow *flow);
void flow_line(Flow *flow, Role role, const char *text);
/* A sentence from column `left` on, wrapped. */
void flow_sentence(Flow *flow, int left, Role role, const char *text);

/* Every key with its sentence, group after group, up to the group `end`. */
void flow_keys(Flow *flow, const KeyTable *table, int end);

/* Those that match `sought` (key_matches), with the places where they work (key_places); returns
 * how many. */
int flow_found(Flow *flow, const KeyTable *table, const char *stage, const char *sought);

#endif
