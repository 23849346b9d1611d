/* json_scan.h - walks JSON text without building anything: what is wrong with it, and where a
 * value is. The tree builder forgives some faults and knows no line numbers; this is strict, and
 * does. */
#ifndef SETTEE_STORE_JSON_SCAN_H
#define SETTEE_STORE_JSON_SCAN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { JSON_DEPTH_MAX = 32, JSON_NUMBER_CHARACTERS_MAX = 60 };

/* For json_scan: no value to stop at, look at the whole text. */
#define JSON_SCAN_ALL SIZE_MAX

typedef struct JsonSpot {
    size_t value;    /* offset of the value's first byte */
    size_t key;      /* offset of its key's opening quote; that of the value if it has none */
    size_t fault;    /* where the text stops being JSON */
    char words[160]; /* what is wrong there, what was found and what could stand there */
} JsonSpot;

/* Reads `length` bytes, strictly by RFC 8259, to the end or to the value with number `stop`
 * (counted from 0 in the order in which values begin). False: not JSON, `spot` says why. Text must
 * be valid UTF-8 without NUL. */
bool json_scan(const char *text, size_t length, size_t stop, JsonSpot *spot);

/* The line, from 1, that a byte is on. */
int json_line(const char *text, size_t offset);

/* How many bytes the scalar that starts at `offset` takes. */
size_t json_scalar_size(const char *text, size_t length, size_t offset);

#endif
