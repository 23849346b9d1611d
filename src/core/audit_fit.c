/* audit_fit.c - laydowns and aims tried as one batch, the best looked at more closely. */
#include "core/audit_fit.h"

#include <math.h>

#include "base/units.h"

enum { COARSE_AIMS = 24, FINE_AIMS = 17, NODES = 9, LAYDOWNS_MAX = 13 };
#define COARSE_AIM 0.75 /* boards between aims */
#define FINE_AIM 0.25
#define COARSE_LAYDOWN 3.0
#define REST_BOARDS                                                                                \
    0.8                 /* scatter at the pins but for the aim's, until it is known; as in line.c  \
                         */
#define POCKET_NEAR 4.0 /* boards: farther from the pocket than that an aim is not worth a look */
#define AIM_LOW 5.0     /* first arrow: outside of it the gutter is beside the line (assumed) */

/* Arrivals over aim from one laydown, at even steps. A gutter ball arrives on board 0. */
typedef struct Curve {
    int count;
    double laydown, first, step;
    double board[COARSE_AIMS], degrees[COARSE_AIMS];
} Curve;

/* Normal distribution function, to 2e-4 (Page 1977, from memory; a test holds it to erfc through
 * the chances): a search calls it some thousand times. */
static double below(double x) { return 1.0 / (1.0 + exp(-1.5976 * x - 0.07056 * x * x * x)); }

static void curve_at(const Curve *curve, double aim, double *board, double *degrees)
{
    double at = (aim - curve->first) / curve->step;
    at = at < 0.0 ? 0.0 : at > curve->count - 1.0 ? curve->count - 1.0 : at;
    int i = (int)at;
    if (i > curve->count - 2)
        i = curve->count - 2;
    double share = at - i;
    *board = curve->board[i] + share * (curve->board[i + 1] - curve->board[i]);
    if (degrees)
        *degrees = curve->degrees[share < 0.5 ? i : i + 1];
}

static double chance(const Curve *curve, double aim, double aim_sd, double rest_sd)
{
    /* a normal's weights at -3.2, -2.4 .. 3.2 deviations, over their sum */
    static const double WEIGHT[NODES] = {0.001907, 0.017914, 0.088747, 0.231803, 0.319258,
                                         0.231803, 0.088747, 0.017914, 0.001907};
    double sum = 0.0;
    for (int k = 0; k < NODES; k++) {
        double board;
        curve_at(curve, aim + 0.8 * (k - NODES / 2) * aim_sd, &board, 0);
        if (fabs(board - LANE_POCKET_BEST) < 4.0 * rest_sd + 1.0)
            sum += WEIGHT[k] * (below((LANE_POCKET_HIGH - board) / rest_sd) -
                                below((LANE_POCKET_LOW - board) / rest_sd));
    }
    return sum;
}

static double room(const Curve *curve, double aim, double sign)
{
    int steps = 0;
    for (double board; steps < 40; steps++) { /* by twentieths, as in line.c */
        curve_at(curve, aim + sign * 0.05 * (steps + 1.0), &board, 0);
        if (!(board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH))
            break;
    }
    return 0.05 * steps;
}

/* The aim on a curve of most worth, kept where it beats `best`; miss room counts on a fine one. */
static void try_curve(const Curve *curve, double aim_sd, double rest_sd, bool fine, Fit *best)
{
    double step = fine ? 0.5 * FINE_AIM : FINE_AIM;
    int count = (int)((curve->count - 1) * curve->step / step + 0.5);
    for (int i = 0; i <= count; i++) {
        Line line = {.laydown_board = curve->laydown, .aim = curve->first + step * i};
        double board;
        curve_at(curve, line.aim, &board, &line.entry_deg);
        if (line.aim < AIM_LOW || fabs(board - LANE_POCKET_BEST) > POCKET_NEAR)
            continue;
        line.found = board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH;
        line.pocket = chance(curve, line.aim, aim_sd, rest_sd);
        if (fine && line.found) {
            line.room_in = room(curve, line.aim, 1.0);
            line.room_out = room(curve, line.aim, -1.0);
        }
        double worth = line_value(&line);
        bool first = fine && line.found != best->found; /* a coarse curve can't tell */
        if (first ? line.found : worth > best->worth)
            *best = (Fit){.found = line.found,
                          .worth = worth,
                          .pocket = line.pocket,
                          .entry_deg = line.entry_deg,
                          .room_boards = line.room_in + line.room_out,
                          .laydown_board = line.laydown_board,
                          .aim = line.aim};
    }
}

static void fill(Curve *curves, int count, const BatchBall *ball, const BatchOil *oil,
                 const Delivery *usual)
{
    BatchThrow throws[LAYDOWNS_MAX * COARSE_AIMS] = {0};
    Arrival arrivals[LAYDOWNS_MAX * COARSE_AIMS];
    int used = 0;
    for (int c = 0; c < count; c++)
        for (int i = 0; i < curves[c].count; i++) {
            BatchThrow *throw = &throws[used++];
            *throw = (BatchThrow){.delivery = *usual, .film_scale = 1.0f, .dry_scale = 1.0f};
            throw->delivery.laydown_board = curves[c].laydown;
            throw->delivery.launch_deg =
                delivery_launch_deg(curves[c].laydown, curves[c].first + i * curves[c].step);
        }
    batch_arrive(ball, oil, throws, used, arrivals);
    const Arrival *next = arrivals;
    for (int c = 0; c < count; c++)
        for (int i = 0; i < curves[c].count; i++, next++) {
            curves[c].board[i] = next->gutter ? 0.0 : next->board;
            curves[c].degrees[i] = next->gutter ? NAN : next->degrees;
        }
}

/* Boards at the pins that speed, rev rate and laydown scatter by, on this line. */
static double rest_of(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler,
                      const Delivery *delivery)
{
    BatchThrow throws[4];
    Arrival arrivals[4];
    for (int i = 0; i < 4; i++)
        throws[i] = (BatchThrow){.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
    throws[1].delivery.mph += bowler->scatter.mph;
    throws[2].delivery.rpm += bowler->scatter.rpm;
    throws[3].delivery.laydown_board += bowler->scatter.laydown_boards;
    batch_arrive(ball, oil, throws, 4, arrivals);
    double sum = 0.1 * 0.1;
    for (int i = 1; i < 4; i++) {
        double away = arrivals[i].board - arrivals[0].board;
        sum += isnan(away) ? 0.0 : away * away;
    }
    return sqrt(sum);
}

Fit audit_fit(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler)
{
    return audit_fit_between(ball, oil, bowler, FIT_LAYDOWN_LOW, FIT_LAYDOWN_HIGH);
}

Fit audit_fit_between(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler, double low,
                      double high)
{
    Delivery usual = delivery_of(bowler, 26.0, 15.0); /* its line is not looked at */
    double aim_sd =
        rad_from_deg(bowler->scatter.launch_deg) * m_from_ft(LANE_ARROWS_FT) / LANE_BOARD_M;
    aim_sd = fmax(aim_sd, 0.02);
    Curve curves[LAYDOWNS_MAX];
    int count = 0;
    for (double at = low; at <= high && count < LAYDOWNS_MAX; at += COARSE_LAYDOWN)
        curves[count++] =
            (Curve){.count = COARSE_AIMS, .laydown = at, .first = at - 15.0, .step = COARSE_AIM};
    fill(curves, count, ball, oil, &usual);
    Fit rough = {.worth = -1.0};
    for (int c = 0; c < count; c++)
        try_curve(&curves[c], aim_sd, REST_BOARDS, false, &rough);
    if (rough.worth < 0.0)
        return (Fit){.laydown_board = 20.0, .aim = 12.0, .entry_deg = NAN};
    usual.laydown_board = rough.laydown_board;
    usual.launch_deg = delivery_launch_deg(rough.laydown_board, rough.aim);
    double rest_sd = rest_of(ball, oil, bowler, &usual);
    for (int c = 0; c < 3; c++) { /* the boards beside it; the aim goes along by half (assumed) */
        double laydown = rough.laydown_board + (c - 1.0);
        curves[c] = (Curve){.count = FINE_AIMS,
                            .laydown = laydown,
                            .first = rough.aim + 0.5 * (c - 1.0) - 0.5 * (FINE_AIMS - 1) * FINE_AIM,
                            .step = FINE_AIM};
    }
    fill(curves, 3, ball, oil, &usual);
    Fit best = {.worth = -1.0};
    for (int c = 0; c < 3; c++)
        try_curve(&curves[c], aim_sd, rest_sd, true, &best);
    return best.worth < 0.0 ? rough : best;
}

Line audit_line(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Fit *fit)
{
    Delivery usual = delivery_of(bowler, delivery_stance(bowler, fit->laydown_board), fit->aim);
    return line_measure(body, oil, bowler, &usual);
}
