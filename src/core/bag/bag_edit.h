/* bag_edit.h - changes of a bag as values, and a log of them that can be gone back and forth in.
 *
 * Pure: what an event allows is the session's to say (session.h), where a bag is kept is main's. */
#ifndef SETTEE_CORE_BAG_BAG_EDIT_H
#define SETTEE_CORE_BAG_BAG_EDIT_H

#include "core/bag/bag.h"

enum { BAG_EDITS_MAX = 1000 };

typedef enum BagEditKind {
    BAG_CHANGE, /* ball `at` becomes `ball`; its id and slot stay */
    BAG_ADD,    /* `ball`, under an id of its own, joins the locker as the last */
    BAG_REMOVE, /* ball `at` leaves */
    BAG_PLACE   /* ball `at` goes to `slot`; what lies there takes its place */
} BagEditKind;

typedef struct BagEdit {
    BagEditKind kind;
    int at;   /* index in the bag */
    int slot; /* 1..6; 0: the locker */
    Ball ball;
} BagEdit;

/* Edits in their order; the first `standing` of them stand, the others were taken back. */
typedef struct BagLog {
    Bag first; /* before any edit */
    int count, standing;
    BagEdit edits[BAG_EDITS_MAX];
} BagLog;

/* Does one edit. False, with why not, when it can't be done: then the bag is as it was. */
bool bag_apply(Bag *bag, const BagEdit *edit, Error *error);

/* The bag after the log's first `count` edits. */
void bag_replay(const BagLog *log, int count, Bag *bag);

/* A copy of a ball, in the locker, under an id that no other ball of the bag has. */
Ball bag_copy_of(const Bag *bag, const Ball *ball);

#endif
