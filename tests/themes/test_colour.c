/* test_colour.c - the measures of colour that the themes are held to, against values of others. */
#include "near.h"

#include "helper_colour.h"

/* WCAG 2: black on white is 21:1, a colour on itself 1:1. #777777 just misses 4.5:1 on white and
 * #767676 just makes it: a pair that every checker of contrast shows. From memory. */
static void contrast_is_wcags(void **state)
{
    (void)state;
    assert_near(colour_contrast(0xffffff, 0x000000), 21.0, 1e-9);
    assert_near(colour_contrast(0x000000, 0xffffff), 21.0, 1e-9);
    assert_near(colour_contrast(0x5f87af, 0x5f87af), 1.0, 1e-12);
    assert_near(colour_contrast(0x777777, 0xffffff), 4.48, 0.005);
    assert_near(colour_contrast(0x767676, 0xffffff), 4.54, 0.005);
    assert_near(colour_contrast(0xff0000, 0xffffff), 4.00, 0.005);
    assert_near(colour_luminance(0x00ff00), 0.7152, 1e-12);
}

/* CIELAB of the sRGB primaries, D65, as colour calculators print them. From memory. */
static void lab_is_cies(void **state)
{
    (void)state;
    static const struct {
        int rgb;
        Lab lab;
    } KNOWN[] = {{0x000000, {0.0, 0.0, 0.0}},         {0xffffff, {100.0, 0.0, 0.0}},
                 {0xff0000, {53.24, 80.09, 67.20}},   {0x00ff00, {87.73, -86.18, 83.18}},
                 {0x0000ff, {32.30, 79.19, -107.86}}, {0xffff00, {97.14, -21.55, 94.48}},
                 {0x808080, {53.59, 0.0, 0.0}}};
    for (size_t i = 0; i < sizeof KNOWN / sizeof *KNOWN; i++) {
        Lab lab = colour_lab(KNOWN[i].rgb, VISION_FULL);
        assert_near(lab.l, KNOWN[i].lab.l, 0.02);
        assert_near(lab.a, KNOWN[i].lab.a, 0.02);
        assert_near(lab.b, KNOWN[i].lab.b, 0.02);
    }
}

/* By definition the difference of two greys is that of their L*; of black and white, 100. */
static void difference_is_cies(void **state)
{
    (void)state;
    assert_near(colour_difference(0x000000, 0xffffff, VISION_FULL), 100.0, 0.01);
    assert_near(colour_difference(0x808080, 0xffffff, VISION_FULL), 46.41, 0.02);
    assert_near(colour_difference(0xff0000, 0x00ff00, VISION_FULL), 170.6, 0.1);
    assert_near(colour_difference(0x87d787, 0x87d787, VISION_FULL), 0.0, 1e-12);
}

/* What any simulation must do: greys stay as they are; red and green come closer to those who
 * lack red or green cones, blue and green to those who lack blue ones; and to those who lack red
 * cones, red is dark. */
static void blindness_confuses_what_it_should(void **state)
{
    (void)state;
    for (int vision = VISION_PROTANOPIA; vision < VISION_COUNT; vision++)
        for (int grey = 0; grey < 256; grey += 15) {
            int rgb = grey * 0x010101;
            Lab seen = colour_lab(rgb, (Vision)vision), is = colour_lab(rgb, VISION_FULL);
            assert_near(seen.l, is.l, 0.01);
            assert_near(seen.a, 0.0, 0.02);
            assert_near(seen.b, 0.0, 0.02);
        }
    /* a red and a green of about the same lightness, a blue and a green of the same */
    const int red = 0xd75f00, green = 0x5f8700, blue = 0x0087af, teal = 0x00875f;
    double full = colour_difference(red, green, VISION_FULL);
    assert_less(colour_difference(red, green, VISION_PROTANOPIA), 0.5 * full);
    assert_less(colour_difference(red, green, VISION_DEUTERANOPIA), 0.5 * full);
    assert_less(0.5 * full, colour_difference(red, green, VISION_TRITANOPIA));
    full = colour_difference(blue, teal, VISION_FULL);
    assert_less(colour_difference(blue, teal, VISION_TRITANOPIA), 0.5 * full);
    assert_less(0.5 * full, colour_difference(blue, teal, VISION_DEUTERANOPIA));
    assert_less(colour_lab(0xff0000, VISION_PROTANOPIA).l,
                colour_lab(0xff0000, VISION_DEUTERANOPIA).l - 10.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contrast_is_wcags),
        cmocka_unit_test(lab_is_cies),
        cmocka_unit_test(difference_is_cies),
        cmocka_unit_test(blindness_confuses_what_it_should),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
