/* bound.h - the event's keys as the bowler bound them: a copy of the table of commands in which
 * those actions have their own keys, so that footer, help and search show them. */
#ifndef SETTEE_UI_INPUT_BOUND_H
#define SETTEE_UI_INPUT_BOUND_H

#include "base/bindings.h"
#include "ui/input/commands.h"

typedef struct Bound {
    CommandRow rows[COMMAND_COUNT + BINDINGS_MAX];
    char shown[BINDINGS_MAX][8];
    KeyTable table; /* of these rows */
} Bound;

/* Fills the table in place; it must not be moved. The bindings must have passed bound_refuses. */
void bound_make(Bound *bound, const Bindings *bindings);

/* That table where there are own keys; else NULL, as where `bindings` is. */
const KeyTable *bound_table(Bound *bound, const Bindings *bindings);

/* A BindingsRefuse: no such action, not there, its key can't be changed, bound twice, or two
 * actions under one key in one state. */
int bound_refuses(const Bindings *bindings, char *why, size_t size);

/* Whether an own key may stand for it: it has one key, and that one is not Esc, Enter, Backspace
 * or ?. */
bool bound_may(const KeyRow *row);

#endif
