/* view.h - the screens as pure functions: a const model in, a canvas filled. */
#ifndef SETTEE_UI_VIEW_H
#define SETTEE_UI_VIEW_H

#include "ui/draw/canvas.h"
#include "ui/model.h"

/* Draws what the model shows now, at the canvas's size (which the model must have been told). */
void view_draw(const Model *model, Canvas *canvas);

/* In MODE_ASK: what is asked; and it drawn over the line above the footer. */
void view_prompt(const Model *model, char *out, size_t size);
void view_prompt_line(const Model *model, Canvas *canvas);

void screen_lane(const Model *model, Canvas *canvas);
void screen_lane_top(const Model *model, Canvas *canvas); /* its top line alone */
void screen_spares(const Model *model, Canvas *canvas);
void screen_help(const Model *model, Canvas *canvas);
void screen_bag(const Model *model, Canvas *canvas);
void screen_ball(const Model *model, Canvas *canvas);
void screen_block(const Model *model, Canvas *canvas);

int screen_bag_pages(const Model *model); /* at the model's size */
/* Top line, with `page` at its right, message and footer of the bag's screens. */
void screen_bag_frame(const Model *model, Canvas *canvas, const char *page);
char screen_bag_letter(const Bag *bag, int ball); /* its slot, or a letter in the locker */

int screen_help_lines(int columns);               /* how long the help is at that width */
int screen_help_room(int rows);                   /* how many of its lines show at once */
int screen_help_top(int columns, unsigned where); /* line where the keys of that state begin */

typedef struct Area {
    int row, column, rows, columns;
} Area;
/* The bag's balls with their numbers; as many rows as it would take, and it in an area. */
int screen_ball_list_rows(const Model *model, int columns);
void screen_ball_list(const Model *model, Canvas *canvas, Area area);
/* The lane from above with its pins. */
void laneview_draw(const Model *model, Canvas *canvas, Area area);
/* The columns it takes when it may have at most `columns`: labels, gutters, 20 or 39 or 78. */
int laneview_columns(int columns);

#endif
