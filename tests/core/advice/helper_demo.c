/* helper_demo.c - the demo, made ready. */
#include "helper_demo.h"

#include "near.h"

#include <stdlib.h>

#include "store/files.h"

Bag BAG;
Pattern PATTERN;
RuleSet RULES;
Oil SHEET;
MotionBody BODY[BAG_SLOTS];
BatchBall BATCH[BAG_SLOTS];
Line BEST[BAG_SLOTS];
SlotTrait TRAITS[BAG_SLOTS];

int demo_set_up(void **state)
{
    (void)state;
    Error error = {0};
    if (!files_bag("demo", &BAG, &error) || !files_pattern("apron", &PATTERN, &error) ||
        !files_rules("coach", &RULES, &error))
        return -1;
    oil_lay(&PATTERN, &SHEET);
    for (int i = 0; i < BAG_SLOTS; i++) {
        motion_body(bag_slot(&BAG, i + 1), &BODY[i]);
        batch_ball(&BODY[i], &BATCH[i]);
        Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
        BEST[i] = line_search(&BODY[i], &SHEET, &BAG.bowler, &usual, 21.0, 0.0);
    }
    return 0;
}

Shot shot_on(Side lane, int slot, Hit hit, Read read, Release release)
{
    return (Shot){.lane = lane,
                  .slot = slot,
                  .stance = BEST[slot - 1].stance,
                  .aim = BEST[slot - 1].aim,
                  .hit = hit,
                  .read = read,
                  .release = release};
}

Belief *begin(uint64_t seed)
{
    Belief *belief = malloc(sizeof *belief);
    assert_non_null(belief);
    belief_begin(belief, &SHEET, seed);
    return belief;
}

void see(Belief *belief, const Shot *shot)
{
    belief_see(belief, &BAG.bowler, bag_slot(&BAG, shot->slot), &BODY[shot->slot - 1],
               &BATCH[shot->slot - 1], shot, 1);
}

Estimate volume(const Belief *belief, Side lane)
{
    return belief_part(belief, PART_VOLUME + (int)lane);
}

double expected_board(const Belief *belief, Side lane, int slot)
{
    Forecast *forecast = malloc(sizeof *forecast);
    assert_non_null(forecast);
    forecast_prepare(forecast, belief, lane, &BAG.bowler);
    Delivery meant = delivery_of(&BAG.bowler, BEST[slot - 1].stance, BEST[slot - 1].aim);
    int which = belief_ball(belief, bag_slot(&BAG, slot)->id);
    double board = forecast_delivery(forecast, which, &BATCH[slot - 1], &meant).board;
    free(forecast);
    return board;
}

Setting setting_of(const Bag *bag, int slot)
{
    for (int i = 0; i < BAG_SLOTS; i++)
        TRAITS[i] = (SlotTrait){.strikes = i < 5, .strength = 20.0 - i, .hook_ft = 20.0 + 3.0 * i};
    return (Setting){.bag = bag,
                     .bowler = &bag->bowler,
                     .plan = {.slot = slot, .stance = 26.0, .aim = 14.5},
                     .traits = TRAITS,
                     .least_move = 1};
}

Asked *ask(void)
{
    Asked *asked = calloc(1, sizeof *asked);
    assert_non_null(asked);
    asked->bag = BAG;
    asked->rules = RULES;
    asked->in = (AdviceInput){.bag = &asked->bag,
                              .pattern = &PATTERN,
                              .rules = &asked->rules,
                              .shots = asked->shots,
                              .plan = {.slot = 1, .stance = 26.0, .aim = 14.5},
                              .game = 2,
                              .frame = 4,
                              .bowlers_on_pair = 2,
                              .certified = true};
    return asked;
}

void say(Asked *asked, Side lane, Hit hit, Read read, Release release)
{
    assert_true(asked->in.shot_count < ASKED_SHOTS_MAX);
    Shot *shot = &asked->shots[asked->in.shot_count++];
    *shot = session_shot(lane, &asked->in.plan);
    shot->hit = hit;
    shot->read = read;
    shot->release = release;
}

AdviceJob *answer(const AdviceInput *input)
{
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    advice_begin(job, input);
    while (!advice_step(job))
        ;
    return job;
}
