/* line.h - from the pocket back to the hand: the line for a ball, and how forgiving it is. */
#ifndef SETTEE_CORE_LINE_LINE_H
#define SETTEE_CORE_LINE_LINE_H

#include "core/motion/batch.h"
#include "core/motion/motion.h"

/* What one ball does on a film, released the bowler's way from one laydown board. */
typedef struct Line {
    bool found; /* false: no launch brings it to the pocket */
    double laydown_board, launch_deg;
    double stance, aim;            /* boards from the bowler's own side */
    double entry_board, entry_deg; /* NAN in the gutter */
    double first_move_ft;
    double hook_ft; /* where it makes its move (motion.h); NAN if it never does */
    double breakpoint_board, breakpoint_ft;
    double pocket;                /* chance of a pocket hit under the bowler's scatter */
    double margin_in, margin_out; /* area: how far the aim may miss, boards, toward the other side
                                   * and toward the gutter, and still hit the pocket */
} Line;

/* The aim from this laydown board with the best pocket chance, whatever its value otherwise.
 * `off_boards`: how much higher the ball is known to hit than the film says; usually 0. */
double line_aim(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
                double laydown_board, double off_boards);

/* The launch from this laydown board with the best pocket chance. `usual` gives speed, rev rate and
 * hand; its laydown and launch are ignored. */
Line line_search(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                 const Delivery *usual, double laydown_board, double off_boards);

/* The same figures for one given delivery. */
Line line_measure(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                  const Delivery *delivery, double off_boards);

/* A ball and a film with what batches need of both, for who asks about them more than once: the
 * same results. `oil` is made ready with BATCH_QUICK. */
typedef struct LineOn {
    const MotionBody *body;
    const Oil *film;
    const BatchBall *ball;
    const BatchOil *oil;
} LineOn;
double line_aim_on(const LineOn *on, const Bowler *bowler, const Delivery *usual,
                   double laydown_board, double off_boards);
Line line_search_on(const LineOn *on, const Bowler *bowler, const Delivery *usual,
                    double laydown_board, double off_boards);
Line line_measure_on(const LineOn *on, const Bowler *bowler, const Delivery *delivery,
                     double off_boards);

/* Share of pocket hits that strike at that entry angle, for a usual ball (the rack's table). */
double line_carry(double entry_deg);

/* A line's value, roughly its chance of a strike: its pocket chance times how well a ball carries
 * at that entry angle (the rack's table), plus a little for its area. */
double line_value(const Line *line);

/* Laydown boards to try if nothing else is known: all of them. Searches skip those that would put
 * the bowler off the approach (delivery_reach). */
#define LINE_LAYDOWN_LOW DELIVERY_LAYDOWN_LOW
#define LINE_LAYDOWN_HIGH DELIVERY_LAYDOWN_HIGH

/* First arrow: a line outside it runs along the gutter (assumed). */
#define LINE_AIM_LOW 5.0

/* Whether a line is better than another: first one that reaches the pocket, then one that keeps
 * clear of the gutter, then the one with more value. */
bool line_better(const Line *line, const Line *other);

/* The best line, by line_better, among whole laydown boards low..high, as far as the bowler can
 * stand for them. */
Line line_best(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
               double low, double high);

#endif
