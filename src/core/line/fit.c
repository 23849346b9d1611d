/* fit.c - laydowns and aims tried as batches, the best looked at more closely.
 *
 * Rolling takes nearly all of the time, so the aims between others that can't come near the pocket
 * are not rolled: no figure changes by that, measured in docs/bag.md. */
#include "core/line/fit.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

enum { COARSE_AIMS = 24, FINE_AIMS = 17, NODES = 9, LAYDOWNS_MAX = 13 };
enum { SIEVE = 3 };     /* of a coarse curve first every third aim */
#define COARSE_AIM 0.75 /* boards between aims */
#define FINE_AIM 0.25
#define NODE_STEP 0.8 /* deviations between nodes */
#define COARSE_LAYDOWN 3.0
#define REST_BOARDS 0.8 /* scatter at the pins but for the aim's, until known; as in line.c */
#define POCKET_NEAR 4.0 /* boards: farther from the pocket than that an aim is not worth a look */
#define TOO_HIGH (LANE_POCKET_BEST + POCKET_NEAR)
#define TOO_WIDE (LANE_POCKET_BEST - POCKET_NEAR)
#define AIM_LOW 5.0 /* first arrow: outside of it the gutter is beside the line (assumed) */

/* Arrivals over aim from one laydown, at even steps. A gutter ball arrives on board 0. */
typedef struct CoarseCurve {
    int count;
    double laydown, first, step;
    bool wanted[COARSE_AIMS]; /* aims to be rolled next */
    double board[COARSE_AIMS], degrees[COARSE_AIMS];
} CoarseCurve;

/* A batch that is put together from curves and single deliveries, and read in the same order. */
typedef struct Rolls {
    Delivery usual;
    int count;
    BatchThrow throws[LAYDOWNS_MAX * COARSE_AIMS];
    Arrival arrivals[LAYDOWNS_MAX * COARSE_AIMS];
} Rolls;

/* Normal distribution function, to 2e-4 (Page 1977, from memory; a test holds it to erfc through
 * the chances): a search calls it some thousand times. */
static double below(double x) { return 1.0 / (1.0 + exp(-1.5976 * x - 0.07056 * x * x * x)); }

static void curve_at(const CoarseCurve *curve, double aim, double *board, double *degrees)
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

static double chance(const CoarseCurve *curve, double aim, double aim_sd, double rest_sd)
{
    /* a normal's weights at -3.2, -2.4 .. 3.2 deviations, over their sum */
    static const double WEIGHT[NODES] = {0.001907, 0.017914, 0.088747, 0.231803, 0.319258,
                                         0.231803, 0.088747, 0.017914, 0.001907};
    double sum = 0.0;
    for (int k = 0; k < NODES; k++) {
        double board;
        curve_at(curve, aim + NODE_STEP * (k - NODES / 2) * aim_sd, &board, 0);
        if (fabs(board - LANE_POCKET_BEST) < 4.0 * rest_sd + 1.0)
            sum += WEIGHT[k] * (below((LANE_POCKET_HIGH - board) / rest_sd) -
                                below((LANE_POCKET_LOW - board) / rest_sd));
    }
    return sum;
}

static double margin(const CoarseCurve *curve, double aim, double sign)
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
static void try_curve(const CoarseCurve *curve, double aim_sd, double rest_sd, bool fine, Fit *best)
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
            line.margin_in = margin(curve, line.aim, 1.0);
            line.margin_out = margin(curve, line.aim, -1.0);
        }
        double value = line_value(&line);
        bool first = fine && line.found != best->found; /* a coarse curve can't tell */
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

static void ask(Rolls *rolls, const Delivery *delivery)
{
    rolls->throws[rolls->count++] =
        (BatchThrow){.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
}

static void ask_curve(Rolls *rolls, const CoarseCurve *curve)
{
    Delivery delivery = rolls->usual;
    delivery.laydown_board = curve->laydown;
    for (int i = 0; i < curve->count; i++) {
        if (!curve->wanted[i])
            continue;
        delivery.launch_deg = delivery_launch_deg(curve->laydown, curve->first + i * curve->step);
        ask(rolls, &delivery);
    }
}

static const Arrival *read_curve(CoarseCurve *curve, const Arrival *next)
{
    for (int i = 0; i < curve->count; i++) {
        if (!curve->wanted[i])
            continue;
        curve->board[i] = next->gutter ? 0.0 : next->board;
        curve->degrees[i] = next->gutter ? NAN : next->degrees;
        next++;
    }
    return next;
}

/* Rolls what the curves want. */
static void fill(Rolls *rolls, const BatchBall *ball, const BatchOil *oil, CoarseCurve *curves,
                 int count)
{
    rolls->count = 0;
    for (int c = 0; c < count; c++)
        ask_curve(rolls, &curves[c]);
    batch_arrive(ball, oil, rolls->throws, rolls->count, rolls->arrivals);
    const Arrival *next = rolls->arrivals;
    for (int c = 0; c < count; c++)
        next = read_curve(&curves[c], next);
}

/* Whether an aim that lies between two may come near the pocket: boards at the pins of the outer
 * and the inner one. Beside the gutter anything may: a ball that just misses it may come back. */
static bool may_matter(double outer, double inner)
{
    if (outer == 0.0 || inner == 0.0)
        return outer != inner;
    return fmin(outer, inner) <= TOO_HIGH && fmax(outer, inner) >= TOO_WIDE;
}

/* Whether an aim is near enough to those that are looked at: from `lowest` on, or just before. */
static bool in_reach(const CoarseCurve *curve, int i, double lowest)
{
    return curve->first + curve->step * (i + 1) > lowest;
}

/* Of a curve of which every third aim has been rolled: wants those of the others that may matter,
 * and lets the rest lie on straight lines, which stay clear of the pocket. */
static void want_between(CoarseCurve *curve, double lowest)
{
    memset(curve->wanted, 0, sizeof curve->wanted);
    for (int i = SIEVE; i < curve->count; i += SIEVE) /* off the far side: higher than high */
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

/* A line, and with a deviation more of speed, rev rate and laydown: what rest_of() tells by. */
enum { REST_THROWS = 4 };
static void ask_rest(Rolls *rolls, const Bowler *bowler, const Delivery *delivery)
{
    Delivery faster = *delivery, spun = *delivery, beside = *delivery;
    faster.mph += bowler->scatter.mph;
    spun.rpm += bowler->scatter.rpm;
    beside.laydown_board += bowler->scatter.laydown_boards;
    ask(rolls, delivery);
    ask(rolls, &faster);
    ask(rolls, &spun);
    ask(rolls, &beside);
}

/* Boards at the pins that speed, rev rate and laydown scatter by. */
static double rest_of(const Arrival arrivals[REST_THROWS])
{
    double sum = 0.1 * 0.1;
    for (int i = 1; i < REST_THROWS; i++) {
        double away = arrivals[i].board - arrivals[0].board;
        sum += isnan(away) ? 0.0 : away * away;
    }
    return sqrt(sum);
}

/* Laydowns low..high at coarse steps; worth below 0: nothing comes near the pocket. */
static Fit rough_fit(Rolls *rolls, const BatchBall *ball, const BatchOil *oil, double aim_sd,
                     double low, double high)
{
    double lowest = AIM_LOW - NODE_STEP * (NODES / 2) * aim_sd; /* no aim outside is looked at */
    CoarseCurve curves[LAYDOWNS_MAX];
    int count = 0;
    for (double at = low; at <= high && count < LAYDOWNS_MAX; at += COARSE_LAYDOWN) {
        CoarseCurve *curve = &curves[count++];
        *curve = (CoarseCurve){
            .count = COARSE_AIMS, .laydown = at, .first = at - 15.0, .step = COARSE_AIM};
        for (int i = 0; i < COARSE_AIMS; i += SIEVE)
            curve->wanted[i] = in_reach(curve, i, lowest);
    }
    fill(rolls, ball, oil, curves, count);
    for (int c = 0; c < count; c++)
        want_between(&curves[c], lowest);
    fill(rolls, ball, oil, curves, count);
    Fit rough = {.value = -1.0};
    for (int c = 0; c < count; c++)
        try_curve(&curves[c], aim_sd, REST_BOARDS, false, &rough);
    return rough;
}

/* A rough fit's line and those beside it, with its own scatter, all in one batch. */
static Fit fine_fit(Rolls *rolls, const BatchBall *ball, const BatchOil *oil, const Bowler *bowler,
                    double aim_sd, const Fit *rough)
{
    enum { BESIDE = 3 };
    CoarseCurve curves[BESIDE];
    Delivery line = rolls->usual;
    line.laydown_board = rough->laydown_board;
    line.launch_deg = delivery_launch_deg(rough->laydown_board, rough->aim);
    rolls->count = 0;
    ask_rest(rolls, bowler, &line);
    for (int c = 0; c < BESIDE; c++) { /* the aim goes along by half a board (assumed) */
        double beside = c - 1.0;
        curves[c] =
            (CoarseCurve){.count = FINE_AIMS,
                          .laydown = rough->laydown_board + beside,
                          .first = rough->aim + 0.5 * beside - 0.5 * (FINE_AIMS - 1) * FINE_AIM,
                          .step = FINE_AIM};
        for (int i = 0; i < FINE_AIMS; i++)
            curves[c].wanted[i] = true;
        ask_curve(rolls, &curves[c]);
    }
    batch_arrive(ball, oil, rolls->throws, rolls->count, rolls->arrivals);
    const Arrival *next = rolls->arrivals + REST_THROWS;
    for (int c = 0; c < BESIDE; c++)
        next = read_curve(&curves[c], next);
    double rest_sd = rest_of(rolls->arrivals);
    Fit best = {.value = -1.0};
    for (int c = 0; c < BESIDE; c++)
        try_curve(&curves[c], aim_sd, rest_sd, true, &best);
    return best;
}

Fit fit_ball(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler)
{
    return fit_between(ball, oil, bowler, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
}

Fit fit_between(const BatchBall *ball, const BatchOil *oil, const Bowler *bowler, double low,
                double high)
{
    Rolls rolls;
    rolls.usual = delivery_of(bowler, 26.0, 15.0); /* its line is not looked at */
    double aim_sd =
        rad_from_deg(bowler->scatter.launch_deg) * m_from_ft(LANE_ARROWS_FT) / LANE_BOARD_M;
    aim_sd = fmax(aim_sd, 0.02);
    Fit rough = rough_fit(&rolls, ball, oil, aim_sd, low, high);
    if (rough.value < 0.0)
        return (Fit){.laydown_board = 20.0, .aim = 12.0, .entry_deg = NAN};
    Fit fine = fine_fit(&rolls, ball, oil, bowler, aim_sd, &rough);
    return fine.value < 0.0 ? rough : fine;
}

Line fit_line(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Fit *fit)
{
    Delivery usual = delivery_of(bowler, delivery_stance(bowler, fit->laydown_board), fit->aim);
    return line_measure(body, oil, bowler, &usual, 0.0);
}
