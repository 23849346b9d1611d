/* rehearsals.h - rehearsals that were kept: $XDG_DATA_HOME/settee/rehearsals/DATE-NNN.json, a file
 * each (settee-rehearsal/1). Apart from the journals: nothing here counts in a review. */
#ifndef SETTEE_STORE_REHEARSALS_H
#define SETTEE_STORE_REHEARSALS_H

#include "core/rehearse/progress.h"

/* Writes one under the next name of its date; `path` receives where. */
bool rehearsals_keep(const RehearsalRecord *record, char *path, size_t size, Error *error);

/* All that can be read, oldest first; heap, for free(). `fault` is told of every file that can't be
 * used. NULL with count 0: there are none; with count -1: the folder can't be read, or out of
 * memory; `error` says which. */
RehearsalRecord *rehearsals_read(int *count, void (*fault)(const Error *error), Error *error);

#endif
