/* test_odds.c - the mean score of a game against every way it can be bowled, scored by the rules'
 * own code; costs that add up. No source outside but score.h's. */
#include "near.h"

#include "base/rng.h"
#include "core/event/score.h"
#include "core/rehearse/odds.h"

/* A rack that is a strike, or seven and then three or one more: two chances say it all. */
static Odds odds_made(double strike, double spare)
{
    return (Odds){.strike = strike,
                  .spare = spare,
                  .first = 10.0 * strike + 7.0 * (1.0 - strike),
                  .second = 3.0 * spare + 1.0 * (1.0 - strike - spare)};
}

static Odds odds_drawn(Rng *rng)
{
    double strike = rng_between(rng, 0.05, 0.7);
    return odds_made(strike, (1.0 - strike) * rng_between(rng, 0.1, 0.95));
}

/* The mean of the final score over all that may still happen. */
static double every_way(const Odds *racks, const Score *score, int fill)
{
    char why[80];
    if (score->over)
        return score->total;
    Score next = *score;
    int rack = score->frame - 1 + (score->frame == 10 ? fill : 0);
    const Odds *odds = &racks[rack];
    assert_true(score_add(&next, score_ball_of(PINS_ALL, 0), why, sizeof why));
    double sum = odds->strike *
                 every_way(racks, &next, next.frame == 10 && score->frame == 10 ? fill + 1 : 0);
    Score seven = *score;
    assert_true(score_add(&seven, score_ball_of(PINS_ALL, 0x7), why, sizeof why));
    if (seven.over) /* the last ball of the tenth */
        return sum + (1.0 - odds->strike) * seven.total;
    Score spare = seven, open = seven;
    assert_true(score_add(&spare, score_ball_of(0x7, 0), why, sizeof why));
    assert_true(score_add(&open, score_ball_of(0x7, 0x3), why, sizeof why));
    sum += odds->spare *
           every_way(racks, &spare, spare.frame == 10 && score->frame == 10 ? fill + 1 : 0);
    return sum + (1.0 - odds->strike - odds->spare) * every_way(racks, &open, 0);
}

static void test_mean_score_is_that_of_every_way(void **state)
{
    (void)state;
    Rng rng = rng_seed(5);
    for (int game = 0; game < 6; game++) {
        Odds racks[ODDS_RACKS];
        for (int i = 0; i < ODDS_RACKS; i++)
            racks[i] = odds_drawn(&rng);
        Score score = score_begin();
        assert_near(odds_game(racks), every_way(racks, &score, 0), 1e-9);
    }
    Odds always[ODDS_RACKS];
    for (int i = 0; i < ODDS_RACKS; i++)
        always[i] = odds_made(1.0, 0.0);
    assert_near(odds_game(always), SCORE_PERFECT, 1e-9);
    for (int i = 0; i < ODDS_RACKS; i++)
        always[i] = odds_made(0.0, 0.0);
    assert_near(odds_game(always), 80.0, 1e-9);
}

/* They add up to the difference; a rack that is no better costs nothing, and one that strikes more
 * often, with as many spares of the rest, costs something. */
static void test_costs_add_up(void **state)
{
    (void)state;
    Rng rng = rng_seed(11);
    for (int game = 0; game < 300; game++) {
        Odds own[ODDS_RACKS], better[ODDS_RACKS];
        double costs[ODDS_RACKS], score[2], sum = 0.0;
        int count = 10 + game % 3, same = game % 10;
        for (int i = 0; i < ODDS_RACKS; i++) {
            own[i] = odds_drawn(&rng);
            double more = own[i].strike + rng_between(&rng, 0.01, 0.25);
            better[i] = odds_made(more, own[i].spare * (1.0 - more) / (1.0 - own[i].strike));
        }
        better[same] = own[same];
        odds_costs(own, better, count, costs, score);
        for (int i = 0; i < count; i++) {
            sum += costs[i];
            if (i == same)
                assert_near(costs[i], 0.0, 1e-12);
            else
                assert_less(0.0, costs[i]);
        }
        assert_near(sum, score[1] - score[0], 1e-9);
        if (count == ODDS_RACKS) {
            assert_near(score[0], odds_game(own), 0.0);
            assert_near(score[1], odds_game(better), 0.0);
        }
    }
}

/* A line that is thrown all game scores about ten times what a frame of it does (frame.h), which
 * counts a strike's second ball roughly. */
static void test_as_frame_has_it(void **state)
{
    (void)state;
    Bowler bowler = bowler_default();
    Ball ball = {.pounds = 15.0};
    for (double board = 15.0; board <= 20.0; board += 0.5)
        for (double sd = 0.8; sd < 3.0; sd += 0.7) {
            Outlook at = frame_as_seen(&(Outlook){.pocket = 1.0,
                                                  .strike = 1.0,
                                                  .pinfall = 10.0,
                                                  .board = board,
                                                  .board_sd = sd,
                                                  .degrees = 5.0},
                                       board, &bowler, &ball);
            Odds racks[ODDS_RACKS];
            for (int i = 0; i < ODDS_RACKS; i++)
                racks[i] = odds_of(&at, &bowler, &ball);
            double ten = 10.0 * frame_of(&at, &bowler, &ball).score;
            assert_near(odds_game(racks), ten, 0.03 * ten);
        }
    Outlook gutter = {.board = NAN, .board_sd = NAN, .degrees = NAN};
    Odds never = odds_of(&gutter, &bowler, &ball);
    assert_near(never.strike + never.spare + never.first, 0.0, 0.0);
    assert_near(never.second, 5.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_mean_score_is_that_of_every_way),
                                       cmocka_unit_test(test_costs_add_up),
                                       cmocka_unit_test(test_as_frame_has_it)};
    return cmocka_run_group_tests_name("odds", tests, NULL, NULL);
}
