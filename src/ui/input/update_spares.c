/* update_spares.c - the spares view: pins, ball, and what to throw at them. */
#include "ui/input/update.h"

/* The spares view opens on what the last shot left, as long as its spare was not said. */
static void open_spares(Model *model)
{
    const Session *session = model->session;
    int last = session->shot_count - 1;
    if (last >= 0 && session->shot_second[last] && !session->shots[last].spare_said)
        model->spare_pins = session->shots[last].left;
    model->mode = MODE_SPARES;
    model->spare_slot = 0;
    model->spare_stale = true;
}

/* "Made" and "missed" are of the last shot: only when its pins are the ones looked at. */
static void spares_said(Model *model, Effects *effects, bool made)
{
    const Session *session = model->session;
    int last = session->shot_count - 1;
    if (last < 0 || !session->shot_second[last] || session->shots[last].left != model->spare_pins) {
        refuse(model, effects, "these pins are not what the last shot left");
        return;
    }
    model->mode = MODE_LANE;
    last_spare(model, effects, made);
}

bool do_spares(Model *model, Effects *effects, CommandId id, uint32_t key)
{
    switch (id) {
    case CMD_SPARES:
        if (enter_draft(model, effects))
            open_spares(model);
        return true;
    case CMD_SPARES_PIN:
        model->spare_pins ^= pin_bit(key == '0' ? 10 : (int)(key - '0'));
        model->spare_stale = true;
        return true;
    case CMD_SPARES_CLEAR:
        model->spare_pins = 0;
        return true;
    case CMD_SPARES_BALL:
        do {
            model->spare_slot = (model->spare_slot + 1) % (BAG_SLOTS + 1);
        } while (model->spare_slot && !bag_slot(&model->session->bag, model->spare_slot));
        model->spare_stale = true;
        return true;
    case CMD_SPARES_MADE:
    case CMD_SPARES_MISSED:
        spares_said(model, effects, id == CMD_SPARES_MADE);
        return true;
    case CMD_SPARES_CLOSE:
        model->mode = MODE_LANE;
        return true;
    default:
        return false;
    }
}

void bring_spare(Model *model)
{
    const Session *session = model->session;
    Plan plan = model_plan(model);
    SpareInput input = {.bag = &session->bag,
                        .film = &model->shown.film,
                        .left = model->spare_pins,
                        .slot = plan.slot,
                        .stance = plan.stance,
                        .aim = plan.aim};
    if (model->spare_slot)
        input.ball = bag_slot(&session->bag, model->spare_slot);
    model->spare_stale = false;
    if (model->spare_pins)
        spare_find(&input, &model->spare);
    const SpareLine *line = model_spare_line(model);
    if (!line)
        return;
    MotionBody body;
    motion_body(line->ball, &body);
    motion_roll(&body, input.film, &line->delivery, &model->spare_path);
}
