/* actions.c - the table made from actions.def, and finding things in it. */
#include "ui/actions.h"

const DoRow DO_ROWS[DO_COUNT] = {
#define DO(id, group, where, from, to, also, shown, name, help, foot)                              \
    [DO_##id] = {GROUP_##group, where, from, to, also, shown, name, help, foot},
#include "ui/actions.def"
#undef DO
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

DoId actions_find(unsigned where, uint32_t key)
{
    for (int i = 0; key != PRESS_NONE && i < DO_COUNT; i++) {
        const DoRow *row = &DO_ROWS[i];
        if ((row->where & where) && ((key >= row->from && key <= row->to) || key == row->also))
            return (DoId)i;
    }
    return DO_NOTHING;
}

int actions_footer(unsigned where, DoId out[DO_COUNT])
{
    int count = 0;
    for (int i = 0; i < DO_COUNT; i++) {
        if (!(DO_ROWS[i].where & where) || DO_ROWS[i].foot == 0)
            continue;
        int at = count++;
        for (; at > 0 && DO_ROWS[out[at - 1]].foot > DO_ROWS[i].foot; at--)
            out[at] = out[at - 1];
        out[at] = (DoId)i;
    }
    return count;
}
