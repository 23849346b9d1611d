/* fit.c - tries laydowns and aims in batches, then looks at the best more closely. */
#include "core/line/fit.h"

#include <math.h>

#include "core/line/curve.h"

enum { FINE_AIMS = 17, AIM_PARTS = 8 };
#define COARSE_AIM 0.75 /* boards between aims */
#define FINE_AIM 0.25
#define FINE_NEAR 2.0 /* boards either side of a rough fit's aim */
#define COARSE_LAYDOWN 3.0
#define MARGIN_MOST 2.0 /* either way; more adds no value */

/* Normal distribution function, to 2e-4 (Page 1977, from memory; a test compares the resulting
 * chances with erfc's): a search calls it some thousand times. */
static double below(double x) { return 1.0 / (1.0 + exp(-1.5976 * x - 0.07056 * x * x * x)); }

static double chance(const ArrivalCurve *curve, double aim, const AimBell *aims, double rest_sd)
{
    double sum = 0.0;
    for (int k = 0; k < aims->count; k++) {
        double board;
        curve_at(curve, aim + aims->away[k], &board, NULL);
        if (fabs(board - LANE_POCKET_BEST) < 4.0 * rest_sd + 1.0)
            sum += aims->weight[k] * (below((LANE_POCKET_HIGH - board) / rest_sd) -
                                      below((LANE_POCKET_LOW - board) / rest_sd));
    }
    return sum / aims->sum;
}

/* The aim with the most value on a curve, kept if it beats `best`; margins count only on a fine
 * curve. */
static void try_curve(const ArrivalCurve *curve, const AimBell *aims, double rest_sd, bool fine,
                      Fit *best)
{
    double step = fine ? 0.5 * FINE_AIM : FINE_AIM, half = 0.5 * (curve->count - 1) * curve->step;
    double near = fine ? FINE_NEAR : half; /* of the curve's middle */
    int count = (int)(2.0 * near / step + 0.5);
    for (int i = 0; i <= count; i++) {
        Line line = {.laydown_board = curve->laydown,
                     .aim = curve->first + (half - near) + step * i};
        double board;
        curve_at(curve, line.aim, &board, &line.entry_deg);
        if (line.aim < LINE_AIM_LOW || fabs(board - LANE_POCKET_BEST) > CURVE_POCKET_NEAR)
            continue;
        line.found = board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH;
        line.pocket = chance(curve, line.aim, aims, rest_sd);
        if (fine && line.found) {
            line.margin_in = curve_margin(curve, line.aim, 1.0, MARGIN_MOST);
            line.margin_out = curve_margin(curve, line.aim, -1.0, MARGIN_MOST);
        }
        double value = line_value(&line);
        bool first = fine && line.found != best->found; /* a coarse curve can't say */
        if (first ? line.found : value > best->value)
            *best = (Fit){.found = line.found,
                          .value = value,
                          .pocket = line.pocket,
                          .entry_deg = line.entry_deg,
                          .margin_boards = line.margin_in + line.margin_out,
                          .laydown_board = line.laydown_board,
                          .aim = line.aim};
    }
}

/* Tries laydowns low..high at coarse steps; value below 0: nothing comes near the pocket. */
static Fit rough_fit(CurveBatch *batch, const AimBell *aims, double low, double high)
{
    double lowest = LINE_AIM_LOW + aims->away[0]; /* aims outside it are ignored */
    ArrivalCurve curves[CURVE_LAYDOWNS_MAX];
    int count = 0;
    for (double at = low; at <= high && count < CURVE_LAYDOWNS_MAX; at += COARSE_LAYDOWN)
        curves[count++] = curve_over_all(at, COARSE_AIM);
    curves_sieve(batch, curves, count, lowest);
    Fit rough = {.value = -1.0};
    for (int c = 0; c < count; c++)
        try_curve(&curves[c], aims, CURVE_REST_BOARDS, false, &rough);
    return rough;
}

/* A rough fit's line and the lines next to it, with its own scatter, all in one batch. */
static Fit fine_fit(CurveBatch *batch, const Bowler *bowler, const AimBell *aims, const Fit *rough)
{
    enum { BESIDE = 3 };
    ArrivalCurve curves[BESIDE];
    double step = fmax(FINE_AIM, 2.0 * CURVE_REACH * aims->deviation / (FINE_AIMS - 1));
    Delivery line = batch->usual;
    line.laydown_board = rough->laydown_board;
    line.launch_deg = delivery_launch_deg(rough->laydown_board, rough->aim);
    curve_rest_ask(batch, &bowler->scatter, &line);
    int count = 0;
    for (double beside = -1.0; beside <= 1.0; beside += 1.0) {
        double low = rough->laydown_board + beside, high = low;
        delivery_reach(bowler, &low, &high);
        if (low != rough->laydown_board + beside)
            continue;
        /* the aim follows by half (assumed) */
        double first = rough->aim + 0.5 * beside - 0.5 * (FINE_AIMS - 1) * step;
        curves[count++] = curve_over(low, first, step, FINE_AIMS);
    }
    curves_roll(batch, curves, count);
    double rest_sd = curve_rest_deviation(batch->arrivals);
    Fit best = {.value = -1.0};
    for (int c = 0; c < count; c++)
        try_curve(&curves[c], aims, rest_sd, true, &best);
    return best;
}

Fit fit_ball(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler)
{
    return fit_between(ball, oil, bowler, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
}

Fit fit_between(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler, double low,
                double high)
{
    CurveBatch batch;
    Delivery usual = delivery_of(bowler, 26.0, 15.0); /* its line is ignored */
    AimBell aims = curve_aim_bell(&bowler->scatter, AIM_PARTS);
    curve_batch_begin(&batch, ball, oil, &usual, 0.0);
    delivery_reach(bowler, &low, &high);
    Fit rough = rough_fit(&batch, &aims, low, high);
    if (rough.value < 0.0)
        return (Fit){.laydown_board = 20.0, .aim = 12.0, .entry_deg = NAN};
    Fit fine = fine_fit(&batch, bowler, &aims, &rough);
    return fine.value < 0.0 ? rough : fine;
}

Line fit_line(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Fit *fit)
{
    Delivery usual = delivery_of(bowler, delivery_stance(bowler, fit->laydown_board), fit->aim);
    return line_measure(body, oil, bowler, &usual, 0.0);
}
