/* commands.c - the table made from commands.def, and finding things in it. */
#include "ui/input/commands.h"

const CommandRow CMD_ROWS[CMD_COUNT] = {
#define COMMAND(id, group, where, from, to, also, shown, name, help, foot)                         \
    [CMD_##id] = {GROUP_##group, where, from, to, also, shown, name, help, foot},
#include "ui/input/commands.def"
#undef COMMAND
};

const char *const GROUP_TITLES[GROUP_COUNT] = {
    [GROUP_HIT] = "Log a shot, first key: what it hit",
    [GROUP_READ] = "Second key: how it read the lane",
    [GROUP_RELEASE] = "Third key: how it left your hand",
    [GROUP_LEAVE] = "Then, if you like: what it left",
    [GROUP_SHOT] = "While a shot is being typed",
    [GROUP_PLAN] = "What to throw next",
    [GROUP_EVENT] = "The event",
    [GROUP_SPARES] = "Picking up what is left",
    [GROUP_PICK] = "Choosing an earlier shot",
    [GROUP_LOOK] = "Looking at the bag, or at the games ahead",
    [GROUP_BAG] = "Changing the bag",
    [GROUP_FORM] = "The fields of a ball",
    [GROUP_ASK] = "When asked",
    [GROUP_SCREEN] = "The screen",
};

CommandId command_find(unsigned where, uint32_t key)
{
    for (int i = 0; key != PRESS_NONE && i < CMD_COUNT; i++) {
        const CommandRow *row = &CMD_ROWS[i];
        if ((row->where & where) && ((key >= row->from && key <= row->to) || key == row->also))
            return (CommandId)i;
    }
    return CMD_NOTHING;
}

int command_footer(unsigned where, CommandId out[CMD_COUNT])
{
    int count = 0;
    for (int i = 0; i < CMD_COUNT; i++) {
        if (!(CMD_ROWS[i].where & where) || CMD_ROWS[i].foot == 0)
            continue;
        int at = count++;
        for (; at > 0 && CMD_ROWS[out[at - 1]].foot > CMD_ROWS[i].foot; at--)
            out[at] = out[at - 1];
        out[at] = (CommandId)i;
    }
    return count;
}
