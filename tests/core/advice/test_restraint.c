/* test_restraint.c - what is read of the last misses, and what may be said after them. Common
 * practice, no source. */
#include "near.h"

#include "core/advice/frame.h"
#include "core/advice/restraint.h"
#include "helper_demo.h"

#define L SIDE_LEFT
#define R SIDE_RIGHT

static const Plan PLAN = {.slot = 1, .stance = 26.0, .aim = 14.0};

static Shot shot(Side lane, Hit hit, Release release, double stance)
{
    return (Shot){
        .lane = lane, .slot = 1, .stance = stance, .aim = 14.0, .hit = hit, .release = release};
}

static void test_rows_of_misses(void **state)
{
    (void)state;
    static const struct {
        const char *what;
        int count;
        struct {
            Side lane;
            Hit hit;
            Release release;
            double stance;
        } shots[4];
        bool apart;
        int side, in_a_row;
    } CASES[] = {
        {"nothing thrown", 0, {{L, HIT_HIGH, RELEASE_GOOD, 26}}, false, 0, 0},
        {"three high",
         3,
         {{L, HIT_HIGH, RELEASE_GOOD, 26}, {L, HIT_NOSE, 0, 26}, {L, HIT_CROSSED, 0, 26}},
         false,
         1,
         3},
        {"a flush one between them ends the row",
         3,
         {{L, HIT_HIGH, 0, 26}, {L, HIT_FLUSH, 0, 26}, {L, HIT_HIGH, 0, 26}},
         false,
         1,
         1},
        {"a hit that was not told ends nothing",
         3,
         {{L, HIT_WIDE, 0, 26}, {L, HIT_UNSAID, 0, 26}, {L, HIT_THIN, 0, 26}},
         false,
         -1,
         2},
        {"nor does it silence what was seen before",
         2,
         {{R, HIT_HIGH, 0, 26}, {L, HIT_UNSAID, 0, 26}},
         false,
         1,
         0},
        {"a bad release says nothing",
         3,
         {{L, HIT_THIN, 0, 26}, {L, HIT_NOSE, RELEASE_INSIDE, 26}, {L, HIT_LIGHT, 0, 26}},
         false,
         -1,
         2},
        {"another line says nothing of this one",
         3,
         {{L, HIT_THIN, 0, 26}, {L, HIT_HIGH, 0, 30}, {L, HIT_LIGHT, 0, 27}},
         false,
         -1,
         2},
        {"the other lane is heard where this one is silent",
         2,
         {{R, HIT_HIGH, 0, 26}, {R, HIT_HIGH, 0, 26}},
         false,
         1,
         0},
        {"this line on the other lane comes before another line there",
         2,
         {{R, HIT_THIN, 0, 26}, {R, HIT_FLUSH, 0, 30}},
         false,
         -1,
         0},
        {"but not while they are kept apart",
         2,
         {{R, HIT_HIGH, 0, 26}, {R, HIT_HIGH, 0, 26}},
         true,
         0,
         0},
        {"a miss on another line of this lane is later than the flush one on this",
         2,
         {{L, HIT_FLUSH, 0, 26}, {L, HIT_NOSE, 0, 30}},
         false,
         1,
         0},
        {"nor where this lane says flush",
         2,
         {{L, HIT_FLUSH, 0, 26}, {R, HIT_HIGH, 0, 26}},
         false,
         0,
         0},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        Shot shots[4];
        for (int k = 0; k < CASES[i].count; k++)
            shots[k] = shot(CASES[i].shots[k].lane, CASES[i].shots[k].hit,
                            CASES[i].shots[k].release, CASES[i].shots[k].stance);
        Restraint r = restraint_read(shots, CASES[i].count, L, CASES[i].apart, &PLAN);
        if (r.side != CASES[i].side || r.in_a_row != CASES[i].in_a_row)
            fail_msg("%s: side %d, %d in a row", CASES[i].what, r.side, r.in_a_row);
    }
}

static void test_what_may_be_first(void **state)
{
    (void)state;
    const Restraint calm = {.thrown = 8}, before = {.thrown = 0}, one = {.thrown = 1},
                    gross = {.thrown = 1, .gross = true, .side = 1, .in_a_row = 1},
                    three = {.thrown = 8, .side = 1, .in_a_row = 3},
                    three_and_bad = {.thrown = 9, .side = 1, .in_a_row = 3, .bad = true},
                    swings = {.thrown = 8, .side = 1, .in_a_row = 1, .swings = true};
    const struct {
        const char *what;
        const Restraint *restraint;
        FirstAnswer answer;
        bool allowed;
    } CASES[] = {
        {"hold", &calm, {.kind = ADJUST_HOLD}, true},
        {"hold after three misses", &three, {.kind = ADJUST_HOLD}, false},
        {"hold after a bad release", &three_and_bad, {.kind = ADJUST_HOLD}, true},
        {"a move at no loss", &calm, {.kind = ADJUST_MOVE_IN, .asked = true, .feet = 4}, true},
        {"a move at no loss that no rule asks for",
         &calm,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .gain = 0.01, .gain_at_best = 0.01},
         false},
        {"the same after three misses",
         &three,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .gain = 0.01, .gain_at_best = 0.01},
         true},
        {"a move at a loss",
         &calm,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .gain = -0.02, .gain_at_best = -0.02},
         false},
        {"away from the pocket",
         &calm,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .off_boards = 0.6},
         false},
        {"before the first ball, hardly better",
         &before,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .gain = 0.04, .gain_at_best = 0.04},
         false},
        {"before the first ball, clearly better",
         &before,
         {.kind = ADJUST_MOVE_IN, .feet = 4, .gain = 0.05, .gain_at_best = 0.05},
         true},
        {"before the first ball, faster",
         &before,
         {.kind = ADJUST_FASTER, .gain = 0.2, .gain_at_best = 0.2},
         false},
        {"after one ball, two boards",
         &one,
         {.kind = ADJUST_MOVE_IN, .feet = 2, .gain = 0.2, .gain_at_best = 0.2},
         false},
        {"after one ball, a board",
         &one,
         {.kind = ADJUST_MOVE_IN, .feet = 1, .gain = 0.2, .gain_at_best = 0.2},
         true},
        {"now high, now light: a small move",
         &swings,
         {.kind = ADJUST_MOVE_IN, .feet = 1, .gain = 0.04, .gain_at_best = 0.04},
         false},
        {"now high, now light: a move that is clearly better",
         &swings,
         {.kind = ADJUST_AIM_OUT, .gain = 0.05, .gain_at_best = 0.05},
         true},
        {"now high, now light: another ball",
         &swings,
         {.kind = ADJUST_SMOOTHER, .asked = true},
         true},
        {"after one ball that crossed, four",
         &gross,
         {.kind = ADJUST_MOVE_IN, .asked = true, .feet = 4},
         true},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++)
        if (restraint_allows_first(CASES[i].restraint, &CASES[i].answer) != CASES[i].allowed)
            fail_msg("%s", CASES[i].what);
    const FirstAnswer hand = {.kind = ADJUST_ROTATION_LESS, .gain = 0.06},
                      near = {.kind = ADJUST_MOVE_IN, .gain = 0.02},
                      far = {.kind = ADJUST_MOVE_IN, .gain = 0.005};
    assert_false(restraint_hand_pays(&hand, &near));
    assert_true(restraint_hand_pays(&hand, &far));
    assert_false(restraint_allows_off(&calm, 0.6));
    assert_true(restraint_allows_off(&gross, 0.6)); /* then the miss binds it */
    assert_true(restraint_allows_hit(&three, -1.0));
    assert_false(restraint_allows_hit(&three, -0.4)); /* nobody sees that */
    assert_false(restraint_allows_hit(&three, 1.0));
    assert_true(restraint_allows_hit(&gross, 0.0));
    assert_false(restraint_allows_hit(&gross, 0.1));
    assert_true(restraint_allows_hit(&calm, 3.0));
}

/* A frame is worth most where the mean hit is in the pocket; what was seen never betters it; a
 * strike is clean. */
static void test_frames(void **state)
{
    (void)state;
    const Ball *ball = bag_slot(&BAG, 1);
    Outlook out = {.pocket = 0.5,
                   .strike = 0.5,
                   .pinfall = 9.0,
                   .board = LANE_POCKET_BEST,
                   .board_sd = 1.2,
                   .degrees = 4.5};
    FrameOutlook frame = frame_of(&out, &BAG.bowler, ball);
    assert_true(frame.clean > out.strike && frame.clean < 1.0);
    assert_true(frame.score > 10.0 && frame.score < 30.0);
    Outlook nose = frame_as_seen(&out, 20.8, &BAG.bowler, ball);
    assert_less(nose.strike, out.strike);
    assert_less(nose.pocket, out.pocket);
    Outlook same = frame_as_seen(&out, LANE_POCKET_BEST, &BAG.bowler, ball);
    assert_true(same.strike <= out.strike && same.pocket <= out.pocket);
    assert_near(frame_as_seen(&out, NAN, &BAG.bowler, ball).strike, 0.0, 0.0);
    Bowler wild = BAG.bowler;
    wild.scatter.launch_deg *= 4.0;
    assert_less(frame_of(&out, &wild, ball).clean, frame.clean);
    out.strike = out.pocket = 1.0;
    out.pinfall = 10.0;
    assert_near(frame_of(&out, &BAG.bowler, ball).score, 30.0, 1e-9);
}

/* Where the misses in a row hit is the mean of them; a ball in the gutter hit nothing. */
static void test_where_misses_hit(void **state)
{
    (void)state;
    Shot shots[] = {shot(L, HIT_LIGHT, RELEASE_GOOD, 26), shot(L, HIT_HIGH, RELEASE_GOOD, 26),
                    shot(L, HIT_NOSE, RELEASE_GOOD, 26)};
    double high = shot_hit_board(HIT_HIGH), nose = shot_hit_board(HIT_NOSE);
    assert_near(restraint_read(shots, 3, L, false, &PLAN).seen_board, 0.5 * (high + nose), 1e-12);
    assert_near(restraint_read(shots, 2, L, false, &PLAN).seen_board, high, 1e-12);
    assert_true(isnan(restraint_read(shots, 3, R, false, &PLAN).seen_board));
    shots[2].hit = HIT_GUTTER;
    assert_true(isnan(restraint_read(shots, 3, L, false, &PLAN).seen_board));
    shots[1].hit = HIT_LIGHT;
    double light = restraint_read(shots, 2, L, false, &PLAN).seen_board;
    assert_near(light, shot_hit_board(HIT_LIGHT), 1e-12);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rows_of_misses), cmocka_unit_test(test_where_misses_hit),
        cmocka_unit_test(test_what_may_be_first), cmocka_unit_test(test_frames)};
    return cmocka_run_group_tests_name("restraint", tests, demo_set_up, NULL);
}
