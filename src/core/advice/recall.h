/* recall.h - what is kept between questions: the belief after the shots weighed so far, and before
 * the last of them.
 *
 * If the next question's shots continue those, only the new ones are weighed; if the last one was
 * undone or edited, weighing continues from before it. Either way the belief is the same, to the
 * last bit, as after weighing all shots from the start. Allocates nothing; about 8 MB, of
 * which a belief with a sheet touches 2.5. */
#ifndef SETTEE_CORE_ADVICE_RECALL_H
#define SETTEE_CORE_ADVICE_RECALL_H

#include "core/advice/belief.h"
#include "core/event/session.h"

/* A stay on a pair: what was bowled there before its first shot and not reported, frames by
 * everybody on it, in turn on both lanes, on a line like that of `as`. */
typedef struct Played {
    int shot; /* index of the first shot of the stay; of the first stay 0 */
    int frames;
    Shot as;
} Played;

typedef struct Memory {
    Belief belief, before; /* after `seen` shots; after `before_seen`, one less */
    int seen, before_seen; /* -1: nothing is there yet */
    bool unworn;           /* the last shot is weighed, but has not worn the lane yet */
    int stay, before_stay; /* the stay each of the two is at, from 0 */
    Shot shots[SESSION_SHOTS_MAX];
    Bag bag;     /* from which they were thrown */
    Oil sheet;   /* in the bowler's frame */
    About about; /* what is known of it where it has none */
    int bowlers_on_pair;
    int played_count;
    Played played[SESSION_GAMES_MAX]; /* by stay */
    int frames_worn; /* of those of this stay, by how many the belief's films are worn */
} Memory;

void memory_init(Memory *memory);

/* Goes back to the latest belief that shots[0..count-1] agree with, or starts over. `played`: the
 * stays, at least one, by their first shot. */
void memory_recall(Memory *memory, const Bag *bag, const Oil *sheet_in_frame, const About *about,
                   int bowlers_on_pair, const FieldMix *mix, const Played *played, int played_count,
                   const Shot *shots, int count);

/* Weighs the next of the shots given to memory_recall, or wears the lane with the last one weighed,
 * or does part of what must come before the first; false if nothing is left. A shot with a ball no
 * longer in the bag says nothing. */
bool memory_weigh(Memory *memory, const Shot *shots, int count);

#endif
