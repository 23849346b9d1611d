/* players.c - six ways to choose the next throw. */
#include "core/rehearse/players.h"

#include <math.h>
#include <string.h>

#include "core/advice/candidates.h"
#include "core/line/strength.h"
#include "core/rehearse/known.h"

const Player *const PLAYERS[PLAYER_COUNT + 1] = {
    &PLAYER_HOLD,  &PLAYER_RULES, &PLAYER_ADVISOR, &PLAYER_KNOWS, &PLAYER_BY_THE_MISS,
    &PLAYER_COACH, NULL};

const Player *player_find(const char *name)
{
    for (const Player *const *player = PLAYERS; *player; player++)
        if (strcmp((*player)->name, name) == 0)
            return *player;
    return NULL;
}

static Choice stay(const View *view)
{
    return (Choice){
        .plan = view->plan[view->lane], .kind = ADJUST_HOLD, .pocket = NAN, .strike = NAN};
}

const Player PLAYER_HOLD = {
    .name = "hold", .sentence = "throws the first line all day", .choose = stay};

/* Takes the strike ball that many places weaker in the bag, if there is one. */
static bool take_ball(const View *view, int places, Plan *plan)
{
    Oil sheet;
    int slots[BAG_SLOTS], at = 0;
    oil_lay(view->pattern, &sheet);
    oil_for_hand(&sheet, view->bag->bowler.hand, &sheet);
    int count = strength_order(view->bag, &sheet, slots, NULL);
    while (at < count && slots[at] != plan->slot)
        at++;
    int next = at + places;
    if (at == count || next < 0 || next >= count ||
        bag_slot(view->bag, slots[next])->cover == COVER_POLYESTER)
        return false;
    plan->slot = slots[next];
    return true;
}

static bool on_lane(const View *view, const Plan *plan)
{
    return candidate_on_lane(&view->bag->bowler, plan);
}

void player_ask(const View *view)
{
    AdviceInput input = {.bag = view->bag,
                         .pattern = view->pattern,
                         .rules = view->rules,
                         .shots = view->shots,
                         .shot_count = view->shot_count,
                         .lane = view->lane,
                         .plan = view->plan[view->lane],
                         .game = view->game,
                         .frame = view->frame,
                         .bowlers_on_pair = view->bowlers_on_pair,
                         .mix = view->mix,
                         .apart = true, /* each lane has a plan of its own */
                         .certified = true,
                         .revision = view->question};
    advice_begin(view->advice, &input);
}

#define USUAL_MPH_MAX                                                                              \
    1.5 /* nobody goes further by the usual steps (common practice, no source)                     \
         */
#define USUAL_LOFT_MAX_FT 4.0

/* Changes by the usual step: two boards of feet and one of aim, the neighbouring ball, half a mile
 * an hour, two feet of loft. Leaves hand, less loft and surface alone. */
static void step_by(const View *view, AdjustmentKind kind, Plan *plan)
{
    double step = ADJUSTMENTS[kind].step;
    switch (ADJUSTMENTS[kind].changes) {
    case CHANGE_FEET:
        plan->stance += step;
        plan->aim += 0.5 * step;
        break;
    case CHANGE_EYES:
        plan->aim += step;
        break;
    case CHANGE_BALL:
        take_ball(view, (int)step, plan);
        break;
    case CHANGE_SPEED:
        plan->mph_change = fmax(-USUAL_MPH_MAX, fmin(plan->mph_change + step, USUAL_MPH_MAX));
        break;
    case CHANGE_LOFT:
        if (step > 0.0)
            plan->loft_change_ft = fmin(plan->loft_change_ft + step, USUAL_LOFT_MAX_FT);
        break;
    default:
        break;
    }
}

static Choice choose_by_rules(const View *view)
{
    Choice choice = stay(view);
    Plan plan = choice.plan;
    player_ask(view);
    while (!advice_result(view->advice)->ready && !advice_step(view->advice))
        ;
    choice.kind = advice_asked(view->advice);
    step_by(view, choice.kind, &plan);
    if (on_lane(view, &plan))
        choice.plan = plan;
    return choice;
}

const Player PLAYER_RULES = {.name = "rules",
                             .sentence = "does what the rules ask for most, in the usual size",
                             .choose = choose_by_rules};

static Choice choose_as_advised(const View *view)
{
    player_ask(view);
    while (!advice_adjustments_done(view->advice))
        advice_step(view->advice);
    const Adjustment *best = &advice_result(view->advice)->adjustments[0];
    return (Choice){.plan = best->plan,
                    .kind = best->kind,
                    .pocket = best->pocket_after,
                    .strike = best->strike_after};
}

const Player PLAYER_ADVISOR = {.name = "advisor",
                               .sentence = "takes settee's first answer every time",
                               .choose = choose_as_advised};

/* The last shot on the lane of the next throw, or the `before`th one before it; NULL: none. */
static const Shot *last_here(const View *view, int before)
{
    for (int i = view->shot_count - 1; i >= 0; i--)
        if (view->shots[i].lane == view->lane && before-- == 0)
            return &view->shots[i];
    return NULL;
}

#define GUTTER_EYES 2.0 /* boards in after a gutter ball, where the size of the miss is unknown */

/* Moves the feet by half the miss and the eyes by a quarter, each to the nearest half board. The
 * miss is that of the middle of the hit's name, + high. Returns the adjustment. */
static AdjustmentKind move_by_the_miss(Hit hit, Plan *plan)
{
    double board = shot_hit_board(hit);
    if (hit == HIT_GUTTER) {
        plan->aim += GUTTER_EYES;
        return ADJUST_AIM_IN;
    }
    if (isnan(board)) /* not seen */
        return ADJUST_HOLD;
    double miss = board - LANE_POCKET_BEST, feet = lane_half_board(0.5 * miss);
    plan->stance += feet;
    plan->aim += lane_half_board(0.25 * miss);
    return feet > 0.0 ? ADJUST_MOVE_IN : feet < 0.0 ? ADJUST_MOVE_OUT : ADJUST_HOLD;
}

/* Moves after a good shot, on its own lane only. Common practice, no source. */
static Choice choose_by_the_miss(const View *view)
{
    Choice choice = stay(view);
    const Shot *last = last_here(view, 0);
    Plan plan = choice.plan;
    if (!last || !shot_good(last))
        return choice;
    AdjustmentKind kind = move_by_the_miss(last->hit, &plan);
    if (on_lane(view, &plan)) {
        choice.plan = plan;
        choice.kind = kind;
    }
    return choice;
}

const Player PLAYER_BY_THE_MISS = {
    .name = "by-the-miss",
    .sentence = "after a good shot moves the feet by half the miss and the eyes by a quarter",
    .choose = choose_by_the_miss};

static bool early_high(const Shot *s)
{
    return (s->hit == HIT_HIGH || s->hit == HIT_NOSE || s->hit == HIT_CROSSED) &&
           s->read == READ_EARLY;
}

static bool late_light(const Shot *s)
{
    return (s->hit == HIT_LIGHT || s->hit == HIT_THIN || s->hit == HIT_WIDE) &&
           (s->read == READ_LATE || s->read == READ_NONE);
}

/* Whether the last two shots here were good, with the current ball, and both fit. */
static bool twice_here(const View *view, bool (*such)(const Shot *))
{
    for (int k = 0; k < 2; k++) {
        const Shot *shot = last_here(view, k);
        if (!shot || !shot_good(shot) || shot->slot != view->plan[view->lane].slot || !such(shot))
            return false;
    }
    return true;
}

/* Moves by the miss, and changes the ball on the same line if that alone has not helped. Common
 * practice, no source. */
static Choice choose_as_a_coach(const View *view)
{
    Choice choice = stay(view);
    if (twice_here(view, early_high) && take_ball(view, 1, &choice.plan)) {
        choice.kind = ADJUST_BALL_DOWN;
        return choice;
    }
    if (twice_here(view, late_light) && take_ball(view, -1, &choice.plan)) {
        choice.kind = ADJUST_BALL_UP;
        return choice;
    }
    return choose_by_the_miss(view); /* which holds after a bad release */
}

const Player PLAYER_COACH = {
    .name = "coach",
    .sentence = "by the miss; a ball down after two early highs, a ball up after two late lights",
    .choose = choose_as_a_coach};

static Choice choose_knowing(const View *view, Truth *truth)
{
    KnownSearch search;
    known_begin(&search, truth, view->lane, view->game, &view->plan[view->lane]);
    while (!known_step(&search))
        ;
    return (Choice){.plan = search.best.plan,
                    .kind = ADJUST_HOLD,
                    .pocket = search.best.pocket,
                    .strike = search.best.strike};
}

const Player PLAYER_KNOWS = {.name = "knows-the-lane",
                             .sentence = "the best ball and line under the truth",
                             .know = choose_knowing};
