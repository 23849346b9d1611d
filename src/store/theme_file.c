/* theme_file.c - settee-theme/1: colours and weights for the parts of a screen. */
#include <string.h>

#include "base/text.h"
#include "store/load.h"

/* The sixteen plain colours as xterm shows them. */
static const char *const COLOUR_NAMES[] = {"default",       "black",        "red",
                                           "green",         "yellow",       "blue",
                                           "magenta",       "cyan",         "white",
                                           "bright-black",  "bright-red",   "bright-green",
                                           "bright-yellow", "bright-blue",  "bright-magenta",
                                           "bright-cyan",   "bright-white", NULL};
static const int COLOURS[] = {-1,       0x000000, 0xcd0000, 0x00cd00, 0xcdcd00, 0x0000ee,
                              0xcd00cd, 0x00cdcd, 0xe5e5e5, 0x7f7f7f, 0xff0000, 0x00ff00,
                              0xffff00, 0x5c5cff, 0xff00ff, 0x00ffff, 0xffffff};

typedef enum Weight { WEIGHT_PLAIN, WEIGHT_BOLD, WEIGHT_UNDERLINE, WEIGHT_REVERSE } Weight;
static const char *const WEIGHT_NAMES[] = {"plain", "bold", "underline", "reverse", NULL};

static const JsonField ROOT_FIELDS[] = {{"format", JSON_OTHER, .required = true},
                                        {"name", JSON_TEXT, .required = true, JSON_AT(Theme, name)},
                                        {"roles", JSON_OTHER, .required = true},
                                        JSON_END};
static const JsonField STYLE_FIELDS[] = {
    {.key = "foreground"}, {.key = "background"}, {.key = "weight"}, JSON_END};

/* "#rrggbb" or -1. */
static int hex_colour(const char *text)
{
    static const char DIGITS[] = "0123456789abcdef0123456789ABCDEF";
    int value = 0;
    if (text[0] != '#' || strlen(text) != 7 || strspn(text + 1, DIGITS) != 6)
        return -1;
    for (const char *c = text + 1; *c; c++)
        value = value * 16 + (int)(strchr(DIGITS, *c) - DIGITS) % 16;
    return value;
}

static bool colour_parse(const Json *style, const char *key, int *colour)
{
    char found[64];
    int index;
    Json value;
    const JsonField as_name = {.kind = JSON_WORD, .of = "colour", .words = COLOUR_NAMES};
    if (!json_member(style, key, &value))
        return true;
    const char *said = json_string(&value);
    if (!said)
        return json_fail(&value,
                         "found %s; allowed: a colour such as \"default\", \"bright-blue\" or "
                         "\"#20a0ff\"",
                         json_found(&value, found));
    *colour = hex_colour(said);
    if (*colour >= 0)
        return true;
    if (said[0] == '#')
        return json_fail(&value, "found %s; allowed: # and six hexadecimal digits",
                         json_found(&value, found));
    if (!json_value(&value, &as_name, &index))
        return false;
    *colour = COLOURS[index];
    return true;
}

static bool weight_parse(const Json *value, RoleStyle *style)
{
    Weight weight;
    const JsonField field = {.kind = JSON_WORD, .of = "weight", .words = WEIGHT_NAMES};
    if (!json_value(value, &field, &weight))
        return false;
    style->bold |= weight == WEIGHT_BOLD;
    style->underline |= weight == WEIGHT_UNDERLINE;
    style->reverse |= weight == WEIGHT_REVERSE;
    return true;
}

static bool style_parse(const Json *value, RoleStyle *style)
{
    Json weight, item;
    *style = (RoleStyle){.foreground = -1, .background = -1};
    if (!json_object(value, STYLE_FIELDS, NULL) ||
        !colour_parse(value, "foreground", &style->foreground) ||
        !colour_parse(value, "background", &style->background))
        return false;
    if (!json_member(value, "weight", &weight))
        return true;
    if (!json_is_array(&weight))
        return weight_parse(&weight, style);
    if (json_count(&weight, 0, 3, "weights") < 0)
        return false;
    for (bool more = json_first(&weight, &item); more; more = json_next(&item))
        if (!weight_parse(&item, style))
            return false;
    return true;
}

static bool roles_parse(const Json *roles, Theme *theme)
{
    JsonField fields[ROLE_COUNT + 1] = {{0}};
    Json role;
    for (int i = 0; i < ROLE_COUNT; i++)
        fields[i].key = ROLE_NAMES[i]; /* kind JSON_OTHER */
    if (!json_object(roles, fields, NULL))
        return false;
    theme->role[ROLE_PLAIN] = (RoleStyle){.foreground = -1, .background = -1};
    if (json_member(roles, ROLE_NAMES[ROLE_PLAIN], &role) &&
        !style_parse(&role, &theme->role[ROLE_PLAIN]))
        return false;
    for (int i = 0; i < ROLE_COUNT; i++) {
        if (i == ROLE_PLAIN)
            continue;
        theme->role[i] = theme->role[ROLE_PLAIN]; /* what is left out looks like ordinary text */
        if (json_member(roles, ROLE_NAMES[i], &role) && !style_parse(&role, &theme->role[i]))
            return false;
    }
    return true;
}

bool theme_parse(const Json *root, const Loaded *file, Theme *theme)
{
    Json roles;
    *theme = (Theme){0};
    if (!json_format(root, "settee-theme/1") || !json_object(root, ROOT_FIELDS, theme))
        return false;
    text_copy(theme->id, sizeof theme->id, file->id);
    return json_member(root, "roles", &roles) && roles_parse(&roles, theme);
}
