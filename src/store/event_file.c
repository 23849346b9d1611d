/* event_file.c - settee-event/1: what is played, on what, with which bag. */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"
#include "core/event/stays.h"
#include "core/lane/about.h"
#include "store/load.h"

enum { BOWLERS_MAX = 10, HOUSE_LANES_MAX = EVENT_LANE_MAX };

static const JsonField ROOT_FIELDS[] = {
    {"format", JSON_OTHER, .required = true},
    {"name", JSON_TEXT, .required = true, JSON_AT(EventInfo, name)},
    {"date", JSON_TEXT, JSON_AT(EventInfo, date)},
    {"pattern", JSON_OTHER, .required = true},
    {"bag", JSON_TEXT, .required = true, JSON_AT(EventInfo, bag)},
    {.key = "pair"},
    {.key = "pairs"},
    {.key = "move"},
    {"warm_up", JSON_BOOL, JSON_AT(EventInfo, warm_up)},
    {"games", JSON_INTEGER, JSON_AT(EventInfo, games), .min = 1, .max = SESSION_GAMES_MAX},
    {"bowlers_on_pair", JSON_INTEGER, JSON_AT(EventInfo, bowlers_on_pair), .min = 1,
     .max = BOWLERS_MAX},
    {.key = "field"},
    {"certified", JSON_BOOL, .required = true, JSON_AT(EventInfo, certified)},
    JSON_END};

bool files_date(const char *date) { return event_is_date(date); }

static bool pair_parse(const Json *value, int pair[2])
{
    const JsonField lane = {
        .kind = JSON_INTEGER, .min = 1, .max = EVENT_LANE_MAX, .of = "(a lane's number)"};
    Json item;
    if (json_count(value, 2, 2, "lanes") < 0)
        return false;
    for (bool more = json_first(value, &item); more; more = json_next(&item))
        if (!json_value(&item, &lane, &pair[item.index]))
            return false;
    if (pair[0] == pair[1])
        return json_fail(value, "found lane %d twice; a pair has two", pair[0]);
    return true;
}

/* A pair for each game; after the last of them the games stay there. */
static bool pairs_parse(const Json *array, EventInfo *event)
{
    Json item;
    if (json_count(array, 1, event->games, "pairs") < 0)
        return false;
    for (bool more = json_first(array, &item); more; more = json_next(&item))
        if (!pair_parse(&item, event->pairs[item.index]))
            return false;
    memcpy(event->pair, event->pairs[0], sizeof event->pair);
    return true;
}

/* How the bowlers move after each game. */
typedef struct MoveKeys {
    int lanes, to, house;
} MoveKeys;
static const char *const MOVE_TO[] = {"right", "left", NULL};
static const JsonField MOVE_FIELDS[] = {
    {"lanes", JSON_INTEGER, .required = true, JSON_AT(MoveKeys, lanes), .min = 1,
     .max = EVENT_LANE_MAX - 1},
    {"to", JSON_WORD, .required = true, JSON_AT(MoveKeys, to), .of = "side", .words = MOVE_TO},
    {"house", JSON_INTEGER, JSON_AT(MoveKeys, house), .min = 2, .max = HOUSE_LANES_MAX,
     .of = "(lanes in the house)"},
    JSON_END};

static bool move_parse(const Json *value, EventInfo *event)
{
    MoveKeys move = {0};
    Error why = {0};
    if (!json_object(value, MOVE_FIELDS, &move))
        return false;
    return event_move(event, move.to == 0 ? move.lanes : -move.lanes, move.house, &why) ||
           json_fail(value, "%s", why.text);
}

static bool lanes_parse(const Json *root, EventInfo *event)
{
    Json pair, pairs, move;
    bool has_pair = json_member(root, "pair", &pair),
         has_pairs = json_member(root, "pairs", &pairs);
    bool has_move = json_member(root, "move", &move);
    if (has_pairs && (has_pair || has_move))
        return json_fail(&pairs, "found \"pairs\" and \"%s\"; allowed: one of them",
                         has_pair ? "pair" : "move");
    return (!has_pair || pair_parse(&pair, event->pair)) &&
           (!has_pairs || pairs_parse(&pairs, event)) && (!has_move || move_parse(&move, event));
}

#define KIND_OF(member, what)                                                                      \
    {                                                                                              \
#member, JSON_INTEGER, JSON_AT(FieldMix, member), .min = 0, .max = BOWLERS_MAX - 1,        \
                                                          .of = what                               \
    }
static const JsonField FIELD_FIELDS[] = {KIND_OF(right, "(bowlers)"), KIND_OF(left, "(bowlers)"),
                                         KIND_OF(two_handed, "(bowlers)"),
                                         KIND_OF(urethane, "(bowlers)"), JSON_END};

/* The others: as many as share the pair at most; alone they say how many share it. */
static bool field_parse(const Json *root, const Json *field, EventInfo *event)
{
    Json said;
    FieldMix *mix = &event->field;
    if (!json_object(field, FIELD_FIELDS, mix))
        return false;
    int others = mix->right + mix->left + mix->two_handed;
    if (!json_member(root, "bowlers_on_pair", &said))
        event->bowlers_on_pair = others < BOWLERS_MAX ? others + 1 : BOWLERS_MAX;
    if (others > event->bowlers_on_pair - 1)
        return json_fail(field, "found %d others; allowed: at most %d, since %d share the pair",
                         others, event->bowlers_on_pair - 1, event->bowlers_on_pair);
    if (mix->urethane > event->bowlers_on_pair - 1)
        return json_fail(field,
                         "found %d with urethane; allowed: at most %d, the others on the pair",
                         mix->urethane, event->bowlers_on_pair - 1);
    return true;
}

static const JsonField ABOUT_FIELDS[] = {
    {"house", JSON_BOOL, JSON_AT(About, house)},
    {"length_ft",
     JSON_RANGE(About, length_ft, PATTERN_LENGTH_MIN_FT, PATTERN_LENGTH_MAX_FT, "feet")},
    {"volume_ml", JSON_RANGE(About, volume_ml, ABOUT_VOLUME_MIN_ML, ABOUT_VOLUME_MAX_ML, "mL")},
    {"ratio", JSON_RANGE(About, ratio, ABOUT_RATIO_MIN, ABOUT_RATIO_MAX, "(inside to outside)")},
    JSON_END};
static const JsonField ONLY_ABOUT[] = {{"about", JSON_OTHER, .required = true}, JSON_END};

/* A pattern is named, or there is only something known about it: then that makes its name. */
static bool pattern_said(const Json *value, EventInfo *event)
{
    const JsonField text = {.kind = JSON_TEXT, .required = true, .size = sizeof event->pattern};
    About about = {.only = true};
    Error why = {0};
    Json known;
    if (json_is_object(value)) {
        if (!json_object(value, ONLY_ABOUT, NULL) || !json_member(value, "about", &known) ||
            !json_object(&known, ABOUT_FIELDS, &about))
            return false;
        about_write(&about, event->pattern, sizeof event->pattern);
        return true;
    }
    return json_value(value, &text, event->pattern) &&
           (!about_is(event->pattern) || about_read(event->pattern, &about, &why) ||
            json_fail(value, "%s", why.text));
}

static bool exists(const char *path)
{
    struct stat status;
    return strcmp(path, "-") != 0 && stat(path, &status) == 0 && !S_ISDIR(status.st_mode);
}

/* Finds the file that an event names: relative to the event's folder, else as any name. `target`
 * holds what was written, and receives a name that works from any folder. */
static bool resolve(const Json *root, const char *key, const char *kind, const Loaded *file,
                    char *target, size_t size)
{
    Json value;
    char path[sizeof file->folder + sizeof((EventInfo *)0)->bag], found[64];
    Found home = {0};
    Error missing = {0};
    if (!json_member(root, key, &value) || about_is(target))
        return true;
    const char *given = target;
    if (given[0] == '/' || strcmp(file->folder, ".") == 0)
        snprintf(path, sizeof path, "%s", given);
    else
        snprintf(path, sizeof path, "%s/%s", file->folder, given);
    if (file->found.builtin || !exists(path)) {
        /* not a file of that name in the current folder */
        if (load_find_carried(kind, given, &home) && home.builtin)
            return true;
        if (!home.home) {
            load_missing(kind, given, &missing);
            return json_fail(&value, "found %s: %s", json_found(&value, found), missing.text);
        }
        snprintf(path, sizeof path, "%s", home.path);
    }
    if (!text_copy(target, size, path))
        return json_fail(&value, "the path %s is too long; at most %zu bytes", path, size - 1);
    return true;
}

bool event_parse(const Json *root, const Loaded *file, EventInfo *event)
{
    Json child;
    char found[64];
    *event = (EventInfo){.pair = {1, 2}, .games = 3, .bowlers_on_pair = 1};
    if (!json_format(root, "settee-event/1") || !json_object(root, ROOT_FIELDS, event))
        return false;
    text_copy(event->id, sizeof event->id, file->id);
    load_place(&file->found, event->file, sizeof event->file);
    const char *date = json_member(root, "date", &child) ? json_string(&child) : "";
    if (date[0] && !files_date(date))
        return json_fail(&child, "found %s; allowed: a date such as 2026-05-17",
                         json_found(&child, found));
    if (json_member(root, "pattern", &child) && !pattern_said(&child, event))
        return false;
    if (!lanes_parse(root, event))
        return false;
    if (json_member(root, "field", &child) && !field_parse(root, &child, event))
        return false;
    return resolve(root, "pattern", "patterns", file, event->pattern, sizeof event->pattern) &&
           resolve(root, "bag", "bags", file, event->bag, sizeof event->bag);
}
