/* leaves.c - a leave's likelihood over boards and angles, and where most of it lies. */
#include "core/advice/leaves.h"

#include <math.h>

#include "core/pins/rack.h"

/* A usual ball, and where hits lie before the leave is known (assumed). */
#define BALL_MPH 16.5
#define BALL_POUNDS 15.0
#define HITS_SD_BOARDS 2.0
#define BOARD_FIRST 12.0
#define BOARD_LAST 26.0
#define BOARD_STEP 0.25
#define BESIDE_BOARDS 0.5 /* from the pocket's best: more is light or high */
#define SHARE 0.75        /* of the hits that leave it */
static const double DEGREES[] = {3.0, 4.5, 6.0};

static double chance(Pins left, double board)
{
    double z = (board - LANE_POCKET_BEST) / HITS_SD_BOARDS, sum = 0.0;
    for (size_t i = 0; i < sizeof DEGREES / sizeof DEGREES[0]; i++)
        sum += rack_leave_chance(left, board, DEGREES[i], BALL_MPH, BALL_POUNDS);
    return sum * exp(-0.5 * z * z);
}

Told leave_tells(Pins left_in_frame, double *board)
{
    double all = 0.0, light = 0.0, high = 0.0, boards = 0.0;
    if (left_in_frame == 0 || left_in_frame == pin_bit(7) || left_in_frame == pin_bit(10))
        return TOLD_NOTHING;
    for (double at = BOARD_FIRST; at <= BOARD_LAST; at += BOARD_STEP) {
        double weight = chance(left_in_frame, at);
        all += weight;
        boards += weight * at;
        light += at < LANE_POCKET_BEST - BESIDE_BOARDS ? weight : 0.0;
        high += at > LANE_POCKET_BEST + BESIDE_BOARDS ? weight : 0.0;
    }
    if (board)
        *board = boards / all;
    return light >= SHARE * all ? TOLD_LIGHT : high >= SHARE * all ? TOLD_HIGH : TOLD_NOTHING;
}

Hit leave_hit(Pins left_in_frame)
{
    double board;
    if (left_in_frame == 0)
        return HIT_FLUSH;
    Told told = leave_tells(left_in_frame, &board);
    if (told == TOLD_NOTHING)
        return HIT_UNSAID;
    Hit hit = shot_hit_of_board(board);
    if (told == TOLD_LIGHT)
        return hit < HIT_LIGHT ? hit : HIT_LIGHT;
    return hit > HIT_HIGH ? hit : HIT_HIGH;
}
