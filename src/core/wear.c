/* wear.c - oil taken up, carried on, and estimated. */
#include "core/wear.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

#define PICK_SHARE 0.05        /* of the film under the middle of the track; assumed */
#define TRACK_BOARDS 0.6       /* deviation of the track's width across; assumed */
#define CARRY_PER_FT 0.0015    /* share of what the ball holds that it lays down again; assumed */
#define CARRY_HARD_PER_FT 0.01 /* urethane and polyester absorb nothing; assumed */

double wear_delivery(Oil *oil, const Roll *roll, Cover cover, double shift_boards)
{
    double carry =
        cover == COVER_URETHANE || cover == COVER_POLYESTER ? CARRY_HARD_PER_FT : CARRY_PER_FT;
    double share_down = carry * OIL_STATION_FT, held = 0.0; /* held: unit board stations */
    for (int j = 0; j < roll->count && j < OIL_STATIONS; j++) {
        double track = roll->path[j].board + shift_boards;
        int low = (int)ceil(track - 4.0 * TRACK_BOARDS),
            high = (int)floor(track + 4.0 * TRACK_BOARDS);
        low = low < 1 ? 1 : low;
        high = high > LANE_BOARDS ? LANE_BOARDS : high;
        double weight[8], sum = 0.0, up = 0.0;
        for (int b = low; b <= high; b++) {
            double away = (b - track) / TRACK_BOARDS;
            weight[b - low] = exp(-0.5 * away * away);
            sum += weight[b - low];
        }
        if (!(sum > 0.0))
            continue;
        double down = share_down * held;
        for (int b = low; b <= high; b++) {
            double *units = &oil->units[j][b - 1], taken = PICK_SHARE * weight[b - low] * *units;
            up += taken;
            *units += down * weight[b - low] / sum - taken;
        }
        held += up - down;
    }
    return held * OIL_STATION_FT * ft_from_m(LANE_BOARD_M) * OIL_ML_PER_UNIT_SQFT;
}

/* The grid of scales: even steps of the logarithm. */
#define SCALE_STEP 0.09
#define SCALE_FIRST (-6)    /* exp(-0.54) = 0.58 .. exp(0.36) = 1.43 */
#define SCALE_PRIOR_SD 0.18 /* how well a sheet says what lies there; assumed */

static double scale_of(int i) { return exp(SCALE_STEP * (SCALE_FIRST + i)); }

static void sum_up(LaneState *lane)
{
    double top = lane->log_weight[0], sum = 0.0, mean = 0.0, square = 0.0;
    for (int i = 1; i < LANE_SCALES; i++)
        top = fmax(top, lane->log_weight[i]);
    for (int i = 0; i < LANE_SCALES; i++) {
        double w = exp(lane->log_weight[i] - top), s = scale_of(i);
        sum += w;
        mean += w * s;
        square += w * s * s;
    }
    lane->scale = mean / sum;
    lane->scale_sd = sqrt(fmax(0.0, square / sum - lane->scale * lane->scale));
}

void lane_begin(LaneState *lane, const Oil *sheet_in_frame)
{
    lane->oil = *sheet_in_frame;
    lane->deliveries = 0;
    lane->evidence = 0;
    for (int i = 0; i < LANE_SCALES; i++) {
        double away = SCALE_STEP * (SCALE_FIRST + i) / SCALE_PRIOR_SD;
        lane->log_weight[i] = -0.5 * away * away;
    }
    sum_up(lane);
}

static Delivery delivery_of_shot(const Bowler *bowler, const Shot *shot)
{
    Delivery delivery = delivery_of(bowler, shot->stance, shot->aim);
    if (shot->mph > 0.0)
        delivery.mph = shot->mph;
    return delivery;
}

/* How far one throw of this bowler lands from the next, boards, and how well a hit is seen:
 * sensitivities of a usual strike ball (docs/model.md: 7.6 boards a degree, 3.1 a mph, 0.07 an
 * rpm). */
static double hit_deviation(const Bowler *bowler, bool speed_known)
{
    const Scatter *s = &bowler->scatter;
    double launch = 7.6 * s->launch_deg, speed = speed_known ? 0.0 : 3.1 * s->mph,
           revs = 0.07 * s->rpm, laydown = s->laydown_boards, seen = 0.5;
    return sqrt(launch * launch + speed * speed + revs * revs + laydown * laydown + seen * seen);
}

/* Soft steps for a read: 2 ft of difference, 15 % said at random (assumed). */
static double read_chance(Read read, double feet_later)
{
    double early = 1.0 / (1.0 + exp((feet_later + 2.0) / 0.8));
    double late = 1.0 / (1.0 + exp((2.0 - feet_later) / 0.8));
    double said = read == READ_EARLY ? early : read == READ_ON_TIME ? 1.0 - early - late : late;
    return 0.85 * fmax(said, 0.0) + 0.15 / 3.0;
}

void lane_weigh(LaneState *lane, const Bowler *bowler, const MotionBody *body, const Shot *shot,
                double trust)
{
    if (!shot_good(shot))
        return;
    double seen = shot_hit_board(shot->hit);
    Delivery delivery = delivery_of_shot(bowler, shot);
    double expected = motion_arrive(body, &lane->oil, &delivery).first_move_ft;
    double deviation = hit_deviation(bowler, shot->mph > 0.0);
    bool use_read = shot->read != READ_UNSAID && !isnan(expected);
    if (isnan(seen) && !use_read)
        return;
    for (int i = 0; i < LANE_SCALES; i++) {
        Oil film = lane->oil;
        oil_scale(&film, scale_of(i));
        Arrival arrival = motion_arrive(body, &film, &delivery);
        double log_chance = 0.0;
        if (!isnan(seen)) {
            double away = (seen - (arrival.gutter ? 0.0 : arrival.board)) / deviation;
            log_chance -=
                log1p(0.25 * away * away) * 2.5; /* heavy tails: one odd shot says little */
        }
        if (use_read) {
            double move = isnan(arrival.first_move_ft) ? LANE_LENGTH_FT : arrival.first_move_ft;
            log_chance += log(read_chance(shot->read, move - expected));
        }
        lane->log_weight[i] += trust * log_chance;
    }
    lane->evidence++;
    sum_up(lane);
}

void lane_wear(LaneState *lane, const Bowler *bowler, const MotionBody *body, const Ball *ball,
               const Shot *shot, int bowlers_on_pair)
{
    /* The others' lines lie about this one, nearer as often as farther (assumed). */
    static const double SHIFT[] = {2.0, -2.0, 4.0, -3.0, 1.0, -1.0, 6.0, -5.0, 3.0};
    enum { SHIFTS = sizeof SHIFT / sizeof SHIFT[0] };
    Delivery delivery = delivery_of_shot(bowler, shot);
    Roll roll;
    motion_roll(body, &lane->oil, &delivery, &roll);
    wear_delivery(&lane->oil, &roll, ball->cover, 0.0);
    for (int k = 1; k < bowlers_on_pair; k++)
        wear_delivery(&lane->oil, &roll, COVER_SOLID, SHIFT[(k - 1 + lane->deliveries) % SHIFTS]);
    lane->deliveries += bowlers_on_pair;
}

void lane_film(const LaneState *lane, Oil *oil)
{
    *oil = lane->oil;
    oil_scale(oil, lane->scale);
}
