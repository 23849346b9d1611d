/* oil.h - a pattern as written down, and the film of oil on the lane.
 *
 * A Pattern is what a file says (boards counted from the right edge). An Oil is a film on a grid
 * of 39 boards by half-feet, in units. One unit is 0.0167 mL per square foot (from memory), hence
 * 0.180 um of film and 1.481 uL per board-foot (arithmetic). */
#ifndef SETTEE_CORE_LANE_OIL_H
#define SETTEE_CORE_LANE_OIL_H

#include "core/lane/lane.h"

#define OIL_UM_PER_UNIT 0.18 /* film thickness of one unit, micrometres */
#define OIL_ML_PER_UNIT_SQFT 0.0167
#define OIL_STATIONS 121 /* every half-foot from the foul line to the head pin */
#define OIL_STATION_FT 0.5
#define OIL_UNITS_MAX 200.0 /* more than this is a typing mistake (assumed) */

enum { PATTERN_STROKES_MAX = 64, PATTERN_READINGS_MAX = 24 };
#define PATTERN_LENGTH_MIN_FT 20.0
#define PATTERN_LENGTH_MAX_FT 60.0

/* One pass of oil: a span of whole boards, both ends included, counted from the right edge, from
 * one distance to another, thickness changing evenly between the two. Strokes add up. */
typedef struct Stroke {
    int board_from, board_to;      /* 1..39, from <= to */
    double ft_start, ft_end;       /* 0..length, start < end */
    double units_start, units_end; /* 0..OIL_UNITS_MAX */
} Stroke;

/* A tape reading: the oil on each board at one distance, board 1 (right edge) first. */
typedef struct Reading {
    double ft;
    double units[LANE_BOARDS];
} Reading;

/* What is known of a pattern that nobody has a sheet of (about.h). */
typedef struct About {
    bool only;                          /* this is all that is known; else a sheet is */
    bool house;                         /* it is a house shot */
    double length_ft, volume_ml, ratio; /* 0: not known */
} About;

typedef struct Pattern {
    char id[32]; /* file name without its ending */
    char name[64];
    char note[256];                  /* how it plays */
    double length_ft;                /* no oil past it */
    int stroke_count, reading_count; /* one of the two is 0 */
    Stroke strokes[PATTERN_STROKES_MAX];
    Reading readings[PATTERN_READINGS_MAX]; /* by rising ft; linear between, level before the
                                             * first, falling to the last value until length_ft */
    About about; /* `only`: the readings are just the middle of what it may be */
} Pattern;

typedef struct Oil {
    double units[OIL_STATIONS][LANE_BOARDS]; /* [half-feet from the foul line][board - 1] */
    double length_ft;
} Oil;

/* Lays a pattern on a clean lane. Boards as in the file (from the right edge). */
void oil_lay(const Pattern *pattern, Oil *oil);

/* The film with boards counted the way that hand does: a copy, mirrored for a left-hander. */
void oil_for_hand(const Oil *from_right, Hand hand, Oil *oil);

/* Film in units at a point, bilinear between board centres and stations; 0 past the pins; outside
 * the edge boards' centres, their value. */
double oil_at(const Oil *oil, double x_m, double y_m);

double oil_volume_ml(const Oil *oil);
double oil_length_ft(const Oil *oil); /* last station with more than 0.05 unit on any board */

/* The last station past `length_ft` to which balls have carried enough oil to matter on any board;
 * length_ft where there is none. */
double oil_carried_ft(const Oil *oil, double length_ft);

/* Mean film inside (boards 11 to 29) divided by mean film outside (1 to 10 and 30 to 39), over the
 * oiled length. INFINITY if there is no oil outside. */
double oil_ratio(const Oil *oil);

/* The same film, station by station, and the same length. */
bool oil_same(const Oil *a, const Oil *b);

/* Multiplies the whole film (what an estimate says about the lane). */
void oil_scale(Oil *oil, double factor);

#endif
