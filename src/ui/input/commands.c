/* commands.c - the table made from commands.def, and finding things in it. */
#include "ui/input/commands.h"

const CommandRow COMMAND_ROWS[COMMAND_COUNT] = {
#define COMMAND(group, where, from, to, also, run, argument, foot, shown, name, help)              \
    {GROUP_##group, where, from, to, also, run, argument, foot, shown, name, help},
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
    [GROUP_SPARES] = "Picking up spares",
    [GROUP_PICK] = "Choosing an earlier shot",
    [GROUP_LOOK] = "The bag, and the games ahead",
    [GROUP_BAG] = "Changing the bag",
    [GROUP_FORM] = "The fields of a ball",
    [GROUP_ASK] = "When asked",
    [GROUP_SCREEN] = "The screen",
};

const CommandRow *command_find(unsigned where, uint32_t key)
{
    for (int i = 0; key != PRESS_NONE && i < COMMAND_COUNT; i++) {
        const CommandRow *row = &COMMAND_ROWS[i];
        if ((row->where & where) && ((key >= row->from && key <= row->to) || key == row->also))
            return row;
    }
    return NULL;
}

const CommandRow *command_of(CommandRun *run, int argument)
{
    for (int i = 0; i < COMMAND_COUNT; i++)
        if (COMMAND_ROWS[i].run == run && COMMAND_ROWS[i].argument == argument)
            return &COMMAND_ROWS[i];
    return NULL;
}

int command_footer(unsigned where, const CommandRow *out[COMMAND_COUNT])
{
    int count = 0;
    for (int i = 0; i < COMMAND_COUNT; i++) {
        const CommandRow *row = &COMMAND_ROWS[i];
        if (!(row->where & where) || row->foot == 0)
            continue;
        int at = count++;
        for (; at > 0 && out[at - 1]->foot > row->foot; at--)
            out[at] = out[at - 1];
        out[at] = row;
    }
    return count;
}
