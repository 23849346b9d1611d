/* test_burn.c - what the belief makes of a lane that others wear and that burns: who shares the
 * pair counts, and late in a block a read moves it. */
#include <stdlib.h>

#include "helper_demo.h"
#include "near.h"

/* The film in the track, boards 8 to 16, 15 to 35 ft. */
static Estimate track_film(const Belief *belief)
{
    return belief_track(belief, SIDE_LEFT, 8, 16, 15.0, 35.0);
}

/* Shots of which nothing is said but the line, four on the pair. */
static Belief *worn(uint64_t seed, const FieldMix *mix, int shots)
{
    Belief *belief = begin(seed);
    belief->mix = *mix;
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, RELEASE_GOOD);
    for (int k = 0; k < shots; k++)
        belief_see(belief, &BAG.bowler, bag_slot(&BAG, 1), &BODY[0], &BATCH[0], &shot, 4);
    return belief;
}

static void who_shares_the_pair_counts(void **state)
{
    (void)state;
    FieldMix right = {.right = 3}, left = {.left = 3}, hard = {.right = 3, .urethane = 3};
    Belief *r = worn(1, &right, 12), *l = worn(1, &left, 12), *h = worn(1, &hard, 12);
    double right_film = track_film(r).mean, left_film = track_film(l).mean;
    Estimate far_right = belief_track(r, SIDE_LEFT, 5, 16, 41.0, 45.0);
    Estimate far_hard = belief_track(h, SIDE_LEFT, 5, 16, 41.0, 45.0);
    print_message(
        "film in the track after 12 shots: %.2f units with three right-handers, %.2f with "
        "three left-handers; past the oil %.3f, with urethane %.3f\n",
        right_film, left_film, far_right.mean, far_hard.mean);
    assert_less(1.1 * right_film, left_film);
    assert_less(1.5 * far_right.mean, far_hard.mean); /* carried on */
    free(r);
    free(l);
    free(h);
}

/* Three good shots on flush hits late in a block, called early or on time. The film they say is in
 * the track falls with the earlier word, by more than the filter's own noise from seed to seed. */
static void a_read_moves_the_belief_late_in_a_block(void **state)
{
    (void)state;
    enum { SEEDS = 12, LATE = 24 };
    double sum = 0.0, square = 0.0;
    for (uint64_t seed = 1; seed <= SEEDS; seed++) {
        Belief *start = worn(seed, &(FieldMix){0}, LATE), *told = malloc(sizeof *told);
        double film[2];
        assert_non_null(told);
        for (int early = 0; early < 2; early++) {
            *told = *start;
            Shot shot =
                shot_on(SIDE_LEFT, 1, HIT_FLUSH, early ? READ_EARLY : READ_ON_TIME, RELEASE_GOOD);
            for (int k = 0; k < 3; k++)
                see(told, &shot);
            film[early] = track_film(told).mean;
        }
        double fell = 1.0 - film[1] / film[0];
        sum += fell / SEEDS;
        square += fell * fell / SEEDS;
        free(start);
        free(told);
    }
    double noise = sqrt(fmax(0.0, square - sum * sum) / (SEEDS - 1.0));
    print_message("three early reads lower the film in the track by %.1f %% +- %.1f\n", 100.0 * sum,
                  100.0 * noise);
    assert_less(0.02, sum);
    assert_less(3.0 * noise, sum);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(who_shares_the_pair_counts),
        cmocka_unit_test(a_read_moves_the_belief_late_in_a_block),
    };
    return cmocka_run_group_tests_name("burn", tests, demo_set_up, NULL);
}
