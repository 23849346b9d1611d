/* rack_table.h - the shape of the table that rack.c reads and src/tools/rackgen writes.
 *
 * There is a cell for each half board, degree, speed and ball weight below. Leaves are sorted into
 * classes: each cell holds the share of every class, while the exact leaves within a class are
 * listed only twice per board and degree, once for slow and light balls and once for usual ones. */
#ifndef SETTEE_CORE_PINS_RACK_TABLE_H
#define SETTEE_CORE_PINS_RACK_TABLE_H

#include "core/pins/rack.h"

enum { RACK_BOARDS = 29, RACK_DEGREES = 9, RACK_SPEEDS = 5, RACK_WEIGHTS = 4 };
#define RACK_BOARD_LOW 13.0
#define RACK_BOARD_STEP 0.5
#define RACK_DEGREE_STEP 1.0 /* from 0 */
#define RACK_MPH_LOW 6.0
#define RACK_MPH_STEP 3.5
static const double RACK_POUNDS[RACK_WEIGHTS] = {8.0, 12.0, 15.0, 16.0};

typedef enum RackClass {
    RACK_TEN,        /* 10 */
    RACK_SEVEN,      /* 7 */
    RACK_FOUR_SIX,   /* 4; 6 */
    RACK_EIGHT_NINE, /* 8; 9 */
    RACK_FIVE,       /* 5; 2; 3 alone */
    RACK_PAIR_RIGHT, /* touching pins on the right of the head pin's line: 6-10, 3-6-10 */
    RACK_PAIR_LEFT,  /* on the left: 4-7, 2-4-7 */
    RACK_CLUSTER,    /* touching pins around the middle: 2-8, 2-4-5-8, 3-5-6-9 */
    RACK_CORNERS,    /* 7-10 */
    RACK_SPLIT_TWO,  /* any other split of two pins: 8-10, 5-7, 4-9 */
    RACK_SPLIT_MORE, /* a split of more: 4-6-7-10, 4-7-10 */
    RACK_WASHOUT,    /* the head pin and others that don't all touch: 1-2-10 */
    RACK_HEAD,       /* the head pin and others that all touch */
    RACK_CLASSES
} RackClass;

/* The class of a leave; not for an empty one. */
RackClass rack_class(Pins left);

/* Shares of all first balls in ten-thousandths; they sum to 10,000. */
enum { RACK_SHARE_ONE = 10000, RACK_PIN_ONE = 1000 };
typedef struct RackCell {
    uint16_t strike;
    uint16_t pinfall; /* thousandths of a pin */
    uint16_t share[RACK_CLASSES];
} RackCell;

/* The commonest leaves of a board, degree and band, commonest first, with their share of their
 * class in 250ths; pins 0 ends the list. The slow band covers speeds up to RACK_SLOW_MPH with the
 * lighter two weights, the usual band speeds from RACK_USUAL_MPH with the heavier two; in between,
 * both count. */
enum { RACK_LISTED = 24, RACK_WITHIN_ONE = 250 };
enum { RACK_SLOW, RACK_USUAL, RACK_BANDS };
#define RACK_SLOW_MPH 9.5
#define RACK_USUAL_MPH 13.0
typedef struct RackListed {
    uint16_t pins;
    uint8_t within, class;
} RackListed;

#endif
