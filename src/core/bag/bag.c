/* bag.c - finding balls in a bag. */
#include "core/bag/bag.h"

#include <string.h>

const char *const STYLE_NAMES[STYLE_COUNT + 1] = {"one-handed", "two-handed", "no-thumb", 0};
const char *const HAND_NAMES[3] = {"right", "left", 0};

Bowler bowler_default(void)
{
    return (Bowler){.hand = HAND_RIGHT,
                    .style = STYLE_ONE_HANDED,
                    .mph = 18.0,
                    .rpm = 330.0,
                    .rotation_deg = 50.0,
                    .tilt_deg = 12.0,
                    .loft_ft = 1.0,
                    .laydown_offset_boards = 6.0,
                    .scatter = {.launch_deg = 0.15, .mph = 0.2, .rpm = 8.0, .laydown_boards = 0.3}};
}

const Ball *bag_slot(const Bag *bag, int slot)
{
    for (int i = 0; slot > 0 && i < bag->count; i++)
        if (bag->balls[i].slot == slot)
            return &bag->balls[i];
    return 0;
}

const Ball *bag_find(const Bag *bag, const char *id)
{
    for (int i = 0; i < bag->count; i++)
        if (strcmp(bag->balls[i].id, id) == 0)
            return &bag->balls[i];
    return 0;
}
