/* bag.c - finding balls in a bag. */
#include "core/bag/bag.h"

#include <string.h>

const char *const STYLE_NAMES[STYLE_COUNT + 1] = {"one-handed", "two-handed", "no-thumb", 0};
const char *const HAND_NAMES[3] = {"right", "left", 0};
const char *const SOURCE_NAMES[SOURCE_COUNT + 1] = {"said", "preset", "measured", "learnt", 0};

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

SpareRelease bowler_spare_release(const Bowler *bowler)
{
    if (bowler->spare_release.said)
        return bowler->spare_release;
    return (SpareRelease){.mph = bowler->mph,
                          .rpm = 0.6 * bowler->rpm,
                          .rotation_deg = bowler->rotation_deg < 10.0 ? bowler->rotation_deg : 10.0,
                          .tilt_deg = bowler->tilt_deg < 5.0 ? bowler->tilt_deg : 5.0};
}

Bowler bowler_for_spares(const Bowler *bowler)
{
    SpareRelease release = bowler_spare_release(bowler);
    Bowler straight = *bowler;
    straight.mph = release.mph;
    straight.rpm = release.rpm;
    straight.rotation_deg = release.rotation_deg;
    straight.tilt_deg = release.tilt_deg;
    return straight;
}

static bool spare_release_same(const SpareRelease *a, const SpareRelease *b)
{
    return a->said == b->said && a->mph == b->mph && a->rpm == b->rpm &&
           a->rotation_deg == b->rotation_deg && a->tilt_deg == b->tilt_deg;
}

static bool scatter_same(const Scatter *a, const Scatter *b)
{
    return a->launch_deg == b->launch_deg && a->mph == b->mph && a->rpm == b->rpm &&
           a->laydown_boards == b->laydown_boards;
}

static bool from_same(const BowlerFrom *a, const BowlerFrom *b)
{
    return a->level == b->level && a->style == b->style && a->mph == b->mph && a->rpm == b->rpm &&
           a->rotation == b->rotation && a->tilt == b->tilt && a->loft == b->loft &&
           a->laydown_offset == b->laydown_offset && a->scatter == b->scatter;
}

bool bowler_from_nothing(const BowlerFrom *from)
{
    return from_same(from, &(BowlerFrom){.level = 0});
}

static bool before_same(const BowlerBefore *a, const BowlerBefore *b)
{
    return a->mph == b->mph && a->mph_from == b->mph_from && a->has_scatter == b->has_scatter &&
           scatter_same(&a->scatter, &b->scatter) && a->scatter_from == b->scatter_from;
}

bool bowler_same(const Bowler *a, const Bowler *b)
{
    return strcmp(a->name, b->name) == 0 && a->hand == b->hand && a->style == b->style &&
           a->mph == b->mph && a->rpm == b->rpm && a->rotation_deg == b->rotation_deg &&
           a->rotation_least_deg == b->rotation_least_deg &&
           a->rotation_most_deg == b->rotation_most_deg && a->tilt_deg == b->tilt_deg &&
           a->loft_ft == b->loft_ft && a->laydown_offset_boards == b->laydown_offset_boards &&
           scatter_same(&a->scatter, &b->scatter) &&
           spare_release_same(&a->spare_release, &b->spare_release) &&
           from_same(&a->from, &b->from) && before_same(&a->before, &b->before);
}

bool bag_same(const Bag *a, const Bag *b)
{
    if (a->count != b->count || !bowler_same(&a->bowler, &b->bowler))
        return false;
    for (int i = 0; i < a->count; i++)
        if (!ball_same(&a->balls[i], &b->balls[i]))
            return false;
    return true;
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

bool bag_for_spares(const Bag *bag, const Ball *ball, bool in_slots)
{
    bool other = false;
    for (int i = 0; i < bag->count; i++)
        other = other ||
                (bag->balls[i].cover != COVER_POLYESTER && (!in_slots || bag->balls[i].slot > 0));
    return other && ball->cover == COVER_POLYESTER;
}

bool bag_filled(const Bag *bag)
{
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(bag, slot))
            return true;
    return false;
}

int bag_order(const Bag *bag, int out[BAG_BALLS_MAX])
{
    int count = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        if (bag_slot(bag, slot))
            out[count++] = (int)(bag_slot(bag, slot) - bag->balls);
    for (int i = 0; i < bag->count; i++)
        if (bag->balls[i].slot == 0)
            out[count++] = i;
    return count;
}
