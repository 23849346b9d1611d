/* friction.c - the table of a ball's friction over film, and what each cover is. */
#include "core/friction.h"

#include <math.h>

#include "base/units.h"
#include "core/oil.h"

/* All assumed, fitted to common practice; docs/model.md says what a change of each does. */
static const struct {
    double mu_film, mu_dry;
    double chi; /* how much of its roughness stands through a film */
} COVERS[COVER_COUNT] = {
    [COVER_SOLID] = {0.040, 0.200, 1.0},     [COVER_HYBRID] = {0.035, 0.200, 0.9},
    [COVER_PEARL] = {0.030, 0.200, 0.8},     [COVER_URETHANE] = {0.045, 0.170, 1.1},
    [COVER_POLYESTER] = {0.020, 0.120, 0.5},
};
#ifndef SETTEE_CONSTANTS_VARY          /* tests/bench/bench_constants.c makes variables of these */
#define LANE_ROUGHNESS_UM 0.25         /* assumed */
#define FRESH_LENGTH_M (0.35 * 0.0254) /* ring distance that finds mostly fresh cover; assumed */
#define FADE_LAMBDA 0.8 /* film over roughness at which dry contact has faded; assumed */
#define FADE_POWER 1.3
#endif
#define LAMBDA_REACH 6.0 /* table's end: a full film (textbook: above 3), fade under 2e-6 */

void grip_of(const Ball *ball, Grip *grip)
{
    double ra = ball_roughness_um(&ball->surface);
    double sigma_um =
        sqrt(ra * ra + LANE_ROUGHNESS_UM * LANE_ROUGHNESS_UM) * COVERS[ball->cover].chi;
    grip->mu_film = COVERS[ball->cover].mu_film * ball->cover_strength;
    grip->mu_dry = COVERS[ball->cover].mu_dry * ball->cover_strength;
    grip->dry_base = 0.85; /* assumed: a ball that rides its own oil keeps this share */
    grip->dry_fresh = 0.15;
    grip->reach_units = LAMBDA_REACH * sigma_um / OIL_UM_PER_UNIT;
    for (int i = 0; i < GRIP_TABLE + 2; i++) {
        double lambda = LAMBDA_REACH * i / GRIP_TABLE;
        grip->fade[i] = i >= GRIP_TABLE ? 0.0 : exp(-pow(lambda / FADE_LAMBDA, FADE_POWER));
    }
}

void grip_constant(double mu, Grip *grip)
{
    *grip = (Grip){.mu_film = mu, .mu_dry = mu, .dry_base = 1.0, .reach_units = 1.0};
}

double grip_fresh(double flare_m) { return 1.0 - exp(-flare_m / FRESH_LENGTH_M); }

double grip_mu(const Grip *grip, double film_units, double phi)
{
    double at = film_units * (1.25 - 0.5 * phi) / grip->reach_units * GRIP_TABLE;
    double fade = 0.0;
    if (at < GRIP_TABLE) {
        int i = (int)at;
        fade = grip->fade[i] + (at - i) * (grip->fade[i + 1] - grip->fade[i]);
    }
    double dry = grip->mu_dry * (grip->dry_base + grip->dry_fresh * phi);
    return grip->mu_film + (dry - grip->mu_film) * fade;
}
