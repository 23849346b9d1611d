/* strength.h - the order of a bag's balls from strong to weak: what "ball down" and "ball up" step
 * through.
 *
 * Each is rolled, with this bowler's release, down one line that depends on the sheet and not on
 * the ball: from board 20 through the breakpoint of the rule of 31 (pattern length less 31; common
 * practice, no source). A strong ball hooks a lot and early. The order is fixed for an event: it
 * doesn't change with the line in play or as the lane wears. Pure. */
#ifndef SETTEE_CORE_LINE_STRENGTH_H
#define SETTEE_CORE_LINE_STRENGTH_H

#include "core/bag/bag.h"
#include "core/motion/motion.h"

typedef struct Strength {
    double hook_boards; /* at the pins, against the straight line */
    double hook_ft;     /* where it hooks (motion.h); LANE_LENGTH_FT if it never does */
    double score;       /* boards: hook_boards plus a quarter for each foot sooner than 45 */
} Strength;

/* Balls with scores closer than this are alike: neither is a step up or down (assumed). */
#define STRENGTH_ALIKE 0.3

/* `sheet`: the film before the first ball, in the bowler's frame. */
Strength strength_of(const MotionBody *body, const Oil *sheet, const Bowler *bowler);

/* The slots that hold a ball, by their strengths (indexed by slot - 1): strongest first, spare
 * balls (polyester) last. Returns how many. */
int strength_rank(const Bag *bag, const Strength strength[BAG_SLOTS], int slots[BAG_SLOTS]);

/* The same, and computes the strengths; `strength` may be NULL. */
int strength_order(const Bag *bag, const Oil *sheet, int slots[BAG_SLOTS],
                   Strength strength[BAG_SLOTS]);

#endif
