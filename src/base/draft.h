/* draft.h - a form that somebody is filling in, as data: which one, and what was typed so far, in
 * the order in which it was. What its keys mean, the form knows. */
#ifndef SETTEE_BASE_DRAFT_H
#define SETTEE_BASE_DRAFT_H

#include <stdbool.h>

enum { DRAFT_ROWS_MAX = 96, DRAFT_KEY_SIZE = 24, DRAFT_VALUE_SIZE = 400 };

typedef enum DraftForm { DRAFT_NONE, DRAFT_EVENT, DRAFT_BOWLER, DRAFT_BALL, DRAFT_SHEET } DraftForm;
extern const char *const DRAFT_FORMS[]; /* words for them; NULL ends */

typedef struct DraftRow {
    char key[DRAFT_KEY_SIZE], value[DRAFT_VALUE_SIZE];
} DraftRow;

typedef struct Draft {
    DraftForm form;
    char of[64];   /* the file that it changes, or "" */
    char part[64]; /* in that file: a ball's id, or "" */
    bool starting; /* in the three steps to a first event */
    int count;
    DraftRow rows[DRAFT_ROWS_MAX];
} Draft;

/* Adds a row, in place of an earlier one of that key. Past the last it does nothing. */
void draft_note(Draft *draft, const char *key, const char *value);
void draft_add(Draft *draft, const char *key, const char *value); /* one of several of that key */

#endif
