/* home.h - the bowler's own files: $XDG_CONFIG_HOME/settee/KIND/NAME.json, by the kinds of built-in
 * files. For the store's own use; creates nothing. */
#ifndef SETTEE_STORE_HOME_H
#define SETTEE_STORE_HOME_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

enum { HOME_NAME_MAX = 64 }; /* with the closing 0; longer names are not looked for */

extern const char *const HOME_KINDS[]; /* "bags", "events", ...; NULL ends */

/* Where the home's file of that kind and name is or would be. False: there can't be one, because
 * the kind has no folder, the name is a path or ends in .json, or the user has no home. */
bool home_path(const char *kind, const char *name, char *out, size_t size);

/* The names of the home's files of that kind, sorted, at most `max`; returns how many. */
int home_names(const char *kind, char (*names)[HOME_NAME_MAX], int max);

/* False: there is a folder of that kind, and it can't be read. */
bool home_readable(const char *kind, Error *error);

#endif
