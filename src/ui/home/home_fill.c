/* home_fill.c - forms: bowler, ball, event, measuring; a bag and the balls in it. */
#include <string.h>

#include "base/text.h"
#include "core/bag/bag_edit.h"
#include "core/bag/preset.h"
#include "core/bag/taken.h"
#include "ui/form/ball_form.h"
#include "ui/form/event_form.h"
#include "ui/form/kinds.h"
#include "ui/home/home_parts.h"

void *home_subject(Home *home)
{
    switch (home->filling) {
    case FORM_BOWLER:
        return &home->bowler;
    case FORM_BALL:
        return &home->ball_draft;
    case FORM_EVENT:
        return &home->event;
    case FORM_MEASURE:
        return &home->measure;
    case FORM_SHEET:
        return &home->sheet;
    case FORM_READING:
        return &home->reading;
    }
    return NULL;
}

const void *home_filled(const Home *home)
{
    return home->filling == FORM_BOWLER    ? (const void *)&home->bowler
           : home->filling == FORM_BALL    ? (const void *)&home->ball_draft
           : home->filling == FORM_EVENT   ? (const void *)&home->event
           : home->filling == FORM_SHEET   ? (const void *)&home->sheet
           : home->filling == FORM_READING ? (const void *)&home->reading
                                           : &home->measure;
}

void home_open_form(Home *home, HomeForm which, const FormKind *kind, int row)
{
    home->filling = which;
    home->form = form_begin(kind, row);
    home->touched = false;
    home->mode = HOME_FORM;
}

/* ---- a bag ---- */

void home_keep_bag(Home *home)
{
    Error error = {0};
    home->learn_again = true;
    if (home->bag.count > 0 &&
        !home->host->files->keep_bag(home->host->context, home->bag_name, &home->bag, &error)) {
        char text[sizeof home->message] = "NOT SAVED: ";
        text_append(text, sizeof text, "%s", error.text);
        home_refuse(home, text);
    }
}

bool home_edit_bag(Home *home, const char *name)
{
    Error error = {0};
    if (!home->host->files->read_bag(home->host->context, name, &home->bag, &error))
        return home_refuse(home, error.text), false;
    text_copy(home->bag_name, sizeof home->bag_name, name);
    home->ball = 0;
    home->mode = HOME_BAG;
    return true;
}

void home_new_bag(Home *home)
{
    home->bag = (Bag){.count = 0};
    home->bag_name[0] = '\0';
    home->bowler = bowler_form_start();
    home_open_form(home, FORM_BOWLER, &BOWLER_FORM, BOWLER_HAND);
    home_draft_begin(home, DRAFT_BOWLER, "", "");
}

void home_bowler(Home *home, int argument, uint32_t key)
{
    home->bowler = home->bag.bowler;
    home_open_form(home, FORM_BOWLER, &BOWLER_FORM, BOWLER_HAND);
    home_draft_begin(home, DRAFT_BOWLER, home->bag_name, "");
}

void home_bag_leave(Home *home, int argument, uint32_t key)
{
    home_to_list(home, HOME_BAGS, home->bag_name);
}

void home_ball(Home *home, int argument, uint32_t key)
{
    int order[BAG_BALLS_MAX], count = bag_order(&home->bag, order), at = 0;
    for (int i = 0; i < count; i++)
        at = order[i] == home->ball ? i : at;
    at += home_step(key);
    if (at >= 0 && at < count)
        home->ball = order[at];
}

void home_ball_edit(Home *home, int argument, uint32_t key)
{
    home->ball_draft = home->bag.balls[home->ball];
    home_open_form(home, FORM_BALL, &BALL_FORM, BALL_NAME);
    home_draft_begin(home, DRAFT_BALL, home->bag_name, home->ball_draft.id);
}

void home_ball_remove(Home *home, int argument, uint32_t key)
{
    if (home->bag.count == 1)
        home_refuse(home, "a bag has at least one ball");
    else
        home_ask(home, ASK_REMOVE_BALL);
}

/* The event on the screen is not asked: it has its own copy of the bag, and its log keeps what was
 * thrown. */
static void edit_bag(Home *home, const BagEdit *edit, const char *done)
{
    Error error = {0};
    if (!bag_apply(&home->bag, edit, &error)) {
        home_refuse(home, error.text);
        return;
    }
    if (home->ball >= home->bag.count)
        home->ball = home->bag.count - 1;
    home_say(home, ROLE_GOOD, done);
    home_keep_bag(home);
}

void home_remove_ball(Home *home)
{
    char text[96] = "";
    text_append(text, sizeof text, "%s is out of the bag", home->bag.balls[home->ball].name);
    edit_bag(home, &(BagEdit){.kind = BAG_REMOVE, .at = home->ball}, text);
}

void home_ball_slot(Home *home, int argument, uint32_t key)
{
    int slot = (int)(key - '0');
    char text[96] = "";
    text_append(text, sizeof text, slot ? "%s: slot %d" : "%s: the locker",
                home->bag.balls[home->ball].name, slot);
    edit_bag(home, &(BagEdit){.kind = BAG_PLACE, .at = home->ball, .slot = slot}, text);
}

/* ---- balls by kind ---- */

void home_kinds(Home *home, int argument, uint32_t key)
{
    home->kind = 0;
    home->mode = HOME_BALLS;
}

void home_kind(Home *home, int argument, uint32_t key)
{
    int kind = home->kind + home_step(key);
    if (kind >= 0 && kind < kinds_count())
        home->kind = kind;
}

void home_kind_add(Home *home, int argument, uint32_t key)
{
    Bag *bag = &home->bag;
    char text[96] = "";
    if (bag->count == BAG_BALLS_MAX) {
        home_refuse(home, "the bag is full");
        return;
    }
    Ball ball = kinds_ball(bag, home->kind);
    bag->balls[bag->count++] = ball;
    home->ball = bag->count - 1;
    text_append(text, sizeof text,
                ball.slot ? "%s is in slot %d; Tab when there are enough" : "%s is in the locker",
                ball.name, ball.slot);
    home_say(home, ROLE_GOOD, text);
    home_keep_bag(home);
}

void home_kind_undo(Home *home, int argument, uint32_t key)
{
    if (home->bag.count < 2) {
        home_refuse(home, "a bag has at least one ball");
        return;
    }
    home->bag.count--;
    home->ball = home->bag.count - 1;
    home_say(home, ROLE_PLAIN, "Taken out again");
    home_keep_bag(home);
}

void home_kinds_done(Home *home, int argument, uint32_t key)
{
    if (home->bag.count > 0 && home->starting)
        home_new_event(home);
    else if (home->bag.count > 0)
        home->mode = HOME_BAG;
    else if (key == PRESS_ESC)
        home_bowler(home, 0, key);
    else
        home_refuse(home, "add a ball first: Enter");
}

/* ---- an event ---- */

void home_new_event(Home *home)
{
    EventInfo *event = &home->event;
    *event = (EventInfo){.pair = {1, 2}, .games = 3, .bowlers_on_pair = 4, .certified = true};
    text_append(event->name, sizeof event->name, "Event of %s", home->host->today);
    text_copy(event->date, sizeof event->date, home->host->today);
    text_copy(event->pattern, sizeof event->pattern, "about:house");
    text_copy(event->bag, sizeof event->bag, home->bag_name);
    home_open_form(home, FORM_EVENT, &EVENT_FORM, EVENT_NAME);
    home_draft_begin(home, DRAFT_EVENT, home->bag_name, "");
}

void home_start(Home *home)
{
    for (int i = 0; i < home->count[HOME_BAGS]; i++) /* the home's come first */
        if (home->items[HOME_BAGS][i].own && !home->items[HOME_BAGS][i].fault[0]) {
            text_copy(home->bag_name, sizeof home->bag_name, home->items[HOME_BAGS][i].name);
            home_new_event(home);
            return;
        }
    home->starting = true;
    home_new_bag(home);
}

static bool same_choice(const HomeItem *item, const char *now)
{
    return item->rough ? strncmp(now, item->name, strlen(item->name)) == 0
                       : strcmp(item->name, now) == 0;
}

/* Opens the list that the field is chosen from. */
static void open_list(Home *home)
{
    bool bags = home->form.row == EVENT_BAG;
    home->page = bags ? HOME_BAGS : HOME_PATTERNS;
    home->choosing = true;
    home_refresh(home, home->page);
    const char *now = bags ? home->event.bag : home->event.pattern;
    for (int i = 0; i < home->count[home->page]; i++)
        if (same_choice(&home->items[home->page][i], now))
            home->at[home->page] = i;
    home_go(home, HOME_LIST);
}

void home_choose_none(Home *home, int argument, uint32_t key)
{
    home->choosing = false;
    home->mode = HOME_FORM;
    home_refresh(home, home->page);
}

/* A house shot with a length stays one when it is chosen again. */
static void choose_oil(EventInfo *event, const HomeItem *item)
{
    if (!same_choice(item, event->pattern))
        text_copy(event->pattern, sizeof event->pattern, item->name);
}

void home_choose(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = home_item(home);
    if (!item || item->fault[0]) {
        home_refuse(home, item ? item->fault : "there is none");
        return;
    }
    if (home->page == HOME_BAGS)
        text_copy(home->event.bag, sizeof home->event.bag, item->name);
    else
        choose_oil(&home->event, item);
    home->touched = true;
    bool rough = item->rough;
    home_choose_none(home, 0, key);
    home_draft_note(home, home->form.row,
                    home->form.row == EVENT_BAG ? home->event.bag : home->event.pattern);
    form_go(&home->form, home->form.row == EVENT_PATTERN && !rough ? EVENT_BAG - EVENT_PATTERN : 1);
}

/* ---- the fields ---- */

bool home_take_field(Home *home)
{
    Error why = {0};
    bool typed = home->form.typed_on;
    char value[sizeof home->form.typed];
    text_copy(value, sizeof value, home->form.typed);
    if (!form_take(&home->form, home_subject(home), &why)) {
        home_refuse(home, why.text);
        return false;
    }
    home->touched = home->touched || typed;
    home_sheet_rows(home);
    if (typed)
        home_draft_note(home, home->form.row, value);
    return true;
}

void home_field(Home *home, int argument, uint32_t key)
{
    if (home_take_field(home))
        form_go(&home->form, home_step(key));
}

void home_field_take(Home *home, int argument, uint32_t key)
{
    if (home->filling == FORM_SHEET && home->form.kind->rows[home->form.row].opens)
        home_reading(home);
    else if (home->form.kind->rows[home->form.row].opens)
        open_list(home);
    else if (home->form.row + 1 == home->form.kind->count && home->filling != FORM_SHEET)
        home_form_done(home, 0, key);
    else
        home_field(home, 0, key);
}

void home_word(Home *home, int argument, uint32_t key)
{
    form_word(&home->form, home_filled(home), key == PRESS_LEFT ? -1 : 1);
}

void home_type(Home *home, int argument, uint32_t key)
{
    if (!form_type(&home->form, home_filled(home), key))
        home_refuse(home, "there is no room for another letter");
}

void home_erase(Home *home, int argument, uint32_t key)
{
    form_back(&home->form, home_filled(home));
}

void home_unknown(Home *home, int argument, uint32_t key)
{
    if (home->filling == FORM_BOWLER)
        bowler_form_unknown(&home->bowler, home->form.row);
    else
        ball_form_unknown(&home->ball_draft, home->form.row);
    form_drop(&home->form);
    home->touched = true;
    home_draft_unknown(home, home->form.row);
    form_go(&home->form, 1);
}

void home_put_back(Home *home, int argument, uint32_t key)
{
    if (home->filling == FORM_BOWLER)
        bowler_form_back(&home->bowler, home->form.row);
    else
        taken_back_ball(&home->ball_draft);
    form_drop(&home->form);
    home->touched = true;
    home_say(home, ROLE_GOOD, "As it was before; Tab keeps it");
}

void home_measure(Home *home, int argument, uint32_t key)
{
    int row = home->form.row;
    form_drop(&home->form);
    home->form_behind = home->form;
    bool touched = home->touched;
    home->measure = measure_start(&home->bowler, row);
    home_open_form(home, FORM_MEASURE, measure_form(row), 0);
    home->touched = touched;
}

static void back_to_bowler(Home *home)
{
    home->filling = FORM_BOWLER;
    home->form = home->form_behind;
}

static void measured(Home *home)
{
    Error why = {0};
    if (!measure_take(&home->measure, &home->bowler, &why)) {
        home_refuse(home, why.text);
        return;
    }
    back_to_bowler(home);
    char value[sizeof home->form.typed];
    form_show(home->form.kind, &home->bowler, home->form.row, value, sizeof value);
    home_draft_note(home, home->form.row, value);
    form_go(&home->form, 1);
    home_say(home, ROLE_GOOD, "Measured, and taken over");
}

static void bowler_done(Home *home)
{
    preset_check(&home->bowler);
    home_draft_drop(home);
    home->bag.bowler = home->bowler;
    if (home->bag.count == 0) {
        home_kinds(home, 0, 0);
        return;
    }
    home->mode = HOME_BAG;
    home_keep_bag(home);
}

static void ball_done(Home *home)
{
    home_draft_drop(home);
    edit_bag(home, &(BagEdit){.kind = BAG_CHANGE, .at = home->ball, .ball = home->ball_draft},
             "Saved");
    home->mode = HOME_BAG;
}

static void event_done(Home *home)
{
    Error error = {0};
    HomeHost *host = home->host;
    if (!host->files->new_event(host->context, &home->event, host->event, &error)) {
        char text[sizeof home->message] = "";
        text_append(text, sizeof text, "The event can't be made: %s", error.text);
        home_refuse(home, text);
        return;
    }
    home_draft_drop(home);
    host->leave = HOME_OPENS;
    home->over = true;
}

void home_form_done(Home *home, int argument, uint32_t key)
{
    if (!home_take_field(home))
        return;
    switch (home->filling) {
    case FORM_BOWLER:
        bowler_done(home);
        break;
    case FORM_BALL:
        ball_done(home);
        break;
    case FORM_EVENT:
        event_done(home);
        break;
    case FORM_MEASURE:
        measured(home);
        break;
    case FORM_SHEET:
        home_sheet_done(home);
        break;
    case FORM_READING:
        home_reading_done(home);
        break;
    }
}

void home_leave_form(Home *home)
{
    if (home->filling != FORM_MEASURE && home->filling != FORM_READING)
        home_draft_drop(home);
    switch (home->filling) {
    case FORM_MEASURE:
        back_to_bowler(home);
        break;
    case FORM_BALL:
        home->mode = HOME_BAG;
        break;
    case FORM_BOWLER:
        if (home->bag.count > 0)
            home->mode = HOME_BAG;
        else
            home_to_list(home, home->starting ? HOME_EVENTS : home->page, "");
        break;
    case FORM_EVENT:
        home_to_list(home, HOME_EVENTS, "");
        break;
    case FORM_SHEET:
        home_sheet_leave(home);
        break;
    case FORM_READING:
        home_reading_leave(home);
        break;
    }
}

void home_form_leave(Home *home, int argument, uint32_t key)
{
    if (form_drop(&home->form))
        return;
    if (home->touched && home->filling != FORM_MEASURE && home->filling != FORM_READING)
        home_ask(home, ASK_LEAVE);
    else
        home_leave_form(home);
}
