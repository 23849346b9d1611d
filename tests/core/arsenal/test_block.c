/* test_block.c - the games ahead: what a plan must be, whoever bowls on whatever pattern. What
 * it says of a block's course is held by tests/physics/test_course.c for the wear itself. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/arsenal/block.h"
#include "core/arsenal/lane_states.h"
#include "helper_same.h"
#include "store/files.h"

static Bag BAG;
static Pattern PATTERN;

static const Block *run(BlockJob *job, const char *bag, const char *pattern, int games, int bowlers)
{
    Error error = {0};
    assert_true(files_bag(bag, &BAG, &error) && files_pattern(pattern, &PATTERN, &error));
    BlockInput input = {.bag = &BAG, .pattern = &PATTERN, .games = games, .bowlers = bowlers};
    block_begin(job, &input);
    int steps = 1;
    for (; !block_step(job); steps++)
        assert_true(steps < 1000);
    assert_int_equal(steps, block_result(job)->steps_all);
    assert_true(block_step(job) && block_result(job)->done); /* and it stays so */
    return block_result(job);
}

static void every_game_has_a_ball_and_a_line(void **state)
{
    (void)state;
    static const char *const IDS[] = {"apron", "loaf", "spire", "thimble"};
    BlockJob *job = block_job_new();
    assert_non_null(job);
    for (int i = 0; i < 4; i++) {
        const Block *block = run(job, "demo", IDS[i], 3, 4);
        for (int pace = 0; pace < PACE_COUNT; pace++)
            for (int lane = 0; lane < SIDE_COUNT; lane++)
                for (int game = 0; game < 3; game++) {
                    const BlockGame *plan = &block->game[pace][lane][game];
                    const Ball *ball = bag_slot(&BAG, plan->slot);
                    assert_true(plan->ready);
                    assert_non_null(ball);
                    assert_true(ball->cover != COVER_POLYESTER);
                    assert_true(plan->line.laydown_board >= 4.0 &&
                                plan->line.laydown_board <= 39.0);
                    assert_true(plan->line.pocket > 0.2);
                }
    }
    block_job_free(job);
}

static void oil_goes_sooner_the_faster_it_wears(void **state)
{
    (void)state;
    BlockJob *job = block_job_new();
    assert_non_null(job);
    const Block *block = run(job, "demo", "apron", 4, 5);
    for (int game = 1; game <= 4; game++) {
        assert_less(block->volume_ml[PACE_USUAL][game], block->volume_ml[PACE_USUAL][game - 1]);
        assert_less(block->volume_ml[PACE_USUAL][game], block->volume_ml[PACE_SLOW][game]);
        assert_less(block->volume_ml[PACE_FAST][game], block->volume_ml[PACE_USUAL][game]);
    }
    double end = block->volume_ml[PACE_USUAL][4];
    block = run(job, "demo", "apron", 4, 1);
    assert_less(end, block->volume_ml[PACE_USUAL][4]); /* fewer bowlers, more oil left */
    block_job_free(job);
}

/* The first game is on the sheet, whatever the pace and the lane. */
static void first_game_is_the_same_everywhere(void **state)
{
    (void)state;
    BlockJob *job = block_job_new();
    assert_non_null(job);
    const Block *block = run(job, "demo", "kerb", 1, 4);
    BlockSpread spread = block_spread(block, SIDE_RIGHT, 0);
    assert_int_equal(spread.slots, 1);
    assert_near(spread.stance_low, spread.stance_high, 0.0);
    assert_same_line(&block->game[0][0][0].line, &block->game[2][1][0].line);
    block_job_free(job);
}

static void left_hander_gets_the_same(void **state)
{
    (void)state;
    BlockJob *a = block_job_new(), *b = block_job_new();
    assert_true(a && b);
    const Block *right = run(a, "demo", "apron", 2, 4);
    Bag bag = BAG;
    bag.bowler.hand = HAND_LEFT; /* apron is the same from both sides */
    BlockInput input = {.bag = &bag, .pattern = &PATTERN, .games = 2, .bowlers = 4};
    block_begin(b, &input);
    while (!block_step(b))
        ;
    const Block *left = block_result(b);
    for (int pace = 0; pace < PACE_COUNT; pace++)
        for (int side = 0; side < SIDE_COUNT; side++)
            for (int game = 0; game < right->games; game++) {
                const BlockGame *x = &right->game[pace][side][game];
                const BlockGame *y = &left->game[pace][side][game];
                assert_int_equal(x->ready, y->ready);
                assert_int_equal(x->slot, y->slot);
                assert_same_line(&x->line, &y->line);
                assert_same_number(x->value, y->value);
                assert_same_number(x->later_board, y->later_board);
                assert_same_number(x->later_move_ft, y->later_move_ft);
            }
    block_job_free(a);
    block_job_free(b);
}

static void what_to_watch_is_said(void **state)
{
    (void)state;
    BlockJob *job = block_job_new();
    assert_non_null(job);
    char text[300], small[24];
    const Block *block = run(job, "demo", "loaf", 3, 10);
    for (int game = 0; game < 3; game++) {
        block_watch(block, &BAG, SIDE_LEFT, game, text, sizeof text);
        const Ball *ball = bag_slot(&BAG, block->game[PACE_USUAL][SIDE_LEFT][game].slot);
        assert_non_null(strstr(text, ball->name));
        assert_int_equal(text[strlen(text) - 1], '.');
        block_watch(block, &BAG, SIDE_LEFT, game, small, sizeof small);
        assert_true(strlen(small) < sizeof small);
    }
    block_job_free(job);
}

/* A bag whose slots are empty has no plan and no fault; one that holds a spare ball only throws it.
 */
static void no_ball_no_plan(void **state)
{
    (void)state;
    BlockJob *job = block_job_new();
    assert_non_null(job);
    run(job, "demo", "apron", 1, 1);
    for (int spare = 0; spare <= 1; spare++) {
        Bag bag = BAG;
        for (int i = 0; i < bag.count; i++)
            bag.balls[i].slot = spare && bag.balls[i].cover == COVER_POLYESTER ? 6 : 0;
        BlockInput input = {.bag = &bag, .pattern = &PATTERN, .games = 2, .bowlers = 4};
        block_begin(job, &input);
        while (!block_step(job))
            ;
        char text[300];
        assert_int_equal(block_result(job)->game[PACE_USUAL][SIDE_LEFT][1].slot, spare ? 6 : 0);
        block_watch(block_result(job), &bag, SIDE_LEFT, 0, text, sizeof text);
        assert_true((strstr(text, "No ball") == NULL) == spare);
    }
    block_job_free(job);
}

/* Asked for too few or too many games or bowlers, it takes the nearest number that it can. */
static void as_many_as_it_can(void **state)
{
    (void)state;
    static const int ASKED[] = {-3, 0, 1, 2, 9, 10, 11, 23, 24, 25, 1000};
    static LaneFilms films;
    BlockJob *job = block_job_new();
    Error error = {0};
    Oil sheet;
    assert_non_null(job);
    assert_true(files_bag("demo", &BAG, &error) && files_pattern("apron", &PATTERN, &error));
    oil_lay(&PATTERN, &sheet);
    for (size_t i = 0; i < sizeof ASKED / sizeof *ASKED; i++) {
        BlockInput input = {
            .bag = &BAG, .pattern = &PATTERN, .games = ASKED[i], .bowlers = ASKED[i]};
        block_begin(job, &input);
        lane_films_begin(&films, &sheet, &BAG.bowler, ASKED[i], ASKED[i], NULL);
        int games = (int)fmax(1, fmin(ASKED[i], BLOCK_GAMES_MAX));
        int bowlers = (int)fmax(1, fmin(ASKED[i], BLOCK_BOWLERS_MAX));
        assert_int_equal(block_result(job)->games, games);
        assert_int_equal(block_result(job)->bowlers, bowlers);
        assert_int_equal(block_result(job)->steps_all, PACE_COUNT * SIDE_COUNT * games);
        assert_int_equal(films.games, games);
        assert_int_equal(films.bowlers, bowlers);
    }
    block_job_free(job);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_many_as_it_can),
        cmocka_unit_test(every_game_has_a_ball_and_a_line),
        cmocka_unit_test(oil_goes_sooner_the_faster_it_wears),
        cmocka_unit_test(first_game_is_the_same_everywhere),
        cmocka_unit_test(left_hander_gets_the_same),
        cmocka_unit_test(what_to_watch_is_said),
        cmocka_unit_test(no_ball_no_plan),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
