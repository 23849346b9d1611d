/* first.c - every ball's best line, and the best of those. */
#include "core/line/first.h"

#include <math.h>

#define LAYDOWNS_A_STEP 5.0

FirstJob first_begin(const Bag *bag, const Oil *oil)
{
    double low = LINE_LAYDOWN_LOW, high = LINE_LAYDOWN_HIGH;
    delivery_reach(&bag->bowler, &low, &high);
    return (FirstJob){.bag = bag, .oil = oil, .slot = 1, .low = low, .high = high, .laydown = low};
}

/* A spare ball is tried only while there is no plan yet, and gives way to any other ball. */
static bool is_tried(const FirstJob *job, const Ball *ball)
{
    return ball && !(ball->cover == COVER_POLYESTER && job->plan.slot);
}

static void try_laydowns(FirstJob *job, const Ball *ball)
{
    double high = fmin(job->laydown + LAYDOWNS_A_STEP - 1.0, job->high);
    Delivery usual = delivery_of(&job->bag->bowler, 26.0, 15.0); /* its line is ignored */
    MotionBody body;
    motion_body(ball, &body);
    Line line = line_best(&body, job->oil, &job->bag->bowler, &usual, job->laydown, high);
    if (job->laydown == job->low || line_better(&line, &job->line))
        job->line = line;
    job->laydown = high + 1.0;
}

static void take_ball(FirstJob *job, const Ball *ball)
{
    if (job->plan.slot && !job->spare && !line_better(&job->line, &job->best))
        return;
    job->best = job->line;
    job->spare = ball->cover == COVER_POLYESTER;
    double stance = lane_half_board(job->line.stance); /* the offset may be no half board */
    job->plan = (Plan){.slot = job->slot,
                       .stance = stance,
                       .aim = lane_half_board(job->line.aim + stance - job->line.stance)};
}

bool first_step(FirstJob *job)
{
    const Ball *ball = NULL;
    while (job->slot <= BAG_SLOTS && !is_tried(job, ball = bag_slot(job->bag, job->slot)))
        job->slot++;
    if (job->slot > BAG_SLOTS)
        return true;
    try_laydowns(job, ball);
    if (job->laydown > job->high) {
        take_ball(job, ball);
        job->slot++;
        job->laydown = job->low;
    }
    return false;
}

Plan first_plan(const Bag *bag, const Oil *oil)
{
    FirstJob job = first_begin(bag, oil);
    while (!first_step(&job))
        continue;
    return job.plan;
}
