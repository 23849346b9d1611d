/* helper_lane.c - see helper_lane.h. */
#include "helper_lane.h"

#include <math.h>
#include <string.h>

static void fill(double length_ft, double outside, Oil *oil)
{
    memset(oil, 0, sizeof *oil);
    oil->length_ft = length_ft;
    for (int j = 0; j < OIL_STATIONS; j++) {
        double ft = j * 0.5;
        if (ft > length_ft)
            break;
        double along = ft < 8.0 ? 1.0 : 1.0 - 0.75 * (ft - 8.0) / (length_ft - 8.0);
        if (ft > length_ft - 2.0)
            along *= 0.6;
        for (int b = 1; b <= LANE_BOARDS; b++) {
            int in = b <= 20 ? b : 40 - b;
            double t = fmin(fmax((in - 5.0) / 8.0, 0.0), 1.0);
            double across = outside + (1.0 - outside) * t * t * (3.0 - 2.0 * t);
            oil->units[j][b - 1] = along * across * (in == 1 ? 0.5 : 1.0);
        }
    }
}

void lane_shaped(double length_ft, double volume_ml, double ratio, Oil *oil)
{
    double low = 0.0, high = 2.0; /* film outside over film inside */
    for (int i = 0; i < 50; i++) {
        double outside = 0.5 * (low + high);
        fill(length_ft, outside, oil);
        if (oil_ratio(oil) > ratio)
            low = outside;
        else
            high = outside;
    }
    oil_scale(oil, volume_ml / oil_volume_ml(oil));
}

Delivery lane_release(double laydown_board)
{
    return (Delivery){laydown_board, 2.0, 18.3, 350.0, 50.0, 12.0, 1.0};
}

Delivery lane_any_release(Rng *rng)
{
    bool two_handed = rng_uniform(rng) < 0.4;
    Delivery d = {.launch_deg = 2.0}; /* one draw a statement: the order must be the same for all */
    d.laydown_board = rng_between(rng, 17.0, 28.0);
    d.mph = rng_between(rng, 16.5, 19.5);
    d.rpm = two_handed ? rng_between(rng, 380.0, 500.0) : rng_between(rng, 280.0, 420.0);
    d.rotation_deg = rng_between(rng, 35.0, 65.0);
    d.tilt_deg = rng_between(rng, 3.0, 18.0);
    d.loft_ft = rng_between(rng, 0.0, 3.0);
    return d;
}

/* Board at the pins; a ball in the gutter counts as having gone on sideways. */
static double ends_at(const MotionBody *body, const Oil *oil, Delivery delivery, double launch)
{
    delivery.launch_deg = launch;
    Arrival end = motion_arrive(body, oil, &delivery);
    return end.gutter ? NAN : end.board;
}

bool lane_find_launch(const MotionBody *body, const Oil *oil, Delivery *delivery, double board)
{
    /* least launch first: the most direct line */
    double before = NAN;
    for (double launch = -1.0; launch <= 6.0; launch += 0.25) {
        double now = ends_at(body, oil, *delivery, launch);
        if (!isnan(before) && !isnan(now) && (before - board) * (now - board) <= 0.0) {
            double a = launch - 0.25, b = launch, fa = before - board, fb = now - board;
            for (int i = 0; i < 60 && fabs(fb) > 1e-6 && fabs(b - a) > 1e-9; i++) {
                double c = b - fb * (b - a) / (fb - fa); /* secant, kept in the bracket */
                if (i % 3 == 2 || !(c > fmin(a, b) && c < fmax(a, b)))
                    c = 0.5 * (a + b);
                double fc = ends_at(body, oil, *delivery, c) - board;
                if (isnan(fc))
                    break;
                if (fa * fc <= 0.0) {
                    b = c;
                    fb = fc;
                } else {
                    a = c;
                    fa = fc;
                }
            }
            delivery->launch_deg = fabs(fa) < fabs(fb) ? a : b;
            return fmin(fabs(fa), fabs(fb)) < 0.05;
        }
        before = now;
    }
    return false;
}
