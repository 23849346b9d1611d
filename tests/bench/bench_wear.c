/* bench_wear.c - what lanes become: the best line's pocket chance and place before each of six
 * games, on 24 pairs (the six patterns of cells.h, four fields of three others on each), for the
 * best ball of the demo's bag and for its strong solid alone. Markdown.
 *
 * What it is held against is common practice, no source: on tournament oil scores fall or hold as
 * lanes break down, and the line of a strong ball moves one to two boards in a game. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "base/error.h"
#include "cells.h"
#include "core/arsenal/lane_states.h"
#include "store/files.h"

enum { GAMES = 6, FIELDS = 4, OTHERS = 3 };

static Bag BAG;

typedef struct Ready {
    MotionBody body;
    BatchBall batch;
    Cover cover;
} Ready;

typedef struct Course {
    double pocket[GAMES + 1], laydown[GAMES + 1], entry[GAMES + 1];
    double held[GAMES +
                1]; /* boards higher that the first line hits than when fresh; 0 in the gutter */
} Course;

/* Near the line played so far when that is nearly as good: a bowler stays. */
static Fit stay(const Ready *ball, const BatchOil *oil, const Fit *before)
{
    Fit best = fit_ball(&ball->batch, oil, &BAG.bowler);
    if (!before)
        return best;
    Fit near = fit_between(&ball->batch, oil, &BAG.bowler, before->laydown_board - 2.0,
                           before->laydown_board + 4.0);
    return near.found && near.value >= best.value - 0.02 ? near : best;
}

static void play(const Ready *balls, int first, int last, const char *pattern, uint64_t seed,
                 Course *course)
{
    static Others others;
    Pattern sheet;
    Oil oil;
    Error error = {0};
    BatchOil ready;
    Fit now = {0};
    int in_hand = -1, holder = first;
    Delivery hold = {0};
    double start = 0.0;
    if (!files_pattern(pattern, &sheet, &error))
        exit(1);
    oil_lay(&sheet, &oil);
    others_begin(&others, NULL, OTHERS, BAG.bowler.hand, seed, 0);
    for (int game = 0; game <= GAMES; game++) {
        Fit best = {.value = -1.0};
        int which = first;
        batch_oil(&oil, BATCH_QUICK, &ready);
        for (int i = first; i <= last; i++) {
            Fit fit = stay(&balls[i], &ready, i == in_hand ? &now : NULL);
            if (fit.found && fit.value > best.value) {
                best = fit;
                which = i;
            }
        }
        now = best;
        in_hand = which;
        course->pocket[game] += best.pocket;
        course->laydown[game] += best.laydown_board;
        course->entry[game] += best.entry_deg;
        Delivery delivery =
            delivery_of(&BAG.bowler, delivery_stance(&BAG.bowler, best.laydown_board), best.aim);
        if (game == 0) {
            hold = delivery;
            holder = which;
            start = motion_arrive(&balls[which].body, &oil, &hold).board;
        }
        Arrival held = motion_arrive(&balls[holder].body, &oil, &hold);
        course->held[game] = held.gutter ? 0.0 : held.board - start;
        GameWear wear = {&BAG.bowler, &balls[which].body, balls[which].cover, &delivery, {1, 1}};
        block_wear(&oil, &others, &wear, game % 2 ? SIDE_RIGHT : SIDE_LEFT);
    }
}

static void table(const Ready *balls, int first, int last)
{
    double rise = 0.0, moved = 0.0, held[GAMES + 1] = {0};
    int falls = 0, pairs = 0;
    puts("| pattern | pocket, fresh and after each game, % | laydown | entry, deg |\n"
         "|---|---|---|---|");
    for (int p = 0; p < CELL_PATTERN_COUNT; p++) {
        Course sum = {0};
        for (int field = 0; field < FIELDS; field++) {
            Course one = {0};
            play(balls, first, last, CELL_PATTERNS[p], 100 + (uint64_t)(field + FIELDS * p), &one);
            double later = 0.0;
            for (int game = 0; game <= GAMES; game++) {
                held[game] += one.held[game];
                sum.pocket[game] += one.pocket[game] / FIELDS;
                sum.laydown[game] += one.laydown[game] / FIELDS;
                sum.entry[game] += one.entry[game] / FIELDS;
                later += game > 0 && game < GAMES ? one.pocket[game] / (GAMES - 1) : 0.0;
            }
            rise += later - one.pocket[0];
            falls += later < one.pocket[0];
            moved += (one.laydown[GAMES] - one.laydown[0]) / GAMES;
            pairs++;
        }
        printf("| %s |", CELL_PATTERNS[p]);
        for (int game = 0; game <= GAMES; game++)
            printf(" %.0f", 100.0 * sum.pocket[game]);
        printf(" |");
        for (int game = 0; game <= GAMES; game++)
            printf(" %.0f", sum.laydown[game]);
        printf(" |");
        for (int game = 0; game <= GAMES; game++)
            printf(" %.1f", sum.entry[game]);
        puts(" |");
    }
    printf("\nThe first line, held, hits higher by");
    for (int game = 1; game <= GAMES; game++)
        printf("%s %.1f", game > 1 ? "," : "", held[game] / pairs);
    puts(" boards after each game.");
    printf(
        "\nOver %d pairs games 2 to 6 stand %+.1f points of pocket chance against fresh; it falls "
        "in %d; the line moves %+.1f boards a game.\n",
        pairs, 100.0 * rise / pairs, falls, moved / pairs);
}

int main(void)
{
    Ready balls[BAG_SLOTS];
    Error error = {0};
    if (!files_bag("demo", &BAG, &error))
        return 1;
    for (int i = 0; i < BAG_SLOTS; i++) {
        const Ball *ball = bag_slot(&BAG, i + 1);
        motion_body(ball, &balls[i].body);
        batch_ball(&balls[i].body, &balls[i].batch);
        balls[i].cover = ball->cover;
    }
    puts("The best ball of slots 1 to 5\n");
    table(balls, 0, 4);
    puts("\nSlot 1, a strong asymmetric solid, alone\n");
    table(balls, 0, 0);
    return 0;
}
