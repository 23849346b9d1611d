/* files.c - every file the program reads: load, parse, check, free. */
#include "store/files.h"

#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/lane/about.h"
#include "store/home.h"
#include "store/journal.h"
#include "store/load.h"
#include "store/settings.h"

typedef struct Format {
    const char *format;
    const char *word; /* for people */
    const char *kind; /* folder of built-in files and of the home's; "": none */
    size_t size;      /* of the struct it is read into */
    bool (*parse)(const Json *root, const Loaded *file, void *into);
} Format;

static bool read_bag(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return bag_parse(root, into);
}
static bool read_pattern(const Json *root, const Loaded *file, void *into)
{
    return pattern_parse(root, file, into);
}
static bool read_event(const Json *root, const Loaded *file, void *into)
{
    return event_parse(root, file, into);
}
static bool read_theme(const Json *root, const Loaded *file, void *into)
{
    return theme_parse(root, file, into);
}
static bool read_rules(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return rules_parse(root, into);
}
static bool read_lesson(const Json *root, const Loaded *file, void *into)
{
    return lesson_parse(root, file, into);
}

static bool read_draft(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return draft_parse(root, into);
}

static bool read_settings(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return settings_parse(root, into);
}

static bool read_keys(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return keys_parse(root, into);
}

static bool read_rehearsal(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return rehearsal_parse(root, into);
}

static bool read_juniors(const Json *root, const Loaded *file, void *into)
{
    (void)file;
    return juniors_parse(root, into);
}

static const Format FORMATS[] = {
    {"settee-bag/1", "bag", "bags", sizeof(Bag), read_bag},
    {"settee-pattern/1", "pattern", "patterns", sizeof(Pattern), read_pattern},
    {"settee-event/1", "event", "events", sizeof(EventInfo), read_event},
    {"settee-theme/1", "theme", "themes", sizeof(Theme), read_theme},
    {"settee-rules/1", "rules", "rules", sizeof(RuleSet), read_rules},
    {"settee-lesson/1", "lesson", "lessons", sizeof(Lesson), read_lesson},
    {"settee-juniors/1", "juniors", "", sizeof(Juniors), read_juniors},
    {"settee-draft/1", "draft", "", sizeof(Draft), read_draft},
    {"settee-settings/1", "settings", "", sizeof(Settings), read_settings},
    {"settee-keys/1", "keys", "", sizeof(Bindings), read_keys},
    {"settee-rehearsal/1", "rehearsal", "", sizeof(RehearsalRecord), read_rehearsal},
};
enum { FORMAT_COUNT = sizeof FORMATS / sizeof FORMATS[0] };

static bool parse_loaded(const Format *format, const Loaded *file, void *into, Error *error)
{
    JsonDoc *doc = json_read(file->text, file->length, 1, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    bool done = format->parse(&root, file, into);
    json_free(doc);
    return done;
}

static bool check_parsed(const Format *format, const Loaded *file, Error *error)
{
    void *into = malloc(format->size);
    bool done = into ? parse_loaded(format, file, into, error) : error_set(error, "out of memory");
    free(into);
    return done;
}

bool load_check(const char *kind, const Loaded *file, Error *error)
{
    for (int i = 0; i < FORMAT_COUNT; i++)
        if (strcmp(FORMATS[i].kind, kind) == 0)
            return check_parsed(&FORMATS[i], file, error);
    return error_set(error, "no such kind of files");
}

static bool read_file(int format, const char *name, void *into, Error *error)
{
    Loaded file;
    Error unheard;
    error = error ? error : &unheard;
    if (!load_file(FORMATS[format].kind, name, &file, error))
        return false;
    bool done = parse_loaded(&FORMATS[format], &file, into, error);
    load_free(&file);
    return done;
}

bool files_bag(const char *name, Bag *bag, Error *error) { return read_file(0, name, bag, error); }

bool files_bag_open(const char *name, Bag *bag, BagFile *place, Error *error)
{
    Loaded file;
    Error unheard;
    error = error ? error : &unheard;
    *place = (BagFile){0};
    if (!load_file(FORMATS[0].kind, name, &file, error))
        return false;
    bool done = parse_loaded(&FORMATS[0], &file, bag, error);
    load_free(&file);
    place->there = file.found.path[0] && !file.found.builtin;
    place->sum = file.sum;
    if (place->there)
        text_copy(place->path, sizeof place->path, file.found.path);
    /* A home that can't be named is no fault yet: only saving needs it, and then says so. */
    else if (!home_path(FORMATS[0].kind, file.id, place->path, sizeof place->path))
        place->path[0] = '\0';
    return done;
}

bool files_pattern(const char *name, Pattern *pattern, Error *error)
{
    About about;
    Error unheard;
    error = error ? error : &unheard;
    if (!about_is(name))
        return read_file(1, name, pattern, error);
    *error = (Error){0};
    if (!about_read(name, &about, error))
        return false;
    about_pattern(&about, pattern);
    return true;
}

bool files_event(const char *name, EventInfo *event, Error *error)
{
    return read_file(2, name, event, error);
}

bool files_place(const char *kind, const char *name, char *out, size_t size, Error *error)
{
    Found found;
    Error unheard;
    error = error ? error : &unheard;
    *error = (Error){0};
    text_clean(error->file, sizeof error->file, name);
    if (!load_find(kind, name, &found, error))
        return false;
    load_place(&found, out, size);
    return out[0] ? true : error_set(error, "the path is too long or can't be written down");
}

void files_short(const char *kind, const char *place, char *out, size_t size)
{
    const char *slash = strrchr(place, '/');
    char there[sizeof((Found *)0)->path];
    Found found;
    load_id(place, out, size);
    if (slash && load_find_carried(kind, out, &found) && found.home) {
        load_place(&found, there, sizeof there);
        if (strcmp(there, place) == 0)
            return;
    }
    text_copy(out, size, place);
}

bool files_event_bag(const char *name, EventInfo *event, Error *error)
{
    char own[sizeof event->bag], other[sizeof event->bag];
    Error unheard;
    error = error ? error : &unheard;
    if (strcmp(name, "-") == 0) {
        *error = (Error){0};
        return error_set(
            error, "a bag from standard input has no name for its journal: give a file or a name");
    }
    if (!files_place("bags", name, other, sizeof other, error))
        return false;
    if (files_place("bags", event->bag, own, sizeof own, NULL) && strcmp(own, other) == 0)
        return true;
    load_id(other, event->other_bag, sizeof event->other_bag);
    return text_copy(event->bag, sizeof event->bag, other);
}

bool files_theme(const char *name, Theme *theme, Error *error)
{
    return read_file(3, name, theme, error);
}

bool files_rules(const char *name, RuleSet *rules, Error *error)
{
    return read_file(4, name, rules, error);
}

bool files_lesson(const char *name, Lesson *lesson, Error *error)
{
    return read_file(5, name, lesson, error);
}

bool files_names_known(const char *kind, Error *error) { return home_readable(kind, error); }

int files_names(const char *kind, FileName *names, int max)
{
    enum { MAX = 256 };
    char own[MAX][HOME_NAME_MAX];
    int count = 0, own_count = home_names(kind, own, MAX);
    for (int i = 0; i < own_count && count < max; i++) {
        FileName *name = &names[count++];
        *name = (FileName){.home = true, .built_in = builtin_find(kind, own[i]) != NULL};
        text_copy(name->name, sizeof name->name, own[i]);
    }
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind && count < max; file++) {
        bool hidden = strcmp(file->kind, kind) != 0;
        for (int i = 0; i < own_count && !hidden; i++)
            hidden = strcmp(own[i], file->id) == 0;
        if (hidden)
            continue;
        names[count] = (FileName){.built_in = true};
        text_copy(names[count].name, sizeof names[count].name, file->id);
        count++;
    }
    return count;
}

bool files_shots(const char *name, Shot *shots, int max, int *count, Error *error)
{
    Loaded file;
    Error unheard;
    error = error ? error : &unheard;
    *count = 0;
    if (!load_file("shots", name, &file, error))
        return false;
    bool done = shots_parse(&file, shots, max, count, error);
    load_free(&file);
    return done;
}

/* The format that the first key names, FORMAT_COUNT for shots (which have none), or -1 with a
 * fault at that key. */
static int find_format(const Loaded *file, Error *error)
{
    const char *names[FORMAT_COUNT + 1] = {0};
    char found[64], words[ERROR_TEXT_MAX] = "";
    for (int i = 0; i < FORMAT_COUNT; i++) {
        names[i] = FORMATS[i].format;
        text_append(words, sizeof words, "%s %s", i ? "," : "", names[i]);
    }
    JsonDoc *doc = json_read(file->text, file->length, 1, error);
    if (!doc) /* may still be one object per line; shots_parse knows */
        return -1;
    Json root = json_root(doc, error), first = root;
    const char *key = json_first_key(&root, &first);
    int format = -1;
    if (json_is_array(&root) || (key && shot_knows_key(key))) {
        format = FORMAT_COUNT;
    } else if (!json_is_object(&root)) {
        json_fail(&root, "found %s; allowed: an object whose first key is \"format\", or shots",
                  json_found(&root, found));
    } else if (!key || strcmp(key, "format") != 0) {
        json_fail(&first, "the first key must be \"format\", one of%s", words);
    } else {
        const char *said = json_string(&first);
        for (int i = 0; said && i < FORMAT_COUNT; i++)
            if (strcmp(said, names[i]) == 0)
                format = i;
        const char *nearest = said ? text_nearest(said, names) : NULL;
        if (format < 0)
            json_fail(&first, "found the format %s; %s%s%sthis program reads%s",
                      json_found(&first, found), nearest ? "did you mean \"" : "",
                      nearest ? nearest : "", nearest ? "\"? Here " : "", words);
    }
    json_free(doc);
    return format;
}

static bool check_shots(const Loaded *file, Error *error)
{
    int count;
    Shot *shots = malloc(SESSION_SHOTS_MAX * sizeof *shots);
    bool done = shots ? shots_parse(file, shots, SESSION_SHOTS_MAX, &count, error)
                      : error_set(error, "out of memory");
    free(shots);
    return done;
}

static bool check_loaded(const Loaded *file, const char **kind, Error *error)
{
    if (journal_is(file->text, file->length)) {
        *kind = "journal";
        return journal_check(file->text, file->length, error);
    }
    int format = shots_are_lines(file) ? FORMAT_COUNT : find_format(file, error);
    if (format < 0)
        return false;
    *kind = format == FORMAT_COUNT ? "shots" : FORMATS[format].word;
    return format == FORMAT_COUNT ? check_shots(file, error)
                                  : check_parsed(&FORMATS[format], file, error);
}

bool files_check(const char *name, const char **kind, Error *error)
{
    Loaded file;
    Error unheard;
    error = error ? error : &unheard;
    *kind = "file";
    if (!load_file(NULL, name, &file, error))
        return false;
    bool done = check_loaded(&file, kind, error);
    load_free(&file);
    return done;
}
