/* ball_form.h - a ball's fields on the screen: order, names and cautions. What each may hold is
 * defined by core/bag/ball.h, for screens and files alike. */
#ifndef SETTEE_UI_INPUT_BALL_FORM_H
#define SETTEE_UI_INPUT_BALL_FORM_H

#include "core/advice/rules.h"
#include "core/bag/ball.h"

enum { FORM_NAME, FORM_WEIGHT, FORM_COVER, FORM_FINISH, FORM_GRIT, FORM_ROWS = 12 };

typedef struct FormRow {
    const char *name, *unit; /* as shown */
    const JsonField *table;
    const char *key;
    bool surface; /* a member of the ball's surface */
    Caution caution;
} FormRow;
extern const FormRow FORM[FORM_ROWS];

/* What the row may hold. Here the finish has a word for "grit" too; a file gives a number instead.
 */
JsonField form_field(int row);

/* The ball's value there, as it would be typed. */
void form_show(const Ball *ball, int row, char *out, size_t size);

/* Puts what was typed into the ball. False: `error` says why not in one line; the ball is
 * unchanged. A new surface has no games on it yet. */
bool form_put(Ball *ball, int row, const char *typed, Error *error);

/* The word `step` places after a word of the row's choices, wrapping around. */
const char *form_word(int row, const char *word, int step);

#endif
