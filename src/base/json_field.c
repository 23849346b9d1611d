/* json_field.c - values checked against what a key may hold, and the words for it. */
#include "base/json_field.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

const JsonField *json_field_find(const JsonField *fields, const char *key)
{
    for (; fields->key; fields++)
        if (strcmp(fields->key, key) == 0)
            return fields;
    return NULL;
}

void json_field_range(const JsonField *field, char *out, size_t size)
{
    out[0] = '\0';
    if (field->kind != JSON_WORD) {
        text_append(out, size, "%.10g to %.10g%s%s", field->min, field->max, field->of ? " " : "",
                    field->of ? field->of : "");
        return;
    }
    for (int i = 0; field->words[i]; i++) {
        if (!field->words[i][0])
            continue;
        if (strlen(out) + strlen(field->words[i]) + 8 > size) {
            text_append(out, size, ", ...");
            return;
        }
        text_append(out, size, "%s%s", out[0] ? ", " : "", field->words[i]);
    }
}

static void *member(const JsonField *field, void *into) { return (char *)into + field->offset; }

bool json_field_number(const JsonField *field, double number, const char *found, void *into,
                       Error *error)
{
    char range[ERROR_TEXT_MAX - 128];
    bool whole = field->kind == JSON_INTEGER;
    if (!(number >= field->min && number <= field->max) || (whole && number != floor(number))) {
        json_field_range(field, range, sizeof range);
        return error_set(error, "found %s; allowed: %s from %s", found,
                         whole ? "a whole number" : "a number", range);
    }
    if (whole)
        memcpy(member(field, into), &(int){(int)number}, sizeof(int));
    else
        memcpy(member(field, into), &number, sizeof number);
    return true;
}

static bool no_word(const JsonField *field, const char *word, const char *found, Error *error)
{
    enum { LONG_LIST = 200 }; /* a longer list would bury the suggested word */
    char list[ERROR_TEXT_MAX - 128];
    json_field_range(field, list, sizeof list);
    if (!word)
        return error_set(error, "found %s; allowed: %s", found, list);
    const char *nearest = text_nearest(word, field->words);
    if (!nearest)
        return error_set(error, "unknown %s %s; allowed: %s", field->of, found, list);
    bool brief = strlen(list) > LONG_LIST;
    return error_set(error, "unknown %s %s; did you mean \"%s\"?%s%s", field->of, found, nearest,
                     brief ? "" : " Allowed: ", brief ? "" : list);
}

bool json_field_word(const JsonField *field, const char *word, const char *found, void *into,
                     Error *error)
{
    for (int i = 0; word && field->words[i]; i++)
        if (field->words[i][0] && strcmp(field->words[i], word) == 0) {
            memcpy(member(field, into), &i, sizeof i); /* enums are as wide as an int: see below */
            return true;
        }
    return no_word(field, word, found, error);
}
_Static_assert(sizeof(JsonKind) == sizeof(int), "enums are read as int");

bool json_field_text(const JsonField *field, const char *text, const char *found, void *into,
                     Error *error)
{
    if (!text)
        return error_set(error, "found %s; allowed: text of at most %zu bytes", found,
                         field->size - 1);
    if (strlen(text) >= field->size)
        return error_set(error, "found text of %zu bytes; allowed: at most %zu", strlen(text),
                         field->size - 1);
    char clean[1024];
    text_clean(clean, sizeof clean, text);
    if (field->required && !clean[strspn(clean, " ")])
        return error_set(error, "found %s; allowed: text that is not empty", found);
    text_clean(member(field, into), field->size, text);
    return true;
}

bool json_field_id(const JsonField *field, const char *id, const char *found, void *into,
                   Error *error)
{
    static const char ALLOWED[] =
        "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_-";
    if (!id || !id[0] || strlen(id) >= field->size || id[strspn(id, ALLOWED)])
        return error_set(error, "found %s; allowed: 1 to %zu letters, digits, - or _", found,
                         field->size - 1);
    memcpy(member(field, into), id, strlen(id) + 1);
    return true;
}

bool json_field_typed(const JsonField *field, const char *typed, void *into, Error *error)
{
    char *end;
    const char *found = typed[strspn(typed, " ")] ? typed : "nothing";
    double number = strtod(typed, &end);
    switch (field->kind) {
    case JSON_NUMBER:
    case JSON_INTEGER:
        return json_field_number(field, end == typed || *end ? (double)NAN : number, found, into,
                                 error);
    case JSON_WORD:
        return json_field_word(field, typed, found, into, error);
    case JSON_TEXT:
        return json_field_text(field, typed, found, into, error);
    case JSON_ID:
        return json_field_id(field, typed, found, into, error);
    default:
        return error_set(error, "found %s; allowed: no text here", found);
    }
}

void json_field_show(const JsonField *field, const void *from, char *out, size_t size)
{
    const char *at = (const char *)from + field->offset;
    double number;
    int integer;
    out[0] = '\0';
    switch (field->kind) {
    case JSON_NUMBER:
        memcpy(&number, at, sizeof number);
        text_append(out, size, "%.10g", number);
        break;
    case JSON_INTEGER:
        memcpy(&integer, at, sizeof integer);
        text_append(out, size, "%d", integer);
        break;
    case JSON_WORD:
        memcpy(&integer, at, sizeof integer);
        text_append(out, size, "%s", field->words[integer]);
        break;
    case JSON_TEXT:
    case JSON_ID:
        text_append(out, size, "%s", at);
        break;
    default:
        break;
    }
}
