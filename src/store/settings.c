/* settings.c - settee-settings/1: read, and written whole. */
#include "store/settings.h"

#include <string.h>

#include "base/json_out.h"
#include "base/text.h"
#include "store/load.h"
#include "store/paths.h"

static const char *const MOTION_NAMES[] = {"on", "off", NULL};

static const JsonField FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"theme", JSON_TEXT, JSON_AT(Settings, theme)},
    {"motion", JSON_WORD, JSON_AT(Settings, motion), .of = "motion", .words = MOTION_NAMES},
    {.key = "away"},
    JSON_END};

static bool away_parse(const Json *root, Settings *settings)
{
    const JsonField name = {.kind = JSON_TEXT, .size = sizeof settings->away[0]};
    Json list, item;
    if (!json_member(root, "away", &list))
        return true;
    if (json_count(&list, 0, SETTINGS_AWAY_MAX, "names") < 0)
        return false;
    for (bool more = json_first(&list, &item); more; more = json_next(&item))
        if (!json_value(&item, &name, settings->away[settings->away_count++]))
            return false;
    return true;
}

bool settings_parse(const Json *root, Settings *settings)
{
    *settings = (Settings){0};
    return json_format(root, "settee-settings/1") && json_object(root, FIELDS, settings) &&
           away_parse(root, settings);
}

/* Its index in the list, -1: not there. */
static int away_at(const Settings *settings, const char *kind, const char *name)
{
    char file[sizeof settings->away[0]] = "";
    text_append(file, sizeof file, "%s/%s", kind, name);
    for (int i = 0; i < settings->away_count; i++)
        if (strcmp(settings->away[i], file) == 0)
            return i;
    return -1;
}

bool settings_away(const Settings *settings, const char *kind, const char *name)
{
    return away_at(settings, kind, name) >= 0;
}

bool settings_put_away(Settings *settings, const char *kind, const char *name, bool away)
{
    int at = away_at(settings, kind, name), *count = &settings->away_count;
    if ((at >= 0) == away)
        return true;
    if (!away) {
        memmove(settings->away[at], settings->away[at + 1],
                (size_t)(--*count - at) * sizeof settings->away[0]);
        return true;
    }
    if (*count == SETTINGS_AWAY_MAX)
        return false;
    settings->away[*count][0] = '\0';
    return text_append(settings->away[(*count)++], sizeof settings->away[0], "%s/%s", kind, name);
}

static bool place(char *path, size_t size, Error *error)
{
    return paths_config("settings.json", path, size, error);
}

static bool parse(const Json *root, void *into) { return settings_parse(root, into); }

bool settings_read(Settings *settings, Error *error)
{
    char path[1024];
    *settings = (Settings){0};
    bool good = load_kept(place(path, sizeof path, NULL) ? path : "", parse, settings, error);
    if (!good)
        *settings = (Settings){0};
    return good;
}

bool settings_write(const Settings *settings, Error *error)
{
    char path[1024];
    if (!place(path, sizeof path, error))
        return false;
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-settings/1");
    json_out_string(&out, "theme", settings->theme);
    if (settings->motion != MOTION_ON)
        json_out_string(&out, "motion", MOTION_NAMES[settings->motion]);
    if (settings->away_count > 0) {
        json_out_array(&out, "away");
        for (int i = 0; i < settings->away_count; i++)
            json_out_string(&out, NULL, settings->away[i]);
        json_out_end(&out);
    }
    json_out_end(&out);
    return load_keep(path, &out, error);
}
