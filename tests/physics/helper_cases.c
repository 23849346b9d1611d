/* helper_cases.c - see helper_cases.h. One draw a statement: C leaves the order of evaluation
 * inside an initializer or an argument list open, and the cases must not depend on the compiler. */
#include "helper_cases.h"

#include <math.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

static int pick(Rng *rng, int low, int high) /* both ends included */
{
    return low + (int)(rng_uniform(rng) * (high - low + 1));
}

Ball case_ball(Rng *rng)
{
    static const double grit[] = {180, 360, 500, 800, 1000, 1500, 2000, 3000, 4000};
    Ball ball = ball_default();
    ball.pounds = rng_between(rng, 10.0, 16.0);
    ball.rg_in = rng_between(rng, 2.46, 2.72);
    ball.differential_in = rng_between(rng, 0.005, 0.060);
    double intermediate = ball.differential_in * rng_between(rng, 0.0, 0.4);
    ball.intermediate_in = rng_uniform(rng) < 0.4 ? 0.0 : intermediate;
    ball.cover = (Cover)pick(rng, 0, COVER_COUNT - 1);
    ball.cover_strength = rng_between(rng, 0.8, 1.1);
    ball.surface = (Surface){.finish = FINISH_GRIT, .grit = grit[pick(rng, 0, 8)]};
    if (rng_uniform(rng) < 0.2)
        ball.surface.finish = rng_uniform(rng) < 0.5 ? FINISH_COMPOUND : FINISH_POLISH;
    ball.pin_to_pap_in = rng_between(rng, 1.0, 6.0);
    ball.mass_bias_deg = rng_between(rng, 0.0, 90.0);
    return ball;
}

static void add(Pattern *pattern, int from, int to, double start, double end, double u0, double u1)
{
    if (pattern->stroke_count < PATTERN_STROKES_MAX && from <= to && start < end)
        pattern->strokes[pattern->stroke_count++] = (Stroke){from, to, start, end, u0, u1};
}

void case_pattern(Rng *rng, Pattern *pattern)
{
    memset(pattern, 0, sizeof *pattern);
    pattern->length_ft = 0.5 * pick(rng, 56, 96); /* 28 to 48 ft */
    double length = pattern->length_ft;
    if (rng_uniform(rng) < 0.5) {
        int layers = pick(rng, 4, 12), tilt = pick(rng, -3, 3);
        double units = rng_between(rng, 4.0, 40.0) / layers;
        int right = 1, left = 39;
        for (int i = 0; i < layers; i++) {
            double end = units * rng_between(rng, 0.05, 0.6);
            add(pattern, right, left, 0.0, length, units, end);
            right += pick(rng, 0, 3) + (tilt > 0 && i == 0 ? tilt : 0);
            left -= pick(rng, 0, 3) + (tilt < 0 && i == 0 ? -tilt : 0);
        }
    } else {
        int strokes = pick(rng, 3, 16);
        for (int i = 0; i < strokes; i++) {
            int from = pick(rng, 1, 36), to = from + pick(rng, 2, 38);
            double start = 0.5 * pick(rng, 0, (int)length);
            double end = start + 0.5 * pick(rng, 8, 60);
            double near = rng_between(rng, 0.0, 12.0), far = rng_between(rng, 0.0, 8.0);
            add(pattern, from, to > 39 ? 39 : to, start, fmin(end, length), near, far);
        }
    }
}

void case_random(Rng *rng, Case *out)
{
    Pattern pattern;
    Oil laid;
    out->ball = case_ball(rng);
    out->hand = rng_uniform(rng) < 0.5 ? HAND_RIGHT : HAND_LEFT;
    case_pattern(rng, &pattern);
    oil_lay(&pattern, &laid);
    oil_for_hand(&laid, out->hand, &out->oil);
    bool two_handed = rng_uniform(rng) < 0.4;
    Delivery *d = &out->delivery;
    d->laydown_board = rng_between(rng, 8.0, 34.0);
    d->launch_deg = rng_between(rng, -1.0, 5.0);
    d->mph = rng_between(rng, 13.0, 21.0);
    d->rpm = two_handed ? rng_between(rng, 350.0, 550.0) : rng_between(rng, 150.0, 420.0);
    d->rotation_deg = rng_between(rng, 10.0, 80.0);
    d->tilt_deg = rng_between(rng, 0.0, two_handed ? 10.0 : 25.0);
    d->loft_ft = rng_between(rng, 0.0, 5.0);
}

static int rising(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

double case_quantile(double *values, int count, double share)
{
    qsort(values, (size_t)count, sizeof *values, rising);
    return values[(int)(share * (count - 1) + 0.5)];
}
