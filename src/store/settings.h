/* settings.h - what the bowler chose on the screen: settings.json in the home. */
#ifndef SETTEE_STORE_SETTINGS_H
#define SETTEE_STORE_SETTINGS_H

#include <stdbool.h>

#include "base/error.h"

enum { SETTINGS_AWAY_MAX = 200 };

enum { MOTION_ON, MOTION_OFF };

typedef struct Settings {
    char theme[64]; /* name of a theme; "": none was chosen */
    int motion;     /* MOTION_ON: balls roll; MOTION_OFF: nothing moves by itself */
    /* Files that were put away, out of sight on Home: "events/spring". */
    int away_count;
    char away[SETTINGS_AWAY_MAX][80];
} Settings;

/* Whether a file of that kind and name was put away; and to put it away or take it back. False:
 * there is no room for another. */
bool settings_away(const Settings *settings, const char *kind, const char *name);
bool settings_put_away(Settings *settings, const char *kind, const char *name, bool away);

/* Reads them; having none yet is not an error. False with `error`: the file can't be used, and
 * `settings` has the defaults. */
bool settings_read(Settings *settings, Error *error);

/* Writes the whole file or nothing. Replaces the old one: don't use it after settings_read has
 * found a fault. */
bool settings_write(const Settings *settings, Error *error);

#endif
