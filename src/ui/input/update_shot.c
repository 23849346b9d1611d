/* update_shot.c - typing a shot: parts, leave, spare, and numbers asked for along the way. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/input/update.h"

/* Another leave discards what was entered for the spare. */
static void forget_spare(Typing *typing)
{
    typing->shot.spare_said = typing->shot.spare_foul = typing->spare_typed = false;
    typing->shot.spare_left = 0;
}

/* The leave, from the first key on, if no pin was typed: a strike after a hit near the pocket, all
 * ten after a gutter ball, else not seen. An edited shot keeps its leave until one is typed. */
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

static void begin_shot(Model *model, Effects *effects, Hit hit)
{
    Entry probe = {.kind = ENTRY_SHOT, .lane = model->lane};
    Plan plan = model_plan(model);
    probe.shot = session_shot(model->lane, &plan);
    probe.shot.hit = hit;
    const char *why = session_refuses(model->session, &probe);
    if (why) { /* say so now, not after four keys */
        char text[sizeof model->message] = "";
        text_append(text, sizeof text, "%s: the shot was not taken; Esc to go on", why);
        update_refuse(model, effects, text);
        return;
    }
    if (!update_enter_draft(model, effects))
        return;
    model->typing = (Typing){.shot = probe.shot, .index = -1, .field = FIELD_READ};
    model->mode = MODE_ENTRY;
    default_leave(&model->typing);
}

void key_hit(Model *model, Effects *effects, int hit, uint32_t key)
{
    if (model->mode != MODE_ENTRY) {
        begin_shot(model, effects, (Hit)hit);
        return;
    }
    model->typing.shot.hit = (Hit)hit;
    model->typing.field = FIELD_READ;
    default_leave(&model->typing);
}

void key_read(Model *model, Effects *effects, int read, uint32_t key)
{
    model->typing.shot.read = (Read)read;
    model->typing.field = FIELD_RELEASE;
}

void key_release(Model *model, Effects *effects, int release, uint32_t key)
{
    model->typing.shot.release = (Release)release;
    model->typing.field = FIELD_LEAVE;
}

void key_skip(Model *model, Effects *effects, int argument, uint32_t key) { model->typing.field++; }

static void leave_typing(Model *model)
{
    model->mode = model->typing.back;
    model->typing = (Typing){.index = -1};
}

void key_cancel(Model *model, Effects *effects, int argument, uint32_t key) { leave_typing(model); }

/* Takes the typed slot or number and returns to the shot. An impossible value stays to be
 * corrected, so that the digits that follow don't count as pins. */
static void end_figures(Model *model, Effects *effects)
{
    Typing *typing = &model->typing;
    const SeenRow *row = &SEEN_ROWS[typing->seen];
    if (typing->field == FIELD_SEEN && typing->figures[0]) {
        char *end;
        double value = strtod(typing->figures, &end);
        bool not_seen = value == 0.0 && end > typing->figures; /* not for a lone decimal point */
        if (!not_seen && !(value >= row->low && value <= row->high)) {
            update_refuse(model, effects, row->refusal);
            return;
        }
        *model_seen(&typing->shot, typing->seen) = value;
    }
    typing->field = typing->back_to;
}

void key_accept(Model *model, Effects *effects, int argument, uint32_t key)
{
    Typing *typing = &model->typing;
    if (typing->field == FIELD_SLOT || typing->field == FIELD_SEEN) {
        end_figures(model, effects);
        return;
    }
    if (typing->doubtful) {
        typing->doubtful = false;
        update_refuse(model, effects, "a key was refused: check the line, then Enter once more");
        return;
    }
    if (typing->supposed) {
        update_suppose(model, effects);
        return;
    }
    Entry entry = {.kind = typing->index < 0 ? ENTRY_SHOT : ENTRY_EDIT,
                   .lane = typing->shot.lane,
                   .index = typing->index < 0 ? 0 : typing->index,
                   .shot = typing->shot};
    if (update_enter(model, effects, &entry)) {
        update_say(model, ROLE_GOOD,
                   typing->index >= 0 ? "Shot changed"
                   : model->session->shot_second[model->session->shot_count - 1] &&
                           !typing->shot.spare_said
                       ? "Shot logged; S shows how to pick it up, u undoes it"
                       : "Shot logged; u undoes it");
        leave_typing(model);
    }
}

void key_back(Model *model, Effects *effects, int argument, uint32_t key)
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
    } else if (typing->field == FIELD_LEAVE && typing->shot.spare_said && typing->index < 0) {
        forget_spare(typing);
    } else {
        typing->field--;
    }
}

/* Enters the spare as made, or as missed with all pins still standing until some are typed. */
static bool say_spare(Model *model, Effects *effects, Shot *shot, bool made)
{
    if (!shot_leaves(shot)) {
        update_refuse(model, effects, "nothing was left to pick up");
        return false;
    }
    shot->spare_said = true;
    shot->spare_foul = false;
    shot->spare_left = made ? 0 : shot_standing(shot);
    return true;
}

void key_spare(Model *model, Effects *effects, int made, uint32_t key)
{
    Typing *typing = &model->typing;
    typing->spare_typed = typing->spare_typed && made;
    if (say_spare(model, effects, &typing->shot, made))
        typing->field = made ? FIELD_LEAVE : FIELD_SPARE;
}

void key_spare_pin(Model *model, Effects *effects, int argument, uint32_t key)
{
    Typing *typing = &model->typing;
    Pins pin = update_pin(key), stood = shot_standing(&typing->shot);
    if (key == '1' && !(stood & pin) && (stood & pin_bit(10)))
        return; /* of "10" */
    if (!(stood & pin)) {
        update_refuse(model, effects, "that pin was already down");
        return;
    }
    if (!typing->spare_typed)
        typing->shot.spare_left = 0;
    typing->spare_typed = true;
    typing->shot.spare_foul = false;
    update_toggle_pin(model, &typing->shot.spare_left, key);
    typing->shot.spare_left &= stood;
}

/* Of the first ball or, while what the spare ball left is typed, of that. */
void key_foul(Model *model, Effects *effects, int argument, uint32_t key)
{
    Typing *typing = &model->typing;
    Shot *shot = &typing->shot;
    if (typing->field == FIELD_SPARE) {
        shot->spare_foul = !shot->spare_foul;
        shot->spare_left = shot_standing(shot);
        typing->spare_typed = false;
        return;
    }
    forget_spare(typing);
    shot->foul = !shot->foul;
}

/* The spare of the last shot, entered after it was thrown. */
void update_last_spare(Model *model, Effects *effects, bool made)
{
    const Session *session = model->session;
    int last = session->shot_count - 1;
    if (last < 0 || !session->shot_second[last]) {
        update_refuse(model, effects, "the last shot left nothing to pick up");
        return;
    }
    Shot shot = session->shots[last];
    if (!update_enter_draft(model, effects) || !say_spare(model, effects, &shot, made))
        return;
    if (!made) {
        model->typing = (Typing){.shot = shot, .index = last, .field = FIELD_SPARE};
        model->mode = MODE_ENTRY;
        return;
    }
    Entry entry = {.kind = ENTRY_EDIT, .lane = shot.lane, .index = last, .shot = shot};
    if (update_enter(model, effects, &entry))
        update_say(model, ROLE_GOOD, "Spare made");
}

void key_pin(Model *model, Effects *effects, int argument, uint32_t key)
{
    Typing *typing = &model->typing;
    Shot *shot = &typing->shot;
    forget_spare(typing);
    if (!typing->pins_typed || !shot->left_said)
        shot->left = 0;
    typing->pins_typed = true;
    typing->field = FIELD_LEAVE;
    shot->left_said = true;
    update_toggle_pin(model, &shot->left, key);
    shot->ringing = false;
}

/* Enters a strike, or that the leave was not seen; as in "6-10" and "6,10" the key says nothing. */
void key_leave(Model *model, Effects *effects, int said, uint32_t key)
{
    Typing *typing = &model->typing;
    if (key == ',' || (key == '-' && typing->pins_typed && typing->shot.left))
        return;
    forget_spare(typing);
    typing->pins_typed = true;
    typing->shot.left_said = said;
    typing->shot.left = 0;
    typing->shot.ringing = false;
}

void key_ringing(Model *model, Effects *effects, int argument, uint32_t key)
{
    Shot *shot = &model->typing.shot;
    if (shot->left == pin_bit(7) || shot->left == pin_bit(10))
        shot->ringing = !shot->ringing;
    else
        update_refuse(model, effects, "only a corner pin that stands alone can be ringing");
}

void key_shot_feet(Model *model, Effects *effects, int argument, uint32_t key)
{
    Shot *shot = &model->typing.shot;
    shot->stance = update_bounded(shot->stance + update_step(model, key), STANCE_MIN, STANCE_MAX);
}

void key_shot_aim(Model *model, Effects *effects, int argument, uint32_t key)
{
    Shot *shot = &model->typing.shot;
    shot->aim = update_bounded(shot->aim + update_step(model, key), AIM_MIN, AIM_MAX);
}

void key_shot_lane(Model *model, Effects *effects, int argument, uint32_t key)
{
    Shot *shot = &model->typing.shot;
    shot->lane = shot->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
}

static void ask_figures(Typing *typing, Field field, Seen seen)
{
    typing->back_to = typing->field;
    typing->field = field;
    typing->seen = seen;
    typing->figures[0] = '\0';
}

void key_ask_slot(Model *model, Effects *effects, int argument, uint32_t key)
{
    ask_figures(&model->typing, FIELD_SLOT, SEEN_SPEED);
}

void key_ask_seen(Model *model, Effects *effects, int seen, uint32_t key)
{
    ask_figures(&model->typing, FIELD_SEEN, (Seen)seen);
}

void key_figure(Model *model, Effects *effects, int argument, uint32_t key)
{
    Typing *typing = &model->typing;
    size_t n = strlen(typing->figures);
    if (typing->field == FIELD_SLOT) {
        if (key < '1' || key > '6' || !bag_slot(&model->session->bag, (int)(key - '0'))) {
            update_refuse(model, effects, "no ball in that slot");
            return;
        }
        typing->shot.slot = (int)(key - '0');
        typing->field = typing->back_to;
    } else if (n < 4 && !(key == '.' && strchr(typing->figures, '.'))) {
        typing->figures[n] = (char)key;
        typing->figures[n + 1] = '\0';
    }
}
