/* curve.c - curves of arrivals, filled by batches. */
#include "core/line/curve.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

enum { SIEVE = 3 };
#define TOO_HIGH (LANE_POCKET_BEST + CURVE_POCKET_NEAR)
#define TOO_WIDE (LANE_POCKET_BEST - CURVE_POCKET_NEAR)

/* Aims that can be thrown from a laydown: outward up to ten degrees, more than anybody plays
 * (assumed), but not into the gutter; inward to where a straight ball would hit the pocket (it has
 * gone a quarter of its way by the arrows), plus a board: hook only takes it higher. */
#define AIM_OUTWARD 30.0
#define AIM_OUTERMOST (-1.0)
#define NEAR_OUTWARD 15.0 /* most balls want less */
static double aim_inward(double laydown) { return 0.25 * (TOO_HIGH - laydown) + 1.0; }

ArrivalCurve curve_over(double laydown, double first, double step, int count)
{
    ArrivalCurve curve;
    curve.laydown = laydown;
    curve.first = first;
    curve.step = step;
    curve.count = count;
    for (int i = 0; i < count; i++)
        curve.wanted[i] = true;
    return curve;
}

ArrivalCurve curve_over_all(double laydown, double step)
{
    int out = (int)floor(fmin(AIM_OUTWARD, laydown - AIM_OUTERMOST) / step);
    int count = out + (int)floor(aim_inward(laydown) / step) + 1;
    return curve_over(laydown, laydown - out * step, step, count < 2 ? 2 : count);
}

void curve_at(const ArrivalCurve *curve, double aim, double *board, double *degrees)
{
    double at = (aim - curve->first) / curve->step;
    at = at < 0.0 ? 0.0 : at > curve->count - 1.0 ? curve->count - 1.0 : at;
    int i = (int)at;
    if (i > curve->count - 2)
        i = curve->count - 2;
    double share = at - i, outer = curve->board[i], inner = curve->board[i + 1];
    bool falls = (outer == 0.0 || inner == 0.0) && share > 0.0; /* a gutter ball on one side */
    *board = falls ? 0.0 : outer + share * (inner - outer);
    if (degrees)
        *degrees = curve->degrees[share < 0.5 ? i : i + 1];
}

double curve_margin(const ArrivalCurve *curve, double aim, double sign, double most)
{
    enum { FINE = 20 }; /* a twentieth of a board */
    int steps = 0;
    for (double board; steps < (int)(most * FINE); steps++) {
        curve_at(curve, aim + sign * (steps + 1.0) / FINE, &board, NULL);
        if (!(board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH))
            break;
    }
    return (double)steps / FINE;
}

void curve_batch_begin(CurveBatch *batch, const BatchBall *ball, const BatchOil *oil,
                       const Delivery *usual, double off_boards)
{
    batch->ball = ball;
    batch->oil = oil;
    batch->usual = *usual;
    batch->off_boards = off_boards;
    batch->count = 0;
}

void curve_batch_ask(CurveBatch *batch, const Delivery *delivery)
{
    batch->throws[batch->count++] =
        (BatchThrow){.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
}

static void ask_curve(CurveBatch *batch, const ArrivalCurve *curve)
{
    Delivery delivery = batch->usual;
    delivery.laydown_board = curve->laydown;
    for (int i = 0; i < curve->count; i++) {
        if (!curve->wanted[i])
            continue;
        delivery.launch_deg = delivery_launch_deg(curve->laydown, curve->first + i * curve->step);
        curve_batch_ask(batch, &delivery);
    }
}

static const Arrival *read_curve(ArrivalCurve *curve, double off_boards, const Arrival *next)
{
    for (int i = 0; i < curve->count; i++) {
        if (!curve->wanted[i])
            continue;
        curve->board[i] = next->gutter ? 0.0 : next->board + off_boards;
        curve->degrees[i] = next->gutter ? NAN : next->degrees;
        next++;
    }
    return next;
}

void curves_roll(CurveBatch *batch, ArrivalCurve *curves, int count)
{
    const Arrival *next = batch->arrivals + batch->count;
    for (int c = 0; c < count; c++)
        ask_curve(batch, &curves[c]);
    batch_arrive(batch->ball, batch->oil, batch->throws, batch->count, batch->arrivals);
    for (int c = 0; c < count; c++)
        next = read_curve(&curves[c], batch->off_boards, next);
    batch->count = 0;
}

/* Whether an aim between two others may come near the pocket, given their boards at the pins. Next
 * to a gutter ball it always may: a ball that just stays out of the gutter can come back. */
static bool may_matter(double outer, double inner)
{
    if (outer == 0.0 || inner == 0.0)
        return outer != inner;
    return fmin(outer, inner) <= TOO_HIGH && fmax(outer, inner) >= TOO_WIDE;
}

/* Whether an aim is at or just below `lowest`, or above it. */
static bool in_reach(const ArrivalCurve *curve, int i, double lowest)
{
    return curve->first + curve->step * (i + 1) > lowest;
}

/* Wants every third aim from NEAR_OUTWARD inward; the others count as gutter balls for now. */
static void want_near(ArrivalCurve *curve, double lowest)
{
    int near = (int)floor((curve->laydown - NEAR_OUTWARD - curve->first) / curve->step);
    for (int i = 0; i < curve->count; i++) {
        curve->wanted[i] = i % SIEVE == 0 && i + SIEVE > near && in_reach(curve, i, lowest);
        curve->board[i] = 0.0;
        curve->degrees[i] = NAN;
    }
}

/* Then wants those farther out, unless they too must end in the near gutter: the outermost aim did,
 * and the first that stayed on the lane was not high. */
static void want_far(ArrivalCurve *curve, double lowest)
{
    int at = 0;
    while (at < curve->count && !curve->wanted[at])
        at++;
    int outermost = at;
    while (at < curve->count && curve->board[at] == 0.0)
        at += SIEVE;
    bool fell = at > outermost && at < curve->count && curve->board[at] <= TOO_HIGH;
    for (int i = 0; i < curve->count; i++)
        curve->wanted[i] = !fell && i < outermost && i % SIEVE == 0 && in_reach(curve, i, lowest);
}

/* With some aims rolled, wants those between that may matter. */
static void want_between(ArrivalCurve *curve, double lowest)
{
    memset(curve->wanted, 0, sizeof curve->wanted);
    for (int i = SIEVE; i < curve->count; i += SIEVE) /* in the far gutter: higher than high */
        if (curve->board[i] == 0.0 && curve->board[i - SIEVE] > TOO_HIGH)
            curve->board[i] = LANE_BOARDS;
    for (int i = 0; i < curve->count; i++) {
        int outer = i - i % SIEVE, inner = outer + SIEVE;
        if (outer == i)
            continue;
        double a = curve->board[outer];
        double b = inner < curve->count ? curve->board[inner] : LANE_BOARDS;
        curve->wanted[i] = may_matter(a, b) && in_reach(curve, i, lowest);
        curve->board[i] = a + (b - a) * (i - outer) / SIEVE;
        curve->degrees[i] = NAN;
    }
}

void curves_sieve(CurveBatch *batch, ArrivalCurve *curves, int count, double lowest)
{
    static void (*const WANTS[])(ArrivalCurve *, double) = {want_near, want_far, want_between};
    for (int round = 0; round < 3; round++) {
        for (int c = 0; c < count; c++)
            WANTS[round](&curves[c], lowest);
        curves_roll(batch, curves, count);
    }
}

/* Four boards at the pins to one at the arrows: not much less than the pocket is wide. */
#define NODES_APART 0.4

AimBell curve_aim_bell(const Scatter *scatter, int parts)
{
    AimBell bell = {.sum = 0.0};
    double sd = rad_from_deg(scatter->launch_deg) * m_from_ft(LANE_ARROWS_FT) / LANE_BOARD_M;
    bell.deviation = fmax(sd, 0.02);
    int times = (int)ceil(2.0 * CURVE_REACH * bell.deviation / (NODES_APART * parts));
    int most = (CURVE_NODES_MAX - 1) / parts;
    times = times < 1 ? 1 : times > most ? most : times;
    bell.count = parts * times + 1;
    for (int k = 0; k < bell.count; k++) {
        double z = -CURVE_REACH + 2.0 * CURVE_REACH * k / (bell.count - 1);
        bell.away[k] = z * bell.deviation;
        bell.weight[k] = exp(-0.5 * z * z);
        bell.sum += bell.weight[k];
    }
    return bell;
}

void curve_rest_ask(CurveBatch *batch, const Scatter *scatter, const Delivery *delivery)
{
    Delivery faster = *delivery, spun = *delivery, beside = *delivery;
    faster.mph += scatter->mph;
    spun.rpm += scatter->rpm;
    beside.laydown_board += scatter->laydown_boards;
    curve_batch_ask(batch, delivery);
    curve_batch_ask(batch, &faster);
    curve_batch_ask(batch, &spun);
    curve_batch_ask(batch, &beside);
}

double curve_rest_deviation(const Arrival arrivals[CURVE_REST_THROWS])
{
    double sum = 0.1 * 0.1; /* never 0, so that the chance stays smooth */
    for (int i = 1; i < CURVE_REST_THROWS; i++) {
        double away = arrivals[i].board - arrivals[0].board;
        sum += isnan(away) ? 0.0 : away * away;
    }
    return sqrt(sum);
}
