/* rack.h - what a hit does to the pins.
 *
 * Everything uses one rack: the advice, the belief and `settee rack` read a full rack's chances
 * from a table compiled into the program, in under a microsecond. rack_roll draws full racks from
 * the same table, and simulates any other set of pins the way the table's racks were simulated
 * (pins as tilting rigid bodies). All in the bowler's own frame: boards from the bowler's own side,
 * pins numbered as a right-hander sees them; mirror a left-hander's with lane_mirror_pins.
 * docs/rack.md has the sources, what was fitted and what was held out. */
#ifndef SETTEE_CORE_PINS_RACK_H
#define SETTEE_CORE_PINS_RACK_H

#include "base/rng.h"
#include "core/lane/lane.h"

/* A ball arriving: its centre's board and heading at the head pin's distance (60 ft). */
typedef struct RackHit {
    double board;
    double degrees; /* + toward the bowler's other side */
    double mph;
    double rpm; /* roll and spin as it arrives; 0: rolling without slip */
    double pounds;
} RackHit;

/* One ball at the pins of `set`; returns those left standing. Always takes one number from `rng`;
 * the same state of it gives the same rack. A full rack hit within the table's boards falls as
 * rack_leave_chance says. */
Pins rack_roll(const RackHit *hit, Pins set, Rng *rng);

enum { RACK_LEAVES_MAX = 24 };

typedef struct RackChances {
    double strike;   /* 0..1 */
    double pinfall;  /* mean pins of the first ball, 0..10 */
    int leave_count; /* commonest first, strike excluded */
    Pins leave[RACK_LEAVES_MAX];
    double leave_chance[RACK_LEAVES_MAX];
} RackChances;

/* From the table, for a full rack; inputs outside the table are moved to its edge. */
double rack_strike(double board, double degrees, double mph, double pounds);
double rack_pinfall(double board, double degrees, double mph, double pounds);

/* Both of a hit whose board is uncertain: `count` boards with weights that add up to 1. */
typedef struct RackMeans {
    double strike, pinfall;
} RackMeans;
RackMeans rack_means(const double *boards, const double *weights, int count, double degrees,
                     double mph, double pounds);
void rack_chances(double board, double degrees, double mph, double pounds, RackChances *out);

/* Chance of exactly this leave (0: strike). A leave the table doesn't list there gets a small share
 * of its class; all 1,024 sum to 1. */
double rack_leave_chance(Pins left, double board, double degrees, double mph, double pounds);

/* Likelihood of a leave given a hit: the chance above, tempered and floored so that one odd rack
 * convinces nobody: (doubt + (1 - doubt) chance) ^ temper. Both assumed. */
#define RACK_DOUBT 0.01 /* share of racks that may leave anything; lower: odd racks count more */
#define RACK_TEMPER 0.7 /* 1: taken at face value; 0: ignored */
double rack_leave_likelihood(Pins left, double board, double degrees, double mph, double pounds);

#endif
