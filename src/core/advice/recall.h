/* recall.h - what outlasts a question: the belief after the shots that were weighed, and before the
 * last of them.
 *
 * When the next question's shots go on from those, only the new ones are weighed; when the last one
 * was taken back or edited, it goes on from before it. Either way the belief is, to the last bit,
 * what weighing all shots from the start makes of it. Allocates nothing; about 2.5 MB. */
#ifndef SETTEE_CORE_ADVICE_RECALL_H
#define SETTEE_CORE_ADVICE_RECALL_H

#include "core/advice/belief.h"
#include "core/event/session.h"

typedef struct Memory {
    Belief belief, before; /* after `seen` shots; after `before_seen`, one less */
    int seen, before_seen; /* -1: nothing is there yet */
    Shot shots[SESSION_SHOTS_MAX];
    Bag bag;   /* from which they were thrown */
    Oil sheet; /* in the bowler's frame */
    int bowlers_on_pair;
} Memory;

void memory_init(Memory *memory);

/* Goes back to the last belief that shots[0..count-1] lead to, or begins again. */
void memory_recall(Memory *memory, const Bag *bag, const Oil *sheet_in_frame, int bowlers_on_pair,
                   const Shot *shots, int count);

/* Weighs the next of the shots that memory_recall was given; false when none is left. A shot whose
 * ball the bag no longer has says nothing. */
bool memory_weigh(Memory *memory, const Shot *shots, int count);

#endif
