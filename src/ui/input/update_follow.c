/* update_follow.c - an event that another program goes on with: what is shown follows it. */
#include "ui/input/update.h"

/* Moves that were only tried here are dropped: the next shot is somewhere else. */
void update_follow(Model *model, Effects *effects, const Session *now)
{
    Session *session = model->session;
    bool at_end = update_log_at_end(model);
    bool other_bag = !bag_same(&session->bag, &now->bag);
    *session = *now;
    model->lane = session->lane;
    model->draft_on = false;
    if (at_end)
        update_log_to_end(model);
    if (!other_bag) {
        update_ask_advice(model, effects);
        return;
    }
    update_bag_changed(model, effects);
    if (model->mode == MODE_BLOCK)
        update_ask_block(model, effects);
}
