/* preset.h - usual numbers for bowlers and balls that nobody has measured: by level and style, and
 * by what a ball is sold as.
 *
 * All numbers are common practice, no source: the middle of what such bowlers throw and such balls
 * have. They are a start; measured ones are better. */
#ifndef SETTEE_CORE_BAG_PRESET_H
#define SETTEE_CORE_BAG_PRESET_H

#include "core/bag/bag.h"

/* How fast and how well somebody repeats. */
typedef struct LevelPreset {
    const char *name, *means;
    double mph;
    double revs; /* times those of the style */
    double pounds;
    Scatter scatter;
    const char *balls; /* kinds, as preset_balls takes them */
    const char *style; /* the usual one */
} LevelPreset;

/* What the hand does. */
typedef struct StylePreset {
    const char *name, *means;
    Style style;
    double rpm, rotation_deg, tilt_deg;
} StylePreset;

/* A kind of ball. */
typedef struct BallPreset {
    const char *name, *means;
    double rg_in, differential_in, intermediate_in;
    Cover cover; /* with its usual surface */
} BallPreset;

/* Each ends with a row whose name is NULL. */
extern const LevelPreset LEVEL_PRESETS[];
extern const StylePreset STYLE_PRESETS[];
extern const BallPreset BALL_PRESETS[];

/* Their names as files have them, from 1 on; "" comes first, NULL ends. PLAY_NAMES are the styles':
 * how somebody plays, where STYLE_NAMES tell the hands alone. */
extern const char *const LEVEL_NAMES[], *const PLAY_NAMES[], *const BALL_KIND_NAMES[];

/* The row of that name; NULL: there is none. */
const LevelPreset *preset_level(const char *name);
const StylePreset *preset_style(const char *name);
const BallPreset *preset_ball(const char *name); /* plastic is polyester here too */

/* A bowler of that level and style, marked as such; the name is left empty. */
Bowler preset_bowler(const LevelPreset *level, const StylePreset *style, Hand hand);

/* What is said to be usual for level and style, and isn't, somebody has said. */
void preset_check(Bowler *bowler);

/* A ball of that kind with what is usual for it, named after it as no other ball of the bag is, in
 * the first empty slot or the locker; not in the bag yet. */
Ball preset_ball_for(const Bag *bag, const BallPreset *kind, double pounds);

/* Puts balls of these kinds ("strong-solid,hybrid,spare") into the bag, in slots from 1 while there
 * are any, then in the locker. False: an unknown kind, which `error` names, or too many. */
bool preset_balls(const char *kinds, double pounds, Bag *bag, Error *error);

#endif
