/* settings.h - what the bowler chose on the screen: settings.json in the home. */
#ifndef SETTEE_STORE_SETTINGS_H
#define SETTEE_STORE_SETTINGS_H

#include <stdbool.h>

#include "base/error.h"

typedef struct Settings {
    char theme[64]; /* name of a theme; "": none was chosen */
} Settings;

/* Reads them; having none yet is not an error. False with `error`: the file can't be used, and
 * `settings` has the defaults. */
bool settings_read(Settings *settings, Error *error);

/* Writes the whole file or nothing. Replaces the old one: don't use it after settings_read has
 * found a fault. */
bool settings_write(const Settings *settings, Error *error);

#endif
