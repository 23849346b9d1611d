/* test_geometry.c - the lane, the pins, the ball's limits and the unit of oil against published
 * values (docs' standards list). How far each was read stands beside it: text (the governing
 * body's own), page (a page that quotes it), derived, memory, assumed. */
#include "near.h"

#include <string.h>

#include "base/units.h"
#include "core/bag/ball.h"
#include "core/lane/lane.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

/* USBC Equipment Specifications and Certifications Manual: foul line to head pin 60 ft (text),
 * width 41 1/2 in (page), 39 boards with 20 the centre (text). */
static void test_lane(void **unused)
{
    (void)unused;
    assert_near(LANE_LENGTH_FT, 60.0, 0.0);
    assert_near(LANE_LENGTH_M, 18.288, 1e-12);
    assert_near(LANE_WIDTH_IN, 41.5, 0.0);
    assert_int_equal(LANE_BOARDS, 39);
    assert_near(in_from_m(LANE_BOARD_M), 1.0641, 5e-5); /* derived: 41.5/39 */
    assert_near(LANE_BOARD_M * 1000.0, 27.03, 5e-3);
    assert_near(lane_x_of_board(20.0), 0.5 * LANE_WIDTH_M, 1e-12);
    assert_near(lane_x_of_board(39.5), LANE_WIDTH_M, 1e-12);
}

/* Board and metre are inverse; the mirror is its own inverse and keeps the centre. */
static void test_boards(void **unused)
{
    (void)unused;
    for (double board = 0.5; board <= 39.5; board += 0.25) {
        assert_near(lane_board_of_x(lane_x_of_board(board)), board, 1e-12);
        assert_near(lane_mirror_board(lane_mirror_board(board)), board, 1e-12);
        assert_near(lane_x_of_board(board) + lane_x_of_board(lane_mirror_board(board)),
                    LANE_WIDTH_M, 1e-12);
    }
    assert_near(lane_mirror_board(20.0), 20.0, 0.0);
}

/* Pin spacing 12 in in a triangle of 36 (text); row pitch 10.392 in, back row 31.177 in behind
 * the head pin (derived; printed 31 3/16, text). */
static void test_pin_triangle(void **unused)
{
    (void)unused;
    static const int neighbours[][2] = {{1, 2}, {1, 3}, {2, 3},  {2, 4}, {2, 5}, {3, 5},
                                        {3, 6}, {4, 5}, {5, 6},  {4, 7}, {4, 8}, {5, 8},
                                        {5, 9}, {6, 9}, {6, 10}, {7, 8}, {8, 9}, {9, 10}};
    for (int i = 0; i < 18; i++) {
        int a = neighbours[i][0], b = neighbours[i][1];
        assert_near(hypot(lane_pin_right_in(a) - lane_pin_right_in(b),
                          lane_pin_back_in(a) - lane_pin_back_in(b)),
                    12.0, 1e-12);
    }
    assert_near(lane_pin_right_in(10) - lane_pin_right_in(7), 36.0, 1e-12);
    assert_near(lane_pin_back_in(2), 10.392, 5e-4);
    assert_near(lane_pin_back_in(7), 31.177, 5e-4);
    assert_near(lane_pin_back_in(7), 31.0 + 3.0 / 16.0, 0.02);
    assert_near(LANE_LENGTH_FT + lane_pin_back_in(10) / 12.0, 62.598, 1e-3); /* back row */
}

/* Offsets in boards from the centre: 2/3 5.64, 4/6 11.28, 7/10 16.92 (derived). */
static void test_pin_boards(void **unused)
{
    (void)unused;
    static const struct {
        int pin;
        double boards;
    } rows[] = {{1, 0},     {2, -5.64},  {3, 5.64},  {4, -11.28}, {5, 0},
                {6, 11.28}, {7, -16.92}, {8, -5.64}, {9, 5.64},   {10, 16.92}};
    for (int i = 0; i < 10; i++)
        assert_near(m_from_in(lane_pin_right_in(rows[i].pin)) / LANE_BOARD_M, rows[i].boards, 5e-3);
}

static void test_pins_in_a_mirror(void **unused)
{
    (void)unused;
    for (unsigned set = 0; set < 1024; set++) {
        Pins pins = (Pins)set;
        assert_int_equal(lane_mirror_pins(lane_mirror_pins(pins)), pins);
        assert_int_equal(lane_pin_count(lane_mirror_pins(pins)), lane_pin_count(pins));
    }
    for (int pin = 1; pin <= 10; pin++)
        for (int other = 1; other <= 10; other++)
            if (lane_mirror_pins(pin_bit(pin)) == pin_bit(other)) {
                assert_near(lane_pin_right_in(pin), -lane_pin_right_in(other), 1e-12);
                assert_near(lane_pin_back_in(pin), lane_pin_back_in(other), 1e-12);
            }
    assert_int_equal(lane_pin_count(PINS_ALL), 10);
}

/* From the lane's edge at the foul line straight to the head pin: 1.6508 degrees; 6 cm off centre
 * is board 17.78 (derived from the standards). */
static void test_straight_line_to_the_head_pin(void **unused)
{
    (void)unused;
    assert_near(deg_from_rad(atan2(0.5 * LANE_WIDTH_M, LANE_LENGTH_M)), 1.6508, 1e-3);
    assert_near(lane_board_of_x(0.5 * LANE_WIDTH_M - 0.06), 17.78, 1e-3);
}

/* Launch from laydown and aim board is plain trigonometry over 15 ft (arrows: "about 15 ft", 12.5
 * outside to 16 in the centre, page). */
static void test_launch_and_aim_are_inverse(void **unused)
{
    (void)unused;
    for (double laydown = 5.0; laydown < 36.0; laydown += 1.5)
        for (double aim = 3.0; aim < 25.0; aim += 1.5) {
            double launch = delivery_launch_deg(laydown, aim);
            assert_near(delivery_aim_board(laydown, launch), aim, 1e-9);
            assert_near(tan(rad_from_deg(launch)) * LANE_ARROWS_FT * 12.0,
                        (laydown - aim) * 41.5 / 39.0, 1e-9);
        }
}

/* USBC manual, ball: at most 16.00 lb (page); diameter to 8.595 in (page; circumference 27.002,
 * derived); RG 2.460 to 2.800, floor 2.430 before Jul 2010 (text); differential at most 0.060,
 * 0.080 before Feb 2005 (text). */
static void test_ball_limits(void **unused)
{
    (void)unused;
    assert_near(BALL_POUNDS_MAX, 16.0, 0.0);
    assert_near(2.0 * BALL_RADIUS_IN, 8.595, 1e-12);
    assert_near(2.0 * UNITS_PI * BALL_RADIUS_IN, 27.002, 5e-4);
    assert_near(BALL_RG_MIN_IN, 2.430, 0.0);
    assert_near(BALL_RG_MAX_IN, 2.800, 0.0);
    assert_near(BALL_DIFFERENTIAL_MAX_IN, 0.080, 0.0);
    assert_near(sqrt(0.4) * BALL_RADIUS_IN, 2.718, 5e-4); /* uniform sphere (derived) */
}

/* A quarter of the ball's circumference from pin to axis is as far as it goes: 6 3/4 in (common
 * practice, no source for the number; derived from the circumference). */
static void test_pin_to_axis_limit(void **unused)
{
    (void)unused;
    assert_near(BALL_PIN_TO_PAP_MAX_IN, 0.25 * 27.002, 1e-3);
}

/* Roughness for approval at most 50 microinch = 1.27 um (text/page): the table's roughest. */
static void test_roughness_limit(void **unused)
{
    (void)unused;
    for (double grit = BALL_GRIT_MIN; grit <= BALL_GRIT_MAX; grit += 10.0) {
        Surface surface = {FINISH_GRIT, grit, 0.0};
        assert_true(ball_roughness_um(&surface) <= 1.27 + 1e-12);
        assert_true(ball_roughness_um(&surface) > 0.0);
    }
    assert_near(50e-6 * 0.0254 * 1e6, 1.27, 1e-12);
}

static Oil one_unit(int from_station, int to_station)
{
    Oil oil;
    memset(&oil, 0, sizeof oil);
    for (int j = from_station; j <= to_station; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            oil.units[j][b] = 1.0;
    oil.length_ft = to_station * OIL_STATION_FT;
    return oil;
}

/* One unit is 0.0167 mL a square foot (memory): 0.180 um of film and 1.481 uL a board-foot
 * (derived). */
static void test_oil_unit(void **unused)
{
    (void)unused;
    assert_near(OIL_ML_PER_UNIT_SQFT, 0.0167, 0.0);
    assert_near(0.0167e-6 / (0.3048 * 0.3048) * 1e6, OIL_UM_PER_UNIT, 5e-4);
    Oil oil = one_unit(0, OIL_STATIONS - 1);
    assert_near(oil_volume_ml(&oil), 60.0 * 39.0 * 1.481e-3, 1e-3);
    assert_near(oil_volume_ml(&oil), 60.0 * 41.5 / 12.0 * 0.0167, 1e-9);
    oil_scale(&oil, 7.0);
    assert_near(oil_volume_ml(&oil), 7.0 * 60.0 * 41.5 / 12.0 * 0.0167, 1e-9);
}

/* A pattern's volume is that of its strokes: area by mean units (derived). */
static void test_volume_of_strokes(void **unused)
{
    (void)unused;
    Pattern pattern = {.length_ft = 40.0,
                       .stroke_count = 2,
                       .strokes = {{1, 39, 0.0, 40.0, 10.0, 4.0}, {11, 29, 8.0, 40.0, 12.0, 0.0}}};
    Oil oil;
    oil_lay(&pattern, &oil);
    double board_ft = 39 * 40 * 7.0 + 19 * 32 * 6.0;
    /* to 1.5 %: the grid ends a stroke by half a station on each side */
    assert_near(oil_volume_ml(&oil) / (board_ft * 1.4810e-3), 1.0, 0.015);
    assert_near(oil_length_ft(&oil), 40.0, 0.5);
}

/* Ratio: inside boards over outside boards, 10 to 10 (text): 1 when flat; infinite when nothing
 * lies outside; 3 when three times as much lies inside. */
static void test_ratio(void **unused)
{
    (void)unused;
    Oil oil = one_unit(0, 80);
    assert_near(oil_ratio(&oil), 1.0, 1e-12);
    for (int j = 0; j <= 80; j++)
        for (int b = 10; b <= 28; b++) /* boards 11 to 29 */
            oil.units[j][b] = 3.0;
    assert_near(oil_ratio(&oil), 3.0, 1e-12);
    for (int j = 0; j <= 80; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            if (b < 10 || b > 28)
                oil.units[j][b] = 0.0;
    assert_true(isinf(oil_ratio(&oil)));
}

/* A left-hander's lane is the same lane in a mirror: twice is the lane itself, bit for bit. */
static void test_lane_in_a_mirror(void **unused)
{
    (void)unused;
    Pattern pattern = {.length_ft = 38.0,
                       .stroke_count = 2,
                       .strokes = {{2, 9, 0.0, 30.0, 5.0, 1.0}, {8, 35, 0.0, 38.0, 9.0, 2.0}}};
    Oil laid, left, back;
    oil_lay(&pattern, &laid);
    oil_for_hand(&laid, HAND_LEFT, &left);
    oil_for_hand(&left, HAND_LEFT, &back);
    assert_memory_equal(back.units, laid.units, sizeof laid.units);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_true(left.units[j][b] == laid.units[j][LANE_BOARDS - 1 - b]);
    oil_for_hand(&laid, HAND_RIGHT, &back);
    assert_memory_equal(back.units, laid.units, sizeof laid.units);
    assert_near(oil_volume_ml(&left), oil_volume_ml(&laid), 1e-12);
}

/* Units at the edges: 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 mile = 1609.344 m, 1 lb = 0.45359237 kg
 * (definitions). */
static void test_units(void **unused)
{
    (void)unused;
    assert_near(m_from_in(1.0), 0.0254, 1e-15);
    assert_near(m_from_ft(1.0), 0.3048, 1e-15);
    assert_near(mps_from_mph(1.0), 1609.344 / 3600.0, 1e-15);
    assert_near(kg_from_lb(16.0), 16.0 * 0.45359237, 1e-12);
    assert_near(radps_from_rpm(60.0), 2.0 * acos(-1.0), 1e-12);
    assert_near(deg_from_rad(rad_from_deg(33.0)), 33.0, 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lane),
        cmocka_unit_test(test_boards),
        cmocka_unit_test(test_pin_triangle),
        cmocka_unit_test(test_pin_boards),
        cmocka_unit_test(test_pins_in_a_mirror),
        cmocka_unit_test(test_straight_line_to_the_head_pin),
        cmocka_unit_test(test_launch_and_aim_are_inverse),
        cmocka_unit_test(test_ball_limits),
        cmocka_unit_test(test_pin_to_axis_limit),
        cmocka_unit_test(test_roughness_limit),
        cmocka_unit_test(test_oil_unit),
        cmocka_unit_test(test_volume_of_strokes),
        cmocka_unit_test(test_ratio),
        cmocka_unit_test(test_lane_in_a_mirror),
        cmocka_unit_test(test_units),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
