/* app_home.c - Home: the bowler's files as lists, what is done with them, and what is opened from
 * there. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "app/app.h"
#include "base/text.h"
#include "store/draft_file.h"
#include "store/home_edit.h"
#include "store/logbook.h"

static const char *const KINDS[HOME_KINDS] = {
    [HOME_EVENTS] = "events", [HOME_BAGS] = "bags", [HOME_PATTERNS] = "patterns"};

/* Other stages that are reached from the welcome and from Home: add a row here and a case to
 * go_through. A key that is 0 ends them. */
enum { DOOR_REHEARSE, DOOR_LESSONS };
static const HomeDoor DOORS[] = {
    [DOOR_REHEARSE] = {'R', "R", "Rehearse", "a block on a lane you can't see, and what it cost"},
    [DOOR_LESSONS] = {'L', "L", "Lessons", "for juniors: say what the ball did, choose, and see"},
    {.key = 0}};

static bool go_through(App *app, int door, StageEnd *end, Error *error)
{
    *end = STAGE_OVER;
    if (door == DOOR_REHEARSE)
        return app_rehearse(app, "", 0, end, error);
    if (door == DOOR_LESSONS)
        return app_teach(app, NULL, end, error);
    return error_set(error, "there is nothing behind that door");
}

/* ---- lists ---- */

static void fill_fault(HomeItem *item, Error *error)
{
    error->file[0] = '\0'; /* the row names it */
    error_line(error, item->fault, sizeof item->fault);
}

/* "203 187 (95)": games that are over, and how far the last one is. */
static void say_scores(const Session *session, char *out, size_t size)
{
    int games = 0;
    for (int game = 1; game <= SESSION_GAMES_MAX; game++)
        games = session_frames(session, game) > 0 ? game : games;
    for (int game = 1; game <= games; game++) {
        Score score;
        bool known = session_score(session, game, &score);
        text_append(out, size, "%s", game > 1 ? " " : "");
        if (known && score.over)
            text_append(out, size, "%d", score.total);
        else
            text_append(out, size, known ? "(%d)" : "?", score.pins_so_far);
    }
}

/* What was bowled in this event on its date: with its own bag, and with others. */
static void fill_journals(HomeItem *item, const JournalHead *heads, int count, const char *place,
                          Session *session)
{
    char notice[ERROR_LINE_MAX];
    Error unheard;
    for (int i = 0; i < count; i++) {
        char scores[sizeof item->scores] = "", bag[sizeof item->bag];
        if (strcmp(heads[i].file, place) != 0 || strcmp(heads[i].date, item->date) != 0 ||
            !logbook_open(&heads[i], session, notice, sizeof notice, &unheard))
            continue;
        say_scores(session, scores, sizeof scores);
        files_short("bags", session->event.bag, bag, sizeof bag);
        if (!scores[0])
            continue;
        if (!item->scores[0] && strcmp(bag, item->bag) == 0)
            text_copy(item->scores, sizeof item->scores, scores);
        else
            text_append(item->others, sizeof item->others, "%s%s %s", item->others[0] ? ", " : "",
                        bag, scores);
    }
}

static void fill_event(HomeItem *item, const JournalHead *heads, int count, Session *session)
{
    EventInfo event;
    Pattern pattern;
    Error error = {0};
    char place[sizeof event.file];
    if (!files_event(item->name, &event, &error)) {
        text_copy(item->title, sizeof item->title, item->name);
        fill_fault(item, &error);
        return;
    }
    text_copy(item->title, sizeof item->title, event.name);
    text_copy(item->date, sizeof item->date, event.date);
    files_short("bags", event.bag, item->bag, sizeof item->bag);
    if (!files_pattern(event.pattern, &pattern, &error)) {
        fill_fault(item, &error);
        return;
    }
    const About *about = &pattern.about;
    text_copy(item->pattern, sizeof item->pattern,
              !about->only   ? pattern.name
              : about->house ? "House shot"
                             : "no sheet");
    item->length_ft = about->only ? about->length_ft : pattern.length_ft; /* if it is known */
    if (files_place("events", item->name, place, sizeof place, NULL))
        fill_journals(item, heads, count, place, session);
}

static void fill_bag(HomeItem *item)
{
    Bag bag;
    Error error = {0};
    if (!files_bag(item->name, &bag, &error)) {
        fill_fault(item, &error);
        return;
    }
    text_copy(item->title, sizeof item->title, bag.bowler.name);
    item->balls = bag.count;
}

static void fill_pattern(HomeItem *item)
{
    Pattern pattern;
    Oil oil;
    Error error = {0};
    text_copy(item->title, sizeof item->title, item->name);
    if (!files_pattern(item->name, &pattern, &error)) {
        fill_fault(item, &error);
        return;
    }
    oil_lay(&pattern, &oil);
    text_copy(item->title, sizeof item->title, pattern.name);
    text_copy(item->note, sizeof item->note, pattern.note);
    item->length_ft = pattern.length_ft;
    item->volume_ml = oil_volume_ml(&oil);
    item->ratio = oil_ratio(&oil);
}

/* Oil that nobody has a sheet of, before the sheets. */
static const struct {
    const char *name, *title, *note;
} ROUGH[] = {{"about:house", "House shot",
              "Wet inside, dry outside, as most centres lay for leagues. The shots tell which; the "
              "picture is the middle of what it may be."},
             {"about:40ft", "Only its length",
              "Its length in feet, on the form; its volume if you know that too. The shots tell "
              "the shape; the picture is the middle of what it may be."},
             {"about:nothing", "Nothing known",
              "Any of the usual kinds. The shots tell which; the picture is the middle of what it "
              "may be."}};
enum { ROUGH_COUNT = sizeof ROUGH / sizeof ROUGH[0] };

static int list_rough(HomeItem *items)
{
    for (int i = 0; i < ROUGH_COUNT; i++) {
        items[i] = (HomeItem){.rough = true};
        text_copy(items[i].name, sizeof items[i].name, ROUGH[i].name);
        fill_pattern(&items[i]);
        text_copy(items[i].title, sizeof items[i].title, ROUGH[i].title);
        text_copy(items[i].note, sizeof items[i].note, ROUGH[i].note);
    }
    return ROUGH_COUNT;
}

static int list(void *context, HomeKind kind, HomeItem *items, int max)
{
    enum { NAMES_MAX = 256 };
    const App *app = context;
    FileName names[NAMES_MAX];
    int rough = kind == HOME_PATTERNS ? list_rough(items) : 0, head_count = 0;
    max -= rough;
    items += rough;
    int count = files_names(KINDS[kind], names, max < NAMES_MAX ? max : NAMES_MAX);
    JournalHead *heads = kind == HOME_EVENTS ? journal_list(&head_count, NULL) : NULL;
    Session *session = heads ? malloc(sizeof *session) : NULL;
    for (int i = 0; i < count; i++) {
        items[i] = (HomeItem){.own = names[i].home};
        text_copy(items[i].name, sizeof items[i].name, names[i].name);
        items[i].away = settings_away(&app->settings, KINDS[kind], names[i].name);
        if (kind == HOME_EVENTS)
            fill_event(&items[i], heads, session ? head_count : 0, session);
        else if (kind == HOME_BAGS)
            fill_bag(&items[i]);
        else
            fill_pattern(&items[i]);
    }
    free(session);
    free(heads);
    return rough + count;
}

/* ---- what is done with the files ---- */

/* One line for people: of a fault in a file that the screen names, the text is enough. */
static bool read_bag(void *context, const char *name, Bag *bag, Error *error)
{
    (void)context;
    return files_bag(name, bag, error);
}

static bool read_pattern(void *context, const char *name, Pattern *pattern, Error *error)
{
    (void)context;
    return files_pattern(name, pattern, error);
}

/* A file's name from what people call it, with a number where that is taken. */
static bool name_for(const char *kind, const char *title, char name[64], Error *error)
{
    enum { STEM_MAX = 48, TRIED_MAX = 1000 };
    char stem[STEM_MAX] = "";
    for (const char *at = title; *at && strlen(stem) + 1 < sizeof stem; at++) {
        char c = *at >= 'A' && *at <= 'Z' ? (char)(*at - 'A' + 'a') : *at;
        bool good = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        size_t length = strlen(stem);
        if (good || (length > 0 && stem[length - 1] != '-'))
            text_append(stem, sizeof stem, "%c", good ? c : '-');
    }
    while (stem[0] && stem[strlen(stem) - 1] == '-')
        stem[strlen(stem) - 1] = '\0';
    for (int n = 1; n < TRIED_MAX; n++) {
        char place[1024];
        name[0] = '\0';
        text_append(name, 64, "%s", stem[0] ? stem : kind);
        if (n > 1)
            text_append(name, 64, "-%d", n);
        Error unheard = {0};
        if (!files_place(kind, name, place, sizeof place, &unheard)) /* hides nothing built in */
            return files_new_free(kind, name, error);
    }
    return error_set(error, "too many files are called %s", stem);
}

static bool keep_bag(void *context, char name[64], const Bag *bag, Error *error)
{
    char path[1024];
    (void)context;
    if (!name[0]) {
        char free_name[64];
        bool plain = strcmp(bag->bowler.name, "You") == 0;
        if (!name_for("bags", plain ? "mine" : bag->bowler.name, free_name, error) ||
            !files_new_bag(free_name, bag, path, sizeof path, error))
            return false;
        return text_copy(name, 64, free_name);
    }
    Bag *before = malloc(sizeof *before);
    BagFile file;
    bool done =
        before ? files_bag_open(name, before, &file, error) && files_bag_keep(&file, bag, error)
               : error_set(error, "out of memory");
    free(before);
    return done;
}

static bool keep_pattern(void *context, char name[64], const Pattern *before,
                         const Pattern *pattern, Error *error)
{
    char path[1024], free_name[64];
    (void)context;
    if (name[0])
        return files_pattern_keep(name, before, pattern, error);
    return name_for("patterns", pattern->name, free_name, error) &&
           files_new_pattern(free_name, pattern, path, sizeof path, error) &&
           text_copy(name, 64, free_name);
}

static bool pattern_event(void *context, const char *name, char event[64])
{
    (void)context;
    return files_in_use("patterns", name, event, 64);
}

static bool keep_draft(void *context, const Draft *draft, Error *error)
{
    (void)context;
    return draft_write(draft, error);
}

/* One that can't be read is as good as none: nothing else depends on it. */
static bool read_draft(void *context, Draft *draft)
{
    Error unheard;
    (void)context;
    return draft_read(draft, &unheard);
}

static void drop_draft(void *context)
{
    (void)context;
    draft_remove();
}

static bool new_event(void *context, const EventInfo *event, char name[64], Error *error)
{
    char path[1024];
    EventInfo placed = *event;
    (void)context;
    return name_for("events", event->name, name, error) &&
           files_place("patterns", event->pattern, placed.pattern, sizeof placed.pattern, error) &&
           files_place("bags", event->bag, placed.bag, sizeof placed.bag, error) &&
           files_new_event(name, &placed, path, sizeof path, error);
}

static bool copy(void *context, HomeKind kind, const char *from, const char *to, Error *error)
{
    char path[1024];
    (void)context;
    return files_copy(KINDS[kind], from, to, path, sizeof path, error);
}

static bool rename_file(void *context, HomeKind kind, const char *from, const char *to,
                        Error *error)
{
    (void)context;
    return kind == HOME_EVENTS ? files_retitle(from, to, error)
                               : files_rename(KINDS[kind], from, to, error);
}

static bool put_away(void *context, HomeKind kind, const char *name, bool away, Error *error)
{
    App *app = context;
    if (!app->settings_usable)
        return error_set(error, "settings.json has a fault, so nothing can be put away");
    return settings_put_away(&app->settings, KINDS[kind], name, away)
               ? settings_write(&app->settings, error)
               : error_set(error, "there are %d put away; no more fit", SETTINGS_AWAY_MAX);
}

static bool trash(void *context, HomeKind kind, const char *name, Error *error)
{
    char path[1024];
    (void)context;
    return files_trash(KINDS[kind], name, path, sizeof path, error);
}

static const HomeFiles FILES = {.list = list,
                                .read_bag = read_bag,
                                .read_pattern = read_pattern,
                                .keep_bag = keep_bag,
                                .keep_pattern = keep_pattern,
                                .pattern_event = pattern_event,
                                .new_event = new_event,
                                .keep_draft = keep_draft,
                                .read_draft = read_draft,
                                .drop_draft = drop_draft,
                                .copy = copy,
                                .rename = rename_file,
                                .put_away = put_away,
                                .trash = trash,
                                .learn = app_learn,
                                .learnt = app_learnt};

/* ---- stage after stage ---- */

static void today(char *out, size_t size)
{
    time_t now = time(NULL);
    struct tm day;
    if (!localtime_r(&now, &day) || strftime(out, size, "%Y-%m-%d", &day) == 0)
        out[0] = '\0';
}

/* What is chosen on Home, then Home again; a fault is told there. */
static StageEnd go_from(App *app, const HomeHost *host)
{
    Error error = {0};
    StageEnd end = STAGE_OVER;
    app->notice[0] = '\0';
    bool done = host->leave == HOME_OPENS ? app_event(app, host->event, NULL, &end, &error)
                                          : go_through(app, host->door, &end, &error);
    app->notice[0] = '\0';
    if (!done)
        app_note(app, "", &error);
    else if (app->unsaved_entries > 0 || app->unsaved_bag)
        text_append(app->notice, sizeof app->notice,
                    "NOT SAVED: %s; the disk refused it to the end",
                    app->unsaved_entries > 0 ? "the event's last entries" : "the bag");
    return done ? end : STAGE_OVER;
}

static bool run(App *app, Error *error)
{
    char day[16];
    today(day, sizeof day);
    HomeHost host = {.look = &app->look,
                     .today = day,
                     .doors = DOORS,
                     .files = &FILES,
                     .keys = &app->keys,
                     .context = app,
                     .notice = app->notice};
    if (!stage_ready(error))
        return false;
    app_look(app);
    if (!app_open(app, error))
        return false;
    for (;;) {
        StageEnd end = ui_home(&host, error);
        if (end != STAGE_OVER || host.leave == HOME_QUITS)
            return end != STAGE_FAILED;
        if (go_from(app, &host) == STAGE_STOPPED)
            return true;
    }
}

int app_run_home(void)
{
    App *app = app_new();
    Error error = {0};
    bool done = app ? run(app, &error) : error_set(&error, "out of memory");
    return app_end(app, done ? NULL : &error);
}
