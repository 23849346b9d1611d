/* home_sheet.c - a sheet typed in a form, and the readings on it. */
#include "base/text.h"
#include "ui/form/event_form.h"
#include "ui/home/home_parts.h"

static bool typing(const Home *home)
{
    return home->filling == FORM_SHEET || home->filling == FORM_READING;
}

static void open_sheet(Home *home, int row)
{
    home->sheet_kind = sheet_form(&home->sheet);
    home_open_form(home, FORM_SHEET, &home->sheet_kind, row);
}

/* For a new event it is chosen once it is kept; the event's form waits behind it. */
void home_sheet_new(Home *home, int argument, uint32_t key)
{
    home->sheet_chosen = home->choosing;
    if (home->choosing) {
        home->form_behind = home->form;
        home->touched_behind = home->touched;
        home->draft_behind = home->draft;
    }
    home->choosing = false;
    home->sheet = sheet_start();
    home->sheet_name[0] = '\0';
    open_sheet(home, SHEET_NAME);
    home_draft_begin(home, DRAFT_SHEET, "", "");
}

/* Another's sheet is copied under a name of its own; how it played is not known any more. */
static void copy_sheet(Home *home)
{
    Pattern *pattern = &home->sheet.pattern;
    char name[sizeof pattern->name] = "";
    text_append(name, sizeof name, "%.55s, mine", pattern->name);
    text_copy(pattern->name, sizeof pattern->name, name);
    pattern->note[0] = '\0';
    home->sheet_name[0] = '\0';
    home_say(home, ROLE_PLAIN, "This is a copy; Tab keeps it among your patterns");
}

void home_sheet_edit(Home *home, const HomeItem *item)
{
    Error error = {0};
    char event[64] = "", text[128] = "";
    HomeHost *host = home->host;
    if (!host->files->read_pattern(host->context, item->name, &home->sheet_before, &error)) {
        home_refuse(home, error.text);
        return;
    }
    home->sheet_chosen = false;
    home->sheet = sheet_of(&home->sheet_before);
    text_copy(home->sheet_name, sizeof home->sheet_name, item->name);
    if (!item->own)
        copy_sheet(home);
    open_sheet(home, item->own ? SHEET_FIRST : SHEET_NAME);
    home_draft_begin(home, DRAFT_SHEET, home->sheet_name, "");
    if (item->own && host->files->pattern_event(host->context, item->name, event)) {
        text_append(text, sizeof text, "The event %s is on it: it gets the changed oil", event);
        home_say(home, ROLE_WARN, text);
    }
}

/* ---- as it is typed ---- */

/* As far as the row being typed makes sense. */
Sheet home_sheet_typed(const Home *home)
{
    Sheet sheet = home->sheet;
    SheetReading reading = home->reading;
    Error unheard = {0};
    if (home->filling == FORM_SHEET && home->form.typed_on)
        form_put(home->form.kind, &sheet, home->form.row, home->form.typed, &unheard);
    if (home->filling == FORM_READING) {
        if (home->form.typed_on)
            form_put(home->form.kind, &reading, home->form.row, home->form.typed, &unheard);
        sheet_reading_take(&sheet, home->reading_at, &reading, &unheard);
    }
    return sheet;
}

void home_sheet_rows(Home *home)
{
    home->sheet_kind = sheet_form(&home->sheet);
    if (home->filling == FORM_SHEET && home->form.row >= home->sheet_kind.count)
        home->form.row = home->sheet_kind.count - 1;
}

void home_sheet_look(Home *home)
{
    if (home->mode != HOME_FORM || !typing(home))
        return;
    Pattern pattern;
    home_sheet_rows(home);
    Sheet sheet = home_sheet_typed(home);
    sheet_pattern(&sheet, &pattern);
    oil_lay(&pattern, &home->oil);
    home->sheet_ml = oil_volume_ml(&home->oil);
    home->sheet_ratio = oil_ratio(&home->oil);
}

void home_sheet_remove(Home *home, int argument, uint32_t key)
{
    form_drop(&home->form);
    sheet_remove(&home->sheet, sheet_row(&home->sheet, home->form.row));
    home->touched = true;
    home_draft_note(home, 0, "");
    home_say(home, ROLE_PLAIN, "Taken off the sheet");
}

/* ---- a reading ---- */

void home_reading(Home *home)
{
    home->reading_at = home->form.row - SHEET_FIRST;
    home->reading = sheet_reading(&home->sheet, home->reading_at);
    bool touched = home->touched;
    home_open_form(home, FORM_READING, &READING_FORM, READING_FT);
    home->touched = touched;
}

void home_reading_leave(Home *home)
{
    bool touched = home->touched;
    open_sheet(home, SHEET_FIRST + home->reading_at);
    home->touched = touched;
}

void home_reading_done(Home *home)
{
    Error why = {0};
    if (!sheet_reading_take(&home->sheet, home->reading_at, &home->reading, &why)) {
        home->form.row = READING_FT;
        home_refuse(home, why.text);
        return;
    }
    open_sheet(home, SHEET_FIRST + sheet_count(&home->sheet)); /* the next one */
    home->touched = true;
    home_draft_note(home, 0, "");
}

/* ---- the end ---- */

static void back_to_event(Home *home)
{
    home->sheet_chosen = false;
    home->filling = FORM_EVENT;
    home->form = home->form_behind;
    home->touched = home->touched_behind;
    home->draft = home->draft_behind;
    home->draft_changed = home->draft.count > 0;
    home_refresh(home, HOME_PATTERNS);
}

void home_sheet_leave(Home *home)
{
    if (home->sheet_chosen)
        back_to_event(home);
    else
        home_to_list(home, HOME_PATTERNS, home->sheet_name);
}

void home_sheet_done(Home *home)
{
    Error why = {0};
    Pattern pattern;
    HomeHost *host = home->host;
    int row = 0;
    if (!sheet_done(&home->sheet, &row, &why)) {
        home->form.row = row;
        home_refuse(home, why.text);
        return;
    }
    sheet_pattern(&home->sheet, &pattern);
    if (!host->files->keep_pattern(host->context, home->sheet_name, &home->sheet_before, &pattern,
                                   &why)) {
        char text[sizeof home->message] = "NOT SAVED: ";
        text_append(text, sizeof text, "%s", why.text);
        home_refuse(home, text);
        return;
    }
    home_draft_drop(home);
    if (!home->sheet_chosen) {
        home_to_list(home, HOME_PATTERNS, home->sheet_name);
        home_say(home, ROLE_GOOD, "Kept among your patterns");
        return;
    }
    text_copy(home->event.pattern, sizeof home->event.pattern, home->sheet_name);
    back_to_event(home);
    home->touched = true;
    home_draft_note(home, EVENT_PATTERN, home->event.pattern);
    form_go(&home->form, EVENT_BAG - EVENT_PATTERN);
    home_say(home, ROLE_GOOD, "Kept among your patterns, and taken for the event");
}
