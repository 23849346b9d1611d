/* taken.c - learnt numbers in a bag, and what stood there before. */
#include "core/bag/taken.h"

static void scale(Scatter *scatter, double factor)
{
    scatter->launch_deg *= factor;
    scatter->mph *= factor;
    scatter->rpm *= factor;
    scatter->laydown_boards *= factor;
}

void taken_over(Bag *bag, LearntKind kind, int at, double value)
{
    Bowler *bowler = &bag->bowler;
    BowlerBefore *before = &bowler->before;
    if (kind == LEARNT_MPH) {
        if (!taken_is(bag, kind, at)) {
            before->mph = bowler->mph;
            before->mph_from = bowler->from.mph;
        }
        bowler->mph = value;
        bowler->from.mph = SOURCE_LEARNT;
    } else if (kind == LEARNT_SCATTER) {
        if (!taken_is(bag, kind, at)) {
            before->has_scatter = true;
            before->scatter = bowler->scatter;
            before->scatter_from = bowler->from.scatter;
        }
        scale(&bowler->scatter, value);
        bowler->from.scatter = SOURCE_LEARNT;
    } else {
        Ball *ball = &bag->balls[at];
        if (!taken_is(bag, kind, at))
            ball->strength_before = ball->cover_strength;
        ball->cover_strength = value;
    }
}

bool taken_from_bowler(const Bowler *bowler, LearntKind kind)
{
    return kind == LEARNT_MPH ? bowler->from.mph == SOURCE_LEARNT && bowler->before.mph > 0.0
                              : bowler->from.scatter == SOURCE_LEARNT && bowler->before.has_scatter;
}

bool taken_from_ball(const Ball *ball) { return ball->strength_before > 0.0; }

bool taken_is(const Bag *bag, LearntKind kind, int ball)
{
    return kind == LEARNT_BALL ? taken_from_ball(&bag->balls[ball])
                               : taken_from_bowler(&bag->bowler, kind);
}

bool taken_back_bowler(Bowler *bowler, LearntKind kind)
{
    BowlerBefore *before = &bowler->before;
    if (!taken_from_bowler(bowler, kind))
        return false;
    if (kind == LEARNT_MPH) {
        bowler->mph = before->mph;
        bowler->from.mph = before->mph_from;
        before->mph = 0.0;
        before->mph_from = SOURCE_SAID;
    } else {
        bowler->scatter = before->scatter;
        bowler->from.scatter = before->scatter_from;
        before->has_scatter = false;
        before->scatter = (Scatter){0};
        before->scatter_from = SOURCE_SAID;
    }
    return true;
}

bool taken_back_ball(Ball *ball)
{
    if (!taken_from_ball(ball))
        return false;
    ball->cover_strength = ball->strength_before;
    ball->strength_before = 0.0;
    return true;
}

bool taken_back(Bag *bag, LearntKind kind, int ball)
{
    return kind == LEARNT_BALL ? taken_back_ball(&bag->balls[ball])
                               : taken_back_bowler(&bag->bowler, kind);
}
