/* helper_colour.c - WCAG 2 contrast, CIELAB and simulated colour blindness, from their published
 * definitions. */
#include "helper_colour.h"

#include <math.h>

const char *const VISION_NAMES[VISION_COUNT] = {"full", "protanopia", "deuteranopia", "tritanopia"};

/* Machado, Oliveira & Fernandes, "A Physiologically-based Model for Simulation of Color Vision
 * Deficiency", IEEE TVCG 15(6), 2009: the matrices of severity 1.0, for linear RGB. From memory,
 * and compared with the same digits in several public programs; the paper itself was not read. */
static const double MATRIX[VISION_COUNT][3][3] = {
    {{1.0, 0.0, 0.0}, {0.0, 1.0, 0.0}, {0.0, 0.0, 1.0}},
    {{0.152286, 1.052583, -0.204868},
     {0.114503, 0.786281, 0.099216},
     {-0.003882, -0.048116, 1.051998}},
    {{0.367322, 0.860646, -0.227968},
     {0.280085, 0.672501, 0.047413},
     {-0.011820, 0.042940, 0.968881}},
    {{1.255528, -0.076749, -0.178779},
     {-0.078411, 0.930809, 0.147602},
     {0.004733, 0.691367, 0.303900}}};

/* Linear sRGB (IEC 61966-2-1) to CIE XYZ, white D65. From memory. */
static const double XYZ[3][3] = {{0.4124564, 0.3575761, 0.1804375},
                                 {0.2126729, 0.7151522, 0.0721750},
                                 {0.0193339, 0.1191920, 0.9503041}};
static const double WHITE[3] = {0.95047, 1.0, 1.08883};

/* WCAG 2.0 wrote 0.03928 for 0.04045; for bytes that is the same. */
static void linear_of(int rgb, double out[3])
{
    for (int i = 0; i < 3; i++) {
        double c = (rgb >> (16 - 8 * i) & 255) / 255.0;
        out[i] = c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
    }
}

double colour_luminance(int rgb)
{
    double c[3];
    linear_of(rgb, c);
    return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}

double colour_contrast(int rgb, int other)
{
    double a = colour_luminance(rgb), b = colour_luminance(other);
    return (fmax(a, b) + 0.05) / (fmin(a, b) + 0.05);
}

static void times(const double matrix[3][3], const double in[3], double out[3])
{
    for (int i = 0; i < 3; i++)
        out[i] = matrix[i][0] * in[0] + matrix[i][1] * in[1] + matrix[i][2] * in[2];
}

/* CIE 15: the cube root, and a straight line near black. */
static double lab_f(double t)
{
    return t > 216.0 / 24389.0 ? cbrt(t) : (24389.0 / 27.0 * t + 16.0) / 116.0;
}

Lab colour_lab(int rgb, Vision vision)
{
    double linear[3], seen[3], xyz[3], f[3];
    linear_of(rgb, linear);
    times(MATRIX[vision], linear, seen);
    for (int i = 0; i < 3; i++)
        seen[i] = fmin(fmax(seen[i], 0.0), 1.0); /* what a screen can show */
    times(XYZ, seen, xyz);
    for (int i = 0; i < 3; i++)
        f[i] = lab_f(xyz[i] / WHITE[i]);
    return (Lab){116.0 * f[1] - 16.0, 500.0 * (f[0] - f[1]), 200.0 * (f[1] - f[2])};
}

double colour_difference(int rgb, int other, Vision vision)
{
    Lab p = colour_lab(rgb, vision), q = colour_lab(other, vision);
    return sqrt((p.l - q.l) * (p.l - q.l) + (p.a - q.a) * (p.a - q.a) + (p.b - q.b) * (p.b - q.b));
}
