/* update_shot.c - shots being typed: parts, leave, spare, the figures asked for inside one. */
#include <stdlib.h>
#include <string.h>

#include "ui/input/update.h"

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

void begin_edit(Model *model)
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

/* Where slot or what was seen were asked for in the middle of a shot: takes what was typed. */
static void end_figures(Model *model, Effects *effects)
{
    Typing *typing = &model->typing;
    const SeenRow *row = &SEEN_ROWS[typing->seen];
    if (typing->field == FIELD_SEEN && typing->figures[0]) {
        char *end;
        double value = strtod(typing->figures, &end);
        bool not_seen = value == 0.0 && end > typing->figures; /* a point alone says nothing */
        if (not_seen || (value >= row->low && value <= row->high))
            *seen_of(&typing->shot, typing->seen) = value;
        else
            refuse(model, effects, row->refusal);
    }
    typing->field = typing->back_to;
}

static void accept_shot(Model *model, Effects *effects)
{
    Typing *typing = &model->typing;
    if (typing->field == FIELD_SLOT || typing->field == FIELD_SEEN) {
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
    if (typing->field == FIELD_SEEN && figures > 0)
        typing->figures[figures - 1] = '\0';
    else if (typing->field == FIELD_SEEN || typing->field == FIELD_SLOT)
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
void last_spare(Model *model, Effects *effects, bool made)
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

static void ask_figures(Typing *typing, Field field, Seen seen)
{
    typing->back_to = typing->field;
    typing->field = field;
    typing->seen = seen;
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

bool do_shot(Model *model, Effects *effects, CommandId id, uint32_t key)
{
    Typing *typing = &model->typing;
    Shot *shot = &typing->shot;
    double left = left_is(model);
    if (id >= CMD_HIT_GUTTER && id <= CMD_HIT_CROSSED) {
        Hit hit = (Hit)(HIT_GUTTER + (int)(id - CMD_HIT_GUTTER));
        if (model->mode != MODE_ENTRY) {
            begin_shot(model, effects, hit);
        } else {
            shot->hit = hit;
            go_to(typing, FIELD_READ);
        }
        return true;
    }
    if (id >= CMD_READ_EARLY && id <= CMD_READ_NONE) {
        shot->read = (Read)(READ_EARLY + (int)(id - CMD_READ_EARLY));
        go_to(typing, FIELD_RELEASE);
        return true;
    }
    if (id >= CMD_RELEASE_GOOD && id <= CMD_RELEASE_OFF) {
        shot->release = (Release)(RELEASE_GOOD + (int)(id - CMD_RELEASE_GOOD));
        go_to(typing, FIELD_LEAVE);
        return true;
    }
    switch (id) {
    case CMD_PIN:
        type_pin(typing, key);
        return true;
    case CMD_STRIKE:
        type_leave(typing, true);
        return true;
    case CMD_UNSEEN:
        type_leave(typing, false);
        return true;
    case CMD_RINGING:
        if (shot->left == pin_bit(7) || shot->left == pin_bit(10))
            shot->ringing = !shot->ringing;
        else
            refuse(model, effects, "ringing is said of a corner pin that stands alone");
        return true;
    case CMD_SPARE_MADE:
        if (say_spare(model, effects, shot, true))
            typing->field = FIELD_LEAVE;
        return true;
    case CMD_SPARE_MISSED:
        typing->spare_typed = false;
        if (say_spare(model, effects, shot, false))
            typing->field = FIELD_SPARE;
        return true;
    case CMD_SPARE_PIN:
        type_spare_pin(model, effects, key);
        return true;
    case CMD_ACCEPT:
        accept_shot(model, effects);
        return true;
    case CMD_SKIP:
        go_to(typing, typing->field + 1);
        return true;
    case CMD_BACK:
        back_one(model);
        return true;
    case CMD_CANCEL:
        leave_typing(model);
        return true;
    case CMD_SHOT_STANCE:
        shot->stance += key == PRESS_LEFT ? left : -left;
        shot->stance = bounded(shot->stance, STANCE_MIN, STANCE_MAX);
        return true;
    case CMD_SHOT_AIM:
        shot->aim = bounded(shot->aim + (key == '[' ? left : -left), AIM_MIN, AIM_MAX);
        return true;
    case CMD_SHOT_BALL:
        ask_figures(typing, FIELD_SLOT, SEEN_SPEED);
        return true;
    case CMD_SHOT_SPEED:
    case CMD_SHOT_ARROWS:
    case CMD_SHOT_BREAKPOINT:
        ask_figures(typing, FIELD_SEEN, (Seen)(SEEN_SPEED + (int)(id - CMD_SHOT_SPEED)));
        return true;
    case CMD_SHOT_LANE:
        shot->lane = shot->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
        return true;
    case CMD_FIGURE:
        type_figure(model, effects, key);
        return true;
    default:
        return false;
    }
}
