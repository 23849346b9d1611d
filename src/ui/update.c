/* update.c - the one place where the model changes. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/model.h"
#include "ui/view.h"

/* Where the steps of a key stop: past these no one can stand or aim. */
#define STANCE_MIN 1.0
#define STANCE_MAX 50.0
#define AIM_MIN 1.0
#define AIM_MAX 39.0
#define MPH_CHANGE_MAX 2.0
#define LOFT_CHANGE_MIN (-3.0)
#define LOFT_CHANGE_MAX 5.0
#define MPH_SEEN_MIN 5.0
#define MPH_SEEN_MAX 35.0

static void say(Model *model, Role role, const char *text)
{
    text_copy(model->message, sizeof model->message, text);
    model->message_role = role;
}

static void refuse(Model *model, Effects *effects, const char *why)
{
    say(model, ROLE_WARN, why);
    effects->bell = true;
}

static void reckon(Model *model, Effects *effects)
{
    effects->advise = true;
    model->thinking = true;
    model->paths_stale = true;
}

static double bounded(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

/* Enters one change. The session may refuse it: then its reason is shown. */
static bool enter(Model *model, Effects *effects, const Entry *entry)
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
static bool enter_plan(Model *model, Effects *effects, Plan plan)
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
static bool enter_draft(Model *model, Effects *effects)
{
    if (!model->draft_on)
        return true;
    model->draft_on = false;
    return enter_plan(model, effects, model->draft);
}

/* +1 toward the bowler's other side (a higher board) for a step to the left of the screen. */
static double left_is(const Model *model)
{
    return model->session->bag.bowler.hand == HAND_RIGHT ? 1.0 : -1.0;
}

/* Moves the plan by what `by` holds; its slot is not looked at. */
static void move_plan(Model *model, Effects *effects, Plan by)
{
    Plan plan = model_plan(model);
    plan.stance = bounded(plan.stance + by.stance, STANCE_MIN, STANCE_MAX);
    plan.aim = bounded(plan.aim + by.aim, AIM_MIN, AIM_MAX);
    plan.mph_change = bounded(plan.mph_change + by.mph_change, -MPH_CHANGE_MAX, MPH_CHANGE_MAX);
    plan.loft_change_ft =
        bounded(plan.loft_change_ft + by.loft_change_ft, LOFT_CHANGE_MIN, LOFT_CHANGE_MAX);
    plan.rotation_change_deg += by.rotation_change_deg;
    model->draft = plan;
    model->draft_on = true;
    Caution caution = by.mph_change > 0             ? CAUTION_SPEED
                      : by.loft_change_ft > 0       ? CAUTION_LOFT
                      : by.rotation_change_deg != 0 ? CAUTION_HAND
                                                    : CAUTION_NONE;
    if (caution)
        say(model, ROLE_WARN, CAUTION_WORDS[caution]);
    reckon(model, effects);
}

/* As far as the bag's bowler says that they can. */
static void turn_plan(Model *model, Effects *effects, double degrees)
{
    const Bowler *bowler = &model->session->bag.bowler;
    if (!bowler_turns(bowler)) {
        refuse(model, effects, "the bag does not say rotation_range_deg, what you can release at");
        return;
    }
    double now = bowler->rotation_deg + model_plan(model).rotation_change_deg;
    double then = bounded(now + degrees, bowler->rotation_least_deg, bowler->rotation_most_deg);
    move_plan(model, effects, (Plan){.rotation_change_deg = then - now});
}

static void take_answer(Model *model, Effects *effects, int index)
{
    const Answer *answer = model_answer(model, index);
    if (!answer || model->thinking) {
        refuse(model, effects, answer ? "still reckoning" : "no such answer yet");
        return;
    }
    Plan plan = answer->plan;
    double grit = answer->surface_grit;
    model->draft_on = false;
    if (!enter_plan(model, effects, plan))
        return;
    char text[160] = "";
    if (grit > 0)
        text_append(text, sizeof text, "First put %.0f grit on ball %d", grit, plan.slot);
    else
        text_append(text, sizeof text, "Next on lane %d: ball %d, feet %g, aim %g",
                    model->session->event.pair[model->lane], plan.slot, round(plan.stance * 2) / 2,
                    round(plan.aim * 2) / 2);
    say(model, ROLE_GOOD, text);
}

static void take_slot(Model *model, Effects *effects, int slot)
{
    Plan plan = model_plan(model);
    if (plan.slot == slot)
        return;
    plan.slot = slot;
    bool drafted = model->draft_on;
    model->draft_on = false;
    if (!enter_plan(model, effects, plan)) {
        model->draft_on = drafted;
        return;
    }
    say(model, ROLE_PLAIN, "Same line; = plays the line that suits this ball");
}

static void take_own_line(Model *model, Effects *effects)
{
    Plan plan = model_plan(model);
    const SlotNow *now = &model->shown.slot[plan.slot - 1];
    if (!now->ready || !now->line.found) {
        refuse(model, effects,
               now->ready ? "this ball has no line to the pocket now" : "still reckoning");
        return;
    }
    plan.stance = bounded(round(now->line.stance * 2) / 2, STANCE_MIN, STANCE_MAX);
    plan.aim = bounded(round(now->line.aim * 2) / 2, AIM_MIN, AIM_MAX);
    model->draft_on = false;
    enter_plan(model, effects, plan);
}

/* Shots being typed. */

/* Another leave ends what was said of the spare. */
static void forget_spare(Typing *typing)
{
    typing->shot.spare_said = typing->spare_typed = false;
    typing->shot.spare_left = 0;
}

/* What stands when no pin was typed: a strike after a hit near the pocket, all ten after a gutter
 * ball, else it was not seen. A shot that is said anew keeps its leave until one is typed. */
static void default_leave(Typing *typing)
{
    if (typing->pins_typed || typing->index >= 0)
        return;
    Hit hit = typing->shot.hit;
    typing->shot.left_said =
        hit == HIT_GUTTER || hit == HIT_LIGHT || hit == HIT_FLUSH || hit == HIT_HIGH;
    typing->shot.left = hit == HIT_GUTTER ? PINS_ALL : 0;
    forget_spare(typing);
    typing->shot.ringing = false;
}

static void go_to(Typing *typing, Field field)
{
    typing->field = field;
    if (field == FIELD_LEAVE)
        default_leave(typing);
}

static void begin_shot(Model *model, Effects *effects, Hit hit)
{
    if (!enter_draft(model, effects))
        return;
    Entry probe = {.kind = ENTRY_SHOT, .lane = model->lane};
    Plan plan = model_plan(model);
    probe.shot = session_shot(model->lane, &plan);
    probe.shot.hit = hit;
    const char *why = session_refuses(model->session, &probe);
    if (why) { /* better told now than after four keys */
        refuse(model, effects, why);
        return;
    }
    model->typing = (Typing){.shot = probe.shot, .index = -1};
    model->mode = MODE_ENTRY;
    go_to(&model->typing, FIELD_READ);
}

static void begin_edit(Model *model)
{
    const Shot *shot = &model->session->shots[model->pick];
    model->typing = (Typing){.shot = *shot, .index = model->pick};
    model->mode = MODE_ENTRY;
    go_to(&model->typing, FIELD_HIT);
}

static void leave_typing(Model *model)
{
    model->mode = MODE_LANE;
    model->typing = (Typing){.index = -1};
}

/* Where slot or speed were asked for in the middle of a shot: takes what was typed. */
static void end_figures(Model *model, Effects *effects)
{
    Typing *typing = &model->typing;
    if (typing->field == FIELD_SPEED && typing->figures[0]) {
        double mph = strtod(typing->figures, NULL);
        if (mph >= MPH_SEEN_MIN && mph <= MPH_SEEN_MAX)
            typing->shot.mph = mph;
        else
            refuse(model, effects, "a speed is 5 to 35 mph");
    }
    typing->field = typing->back_to;
}

static void accept_shot(Model *model, Effects *effects)
{
    Typing *typing = &model->typing;
    if (typing->field == FIELD_SLOT || typing->field == FIELD_SPEED) {
        end_figures(model, effects);
        return;
    }
    Entry entry = {.kind = typing->index < 0 ? ENTRY_SHOT : ENTRY_EDIT,
                   .lane = typing->shot.lane,
                   .index = typing->index < 0 ? 0 : typing->index,
                   .shot = typing->shot};
    if (enter(model, effects, &entry)) {
        say(model, ROLE_GOOD,
            typing->index >= 0 ? "Shot changed"
            : model->session->shot_second[model->session->shot_count - 1] &&
                    !typing->shot.spare_said
                ? "Shot kept; S how to pick it up, u takes it back"
                : "Shot kept; u takes it back");
        leave_typing(model);
    }
}

static void back_one(Model *model)
{
    Typing *typing = &model->typing;
    size_t figures = strlen(typing->figures);
    if (typing->field == FIELD_SPEED && figures > 0)
        typing->figures[figures - 1] = '\0';
    else if (typing->field == FIELD_SPEED || typing->field == FIELD_SLOT)
        typing->field = typing->back_to;
    else if (typing->field == FIELD_LEAVE && typing->pins_typed && typing->index < 0) {
        typing->pins_typed = false;
        default_leave(typing);
    } else if (typing->field == FIELD_SPARE) {
        forget_spare(typing);
        typing->field = FIELD_LEAVE;
    } else if (typing->field == FIELD_HIT) {
        leave_typing(model);
    } else {
        if (typing->field == FIELD_LEAVE && !typing->pins_typed && typing->index < 0) {
            forget_spare(typing);
            typing->shot.left_said = false; /* Enter from an earlier part says nothing of it */
            typing->shot.left = 0;
        }
        go_to(typing, typing->field - 1);
    }
}

static int pin_of(uint32_t key) { return key == '0' ? 10 : (int)(key - '0'); }

/* Says the spare made, or missed with all of it still standing until pins are typed. */
static bool say_spare(Model *model, Effects *effects, Shot *shot, bool made)
{
    if (!shot->left_said || shot->left == 0) {
        refuse(model, effects, "nothing was left to spare");
        return false;
    }
    shot->spare_said = true;
    shot->spare_left = made ? 0 : shot->left;
    return true;
}

static void type_spare_pin(Model *model, Effects *effects, uint32_t key)
{
    Typing *typing = &model->typing;
    Pins pin = pin_bit(pin_of(key));
    if (!(typing->shot.left & pin)) {
        refuse(model, effects, "that pin was down already");
        return;
    }
    if (!typing->spare_typed)
        typing->shot.spare_left = 0;
    typing->spare_typed = true;
    typing->shot.spare_left ^= pin;
}

/* The spare of the last shot, said when it has been thrown. */
static void last_spare(Model *model, Effects *effects, bool made)
{
    const Session *session = model->session;
    int last = session->shot_count - 1;
    if (last < 0 || !session->shot_second[last]) {
        refuse(model, effects, "the last shot left nothing to spare");
        return;
    }
    Shot shot = session->shots[last];
    if (!enter_draft(model, effects) || !say_spare(model, effects, &shot, made))
        return;
    if (!made) {
        model->typing = (Typing){.shot = shot, .index = last, .field = FIELD_SPARE};
        model->mode = MODE_ENTRY;
        return;
    }
    Entry entry = {.kind = ENTRY_EDIT, .lane = shot.lane, .index = last, .shot = shot};
    if (enter(model, effects, &entry))
        say(model, ROLE_GOOD, "Spare made");
}

static void type_pin(Typing *typing, uint32_t key)
{
    Shot *shot = &typing->shot;
    forget_spare(typing);
    if (!typing->pins_typed || !shot->left_said)
        shot->left = 0;
    typing->pins_typed = true;
    shot->left_said = true;
    shot->left ^= pin_bit(pin_of(key));
    shot->ringing = false;
}

static void type_leave(Typing *typing, bool said)
{
    forget_spare(typing);
    typing->pins_typed = true;
    typing->shot.left_said = said;
    typing->shot.left = 0;
    typing->shot.ringing = false;
}

static void ask_figures(Typing *typing, Field field)
{
    typing->back_to = typing->field;
    typing->field = field;
    typing->figures[0] = '\0';
}

static void type_figure(Model *model, Effects *effects, uint32_t key)
{
    Typing *typing = &model->typing;
    size_t n = strlen(typing->figures);
    if (typing->field == FIELD_SLOT) {
        if (key < '1' || key > '6' || !bag_slot(&model->session->bag, (int)(key - '0'))) {
            refuse(model, effects, "no ball in that slot");
            return;
        }
        typing->shot.slot = (int)(key - '0');
        typing->field = typing->back_to;
    } else if (n < 4 && !(key == '.' && strchr(typing->figures, '.'))) {
        typing->figures[n] = (char)key;
        typing->figures[n + 1] = '\0';
    }
}

/* Actions by the state they belong to. Each returns false when the action is not of its kind. */

static bool do_shot(Model *model, Effects *effects, DoId id, uint32_t key)
{
    Typing *typing = &model->typing;
    Shot *shot = &typing->shot;
    double left = left_is(model);
    if (id >= DO_HIT_GUTTER && id <= DO_HIT_CROSSED) {
        Hit hit = (Hit)(HIT_GUTTER + (int)(id - DO_HIT_GUTTER));
        if (model->mode != MODE_ENTRY) {
            begin_shot(model, effects, hit);
        } else {
            shot->hit = hit;
            go_to(typing, FIELD_READ);
        }
        return true;
    }
    if (id >= DO_READ_EARLY && id <= DO_READ_NONE) {
        shot->read = (Read)(READ_EARLY + (int)(id - DO_READ_EARLY));
        go_to(typing, FIELD_RELEASE);
        return true;
    }
    if (id >= DO_RELEASE_GOOD && id <= DO_RELEASE_OFF) {
        shot->release = (Release)(RELEASE_GOOD + (int)(id - DO_RELEASE_GOOD));
        go_to(typing, FIELD_LEAVE);
        return true;
    }
    switch (id) {
    case DO_PIN:
        type_pin(typing, key);
        return true;
    case DO_STRIKE:
        type_leave(typing, true);
        return true;
    case DO_UNSEEN:
        type_leave(typing, false);
        return true;
    case DO_RINGING:
        if (shot->left == pin_bit(7) || shot->left == pin_bit(10))
            shot->ringing = !shot->ringing;
        else
            refuse(model, effects, "ringing is said of a corner pin that stands alone");
        return true;
    case DO_SPARE_MADE:
        if (say_spare(model, effects, shot, true))
            typing->field = FIELD_LEAVE;
        return true;
    case DO_SPARE_MISSED:
        typing->spare_typed = false;
        if (say_spare(model, effects, shot, false))
            typing->field = FIELD_SPARE;
        return true;
    case DO_SPARE_PIN:
        type_spare_pin(model, effects, key);
        return true;
    case DO_ACCEPT:
        accept_shot(model, effects);
        return true;
    case DO_SKIP:
        go_to(typing, typing->field + 1);
        return true;
    case DO_BACK:
        back_one(model);
        return true;
    case DO_CANCEL:
        leave_typing(model);
        return true;
    case DO_SHOT_STANCE:
        shot->stance += key == PRESS_LEFT ? left : -left;
        shot->stance = bounded(shot->stance, STANCE_MIN, STANCE_MAX);
        return true;
    case DO_SHOT_AIM:
        shot->aim = bounded(shot->aim + (key == '[' ? left : -left), AIM_MIN, AIM_MAX);
        return true;
    case DO_SHOT_BALL:
        ask_figures(typing, FIELD_SLOT);
        return true;
    case DO_SHOT_SPEED:
        ask_figures(typing, FIELD_SPEED);
        return true;
    case DO_SHOT_LANE:
        shot->lane = shot->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
        return true;
    case DO_FIGURE:
        type_figure(model, effects, key);
        return true;
    default:
        return false;
    }
}

static bool do_plan(Model *model, Effects *effects, DoId id, uint32_t key)
{
    double left = left_is(model);
    switch (id) {
    case DO_TAKE_1:
    case DO_TAKE_2:
    case DO_TAKE_3:
        take_answer(model, effects, (int)(id - DO_TAKE_1));
        return true;
    case DO_SLOT:
        take_slot(model, effects, (int)(key - '0'));
        return true;
    case DO_OWN_LINE:
        take_own_line(model, effects);
        return true;
    case DO_STANCE:
        move_plan(model, effects, (Plan){.stance = key == PRESS_LEFT ? left : -left});
        return true;
    case DO_STANCE_HALF:
        move_plan(model, effects, (Plan){.stance = 0.5 * (key == '<' ? left : -left)});
        return true;
    case DO_AIM:
        move_plan(model, effects, (Plan){.aim = key == '[' ? left : -left});
        return true;
    case DO_AIM_SHIFT:
        move_plan(model, effects, (Plan){.aim = key == PRESS_SHIFT_LEFT ? left : -left});
        return true;
    case DO_AIM_HALF:
        move_plan(model, effects, (Plan){.aim = 0.5 * (key == '{' ? left : -left)});
        return true;
    case DO_SPEED:
        move_plan(model, effects, (Plan){.mph_change = key == '+' ? 0.5 : -0.5});
        return true;
    case DO_LOFT:
        move_plan(model, effects, (Plan){.loft_change_ft = key == 'k' ? 1.0 : -1.0});
        return true;
    case DO_ROTATION:
        turn_plan(model, effects, key == ')' ? 5.0 : -5.0);
        return true;
    default:
        return false;
    }
}

static void ask(Model *model, Question question)
{
    model->mode_before = model->mode;
    model->mode = MODE_ASK;
    model->question = question;
}

static bool do_event(Model *model, Effects *effects, DoId id)
{
    Session *session = model->session;
    switch (id) {
    case DO_UNDO:
        if (model->draft_on) { /* moves that were not entered yet */
            model->draft_on = false;
            reckon(model, effects);
            say(model, ROLE_PLAIN, "Moves taken back");
        } else if (enter(model, effects, &(Entry){.kind = ENTRY_UNDO})) {
            say(model, ROLE_PLAIN, "Taken back; U gives it back");
        }
        return true;
    case DO_REDO:
        model->draft_on = false;
        if (enter(model, effects, &(Entry){.kind = ENTRY_REDO}))
            say(model, ROLE_PLAIN, "Given back");
        return true;
    case DO_EDIT:
        if (session->shot_count == 0) {
            refuse(model, effects, "no shots yet");
        } else if (enter_draft(model, effects)) {
            model->pick = session->shot_count - 1;
            model->mode = MODE_PICK;
        }
        return true;
    case DO_LAST_MADE:
    case DO_LAST_MISSED:
        last_spare(model, effects, id == DO_LAST_MADE);
        return true;
    case DO_LANE:
        if (enter_draft(model, effects)) {
            char text[80] = "";
            model->lane = model->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
            text_append(text, sizeof text, "Lane %d: a shot logged now was thrown on it",
                        session->event.pair[model->lane]);
            say(model, ROLE_PLAIN, text);
            reckon(model, effects);
        }
        return true;
    case DO_APART:
        if (enter_draft(model, effects) &&
            enter(model, effects,
                  &(Entry){.kind = ENTRY_APART, .lane = model->lane, .apart = !session->apart}))
            say(model, ROLE_PLAIN,
                session->apart ? "The two lanes now keep plans of their own"
                               : "The two lanes share one plan again");
        return true;
    case DO_NEXT_GAME: {
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
    effects->quit = true;
}

/* The bag's and the block's screens; what they show is reckoned when first looked at. */
static bool do_look(Model *model, Effects *effects, DoId id)
{
    switch (id) {
    case DO_BAG:
        model->mode = MODE_BAG;
        if (!model->audit || model->audit_surfaces != model_surfaces_free(model)) {
            model->audit_surfaces = model_surfaces_free(model);
            effects->audit = true;
        }
        return true;
    case DO_BLOCK:
        model->mode = MODE_BLOCK;
        model->block_game = model->session->game - 1;
        effects->block = !model->block;
        return true;
    case DO_BAG_PAGE:
        model->bag_page = (model->bag_page + 1) % screen_bag_pages(model);
        return true;
    case DO_GAME_SOONER:
        model->block_game -= model->block_game > 0;
        return true;
    case DO_GAME_LATER:
        model->block_game += model->block_game < model->session->event.games - 1;
        return true;
    case DO_LOOK_LEAVE:
        model->mode = MODE_LANE;
        return true;
    default:
        return false;
    }
}

static void do_screen(Model *model, Effects *effects, DoId id)
{
    int page = model->rows - 4 > 1 ? model->rows - 4 : 1;
    switch (id) {
    case DO_PICK_OLDER:
        model->pick -= model->pick > 0;
        break;
    case DO_PICK_NEWER:
        model->pick += model->pick < model->session->shot_count - 1;
        break;
    case DO_PICK_TAKE:
        begin_edit(model);
        break;
    case DO_PICK_LEAVE:
        model->mode = MODE_LANE;
        break;
    case DO_YES:
    case DO_NO:
        answer_question(model, effects, id == DO_YES);
        break;
    case DO_HELP:
        model->help_top = screen_help_top(model->columns, model_where(model));
        model->mode_before = model->mode;
        model->mode = MODE_HELP;
        break;
    case DO_HELP_CLOSE:
        model->mode = model->mode_before;
        break;
    case DO_HELP_UP:
        model->help_top -= 1;
        break;
    case DO_HELP_DOWN:
        model->help_top += 1;
        break;
    case DO_HELP_BACK:
        model->help_top -= page;
        break;
    case DO_HELP_ON:
        model->help_top += page;
        break;
    case DO_THEME:
        if (model->theme_count > 0)
            model->theme = (model->theme + 1) % model->theme_count;
        effects->theme = true;
        break;
    case DO_REDRAW:
        effects->redraw = true;
        break;
    case DO_QUIT:
        if (model->mode == MODE_ENTRY)
            ask(model, ASK_QUIT_TYPING);
        else if (model->unsaved)
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

static bool do_spares(Model *model, Effects *effects, DoId id, uint32_t key)
{
    switch (id) {
    case DO_SPARES:
        if (enter_draft(model, effects))
            open_spares(model);
        return true;
    case DO_SPARES_PIN:
        model->spare_pins ^= pin_bit(key == '0' ? 10 : (int)(key - '0'));
        model->spare_stale = true;
        return true;
    case DO_SPARES_CLEAR:
        model->spare_pins = 0;
        return true;
    case DO_SPARES_BALL:
        do {
            model->spare_slot = (model->spare_slot + 1) % (BAG_SLOTS + 1);
        } while (model->spare_slot && !bag_slot(&model->session->bag, model->spare_slot));
        model->spare_stale = true;
        return true;
    case DO_SPARES_MADE:
    case DO_SPARES_MISSED:
        spares_said(model, effects, id == DO_SPARES_MADE);
        return true;
    case DO_SPARES_CLOSE:
        model->mode = MODE_LANE;
        return true;
    default:
        return false;
    }
}

static void bring_spare(Model *model)
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

static void press(Model *model, Effects *effects, uint32_t key)
{
    model->message[0] = '\0';
    effects->draw = true;
    DoId id = actions_find(model_where(model), key);
    if (id == DO_NOTHING)
        return;
    if (!do_shot(model, effects, id, key) && !do_plan(model, effects, id, key) &&
        !do_event(model, effects, id) && !do_spares(model, effects, id, key) &&
        !do_look(model, effects, id))
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
    const Answer *answer = model_answer(model, 0);
    Plan plans[2] = {model_plan(model), answer ? answer->plan : model_plan(model)};
    Roll *rolls[2] = {&model->path, &model->path2};
    bool *on[2] = {&model->path_on, &model->path2_on};
    for (int i = 0; i < 2; i++) {
        const Ball *ball = bag_slot(&session->bag, plans[i].slot);
        *on[i] = ball && (i == 0 || answer);
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
    case MSG_AUDIT:
        model->audit = msg.audit;
        effects.draw = model->mode == MODE_BAG;
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
    case MSG_NOTICE:
        text_clean(model->message, sizeof model->message, msg.text);
        model->message_role = ROLE_WARN;
        effects.draw = true;
        break;
    }
    return effects;
}
