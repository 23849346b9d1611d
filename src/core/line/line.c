/* line.c - tries launches and reads arrivals off the curve they make. */
#include "core/line/line.h"

#include <math.h>

#include "base/normal.h"
#include "core/line/curve.h"
#include "core/pins/rack.h"

#define USUAL_PINS_MPH 16.0             /* at the pins, of a ball thrown at 18 mph */
enum { AIM_PARTS = 16, MEASURED = 25 }; /* of the bell curve; aims on the curve of one line */
#define MARGIN_MOST 3.0                 /* boards either way */
#define FAR_DEVIATIONS 7.0 /* farther from the pocket the chance, < 1e-11, is left out */

/* What a search needs about a ball on a film. */
typedef struct Ready {
    const LineOn *on;
    const Bowler *bowler;
    CurveBatch batch;
    AimBell aims;
} Ready;

static void make_ready(const LineOn *on, const Bowler *bowler, const Delivery *usual,
                       double off_boards, Ready *ready)
{
    ready->on = on;
    ready->bowler = bowler;
    ready->aims = curve_aim_bell(&bowler->scatter, AIM_PARTS);
    curve_batch_begin(&ready->batch, on->ball, on->oil, usual, off_boards);
}

/* A ball and a film that nobody has prepared yet. */
typedef struct Prepared {
    BatchBall ball;
    BatchOil oil;
    LineOn on;
} Prepared;

static const LineOn *prepare(const MotionBody *body, const Oil *film, Prepared *prepared)
{
    batch_ball(body, &prepared->ball);
    batch_oil(film, BATCH_QUICK, &prepared->oil);
    prepared->on = (LineOn){body, film, &prepared->ball, &prepared->oil};
    return &prepared->on;
}

/* Chance that the ball arrives in the pocket: the aim scatters as it does, everything else by
 * rest_sd (boards at the pins). */
static double pocket_chance(const AimBell *aims, const ArrivalCurve *curve, double aim,
                            double rest_sd)
{
    double sum = 0.0, far = FAR_DEVIATIONS * rest_sd;
    for (int k = 0; k < aims->count; k++) {
        double board;
        curve_at(curve, aim + aims->away[k], &board, NULL);
        if (board > LANE_POCKET_LOW - far && board < LANE_POCKET_HIGH + far)
            sum += aims->weight[k] * (normal_below((LANE_POCKET_HIGH - board) / rest_sd) -
                                      normal_below((LANE_POCKET_LOW - board) / rest_sd));
    }
    return sum / aims->sum;
}

static bool in_pocket(double board)
{
    return board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH;
}

static Line measure(Ready *ready, const Delivery *delivery)
{
    CurveBatch *batch = &ready->batch;
    const Scatter *scatter = &ready->bowler->scatter;
    double aim = delivery_aim_board(delivery->laydown_board, delivery->launch_deg);
    double reach = fmax(MARGIN_MOST, CURVE_REACH * ready->aims.deviation);
    ArrivalCurve curve =
        curve_over(delivery->laydown_board, aim - reach, 2.0 * reach / (MEASURED - 1), MEASURED);
    curve_rest_ask(batch, scatter, delivery);
    curves_roll(batch, &curve, 1);
    double rest = curve_rest_deviation(batch->arrivals);
    Roll roll;
    motion_roll(ready->on->body, ready->on->film, delivery, &roll);
    double board = roll.gutter ? 0.0 : roll.entry_board + batch->off_boards;
    Line line = {.found = in_pocket(board),
                 .laydown_board = delivery->laydown_board,
                 .launch_deg = delivery->launch_deg,
                 .stance = delivery_stance(ready->bowler, delivery->laydown_board),
                 .aim = aim,
                 .entry_board = roll.entry_board + batch->off_boards,
                 .entry_deg = roll.entry_deg,
                 .first_move_ft = roll.first_move_ft,
                 .hook_ft = roll.hook_ft,
                 .breakpoint_board = roll.breakpoint_board,
                 .breakpoint_ft = roll.breakpoint_ft,
                 .pocket = pocket_chance(&ready->aims, &curve, aim, rest)};
    if (line.found) {
        line.margin_in = curve_margin(&curve, aim, 1.0, MARGIN_MOST);
        line.margin_out = curve_margin(&curve, aim, -1.0, MARGIN_MOST);
    }
    return line;
}

/* The aim on a curve with the best pocket chance, to a tenth of a board; `hitting`: among those
 * that hit the pocket without scatter, NAN if none does. */
static double best_aim(const Ready *ready, const ArrivalCurve *curve, bool hitting)
{
    double best = NAN, best_chance = -1.0;
    int count = (int)((curve->count - 1) * curve->step * 10.0 + 0.5);
    for (int i = 0; i <= count; i++) {
        double aim = curve->first + 0.1 * i, board;
        curve_at(curve, aim, &board, NULL);
        if (hitting && !in_pocket(board))
            continue;
        double chance = pocket_chance(&ready->aims, curve, aim, CURVE_REST_BOARDS);
        if (chance > best_chance) {
            best_chance = chance;
            best = aim;
        }
    }
    return best;
}

/* Rolls every aim that can be thrown from each of `count` laydowns, half a board apart. */
static void fill(Ready *ready, double laydown_board, ArrivalCurve *curves, int count)
{
    for (int i = 0; i < count; i++)
        curves[i] = curve_over_all(laydown_board + i, 0.5);
    curves_sieve(&ready->batch, curves, count, -INFINITY);
}

static Line measure_at(Ready *ready, const ArrivalCurve *curve, double aim)
{
    Delivery delivery = ready->batch.usual;
    delivery.laydown_board = curve->laydown;
    delivery.launch_deg = delivery_launch_deg(curve->laydown, aim);
    return measure(ready, &delivery);
}

/* The line with the best chance; if that misses the pocket, the best that hits it, if any. */
static Line line_on(Ready *ready, const ArrivalCurve *curve)
{
    Line line = measure_at(ready, curve, best_aim(ready, curve, false));
    double aim = line.found ? NAN : best_aim(ready, curve, true);
    if (isnan(aim))
        return line;
    Line hitting = measure_at(ready, curve, aim);
    return hitting.found ? hitting : line;
}

Line line_measure_on(const LineOn *on, const Bowler *bowler, const Delivery *delivery,
                     double off_boards)
{
    Ready ready;
    make_ready(on, bowler, delivery, off_boards, &ready);
    return measure(&ready, delivery);
}

Line line_measure(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                  const Delivery *delivery, double off_boards)
{
    Prepared prepared;
    return line_measure_on(prepare(body, oil, &prepared), bowler, delivery, off_boards);
}

double line_aim_on(const LineOn *on, const Bowler *bowler, const Delivery *usual,
                   double laydown_board, double off_boards)
{
    Ready ready;
    ArrivalCurve curve;
    make_ready(on, bowler, usual, off_boards, &ready);
    fill(&ready, laydown_board, &curve, 1);
    return best_aim(&ready, &curve, false);
}

double line_aim(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
                double laydown_board, double off_boards)
{
    Prepared prepared;
    return line_aim_on(prepare(body, oil, &prepared), bowler, usual, laydown_board, off_boards);
}

Line line_search_on(const LineOn *on, const Bowler *bowler, const Delivery *usual,
                    double laydown_board, double off_boards)
{
    Ready ready;
    ArrivalCurve curve;
    make_ready(on, bowler, usual, off_boards, &ready);
    fill(&ready, laydown_board, &curve, 1);
    return line_on(&ready, &curve);
}

Line line_search(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                 const Delivery *usual, double laydown_board, double off_boards)
{
    Prepared prepared;
    return line_search_on(prepare(body, oil, &prepared), bowler, usual, laydown_board, off_boards);
}

double line_carry(double entry_deg)
{
    static const double BOARDS[] = {16.75, 17.4, 18.05}; /* evenly over the pocket */
    double sum = 0.0;
    for (int i = 0; i < 3; i++)
        sum += rack_strike(BOARDS[i], isnan(entry_deg) ? 0.0 : entry_deg, USUAL_PINS_MPH, 15.0);
    return sum / 3.0;
}

double line_value(const Line *line)
{
    return line->pocket * line_carry(line->entry_deg) +
           0.01 * fmin(line->margin_in + line->margin_out, 4.0);
}

/* A breakpoint outside this board is next to the gutter (assumed). */
#define EDGE_BOARD 3.0

static bool beside_gutter(const Line *line)
{
    return line->breakpoint_board < EDGE_BOARD || line->aim < LINE_AIM_LOW;
}

bool line_better(const Line *line, const Line *other)
{
    bool edge = beside_gutter(line), other_edge = beside_gutter(other);
    if (line->found != other->found)
        return line->found;
    if (edge != other_edge)
        return other_edge;
    return line_value(line) > line_value(other);
}

Line line_best(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
               double low, double high)
{
    Prepared prepared;
    Ready ready;
    ArrivalCurve curves[CURVE_LAYDOWNS_MAX];
    Line best = {0};
    bool any = false;
    make_ready(prepare(body, oil, &prepared), bowler, usual, 0.0, &ready);
    delivery_reach(bowler, &low, &high);
    for (int count; low <= high; low += count) {
        count =
            high - low + 1.0 < CURVE_LAYDOWNS_MAX ? (int)(high - low + 1.0) : CURVE_LAYDOWNS_MAX;
        fill(&ready, low, curves, count);
        for (int i = 0; i < count; i++) {
            Line line = line_on(&ready, &curves[i]);
            if (!any || line_better(&line, &best))
                best = line;
            any = true;
        }
    }
    return best;
}
