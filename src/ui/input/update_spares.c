/* update_spares.c - the spares view: pins, ball, and what to throw at them. */
#include "ui/input/update.h"

/* The spares view opens on what the last shot left, unless its spare is already entered; then it
 * opens without pins. */
void key_spares(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!update_enter_draft(model, effects))
        return;
    const Session *session = model->session;
    int last = session->shot_count - 1;
    bool waits = last >= 0 && session->shot_second[last] && !session->shots[last].spare_said;
    model->spare_pins = waits ? shot_standing(&session->shots[last]) : 0;
    model->mode = MODE_SPARES;
    model->spare_slot = 0;
    update_ask_spare(model);
}

/* "Made" and "missed" belong to the last shot, so its pins must be the ones shown. */
void key_spares_said(Model *model, Effects *effects, int made, uint32_t key)
{
    const Session *session = model->session;
    int last = session->shot_count - 1;
    if (last < 0 || !session->shot_second[last] ||
        shot_standing(&session->shots[last]) != model->spare_pins) {
        update_refuse(model, effects, "the last shot left other pins");
        return;
    }
    model->mode = MODE_LANE;
    update_last_spare(model, effects, made);
}

void key_spares_pin(Model *model, Effects *effects, int argument, uint32_t key)
{
    update_toggle_pin(model, &model->spare_pins, key);
    update_ask_spare(model);
}

void key_spares_clear(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->spare_pins = 0;
}

/* The bag's balls in turn, then the best again. */
void key_spares_ball(Model *model, Effects *effects, int argument, uint32_t key)
{
    do {
        model->spare_slot = (model->spare_slot + 1) % (BAG_SLOTS + 1);
    } while (model->spare_slot && !bag_slot(&model->session->bag, model->spare_slot));
    update_ask_spare(model);
}
