/* others.h - the others who share the pair: their hands, balls and lines, and what their deliveries
 * do to the lane.
 *
 * Nobody types another's shots, so they are drawn by seed: each has a style, a ball, a wish to play
 * further in or out than what suits that ball best, and a scatter; each finds a line on the film as
 * it is and goes after it as it wears. So one pair wears otherwise than the next, and unevenly from
 * board to board. What they are is common practice, no source, and the numbers are assumed.
 * Pure; allocates nothing. */
#ifndef SETTEE_CORE_LINE_OTHERS_H
#define SETTEE_CORE_LINE_OTHERS_H

#include "base/rng.h"
#include "core/bag/bag.h"
#include "core/motion/batch.h"
#include "core/motion/wear.h"

enum { OTHERS_MAX = 9 };

typedef struct OtherBowler {
    Bowler bowler;
    Ball ball;
    MotionBody body;
    BatchBall batch;
    bool across; /* plays from the other side of the lane than you */
    double wish; /* boards of laydown, + further in than suits the ball best */
    double laydown, aim;
    bool settled; /* has a line */
} OtherBowler;

typedef struct Others {
    int count;
    OtherBowler who[OTHERS_MAX];
    Grain grain; /* of the lane */
    Rng rng;
} Others;

/* Draws `count` others (0..OTHERS_MAX) for a bowler of `hand`. `mix` is filled first, the rest are
 * drawn as fields usually are; NULL or nothing said: all are drawn, most of them on
 * your side. The same seed gives the same
 * people and balls; `lane` tells apart what differs between lanes: their grain, and each throw. */
void others_begin(Others *others, const FieldMix *mix, int count, Hand hand, uint64_t seed,
                  int lane);

/* Others on your side of the lane, of a mix that is known (the rest count as on your side). */
int others_beside(const FieldMix *mix, int count, Hand hand);

/* Each looks for a line on the film (in your frame) and moves toward it as far as bowlers do in a
 * game: at most 3 boards in or 1 out. About a millisecond for each of them. */
void others_seek(Others *others, const Oil *film);

/* One delivery of `who`, scattered as theirs are. Their line must be sought. */
void others_throw(Others *others, Oil *film, int who, WearRate rate);

/* One delivery of yours, thrown as planned but for your scatter; wears the film and returns the
 * path. */
void others_throw_own(Others *others, Oil *film, const Bowler *bowler, const MotionBody *body,
                      Cover cover, const Delivery *delivery, WearRate rate, Roll *roll);

#endif
