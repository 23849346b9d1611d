/* keytable.c - finding keys in a stage's table, and its footer. */
#include "ui/input/keytable.h"

#include <ctype.h>
#include <string.h>

#include "base/text.h"

enum { FOOTER_NARROW = 80, PLACES_NAMED = 3 };

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

static int footer_width(const KeyRow *row)
{
    return canvas_width(row->shown) + 1 + canvas_width(row->name);
}

/* Where not much fits, Enter and the help keep their place. */
static int keep_place(const KeyTable *table, unsigned where, Canvas *canvas)
{
    static const uint32_t KEPT[] = {'?', '\r'};
    int end = canvas->columns;
    for (size_t i = 0; i < sizeof KEPT / sizeof *KEPT; i++) {
        const KeyRow *row = key_find(table, where, KEPT[i]);
        if (!row || row->foot == 0 || row->from != KEPT[i])
            continue;
        end -= footer_width(row) + 1;
        int line = canvas->rows - 1,
            used = canvas_text(canvas, line, end, canvas->columns - end, ROLE_KEY, row->shown) + 1;
        canvas_text(canvas, line, end + used, canvas->columns - end - used, ROLE_DIM, row->name);
        end--;
    }
    return end;
}

void key_footer(const KeyTable *table, unsigned where, int but, Canvas *canvas)
{
    int line = canvas->rows - 1, column = 1;
    bool narrow = canvas->columns < FOOTER_NARROW;
    int end = narrow ? keep_place(table, where, canvas) : canvas->columns;
    for (int i = -1; (i = next_in_footer(table, where, i)) >= 0;) {
        const KeyRow *row = key_row(table, i);
        if (row->foot >= KEY_ABOVE)
            break;
        int need = footer_width(row);
        if (row->group == but || (narrow && (row->from == '?' || row->from == '\r')))
            continue;
        if (column + need > end)
            break;
        column += canvas_text(canvas, line, column, need, ROLE_KEY, row->shown) + 1;
        column += canvas_text(canvas, line, column, need, ROLE_DIM, row->name) + 2;
    }
}

int key_above(const KeyTable *table, unsigned where, Canvas *canvas, int line, int column, int end)
{
    int at = column;
    for (int i = -1; (i = next_in_footer(table, where, i)) >= 0;) {
        const KeyRow *row = key_row(table, i);
        if (row->foot < KEY_ABOVE)
            continue;
        if (at + footer_width(row) + 2 > end)
            break;
        canvas_put(canvas, line, at, ' ', ROLE_DIM);
        at += 1 + canvas_text(canvas, line, at + 1, end - at, ROLE_KEY, row->shown);
        canvas_put(canvas, line, at, ' ', ROLE_DIM);
        at += 1 + canvas_text(canvas, line, at + 1, end - at, ROLE_DIM, row->name);
        canvas_put(canvas, line, at, ' ', ROLE_DIM);
    }
    return at > column ? at + 1 : at;
}

/* Whether the `length` bytes of a word are somewhere in the text. */
static bool has_word(const char *text, const char *word, size_t length)
{
    for (; strlen(text) >= length; text++) {
        size_t i = 0;
        while (i < length && tolower((unsigned char)text[i]) == tolower((unsigned char)word[i]))
            i++;
        if (i == length)
            return true;
        if (!*text)
            break;
    }
    return false;
}

bool key_matches(const KeyTable *table, const KeyRow *row, const char *sought)
{
    for (const char *word = sought; *word;) {
        size_t length = strcspn(word, " ");
        if (length > 0 && !has_word(row->name, word, length) &&
            !has_word(row->help, word, length) &&
            !has_word(table->titles[row->group], word, length))
            return false;
        word += length;
        word += strspn(word, " ");
    }
    return true;
}

void key_places(const KeyTable *table, const KeyRow *row, const char *stage, char *out, size_t size)
{
    int count = 0;
    char named[128] = "";
    for (int i = 0; i < table->place_count; i++)
        if (row->where & table->places[i].where)
            text_append(named, sizeof named, "%s%s", count++ > 0 ? ", " : "",
                        table->places[i].name);
    if (count > PLACES_NAMED)
        text_copy(named, sizeof named, count < table->place_count ? "most screens" : "everywhere");
    text_copy(out, size, "");
    text_append(out, size, "%s%s%s", stage, stage[0] ? ": " : "", named);
}
