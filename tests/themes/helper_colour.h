/* helper_colour.h - how far apart colours look: contrast, and difference under full colour
 * blindness. Colours are 0xRRGGBB. */
#ifndef SETTEE_TESTS_COLOUR_H
#define SETTEE_TESTS_COLOUR_H

/* Full colour vision, and the three kinds of full dichromacy. */
typedef enum Vision {
    VISION_FULL,
    VISION_PROTANOPIA,
    VISION_DEUTERANOPIA,
    VISION_TRITANOPIA,
    VISION_COUNT
} Vision;
extern const char *const VISION_NAMES[VISION_COUNT];

typedef struct Lab {
    double l, a, b;
} Lab;

/* Relative luminance, 0..1, and contrast ratio, 1..21, as WCAG 2.2 defines them. */
double colour_luminance(int rgb);
double colour_contrast(int rgb, int other);

/* CIELAB (CIE 1976; white D65) of a colour as that vision sees it. */
Lab colour_lab(int rgb, Vision vision);

/* CIE 1976 colour difference: the distance in CIELAB. */
double colour_difference(int rgb, int other, Vision vision);

#endif
