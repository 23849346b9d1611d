/* bench_read.c - what a read tells: the place where a ball hooks against the old first move (a
 * degree above the launch). Two tables in Markdown:
 *   - how each answers length, volume, surface, cover, speed, revs, wear and carrydown;
 *   - bits: by how much the word early, on time or late is expected to lower the entropy of what is
 *     believed of volume, friction and wear (mutual information of word and particle). */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "../traffic.h"
#include "base/error.h"
#include "base/units.h"
#include "core/advice/belief.h"
#include "core/line/line.h"
#include "core/motion/wear.h"
#include "store/files.h"

static Bag BAG;
static Pattern APRON;

static void must(bool ok, const Error *error)
{
    char line[ERROR_LINE_MAX];
    if (ok)
        return;
    error_line(error, line, sizeof line);
    fprintf(stderr, "bench_read: %s\n", line);
    exit(1);
}

static Oil film_of(const char *name)
{
    Pattern pattern;
    Error error = {0};
    Oil oil;
    must(files_pattern(name, &pattern, &error), &error);
    oil_lay(&pattern, &oil);
    return oil;
}

static Delivery own_line(const MotionBody *body, const Oil *oil)
{
    Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
    Line line = line_best(body, oil, &BAG.bowler, &usual, LINE_LAYDOWN_LOW, LINE_LAYDOWN_HIGH);
    return delivery_of(&BAG.bowler, line.stance, line.aim);
}

static void row(const char *what, const Ball *ball, const Oil *oil, const Delivery *delivery)
{
    MotionBody body;
    Roll roll;
    motion_body(ball, &body);
    Delivery own = delivery ? *delivery : own_line(&body, oil);
    motion_roll(&body, oil, &own, &roll);
    printf("| %s | %.1f | %.1f |\n", what, roll.first_move_ft, roll.hook_ft);
}

static void answers(void)
{
    static const char *const LENGTHS[] = {"thimble", "latch", "gauze", "apron", "loaf", "lintel"};
    const Ball *solid = bag_slot(&BAG, 1);
    char words[80];
    puts("| slot 1 but for | first move, ft | hooks, ft |\n|---|---|---|");
    for (int i = 0; i < 6; i++) {
        Oil oil = film_of(LENGTHS[i]);
        snprintf(words, sizeof words, "pattern of %g ft, own line", oil.length_ft);
        row(words, solid, &oil, NULL);
    }
    Oil apron = film_of("apron"), oil = apron;
    MotionBody body;
    motion_body(solid, &body);
    Delivery line = own_line(&body, &apron);
    for (int i = 0; i < 3; i++) {
        double share = 0.8 + 0.2 * i;
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                oil.units[j][b] = share * apron.units[j][b];
        snprintf(words, sizeof words, "40 ft, %.0f %% of the oil", 100.0 * share);
        row(words, solid, &oil, &line);
    }
    static const double GRITS[] = {500, 1000, 2000, 4000};
    for (int i = 0; i <= 4; i++) {
        Ball ball = *solid;
        ball.surface = i < 4 ? (Surface){.finish = FINISH_GRIT, .grit = GRITS[i]}
                             : (Surface){.finish = FINISH_POLISH};
        snprintf(words, sizeof words, i < 4 ? "%.0f grit" : "polish", i < 4 ? GRITS[i] : 0.0);
        row(words, &ball, &apron, &line);
    }
    for (int cover = 0; cover < COVER_COUNT; cover++) {
        Ball ball = *solid;
        ball.cover = (Cover)cover;
        row(COVER_NAMES[cover], &ball, &apron, &line);
    }
    Delivery other = line;
    other.mph += 1.0;
    row("1 mph faster", solid, &apron, &other);
    other = line;
    other.rpm += 50.0;
    row("50 rpm more", solid, &apron, &other);
    for (int urethane = 0; urethane < 2; urethane++) {
        oil = apron;
        for (int i = 0; i < 60; i++) {
            Roll roll;
            motion_roll(&body, &oil, &line, &roll);
            wear_delivery(&oil, &roll, urethane ? COVER_URETHANE : COVER_SOLID,
                          i % 3 ? traffic_shift(i) : 0.0);
        }
        row(urethane ? "after 60 hard balls (carrydown)" : "after 60 solids (burnt)", solid, &oil,
            &line);
    }
}

/* As belief.c has it: a step of 2 ft, 0.8 ft soft, 15 % at random. */
static void words_of(double later_ft, double chance[3])
{
    double early = 1.0 / (1.0 + exp((later_ft + 2.0) / 0.8));
    double late = 1.0 / (1.0 + exp((2.0 - later_ft) / 0.8));
    double said[3] = {early, 1.0 - early - late, late};
    for (int i = 0; i < 3; i++)
        chance[i] = 0.85 * fmax(said[i], 0.0) + 0.05;
}

static double bits(const double *feet, int count)
{
    double mean = 0.0, share[3] = {0}, told = 0.0;
    for (int i = 0; i < count; i++)
        mean += feet[i] / count;
    for (int i = 0; i < count; i++) {
        double chance[3];
        words_of(feet[i] - mean, chance);
        for (int k = 0; k < 3; k++)
            share[k] += chance[k] / count;
    }
    for (int i = 0; i < count; i++) {
        double chance[3];
        words_of(feet[i] - mean, chance);
        for (int k = 0; k < 3; k++)
            told += chance[k] * log2(chance[k] / share[k]) / count;
    }
    return told;
}

static Belief BELIEF;

static void one_age(const char *name, int slot, int shots)
{
    static double first[BELIEF_PARTICLES], hook[BELIEF_PARTICLES];
    Oil sheet = film_of(name);
    const Ball *ball = bag_slot(&BAG, slot);
    MotionBody body;
    BatchBall batch;
    motion_body(ball, &body);
    batch_ball(&body, &batch);
    Delivery line = own_line(&body, &sheet);
    Shot shot = {.lane = SIDE_LEFT,
                 .slot = slot,
                 .stance = delivery_stance(&BAG.bowler, line.laydown_board),
                 .aim = delivery_aim_board(line.laydown_board, line.launch_deg)};
    belief_begin(&BELIEF, &sheet, 1);
    for (int i = 0; i < shots; i++) /* nothing is said of them: they wear the lane */
        belief_see(&BELIEF, &BAG.bowler, ball, &body, &batch, &shot, 4);
    for (int i = 0; i < BELIEF_PARTICLES; i++) {
        const Particle *p = &BELIEF.particles[i];
        Oil oil = BELIEF.film[SIDE_LEFT][p->film];
        MotionBody theirs = body;
        Roll roll;
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                oil.units[j][b] *= p->part[PART_VOLUME];
        theirs.friction.mu_dry *= p->part[PART_DRY];
        motion_roll(&theirs, &oil, &line, &roll);
        first[i] = isnan(roll.first_move_ft) ? LANE_LENGTH_FT : roll.first_move_ft;
        hook[i] = isnan(roll.hook_ft) ? LANE_LENGTH_FT : roll.hook_ft;
    }
    double before = bits(first, BELIEF_PARTICLES), now = bits(hook, BELIEF_PARTICLES);
    printf("| %s, slot %d, %d deliveries | %.4f | %.4f |\n", name, slot, 4 * shots, before, now);
}

int main(void)
{
    Error error = {0};
    must(files_bag("demo", &BAG, &error), &error);
    must(files_pattern("apron", &APRON, &error), &error);
    answers();
    puts("\n| a read of | first move, bits | where it hooks, bits |\n|---|---|---|");
    static const char *const PATTERNS[] = {"apron", "lintel", "parlour"};
    for (int p = 0; p < 3; p++)
        for (int slot = 1; slot <= 4; slot += 3)
            for (int shots = 0; shots <= 20; shots += 10)
                one_age(PATTERNS[p], slot, shots);
    return 0;
}
