/* offsets.h - boards at the pins that nothing else explains, as a smooth function of the line.
 *
 * Of each lane a function of the board where a ball is laid down and one of the board where it
 * turns, each by its values at a few knots and straight between them; of each ball a number. What
 * was seen on a line so counts most on that line, less a few boards away, less on the other lane.
 * All of it is normal and adds up, so that what is known of it is a mean and a covariance
 * (Kalman): the means are each particle's own, the covariance is common to them. */
#ifndef SETTEE_CORE_ADVICE_OFFSETS_H
#define SETTEE_CORE_ADVICE_OFFSETS_H

#include "core/event/shot.h"

enum { OFFSETS_LAYDOWNS = 9, OFFSETS_TURNS = 8, OFFSETS_BALLS = 8 };
enum {
    OFFSETS_OF_LANE = OFFSETS_LAYDOWNS + OFFSETS_TURNS,
    OFFSETS_FIRST_BALL = SIDE_COUNT * OFFSETS_OF_LANE,
    OFFSETS_COUNT = OFFSETS_FIRST_BALL + OFFSETS_BALLS,
    OFFSETS_ROW = 5
};

typedef struct Doubt {
    double of[OFFSETS_COUNT][OFFSETS_COUNT]; /* covariance, boards squared */
} Doubt;

/* The few numbers that add up to what a line of a ball is off by, each with its share. */
typedef struct OffsetsAt {
    int count, index[OFFSETS_ROW];
    double share[OFFSETS_ROW];
} OffsetsAt;

/* Of a ball by its number from 1 (0: of none), laid down and turning at these boards. */
OffsetsAt offsets_at(Side lane, int ball, double laydown_board, double turn_board);

/* The sum. `means`: of all OFFSETS_COUNT. */
double offsets_mean(const OffsetsAt *at, const double *means);

/* Before anything was seen; all means are 0 then. */
void offsets_begin(Doubt *doubt);

/* A lane goes on while a shot is thrown. */
void offsets_drift(Doubt *doubt, Side lane);

/* Had a lane just jumped, or with it the bowler on both: how uncertain all would be. */
void offsets_jumped(const Doubt *doubt, Side lane, Doubt *jumped);

/* Both lanes are changed for others of the same house: how uncertain all is then, and the means,
 * which keep what lanes have alike. Balls keep theirs. */
void offsets_next_pair(Doubt *doubt);
void offsets_carry(double means[OFFSETS_COUNT]);

/* How uncertain the sum is, a variance; and how each number goes with it. */
double offsets_variance(const Doubt *doubt, const OffsetsAt *at, double with[OFFSETS_COUNT]);

double offsets_doubt(const Doubt *doubt, const OffsetsAt *at); /* the variance alone */

/* Evidence has brought that variance from `was` to `is`. */
void offsets_learn(Doubt *doubt, const double with[OFFSETS_COUNT], double was, double is);

/* One thing or the other is true, the second with a chance of `share`: what is known then. Their
 * means lie apart by x `apart` + y `other_apart`, with these mean squares of x, y and x y. */
void offsets_mix(Doubt *doubt, const Doubt *other, double share, const double apart[OFFSETS_COUNT],
                 const double other_apart[OFFSETS_COUNT], double xx, double yy, double xy);

#endif
