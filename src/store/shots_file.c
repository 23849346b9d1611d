/* shots_file.c - shots as a JSON array, or one object per line. */
#include <string.h>

#include "base/text.h"
#include "core/motion/delivery.h"
#include "store/load.h"

/* What a bowler may write, and what a journal may hold: a journal has passed the session's own
 * checks, and must give back whatever that let through, the ball that was thrown among it. */
#define ANY 1e9
#define IN(strict, low, high) .min = (strict) ? (low) : -ANY, .max = (strict) ? (high) : ANY
#define SHOT_FIELDS(strict)                                                                        \
    {"lane", JSON_WORD, JSON_AT(Shot, lane), .of = "lane", .words = SIDE_NAMES},                   \
        {"slot",          JSON_INTEGER,    .required = true, JSON_AT(Shot, slot),                  \
         .min = (strict), .max = BAG_SLOTS},                                                       \
        {"stance", JSON_NUMBER, JSON_AT(Shot, stance),                                             \
         IN(strict, PLAN_BOARD_LOW, PLAN_BOARD_HIGH), .of = "boards"},                             \
        {"aim", JSON_NUMBER, JSON_AT(Shot, aim), IN(strict, PLAN_BOARD_LOW, PLAN_BOARD_HIGH),      \
         .of = "boards"},                                                                          \
        {"mph", JSON_NUMBER, JSON_AT(Shot, mph), IN(strict, SHOT_MPH_LOW, SHOT_MPH_HIGH),          \
         .of = "mph"},                                                                             \
        {"arrows", JSON_NUMBER, JSON_AT(Shot, arrows),                                             \
         IN(strict, SHOT_BOARD_LOW, SHOT_BOARD_HIGH), .of = "boards"},                             \
        {"breakpoint", JSON_NUMBER, JSON_AT(Shot, breakpoint),                                     \
         IN(strict, SHOT_BOARD_LOW, SHOT_BOARD_HIGH), .of = "boards"},                             \
        {"mph_change", JSON_NUMBER, JSON_AT(Shot, mph_change),                                     \
         IN(strict, PLAN_MPH_CHANGE_LOW, PLAN_MPH_CHANGE_HIGH), .of = "mph"},                      \
        {"loft_change_ft", JSON_NUMBER, JSON_AT(Shot, loft_change_ft),                             \
         IN(strict, PLAN_LOFT_CHANGE_LOW, PLAN_LOFT_CHANGE_HIGH), .of = "feet"},                   \
        {"rotation_change_deg", JSON_NUMBER, JSON_AT(Shot, rotation_change_deg),                   \
         IN(strict, PLAN_ROTATION_CHANGE_LOW, PLAN_ROTATION_CHANGE_HIGH), .of = "degrees"},        \
        {"hit", JSON_WORD, JSON_AT(Shot, hit), .of = "hit", .words = HIT_NAMES},                   \
        {"read", JSON_WORD, JSON_AT(Shot, read), .of = "read", .words = READ_NAMES},               \
        {"release", JSON_WORD, JSON_AT(Shot, release), .of = "release", .words = RELEASE_NAMES},   \
        {.key = "left"}, {.key = "spare"}, {"ringing", JSON_BOOL, JSON_AT(Shot, ringing)},         \
        {"foul", JSON_BOOL, JSON_AT(Shot, foul)},                                                  \
        {"spare_foul", JSON_BOOL, JSON_AT(Shot, spare_foul)}, JSON_END
static const JsonField FILE_FIELDS[] = {SHOT_FIELDS(1)};
static const JsonField JOURNAL_FIELDS[] = {
    {"ball", JSON_ID, JSON_AT(Shot, ball)}, {.key = "surface"}, SHOT_FIELDS(0)};

bool shot_knows_key(const char *key)
{
    for (const JsonField *field = FILE_FIELDS; field->key; field++)
        if (strcmp(field->key, key) == 0)
            return true;
    return false;
}

/* Looks at the first key only: the text has not been parsed, and need not be one JSON value. */
bool shots_are_lines(const Loaded *file)
{
    static const char SPACE[] = " \t\r\n";
    const char *at = file->text + strspn(file->text, SPACE);
    char key[32]; /* longer than any key of a shot */
    if (*at++ != '{')
        return false;
    at += strspn(at, SPACE);
    size_t length = *at == '"' ? strcspn(at + 1, "\"") : sizeof key;
    if (length >= sizeof key)
        return false;
    memcpy(key, at + 1, length);
    key[length] = '\0';
    return shot_knows_key(key);
}

static bool pins_parse(const Json *array, Pins *pins)
{
    const JsonField field = {.kind = JSON_INTEGER, .min = 1, .max = 10, .of = "(a pin)"};
    Json item;
    if (json_count(array, 0, 10, "pins") < 0)
        return false;
    for (bool more = json_first(array, &item); more; more = json_next(&item)) {
        int pin;
        if (!json_value(&item, &field, &pin))
            return false;
        if (*pins & pin_bit(pin))
            return json_fail(&item, "found pin %d twice", pin);
        *pins |= pin_bit(pin);
    }
    return true;
}

bool shot_parse(const Json *value, bool strict, Shot *shot)
{
    Json left, spare, surface;
    *shot = (Shot){0};
    if (!json_object(value, strict ? FILE_FIELDS : JOURNAL_FIELDS, shot))
        return false;
    if (json_member(value, "surface", &surface) && !surface_parse(&surface, &shot->surface))
        return false;
    if (shot->ball[0] && !json_member(value, "surface", &surface))
        return json_fail(value, "found a \"ball\" without its \"surface\"");
    shot->left_said = json_member(value, "left", &left);
    shot->spare_said = json_member(value, "spare", &spare);
    if ((shot->left_said && !pins_parse(&left, &shot->left)) ||
        (shot->spare_said && !pins_parse(&spare, &shot->spare_left)))
        return false;
    if (shot->spare_said && !shot_leaves(shot))
        return json_fail(&spare,
                         "found what a spare left; allowed: only after a \"left\" with pins, "
                         "or after a \"foul\"");
    for (int pin = 1; pin <= 10; pin++)
        if (shot->spare_left & pin_bit(pin) & ~shot_standing(shot))
            return json_fail(&spare, "found pin %d, which is not among those of \"left\"", pin);
    if (shot->spare_foul && (!shot->spare_said || shot->spare_left != shot_standing(shot)))
        return json_fail(value, "found a \"spare_foul\"; allowed: only with a \"spare\" of all the "
                                "pins that stood, since a foul counts none");
    if (shot->hit == HIT_UNSAID && !shot->left_said)
        return json_fail(value, "found neither \"hit\" nor \"left\"; one of them must be there");
    const char *impossible = strict ? shot_impossible(shot) : NULL;
    if (impossible)
        return json_fail(value, "%s", impossible);
    return true;
}

static bool array_parse(const Json *root, Shot *shots, int max, int *count)
{
    Json item;
    if (json_count(root, 0, max, "shots") < 0)
        return false;
    for (bool more = json_first(root, &item); more; more = json_next(&item)) {
        if (!shot_parse(&item, true, &shots[item.index]))
            return false;
        *count = item.index + 1;
    }
    return true;
}

static bool line_parse(const char *line, size_t length, int number, Shot *shot, Error *error)
{
    JsonDoc *doc = json_read(line, length, number, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    bool done = shot_parse(&root, true, shot);
    json_free(doc);
    return done;
}

static bool lines_parse(const Loaded *file, Shot *shots, int max, int *count, Error *error)
{
    const char *line = file->text, *end = file->text + file->length;
    for (int number = 1; line < end; number++) {
        const char *stop = memchr(line, '\n', (size_t)(end - line));
        size_t length = (size_t)((stop ? stop : end) - line);
        if (strspn(line, " \t\r") < length) {
            if (*count == max) {
                error->line = number;
                return error_set(error, "found more than %d shots; allowed: at most that", max);
            }
            if (!line_parse(line, length, number, &shots[*count], error))
                return false;
            ++*count;
        }
        line += length + 1;
    }
    return true;
}

bool shots_parse(const Loaded *file, Shot *shots, int max, int *count, Error *error)
{
    *count = 0;
    if (file->text[strspn(file->text, " \t\r\n")] == '{')
        return lines_parse(file, shots, max, count, error);
    JsonDoc *doc = json_read(file->text, file->length, 1, error);
    if (!doc)
        return false;
    Json root = json_root(doc, error);
    char found[64];
    bool done =
        json_is_array(&root)
            ? array_parse(&root, shots, max, count)
            : json_fail(&root, "found %s; allowed: an array of shots, or one object per line",
                        json_found(&root, found));
    json_free(doc);
    return done;
}
