/* shot.c - the words for a shot, and the boards each hit's name covers. */
#include "core/event/shot.h"

#include <math.h>

const char *const SIDE_NAMES[SIDE_COUNT + 1] = {"left", "right", 0};
const char *const HIT_NAMES[HIT_COUNT + 1] = {"",      "gutter", "wide", "thin",    "light",
                                              "flush", "high",   "nose", "crossed", 0};
const char *const READ_NAMES[READ_COUNT + 1] = {"", "early", "on-time", "late", "none", 0};
const char *const RELEASE_NAMES[RELEASE_COUNT + 1] = {"",     "good", "inside", "outside",
                                                      "fast", "slow", "off",    0};

/* Upper end of each hit, board of the ball's centre at the head pin: under the first, ball and head
 * pin do not touch (the sum of their radii); the rest assumed, common use. */
static const double UPPER[HIT_COUNT] = {[HIT_WIDE] = 13.7,   [HIT_THIN] = LANE_POCKET_LOW,
                                        [HIT_LIGHT] = 17.0,  [HIT_FLUSH] = LANE_POCKET_HIGH,
                                        [HIT_HIGH] = 19.4,   [HIT_NOSE] = 20.7,
                                        [HIT_CROSSED] = 25.0};

double shot_hit_board(Hit hit)
{
    if (hit <= HIT_GUTTER || hit >= HIT_COUNT)
        return NAN;
    if (hit == HIT_WIDE)
        return 12.5;
    if (hit == HIT_CROSSED)
        return 22.0;
    return 0.5 * (UPPER[hit - 1] + UPPER[hit]);
}

Hit shot_hit_of_board(double board)
{
    Hit hit = HIT_WIDE;
    while (hit < HIT_CROSSED && board >= UPPER[hit])
        hit++;
    return hit;
}

void shot_hit_span(Hit hit, double *low, double *high)
{
    *low = hit > HIT_WIDE ? UPPER[hit - 1] : 0.0;
    *high = hit < HIT_CROSSED ? UPPER[hit] : (double)LANE_BOARDS + 1.0;
}

const char *shot_impossible(const Shot *shot)
{
    bool head_pin_stands = shot->left_said && (shot->left & pin_bit(1));
    bool corner = shot->left == pin_bit(7) || shot->left == pin_bit(10);
    if (shot->hit == HIT_GUTTER && shot->left_said && shot->left != PINS_ALL)
        return "a gutter ball leaves all ten; allowed: 1 to 10, or another hit";
    if (shot->hit == HIT_WIDE && shot->left_said && shot->left == 0)
        return "wide misses the head pin, so no strike; allowed: thin, or what was left";
    if (shot->hit >= HIT_LIGHT && shot->hit <= HIT_NOSE && head_pin_stands)
        return "that hit takes the 1 pin down; allowed with the 1: wide, thin or crossed";
    if (shot->ringing && !(shot->left_said && corner))
        return "only a 7 or a 10 that stands alone can be ringing";
    return NULL;
}

#define SAME_BOARDS 1.01
#define SAME_MPH 0.3 /* intended speed, loft and rotation this close: the same release */
#define SAME_LOFT_FT 1.01
#define SAME_ROTATION_DEG 5.01

bool shot_of_line(const Shot *shot, const Plan *plan)
{
    return shot->slot == plan->slot && fabs(shot->stance - plan->stance) < SAME_BOARDS &&
           fabs(shot->aim - plan->aim) < SAME_BOARDS &&
           fabs(shot->mph_change - plan->mph_change) < SAME_MPH &&
           fabs(shot->loft_change_ft - plan->loft_change_ft) < SAME_LOFT_FT &&
           fabs(shot->rotation_change_deg - plan->rotation_change_deg) < SAME_ROTATION_DEG;
}

int shot_side(Hit hit)
{
    return hit == HIT_UNSAID || hit == HIT_FLUSH ? 0 : hit < HIT_FLUSH ? -1 : 1;
}

bool shot_ball(const Shot *shot, const Bag *bag, Ball *ball)
{
    const Ball *now = shot->ball[0] ? bag_find(bag, shot->ball) : bag_slot(bag, shot->slot);
    if (!now)
        return false;
    *ball = *now;
    if (shot->ball[0])
        ball->surface = shot->surface;
    return true;
}
