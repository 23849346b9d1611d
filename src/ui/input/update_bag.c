/* update_bag.c - editing the bag: balls and their fields, slots and locker, undo and redo. */
#include <string.h>

#include "base/text.h"
#include "ui/input/ball_form.h"
#include "ui/input/update.h"

_Static_assert(sizeof((Model *)0)->typed >= sizeof((Ball *)0)->name, "a name can be typed");

static Ball *chosen(const Model *model) { return &model->session->bag.balls[model->ball]; }

static void drop_typed(Model *model)
{
    model->typed_on = false;
    model->typed[0] = '\0';
}

/* All that rests on the bag is stale: what shows it is reckoned anew. */
static void bag_changed(Model *model, Effects *effects)
{
    Session *session = model->session;
    effects->save_bag = true;
    effects->arsenal = true;
    model->arsenal = NULL; /* its balls are counted as they lay before */
    model->arsenal_surfaces = model_surfaces_free(model);
    model->block = NULL;
    model->spare_stale = true;
    model->spare_slot = 0;
    session_fill_plan(session, &model->draft);
    if (model->ball >= session->bag.count)
        model->ball = session->bag.count - 1;
    reckon(model, effects);
}

static bool edit_bag(Model *model, Effects *effects, const BagEdit *edit)
{
    Error why = {0};
    if (!session_bag_edit(model->session, edit, &why)) {
        refuse(model, effects, why.text);
        return false;
    }
    bag_changed(model, effects);
    return true;
}

static void open_form(Model *model, int row)
{
    model->mode = MODE_BALL;
    model->form_row = row;
    drop_typed(model);
}

static void choose(Model *model, int step)
{
    int order[BAG_BALLS_MAX], count = model_bag_order(model, order), at = 0;
    for (int i = 0; i < count; i++)
        if (order[i] == model->ball)
            at = i;
    at += step;
    model->ball = order[at < 0 ? 0 : at >= count ? count - 1 : at];
}

static void put_in_slot(Model *model, Effects *effects, int slot)
{
    const Bag *bag = &model->session->bag;
    int before = chosen(model)->slot;
    if (before == slot) {
        refuse(model, effects,
               slot ? "that ball is in that slot already" : "that ball is in the locker already");
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
        text_append(text, sizeof text, ". In hand now: %d %s", hand->slot, hand->name);
    say(model, ROLE_GOOD, text);
}

static void add_ball(Model *model, Effects *effects)
{
    BagEdit edit = {.kind = BAG_ADD, .ball = bag_copy_of(&model->session->bag, chosen(model))};
    if (!edit_bag(model, effects, &edit))
        return;
    model->ball = model->session->bag.count - 1;
    open_form(model, FORM_NAME);
    say(model, ROLE_GOOD, "A copy, in the locker: now say what it is");
}

static void ask_remove(Model *model, Effects *effects)
{
    Error why = {0};
    BagEdit edit = {.kind = BAG_REMOVE, .at = model->ball};
    if (!session_bag_allows(model->session, &edit, &why))
        refuse(model, effects, why.text);
    else
        ask(model, ASK_REMOVE_BALL);
}

void remove_ball(Model *model, Effects *effects)
{
    char text[sizeof model->message] = "";
    text_append(text, sizeof text, "%s is out of the bag; u brings it back", chosen(model)->name);
    if (edit_bag(model, effects, &(BagEdit){.kind = BAG_REMOVE, .at = model->ball}))
        say(model, ROLE_GOOD, text);
}

/* Shows the ball that an undone or redone edit was of. */
static void go_back_or_forth(Model *model, Effects *effects, bool back)
{
    Session *session = model->session;
    const BagLog *log = &session->bag_log;
    int at = back ? log->standing - 1 : log->standing;
    Error why = {0};
    if (model->typed_on) {
        drop_typed(model);
        say(model, ROLE_PLAIN, "What was typed is dropped");
        return;
    }
    if (!(back ? session_bag_undo(session, &why) : session_bag_redo(session, &why))) {
        refuse(model, effects, why.text);
        return;
    }
    const BagEdit *edit = &log->edits[at];
    bool alone = edit->kind == BAG_CHANGE || edit->kind == BAG_PLACE;
    model->ball = edit->kind == BAG_ADD ? session->bag.count - 1 : edit->at;
    if (!alone)
        model->mode = MODE_BAG;
    bag_changed(model, effects);
    char text[sizeof model->message] = "";
    bool gone = edit->kind == (back ? BAG_ADD : BAG_REMOVE);
    text_append(text, sizeof text, "%s: %s", gone ? "The ball" : chosen(model)->name,
                gone   ? back ? "out of the bag again; U gives it back" : "out of the bag again"
                : back ? "taken back; U gives it back"
                       : "given back");
    say(model, ROLE_PLAIN, text);
}

/* ---- the fields of a ball ---- */

/* Takes what was typed for the field; true also where nothing was. */
static bool take_typed(Model *model, Effects *effects)
{
    BagEdit edit = {.kind = BAG_CHANGE, .at = model->ball, .ball = *chosen(model)};
    char before[64], after[64], text[sizeof model->message] = "";
    Error why = {0};
    int row = model->form_row;
    if (!model->typed_on)
        return true;
    form_show(&edit.ball, row, before, sizeof before);
    if (!form_put(&edit.ball, row, model->typed, &why)) {
        refuse(model, effects, why.text);
        return false;
    }
    form_show(&edit.ball, row, after, sizeof after);
    if (strcmp(before, after) != 0 && !edit_bag(model, effects, &edit))
        return false;
    drop_typed(model);
    if (strcmp(before, after) != 0) {
        text_append(text, sizeof text, "%s %s%s%s; u takes it back", FORM[row].name, after,
                    FORM[row].unit[0] ? " " : "", FORM[row].unit);
        say(model, ROLE_GOOD, text);
    }
    return true;
}

static void go_to_row(Model *model, Effects *effects, int step)
{
    int row = model->form_row + step;
    if (take_typed(model, effects) && row >= 0 && row < FORM_ROWS)
        model->form_row = row;
}

static void begin_typing(Model *model, bool from_value)
{
    if (model->typed_on)
        return;
    model->typed[0] = '\0';
    if (from_value)
        form_show(chosen(model), model->form_row, model->typed, sizeof model->typed);
    model->typed_on = true;
}

static void type_letter(Model *model, Effects *effects, uint32_t key)
{
    char bytes[8];
    begin_typing(model, false);
    size_t size = text_encode(key, bytes);
    if (strlen(model->typed) + size < form_field(model->form_row).size)
        text_append(model->typed, sizeof model->typed, "%s", bytes);
    else
        refuse(model, effects, "there is no room for more");
}

static void rub_out(Model *model)
{
    begin_typing(model, true);
    size_t length = strlen(model->typed);
    while (length > 0 && ((unsigned char)model->typed[length - 1] & 0xc0) == 0x80)
        length--; /* the rest of a character of several bytes */
    model->typed[length > 0 ? length - 1 : 0] = '\0';
}

static bool do_form(Model *model, Effects *effects, CommandId id, uint32_t key)
{
    switch (id) {
    case CMD_FORM_ROW:
        go_to_row(model, effects, key == PRESS_UP ? -1 : 1);
        return true;
    case CMD_FORM_TAKE:
        go_to_row(model, effects, 1);
        return true;
    case CMD_FORM_STEP:
        begin_typing(model, true);
        text_copy(model->typed, sizeof model->typed,
                  form_word(model->form_row, model->typed, key == PRESS_LEFT ? -1 : 1));
        return true;
    case CMD_FORM_FIGURE:
    case CMD_FORM_LETTER:
    case CMD_FORM_OTHER_LETTER:
        type_letter(model, effects, key);
        return true;
    case CMD_FORM_BACK:
        rub_out(model);
        return true;
    case CMD_FORM_DROP:
        if (!model->typed_on)
            model->mode = MODE_BAG;
        drop_typed(model);
        return true;
    default:
        return false;
    }
}

bool do_bag(Model *model, Effects *effects, CommandId id, uint32_t key)
{
    switch (id) {
    case CMD_BALL:
        choose(model, key == PRESS_UP ? -1 : 1);
        break;
    case CMD_BALL_OPEN:
        open_form(model, FORM_NAME + 1);
        break;
    case CMD_BALL_SLOT:
        put_in_slot(model, effects, key == 'x' ? 0 : (int)(key - '0'));
        break;
    case CMD_BALL_ADD:
        add_ball(model, effects);
        break;
    case CMD_BALL_REMOVE:
        ask_remove(model, effects);
        break;
    case CMD_BAG_UNDO:
    case CMD_BAG_REDO:
        go_back_or_forth(model, effects, id == CMD_BAG_UNDO);
        break;
    default:
        return do_form(model, effects, id, key);
    }
    model->bag_page = 0; /* where the balls are listed */
    return true;
}
