/* wear.h - what deliveries do to the oil: the ball takes some up along its track and carries some
 * of that on.
 *
 * Oil is conserved: what leaves the lane is on the ball. Constants are assumed (docs/model.md). */
#ifndef SETTEE_CORE_MOTION_WEAR_H
#define SETTEE_CORE_MOTION_WEAR_H

#include "core/motion/motion.h"

/* How strongly a lane wears, against the constants in wear.c; 1 is usual. */
typedef struct WearRate {
    double pick, carry;
} WearRate;

/* Where a delivery touches the oil: at each station the boards it runs over, and how strongly.
 * Computed once, it can wear any number of films. */
enum { TRACK_BOARDS_MAX = 5 };
typedef struct Track {
    int count;
    struct {
        int low, boards;               /* first board (1..39), how many; 0: off the lane */
        float share[TRACK_BOARDS_MAX]; /* of the film taken, against its middle: 0..1 */
        float down[TRACK_BOARDS_MAX];  /* of what is laid down; sums to 1 */
    } at[OIL_STATIONS];
} Track;

/* `shift_boards` moves the whole track sideways (another bowler's line near this one). */
void track_of(const Roll *roll, double shift_boards, Track *track);

/* How easily each board gives up its oil, against the mean; boards in the bowler's frame. */
typedef struct Grain {
    float share[LANE_BOARDS];
} Grain;

/* Makes a track take up oil unevenly from board to board. */
void track_grain(Track *track, const Grain *grain);

/* The same track, its boards counted from the other side. */
void track_mirror(Track *track);

/* Takes up oil along a track and carries some of it on. Returns what stays on the ball, mL. */
double wear_track(Oil *oil, const Track *track, Cover cover, WearRate rate);

/* Both in one, at the usual rate. */
double wear_delivery(Oil *oil, const Roll *roll, Cover cover, double shift_boards);

#endif
