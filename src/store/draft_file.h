/* draft_file.h - the form that is being filled in, kept for after a crash: draft.json in the home.
 */
#ifndef SETTEE_STORE_DRAFT_FILE_H
#define SETTEE_STORE_DRAFT_FILE_H

#include "base/draft.h"
#include "base/error.h"

/* Reads it; none (form DRAFT_NONE) is not an error. False with `error`: it can't be used. */
bool draft_read(Draft *draft, Error *error);

/* Writes the whole file or nothing; the last one is replaced. */
bool draft_write(const Draft *draft, Error *error);
void draft_remove(void);

#endif
