/* fit.h - how well a ball suits a film: its line of most value, found by batches alone.
 *
 * What line_best finds in some 10 ms, to a few hundredths of value, in well under one: for tables
 * of many balls on many films. Pure; allocates nothing. */
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

/* The line at a fit, in full: rolled one at a time and measured. */
Line fit_line(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Fit *fit);

#endif
