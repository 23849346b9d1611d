/* world_blunt.c - a bowler who sees and repeats badly (assumed). */
#include "core/rehearse/world.h"

static const Senses SENSES = {.bad_share = 0.20,
                              .bad_deviations = 2.2,
                              .told_share = 0.50,
                              .eye_boards = 1.0,
                              .eye_feet = 2.5,
                              .arrows_boards = 1.2,
                              .breakpoint_boards = 3.0,
                              .read_ft = 2.6,
                              .random_reads = 1.0 / 3.0,
                              .speed_shown = 0.3};

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    world_draw(truth, sheet, &WORLD_SPREADS, rng);
}

const World WORLD_BLUNT = {
    .name = "blunt",
    .sentence = "a bowler who sees and repeats badly, and reports half of the bad releases",
    .senses = &SENSES,
    .every = 1,
    .draw = draw,
    .roll = world_roll,
    .arrive = world_arrive,
    .aim = world_aim,
    .wear = world_wear};
