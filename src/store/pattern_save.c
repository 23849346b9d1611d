/* pattern_save.c - a pattern as settee-pattern/1, a stroke or reading to a line. */
#include <stdlib.h>
#include <string.h>

#include "base/json_out.h"
#include "store/load.h"

static void pair_out(JsonOut *out, const char *key, double first, double second)
{
    json_out_array(out, key);
    json_out_number(out, NULL, first);
    json_out_number(out, NULL, second);
    json_out_end(out);
}

static void stroke_out(JsonOut *out, const Stroke *stroke)
{
    json_out_object(out, NULL);
    pair_out(out, "boards", stroke->board_from, stroke->board_to);
    pair_out(out, "feet", stroke->ft_start, stroke->ft_end);
    pair_out(out, "units", stroke->units_start, stroke->units_end);
    json_out_end(out);
}

static void reading_out(JsonOut *out, const Reading *reading)
{
    json_out_object(out, NULL);
    json_out_number(out, "ft", reading->ft);
    json_out_array(out, "units");
    for (int board = 0; board < LANE_BOARDS; board++)
        json_out_number(out, NULL, reading->units[board]);
    json_out_end(out);
    json_out_end(out);
}

char *pattern_text(const Pattern *pattern)
{
    JsonOut out = json_out_start();
    out.lines = 2;
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-pattern/1");
    json_out_string(&out, "name", pattern->name);
    if (pattern->note[0])
        json_out_string(&out, "note", pattern->note);
    json_out_number(&out, "length_ft", pattern->length_ft);
    json_out_array(&out, pattern->reading_count > 0 ? "readings" : "strokes");
    for (int i = 0; i < pattern->stroke_count && pattern->reading_count == 0; i++)
        stroke_out(&out, &pattern->strokes[i]);
    for (int i = 0; i < pattern->reading_count; i++)
        reading_out(&out, &pattern->readings[i]);
    json_out_end(&out);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    char *copy = text ? strdup(text) : NULL;
    json_out_free(&out);
    return copy;
}
