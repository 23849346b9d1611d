/* flow.c - a page of lines that is longer than the screen. */
#include "ui/draw/flow.h"

#include "base/text.h"

enum {
    KEY_COLUMNS = 9,
    NAME_COLUMNS = 12,
    SENTENCE_LINES_MAX = 8,
    SENTENCE_COLUMNS_MIN = 56,
    PLACE_COLUMNS_MIN = 44
};

int flow_row(const Flow *flow)
{
    int row = flow->line - flow->top;
    return flow->canvas && row >= 0 && row < flow->row_count ? row + flow->row : -1;
}

void flow_line(Flow *flow, Role role, const char *text)
{
    int row = flow_row(flow);
    if (row >= 0)
        canvas_text(flow->canvas, row, 1, flow->columns - 2, role, text);
    flow->line++;
}

void flow_sentence(Flow *flow, int left, Role role, const char *text)
{
    int width = flow->columns - left - 1;
    Canvas probe;
    if (width < 1 || !canvas_init(&probe, flow->columns, SENTENCE_LINES_MAX))
        return;
    int lines = canvas_wrap(&probe, 0, 0, width, SENTENCE_LINES_MAX, role, text);
    for (int i = 0; i < lines; i++, flow->line++) {
        int row = flow_row(flow);
        for (int c = 0; row >= 0 && c < width; c++) {
            const Cell *cell = canvas_at(&probe, i, c);
            if (cell && cell->glyph > ' ')
                canvas_put(flow->canvas, row, c + left, cell->glyph, role);
        }
    }
    canvas_fini(&probe);
}

static void flow_key(Flow *flow, const KeyRow *key)
{
    int row = flow_row(flow), column = 3 + KEY_COLUMNS;
    bool narrow = flow->columns - column - NAME_COLUMNS < SENTENCE_COLUMNS_MIN;
    if (row >= 0) {
        canvas_text(flow->canvas, row, 3, KEY_COLUMNS, ROLE_KEY, key->shown);
        canvas_text(flow->canvas, row, column, NAME_COLUMNS, ROLE_DIM, key->name);
        column += NAME_COLUMNS;
        if (!narrow)
            canvas_text(flow->canvas, row, column, flow->columns - column - 1, ROLE_PLAIN,
                        key->help);
    }
    flow->line++;
    if (narrow) /* below its name */
        flow_sentence(flow, 5, ROLE_PLAIN, key->help);
}

void flow_keys(Flow *flow, const KeyTable *table, int end)
{
    for (int group = 0; group < table->group_count && group != end; group++) {
        if (group > 0)
            flow_line(flow, ROLE_PLAIN, "");
        flow_line(flow, ROLE_TITLE, table->titles[group]);
        for (int i = 0; i < table->count; i++)
            if (key_row(table, i)->group == group)
                flow_key(flow, key_row(table, i));
    }
}

/* Where it works stands behind the name, or before the sentence where lines are short. */
static void flow_action(Flow *flow, const KeyTable *table, const char *stage, const KeyRow *key)
{
    char places[128], line[256] = "";
    int row = flow_row(flow), column = 3 + KEY_COLUMNS + NAME_COLUMNS;
    bool narrow = flow->columns - column < PLACE_COLUMNS_MIN;
    key_places(table, key, stage, places, sizeof places);
    if (row >= 0) {
        canvas_text(flow->canvas, row, 3, KEY_COLUMNS, ROLE_KEY, key->shown);
        canvas_text(flow->canvas, row, 3 + KEY_COLUMNS, NAME_COLUMNS, ROLE_PLAIN, key->name);
        if (!narrow)
            canvas_text(flow->canvas, row, column, flow->columns - column - 1, ROLE_DIM, places);
    }
    flow->line++;
    text_append(line, sizeof line, "%s%s%s", narrow ? places : "", narrow ? ": " : "", key->help);
    flow_sentence(flow, 5, ROLE_PLAIN, line);
}

int flow_found(Flow *flow, const KeyTable *table, const char *stage, const char *sought)
{
    int count = 0;
    for (int i = 0; i < table->count; i++)
        if (key_matches(table, key_row(table, i), sought)) {
            flow_action(flow, table, stage, key_row(table, i));
            count++;
        }
    return count;
}
