/* wear.c - oil taken up and carried on. */
#include "core/motion/wear.h"

#include <math.h>
#include <string.h>

#include "base/units.h"

#ifndef SETTEE_CONSTANTS_VARY /* tests/bench/bench_constants.c makes variables of these */
/* All assumed, set together so that lanes wear the way bowlers see it (tests/bench/bench_wear.c).
 */
#define PICK_SHARE 0.09    /* of the film above CLING_UNITS under the middle of the track */
#define CLING_UNITS 1.0    /* a film this thin sits in the lane's roughness (0.25 um) and stays */
#define TRACK_BOARDS 0.6   /* standard deviation of the track's width */
#define CARRY_PER_FT 0.002 /* share of the oil on the ball that it lays down again */
#define CARRY_HARD_PER_FT 0.008 /* urethane and polyester absorb nothing */
#endif

void track_of(const Roll *roll, double shift_boards, Track *track)
{
    track->count = roll->count < OIL_STATIONS ? roll->count : OIL_STATIONS;
    for (int j = 0; j < track->count; j++) {
        double middle = roll->path[j].board + shift_boards, sum = 0.0;
        int low = (int)ceil(middle - 0.5 * TRACK_BOARDS_MAX), high = low + TRACK_BOARDS_MAX - 1;
        low = low < 1 ? 1 : low;
        high = high > LANE_BOARDS ? LANE_BOARDS : high;
        track->at[j].low = low;
        track->at[j].boards = high < low ? 0 : high - low + 1;
        for (int i = 0; i < track->at[j].boards; i++) {
            double away = (low + i - middle) / TRACK_BOARDS;
            double share = exp(-0.5 * away * away);
            track->at[j].share[i] = (float)share;
            sum += share;
        }
        for (int i = 0; i < track->at[j].boards; i++)
            track->at[j].down[i] = sum > 1e-9 ? (float)(track->at[j].share[i] / sum) : 0.0f;
    }
}

void track_grain(Track *track, const Grain *grain)
{
    for (int j = 0; j < track->count; j++)
        for (int i = 0; i < track->at[j].boards; i++)
            track->at[j].share[i] *= grain->share[track->at[j].low + i - 1];
}

void track_mirror(Track *track)
{
    for (int j = 0; j < track->count; j++) {
        int boards = track->at[j].boards;
        float *share = track->at[j].share, *down = track->at[j].down;
        track->at[j].low = LANE_BOARDS + 1 - (track->at[j].low + boards - 1);
        for (int i = 0; i < boards / 2; i++) {
            float was = share[i], was_down = down[i];
            share[i] = share[boards - 1 - i];
            down[i] = down[boards - 1 - i];
            share[boards - 1 - i] = was;
            down[boards - 1 - i] = was_down;
        }
    }
}

double wear_track(Oil *oil, const Track *track, Cover cover, WearRate rate)
{
    bool hard = cover == COVER_URETHANE || cover == COVER_POLYESTER;
    double pick = fmin(PICK_SHARE * rate.pick, 1.0);
    double carry = (hard ? CARRY_HARD_PER_FT : CARRY_PER_FT) * rate.carry * OIL_STATION_FT;
    double held = 0.0; /* units on a board and station */
    for (int j = 0; j < track->count; j++) {
        double down = fmin(carry, 1.0) * held, up = 0.0, laid = 0.0;
        /* the first and last stations cover half as much lane, as in oil_volume_ml */
        double share = j == 0 || j == OIL_STATIONS - 1 ? 0.5 : 1.0;
        for (int i = 0; i < track->at[j].boards; i++) {
            double *units = &oil->units[j][track->at[j].low - 1 + i];
            double taken =
                fmin(pick * (double)track->at[j].share[i], 1.0) * fmax(*units - CLING_UNITS, 0.0);
            double given = down * (double)track->at[j].down[i];
            *units += given / share - taken;
            up += share * taken;
            laid += given;
        }
        held += up - laid;
    }
    return held * OIL_STATION_FT * ft_from_m(LANE_BOARD_M) * OIL_ML_PER_UNIT_SQFT;
}

double wear_delivery(Oil *oil, const Roll *roll, Cover cover, double shift_boards)
{
    Track track;
    track_of(roll, shift_boards, &track);
    return wear_track(oil, &track, cover, (WearRate){1.0, 1.0});
}
