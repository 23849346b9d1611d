/* world.h - hidden lanes to rehearse on, each a row of functions and numbers.
 *
 * A world draws a truth from a seed: what lies on both lanes, what the balls and the bowler are
 * today. Then it rolls deliveries on it, wears it, and may change it between shots; its senses say
 * how well the bowler throws and sees. A world is added in a file of its own and
 * named in WORLDS. None but `kin` may share a number with the belief that is to be tested on it.
 * Pure. */
#ifndef SETTEE_CORE_REHEARSE_WORLD_H
#define SETTEE_CORE_REHEARSE_WORLD_H

#include <stddef.h>

#include "core/advice/forecast.h"

/* How well a bowler throws and sees. */
typedef struct Senses {
    double bad_share;      /* of releases, 0..1 */
    double bad_deviations; /* by which a bad one is off, in deviations of the bowler's scatter */
    double told_share;     /* of bad releases that are told as such */
    double eye_boards;     /* deviations: of the hit as seen, */
    double eye_feet;       /* of where it moved, */
    double arrows_boards, breakpoint_boards; /* of the boards on the way */
    double read_ft;                          /* a move that much sooner is called early */
    double random_reads;                     /* share of reads that mean nothing */
    double speed_shown;                      /* share of shots whose speed is shown */
} Senses;

typedef struct World World;

enum { WORLD_FIELD_MAX = 9 };

/* What is true of a block, whatever the players do to it. */
typedef struct Truth {
    const World *world;
    const Bag *bag;      /* the caller's; must outlive the truth */
    Oil oil[SIDE_COUNT]; /* as it lies now, in the bowler's frame */
    bool filled[BAG_SLOTS];
    MotionBody body[BAG_SLOTS];
    BatchBall batch[BAG_SLOTS];
    WearRate rate;
    double mph, launch_deg;               /* the bowler's day, against their usual */
    double tired;                         /* mph lost a game */
    double field_boards[WORLD_FIELD_MAX]; /* the other bowlers' lines about this one */
    double expected_ft[BAG_SLOTS];        /* move that the bowler has come to expect of a ball */
    double off_boards; /* by which hits are not where who knows the lane thinks; mostly 0 */
    Forecast forecast; /* draws of the throw, for truth_outlook */
    void *own;         /* what the world alone knows; own_size bytes, zeroed before each draw */
} Truth;

struct World {
    const char *name, *sentence;
    const Senses *senses;
    size_t own_size; /* of what it alone knows */
    int every;       /* of the draws of an outlook one in so many is rolled */
    void (*draw)(Truth *truth, const Oil *sheet, Rng *rng);
    /* What may happen before a shot on a lane; NULL: nothing. */
    void (*happen)(Truth *truth, Side lane, Rng *rng);
    void (*roll)(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                 Roll *roll);
    /* Many at once, and no luck but the throws' own. */
    void (*arrive)(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                   Arrival *arrivals);
    /* About the aim from a laydown board that hits best, `usual` as line.h has it. */
    double (*aim)(const Truth *truth, Side lane, int slot, const Delivery *usual, double laydown);
    void (*wear)(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover);
};

extern const World WORLD_KIN, WORLD_TILTED, WORLD_JUMPY, WORLD_STRANGER, WORLD_HOUSE, WORLD_BLUNT;
extern const World *const WORLDS[];        /* NULL ends */
const World *world_find(const char *name); /* NULL: there is none */

Truth *truth_new(void); /* heap, owned by the caller; NULL when out of memory */
void truth_free(Truth *truth);

/* `sheet` is what the players are told, in the bowler's frame. */
void truth_draw(Truth *truth, const World *world, const Bag *bag, const Oil *sheet, uint64_t seed);

/* The bowler's speed today against their usual, in game 1.. */
double truth_mph(const Truth *truth, int game);

/* A throw of a plan: the day, the scatter, now and then a bad release, and what is told of it. */
Delivery truth_throw(const Truth *truth, const Plan *plan, int game, Rng *luck, Release *told);

/* What the bowler sees of a delivery that was rolled; `sights`: the boards on the way too. `shot`
 * has its slot. */
void truth_see(Truth *truth, const Roll *roll, const Delivery *delivery, bool sights, Rng *luck,
               Shot *shot);

/* The delivery and the other bowlers' (bowlers_on_pair less one) on the lane. */
void truth_wear(Truth *truth, Side lane, const Roll *roll, Cover cover, int bowlers_on_pair,
                Rng *luck);

/* Makes ready for truth_outlook: after every change of the lane. */
void truth_prepare(Truth *truth, Side lane, int game);
Outlook truth_outlook(const Truth *truth, Side lane, int slot, const Delivery *meant);

/* For worlds with the program's own motion and wear: how widely they draw. Deviations, of
 * logarithms unless a unit is named; middles of 1 are the usual values. */
typedef struct Spreads {
    double volume, lane, board; /* film: the day's, a lane's own, each board's as dressed */
    double dry, film, fade;     /* friction: bare lane; full film, each ball; where contact fades */
    double pick_middle, pick, carry_middle, carry; /* rates of wear */
    double mph, launch_deg;                        /* the bowler's day */
    double field_boards;                           /* other bowlers' lines */
    double tired_mph;                              /* a game, at most; drawn evenly from 0 */
} Spreads;
extern const Spreads WORLD_SPREADS; /* of all worlds but kin; all assumed, none the belief's */
extern const Senses WORLD_SENSES;
void world_draw(Truth *truth, const Oil *sheet, const Spreads *spreads, Rng *rng);
void world_roll(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                Roll *roll);
void world_arrive(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                  Arrival *arrivals);
double world_aim(const Truth *truth, Side lane, int slot, const Delivery *usual, double laydown);
/* The same for any world, by rolling every half board of aim on its own `arrive`. */
double world_aim_by_rolls(const Truth *truth, Side lane, int slot, const Delivery *usual,
                          double laydown);
void world_wear(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover);

#endif
