/* settings.h - what the bowler chose on the screen: settings.json in the home. */
#ifndef SETTEE_STORE_SETTINGS_H
#define SETTEE_STORE_SETTINGS_H

#include <stdbool.h>

#include "base/error.h"

typedef struct Settings {
    char theme[64]; /* name of a theme; "": none was chosen */
} Settings;

/* Reads them; that there are none yet is no fault. False with `error`: the file can't be used, and
 * `settings` are the defaults. */
bool settings_read(Settings *settings, Error *error);

/* Writes the whole file or nothing. Replaces what is there: not for use after settings_read has
 * found a fault in it. */
bool settings_write(const Settings *settings, Error *error);

#endif
