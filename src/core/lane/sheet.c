/* sheet.c - strokes as people type them. */
#include "core/lane/sheet.h"

#include <math.h>

#include "base/text.h"
#include "base/units.h"

#define SUCH_AS "such as 2L-2R 0-8 2.5-0.7"

/* What is read next; numbers as on paper: digits with at most one point. */
static bool read_number(const char **at, double *out)
{
    enum { DIGITS_MAX = 9 }; /* so that the division below rounds once */
    double value = 0.0, place = 0.0;
    const char *text = *at;
    int digits = 0;
    for (; (*text >= '0' && *text <= '9') || (*text == '.' && place == 0.0); text++) {
        if (*text == '.') {
            place = 1.0;
            continue;
        }
        value = 10.0 * value + (*text - '0');
        place *= 10.0;
        digits++;
    }
    *at = text;
    *out = place > 0.0 ? value / place : value;
    return digits > 0 && digits <= DIGITS_MAX;
}

static bool read_mark(const char **at, const char *marks)
{
    for (; *marks; marks++)
        if (**at == *marks)
            return (*at)++, true;
    return false;
}

/* The end of a part: spaces, commas, or nothing more. */
static bool read_gap(const char **at)
{
    bool gap = !**at;
    while (read_mark(at, " ,"))
        gap = true;
    return gap;
}

/* A board, from the right edge; L counts it from the left. */
static bool read_board(const char **at, double *board)
{
    if (!read_number(at, board))
        return false;
    if (read_mark(at, "lL"))
        *board = LANE_BOARDS + 1 - *board;
    else
        read_mark(at, "rR");
    return true;
}

static bool read_boards(const char **at, double boards[2])
{
    return read_board(at, &boards[0]) && read_mark(at, "-") && read_board(at, &boards[1]) &&
           read_gap(at);
}

static bool read_feet(const char **at, double feet[2])
{
    return read_number(at, &feet[0]) && read_mark(at, "-") && read_number(at, &feet[1]) &&
           read_gap(at);
}

/* Units at the two distances; of loads, what is the same oil. */
static bool read_oil(const char **at, double span_ft, double units[2])
{
    double second;
    if (!read_number(at, &units[0]))
        return false;
    units[1] = units[0];
    if (read_mark(at, "xX*")) {
        double ul_per_unit = OIL_ML_PER_UNIT_SQFT * 1000.0 * ft_from_m(LANE_BOARD_M) * span_ft;
        if (!read_number(at, &second))
            return false;
        units[0] = units[1] = units[0] * second / ul_per_unit;
    } else if (read_mark(at, "-") && !read_number(at, &units[1])) {
        return false;
    }
    return read_gap(at) && !**at;
}

static bool boards_sound(const double boards[2], Error *error)
{
    for (int i = 0; i < 2; i++)
        if (!(boards[i] >= 1.0 && boards[i] <= LANE_BOARDS) || boards[i] != floor(boards[i]))
            return error_set(error, "found a board off the lane; allowed: 1 to %d, or 1L to %dL",
                             LANE_BOARDS, LANE_BOARDS);
    return true;
}

static bool feet_sound(const double feet[2], double length_ft, Error *error)
{
    if (feet[0] == feet[1])
        return error_set(error, "found %.10g to %.10g feet; allowed: two distances", feet[0],
                         feet[1]);
    return fmax(feet[0], feet[1]) <= length_ft ||
           error_set(error, "found %.10g to %.10g feet; allowed: 0 to %.10g, the length", feet[0],
                     feet[1], length_ft);
}

static bool units_sound(const double units[2], Error *error)
{
    double most = fmax(units[0], units[1]);
    return most <= OIL_UNITS_MAX ||
           error_set(error, "found %.4g units; allowed: 0 to %.10g", most, OIL_UNITS_MAX);
}

bool sheet_stroke_read(const char *typed, double length_ft, Stroke *stroke, Error *error)
{
    double boards[2], feet[2], units[2];
    const char *at = typed;
    read_gap(&at);
    if (!*at)
        return error_set(error, "found nothing; allowed: boards, feet, oil, " SUCH_AS);
    if (!read_boards(&at, boards))
        return error_set(error, "found '%.40s'; allowed: two boards first, " SUCH_AS, typed);
    if (!boards_sound(boards, error))
        return false;
    if (!read_feet(&at, feet))
        return error_set(error, "found '%.40s'; allowed: two distances next, " SUCH_AS, typed);
    if (!feet_sound(feet, length_ft, error))
        return false;
    if (!read_oil(&at, fabs(feet[1] - feet[0]), units))
        return error_set(error, "found '%.40s'; allowed: the oil last, as 2.5-0.7 or 3x50", typed);
    if (!units_sound(units, error))
        return false;
    bool back = feet[0] > feet[1];
    *stroke = (Stroke){.board_from = (int)fmin(boards[0], boards[1]),
                       .board_to = (int)fmax(boards[0], boards[1]),
                       .ft_start = feet[back],
                       .ft_end = feet[!back],
                       .units_start = units[back],
                       .units_end = units[!back]};
    return true;
}

/* Without an exponent, which nobody types. */
static void put_number(char *out, size_t size, double value)
{
    text_append(out, size, "%.6g", value < 0.0001 ? 0.0 : value);
}

void sheet_stroke_write(const Stroke *stroke, char *out, size_t size)
{
    out[0] = '\0';
    text_append(out, size, "%d-%d ", stroke->board_from, stroke->board_to);
    put_number(out, size, stroke->ft_start);
    text_append(out, size, "-");
    put_number(out, size, stroke->ft_end);
    text_append(out, size, " ");
    put_number(out, size, stroke->units_start);
    if (stroke->units_end != stroke->units_start) {
        text_append(out, size, "-");
        put_number(out, size, stroke->units_end);
    }
}
