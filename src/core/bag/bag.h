/* bag.h - a bowler and the balls they own, six of them in slots. */
#ifndef SETTEE_CORE_BAG_BAG_H
#define SETTEE_CORE_BAG_BAG_H

#include "core/bag/ball.h"
#include "core/lane/lane.h"

enum { BAG_BALLS_MAX = 40, BAG_SLOTS = 6 };

typedef enum Style { STYLE_ONE_HANDED, STYLE_TWO_HANDED, STYLE_NO_THUMB, STYLE_COUNT } Style;
extern const char *const STYLE_NAMES[STYLE_COUNT + 1];
extern const char *const HAND_NAMES[3];

/* How well the bowler repeats: one standard deviation each. */
typedef struct Scatter {
    double launch_deg;
    double mph;
    double rpm;
    double laydown_boards;
} Scatter;

/* Limits for a bowler's numbers in a file or option (assumed: the extremes of what people throw).
 * Rotation, tilt and loft start at 0. */
#define BOWLER_MPH_LOW 8
#define BOWLER_MPH_HIGH 28
#define BOWLER_RPM_LOW 50
#define BOWLER_RPM_HIGH 650
#define BOWLER_ROTATION_HIGH_DEG 110
#define BOWLER_TILT_HIGH_DEG 60
#define BOWLER_LOFT_HIGH_FT 15
#define BOWLER_OFFSET_LOW_BOARDS (-5)
#define BOWLER_OFFSET_HIGH_BOARDS 20

/* The release for a straight spare ball; same ranges as a Bowler's. */
typedef struct SpareRelease {
    int said; /* 1: given; 0: bowler_for_spares derives one from the bowler's own release */
    double mph, rpm, rotation_deg, tilt_deg;
} SpareRelease;

/* Where a number came from. */
typedef enum Source {
    SOURCE_SAID,     /* somebody gave it; nobody knows more */
    SOURCE_PRESET,   /* usual for the bowler's level and style */
    SOURCE_MEASURED, /* from a video, a stopwatch, the track ... */
    SOURCE_LEARNT,   /* from logged events */
    SOURCE_COUNT
} Source;
extern const char *const SOURCE_NAMES[SOURCE_COUNT + 1]; /* as in files; NULL ends it */

/* Of a bowler's numbers; no figure depends on it. */
typedef struct BowlerFrom {
    int level, style; /* index in LEVEL_NAMES, PLAY_NAMES (preset.h); 0: not given */
    Source mph, rpm, rotation, tilt, loft, laydown_offset, scatter;
} BowlerFrom;

/* What stood where a number was learnt, so that it can be taken back (taken.h). */
typedef struct BowlerBefore {
    double mph; /* 0: the speed was not learnt */
    Source mph_from;
    int has_scatter; /* 1: the scatter was learnt */
    Scatter scatter;
    Source scatter_from;
} BowlerBefore;

typedef struct Bowler {
    char name[48];
    Hand hand;
    Style style;
    double mph, rpm;     /* at release */
    double rotation_deg; /* 0 end over end, 90 side roll */
    /* The rotations they say they can use, rotation_deg among them; both 0: not given. */
    double rotation_least_deg, rotation_most_deg;
    double tilt_deg;
    double loft_ft;               /* foul line to touchdown */
    double laydown_offset_boards; /* stance board less laydown board */
    Scatter scatter;
    SpareRelease spare_release;
    BowlerFrom from;
    BowlerBefore before;
} Bowler;

/* Whether they say they can change their rotation. */
static inline bool bowler_turns(const Bowler *bowler)
{
    return bowler->rotation_most_deg > bowler->rotation_least_deg;
}

/* The spare release if none is given: a flat wrist, so the bowler's speed, six tenths of their
 * revs, at most 10 degrees of rotation and 5 of tilt (common practice, no source; numbers assumed).
 */
SpareRelease bowler_spare_release(const Bowler *bowler);

/* The bowler throwing straight at a spare. */
Bowler bowler_for_spares(const Bowler *bowler);

/* 18 mph, 330 rpm, 50 degrees, tilt 12, loft 1 ft, a league bowler's scatter (assumed). */
Bowler bowler_default(void);

/* Whether nothing is said of where their numbers came from. */
bool bowler_from_nothing(const BowlerFrom *from);

/* The same, member by member. */
bool bowler_same(const Bowler *a, const Bowler *b);

typedef struct Bag {
    Bowler bowler;
    int count;
    Ball balls[BAG_BALLS_MAX];
} Bag;

bool bag_same(const Bag *a, const Bag *b); /* member by member */

/* Who else is on the pair, as far as known; need not be complete. */
typedef struct FieldMix {
    int right, left, two_handed; /* one-handed right, left, two-handed right; without you */
    int urethane;                /* how many of these throw urethane */
} FieldMix;

/* The ball in slot 1..6, or NULL; the ball with that id, or NULL. Owned by the bag. */
const Ball *bag_slot(const Bag *bag, int slot);
bool bag_filled(const Bag *bag); /* whether any ball is in a slot */
const Ball *bag_find(const Bag *bag, const char *id);

/* The balls in the order they are listed, as indices: slots first, then the locker; returns how
 * many. */
int bag_order(const Bag *bag, int out[BAG_BALLS_MAX]);

/* Whether a ball is kept for spares: polyester, if the bag (its slots, if `in_slots`) has a ball
 * with another cover. Common practice, no source. */
bool bag_for_spares(const Bag *bag, const Ball *ball, bool in_slots);

#endif
