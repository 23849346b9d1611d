/* paths.h - where the user's files live (XDG base directory specification 0.8). */
#ifndef SETTEE_STORE_PATHS_H
#define SETTEE_STORE_PATHS_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

/* $XDG_CONFIG_HOME/settee/<name> or ~/.config/settee/<name>; false when neither variable is set. */
bool paths_config(const char *name, char *out, size_t size, Error *error);
/* $XDG_DATA_HOME/settee/<name> or ~/.local/share/settee/<name>; the folder is made, but its name is
 * not yet brought to the disk: the journal does that with its first entry. */
bool paths_data(const char *name, char *out, size_t size, Error *error);
/* The same without making anything. */
bool paths_data_look(const char *name, char *out, size_t size, Error *error);

/* Makes every folder above the file at `path` that is not there, private as the specification asks,
 * and brings its name to the disk; leaves `path` as it was. */
bool paths_make_folders(char *path, Error *error);

#endif
