/* friction.c - a ball's friction by film thickness as a table, and the numbers of each cover. */
#include "core/motion/friction.h"

#include <math.h>

#include "base/units.h"
#include "core/lane/oil.h"

/* All assumed, fitted to common practice; docs/model.md says what changing each does. A cover that
 * absorbs nothing carries its oil onto the dry boards: without flare it grips them less. */
static const struct {
    double mu_film, mu_dry;
    double chi;      /* how much of its roughness reaches through a film */
    double dry_base; /* share of mu_dry left if the track is never fresh */
} COVERS[COVER_COUNT] = {
    [COVER_SOLID] = {0.040, 0.200, 1.0, 0.85},     [COVER_HYBRID] = {0.035, 0.200, 0.9, 0.85},
    [COVER_PEARL] = {0.030, 0.200, 0.8, 0.85},     [COVER_URETHANE] = {0.038, 0.150, 0.9, 0.70},
    [COVER_POLYESTER] = {0.015, 0.100, 0.5, 0.60},
};
#ifndef SETTEE_CONSTANTS_VARY          /* tests/bench/bench_constants.c makes variables of these */
#define LANE_ROUGHNESS_UM 0.25         /* assumed */
#define FRESH_LENGTH_M (0.35 * 0.0254) /* ring distance at which most cover is fresh; assumed */
#define FADE_LAMBDA 0.8 /* film over roughness at which dry contact has faded; assumed */
#define FADE_POWER 1.3
#endif
#define LAMBDA_REACH 6.0 /* table's end: a full film (textbook: above 3), fade under 2e-6 */

void friction_curve(const Ball *ball, FrictionCurve *friction)
{
    double ra = ball_roughness_um(&ball->surface);
    double sigma_um =
        sqrt(ra * ra + LANE_ROUGHNESS_UM * LANE_ROUGHNESS_UM) * COVERS[ball->cover].chi;
    friction->mu_film = COVERS[ball->cover].mu_film * ball->cover_strength;
    friction->mu_dry = COVERS[ball->cover].mu_dry * ball->cover_strength;
    friction->dry_base = COVERS[ball->cover].dry_base;
    friction->dry_fresh = 1.0 - friction->dry_base;
    friction->reach_units = LAMBDA_REACH * sigma_um / OIL_UM_PER_UNIT;
    for (int i = 0; i < FRICTION_TABLE + 2; i++) {
        double lambda = LAMBDA_REACH * i / FRICTION_TABLE;
        friction->fade[i] = i >= FRICTION_TABLE ? 0.0 : exp(-pow(lambda / FADE_LAMBDA, FADE_POWER));
    }
}

void friction_constant(double mu, FrictionCurve *friction)
{
    *friction = (FrictionCurve){.mu_film = mu, .mu_dry = mu, .dry_base = 1.0, .reach_units = 1.0};
}

double friction_fresh(double flare_m) { return 1.0 - exp(-flare_m / FRESH_LENGTH_M); }

double friction_mu(const FrictionCurve *friction, double film_units, double phi)
{
    double at = film_units * (1.25 - 0.5 * phi) / friction->reach_units * FRICTION_TABLE;
    double fade = 0.0;
    if (at < FRICTION_TABLE) {
        int i = (int)at;
        fade = friction->fade[i] + (at - i) * (friction->fade[i + 1] - friction->fade[i]);
    }
    double dry = friction->mu_dry * (friction->dry_base + friction->dry_fresh * phi);
    return friction->mu_film + (dry - friction->mu_film) * fade;
}
