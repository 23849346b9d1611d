/* seed.h - seeds as pairs of words, so that friends can name a block to each other: "amber-otter".
 *
 * Seeds 1 to 65,536 have one each, and each pair is one seed; neighbours look nothing alike. */
#ifndef SETTEE_CORE_REHEARSE_SEED_H
#define SETTEE_CORE_REHEARSE_SEED_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { SEED_WORDS = 256, SEED_PAIRS = SEED_WORDS * SEED_WORDS };
enum { SEED_TEXT_MAX = 24 }; /* room for a pair, or for any seed in figures */

/* The pair, or the number where there is none. */
void seed_text(uint64_t seed, char out[SEED_TEXT_MAX]);

/* The seed of a pair, in any case, with a hyphen between its words. False: it is none; `near`
 * receives the pair that was probably meant, or "". */
bool seed_of_text(const char *text, uint64_t *seed, char near[SEED_TEXT_MAX]);

#endif
