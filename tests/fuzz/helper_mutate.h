/* helper_mutate.h - changes a text at random, as a bad disk, a bad editor or a bad person would. */
#ifndef SETTEE_TESTS_FUZZ_MUTATE_H
#define SETTEE_TESTS_FUZZ_MUTATE_H

#include <stddef.h>

#include "base/rng.h"

/* Changes `text` of `size` bytes in place, which has room for `room`; returns its new size. */
size_t mutate(Rng *rng, char *text, size_t size, size_t room);

#endif
