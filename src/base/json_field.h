/* json_field.h - what a key of a file may hold (kind, unit, range, words), and the one check of a
 * value against it, for values from a file or typed on a screen. */
#ifndef SETTEE_BASE_JSON_FIELD_H
#define SETTEE_BASE_JSON_FIELD_H

#include <stddef.h>

#include "base/error.h"

typedef enum JsonKind {
    JSON_OTHER,   /* known, read by the caller */
    JSON_NUMBER,  /* double */
    JSON_INTEGER, /* int */
    JSON_BOOL,    /* bool */
    JSON_WORD,    /* enum: index in `words`; an empty word is not offered */
    JSON_TEXT,    /* char[size], cleaned; may be empty unless required */
    JSON_ID       /* char[size] of letters, digits, - and _ */
} JsonKind;

typedef struct JsonField {
    const char *key;
    JsonKind kind;
    bool required;
    size_t offset, size; /* of the member */
    double min, max;     /* numbers */
    const char *of;      /* numbers: their unit; words: what they name ("cover") */
    const char *const *words;
} JsonField;

/* Rows of a table of fields; the table ends with JSON_END. */
#define JSON_AT(type, member) .offset = offsetof(type, member), .size = sizeof(((type *)0)->member)
#define JSON_RANGE(type, member, low, high, unit)                                                  \
    JSON_NUMBER, JSON_AT(type, member), .min = (low), .max = (high), .of = (unit)
#define JSON_END                                                                                   \
    {                                                                                              \
        .key = NULL                                                                                \
    }

/* The row of that key, or NULL. */
const JsonField *json_field_find(const JsonField *fields, const char *key);

/* "6 to 16 pounds"; "solid, hybrid, pearl", or as many as fit. */
void json_field_range(const JsonField *field, char *out, size_t size);

/* Each puts a value into its member of the struct at `into`. On false `error` says what was found
 * (quoting `found`) and what is allowed, and the struct is unchanged. NAN and NULL mean "not a
 * number" and "not text", and are never allowed. */
bool json_field_number(const JsonField *field, double number, const char *found, void *into,
                       Error *error);
bool json_field_word(const JsonField *field, const char *word, const char *found, void *into,
                     Error *error);
bool json_field_text(const JsonField *field, const char *text, const char *found, void *into,
                     Error *error);
bool json_field_id(const JsonField *field, const char *id, const char *found, void *into,
                   Error *error);

/* The same for what a person typed: a number as C writes it, a word, or text. */
bool json_field_typed(const JsonField *field, const char *typed, void *into, Error *error);

/* The value as a person would type it. */
void json_field_show(const JsonField *field, const void *from, char *out, size_t size);

#endif
