/* home_view.h - shared by the home_view*.c, and only for them. */
#ifndef SETTEE_UI_HOME_HOME_VIEW_H
#define SETTEE_UI_HOME_HOME_VIEW_H

#include "ui/home/home_keys.h"

/* Title line, rule with the message or, in the compact view, a hint; footer. */
void home_frame(const Home *home, Canvas *canvas, const char *title, const char *right,
                const char *hint);
/* First row that shows, so that the chosen one does. */
int home_top(int at, int count, int room);
/* In the compact view a message that is longer than a line: whether it is, and drawn over the two
 * lines above the footer. */
bool home_long_message(const Home *home);
void home_draw_message(const Home *home, Canvas *canvas);
void home_question(const Home *home, char *out, size_t size);

void home_draw_bag(const Home *home, Canvas *canvas);
void home_draw_learnt(const Home *home, Canvas *canvas);
void home_draw_kinds(const Home *home, Canvas *canvas);
void home_draw_form(const Home *home, Canvas *canvas);
void home_draw_sheet(const Home *home, Canvas *canvas);
/* The lane from above with home->oil, pins at the top: a column for each board, or where the area
 * is narrower for every other one; board 1 on the right. Each row shows the film where its middle
 * is. */
void home_draw_picture(const Home *home, Canvas *canvas, Area area);
/* "40 ft, 23.1 mL, 3.2:1" */
void home_oil_words(double length_ft, double volume_ml, double ratio, char *out, size_t size);

#endif
