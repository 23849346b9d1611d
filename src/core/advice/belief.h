/* belief.h - what the bowler cannot see: how much oil is really there, how slick the lane is, how
 * fast the oil wears, and how the bowler is throwing today; without a sheet also which pattern it
 * is.
 *
 * A particle filter over both lanes of the pair at once. What the lanes share (the day's volume,
 * the wear, the bowler's speed and launch, how each ball differs from its numbers) is one value in
 * a particle; what each lane has of its own is two. So a shot on one lane tells about the other as
 * far as the two are alike, and the lanes drift apart as evidence comes in. How fast oil wears and
 * how far it is carried is one of a few films, each worn by every delivery. Of a pattern without a
 * sheet there are as many films for each sheet that it may be, and a particle is on one of them.
 * The same seed gives the same belief. Allocates nothing; about 4 MB, of which a belief with a
 * sheet touches 1.3. */
#ifndef SETTEE_CORE_ADVICE_BELIEF_H
#define SETTEE_CORE_ADVICE_BELIEF_H

#include <math.h>
#include <stddef.h>

#include "base/rng.h"
#include "core/advice/offsets.h"
#include "core/bag/bag.h"
#include "core/event/shot.h"
#include "core/lane/about.h"
#include "core/line/others.h"
#include "core/motion/batch.h"

enum { BELIEF_PARTICLES = 512, BELIEF_PICKS = 3, BELIEF_CARRIES = 2, BELIEF_BALLS = OFFSETS_BALLS };
enum {
    BELIEF_FILMS = BELIEF_PICKS * BELIEF_CARRIES, /* of one sheet */
    BELIEF_FILMS_MAX = BELIEF_FILMS * ABOUT_SHEETS_MAX
};

/* What a particle says about the lanes and the day. Lane parts come in pairs: PART + lane. */
enum {
    PART_VOLUME = 0,                     /* film against the sheet as worn */
    PART_DRY = PART_VOLUME + SIDE_COUNT, /* friction of bare lane against usual */
    PART_MPH = PART_DRY + SIDE_COUNT,    /* the bowler today, against their usual */
    PART_LAUNCH_DEG,
    PART_LONGER, /* share by which the oil goes farther down than the sheet says */
    PART_COUNT
};

typedef struct Particle {
    double part[PART_COUNT];
    double offsets[OFFSETS_COUNT]; /* boards that nothing else explains, on the mean */
    double weight;                 /* they add up to 1 */
    int film; /* index of film[]: BELIEF_FILMS * sheet + rate of wear; with one sheet the rate */
} Particle;

typedef struct Belief {
    Rng rng;
    Particle particles[BELIEF_PARTICLES];
    Oil sheet; /* bowler's frame, before the first ball; without one, in their middle */
    AboutSheets
        may_be;   /* the sheets that it may be, most common kind first; count 0: it is `sheet` */
    FieldMix mix; /* the others on the pair as far as they are known; set before the first shot */
    Others others[SIDE_COUNT];  /* a usual field of that mix */
    int settled;                /* how many of them have a line on the sheet */
    int sought[SIDE_COUNT];     /* how often one of them has looked for a new one */
    int deliveries[SIDE_COUNT]; /* thrown on each lane, all bowlers */
    Doubt doubt;                /* of every particle's offsets */
    int shots;                  /* seen so far */
    int ball_count;             /* different balls seen, by id */
    char ball_id[BELIEF_BALLS][sizeof((Ball *)0)->id];
    double surprise;                        /* of the last shot: -log10 of its likelihood */
    Oil film[SIDE_COUNT][BELIEF_FILMS_MAX]; /* last: each sheet as worn at each rate */
} Belief;

/* A number and its standard deviation. */
typedef struct Estimate {
    double mean, sd;
} Estimate;

void belief_begin(Belief *belief, const Oil *sheet_in_frame, uint64_t seed);

/* The same for a pattern without a sheet; `middle` is in the middle of what it may be. */
void belief_begin_about(Belief *belief, const About *about, const Oil *middle, uint64_t seed);

/* A copy, of what it uses alone. */
void belief_copy(Belief *to, const Belief *from);

/* How many films are in use; which of its sheets a particle is on, from 0. */
int belief_film_count(const Belief *belief);
static inline int particle_sheet(const Particle *particle) { return particle->film / BELIEF_FILMS; }

/* One of the sheets that a pattern without one may be, after the shots. */
typedef struct SheetLeft {
    AboutSheet sheet; /* its length as the shots have it; share: as likely now */
} SheetLeft;

/* The sheets that are left, most likely first; those that are hardly possible, too. 0: the pattern
 * has a sheet. */
int belief_sheets(const Belief *belief, SheetLeft left[ABOUT_SHEETS_MAX]);

/* "most like a 41 ft, flat; 3 others possible", or "" for a pattern with a sheet. */
void belief_sheet_words(const Belief *belief, char *out, size_t size);

/* The sheet, or the most likely one, before the first ball. */
void belief_likely_sheet(const Belief *belief, Oil *oil);

/* The mean film of a lane if it was oiled by that sheet, from 0, at no particle's volume. */
void belief_sheet_film(const Belief *belief, Side lane, int sheet, Oil *oil);

/* Some of the others find a line on the sheet (about three milliseconds); false: all have one.
 * belief_thrown does what is left of it. */
bool belief_settle(Belief *belief, Hand hand, int bowlers_on_pair);

/* Weighs what was seen of a shot; then the lane still has to be worn by it. The shot's stance and
 * aim must be given. */
void belief_weigh(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                  const BatchBall *batch, const Shot *shot);

/* Wears the lane with the shot and with the other bowlers' that go with it. */
void belief_thrown(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                   const Shot *shot, int bowlers_on_pair);

/* Both. */
void belief_see(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                const BatchBall *batch, const Shot *shot, int bowlers_on_pair);

/* Wears the lane as a shot like `as` does, with the other bowlers' that come with it, though
 * nothing was reported of it. Its stance and aim must be said. */
void belief_played(Belief *belief, const Bowler *bowler, const Ball *ball, const MotionBody *body,
                   const Shot *as, int bowlers_on_pair);

/* The bowler moves to another pair of the house: what is known of the house, the day, the bowler
 * and the balls stays, what the two lanes had of their own goes. Both are as oiled; belief_played
 * wears them. */
void belief_next_pair(Belief *belief);

/* The lane's mean film. */
void belief_film(const Belief *belief, Side lane, Oil *oil);

/* One part: PART_VOLUME + lane, PART_MPH, ... */
Estimate belief_part(const Belief *belief, int part);
/* The bowler today against their usual, mean: for plan_today. */
DeliveryOffset belief_today(const Belief *belief);
/* How fast the oil wears, against the usual rate. */
Estimate belief_wear(const Belief *belief);
/* The rate of wear that a particle's `film` stands for. */
WearRate belief_rate(int film);
/* Mean film over boards low..high and feet from..to, units. */
Estimate belief_track(const Belief *belief, Side lane, int low, int high, double from_ft,
                      double to_ft);

/* "track at 10-14 about a third thinner than the sheet", along a path, in a coach's words. */
void belief_words(const Belief *belief, Side lane, const Roll *path, char *out, size_t size);

/* The number of a ball, from 1, in the order in which they were first thrown; for a ball not seen
 * yet the next one that is free, of which nothing has been learnt. 0: none is left. */
int belief_ball(const Belief *belief, const char *id);

/* Boards at the pins that nothing else explains, on the mean: for offsets_mean. */
void belief_offsets(const Belief *belief, double means[OFFSETS_COUNT]);

/* The same of one ball on one line, with its doubt. */
Estimate belief_off(const Belief *belief, const OffsetsAt *at);

/* "hits about a board higher here than its numbers say", or "" if that is not clear. */
void belief_off_words(Estimate off, char *out, size_t size);

/* Picks `count` particles, spread as evenly as possible: indices, repeated by weight, in order of
 * film. */
void belief_draw(const Belief *belief, int *indices, int count);

#endif
