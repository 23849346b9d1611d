/* wear.h - what deliveries do to the oil, and what the shots say is left of it.
 *
 * Oil conserved: what leaves the lane is on the ball. Constants are assumed (docs/model.md). */
#ifndef SETTEE_CORE_WEAR_H
#define SETTEE_CORE_WEAR_H

#include "core/motion.h"
#include "core/session.h"

/* Takes oil up along a delivery's path and carries some of it on. `shift_boards` moves the whole
 * track sideways (another bowler's line near this one). Returns what stays on the ball, mL. */
double wear_delivery(Oil *oil, const Roll *roll, Cover cover, double shift_boards);

enum { LANE_SCALES = 11, LANE_EVIDENCE_MAX = 12 };

/* One lane of the pair: its sheet as worn by what was thrown, and how much film the shots say
 * there is against that. A grid over one number, the film's scale, with a prior about 1. */
typedef struct LaneState {
    Oil oil; /* bowler's frame, worn, not yet scaled */
    double log_weight[LANE_SCALES];
    int deliveries;         /* thrown on it so far, all bowlers */
    int evidence;           /* good shots that were weighed */
    double scale, scale_sd; /* mean and deviation of the film's scale; 1 = as worn */
} LaneState;

void lane_begin(LaneState *lane, const Oil *sheet_in_frame);

/* Weighs what was seen of a shot, before it wears the lane. `trust` 1 for this lane's own shots,
 * less for a shot on the other lane. Shots of a bad release say little and are passed over. */
void lane_weigh(LaneState *lane, const Bowler *bowler, const MotionBody *body, const Shot *shot,
                double trust);

/* The shot wears the lane, and so do the other bowlers' that come with it. */
void lane_wear(LaneState *lane, const Bowler *bowler, const MotionBody *body, const Ball *ball,
               const Shot *shot, int bowlers_on_pair);

/* The film as estimated: worn and scaled. */
void lane_film(const LaneState *lane, Oil *oil);

#endif
