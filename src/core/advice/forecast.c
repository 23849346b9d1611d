/* forecast.c - rolls the draws and sums them up. */
#include "core/advice/forecast.h"

#include <math.h>
#include <string.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/pins/rack.h"

enum { ROUGH_STEP = 4 };             /* a rough forecast uses every fourth draw */
#define NODE_STEP 0.6180339887498949 /* the golden ratio fills evenly */

/* Evenly filling points (Roberts' sequence, from memory), two uniforms to two normals: the throws'
 * scatter, the same for every question. */
static void scatter_of(int i, const Scatter *scatter, double *launch_deg, double *mph, double *rpm)
{
    static const double STEP[4] = {0.8566748838545029, 0.7338918566271260, 0.6287067210378087,
                                   0.5385972572236101};
    double u[4];
    for (int d = 0; d < 4; d++)
        u[d] = fmod(0.5 + (i + 1) * STEP[d], 1.0);
    double r = sqrt(-2.0 * log(1.0 - u[0])), q = sqrt(-2.0 * log(1.0 - u[2]));
    *launch_deg = scatter->launch_deg * r * cos(2.0 * UNITS_PI * u[1]);
    *mph = scatter->mph * r * sin(2.0 * UNITS_PI * u[1]);
    *rpm = scatter->rpm * q * cos(2.0 * UNITS_PI * u[3]);
}

/* Places on a bell, even steps of its deviation, that begin elsewhere in each draw; and their
 * weights. */
static void set_nodes(Forecast *forecast)
{
    const int middle = FORECAST_NODES / 2;
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        double sum = 0.0, first = fmod(0.5 + (i + 1) * NODE_STEP, 1.0) - 0.5;
        for (int k = 0; k < FORECAST_NODES; k++) {
            double z = first + k - middle;
            forecast->draw[i].node[k] = z;
            forecast->draw[i].weight[k] = exp(-0.5 * z * z);
            sum += forecast->draw[i].weight[k];
        }
        for (int k = 0; k < FORECAST_NODES; k++)
            forecast->draw[i].weight[k] /= sum;
    }
}

/* One of the films of the draws. */
static void make_ready(const Belief *belief, Side lane, int film, BatchOil *ready)
{
    Oil mean;
    if (belief->may_be.count == 0) {
        batch_oil(&belief->film[lane][film], BATCH_ROUGH, ready);
        return;
    }
    belief_sheet_film(belief, lane, film, &mean);
    batch_oil(&mean, BATCH_ROUGH, ready);
}

void forecast_prepare(Forecast *forecast, const Belief *belief, Side lane, const Bowler *bowler)
{
    int indices[FORECAST_DRAWS], made = -1;
    belief_draw(belief, indices, FORECAST_DRAWS);
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        const Particle *p = &belief->particles[indices[i]];
        double launch_deg, mph, rpm;
        scatter_of(i, &bowler->scatter, &launch_deg, &mph, &rpm);
        forecast->draw[i].film = belief->may_be.count > 0 ? particle_sheet(p) : p->film;
        forecast->draw[i].volume = (float)p->part[PART_VOLUME + lane];
        forecast->draw[i].dry = (float)p->part[PART_DRY + lane];
        forecast->draw[i].longer = (float)p->part[PART_LONGER];
        forecast->draw[i].launch_deg = p->part[PART_LAUNCH_DEG] + launch_deg;
        forecast->draw[i].mph = p->part[PART_MPH] + mph;
        forecast->draw[i].rpm = rpm;
        memcpy(forecast->offsets[i], p->offsets, sizeof p->offsets);
        if (forecast->draw[i].film != made) { /* by film: each is made ready once */
            made = forecast->draw[i].film;
            make_ready(belief, lane, made, &forecast->oil[made]);
        }
    }
    set_nodes(forecast);
    forecast->lane = lane;
    forecast->doubt = belief->doubt;
    forecast->off_boards = 0.0;
    forecast->smooth_boards = fmax(bowler->scatter.laydown_boards, 0.2);
    Oil mean;
    belief_film(belief, lane, &mean);
    batch_oil(&mean, BATCH_ROUGH, &forecast->mean_oil);
    forecast->mean_volume = belief_part(belief, PART_VOLUME + (int)lane).mean;
    forecast->mean_longer = belief_part(belief, PART_LONGER).mean;
}

void forecast_of_truth(Forecast *forecast, const Oil *oil, double mph, double launch_deg,
                       const Bowler *bowler)
{
    batch_oil(oil, BATCH_QUICK, &forecast->oil[0]);
    forecast->mean_oil = forecast->oil[0];
    forecast->mean_volume = 1.0;
    forecast->mean_longer = 0.0;
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        double launch, speed, rpm;
        scatter_of(i, &bowler->scatter, &launch, &speed, &rpm);
        forecast->draw[i].film = 0;
        forecast->draw[i].volume = forecast->draw[i].dry = 1.0f;
        forecast->draw[i].longer = 0.0f;
        forecast->draw[i].launch_deg = launch_deg + launch;
        forecast->draw[i].mph = mph + speed;
        forecast->draw[i].rpm = rpm;
        memset(forecast->offsets[i], 0, sizeof forecast->offsets[i]);
    }
    set_nodes(forecast);
    forecast->lane = (Side)0;
    memset(&forecast->doubt, 0, sizeof forecast->doubt);
    forecast->off_boards = 0.0;
    forecast->smooth_boards = fmax(bowler->scatter.laydown_boards, 0.2);
}

/* Every `step`th draw of a delivery as meant, thrown on a film that has so much volume, and is
 * drawn out so far, already. */
static int throws_of(const Forecast *forecast, const Delivery *delivery, int step, double volume,
                     double longer, BatchThrow throws[FORECAST_DRAWS])
{
    int count = 0;
    for (int i = 0; i < FORECAST_DRAWS; i += step) {
        BatchThrow *toss = &throws[count++];
        *toss = (BatchThrow){.film_scale = (float)(forecast->draw[i].volume / volume),
                             .dry_scale = forecast->draw[i].dry,
                             .longer =
                                 (float)((1.0 + forecast->draw[i].longer) / (1.0 + longer) - 1.0)};
        DeliveryOffset offset = {.launch_deg = forecast->draw[i].launch_deg,
                                 .mph = forecast->draw[i].mph,
                                 .rpm = forecast->draw[i].rpm};
        toss->delivery = delivery_offset(delivery, &offset);
    }
    return count;
}

int forecast_throws(const Forecast *forecast, const Delivery *delivery, int step,
                    BatchThrow throws[FORECAST_DRAWS])
{
    return throws_of(forecast, delivery, step, 1.0, 0.0, throws);
}

/* A sum over `count` of `draws` arrivals made a mean; NAN where every one is in the gutter. */
static void make_means(Outlook *sum, double square, int count, int draws)
{
    sum->pocket /= draws;
    sum->strike /= draws;
    sum->pinfall /= draws;
    if (count == 0) {
        sum->board = sum->board_sd = sum->degrees = NAN;
        return;
    }
    sum->board /= count;
    sum->degrees /= count;
    sum->board_sd = sqrt(fmax(0.0, square / count - sum->board * sum->board));
}

Outlook forecast_sum(const Forecast *forecast, int which, double pounds, const Delivery *delivery,
                     int step, const Arrival *arrivals)
{
    Outlook outlook = {.degrees = 0.0};
    double square = 0.0, smooth = forecast->smooth_boards * forecast->smooth_boards;
    int count = 0, draws = FORECAST_DRAWS / step;
    for (int i = 0; i < draws; i++) {
        const Arrival *arrival = &arrivals[i];
        if (arrival->gutter)
            continue;
        OffsetsAt at =
            offsets_at(forecast->lane, which, delivery->laydown_board, arrival->breakpoint);
        int draw = i * step;
        double board =
            arrival->board + forecast->off_boards + offsets_mean(&at, forecast->offsets[draw]);
        double variance = offsets_doubt(&forecast->doubt, &at), sd = sqrt(variance + smooth);
        double boards[FORECAST_NODES];
        for (int k = 0; k < FORECAST_NODES; k++)
            boards[k] = board + sd * forecast->draw[draw].node[k];
        RackMeans rack = rack_means(boards, forecast->draw[draw].weight, FORECAST_NODES,
                                    arrival->degrees, arrival->mph, pounds);
        outlook.pocket += normal_below((LANE_POCKET_HIGH - board) / sd) -
                          normal_below((LANE_POCKET_LOW - board) / sd);
        outlook.strike += rack.strike;
        outlook.pinfall += rack.pinfall;
        outlook.board += board;
        outlook.degrees += arrival->degrees;
        square += board * board + variance;
        count++;
    }
    make_means(&outlook, square, count, draws);
    return outlook;
}

Outlook forecast_delivery(const Forecast *forecast, int which, const BatchBall *ball,
                          const Delivery *delivery)
{
    BatchThrow throws[FORECAST_DRAWS];
    Arrival arrivals[FORECAST_DRAWS];
    forecast_throws(forecast, delivery, 1, throws);
    for (int first = 0, last; first < FORECAST_DRAWS; first = last) {
        int film = forecast->draw[first].film;
        for (last = first; last < FORECAST_DRAWS && forecast->draw[last].film == film; last++)
            ;
        batch_arrive(ball, &forecast->oil[film], throws + first, last - first, arrivals + first);
    }
    return forecast_sum(forecast, which, ball->pounds, delivery, 1, arrivals);
}

Outlook forecast_rough(const Forecast *forecast, int which, const BatchBall *ball,
                       const Delivery *delivery)
{
    BatchThrow throws[FORECAST_DRAWS];
    Arrival arrivals[FORECAST_DRAWS];
    int count = throws_of(forecast, delivery, ROUGH_STEP, forecast->mean_volume,
                          forecast->mean_longer, throws);
    batch_arrive(ball, &forecast->mean_oil, throws, count, arrivals);
    return forecast_sum(forecast, which, ball->pounds, delivery, ROUGH_STEP, arrivals);
}
