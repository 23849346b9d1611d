/* sheet_form.c - the fields of a sheet. */
#include "ui/form/sheet_form.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/lane/sheet.h"

/* "Stroke 1" to "Stroke 64", "Reading 1" to "Reading 24". */
#define TEN(row, tens)                                                                             \
    row(tens##0), row(tens##1), row(tens##2), row(tens##3), row(tens##4), row(tens##5),            \
        row(tens##6), row(tens##7), row(tens##8), row(tens##9)
#define FIRST_NINE(row) row(1), row(2), row(3), row(4), row(5), row(6), row(7), row(8), row(9)
#define STROKE(n)                                                                                  \
    {                                                                                              \
        "Stroke " #n, "", .allowed = "boards feet oil, as below"                                   \
    }
#define READING(n)                                                                                 \
    {                                                                                              \
        "Reading " #n, "", .allowed = "Enter opens it", .opens = true                              \
    }
#define HEAD                                                                                       \
    {.name = "Name", .unit = ""}, {.name = "Length", .unit = "ft"},                                \
    {                                                                                              \
        .name = "Written as", .unit = ""                                                           \
    }

static const FormRow STROKE_ROWS[] = {HEAD,           FIRST_NINE(STROKE), TEN(STROKE, 1),
                                      TEN(STROKE, 2), TEN(STROKE, 3),     TEN(STROKE, 4),
                                      TEN(STROKE, 5), STROKE(60),         STROKE(61),
                                      STROKE(62),     STROKE(63),         STROKE(64)};
static const FormRow READING_ROWS_[] = {HEAD,        FIRST_NINE(READING), TEN(READING, 1),
                                        READING(20), READING(21),         READING(22),
                                        READING(23), READING(24)};
_Static_assert(sizeof STROKE_ROWS / sizeof STROKE_ROWS[0] == SHEET_FIRST + PATTERN_STROKES_MAX, "");
_Static_assert(sizeof READING_ROWS_ / sizeof READING_ROWS_[0] == SHEET_FIRST + PATTERN_READINGS_MAX,
               "");

static const char *const WAYS[] = {"strokes", "readings", NULL};

static const JsonField FIELDS[] = {
    [SHEET_NAME] = {"name", JSON_TEXT, .required = true, JSON_AT(Sheet, pattern.name)},
    [SHEET_LENGTH] = {"length_ft", JSON_RANGE(Sheet, pattern.length_ft, PATTERN_LENGTH_MIN_FT,
                                              PATTERN_LENGTH_MAX_FT, "feet")},
    [SHEET_WAY] = {"way", JSON_WORD, JSON_AT(Sheet, way), .of = "way", .words = WAYS},
    [SHEET_FIRST] = {"row", JSON_TEXT, .size = SHEET_TEXT_MAX}};

static JsonField holds(int row) { return FIELDS[row < SHEET_FIRST ? row : SHEET_FIRST]; }

Sheet sheet_start(void)
{
    return (Sheet){.pattern = {.name = "", .length_ft = 40.0}}; /* the usual length */
}

Sheet sheet_of(const Pattern *pattern)
{
    return (Sheet){.pattern = *pattern,
                   .way = pattern->reading_count > 0 ? SHEET_READINGS : SHEET_STROKES};
}

void sheet_pattern(const Sheet *sheet, Pattern *pattern)
{
    *pattern = sheet->pattern;
    *(sheet->way == SHEET_STROKES ? &pattern->reading_count : &pattern->stroke_count) = 0;
}

int sheet_count(const Sheet *sheet)
{
    return sheet->way == SHEET_STROKES ? sheet->pattern.stroke_count : sheet->pattern.reading_count;
}

int sheet_row(const Sheet *sheet, int row)
{
    int index = row - SHEET_FIRST;
    return index >= 0 && index < sheet_count(sheet) ? index : -1;
}

void sheet_remove(Sheet *sheet, int index)
{
    Pattern *pattern = &sheet->pattern;
    if (sheet->way == SHEET_STROKES)
        memmove(&pattern->strokes[index], &pattern->strokes[index + 1],
                (size_t)(--pattern->stroke_count - index) * sizeof pattern->strokes[0]);
    else
        memmove(&pattern->readings[index], &pattern->readings[index + 1],
                (size_t)(--pattern->reading_count - index) * sizeof pattern->readings[0]);
}

static void show_reading(const Reading *reading, char *out, size_t size)
{
    double sum = 0.0;
    for (int board = 0; board < LANE_BOARDS; board++)
        sum += reading->units[board];
    text_append(out, size, "%.6g ft, %.3g units a board", reading->ft, sum / LANE_BOARDS);
}

static void show(const void *subject, int row, char *out, size_t size)
{
    const Sheet *sheet = subject;
    int index = sheet_row(sheet, row);
    out[0] = '\0';
    if (row < SHEET_FIRST)
        json_field_show(&FIELDS[row], sheet, out, size);
    else if (index >= 0 && sheet->way == SHEET_STROKES)
        sheet_stroke_write(&sheet->pattern.strokes[index], out, size);
    else if (index >= 0)
        show_reading(&sheet->pattern.readings[index], out, size);
}

/* What was typed before stays on the sheet, so its length can't fall short of it. */
static bool length_holds(const Sheet *sheet, Error *error)
{
    const Pattern *pattern = &sheet->pattern;
    double most = 0.0;
    for (int i = 0; i < pattern->stroke_count; i++)
        most = pattern->strokes[i].ft_end > most ? pattern->strokes[i].ft_end : most;
    for (int i = 0; i < pattern->reading_count; i++)
        most = pattern->readings[i].ft > most ? pattern->readings[i].ft : most;
    return most <= pattern->length_ft ||
           error_set(error, "found %.10g; a row below goes to %.10g feet: change that first",
                     pattern->length_ft, most);
}

static bool put_stroke(Sheet *sheet, int row, const char *typed, Error *error)
{
    Pattern *pattern = &sheet->pattern;
    int index = row - SHEET_FIRST;
    bool next = index == pattern->stroke_count;
    if (!typed[strspn(typed, " ")]) { /* an empty row is none */
        if (!next)
            sheet_remove(sheet, index);
        return true;
    }
    if (!sheet_stroke_read(typed, pattern->length_ft, &pattern->strokes[index], error))
        return false;
    pattern->stroke_count += next;
    return true;
}

static bool put(void *subject, int row, const char *typed, Error *error)
{
    Sheet changed = *(Sheet *)subject;
    Error why = {0};
    bool good = row >= SHEET_FIRST ? put_stroke(&changed, row, typed, &why)
                                   : json_field_typed(&FIELDS[row], typed, &changed, &why) &&
                                         (row != SHEET_LENGTH || length_holds(&changed, &why));
    if (!good)
        return error_set(error, "%s: %s", STROKE_ROWS[row].name, why.text);
    *(Sheet *)subject = changed;
    return true;
}

static void note(const void *subject, int row, char *out, size_t size)
{
    const Sheet *sheet = subject;
    text_copy(out, size,
              row != SHEET_WAY              ? ""
              : sheet->way == SHEET_STROKES ? "passes of oil: they add up"
                                            : "tape: units on each board");
}

FormKind sheet_form(const Sheet *sheet)
{
    bool strokes = sheet->way == SHEET_STROKES;
    int most = strokes ? PATTERN_STROKES_MAX : PATTERN_READINGS_MAX, count = sheet_count(sheet);
    return (FormKind){.rows = strokes ? STROKE_ROWS : READING_ROWS_,
                      .count = SHEET_FIRST + (count < most ? count + 1 : most),
                      .holds = holds,
                      .show = show,
                      .put = put,
                      .note = note};
}

void sheet_stroke_text(const Sheet *sheet, int index, char *out, size_t size)
{
    sheet_stroke_write(&sheet->pattern.strokes[index], out, size);
}

bool sheet_stroke_add(Sheet *sheet, const char *text, Error *error)
{
    Pattern *pattern = &sheet->pattern;
    if (pattern->stroke_count == PATTERN_STROKES_MAX ||
        !sheet_stroke_read(text, pattern->length_ft, &pattern->strokes[pattern->stroke_count],
                           error))
        return false;
    pattern->stroke_count++;
    return true;
}

void sheet_reading_text(const Sheet *sheet, int index, char *out, size_t size)
{
    const Reading *reading = &sheet->pattern.readings[index];
    text_copy(out, size, "");
    text_append(out, size, "%.6g", reading->ft);
    for (int board = 0; board < LANE_BOARDS; board++)
        text_append(out, size, " %.6g", reading->units[board]);
}

bool sheet_reading_add(Sheet *sheet, const char *text, Error *error)
{
    SheetReading reading = {.reading = {.ft = 0.0}};
    for (int i = 0; i <= LANE_BOARDS; i++) {
        char *end;
        double number = strtod(text, &end);
        if (end == text || !(number >= 0.0 && number <= OIL_UNITS_MAX))
            return error_set(error, "found '%.40s'; allowed: 0 to %.10g units", text,
                             OIL_UNITS_MAX);
        *(i == 0 ? &reading.reading.ft : &reading.reading.units[i - 1]) = number;
        text = end;
    }
    return sheet_reading_take(sheet, sheet->pattern.reading_count, &reading, error);
}

bool sheet_done(const Sheet *sheet, int *row, Error *error)
{
    *row = SHEET_NAME;
    if (!sheet->pattern.name[strspn(sheet->pattern.name, " ")])
        return error_set(error, "Name: what is it called?");
    *row = SHEET_FIRST;
    return sheet_count(sheet) > 0 || error_set(error, "there is no oil yet: type a %s first",
                                               sheet->way == SHEET_STROKES ? "stroke" : "reading");
}

/* ---- a reading ---- */

static const char *const SIDES[] = {"apart", "alike", NULL};

#define BOARD(n)                                                                                   \
    {                                                                                              \
        .name = "Board " #n, .unit = "units"                                                       \
    }
static const FormRow READING_FIELDS[READING_ROWS] = {
    {"At", "ft", .allowed = "feet from the foul line"},
    {"Both sides", "", .allowed = NULL},
    FIRST_NINE(BOARD),
    TEN(BOARD, 1),
    TEN(BOARD, 2),
    TEN(BOARD, 3)};

static JsonField reading_holds(int row)
{
    JsonField field = {"units", JSON_NUMBER, .size = 16, .max = OIL_UNITS_MAX, .of = "units"};
    if (row == READING_FT)
        return (JsonField){
            "ft", JSON_RANGE(SheetReading, reading.ft, 0.0, PATTERN_LENGTH_MAX_FT, "feet")};
    if (row == READING_SIDES)
        return (JsonField){"sides", JSON_WORD, JSON_AT(SheetReading, alike), .of = "sides",
                           .words = SIDES};
    field.offset = offsetof(SheetReading, reading.units) +
                   (size_t)(row - READING_BOARD) * sizeof((Reading *)0)->units[0];
    return field;
}

static void mirror(SheetReading *reading)
{
    double *units = reading->reading.units;
    for (int board = 0; board < LANE_BOARDS / 2; board++)
        units[LANE_BOARDS - 1 - board] = units[board];
}

static void reading_show(const void *subject, int row, char *out, size_t size)
{
    JsonField field = reading_holds(row);
    json_field_show(&field, subject, out, size);
}

static bool reading_put(void *subject, int row, const char *typed, Error *error)
{
    SheetReading *reading = subject;
    JsonField field = reading_holds(row);
    Error why = {0};
    if (!json_field_typed(&field, typed, reading, &why))
        return error_set(error, "%s: %s", READING_FIELDS[row].name, why.text);
    if (row > READING_BOARD + LANE_BOARDS / 2)
        reading->alike = 0; /* the far side was typed by itself */
    if (reading->alike)
        mirror(reading);
    return true;
}

const FormKind READING_FORM = {.rows = READING_FIELDS,
                               .count = READING_ROWS,
                               .holds = reading_holds,
                               .show = reading_show,
                               .put = reading_put};

static bool sides_alike(const Reading *reading)
{
    for (int board = 0; board < LANE_BOARDS / 2; board++)
        if (reading->units[board] != reading->units[LANE_BOARDS - 1 - board])
            return false;
    return true;
}

SheetReading sheet_reading(const Sheet *sheet, int index)
{
    const Pattern *pattern = &sheet->pattern;
    int last = pattern->reading_count - 1;
    SheetReading reading = {.reading = {.ft = 0.0}};
    if (index <= last)
        reading.reading = pattern->readings[index];
    else if (last >= 0)
        reading.reading = pattern->readings[last];
    reading.alike = sides_alike(&reading.reading);
    return reading;
}

bool sheet_reading_take(Sheet *sheet, int index, const SheetReading *reading, Error *error)
{
    Sheet changed = *sheet;
    Pattern *pattern = &changed.pattern;
    double ft = reading->reading.ft;
    int at = 0;
    if (ft > pattern->length_ft)
        return error_set(error, "At: found %.10g; allowed: 0 to %.10g feet, the length", ft,
                         pattern->length_ft);
    if (index < pattern->reading_count)
        sheet_remove(&changed, index);
    else if (pattern->reading_count == PATTERN_READINGS_MAX)
        return error_set(error, "a sheet has at most %d readings", PATTERN_READINGS_MAX);
    while (at < pattern->reading_count && pattern->readings[at].ft < ft)
        at++;
    if (at < pattern->reading_count && pattern->readings[at].ft == ft)
        return error_set(error, "At: there is a reading at %.10g feet already", ft);
    memmove(&pattern->readings[at + 1], &pattern->readings[at],
            (size_t)(pattern->reading_count++ - at) * sizeof pattern->readings[0]);
    pattern->readings[at] = reading->reading;
    *sheet = changed;
    return true;
}
