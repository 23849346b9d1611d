/* ball_form.c - the fields of a ball on the screen. */
#include "ui/form/ball_form.h"

#include <string.h>

#include "base/text.h"
#include "core/bag/preset.h"
#include "core/bag/taken.h"

static const FormRow ROWS[BALL_ROWS] = {
    [BALL_NAME] = {"Name", "", .caution = CAUTION_NONE},
    [BALL_WEIGHT] = {"Weight", "lb", .caution = CAUTION_JUNIOR},
    [BALL_COVER] = {"Cover", "", .caution = CAUTION_NONE},
    [BALL_FINISH] = {"Surface", "", .caution = CAUTION_SURFACE},
    [BALL_GRIT] = {"Grit", "", .caution = CAUTION_SURFACE},
    {"Games", "with this surface", .caution = CAUTION_NONE},
    [BALL_STRENGTH] = {"Cover strength", "", .caution = CAUTION_NONE},
    {"RG", "in", .caution = CAUTION_NONE},
    {"Differential", "in", .caution = CAUTION_NONE},
    {"Intermediate", "in", .caution = CAUTION_NONE},
    {"Pin to PAP", "in", .caution = CAUTION_NONE},
    {"Mass bias", "deg", .caution = CAUTION_NONE}};

/* Where a row's value is: a key of one of the ball's tables. */
static const struct {
    const JsonField *table;
    const char *key;
} PLACES[BALL_ROWS] = {{BALL_FIELDS, "name"},
                       {BALL_FIELDS, "pounds"},
                       {BALL_FIELDS, "cover"},
                       {SURFACE_FIELDS, "finish"},
                       {SURFACE_FIELDS, "grit"},
                       {SURFACE_FIELDS, "games_since"},
                       {BALL_FIELDS, "cover_strength"},
                       {BALL_FIELDS, "rg_in"},
                       {BALL_FIELDS, "differential_in"},
                       {BALL_FIELDS, "intermediate_in"},
                       {LAYOUT_FIELDS, "pin_to_pap_in"},
                       {LAYOUT_FIELDS, "mass_bias_deg"}};

const char *ball_form_key(int row) { return PLACES[row].key; }

static bool of_surface(int row) { return PLACES[row].table == SURFACE_FIELDS; }

static JsonField holds(int row)
{
    static const char *const FINISHES[] = {"grit", "compound", "polish", NULL}; /* as enum Finish */
    JsonField field = *json_field_find(PLACES[row].table, PLACES[row].key);
    if (row == BALL_FINISH)
        field.words = FINISHES;
    return field;
}

static void show(const void *subject, int row, char *out, size_t size)
{
    const Ball *ball = subject;
    JsonField field = holds(row);
    out[0] = '\0';
    if (row == BALL_GRIT && ball->surface.finish != FINISH_GRIT)
        return;
    json_field_show(&field, of_surface(row) ? (const void *)&ball->surface : ball, out, size);
}

/* After a change of surface: typing a grit makes it a grit finish; the other finishes have none. */
static void resurface(Ball *ball, const Surface *before, int row)
{
    Surface *surface = &ball->surface;
    if (row == BALL_GRIT)
        surface->finish = FINISH_GRIT;
    if (surface->finish == FINISH_GRIT && !(surface->grit >= BALL_GRIT_MIN))
        surface->grit = ball_default().surface.grit;
    if (!ball_same_surface(before, surface))
        surface->games_since = 0.0;
    if (of_surface(row) || row == BALL_COVER)
        ball->surface_usual = false;
}

static bool put(void *subject, int row, const char *typed, Error *error)
{
    Ball *ball = subject;
    Ball changed = *ball;
    JsonField field = holds(row);
    Error why = {0};
    char intermediate[32];
    void *into = of_surface(row) ? (void *)&changed.surface : &changed;
    if (!json_field_typed(&field, typed, into, &why))
        return error_set(error, "%s: %s", ROWS[row].name, why.text);
    json_field_show(json_field_find(BALL_FIELDS, "intermediate_in"), &changed, intermediate,
                    sizeof intermediate);
    if (!ball_sound(&changed, intermediate, &why))
        return error_set(error, "Intermediate: %s", why.text);
    resurface(&changed, &ball->surface, row);
    if (row == BALL_STRENGTH)
        changed.strength_before = 0.0; /* no longer what was learnt */
    *ball = changed;
    return true;
}

/* A number that is usual for its kind may be measured all the same; it is no other for that. */
static bool usual_for_kind(const Ball *ball, int row)
{
    if (ball->kind == 0)
        return false;
    const BallPreset *usual = &BALL_PRESETS[ball->kind - 1];
    const char *key = PLACES[row].key;
    return strcmp(key, "rg_in") == 0             ? ball->rg_in == usual->rg_in
           : strcmp(key, "differential_in") == 0 ? ball->differential_in == usual->differential_in
           : strcmp(key, "intermediate_in") == 0 ? ball->intermediate_in == usual->intermediate_in
                                                 : false;
}

bool ball_form_usual(int row)
{
    return row > BALL_COVER && strcmp(PLACES[row].key, "games_since") != 0;
}

void ball_form_unknown(Ball *ball, int row)
{
    Ball usual = ball_default();
    const char *key = PLACES[row].key;
    if (ball->kind > 0) {
        usual.rg_in = BALL_PRESETS[ball->kind - 1].rg_in;
        usual.differential_in = BALL_PRESETS[ball->kind - 1].differential_in;
        usual.intermediate_in = BALL_PRESETS[ball->kind - 1].intermediate_in;
    }
    if (!ball_form_usual(row))
        return;
    if (row == BALL_FINISH || row == BALL_GRIT) {
        ball->surface = ball_usual_surface(ball->cover);
        ball->surface_usual = true;
    } else if (strcmp(key, "rg_in") == 0) {
        ball->rg_in = usual.rg_in;
    } else if (strcmp(key, "differential_in") == 0 || strcmp(key, "intermediate_in") == 0) {
        ball->differential_in = usual.differential_in; /* the one bounds the other */
        ball->intermediate_in = usual.intermediate_in;
    } else if (strcmp(key, "pin_to_pap_in") == 0) {
        ball->pin_to_pap_in = usual.pin_to_pap_in;
    } else if (strcmp(key, "mass_bias_deg") == 0) {
        ball->mass_bias_deg = usual.mass_bias_deg;
    } else {
        ball->cover_strength = usual.cover_strength;
        ball->strength_before = 0.0;
    }
}

static void note(const void *subject, int row, char *out, size_t size)
{
    const Ball *ball = subject;
    out[0] = '\0';
    if (row == BALL_STRENGTH && taken_from_ball(ball)) {
        text_append(out, size, "learnt from your events; was %.4g", ball->strength_before);
        return;
    }
    text_copy(out, size,
              row == BALL_FINISH && ball->surface_usual ? "(usual for its cover)"
              : usual_for_kind(ball, row)               ? "(usual for its kind)"
                                                        : "");
}

const FormKind BALL_FORM = {
    .rows = ROWS, .count = BALL_ROWS, .holds = holds, .show = show, .put = put, .note = note};
