/* bag_edit.h - changes to a bag as values, and a log of them for undo and redo.
 *
 * Pure: session.h knows what an event allows, main where a bag is saved. */
#ifndef SETTEE_CORE_BAG_BAG_EDIT_H
#define SETTEE_CORE_BAG_BAG_EDIT_H

#include "core/bag/bag.h"

enum { BAG_EDITS_MAX = 1000 };

typedef enum BagEditKind {
    BAG_CHANGE, /* ball `at` becomes `ball`; its id and slot stay */
    BAG_ADD,    /* `ball`, with an id of its own, goes last into the locker */
    BAG_REMOVE, /* ball `at` is removed */
    BAG_PLACE   /* ball `at` goes to `slot`; a ball there swaps with it */
} BagEditKind;

typedef struct BagEdit {
    BagEditKind kind;
    int at;   /* index in the bag */
    int slot; /* 1..6; 0: the locker */
    Ball ball;
} BagEdit;

/* Edits in order; the first `standing` are active, the rest are undone. */
typedef struct BagLog {
    Bag first; /* before any edit */
    int count, standing;
    BagEdit edits[BAG_EDITS_MAX];
} BagLog;

/* Does one edit. False, with why, if it can't be done; the bag is then unchanged. */
bool bag_apply(Bag *bag, const BagEdit *edit, Error *error);

/* The bag after the log's first `count` edits. */
void bag_replay(const BagLog *log, int count, Bag *bag);

/* A copy of a ball, in the locker, with an id no other ball of the bag has. */
Ball bag_copy_of(const Bag *bag, const Ball *ball);

#endif
