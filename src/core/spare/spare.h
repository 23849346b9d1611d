/* spare.h - how to pick up what the first ball left: which ball, from where, over what, how likely.
 *
 * Takes the straightest ball unless the strike ball converts clearly more often. Chances come from
 * the bowler's own scatter on the given film, rolled by the motion model, and from simulated racks
 * by where the ball hits (spare_hits.h); docs/spares.md has the checks and the assumptions. Boards
 * count from the bowler's own side; pins are numbered as on the deck for either hand. Pure,
 * deterministic, no allocation; at most 100 ms on one core with the default effort. */
#ifndef SETTEE_CORE_SPARE_SPARE_H
#define SETTEE_CORE_SPARE_SPARE_H

#include <stdbool.h>
#include <stddef.h>

#include "core/bag/bag.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

#define SPARE_EFFORT 30000.0 /* simulation, about in microseconds on one core */

typedef struct SpareInput {
    const Bag *bag;
    const Oil *film;    /* in the bowler's frame */
    Pins left;          /* 1..PINS_ALL */
    int slot;           /* the strike ball's; 0 or an empty slot: the first filled one */
    double stance, aim; /* the strike ball's current line; aim 0: unknown, so no 3-6-9 move */
    const Ball *ball;   /* throw this one; NULL: choose */
    double effort;      /* 0: SPARE_EFFORT; less is coarser */
} SpareInput;

/* Which side of the first pin it touches the ball hits, seen from the foul line. */
typedef enum SpareSide { SPARE_FULL, SPARE_LEFT_SIDE, SPARE_RIGHT_SIDE } SpareSide;
extern const char *const SPARE_SIDE_NAMES[4]; /* "full", "left", "right" */

/* One way to throw at it. */
typedef struct SpareLine {
    const Ball *ball;   /* the bag's */
    double stance, aim; /* to the half board */
    Delivery delivery;
    double board, degrees, mph; /* at the head pin's distance */
    double chance;              /* that all fall, under the bowler's scatter */
    double falls;               /* mean pins */
    int pin;                    /* touched first, 0: none */
    SpareSide side;
    double across;                  /* board of the ball at the row of the foremost pin */
    double window_low, window_high; /* boards there between which it converts more often than not
                                     * (or half as often as at its best); low == high: nowhere */
} SpareLine;

/* The 3-6-9 move (common practice, no source): the strike ball over the strike aim, moving the feet
 * three boards per pin column, in for pins on the bowler's own side. Feet count at the start of the
 * approach; walking toward the aim leaves about half of the move at the foul line. */
typedef struct SpareMove {
    bool known;
    double boards;      /* of feet, + in, toward the bowler's other side */
    double laydown;     /* the same at the foul line */
    double stance, aim; /* feet and aim after the move */
    double chance;      /* of that line on this film, to make the spare */
    bool computed_found;
    double computed, computed_laydown; /* the move the model finds for that ball and aim */
    double computed_chance;
} SpareMove;

typedef struct Spare {
    bool found; /* false: no ball in a slot */
    Pins left;
    bool split;
    SpareLine line;         /* with the best chance */
    bool strike_ball;       /* `line` uses the strike ball, for its angle */
    const Ball *straight;   /* the straightest ball */
    double straight_chance; /* its best chance, if `strike_ball` */
    bool take;              /* `sure` is worth more pins than going for all of them */
    SpareLine sure;
    SpareMove move;
    char system[96]; /* the target, and if it is the usual one: "the middle arrow, as for ..." */
    char words[200];
    const char *tells; /* what the leave says about the first ball (common practice), or "" */
} Spare;

/* Spare lines are thrown less often than the strike line, and across the lane, so the bowler's
 * scatter is widened by this factor. Fitted to the 10 pin in tour finals, docs/spares.md. */
#define SPARE_WIDER 1.5

/* Standard deviation of a straight spare ball, in boards at the pins. */
double spare_miss(const Bowler *bowler);

/* A job in slices, as in advice.h. */
typedef struct SpareJob SpareJob;
SpareJob *spare_job_new(void); /* heap, owned by the caller; NULL if out of memory */
void spare_job_free(SpareJob *job);

/* The film is copied; bag and ball must outlive the job's steps, and its result. */
void spare_begin(SpareJob *job, const SpareInput *input);
bool spare_step(SpareJob *job);                 /* a few milliseconds; true when all is done */
const Spare *spare_result(const SpareJob *job); /* owned by the job; complete once it is done */

/* The whole job at once. */
void spare_find(const SpareInput *input, Spare *spare);

/* What a leave usually says about the first ball, for that hand; "" if nothing. Static text. */
const char *spare_tells(Pins left, bool ringing, Hand hand);

#endif
