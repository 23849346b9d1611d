/* leaves.h - what the pins that stand tell of the hit, read from the rack's table. */
#ifndef SETTEE_CORE_ADVICE_LEAVES_H
#define SETTEE_CORE_ADVICE_LEAVES_H

#include "core/event/shot.h"

typedef enum Told { TOLD_NOTHING, TOLD_LIGHT, TOLD_HIGH } Told;

/* The side of the pocket a leave comes from, pins as a right-hander sees them: light when three in
 * four of the hits that leave it lie half a board or more out of the pocket's best, high when they
 * lie in. Nothing for a strike, a corner pin alone (its own signs tell of it) and what comes from
 * either side. `board`: the mean of those hits, unless NULL. */
Told leave_tells(Pins left_in_frame, double *board);

/* The word for a hit that was not said: of a leave that tells its side; flush for a strike. */
Hit leave_hit(Pins left_in_frame);

#endif
