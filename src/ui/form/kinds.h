/* kinds.h - the list of the kinds of ball, to add one with what is usual for it: on Home and in an
 * event. */
#ifndef SETTEE_UI_FORM_KINDS_H
#define SETTEE_UI_FORM_KINDS_H

#include "core/bag/preset.h"
#include "ui/draw/widgets.h"

int kinds_count(void);

/* A new ball of a kind, by its row in BALL_PRESETS: as heavy as the bag's last ball, or as is usual
 * for the bowler's level. Not in the bag yet. */
Ball kinds_ball(const Bag *bag, int kind);

/* Draws them, a line each, as many around row `at` as fit, with what each means where `wide`;
 * `first` is a row before them all, NULL: there is none. */
void kinds_draw(const char *first, int at, bool wide, const Glyphs *glyphs, Canvas *canvas,
                Area area);

#endif
