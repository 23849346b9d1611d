/* ui.h - the full-screen program. Knows nothing about files: main hands in what was loaded, and
 * callbacks for what must be saved. */
#ifndef SETTEE_UI_UI_H
#define SETTEE_UI_UI_H

#include "base/error.h"
#include "base/theme.h"
#include "core/advice/rules.h"
#include "core/event/session.h"

typedef struct UiHost {
    /* Lives as long as the screen; at least one ball is in a slot. If its first plan is not known,
     * the screen finds it before it takes any key. */
    Session *session;
    const RuleSet *rules;
    const Theme *themes; /* to choose from; the first is used at the start */
    int theme_count;
    const char *notice; /* a line to show at the start, or "" */
    /* Saves one applied entry; false, with error, if the disk refuses. `news` receives a line to
     * show, or "". */
    bool (*keep)(void *context, const Entry *entry, char *news, size_t size, Error *error);
    /* Saves the edited bag and says where; false, with error, if it can't. */
    bool (*save_bag)(void *context, const Bag *bag, char *where, size_t size, Error *error);
    /* Saves which of `themes` was chosen; false, with error, if it can't. NULL: not saved. Not
     * called while the terminal shows no colours. */
    bool (*keep_theme)(void *context, const Theme *theme, Error *error);
    void *context; /* of all three */
} UiHost;

/* Whether there is a terminal to run on; false: one line on stderr says why not. */
bool ui_ready(void);

/* Runs until the bowler quits or a signal ends it (^C, SIGTERM, SIGHUP). 0 done, 1 the terminal
 * can't be used (one line on stderr).
 *
 * When it returns the terminal is restored, but signals that end a program are still blocked: save
 * what is left to save, then call ui_end. */
int ui_run(UiHost *host);

/* Restores the signals' default actions, starting with one that ended ui_run or came since. */
void ui_end(void);

#endif
