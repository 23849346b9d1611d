/* first.h - the ball and line to begin with, before anyone has seen the lane. A job in slices, as
 * advice.h: begin, then step until it returns true. */
#ifndef SETTEE_CORE_LINE_FIRST_H
#define SETTEE_CORE_LINE_FIRST_H

#include "core/bag/bag.h"
#include "core/lane/oil.h"
#include "core/line/line.h"
#include "core/motion/delivery.h"

/* The caller's storage; but for the plan its members are for first.c alone. */
typedef struct FirstJob {
    const Bag *bag; /* both must outlive the job */
    const Oil *oil;
    int slot;         /* whose lines are being tried */
    double low, high; /* laydowns to try */
    double laydown;   /* the next of them */
    Line line, best;  /* that ball's best so far; the plan's */
    bool spare;       /* the plan is with a spare ball */
    Plan plan;        /* best so far; once done, the plan to begin with */
} FirstJob;

/* For a film in the bowler's frame. */
FirstJob first_begin(const Bag *bag, const Oil *oil);

/* Some laydowns of one ball, a few milliseconds; true when all is done. */
bool first_step(FirstJob *job);

/* All of it: the ball of the slots whose best line is the best (line_better), aim on half boards.
 * Polyester is left for spares where there is another ball. The plan's slot is 0 when no ball is in
 * a slot. */
Plan first_plan(const Bag *bag, const Oil *oil);

#endif
