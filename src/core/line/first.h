/* first.h - the ball and line to begin with, before anyone has seen the lane. */
#ifndef SETTEE_CORE_LINE_FIRST_H
#define SETTEE_CORE_LINE_FIRST_H

#include "core/bag/bag.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

/* The ball of the slots whose best line is the best (line_better) on a film in the bowler's frame,
 * aim on half boards. Polyester is left for spares where there is another ball. The plan's slot is
 * 0 when no ball is in a slot. */
Plan first_plan(const Bag *bag, const Oil *oil);

#endif
