/* update.c - the one place where the model changes. Shots being typed, plans and spares have files
 * of their own (update_*.c). */
#include "ui/input/update.h"

#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "ui/view.h"

void say(Model *model, Role role, const char *text)
{
    text_copy(model->message, sizeof model->message, text);
    model->message_role = role;
}

void refuse(Model *model, Effects *effects, const char *why)
{
    say(model, ROLE_WARN, why);
    effects->bell = true;
}

void reckon(Model *model, Effects *effects)
{
    effects->advise = true;
    model->thinking = true;
    model->paths_stale = true;
}

double bounded(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

/* Enters one change. The session may refuse it: then its reason is shown. */
bool enter(Model *model, Effects *effects, const Entry *entry)
{
    const char *why = session_refuses(model->session, entry);
    if (why || !session_apply(model->session, entry)) {
        refuse(model, effects, why ? why : "not taken");
        return false;
    }
    effects->keep = true;
    if (entry->kind != ENTRY_PLAN && entry->kind != ENTRY_EDIT && entry->kind != ENTRY_APART)
        model->lane = model->session->lane;
    reckon(model, effects);
    return true;
}

/* A plan that stands already is no news for the log. */
bool enter_plan(Model *model, Effects *effects, Plan plan)
{
    const Session *session = model->session;
    if (plan_same(&plan, &session->plan[model->lane]) &&
        (session->apart || plan_same(&plan, &session->plan[!model->lane]))) {
        reckon(model, effects);
        return true;
    }
    return enter(model, effects, &(Entry){.kind = ENTRY_PLAN, .lane = model->lane, .plan = plan});
}

/* Moves of feet and aim become one entry when the bowler goes on to something else. */
bool enter_draft(Model *model, Effects *effects)
{
    if (!model->draft_on)
        return true;
    model->draft_on = false;
    return enter_plan(model, effects, model->draft);
}

/* +1 toward the bowler's other side (a higher board) for a step to the left of the screen. */
double left_is(const Model *model)
{
    return model->session->bag.bowler.hand == HAND_RIGHT ? 1.0 : -1.0;
}

void ask(Model *model, Question question)
{
    model->mode_before = model->mode;
    model->mode = MODE_ASK;
    model->question = question;
}

static bool do_event(Model *model, Effects *effects, CommandId id)
{
    Session *session = model->session;
    switch (id) {
    case CMD_UNDO:
        if (model->draft_on) { /* moves that were not entered yet */
            model->draft_on = false;
            reckon(model, effects);
            say(model, ROLE_PLAIN, "Moves taken back");
        } else if (enter(model, effects, &(Entry){.kind = ENTRY_UNDO})) {
            say(model, ROLE_PLAIN, "Taken back; U gives it back");
        }
        return true;
    case CMD_REDO:
        model->draft_on = false;
        if (enter(model, effects, &(Entry){.kind = ENTRY_REDO}))
            say(model, ROLE_PLAIN, "Given back");
        return true;
    case CMD_EDIT:
        if (session->shot_count == 0) {
            refuse(model, effects, "no shots yet");
        } else if (enter_draft(model, effects)) {
            model->pick = session->shot_count - 1;
            model->mode = MODE_PICK;
        }
        return true;
    case CMD_LAST_MADE:
    case CMD_LAST_MISSED:
        last_spare(model, effects, id == CMD_LAST_MADE);
        return true;
    case CMD_LANE:
        if (enter_draft(model, effects)) {
            char text[80] = "";
            model->lane = model->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
            text_append(text, sizeof text, "Lane %d: a shot logged now was thrown on it",
                        session->event.pair[model->lane]);
            say(model, ROLE_PLAIN, text);
            reckon(model, effects);
        }
        return true;
    case CMD_APART:
        if (enter_draft(model, effects) &&
            enter(model, effects,
                  &(Entry){.kind = ENTRY_APART, .lane = model->lane, .apart = !session->apart}))
            say(model, ROLE_PLAIN,
                session->apart ? "The two lanes now keep plans of their own"
                               : "The two lanes share one plan again");
        return true;
    case CMD_NEXT_GAME: {
        const char *why = session_refuses(session, &(Entry){.kind = ENTRY_GAME});
        if (why)
            refuse(model, effects, why);
        else if (enter_draft(model, effects))
            ask(model, ASK_NEXT_GAME);
        return true;
    }
    default:
        return false;
    }
}

static void answer_question(Model *model, Effects *effects, bool yes)
{
    model->mode = model->mode_before;
    if (!yes)
        return;
    if (model->question == ASK_NEXT_GAME) {
        enter(model, effects, &(Entry){.kind = ENTRY_GAME});
        return;
    }
    if (model->question == ASK_REMOVE_BALL) {
        remove_ball(model, effects);
        return;
    }
    effects->quit = true;
}

static void choose_in_hand(Model *model)
{
    const Bag *bag = &model->session->bag;
    const Ball *hand = bag_slot(bag, model_plan(model).slot);
    if (hand)
        model->ball = (int)(hand - bag->balls);
}

/* The bag's and the block's screens; what they show is reckoned when first looked at. */
static bool do_look(Model *model, Effects *effects, CommandId id)
{
    switch (id) {
    case CMD_BAG:
        model->mode = MODE_BAG;
        choose_in_hand(model);
        if (!model->arsenal || model->arsenal_surfaces != model_surfaces_free(model)) {
            model->arsenal_surfaces = model_surfaces_free(model);
            effects->arsenal = true;
        }
        return true;
    case CMD_BLOCK:
        model->mode = MODE_BLOCK;
        model->block_game = model->session->game - 1;
        effects->block = !model->block;
        return true;
    case CMD_BAG_PAGE:
        model->bag_page = (model->bag_page + 1) % screen_bag_pages(model);
        return true;
    case CMD_GAME_SOONER:
        model->block_game -= model->block_game > 0;
        return true;
    case CMD_GAME_LATER:
        model->block_game += model->block_game < model->session->event.games - 1;
        return true;
    case CMD_LOOK_LEAVE:
        model->mode = MODE_LANE;
        return true;
    default:
        return false;
    }
}

static void do_screen(Model *model, Effects *effects, CommandId id)
{
    int page = model->rows - 4 > 1 ? model->rows - 4 : 1;
    switch (id) {
    case CMD_PICK_OLDER:
        model->pick -= model->pick > 0;
        break;
    case CMD_PICK_NEWER:
        model->pick += model->pick < model->session->shot_count - 1;
        break;
    case CMD_PICK_TAKE:
        begin_edit(model);
        break;
    case CMD_PICK_LEAVE:
        model->mode = MODE_LANE;
        break;
    case CMD_YES:
    case CMD_NO:
        answer_question(model, effects, id == CMD_YES);
        break;
    case CMD_HELP:
        model->help_top = screen_help_top(model->columns, model_where(model));
        model->mode_before = model->mode;
        model->mode = MODE_HELP;
        break;
    case CMD_HELP_CLOSE:
        model->mode = model->mode_before;
        break;
    case CMD_HELP_UP:
        model->help_top -= 1;
        break;
    case CMD_HELP_DOWN:
        model->help_top += 1;
        break;
    case CMD_HELP_BACK:
        model->help_top -= page;
        break;
    case CMD_HELP_ON:
        model->help_top += page;
        break;
    case CMD_THEME:
        if (model->theme_count > 0)
            model->theme = (model->theme + 1) % model->theme_count;
        effects->theme = true;
        break;
    case CMD_REDRAW:
        effects->redraw = true;
        break;
    case CMD_QUIT:
        if (model->mode == MODE_ENTRY)
            ask(model, ASK_QUIT_TYPING);
        else if (model->unsaved || model->bag_unsaved)
            ask(model, ASK_QUIT_UNSAVED);
        else if (enter_draft(model, effects))
            effects->quit = true;
        break;
    default:
        break;
    }
    int last = screen_help_lines(model->columns) - screen_help_room(model->rows);
    if (model->help_top > last)
        model->help_top = last;
    if (model->help_top < 0)
        model->help_top = 0;
}

static void press(Model *model, Effects *effects, uint32_t key)
{
    model->message[0] = '\0';
    effects->draw = true;
    CommandId id = command_find(model_where(model), key);
    if (id == CMD_NOTHING)
        return;
    if (!do_shot(model, effects, id, key) && !do_plan(model, effects, id, key) &&
        !do_event(model, effects, id) && !do_spares(model, effects, id, key) &&
        !do_look(model, effects, id) && !do_bag(model, effects, id, key))
        do_screen(model, effects, id);
}

/* Paths by the film as estimated; by the sheet as long as nothing is known. Good enough until the
 * engine sends its own. */
static void bring_paths(Model *model)
{
    const Session *session = model->session;
    const Bowler *bowler = &session->bag.bowler;
    Oil *oil = &model->shown.film;
    if (!(oil->length_ft > 0.0)) {
        Oil sheet;
        oil_lay(&session->pattern, &sheet);
        oil_for_hand(&sheet, bowler->hand, oil);
    }
    const Adjustment *adjustment = model_adjustment(model, 0);
    Plan plans[2] = {model_plan(model), adjustment ? adjustment->plan : model_plan(model)};
    Roll *rolls[2] = {&model->path, &model->path2};
    bool *on[2] = {&model->path_on, &model->path2_on};
    for (int i = 0; i < 2; i++) {
        const Ball *ball = bag_slot(&session->bag, plans[i].slot);
        *on[i] = ball && (i == 0 || adjustment);
        if (!*on[i])
            continue;
        MotionBody body;
        motion_body(ball, &body);
        Delivery delivery = plan_delivery(bowler, &plans[i]);
        delivery.mph += model->shown.lane.mph.mean;
        motion_roll(&body, oil, &delivery, rolls[i]);
    }
    model->paths_stale = false;
}

static void take_advice(Model *model, const Advice *advice, const Roll *first_roll)
{
    if (advice->done) {
        model->shown = *advice;
        model->advised = true;
        model->thinking = false;
        model->paths_stale = !first_roll;
        model->spare_stale = true;
        if (first_roll) {
            model->path = advice->now_roll;
            model->path2 = *first_roll;
            model->path_on = model->path2_on = true;
        }
        return;
    }
    /* Slots fill in as they come; answers change once, when all is reckoned: no flicker. */
    for (int i = 0; i < BAG_SLOTS; i++)
        if (advice->slot[i].ready)
            model->shown.slot[i] = advice->slot[i];
}

Effects update(Model *model, Msg msg)
{
    Effects effects = {0};
    switch (msg.kind) {
    case MSG_KEY:
        press(model, &effects, msg.key);
        break;
    case MSG_SIZE:
        model->columns = msg.columns;
        model->rows = msg.rows;
        effects.draw = true;
        break;
    case MSG_ADVICE:
        take_advice(model, msg.advice, msg.first_roll);
        effects.draw = true;
        break;
    case MSG_PATHS:
        if (model->paths_stale) {
            bring_paths(model);
            effects.draw = true;
        }
        if (model->spare_stale && model->mode == MODE_SPARES) {
            bring_spare(model);
            effects.draw = true;
        }
        break;
    case MSG_ARSENAL:
        model->arsenal = msg.arsenal;
        effects.draw = model_at_bag(model);
        break;
    case MSG_BLOCK:
        model->block = msg.block;
        effects.draw = model->mode == MODE_BLOCK;
        break;
    case MSG_KEPT:
        effects.draw = model->unsaved == msg.ok;
        model->unsaved = !msg.ok;
        text_clean(model->unsaved_text, sizeof model->unsaved_text, msg.ok ? "" : msg.text);
        break;
    case MSG_SAVED:
        effects.draw = true;
        model->bag_unsaved = !msg.ok;
        text_clean(model->bag_saved, sizeof model->bag_saved, msg.text);
        break;
    case MSG_NOTICE:
        text_clean(model->message, sizeof model->message, msg.text);
        model->message_role = ROLE_WARN;
        effects.draw = true;
        break;
    }
    return effects;
}
