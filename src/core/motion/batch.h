/* batch.h - many deliveries at once, for searches: arrivals only.
 *
 * The same averaged equations as motion.h, in single precision and side by side, so that compilers
 * can use vector instructions (plain C; the same bits with any width). docs/accuracy.md measures
 * its speed and how far it differs from motion_arrive. Two things make it cheap:
 *   - friction changes spin and speed together: l + R (vy, -vx) stays constant, so angular momentum
 *     need not be integrated;
 *   - the axis migration depends only on the angle turned, not on the lane, so inertia and fresh
 *     cover are tables of the ball. */
#ifndef SETTEE_CORE_MOTION_BATCH_H
#define SETTEE_CORE_MOTION_BATCH_H

#include "core/motion/motion.h"

enum { BATCH_TURNS = 32, BATCH_PER_TURN = 8, BATCH_TABLE = BATCH_TURNS * BATCH_PER_TURN };
enum { BATCH_STEPS_MAX = 8 * OIL_STATIONS };

/* A ball prepared for batches; caller's storage, no pointers. */
typedef struct BatchBall {
    double pounds; /* for the rack; motion doesn't use it */
    float radius_m;
    float k_sq_first;             /* about the axis at release, m2 */
    float k_sq[BATCH_TABLE + 2];  /* over turns since release, BATCH_PER_TURN a turn */
    float fresh[BATCH_TABLE + 2]; /* share of fresh cover, phi */
    float mu_film, mu_dry, dry_base, dry_fresh;
    float per_unit; /* table places per unit of film */
    float fade[FRICTION_TABLE + 2];
} BatchBall;

void batch_ball(const MotionBody *body, BatchBall *ball);

/* A film prepared for batches: the grid, and steps along the lane, short where it changes fast. */
typedef struct BatchOil {
    float units[OIL_STATIONS + 1][LANE_BOARDS + 1];
    int step_count;
    float step_m[BATCH_STEPS_MAX]; /* they add up to the lane's length */
} BatchOil;

/* step_ft: the longest step. BATCH_ROUGH for sums over many throws that scatter: on a worn film,
 * with half the steps; BATCH_QUICK for searches; BATCH_FINE agrees with motion_arrive to 0.001
 * board except at rare edges. */
#define BATCH_ROUGH 2.0
#define BATCH_QUICK 1.0
#define BATCH_FINE 0.25
void batch_oil(const Oil *oil, double step_ft, BatchOil *ready);

/* One delivery of a batch; its film and dry lane may differ from the others'. */
typedef struct BatchThrow {
    Delivery delivery;
    float film_scale, dry_scale; /* 1: unchanged */
    float longer;                /* share by which the film is drawn out down the lane; 0: not */
} BatchThrow;

/* Rolls throws[0..count-1] into arrivals[0..count-1]. */
void batch_arrive(const BatchBall *ball, const BatchOil *oil, const BatchThrow *throws, int count,
                  Arrival *arrivals);

#endif
