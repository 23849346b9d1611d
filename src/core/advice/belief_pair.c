/* belief_pair.c - from one pair of lanes to the next: what a particle carries along. */
#include <math.h>
#include <string.h>

#include "core/advice/belief_parts.h"

/* Draws a number of both new lanes from that of both old ones. All are logarithms, normal about 0:
 * one part that the house's lanes share, one of each lane. */
static void draw_lanes(Rng *rng, double common_sd, double lane_sd, double parts[SIDE_COUNT])
{
    double common = common_sd * common_sd, own = lane_sd * lane_sd / SIDE_COUNT; /* of a mean */
    double seen = (log(parts[SIDE_LEFT]) + log(parts[SIDE_RIGHT])) / SIDE_COUNT;
    double share = common / (common + own);
    double shared = share * seen + sqrt(share * own) * rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        parts[lane] = exp(shared + lane_sd * rng_normal(rng));
}

void belief_next_pair(Belief *belief)
{
    double volume_sd = hypot(VOLUME_COMMON_SD, belief->may_be.volume_sd);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        Particle *p = &belief->particles[i];
        draw_lanes(&belief->rng, volume_sd, VOLUME_LANE_SD, &p->part[PART_VOLUME]);
        draw_lanes(&belief->rng, DRY_COMMON_SD, DRY_LANE_SD, &p->part[PART_DRY]);
        offsets_carry(p->offsets);
    }
    offsets_next_pair(&belief->doubt);
    belief_lay(belief);
    memset(belief->others, 0, sizeof belief->others); /* other people */
    memset(belief->sought, 0, sizeof belief->sought);
    memset(belief->deliveries, 0, sizeof belief->deliveries);
    belief->settled = 0;
}
