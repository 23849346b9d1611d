/* commands.c - the table made from commands.def, and finding things in it. */
#include "ui/input/commands.h"

const CommandRow COMMAND_ROWS[COMMAND_COUNT] = {
#define COMMAND(id, group, where, from, to, also, run, argument, foot, shown, name, help)          \
    {{GROUP_##group, where, from, to, also, foot, shown, name, help}, id, run, argument, 0},
#include "ui/input/commands.def"
#undef COMMAND
};

const char *const GROUP_TITLES[GROUP_COUNT] = {
    [GROUP_HIT] = "Log a shot, first key: where it hit",
    [GROUP_READ] = "Second key: how it read the lane",
    [GROUP_RELEASE] = "Third key: how you released it",
    [GROUP_LEAVE] = "Then, if you like: what it left",
    [GROUP_SHOT] = "While you type a shot",
    [GROUP_PLAN] = "What to throw next",
    [GROUP_EVENT] = "The event",
    [GROUP_SUPPOSE] = "What if",
    [GROUP_BOWL] = "In a rehearsal",
    [GROUP_SPARES] = "Picking up spares",
    [GROUP_PICK] = "Choosing an earlier shot",
    [GROUP_LOG] = "The log: score sheet and shots",
    [GROUP_OIL] = "The oil",
    [GROUP_LOOK] = "The bag, and the games ahead",
    [GROUP_BAG] = "Changing the bag",
    [GROUP_FORM] = "The fields of a ball",
    [GROUP_ASK] = "When asked",
    [GROUP_SCREEN] = "The screen",
};

static const KeyPlace PLACES[] = {
    {IN_LANE, "lane"},
    {IN_BOWL | IN_ROLL, "rehearsal"},
    {IN_ENTRY, "typing a shot"},
    {IN_PICK, "earlier shots"},
    {IN_SPARES, "spares"},
    {IN_BAG, "bag"},
    {IN_KINDS, "adding a ball"},
    {IN_FORM, "a ball's fields"},
    {IN_BLOCK, "block"},
    {IN_OIL, "oil"},
    {IN_LOG, "log"},
    {IN_TOLD, "a frame's pins"},
    {IN_TARGET, "the target"},
    {IN_SUPPOSE, "what if"},
    {IN_HELP, "help"},
    {IN_WORDS, "words"},
    {IN_SEARCH, "search"},
    {IN_ASK, "when asked"},
    {IN_SMALL, "a small window"},
};

const KeyTable COMMAND_TABLE = {.of = "event",
                                .rows = COMMAND_ROWS,
                                .row_size = sizeof COMMAND_ROWS[0],
                                .count = COMMAND_COUNT,
                                .titles = GROUP_TITLES,
                                .group_count = GROUP_COUNT,
                                .places = PLACES,
                                .place_count = sizeof PLACES / sizeof *PLACES};

const CommandRow *command_find(const KeyTable *table, unsigned where, uint32_t key)
{
    return (const CommandRow *)key_find(table, where, key);
}

const CommandRow *command_of(const KeyTable *table, unsigned where, CommandRun *run, int argument)
{
    for (int i = 0; i < table->count; i++) {
        const CommandRow *row = (const CommandRow *)key_row(table, i);
        if ((row->key.where & where) && row->run == run && row->argument == argument)
            return row;
    }
    return NULL;
}
