/* test_spare_ball.c - one ball at a leave: where it is aimed, that it converts as often as the
 * curve of hits says, and that the aims are the generator's. */
#include "near.h"

#include <stdlib.h>

#include "core/spare/spare_ball.h"
#include "tools/rackgen/cells.h"

/* A sample of the leaves, searched again as the generator does. */
static void aims_are_reproduced(void **state)
{
    (void)state;
    Rng rng = rng_seed(71);
    for (int k = 0; k < 25; k++) {
        Pins left = (Pins)(1 + rng_next(&rng) % (PINS_ALL - 1));
        uint8_t place[SPARE_WIDTHS];
        spare_aims_of(left, AIM_EFFORT, place);
        for (int width = 0; width < SPARE_WIDTHS; width++)
            assert_near(spare_aim(left, SPARE_WIDTH[width]), spare_place_board(place[width]), 0.0);
    }
}

/* Single pins are aimed at, to two boards, but where the gutter is near; the far side of the lane
 * is the mirror's, to two (both are searched with racks of their own). */
static void aims_lie_on_the_pins(void **state)
{
    (void)state;
    for (int pin = 2; pin <= 6; pin++)
        assert_near(spare_aim(pin_bit(pin), 1.0), spare_pin_board(pin), 2.0);
    for (int pin = 1; pin <= 10; pin++) {
        Pins mirrored = lane_mirror_pins(pin_bit(pin));
        assert_near(spare_aim(pin_bit(pin), 2.5), lane_mirror_board(spare_aim(mirrored, 2.5)), 2.0);
    }
}

/* Thrown again and again it makes the spare as often as the curve of hits says of that scatter. */
static void it_makes_what_the_curve_says(void **state)
{
    (void)state;
    enum { BALLS = 4000 };
    static const Pins LEAVES[] = {1 << 9, 1 << 8, 1 << 2 | 1 << 9, 1 << 5 | 1 << 9,
                                  1 << 6 | 1 << 9};
    Rng rng = rng_seed(72);
    for (size_t i = 0; i < sizeof LEAVES / sizeof *LEAVES; i++) {
        Pins left = LEAVES[i];
        SpareHits hits;
        RackHit hit = {.degrees = spare_heading_deg(spare_aim(left, 2.5)), .mph = 16, .pounds = 15};
        double expected;
        spare_hits_roll(left, &hit, AIM_EFFORT, &hits);
        spare_hits_best(&hits, 2.5, &expected);
        int made = 0;
        for (int k = 0; k < BALLS; k++) {
            Pins stands = spare_ball(left, 2.5, 16.0, 15.0, &rng);
            assert_int_equal(stands & ~left, 0);
            made += stands == 0;
        }
        print_message("%03x: %.3f, by the curve %.3f\n", left, (double)made / BALLS, expected);
        assert_near((double)made / BALLS, expected, 0.03);
    }
}

/* Wider throws make fewer. */
static void wider_makes_fewer(void **state)
{
    (void)state;
    int before = 1001;
    for (double deviation = 1.0; deviation <= 9.0; deviation *= 2.0) {
        Rng rng = rng_seed(73);
        int made = 0;
        for (int k = 0; k < 1000; k++)
            made += spare_ball(pin_bit(10), deviation, 16.0, 15.0, &rng) == 0;
        assert_true(made < before);
        before = made;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aims_are_reproduced),
        cmocka_unit_test(aims_lie_on_the_pins),
        cmocka_unit_test(it_makes_what_the_curve_says),
        cmocka_unit_test(wider_makes_fewer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
