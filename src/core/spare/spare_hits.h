/* spare_hits.h - what becomes of a leave over where the ball hits: simulated racks, smoothed.
 *
 * In the bowler's own frame, pins mirrored for a left-hander by the caller. Hits are counted by the
 * board on which the ball's straight path crosses the row of the foremost standing pin: so counted,
 * what it does hardly hangs on the angle. Pure: every rack's seed follows from its place. */
#ifndef SETTEE_CORE_SPARE_SPARE_HITS_H
#define SETTEE_CORE_SPARE_SPARE_HITS_H

#include "core/pins/rack.h"

/* What the next ball is worth to a spare, in pins (assumed: a bowler's usual first ball). */
#define SPARE_BONUS 9.0

/* Half boards from one gutter's edge to the other. */
enum { SPARE_PLACES = 79 };
static inline double spare_place_board(int place) { return 0.5 + 0.5 * place; }

typedef struct SpareHits {
    Pins left;
    double back_in;             /* the foremost row, inches behind the head pin */
    double degrees;             /* heading that the racks were rolled at */
    int racks;                  /* simulated */
    double made[SPARE_PLACES];  /* chance that all of them fall, 0..1 */
    double falls[SPARE_PLACES]; /* mean number that fall */
} SpareHits;

/* Board where a ball that arrives at the head pin's distance so crosses that row. */
double spare_hits_across(const SpareHits *hits, double board, double degrees);

/* The other way: its board at the head pin's distance when it crosses the row of the foremost pin
 * of `left` at `across`. */
double spare_board_before(Pins left, double across, double degrees);

/* Board of a pin's spot. */
double spare_pin_board(int pin);

/* Racks being rolled, in steps; the caller's storage, spare_hits.c's own matter. */
typedef struct SpareCount {
    int racks, made, falls;
} SpareCount;
typedef struct SpareRoll {
    RackHit hit;
    SpareCount count[SPARE_PLACES];
    bool may[SPARE_PLACES]; /* a ball there may touch a pin that stands */
    int racks_most;
    int place, place_last; /* the next to be rolled at, and the last */
    int stride, nth;       /* every so many of those that may, and how many were passed */
    int each;              /* racks a place */
    double width;          /* of smoothing, in places */
    bool about_best;       /* evenly first, then about the best place */
} SpareRoll;

/* Begins to roll racks for a ball that comes so (its board is not looked at). `effort`: what the
 * simulation may cost, about in microseconds on one core; the count of racks follows from it, not
 * from a clock. `left` must not be 0. */
void spare_hits_begin(SpareRoll *roll, Pins left, const RackHit *hit, double effort,
                      SpareHits *hits);

/* Rolls some of them, a few milliseconds; true when `hits` holds all. */
bool spare_hits_step(SpareRoll *roll, SpareHits *hits);

/* All of it at once. */
void spare_hits_roll(Pins left, const RackHit *hit, double effort, SpareHits *hits);

/* The two curves between places; 0 outside of the lane. */
double spare_hits_made(const SpareHits *hits, double across);
double spare_hits_falls(const SpareHits *hits, double across);

/* The place worth most, in pins with SPARE_BONUS for all of them, to aim a ball that scatters by so
 * many boards at the row of the foremost pin; `made` (may be NULL) receives its chance to make all.
 */
int spare_hits_best(const SpareHits *hits, double deviation, double *made);

/* The pin that a ball on this path touches first (0: none), and by how much its centre passes to
 * the right of the pin's as seen from the foul line, inches. */
int spare_first_pin(Pins left, double board, double degrees, double *right_in);

#endif
