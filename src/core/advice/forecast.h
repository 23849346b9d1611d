/* forecast.h - what a delivery would do, under all that may be true of the lane and of the throw.
 *
 * Draws of the belief, each with its own throw of the bowler's scatter, are rolled side by side;
 * the same draws for every answer, so that answers are compared and not their luck. Boards that
 * nothing else explains are not drawn: they are normal and only move the hit, so that each draw's
 * hit has its spread, over which strikes and pins are summed up. */
#ifndef SETTEE_CORE_ADVICE_FORECAST_H
#define SETTEE_CORE_ADVICE_FORECAST_H

#include "core/advice/belief.h"

enum { FORECAST_DRAWS = 128 };

/* Films of the draws: those of the sheet, or one for each sheet that the pattern may be. */
enum { FORECAST_FILMS = 8 };
_Static_assert((int)FORECAST_FILMS >= (int)BELIEF_FILMS &&
                   (int)FORECAST_FILMS >= (int)ABOUT_SHEETS_MAX,
               "room for all");

/* Boards of its spread at which a draw's hit is read. */
enum { FORECAST_NODES = 5 };

typedef struct Forecast {
    BatchOil oil[FORECAST_FILMS]; /* ready where a draw uses it */
    BatchOil mean_oil;            /* the lane's film on the mean, of so much volume on the mean */
    double mean_volume, mean_longer; /* what it has in it already */
    struct {
        int film;
        float volume, dry, longer;
        double launch_deg, mph, rpm; /* what it adds to the delivery as meant */
        double node[FORECAST_NODES], weight[FORECAST_NODES]; /* of a normal of deviation 1 */
    } draw[FORECAST_DRAWS];                                  /* by film */
    Side lane;
    double offsets[FORECAST_DRAWS][OFFSETS_COUNT]; /* unexplained at the pins, on the mean */
    Doubt doubt;                                   /* of these */
    double off_boards;                             /* by which every ball hits higher: of a truth */
    double smooth_boards;                          /* what is not drawn: the laydown's scatter */
} Forecast;

void forecast_prepare(Forecast *forecast, const Belief *belief, Side lane, const Bowler *bowler);

/* The same where the lane and the day are known: only the throw scatters. */
void forecast_of_truth(Forecast *forecast, const Oil *oil, double mph, double launch_deg,
                       const Bowler *bowler);

/* What becomes of a delivery as meant; `which` is the ball's number by belief_ball. */
typedef struct Outlook {
    double pocket;          /* chance of a pocket hit */
    double strike;          /* chance of a strike, by the rack's table */
    double pinfall;         /* mean pins of the first ball */
    double board, board_sd; /* of arrival; gutter balls left out */
    double degrees;         /* mean entry angle; these three NAN if all go to the gutter */
} Outlook;

Outlook forecast_delivery(const Forecast *forecast, int which, const BatchBall *ball,
                          const Delivery *delivery);

/* The same by fewer draws, all on the mean film: an eighth of the work, to tell what is worth a
 * full forecast. */
Outlook forecast_rough(const Forecast *forecast, int which, const BatchBall *ball,
                       const Delivery *delivery);

/* forecast_delivery in two halves, for who rolls the draws in another way: the throws of every
 * `step`th draw (returns how many), and what they come to by their arrivals. `pounds` is the
 * ball's. */
int forecast_throws(const Forecast *forecast, const Delivery *delivery, int step,
                    BatchThrow throws[FORECAST_DRAWS]);
Outlook forecast_sum(const Forecast *forecast, int which, double pounds, const Delivery *delivery,
                     int step, const Arrival *arrivals);

#endif
