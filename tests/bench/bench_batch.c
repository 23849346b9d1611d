/* bench_batch.c - what a delivery costs in a batch: over the batch's size, and as a lane wears.
 * Times are the least of several runs on one core; ratios are against the first row. */
#include <stdio.h>
#include <time.h>

#include "../traffic.h"
#include "core/motion/batch.h"
#include "core/motion/wear.h"
#include "store/files.h"

enum { MOST = 1024, RUNS = 15 };

static double now_us(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec / 1e3;
}

static double cost_us(const BatchBall *ball, const BatchOil *oil, const BatchThrow *throws,
                      int count)
{
    static Arrival arrivals[MOST];
    double best = 1e9;
    for (int run = 0; run < RUNS; run++) {
        double begun = now_us();
        for (int done = 0; done < MOST; done += count)
            batch_arrive(ball, oil, throws + done, count, arrivals + done);
        double took = (now_us() - begun) / MOST;
        best = took < best ? took : best;
    }
    return best;
}

int main(void)
{
    static Bag bag;
    static Pattern pattern;
    static BatchThrow throws[MOST];
    static BatchOil ready;
    static BatchBall batch;
    Error error = {0};
    if (!files_bag("demo", &bag, &error) || !files_pattern("apron", &pattern, &error))
        return 1;
    Oil oil;
    MotionBody body;
    oil_lay(&pattern, &oil);
    motion_body(bag_slot(&bag, 1), &body);
    batch_ball(&body, &batch);
    batch_oil(&oil, BATCH_QUICK, &ready);
    for (int i = 0; i < MOST; i++) {
        throws[i] = (BatchThrow){.delivery = delivery_of(&bag.bowler, 20.0 + i % 17, 11.0 + i % 7),
                                 .film_scale = 1.0f,
                                 .dry_scale = 1.0f};
        throws[i].delivery.mph += 0.01 * (i % 50);
    }
    printf("deliveries in a batch   us each   against the first\n");
    double first = 0.0;
    for (int count = 1; count <= MOST; count *= 4) {
        double us = cost_us(&batch, &ready, throws, count);
        first = count == 1 ? us : first;
        printf("%21d %9.2f %10.2f\n", count, us, us / first);
    }
    printf("deliveries on the lane  us each   against the first   steps\n");
    Delivery delivery = delivery_of(&bag.bowler, 25.0, 11.0);
    for (int thrown = 0; thrown <= 240; thrown++) {
        if (thrown % 60 == 0) {
            batch_oil(&oil, BATCH_QUICK, &ready);
            double us = cost_us(&batch, &ready, throws, MOST);
            first = thrown == 0 ? us : first;
            printf("%21d %9.2f %10.2f %14d\n", thrown, us, us / first, ready.step_count);
        }
        Roll roll;
        motion_roll(&body, &oil, &delivery, &roll);
        wear_delivery(&oil, &roll, COVER_SOLID, traffic_shift(thrown));
    }
    return 0;
}
