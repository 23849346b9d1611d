/* bench_rack.c - the rack in one run on one core: racks a second as simulated (tilting pins in
 * three dimensions), against Chipmunk 7 simulating the same ten pins and ball as flat discs at the
 * belly's radius (same masses, spots, restitution and steps of time, two lanes' kickbacks), and
 * what a reading of the table takes. Figures are ratios; nothing is asserted. Chipmunk's answer is
 * a different one: a disc never falls, so "down" there is "moved by 2 in". */
#include <math.h>
#include <stdio.h>
#include <time.h>

#ifdef SETTEE_CHIPMUNK
#include <chipmunk/chipmunk.h>
#endif

#include "base/units.h"
#include "core/pins/rack_sim.h"

static double seconds(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

/* Tour scatter about the pocket. */
static RackHit any_hit(Rng *rng)
{
    return (RackHit){17.4 + 1.15 * rng_normal(rng), 4.5 + 0.7 * rng_normal(rng), 16.3, 0.0, 15.0};
}

static double race_rack(double for_s, double *strikes)
{
    Rng rng = rng_seed(1);
    int racks = 0, down = 0;
    double start = seconds();
    do {
        for (int i = 0; i < 100; i++) {
            RackHit hit = any_hit(&rng);
            down += rack_sim_roll(&hit, PINS_ALL, &rng, NULL, NULL) == 0;
        }
        racks += 100;
    } while (seconds() - start < for_s);
    *strikes = (double)down / racks;
    return racks / (seconds() - start);
}

#ifdef SETTEE_CHIPMUNK
static bool disc_rack(const RackHit *hit, const RackJitter *jitter, double step)
{
    const double pin_r = m_from_in(2.383), ball_r = m_from_in(4.2975);
    const double pin_kg = kg_from_lb(3.5), ball_kg = kg_from_lb(hit->pounds);
    cpSpace *space = cpSpaceNew();
    cpBody *bodies[11];
    cpShape *shapes[13];
    cpVect spots[11];
    for (int i = 0; i < 11; i++) {
        double r = i ? pin_r : ball_r, kg = i ? pin_kg : ball_kg;
        bodies[i] = cpBodyNew(kg, cpMomentForCircle(kg, 0.0, r, cpvzero));
        double heading = rad_from_deg(hit->degrees), speed = mps_from_mph(hit->mph);
        if (i == 0) {
            spots[0] = cpv((20.0 - hit->board) * LANE_BOARD_M + 0.3 * tan(heading), -0.3);
            cpBodySetVelocity(bodies[0], cpv(-speed * sin(heading), speed * cos(heading)));
        } else {
            spots[i] = cpv(m_from_in(lane_pin_right_in(i) + jitter->right_in[i - 1]),
                           m_from_in(lane_pin_back_in(i) + jitter->back_in[i - 1]));
        }
        cpBodySetPosition(bodies[i], spots[i]);
        shapes[i] = cpCircleShapeNew(bodies[i], r, cpvzero);
        cpShapeSetElasticity(shapes[i], sqrt(RACK_PARAMS.pin_restitution));
        cpShapeSetFriction(shapes[i], sqrt(RACK_PARAMS.pin_friction));
        cpSpaceAddBody(space, bodies[i]);
        cpSpaceAddShape(space, shapes[i]);
    }
    for (int side = 0; side < 2; side++) {
        double x = m_from_in(side ? 30.0 : -30.0);
        shapes[11 + side] =
            cpSegmentShapeNew(cpSpaceGetStaticBody(space), cpv(x, -1.0), cpv(x, 1.5), 0.001);
        cpShapeSetElasticity(shapes[11 + side], 0.5);
        cpSpaceAddShape(space, shapes[11 + side]);
    }
    for (double time = 0.0; time < 1.5; time += step)
        cpSpaceStep(space, step);
    bool strike = true;
    for (int i = 1; i < 11; i++)
        strike = strike && cpvdist(cpBodyGetPosition(bodies[i]), spots[i]) > m_from_in(2.0);
    for (int i = 0; i < 13; i++) {
        cpSpaceRemoveShape(space, shapes[i]);
        cpShapeFree(shapes[i]);
    }
    for (int i = 0; i < 11; i++) {
        cpSpaceRemoveBody(space, bodies[i]);
        cpBodyFree(bodies[i]);
    }
    cpSpaceFree(space);
    return strike;
}

static double race_discs(double for_s, double step, double *strikes)
{
    Rng rng = rng_seed(1);
    int racks = 0, down = 0;
    double start = seconds();
    do {
        for (int i = 0; i < 20; i++) {
            RackHit hit = any_hit(&rng);
            RackJitter jitter = rack_jitter(&RACK_PARAMS, &rng);
            down += disc_rack(&hit, &jitter, step);
        }
        racks += 20;
    } while (seconds() - start < for_s);
    *strikes = (double)down / racks;
    return racks / (seconds() - start);
}

static void race(double ours)
{
    static const double STEPS[] = {0.0005, 0.002};
    for (int i = 0; i < 2; i++) {
        double strikes, discs = race_discs(3.0, STEPS[i], &strikes);
        printf("Chipmunk discs, %.1f ms  %7.0f racks/s  strikes %4.1f %%  ours %.2f times it\n",
               1e3 * STEPS[i], discs, 100.0 * strikes, ours / discs);
    }
}
#else
static void race(double ours)
{
    (void)ours;
    puts("Chipmunk is not installed: no race");
}
#endif

enum { LOOKUPS = 4096 };
static RackHit hits[LOOKUPS];

/* Nanoseconds a reading. */
static double race_table(int which, double *sum)
{
    double start = seconds();
    int rounds = 0;
    Rng luck = rng_seed(3);
    do {
        for (int i = 0; i < LOOKUPS; i++) {
            const RackHit *h = &hits[i];
            RackChances chances;
            if (which == 0)
                *sum += rack_strike(h->board, h->degrees, h->mph, h->pounds);
            else if (which == 1)
                *sum += rack_leave_likelihood(pin_bit(10), h->board, h->degrees, h->mph, h->pounds);
            else if (which == 2)
                *sum += rack_roll(h, PINS_ALL, &luck);
            else {
                rack_chances(h->board, h->degrees, h->mph, h->pounds, &chances);
                *sum += chances.leave_chance[0];
            }
        }
        rounds++;
    } while (seconds() - start < 0.5);
    return 1e9 * (seconds() - start) / rounds / LOOKUPS;
}

int main(void)
{
    double strikes, sum = 0.0, ours = race_rack(3.0, &strikes);
    printf("simulated               %7.0f racks/s  strikes %4.1f %%\n", ours, 100.0 * strikes);
    race(ours);
    Rng rng = rng_seed(2);
    for (int i = 0; i < LOOKUPS; i++) {
        hits[i] = any_hit(&rng);
        hits[i].mph = rng_between(&rng, 14.0, 19.0);
    }
    static const char *const NAMES[] = {"rack_strike", "rack_leave_likelihood",
                                        "rack_roll, ten pins", "rack_chances"};
    for (int which = 0; which < 4; which++)
        printf("%-22s  %5.0f ns a reading\n", NAMES[which], race_table(which, &sum));
    return isnan(sum);
}
