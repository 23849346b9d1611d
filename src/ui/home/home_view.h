/* home_view.h - shared by home_view.c and home_view_fill.c, and only for them. */
#ifndef SETTEE_UI_HOME_HOME_VIEW_H
#define SETTEE_UI_HOME_HOME_VIEW_H

#include "ui/home/home_keys.h"

/* Title line, rule with the message or, in the compact view, a hint; footer. */
void home_frame(const Home *home, Canvas *canvas, const char *title, const char *right,
                const char *hint);
/* First row that shows, so that the chosen one does. */
int home_top(int at, int count, int room);
void home_question(const Home *home, char *out, size_t size);

void home_draw_bag(const Home *home, Canvas *canvas);
void home_draw_kinds(const Home *home, Canvas *canvas);
void home_draw_form(const Home *home, Canvas *canvas);

#endif
