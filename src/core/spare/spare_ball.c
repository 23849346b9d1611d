/* spare_ball.c - see spare_ball.h. */
#include "core/spare/spare_ball.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"

const double SPARE_WIDTH[SPARE_WIDTHS] = {1.5, 2.5, 4.0};

static const uint8_t AIMS[PINS_ALL][SPARE_WIDTHS] = {
#include "core/spare/spare_aims.inc"
};

/* The straight ball the aims are found for: speed at the pins, weight (assumed). */
static const double USUAL_MPH = 16.0, USUAL_POUNDS = 15.0;

double spare_heading_deg(double board)
{
    const double in = (LANE_LENGTH_FT - LANE_ARROWS_FT) * 12.0;
    return deg_from_rad(atan((board - 0.5 * (LANE_BOARDS + 1)) * LANE_WIDTH_IN / LANE_BOARDS / in));
}

double spare_aim(Pins left, double deviation_boards)
{
    int width = 0;
    while (width < SPARE_WIDTHS - 1 && SPARE_WIDTH[width] < deviation_boards)
        width++;
    return spare_place_board(AIMS[left][width]);
}

Pins spare_ball(Pins left, double deviation_boards, double mph, double pounds, Rng *rng)
{
    double aim = spare_aim(left, deviation_boards), degrees = spare_heading_deg(aim);
    double across = aim + deviation_boards * rng_normal(rng);
    RackHit hit = {.board = spare_board_before(left, across, degrees),
                   .degrees = degrees,
                   .mph = mph,
                   .pounds = pounds};
    return rack_roll(&hit, left, rng);
}

void spare_aims_of(Pins left, double effort, uint8_t place[SPARE_WIDTHS])
{
    double board = 0.0;
    for (int pin = 1; pin <= 10; pin++)
        if (left & pin_bit(pin))
            board += spare_pin_board(pin) / lane_pin_count(left);
    RackHit hit = {.degrees = spare_heading_deg(board), .mph = USUAL_MPH, .pounds = USUAL_POUNDS};
    SpareHits hits;
    spare_hits_roll(left, &hit, effort, &hits);
    for (int width = 0; width < SPARE_WIDTHS; width++)
        place[width] = (uint8_t)spare_hits_best(&hits, SPARE_WIDTH[width], NULL);
}
