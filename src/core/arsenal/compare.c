/* compare.c - pairs of balls that do the same job, gaps, surfaces that would help. */
#include <math.h>
#include <string.h>

#include "base/sort.h"
#include "core/arsenal/arsenal_parts.h"

/* An overlap this high is worth a change of surface, which must bring it down by that much and may
 * hardly cost the whole bag any value. All assumed. */
#define OVERLAP_MUCH 0.5
#define OVERLAP_LESS 0.2
#define GAP_LESS 0.02
#define VALUE_HAIR 0.005

/* An imaginary ball by the numbers that matter (assumed; a usual layout). */
#define IDEAL(rg, diff, inter, shell, strength, finish_, grit_)                                    \
    {                                                                                              \
        .id = "ideal", .name = "ideal", .pounds = 15.0, .rg_in = rg, .differential_in = diff,      \
        .intermediate_in = inter, .cover = shell, .cover_strength = strength,                      \
        .surface = {finish_, grit_, 0.0}, .pin_to_pap_in = 4.5, .mass_bias_deg = 50.0              \
    }

const IdealBall *arsenal_ideals(void)
{
    static const IdealBall IDEAL_BALLS[IDEALS] = {
        {IDEAL(2.48, 0.054, 0.018, COVER_SOLID, 1.05, FINISH_GRIT, 500), "strong solid, 500 grit"},
        {IDEAL(2.48, 0.054, 0.018, COVER_SOLID, 1.0, FINISH_GRIT, 2000), "strong solid, 2000 grit"},
        {IDEAL(2.58, 0.018, 0.0, COVER_URETHANE, 1.0, FINISH_GRIT, 1000), "urethane, 1000 grit"},
        {IDEAL(2.50, 0.050, 0.0, COVER_HYBRID, 1.0, FINISH_GRIT, 2000), "hybrid, 2000 grit"},
        {IDEAL(2.49, 0.052, 0.016, COVER_PEARL, 1.0, FINISH_GRIT, 3000), "strong pearl, 3000 grit"},
        {IDEAL(2.54, 0.036, 0.0, COVER_SOLID, 0.92, FINISH_GRIT, 4000), "weak solid, 4000 grit"},
        {IDEAL(2.56, 0.046, 0.0, COVER_PEARL, 0.9, FINISH_POLISH, 0), "clean pearl, polished"},
        {IDEAL(2.60, 0.032, 0.0, COVER_PEARL, 0.85, FINISH_POLISH, 0), "weak pearl, polished"}};
    return IDEAL_BALLS;
}

const char *arsenal_overlap_word(double share)
{
    return share < 0.10   ? "none"
           : share < 0.35 ? "little"
           : share < 0.65 ? "half"
           : share < 0.90 ? "mostly"
                          : "same";
}

static double overlap_of(const Arsenal *arsenal, const double *a, const double *b)
{
    double share = 0.0;
    for (int f = 0; f < STATE_FILMS; f++)
        if (fabs(a[f] - b[f]) <= ARSENAL_NEAR)
            share += arsenal_film_weight(arsenal, f);
    return share;
}

/* The strike balls in slots. */
static int strikers(const Arsenal *arsenal, const Bag *bag, int out[BAG_SLOTS])
{
    int count = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        if (ball && !arsenal->ball[ball - bag->balls].spare)
            out[count++] = (int)(ball - bag->balls);
    }
    return count;
}

static bool overlaps_more(const void *a, const void *b)
{
    return ((const Overlap *)a)->share > ((const Overlap *)b)->share;
}

static void find_overlaps(Arsenal *arsenal, const int *balls, int count)
{
    arsenal->overlap_count = 0;
    for (int i = 0; i < count; i++)
        for (int k = i + 1; k < count; k++) {
            const ArsenalBall *a = &arsenal->ball[balls[i]], *b = &arsenal->ball[balls[k]];
            Overlap overlap = {.a = balls[i],
                               .b = balls[k],
                               .share = overlap_of(arsenal, a->value, b->value),
                               .move_ft = b->at[0].line.hook_ft - a->at[0].line.hook_ft,
                               .entry_deg = b->at[0].line.entry_deg - a->at[0].line.entry_deg};
            arsenal->overlap[arsenal->overlap_count++] = overlap;
        }
    sort_items(arsenal->overlap, (size_t)arsenal->overlap_count, sizeof arsenal->overlap[0],
               overlaps_more);
}

/* Over a state's volumes: the value of the best ball on each. */
static double state_value(const double top[STATE_FILMS], LaneState state)
{
    double sum = 0.0;
    for (int v = 0; v < STATE_VOLUMES; v++)
        sum += STATE_VOLUME_SHARE[v] * top[(int)state * STATE_VOLUMES + v];
    return sum;
}

static void raise_top(double top[STATE_FILMS], const double value[STATE_FILMS])
{
    for (int f = 0; f < STATE_FILMS; f++)
        top[f] = fmax(top[f], value[f]);
}

static int best_in(const Arsenal *arsenal, const int *balls, int count, LaneState state)
{
    int best = -1;
    for (int i = 0; i < count; i++)
        if (best < 0 || state_value(arsenal->ball[balls[i]].value, state) >
                            state_value(arsenal->ball[best].value, state))
            best = balls[i];
    return best;
}

GapAnswer arsenal_gap_answer(const Gap *gap)
{
    if (!gap->open)
        return GAP_NONE;
    if (gap->locker - gap->best > 0.5 * (gap->ideal - gap->best))
        return GAP_BY_LOCKER;
    return gap->ideal_ball >= 0 ? GAP_BY_IDEAL : GAP_BY_TWO;
}

static void find_gaps(Arsenal *arsenal, const Bag *bag, const int *balls, int count,
                      const double *ideal)
{
    double top[STATE_FILMS] = {0}, all[STATE_FILMS] = {0}, dream[STATE_FILMS] = {0};
    int every[BAG_BALLS_MAX], everyone = 0;
    for (int i = 0; i < count; i++)
        raise_top(top, arsenal->ball[balls[i]].value);
    for (int i = 0; i < bag->count; i++)
        if (!arsenal->ball[i].spare) {
            every[everyone++] = i;
            raise_top(all, arsenal->ball[i].value);
        }
    raise_top(dream, all);
    for (int i = 0; i < IDEALS; i++)
        raise_top(dream, ideal + (size_t)i * STATE_FILMS);
    for (LaneState s = 0; s < LANE_STATE_COUNT; s++) {
        Gap *gap = &arsenal->gap[s];
        *gap = (Gap){.state = s,
                     .best = state_value(top, s),
                     .ball = best_in(arsenal, balls, count, s),
                     .locker = state_value(all, s),
                     .locker_ball = best_in(arsenal, every, everyone, s),
                     .ideal = state_value(dream, s),
                     .ideal_ball = -1};
        double most =
            gap->locker_ball < 0 ? 0.0 : state_value(arsenal->ball[gap->locker_ball].value, s);
        for (int i = 0; i < IDEALS; i++)
            if (state_value(ideal + (size_t)i * STATE_FILMS, s) > most) {
                most = state_value(ideal + (size_t)i * STATE_FILMS, s);
                gap->ideal_ball = i;
            }
        gap->open = gap->ideal - gap->best > ARSENAL_GAP;
    }
}

/* Index in SURFACE_SET of a ball's current surface, by roughness. */
static int surface_now(const Ball *ball)
{
    double um = ball_roughness_um(&ball->surface);
    int nearest = 0;
    for (int k = 1; k < SURFACES; k++)
        if (fabs(ball_roughness_um(&SURFACE_SET[k]) - um) <
            fabs(ball_roughness_um(&SURFACE_SET[nearest]) - um))
            nearest = k;
    return nearest;
}

static double bag_value(const Arsenal *arsenal, const int *balls, int count, int changed,
                        int surface, double top[STATE_FILMS])
{
    double sum = 0.0;
    memset(top, 0, STATE_FILMS * sizeof *top);
    for (int i = 0; i < count; i++)
        raise_top(top, changed >= 0 && balls[i] == changed
                           ? arsenal->ball[changed].surface[surface].value
                           : arsenal->ball[balls[i]].value);
    for (int f = 0; f < STATE_FILMS; f++)
        sum += arsenal_film_weight(arsenal, f) * top[f];
    return sum;
}

/* The smallest change that separates a pair (other >= 0) or closes a gap. */
static void advise_one(Arsenal *arsenal, const Bag *bag, const int *balls, int count,
                       const Overlap *pair, const Gap *gap)
{
    SurfaceAdvice best = {.ball = -1};
    int least = SURFACES + 1;
    double top[STATE_FILMS], now = bag_value(arsenal, balls, count, -1, 0, top);
    for (int i = 0; i < count; i++) {
        int ball = balls[i], current = surface_now(&bag->balls[ball]);
        if (pair && ball != pair->a && ball != pair->b)
            continue;
        for (int k = 0; k < SURFACES; k++) {
            int steps = k > current ? k - current : current - k;
            if (steps == 0 || steps > least || !arsenal->ball[ball].surface[k].ready)
                continue;
            SurfaceAdvice advice = {.ball = ball, .surface = k, .other = -1};
            advice.value_gain = bag_value(arsenal, balls, count, ball, k, top) - now;
            bool does;
            if (pair) {
                advice.other = ball == pair->a ? pair->b : pair->a;
                advice.before = pair->share;
                advice.after = overlap_of(arsenal, arsenal->ball[ball].surface[k].value,
                                          arsenal->ball[advice.other].value);
                does = advice.after <= advice.before - OVERLAP_LESS;
            } else {
                advice.state = gap->state;
                advice.before = gap->ideal - gap->best;
                advice.after = gap->ideal - state_value(top, gap->state);
                does = advice.after <= advice.before - GAP_LESS;
            }
            if (!does || advice.value_gain < -VALUE_HAIR)
                continue;
            if (steps < least || advice.value_gain > best.value_gain) {
                least = steps;
                best = advice;
            }
        }
    }
    if (best.ball >= 0 && arsenal->advice_count < SURFACE_ADVICE_MAX)
        arsenal->advice[arsenal->advice_count++] = best;
}

void arsenal_compare(Arsenal *arsenal, const Bag *bag, const double *ideal, bool surfaces)
{
    int balls[BAG_SLOTS], count = strikers(arsenal, bag, balls);
    find_overlaps(arsenal, balls, count);
    find_gaps(arsenal, bag, balls, count, ideal);
    arsenal->advice_count = 0;
    if (!surfaces)
        return;
    for (int i = 0; i < arsenal->overlap_count && arsenal->overlap[i].share >= OVERLAP_MUCH; i++)
        advise_one(arsenal, bag, balls, count, &arsenal->overlap[i], 0);
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        if (arsenal->gap[s].open)
            advise_one(arsenal, bag, balls, count, 0, &arsenal->gap[s]);
}
