/* main.c - composition only: a command, or the screen on an event. */
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/error.h"
#include "base/text.h"
#include "cli/cli.h"
#include "core/event/session.h"
#include "store/files.h"
#include "store/journal.h"
#include "store/settings.h"
#include "ui/ui.h"

#define THEME_USUAL "dark"
enum { THEMES_MAX = 64, NEARLY_FULL = 400, TOLD_EVERY = 25 };

static int fault(const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    fprintf(stderr, "settee: %s\n", line);
    return 1;
}

/* The themes, and where the chosen one is saved. */
typedef struct Themes {
    StageLook look; /* of these */
    int count;
    Theme all[THEMES_MAX]; /* the one to start with comes first */
    FileName names[THEMES_MAX];
} Themes;

/* Where entries and bag edits are saved. */
typedef struct Keeper {
    Journal *journal;
    const Session *session;
    BagFile bag_file;
    bool bag_waits; /* the disk refused the current bag */
} Keeper;

/* Said long before it is full, now and then: no shot is to be refused in play. */
static void tell_room(const Session *session, char *news, size_t size)
{
    int left = SESSION_ENTRIES_MAX - session->entry_count;
    if (left <= NEARLY_FULL && left % TOLD_EVERY == 0)
        text_append(news, size,
                    "This event's log has room for %d more entries; then begin a new event", left);
}

static bool keep(void *context, const Entry *entry, char *news, size_t size, Error *error)
{
    const Keeper *keeper = context;
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

static bool keep_theme(void *context, const Theme *theme, Error *error)
{
    const Themes *themes = context;
    Settings settings = {0};
    text_copy(settings.theme, sizeof settings.theme, themes->names[theme - themes->all].name);
    return settings_write(&settings, error);
}

static bool has_ball(const Bag *bag)
{
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(bag, slot))
            return true;
    return false;
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
        ok = has_ball(bag) ||
             error_set(error, "no ball of this bag is in a slot: give one ball \"slot\": 1");
    }
    free(bag);
    free(pattern);
    return ok;
}

static void notice_add(char *notice, size_t size, const char *first, const Error *error)
{
    char line[ERROR_LINE_MAX];
    error_line(error, line, sizeof line);
    text_append(notice, size, "%s%s%s", notice[0] ? "; " : "", first, line);
}

/* Moves one to the front and keeps the others in order. */
static void put_first(Themes *themes, int at)
{
    const Theme theme = themes->all[at];
    const FileName name = themes->names[at];
    memmove(&themes->all[1], &themes->all[0], (size_t)at * sizeof *themes->all);
    memmove(&themes->names[1], &themes->names[0], (size_t)at * sizeof *themes->names);
    themes->all[0] = theme;
    themes->names[0] = name;
}

/* A theme with faults is reported and left out. */
static void load_themes(Themes *themes, const char *chosen, char *notice, size_t size)
{
    FileName names[THEMES_MAX];
    int count = files_names("themes", names, THEMES_MAX), first = -1;
    for (int i = 0; i < count; i++) {
        Error error = {0};
        if (!files_theme(names[i].name, &themes->all[themes->count], &error)) {
            notice_add(notice, size, "", &error);
            continue;
        }
        if (strcmp(names[i].name, chosen) == 0 ||
            (first < 0 && strcmp(names[i].name, THEME_USUAL) == 0))
            first = themes->count;
        themes->names[themes->count++] = names[i];
    }
    if (first >= 0)
        put_first(themes, first);
    if (chosen[0] && (first < 0 || strcmp(themes->names[0].name, chosen) != 0)) {
        Error error = {0};
        error_set(&error, "the theme \"%s\" is not there any more", chosen);
        notice_add(notice, size, "", &error);
    }
}

/* The disk refused them to the end. */
static void tell_unsaved(int entries, bool bag)
{
    if (entries > 0)
        fprintf(stderr, "settee: NOT SAVED: the last %d entr%s of this event\n", entries,
                entries == 1 ? "y" : "ies");
    if (bag)
        fputs("settee: NOT SAVED: the bag as you edited it\n", stderr);
}

/* The themes, and which was chosen. */
static void begin_look(Themes *themes, char *notice, size_t size)
{
    Settings settings;
    Error broken = {0};
    bool usable = settings_read(&settings, &broken);
    if (!usable) {                                                   /* never overwrite it */
        text_copy(broken.file, sizeof broken.file, "settings.json"); /* one line has 80 columns */
        notice_add(notice, size, "T is not saved: ", &broken);
    }
    load_themes(themes, settings.theme, notice, size);
    themes->look = (StageLook){.themes = themes->all,
                               .theme_count = themes->count,
                               .keep_theme = usable ? keep_theme : NULL,
                               .context = themes};
}

static int run_screen(const char *event_name, const char *bag_name)
{
    Error error = {0};
    char notice[512] = "";
    Session *session = calloc(1, sizeof *session);
    RuleSet *rules = calloc(1, sizeof *rules);
    Themes *themes = calloc(1, sizeof *themes);
    Keeper keeper = {.session = session};
    bool memory = session && rules && themes;
    bool done = memory ? load(event_name, bag_name, session, rules, &keeper.bag_file, &error) &&
                             stage_ready(&error) /* else no journal is begun */
                       : error_set(&error, "out of memory");
    done = done && (keeper.journal = journal_open(session, notice, sizeof notice, &error));
    if (done) {
        begin_look(themes, notice, sizeof notice);
        UiHost host = {.session = session,
                       .rules = rules,
                       .look = &themes->look,
                       .notice = notice,
                       .keep = keep,
                       .save_bag = save_bag,
                       .context = &keeper};
        done = stage_open(&themes->look, &error) && ui_event(&host, &error) != STAGE_FAILED;
        stage_close();
        if (keeper.bag_waits)
            keeper.bag_waits = !files_bag_keep(&keeper.bag_file, &session->bag, &(Error){0});
    }
    int status = done ? 0 : fault(&error);
    tell_unsaved(journal_close(keeper.journal), keeper.bag_waits);
    free(themes);
    free(rules);
    free(session);
    stage_release();
    return status;
}

int main(int argc, char **argv)
{
    setlocale(LC_CTYPE, ""); /* numbers stay in the C locale */
    if (argc > 1 && (cli_knows(argv[1]) || strcmp(argv[1], "-") == 0))
        return cli_run(argc, argv);
    const char *event, *bag;
    return cli_screen(argc, argv, &event, &bag) ? run_screen(event, bag) : 2;
}
