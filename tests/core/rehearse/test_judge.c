/* test_judge.c - what decisions cost: sums that hold on 200 blocks, judges that agree with who
 * knows the lane and who follows the advice, and a block that is played again as it was. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/rehearse/judge.h"
#include "store/files.h"

static Bag ONE_BALL, TWO_BALLS;
static Pattern PATTERN;
static RuleSet RULES;
static RehearseJob *JOB;
static JudgeJob *JUDGE;
static Rehearsal *PLAYED;
static Judgement *OUT;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    JOB = rehearse_new();
    JUDGE = judge_new();
    PLAYED = malloc(sizeof *PLAYED);
    OUT = malloc(sizeof *OUT);
    if (!JOB || !JUDGE || !PLAYED || !OUT || !files_bag("demo", &TWO_BALLS, &error) ||
        !files_pattern("apron", &PATTERN, &error) || !files_rules("coach", &RULES, &error))
        return -1;
    ONE_BALL = TWO_BALLS;
    for (int i = 0; i < TWO_BALLS.count; i++) {
        if (TWO_BALLS.balls[i].slot != 4)
            ONE_BALL.balls[i].slot = 0;
        if (TWO_BALLS.balls[i].slot != 2 && TWO_BALLS.balls[i].slot != 4)
            TWO_BALLS.balls[i].slot = 0;
    }
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    rehearse_free(JOB);
    judge_free(JUDGE);
    free(PLAYED);
    free(OUT);
    return 0;
}

static RehearseSetup setup_of(const Bag *bag, const Player *player, uint64_t seed)
{
    return (RehearseSetup){.bag = bag,
                           .pattern = &PATTERN,
                           .rules = &RULES,
                           .games = 1,
                           .bowlers_on_pair = 2,
                           .world = &WORLD_TILTED,
                           .player = player,
                           .seed = seed};
}

static void judge_all(void)
{
    while (!judge_step(JUDGE))
        ;
}

/* Costs add up, game by game, to the difference of the mean scores, and these are what the racks'
 * own odds come to. */
static void assert_adds_up(int kinds)
{
    assert_int_equal(OUT->count, PLAYED->shot_count);
    assert_int_equal(OUT->games, PLAYED->games);
    for (int kind = 0; kind < kinds; kind++)
        for (int game = 1, i = 0; game <= OUT->games; game++) {
            const JudgedGame *whole = &OUT->game[game - 1];
            Odds own[ODDS_RACKS], best[ODDS_RACKS];
            double sum = 0.0;
            int racks = 0;
            for (; i < OUT->count && PLAYED->shots[i].game == game; i++) {
                const Judged *judged = &OUT->decisions[i].by[kind];
                sum += judged->cost;
                own[racks] = judged->chosen;
                best[racks++] = judged->best;
            }
            assert_near(sum, whole->best[kind] - whole->mean[kind], 1e-9);
            for (int k = racks; k < ODDS_RACKS; k++) /* not thrown: alike in both */
                own[k] = best[k] = best[racks - 1];
            assert_near(odds_game(own), whole->mean[kind], 1e-9);
            assert_near(odds_game(best), whole->best[kind], 1e-9);
            assert_true(whole->mean[kind] >= 0.0 && whole->best[kind] <= SCORE_PERFECT);
        }
}

/* A usual launch from there. */
static double crude_aim(const Truth *truth, Side lane, int slot, const Delivery *usual,
                        double laydown)
{
    (void)truth, (void)lane, (void)slot, (void)usual;
    return 10.0 + 0.6 * (laydown - 17.0);
}

/* 200 blocks, with few draws and a crude search for speed: that changes the numbers, not whether
 * they add up. */
static void test_costs_add_up_on_200_blocks(void **state)
{
    (void)state;
    static const Player *const BY[] = {&PLAYER_HOLD, &PLAYER_BY_THE_MISS};
    World few = WORLD_TILTED;
    few.every = 16;
    few.aim = crude_aim;
    double cost = 0.0;
    for (uint64_t seed = 1; seed <= 200; seed++) {
        RehearseSetup setup = setup_of(&ONE_BALL, BY[seed % 2], seed);
        setup.world = &few;
        rehearse_play(JOB, &setup, PLAYED);
        judge_begin(JUDGE, &setup, PLAYED, OUT);
        judge_lane_alone(JUDGE);
        judge_all();
        assert_adds_up(JUDGE_BELIEF);
        cost += judge_cost(OUT, JUDGE_LANE) / 200.0;
    }
    assert_less(5.0, cost); /* they leave much on the lane */
}

/* Both judges, of a block with practice. What follows the advice costs little by what
 * was known, and what knows the lane nothing by the lane. */
static void test_each_judge_has_its_player(void **state)
{
    (void)state;
    static const Player *const BY[] = {&PLAYER_HOLD, &PLAYER_ADVISOR, &PLAYER_KNOWS};
    double cost[3][JUDGE_KINDS];
    for (int i = 0; i < 3; i++) {
        RehearseSetup setup = setup_of(&TWO_BALLS, BY[i], 4);
        setup.practice = 3;
        rehearse_play(JOB, &setup, PLAYED);
        judge_begin(JUDGE, &setup, PLAYED, OUT);
        judge_all();
        assert_adds_up(JUDGE_KINDS);
        for (int kind = 0; kind < JUDGE_KINDS; kind++)
            cost[i][kind] = judge_cost(OUT, (JudgeKind)kind);
    }
    assert_less(cost[1][JUDGE_BELIEF], 6.0);
    assert_less(cost[2][JUDGE_LANE], 3.0);
    assert_less(cost[1][JUDGE_LANE] + 10.0, cost[0][JUDGE_LANE]);
    assert_less(cost[2][JUDGE_LANE] + 10.0, cost[1][JUDGE_LANE]);
    assert_less(cost[1][JUDGE_BELIEF] + 10.0, cost[0][JUDGE_BELIEF]);
}

/* A block that is judged while it is bowled is judged as one that is over. */
static void test_judged_throw_by_throw(void **state)
{
    (void)state;
    RehearseSetup setup = setup_of(&ONE_BALL, &PLAYER_BY_THE_MISS, 12);
    Judgement *whole = malloc(sizeof *whole);
    Rehearsal *again = malloc(sizeof *again);
    JudgeJob *other = judge_new();
    assert_true(whole && again && other);
    rehearse_play(JOB, &setup, PLAYED);
    judge_begin(JUDGE, &setup, PLAYED, whole);
    judge_all();
    setup.player = NULL;
    rehearse_begin(JOB, &setup, again);
    judge_begin(other, &setup, again, OUT);
    while (!rehearse_over(JOB)) {
        Choice choice = PLAYER_BY_THE_MISS.choose(rehearse_view(JOB));
        rehearse_throw(JOB, &choice);
        while (!judge_step(other))
            ;
        assert_int_equal(OUT->count, again->shot_count);
    }
    assert_int_equal(again->score[0], PLAYED->score[0]);
    assert_int_equal(OUT->count, whole->count);
    for (int i = 0; i < OUT->count; i++)
        for (int kind = 0; kind < JUDGE_KINDS; kind++)
            assert_true(OUT->decisions[i].by[kind].cost == whole->decisions[i].by[kind].cost);
    judge_free(other);
    free(again);
    free(whole);
}

/* The dearest come first, none twice, and each is told why in whole sentences. */
static void test_dearest(void **state)
{
    (void)state;
    RehearseSetup setup = setup_of(&ONE_BALL, &PLAYER_HOLD, 3);
    int dearest[3];
    char why[240];
    rehearse_play(JOB, &setup, PLAYED);
    judge_begin(JUDGE, &setup, PLAYED, OUT);
    judge_all();
    assert_int_equal(judge_dearest(OUT, 0.05, dearest, 3), 3);
    for (int k = 0; k < 3; k++) {
        double cost = OUT->decisions[dearest[k]].by[JUDGE_LANE].cost;
        int dearer = 0;
        for (int i = 0; i < OUT->count; i++)
            dearer += OUT->decisions[i].by[JUDGE_LANE].cost > cost;
        assert_int_equal(dearer, k);
        judge_why(&OUT->decisions[dearest[k]], why, sizeof why);
        assert_int_equal(why[strlen(why) - 1], '.');
        assert_true(strlen(why) + 40 < sizeof why);
    }
    assert_int_equal(judge_dearest(OUT, 1000.0, dearest, 3), 0);
}

static Decision line_of(double board, double sd, double degrees, double film)
{
    Outlook own = {.board = board, .board_sd = sd, .degrees = degrees, .strike = 0.31};
    Outlook better = {.board = 17.6, .board_sd = 1.0, .degrees = 5.0, .strike = 0.62};
    return (Decision){.by = {{.as_chosen = own, .as_better = better, .cost = 4.0}, {.cost = 4.0}},
                      .film = film};
}

static void test_why(void **state)
{
    (void)state;
    static const char *const STRIKES = " Strikes: 31 % against 62 %.";
    const struct {
        Decision decision;
        const char *says;
    } CASES[] = {
        {line_of(20.5, 1.0, 5.0, 0.6),
         "On average your line hit 3.0 boards high: only 60 % of the oil was left on its track."},
        {line_of(20.5, 1.0, 5.0, 1.0), "On average your line hit 3.0 boards high."},
        {line_of(15.5, 1.0, 5.0, 1.3), "On average your line hit 2.0 boards light: there was 30 % "
                                       "more oil on its track than the sheet says."},
        {line_of(15.5, 1.0, 5.0, NAN), "On average your line hit 2.0 boards light."},
        /* little oil makes no ball light, much none high */
        {line_of(15.5, 1.0, 5.0, 0.6), "On average your line hit 2.0 boards light."},
        {line_of(20.5, 1.0, 5.0, 1.3), "On average your line hit 3.0 boards high."},
        /* the better line was farther off: that is not why */
        {line_of(17.9, 1.0, 5.0, 0.6),
         "Both lines hit near the pocket; the better one carries more often."},
        {line_of(17.0, 2.0, 5.0, 1.0),
         "Your line had less room: hits spread by 2.0 boards, on the better one by 1.0."},
        {line_of(17.0, 1.0, 3.0, 1.0),
         "Your ball came in flat: 3.0 degrees, on the better line 5.0."},
        {line_of(17.0, 1.0, 5.0, 1.0),
         "Both lines hit near the pocket; the better one carries more often."},
        {line_of(NAN, NAN, NAN, 1.0), "Your line ran into the gutter."}};
    char why[240], want[240];
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        judge_why(&CASES[i].decision, why, sizeof why);
        snprintf(want, sizeof want, "%s%s", CASES[i].says, STRIKES);
        assert_string_equal(why, want);
    }
    Decision unseen = line_of(20.5, 1.0, 5.0, 1.0);
    unseen.by[JUDGE_BELIEF].cost = 0.1;
    judge_why(&unseen, why, sizeof why);
    assert_non_null(strstr(why, "%. Nothing you had seen told you so."));
}

/* The lane before a throw is the one that was thrown on. */
static void test_lane_then(void **state)
{
    (void)state;
    RehearseSetup setup = setup_of(&ONE_BALL, &PLAYER_HOLD, 8);
    setup.practice = 2;
    Oil lane, then[2];
    rehearse_play(JOB, &setup, PLAYED);
    judge_lane(JUDGE, &setup, PLAYED, 0, &then[0]);
    judge_lane(JUDGE, &setup, PLAYED, 8, &then[1]);
    Rehearsal *again = malloc(sizeof *again);
    assert_non_null(again);
    setup.player = NULL;
    rehearse_begin(JOB, &setup, again);
    for (int i = 0; i < 10; i++) {
        const View *view = rehearse_view(JOB);
        Choice choice = {.plan = view->plan[view->lane]};
        lane = rehearse_truth(JOB)->oil[view->lane];
        if (i == 2) /* two of practice before it */
            assert_memory_equal(&lane, &then[0], sizeof lane);
        rehearse_throw(JOB, &choice);
    }
    lane = rehearse_truth(JOB)->oil[rehearse_view(JOB)->lane];
    assert_memory_equal(&lane, &then[1], sizeof lane);
    assert_true(memcmp(&then[0], &then[1], sizeof lane) != 0);
    free(again);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_costs_add_up_on_200_blocks),
                                       cmocka_unit_test(test_each_judge_has_its_player),
                                       cmocka_unit_test(test_judged_throw_by_throw),
                                       cmocka_unit_test(test_dearest),
                                       cmocka_unit_test(test_why),
                                       cmocka_unit_test(test_lane_then)};
    return cmocka_run_group_tests_name("judge", tests, set_up, tear_down);
}
