/* theme.c - names of the roles, and the theme without colours. */
#include "base/theme.h"

#include "base/text.h"

const char *const ROLE_NAMES[ROLE_COUNT + 1] = {
#define ROLE(id, name, use) name,
#include "base/roles.def"
#undef ROLE
    0};

Theme theme_plain(void)
{
    Theme theme = {.id = "plain", .name = "no colours"};
    for (int i = 0; i < ROLE_COUNT; i++)
        theme.role[i] = (RoleStyle){.foreground = -1, .background = -1};
    theme.role[ROLE_TITLE].bold = true;
    theme.role[ROLE_ACCENT].bold = true;
    theme.role[ROLE_KEY].bold = true;
    theme.role[ROLE_FIELD].reverse = true;
    theme.role[ROLE_BAD].bold = true;
    return theme;
}
