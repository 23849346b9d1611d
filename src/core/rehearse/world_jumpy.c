/* world_jumpy.c - sometimes something jumps: oil is carried far down one lane, the bowler's legs
 * suddenly tire or recover, or the launch shifts to one side or back. All numbers assumed. */
#include "core/rehearse/world.h"

#include <math.h>

#define JUMP_CHANCE 0.06 /* before a shot: about once in sixteen */
#define SPILL_SHARE 0.4  /* of jumps; the rest is half the legs', half the launch's */
#define TIRED_MPH 1.0
#define LAUNCH_DEG 0.3
#define SPILL_UNITS 5.0  /* in the middle; about a micrometre */
#define SPILL_FT 9.0     /* past the end of the oil */
#define SPILL_BOARDS 5.0 /* to either side, falling off evenly */

typedef struct Own {
    bool tired, turned;
    double turned_deg;
} Own;

/* Oil carried past the end of the pattern, across the boards being played. */
static void spill(Oil *oil, Rng *rng)
{
    double middle = rng_between(rng, 6.0, 16.0);
    for (int j = 0; j < OIL_STATIONS; j++) {
        double ft = j * OIL_STATION_FT, past = ft - oil->length_ft;
        if (past < -1.0 || past > SPILL_FT)
            continue;
        for (int b = 1; b <= LANE_BOARDS; b++)
            oil->units[j][b - 1] += SPILL_UNITS * fmax(0.0, 1.0 - fabs(b - middle) / SPILL_BOARDS);
    }
}

static void happen(Truth *truth, Side lane, Rng *rng)
{
    Own *own = truth->own;
    if (rng_uniform(rng) >= JUMP_CHANCE)
        return;
    double what = rng_uniform(rng);
    if (what < SPILL_SHARE) {
        spill(&truth->oil[lane], rng);
    } else if (what < 0.5 * (1.0 + SPILL_SHARE)) {
        truth->mph += own->tired ? TIRED_MPH : -TIRED_MPH;
        own->tired = !own->tired;
    } else {
        if (!own->turned)
            own->turned_deg = rng_uniform(rng) < 0.5 ? -LAUNCH_DEG : LAUNCH_DEG;
        truth->launch_deg += own->turned ? -own->turned_deg : own->turned_deg;
        own->turned = !own->turned;
    }
}

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    world_draw(truth, sheet, &WORLD_SPREADS, rng);
}

const World WORLD_JUMPY = {.name = "jumpy",
                           .sentence =
                               "now and then the lane, the bowler's speed or the launch jumps",
                           .senses = &WORLD_SENSES,
                           .own_size = sizeof(Own),
                           .every = 1,
                           .draw = draw,
                           .happen = happen,
                           .roll = world_roll,
                           .arrive = world_arrive,
                           .aim = world_aim,
                           .wear = world_wear};
