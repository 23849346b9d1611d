/* batch.h - many deliveries at once, for searches: arrivals only.
 *
 * The same averaged equations as motion.h, in single precision and side by side, so that a
 * compiler can use the machine's vectors (plain C; the same bits with any width). Differences to
 * motion_arrive and speed are measured in docs/accuracy.md. Two things make it cheap:
 *   - friction turns spin and speed together: l + R (vy, -vx) stays as it was, so that angular
 *     momentum need not be stepped;
 *   - the spin axis walks through the body as a function of the turn alone, whatever the lane
 *     does, so that inertia and fresh cover are tables of the ball. */
#ifndef SETTEE_CORE_MOTION_BATCH_H
#define SETTEE_CORE_MOTION_BATCH_H

#include "core/motion/motion.h"

enum { BATCH_TURNS = 32, BATCH_PER_TURN = 8, BATCH_TABLE = BATCH_TURNS * BATCH_PER_TURN };
enum { BATCH_STEPS_MAX = 8 * OIL_STATIONS };

/* A ball made ready; caller's storage, no pointers. */
typedef struct BatchBall {
    double pounds; /* for the rack; motion does not ask */
    float radius_m;
    float k_sq_first;             /* about the axis at release, m2 */
    float k_sq[BATCH_TABLE + 2];  /* over turns since release, BATCH_PER_TURN a turn */
    float fresh[BATCH_TABLE + 2]; /* share of fresh cover, phi */
    float mu_film, mu_dry, dry_base, dry_fresh;
    float per_unit; /* places in the table of a unit of film */
    float fade[FRICTION_TABLE + 2];
} BatchBall;

void batch_ball(const MotionBody *body, BatchBall *ball);

/* A film made ready: the grid, and steps along the lane that are short where it changes fast. */
typedef struct BatchOil {
    float units[OIL_STATIONS + 1][LANE_BOARDS + 1];
    int step_count;
    float step_m[BATCH_STEPS_MAX]; /* they add up to the lane's length */
} BatchOil;

/* step_ft: the longest step, BATCH_QUICK for searches, BATCH_FINE to agree with motion_arrive to
 * 0.001 board but for rare edges. */
#define BATCH_QUICK 1.0
#define BATCH_FINE 0.25
void batch_oil(const Oil *oil, double step_ft, BatchOil *ready);

/* One delivery of a batch, on a film and a dry lane that may differ from the others'. */
typedef struct BatchThrow {
    Delivery delivery;
    float film_scale, dry_scale; /* 1 as given */
} BatchThrow;

/* Rolls throws[0..count-1] into arrivals[0..count-1]. */
void batch_arrive(const BatchBall *ball, const BatchOil *oil, const BatchThrow *throws, int count,
                  Arrival *arrivals);

#endif
