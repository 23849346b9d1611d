/* learnt.h - what the events of a bag say of its numbers: the bowler's speed and scatter, and by
 * how much each ball hits higher or lighter than its numbers.
 *
 * A ball: each event's shots are weighed as for advice (belief.h); what they say of the ball's own
 * boards, which no lane explains, adds up over the events. Speed: the mean of the speeds typed.
 * Scatter: how much the hits of balls thrown alike differ, one after the other on one lane. How
 * often all this is right is measured (docs/learnt.md). Pure, deterministic; allocates in
 * learnt_new alone. */
#ifndef SETTEE_CORE_ADVICE_LEARNT_H
#define SETTEE_CORE_ADVICE_LEARNT_H

#include "core/bag/taken.h"
#include "core/event/session.h"

enum {
    LEARNT_EVENTS_LEAST = 3, /* fewer say nothing */
    LEARNT_EVENTS_MOST = 8,  /* the latest: bowlers and covers change; and it takes time */
    LEARNT_MAX = BAG_BALLS_MAX + 2
};

/* One number of the bag, and what the events say of it. */
typedef struct LearntValue {
    LearntKind kind;
    int ball;   /* LEARNT_BALL: index in the bag */
    double now; /* in the bag: mph; boards at the arrows; the ball's cover_strength */
    double to;  /* the same as learnt */
    double
        boards; /* LEARNT_BALL: by which it hits higher (lower than 0: lighter) than its numbers */
    double low, high;  /* 95 % interval, of `to`; LEARNT_BALL: of `boards` */
    int shots, events; /* that it comes from */
    bool offered;      /* clear and large enough to take over */
} LearntValue;

/* Offered where the 95 % interval leaves out what is in the bag, and it differs by as much as this
 * at least (assumed: less changes no advice). */
#define LEARNT_LEAST_MPH 0.3
#define LEARNT_LEAST_ARROWS_BOARDS 0.3
#define LEARNT_LEAST_HIT_BOARDS 0.5

typedef struct LearntJob LearntJob;
LearntJob *learnt_new(void); /* heap, owned by the caller; NULL when out of memory */
void learnt_free(LearntJob *job);

/* Forgets all events; `bag` has the numbers that are asked about. */
void learnt_begin(LearntJob *job, const Bag *bag);

/* Begins to weigh an event, which must outlive its steps. It has the job's bag, so that shots are
 * compared with the numbers that are there now. False: no scored shot is in it; nothing counts. */
bool learnt_event(LearntJob *job, const Session *session);

/* A slice of that, a few milliseconds; false when it is done. */
bool learnt_step(LearntJob *job);

/* How many events were weighed. */
int learnt_events(const LearntJob *job);

/* Every number that the events say something of, speed first; none before LEARNT_EVENTS_LEAST.
 * Returns how many. */
int learnt_values(const LearntJob *job, LearntValue out[LEARNT_MAX]);

/* Takes it over into a bag, marked as learnt; taken_back undoes it. */
void learnt_take(const LearntValue *value, Bag *bag);

/* "Your 3000 pearl hits 0.8 board higher than its numbers (62 shots)." */
void learnt_words(const LearntValue *value, const Bag *bag, char *out, unsigned long size);

#endif
