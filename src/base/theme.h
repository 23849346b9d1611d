/* theme.h - colours for the parts of a screen as plain data, read by store, used by ui. */
#ifndef SETTEE_BASE_THEME_H
#define SETTEE_BASE_THEME_H

#include <stdbool.h>

typedef enum Role {
#define ROLE(id, name, use) ROLE_##id,
#include "base/roles.def"
#undef ROLE
    ROLE_COUNT
} Role;
extern const char *const ROLE_NAMES[ROLE_COUNT + 1]; /* NULL ends */

/* A colour is -1 (the terminal's default) or 0xRRGGBB; the terminal layer picks the nearest one
 * the terminal has. */
typedef struct RoleStyle {
    int foreground, background;
    bool bold, underline, reverse;
} RoleStyle;

typedef struct Theme {
    char id[32];
    char name[64];
    RoleStyle role[ROLE_COUNT];
} Theme;

/* No colours at all: weights only (what NO_COLOR asks for). */
Theme theme_plain(void);

#endif
