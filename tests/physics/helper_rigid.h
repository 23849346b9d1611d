/* helper_rigid.h - the references the production motion code is held against.
 *
 * Written from docs/model.md alone, without looking at or calling src/core/motion/motion.c,
 * friction.c or ball.c: only the plain structs (Ball, Delivery, Oil) are shared. Two systems of
 * equations,
 *
 *   full      a rigid body: orientation quaternion, Euler's equations, three inertias
 *   averaged  the same averaged over a turn of the ball: what the program runs
 *
 * each with two integrators: RK4 in time here, and GSL's ode-initval2 over distance.
 *
 * Sliding friction is -mu g u / sqrt(|u|^2 + creep^2): Coulomb's law but for a creep of
 * millimetres a second, so that rolling is the limit of sliding and no event has to be found.
 * test_reference.c shows what creep and step cost. */
#ifndef SETTEE_TESTS_HELPER_RIGID_H
#define SETTEE_TESTS_HELPER_RIGID_H

#include <stdbool.h>

#include "core/lane/oil.h"
#include "core/motion/delivery.h"

#define RIGID_G 9.80665
#define RIGID_ROLLING 0.01 /* rolling resistance, model.md (assumed there) */

typedef struct RigidBall {
    double radius; /* m */
    double k2[3];  /* squared radii of gyration, m2, ascending: pin axis first */
    double n[3];   /* spin axis at release, body axes */
    double mu_film, mu_dry, sigma_um, dry_base;
    double mu_fixed; /* >= 0: this friction everywhere */
    double rolling;  /* rolling resistance; RIGID_ROLLING unless a test turns it off */
    double creep;    /* m/s */
    /* another way to the same friction, for benchmarks; NULL: rigid_mu */
    double (*friction)(const void *with, double film_units, double ring_m);
    const void *with;
} RigidBall;

RigidBall rigid_ball(const Ball *ball);
double rigid_mu(const RigidBall *ball, double film_units, double ring_m);

/* Own bilinear reading of the film grid. */
double rigid_film(const Oil *oil, double x, double y);

typedef enum RigidKind { RIGID_FULL, RIGID_AVERAGED } RigidKind;

/* What is integrated: x, y, vx, vy, then
 *   full:      spin in body axes (3), quaternion body to lab (4)
 *   averaged:  angular momentum over mass in the lab (3), spin axis in the body (3)
 * then the time and the length of the track's walk over the ball. */
enum { RIGID_STATE_MAX = 13 };

typedef struct RigidSystem {
    RigidKind kind;
    const RigidBall *ball;
    const Oil *oil; /* NULL: a dry lane */
    bool airborne;
} RigidSystem;

int rigid_dimension(RigidKind kind);

/* d(state)/dt; returns the time derivative of y. */
void rigid_rate(const RigidSystem *system, const double *state, double *rate);

/* At the foul line. phase: turn of the ball about its spin axis, rad (full only). */
void rigid_release(const RigidSystem *system, const Delivery *delivery, double phase,
                   double *state);

/* In the lab's axes, per unit mass. */
void rigid_spin(const RigidSystem *system, const double *state, double spin[3]);
void rigid_momentum(const RigidSystem *system, const double *state, double momentum[3]);
double rigid_energy(const RigidSystem *system, const double *state);
void rigid_slip(const RigidSystem *system, const double *state, double slip[2]);
/* Spin axis in the body's axes. */
void rigid_axis(const RigidSystem *system, const double *state, double axis[3]);

void rigid_rk4(const RigidSystem *system, double *state, double dt);

typedef struct RigidEnd {
    double board, degrees, mph, seconds, flare_m;
    bool gutter;
    long evaluations;
} RigidEnd;

/* RK4 in time to the head pin, or to where it leaves the lane. */
RigidEnd rigid_roll(RigidKind kind, const RigidBall *ball, const Oil *oil, const Delivery *delivery,
                    double phase, double dt);

/* The same by GSL over distance; stepper such as gsl_odeiv2_step_rk8pd. steps_per_cell > 0: that
 * many fixed steps in each half-foot; 0: adaptive to `tolerance` (absolute and relative). */
typedef struct RigidGsl {
    const void *stepper; /* const gsl_odeiv2_step_type * */
    double tolerance;
    int steps_per_cell;
    bool whole; /* adaptive from touchdown to the pins, not stopping at each station */
} RigidGsl;
RigidEnd rigid_gsl(RigidKind kind, const RigidBall *ball, const Oil *oil, const Delivery *delivery,
                   double phase, const RigidGsl *how);

#endif
