/* ball_form.h - a ball's fields on the screen: order, names and cautions. What each may hold is
 * defined by core/bag/ball.h, for screens and files alike. */
#ifndef SETTEE_UI_FORM_BALL_FORM_H
#define SETTEE_UI_FORM_BALL_FORM_H

#include "core/bag/ball.h"
#include "ui/form/form.h"

enum {
    BALL_NAME,
    BALL_WEIGHT,
    BALL_COVER,
    BALL_FINISH,
    BALL_GRIT,
    BALL_GAMES,
    BALL_STRENGTH,
    BALL_ROWS = 12
};

/* Of a Ball. The surface has a word for "grit" too; a file gives a number instead. A new surface
 * has no games on it yet. */
extern const FormKind BALL_FORM;
const char *ball_form_key(int row); /* as in a bag's file */

/* "I don't know": what is usual for its cover or kind again, where something is. */
bool ball_form_usual(int row);
void ball_form_unknown(Ball *ball, int row);

#endif
