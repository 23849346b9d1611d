/* rng.c - xoshiro256**, after its authors' public-domain description. */
#include "base/rng.h"

#include <math.h>

#include "base/units.h"

static uint64_t rotate(uint64_t x, int k) { return x << k | x >> (64 - k); }

Rng rng_seed(uint64_t seed)
{
    Rng rng;
    for (int i = 0; i < 4; i++) { /* splitmix64 */
        uint64_t z = seed += 0x9e3779b97f4a7c15u;
        z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
        z = (z ^ z >> 27) * 0x94d049bb133111ebu;
        rng.s[i] = z ^ z >> 31;
    }
    return rng;
}

uint64_t rng_next(Rng *rng)
{
    uint64_t *s = rng->s, result = rotate(s[1] * 5, 7) * 9, t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotate(s[3], 45);
    return result;
}

double rng_uniform(Rng *rng) { return (double)(rng_next(rng) >> 11) * 0x1p-53; }

double rng_between(Rng *rng, double low, double high)
{
    return low + (high - low) * rng_uniform(rng);
}

double rng_normal(Rng *rng)
{
    double u = 1.0 - rng_uniform(rng), v = rng_uniform(rng); /* Box and Muller */
    return sqrt(-2.0 * log(u)) * cos(2.0 * UNITS_PI * v);
}
