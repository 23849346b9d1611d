/* test_averages.c - what the whole chain comes to, from the hand to the score: release, oil,
 * motion, rack and spares, against averages that are published. Each row says its source and how
 * far it was read; what misses is printed, held within a band about what it is today, and told in
 * docs/rack.md.
 *
 * A = a governing body's table from averages of sport play to standard play, three of its rows as a
 *     shop's page quotes them (that page read; the table itself was revised since, not read)
 * B = a competition of 229 bowlers, 12 games on each of five patterns, with means, deviations and
 *     paired differences (a page by somebody who had the scores, read)
 * C = elite bowlers over six bouts of twelve deliveries: Sensors 2023, 23, 8284 (abstract read:
 *     release speed falls, p < 0.001; by how much was not read)
 * D = a professional tour's page on its patterns (read): a house pattern can raise its bowlers'
 *     averages by 20 to 50 pins */
#include <stdlib.h>
#include <string.h>

#include "core/arsenal/lane_states.h"
#include "core/event/score.h"
#include "core/line/fit.h"
#include "core/pins/rack.h"
#include "core/rehearse/world.h"
#include "core/spare/spare.h"
#include "core/spare/spare_ball.h"
#include "near.h"
#include "store/files.h"

/* Patterns of sport play: at most 3 to 1 inside over outside (docs/patterns.md). */
static const char *const SPORT[] = {"apron", "gauze",    "latch", "lintel",   "loaf",
                                    "plank", "porridge", "spire", "tabletop", "thimble"};
enum { SPORTS = sizeof SPORT / sizeof SPORT[0] };
#define HOUSE "parlour" /* 8.6 to 1 */

static Bag BAG;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) ? 0 : -1;
}

static void film_of(const char *name, int worn_games, Oil *oil)
{
    Pattern pattern;
    Error error = {0};
    static Others others;
    assert_true(files_pattern(name, &pattern, &error));
    oil_lay(&pattern, oil);
    others_begin(&others, NULL, 3, HAND_RIGHT, 9, 0);
    for (int game = 0; game < worn_games; game++)
        block_wear(oil, &others, &(GameWear){.bowler = &BAG.bowler, .rate = {1.0, 1.0}},
                   game % 2 ? SIDE_RIGHT : SIDE_LEFT);
}

/* The usual bowler, that many times less repeatable than a good tournament bowler. */
static Bowler scattering(double times)
{
    Bowler bowler = BAG.bowler;
    bowler.scatter = (Scatter){.launch_deg = 0.15 * times,
                               .mph = 0.20 * times,
                               .rpm = 8.0 * times,
                               .laydown_boards = 0.4 * times};
    return bowler;
}

/* The ball of slots 1 to 5 and the line that are worth most to this bowler. */
typedef struct Choice {
    MotionBody body;
    double pounds;
    Delivery delivery;
} Choice;

static Choice best_of_bag(const Oil *oil, const Bowler *bowler)
{
    static BatchOil ready;
    Choice choice = {0};
    double value = -1.0;
    batch_oil(oil, BATCH_QUICK, &ready);
    for (int slot = 1; slot <= 5; slot++) {
        const Ball *ball = bag_slot(&BAG, slot);
        MotionBody body;
        BatchBall batch;
        motion_body(ball, &body);
        batch_ball(&body, &batch);
        Fit fit = fit_ball(&batch, &ready, bowler);
        if (!fit.found || fit.value <= value)
            continue;
        value = fit.value;
        choice = (Choice){body, ball->pounds,
                          delivery_of(bowler, delivery_stance(bowler, fit.laydown_board), fit.aim)};
    }
    assert_true(value >= 0.0);
    return choice;
}

static Pins first_ball(const Choice *choice, const Oil *oil, const Scatter *scatter, Rng *rng)
{
    Delivery thrown = choice->delivery;
    thrown.launch_deg += scatter->launch_deg * rng_normal(rng);
    thrown.mph += scatter->mph * rng_normal(rng);
    thrown.rpm += scatter->rpm * rng_normal(rng);
    thrown.laydown_board += scatter->laydown_boards * rng_normal(rng);
    Arrival at = motion_arrive(&choice->body, oil, &thrown);
    if (at.gutter)
        return PINS_ALL;
    RackHit hit = {at.board, at.degrees, at.mph, 0.0, choice->pounds};
    return rack_roll(&hit, PINS_ALL, rng);
}

static int game_of(const Choice *choice, const Oil *oil, const Bowler *bowler, Rng *rng)
{
    Score score = score_begin();
    Pins standing = PINS_ALL;
    double spare_mph = 0.87 * bowler_spare_release(bowler).mph; /* as rehearse.c */
    char why[80];
    while (!score.over) {
        int frame = score.frame;
        Pins left = standing == PINS_ALL
                        ? first_ball(choice, oil, &bowler->scatter, rng)
                        : spare_ball(standing, spare_miss(bowler), spare_mph, choice->pounds, rng);
        assert_true(score_add(&score, score_ball_of(standing, left), why, sizeof why));
        standing = score.frame != frame || left == 0 ? PINS_ALL : left;
    }
    return score.total;
}

/* Mean of that many games on the line that is best there. */
static double average(const char *pattern, int worn_games, const Bowler *bowler, int games,
                      uint64_t seed)
{
    static Oil oil;
    film_of(pattern, worn_games, &oil);
    Choice choice = best_of_bag(&oil, bowler);
    Rng rng = rng_seed(seed);
    double sum = 0.0;
    for (int game = 0; game < games; game++)
        sum += game_of(&choice, &oil, bowler, &rng);
    return sum / games;
}

/* The mean over the patterns of sport play, and the flattest of them. */
static double sport_average(const Bowler *bowler, double *flattest)
{
    double sport = 0.0;
    for (int p = 0; p < SPORTS; p++) {
        double one = average(SPORT[p], 0, bowler, 40, 50 + (uint64_t)p);
        sport += one / SPORTS;
        if (strcmp(SPORT[p], "tabletop") == 0)
            *flattest = one;
    }
    return sport;
}

/* A. Three bowlers whose scatter gives them the table's average on a house pattern, each on its
 * best line on fresh oil: what they average on the patterns of sport play. Not held out: the house
 * pattern was shaped to bring these rows about, within the area that test_area.c holds. */
static void standard_against_sport(void **state)
{
    (void)state;
    static const struct {
        double times, standard, sport, low, high; /* the drop is held between these */
    } ROWS[] = {{2.30, 173.0, 149.0, 13.0, 26.0},
                {1.93, 187.0, 163.0, 18.0, 30.0},
                {1.57, 205.0, 185.0, 18.0, 34.0}};
    for (int i = 0; i < 3; i++) {
        Bowler bowler = scattering(ROWS[i].times);
        double flat = 0.0, house = average(HOUSE, 0, &bowler, 400, 5);
        double sport = sport_average(&bowler, &flat);
        print_message("scatter x %.2f: house %.0f (table %.0f), sport %.0f (table %.0f), drop %.1f "
                      "(table %.0f); the flattest %.0f\n",
                      ROWS[i].times, house, ROWS[i].standard, sport, ROWS[i].sport, house - sport,
                      ROWS[i].standard - ROWS[i].sport, flat);
        assert_near(house, ROWS[i].standard, 5.0);
        assert_true(house - sport > ROWS[i].low && house - sport < ROWS[i].high);
    }
}

/* D. A bowler as good as on tour (scatter as a good tournament bowler's: assumed), held out. */
static void tour_on_a_house_pattern(void **state)
{
    (void)state;
    Bowler bowler = scattering(1.0);
    double flat = 0.0, house = average(HOUSE, 0, &bowler, 400, 5);
    double sport = sport_average(&bowler, &flat);
    print_message("tour: house %.0f, sport %.0f, %.0f more (published 20 to 50)\n", house, sport,
                  house - sport);
    assert_true(house - sport > 20.0 && house - sport < 50.0);
}

/* B. Bowlers with releases of their own, all of them good, on five patterns: six games fresh, six
 * after three games of others. Their scatter was chosen for the mean over all; the rest is held
 * out. */
static void many_bowlers_five_patterns(void **state)
{
    (void)state;
    static const char *const FIVE[] = {"apron", "gauze", "lintel", "loaf", "thimble"};
    enum { BOWLERS = 24, PATTERNS = 5 };
    Rng rng = rng_seed(229);
    double score[PATTERNS][BOWLERS], mean[PATTERNS] = {0}, low = 300.0, high = 0.0, all = 0.0;
    double between = 0.0, within = 0.0;
    for (int b = 0; b < BOWLERS; b++) {
        Bowler bowler = scattering(1.33 * exp(0.12 * rng_normal(&rng)));
        bowler.mph += 1.0 * rng_normal(&rng);
        bowler.rpm += 45.0 * rng_normal(&rng);
        bowler.rotation_deg += 8.0 * rng_normal(&rng);
        for (int p = 0; p < PATTERNS; p++) {
            uint64_t seed = 1000 + (uint64_t)(p + PATTERNS * b);
            score[p][b] = 0.5 * (average(FIVE[p], 0, &bowler, 6, seed) +
                                 average(FIVE[p], 3, &bowler, 6, seed + 500));
            mean[p] += score[p][b] / BOWLERS;
        }
    }
    for (int p = 0; p < PATTERNS; p++) {
        double square = 0.0, apart = 0.0, gap = mean[p] - mean[(p + 1) % PATTERNS];
        for (int b = 0; b < BOWLERS; b++) {
            double away = score[p][b] - mean[p];
            double pair = score[p][b] - score[(p + 1) % PATTERNS][b] - gap;
            square += away * away / (BOWLERS - 1);
            apart += pair * pair / (BOWLERS - 1);
        }
        print_message(
            "%-8s mean %.1f, deviation between bowlers %.1f (published 14.3, 17.9), of the "
            "same bowler's difference to the next pattern %.1f (11.6)\n",
            FIVE[p], mean[p], sqrt(square), sqrt(apart));
        between += sqrt(square) / PATTERNS;
        within += sqrt(apart) / PATTERNS;
        low = fmin(low, mean[p]);
        high = fmax(high, mean[p]);
        all += mean[p] / PATTERNS;
    }
    print_message("means %.1f to %.1f (published 196.5 to 215.9), over all %.1f (203.4)\n", low,
                  high, all);
    assert_near(all, 203.4, 8.0);
    assert_near(high - low, 19.4, 12.0);
    assert_near(between, 16.0, 5.0);
    assert_near(within, 11.6, 5.0); /* most of it the luck of twelve games */
}

/* C. The worlds' bowlers tire too: never faster, and slower on the mean, over six games. */
static void release_speed_falls(void **state)
{
    (void)state;
    static Oil sheet;
    Truth *truth = truth_new();
    assert_non_null(truth);
    film_of("apron", 0, &sheet);
    for (int w = 0; WORLDS[w]; w++) {
        double fall = 0.0;
        for (uint64_t seed = 1; seed <= 40; seed++) {
            truth_draw(truth, WORLDS[w], &BAG, &sheet, seed);
            for (int game = 2; game <= 6; game++)
                assert_true(truth_mph(truth, game) <= truth_mph(truth, game - 1));
            fall += (truth_mph(truth, 1) - truth_mph(truth, 6)) / 40.0;
        }
        print_message("%-8s %.2f mph slower in the sixth game\n", WORLDS[w]->name, fall);
        assert_less(0.1, fall);
        assert_less(fall, 1.0); /* a bowler would see more, and rest: assumed */
    }
    truth_free(truth);
}

/* Geometry, exact: from the middle of board 1 to 17.5 in 60 feet is 1.397 degrees; a ball that
 * rolls straight comes in at that and no steeper. */
static void a_straight_ball_comes_in_flat(void **state)
{
    (void)state;
    static Oil oil;
    Ball ball = ball_default();
    MotionBody body;
    ball.cover = COVER_POLYESTER;
    motion_body(&ball, &body);
    double degrees = atan(16.5 * LANE_BOARD_M / LANE_LENGTH_M) * 180.0 / acos(-1.0);
    assert_near(degrees, 1.397, 5e-4);
    for (int dry = 0; dry < 2; dry++) {
        film_of("apron", 0, &oil);
        if (dry)
            oil_scale(&oil, 0.0);
        Delivery delivery = {
            .laydown_board = 1.0, .launch_deg = -degrees, .mph = 17.0, .rpm = 150.0};
        Roll roll;
        motion_roll(&body, &oil, &delivery, &roll);
        print_message("straight from board 1: board %.2f at %.3f degrees\n", roll.entry_board,
                      roll.entry_deg);
        assert_near(roll.entry_board, 17.5, 0.35); /* it turns toward its own roll a little */
        assert_true(roll.entry_deg <= degrees + 0.02);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(standard_against_sport),        cmocka_unit_test(tour_on_a_house_pattern),
        cmocka_unit_test(many_bowlers_five_patterns),    cmocka_unit_test(release_speed_falls),
        cmocka_unit_test(a_straight_ball_comes_in_flat),
    };
    return cmocka_run_group_tests_name("averages", tests, set_up, NULL);
}
