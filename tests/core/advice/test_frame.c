/* test_frame.c - what a first ball comes to by the end of its frame. Sources outside: the rules of
 * scoring, and what must hold for a bowler who never misses a spare, or always. */
#include "near.h"

#include <gsl/gsl_cdf.h>

#include "core/advice/frame.h"
#include "core/pins/rack.h"
#include "helper_demo.h"

static const Scatter NONE;
static const Scatter WILD = {.launch_deg = 30.0, .mph = 5.0, .rpm = 100.0, .laydown_boards = 20.0};

static Outlook hitting(double board, double strike, double pinfall)
{
    return (Outlook){
        .strike = strike, .pinfall = pinfall, .board = board, .board_sd = 1.0, .degrees = 4.5};
}

/* Of the leaves at a hit, the share that is split. */
static double split_share(double board, const Bowler *bowler, const Ball *ball)
{
    RackChances rack;
    double all = 0.0, split = 0.0;
    rack_chances(board, 4.5, bowler->mph, ball->pounds, &rack);
    for (int i = 0; i < rack.leave_count; i++) {
        all += rack.leave_chance[i];
        split += lane_split(rack.leave[i]) ? rack.leave_chance[i] : 0.0;
    }
    return split / all;
}

/* Who never misses leaves no frame open but on splits, wherever the first ball hits; with no strike
 * either, such a frame is ten and the next first ball. Who strikes always has thirty. */
static void who_never_misses(void **state)
{
    (void)state;
    Bowler sure = BAG.bowler;
    sure.scatter = NONE;
    const Ball *ball = bag_slot(&BAG, 1);
    for (double board = 13.0; board <= 24.0; board += 0.5)
        for (int k = 0; k <= 4; k++) {
            double strike = 0.25 * k, first = 10.0;
            Outlook outlook = hitting(board, strike, first);
            outlook.board_sd = 0.01;
            FrameOutlook frame = frame_of(&outlook, &sure, ball);
            double open = (1.0 - strike) * split_share(board, &sure, ball);
            assert_true(frame.clean <= 1.0 && frame.clean >= 1.0 - open - 0.01);
            if (k == 4)
                assert_near(frame.score, 30.0, 1e-9);
            else if (k == 0)
                assert_true(frame.score <= 10.0 + first);
        }
}

/* Who nearly always misses has strikes alone, and at most the pins there are; in between, the surer
 * the bowler the more frames are clean, and more frames clean are more pins. */
static void the_surer_the_better(void **state)
{
    (void)state;
    const Ball *ball = bag_slot(&BAG, 1);
    for (double board = 13.0; board <= 24.0; board += 1.0) {
        Outlook outlook = hitting(board, 0.3, 8.8);
        Bowler bowler = BAG.bowler;
        bowler.scatter = WILD;
        FrameOutlook last = frame_of(&outlook, &bowler, ball);
        assert_near(last.clean, 0.3, 0.15);
        /* a strike is ten and the next two balls; any other frame what falls at first, to ten */
        double first = 8.8, two = first + 0.3 * first, not_strike = first - 0.3 * 10.0;
        assert_true(last.score > 0.3 * (10.0 + two) + not_strike);
        assert_true(last.score < 0.3 * (10.0 + two + 0.7 * (10.0 - first)) + 0.7 * 10.0 +
                                     (last.clean - 0.3) * first);
        for (double share = 8.0; share >= 0.25; share *= 0.5) {
            bowler.scatter = BAG.bowler.scatter;
            bowler.scatter.launch_deg *= share;
            bowler.scatter.laydown_boards *= share;
            FrameOutlook frame = frame_of(&outlook, &bowler, ball);
            assert_true(frame.clean >= last.clean && frame.clean <= 1.0 + 1e-12);
            assert_true(frame.score >= last.score);
            last = frame;
        }
    }
}

/* A ball that only reaches the lane half the time has half of its spares made; one in the gutter
 * has a full rack to come. */
static void half_in_the_gutter(void **state)
{
    (void)state;
    Bowler sure = BAG.bowler;
    sure.scatter = NONE;
    const Ball *ball = bag_slot(&BAG, 1);
    Outlook usual = hitting(19.0, 0.0, 0.0);
    usual.pinfall =
        frame_as_seen(
            &(Outlook){
                .strike = 1.0, .pinfall = 10.0, .board = 19.0, .board_sd = 1.0, .degrees = 4.5},
            19.0, &sure, ball)
            .pinfall;
    Outlook half = usual;
    half.pinfall *= 0.5;
    double clean = frame_of(&usual, &sure, ball).clean;
    assert_near(frame_of(&half, &sure, ball).clean, 0.5 * clean, 1e-6);
    Outlook gutter = {.board = NAN, .board_sd = NAN, .degrees = NAN};
    assert_near(frame_of(&gutter, &sure, ball).clean, 0.0, 0.0);
    assert_true(frame_of(&gutter, &sure, ball).score > 0.0);
    assert_true(frame_of(&gutter, &sure, ball).score < 10.0);
}

/* The best board has the most strikes; a hit that was seen is never better than was thought. */
static void where_it_hits(void **state)
{
    (void)state;
    const Ball *ball = bag_slot(&BAG, 1);
    Outlook thought = hitting(LANE_POCKET_BEST, 1.0, 10.0);
    double best = frame_best_strike(&thought, &BAG.bowler, ball);
    assert_true(best > 0.2 && best < 1.0);
    Outlook sharp = thought;
    sharp.board_sd = 1e-6;
    double mph = 0.0, nearest = 1.0; /* the rack's own figure, at whatever speed it arrives */
    for (mph = 0.7 * BAG.bowler.mph; mph <= BAG.bowler.mph; mph += 0.05)
        nearest = fmin(nearest, fabs(rack_strike(LANE_POCKET_BEST, 4.5, mph, ball->pounds) -
                                     frame_best_strike(&sharp, &BAG.bowler, ball)));
    assert_less(nearest, 0.005);
    thought.pocket = 1.0;
    for (double sd = 0.4; sd <= 2.0; sd += 0.4) { /* the normal distribution over the pocket */
        thought.board_sd = sd;
        assert_near(frame_as_seen(&thought, 18.2, &BAG.bowler, ball).pocket,
                    gsl_cdf_gaussian_P(LANE_POCKET_HIGH - 18.2, sd) -
                        gsl_cdf_gaussian_P(LANE_POCKET_LOW - 18.2, sd),
                    1e-7);
    }
    thought.board_sd = 1.0;
    for (double board = 14.0; board <= 23.0; board += 0.5) {
        Outlook seen = frame_as_seen(&thought, board, &BAG.bowler, ball);
        assert_true(seen.strike <= best + 0.02 && seen.pinfall <= 10.0);
        assert_near(seen.board, board, 0.0);
        Outlook low = hitting(board, 0.0, 0.0);
        seen = frame_as_seen(&low, LANE_POCKET_BEST, &BAG.bowler, ball);
        assert_near(seen.strike, 0.0, 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(who_never_misses), cmocka_unit_test(the_surer_the_better),
        cmocka_unit_test(half_in_the_gutter), cmocka_unit_test(where_it_hits)};
    return cmocka_run_group_tests_name("frame", tests, demo_set_up, NULL);
}
