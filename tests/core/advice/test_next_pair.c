/* From one pair to the next: the house, the day and the bowler go along, a lane's own does not. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/recall.h"
#include "helper_demo.h"

/* Both lanes hit high with early reads: heavier worn or less oil than the sheet says, on both. */
static Belief *after_a_game(uint64_t seed)
{
    Belief *belief = begin(seed);
    for (int i = 0; i < 10; i++) {
        Shot shot =
            shot_on((Side)(i % 2), 1, i % 3 ? HIT_NOSE : HIT_HIGH, READ_EARLY, RELEASE_GOOD);
        shot.mph = BAG.bowler.mph + 0.6;
        see(belief, &shot);
    }
    return belief;
}

static void test_what_goes_along(void **state)
{
    (void)state;
    Belief *prior = begin(3), *belief = after_a_game(3);
    Estimate mph = belief_part(belief, PART_MPH), wear = belief_wear(belief);
    Estimate left = volume(belief, SIDE_LEFT), right = volume(belief, SIDE_RIGHT);
    Estimate longer = belief_part(belief, PART_LONGER);
    belief_next_pair(belief);
    Estimate day = belief_part(belief, PART_MPH);
    assert_near(day.mean, mph.mean, 1e-12);
    assert_near(day.sd, mph.sd, 1e-12);
    assert_near(belief_wear(belief).mean, wear.mean, 1e-12);
    assert_near(belief_part(belief, PART_LONGER).mean, longer.mean, 1e-12);
    assert_int_equal(belief->shots, 10);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        Estimate new = volume(belief, (Side)lane), first = volume(prior, (Side)lane);
        /* most of what both old lanes were said to be, less sure than of them, surer than at first
         */
        double old = 0.5 * (left.mean + right.mean);
        assert_less((new.mean - first.mean) / (old - first.mean), 1.05);
        assert_less(0.6, (new.mean - first.mean) / (old - first.mean));
        assert_less(fmin(left.sd, right.sd), new.sd);
        assert_less(new.sd, 1.1 * first.sd);
        assert_int_equal(belief->deliveries[lane], 0);
        for (int f = 0; f < BELIEF_FILMS; f++)
            assert_memory_equal(&belief->film[lane][f], &SHEET, sizeof SHEET);
    }
    free(prior);
    free(belief);
}

/* It is a covariance still: Cholesky's way to its root meets no number below 0. */
static void has_a_root(const Doubt *doubt)
{
    static double root[OFFSETS_COUNT][OFFSETS_COUNT];
    for (int i = 0; i < OFFSETS_COUNT; i++)
        for (int j = 0; j <= i; j++) {
            double left = doubt->of[i][j];
            for (int k = 0; k < j; k++)
                left -= root[i][k] * root[j][k];
            if (i == j && !(left > 0.0))
                fail_msg("number %d: %g is left of its variance", i, left);
            root[i][j] = i == j ? sqrt(left) : left / root[j][j];
        }
}

/* What nothing explains: of the lanes a part goes along, of the balls all; the doubt grows, to no
 * more than before any shot. */
static void test_offsets(void **state)
{
    (void)state;
    Belief *prior = begin(3), *belief = after_a_game(3);
    OffsetsAt line = offsets_at(SIDE_LEFT, 0, 20.0, 8.0), ball = {.count = 1};
    ball.index[0] = OFFSETS_FIRST_BALL;
    ball.share[0] = 1.0;
    Estimate line_then = belief_off(belief, &line), ball_then = belief_off(belief, &ball);
    Estimate first = belief_off(prior, &line);
    belief_next_pair(belief);
    Estimate line_now = belief_off(belief, &line), ball_now = belief_off(belief, &ball);
    assert_near(ball_now.mean, ball_then.mean, 1e-12);
    assert_near(ball_now.sd, ball_then.sd, 1e-12);
    assert_less(0.0, line_now.mean / line_then.mean);
    assert_less(fabs(line_now.mean), fabs(line_then.mean));
    assert_less(line_then.sd, line_now.sd);
    assert_less(line_now.sd, first.sd);
    has_a_root(&belief->doubt);
    free(prior);
    free(belief);
}

enum { SHOTS = 6, BOWLERS = 3 };

static Memory *fresh(void)
{
    Memory *memory = calloc(1, sizeof *memory);
    assert_non_null(memory);
    memory_init(memory);
    return memory;
}

static int recall(Memory *memory, const Played *played, int stays, const Shot *shots, int count)
{
    int slices = 0;
    memory_recall(memory, &BAG, &SHEET, &(About){0}, BOWLERS, &(FieldMix){0}, played, stays, shots,
                  count);
    while (memory_weigh(memory, shots, count))
        slices++;
    return slices;
}

static void assert_as_from_the_start(const Memory *memory, const Played *played, int stays,
                                     const Shot *shots, int count)
{
    Memory *new = fresh();
    recall(new, played, stays, shots, count);
    assert_memory_equal(&memory->belief, &new->belief, sizeof new->belief);
    free(new);
}

static void test_shot_by_shot(void **state)
{
    (void)state;
    Shot shots[SHOTS];
    Memory *memory = fresh();
    for (int i = 0; i < SHOTS; i++)
        shots[i] =
            shot_on((Side)(i % 2), 1, i % 2 ? HIT_FLUSH : HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
    Played played[2] = {{0}, {.shot = 3, .frames = 4, .as = shots[3]}};
    for (int count = 1; count <= 3; count++)
        recall(memory, played, 1, shots, count);
    assert_int_equal(memory->belief.deliveries[SIDE_LEFT], 2 * BOWLERS);
    recall(memory, played, 2, shots, 3); /* on the new pair, before the first shot */
    assert_int_equal(memory->stay, 1);
    assert_int_equal(memory->belief.deliveries[SIDE_LEFT], 2 * BOWLERS); /* the frames of others */
    assert_int_equal(memory->belief.deliveries[SIDE_RIGHT], 2 * BOWLERS);
    assert_less(oil_volume_ml(&memory->belief.film[SIDE_LEFT][0]), oil_volume_ml(&SHEET));
    assert_as_from_the_start(memory, played, 2, shots, 3);
    for (int count = 4; count <= SHOTS; count++)
        assert_int_equal(recall(memory, played, 2, shots, count), 2); /* weighed, and worn with */
    assert_as_from_the_start(memory, played, 2, shots, SHOTS);

    shots[SHOTS - 1].hit = HIT_LIGHT; /* the last one is edited */
    assert_int_equal(recall(memory, played, 2, shots, SHOTS), 2);
    assert_as_from_the_start(memory, played, 2, shots, SHOTS);
    recall(memory, played, 2, shots, 3); /* all of the new pair's are undone */
    assert_as_from_the_start(memory, played, 2, shots, 3);
    recall(memory, played, 1, shots, 3); /* and the move, too */
    assert_int_equal(memory->stay, 0);
    assert_as_from_the_start(memory, played, 1, shots, 3);
    free(memory);
}

/* The first shot on a new pair, of which nothing is known but the line, doesn't wear it again. */
static void test_the_first_shot_goes_on(void **state)
{
    (void)state;
    Shot shots[2] = {shot_on(SIDE_LEFT, 1, HIT_HIGH, READ_ON_TIME, RELEASE_GOOD),
                     shot_on(SIDE_LEFT, 1, HIT_FLUSH, READ_EARLY, RELEASE_GOOD)};
    Shot planned = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, RELEASE_UNSAID);
    Played played[2] = {{0}, {.shot = 1, .frames = 2, .as = planned}};
    Memory *memory = fresh();
    recall(memory, played, 2, shots, 1);
    played[1].as = shots[1];
    assert_int_equal(recall(memory, played, 2, shots, 2), 2);
    free(memory);
}

/* A question on the second pair: the signs are those of its own shots, by their numbers. */
static void test_signs_of_this_pair(void **state)
{
    (void)state;
    Asked *asked = ask();
    for (int i = 0; i < 4; i++)
        say(asked, SIDE_LEFT, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    say(asked, SIDE_LEFT, HIT_LIGHT, READ_LATE, RELEASE_GOOD);
    say(asked, SIDE_LEFT, HIT_LIGHT, READ_LATE, RELEASE_GOOD);
    asked->in.stay_count = 2;
    asked->in.stays[1] = (Stay){.shot = 4, .frames = 0};
    AdviceJob *job = answer(&asked->in);
    const Signs *signs = &advice_result(job)->signs;
    int seen = 0;
    for (int sign = 0; sign < SIGN_COUNT; sign++)
        for (int i = 0; signs->seen[sign] && i < signs->shot_count[sign]; i++, seen++)
            assert_in_range(signs->shots[sign][i], 4, 5);
    assert_true(seen > 0);
    assert_false(signs->seen[SIGN_HIGH_TWICE]);
    assert_true(signs->seen[SIGN_LIGHT_TWICE]);
    advice_job_free(job);
    free(asked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_what_goes_along),    cmocka_unit_test(test_offsets),
        cmocka_unit_test(test_shot_by_shot),       cmocka_unit_test(test_the_first_shot_goes_on),
        cmocka_unit_test(test_signs_of_this_pair),
    };
    return cmocka_run_group_tests(tests, demo_set_up, NULL);
}
