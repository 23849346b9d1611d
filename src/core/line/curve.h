/* curve.h - where a ball arrives over the aim from one laydown, and batches that fill such curves:
 * what line.c and fit.c read lines off. For them alone.
 *
 * Rolling takes nearly all of a search's time, so the aims between others that can't come near the
 * pocket are not rolled (curves_sieve): no figure changes by that, measured in docs/bag.md. */
#ifndef SETTEE_CORE_LINE_CURVE_H
#define SETTEE_CORE_LINE_CURVE_H

#include "core/motion/batch.h"

/* Boards from the pocket's best: an aim that brings the ball no nearer is not worth a look. */
#define CURVE_POCKET_NEAR 4.0

enum { CURVE_AIMS_MAX = 64, CURVE_LAYDOWNS_MAX = 13 };
enum { CURVE_THROWS_MAX = CURVE_AIMS_MAX * CURVE_LAYDOWNS_MAX };

/* Arrivals at even steps of aim (boards at the arrows). A gutter ball arrives on board 0. */
typedef struct ArrivalCurve {
    double laydown, first, step;
    int count; /* 2..CURVE_AIMS_MAX */
    bool wanted[CURVE_AIMS_MAX];
    double board[CURVE_AIMS_MAX], degrees[CURVE_AIMS_MAX];
} ArrivalCurve;

/* A curve over `count` aims, all of them wanted. */
ArrivalCurve curve_over(double laydown, double first, double step, int count);

/* Over every aim that can be thrown from there and could bring a ball to the pocket. */
ArrivalCurve curve_over_all(double laydown, double step);

/* The board at an aim, drawn to the curve's ends, and the entry angle of the one next to it;
 * `degrees` may be NULL. Between an aim that stays on the lane and one that falls it falls. */
void curve_at(const ArrivalCurve *curve, double aim, double *board, double *degrees);

/* How far the aim may go from there, by steps of `sign`, before the ball leaves the pocket: at most
 * `most` boards. */
double curve_margin(const ArrivalCurve *curve, double aim, double sign, double most);

/* A batch that is put together from curves and single deliveries, and read in the same order. */
typedef struct CurveBatch {
    const BatchBall *ball;
    const BatchOil *oil;
    Delivery usual;    /* its laydown and launch are not looked at */
    double off_boards; /* by which the ball hits higher than the film says */
    int count;
    BatchThrow throws[CURVE_THROWS_MAX];
    Arrival arrivals[CURVE_THROWS_MAX];
} CurveBatch;

/* An empty batch; the large arrays stay as they are. */
void curve_batch_begin(CurveBatch *batch, const BatchBall *ball, const BatchOil *oil,
                       const Delivery *usual, double off_boards);
void curve_batch_ask(CurveBatch *batch, const Delivery *delivery);

/* Rolls what was asked for and then what the curves want, and fills the curves. What was asked for
 * stands in `arrivals`; the batch is empty again. */
void curves_roll(CurveBatch *batch, ArrivalCurve *curves, int count);

/* The same for curves that only have to be right near the pocket, for aims from `lowest` on: first
 * every third aim, then those between that may matter. The others lie on straight lines, which stay
 * clear of the pocket, or have no angle (NAN). */
void curves_sieve(CurveBatch *batch, ArrivalCurve *curves, int count, double lowest);

/* How a bowler's aim scatters, boards at the arrows: a bell out to CURVE_REACH deviations, in at
 * least `parts` parts, and in more where a straight ball would jump over the pocket from one to the
 * next. */
#define CURVE_REACH 3.2
enum { CURVE_NODES_MAX = 161 };
typedef struct AimBell {
    double deviation;
    int count;
    double away[CURVE_NODES_MAX], weight[CURVE_NODES_MAX], sum; /* sum: of the weights */
} AimBell;
AimBell curve_aim_bell(const Scatter *scatter, int parts);

/* Boards at the pins that speed, rev rate and laydown scatter by: asks for a delivery and for one
 * with a deviation more of each; read when they are rolled. */
enum { CURVE_REST_THROWS = 4 };
void curve_rest_ask(CurveBatch *batch, const Scatter *scatter, const Delivery *delivery);
double curve_rest_deviation(const Arrival arrivals[CURVE_REST_THROWS]);
/* The same until it is known, while an aim is looked for (assumed). */
#define CURVE_REST_BOARDS 0.8

#endif
