/* ui.h - the full-screen program, stage by stage. Knows nothing about files: main hands in what was
 * loaded, and callbacks for what must be saved. */
#ifndef SETTEE_UI_UI_H
#define SETTEE_UI_UI_H

#include "base/bindings.h"
#include "core/advice/rules.h"
#include "core/event/session.h"
#include "core/teach/progress.h"
#include "ui/home/home.h"
#include "ui/stage.h"

typedef struct UiHost {
    /* Lives as long as the screen; at least one ball is in a slot. If its first plan is not known,
     * the screen finds it before it takes any key. */
    Session *session;
    StageLook *look;
    const RuleSet *rules;
    bool read_only;       /* nothing may be entered: another program has the event open */
    const char *notice;   /* a line to show at the start, or "" */
    bool rehearsal;       /* shots are thrown, not typed; answers are hidden until asked for */
    const Bindings *keys; /* own keys, NULL: none; they live as long as the screen */
    /* Saves one applied entry; false, with error, if the disk refuses. `news` receives a line to
     * show, or "". */
    bool (*keep)(void *context, const Entry *entry, char *news, size_t size, Error *error);
    /* Saves the edited bag and says where; false, with error, if it can't. */
    bool (*save_bag)(void *context, const Bag *bag, char *where, size_t size, Error *error);
    /* Read only: the event as the other program has it now, asked about once a second; NULL: there
     * is nothing new. Good until the next call. NULL: not followed. */
    const Session *(*follow)(void *context);
    void *context; /* of all three */
    bool again;    /* receives whether the demo is to begin again */
} UiHost;

/* The lessons. */
typedef struct TeachHost {
    StageLook *look;
    const Lesson *lessons; /* live as long as the screen */
    int lesson_count;
    Juniors *juniors;     /* changed as they learn */
    const Bag *bag;       /* the reader's own; NULL: the lessons' */
    const Bindings *keys; /* own keys of an event, for the search; NULL: none */
    const char *notice;
    uint64_t seed; /* of fresh questions */
    /* Reads the patterns a lesson names. */
    bool (*patterns)(void *context, const Lesson *lesson, Pattern *pattern, Pattern *learned,
                     Error *error);
    /* Saves the juniors; false, with error, if it can't. NULL: not saved. */
    bool (*keep)(void *context, const Juniors *juniors, Error *error);
    void *context;
} TeachHost;

/* The lessons' screens, until they are left; the terminal is open. */
StageEnd ui_teach(TeachHost *host, Error *error);

/* The screen of an event, until the bowler leaves it; the terminal is open (stage.h). */
StageEnd ui_event(UiHost *host, Error *error);

/* The welcome, or Home with the lists; the host receives what comes next. */
StageEnd ui_home(HomeHost *host, Error *error);

#endif
