/* app.h - what main runs: the screen of one event, the lessons, or Home and what is reached from
 * there. The one place where files and screens meet. */
#ifndef SETTEE_APP_APP_H
#define SETTEE_APP_APP_H

#include "base/error.h"
#include "store/files.h"
#include "store/keys_file.h"
#include "store/settings.h"
#include "ui/home/home.h"
#include "ui/ui.h"

enum { APP_THEMES_MAX = 64 };

/* What lives as long as the program is on the screen. */
typedef struct App {
    StageLook look; /* of `themes` */
    int theme_count;
    Theme themes[APP_THEMES_MAX]; /* the one to start with comes first */
    FileName theme_names[APP_THEMES_MAX];
    Settings settings;
    Bindings keys;        /* the bowler's own */
    bool settings_usable; /* else they are not written */
    bool open;            /* the terminal is ours */
    char notice[512];     /* for the next screen */
    int unsaved_entries;  /* of the last event, what the disk refused to the end */
    bool unsaved_bag;
    struct AppLearnt *learnt; /* what the events say of the bags; NULL: nothing is known */
} App;

/* Runs; the exit status, after saying on stderr what went wrong. `bag` may be NULL. */
int app_run_event(const char *event, const char *bag);
int app_run_home(void);
/* A rehearsal that begins with what an event has, "": with the usual; seed 0: any block. */
int app_run_rehearse(const char *event, unsigned long seed);
int app_run_teach(const char *bag);

/* ---- shared by the files of this folder ---- */

App *app_new(void); /* heap; NULL: no memory */
/* Adds a line to the notice. */
void app_note(App *app, const char *first, const Error *error);
void app_look(App *app); /* settings and themes, read once before the terminal is taken */
bool app_open(App *app, Error *error);
/* Gives the terminal back, says what went wrong (NULL: nothing), frees; the exit status. */
int app_end(App *app, const Error *error);

/* For Home, as HomeFiles has them: what the events say of the bowler's own bags. */
bool app_learn(void *context, bool again);
const HomeLearnt *app_learnt(void *context, const char *bag);
void app_learnt_free(App *app);

/* Loads an event and shows its screen until it is left; false, with error, if it can't be shown. */
bool app_event(App *app, const char *event, const char *bag, StageEnd *end, Error *error);

/* The same for a rehearsal. */
bool app_rehearse(App *app, const char *event, unsigned long seed, StageEnd *end, Error *error);
/* Shows the lessons until they are left; `bag`, the reader's own, may be NULL. */
bool app_teach(App *app, const char *bag, StageEnd *end, Error *error);

#endif
