/* search.c - see search.h. */
#include "ui/search.h"

#include <string.h>

#include "base/text.h"
#include "ui/draw/flow.h"
#include "ui/home/home_keys.h"
#include "ui/input/commands.h"
#include "ui/rehearse/rehearse_keys.h"
#include "ui/teach/teach_model.h"

enum { ABOVE = 3, BELOW = 2, FIELD_AT = 10 };

enum { STAGE_COUNT = 4 };
static const KeyTable *const STAGES[STAGE_COUNT] = {&COMMAND_TABLE, &HOME_TABLE, &REHEARSE_KEYS,
                                                    &TEACH_KEYS};

/* An event's own keys are a table of their own, under the same name. */
static bool same_stage(const KeyTable *a, const KeyTable *b) { return strcmp(a->of, b->of) == 0; }

static const KeyTable *stage_of(const Search *search, int i)
{
    return STAGES[i] == &COMMAND_TABLE && search->event ? search->event : STAGES[i];
}

static int find_all(const Search *search, Flow *flow, const KeyTable *here)
{
    int found = flow_found(flow, here, "", search->sought);
    for (int i = 0; i < STAGE_COUNT; i++) {
        const KeyTable *stage = stage_of(search, i);
        if (!same_stage(stage, here))
            found += flow_found(flow, stage, stage->of, search->sought);
    }
    return found;
}

static int room(int rows) { return rows - ABOVE - BELOW > 1 ? rows - ABOVE - BELOW : 1; }

/* The last line that can be the top. */
static int last_top(const Search *search, const KeyTable *here, int columns, int rows)
{
    Flow flow = {.columns = columns};
    find_all(search, &flow, here);
    return flow.line > room(rows) ? flow.line - room(rows) : 0;
}

bool search_type(Search *search, uint32_t key)
{
    size_t length = strlen(search->sought);
    if (length + 1 >= sizeof search->sought)
        return false;
    search->sought[length] = (char)key;
    search->sought[length + 1] = '\0';
    search->top = 0;
    return true;
}

void search_clear(Search *search)
{
    search->sought[0] = '\0';
    search->top = 0;
}

void search_back(Search *search)
{
    size_t length = strlen(search->sought);
    if (length > 0)
        search->sought[length - 1] = '\0';
    search->top = 0;
}

void search_lines(Search *search, const KeyTable *here, int columns, int rows, int lines)
{
    int last = last_top(search, here, columns, rows), top = search->top + lines;
    search->top = top > last ? last : top < 0 ? 0 : top;
}

void search_pages(Search *search, const KeyTable *here, int columns, int rows, int pages)
{
    search_lines(search, here, columns, rows, pages * room(rows));
}

/* Where the words are typed. */
static void draw_field(const Search *search, Canvas *canvas)
{
    int wide = (int)sizeof search->sought;
    canvas_text(canvas, 1, 1, FIELD_AT - 2, ROLE_TITLE, "Look for");
    canvas_hline(canvas, 1, FIELD_AT, wide, ' ', ROLE_FIELD);
    canvas->cursor_row = 1;
    canvas->cursor_column =
        FIELD_AT + canvas_text(canvas, 1, FIELD_AT, wide, ROLE_FIELD, search->sought);
}

void search_draw(const Search *search, const KeyTable *here, Canvas *canvas, char *right,
                 size_t size)
{
    int last = last_top(search, here, canvas->columns, canvas->rows), all = here->count;
    Flow flow = {.canvas = canvas,
                 .columns = canvas->columns,
                 .top = search->top < last ? search->top : last,
                 .row = ABOVE,
                 .row_count = room(canvas->rows)};
    int found = find_all(search, &flow, here);
    if (found == 0)
        flow_sentence(&flow, 3, ROLE_PLAIN,
                      "No action has these words. Fewer letters find more: \"spare\", \"feet\".");
    for (int i = 0; i < STAGE_COUNT; i++)
        all += same_stage(STAGES[i], here) ? 0 : stage_of(search, i)->count;
    text_copy(right, size, "");
    text_append(right, size, "%d of %d", found, all);
    draw_field(search, canvas);
}
