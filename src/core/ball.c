/* ball.c - covers, and how rough a surface is. */
#include "core/ball.h"

#include <math.h>

#include "base/text.h"

const char *const COVER_NAMES[COVER_COUNT + 1] = {"solid",    "hybrid",    "pearl",
                                                  "urethane", "polyester", 0};

/* Average roughness by abrasive (assumed; the rules cap it at 50 microinch = 1.27 um). */
static const struct {
    double grit, um;
} ROUGHNESS[] = {{180, 1.27},  {360, 1.25}, {500, 1.2},   {800, 0.9},   {1000, 0.8},
                 {1500, 0.55}, {2000, 0.5}, {3000, 0.35}, {4000, 0.25}, {5000, 0.22}};
enum { ROUGHNESS_ROWS = sizeof ROUGHNESS / sizeof ROUGHNESS[0] };
#define COMPOUND_UM 0.2
#define POLISH_UM 0.1
#ifndef SETTEE_CONSTANTS_VARY /* tests/bench/bench_constants.c makes variables of these */
#define WORN_UM 0.5           /* 2000 grit: what use makes of a rougher surface (assumed) */
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
    if (um <= WORN_UM) /* use smooths a rough surface; it is not known to roughen a fine one */
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
