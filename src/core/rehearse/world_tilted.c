/* world_tilted.c - each lane has its own slopes: an unknown smooth function of the board where the
 * ball turns is added to where it hits. Lanes differ by a few boards (assumed). */
#include "core/rehearse/world.h"

#include <math.h>

#define TILT_BOARDS 1.5 /* standard deviation of what is added */
#define TILT_LENGTH 5.0 /* boards over which it is similar: correlation exp(-1/2) */
enum { PLACES = LANE_BOARDS + 2, REACH = 15 }; /* boards 0..40; how far a bump is felt */

typedef struct Own {
    double slope[SIDE_COUNT][PLACES];
} Own;

/* Bumps of random height at every board, each shaped like a bell. */
static void draw_slope(double slope[PLACES], Rng *rng)
{
    double bump[PLACES + 2 * REACH], square = 0.0;
    for (int k = 0; k < PLACES + 2 * REACH; k++)
        bump[k] = rng_normal(rng);
    for (int d = -REACH; d <= REACH; d++)
        square += exp(-2.0 * d * d / (TILT_LENGTH * TILT_LENGTH));
    for (int b = 0; b < PLACES; b++) {
        slope[b] = 0.0;
        for (int d = -REACH; d <= REACH; d++)
            slope[b] += bump[b + REACH + d] * exp(-d * d / (TILT_LENGTH * TILT_LENGTH));
        slope[b] *= TILT_BOARDS / sqrt(square);
    }
}

static double slope_at(const Truth *truth, Side lane, double board)
{
    const double *slope = ((const Own *)truth->own)->slope[lane];
    double at = fmax(0.0, fmin(board, PLACES - 1.0));
    int i = (int)fmin(at, PLACES - 2.0);
    return slope[i] + (at - i) * (slope[i + 1] - slope[i]);
}

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    Own *own = truth->own;
    world_draw(truth, sheet, &WORLD_SPREADS, rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        draw_slope(own->slope[lane], rng);
}

/* Bends the path from its breakpoint on. */
static void roll_tilted(const Truth *truth, Side lane, int slot, const Delivery *delivery,
                        Rng *luck, Roll *roll)
{
    world_roll(truth, lane, slot, delivery, luck, roll);
    if (roll->gutter)
        return;
    double by = slope_at(truth, lane, roll->breakpoint_board), from = roll->breakpoint_ft;
    for (int i = 0; i < roll->count; i++)
        if (roll->path[i].ft > from)
            roll->path[i].board += by * (roll->path[i].ft - from) / (LANE_LENGTH_FT - from);
    roll->entry_board += by;
}

static void arrive(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                   Arrival *arrivals)
{
    world_arrive(truth, lane, slot, throws, count, arrivals);
    for (int i = 0; i < count; i++)
        if (!arrivals[i].gutter)
            arrivals[i].board += slope_at(truth, lane, arrivals[i].breakpoint);
}

const World WORLD_TILTED = {.name = "tilted",
                            .sentence = "each lane has its own slopes, felt where the ball turns",
                            .senses = &WORLD_SENSES,
                            .own_size = sizeof(Own),
                            .every = 1,
                            .draw = draw,
                            .roll = roll_tilted,
                            .arrive = arrive,
                            .aim = world_aim_by_rolls,
                            .wear = world_wear};
