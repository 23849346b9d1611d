/* sheet_form.h - the fields of a sheet: its name, its length, then a row for each stroke or reading
 * and one more for the next; and those of a reading. */
#ifndef SETTEE_UI_FORM_SHEET_FORM_H
#define SETTEE_UI_FORM_SHEET_FORM_H

#include "core/lane/oil.h"
#include "ui/form/form.h"

/* Strokes and readings are both kept while a sheet is typed; `way` says which of them counts. */
typedef enum SheetWay { SHEET_STROKES, SHEET_READINGS } SheetWay;
typedef struct Sheet {
    Pattern pattern;
    SheetWay way;
} Sheet;

enum {
    SHEET_NAME,
    SHEET_LENGTH,
    SHEET_WAY,
    SHEET_FIRST /* stroke or reading, and those after it */
};

Sheet sheet_start(void);
Sheet sheet_of(const Pattern *pattern);
/* The pattern as far as it is typed: what does not count is left out. */
void sheet_pattern(const Sheet *sheet, Pattern *pattern);
int sheet_count(const Sheet *sheet); /* of strokes or readings */

/* The form as it is for this sheet now: it grows with the rows. */
FormKind sheet_form(const Sheet *sheet);

/* The stroke or reading that a row is about, -1: none; SHEET_FIRST + sheet_count: the next one. */
int sheet_row(const Sheet *sheet, int row);
void sheet_remove(Sheet *sheet, int index);

/* A row in figures, as a draft keeps it: a stroke as it is typed, a reading's feet and 39 numbers.
 */
void sheet_stroke_text(const Sheet *sheet, int index, char *out, size_t size);
void sheet_reading_text(const Sheet *sheet, int index, char *out, size_t size);
bool sheet_stroke_add(Sheet *sheet, const char *text, Error *error);
bool sheet_reading_add(Sheet *sheet, const char *text, Error *error);

/* Whether a pattern can be made of it; if not, `row` is the field that is amiss. */
bool sheet_done(const Sheet *sheet, int *row, Error *error);

/* ---- a reading ---- */

enum { READING_FT, READING_SIDES, READING_BOARD, READING_ROWS = READING_BOARD + LANE_BOARDS };

typedef struct SheetReading {
    Reading reading;
    int alike; /* 1: both sides; boards 21 to 39 follow 19 to 1 */
} SheetReading;

extern const FormKind READING_FORM; /* of a SheetReading */

/* Of an existing one; past the last: a new one, like the one before it. */
SheetReading sheet_reading(const Sheet *sheet, int index);
/* Puts it in place of reading `index`, or adds it, by rising distance. */
bool sheet_reading_take(Sheet *sheet, int index, const SheetReading *reading, Error *error);

#endif
