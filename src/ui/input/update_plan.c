/* update_plan.c - what to throw next: ball, line, speed, loft, rotation; and the answers taken. */
#include <math.h>

#include "base/text.h"
#include "ui/draw/rolling.h"
#include "ui/input/update.h"

#define MPH_CHANGE_MAX 2.0
#define LOFT_CHANGE_MIN (-3.0)
#define LOFT_CHANGE_MAX 5.0

/* Moves the plan by `by`, whose slot is ignored. */
static void move_plan(Model *model, Effects *effects, Plan by)
{
    Plan plan = model_plan(model);
    plan.stance = update_bounded(plan.stance + by.stance, STANCE_MIN, STANCE_MAX);
    plan.aim = update_bounded(plan.aim + by.aim, AIM_MIN, AIM_MAX);
    plan.mph_change =
        update_bounded(plan.mph_change + by.mph_change, -MPH_CHANGE_MAX, MPH_CHANGE_MAX);
    plan.loft_change_ft =
        update_bounded(plan.loft_change_ft + by.loft_change_ft, LOFT_CHANGE_MIN, LOFT_CHANGE_MAX);
    plan.rotation_change_deg += by.rotation_change_deg;
    model->draft = plan;
    model->draft_on = true;
    Caution caution = by.mph_change > 0             ? CAUTION_SPEED
                      : by.loft_change_ft > 0       ? CAUTION_LOFT
                      : by.rotation_change_deg != 0 ? CAUTION_HAND
                                                    : CAUTION_NONE;
    if (caution)
        update_say(model, ROLE_WARN, CAUTION_WORDS[caution]);
    update_ask_advice(model, effects);
}

void key_feet(Model *model, Effects *effects, int halves, uint32_t key)
{
    move_plan(model, effects, (Plan){.stance = 0.5 * halves * update_step(model, key)});
}

void key_aim(Model *model, Effects *effects, int halves, uint32_t key)
{
    move_plan(model, effects, (Plan){.aim = 0.5 * halves * update_step(model, key)});
}

void key_speed(Model *model, Effects *effects, int argument, uint32_t key)
{
    move_plan(model, effects, (Plan){.mph_change = key == '+' ? 0.5 : -0.5});
}

void key_loft(Model *model, Effects *effects, int argument, uint32_t key)
{
    move_plan(model, effects, (Plan){.loft_change_ft = key == 'k' ? 1.0 : -1.0});
}

/* As far as the bag says the bowler can. */
void key_rotation(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Bowler *bowler = &model->session->bag.bowler;
    if (!bowler_turns(bowler)) {
        update_refuse(model, effects,
                      "the bag has no rotation_range_deg: how little and how much you can turn it");
        return;
    }
    double now = bowler->rotation_deg + model_plan(model).rotation_change_deg;
    double then = update_bounded(now + (key == ')' ? 5.0 : -5.0), bowler->rotation_least_deg,
                                 bowler->rotation_most_deg);
    move_plan(model, effects, (Plan){.rotation_change_deg = then - now});
}

void key_take(Model *model, Effects *effects, int index, uint32_t key)
{
    const Adjustment *adjustment = model_adjustment(model, index);
    if (model_hides(model)) {
        update_refuse(model, effects, "the answers are hidden: h shows them first");
        return;
    }
    if (!adjustment || !model_advice_current(model)) {
        update_refuse(model, effects, adjustment ? "still calculating" : "there is no such answer");
        return;
    }
    Plan plan = adjustment->plan;
    double grit = adjustment->surface_grit;
    if (!update_enter_plan(model, effects, plan))
        return;
    char text[160] = "";
    if (grit > 0)
        text_append(text, sizeof text, "First put %.0f grit on ball %d", grit, plan.slot);
    else
        text_append(text, sizeof text, "Next on lane %d: ball %d, feet %g, aim %g",
                    model->session->pair[model->lane], plan.slot, round(plan.stance * 2) / 2,
                    round(plan.aim * 2) / 2);
    update_say(model, ROLE_GOOD, text);
}

void key_slot(Model *model, Effects *effects, int argument, uint32_t key)
{
    Plan plan = model_plan(model);
    int slot = (int)(key - '0');
    if (plan.slot == slot)
        return;
    plan.slot = slot;
    long asked = model->asked.slots;
    if (!update_enter_plan(model, effects, plan))
        return;
    model->asked.slots = asked; /* a ball's own line doesn't depend on the current ball */
    update_say(model, ROLE_PLAIN,
               model_hides(model) ? "Same line" : "Same line; = plays this ball's best line");
}

void key_own_line(Model *model, Effects *effects, int argument, uint32_t key)
{
    Plan plan = model_plan(model);
    const SlotNow *now = &model->slot[plan.slot - 1].now;
    if (model_hides(model)) {
        update_refuse(model, effects, "that is an answer: h shows them first");
        return;
    }
    bool ready = now->ready && model_slot_current(model, plan.slot);
    if (!ready || !now->line.found) {
        update_refuse(model, effects,
                      ready ? "this ball has no line to the pocket now" : "still calculating");
        return;
    }
    plan.stance = update_bounded(round(now->line.stance * 2) / 2, STANCE_MIN, STANCE_MAX);
    plan.aim = update_bounded(round(now->line.aim * 2) / 2, AIM_MIN, AIM_MAX);
    update_enter_plan(model, effects, plan);
}

void key_roll(Model *model, Effects *effects, int argument, uint32_t key)
{
    char text[128] = "";
    if (!model->path_on || model_compact(model)) {
        update_refuse(model, effects,
                      model->path_on ? "the lane shows from 80 columns by 24 rows on"
                                     : "still calculating");
        return;
    }
    if (!model->still) {
        model->mode = MODE_ROLL;
        model->roll_s = 0.0;
        return;
    }
    text_append(text, sizeof text, "%.1f s to the pins; motion is off%s",
                rolling_seconds(&model->path), model->still_fixed ? "" : ", M turns it on");
    update_say(model, ROLE_PLAIN, text);
}
