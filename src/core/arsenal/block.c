/* block.c - a block played ahead, game by game. */
#include "core/arsenal/block.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

const char *const PACE_NAMES[PACE_COUNT + 1] = {"slow", "usual", "fast", 0};
const double PACE_RATE[PACE_COUNT] = {0.72, 1.0, 1.4};

#define KEEP_BALL 0.02 /* value another ball must add */
#define KEEP_LINE 0.02 /* value a line elsewhere must add over one nearby; assumed */
#define NEAR_OUT                                                                                   \
    2.0 /* boards of laydown that count as nearby: a game's moves (common practice)                \
         */
#define NEAR_IN 4.0
#define SEEN_BOARDS 0.4 /* arrivals closer than this look alike; assumed */
#define SEEN_FEET 0.8
enum { OTHERS_SEED = 1 }; /* for bowlers nobody knows */

struct BlockJob {
    Bag bag;
    Block out;
    int at; /* pace, game, lane: lane fastest */
    Oil sheet, film[SIDE_COUNT];
    Others others[SIDE_COUNT]; /* the same people, but each lane has its own grain */
    FieldMix mix;
    bool filled[BAG_SLOTS];
    MotionBody body[BAG_SLOTS];
    BatchBall batch[BAG_SLOTS];
    BatchOil ready;
};

BlockJob *block_job_new(void) { return calloc(1, sizeof(BlockJob)); }
void block_job_free(BlockJob *job) { free(job); }
const Block *block_result(const BlockJob *job) { return &job->out; }

void block_begin(BlockJob *job, const BlockInput *input)
{
    Oil sheet;
    memset(job, 0, sizeof *job);
    job->bag = *input->bag;
    job->mix = input->mix;
    oil_lay(input->pattern, &sheet);
    oil_for_hand(&sheet, job->bag.bowler.hand, &job->sheet);
    Block *out = &job->out;
    out->revision = input->revision;
    int games = input->games, bowlers = input->bowlers;
    out->games = games < 1 ? 1 : games > BLOCK_GAMES_MAX ? BLOCK_GAMES_MAX : games;
    out->bowlers = bowlers < 1 ? 1 : bowlers > BLOCK_BOWLERS_MAX ? BLOCK_BOWLERS_MAX : bowlers;
    out->steps_all = PACE_COUNT * SIDE_COUNT * out->games;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&job->bag, slot);
        job->filled[slot - 1] = ball && !bag_for_spares(&job->bag, ball, true);
        if (!job->filled[slot - 1])
            continue;
        motion_body(ball, &job->body[slot - 1]);
        batch_ball(&job->body[slot - 1], &job->batch[slot - 1]);
    }
}

/* A ball's fit, near the current line if that is nearly as good. */
static Fit fit_of(const BlockJob *job, int slot, const BlockGame *before)
{
    const Bowler *bowler = &job->bag.bowler;
    Fit best = fit_ball(&job->batch[slot - 1], &job->ready, bowler);
    if (!before || before->slot != slot)
        return best;
    double from = before->line.laydown_board;
    Fit near =
        fit_between(&job->batch[slot - 1], &job->ready, bowler, from - NEAR_OUT, from + NEAR_IN);
    return near.found && near.value >= best.value - KEEP_LINE ? near : best;
}

static void choose(BlockJob *job, const Oil *film, const BlockGame *before, BlockGame *game)
{
    Fit best = {.value = -1.0};
    batch_oil(film, BATCH_QUICK, &job->ready);
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        if (!job->filled[slot - 1])
            continue;
        Fit fit = fit_of(job, slot, before);
        if (before && before->slot == slot)
            fit.value += KEEP_BALL;
        if (fit.found && fit.value > best.value) {
            best = fit;
            game->slot = slot;
        }
    }
    if (game->slot == 0)
        return;
    game->line = fit_line(&job->body[game->slot - 1], film, &job->bag.bowler, &best);
    game->value = line_value(&game->line);
}

static void play(BlockJob *job, Oil *film, Side lane, WearRate rate, BlockGame *plan)
{
    const Bowler *bowler = &job->bag.bowler;
    GameWear wear = {.bowler = bowler, .rate = rate};
    plan->later_board = plan->later_move_ft = plan->later_hook_ft = NAN;
    Delivery delivery = delivery_of(bowler, plan->line.stance, plan->line.aim);
    if (plan->slot > 0) {
        wear.body = &job->body[plan->slot - 1];
        wear.cover = bag_slot(&job->bag, plan->slot)->cover;
        wear.delivery = &delivery;
    }
    block_wear(film, &job->others[lane], &wear, lane);
    if (plan->slot > 0) {
        Roll roll;
        motion_roll(wear.body, film, &delivery, &roll);
        plan->later_board = roll.entry_board;
        plan->later_move_ft = roll.first_move_ft;
        plan->later_hook_ft = roll.hook_ft;
    }
}

bool block_step(BlockJob *job)
{
    Block *out = &job->out;
    if (job->at >= out->steps_all) {
        out->done = true;
        return true;
    }
    int lane = job->at % SIDE_COUNT, game = job->at / SIDE_COUNT % out->games;
    int pace = job->at / SIDE_COUNT / out->games;
    job->at++;
    out->steps = job->at;
    if (game == 0) {
        job->film[lane] = job->sheet;
        others_begin(&job->others[lane], &job->mix, out->bowlers - 1, job->bag.bowler.hand,
                     OTHERS_SEED, lane);
    }
    Oil *film = &job->film[lane];
    out->volume_ml[pace][game] = oil_volume_ml(film);
    BlockGame *plan = &out->game[pace][lane][game];
    choose(job, film, game > 0 ? plan - 1 : NULL, plan);
    play(job, film, (Side)lane, (WearRate){PACE_RATE[pace], 1.0}, plan);
    out->volume_ml[pace][game + 1] = oil_volume_ml(film);
    plan->ready = true;
    out->done = job->at >= out->steps_all;
    return out->done;
}

BlockSpread block_spread(const Block *block, Side lane, int game)
{
    BlockSpread spread = {.stance_low = INFINITY,
                          .stance_high = -INFINITY,
                          .aim_low = INFINITY,
                          .aim_high = -INFINITY};
    for (int pace = 0; pace < PACE_COUNT; pace++) {
        const BlockGame *plan = &block->game[pace][lane][game];
        bool seen = false;
        for (int i = 0; i < pace; i++)
            seen = seen || spread.slot[i] == plan->slot;
        spread.slot[pace] = plan->slot;
        spread.slots += !seen;
        if (plan->slot == 0)
            continue;
        spread.stance_low = fmin(spread.stance_low, plan->line.stance);
        spread.stance_high = fmax(spread.stance_high, plan->line.stance);
        spread.aim_low = fmin(spread.aim_low, plan->line.aim);
        spread.aim_high = fmax(spread.aim_high, plan->line.aim);
    }
    return spread;
}

static const char *name_of(const Bag *bag, int slot)
{
    const Ball *ball = bag_slot(bag, slot);
    return ball ? ball->name : "no ball";
}

static void say_sign(const BlockGame *now, char *out, unsigned long size)
{
    double boards = now->later_board - now->line.entry_board;
    double feet = now->later_hook_ft - now->line.hook_ft;
    if (isnan(boards))
        text_append(out, size, "by its end this line no longer reaches the pins");
    else if (boards > SEEN_BOARDS)
        text_append(out, size, "by its end good shots on this line hit %.1f boards higher", boards);
    else if (boards < -SEEN_BOARDS)
        text_append(out, size, "by its end good shots on this line hit %.1f boards lighter",
                    -boards);
    else
        text_append(out, size, "the line holds");
    if (feet < -SEEN_FEET)
        text_append(out, size, " and move %.0f ft sooner", -feet);
    else if (feet > SEEN_FEET)
        text_append(out, size, " and move %.0f ft later", feet);
}

static void say_shift(double boards, const char *with, char *out, unsigned long size)
{
    text_append(out, size, "%g %s with the %s", fabs(boards), boards > 0.0 ? "in" : "out", with);
}

static void say_adjustment(const BlockGame *now, const BlockGame *next, const Bag *bag, char *out,
                           unsigned long size)
{
    double feet = lane_half_board(next->line.stance) - lane_half_board(now->line.stance);
    double eyes = lane_half_board(next->line.aim) - lane_half_board(now->line.aim);
    if (next->slot != now->slot) {
        text_append(out, size,
                    ". When corner pins stand and two good shots miss the same way: %s, "
                    "stand %g, aim %g",
                    name_of(bag, next->slot), lane_half_board(next->line.stance),
                    lane_half_board(next->line.aim));
    } else if (feet != 0.0 || eyes != 0.0) {
        text_append(out, size, ". When two good shots in a row say so: ");
        if (feet != 0.0)
            say_shift(feet, "feet", out, size);
        if (feet != 0.0 && eyes != 0.0)
            text_append(out, size, ", ");
        if (eyes != 0.0)
            say_shift(eyes, "eyes", out, size);
    }
}

void block_watch(const Block *block, const Bag *bag, Side lane, int game, char *out,
                 unsigned long size)
{
    const BlockGame *now = &block->game[PACE_USUAL][lane][game];
    out[0] = '\0';
    if (now->slot == 0) {
        text_append(out, size, "No ball in the bag finds the pocket here: find out in practice.");
        return;
    }
    text_append(out, size, "%s: ", name_of(bag, now->slot));
    say_sign(now, out, size);
    if (game + 1 < block->games && block->game[PACE_USUAL][lane][game + 1].slot > 0)
        say_adjustment(now, &block->game[PACE_USUAL][lane][game + 1], bag, out, size);
    text_append(out, size, ".");
}
