/* update_suppose.c - what if: the answers to a shot that was never thrown. The session is never
 * touched. */
#include <string.h>

#include "ui/input/update.h"

/* It is typed as any shot is, from where the plan stands, entered or not. */
void key_suppose(Model *model, Effects *effects, int argument, uint32_t key)
{
    Plan plan = model_plan(model);
    model->typing = (Typing){.shot = session_shot(model->lane, &plan),
                             .index = -1,
                             .field = FIELD_HIT,
                             .supposed = true,
                             .back = model->mode};
    model->mode = MODE_ENTRY;
}

void update_suppose(Model *model, Effects *effects)
{
    Session *session = model->session;
    Supposed *supposed = &model->supposed;
    Entry entry = {.kind = ENTRY_SHOT, .lane = model->typing.shot.lane, .shot = model->typing.shot};
    const char *why = session_refuses(session, &entry);
    if (why) {
        update_refuse(model, effects, why);
        return;
    }
    if (supposed->count == 0) {
        supposed->before = model->shown;
        memcpy(supposed->slot_before, model->slot, sizeof model->slot);
    }
    memcpy(supposed->shots, session->shots, (size_t)session->shot_count * sizeof *session->shots);
    supposed->shots[session->shot_count] = entry.shot;
    session_say_ball(session, &supposed->shots[session->shot_count]);
    supposed->count = session->shot_count + 1;
    model->typing = (Typing){.index = -1};
    model->mode = MODE_SUPPOSE;
    update_ask_advice(model, effects);
}

/* What was shown before comes back at once, and is asked for again: the engine works on one
 * question at a time. */
void key_suppose_end(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->shown = model->supposed.before;
    memcpy(model->slot, model->supposed.slot_before, sizeof model->slot);
    model->supposed.count = 0;
    model->mode = MODE_LANE;
    update_ask_advice(model, effects);
}
