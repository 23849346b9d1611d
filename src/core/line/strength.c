/* strength.c - the order of a bag's balls. */
#include "core/line/strength.h"

#include <math.h>

#include "base/units.h"

#define LAYDOWN_BOARD 20.0
#define RULE_FT 31.0  /* breakpoint board = length less this */
#define FT_USUAL 45.0 /* each foot sooner than this counts BOARDS_A_FOOT; assumed */
#define BOARDS_A_FOOT 0.25

static Delivery reference(const Oil *sheet, const Bowler *bowler)
{
    Delivery delivery = delivery_of(bowler, delivery_stance(bowler, LAYDOWN_BOARD), LAYDOWN_BOARD);
    double length_ft = fmax(oil_length_ft(sheet), RULE_FT + 1.0);
    double across_m = (LAYDOWN_BOARD - (length_ft - RULE_FT)) * LANE_BOARD_M;
    delivery.launch_deg = deg_from_rad(atan(across_m / m_from_ft(length_ft)));
    return delivery;
}

Strength strength_of(const MotionBody *body, const Oil *sheet, const Bowler *bowler)
{
    Delivery delivery = reference(sheet, bowler);
    Roll roll;
    motion_roll(body, sheet, &delivery, &roll);
    const PathPoint *end = &roll.path[roll.count - 1];
    double straight = delivery.laydown_board -
                      tan(rad_from_deg(delivery.launch_deg)) * m_from_ft(end->ft) / LANE_BOARD_M;
    Strength strength = {.hook_boards = end->board - straight,
                         .hook_ft = isnan(roll.hook_ft) ? LANE_LENGTH_FT : roll.hook_ft};
    strength.score = strength.hook_boards + BOARDS_A_FOOT * (FT_USUAL - strength.hook_ft);
    return strength;
}

static bool stronger(const Bag *bag, const Strength *strength, int a, int b)
{
    bool spare_a = bag_slot(bag, a)->cover == COVER_POLYESTER;
    bool spare_b = bag_slot(bag, b)->cover == COVER_POLYESTER;
    return spare_a != spare_b ? spare_b : strength[a - 1].score > strength[b - 1].score;
}

int strength_rank(const Bag *bag, const Strength strength[BAG_SLOTS], int slots[BAG_SLOTS])
{
    int count = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        if (!bag_slot(bag, slot))
            continue;
        int at = count++;
        for (; at > 0 && stronger(bag, strength, slot, slots[at - 1]); at--)
            slots[at] = slots[at - 1];
        slots[at] = slot;
    }
    return count;
}

int strength_order(const Bag *bag, const Oil *sheet, int slots[BAG_SLOTS],
                   Strength strength[BAG_SLOTS])
{
    Strength own[BAG_SLOTS], *all = strength ? strength : own;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        MotionBody body;
        all[slot - 1] = (Strength){0};
        if (!ball)
            continue;
        motion_body(ball, &body);
        all[slot - 1] = strength_of(&body, sheet, &bag->bowler);
    }
    return strength_rank(bag, all, slots);
}
