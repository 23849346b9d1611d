/* update.c - the one place where the model changes: messages, and what the files for the keys
 * (update_*.c) share. */
#include "ui/input/update.h"

#include "base/text.h"
#include "ui/draw/rolling.h"

enum { CAPITALS_TOLD = 2 };

void update_say(Model *model, Role role, const char *text)
{
    text_copy(model->message, sizeof model->message, text);
    model->message_role = role;
}

void update_refuse(Model *model, Effects *effects, const char *why)
{
    update_say(model, ROLE_WARN, why);
    effects->bell = true;
}

void update_prompt(Model *model, Prompt prompt)
{
    model->mode_before = model->mode;
    model->mode = MODE_ASK;
    model->prompt = prompt;
}

void update_ask_advice(Model *model, Effects *effects)
{
    effects->advise = true;
    model->asked.advice = model->asked.slots = ++model->revision;
    update_ask_paths(model);
}

void update_ask_paths(Model *model) { model->asked.paths = ++model->revision; }
void update_ask_spare(Model *model) { model->asked.spare = ++model->revision; }

void update_ask_arsenal(Model *model, Effects *effects)
{
    effects->arsenal = true;
    model->asked.arsenal = ++model->revision;
    model->arsenal_surfaces = model_surfaces_free(model);
}

void update_ask_block(Model *model, Effects *effects)
{
    effects->block = true;
    model->asked.block = ++model->revision;
}

double update_bounded(double value, double low, double high)
{
    return value < low ? low : value > high ? high : value;
}

double update_step(const Model *model, uint32_t key)
{
    bool left =
        key == PRESS_LEFT || key == PRESS_SHIFT_LEFT || key == '[' || key == '{' || key == '<';
    bool right_handed = model->session->bag.bowler.hand == HAND_RIGHT;
    return left == right_handed ? 1.0 : -1.0;
}

Pins update_pin(uint32_t key) { return pin_bit(key == '0' ? 10 : (int)(key - '0')); }

void update_toggle_pin(const Model *model, Pins *pins, uint32_t key)
{
    if (key == '0' && model->key_before == '1')
        *pins ^= pin_bit(1); /* the 1 was no pin */
    *pins ^= update_pin(key);
}

bool update_may_write(Model *model, Effects *effects)
{
    if (model->read_only)
        update_refuse(model, effects, "read only: this event is open in another settee");
    return !model->read_only;
}

bool update_enter(Model *model, Effects *effects, const Entry *entry)
{
    if (!update_may_write(model, effects))
        return false;
    const char *why = session_refuses(model->session, entry);
    if (why || !session_apply(model->session, entry)) {
        update_refuse(model, effects, why ? why : "not taken");
        return false;
    }
    effects->keep = true;
    if (entry->kind == ENTRY_TARGET) /* the lane is none the wiser */
        return true;
    bool inside = entry->kind == ENTRY_FRAME && entry->index < model->session->shot_count;
    if (entry->kind != ENTRY_PLAN && entry->kind != ENTRY_EDIT && entry->kind != ENTRY_APART &&
        entry->kind != ENTRY_FRAME_EDIT && !inside)
        model->lane = model->session->lane;
    update_ask_advice(model, effects);
    return true;
}

bool update_enter_plan(Model *model, Effects *effects, Plan plan)
{
    bool thrown = model->session->shot_count > 0; /* until then it is the plan for the day */
    Entry entry = {.kind = ENTRY_PLAN, .lane = model->lane, .apart = thrown, .plan = plan};
    bool drafted = model->draft_on, taken = true;
    model->draft_on = false;
    if (plan_same(&plan, &model->session->plan[model->lane])) /* no news for the log */
        update_ask_advice(model, effects);
    else
        taken = update_enter(model, effects, &entry);
    model->draft_on = drafted && !taken;
    return taken;
}

bool update_enter_draft(Model *model, Effects *effects)
{
    if (model->read_only)
        model->draft_on = false; /* what was only tried */
    return !model->draft_on || update_enter_plan(model, effects, model->draft);
}

static bool unheard(const Model *model, const CommandRow *row, uint32_t key)
{
    if (model->deaf == DEAF_TO_HITS)
        return row && row->key.group == GROUP_HIT;
    const CommandRow *part = command_find(model->keys, IN_ENTRY, key);
    return model->deaf == DEAF_TO_SHOTS && part && part->key.group <= GROUP_SHOT &&
           key != PRESS_ESC;
}

/* A key on the lane screen: like any other, but a refusal has consequences. */
static void press_lane(Model *model, Effects *effects, const CommandRow *row, uint32_t key)
{
    if (unheard(model, row, key)) {
        update_refuse(model, effects,
                      model->deaf == DEAF_TO_HITS
                          ? "The last key was refused: press Esc, then type the shot"
                          : "That shot was refused, so this key is ignored; Esc to go on");
        model->deaf = DEAF_TO_SHOTS;
    } else if (row) {
        bool begins = row->run == key_hit || row->run == key_edit ||
                      (row->run == key_last_spare && !row->argument);
        row->run(model, effects, row->argument, key);
        if (!effects->bell)
            model->deaf = DEAF_TO_NOTHING;
        else if (begins)
            model->deaf = DEAF_TO_SHOTS;
        else if (model->deaf == DEAF_TO_NOTHING)
            model->deaf = DEAF_TO_HITS;
    }
}

/* A row of capitals that mean nothing here, where the small letters do. */
static void watch_capitals(Model *model, unsigned where, uint32_t key)
{
    bool capital = key >= 'A' && key <= 'Z', small = key >= 'a' && key <= 'z';
    if (small)
        model->capitals = 0;
    else if (capital && !command_find(model->keys, where, key) &&
             command_find(model->keys, where, key - 'A' + 'a'))
        model->capitals++;
    if (capital && model->capitals >= CAPITALS_TOLD)
        update_say(model, ROLE_WARN, "Caps Lock? Shots are typed in small letters");
}

static void pass_time(Model *model, int milliseconds)
{
    model->roll_s += milliseconds / 1000.0;
    if (!model->path_on || rolling_over(&model->path, model->roll_s))
        model->mode = MODE_LANE;
}

static void press(Model *model, Effects *effects, uint32_t key)
{
    if (model->mode == MODE_ROLL)
        model->mode = MODE_LANE;
    unsigned where = model_where(model);
    const CommandRow *row = command_find(model->keys, where, key);
    uint32_t meant = row && row->usual ? row->usual : key;
    model->message[0] = '\0';
    effects->draw = true;
    bool typing = model->mode == MODE_ENTRY;
    if (where == IN_LANE)
        press_lane(model, effects, row, meant);
    else if (row)
        row->run(model, effects, row->argument, meant);
    else if (typing)
        update_refuse(model, effects, "no such key here: the last line shows those that work");
    watch_capitals(model, where, key);
    if (typing && effects->bell && !(row && row->run == key_accept))
        model->typing.doubtful = true;
    model->key_before = meant;
}

static void take_paths(Model *model, const Roll *roll, const Roll *first_roll, long revision)
{
    model->path_on = roll != NULL;
    model->path2_on = first_roll != NULL;
    if (roll)
        model->path = *roll;
    if (first_roll)
        model->path2 = *first_roll;
    model->paths_revision = revision;
}

static void take_spare(Model *model, const Spare *spare, const Roll *roll, long revision)
{
    model->spare = *spare;
    if (roll)
        model->spare_path = *roll;
    model->spare_revision = revision;
}

/* Slots fill in as they come; the answers change once, when all is done: no flicker. */
static void take_advice(Model *model, const Advice *advice, const Roll *first_roll)
{
    if (advice->revision != model->asked.advice)
        return; /* the question has changed */
    for (int i = 0; i < BAG_SLOTS; i++)
        if (advice->slot[i].ready || advice->done)
            model->slot[i] = (SlotShown){advice->slot[i], advice->revision};
    if (!advice->done)
        return;
    model->shown = *advice;
    update_ask_spare(model); /* it depends on the film too */
    update_ask_paths(model);
    if (first_roll)
        take_paths(model, &advice->now_roll, first_roll, model->asked.paths);
}

Effects update(Model *model, Msg msg)
{
    Effects effects = {0};
    switch (msg.kind) {
    case MSG_KEY:
        press(model, &effects, msg.key);
        break;
    case MSG_FIRST:
        session_say_first(model->session, msg.plan);
        update_ask_advice(model, &effects);
        effects.draw = true;
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
        if (msg.revision == model->asked.paths) {
            take_paths(model, msg.roll, msg.first_roll, msg.revision);
            effects.draw = true;
        }
        break;
    case MSG_SPARE:
        if (msg.revision == model->asked.spare) {
            take_spare(model, msg.spare, msg.roll, msg.revision);
            effects.draw = model->mode == MODE_SPARES;
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
    case MSG_TICK:
        if (model->mode == MODE_ROLL) {
            pass_time(model, msg.milliseconds);
            effects.draw = true;
        }
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
    case MSG_ROLL:
        update_roll(model, msg.roll, msg.ft);
        effects.draw = true;
        break;
    case MSG_SEEN:
        update_seen(model, &effects, msg.shot, msg.ok);
        effects.draw = true;
        break;
    case MSG_FOLLOW:
        update_follow(model, &effects, msg.session);
        effects.draw = true;
        break;
    case MSG_NOTICE:
        text_clean(model->message, sizeof model->message, msg.text);
        model->message_role = ROLE_WARN;
        effects.draw = true;
        break;
    }
    return effects;
}
