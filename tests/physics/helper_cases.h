/* helper_cases.h - seeded random deliveries, balls, layouts and lanes for the physics tests. */
#ifndef SETTEE_TESTS_HELPER_CASES_H
#define SETTEE_TESTS_HELPER_CASES_H

#include "base/rng.h"
#include "core/bag/ball.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

typedef struct Case {
    Ball ball;
    Delivery delivery;
    Hand hand;
    Oil oil; /* in the bowler's frame */
} Case;

/* Any ball the rules allow: 10 to 16 lb, RG 2.46 to 2.72, differential 0.005 to 0.060, any
 * layout, cover and grit of the table. */
Ball case_ball(Rng *rng);

/* Half of them shaped as patterns are (level inside, falling outward and down-lane), half heaps
 * of random strokes with sharp edges; lop-sided too. */
void case_pattern(Rng *rng, Pattern *pattern);

/* A whole delivery. Where it ends doesn't matter: some go into the gutter. */
void case_random(Rng *rng, Case *out);

/* Sorts in place and gives the share-th quantile. */
double case_quantile(double *values, int count, double share);

#endif
