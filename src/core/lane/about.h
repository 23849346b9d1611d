/* about.h - a pattern that nobody has a sheet of: what is known of it, and what it may be.
 *
 * It is named like a pattern: "about:" and then nothing, or what is known with commas between:
 * "about:nothing", "about:house", "about:41ft", "about:41ft,25ml", "about:41ft,25ml,3:1",
 * "about:house,39ft". What it may be is a small closed set of sheets of a plain shape, made from
 * length, volume and ratio. Which lengths and ratios there are is common practice, no source. */
#ifndef SETTEE_CORE_LANE_ABOUT_H
#define SETTEE_CORE_LANE_ABOUT_H

#include "base/error.h"
#include "core/lane/oil.h"

enum { ABOUT_SHEETS_MAX = 8 };
#define ABOUT_VOLUME_MIN_ML 10.0
#define ABOUT_VOLUME_MAX_ML 40.0
#define ABOUT_RATIO_MIN 1.0
#define ABOUT_RATIO_MAX 12.0

/* Whether it is the name of such a pattern. */
bool about_is(const char *name);

/* Reads such a name. False: `error` says what is allowed. */
bool about_read(const char *name, About *about, Error *error);

/* The name, as about_read takes it. */
void about_write(const About *about, char *out, size_t size);

/* One of the sheets that it may be. */
typedef struct AboutSheet {
    double length_ft, volume_ml, ratio;
    double share; /* chance before the first ball; they add up to 1 */
} AboutSheet;

typedef struct AboutSheets {
    int count;
    AboutSheet one[ABOUT_SHEETS_MAX];
    double longer_sd; /* share of its length by which the oil may be between two of them */
    double volume_sd; /* the same of the volume, as a logarithm */
} AboutSheets;

void about_sheets(const About *about, AboutSheets *sheets);

/* Lays one of them. Both sides are alike, so boards may be counted from either. */
void about_lay(const AboutSheet *sheet, Oil *oil);

/* "41 ft, flat", "39 ft, house shot". */
void about_sheet_words(const AboutSheet *sheet, char *out, size_t size);

/* A pattern in the middle of what it may be, for questions that take one sheet; named for people:
 * "House shot, no sheet". */
void about_pattern(const About *about, Pattern *pattern);

/* Appends "Apron, 40 ft"; of a pattern without a sheet the length only where it is known. */
void pattern_words(const Pattern *pattern, char *out, size_t size);

#endif
