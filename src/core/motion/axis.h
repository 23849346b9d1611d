/* axis.h - a body's spin axis: inertia about it, and its walk through the body.
 *
 * n is the spin axis in the body's principal axes, a unit vector; k_sq the squared radii of
 * gyration about them, m2. Between touchdowns of a torque the walk is Euler's torque-free one; it
 * depends on the angle turned alone, not on how fast. */
#ifndef SETTEE_CORE_MOTION_AXIS_H
#define SETTEE_CORE_MOTION_AXIS_H

/* Squared radius of gyration about n. */
double axis_k_sq(const double k_sq[3], const double n[3]);

/* dn per radian of turn: perp(I^-1 ((I n) x n)). */
void axis_walk(const double k_sq[3], const double n[3], double walk[3]);

/* Its length: on a ball of radius R two successive track rings lie 2 pi R times that apart. */
double axis_walk_length(const double k_sq[3], const double n[3]);

/* Carries n on by an angle (one Runge-Kutta step; good to 1e-9 a step up to an eighth of a turn).
 */
void axis_turn(const double k_sq[3], double n[3], double angle_rad);

#endif
