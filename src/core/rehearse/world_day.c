/* world_day.c - see world_day.h. */
#include "core/rehearse/world_day.h"

#include <math.h>
#include <string.h>

typedef struct Own {
    double dry[SIDE_COUNT];
    double offsets[OFFSETS_COUNT]; /* boards that nothing else explains */
    int which[BAG_SLOTS];          /* the slots' balls, by belief_ball */
} Own;

/* One draw of what is uncertain about the particle's offsets: the covariance's triangular root
 * (Cholesky) times as many normals. */
static void draw_offsets(const Day *day, double offsets[OFFSETS_COUNT], Rng *rng)
{
    static const double TINY = 1e-12;
    double root[OFFSETS_COUNT][OFFSETS_COUNT] = {{0}}, even[OFFSETS_COUNT];
    for (int i = 0; i < OFFSETS_COUNT; i++) {
        even[i] = rng_normal(rng);
        for (int j = 0; j <= i; j++) {
            double sum = day->after->doubt.of[i][j];
            for (int k = 0; k < j; k++)
                sum -= root[i][k] * root[j][k];
            root[i][j] = i == j ? sqrt(fmax(sum, 0.0)) : root[j][j] > TINY ? sum / root[j][j] : 0.0;
        }
        offsets[i] = day->after->particles[day->particle].offsets[i];
        for (int j = 0; j <= i; j++)
            offsets[i] += root[i][j] * even[j];
    }
}

static void draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    (void)sheet; /* the film says what has become of it */
    const Day *day = truth->given;
    const Particle *p = &day->after->particles[day->particle];
    Own *own = truth->own;
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        world_stretch(&day->film[lane][p->film], 1.0 + p->part[PART_LONGER], &truth->oil[lane]);
        oil_scale(&truth->oil[lane], p->part[PART_VOLUME + lane]);
        own->dry[lane] = p->part[PART_DRY + lane];
    }
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        if (!truth->filled[slot])
            continue;
        const Ball *ball = bag_slot(truth->bag, slot + 1);
        motion_body(ball, &truth->body[slot]);
        batch_ball(&truth->body[slot], &truth->batch[slot]);
        own->which[slot] = belief_ball(day->after, ball->id);
    }
    draw_offsets(day, own->offsets, rng);
    truth->rate = belief_rate(p->film);
    truth->mph = p->part[PART_MPH];
    truth->launch_deg = p->part[PART_LAUNCH_DEG];
    truth->tired = 0.0;
}

static double offset_of(const Truth *truth, Side lane, int slot, double laydown, double turn)
{
    const Own *own = truth->own;
    OffsetsAt at = offsets_at(lane, own->which[slot - 1], laydown, turn);
    return offsets_mean(&at, own->offsets);
}

/* What nothing explains shows from the breakpoint on. */
static void roll_day(const Truth *truth, Side lane, int slot, const Delivery *delivery, Rng *luck,
                     Roll *roll)
{
    (void)luck;
    MotionBody body = truth->body[slot - 1];
    body.friction.mu_dry *= ((const Own *)truth->own)->dry[lane];
    motion_roll(&body, &truth->oil[lane], delivery, roll);
    if (roll->gutter)
        return;
    double from = roll->breakpoint_ft;
    double by = offset_of(truth, lane, slot, delivery->laydown_board, roll->breakpoint_board);
    for (int i = 0; i < roll->count; i++)
        if (roll->path[i].ft > from)
            roll->path[i].board += by * (roll->path[i].ft - from) / (LANE_LENGTH_FT - from);
    roll->entry_board += by;
}

static void arrive(const Truth *truth, Side lane, int slot, const BatchThrow *throws, int count,
                   Arrival *arrivals)
{
    BatchThrow here[FORECAST_DRAWS];
    memcpy(here, throws, (size_t)count * sizeof *here);
    for (int i = 0; i < count; i++)
        here[i].dry_scale *= (float)((const Own *)truth->own)->dry[lane];
    world_arrive(truth, lane, slot, here, count, arrivals);
    for (int i = 0; i < count; i++)
        if (!arrivals[i].gutter)
            arrivals[i].board += offset_of(truth, lane, slot, throws[i].delivery.laydown_board,
                                           arrivals[i].breakpoint);
}

const World WORLD_DAY = {.name = "day",
                         .sentence = "the lanes of a day, as they are believed to have been",
                         .senses = &WORLD_KIN_SENSES,
                         .own_size = sizeof(Own),
                         .every = 4,
                         .draw = draw,
                         .roll = roll_day,
                         .arrive = arrive,
                         .aim = world_aim_by_rolls,
                         .wear = world_wear,
                         .people = true};
