/* judge.c - see judge.h. */
#include "core/rehearse/judge.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/rehearse/known.h"

typedef enum Stage { STAGE_NEXT, STAGE_ASK, STAGE_BELIEF, STAGE_SEARCH, STAGE_LANE } Stage;

struct JudgeJob {
    RehearseJob *block; /* the block, played again */
    Rehearsal again;
    RehearseSetup setup;
    const Rehearsal *played;
    Judgement *out;
    Stage stage;
    bool lane_alone;
    Oil sheet; /* in the bowler's frame */
    Forecast forecast;
    KnownSearch search;
};

JudgeJob *judge_new(void)
{
    JudgeJob *job = calloc(1, sizeof *job);
    if (job && !(job->block = rehearse_new())) {
        free(job);
        return NULL;
    }
    return job;
}

void judge_free(JudgeJob *job)
{
    if (!job)
        return;
    rehearse_free(job->block);
    free(job);
}

void judge_begin(JudgeJob *job, const RehearseSetup *setup, const Rehearsal *played, Judgement *out)
{
    job->setup = *setup;
    job->setup.player = NULL; /* the throws are known */
    job->played = played;
    job->out = out;
    job->stage = STAGE_NEXT;
    job->lane_alone = false;
    memset(out, 0, sizeof *out);
    oil_lay(setup->pattern, &job->sheet);
    oil_for_hand(&job->sheet, setup->bag->bowler.hand, &job->sheet);
    rehearse_begin(job->block, &job->setup, &job->again);
}

void judge_lane_alone(JudgeJob *job) { job->lane_alone = true; }

/* The decision being judged, and what was chosen. */
static Decision *current(const JudgeJob *job) { return &job->out->decisions[job->out->count]; }

static Plan chosen(const JudgeJob *job)
{
    return shot_plan(&job->played->shots[job->out->count].shot);
}

/* Takes the plan if it is worth more pins of the frame than the best so far. */
static void weigh(const JudgeJob *job, const Plan *plan, const Outlook *outlook, Judged *judged)
{
    const Bowler *bowler = &job->setup.bag->bowler;
    const Ball *ball = bag_slot(job->setup.bag, plan->slot);
    if (frame_of(outlook, bowler, ball).score <=
        frame_of(&judged->as_better, bowler, bag_slot(job->setup.bag, judged->better.slot)).score)
        return;
    judged->better = *plan;
    judged->as_better = *outlook;
    judged->best = odds_of(outlook, bowler, ball);
}

static void begin_judged(const JudgeJob *job, const Outlook *outlook, Judged *judged)
{
    Plan plan = chosen(job);
    Odds odds = odds_of(outlook, &job->setup.bag->bowler, bag_slot(job->setup.bag, plan.slot));
    *judged = (Judged){plan, *outlook, *outlook, odds, odds, NAN};
}

static Outlook by_belief(const JudgeJob *job, const Plan *plan)
{
    const View *view = rehearse_view(job->block);
    const Ball *ball = bag_slot(view->bag, plan->slot);
    MotionBody body;
    BatchBall batch;
    motion_body(ball, &body);
    batch_ball(&body, &batch);
    Delivery meant = plan_delivery(&view->bag->bowler, plan);
    return forecast_delivery(&job->forecast, belief_ball(advice_belief(view->advice), ball->id),
                             &batch, &meant);
}

/* Against whatever the advice has found, and against staying. */
static void judge_by_belief(JudgeJob *job)
{
    const View *view = rehearse_view(job->block);
    const Advice *advice = advice_result(view->advice);
    Judged *judged = &current(job)->by[JUDGE_BELIEF];
    Plan plan = chosen(job);
    forecast_prepare(&job->forecast, advice_belief(view->advice), view->lane, &view->bag->bowler);
    Outlook outlook = by_belief(job, &plan);
    begin_judged(job, &outlook, judged);
    outlook = by_belief(job, &view->plan[view->lane]);
    weigh(job, &view->plan[view->lane], &outlook, judged);
    for (int i = 0; i < advice->adjustment_count; i++) {
        const Adjustment *answer = &advice->adjustments[i];
        if (answer->surface_grit > 0.0)
            continue;
        outlook = by_belief(job, &answer->plan);
        weigh(job, &answer->plan, &outlook, judged);
    }
}

static Outlook by_lane(const JudgeJob *job, const Plan *plan)
{
    Delivery meant = plan_delivery(&job->setup.bag->bowler, plan);
    return truth_outlook(rehearse_truth(job->block), rehearse_view(job->block)->lane, plan->slot,
                         &meant);
}

/* Against the best ball and line there is, and the belief's best, which may change the speed. */
static void judge_by_lane(JudgeJob *job)
{
    Judged *judged = &current(job)->by[JUDGE_LANE];
    Plan plan = chosen(job), other = current(job)->by[JUDGE_BELIEF].better;
    Outlook outlook = by_lane(job, &plan);
    begin_judged(job, &outlook, judged);
    outlook = by_lane(job, &job->search.best.plan);
    weigh(job, &job->search.best.plan, &outlook, judged);
    outlook = by_lane(job, &other);
    weigh(job, &other, &outlook, judged);
}

/* The film where the ball rolled against what the sheet says is there. */
static double film_left(const JudgeJob *job, const Oil *lane, const Roll *roll)
{
    int low = LANE_BOARDS, high = 1;
    for (int i = 30; i <= 70 && i < roll->count; i++) { /* 15 to 35 ft, by half feet */
        low = (int)fmin(low, floor(roll->path[i].board));
        high = (int)fmax(high, ceil(roll->path[i].board));
    }
    double sheet = low <= high && low >= 1 && high <= LANE_BOARDS
                       ? rehearse_film(&job->sheet, low, high)
                       : 0.0;
    return sheet > 0.0 ? rehearse_film(lane, low, high) / sheet : NAN;
}

/* Once a game is over, what each of its decisions cost. */
static void end_game(JudgeJob *job, int game)
{
    Judgement *out = job->out;
    Odds own[ODDS_RACKS], best[ODDS_RACKS];
    double cost[ODDS_RACKS], mean[2];
    int count = 0, first = out->count;
    while (first > 0 && job->played->shots[first - 1].game == game)
        first--;
    count = out->count - first;
    for (int kind = 0; kind < (job->lane_alone ? JUDGE_BELIEF : JUDGE_KINDS); kind++) {
        for (int i = 0; i < count; i++) {
            own[i] = out->decisions[first + i].by[kind].chosen;
            best[i] = out->decisions[first + i].by[kind].best;
        }
        odds_costs(own, best, count, cost, mean);
        for (int i = 0; i < count; i++)
            out->decisions[first + i].by[kind].cost = cost[i];
        out->game[game - 1].mean[kind] = mean[0];
        out->game[game - 1].best[kind] = mean[1];
    }
    out->games = game;
}

/* Throws what was thrown; a decision is then complete. */
static void throw_again(JudgeJob *job, const Plan *plan)
{
    const View *view = rehearse_view(job->block);
    Choice choice = {*plan, ADJUST_HOLD, NAN, NAN};
    Side lane = view->lane;
    if (view->practice) {
        rehearse_throw(job->block, &choice);
        return;
    }
    int game = view->game;
    bool again = plan_same(plan, &view->plan[lane]);
    Oil before = rehearse_truth(job->block)->oil[lane];
    rehearse_throw(job->block, &choice);
    if (job->out->count >= REHEARSE_SHOTS_MAX)
        return;
    current(job)->film = film_left(job, &before, rehearse_roll(job->block));
    current(job)->same_line = again;
    job->out->count++;
    if (job->again.games == game)
        end_game(job, game);
}

static void begin_search(JudgeJob *job)
{
    const View *view = rehearse_view(job->block);
    known_begin(&job->search, rehearse_truth(job->block), view->lane, view->game,
                &view->plan[view->lane]);
    job->stage = STAGE_SEARCH;
}

/* Goes to the next decision; true: none is left. */
static bool next(JudgeJob *job)
{
    if (rehearse_over(job->block))
        return true;
    if (rehearse_view(job->block)->practice) {
        if (job->again.practice_count >= job->played->practice_count)
            return true;
        throw_again(job, &job->played->practice[job->again.practice_count]);
        return false;
    }
    if (job->out->count >= job->played->shot_count)
        return true;
    if (job->lane_alone) {
        Outlook nothing = {.board = NAN, .board_sd = NAN, .degrees = NAN};
        begin_judged(job, &nothing, &current(job)->by[JUDGE_BELIEF]);
        begin_search(job);
    } else {
        player_ask(rehearse_view(job->block));
        job->stage = STAGE_ASK;
    }
    return false;
}

bool judge_step(JudgeJob *job)
{
    const View *view = rehearse_view(job->block);
    Plan plan;
    switch (job->stage) {
    case STAGE_NEXT:
        return next(job);
    case STAGE_ASK:
        if (advice_adjustments_done(view->advice))
            job->stage = STAGE_BELIEF;
        else
            advice_step(view->advice);
        break;
    case STAGE_BELIEF:
        judge_by_belief(job);
        begin_search(job);
        break;
    case STAGE_SEARCH:
        if (known_step(&job->search))
            job->stage = STAGE_LANE;
        break;
    case STAGE_LANE:
        judge_by_lane(job);
        plan = chosen(job);
        throw_again(job, &plan);
        job->stage = STAGE_NEXT;
        break;
    }
    return false;
}

double judge_cost(const Judgement *judgement, JudgeKind kind)
{
    double sum = 0.0;
    for (int i = 0; i < judgement->games; i++)
        sum += judgement->game[i].best[kind] - judgement->game[i].mean[kind];
    return judgement->games > 0 ? sum / judgement->games : 0.0;
}

int judge_dearest(const Judgement *judgement, double least, int *indices, int max)
{
    int count = 0;
    while (count < max) {
        int dearest = -1;
        for (int i = 0; i < judgement->count; i++) {
            double cost = judgement->decisions[i].by[JUDGE_LANE].cost;
            bool taken = isnan(cost) || cost < least;
            for (int k = 0; k < count; k++)
                taken |= indices[k] == i;
            if (!taken && (dearest < 0 || cost > judgement->decisions[dearest].by[JUDGE_LANE].cost))
                dearest = i;
        }
        if (dearest < 0)
            break;
        indices[count++] = dearest;
    }
    return count;
}

/* From which difference on a thing is named as the reason (assumed). */
#define OFF_BOARDS 1.0
#define WIDER_BOARDS 0.5
#define FLATTER_DEG 0.7
#define THINNER 0.8
#define THICKER 1.15
#define FORESEEN_PINS 0.5 /* a cost by what was known that is no mistake, if it is less */

static void say_oil(double film, double off, char *out, size_t size)
{
    if (off > 0.0 && film < THINNER)
        text_append(out, size, ": only %.0f %% of the oil was left on its track", 100.0 * film);
    else if (off < 0.0 && film > THICKER)
        text_append(out, size, ": there was %.0f %% more oil on its track than the sheet says",
                    100.0 * (film - 1.0));
}

void judge_why(const Decision *decision, char *out, size_t size)
{
    const Judged *lane = &decision->by[JUDGE_LANE], *belief = &decision->by[JUDGE_BELIEF];
    const Outlook *own = &lane->as_chosen, *better = &lane->as_better;
    double off = own->board - LANE_POCKET_BEST, off_better = better->board - LANE_POCKET_BEST;
    out[0] = '\0';
    if (isnan(own->board)) {
        text_append(out, size, "Your line ran into the gutter");
    } else if (fabs(off) >= OFF_BOARDS && fabs(off) > fabs(off_better)) {
        text_append(out, size, "On average your line hit %.1f boards %s", fabs(off),
                    off > 0.0 ? "high" : "light");
        say_oil(decision->film, off, out, size);
    } else if (own->board_sd > better->board_sd + WIDER_BOARDS) {
        text_append(
            out, size,
            "Your line had less room: hits spread by %.1f boards, on the better one by %.1f",
            own->board_sd, better->board_sd);
    } else if (own->degrees < better->degrees - FLATTER_DEG) {
        text_append(out, size, "Your ball came in flat: %.1f degrees, on the better line %.1f",
                    own->degrees, better->degrees);
    } else {
        text_append(out, size, "Both lines hit near the pocket; the better one carries more often");
    }
    text_append(out, size, ". Strikes: %.0f %% against %.0f %%.", 100.0 * own->strike,
                100.0 * better->strike);
    if (belief->cost < FORESEEN_PINS)
        text_append(out, size, " Nothing you had seen told you so.");
}

void judge_lane(JudgeJob *job, const RehearseSetup *setup, const Rehearsal *played, int shot,
                Oil *lane)
{
    job->setup = *setup;
    job->setup.player = NULL;
    rehearse_begin(job->block, &job->setup, &job->again);
    for (int i = 0; i < played->practice_count; i++) {
        Choice choice = {played->practice[i], ADJUST_HOLD, NAN, NAN};
        rehearse_throw(job->block, &choice);
    }
    for (int i = 0; i < shot; i++) {
        Choice choice = {shot_plan(&played->shots[i].shot), ADJUST_HOLD, NAN, NAN};
        rehearse_throw(job->block, &choice);
    }
    *lane = rehearse_truth(job->block)->oil[rehearse_view(job->block)->lane];
}
