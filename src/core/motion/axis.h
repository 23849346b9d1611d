/* axis.h - a body's spin axis: inertia about it, and how it migrates through the body.
 *
 * n is the spin axis in the body's principal axes, a unit vector; k_sq the squared radii of
 * gyration about them, m2. The migration is Euler's torque-free one; it depends only on the angle
 * turned, not on how fast. */
#ifndef SETTEE_CORE_MOTION_AXIS_H
#define SETTEE_CORE_MOTION_AXIS_H

/* Squared radius of gyration about n. */
double axis_k_sq(const double k_sq[3], const double n[3]);

/* dn per radian of turn: perp(I^-1 ((I n) x n)). */
void axis_walk(const double k_sq[3], const double n[3], double walk[3]);

/* The length of that: on a ball of radius R two successive track rings lie 2 pi R times it apart.
 */
double axis_walk_length(const double k_sq[3], const double n[3]);

/* Turns n on by an angle (one Runge-Kutta step; good to 1e-9 per step up to an eighth of a turn).
 */
void axis_turn(const double k_sq[3], double n[3], double angle_rad);

#endif
