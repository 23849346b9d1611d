/* update_bag.c - editing the bag: balls and their fields, slots and locker, undo and redo. */
#include <string.h>

#include "base/text.h"
#include "ui/form/ball_form.h"
#include "ui/form/kinds.h"
#include "ui/input/update.h"

_Static_assert(sizeof((Form *)0)->typed >= sizeof((Ball *)0)->name, "a name can be typed");

static Ball *chosen(const Model *model) { return &model->session->bag.balls[model->ball]; }

/* Everything that depends on the bag is asked for again. What names a slot is not even shown as
 * outdated: another ball may be in it. */
void update_bag_changed(Model *model, Effects *effects)
{
    Session *session = model->session;
    model->shown.done = false;
    memset(model->slot, 0, sizeof model->slot);
    update_ask_arsenal(model, effects);
    model->asked.block = model->revision; /* computed when it is shown */
    update_ask_spare(model);
    model->spare_slot = 0;
    session_fill_plan(session, &model->draft);
    if (model->ball >= session->bag.count)
        model->ball = session->bag.count - 1;
    update_ask_advice(model, effects);
}

static bool edit_bag(Model *model, Effects *effects, const BagEdit *edit)
{
    Error why = {0};
    if (!update_may_write(model, effects))
        return false;
    if (!session_bag_edit(model->session, edit, &why)) {
        update_refuse(model, effects, why.text);
        return false;
    }
    effects->save_bag = true;
    update_bag_changed(model, effects);
    return true;
}

static void open_form(Model *model, int row)
{
    model->mode = MODE_BALL;
    model->form = form_begin(&BALL_FORM, row);
}

/* ---- the list ---- */

/* The list is on the first page, where changes to a ball are visible. */
static void show_list(Model *model) { model->bag_page = 0; }

void key_ball(Model *model, Effects *effects, int argument, uint32_t key)
{
    int order[BAG_BALLS_MAX], count = model_bag_order(model, order), at = 0;
    for (int i = 0; i < count; i++)
        if (order[i] == model->ball)
            at = i;
    at += key == PRESS_UP ? -1 : 1;
    model->ball = order[at < 0 ? 0 : at >= count ? count - 1 : at];
    if (!model_compact(model)) /* there every page follows the ball */
        show_list(model);
}

void key_ball_open(Model *model, Effects *effects, int argument, uint32_t key)
{
    open_form(model, BALL_NAME + 1);
    show_list(model);
}

void key_ball_slot(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Bag *bag = &model->session->bag;
    int before = chosen(model)->slot, slot = key == 'x' ? 0 : (int)(key - '0');
    show_list(model);
    if (before == slot) {
        update_refuse(model, effects,
                      slot ? "that ball is already in that slot"
                           : "that ball is already in the locker");
        return;
    }
    const Ball *other = bag_slot(bag, slot);
    char text[sizeof model->message] = "", there[32] = "", in_hand[sizeof other->id] = "";
    const Ball *hand = bag_slot(bag, model_plan(model).slot);
    text_copy(in_hand, sizeof in_hand, hand ? hand->id : "");
    if (!edit_bag(model, effects, &(BagEdit){.kind = BAG_PLACE, .at = model->ball, .slot = slot}))
        return;
    text_append(there, sizeof there, before ? "slot %d" : "the locker", before);
    if (slot)
        text_append(text, sizeof text, "%s: slot %d", chosen(model)->name, slot);
    else
        text_append(text, sizeof text, "%s: the locker", chosen(model)->name);
    if (other)
        text_append(text, sizeof text, ". %s: %s", other->name, there);
    hand = bag_slot(bag, model_plan(model).slot);
    if (hand && strcmp(hand->id, in_hand) != 0)
        text_append(text, sizeof text, ". Now throwing: %d %s", hand->slot, hand->name);
    update_say(model, ROLE_GOOD, text);
}

/* What to add is chosen first. */
void key_ball_add(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Bag *bag = &model->session->bag;
    BagEdit edit = {.kind = BAG_ADD, .ball = bag_copy_of(bag, chosen(model))};
    Error why = {0};
    show_list(model);
    if (!update_may_write(model, effects))
        return;
    if (!session_bag_allows(model->session, &edit, &why)) {
        update_refuse(model, effects, why.text);
        return;
    }
    model->kind = 0;
    model->mode = MODE_KINDS;
}

void key_kind(Model *model, Effects *effects, int argument, uint32_t key)
{
    int kind = model->kind + (key == PRESS_UP ? -1 : 1);
    if (kind >= 0 && kind <= kinds_count())
        model->kind = kind;
}

void key_kind_back(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_BAG;
}

void key_kind_add(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Bag *bag = &model->session->bag;
    bool copy = model->kind == 0;
    BagEdit edit = {.kind = BAG_ADD,
                    .ball =
                        copy ? bag_copy_of(bag, chosen(model)) : kinds_ball(bag, model->kind - 1)};
    model->mode = MODE_BAG;
    if (!edit_bag(model, effects, &edit))
        return;
    model->ball = model->session->bag.count - 1;
    open_form(model, BALL_NAME);
    update_say(model, ROLE_GOOD,
               copy ? "Copied to the locker: now give it a name"
                    : "In the locker, with usual numbers: now give it a name");
}

void key_ball_remove(Model *model, Effects *effects, int argument, uint32_t key)
{
    show_list(model);
    Error why = {0};
    BagEdit edit = {.kind = BAG_REMOVE, .at = model->ball};
    if (!session_bag_allows(model->session, &edit, &why))
        update_refuse(model, effects, why.text);
    else
        update_prompt(model, PROMPT_REMOVE_BALL);
}

void update_remove_ball(Model *model, Effects *effects)
{
    char text[sizeof model->message] = "";
    text_append(text, sizeof text, "%s is out of the bag; u brings it back", chosen(model)->name);
    if (edit_bag(model, effects, &(BagEdit){.kind = BAG_REMOVE, .at = model->ball}))
        update_say(model, ROLE_GOOD, text);
}

/* Undoes or redoes an edit and shows its ball. */
static void go_back_or_forth(Model *model, Effects *effects, bool back)
{
    show_list(model);
    Session *session = model->session;
    const BagLog *log = &session->bag_log;
    int at = back ? log->standing - 1 : log->standing;
    Error why = {0};
    if (form_drop(&model->form)) {
        update_say(model, ROLE_PLAIN, "What you typed is dropped");
        return;
    }
    if (!update_may_write(model, effects))
        return;
    if (!(back ? session_bag_undo(session, &why) : session_bag_redo(session, &why))) {
        update_refuse(model, effects, why.text);
        return;
    }
    const BagEdit *edit = &log->edits[at];
    bool alone = edit->kind == BAG_CHANGE || edit->kind == BAG_PLACE;
    model->ball = edit->kind == BAG_ADD ? session->bag.count - 1 : edit->at;
    if (!alone)
        model->mode = MODE_BAG;
    effects->save_bag = true;
    update_bag_changed(model, effects);
    char text[sizeof model->message] = "";
    bool gone = edit->kind == (back ? BAG_ADD : BAG_REMOVE);
    text_append(text, sizeof text, "%s: %s", gone ? "The ball" : chosen(model)->name,
                gone   ? back ? "out of the bag again; U brings it back" : "out of the bag again"
                : back ? "undone; U brings it back"
                       : "redone");
    update_say(model, ROLE_PLAIN, text);
}

void key_bag_undo(Model *model, Effects *effects, int argument, uint32_t key)
{
    go_back_or_forth(model, effects, true);
}

void key_bag_redo(Model *model, Effects *effects, int argument, uint32_t key)
{
    go_back_or_forth(model, effects, false);
}

/* ---- the fields of a ball ---- */

/* Takes what was typed for the field; true also if nothing was. */
static bool take_typed(Model *model, Effects *effects)
{
    BagEdit edit = {.kind = BAG_CHANGE, .at = model->ball, .ball = *chosen(model)};
    char before[64], after[64], text[sizeof model->message] = "";
    Error why = {0};
    Form taken = model->form; /* the session may refuse what the form takes */
    const FormRow *row = &BALL_FORM.rows[taken.row];
    BALL_FORM.show(&edit.ball, taken.row, before, sizeof before);
    if (!form_take(&taken, &edit.ball, &why)) {
        update_refuse(model, effects, why.text);
        return false;
    }
    BALL_FORM.show(&edit.ball, taken.row, after, sizeof after);
    bool changed = strcmp(before, after) != 0;
    if (changed && !edit_bag(model, effects, &edit))
        return false;
    model->form = taken;
    if (changed) {
        text_append(text, sizeof text, "%s %s%s%s; u undoes it", row->name, after,
                    row->unit[0] ? " " : "", row->unit);
        update_say(model, ROLE_GOOD, text);
    }
    return true;
}

static void go_to_row(Model *model, Effects *effects, int step)
{
    if (take_typed(model, effects))
        form_go(&model->form, step);
}

void key_form_row(Model *model, Effects *effects, int argument, uint32_t key)
{
    go_to_row(model, effects, key == PRESS_UP ? -1 : 1);
}

void key_form_take(Model *model, Effects *effects, int argument, uint32_t key)
{
    go_to_row(model, effects, 1);
}

void key_form_word(Model *model, Effects *effects, int argument, uint32_t key)
{
    form_word(&model->form, chosen(model), key == PRESS_LEFT ? -1 : 1);
}

void key_form_type(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!form_type(&model->form, chosen(model), key))
        update_refuse(model, effects, "there is no room for another letter");
}

void key_form_back(Model *model, Effects *effects, int argument, uint32_t key)
{
    form_back(&model->form, chosen(model));
}

void key_form_drop(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!form_drop(&model->form))
        model->mode = MODE_BAG;
}
