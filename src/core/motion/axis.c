/* axis.c - Euler's equations for the direction of spin. */
#include "core/motion/axis.h"

#include <math.h>

double axis_k_sq(const double k_sq[3], const double n[3])
{
    return k_sq[0] * n[0] * n[0] + k_sq[1] * n[1] * n[1] + k_sq[2] * n[2] * n[2];
}

void axis_walk(const double k_sq[3], const double n[3], double walk[3])
{
    double l[3] = {k_sq[0] * n[0], k_sq[1] * n[1], k_sq[2] * n[2]};
    walk[0] = (l[1] * n[2] - l[2] * n[1]) / k_sq[0];
    walk[1] = (l[2] * n[0] - l[0] * n[2]) / k_sq[1];
    walk[2] = (l[0] * n[1] - l[1] * n[0]) / k_sq[2];
    double along = walk[0] * n[0] + walk[1] * n[1] + walk[2] * n[2];
    for (int i = 0; i < 3; i++)
        walk[i] -= along * n[i];
}

static double length(const double v[3]) { return sqrt(v[0] * v[0] + v[1] * v[1] + v[2] * v[2]); }

double axis_walk_length(const double k_sq[3], const double n[3])
{
    double walk[3];
    axis_walk(k_sq, n, walk);
    return length(walk);
}

void axis_turn(const double k_sq[3], double n[3], double angle_rad)
{
    double k[4][3], at[3];
    static const double SHARE[3] = {0.5, 0.5, 1.0};
    axis_walk(k_sq, n, k[0]);
    for (int stage = 0; stage < 3; stage++) {
        for (int i = 0; i < 3; i++)
            at[i] = n[i] + SHARE[stage] * angle_rad * k[stage][i];
        axis_walk(k_sq, at, k[stage + 1]);
    }
    for (int i = 0; i < 3; i++)
        n[i] += angle_rad / 6.0 * (k[0][i] + 2.0 * k[1][i] + 2.0 * k[2][i] + k[3][i]);
    double size = length(n);
    for (int i = 0; i < 3; i++)
        n[i] /= size;
}
