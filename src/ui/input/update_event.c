/* update_event.c - the event as a whole: undo and redo, lanes, games, choosing a shot to edit, and
 * yes-or-no questions. */
#include "base/text.h"
#include "ui/input/update.h"

void key_undo(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (model->draft_on) { /* moves not yet entered */
        model->draft_on = false;
        update_ask_advice(model, effects);
        update_say(model, ROLE_PLAIN, "Moves undone");
    } else if (update_enter(model, effects, &(Entry){.kind = ENTRY_UNDO})) {
        update_say(model, ROLE_PLAIN, "Undone; U brings it back");
    }
}

void key_redo(Model *model, Effects *effects, int argument, uint32_t key)
{
    bool moved = model->draft_on;
    if (!update_enter(model, effects, &(Entry){.kind = ENTRY_REDO}))
        return;
    model->draft_on = false;
    update_say(model, ROLE_PLAIN, moved ? "Redone; the moves are dropped" : "Redone");
}

void key_last_spare(Model *model, Effects *effects, int made, uint32_t key)
{
    update_last_spare(model, effects, made);
}

void key_lane(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!update_enter_draft(model, effects))
        return;
    char text[80] = "";
    model->lane = model->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    text_append(text, sizeof text, "Lane %d: shots you log now go on this lane",
                model->session->pair[model->lane]);
    update_say(model, ROLE_PLAIN, text);
    update_ask_advice(model, effects);
}

void key_both(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Session *session = model->session;
    if (!update_enter_draft(model, effects))
        return;
    if (plan_same(&session->plan[SIDE_LEFT], &session->plan[SIDE_RIGHT]))
        update_say(model, ROLE_PLAIN, "Both lanes have this plan already");
    else if (update_enter(model, effects, &(Entry){.kind = ENTRY_APART, .lane = model->lane}))
        update_say(model, ROLE_PLAIN, "Both lanes now have this plan; u undoes it");
}

void key_next_game(Model *model, Effects *effects, int argument, uint32_t key)
{
    const char *why = session_refuses(model->session, &(Entry){.kind = ENTRY_GAME});
    if (why)
        update_refuse(model, effects, why);
    else if (update_enter_draft(model, effects))
        update_prompt(model, PROMPT_NEXT_GAME);
}

void key_quit(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (model->mode == MODE_ENTRY && !model->typing.supposed)
        update_prompt(model, PROMPT_QUIT_TYPING);
    else if (model->unsaved || model->bag_unsaved)
        update_prompt(model, PROMPT_QUIT_UNSAVED);
    else if (update_enter_draft(model, effects))
        effects->quit = true;
}

void key_again(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (event_is_demo(&model->session->event))
        update_prompt(model, PROMPT_AGAIN);
    else
        update_refuse(model, effects, "only the demo can begin again; an event keeps its log");
}

void key_answer(Model *model, Effects *effects, int yes, uint32_t key)
{
    model->mode = model->mode_before;
    if (!yes)
        return;
    switch (model->prompt) {
    case PROMPT_NEXT_GAME:
        update_enter(model, effects, &(Entry){.kind = ENTRY_GAME});
        break;
    case PROMPT_AGAIN:
        effects->quit = effects->again = true;
        break;
    case PROMPT_REMOVE_BALL:
        update_remove_ball(model, effects);
        break;
    case PROMPT_CLOSED_GAME:
        update_change(model, effects);
        break;
    case PROMPT_QUIT_TYPING:
    case PROMPT_QUIT_UNSAVED:
        effects->quit = true;
        break;
    }
}

/* ---- choosing an earlier shot ---- */

void key_edit(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (model->session->shot_count == 0) {
        update_refuse(model, effects, "there is no shot to edit yet");
    } else if (update_enter_draft(model, effects)) {
        model->pick = model->session->shot_count - 1;
        model->mode = MODE_PICK;
    }
}

void key_pick(Model *model, Effects *effects, int step, uint32_t key)
{
    int pick = model->pick + step;
    if (pick >= 0 && pick < model->session->shot_count)
        model->pick = pick;
}

/* Any key that works ends the state after a refusal; this one does nothing else. */
void key_go_on(Model *model, Effects *effects, int argument, uint32_t key) {}

/* From any screen without fields of its own. */
void key_to_lane(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_LANE;
}
