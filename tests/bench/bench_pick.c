/* bench_pick.c - how long the best six of a locker of twenty take, any surface allowed, on one
 * core: against rolling, for every value, all aims from all laydowns that the search looks over. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/rng.h"
#include "core/arsenal/arsenal.h"
#include "core/line/curve.h"
#include "core/line/fit.h"
#include "store/files.h"

enum { BALLS = 20, RUNS = 3, BESIDE = 55, LOCKERS = 3 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static double least(double a, double b) { return a < b ? a : b; }

/* Nineteen balls for strikes, as different as they come, and one for spares. */
static void fill_locker(Bag *bag, uint64_t seed)
{
    Rng rng = rng_seed(seed);
    *bag = (Bag){.bowler = bowler_default(), .count = BALLS};
    for (int i = 0; i < BALLS; i++) {
        Ball *ball = &bag->balls[i];
        *ball = ball_default();
        snprintf(ball->id, sizeof ball->id, "ball-%d", i + 1);
        ball->rg_in = rng_between(&rng, 2.47, 2.58);
        ball->differential_in = rng_between(&rng, 0.030, 0.055);
        ball->cover = i == BALLS - 1 ? COVER_POLYESTER : (Cover)(rng_uniform(&rng) * 4.0);
        ball->cover_strength = rng_between(&rng, 0.88, 1.05);
        ball->surface = SURFACE_SET[(int)(rng_uniform(&rng) * SURFACES)];
        ball->slot = i < BAG_SLOTS ? i + 1 : 0;
    }
}

/* Milliseconds of the whole job, and in `slice` of its longest slice. */
static double time_pick(ArsenalJob *job, const ArsenalInput *input, double *slice)
{
    double begun = now_ms(), at = begun, after;
    arsenal_begin(job, input);
    for (bool done = false; !done; at = after) {
        done = arsenal_step(job);
        after = now_ms();
        *slice = *slice > after - at ? *slice : after - at;
    }
    return at - begun;
}

/* What fit.c rolls for one value when it leaves no aim out. */
static int all_throws(const Bowler *bowler, BatchThrow throws[CURVE_THROWS_MAX + BESIDE])
{
    Delivery delivery = delivery_of(bowler, 26.0, 15.0);
    int count = 0;
    for (double laydown = LINE_LAYDOWN_LOW; laydown <= LINE_LAYDOWN_HIGH; laydown += 3.0) {
        ArrivalCurve curve = curve_over_all(laydown, 0.75);
        delivery.laydown_board = laydown;
        for (int i = 0; i < curve.count; i++) {
            delivery.launch_deg = delivery_launch_deg(laydown, curve.first + i * curve.step);
            throws[count++] =
                (BatchThrow){.delivery = delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
        }
    }
    for (int i = 0; i < BESIDE; i++, count++)
        throws[count] = throws[i];
    return count;
}

/* Milliseconds of rolling everything for one value, and of one value as the search finds it: means
 * over the balls of the locker on the lane states. */
static void time_value(const Bag *bag, const LaneFilms *films, double *whole, double *fit)
{
    static BatchOil oil[LANE_STATE_COUNT];
    static BatchThrow throws[CURVE_THROWS_MAX + BESIDE];
    static Arrival arrivals[CURVE_THROWS_MAX + BESIDE];
    double sink = 0.0;
    int count = all_throws(&bag->bowler, throws);
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        batch_oil(&films->state[s], BATCH_QUICK, &oil[s]);
    *whole = *fit = 0.0;
    for (int i = 0; i < bag->count; i++) {
        MotionBody body;
        BatchBall ball;
        motion_body(&bag->balls[i], &body);
        batch_ball(&body, &ball);
        for (int s = 0; s < LANE_STATE_COUNT; s++) {
            double a = now_ms();
            batch_arrive(&ball, &oil[s], throws, count, arrivals);
            double b = now_ms();
            sink += fit_ball(&ball, &oil[s], &bag->bowler).value + arrivals[0].mph;
            *whole += b - a;
            *fit += now_ms() - b;
        }
    }
    *whole /= bag->count * LANE_STATE_COUNT;
    *fit /= bag->count * LANE_STATE_COUNT;
    if (sink == 1.0)
        puts("");
}

int main(void)
{
    static Bag bag;
    static Pattern pattern;
    Error error = {0};
    ArsenalJob *job = arsenal_job_new();
    if (!job || !files_pattern("apron", &pattern, &error))
        return 1;
    puts("The best six of twenty, any surface, six games of four bowlers, least of three runs.\n"
         "Value: one ball on one film. Whole: every aim from every laydown rolled, none left out.\n"
         "locker  job ms  longest slice ms  value ms  whole ms  value/whole  job/whole");
    for (uint64_t seed = 1; seed <= LOCKERS; seed++) {
        fill_locker(&bag, seed);
        ArsenalInput input = {.bag = &bag,
                              .pattern = &pattern,
                              .games = 6,
                              .bowlers = 4,
                              .pick = 6,
                              .surfaces = true,
                              .pick_surfaces = true};
        double all = 1e9, slice = 1e9, whole = 1e9, fit = 1e9;
        for (int run = 0; run < RUNS; run++) {
            double longest = 0.0, one, other;
            all = least(all, time_pick(job, &input, &longest));
            slice = least(slice, longest);
            time_value(&bag, arsenal_films(job), &one, &other);
            whole = least(whole, one);
            fit = least(fit, other);
        }
        printf("%6d  %6.0f  %16.1f  %8.3f  %8.3f  %11.2f  %9.0f\n", (int)seed, all, slice, fit,
               whole, fit / whole, all / whole);
    }
    arsenal_job_free(job);
    return 0;
}
