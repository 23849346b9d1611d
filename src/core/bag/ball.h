/* ball.h - a ball's numbers: core, cover, surface, layout, and their legal limits.
 *
 * Source of the limits: USBC Equipment Specifications and Certifications Manual, except those
 * marked assumed. */
#ifndef SETTEE_CORE_BAG_BALL_H
#define SETTEE_CORE_BAG_BALL_H

#include "base/json_field.h"

#define BALL_POUNDS_MIN 6.0 /* assumed: the lightest sold */
#define BALL_POUNDS_MAX 16.0
#define BALL_RG_MIN_IN 2.430 /* floor before 1 Jul 2010; 2.460 since */
#define BALL_RG_MAX_IN 2.800
#define BALL_DIFFERENTIAL_MAX_IN 0.080 /* before Feb 2005; 0.060 since */
#define BALL_RADIUS_IN 4.2975          /* at the largest diameter allowed, 8.595 in */
#define BALL_PIN_TO_PAP_MAX_IN 6.75
#define BALL_STRENGTH_MIN 0.8
#define BALL_STRENGTH_MAX 1.1
#define BALL_GRIT_MIN 180.0
#define BALL_GRIT_MAX 5000.0
#define BALL_GAMES_SINCE_MAX 1000.0 /* assumed: nobody counts any higher */
#define BALL_MASS_BIAS_MAX_DEG 180.0

typedef enum Cover {
    COVER_SOLID,
    COVER_HYBRID,
    COVER_PEARL,
    COVER_URETHANE,
    COVER_POLYESTER,
    COVER_COUNT
} Cover;

typedef enum Finish { FINISH_GRIT, FINISH_COMPOUND, FINISH_POLISH } Finish;

extern const char *const FINISH_NAMES[]; /* as in files: "", compound, polish; NULL ends it */

typedef struct Surface {
    Finish finish;
    double grit;        /* when finish is FINISH_GRIT: abrasive number, lower is rougher */
    double games_since; /* games thrown since it was put on, >= 0 */
} Surface;

typedef struct Ball {
    char id[32]; /* letters, digits, - and _ */
    char name[48];
    int kind; /* what it is sold as: index in BALL_KIND_NAMES (preset.h), 0: not said */
    double pounds;
    double rg_in;           /* lowest radius of gyration, along the pin axis */
    double differential_in; /* highest less lowest */
    double intermediate_in; /* 0 for a symmetric core; at most the differential */
    Cover cover;
    double cover_strength;  /* multiplies both frictions; 1 is usual */
    double strength_before; /* what stood there before it was learnt (taken.h); 0: it was not */
    Surface surface;
    int surface_usual;    /* 1: nobody said it: it is the cover's usual one */
    double pin_to_pap_in; /* pin to positive axis point, on the surface */
    double mass_bias_deg; /* turn of the spin axis about the pin axis */
    int slot;             /* 1..6 in the bag, 0 in the locker */
} Ball;

/* A ball with usual numbers (15 lb, RG 2.50, differential 0.040, solid, 2000 grit, pin 4.5 in). */
Ball ball_default(void);

/* A cover's usual surface, if none is given: polyester and pearl polished, hybrid 3000, solid 2000,
 * urethane 800 grit (common practice, no source). */
Surface ball_usual_surface(Cover cover);

extern const char *const COVER_NAMES[COVER_COUNT + 1]; /* as in files; NULL ends it */

/* A ball's keys with their ranges, as in a bag's file and on the screen: of the ball, of its
 * "surface" (members of a Surface), of its "layout" (members of the Ball). JSON_END ends each. */
extern const JsonField BALL_FIELDS[], SURFACE_FIELDS[], LAYOUT_FIELDS[];

/* Checks keys against each other: false if the intermediate differential is above the differential;
 * `found` is the intermediate as it was written. */
bool ball_sound(const Ball *ball, const char *found, Error *error);

/* Equal member by member (padding doesn't count). */
bool surface_same(const Surface *a, const Surface *b);
bool ball_same(const Ball *a, const Ball *b);

/* The same finish and grit, however many games were thrown since. */
bool ball_same_surface(const Surface *a, const Surface *b);

/* Average roughness of the surface now, um: its own, worn toward that of 2000 grit by the games
 * thrown since (assumed: half-way in 12 games). */
double ball_roughness_um(const Surface *surface);

/* "2000 grit", "compound", "polish" into out. */
void ball_surface_words(const Surface *surface, char *out, unsigned long size);

#endif
