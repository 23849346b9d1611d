/* strength.h - the order of a bag's balls from strong to weak: what "ball down" and "ball up" step
 * through.
 *
 * Each is rolled as this bowler releases it down one line that belongs to the sheet and to no
 * ball: from board 20 through the breakpoint of the trade's rule (length less 31; common practice,
 * no source). A ball is strong that hooks much and early. Fixed for an event: it does not change
 * with the line in play or as the lane wears. Pure. */
#ifndef SETTEE_CORE_LINE_STRENGTH_H
#define SETTEE_CORE_LINE_STRENGTH_H

#include "core/bag/bag.h"
#include "core/motion/motion.h"

typedef struct Strength {
    double hook_boards; /* at the pins, against the straight line */
    double hook_ft;     /* where it hooks (motion.h); LANE_LENGTH_FT if it never does */
    double score;       /* boards: hook_boards, and a quarter for every foot sooner than 45 */
} Strength;

/* Scores nearer than that are alike: neither is a step up or down (assumed). */
#define STRENGTH_ALIKE 0.3

/* `sheet`: the film before the first ball, in the bowler's frame. */
Strength strength_of(const MotionBody *body, const Oil *sheet, const Bowler *bowler);

/* The slots that hold a ball, strongest first; spare balls (polyester) last. Returns how many;
 * `strength` by slot less 1, may be NULL. */
int strength_order(const Bag *bag, const Oil *sheet, int slots[BAG_SLOTS],
                   Strength strength[BAG_SLOTS]);

#endif
