/* shot.h - one first ball: what was thrown and what the bowler saw. */
#ifndef SETTEE_CORE_EVENT_SHOT_H
#define SETTEE_CORE_EVENT_SHOT_H

#include <stdbool.h>

#include "core/bag/bag.h"
#include "core/lane/lane.h"
#include "core/motion/delivery.h"

typedef enum Side { SIDE_LEFT, SIDE_RIGHT, SIDE_COUNT } Side; /* lane of the pair */

/* Where it hit, from the bowler's own side to across. */
typedef enum Hit {
    HIT_UNSAID,
    HIT_GUTTER,
    HIT_WIDE,
    HIT_THIN,
    HIT_LIGHT,
    HIT_FLUSH,
    HIT_HIGH,
    HIT_NOSE,
    HIT_CROSSED,
    HIT_COUNT
} Hit;
/* Where it made its move, against what was expected of that ball and line. */
typedef enum Read { READ_UNSAID, READ_EARLY, READ_ON_TIME, READ_LATE, READ_NONE, READ_COUNT } Read;
/* How it left the hand. */
typedef enum Release {
    RELEASE_UNSAID,
    RELEASE_GOOD,
    RELEASE_INSIDE,
    RELEASE_OUTSIDE,
    RELEASE_FAST,
    RELEASE_SLOW,
    RELEASE_OFF,
    RELEASE_COUNT
} Release;

/* Limits of what can be seen of a ball: its speed, the boards it rolls over. */
#define SHOT_MPH_LOW 5.0
#define SHOT_MPH_HIGH 35.0
#define SHOT_BOARD_LOW 1.0
#define SHOT_BOARD_HIGH ((double)LANE_BOARDS)

/* Words as in files, index = enum value; entry 0 is ""; NULL ends each. */
extern const char *const SIDE_NAMES[SIDE_COUNT + 1];
extern const char *const HIT_NAMES[HIT_COUNT + 1];
extern const char *const READ_NAMES[READ_COUNT + 1];
extern const char *const RELEASE_NAMES[RELEASE_COUNT + 1];

typedef struct Shot {
    Side lane;
    int slot;           /* 1..6; in a session the slot its ball lies in now, 0: none */
    char ball[32];      /* id of the ball thrown; "": the one in the slot */
    Surface surface;    /* of that ball when thrown; only if `ball` is given */
    double stance, aim; /* boards from the bowler's own side; 0: not given */
    double mph;         /* as seen; 0: not given */
    /* Where it crossed the arrows, and its breakpoint, where it came closest to the bowler's own
     * gutter. Boards from the bowler's own side, as seen; 0: not given. */
    double arrows, breakpoint;
    /* Planned changes to the usual release; same limits as a plan's. */
    double mph_change, loft_change_ft, rotation_change_deg;
    Hit hit;
    Read read;
    Release release;
    bool left_said;  /* whether `left` is known */
    bool ringing;    /* a single corner pin that was touched by the pin before it (else flat) */
    Pins left;       /* as numbered on the deck (never mirrored); 0 with left_said: strike */
    bool spare_said; /* whether `spare_left` is known; only if something stood */
    Pins spare_left; /* what the spare ball left; 0: spare made */
    /* Over the foul line: the ball counts no pins. `left` is still what it left, which says
     * something of the lane, but all ten are set up again; after a foul of the spare ball, what
     * stood before. */
    bool foul, spare_foul;
} Shot;

/* What the spare ball is thrown at. */
static inline Pins shot_standing(const Shot *shot) { return shot->foul ? PINS_ALL : shot->left; }
/* Whether pins are known to stand for a second ball. */
static inline bool shot_leaves(const Shot *shot)
{
    return shot->foul || (shot->left_said && shot->left != 0);
}
static inline bool shot_strike(const Shot *shot)
{
    return shot->left_said && shot->left == 0 && !shot->foul;
}
static inline bool shot_spare(const Shot *shot)
{
    return shot_leaves(shot) && shot->spare_said && shot->spare_left == 0;
}
static inline bool shot_pocket(const Shot *shot)
{
    return shot->hit == HIT_LIGHT || shot->hit == HIT_FLUSH;
}
/* The ball as it was thrown: by its id, with the surface it had then. False: the bag has it no
 * more. */
bool shot_ball(const Shot *shot, const Bag *bag, Ball *ball);
/* A release that says something of the lane: good, or not said to be bad. */
static inline bool shot_good(const Shot *shot) { return shot->release <= RELEASE_GOOD; }

/* Whether it was thrown as the plan says, or nearly: the ball of its slot, feet and aim within a
 * board, the same release. */
bool shot_of_line(const Shot *shot, const Plan *plan);
/* To which side of the pocket a hit lies: 1 high, -1 light (a gutter ball too), 0 neither. */
int shot_side(Hit hit);

/* What can't have been, in a line that says what is allowed; or NULL. A hit word that is a board
 * off is no fault: only pins that the hit could not have left. Hit and leave must be in range. */
const char *shot_impossible(const Shot *shot);

/* Board at the head pin where a hit of that name usually lies, its middle. NAN: unsaid, gutter. */
double shot_hit_board(Hit hit);
/* Boards between which a hit of that name lies, wide to crossed. */
void shot_hit_span(Hit hit, double *low, double *high);
/* Wide under 13.7, thin 16, light 17, flush 18.7, high 19.4, nose 20.7; light and flush are the
 * pocket (LANE_POCKET_LOW, LANE_POCKET_HIGH). */
Hit shot_hit_of_board(double board);

#endif
