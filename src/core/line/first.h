/* first.h - the ball and line to start with, before anyone has seen the lane. A job in slices, as
 * in advice.h: begin, then step until it returns true. */
#ifndef SETTEE_CORE_LINE_FIRST_H
#define SETTEE_CORE_LINE_FIRST_H

#include "core/bag/bag.h"
#include "core/lane/oil.h"
#include "core/line/line.h"
#include "core/motion/delivery.h"

/* The caller's storage; only `plan` is for the caller to read. */
typedef struct FirstJob {
    const Bag *bag; /* both must outlive the job */
    const Oil *oil;
    int slot;         /* the ball being tried */
    double low, high; /* laydowns to try */
    double laydown;   /* the next of them */
    Line line, best;  /* that ball's best so far; the plan's */
    bool spare;       /* the plan uses a spare ball */
    Plan plan;        /* best so far; once done, the plan to start with */
} FirstJob;

/* For a film in the bowler's frame. */
FirstJob first_begin(const Bag *bag, const Oil *oil);

/* Tries a few laydowns of one ball, a few milliseconds; true when done. */
bool first_step(FirstJob *job);

/* The whole job at once: the slot's ball with the best line (line_better), aim in half boards.
 * Polyester is kept for spares if there is another ball. The plan's slot is 0 if no slot has a
 * ball. */
Plan first_plan(const Bag *bag, const Oil *oil);

#endif
