/* pattern_file.c - settee-pattern/1: where the oil lies, as strokes or as tape readings. */
#include "base/text.h"
#include "store/load.h"

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"name", JSON_TEXT, .required = true, JSON_AT(Pattern, name)},
    {"note", JSON_TEXT, JSON_AT(Pattern, note)},
    {"length_ft", JSON_NUMBER, .required = true, JSON_AT(Pattern, length_ft),
     .min = PATTERN_LENGTH_MIN_FT, .max = PATTERN_LENGTH_MAX_FT, .of = "feet"},
    {.key = "strokes"},
    {.key = "readings"},
    JSON_END};

static const JsonField STROKE_FIELDS[] = {{"boards", JSON_OTHER, .required = true},
                                          {"feet", JSON_OTHER, .required = true},
                                          {"units", JSON_OTHER, .required = true},
                                          JSON_END};

static const JsonField READING_FIELDS[] = {
    {"ft", JSON_OTHER, .required = true}, {"units", JSON_OTHER, .required = true}, JSON_END};

static bool stroke_parse(const Json *value, double length_ft, Stroke *stroke)
{
    const JsonField board = {.kind = JSON_INTEGER, .min = 1, .max = LANE_BOARDS, .of = "(a board)"};
    const JsonField feet = {.kind = JSON_NUMBER, .max = length_ft, .of = "feet, the length"};
    const JsonField units = {.kind = JSON_NUMBER, .max = OIL_UNITS_MAX, .of = "units"};
    Json pair;
    if (!json_object(value, STROKE_FIELDS, NULL) ||
        !json_pair(value, "boards", &board, &stroke->board_from, &stroke->board_to) ||
        !json_pair(value, "feet", &feet, &stroke->ft_start, &stroke->ft_end) ||
        !json_pair(value, "units", &units, &stroke->units_start, &stroke->units_end))
        return false;
    if (stroke->board_from > stroke->board_to && json_member(value, "boards", &pair))
        return json_fail(&pair, "found boards %d to %d; allowed: the lower board first",
                         stroke->board_from, stroke->board_to);
    if (stroke->ft_start >= stroke->ft_end && json_member(value, "feet", &pair))
        return json_fail(&pair, "found %.10g to %.10g feet; allowed: a start before the end",
                         stroke->ft_start, stroke->ft_end);
    return true;
}

static bool reading_parse(const Json *value, const Pattern *pattern, Reading *reading)
{
    const JsonField feet = {
        .kind = JSON_NUMBER, .max = pattern->length_ft, .of = "feet, the length"};
    const JsonField units = {.kind = JSON_NUMBER, .max = OIL_UNITS_MAX, .of = "units"};
    Json child, item;
    if (!json_object(value, READING_FIELDS, NULL) || !json_member(value, "ft", &child) ||
        !json_value(&child, &feet, &reading->ft))
        return false;
    if (pattern->reading_count > 0 && reading->ft <= reading[-1].ft)
        return json_fail(&child,
                         "found %.10g feet after %.10g; allowed: readings by rising distance",
                         reading->ft, reading[-1].ft);
    if (!json_member(value, "units", &child) ||
        json_count(&child, LANE_BOARDS, LANE_BOARDS, "numbers") < 0)
        return false;
    for (bool more = json_first(&child, &item); more; more = json_next(&item))
        if (!json_value(&item, &units, &reading->units[item.index]))
            return false;
    return true;
}

static bool strokes_parse(const Json *array, Pattern *pattern)
{
    Json item;
    if (json_count(array, 1, PATTERN_STROKES_MAX, "strokes") < 0)
        return false;
    for (bool more = json_first(array, &item); more; more = json_next(&item)) {
        if (!stroke_parse(&item, pattern->length_ft, &pattern->strokes[pattern->stroke_count]))
            return false;
        pattern->stroke_count++;
    }
    return true;
}

static bool readings_parse(const Json *array, Pattern *pattern)
{
    Json item;
    if (json_count(array, 1, PATTERN_READINGS_MAX, "readings") < 0)
        return false;
    for (bool more = json_first(array, &item); more; more = json_next(&item)) {
        if (!reading_parse(&item, pattern, &pattern->readings[pattern->reading_count]))
            return false;
        pattern->reading_count++;
    }
    return true;
}

bool pattern_parse(const Json *root, const Loaded *file, Pattern *pattern)
{
    Json strokes, readings;
    *pattern = (Pattern){0};
    if (!json_format(root, "settee-pattern/1") || !json_object(root, ROOT_FIELDS, pattern))
        return false;
    text_copy(pattern->id, sizeof pattern->id, file->id);
    bool has_strokes = json_member(root, "strokes", &strokes);
    bool has_readings = json_member(root, "readings", &readings);
    if (has_strokes && has_readings)
        return json_fail(root, "found both \"strokes\" and \"readings\"; allowed: one of them");
    if (!has_strokes && !has_readings)
        return json_fail(root,
                         "found neither \"strokes\" nor \"readings\"; one of them must be there");
    return has_strokes ? strokes_parse(&strokes, pattern) : readings_parse(&readings, pattern);
}
