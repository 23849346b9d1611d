/* home_view.c - draws the welcome, Home's lists, help and questions. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "ui/draw/flow.h"
#include "ui/home/home_view.h"
#include "ui/screens/screens.h"

enum { PICTURE_COLUMNS = 39, PICTURE_AT = 39, FACTS = 7 };

static const Glyphs *glyphs_of(const Home *home) { return home->host->look->glyphs; }

void home_frame(const Home *home, Canvas *canvas, const char *title, const char *right,
                const char *hint)
{
    screen_frame_top(canvas, title, right);
    canvas_hline(canvas, canvas->rows - 2, 0, canvas->columns, glyphs_of(home)->rule, ROLE_DIM);
    if (home->message[0])
        canvas_print(canvas, canvas->rows - 2, 1, canvas->columns - 2, home->message_role, " %s ",
                     home->message);
    else if (hint[0] && home_compact(home)) {
        char brief[128];
        widget_brief(brief, sizeof brief, hint, canvas->columns - 4);
        canvas_print(canvas, canvas->rows - 2, 1, canvas->columns - 2, ROLE_DIM, " %s ", brief);
    }
    key_footer(&HOME_TABLE, home_where(home), -1, canvas);
}

bool home_long_message(const Home *home)
{
    return home_compact(home) && canvas_width(home->message) > home->columns - 4;
}

void home_draw_message(const Home *home, Canvas *canvas)
{
    if (!home_long_message(home))
        return;
    for (int row = canvas->rows - 3; row < canvas->rows - 1; row++)
        canvas_hline(canvas, row, 0, canvas->columns, ' ', ROLE_PLAIN);
    canvas_wrap(canvas, canvas->rows - 3, 1, canvas->columns - 2, 2, home->message_role,
                home->message);
}

/* ---- the welcome ---- */

static void draw_menu(const Home *home, Canvas *canvas, int row, int pitch)
{
    HomeDoor rows[HOME_MENU_MAX];
    int count = home_menu(home, rows), left = pitch > 1 ? 3 : 1;
    int room = (canvas->rows - 2 - row) / pitch, top = home_top(home->menu, count, room);
    for (int i = top; i < count && i < top + room; i++, row += pitch) {
        bool here = i == home->menu;
        if (here)
            canvas_put(canvas, row, left, glyphs_of(home)->breaks_right, ROLE_ACCENT);
        canvas_text(canvas, row, left + 2, 2, ROLE_KEY, rows[i].shown);
        canvas_text(canvas, row, left + 5, 18, here ? ROLE_ACCENT : ROLE_PLAIN, rows[i].name);
        if (!home_compact(home))
            canvas_text(canvas, row, left + 24, canvas->columns - left - 25, ROLE_DIM,
                        rows[i].sentence);
    }
}

static void draw_welcome(const Home *home, Canvas *canvas)
{
    HomeDoor rows[HOME_MENU_MAX];
    home_menu(home, rows);
    home_frame(home, canvas, "settee", "", rows[home->menu].sentence);
    if (home_compact(home)) {
        canvas_wrap(canvas, 1, 1, canvas->columns - 2, 2, ROLE_PLAIN,
                    "Welcome. Log what you saw; settee says what to change next, and why.");
        draw_menu(home, canvas, 4, 1);
        return;
    }
    canvas_wrap(canvas, 3, 3, 73, 2, ROLE_PLAIN,
                "Welcome. After each shot you type what you saw; settee answers what to change "
                "next: which ball, how far to move, your chance, and why.");
    canvas_text(canvas, 6, 3, canvas->columns - 4, ROLE_DIM, "There is nothing of yours here yet.");
    draw_menu(home, canvas, 8, 2);
}

/* ---- the lists ---- */

int home_top(int at, int count, int room)
{
    int top = at - room / 2 < count - room ? at - room / 2 : count - room;
    return top > 0 ? top : 0;
}

/* What was bowled: with the event's own bag, else with others. */
static const char *played(const HomeItem *item)
{
    return item->scores[0] ? item->scores : item->others;
}

/* In the compact view a file has its name and the one figure that matters most. */
static void draw_brief(const Home *home, Canvas *canvas, int row, const HomeItem *item, bool here)
{
    char right[24] = "";
    if (item->fault[0])
        text_copy(right, sizeof right, "has a fault");
    else if (home->page == HOME_EVENTS)
        text_copy(right, sizeof right, played(item)[0] ? played(item) : item->date);
    else if (home->page == HOME_BAGS)
        text_append(right, sizeof right, "%d balls", item->balls);
    else
        text_append(right, sizeof right, "%.0f ft", item->length_ft);
    int wide = canvas_width(right);
    canvas_text(canvas, row, 3, canvas->columns - wide - 6,
                here         ? ROLE_ACCENT
                : item->away ? ROLE_DIM
                             : ROLE_PLAIN,
                home->page == HOME_BAGS || !item->title[0] ? item->name : item->title);
    canvas_text_right(canvas, row, canvas->columns - 1, wide, ROLE_DIM, right);
}

static void draw_event(Canvas *canvas, int row, const HomeItem *item, bool here)
{
    Role role = item->away ? ROLE_DIM : ROLE_PLAIN;
    int columns = canvas->columns, name = columns >= 100 ? 38 : 25;
    char pattern[80] = "";
    text_append(pattern, sizeof pattern, "%s", item->pattern);
    if (item->length_ft > 0.0)
        text_append(pattern, sizeof pattern, " %.0f ft", item->length_ft);
    canvas_text(canvas, row, 3, name - 1, here ? ROLE_ACCENT : role, item->title);
    canvas_text(canvas, row, 3 + name, 10, role, item->date[0] ? item->date : "no date");
    if (item->fault[0]) {
        canvas_text(canvas, row, 14 + name, columns - 15 - name, ROLE_WARN, item->fault);
        return;
    }
    canvas_text(canvas, row, 14 + name, 14, role, pattern);
    canvas_text(canvas, row, 29 + name, 10, role, item->bag);
    canvas_text(canvas, row, 40 + name, columns - 41 - name, role,
                played(item)[0] ? played(item) : "not begun");
}

static void draw_bag(Canvas *canvas, int row, const HomeItem *item, bool here)
{
    Role role = item->away || !item->own ? ROLE_DIM : ROLE_PLAIN;
    canvas_text(canvas, row, 3, 24, here ? ROLE_ACCENT : role, item->name);
    if (item->fault[0]) {
        canvas_text(canvas, row, 28, canvas->columns - 29, ROLE_WARN, item->fault);
        return;
    }
    canvas_text(canvas, row, 28, 24, role, item->title);
    canvas_print(canvas, row, 54, 24, role, "%d ball%s%s", item->balls, item->balls == 1 ? "" : "s",
                 item->own ? "" : ", built in");
}

static void draw_pattern(Canvas *canvas, int row, const HomeItem *item, bool here)
{
    Role role = item->away ? ROLE_DIM : ROLE_PLAIN;
    canvas_text(canvas, row, 3, 18, here ? ROLE_ACCENT : role, item->title);
    if (item->fault[0]) {
        canvas_text(canvas, row, 22, 15, ROLE_WARN, item->fault);
        return;
    }
    if (item->rough) {
        canvas_text(canvas, row, 22, 11, ROLE_DIM, "no sheet");
        return;
    }
    canvas_print(canvas, row, 22, 6, role, "%2.0f ft", item->length_ft);
    canvas_print(canvas, row, 29, 8, role, item->own ? "yours" : "");
}

static void draw_pattern_facts(const Home *home, Canvas *canvas)
{
    const HomeItem *item = home_item(home);
    char ratio[24] = "";
    int row = canvas->rows - 2 - FACTS, at = PICTURE_AT;
    if (!item || item->fault[0])
        return;
    home_draw_picture(home, canvas, (Area){2, at, row - 3, PICTURE_COLUMNS});
    if (isinf(item->ratio))
        text_copy(ratio, sizeof ratio, "none outside");
    else
        text_append(ratio, sizeof ratio, "%.1f:1", item->ratio);
    canvas_print(canvas, row, at, canvas->columns - at - 1, ROLE_PLAIN,
                 "%.0f ft, %.1f mL, inside to outside %s", item->length_ft, item->volume_ml, ratio);
    canvas_wrap(canvas, row + 1, at, canvas->columns - at - 1, FACTS - 1, ROLE_DIM, item->note);
}

static void draw_heads(const Home *home, Canvas *canvas)
{
    int name = canvas->columns >= 100 ? 38 : 25;
    if (home->page == HOME_EVENTS) {
        canvas_text(canvas, 2, 3, name, ROLE_DIM, "event");
        canvas_text(canvas, 2, 3 + name, 10, ROLE_DIM, "date");
        canvas_text(canvas, 2, 14 + name, 14, ROLE_DIM, "oil");
        canvas_text(canvas, 2, 29 + name, 10, ROLE_DIM, "bag");
        canvas_text(canvas, 2, 40 + name, 12, ROLE_DIM, "games");
    } else if (home->page == HOME_BAGS) {
        canvas_text(canvas, 2, 3, 24, ROLE_DIM, "bag");
        canvas_text(canvas, 2, 28, 24, ROLE_DIM, "bowler");
        canvas_text(canvas, 2, 54, 12, ROLE_DIM, "balls");
    } else {
        canvas_text(canvas, 2, 3, 24, ROLE_DIM, "pattern");
    }
}

/* What the column of the chosen event's games has no room for, above the doors. */
static void draw_others(const Home *home, Canvas *canvas)
{
    const HomeItem *item = home->page == HOME_EVENTS ? home_item(home) : NULL;
    if (item && item->others[0])
        canvas_print(canvas, canvas->rows - 4, 3, canvas->columns - 4, ROLE_DIM,
                     "With other bags: %s", item->others);
}

/* The doors on the line above the rule. */
static void draw_doors(const Home *home, Canvas *canvas)
{
    int column = 1, row = canvas->rows - 3;
    for (const HomeDoor *door = home->host->doors; door && door->key && !home->choosing; door++) {
        column += canvas_text(canvas, row, column, 4, ROLE_KEY, door->shown) + 1;
        column += canvas_text(canvas, row, column, 24, ROLE_DIM, door->name) + 3;
    }
}

static void draw_list(const Home *home, Canvas *canvas)
{
    const HomeItem *items = home->items[home->page];
    int count = home->count[home->page], at = home->at[home->page];
    bool compact = home_compact(home);
    char learnt[120];
    home_learnt_line(home, learnt, sizeof learnt);
    int first = compact ? 1 : 3, room = canvas->rows - (compact ? 3 : learnt[0] ? 8 : 7);
    int top = home_top(at, count, room);
    char right[80] = "";
    for (int kind = 0; kind < HOME_KINDS; kind++)
        text_append(right, sizeof right, "%s%s%s %d%s",
                    !kind     ? ""
                    : compact ? " "
                              : "  ",
                    kind == (int)home->page ? "[" : "", HOME_TITLES[kind], home->count[kind],
                    kind == (int)home->page ? "]" : "");
    home_frame(home, canvas, home->choosing ? "Choose for the event" : "settee",
               home->choosing ? HOME_TITLES[home->page] : right, learnt);
    if (!compact)
        canvas_text(canvas, canvas->rows - 5, 3, canvas->columns - 4, ROLE_ACCENT, learnt);
    if (!compact)
        draw_heads(home, canvas);
    for (int i = top; i < count && i < top + room; i++) {
        int row = first + i - top;
        bool here = i == at;
        if (here)
            canvas_put(canvas, row, 1, glyphs_of(home)->breaks_right, ROLE_ACCENT);
        if (compact)
            draw_brief(home, canvas, row, &items[i], here);
        else if (home->page == HOME_EVENTS)
            draw_event(canvas, row, &items[i], here);
        else if (home->page == HOME_BAGS)
            draw_bag(canvas, row, &items[i], here);
        else
            draw_pattern(canvas, row, &items[i], here);
    }
    if (count == 0)
        canvas_text(canvas, 4, 3, canvas->columns - 4, ROLE_DIM,
                    home->page == HOME_EVENTS ? "No event yet: n starts one."
                                              : "None yet: n makes one.");
    if (home->page == HOME_PATTERNS && !compact) {
        draw_pattern_facts(home, canvas);
    } else if (!compact) {
        draw_others(home, canvas);
        draw_doors(home, canvas);
    }
}

/* ---- the rest ---- */

static void draw_help(const Home *home, Canvas *canvas)
{
    Flow count = {.columns = canvas->columns};
    flow_keys(&count, &HOME_TABLE, HOME_GROUPS);
    int room = canvas->rows - 4, shown = home->help_top + room;
    char where[40];
    Flow flow = {.canvas = canvas,
                 .columns = canvas->columns,
                 .top = home->help_top,
                 .row = 2,
                 .row_count = room};
    snprintf(where, sizeof where, "lines %3d-%3d of %3d", home->help_top + 1,
             shown < count.line ? shown : count.line, count.line);
    home_frame(home, canvas, "Keys", where, "");
    flow_keys(&flow, &HOME_TABLE, HOME_GROUPS);
}

static void draw_search(const Home *home, Canvas *canvas)
{
    char right[40];
    search_draw(&home->search, &HOME_TABLE, canvas, right, sizeof right);
    home_frame(home, canvas, SEARCH_TITLE, right, "");
}

void home_question(const Home *home, char *out, size_t size)
{
    text_copy(out, size, "");
    switch (home->ask) {
    case ASK_DELETE:
        text_append(out, size, "Delete %s%s? It goes to the trash folder.", home_called(home),
                    home->page == HOME_EVENTS ? " and its log" : "");
        break;
    case ASK_LEAVE:
        text_append(out, size, "Leave this form? What you filled in is dropped.");
        break;
    case ASK_DRAFT:
        home_draft_words(home, out, size);
        break;
    case ASK_REMOVE_BALL:
        text_append(out, size, "Take %s out of the bag?", home->bag.balls[home->ball].name);
        break;
    }
}

/* On the line above the footer; a question that is longer takes the one above it too. */
static void draw_line(const Home *home, Canvas *canvas)
{
    char text[200] = "";
    int row = canvas->rows - 2, room = canvas->columns - 2;
    if (home->mode == HOME_ASK)
        home_question(home, text, sizeof text);
    else if (home->renaming)
        text_append(text, sizeof text, "New name of %s: %s", home_called(home), home->name);
    else
        text_append(text, sizeof text, "Name of the copy: %s", home->name);
    canvas_hline(canvas, row, 0, canvas->columns, ' ', ROLE_PLAIN);
    if (canvas_width(text) > room) {
        canvas_hline(canvas, --row, 0, canvas->columns, ' ', ROLE_PLAIN);
        canvas_wrap(canvas, row, 1, room, 2, ROLE_ACCENT, text);
        return;
    }
    int wide = canvas_text(canvas, row, 1, room, ROLE_ACCENT, text);
    if (home->mode == HOME_NAME) {
        canvas->cursor_row = row;
        canvas->cursor_column = 1 + wide;
    }
}

static void draw_small(const Home *home, Canvas *canvas)
{
    char question[180] = "";
    if (home->mode == HOME_ASK)
        home_question(home, question, sizeof question);
    widget_too_small(canvas, question, HOME_COLUMNS_MIN, HOME_ROWS_MIN);
}

static void draw_mode(const Home *home, Canvas *canvas, HomeMode mode)
{
    switch (mode) {
    case HOME_WELCOME:
        draw_welcome(home, canvas);
        break;
    case HOME_LIST:
        draw_list(home, canvas);
        break;
    case HOME_BAG:
        home_draw_bag(home, canvas);
        break;
    case HOME_BALLS:
        home_draw_kinds(home, canvas);
        break;
    case HOME_LEARNT:
        home_draw_learnt(home, canvas);
        break;
    case HOME_FORM:
        if (home->filling == FORM_SHEET || home->filling == FORM_READING)
            home_draw_sheet(home, canvas);
        else
            home_draw_form(home, canvas);
        break;
    case HOME_HELP:
        draw_help(home, canvas);
        break;
    case HOME_SEARCH:
        draw_search(home, canvas);
        break;
    case HOME_NAME:
    case HOME_ASK:
        draw_mode(home, canvas, home->before);
        canvas_hline(canvas, canvas->rows - 1, 0, canvas->columns, ' ', ROLE_PLAIN);
        key_footer(&HOME_TABLE, home_where(home), -1, canvas);
        if (!home->message[0] || mode == HOME_ASK)
            draw_line(home, canvas);
        break;
    }
}

void home_draw(const Home *home, Canvas *canvas)
{
    if (home_small(home)) {
        draw_small(home, canvas);
        return;
    }
    draw_mode(home, canvas, home->mode);
    int room = canvas->columns - 2, row = canvas->rows - 3;
    if (!home_compact(home) || home->mode == HOME_ASK || canvas_width(home->message) + 2 <= room)
        return;
    for (int i = row; i < row + 2; i++) /* what is longer takes two lines */
        canvas_hline(canvas, i, 0, canvas->columns, ' ', ROLE_PLAIN);
    canvas_wrap(canvas, row, 1, room, 2, home->message_role, home->message);
}
