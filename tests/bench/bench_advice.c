/* bench_advice.c - how long the demo event's answer takes on one core: the first usable one, all of
 * it, one more shot on top, and the longest slice that a key could have to wait for. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "core/advice/advice.h"
#include "store/files.h"

enum { SHOTS = 24, RUNS = 9 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static double least(double a, double b) { return a < b ? a : b; }

static Bag bag;
static Pattern pattern;
static RuleSet rules;

/* Answers after `count` shots, the last of them asked once more on top. */
static void measure(const Shot *shots, int count, const char *what)
{
    double first = 1e9, all = 1e9, more = 1e9, slice = 1e9;
    for (int run = 0; run < RUNS; run++) {
        AdviceJob *job = advice_job_new();
        if (!job)
            return;
        AdviceInput input = {.bag = &bag,
                             .pattern = &pattern,
                             .rules = &rules,
                             .shots = shots,
                             .shot_count = count > 0 ? count - 1 : 0,
                             .lane = SIDE_LEFT,
                             .plan = {.slot = 1, .stance = 26.0, .aim = 12.0},
                             .game = 2,
                             .frame = 4,
                             .bowlers_on_pair = 4,
                             .certified = true};
        double begun = now_ms(), longest = 0.0, ready = 0.0, at = begun;
        advice_begin(job, &input);
        for (bool done = false; !done;) {
            done = advice_step(job);
            double t = now_ms();
            longest = t - at > longest ? t - at : longest;
            at = t;
            if (advice_result(job)->ready && ready == 0.0)
                ready = t - begun;
        }
        first = least(first, ready);
        all = least(all, at - begun);
        input.shot_count = count;
        input.frame++; /* else a frame more would have been played before the shots */
        begun = now_ms();
        advice_begin(job, &input);
        at = begun;
        for (bool done = false; !done;) {
            done = advice_step(job);
            double t = now_ms();
            longest = t - at > longest ? t - at : longest;
            at = t;
        }
        more = least(more, at - begun);
        slice = least(slice, longest);
        advice_job_free(job);
    }
    printf("%2d shots%s: first answer %.1f ms, all %.1f ms, one more shot %.1f ms, longest slice "
           "%.1f ms\n",
           count, what, first, all, more, slice);
}

int main(void)
{
    Error error = {0};
    if (!files_bag("demo", &bag, &error) || !files_pattern("apron", &pattern, &error) ||
        !files_rules("coach", &rules, &error))
        return 1;
    Shot shots[SHOTS];
    for (int i = 0; i < SHOTS; i++)
        shots[i] = (Shot){.lane = i % 2 ? SIDE_RIGHT : SIDE_LEFT,
                          .slot = 1 + i / 10,
                          .stance = 26.0,
                          .aim = 12.0,
                          .hit = (Hit)(HIT_LIGHT + i % 3),
                          .read = READ_ON_TIME,
                          .release = RELEASE_GOOD,
                          .left_said = true};
    for (int count = 0; count <= SHOTS; count += 8)
        measure(shots, count, "");
    for (int i = 0; i < 8; i++) { /* ball, speed, loft and hand are asked for: most pairs */
        shots[i].hit = HIT_LIGHT;
        shots[i].read = READ_EARLY;
    }
    measure(shots, 8, ", much asked");
    return 0;
}
