/* app_event.c - the screen of an event: what is loaded for it, and where it is saved. */
#include <stdio.h>
#include <stdlib.h>

#include "app/app.h"
#include "app/app_follow.h"
#include "base/text.h"
#include "store/home_edit.h"
#include "store/journal.h"

enum { NEARLY_FULL = 400, TOLD_EVERY = 25 };

/* Where entries and bag edits are saved. */
typedef struct Keeper {
    Journal *journal; /* NULL: nothing is kept, */
    Error why_not;    /* because of that; */
    int refused;      /* entries that would have been kept */
    const Session *session;
    BagFile bag_file;
    bool bag_waits; /* the disk refused the current bag */
    Follow follow;  /* where another settee keeps it */
} Keeper;

/* Said long before it is full, now and then. */
static void tell_room(const Session *session, char *news, size_t size)
{
    int left = SESSION_ENTRIES_MAX - SESSION_ROOM_FOR_SHOTS - session->entry_count;
    if (left >= 0 && left <= NEARLY_FULL && left % TOLD_EVERY == 0)
        text_append(news, size,
                    "This event's log has room for %d more entries; after that for shots alone",
                    left);
}

static bool keep(void *context, const Entry *entry, char *news, size_t size, Error *error)
{
    Keeper *keeper = context;
    if (!keeper->journal) {
        keeper->refused++;
        return error_set(error, "%s", keeper->why_not.text);
    }
    bool kept = journal_append(keeper->journal, entry, error);
    text_copy(news, size, journal_news(keeper->journal));
    if (!news[0])
        tell_room(keeper->session, news, size);
    return kept;
}

static bool save_bag(void *context, const Bag *bag, char *where, size_t size, Error *error)
{
    Keeper *keeper = context;
    keeper->bag_waits = !files_bag_keep(&keeper->bag_file, bag, error);
    text_copy(where, size, keeper->bag_file.path);
    return !keeper->bag_waits;
}

static const Session *follow(void *context)
{
    Keeper *keeper = context;
    return follow_news(&keeper->follow, keeper->session);
}

static bool load(const char *event_name, const char *bag_name, Session *session, RuleSet *rules,
                 BagFile *bag_file, Error *error)
{
    EventInfo event;
    Bag *bag = calloc(1, sizeof *bag);
    Pattern *pattern = calloc(1, sizeof *pattern);
    bool ok = bag && pattern;
    if (!ok)
        error_set(error, "out of memory");
    ok = ok && files_event(event_name, &event, error) &&
         (!bag_name || files_event_bag(bag_name, &event, error)) &&
         files_bag_open(event.bag, bag, bag_file, error) &&
         files_pattern(event.pattern, pattern, error) && files_rules("coach", rules, error);
    if (ok) {
        session_begin(session, &event, bag, pattern, &(Plan){0}); /* the screen finds the plan */
        ok = bag_filled(bag) ||
             error_set(error, "no ball of this bag is in a slot: give one ball \"slot\": 1");
    }
    free(bag);
    free(pattern);
    return ok;
}

/* Saves what is left to save, and remembers what can't be. */
static void close_event(App *app, Keeper *keeper)
{
    Error unheard = {0};
    if (keeper->bag_waits)
        keeper->bag_waits = !files_bag_keep(&keeper->bag_file, &keeper->session->bag, &unheard);
    app->unsaved_entries = journal_close(keeper->journal) + keeper->refused;
    app->unsaved_bag = keeper->bag_waits;
    follow_end(&keeper->follow);
}

/* Opens the journal. Where another settee has it, or nothing can be written, the event is shown as
 * it stands, and the notice says what that means. */
static bool open_journal(Keeper *keeper, Session *session, char *notice, size_t size,
                         bool *read_only, Error *error)
{
    JournalRefusal why;
    keeper->journal = journal_try(session, notice, size, &why, error);
    *read_only = !keeper->journal && why == JOURNAL_IN_USE;
    if (keeper->journal || why == JOURNAL_FAULT)
        return keeper->journal != NULL;
    keeper->why_not = *error;
    *error = (Error){0};
    Error unheard = {0}; /* where nothing was written yet there is nothing to read */
    journal_read(session, notice, size, &unheard);
    notice[0] = '\0';
    if (*read_only && !follow_begin(&keeper->follow, session, &keeper->bag_file))
        return error_set(error, "out of memory");
    if (*read_only)
        text_append(notice, size,
                    "Read only: this event is open in another settee, and followed here");
    else
        text_append(notice, size, "What you log is NOT KEPT: %s", keeper->why_not.text);
    return true;
}

static bool once(App *app, const char *event, const char *bag, StageEnd *end, bool *again,
                 Error *error)
{
    char notice[512] = "";
    Session *session = calloc(1, sizeof *session);
    RuleSet *rules = calloc(1, sizeof *rules);
    Keeper keeper = {.session = session};
    bool done = session && rules ? load(event, bag, session, rules, &keeper.bag_file, error) &&
                                       stage_ready(error) /* else no journal is begun */
                                 : error_set(error, "out of memory");
    bool read_only = false;
    done = done && open_journal(&keeper, session, notice, sizeof notice, &read_only, error);
    if (done) {
        if (!app->open)
            app_look(app);
        text_append(notice, sizeof notice, "%s%s", notice[0] && app->notice[0] ? "; " : "",
                    app->notice);
        UiHost host = {.session = session,
                       .rules = rules,
                       .look = &app->look,
                       .keys = &app->keys,
                       .read_only = read_only,
                       .notice = notice,
                       .keep = keep,
                       .save_bag = save_bag,
                       .follow = read_only ? follow : NULL,
                       .context = &keeper};
        done = app_open(app, error);
        *end = done ? ui_event(&host, error) : STAGE_FAILED;
        done = done && *end != STAGE_FAILED;
        *again = done && *end == STAGE_OVER && host.again;
    }
    close_event(app, &keeper);
    if (*again)
        done = files_trash_journals(session->event.file, error);
    free(rules);
    free(session);
    return done;
}

bool app_event(App *app, const char *event, const char *bag, StageEnd *end, Error *error)
{
    bool again, done;
    do {
        again = false;
        done = once(app, event, bag, end, &again, error);
    } while (done && again);
    return done;
}

int app_run_event(const char *event, const char *bag)
{
    App *app = app_new();
    Error error = {0};
    StageEnd end;
    bool done = app ? app_event(app, event, bag, &end, &error) : error_set(&error, "out of memory");
    return app_end(app, done ? NULL : &error);
}
