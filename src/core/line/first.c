/* first.c - every ball's best line, and the best of those. */
#include "core/line/first.h"

#include <math.h>

#include "core/line/line.h"

Plan first_plan(const Bag *bag, const Oil *oil)
{
    Plan plan = {0};
    Line best = {0};
    bool spare = false; /* what is in hand is a spare ball */
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        if (!ball || (ball->cover == COVER_POLYESTER && plan.slot))
            continue;
        MotionBody body;
        motion_body(ball, &body);
        Delivery usual = delivery_of(&bag->bowler, 26.0, 15.0); /* its line is not looked at */
        Line line =
            line_best(&body, oil, &bag->bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
        if (plan.slot && !spare && !line_better(&line, &best))
            continue;
        best = line;
        spare = ball->cover == COVER_POLYESTER;
        plan = (Plan){.slot = slot, .stance = line.stance, .aim = 0.5 * round(2.0 * line.aim)};
    }
    return plan;
}
