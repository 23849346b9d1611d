/* normal.h - the normal distribution. Must not know about bowling. */
#ifndef SETTEE_BASE_NORMAL_H
#define SETTEE_BASE_NORMAL_H

#include <math.h>

/* Chance that a normal variable with mean 0 and standard deviation 1 is below x. */
static inline double normal_below(double x) { return 0.5 * erfc(-x * 0.70710678118654752440); }

#endif
