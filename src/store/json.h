/* json.h - reads a JSON text by tables of its keys, their kinds and ranges.
 *
 * A JsonDoc owns the text's tree. A Json is a place in it that knows its path ($.balls[2]) and
 * where to report; it may be copied, and lives as long as its document. Every reader returns
 * false after filling the Error with line, path, what was found and what is allowed. */
#ifndef SETTEE_STORE_JSON_H
#define SETTEE_STORE_JSON_H

#include <stdbool.h>
#include <stddef.h>

#include "base/json_field.h"

typedef struct JsonDoc JsonDoc;

typedef struct Json {
    const JsonDoc *doc;
    const void *node;
    Error *error; /* where faults go; its file has been filled by the caller */
    int index;    /* in the array that is being walked through */
    size_t stem;  /* length of that array's path */
    char path[ERROR_WHERE_MAX];
} Json;

/* Parses `length` bytes; the text must live as long as the document. `first_line` is the number
 * of the text's first line in its file. NULL: `error` says why; its line is 0 only when
 * memory ran out and nothing is wrong with the text. */
JsonDoc *json_read(const char *text, size_t length, int first_line, Error *error);
void json_free(JsonDoc *doc);
Json json_root(const JsonDoc *doc, Error *error);

/* Reports a fault at a value: fills line and path; always false. */
bool json_fail(const Json *value, const char *format, ...) __attribute__((format(printf, 2, 3)));
/* What is there, in at most 48 bytes of the file's own words, or "an object". */
const char *json_found(const Json *value, char out[64]);

/* Reads an object's members into the struct at `into`. Unknown, doubled and missing keys are
 * faults. Members that are absent leave the struct as it is. */
bool json_object(const Json *value, const JsonField *fields, void *into);

/* Reads one value as a field says (its key is not used). */
bool json_value(const Json *value, const JsonField *field, void *into);

bool json_is_object(const Json *value);
bool json_is_array(const Json *value);
/* The text of a string, owned by the document and not cleaned; NULL if it is not one. */
const char *json_string(const Json *value);

/* The member of that key; false (no fault) when there is none. */
bool json_member(const Json *object, const char *key, Json *member);
/* The first key of an object, or NULL; and its value. */
const char *json_first_key(const Json *object, Json *member);

/* How many items an array has, or -1 with a fault: not an array, or fewer or more than allowed. */
int json_count(const Json *array, int min, int max, const char *items);

/* for (bool more = json_first(&array, &item); more; more = json_next(&item)) */
bool json_first(const Json *array, Json *item);
bool json_next(Json *item);

/* Reads the member [first, second], both as `field` says. False without a fault when there is none.
 */
bool json_pair(const Json *object, const char *key, const JsonField *field, void *first,
               void *second);

/* Whether the document is an object whose first key is "format", of the value given. */
bool json_format(const Json *root, const char *format);

#endif
