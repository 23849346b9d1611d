/* juniors.h - what the juniors of this home have done: settee/juniors.json in $XDG_DATA_HOME. */
#ifndef SETTEE_STORE_JUNIORS_H
#define SETTEE_STORE_JUNIORS_H

#include "base/error.h"
#include "core/teach/progress.h"

/* Reads them; having none yet is not an error. False with `error`: the file can't be used, and
 * there are none. Then don't write: it would replace what somebody may want to repair. */
bool juniors_read(Juniors *juniors, Error *error);

/* Writes the whole file or nothing. */
bool juniors_write(const Juniors *juniors, Error *error);

#endif
