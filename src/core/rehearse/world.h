/* world.h - hidden lanes to rehearse on, each a row of functions and numbers.
 *
 * A world draws a truth from a seed: the oil on both lanes, the balls and the bowler today. Then it
 * rolls deliveries on it, wears it, and may change it between shots; its senses say how well the
 * bowler throws and sees. Each world has its own file and is listed in WORLDS. Only `kin` may share
 * numbers with the belief, since the worlds test it. Pure. */
#ifndef SETTEE_CORE_REHEARSE_WORLD_H
#define SETTEE_CORE_REHEARSE_WORLD_H

#include <stddef.h>

#include "core/advice/forecast.h"
#include "core/line/others.h"

/* How well a bowler throws and sees. */
typedef struct Senses {
    double bad_share;      /* of releases, 0..1 */
    double bad_deviations; /* how far off a bad one is, in the bowler's standard deviations */
    double told_share;     /* of bad releases that are reported as bad */
    double eye_boards;     /* standard deviations: of the hit as seen, */
    double eye_feet;       /* of where it moved, */
    double arrows_boards, breakpoint_boards; /* of the boards on the way */
    double read_ft;                          /* a move this much sooner is called early */
    double random_reads;                     /* share of reads that mean nothing */
    double speed_shown;                      /* share of shots whose speed is shown */
} Senses;

typedef struct World World;

enum { WORLD_FIELD_MAX = 9 };

/* The truth about a block. */
typedef struct Truth {
    const World *world;
    const Bag *bag;      /* the caller's; must outlive the truth */
    Oil oil[SIDE_COUNT]; /* as it is now, in the bowler's frame */
    bool filled[BAG_SLOTS];
    MotionBody body[BAG_SLOTS];
    BatchBall batch[BAG_SLOTS];
    WearRate rate;
    double mph, launch_deg;               /* the bowler's day, against their usual */
    double tired;                         /* mph lost a game */
    double field_boards[WORLD_FIELD_MAX]; /* the other bowlers' lines, relative to this one */
    Others others[SIDE_COUNT];            /* on each lane; of worlds with people */
    int sought[SIDE_COUNT];               /* the game in which they last looked for a line */
    double expected_ft[BAG_SLOTS];        /* the move the bowler has come to expect of a ball */
    double off_boards;                    /* error of the player that knows the lane; usually 0 */
    bool steady;                          /* throws go as they were meant */
    Forecast forecast;                    /* draws of the throw, for truth_outlook */
    const void *given; /* what the world draws from, where it needs more than a sheet; NULL */
    void *own;         /* private to the world; own_size bytes, zeroed before each draw */
} Truth;

struct World {
    const char *name, *sentence;
    const Senses *senses;
    size_t own_size; /* of Truth.own */
    int every;       /* an outlook rolls every `every`th draw */
    void (*draw)(Truth *truth, const Oil *sheet, Rng *rng);
    /* What may happen before a shot on a lane; NULL: nothing. */
    void (*happen)(Truth *truth, Side lane, Rng *rng);
    void (*roll)(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                 Roll *roll);
    /* Many at once, with no luck besides the throws' own. */
    void (*arrive)(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                   Arrival *arrivals);
    /* Roughly the best aim from a laydown board; `usual` as in line.h. */
    double (*aim)(const Truth *truth, Side lane, int slot, const Delivery *usual, double laydown);
    void (*wear)(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover);
    bool people; /* the others have lines of their own (others.h); else yours, shifted */
};

extern const World WORLD_KIN, WORLD_TILTED, WORLD_JUMPY, WORLD_STRANGER, WORLD_HOUSE, WORLD_BLUNT;
extern const World *const WORLDS[];        /* NULL ends */
const World *world_find(const char *name); /* NULL: there is none */

Truth *truth_new(void); /* heap, owned by the caller; NULL when out of memory */
void truth_free(Truth *truth);

/* `sheet` is what the players get, in the bowler's frame. */
void truth_draw(Truth *truth, const World *world, const Bag *bag, const Oil *sheet, uint64_t seed);

/* The bowler's speed today against their usual, in game 1.. */
double truth_mph(const Truth *truth, int game);

/* A throw of a plan, with the bowler's day, scatter, and sometimes a bad release; `told` receives
 * the release as reported. */
Delivery truth_throw(const Truth *truth, const Plan *plan, int game, Rng *luck, Release *told);

/* What the bowler sees of a delivery; `sights`: also the boards on the way. `shot` has its slot. */
void truth_see(Truth *truth, const Roll *roll, const Delivery *delivery, bool sights, Rng *luck,
               Shot *shot);

/* Who shares the pair, in worlds with people: nobody until this is said. */
void truth_meet(Truth *truth, const FieldMix *mix, int others, uint64_t seed);

/* Wears the lane with the delivery and one of each other bowler (bowlers_on_pair less one). */
void truth_wear(Truth *truth, Side lane, int game, const Roll *roll, Cover cover,
                int bowlers_on_pair, Rng *luck);

/* Prepares truth_outlook; call after every change of the lane. */
void truth_prepare(Truth *truth, Side lane, int game);
Outlook truth_outlook(const Truth *truth, Side lane, int slot, const Delivery *meant);

/* For worlds with the program's own motion and wear: how widely they draw. Standard deviations, of
 * logarithms unless a unit is named; a middle of 1 is the usual value. */
typedef struct Spreads {
    double volume, lane, board; /* film: the day's, a lane's own, each board's as dressed */
    double dry, film, fade;     /* friction: bare lane; full film, each ball; where contact fades */
    double pick_middle, pick, carry_middle, carry; /* rates of wear */
    double mph, launch_deg;                        /* the bowler's day */
    double field_boards;                           /* other bowlers' lines */
    double tired_mph;                              /* a game, at most; drawn evenly from 0 */
} Spreads;
extern const Spreads WORLD_SPREADS; /* of all worlds but kin; all assumed, none the belief's */
extern const Spreads WORLD_KIN_SPREADS;
extern const Senses WORLD_SENSES;
extern const Senses WORLD_KIN_SENSES; /* of kin, and of a past day */
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
/* A film drawn out down the lane by a factor; it is as thick as it was. */
void world_stretch(const Oil *oil, double factor, Oil *out);

#endif
