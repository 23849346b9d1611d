/* rng.h - a seeded random generator as a value: same seed, same numbers, on every machine.
 *
 * xoshiro256** (Blackman and Vigna 2018), seeded through splitmix64. */
#ifndef SETTEE_BASE_RNG_H
#define SETTEE_BASE_RNG_H

#include <stdint.h>

typedef struct Rng {
    uint64_t s[4];
} Rng;

Rng rng_seed(uint64_t seed);
uint64_t rng_next(Rng *rng);                           /* 64 random bits */
double rng_uniform(Rng *rng);                          /* [0, 1) */
double rng_between(Rng *rng, double low, double high); /* [low, high) */
double rng_normal(Rng *rng);                           /* mean 0, standard deviation 1 */

#endif
