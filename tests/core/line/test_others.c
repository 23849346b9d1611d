/* test_others.c - who else is on the pair: drawn as the event says, the same for a seed, and what
 * they do to a lane. */
#include "core/line/others.h"

#include <stdlib.h>

#include "near.h"
#include "store/files.h"

static Oil SHEET;

static int set_up(void **state)
{
    (void)state;
    Pattern pattern;
    Error error = {0};
    if (!files_pattern("apron", &pattern, &error))
        return -1;
    oil_lay(&pattern, &SHEET);
    return 0;
}

/* How many play across, throw with two hands, throw urethane. */
typedef struct Kinds {
    int across, two_handed, urethane;
} Kinds;

static Kinds kinds_of(const Others *others)
{
    Kinds kinds = {0};
    for (int i = 0; i < others->count; i++) {
        kinds.across += others->who[i].across;
        kinds.two_handed += others->who[i].bowler.style == STYLE_TWO_HANDED;
        kinds.urethane += others->who[i].ball.cover == COVER_URETHANE;
    }
    return kinds;
}

/* A known field is drawn as it is; for who can't know it, as many times over as there is room. */
static void as_the_event_says(void **state)
{
    (void)state;
    FieldMix mix = {.right = 1, .left = 1, .two_handed = 1, .urethane = 2};
    static Others others;
    for (uint64_t seed = 1; seed <= 20; seed++)
        for (int hand = HAND_RIGHT; hand <= HAND_LEFT; hand++) {
            int across = hand == HAND_LEFT ? 2 : 1;
            others_begin(&others, &mix, 3, (Hand)hand, seed, 0);
            Kinds one = kinds_of(&others);
            assert_int_equal(others.count, 3);
            assert_int_equal(one.across, across);
            assert_in_range(one.two_handed, 1, 2); /* the left-hander may have two hands too */
            assert_int_equal(one.urethane, 2);
            others_begin_usual(&others, &mix, 3, (Hand)hand, seed, 0);
            Kinds three = kinds_of(&others);
            assert_int_equal(others.count, 9);
            assert_int_equal(three.across, 3 * across);
            assert_in_range(three.two_handed, 3, 6);
            assert_int_equal(three.urethane, 6);
        }
    others_begin_usual(&others, NULL, 7, HAND_RIGHT, 1, 0);
    assert_int_equal(others.count, 7);
    others_begin_usual(&others, NULL, 0, HAND_RIGHT, 1, 0);
    assert_int_equal(others.count, 0);
}

/* A track counted from the other side and back is the track; it wears the lane in the mirror. */
static void a_track_in_the_mirror(void **state)
{
    (void)state;
    static Others others;
    static Oil left, right, back;
    Track track, twice;
    others_begin(&others, &(FieldMix){.right = 1}, 1, HAND_RIGHT, 3, 0);
    others_seek(&others, &SHEET);
    others_track(&others, &SHEET, 0, &track);
    twice = track;
    track_mirror(&twice);
    right = left = SHEET;
    oil_for_hand(&left, HAND_LEFT, &left);
    wear_track(&right, &track, COVER_SOLID, (WearRate){1.0, 1.0});
    wear_track(&left, &twice, COVER_SOLID, (WearRate){1.0, 1.0});
    oil_for_hand(&left, HAND_LEFT, &back);
    for (int j = 0; j < OIL_STATIONS; j++)
        for (int b = 0; b < LANE_BOARDS; b++)
            assert_near(back.units[j][b], right.units[j][b], 1e-9);
    track_mirror(&twice);
    for (int j = 0; j < track.count; j++)
        for (int i = 0; i < track.at[j].boards; i++) {
            assert_int_equal(twice.at[j].low, track.at[j].low);
            assert_true(twice.at[j].share[i] == track.at[j].share[i]);
            assert_true(twice.at[j].down[i] == track.at[j].down[i]);
        }
}

/* What is left on boards low..high, 10 to 35 ft, after a game of three others. */
static double left_after(uint64_t seed, const FieldMix *mix, bool usual, int low, int high)
{
    static Others others;
    static Oil film;
    film = SHEET;
    if (usual)
        others_begin_usual(&others, mix, 3, HAND_RIGHT, seed, 0);
    else
        others_begin(&others, mix, 3, HAND_RIGHT, seed, 0);
    others_seek(&others, &film);
    for (int turn = 0; turn < 36; turn++)
        others_throw(&others, &film, turn % others.count, (WearRate){1.0, 1.0});
    double left = 0.0, all = 0.0;
    for (int j = 20; j <= 70; j++)
        for (int b = low; b <= high; b++) {
            left += film.units[j][b - 1];
            all += SHEET.units[j][b - 1];
        }
    return left / all;
}

/* A left-handed field leaves a right-hander's boards alone; pairs differ; and the usual field wears
 * them about as such fields do on the mean. */
static void what_is_left_of_the_oil(void **state)
{
    (void)state;
    enum { PAIRS = 24 };
    FieldMix right = {.right = 3}, left = {.left = 3};
    assert_less(left_after(1, &right, false, 6, 18) + 0.1, left_after(1, &left, false, 6, 18));
    double sum = 0.0, square = 0.0;
    for (uint64_t pair = 0; pair < PAIRS; pair++) {
        double share = left_after(100 + pair, &right, false, 6, 18);
        sum += share / PAIRS;
        square += share * share / PAIRS;
    }
    double usual = left_after(7, &right, true, 6, 18), sd = sqrt(square - sum * sum);
    print_message("boards 6 to 18 after 36 balls: %.3f of the oil on the mean of %d pairs, "
                  "deviation %.3f; usual field %.3f\n",
                  sum, PAIRS, sd, usual);
    assert_less(0.01, sd);
    assert_near(usual, sum, fmax(0.03, sd));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_the_event_says),
        cmocka_unit_test(a_track_in_the_mirror),
        cmocka_unit_test(what_is_left_of_the_oil),
    };
    return cmocka_run_group_tests_name("others", tests, set_up, NULL);
}
