/* keytable.h - the keys of a stage as data: where each works, and how footer and help show it. */
#ifndef SETTEE_UI_INPUT_KEYTABLE_H
#define SETTEE_UI_INPUT_KEYTABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "ui/draw/canvas.h"
#include "ui/input/keys.h"

enum { KEY_ABOVE = 100 };

/* The keys from..to, and `also` (0: no other), work in the states `where` (a stage's own bits). */
typedef struct KeyRow {
    int group; /* of the help page */
    unsigned where;
    uint32_t from, to, also;
    int foot; /* its place in the footer, 1 first; from KEY_ABOVE on in the line above; 0: neither
               */
    const char *shown, *name, *help;
} KeyRow;

/* States under one name, where the name of each would say too much. */
typedef struct KeyPlace {
    unsigned where;
    const char *name;
} KeyPlace;

/* A stage's rows may be longer than a KeyRow, which comes first in them. */
typedef struct KeyTable {
    const char *of; /* what stage: "Home" */
    const void *rows;
    size_t row_size;
    int count;
    const char *const *titles; /* of the groups */
    int group_count;
    const KeyPlace *places; /* for the search */
    int place_count;
} KeyTable;

const KeyRow *key_row(const KeyTable *table, int index);

/* What a key does in a state; NULL: nothing. Its stage knows it as a row of its own. */
const KeyRow *key_find(const KeyTable *table, unsigned where, uint32_t key);

/* Draws a state's footer on the canvas's last line, as much as fits, without the keys of the group
 * `but` (-1: all). */
void key_footer(const KeyTable *table, unsigned where, int but, Canvas *canvas);

/* The rows from KEY_ABOVE on, those that fit between two columns of a line, with a blank around
 * them. Returns the column after them. */
int key_above(const KeyTable *table, unsigned where, Canvas *canvas, int line, int column, int end);

/* Whether the row has every word of `sought` in its name, its help or its group's title; small and
 * capital letters are the same. Nothing sought: all rows have it. */
bool key_matches(const KeyTable *table, const KeyRow *row, const char *sought);

/* Where the row's keys work: "lane, bag", or "most screens". `stage` stands before it: "Home:
 * bags";
 * "": not. */
void key_places(const KeyTable *table, const KeyRow *row, const char *stage, char *out,
                size_t size);

#endif
