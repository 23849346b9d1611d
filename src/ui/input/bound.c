/* bound.c - own keys put into a copy of the table of commands, and what is refused. */
#include "ui/input/bound.h"

#include <string.h>

#include "base/text.h"

static const unsigned WHERE[PLACE_COUNT] = {[PLACE_LANE] = IN_LANE | IN_BOWL,
                                            [PLACE_SHOT] = IN_ENTRY,
                                            [PLACE_WHAT_IF] = IN_SUPPOSE,
                                            [PLACE_SPARES] = IN_SPARES,
                                            [PLACE_BAG] = IN_BAG,
                                            [PLACE_BLOCK] = IN_BLOCK,
                                            [PLACE_OIL] = IN_OIL,
                                            [PLACE_LOG] = IN_LOG};

static const struct {
    uint32_t key;
    const char *shown;
} NAMED[NAMED_COUNT] = {[NAMED_SPACE] = {' ', "Space"},
                        [NAMED_TAB] = {'\t', "Tab"},
                        [NAMED_UP] = {PRESS_UP, "↑"},
                        [NAMED_DOWN] = {PRESS_DOWN, "↓"},
                        [NAMED_LEFT] = {PRESS_LEFT, "←"},
                        [NAMED_RIGHT] = {PRESS_RIGHT, "→"},
                        [NAMED_PAGE_UP] = {PRESS_PAGE_UP, "PgUp"},
                        [NAMED_PAGE_DOWN] = {PRESS_PAGE_DOWN, "PgDn"},
                        [NAMED_HOME] = {PRESS_HOME, "Home"},
                        [NAMED_END] = {PRESS_END, "End"},
                        [NAMED_DELETE] = {PRESS_DELETE, "Del"}};

static uint32_t code_of(const char *key, char shown[8])
{
    for (int i = 0; i < NAMED_COUNT; i++)
        if (strcmp(key, NAMED_KEYS[i]) == 0) {
            text_copy(shown, 8, NAMED[i].shown);
            return NAMED[i].key;
        }
    text_copy(shown, 8, key);
    return (unsigned char)key[0];
}

bool bound_may(const KeyRow *row)
{
    bool kept = row->from == PRESS_ESC || row->from == '\r' || row->from == PRESS_BACKSPACE ||
                row->from == '?' || row->from == PRESS_REDRAW;
    bool pair = strchr(row->shown, ' ') != NULL; /* "[ ]": each key has its own direction */
    return row->from == row->to && !kept && !pair;
}

static int row_of(const char *action)
{
    for (int i = 0; i < COMMAND_COUNT; i++)
        if (strcmp(COMMAND_ROWS[i].id, action) == 0)
            return i;
    return -1;
}

/* The row as one binding has it: its key alone, in that place alone. */
static CommandRow bound_row(const CommandRow *row, const Binding *binding, char shown[8])
{
    CommandRow bound = *row;
    bound.key.where &= WHERE[binding->place];
    bound.usual = row->key.from;
    bound.key.from = bound.key.to = code_of(binding->key, shown);
    bound.key.also = 0;
    bound.key.shown = shown;
    return bound;
}

void bound_make(Bound *bound, const Bindings *bindings)
{
    int count = 0;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        CommandRow rest = COMMAND_ROWS[i];
        for (int k = 0; k < bindings->count; k++)
            if (row_of(bindings->item[k].action) == i) {
                bound->rows[count++] =
                    bound_row(&COMMAND_ROWS[i], &bindings->item[k], bound->shown[k]);
                rest.key.where &= ~WHERE[bindings->item[k].place];
            }
        if (rest.key.where)
            bound->rows[count++] = rest;
    }
    bound->table = COMMAND_TABLE;
    bound->table.rows = bound->rows;
    bound->table.count = count;
}

const KeyTable *bound_table(Bound *bound, const Bindings *bindings)
{
    if (!bindings || bindings->count == 0)
        return NULL;
    bound_make(bound, bindings);
    return &bound->table;
}

static bool one_fits(const Bindings *bindings, int index, char *why, size_t size)
{
    const Binding *binding = &bindings->item[index];
    const char *ids[COMMAND_COUNT + 1] = {0};
    int at = row_of(binding->action);
    text_copy(why, size, "");
    if (at < 0) {
        for (int i = 0; i < COMMAND_COUNT; i++)
            ids[i] = COMMAND_ROWS[i].id;
        const char *near = text_nearest(binding->action, ids);
        text_append(why, size, "no action is called \"%s\"", binding->action);
        if (near)
            text_append(why, size, "; did you mean \"%s\"?", near);
        return false;
    }
    const KeyRow *row = &COMMAND_ROWS[at].key;
    if (!(row->where & WHERE[binding->place])) {
        text_append(why, size, "\"%s\" does nothing in \"%s\"; allowed:", binding->action,
                    PLACE_NAMES[binding->place]);
        const char *comma = "";
        for (int place = 0; place < PLACE_COUNT; place++)
            if (row->where & WHERE[place]) {
                text_append(why, size, "%s \"%s\"", comma, PLACE_NAMES[place]);
                comma = ",";
            }
        if (!comma[0])
            text_append(why, size, " nowhere; it keeps its key");
    } else if (!bound_may(row)) {
        text_append(why, size,
                    "\"%s\" keeps %s; only actions with one key that is not Esc, Enter, "
                    "Backspace or ? can have another",
                    binding->action, row->shown);
    }
    for (int i = 0; i < index && !why[0]; i++)
        if (bindings->item[i].place == binding->place &&
            strcmp(bindings->item[i].action, binding->action) == 0)
            text_append(why, size, "\"%s\" has a key in \"%s\" already; allowed: one",
                        binding->action, PLACE_NAMES[binding->place]);
    return !why[0];
}

static bool holds(const KeyRow *row, uint32_t key)
{
    return (key >= row->from && key <= row->to) || key == row->also;
}

/* The other action that its key has in one of its states; NULL: none. */
static const CommandRow *rival(const Bound *bound, const Binding *binding)
{
    char shown[8];
    uint32_t key = code_of(binding->key, shown);
    for (int i = 0; i < bound->table.count; i++) {
        const CommandRow *own = &bound->rows[i];
        if (!own->usual || own->key.from != key || strcmp(own->id, binding->action) != 0)
            continue;
        for (int k = 0; k < bound->table.count; k++) {
            const CommandRow *other = &bound->rows[k];
            if (k != i && (other->key.where & own->key.where) && holds(&other->key, key))
                return other;
        }
    }
    return NULL;
}

int bound_refuses(const Bindings *bindings, char *why, size_t size)
{
    Bound bound;
    for (int i = 0; i < bindings->count; i++)
        if (!one_fits(bindings, i, why, size))
            return i;
    bound_make(&bound, bindings);
    for (int i = bindings->count - 1; i >= 0; i--) { /* of two the later one is told */
        const CommandRow *other = rival(&bound, &bindings->item[i]);
        if (other) {
            text_copy(why, size, "");
            text_append(why, size,
                        "%s is the key of \"%s\" (%s) there too; allowed: a key that is "
                        "free, or give that one another",
                        bindings->item[i].key, other->id, other->key.name);
            return i;
        }
    }
    return -1;
}
