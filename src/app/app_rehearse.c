/* app_rehearse.c - a rehearsal: the names to choose from, what is loaded for it and kept of it. */
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "app/app.h"
#include "base/text.h"
#include "store/rehearsals.h"
#include "ui/ui_rehearse.h"

enum { NAMES_MAX = 128, USUAL_GAMES = 1, USUAL_BOWLERS = 4 };

typedef struct Lists {
    UiName bags[NAMES_MAX + 1], patterns[NAMES_MAX + 1];
    RuleSet rules;
} Lists;

static bool load(void *context, const char *bag, const char *pattern, Bag *into_bag,
                 Pattern *into_pattern, Error *error)
{
    (void)context;
    if (!files_bag(bag, into_bag, error) || !files_pattern(pattern, into_pattern, error))
        return false;
    return bag_filled(into_bag) || error_set(error, "no ball of the bag %s is in a slot", bag);
}

static bool keep(void *context, const RehearsalRecord *record, Error *error)
{
    (void)context;
    char path[1200];
    RehearsalRecord dated = *record;
    time_t now = time(NULL);
    struct tm day;
    if (!localtime_r(&now, &day) || strftime(dated.date, sizeof dated.date, "%Y-%m-%d", &day) == 0)
        dated.date[0] = '\0';
    return rehearsals_keep(&dated, path, sizeof path, error);
}

static int list(const char *kind, UiName *names)
{
    FileName found[NAMES_MAX];
    int count = files_names(kind, found, NAMES_MAX);
    for (int i = 0; i < count; i++) {
        names[i].home = found[i].home;
        text_copy(names[i].name, sizeof names[i].name, found[i].name);
    }
    return count;
}

/* The number of a name; one that is not listed, a path, is added. */
static int number_of(const char *kind, const char *place, UiName *names, int *count)
{
    char name[sizeof names->name];
    files_short(kind, place, name, sizeof name);
    for (int i = 0; i < *count; i++)
        if (strcmp(names[i].name, name) == 0)
            return i;
    names[*count].home = true;
    text_copy(names[*count].name, sizeof names->name, name);
    return (*count)++;
}

/* The first of the bowler's own, else the demo's. */
static int usual_bag(UiName *bags, int *count)
{
    for (int i = 0; i < *count; i++)
        if (bags[i].home)
            return i;
    return number_of("bags", "demo", bags, count);
}

/* Begins with what the event has; "": with the usual. */
static bool begin(const char *name, Lists *lists, UiRehearsal *host, Error *error)
{
    EventInfo event;
    host->bag_count = list("bags", lists->bags);
    host->pattern_count = list("patterns", lists->patterns);
    if (name[0] && !files_event(name, &event, error))
        return false;
    if (name[0]) {
        host->bag = number_of("bags", event.bag, lists->bags, &host->bag_count);
        host->pattern = number_of("patterns", event.pattern, lists->patterns, &host->pattern_count);
        host->games = event.games;
        host->bowlers = event.bowlers_on_pair;
    } else {
        host->bag = usual_bag(lists->bags, &host->bag_count);
        host->pattern = number_of("patterns", "apron", lists->patterns, &host->pattern_count);
    }
    return files_rules("coach", &lists->rules, error);
}

bool app_rehearse(App *app, const char *event, unsigned long seed, StageEnd *end, Error *error)
{
    Lists *lists = calloc(1, sizeof *lists);
    UiRehearsal host = {.look = &app->look,
                        .keys = &app->keys,
                        .games = USUAL_GAMES,
                        .bowlers = USUAL_BOWLERS,
                        .seed = seed,
                        .clock = (uint64_t)time(NULL),
                        .load = load,
                        .keep = keep,
                        .context = app};
    *end = STAGE_FAILED;
    bool done = lists ? begin(event, lists, &host, error) && stage_ready(error)
                      : error_set(error, "out of memory");
    if (done) {
        if (!app->open)
            app_look(app);
        host.bags = lists->bags;
        host.patterns = lists->patterns;
        host.rules = &lists->rules;
        done = app_open(app, error);
        *end = done ? ui_rehearse(&host, error) : STAGE_FAILED;
        done = done && *end != STAGE_FAILED;
    }
    free(lists);
    return done;
}

int app_run_rehearse(const char *event, unsigned long seed)
{
    App *app = app_new();
    Error error = {0};
    StageEnd end;
    bool done =
        app ? app_rehearse(app, event, seed, &end, &error) : error_set(&error, "out of memory");
    return app_end(app, done ? NULL : &error);
}
