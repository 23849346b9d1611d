/* others.h - the other bowlers on the pair: their hands, balls and lines, and how their shots wear
 * the lane.
 *
 * Nobody types in other people's shots, so the others are drawn from a seed. Each has a style, a
 * ball, a taste for playing further in or out than suits that ball best, and a scatter; each finds
 * a line on the current film and follows it as it wears. So pairs wear differently, and unevenly
 * from board to board. What they are like is common practice, no source; the numbers are assumed.
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

/* Draws `count` others (0..OTHERS_MAX) for a bowler of `hand`. Those of `mix` come first, the rest
 * are like a usual field, most of them on your side; NULL or an empty mix: all are. The same seed
 * gives the same people and balls; `lane` seeds what differs between lanes: the grain and the
 * throws. */
void others_begin(Others *others, const FieldMix *mix, int count, Hand hand, uint64_t seed,
                  int lane);

/* For someone who can't know them: as many fields of `count` as fit into OTHERS_MAX, drawn as above
 * on a lane without grain. What they do in turn is near what such a field does on average. */
void others_begin_usual(Others *others, const FieldMix *mix, int count, Hand hand, uint64_t seed,
                        int lane);

/* Each looks for a line on the film (in your frame) and moves toward it as far as bowlers do in a
 * game: at most 3 boards in or 1 out. About a millisecond each. */
void others_seek(Others *others, const Oil *film);
void others_seek_one(Others *others, const Oil *film, int who);

/* The track of one delivery by `who` on the film, with their scatter; in your frame, as the film.
 * Call others_seek first. */
void others_track(Others *others, const Oil *film, int who, Track *track);

/* The same, and it wears the film. */
void others_throw(Others *others, Oil *film, int who, WearRate rate);

/* One delivery of yours with your scatter; wears the film and returns the path. */
void others_throw_own(Others *others, Oil *film, const Bowler *bowler, const MotionBody *body,
                      Cover cover, const Delivery *delivery, WearRate rate, Roll *roll);

#endif
