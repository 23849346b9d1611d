/* home_copy.c - new files in the bowler's home, copied or made; checked first, never over another.
 */
#define _XOPEN_SOURCE 700 /* realpath */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/json_out.h"
#include "base/text.h"
#include "core/event/stays.h"
#include "core/lane/about.h"
#include "store/atomic.h"
#include "store/home.h"
#include "store/load.h"
#include "store/paths.h"

static bool event_read(const Loaded *file, EventInfo *event, Error *error)
{
    JsonDoc *doc = json_read(file->text, file->length, 1, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    bool done = event_parse(&root, file, event);
    json_free(doc);
    return done;
}

/* A file that the event named, as its copy in the home must name it. */
static void put_name(JsonOut *out, const char *key, const char *kind, const char *resolved)
{
    char name[HOME_NAME_MAX] = "", path[1024];
    const char *slash = strrchr(resolved, '/');
    if (slash && strlen(slash) > strlen("/.json"))
        text_append(name, sizeof name, "%.*s", (int)(strlen(slash + 1) - strlen(".json")),
                    slash + 1);
    bool own = home_path(kind, name, path, sizeof path) && strcmp(path, resolved) == 0;
    Found found;
    bool built_in = load_find(kind, resolved, &found, NULL) && found.builtin;
    char *real = own || built_in ? NULL : realpath(resolved, NULL);
    json_out_string(out, key, own ? name : real ? real : resolved);
    free(real);
}

static void put_pattern(JsonOut *out, const char *pattern)
{
    About about;
    Error unheard;
    if (!about_is(pattern) || !about_read(pattern, &about, &unheard)) {
        put_name(out, "pattern", "patterns", pattern);
        return;
    }
    json_out_object(out, "pattern");
    json_out_object(out, "about");
    if (about.house)
        json_out_bool(out, "house", true);
    if (about.length_ft > 0.0)
        json_out_number(out, "length_ft", about.length_ft);
    if (about.volume_ml > 0.0)
        json_out_number(out, "volume_ml", about.volume_ml);
    if (about.ratio > 0.0)
        json_out_number(out, "ratio", about.ratio);
    json_out_end(out);
    json_out_end(out);
}

static void put_pair(JsonOut *out, const char *key, const int *pair)
{
    json_out_array(out, key);
    json_out_integer(out, NULL, pair[0]);
    json_out_integer(out, NULL, pair[1]);
    json_out_end(out);
}

/* The one pair, or all of them where the event moves. */
static void put_lanes(JsonOut *out, const EventInfo *event)
{
    int last = event->games;
    while (last > 1 && !event_moves(event, last))
        last--;
    if (last == 1) {
        put_pair(out, "pair", event_pair(event, 1));
        return;
    }
    json_out_array(out, "pairs");
    for (int game = 1; game <= last; game++)
        put_pair(out, NULL, event_pair(event, game));
    json_out_end(out);
}

static char *event_text(const EventInfo *event)
{
    JsonOut out = json_out_start();
    json_out_object(&out, NULL);
    json_out_string(&out, "format", "settee-event/1");
    json_out_string(&out, "name", event->name);
    if (event->date[0])
        json_out_string(&out, "date", event->date);
    put_pattern(&out, event->pattern);
    put_name(&out, "bag", "bags", event->bag);
    put_lanes(&out, event);
    json_out_integer(&out, "games", event->games);
    json_out_integer(&out, "bowlers_on_pair", event->bowlers_on_pair);
    const FieldMix *field = &event->field;
    if (field->right + field->left + field->two_handed + field->urethane > 0) {
        json_out_object(&out, "field");
        json_out_integer(&out, "right", field->right);
        json_out_integer(&out, "left", field->left);
        json_out_integer(&out, "two_handed", field->two_handed);
        json_out_integer(&out, "urethane", field->urethane);
        json_out_end(&out);
    }
    if (event->warm_up)
        json_out_bool(&out, "warm_up", true);
    json_out_bool(&out, "certified", event->certified);
    json_out_end(&out);
    const char *text = json_out_text(&out);
    char *copy = text ? strdup(text) : NULL;
    json_out_free(&out);
    return copy;
}

/* The bytes of an event's copy: others than those loaded where the same names would mean other
 * files in the home. */
static bool move_event(Loaded *file, const char *path, Error *error)
{
    EventInfo here, there;
    Error unheard = {0};
    Loaded copy = *file;
    if (!event_read(file, &here, error))
        return false;
    text_copy(copy.folder, sizeof copy.folder, path);
    *strrchr(copy.folder, '/') = '\0';
    if (event_read(&copy, &there, &unheard) && strcmp(here.pattern, there.pattern) == 0 &&
        strcmp(here.bag, there.bag) == 0)
        return true;
    char *text = event_text(&here);
    if (!text)
        return error_set(error, "out of memory");
    load_free(file);
    file->text = text;
    file->length = strlen(text);
    return true;
}

/* Where the home's file of that name would be; false if there can be none. */
static bool place_new(const char *kind, const char *name, char *path, size_t size, Error *error)
{
    char id[HOME_NAME_MAX], below[HOME_NAME_MAX + 32] = "";
    *error = (Error){0};
    load_id(name, id, sizeof id);
    if (strcmp(id, name) != 0)
        return error_set(error,
                         "found the name \"%.80s\"; allowed: letters, digits, - and _, at most %d",
                         name, HOME_NAME_MAX - 1);
    if (strcmp(name, "-") == 0)
        return error_set(error, "the name - is standard input's; choose another");
    text_append(below, sizeof below, "%s/%s.json", kind, name);
    return paths_config(below, path, size, error);
}

static bool write_new(char *path, const char *text, size_t length, Error *error)
{
    errno = 0;
    bool done = paths_make_folders(path, error) && atomic_write_new(path, text, length, error);
    if (!done && errno == EEXIST)
        error_set(error, "that name is taken; choose another");
    return done;
}

bool files_copy(const char *kind, const char *from, const char *to, char *path, size_t size,
                Error *error)
{
    Loaded file;
    if (!place_new(kind, to, path, size, error) || !load_file(kind, from, &file, error))
        return false;
    bool good = load_check(kind, &file, error) &&
                (strcmp(kind, "events") != 0 || move_event(&file, path, error)) &&
                write_new(path, file.text, file.length, error);
    load_free(&file);
    return good;
}

bool files_new_free(const char *kind, const char *name, Error *error)
{
    char path[1024];
    struct stat status;
    if (!place_new(kind, name, path, sizeof path, error))
        return false;
    if (lstat(path, &status) != 0)
        return true;
    text_clean(error->file, sizeof error->file, path);
    return error_set(error, "that name is taken; choose another");
}

/* Writes a text that we made ourselves, after the same check as any file's; frees it. */
static bool write_checked(const char *kind, const char *name, char *text, char *path, size_t size,
                          Error *error)
{
    Loaded file = {.text = text, .length = text ? strlen(text) : 0};
    text_copy(file.folder, sizeof file.folder, ".");
    bool done = place_new(kind, name, path, size, error) &&
                (text || error_set(error, "out of memory")) && load_check(kind, &file, error) &&
                write_new(path, text, file.length, error);
    free(text);
    return done;
}

bool files_new_bag(const char *name, const Bag *bag, char *path, size_t size, Error *error)
{
    JsonOut out = json_out_start();
    *error = (Error){0};
    char *text = bag_out(&out, bag, error) ? strdup(json_out_text(&out)) : NULL;
    bool faulty = error->text[0];
    json_out_free(&out);
    if (faulty) {
        free(text);
        return false;
    }
    return write_checked("bags", name, text, path, size, error);
}

bool files_new_event(const char *name, const EventInfo *event, char *path, size_t size,
                     Error *error)
{
    return write_checked("events", name, event_text(event), path, size, error);
}

bool files_new_pattern(const char *name, const Pattern *pattern, char *path, size_t size,
                       Error *error)
{
    return write_checked("patterns", name, pattern_text(pattern), path, size, error);
}

/* The same text means the same pattern. */
static bool same_pattern(const Pattern *a, const Pattern *b)
{
    char *first = pattern_text(a), *second = pattern_text(b);
    bool same = first && second && strcmp(first, second) == 0;
    free(first);
    free(second);
    return same;
}

bool files_pattern_keep(const char *name, const Pattern *before, const Pattern *pattern,
                        Error *error)
{
    char path[1024];
    Pattern now;
    *error = (Error){0};
    if (!home_path("patterns", name, path, sizeof path))
        return error_set(error, "there is no pattern of that name in your home");
    if (!files_pattern(path, &now, error))
        return false;
    if (!same_pattern(before, &now))
        return error_set(error, "the file changed on disk; open it again");
    char *text = pattern_text(pattern);
    Loaded file = {.text = text, .length = text ? strlen(text) : 0};
    text_copy(file.folder, sizeof file.folder, ".");
    bool done = (text || error_set(error, "out of memory")) &&
                load_check("patterns", &file, error) &&
                atomic_write(path, text, file.length, error);
    free(text);
    return done;
}

bool event_keep(const char *path, const EventInfo *event, Error *error)
{
    char *text = event_text(event);
    Loaded file = {.text = text, .length = text ? strlen(text) : 0};
    text_copy(file.folder, sizeof file.folder, ".");
    bool done = (text || error_set(error, "out of memory")) && load_check("events", &file, error) &&
                atomic_write(path, text, file.length, error);
    free(text);
    return done;
}
