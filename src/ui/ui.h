/* ui.h - the full-screen program. Knows nothing of files: main hands in what was loaded, and
 * callbacks for what must be kept. */
#ifndef SETTEE_UI_UI_H
#define SETTEE_UI_UI_H

#include "base/error.h"
#include "base/theme.h"
#include "core/advice/rules.h"
#include "core/event/session.h"

typedef struct UiHost {
    /* Lives as long as the screen; a ball of its bag is in a slot. Where its first plan is not
     * known the screen finds it, before it takes any key. */
    Session *session;
    const RuleSet *rules;
    const Theme *themes; /* to choose from, first is used at the start */
    int theme_count;
    const char *notice; /* a line to show at the start, or "" */
    /* Keeps one entry that has been applied; false with error when the disk refuses. */
    bool (*keep)(void *context, const Entry *entry, Error *error);
    /* Saves the bag as edited and tells where; false with error when that can't be. */
    bool (*save_bag)(void *context, const Bag *bag, char *where, size_t size, Error *error);
    /* Keeps which of `themes` was chosen; false with error when it can't. NULL: not kept. Not
     * called while the terminal shows no colours. */
    bool (*keep_theme)(void *context, const Theme *theme, Error *error);
    void *context; /* of all three */
} UiHost;

/* Runs until the bowler quits or a signal ends it (^C, SIGTERM, SIGHUP). 0 done, 1 the terminal
 * can't be used (one line on stderr).
 *
 * When it returns the terminal is given back, but signals that end a program are still held off:
 * keep what is left to keep, then call ui_end. */
int ui_run(UiHost *host);

/* Signals do again what they do by default, first the one that ended ui_run or came since. */
void ui_end(void);

#endif
