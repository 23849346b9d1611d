/* home_update.c - keys on the welcome and on Home's lists, names and questions. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/bag/taken.h"
#include "ui/draw/flow.h"
#include "ui/draw/rolling.h"
#include "ui/form/ball_form.h"
#include "ui/home/home_parts.h"

const char *const HOME_TITLES[HOME_KINDS] = {
    [HOME_EVENTS] = "Events", [HOME_BAGS] = "Bags", [HOME_PATTERNS] = "Patterns"};

void home_say(Home *home, Role role, const char *text)
{
    text_clean(home->message, sizeof home->message, text);
    home->message_role = role;
}

void home_refuse(Home *home, const char *why)
{
    home_say(home, ROLE_WARN, why);
    home->bell = true;
}

int home_step(uint32_t key) { return key == PRESS_UP || key == PRESS_LEFT ? -1 : 1; }

void home_ask(Home *home, HomeAsk ask)
{
    home->before = home->mode;
    home->mode = HOME_ASK;
    home->ask = ask;
}

bool home_small(const Home *home)
{
    return home->columns < HOME_COLUMNS_MIN || home->rows < HOME_ROWS_MIN;
}

bool home_compact(const Home *home) { return home->columns < 80 || home->rows < 24; }

const HomeItem *home_item(const Home *home)
{
    return home->count[home->page] > 0 ? &home->items[home->page][home->at[home->page]] : NULL;
}

static unsigned at_field(const Home *home)
{
    JsonKind kind = form_holds(&home->form);
    int row = home->form.row;
    bool bowler = home->filling == FORM_BOWLER, ball = home->filling == FORM_BALL;
    bool usual = kind != JSON_TEXT && (bowler ? row != BOWLER_HAND : ball && ball_form_usual(row));
    bool taken = bowler ? bowler_form_taken(&home->bowler, row)
                        : ball && row == BALL_STRENGTH && taken_from_ball(&home->ball_draft);
    unsigned more = (taken ? AT_TAKEN : 0) | (usual ? AT_USUAL : 0) |
                    (bowler && measure_form(row) ? AT_MEASURES : 0);
    more |= home->filling == FORM_SHEET && sheet_row(&home->sheet, row) >= 0 ? AT_ROW : 0;
    return more | (home->form.kind->rows[row].opens ? AT_OPENS
                   : kind == JSON_TEXT              ? AT_TEXT
                   : kind == JSON_WORD              ? AT_WORD
                                                    : AT_FIGURE);
}

unsigned home_where(const Home *home)
{
    static const unsigned LISTS[HOME_KINDS] = {AT_EVENTS, AT_BAGS, AT_PATTERNS};
    if (home_small(home) && home->mode != HOME_ASK)
        return AT_SMALL;
    switch (home->mode) {
    case HOME_WELCOME:
        return AT_WELCOME;
    case HOME_LIST:
        return !home->choosing               ? LISTS[home->page]
               : home->page == HOME_PATTERNS ? AT_CHOICE | AT_OILS
                                             : AT_CHOICE;
    case HOME_BAG:
        return AT_BAG;
    case HOME_BALLS:
        return AT_KINDS;
    case HOME_LEARNT:
        return AT_LEARNT;
    case HOME_FORM:
        return at_field(home);
    case HOME_NAME:
        return AT_NAME;
    case HOME_ASK:
        return AT_ASK;
    case HOME_HELP:
        return AT_HELP;
    case HOME_SEARCH:
        return AT_SEARCH;
    }
    return AT_WELCOME;
}

/* ---- the lists ---- */

static int by_date(const void *a, const void *b)
{
    const HomeItem *first = a, *second = b;
    int order = strcmp(second->date, first->date); /* the latest first */
    return order ? order : strcmp(first->name, second->name);
}

/* What is not shown is left out: what was put away, and the events that are built in. */
static void list(Home *home, HomeKind kind)
{
    HomeItem *items = home->items[kind];
    int count = home->host->files->list(home->host->context, kind, items, HOME_ITEMS_MAX), kept = 0;
    for (int i = 0; i < count; i++)
        if ((home->all_shown || !items[i].away) && (kind != HOME_EVENTS || items[i].own) &&
            (home->choosing || !items[i].rough))
            items[kept++] = items[i];
    home->count[kind] = kept;
    if (kind == HOME_EVENTS)
        qsort(items, (size_t)kept, sizeof *items, by_date);
}

static void choose(Home *home, HomeKind kind, const char *name)
{
    int *at = &home->at[kind], count = home->count[kind];
    for (int i = 0; i < count; i++)
        if (strcmp(home->items[kind][i].name, name) == 0)
            *at = i;
    *at = *at < count ? *at : count - 1;
    *at = *at > 0 ? *at : 0;
}

void home_refresh(Home *home, HomeKind kind)
{
    char name[sizeof home->items[0][0].name] = "";
    if (home->count[kind] > 0)
        text_copy(name, sizeof name, home->items[kind][home->at[kind]].name);
    list(home, kind);
    choose(home, kind, name);
}

/* The picture beside the list is of the chosen pattern. */
static void look_at_pattern(Home *home)
{
    const HomeItem *item = home->page == HOME_PATTERNS ? home_item(home) : NULL;
    Pattern pattern;
    Error error = {0};
    home->oil = (Oil){.length_ft = 0};
    if (item && home->host->files->read_pattern(home->host->context, item->name, &pattern, &error))
        oil_lay(&pattern, &home->oil);
}

void home_go(Home *home, HomeMode mode)
{
    home->mode = mode;
    if (mode == HOME_LIST)
        look_at_pattern(home);
}

static bool anything_own(const Home *home)
{
    for (int kind = 0; kind < HOME_KINDS; kind++)
        for (int i = 0; i < home->count[kind]; i++)
            if (home->items[kind][i].own)
                return true;
    return false;
}

void home_to_list(Home *home, HomeKind kind, const char *name)
{
    home->starting = home->choosing = false;
    for (int any = 0; any < HOME_KINDS; any++)
        home_refresh(home, (HomeKind)any);
    choose(home, kind, name);
    home->page = kind;
    home_go(home, anything_own(home) || kind != HOME_EVENTS ? HOME_LIST : HOME_WELCOME);
}

void home_begin(Home *home, HomeHost *host)
{
    memset(home, 0, sizeof *home);
    home->host = host;
    home->columns = HOME_COLUMNS_MIN;
    home->rows = HOME_ROWS_MIN;
    home->search.event = bound_table(&home->bound, host->keys);
    home_to_list(home, HOME_EVENTS, host->event);
    if (host->notice && host->notice[0])
        home_say(home, ROLE_WARN, host->notice);
    home_draft_offer(home);
}

void home_up_down(Home *home, int argument, uint32_t key)
{
    int at = home->at[home->page] + home_step(key);
    if (at >= 0 && at < home->count[home->page])
        home->at[home->page] = at;
    look_at_pattern(home);
}

void home_page(Home *home, int argument, uint32_t key)
{
    home->page = (HomeKind)((home->page + 1) % HOME_KINDS);
    look_at_pattern(home);
}

/* The chosen file; NULL after saying that there is none, or that it is not the bowler's own. */
static const HomeItem *chosen(Home *home, bool own)
{
    const HomeItem *item = home_item(home);
    if (!item)
        home_refuse(home, home->page == HOME_BAGS ? "there is no bag yet; n makes one"
                                                  : "there is no event yet; n starts one");
    else if (own && !item->own)
        home_refuse(home, "that is built in; c makes a copy of your own");
    else
        return item;
    return NULL;
}

static void leave(Home *home, HomeLeave how, const char *event)
{
    home->host->leave = how;
    text_copy(home->host->event, sizeof home->host->event, event);
    home->over = true;
}

void home_open(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = chosen(home, home->page == HOME_BAGS);
    if (!item)
        return;
    if (item->fault[0])
        home_refuse(home, item->fault);
    else if (home->page == HOME_EVENTS)
        leave(home, HOME_OPENS, item->name);
    else if (home->page == HOME_BAGS)
        home_edit_bag(home, item->name);
    else
        home_sheet_edit(home, item);
}

void home_new(Home *home, int argument, uint32_t key)
{
    if (home->page == HOME_BAGS)
        home_new_bag(home);
    else
        home_start(home);
}

void home_demo(Home *home, int argument, uint32_t key) { leave(home, HOME_OPENS, "demo"); }

void home_all(Home *home, int argument, uint32_t key)
{
    home->all_shown = !home->all_shown;
    for (int kind = 0; kind < HOME_KINDS; kind++)
        home_refresh(home, (HomeKind)kind);
    look_at_pattern(home);
    home_say(home, ROLE_PLAIN,
             home->all_shown ? "What was put away shows too, dim; p brings it back"
                             : "What was put away is out of sight again");
}

void home_put_away(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = chosen(home, false);
    Error error = {0};
    char text[128] = "";
    if (!item)
        return;
    bool away = !item->away;
    text_append(text, sizeof text, away ? "%s is put away; a shows it again" : "%s is back",
                home_called(home));
    if (!home->host->files->put_away(home->host->context, home->page, item->name, away, &error)) {
        home_refuse(home, error.text);
        return;
    }
    home_refresh(home, home->page);
    look_at_pattern(home);
    home_say(home, ROLE_GOOD, text);
}

const char *home_called(const Home *home)
{
    const HomeItem *item = home_item(home);
    return !item ? "" : home->page != HOME_BAGS && item->title[0] ? item->title : item->name;
}

void home_delete(Home *home, int argument, uint32_t key)
{
    if (chosen(home, true))
        home_ask(home, ASK_DELETE);
}

static void delete_item(Home *home)
{
    const HomeItem *item = home_item(home);
    Error error = {0};
    char text[128] = "";
    text_append(text, sizeof text, "%s is in the trash folder", home_called(home));
    bool done = home->host->files->trash(home->host->context, home->page, item->name, &error);
    home_to_list(home, home->page, "");
    if (done)
        home_say(home, ROLE_GOOD, text);
    else
        home_refuse(home, error.text);
}

/* ---- names ---- */

void home_copy(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = chosen(home, false);
    if (!item)
        return;
    text_copy(home->name, sizeof home->name, item->name);
    text_append(home->name, sizeof home->name, "-2");
    home->before = home->mode;
    home->mode = HOME_NAME;
    home->renaming = false;
}

void home_rename(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = chosen(home, true);
    if (!item)
        return;
    text_copy(home->name, sizeof home->name, home->page == HOME_EVENTS ? item->title : item->name);
    home->before = home->mode;
    home->mode = HOME_NAME;
    home->renaming = true;
}

void home_name_type(Home *home, int argument, uint32_t key)
{
    char bytes[8];
    size_t size = text_encode(key, bytes);
    if (strlen(home->name) + size >= sizeof home->name ||
        !text_append(home->name, sizeof home->name, "%s", bytes))
        home_refuse(home, "there is no room for another letter");
}

void home_name_back(Home *home, int argument, uint32_t key)
{
    size_t length = strlen(home->name);
    while (length > 0 && ((unsigned char)home->name[length - 1] & 0xc0) == 0x80)
        length--;
    home->name[length > 0 ? length - 1 : 0] = '\0';
}

void home_name_drop(Home *home, int argument, uint32_t key) { home->mode = home->before; }

void home_name_take(Home *home, int argument, uint32_t key)
{
    const HomeItem *item = home_item(home);
    const HomeFiles *files = home->host->files;
    Error error = {0};
    char text[160] = "", to[sizeof home->name];
    text_copy(to, sizeof to, home->name);
    bool (*act)(void *, HomeKind, const char *, const char *, Error *) =
        home->renaming ? files->rename : files->copy;
    if (!act(home->host->context, home->page, item->name, to, &error)) {
        home_refuse(home, error.text);
        return;
    }
    text_append(text, sizeof text, home->renaming ? "Its name is %s now" : "Copied to %s", to);
    home_to_list(home, home->page, to);
    home_say(home, ROLE_GOOD, text);
}

/* ---- the welcome ---- */

int home_menu(const Home *home, HomeDoor rows[HOME_MENU_MAX])
{
    int count = 0;
    rows[count++] =
        (HomeDoor){'s', "s", "Start an event", "your hand, your balls, the oil: some thirty keys"};
    rows[count++] = (HomeDoor){'d', "d", "Look round", "the demo; nothing you log there counts"};
    for (const HomeDoor *door = home->host->doors; door && door->key && count < HOME_MENU_MAX - 2;
         door++)
        rows[count++] = *door;
    rows[count++] = (HomeDoor){'?', "?", "Help", "every key, with a sentence"};
    rows[count++] = (HomeDoor){'q', "q", "Quit", ""};
    return count;
}

/* Goes through the door of that key, if there is one. */
static bool through_door(Home *home, uint32_t key)
{
    const HomeDoor *doors = home->host->doors;
    for (int i = 0; doors && doors[i].key; i++)
        if (doors[i].key == key) {
            home->host->door = i;
            leave(home, HOME_DOOR, "");
            return true;
        }
    return false;
}

static void menu_letter(Home *home, uint32_t key)
{
    switch (key) {
    case 's':
        home_start(home);
        break;
    case 'd':
        home_demo(home, 0, key);
        break;
    case '?':
        home_help(home, 0, key);
        break;
    case 'q':
        home_quit(home, 0, key);
        break;
    default:
        through_door(home, key);
    }
}

void home_menu_row(Home *home, int argument, uint32_t key)
{
    HomeDoor rows[HOME_MENU_MAX];
    int count = home_menu(home, rows), row = home->menu + home_step(key);
    home->menu = row < 0 ? 0 : row >= count ? count - 1 : row;
}

void home_menu_enter(Home *home, int argument, uint32_t key)
{
    HomeDoor rows[HOME_MENU_MAX];
    home_menu(home, rows);
    menu_letter(home, rows[home->menu].key);
}

/* ---- the screen ---- */

void home_help(Home *home, int argument, uint32_t key)
{
    home->before = home->mode;
    home->mode = HOME_HELP;
    home->help_top = 0;
    search_clear(&home->search);
}

void home_help_line(Home *home, int argument, uint32_t key)
{
    Flow flow = {.columns = home->columns};
    flow_keys(&flow, &HOME_TABLE, HOME_GROUPS);
    int last = flow.line - (home->rows - 4), top = home->help_top + home_step(key);
    top = top < last ? top : last;
    home->help_top = top > 0 ? top : 0;
}

void home_help_close(Home *home, int argument, uint32_t key) { home->mode = home->before; }

void home_search(Home *home, int argument, uint32_t key)
{
    home->mode = HOME_SEARCH;
    home->search.top = 0;
}

void home_search_type(Home *home, int argument, uint32_t key)
{
    if (!search_type(&home->search, key))
        home_refuse(home, SEARCH_FULL);
}

void home_search_back(Home *home, int argument, uint32_t key) { search_back(&home->search); }

void home_search_line(Home *home, int argument, uint32_t key)
{
    search_lines(&home->search, &HOME_TABLE, home->columns, home->rows, home_step(key));
}

void home_search_close(Home *home, int argument, uint32_t key) { home->mode = HOME_HELP; }

void home_theme(Home *home, int argument, uint32_t key)
{
    StageLook *look = home->host->look;
    if (look->theme_count > 0) {
        look->theme = (look->theme + 1) % look->theme_count;
        char text[80] = "";
        text_append(text, sizeof text, "Colours: %s", look->themes[look->theme].name);
        home_say(home, ROLE_PLAIN, text);
    }
}

void home_motion(Home *home, int argument, uint32_t key)
{
    StageLook *look = home->host->look;
    home_say(home, ROLE_PLAIN, rolling_turn(&look->still, look->still_fixed));
}

void home_redraw(Home *home, int argument, uint32_t key) { home->all = true; }

void home_quit(Home *home, int argument, uint32_t key) { leave(home, HOME_QUITS, ""); }

void home_answer(Home *home, int yes, uint32_t key)
{
    home->mode = home->before;
    if (!yes && home->ask == ASK_DRAFT)
        home_draft_drop(home);
    if (!yes)
        return;
    switch (home->ask) {
    case ASK_DELETE:
        delete_item(home);
        break;
    case ASK_LEAVE:
        home_leave_form(home);
        break;
    case ASK_DRAFT:
        home_draft_resume(home);
        break;
    case ASK_REMOVE_BALL:
        home_remove_ball(home);
        break;
    }
}

void home_key(Home *home, uint32_t key)
{
    unsigned where = home_where(home);
    const HomeRow *row = (const HomeRow *)key_find(&HOME_TABLE, where, key);
    home->message[0] = '\0';
    if (row)
        row->run(home, row->argument, key);
    else if (where == AT_WELCOME)
        menu_letter(home, key);
    else if (where & AT_LISTS)
        through_door(home, key);
    home_sheet_look(home);
    home_draft_keep(home);
}
