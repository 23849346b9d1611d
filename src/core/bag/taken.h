/* taken.h - numbers of a bag taken over from what events say of them (advice/learnt.h), and taken
 * back: what stood before is kept in the bag, with where it came from. */
#ifndef SETTEE_CORE_BAG_TAKEN_H
#define SETTEE_CORE_BAG_TAKEN_H

#include "core/bag/bag.h"

typedef enum LearntKind { LEARNT_MPH, LEARNT_SCATTER, LEARNT_BALL } LearntKind;

/* Puts it in, marked as learnt: mph; the factor of all of the scatter; a ball's cover_strength.
 * `ball` is its index, for LEARNT_BALL alone. What stood there before the first time is kept. */
void taken_over(Bag *bag, LearntKind kind, int ball, double value);

/* Whether it is learnt and can be taken back. */
bool taken_is(const Bag *bag, LearntKind kind, int ball);
bool taken_from_bowler(const Bowler *bowler, LearntKind kind); /* the first two */
bool taken_from_ball(const Ball *ball);

/* Puts back what stood there before; false: it is not learnt. */
bool taken_back(Bag *bag, LearntKind kind, int ball);
bool taken_back_bowler(Bowler *bowler, LearntKind kind);
bool taken_back_ball(Ball *ball);

#endif
