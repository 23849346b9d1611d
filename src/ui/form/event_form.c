/* event_form.c - the fields of a new event on the screen. */
#include "ui/form/event_form.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/event/stays.h"
#include "core/lane/about.h"

enum { LANE_NUMBER_MAX = 99, BOWLERS_MAX = 10 };

static const FormRow ROWS[EVENT_ROWS] = {
    [EVENT_NAME] = {.name = "Name", .unit = ""},
    [EVENT_DATE] = {"Date", "", .allowed = "a day such as 2026-05-17"},
    [EVENT_PATTERN] = {"Oil", "", .opens = true},
    [EVENT_LENGTH] = {"  its length", "ft", .allowed = "without a sheet: 20 to 60, if known"},
    [EVENT_VOLUME] = {"  its volume", "mL", .allowed = "without a sheet: 10 to 40, if known"},
    [EVENT_BAG] = {"Bag", "", .opens = true},
    [EVENT_LANES] = {"Lanes", "", .allowed = "two, such as 17,18"},
    [EVENT_MOVE] = {"Moving", "lanes each game", .allowed = "to the right; -2: left; 0: stay"},
    [EVENT_GAMES] = {.name = "Games", .unit = ""},
    [EVENT_WARM_UP] = {.name = "Warm-up first", .unit = ""},
    [EVENT_BOWLERS] = {.name = "Bowlers", .unit = "on the pair, with you"},
    [EVENT_RIGHT] = {.name = "  right-handed", .unit = "of the others, one hand"},
    [EVENT_LEFT] = {.name = "  left-handed", .unit = "of the others"},
    [EVENT_TWO_HANDED] = {.name = "  two-handed", .unit = "of the others, right"},
    [EVENT_URETHANE] = {.name = "  with urethane", .unit = "of all the others"},
    [EVENT_SCORED] = {.name = "Scores count", .unit = ""},
};

static const char *const YES_NO[] = {"no", "yes", NULL};

#define OTHERS(member)                                                                             \
    {                                                                                              \
#member, JSON_INTEGER, JSON_AT(EventInfo, field.member), .min = 0, .max = BOWLERS_MAX - 1  \
    }
static const JsonField FIELDS[EVENT_ROWS] = {
    [EVENT_NAME] = {"name", JSON_TEXT, .required = true, JSON_AT(EventInfo, name)},
    [EVENT_DATE] = {"date", JSON_TEXT, JSON_AT(EventInfo, date)},
    [EVENT_PATTERN] = {"pattern", JSON_TEXT, JSON_AT(EventInfo, pattern)},
    [EVENT_LENGTH] = {"length_ft", JSON_NUMBER, .size = 8, .min = PATTERN_LENGTH_MIN_FT,
                      .max = PATTERN_LENGTH_MAX_FT, .of = "feet"},
    [EVENT_VOLUME] = {"volume_ml", JSON_NUMBER, .size = 8, .min = ABOUT_VOLUME_MIN_ML,
                      .max = ABOUT_VOLUME_MAX_ML, .of = "mL"},
    [EVENT_BAG] = {"bag", JSON_TEXT, JSON_AT(EventInfo, bag)},
    [EVENT_LANES] = {"pair", JSON_TEXT, .size = 8},
    [EVENT_MOVE] = {"move", JSON_INTEGER, .size = 4, .min = -98, .max = 98, .of = "lanes"},
    [EVENT_WARM_UP] = {"warm_up", JSON_WORD, .of = "answer", .words = YES_NO},
    [EVENT_GAMES] = {"games", JSON_INTEGER, JSON_AT(EventInfo, games), .min = 1,
                     .max = SESSION_GAMES_MAX, .of = "games"},
    [EVENT_BOWLERS] = {"bowlers_on_pair", JSON_INTEGER, JSON_AT(EventInfo, bowlers_on_pair),
                       .min = 1, .max = BOWLERS_MAX, .of = "bowlers"},
    [EVENT_RIGHT] = OTHERS(right),
    [EVENT_LEFT] = OTHERS(left),
    [EVENT_TWO_HANDED] = OTHERS(two_handed),
    [EVENT_URETHANE] = OTHERS(urethane),
    [EVENT_SCORED] = {"certified", JSON_WORD, .of = "answer", .words = YES_NO},
};

/* By how many lanes they move after each game. */
static int move_of(const EventInfo *event)
{
    return event->pairs[1][0] > 0 ? event->pairs[1][0] - event->pair[0] : 0;
}

/* The pairs follow from the first, the games and the move. */
static bool set_move(EventInfo *event, int lanes, Error *error)
{
    memset(event->pairs, 0, sizeof event->pairs);
    return lanes == 0 || event->games == 1 || event_move(event, lanes, 0, error);
}

/* What is known of oil without a sheet; false: there is one. */
static bool rough(const EventInfo *event, About *about)
{
    Error unheard = {0};
    return about_is(event->pattern) && about_read(event->pattern, about, &unheard);
}

static void show_oil(const EventInfo *event, int row, char *out, size_t size)
{
    About about;
    Pattern pattern;
    if (!rough(event, &about)) {
        text_copy(out, size, row == EVENT_PATTERN ? event->pattern : "");
    } else if (row == EVENT_PATTERN) {
        about_pattern(&about, &pattern);
        text_copy(out, size, pattern.name);
    } else {
        double known = row == EVENT_LENGTH ? about.length_ft : about.volume_ml;
        if (known > 0.0)
            text_append(out, size, "%.10g", known);
    }
}

/* Nothing typed: it isn't known after all. */
static bool put_oil(EventInfo *event, int row, const char *typed, Error *error)
{
    About about;
    JsonField field = FIELDS[row];
    double known = 0.0;
    if (!rough(event, &about))
        return error_set(error, "the sheet has its own; choose oil without a sheet above");
    if (typed[0] && !json_field_typed(&field, typed, &known, error))
        return false;
    *(row == EVENT_LENGTH ? &about.length_ft : &about.volume_ml) = known;
    about_write(&about, event->pattern, sizeof event->pattern);
    return true;
}

static void show(const void *subject, int row, char *out, size_t size)
{
    const EventInfo *event = subject;
    out[0] = '\0';
    if (row == EVENT_LANES)
        text_append(out, size, "%d,%d", event->pair[0], event->pair[1]);
    else if (row >= EVENT_PATTERN && row <= EVENT_VOLUME)
        show_oil(event, row, out, size);
    else if (row == EVENT_MOVE)
        text_append(out, size, "%d", move_of(event));
    else if (row == EVENT_SCORED || row == EVENT_WARM_UP)
        text_copy(out, size, YES_NO[row == EVENT_SCORED ? event->certified : event->warm_up]);
    else
        json_field_show(&FIELDS[row], event, out, size);
}

static bool put_lanes(EventInfo *event, const char *typed, Error *error)
{
    int left, right, used = 0;
    bool good = sscanf(typed, "%2d , %2d %n", &left, &right, &used) == 2 && !typed[used] &&
                left >= 1 && right >= 1 && left <= LANE_NUMBER_MAX && left != right;
    if (!good)
        return error_set(error, "found %s; allowed: two lanes from 1 to %d, such as 17,18",
                         typed[0] ? typed : "nothing", LANE_NUMBER_MAX);
    event->pair[0] = left;
    event->pair[1] = right;
    return true;
}

/* The others are as many as share the pair at most. */
static bool sound(const EventInfo *event, Error *error)
{
    const FieldMix *mix = &event->field;
    int others = event->bowlers_on_pair - 1, said = mix->right + mix->left + mix->two_handed;
    if (said > others)
        return error_set(error, "that makes %d others; %d share the pair with you", said, others);
    return mix->urethane <= others ||
           error_set(error, "%d with urethane; only %d share the pair with you", mix->urethane,
                     others);
}

/* A figure or a word, as a number. */
static bool put_number(int row, const char *typed, int *number, Error *error)
{
    JsonField field = FIELDS[row];
    field.offset = 0;
    return json_field_typed(&field, typed, number, error);
}

static bool put_any(EventInfo *event, int row, const char *typed, Error *error)
{
    int number, move = move_of(event);
    switch (row) {
    case EVENT_LENGTH:
    case EVENT_VOLUME:
        return put_oil(event, row, typed, error);
    case EVENT_LANES:
        return put_lanes(event, typed, error) && set_move(event, move, error);
    case EVENT_MOVE:
        return put_number(row, typed, &number, error) && set_move(event, number, error);
    case EVENT_GAMES:
        return json_field_typed(&FIELDS[row], typed, event, error) && set_move(event, move, error);
    case EVENT_DATE:
        if (typed[0] && !event_is_date(typed))
            return error_set(error, "found %s; allowed: a day such as 2026-05-17", typed);
        return json_field_typed(&FIELDS[row], typed, event, error);
    case EVENT_SCORED:
    case EVENT_WARM_UP:
        if (!put_number(row, typed, &number, error))
            return false;
        *(row == EVENT_SCORED ? &event->certified : &event->warm_up) = number;
        return true;
    default:
        return json_field_typed(&FIELDS[row], typed, event, error);
    }
}

static bool put(void *subject, int row, const char *typed, Error *error)
{
    EventInfo changed = *(EventInfo *)subject;
    Error why = {0};
    if (!put_any(&changed, row, typed, &why) || !sound(&changed, &why))
        return error_set(error, "%s: %s", ROWS[row].name + strspn(ROWS[row].name, " "), why.text);
    *(EventInfo *)subject = changed;
    return true;
}

static void note(const void *subject, int row, char *out, size_t size)
{
    const EventInfo *event = subject;
    text_copy(out, size,
              row == EVENT_SCORED && event->certified  ? "then surfaces stay as they are"
              : row == EVENT_WARM_UP && event->warm_up ? "unscored; G starts game 1"
                                                       : "");
}

const FormKind EVENT_FORM = {
    .rows = ROWS, .count = EVENT_ROWS, .fields = FIELDS, .show = show, .put = put, .note = note};
