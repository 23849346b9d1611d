/* app.c - the program on the screen: themes, settings, the terminal. */
#include "app/app.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/input/bound.h"

#define THEME_USUAL "dark"

App *app_new(void) { return calloc(1, sizeof(App)); }

void app_note(App *app, const char *first, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    text_append(app->notice, sizeof app->notice, "%s%s%s", app->notice[0] ? "; " : "", first, line);
}

static bool keep_theme(void *context, const Theme *theme, Error *error)
{
    App *app = context;
    text_copy(app->settings.theme, sizeof app->settings.theme,
              app->theme_names[theme - app->themes].name);
    return settings_write(&app->settings, error);
}

static bool keep_motion(void *context, bool still, Error *error)
{
    App *app = context;
    app->settings.motion = still ? MOTION_OFF : MOTION_ON;
    return settings_write(&app->settings, error);
}

/* Moves one to the front and keeps the others in order. */
static void put_first(App *app, int at)
{
    const Theme theme = app->themes[at];
    const FileName name = app->theme_names[at];
    memmove(&app->themes[1], &app->themes[0], (size_t)at * sizeof *app->themes);
    memmove(&app->theme_names[1], &app->theme_names[0], (size_t)at * sizeof *app->theme_names);
    app->themes[0] = theme;
    app->theme_names[0] = name;
}

/* A theme with faults is reported and left out. */
static void load_themes(App *app, const char *chosen)
{
    FileName names[APP_THEMES_MAX];
    int count = files_names("themes", names, APP_THEMES_MAX), first = -1;
    for (int i = 0; i < count; i++) {
        Error error = {0};
        if (!files_theme(names[i].name, &app->themes[app->theme_count], &error)) {
            app_note(app, "", &error);
            continue;
        }
        if (strcmp(names[i].name, chosen) == 0 ||
            (first < 0 && strcmp(names[i].name, THEME_USUAL) == 0))
            first = app->theme_count;
        app->theme_names[app->theme_count++] = names[i];
    }
    if (first >= 0)
        put_first(app, first);
    if (chosen[0] && (first < 0 || strcmp(app->theme_names[0].name, chosen) != 0)) {
        Error error = {0};
        error_set(&error, "the theme \"%s\" is not there any more", chosen);
        app_note(app, "", &error);
    }
}

void app_look(App *app)
{
    Error broken = {0};
    app->settings_usable = settings_read(&app->settings, &broken);
    if (!app->settings_usable) {                                     /* never overwrite it */
        text_copy(broken.file, sizeof broken.file, "settings.json"); /* one line has 80 columns */
        app_note(app, "T and M are not saved: ", &broken);
    }
    load_themes(app, app->settings.theme);
    if (!keys_read(&app->keys, bound_refuses, &broken)) {
        text_copy(broken.file, sizeof broken.file, "keys.json");
        broken.where[0] = '\0'; /* the line says where */
        app_note(app, "Usual keys: ", &broken);
    }
    app->look = (StageLook){.themes = app->themes,
                            .theme_count = app->theme_count,
                            .still = app->settings.motion == MOTION_OFF,
                            .keep_motion = app->settings_usable ? keep_motion : NULL,
                            .keep_theme = app->settings_usable ? keep_theme : NULL,
                            .context = app};
}

bool app_open(App *app, Error *error)
{
    app->open = app->open || stage_open(&app->look, error);
    return app->open;
}

int app_end(App *app, const Error *error)
{
    char line[ERROR_LINE_MAX];
    if (app && app->open)
        stage_close();
    if (error) {
        error_line(error, line, sizeof line);
        fprintf(stderr, "settee: %s\n", line);
    }
    if (app && app->unsaved_entries > 0)
        fprintf(stderr, "settee: NOT SAVED: the last %d entr%s of this event\n",
                app->unsaved_entries, app->unsaved_entries == 1 ? "y" : "ies");
    if (app && app->unsaved_bag)
        fputs("settee: NOT SAVED: the bag as you edited it\n", stderr);
    if (app)
        app_learnt_free(app);
    free(app);
    stage_release();
    return error ? 1 : 0;
}
