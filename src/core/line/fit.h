/* fit.h - how well a ball suits a film: the line with the most value, found with batches alone.
 *
 * Comes within a few hundredths of line_best's value in well under 1 ms instead of some 10: for
 * tables of many balls on many films. Pure; allocates nothing. */
#ifndef SETTEE_CORE_LINE_FIT_H
#define SETTEE_CORE_LINE_FIT_H

#include "core/line/line.h"
#include "core/motion/batch.h"

typedef struct Fit {
    bool found;   /* a launch brings it to the pocket */
    double value; /* as line_value */
    double pocket, entry_deg, margin_boards;
    double laydown_board, aim;
} Fit;

Fit fit_ball(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler);
/* The same among laydown boards low..high, as far as the bowler can stand for them. */
Fit fit_between(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler, double low,
                double high);

/* The full line for a fit, measured with single rolls. */
Line fit_line(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Fit *fit);

#endif
