/* friction.h - sliding friction of a cover on a film of oil (mixed lubrication; docs/model.md).
 *
 *   lambda = film / roughness * (1.25 - 0.5 phi)
 *   mu     = mu_film + (mu_dry (0.85 + 0.15 phi) - mu_film) exp(-(lambda / 0.8)^1.3)
 *
 * where phi is the share of the contact that is fresh, oil-free cover: 1 - exp(-s / 0.35 in), with
 * s the distance between two successive track rings. */
#ifndef SETTEE_CORE_MOTION_FRICTION_H
#define SETTEE_CORE_MOTION_FRICTION_H

#include "core/bag/ball.h"

enum { FRICTION_TABLE = 512 };

typedef struct FrictionCurve {
    double mu_film, mu_dry;
    double dry_base, dry_fresh;      /* share of mu_dry without and with fresh cover: 0.85, 0.15 */
    double reach_units;              /* film at which the table ends: a full film beyond */
    double fade[FRICTION_TABLE + 2]; /* exp(-(lambda/0.8)^1.3) over film * (1.25 - 0.5 phi) */
} FrictionCurve;

void friction_curve(const Ball *ball, FrictionCurve *friction);

/* The same friction everywhere: for closed forms. */
void friction_constant(double mu, FrictionCurve *friction);

/* film_units >= 0; flare_m: distance between successive track rings, metres a revolution. */
double friction_fresh(double flare_m); /* phi, 0..1 */
double friction_mu(const FrictionCurve *friction, double film_units, double phi);

#endif
