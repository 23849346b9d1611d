/* line.c - launches tried, arrivals read off the curve they make. */
#include "core/line/line.h"

#include <math.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/motion/batch.h"
#include "core/pins/rack.h"

#define USUAL_PINS_MPH 16.0 /* a ball of 18 mph at the pins */

/* Arrival board over aim, at even steps. A gutter ball counts as board 0: a miss. */
enum { CURVE_MAX = 48 };
typedef struct ArrivalCurve {
    int count;
    double aim_first, aim_step;
    double board[CURVE_MAX];
} ArrivalCurve;

/* What a search needs of a ball on a film, made ready once. */
typedef struct Ready {
    BatchBall ball;
    BatchOil oil;
    double off_boards; /* by which it hits higher than the film says */
} Ready;

static void make_ready(const MotionBody *body, const Oil *oil, double off_boards, Ready *ready)
{
    ready->off_boards = off_boards;
    batch_ball(body, &ready->ball);
    batch_oil(oil, BATCH_QUICK, &ready->oil);
}

static void curve_fill(ArrivalCurve *curve, const Ready *ready, const Delivery *usual)
{
    BatchThrow throws[CURVE_MAX];
    Arrival arrivals[CURVE_MAX];
    for (int i = 0; i < curve->count; i++) {
        throws[i] = (BatchThrow){.delivery = *usual, .film_scale = 1.0f, .dry_scale = 1.0f};
        throws[i].delivery.launch_deg =
            delivery_launch_deg(usual->laydown_board, curve->aim_first + i * curve->aim_step);
    }
    batch_arrive(&ready->ball, &ready->oil, throws, curve->count, arrivals);
    for (int i = 0; i < curve->count; i++)
        curve->board[i] = arrivals[i].gutter ? 0.0 : arrivals[i].board + ready->off_boards;
}

static double curve_at(const ArrivalCurve *curve, double aim)
{
    double at = (aim - curve->aim_first) / curve->aim_step;
    at = at < 0.0 ? 0.0 : at > curve->count - 1.0 ? curve->count - 1.0 : at;
    int i = (int)at;
    if (i > curve->count - 2)
        i = curve->count - 2;
    return curve->board[i] + (at - i) * (curve->board[i + 1] - curve->board[i]);
}

/* Chance that the ball arrives in the pocket: the aim scatters by aim_sd (boards at the arrows),
 * everything else by rest_sd (boards at the pins). */
static double pocket_chance(const ArrivalCurve *curve, double aim, double aim_sd, double rest_sd)
{
    enum { NODES = 17 };
    double sum = 0.0, weights = 0.0;
    for (int k = 0; k < NODES; k++) {
        double z = -3.2 + 6.4 * k / (NODES - 1), weight = exp(-0.5 * z * z);
        double board = curve_at(curve, aim + z * aim_sd);
        sum += weight * (normal_below((LANE_POCKET_HIGH - board) / rest_sd) -
                         normal_below((LANE_POCKET_LOW - board) / rest_sd));
        weights += weight;
    }
    return sum / weights;
}

static double aim_deviation(const Scatter *scatter)
{
    double sd = rad_from_deg(scatter->launch_deg) * m_from_ft(LANE_ARROWS_FT) / LANE_BOARD_M;
    return fmax(sd, 0.02);
}

/* Boards at the pins that speed, rev rate and laydown scatter by, at this delivery. */
static double rest_deviation(const Ready *ready, const Bowler *bowler, const Delivery *delivery)
{
    const Scatter *s = &bowler->scatter;
    BatchThrow throws[4];
    Arrival arrivals[4];
    for (int i = 0; i < 4; i++)
        throws[i] = (BatchThrow){.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
    throws[1].delivery.mph += s->mph;
    throws[2].delivery.rpm += s->rpm;
    throws[3].delivery.laydown_board += s->laydown_boards;
    batch_arrive(&ready->ball, &ready->oil, throws, 4, arrivals);
    double sum = 0.1 * 0.1; /* never quite 0, so that the chance stays smooth */
    for (int i = 1; i < 4; i++) {
        double away = arrivals[i].board - arrivals[0].board;
        sum += isnan(away) ? 0.0 : away * away;
    }
    return sqrt(sum);
}

/* How far the aim may go from 0 by steps of sign before the curve leaves the pocket. */
static double margin(const ArrivalCurve *curve, double aim, double sign)
{
    enum { FINE = 20 }; /* a twentieth of a board */
    double most = 0.5 * (curve->count - 1) * curve->aim_step;
    int steps = 0;
    for (; steps < (int)(most * FINE); steps++) {
        double board = curve_at(curve, aim + sign * (steps + 1.0) / FINE);
        if (!(board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH))
            break;
    }
    return (double)steps / FINE;
}

static Line measure(const Ready *ready, const MotionBody *body, const Oil *oil,
                    const Bowler *bowler, const Delivery *delivery)
{
    double aim = delivery_aim_board(delivery->laydown_board, delivery->launch_deg);
    ArrivalCurve curve = {.count = 25, .aim_first = aim - 3.0, .aim_step = 0.25};
    curve_fill(&curve, ready, delivery);
    Roll roll;
    motion_roll(body, oil, delivery, &roll);
    double board = roll.gutter ? 0.0 : roll.entry_board + ready->off_boards;
    double rest = rest_deviation(ready, bowler, delivery);
    Line line = {.found = board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH,
                 .laydown_board = delivery->laydown_board,
                 .launch_deg = delivery->launch_deg,
                 .stance = delivery_stance(bowler, delivery->laydown_board),
                 .aim = aim,
                 .entry_board = roll.entry_board + ready->off_boards,
                 .entry_deg = roll.entry_deg,
                 .first_move_ft = roll.first_move_ft,
                 .breakpoint_board = roll.breakpoint_board,
                 .breakpoint_ft = roll.breakpoint_ft,
                 .pocket = pocket_chance(&curve, aim, aim_deviation(&bowler->scatter), rest)};
    if (line.found) {
        line.margin_in = margin(&curve, aim, 1.0);
        line.margin_out = margin(&curve, aim, -1.0);
    }
    return line;
}

/* What speed, rev rate and laydown scatter a ball by at the pins while an aim is looked for; the
 * line found is then measured with its own figure. */
#define SEARCH_REST_BOARDS 0.8

/* The aim on the curve with the best pocket chance, to a tenth of a board. */
static double best_aim(const ArrivalCurve *curve, double aim_sd, double rest_sd)
{
    double best = curve->aim_first, best_chance = -1.0;
    int count = (int)((curve->count - 1) * curve->aim_step * 10.0 + 0.5);
    for (int i = 0; i <= count; i++) {
        double aim = curve->aim_first + 0.1 * i;
        double chance = pocket_chance(curve, aim, aim_sd, rest_sd);
        if (chance > best_chance) {
            best_chance = chance;
            best = aim;
        }
    }
    return best;
}

static double find_aim(const Ready *ready, const Bowler *bowler, const Delivery *usual,
                       double laydown_board)
{
    Delivery delivery = *usual;
    delivery.laydown_board = laydown_board;
    /* From well outside the laydown to a little inside it: what a hooking ball can want. */
    ArrivalCurve curve = {.count = 40, .aim_first = laydown_board - 16.0, .aim_step = 0.5};
    curve_fill(&curve, ready, &delivery);
    return best_aim(&curve, aim_deviation(&bowler->scatter), SEARCH_REST_BOARDS);
}

Line line_measure(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                  const Delivery *delivery, double off_boards)
{
    Ready ready;
    make_ready(body, oil, off_boards, &ready);
    return measure(&ready, body, oil, bowler, delivery);
}

double line_aim(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
                double laydown_board, double off_boards)
{
    Ready ready;
    make_ready(body, oil, off_boards, &ready);
    return find_aim(&ready, bowler, usual, laydown_board);
}

static Line search(const Ready *ready, const MotionBody *body, const Oil *oil, const Bowler *bowler,
                   const Delivery *usual, double laydown_board)
{
    Delivery delivery = *usual;
    delivery.laydown_board = laydown_board;
    delivery.launch_deg =
        delivery_launch_deg(laydown_board, find_aim(ready, bowler, usual, laydown_board));
    return measure(ready, body, oil, bowler, &delivery);
}

Line line_search(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                 const Delivery *usual, double laydown_board, double off_boards)
{
    Ready ready;
    make_ready(body, oil, off_boards, &ready);
    return search(&ready, body, oil, bowler, usual, laydown_board);
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

/* A breakpoint farther out than this has the gutter beside it (assumed). */
#define EDGE_BOARD 3.0

bool line_better(const Line *line, const Line *other)
{
    bool edge = line->breakpoint_board < EDGE_BOARD,
         other_edge = other->breakpoint_board < EDGE_BOARD;
    if (line->found != other->found)
        return line->found;
    if (edge != other_edge)
        return other_edge;
    return line_value(line) > line_value(other);
}

Line line_best(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
               double low, double high)
{
    Ready ready;
    make_ready(body, oil, 0.0, &ready);
    Line best = search(&ready, body, oil, bowler, usual, low);
    for (double laydown = low + 1.0; laydown <= high; laydown += 1.0) {
        Line line = search(&ready, body, oil, bowler, usual, laydown);
        if (line_better(&line, &best))
            best = line;
    }
    return best;
}
