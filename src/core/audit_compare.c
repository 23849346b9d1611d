/* audit_compare.c - pairs that do the same job, lanes none answers, surfaces that would help. */
#include <math.h>
#include <string.h>

#include "core/audit.h"

/* Overlaps this high are worth a change of surface, which must bring them down by that much; a
 * change may cost the whole bag no more than a hair of worth. All assumed. */
#define OVERLAP_MUCH 0.5
#define OVERLAP_LESS 0.2
#define GAP_LESS 0.02
#define WORTH_HAIR 0.005

/* A ball that is imagined, by the numbers that matter (assumed; a usual layout). */
#define IDEAL(rg, diff, inter, shell, strength, finish_, grit_)                                    \
    {                                                                                              \
        .id = "ideal", .name = "ideal", .pounds = 15.0, .rg_in = rg, .differential_in = diff,      \
        .intermediate_in = inter, .cover = shell, .cover_strength = strength,                      \
        .surface = {finish_, grit_, 0.0}, .pin_to_pap_in = 4.5, .mass_bias_deg = 50.0              \
    }

const IdealBall *audit_ideals(void)
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

const char *audit_overlap_word(double share)
{
    return share < 0.10   ? "none"
           : share < 0.35 ? "little"
           : share < 0.65 ? "half"
           : share < 0.90 ? "mostly"
                          : "same";
}

static double overlap_of(const Audit *audit, const double *a, const double *b)
{
    double share = 0.0;
    for (int f = 0; f < STATE_FILMS; f++)
        if (fabs(a[f] - b[f]) <= AUDIT_NEAR)
            share += audit_film_weight(audit, f);
    return share;
}

/* The balls of the slots that are thrown at strikes. */
static int strikers(const Audit *audit, const Bag *bag, int out[BAG_SLOTS])
{
    int count = 0;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(bag, slot);
        if (ball && !audit->ball[ball - bag->balls].spare)
            out[count++] = (int)(ball - bag->balls);
    }
    return count;
}

static void find_overlaps(Audit *audit, const int *balls, int count)
{
    audit->overlap_count = 0;
    for (int i = 0; i < count; i++)
        for (int k = i + 1; k < count; k++) {
            const BallAudit *a = &audit->ball[balls[i]], *b = &audit->ball[balls[k]];
            Overlap overlap = {.a = balls[i],
                               .b = balls[k],
                               .share = overlap_of(audit, a->worth, b->worth),
                               .move_ft = b->at[0].line.first_move_ft - a->at[0].line.first_move_ft,
                               .entry_deg = b->at[0].line.entry_deg - a->at[0].line.entry_deg};
            int at = audit->overlap_count++;
            for (; at > 0 && audit->overlap[at - 1].share < overlap.share; at--)
                audit->overlap[at] = audit->overlap[at - 1];
            audit->overlap[at] = overlap;
        }
}

/* Over a state's volumes: the worth of the best ball on each. */
static double state_worth(const double top[STATE_FILMS], LaneState state)
{
    double sum = 0.0;
    for (int v = 0; v < STATE_VOLUMES; v++)
        sum += STATE_VOLUME_SHARE[v] * top[(int)state * STATE_VOLUMES + v];
    return sum;
}

static void raise_top(double top[STATE_FILMS], const double worth[STATE_FILMS])
{
    for (int f = 0; f < STATE_FILMS; f++)
        top[f] = fmax(top[f], worth[f]);
}

static int best_in(const Audit *audit, const int *balls, int count, LaneState state)
{
    int best = -1;
    for (int i = 0; i < count; i++)
        if (best < 0 || state_worth(audit->ball[balls[i]].worth, state) >
                            state_worth(audit->ball[best].worth, state))
            best = balls[i];
    return best;
}

static void find_gaps(Audit *audit, const Bag *bag, const int *balls, int count,
                      const double *ideal)
{
    double top[STATE_FILMS] = {0}, all[STATE_FILMS] = {0}, dream[STATE_FILMS] = {0};
    int every[BAG_BALLS_MAX], everyone = 0;
    for (int i = 0; i < count; i++)
        raise_top(top, audit->ball[balls[i]].worth);
    for (int i = 0; i < bag->count; i++)
        if (!audit->ball[i].spare) {
            every[everyone++] = i;
            raise_top(all, audit->ball[i].worth);
        }
    raise_top(dream, all);
    for (int i = 0; i < IDEALS; i++)
        raise_top(dream, ideal + i * STATE_FILMS);
    for (LaneState s = 0; s < LANE_STATE_COUNT; s++) {
        Gap *gap = &audit->gap[s];
        *gap = (Gap){.state = s,
                     .best = state_worth(top, s),
                     .ball = best_in(audit, balls, count, s),
                     .locker = state_worth(all, s),
                     .locker_ball = best_in(audit, every, everyone, s),
                     .ideal = state_worth(dream, s),
                     .ideal_ball = -1};
        double most =
            gap->locker_ball < 0 ? 0.0 : state_worth(audit->ball[gap->locker_ball].worth, s);
        for (int i = 0; i < IDEALS; i++)
            if (state_worth(ideal + i * STATE_FILMS, s) > most) {
                most = state_worth(ideal + i * STATE_FILMS, s);
                gap->ideal_ball = i;
            }
        gap->open = gap->ideal - gap->best > AUDIT_GAP;
    }
}

/* The place among the set's surfaces of what a ball has on now, by roughness. */
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

static double bag_worth(const Audit *audit, const int *balls, int count, int changed, int surface,
                        double top[STATE_FILMS])
{
    double sum = 0.0;
    memset(top, 0, STATE_FILMS * sizeof *top);
    for (int i = 0; i < count; i++)
        raise_top(top, changed >= 0 && balls[i] == changed
                           ? audit->ball[changed].surface[surface].worth
                           : audit->ball[balls[i]].worth);
    for (int f = 0; f < STATE_FILMS; f++)
        sum += audit_film_weight(audit, f) * top[f];
    return sum;
}

/* The smallest change that does what is asked: of a pair (other >= 0) or for a gap. */
static void advise_one(Audit *audit, const Bag *bag, const int *balls, int count,
                       const Overlap *pair, const Gap *gap)
{
    SurfaceAdvice best = {.ball = -1};
    int least = SURFACES + 1;
    double top[STATE_FILMS], now = bag_worth(audit, balls, count, -1, 0, top);
    for (int i = 0; i < count; i++) {
        int ball = balls[i], current = surface_now(&bag->balls[ball]);
        if (pair && ball != pair->a && ball != pair->b)
            continue;
        for (int k = 0; k < SURFACES; k++) {
            int steps = k > current ? k - current : current - k;
            if (steps == 0 || steps > least || !audit->ball[ball].surface[k].ready)
                continue;
            SurfaceAdvice advice = {.ball = ball, .surface = k, .other = -1};
            advice.worth_gain = bag_worth(audit, balls, count, ball, k, top) - now;
            bool does;
            if (pair) {
                advice.other = ball == pair->a ? pair->b : pair->a;
                advice.before = pair->share;
                advice.after = overlap_of(audit, audit->ball[ball].surface[k].worth,
                                          audit->ball[advice.other].worth);
                does = advice.after <= advice.before - OVERLAP_LESS;
            } else {
                advice.state = gap->state;
                advice.before = gap->ideal - gap->best;
                advice.after = gap->ideal - state_worth(top, gap->state);
                does = advice.after <= advice.before - GAP_LESS;
            }
            if (!does || advice.worth_gain < -WORTH_HAIR)
                continue;
            if (steps < least || advice.worth_gain > best.worth_gain) {
                least = steps;
                best = advice;
            }
        }
    }
    if (best.ball >= 0 && audit->advice_count < SURFACE_ADVICE_MAX)
        audit->advice[audit->advice_count++] = best;
}

void audit_compare(Audit *audit, const Bag *bag, const double *ideal, bool surfaces)
{
    int balls[BAG_SLOTS], count = strikers(audit, bag, balls);
    find_overlaps(audit, balls, count);
    find_gaps(audit, bag, balls, count, ideal);
    audit->advice_count = 0;
    if (!surfaces)
        return;
    for (int i = 0; i < audit->overlap_count && audit->overlap[i].share >= OVERLAP_MUCH; i++)
        advise_one(audit, bag, balls, count, &audit->overlap[i], 0);
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        if (audit->gap[s].open)
            advise_one(audit, bag, balls, count, 0, &audit->gap[s]);
}
