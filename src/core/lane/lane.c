/* lane.c - where the pins stand. */
#include "core/lane/lane.h"

#include <math.h>

#include "base/text.h"

/* Row (0 the head pin's) and place in it from the left of pins 1..10. */
static const signed char ROW[11] = {0, 0, 1, 1, 2, 2, 2, 3, 3, 3, 3};
static const signed char PLACE[11] = {0, 0, 0, 1, 0, 1, 2, 0, 1, 2, 3};

double lane_half_board(double board) { return 0.5 * round(2.0 * board); }

double lane_pin_right_in(int pin) { return LANE_PIN_SPACING_IN * (PLACE[pin] - 0.5 * ROW[pin]); }

double lane_pin_back_in(int pin) { return LANE_ROW_PITCH_IN * ROW[pin]; }

int lane_pin_count(Pins pins)
{
    int n = 0;
    for (int pin = 1; pin <= 10; pin++)
        n += (pins & pin_bit(pin)) != 0;
    return n;
}

void lane_pins_words(Pins pins, const char *between, char *out, size_t size)
{
    const char *before = "";
    for (int pin = 1; pin <= 10; pin++)
        if (pins & pin_bit(pin)) {
            text_append(out, size, "%s%d", before, pin);
            before = between;
        }
}

Pins lane_mirror_pins(Pins pins)
{
    static const signed char MIRROR[11] = {0, 1, 3, 2, 6, 5, 4, 10, 9, 8, 7};
    Pins mirrored = 0;
    for (int pin = 1; pin <= 10; pin++)
        if (pins & pin_bit(pin))
            mirrored |= pin_bit(MIRROR[pin]);
    return mirrored;
}

bool lane_split(Pins pins)
{
    static const Pins NEIGHBOURS[11] = {
        0,
        1 << 1 | 1 << 2 | 1 << 4,                   /* 1: 2 3 5 */
        1 << 0 | 1 << 3 | 1 << 4 | 1 << 7,          /* 2: 1 4 5 8 */
        1 << 0 | 1 << 4 | 1 << 5 | 1 << 8,          /* 3: 1 5 6 9 */
        1 << 1 | 1 << 6 | 1 << 7,                   /* 4: 2 7 8 */
        1 << 1 | 1 << 2 | 1 << 7 | 1 << 8 | 1 << 0, /* 5: 2 3 8 9 1 */
        1 << 2 | 1 << 8 | 1 << 9,                   /* 6: 3 9 10 */
        1 << 3,                                     /* 7: 4 */
        1 << 3 | 1 << 4 | 1 << 1,                   /* 8: 4 5 2 */
        1 << 4 | 1 << 5 | 1 << 2,                   /* 9: 5 6 3 */
        1 << 5,                                     /* 10: 6 */
    };
    if (pins == 0 || (pins & pin_bit(1)))
        return false;
    Pins reached = pins & (Pins)(-pins), before = 0; /* spread from any one of them */
    while (reached != before) {
        before = reached;
        for (int pin = 1; pin <= 10; pin++)
            if (reached & pin_bit(pin))
                reached |= (Pins)(NEIGHBOURS[pin] & pins);
    }
    return reached != pins;
}
