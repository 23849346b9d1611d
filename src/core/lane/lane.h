/* lane.h - the lane as a place: boards, feet, pins, and the mirror between the two hands.
 *
 * Frame of reference (one for both hands): x is metres from the edge on the bowler's own side
 * (right for a right-hander), y metres down-lane from the foul line, z down. Board 1 is at the
 * bowler's own edge. Files count boards from the right edge, so a left-hander's lane is mirrored
 * once, when it is loaded (oil_for_hand), and pin numbers are mirrored when they are shown or read
 * (lane_mirror_pins).
 *
 * Sources: USBC Equipment Specifications and Certifications Manual. */
#ifndef SETTEE_CORE_LANE_LANE_H
#define SETTEE_CORE_LANE_LANE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#define LANE_BOARDS 39 /* board 20 is the centre */
#define LANE_WIDTH_IN 41.5
#define LANE_BOARD_M (LANE_WIDTH_IN * 0.0254 / LANE_BOARDS) /* 27.03 mm */
#define LANE_WIDTH_M (LANE_WIDTH_IN * 0.0254)
#define LANE_LENGTH_FT 60.0 /* foul line to the head pin's spot */
#define LANE_LENGTH_M (60.0 * 0.3048)
#define LANE_ARROWS_FT 15.0 /* where the aim board is read; real arrows lie 12.5 to 16 ft */
#define LANE_PIN_SPACING_IN 12.0
#define LANE_ROW_PITCH_IN 10.392304845413264 /* 12 sqrt(3)/2 */

/* Board of the ball's centre at the head pin that counts as the pocket: light to flush, as shot.h
 * names hits. Set so that as many pocket hits strike as published (40 of 54 on tour; docs/rack.md).
 * Widening it raises every pocket chance. */
#define LANE_POCKET_LOW 16.0
#define LANE_POCKET_HIGH 18.7
#define LANE_POCKET_BEST 17.5 /* common practice, no source */

typedef enum Hand { HAND_RIGHT, HAND_LEFT } Hand;

/* Boards are measured at their centres: board 1.0 is the middle of the first board. */
static inline double lane_x_of_board(double board) { return (board - 0.5) * LANE_BOARD_M; }
static inline double lane_board_of_x(double x_m) { return x_m / LANE_BOARD_M + 0.5; }
static inline double lane_mirror_board(double board) { return LANE_BOARDS + 1 - board; }

/* The nearest half board: nobody stands or aims more finely. */
double lane_half_board(double board);

/* A set of standing pins: bit n-1 is pin n, as numbered from the foul line, left to right in
 * each row (1 in front, 7 at the far left, 10 at the far right). */
typedef uint16_t Pins;
#define PINS_ALL ((Pins)0x3ff)
static inline Pins pin_bit(int pin) { return (Pins)(1u << (pin - 1)); }

/* Centre of a pin's spot, pin 1..10: offset in inches to the right of the centre line, and
 * inches behind the head pin. */
double lane_pin_right_in(int pin);
double lane_pin_back_in(int pin);

int lane_pin_count(Pins pins);

/* Appends their numbers to `out`: "3-6-10" with "-" in between, nothing if there are none. */
void lane_pins_words(Pins pins, const char *between, char *out, size_t size);

/* The same pins seen in a mirror: 2 with 3, 4 with 6, 7 with 10, 8 with 9. */
Pins lane_mirror_pins(Pins pins);

/* Whether these standing pins are a split: the head pin is down, and a pin is down between two
 * that stand or immediately ahead of two that stand. Computed like this: two pins are neighbours
 * if one stands diagonally or straight behind the other with no spot in between (2-4, 2-5, 2-8); a
 * leave is a split if its pins are not all connected through neighbours. */
bool lane_split(Pins pins);

#endif
