/* forecast.c - draws, rolled and summed up. */
#include "core/forecast.h"

#include <math.h>

#include "base/normal.h"
#include "base/units.h"
#include "core/rack.h"

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

void forecast_prepare(Forecast *forecast, const Belief *belief, Side lane, const Bowler *bowler)
{
    int indices[FORECAST_DRAWS], made = -1;
    belief_draw(belief, indices, FORECAST_DRAWS);
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        const Particle *p = &belief->particles[indices[i]];
        double launch_deg, mph, rpm;
        scatter_of(i, &bowler->scatter, &launch_deg, &mph, &rpm);
        forecast->draw[i].film = p->film;
        forecast->draw[i].volume = (float)p->part[PART_VOLUME + lane];
        forecast->draw[i].dry = (float)p->part[PART_DRY + lane];
        forecast->draw[i].launch_deg = p->part[PART_LAUNCH_DEG] + launch_deg;
        forecast->draw[i].mph = p->part[PART_MPH] + mph;
        forecast->draw[i].rpm = rpm;
        if (p->film != made) { /* by film: each is made ready once */
            made = p->film;
            batch_oil(&belief->film[lane][made], BATCH_QUICK, &forecast->oil[made]);
        }
    }
    forecast->smooth_boards = fmax(bowler->scatter.laydown_boards, 0.2);
}

void forecast_of_truth(Forecast *forecast, const Oil *oil, double mph, double launch_deg,
                       const Bowler *bowler)
{
    batch_oil(oil, BATCH_QUICK, &forecast->oil[0]);
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        double launch, speed, rpm;
        scatter_of(i, &bowler->scatter, &launch, &speed, &rpm);
        forecast->draw[i].film = 0;
        forecast->draw[i].volume = forecast->draw[i].dry = 1.0f;
        forecast->draw[i].launch_deg = launch_deg + launch;
        forecast->draw[i].mph = mph + speed;
        forecast->draw[i].rpm = rpm;
    }
    forecast->smooth_boards = fmax(bowler->scatter.laydown_boards, 0.2);
}

Outlook forecast_delivery(const Forecast *forecast, const BatchBall *ball, const Delivery *delivery)
{
    BatchThrow throws[FORECAST_DRAWS];
    Arrival arrivals[FORECAST_DRAWS];
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        throws[i] = (BatchThrow){.delivery = *delivery,
                                 .film_scale = forecast->draw[i].volume,
                                 .dry_scale = forecast->draw[i].dry};
        throws[i].delivery.launch_deg += forecast->draw[i].launch_deg;
        throws[i].delivery.mph += forecast->draw[i].mph;
        throws[i].delivery.rpm += forecast->draw[i].rpm;
    }
    for (int first = 0, last; first < FORECAST_DRAWS; first = last) {
        int film = forecast->draw[first].film;
        for (last = first; last < FORECAST_DRAWS && forecast->draw[last].film == film; last++)
            ;
        batch_arrive(ball, &forecast->oil[film], throws + first, last - first, arrivals + first);
    }
    Outlook outlook = {.degrees = 0.0};
    double square = 0.0, sd = forecast->smooth_boards;
    int count = 0;
    for (int i = 0; i < FORECAST_DRAWS; i++) {
        if (arrivals[i].gutter)
            continue;
        double board = arrivals[i].board;
        double pocket = normal_below((LANE_POCKET_HIGH - board) / sd) -
                        normal_below((LANE_POCKET_LOW - board) / sd);
        outlook.pocket += pocket;
        outlook.strike += rack_strike(board, arrivals[i].degrees, arrivals[i].mph, ball->pounds);
        outlook.pinfall += rack_pinfall(board, arrivals[i].degrees, arrivals[i].mph, ball->pounds);
        outlook.board += board;
        outlook.degrees += arrivals[i].degrees;
        square += board * board;
        count++;
    }
    outlook.pocket /= FORECAST_DRAWS;
    outlook.strike /= FORECAST_DRAWS;
    outlook.pinfall /= FORECAST_DRAWS;
    if (count == 0) { /* every one in the gutter */
        outlook.board = outlook.board_sd = outlook.degrees = NAN;
    } else {
        outlook.board /= count;
        outlook.degrees /= count;
        outlook.board_sd = sqrt(fmax(0.0, square / count - outlook.board * outlook.board));
    }
    return outlook;
}
