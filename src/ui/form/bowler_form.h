/* bowler_form.h - a bowler's fields on the screen, with where each value came from, and the ways to
 * measure them. */
#ifndef SETTEE_UI_FORM_BOWLER_FORM_H
#define SETTEE_UI_FORM_BOWLER_FORM_H

#include "core/bag/bag.h"
#include "ui/form/form.h"

enum {
    BOWLER_NAME,
    BOWLER_HAND,
    BOWLER_LEVEL,
    BOWLER_PLAY,
    BOWLER_MPH,
    BOWLER_RPM,
    BOWLER_ROTATION,
    BOWLER_TILT,
    BOWLER_OFFSET,
    BOWLER_SCATTER,
    BOWLER_SPARES,
    BOWLER_ROWS
};

/* Of a Bowler. A new level or style brings its numbers where nobody gave or measured others. */
extern const FormKind BOWLER_FORM;

/* A bowler of whom nothing is known but what is usual. */
Bowler bowler_form_start(void);

/* "I don't know": the field has what is usual for level and style again. */
void bowler_form_unknown(Bowler *bowler, int row);

/* Whether the field's value is learnt from events and what stood before can be put back; does it.
 */
bool bowler_form_taken(const Bowler *bowler, int row);
void bowler_form_back(Bowler *bowler, int row);

/* Says where the field's value came from; always true. */
bool bowler_form_source(Bowler *bowler, int row, Source source);

/* ---- measuring ---- */

enum { MEASURE_FIGURES = 3 };

/* What was read or counted for one of the fields. */
typedef struct Measure {
    int row; /* of BOWLER_FORM */
    Bowler bowler;
    double figure[MEASURE_FIGURES];
    int how; /* of the speed: a word of its first field */
} Measure;

/* The form for that field, of a Measure; NULL: it can't be measured. */
const FormKind *measure_form(int row);
Measure measure_start(const Bowler *bowler, int row);
const char *measure_words(int row); /* how to do it, a few sentences */
double measure_result(const Measure *measure);
/* Puts the result in. False: it is outside what the field may hold, as error says. */
bool measure_take(const Measure *measure, Bowler *bowler, Error *error);

#endif
