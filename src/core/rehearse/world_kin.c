/* world_kin.c - a lane like the program's own: its motion, its wear, and its friction law with
 * other constants, drawn more widely than the belief's. All numbers assumed. */
#include "core/rehearse/world.h"

const Spreads WORLD_KIN_SPREADS = {.volume = 0.20,
                                   .lane = 0.10,
                                   .board = 0.08,
                                   .dry = 0.10,
                                   .film = 0.12,
                                   .fade = 0.12,
                                   .pick_middle = 1.0,
                                   .pick = 0.45,
                                   .carry_middle = 1.0,
                                   .carry = 0.8,
                                   .mph = 0.30,
                                   .launch_deg = 0.10,
                                   .tired_mph = 0.10};

const Senses WORLD_KIN_SENSES = {.bad_share = 0.08,
                                 .bad_deviations = 2.5,
                                 .told_share = 0.85,
                                 .eye_boards = 0.5,
                                 .eye_feet = 1.0,
                                 .arrows_boards = 0.5,
                                 .breakpoint_boards = 1.0,
                                 .read_ft = 2.0,
                                 .random_reads = 0.0,
                                 .speed_shown = 0.5};

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    world_draw(truth, sheet, &WORLD_KIN_SPREADS, rng);
}

/* Boards give up their oil unevenly, to the others' balls and to this one. */
static void wear(Truth *truth, Side lane, const Roll *roll, double shift_boards, Cover cover)
{
    Track track;
    track_of(roll, shift_boards, &track);
    track_grain(&track, &truth->others[lane].grain);
    wear_track(&truth->oil[lane], &track, cover, truth->rate);
}

const World WORLD_KIN = {.name = "kin",
                         .sentence = "lanes as the program models them, with other constants",
                         .senses = &WORLD_KIN_SENSES,
                         .every = 1,
                         .draw = draw,
                         .roll = world_roll,
                         .arrive = world_arrive,
                         .aim = world_aim,
                         .wear = wear,
                         .people = true};
