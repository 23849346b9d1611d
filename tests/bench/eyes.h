/* eyes.h - the best that anyone could do who is told what the advisor is told, and no more.
 *
 * A filter over the generator of the world `kin` itself: its constants, its wear, its other
 * bowlers, its eyes and hands. A particle is one whole truth that the world might have drawn, with
 * two films of its own, worn by every delivery. So there is nothing that "nothing else explains",
 * and what is stated should be what happens; if it isn't, this is not the true filter.
 *
 *   - A shot weighs a particle by the chance that it would have been seen like this, over the
 * throws that the bowler may have thrown; one of them, drawn by its share of that chance, then
 * wears the particle's lane. Hit, read, leave, called release, and the speed where it was shown.
 *   - When few particles still count they are resampled, and each is moved: steps of Metropolis and
 *     Hastings in which the particle's block is played from its first shot, with other constants.
 *   - All that is drawn of a particle besides its constants (the throws, who the others are, how
 * the boards give up oil) comes from one seed of its own, so that a block can be played again.
 *
 * The others look for their lines in a bank: as many fields of people as EYES_FIELDS, each on films
 * of EYES_LEVELS volumes, with some throws each, drawn once a game. That their tracks stay where
 * they are within a game is the one thing that is not the world's own. */
#ifndef SETTEE_TESTS_BENCH_EYES_H
#define SETTEE_TESTS_BENCH_EYES_H

#include "core/rehearse/rehearse.h"

/* The constants of a truth, each a standard normal deviate of the world's spreads. */
enum {
    EYES_VOLUME,
    EYES_LANE, /* two of them */
    EYES_DRY = EYES_LANE + SIDE_COUNT,
    EYES_FADE,
    EYES_PICK,
    EYES_CARRY,
    EYES_MPH,
    EYES_LAUNCH,
    EYES_TIRED,
    EYES_FILM,                           /* each ball's friction in the film */
    EYES_BOARDS = EYES_FILM + BAG_SLOTS, /* how the film is off on each board */
    EYES_PARTS = EYES_BOARDS + LANE_BOARDS
};

/* A lane on which a throw is tried, with the balls and the bowler of the day. */
typedef struct EyesLane {
    const Oil *film;
    double mu_film[BAG_SLOTS], dry, fade; /* times the usual */
    double mph, launch_deg;               /* against the usual */
} EyesLane;

typedef struct Eyes Eyes;

/* For a block of that setup in the world `kin`, with that many particles; the setup must outlive
 * it. Heap, NULL when out of memory. */
Eyes *eyes_new(const RehearseSetup *setup, int particles, uint64_t seed);
void eyes_free(Eyes *eyes);

/* What was seen of a throw of that game. `shut`: the lane wears by what was planned, and nothing is
 * learnt. */
void eyes_see(Eyes *eyes, const Shot *shot, int game, bool shut);

/* `count` lanes drawn from the particles as evenly as possible; their films are the eyes'. */
void eyes_lanes(Eyes *eyes, Side lane, int game, int count, EyesLane *lanes);

/* The lane as it truly is; its film is the truth's. */
EyesLane eyes_truth_lane(const Truth *truth, Side lane, int game);

/* A constant over the particles. EYES_VOLUME and EYES_LANE are hard to tell apart: the volume of a
 * lane is given by eyes_volume, log, against the sheet. */
void eyes_part(const Eyes *eyes, int part, double *mean, double *sd);
void eyes_volume(const Eyes *eyes, Side lane, double *mean, double *sd);

/* What is reported of the filter. */
typedef struct EyesReport {
    double shots, ess;         /* share of particles that count after a shot, summed */
    double least;              /* the least of them */
    double resampled;          /* how often */
    double moves[2], taken[2]; /* of constants; of boards and seeds */
} EyesReport;
const EyesReport *eyes_report(const Eyes *eyes);

/* The best ball and line over some lanes. */
typedef struct EyesBest {
    Plan plan;
    double strike;     /* stated: by throws other than those it was chosen by */
    double strike_bad; /* the same with the share of bad releases that the world has */
} EyesBest;

enum { EYES_DRAWS = 256 };

/* Tries every ball and line on the lanes, EYES_DRAWS or one of them. */
EyesBest eyes_best(const Bag *bag, const EyesLane *lanes, int count, const Plan *now,
                   uint64_t seed);

/* The same by the advisor's own belief and forecast, without what binds its answers; `strike` is of
 * the draws it was chosen by. */
EyesBest eyes_believed(const Bag *bag, const Belief *belief, Side lane, const Plan *now);

/* The i-th of evenly filling points, moved by `shift`, as a throw of that scatter. */
DeliveryOffset eyes_scatter(int i, const double shift[4], const Scatter *scatter);

/* A ball prepared for batches with a lane's friction; `usual` is that of the bag. */
void eyes_ball(const BatchBall *usual, double mu_film, double dry, double fade, BatchBall *ball);

#endif
