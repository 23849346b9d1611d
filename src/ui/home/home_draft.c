/* home_draft.c - what a form holds so far, kept until it is done or dropped, and offered when the
 * program was ended in between. */
#include <string.h>

#include "base/text.h"
#include "ui/form/ball_form.h"
#include "ui/form/event_form.h"
#include "ui/home/home_parts.h"

#define UNKNOWN "?" /* of a figure or a word: "don't know" was said */

void home_draft_begin(Home *home, DraftForm form, const char *of, const char *part)
{
    Draft *draft = &home->draft;
    *draft = (Draft){.form = form, .starting = home->starting};
    text_copy(draft->of, sizeof draft->of, of);
    text_copy(draft->part, sizeof draft->part, part);
    home->draft_changed = false;
}

/* Of a sheet all rows are taken down again: they move when one is taken off. */
static void note_sheet(Home *home)
{
    Sheet sheet = home_sheet_typed(home);
    char value[DRAFT_VALUE_SIZE];
    home->draft.count = 0;
    for (int row = SHEET_NAME; row < SHEET_FIRST; row++) {
        form_show(&home->sheet_kind, &sheet, row, value, sizeof value);
        draft_note(&home->draft, form_field(&home->sheet_kind, row).key, value);
    }
    for (int i = 0; i < sheet.pattern.stroke_count; i++) {
        sheet_stroke_text(&sheet, i, value, sizeof value);
        draft_add(&home->draft, "stroke", value);
    }
    for (int i = 0; i < sheet.pattern.reading_count; i++) {
        sheet_reading_text(&sheet, i, value, sizeof value);
        draft_add(&home->draft, "reading", value);
    }
}

void home_draft_note(Home *home, int row, const char *value)
{
    if (home->filling == FORM_SHEET || home->filling == FORM_READING)
        note_sheet(home);
    else if (home->filling != FORM_MEASURE)
        draft_note(&home->draft, form_field(home->form.kind, row).key, value);
    home->draft_changed = true;
}

void home_draft_unknown(Home *home, int row) { home_draft_note(home, row, UNKNOWN); }

void home_draft_keep(Home *home)
{
    Error error = {0};
    HomeHost *host = home->host;
    if (!home->draft_changed)
        return;
    home->draft_changed = false;
    if (!host->files->keep_draft(host->context, &home->draft, &error) && !home->message[0]) {
        char text[sizeof home->message] = "Kept only while settee runs: ";
        text_append(text, sizeof text, "%s", error.text);
        home_say(home, ROLE_WARN, text);
    }
}

void home_draft_drop(Home *home)
{
    home->draft = (Draft){.count = 0};
    home->draft_changed = false;
    home->host->files->drop_draft(home->host->context);
}

/* ---- going on with it ---- */

void home_draft_offer(Home *home)
{
    HomeHost *host = home->host;
    if (host->files->read_draft(host->context, &home->draft_offered) &&
        home->draft_offered.form != DRAFT_NONE)
        home_ask(home, ASK_DRAFT);
}

void home_draft_words(const Home *home, char *out, size_t size)
{
    static const char *const FORMS[] = {"form", "new event", "bowler", "ball", "sheet"};
    text_append(out, size, "Go on with the %s you were filling in? No drops it.",
                FORMS[home->draft_offered.form]);
}

static bool open_ball(Home *home, const Draft *draft)
{
    if (!home_edit_bag(home, draft->of))
        return false;
    for (int i = 0; i < home->bag.count; i++)
        if (strcmp(home->bag.balls[i].id, draft->part) == 0) {
            home->ball = i;
            home_ball_edit(home, 0, 0);
            return true;
        }
    return home_refuse(home, "that ball is not in the bag any more"), false;
}

static bool open_bowler(Home *home, const Draft *draft)
{
    if (!draft->of[0])
        return home_new_bag(home), true;
    return home_edit_bag(home, draft->of) && (home_bowler(home, 0, 0), true);
}

static bool open_sheet(Home *home, const Draft *draft)
{
    HomeItem item = {.own = true};
    text_copy(item.name, sizeof item.name, draft->of);
    home->page = HOME_PATTERNS;
    if (!draft->of[0])
        return home_sheet_new(home, 0, 0), true;
    home_sheet_edit(home, &item);
    return home->mode == HOME_FORM;
}

static bool open_form(Home *home, const Draft *draft)
{
    home->starting = draft->starting;
    switch (draft->form) {
    case DRAFT_EVENT:
        text_copy(home->bag_name, sizeof home->bag_name, draft->of);
        return home_new_event(home), true;
    case DRAFT_BOWLER:
        return open_bowler(home, draft);
    case DRAFT_BALL:
        return open_ball(home, draft);
    case DRAFT_SHEET:
        return open_sheet(home, draft);
    default:
        return false;
    }
}

static int row_of(const FormKind *kind, const char *key)
{
    for (int row = 0; row < kind->count; row++)
        if (strcmp(form_field(kind, row).key, key) == 0)
            return row;
    return -1;
}

/* What is not allowed any more stays as it was; the fields say what they hold. */
static void fill_row(Home *home, const DraftRow *typed)
{
    Error unheard = {0};
    const FormKind *kind = home->form.kind;
    int row = row_of(kind, typed->key);
    if (row < 0)
        return;
    bool unknown = strcmp(typed->value, UNKNOWN) == 0 && form_field(kind, row).kind != JSON_TEXT;
    if (unknown && home->filling == FORM_BOWLER)
        bowler_form_unknown(&home->bowler, row);
    else if (unknown && home->filling == FORM_BALL)
        ball_form_unknown(&home->ball_draft, row);
    else
        form_put(kind, home_subject(home), row, typed->value, &unheard);
    draft_note(&home->draft, typed->key, typed->value);
    home->form.row = row;
}

static void fill_sheet(Home *home, const Draft *draft)
{
    home->sheet.pattern.stroke_count = home->sheet.pattern.reading_count = 0;
    for (int i = 0; i < draft->count; i++) {
        const DraftRow *row = &draft->rows[i];
        Error unheard = {0};
        if (strcmp(row->key, "stroke") == 0)
            sheet_stroke_add(&home->sheet, row->value, &unheard);
        else if (strcmp(row->key, "reading") == 0)
            sheet_reading_add(&home->sheet, row->value, &unheard);
        else
            fill_row(home, row);
    }
    home_sheet_rows(home);
    home->form.row = home->sheet_kind.count - 1;
}

void home_draft_resume(Home *home)
{
    const Draft *draft = &home->draft_offered;
    if (!open_form(home, draft)) {
        home_draft_drop(home);
        return;
    }
    if (draft->form == DRAFT_SHEET)
        fill_sheet(home, draft);
    else
        for (int i = 0; i < draft->count; i++)
            fill_row(home, &draft->rows[i]);
    home->touched = true;
    home_say(home, ROLE_GOOD, "Here is what you had; go on");
}
