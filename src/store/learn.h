/* learn.h - what the journals of a bag say of its numbers (core/advice/learnt.h), a bit at a time.
 */
#ifndef SETTEE_STORE_LEARN_H
#define SETTEE_STORE_LEARN_H

#include "base/error.h"
#include "core/advice/learnt.h"

typedef struct Learn Learn;

/* Of the latest events bowled with the bag of that name, LEARNT_EVENTS_MOST at most: those with
 * scored shots, no demo. Heap, owned by the caller; NULL, with error, if the bag can't be read. */
Learn *learn_new(const char *bag, Error *error);
void learn_free(Learn *learn);

/* Some milliseconds of it; false when all is known. Journals that can't be read are left out. */
bool learn_step(Learn *learn);

/* The bag as it was read; how many events count; what they say, as learnt_values. Owned by it. */
const Bag *learn_bag(const Learn *learn);
int learn_events(const Learn *learn);
int learn_values(const Learn *learn, LearntValue out[LEARNT_MAX]);

#endif
