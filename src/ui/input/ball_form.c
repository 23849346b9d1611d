/* ball_form.c - the fields of a ball on the screen. */
#include "ui/input/ball_form.h"

#include <string.h>

#include "base/text.h"

/* The last two: whether it belongs to the ball's surface, and what to be careful of. */
const FormRow FORM[FORM_ROWS] = {
    [FORM_NAME] = {"Name", "", BALL_FIELDS, "name", false, CAUTION_NONE},
    [FORM_WEIGHT] = {"Weight", "lb", BALL_FIELDS, "pounds", false, CAUTION_JUNIOR},
    [FORM_COVER] = {"Cover", "", BALL_FIELDS, "cover", false, CAUTION_NONE},
    [FORM_FINISH] = {"Surface", "", SURFACE_FIELDS, "finish", true, CAUTION_SURFACE},
    [FORM_GRIT] = {"Grit", "", SURFACE_FIELDS, "grit", true, CAUTION_SURFACE},
    {"Games", "with this surface", SURFACE_FIELDS, "games_since", true, CAUTION_NONE},
    {"Cover strength", "", BALL_FIELDS, "cover_strength", false, CAUTION_NONE},
    {"RG", "in", BALL_FIELDS, "rg_in", false, CAUTION_NONE},
    {"Differential", "in", BALL_FIELDS, "differential_in", false, CAUTION_NONE},
    {"Intermediate", "in", BALL_FIELDS, "intermediate_in", false, CAUTION_NONE},
    {"Pin to PAP", "in", LAYOUT_FIELDS, "pin_to_pap_in", false, CAUTION_NONE},
    {"Mass bias", "deg", LAYOUT_FIELDS, "mass_bias_deg", false, CAUTION_NONE}};

JsonField form_field(int row)
{
    static const char *const FINISHES[] = {"grit", "compound", "polish", NULL}; /* as enum Finish */
    JsonField field = *json_field_find(FORM[row].table, FORM[row].key);
    if (row == FORM_FINISH)
        field.words = FINISHES;
    return field;
}

void form_show(const Ball *ball, int row, char *out, size_t size)
{
    JsonField field = form_field(row);
    out[0] = '\0';
    if (row == FORM_GRIT && ball->surface.finish != FINISH_GRIT)
        return;
    json_field_show(&field, FORM[row].surface ? (const void *)&ball->surface : ball, out, size);
}

/* After a change of surface: typing a grit makes it a grit finish; the other finishes have none. */
static void resurface(Ball *ball, const Surface *before, int row)
{
    Surface *surface = &ball->surface;
    if (row == FORM_GRIT)
        surface->finish = FINISH_GRIT;
    if (surface->finish == FINISH_GRIT && !(surface->grit >= BALL_GRIT_MIN))
        surface->grit = ball_default().surface.grit;
    if (!ball_same_surface(before, surface))
        surface->games_since = 0.0;
    if (FORM[row].surface || row == FORM_COVER)
        ball->surface_usual = false;
}

bool form_put(Ball *ball, int row, const char *typed, Error *error)
{
    Ball changed = *ball;
    JsonField field = form_field(row);
    Error why = {0};
    char intermediate[32];
    void *into = FORM[row].surface ? (void *)&changed.surface : &changed;
    if (!json_field_typed(&field, typed, into, &why))
        return error_set(error, "%s: %s", FORM[row].name, why.text);
    json_field_show(json_field_find(BALL_FIELDS, "intermediate_in"), &changed, intermediate,
                    sizeof intermediate);
    if (!ball_sound(&changed, intermediate, &why))
        return error_set(error, "Intermediate: %s", why.text);
    resurface(&changed, &ball->surface, row);
    *ball = changed;
    return true;
}

const char *form_word(int row, const char *word, int step)
{
    JsonField field = form_field(row);
    int count = 0, at = 0;
    for (; field.words[count]; count++)
        if (strcmp(field.words[count], word) == 0)
            at = count;
    return field.words[(at + step + count) % count];
}
