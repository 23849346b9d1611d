/* spare_hits.h - what happens to a leave, by where the ball hits: simulated racks, smoothed.
 *
 * In the bowler's own frame; the caller mirrors a left-hander's pins. A hit's place is the board on
 * which the ball's straight path crosses the row of the foremost standing pin: by that measure, the
 * result hardly depends on the angle. Pure: every rack's seed follows from its place. */
#ifndef SETTEE_CORE_SPARE_SPARE_HITS_H
#define SETTEE_CORE_SPARE_SPARE_HITS_H

#include "core/pins/rack.h"

/* Bonus for a spare, in pins: the next ball (assumed: a bowler's usual first ball). */
#define SPARE_BONUS 9.0

/* Half boards from one gutter's edge to the other. */
enum { SPARE_PLACES = 79 };
static inline double spare_place_board(int place) { return 0.5 + 0.5 * place; }

typedef struct SpareHits {
    Pins left;
    double back_in;             /* the foremost row, inches behind the head pin */
    double degrees;             /* heading the racks were rolled at */
    int racks;                  /* simulated */
    double made[SPARE_PLACES];  /* chance that all of them fall, 0..1 */
    double falls[SPARE_PLACES]; /* mean number that fall */
} SpareHits;

/* Board on which a ball arriving like this at the head pin's distance crosses that row. */
double spare_hits_across(const SpareHits *hits, double board, double degrees);

/* The reverse: the board at the head pin's distance for a ball that crosses the row of the foremost
 * pin of `left` at `across`. */
double spare_board_before(Pins left, double across, double degrees);

/* Board of a pin's spot. */
double spare_pin_board(int pin);

/* Racks being rolled in steps: the caller's storage, private to spare_hits.c. */
typedef struct SpareCount {
    int racks, made, falls;
} SpareCount;
typedef struct SpareRoll {
    RackHit hit;
    SpareCount count[SPARE_PLACES];
    bool may[SPARE_PLACES]; /* a ball there may touch a pin that stands */
    int racks_most;
    int place, place_last; /* the next to be rolled at, and the last */
    int stride, nth;       /* roll every stride-th of those that may; how many were passed */
    int each;              /* racks per place */
    double width;          /* of smoothing, in places */
    bool about_best;       /* first evenly, then around the best place */
} SpareRoll;

/* Starts rolling racks for a ball that arrives like `hit` (its board is ignored). `effort`: what
 * the simulation may cost, roughly in microseconds on one core; it sets the number of racks, no
 * clock is read. `left` must not be 0. */
void spare_hits_begin(SpareRoll *roll, Pins left, const RackHit *hit, double effort,
                      SpareHits *hits);

/* Rolls some of them, a few milliseconds; true when `hits` holds all. */
bool spare_hits_step(SpareRoll *roll, SpareHits *hits);

/* The whole roll at once. */
void spare_hits_roll(Pins left, const RackHit *hit, double effort, SpareHits *hits);

/* The two curves, interpolated; 0 outside the lane. */
double spare_hits_made(const SpareHits *hits, double across);
double spare_hits_falls(const SpareHits *hits, double across);

/* The place to aim at that is worth most, in pins plus SPARE_BONUS for all of them, for a ball with
 * that standard deviation in boards at the row of the foremost pin; `made` (may be NULL) receives
 * the chance of all. */
int spare_hits_best(const SpareHits *hits, double deviation, double *made);

/* The pin a ball on this path touches first (0: none), and how far its centre passes to the right
 * of the pin's, seen from the foul line, in inches. */
int spare_first_pin(Pins left, double board, double degrees, double *right_in);

#endif
