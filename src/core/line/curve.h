/* curve.h - where a ball arrives for each aim from one laydown, and the batches that roll those
 * aims. Only for line.c and fit.c, which find lines with it.
 *
 * Rolling takes nearly all of a search's time, so curves_sieve skips aims that can't come near the
 * pocket. That changes no result (measured, docs/bag.md). */
#ifndef SETTEE_CORE_LINE_CURVE_H
#define SETTEE_CORE_LINE_CURVE_H

#include "core/motion/batch.h"

/* Boards from the middle of the pocket: an aim whose ball stays farther away can be skipped. */
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

/* A curve over `count` aims, all wanted. */
ArrivalCurve curve_over(double laydown, double first, double step, int count);

/* A curve over every aim that can be thrown from there and could reach the pocket. */
ArrivalCurve curve_over_all(double laydown, double step);

/* The board at an aim (clamped to the curve's ends) and the entry angle at the nearest rolled aim;
 * `degrees` may be NULL. Between an aim that stays on the lane and a gutter ball: a gutter ball. */
void curve_at(const ArrivalCurve *curve, double aim, double *board, double *degrees);

/* How far the aim may move in the direction of `sign` before the ball misses the pocket, at most
 * `most` boards. */
double curve_margin(const ArrivalCurve *curve, double aim, double sign, double most);

/* A batch made of curves and single deliveries; results come in the same order. */
typedef struct CurveBatch {
    const BatchBall *ball;
    const BatchOil *oil;
    Delivery usual;    /* its laydown and launch are ignored */
    double off_boards; /* how much higher the ball hits than the film says */
    int count;
    BatchThrow throws[CURVE_THROWS_MAX];
    Arrival arrivals[CURVE_THROWS_MAX];
} CurveBatch;

/* Empties the batch; the large arrays are not cleared. */
void curve_batch_begin(CurveBatch *batch, const BatchBall *ball, const BatchOil *oil,
                       const Delivery *usual, double off_boards);
void curve_batch_ask(CurveBatch *batch, const Delivery *delivery);

/* Rolls the deliveries asked for and the aims the curves want, and fills the curves. The
 * deliveries' results are in `arrivals`; the batch is empty again. */
void curves_roll(CurveBatch *batch, ArrivalCurve *curves, int count);

/* The same for curves that only need to be right near the pocket, at aims from `lowest` up: rolls
 * every third aim, then those between that may matter. The rest are interpolated, which keeps them
 * clear of the pocket, and have no angle (NAN). */
void curves_sieve(CurveBatch *batch, ArrivalCurve *curves, int count, double lowest);

/* How a bowler's aim scatters, boards at the arrows: a bell curve out to CURVE_REACH standard
 * deviations, in at least `parts` parts; more if a straight ball would jump over the pocket from
 * one to the next. */
#define CURVE_REACH 3.2
enum { CURVE_NODES_MAX = 161 };
typedef struct AimBell {
    double deviation;
    int count;
    double away[CURVE_NODES_MAX], weight[CURVE_NODES_MAX], sum; /* sum: of the weights */
} AimBell;
AimBell curve_aim_bell(const Scatter *scatter, int parts);

/* Scatter at the pins from speed, rev rate and laydown, in boards. `ask` adds the delivery and one
 * each with a standard deviation more of those; `deviation` reads the results. */
enum { CURVE_REST_THROWS = 4 };
void curve_rest_ask(CurveBatch *batch, const Scatter *scatter, const Delivery *delivery);
double curve_rest_deviation(const Arrival arrivals[CURVE_REST_THROWS]);
/* The value used while searching for an aim, before it is measured (assumed). */
#define CURVE_REST_BOARDS 0.8

#endif
