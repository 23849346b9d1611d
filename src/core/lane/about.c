/* about.c - patterns without a sheet: names, and sheets of a plain shape. */
#include "core/lane/about.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define PREFIX "about:"

/* ---- names ---- */

bool about_is(const char *name) { return strncmp(name, PREFIX, strlen(PREFIX)) == 0; }

static bool in_range(double value, double low, double high, const char *what, const char *unit,
                     Error *error)
{
    return (value >= low && value <= high) ||
           error_set(error, "found %s %.10g; allowed: a number from %g to %g%s", what, value, low,
                     high, unit);
}

/* Digits with at most one point; *end: what follows them. */
static double read_number(const char *text, const char **end)
{
    double value = 0.0, place = 0.0;
    for (; (*text >= '0' && *text <= '9') || (*text == '.' && place == 0.0); text++) {
        if (*text == '.') {
            place = 1.0;
            continue;
        }
        value = 10.0 * value + (*text - '0');
        place *= 10.0;
    }
    *end = text;
    return place > 0.0 ? value / place : value;
}

/* Puts in one thing that is known; false: no such thing, or outside its range. */
static bool read_part(const char *part, size_t length, About *about, Error *error)
{
    char word[24] = "";
    const char *end;
    if (length < sizeof word)
        memcpy(word, part, length);
    double value = read_number(word, &end);
    bool plain = end > word && word[0] != '.';
    if (strcmp(word, "house") == 0 && !about->house)
        return about->house = true;
    if (plain && strcmp(end, "ft") == 0 && about->length_ft == 0.0) {
        about->length_ft = value;
        return in_range(value, PATTERN_LENGTH_MIN_FT, PATTERN_LENGTH_MAX_FT, "length", " feet",
                        error);
    }
    if (plain && strcmp(end, "ml") == 0 && about->volume_ml == 0.0) {
        about->volume_ml = value;
        return in_range(value, ABOUT_VOLUME_MIN_ML, ABOUT_VOLUME_MAX_ML, "volume", " mL", error);
    }
    if (plain && strcmp(end, ":1") == 0 && about->ratio == 0.0) {
        about->ratio = value;
        return in_range(value, ABOUT_RATIO_MIN, ABOUT_RATIO_MAX, "ratio", "", error);
    }
    return error_set(error,
                     "found '%.40s'; allowed: about:nothing, about:house, or a length, volume and "
                     "ratio as in about:41ft,25ml,3:1",
                     part);
}

bool about_read(const char *name, About *about, Error *error)
{
    *about = (About){.only = true};
    const char *part = name + strlen(PREFIX);
    if (strcmp(part, "nothing") == 0)
        return true;
    for (;;) {
        size_t length = 0;
        while (part[length] && part[length] != ',')
            length++;
        if (!read_part(part, length, about, error))
            return false;
        if (!part[length])
            return true;
        part += length + 1;
    }
}

void about_write(const About *about, char *out, size_t size)
{
    const char *between = "";
    text_copy(out, size, PREFIX);
    if (about->house) {
        text_append(out, size, "house");
        between = ",";
    }
    if (about->length_ft > 0.0) {
        text_append(out, size, "%s%.10gft", between, about->length_ft);
        between = ",";
    }
    if (about->volume_ml > 0.0) {
        text_append(out, size, "%s%.10gml", between, about->volume_ml);
        between = ",";
    }
    if (about->ratio > 0.0) {
        text_append(out, size, "%s%.10g:1", between, about->ratio);
        between = ",";
    }
    if (!between[0])
        text_append(out, size, "nothing");
}

/* ---- sheets ---- */

/* All common practice, no source: what is laid in most houses and events. */
#define USUAL_ML 24.0
#define USUAL_VOLUME_SD 0.18
typedef struct Choice {
    double value, share;
} Choice;
static const Choice LENGTHS[] = {{34.0, 0.2}, {38.0, 0.3}, {42.0, 0.3}, {46.0, 0.2}, {0, 0}};
static const Choice HOUSE_LENGTHS[] = {{37.0, 0.25}, {40.0, 0.5}, {43.0, 0.25}, {0, 0}};
static const Choice RATIOS[] = {{1.8, 0.25}, {3.0, 0.25}, {5.0, 0.25}, {8.0, 0.25}, {0, 0}};
static const Choice FEW_RATIOS[] = {{2.2, 0.5}, {7.0, 0.5}, {0, 0}}; /* where lengths differ too */
static const Choice HOUSE_RATIOS[] = {{5.0, 0.5}, {9.0, 0.5}, {0, 0}};
#define FLAT_BELOW 2.5
#define HOUSE_FROM 4.5

void about_sheets(const About *about, AboutSheets *sheets)
{
    const Choice length[] = {{about->length_ft, 1.0}, {0, 0}};
    const Choice ratio[] = {{about->ratio, 1.0}, {0, 0}};
    bool known = about->length_ft > 0.0;
    const Choice *lengths = known ? length : about->house ? HOUSE_LENGTHS : LENGTHS;
    const Choice *ratios = about->ratio > 0.0 ? ratio
                           : about->house     ? HOUSE_RATIOS
                           : known            ? RATIOS
                                              : FEW_RATIOS;
    *sheets = (AboutSheets){.volume_sd = about->volume_ml > 0.0 ? 0.0 : USUAL_VOLUME_SD};
    for (const Choice *l = lengths; l->share > 0.0; l++)
        for (const Choice *r = ratios; r->share > 0.0; r++)
            sheets->one[sheets->count++] =
                (AboutSheet){.length_ft = l->value,
                             .volume_ml = about->volume_ml > 0.0 ? about->volume_ml : USUAL_ML,
                             .ratio = r->value,
                             .share = l->share * r->share};
    if (!known) /* evenly between two lengths */
        sheets->longer_sd = (lengths[1].value - lengths[0].value) / sqrt(12.0) / lengths[1].value;
}

/* How the oil lies across: 0 outside, 1 inside. Shapes that give help change over a few boards, the
 * others slowly. */
static double crown(int board, double ratio)
{
    double from = ratio > 3.0 ? 8.0 : 3.0, to = ratio > 3.0 ? 12.0 : 15.0;
    int away = board <= LANE_BOARDS / 2 ? board : LANE_BOARDS + 1 - board;
    return fmax(0.0, fmin((away - from) / (to - from), 1.0));
}

/* Film on a board against the driest one, so that inside over outside (oil_ratio) is `ratio`. */
static double across(int board, double ratio)
{
    double inside = 0.0, outside = 0.0;
    for (int b = 1; b <= LANE_BOARDS; b++)
        *(b >= 11 && b <= 29 ? &inside : &outside) += crown(b, ratio);
    double height = (ratio - 1.0) / (inside / 19.0 - ratio * outside / 20.0);
    return 1.0 + height * crown(board, ratio);
}

/* Film down the lane, by share of the length: level at first, then thinner. */
static const struct {
    double share, film;
} ALONG[] = {{0.0, 1.0}, {0.2, 1.0}, {0.95, 0.28}, {1.0, 0.15}};
enum { ALONG_COUNT = sizeof ALONG / sizeof ALONG[0] };

static void write_readings(const AboutSheet *sheet, Pattern *pattern)
{
    pattern->length_ft = sheet->length_ft;
    pattern->reading_count = ALONG_COUNT;
    for (int i = 0; i < ALONG_COUNT; i++) {
        pattern->readings[i].ft = ALONG[i].share * sheet->length_ft;
        for (int board = 1; board <= LANE_BOARDS; board++)
            pattern->readings[i].units[board - 1] = ALONG[i].film * across(board, sheet->ratio);
    }
    Oil oil;
    oil_lay(pattern, &oil);
    double scale = sheet->volume_ml / oil_volume_ml(&oil);
    for (int i = 0; i < ALONG_COUNT; i++)
        for (int b = 0; b < LANE_BOARDS; b++)
            pattern->readings[i].units[b] *= scale;
}

void about_lay(const AboutSheet *sheet, Oil *oil)
{
    Pattern pattern = {0};
    write_readings(sheet, &pattern);
    oil_lay(&pattern, oil);
}

void about_sheet_words(const AboutSheet *sheet, char *out, size_t size)
{
    out[0] = '\0';
    text_append(out, size, "%.10g ft, %s", sheet->length_ft,
                sheet->ratio < FLAT_BELOW   ? "flat"
                : sheet->ratio < HOUSE_FROM ? "medium"
                                            : "house shot");
}

void about_pattern(const About *about, Pattern *pattern)
{
    AboutSheets sheets;
    AboutSheet middle = {0};
    about_sheets(about, &sheets);
    for (int i = 0; i < sheets.count; i++) {
        const AboutSheet *one = &sheets.one[i];
        middle.length_ft += one->share * one->length_ft;
        middle.volume_ml += one->share * one->volume_ml;
        middle.ratio += one->share * one->ratio;
    }
    middle.length_ft = OIL_STATION_FT * round(middle.length_ft / OIL_STATION_FT);
    *pattern = (Pattern){.about = *about};
    write_readings(&middle, pattern);
    about_write(about, pattern->id, sizeof pattern->id);
    text_copy(pattern->name, sizeof pattern->name,
              about->house                                               ? "House shot, no sheet"
              : about->length_ft + about->volume_ml + about->ratio > 0.0 ? "No sheet"
                                                                         : "Unknown pattern");
    text_copy(pattern->note, sizeof pattern->note,
              "Nobody has its sheet: your shots tell which of the patterns of its kind it is.");
}

void pattern_words(const Pattern *pattern, char *out, size_t size)
{
    text_append(out, size, "%s", pattern->name);
    if (!pattern->about.only || pattern->about.length_ft > 0.0)
        text_append(out, size, ", %g ft", pattern->length_ft);
}
