/* keytable.c - finding keys in a stage's table, and its footer. */
#include "ui/input/keytable.h"

const KeyRow *key_row(const KeyTable *table, int index)
{
    return (const void *)((const char *)table->rows + (size_t)index * table->row_size);
}

const KeyRow *key_find(const KeyTable *table, unsigned where, uint32_t key)
{
    for (int i = 0; key != PRESS_NONE && i < table->count; i++) {
        const KeyRow *row = key_row(table, i);
        if ((row->where & where) && ((key >= row->from && key <= row->to) || key == row->also))
            return row;
    }
    return NULL;
}

/* The row that comes after `last` in the footer of a state: by place, then as in the table. */
static int next_in_footer(const KeyTable *table, unsigned where, int last)
{
    int best = -1, foot = last < 0 ? 0 : key_row(table, last)->foot;
    for (int i = 0; i < table->count; i++) {
        const KeyRow *row = key_row(table, i);
        bool later = row->foot > foot || (row->foot == foot && i > last);
        if ((row->where & where) && row->foot > 0 && later &&
            (best < 0 || row->foot < key_row(table, best)->foot))
            best = i;
    }
    return best;
}

void key_footer(const KeyTable *table, unsigned where, int but, Canvas *canvas)
{
    int line = canvas->rows - 1, column = 1;
    for (int i = -1; (i = next_in_footer(table, where, i)) >= 0;) {
        const KeyRow *row = key_row(table, i);
        int need = canvas_width(row->shown) + 1 + canvas_width(row->name);
        if (row->group == but)
            continue;
        if (column + need > canvas->columns)
            break;
        column += canvas_text(canvas, line, column, need, ROLE_KEY, row->shown) + 1;
        column += canvas_text(canvas, line, column, need, ROLE_DIM, row->name) + 2;
    }
}
