/* settings.c - settee-settings/1: read, and written whole. */
#include "store/settings.h"

#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "base/json_out.h"
#include "store/atomic.h"
#include "store/load.h"
#include "store/paths.h"

static const JsonField FIELDS[] = {{"format", JSON_OTHER, .required = true},
                                   {"theme", JSON_TEXT, JSON_AT(Settings, theme)},
                                   JSON_END};

bool settings_parse(const Json *root, Settings *settings)
{
    *settings = (Settings){0};
    return json_format(root, "settee-settings/1") && json_object(root, FIELDS, settings);
}

static bool place(char *path, size_t size, Error *error)
{
    return paths_config("settings.json", path, size, error);
}

bool settings_read(Settings *settings, Error *error)
{
    char path[1024];
    struct stat status;
    Loaded file;
    *settings = (Settings){0};
    *error = (Error){0};
    if (!place(path, sizeof path, NULL) ||
        (lstat(path, &status) != 0 && (errno == ENOENT || errno == ENOTDIR)))
        return true;
    if (!load_file("", path, &file, error))
        return false;
    JsonDoc *doc = json_read(file.text, file.length, 1, error);
    Json root = doc ? json_root(doc, error) : (Json){0};
    bool good = doc && settings_parse(&root, settings);
    if (!good)
        *settings = (Settings){0};
    json_free(doc);
    load_free(&file);
    return good;
}

bool settings_write(const Settings *settings, Error *error)
{
    char path[1024];
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-settings/1");
    json_out_string(&out, "theme", settings->theme);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    bool done = text ? place(path, sizeof path, error) && paths_make_folders(path, error) &&
                           atomic_write(path, text, strlen(text), error)
                     : error_set(error, "out of memory");
    json_out_free(&out);
    return done;
}
