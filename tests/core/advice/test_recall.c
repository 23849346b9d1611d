/* test_recall.c - what may be kept from the previous question: nothing after a shot of which any
 * weighed part has changed. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>

#include "core/advice/recall.h"
#include "helper_demo.h"

enum { SHOTS = 3 };

/* How many shots must be weighed. */
static int weighed(Memory *memory, const Bag *bag, int bowlers, const Shot *shots, int count)
{
    const Played played = {0};
    memory_recall(memory, bag, &SHEET, &(About){0}, bowlers, &(FieldMix){0}, &played, 1, shots,
                  count);
    int kept = memory->seen;
    while (memory_weigh(memory, shots, count))
        ;
    return memory->seen - kept;
}

static Memory *fresh(void)
{
    Memory *memory = calloc(1, sizeof *memory);
    assert_non_null(memory);
    memory_init(memory);
    return memory;
}

static Shot said(void)
{
    Shot shot = shot_on(SIDE_LEFT, 1, HIT_HIGH, READ_EARLY, RELEASE_GOOD);
    shot.mph = 17.5;
    shot.arrows = 14;
    shot.breakpoint = 8;
    shot.left_said = true;
    shot.left = 1 << 3;
    return shot;
}

/* Like `said`, except for one part; each part the belief looks at. */
enum { PARTS = 18 };
static Shot otherwise(int part)
{
    Shot shot = said();
    switch (part) {
    case 0:
        shot.lane = SIDE_RIGHT;
        break;
    case 1:
        shot.slot = 2;
        break;
    case 2: /* the same ball by its name, with another surface then */
        shot.surface = bag_slot(&BAG, 1)->surface;
        shot.surface.games_since += 1.0;
        snprintf(shot.ball, sizeof shot.ball, "%s", bag_slot(&BAG, 1)->id);
        break;
    case 3:
        shot.stance += 0.5;
        break;
    case 4:
        shot.aim += 0.5;
        break;
    case 5:
        shot.mph = 17.6;
        break;
    case 6:
        shot.mph = 0;
        break;
    case 7:
        shot.arrows = 14.5;
        break;
    case 8:
        shot.arrows = 0; /* not said after all */
        break;
    case 9:
        shot.breakpoint = 7.5;
        break;
    case 10:
        shot.mph_change = 0.5;
        break;
    case 11:
        shot.loft_change_ft = 1.0;
        break;
    case 12:
        shot.rotation_change_deg = 5.0;
        break;
    case 13:
        shot.hit = HIT_NOSE;
        break;
    case 14:
        shot.read = READ_LATE;
        break;
    case 15:
        shot.release = RELEASE_SLOW;
        break;
    case 16:
        shot.left_said = false;
        break;
    default:
        shot.left = 1 << 6;
        break;
    }
    return shot;
}

static void test_every_part_of_a_shot_counts(void **state)
{
    (void)state;
    Memory *memory = fresh(), *other = fresh();
    Shot shots[SHOTS] = {said(), said(), said()};
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS), SHOTS);
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS), 0); /* all three are kept */
    for (int part = 0; part < PARTS; part++) {
        shots[0] = otherwise(part);
        if (weighed(memory, &BAG, 1, shots, SHOTS) != SHOTS)
            fail_msg("part %d does not count", part);
        memory_init(other);
        weighed(other, &BAG, 1, shots, SHOTS);
        for (int i = 0; i < BELIEF_PARTICLES; i++) /* and the belief is that of the new shots */
            assert_true(memory->belief.particles[i].weight == other->belief.particles[i].weight);
        shots[0] = said();
        weighed(memory, &BAG, 1, shots, SHOTS);
    }
    free(memory);
    free(other);
}

/* What the belief ignores: how the pin fell, and the spare. */
static void test_what_tells_nothing(void **state)
{
    (void)state;
    Memory *memory = fresh();
    Shot shots[SHOTS] = {said(), said(), said()};
    weighed(memory, &BAG, 1, shots, SHOTS);
    shots[0].ringing = true;
    shots[1].spare_said = true;
    shots[2].spare_left = 1 << 3;
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS), 0);
    free(memory);
}

/* One more shot, or the last one edited or undone: no more is weighed than necessary. */
static void test_no_more_than_must_be(void **state)
{
    (void)state;
    Memory *memory = fresh();
    Shot shots[SHOTS + 1] = {said(), said(), said(), said()};
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS), SHOTS);
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS + 1), 1);
    shots[SHOTS].hit = HIT_LIGHT;
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS + 1), 1);
    assert_int_equal(weighed(memory, &BAG, 1, shots, SHOTS), 0);
    assert_int_equal(weighed(memory, &BAG, 2, shots, SHOTS), SHOTS); /* another field wears more */
    free(memory);
}

static void assert_same_belief(const Belief *a, const Belief *b)
{
    assert_int_equal(a->shots, b->shots);
    assert_memory_equal(a->deliveries, b->deliveries, sizeof a->deliveries);
    assert_memory_equal(a->film, b->film, sizeof a->film);
    for (int i = 0; i < BELIEF_PARTICLES; i++)
        assert_true(a->particles[i].weight == b->particles[i].weight &&
                    a->particles[i].part[PART_VOLUME] == b->particles[i].part[PART_VOLUME]);
}

/* Another question after any number of slices, with the last shot as it was, edited or undone: the
 * belief is as if nothing had been interrupted. */
static void test_an_interruption(void **state)
{
    (void)state;
    const Played played = {0};
    for (int what = 0; what < 3; what++) {
        Shot first[SHOTS] = {said(), said(), said()}, then[SHOTS] = {said(), said(), said()};
        int count = what == 2 ? SHOTS - 1 : SHOTS;
        if (what == 1)
            then[SHOTS - 1].hit = HIT_LIGHT;
        Memory *whole = fresh();
        weighed(whole, &BAG, 2, then, count);
        for (int slices = 0;; slices++) {
            Memory *memory = fresh();
            bool left = true;
            memory_recall(memory, &BAG, &SHEET, &(About){0}, 2, &(FieldMix){0}, &played, 1, first,
                          SHOTS);
            for (int i = 0; i < slices && left; i++)
                left = memory_weigh(memory, first, SHOTS);
            weighed(memory, &BAG, 2, then, count);
            assert_same_belief(&memory->belief, &whole->belief);
            free(memory);
            if (!left)
                break;
        }
        free(whole);
    }
}

/* A ball's new name and place change nothing; its numbers and the bowler's do. */
static void test_the_bag_counts(void **state)
{
    (void)state;
    Memory *memory = fresh();
    Bag *bag = malloc(sizeof *bag);
    assert_non_null(bag);
    *bag = BAG;
    Shot shots[SHOTS] = {said(), said(), said()};
    for (int i = 0; i < SHOTS; i++) {
        const Ball *ball = bag_slot(bag, 1);
        shots[i].surface = ball->surface;
        snprintf(shots[i].ball, sizeof shots[i].ball, "%s", ball->id);
    }
    weighed(memory, bag, 1, shots, SHOTS);
    Ball *ball = (Ball *)(uintptr_t)bag_slot(bag, 1);
    snprintf(ball->name, sizeof ball->name, "another name");
    ball->slot = 0;
    assert_int_equal(weighed(memory, bag, 1, shots, SHOTS), 0);
    ball->rg_in += 0.01;
    assert_int_equal(weighed(memory, bag, 1, shots, SHOTS), SHOTS);
    bag->bowler.tilt_deg += 1.0;
    assert_int_equal(weighed(memory, bag, 1, shots, SHOTS), SHOTS);
    free(bag);
    free(memory);
}

/* Ten frames by four bowlers before the first shot: forty deliveries, half of them on each lane;
 * the track is thinner than after none, and other frames or another line begin again. */
static void test_frames_before(void **state)
{
    (void)state;
    Memory *memory = fresh(), *new = fresh();
    Played played = {.frames = 10, .as = shot_on(SIDE_LEFT, 1, HIT_UNSAID, READ_UNSAID, 0)},
           none = {0};
    int slices = 0;
    memory_recall(memory, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &played, 1, NULL, 0);
    while (memory_weigh(memory, NULL, 0))
        slices++;
    assert_int_equal(slices, 10 + 3); /* and the three others find a line */
    assert_int_equal(memory->belief.deliveries[SIDE_LEFT], 20);
    assert_int_equal(memory->belief.deliveries[SIDE_RIGHT], 20);
    assert_int_equal(memory->belief.shots, 0);
    memory_recall(new, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &none, 1, NULL, 0);
    assert_false(memory_weigh(new, NULL, 0));
    for (int lane = 0; lane < SIDE_COUNT; lane++)
        assert_true(belief_track(&memory->belief, (Side)lane, 10, 20, 5.0, 35.0).mean <
                    0.98 * belief_track(&new->belief, (Side)lane, 10, 20, 5.0, 35.0).mean);

    memory_recall(memory, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &played, 1, NULL, 0);
    assert_false(memory_weigh(memory, NULL, 0)); /* the same: kept */
    played.as.stance -= 1.0;
    memory_recall(memory, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &played, 1, NULL, 0);
    assert_true(memory_weigh(memory, NULL, 0));
    played.frames = 1;
    memory_recall(memory, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &played, 1, NULL, 0);
    while (memory_weigh(memory, NULL, 0))
        ;
    assert_int_equal(memory->belief.deliveries[SIDE_LEFT], 4);
    played.as.aim += 1.0; /* a single frame on another line counts too */
    memory_recall(memory, &BAG, &SHEET, &(About){0}, 4, &(FieldMix){0}, &played, 1, NULL, 0);
    assert_true(memory_weigh(memory, NULL, 0));
    free(new);
    free(memory);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_part_of_a_shot_counts),
                                       cmocka_unit_test(test_what_tells_nothing),
                                       cmocka_unit_test(test_no_more_than_must_be),
                                       cmocka_unit_test(test_an_interruption),
                                       cmocka_unit_test(test_the_bag_counts),
                                       cmocka_unit_test(test_frames_before)};
    return cmocka_run_group_tests_name("recall", tests, demo_set_up, NULL);
}
