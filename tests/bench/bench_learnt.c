/* bench_learnt.c - how often what three events say of a bowler's numbers is right: made events of
 * bowlers whose true numbers are known (tests/made_events.h). bench_learnt [BOWLERS [EVENTS
 * [WORLD [STRENGTH]]]]; STRENGTH: how far the balls' cover_strength is off, standard deviation. */
#include <stdio.h>
#include <time.h>

#include "core/advice/learnt.h"
#include "core/bag/preset.h"
#include "made_events.h"

enum { KINDS = 3 };
static const char *const NAMES[KINDS] = {"speed", "scatter", "ball"};

/* What came out for one kind of number. */
typedef struct Tally {
    int said, inside, offered, nearer, farther, all_nearer;
    double error_before, error_after;
} Tally;

/* Boards: a ball's strength by what a unit of it moves the hit, about the same for all. */
static void count(Tally *all, const LearntValue *value, double truth)
{
    double after = value->offered ? value->to : value->now;
    all->said++;
    all->offered += value->offered;
    all->all_nearer += fabs(value->to - truth) < fabs(value->now - truth);
    all->error_before += fabs(value->now - truth);
    all->error_after += fabs(after - truth);
    if (value->offered) {
        all->nearer += fabs(value->to - truth) < fabs(value->now - truth);
        all->farther += fabs(value->to - truth) > fabs(value->now - truth);
    }
}

static void bowler(LearntJob *job, const Bag *bag, const Pattern *patterns, int pattern_count,
                   int events, const World *world, const MadeTruth *truth, uint64_t seed,
                   Tally counts[KINDS], bool tell)
{
    static Session session;
    LearntValue values[LEARNT_MAX];
    learnt_begin(job, bag);
    for (int e = 0; e < events; e++) {
        uint64_t number = seed * 100u + (uint64_t)e;
        if (!made_event(bag, &patterns[number % (uint64_t)pattern_count], world, truth, number,
                        &session))
            printf("an event could not be made\n");
        if (learnt_event(job, &session))
            while (learnt_step(job))
                ;
    }
    int said = learnt_values(job, values);
    for (int i = 0; i < said; i++) {
        const LearntValue *value = &values[i];
        int slot = value->kind == LEARNT_BALL ? bag->balls[value->ball].slot : 0;
        double real =
            value->kind == LEARNT_MPH ? value->now + truth->mph
            : value->kind == LEARNT_SCATTER
                ? value->now * truth->scatter
                : value->now + (slot >= 1 && slot <= MADE_BALLS ? truth->strength[slot - 1] : 0.0);
        count(&counts[value->kind], value, real);
        if (value->kind == LEARNT_BALL)
            counts[value->kind].inside +=
                (real - value->now) * value->boards / (value->to - value->now) >= value->low &&
                (real - value->now) * value->boards / (value->to - value->now) <= value->high;
        else
            counts[value->kind].inside += real >= value->low && real <= value->high;
        if (tell)
            printf("  %s now %.3f to %.3f (%.3f..%.3f) boards %.2f truth %.3f %s\n",
                   NAMES[value->kind], value->now, value->to, value->low, value->high,
                   value->boards, real, value->offered ? "OFFERED" : "");
    }
}

static void report(const char *what, const Tally counts[KINDS])
{
    printf("%s\n", what);
    for (int k = 0; k < KINDS; k++) {
        const Tally *c = &counts[k];
        if (c->said > 0)
            printf(
                "  %-8s %4d said, %3.0f %% of intervals hold the truth, %3.0f %% nearer to it; %4d "
                "offered, %4d nearer, %4d farther; mean error %.3f before, %.3f after\n",
                NAMES[k], c->said, 100.0 * c->inside / c->said, 100.0 * c->all_nearer / c->said,
                c->offered, c->nearer, c->farther, c->error_before / c->said,
                c->error_after / c->said);
    }
}

int main(int argc, char **argv)
{
    static const char *const NAMES_OF[] = {"apron", "loaf", "gauze", "slant"};
    enum { PATTERNS = 4 };
    static Pattern patterns[PATTERNS];
    static Bag bag;
    Error error = {0};
    int bowlers = argc > 1 ? atoi(argv[1]) : 20, events = argc > 2 ? atoi(argv[2]) : 3;
    const World *world = argc > 3 ? world_find(argv[3]) : &WORLD_KIN;
    double strength = argc > 4 ? atof(argv[4]) : 0.04;
    for (int i = 0; i < PATTERNS; i++)
        if (!files_pattern(NAMES_OF[i], &patterns[i], &error))
            return printf("%s: %s\n", NAMES_OF[i], error.text), 1;
    LearntJob *job = learnt_new();
    if (!job || !world || !files_bag("demo", &bag, &error))
        return 1;
    bag.bowler.scatter = preset_level("league")->scatter;
    Tally wrong[KINDS] = {0}, right[KINDS] = {0};
    clock_t start = clock();
    for (int b = 0; b < bowlers; b++) {
        Rng rng = rng_seed(4200u + (uint64_t)b);
        MadeTruth off = {.mph = 0.7 * rng_normal(&rng), .scatter = exp(0.4 * rng_normal(&rng))};
        MadeTruth none = {.scatter = 1.0};
        for (int i = 0; i < MADE_BALLS; i++)
            off.strength[i] = strength * rng_normal(&rng);
        if (bowlers <= 6)
            printf("bowler %d\n", b);
        bowler(job, &bag, patterns, PATTERNS, events, world, &off, 1000u + (uint64_t)b, wrong,
               bowlers <= 6);
        bowler(job, &bag, patterns, PATTERNS, events, world, &none, 5000u + (uint64_t)b, right,
               bowlers <= 6);
    }
    report("the bag's numbers are off:", wrong);
    report("the bag's numbers are true:", right);
    printf("%.1f s\n", (double)(clock() - start) / CLOCKS_PER_SEC);
    learnt_free(job);
    return 0;
}
