/* ball.c - what a ball's keys may hold; how rough a surface is. */
#include "core/bag/ball.h"

#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/bag/bag.h"
#include "core/bag/preset.h"

const char *const COVER_NAMES[COVER_COUNT + 1] = {"solid",    "hybrid",    "pearl",
                                                  "urethane", "polyester", 0};

const char *const FINISH_NAMES[] = {"", "compound", "polish", 0};

const JsonField BALL_FIELDS[] = {
    {"id", JSON_ID, .required = true, JSON_AT(Ball, id)},
    {"name", JSON_TEXT, .required = true, JSON_AT(Ball, name)},
    {"kind", JSON_WORD, JSON_AT(Ball, kind), .of = "kind of ball", .words = BALL_KIND_NAMES},
    {"pounds", JSON_RANGE(Ball, pounds, BALL_POUNDS_MIN, BALL_POUNDS_MAX, "pounds")},
    {"rg_in", JSON_RANGE(Ball, rg_in, BALL_RG_MIN_IN, BALL_RG_MAX_IN, "inches")},
    {"differential_in", JSON_RANGE(Ball, differential_in, 0, BALL_DIFFERENTIAL_MAX_IN, "inches")},
    {"intermediate_in", JSON_RANGE(Ball, intermediate_in, 0, BALL_DIFFERENTIAL_MAX_IN, "inches")},
    {"cover", JSON_WORD, JSON_AT(Ball, cover), .of = "cover", .words = COVER_NAMES},
    {"cover_strength",
     JSON_RANGE(Ball, cover_strength, BALL_STRENGTH_MIN, BALL_STRENGTH_MAX, "(1 is usual)")},
    {"cover_strength_before",
     JSON_RANGE(Ball, strength_before, BALL_STRENGTH_MIN, BALL_STRENGTH_MAX, "(1 is usual)")},
    {.key = "surface"},
    {.key = "layout"},
    {"slot", JSON_INTEGER, JSON_AT(Ball, slot), .min = 1, .max = BAG_SLOTS},
    JSON_END};

const JsonField SURFACE_FIELDS[] = {
    {"grit", JSON_RANGE(Surface, grit, BALL_GRIT_MIN, BALL_GRIT_MAX, "grit")},
    {"finish", JSON_WORD, JSON_AT(Surface, finish), .of = "finish", .words = FINISH_NAMES},
    {"games_since", JSON_RANGE(Surface, games_since, 0, BALL_GAMES_SINCE_MAX, "games")},
    JSON_END};

const JsonField LAYOUT_FIELDS[] = {
    {"pin_to_pap_in", JSON_RANGE(Ball, pin_to_pap_in, 0, BALL_PIN_TO_PAP_MAX_IN, "inches")},
    {"mass_bias_deg", JSON_RANGE(Ball, mass_bias_deg, 0, BALL_MASS_BIAS_MAX_DEG, "degrees")},
    JSON_END};

/* Average roughness by abrasive (assumed; the rules cap it at 50 microinch = 1.27 um). */
static const struct {
    double grit, um;
} ROUGHNESS[] = {{180, 1.27},  {360, 1.25}, {500, 1.2},   {800, 0.9},   {1000, 0.8},
                 {1500, 0.55}, {2000, 0.5}, {3000, 0.35}, {4000, 0.25}, {5000, 0.22}};
enum { ROUGHNESS_ROWS = sizeof ROUGHNESS / sizeof ROUGHNESS[0] };
#define COMPOUND_UM 0.2
#define POLISH_UM 0.1
#ifndef SETTEE_CONSTANTS_VARY /* tests/bench/bench_constants.c makes variables of these */
#define WORN_UM 0.5           /* 2000 grit: what a rougher surface wears to (assumed) */
#define WORN_HALF_GAMES 12.0  /* assumed */
#endif

Ball ball_default(void)
{
    return (Ball){.id = "ball",
                  .name = "ball",
                  .pounds = 15.0,
                  .rg_in = 2.50,
                  .differential_in = 0.040,
                  .cover = COVER_SOLID,
                  .cover_strength = 1.0,
                  .surface = {.finish = FINISH_GRIT, .grit = 2000.0},
                  .pin_to_pap_in = 4.5,
                  .mass_bias_deg = 45.0};
}

Surface ball_usual_surface(Cover cover)
{
    static const double GRIT[COVER_COUNT] = {
        [COVER_SOLID] = 2000.0, [COVER_HYBRID] = 3000.0, [COVER_URETHANE] = 800.0};
    return GRIT[cover] > 0.0 ? (Surface){.finish = FINISH_GRIT, .grit = GRIT[cover]}
                             : (Surface){.finish = FINISH_POLISH};
}

bool ball_sound(const Ball *ball, const char *found, Error *error)
{
    if (ball->intermediate_in <= ball->differential_in)
        return true;
    return error_set(error, "found %s; allowed: at most the differential, %.10g inches", found,
                     ball->differential_in);
}

bool surface_same(const Surface *a, const Surface *b)
{
    return a->finish == b->finish && a->grit == b->grit && a->games_since == b->games_since;
}

bool ball_same(const Ball *a, const Ball *b)
{
    return strcmp(a->id, b->id) == 0 && strcmp(a->name, b->name) == 0 && a->kind == b->kind &&
           a->pounds == b->pounds && a->rg_in == b->rg_in &&
           a->differential_in == b->differential_in && a->intermediate_in == b->intermediate_in &&
           a->cover == b->cover && a->cover_strength == b->cover_strength &&
           a->strength_before == b->strength_before && surface_same(&a->surface, &b->surface) &&
           a->surface_usual == b->surface_usual && a->pin_to_pap_in == b->pin_to_pap_in &&
           a->mass_bias_deg == b->mass_bias_deg && a->slot == b->slot;
}

bool ball_same_surface(const Surface *a, const Surface *b)
{
    return a->finish == b->finish && (a->finish != FINISH_GRIT || a->grit == b->grit);
}

static double grit_um(double grit)
{
    int i = 1;
    while (i < ROUGHNESS_ROWS - 1 && ROUGHNESS[i].grit < grit)
        i++;
    double share = (grit - ROUGHNESS[i - 1].grit) / (ROUGHNESS[i].grit - ROUGHNESS[i - 1].grit);
    share = share < 0.0 ? 0.0 : share > 1.0 ? 1.0 : share;
    return ROUGHNESS[i - 1].um + share * (ROUGHNESS[i].um - ROUGHNESS[i - 1].um);
}

double ball_roughness_um(const Surface *surface)
{
    double um = surface->finish == FINISH_COMPOUND ? COMPOUND_UM
                : surface->finish == FINISH_POLISH ? POLISH_UM
                                                   : grit_um(surface->grit);
    if (um <= WORN_UM) /* use smooths a rough surface; nothing says it roughens a fine one */
        return um;
    return WORN_UM + (um - WORN_UM) * exp2(-surface->games_since / WORN_HALF_GAMES);
}

void ball_surface_words(const Surface *surface, char *out, unsigned long size)
{
    out[0] = '\0';
    if (surface->finish == FINISH_GRIT)
        text_append(out, size, "%.0f grit", surface->grit);
    else
        text_append(out, size, "%s", surface->finish == FINISH_COMPOUND ? "compound" : "polish");
}
