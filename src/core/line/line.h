/* line.h - from the pocket back to the hand: the line a ball wants, and how forgiving it is. */
#ifndef SETTEE_CORE_LINE_LINE_H
#define SETTEE_CORE_LINE_LINE_H

#include "core/motion/motion.h"

/* How one ball, released the bowler's way from one laydown board, does on a film. */
typedef struct Line {
    bool found; /* false: no launch brings it to the pocket */
    double laydown_board, launch_deg;
    double stance, aim;            /* boards from the bowler's own side */
    double entry_board, entry_deg; /* NAN in the gutter */
    double first_move_ft;
    double hook_ft; /* where it makes its move (motion.h); NAN if it never does */
    double breakpoint_board, breakpoint_ft;
    double pocket;                /* chance of a pocket hit under the bowler's scatter */
    double margin_in, margin_out; /* boards of aim, toward the other side and toward the gutter,
                                   * that still hit the pocket */
} Line;

/* The aim from this laydown board that has the best pocket chance, whatever else it does.
 * `off_boards` is by how much the ball is known to hit higher than the film says; 0 mostly. */
double line_aim(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
                double laydown_board, double off_boards);

/* The launch from this laydown board that has the best pocket chance. `usual` carries speed,
 * rev rate and hand; its laydown and launch are not looked at. */
Line line_search(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                 const Delivery *usual, double laydown_board, double off_boards);

/* The same figures for one given delivery. */
Line line_measure(const MotionBody *body, const Oil *oil, const Bowler *bowler,
                  const Delivery *delivery, double off_boards);

/* Share of pocket hits that strike, by entry angle, of a usual ball (the rack's table). */
double line_carry(double entry_deg);

/* A line's value, about a chance of a strike: its pocket chance, weighed by how well a ball carries
 * at that entry angle (the rack's table), and a little for its margin. */
double line_value(const Line *line);

/* Laydown boards to try where nothing else is known: all of them. A search leaves out those from
 * which the bowler would not stand on the approach (delivery_reach). */
#define LINE_LAYDOWN_LOW DELIVERY_LAYDOWN_LOW
#define LINE_LAYDOWN_HIGH DELIVERY_LAYDOWN_HIGH

/* First arrow: a line over anything outside of it has the gutter beside it (assumed). */
#define LINE_AIM_LOW 5.0

/* Whether a line is to be taken before another: one that reaches the pocket goes before any that
 * does not, then one that keeps clear of the gutter before one that runs or turns beside it, then
 * the one of more value. */
bool line_better(const Line *line, const Line *other);

/* The best line, by line_better, among the laydown boards low..high in whole boards, as far as the
 * bowler can stand for them. */
Line line_best(const MotionBody *body, const Oil *oil, const Bowler *bowler, const Delivery *usual,
               double low, double high);

#endif
