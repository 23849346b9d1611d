/* test_players.c - the players' rules, followed to the half board in written sequences; and nothing
 * but what a bowler sees goes into a choice. The rules are common practice, no source. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/line/strength.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

static Bag BAG;
static Pattern PATTERN;
static RuleSet RULES;
static RehearseJob *JOB;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    JOB = rehearse_new();
    return JOB && files_bag("demo", &BAG, &error) && files_pattern("apron", &PATTERN, &error) &&
                   files_rules("coach", &RULES, &error)
               ? 0
               : -1;
}

static int tear_down(void **state)
{
    (void)state;
    rehearse_free(JOB);
    return 0;
}

#define L SIDE_LEFT
#define R SIDE_RIGHT
#define SEEN(side, h, rd, rl)                                                                      \
    {                                                                                              \
        .lane = side, .slot = 2, .hit = HIT_##h, .read = READ_##rd, .release = RELEASE_##rl        \
    }

enum { SEEN_MAX = 6 };

/* Shots of slot 2 on 26 over 14.5; what the player then throws on the left lane. */
typedef struct Case {
    const char *name;
    Shot shots[SEEN_MAX]; /* oldest first; `hit` unsaid ends */
    double feet, eyes;    /* boards in */
    int places;           /* toward the weak end of the bag */
    AdjustmentKind kind;
} Case;

static View view_of(const Case *c)
{
    View view = {.bag = &BAG,
                 .pattern = &PATTERN,
                 .rules = &RULES,
                 .shots = c->shots,
                 .plan = {{.slot = 2, .stance = 26.0, .aim = 14.5},
                          {.slot = 2, .stance = 22.0, .aim = 12.0}},
                 .lane = SIDE_LEFT,
                 .game = 1,
                 .frame = 3,
                 .bowlers_on_pair = 2};
    while (view.shot_count < SEEN_MAX && c->shots[view.shot_count].hit != HIT_UNSAID)
        view.shot_count++;
    return view;
}

/* The slots from the strongest ball to the weakest; how many. */
static int order_of(int slots[BAG_SLOTS])
{
    Oil sheet;
    oil_lay(&PATTERN, &sheet);
    return strength_order(&BAG, &sheet, slots, NULL);
}

static int place_of(int slot)
{
    int slots[BAG_SLOTS], at = 0;
    for (int count = order_of(slots); at < count && slots[at] != slot; at++)
        ;
    return at;
}

static void assert_chooses(const Player *player, const Case *c)
{
    View view = view_of(c);
    Choice choice = player->choose(&view);
    const Plan *was = &view.plan[SIDE_LEFT], *now = &choice.plan;
    if (now->stance - was->stance != c->feet || now->aim - was->aim != c->eyes ||
        place_of(now->slot) - place_of(was->slot) != c->places || choice.kind != c->kind)
        fail_msg("%s, %s: feet %g, eyes %g, slot %d, %s", player->name, c->name,
                 now->stance - was->stance, now->aim - was->aim, now->slot,
                 ADJUST_NAMES[choice.kind]);
    assert_near(now->mph_change, 0.0, 0.0);
    assert_true(isnan(choice.pocket) && isnan(choice.strike)); /* no model, no chance */
}

/* The middle of each name against the pocket's best board, 17.5 (shot.h): half of it with the feet,
 * a quarter with the eyes, to the nearest half board, halves away from zero. */
static const Case BY_THE_MISS[] = {
    {.name = "nothing thrown", .kind = ADJUST_HOLD},
    {"flush, 0.35 in", {SEEN(L, FLUSH, ON_TIME, GOOD)}, 0, 0, 0, ADJUST_HOLD},
    {"high, 1.55 in", {SEEN(L, HIGH, ON_TIME, GOOD)}, 1.0, 0.5, 0, ADJUST_MOVE_IN},
    {"nose, 2.5 in", {SEEN(L, NOSE, ON_TIME, GOOD)}, 1.5, 0.5, 0, ADJUST_MOVE_IN},
    {"crossed, 4.5 in", {SEEN(L, CROSSED, ON_TIME, GOOD)}, 2.5, 1.0, 0, ADJUST_MOVE_IN},
    {"light, 1 out", {SEEN(L, LIGHT, ON_TIME, GOOD)}, -0.5, -0.5, 0, ADJUST_MOVE_OUT},
    {"thin, 2.65 out", {SEEN(L, THIN, ON_TIME, GOOD)}, -1.5, -0.5, 0, ADJUST_MOVE_OUT},
    {"wide, 5 out", {SEEN(L, WIDE, ON_TIME, GOOD)}, -2.5, -1.5, 0, ADJUST_MOVE_OUT},
    {"gutter: the eyes go in", {SEEN(L, GUTTER, NONE, GOOD)}, 0, 2.0, 0, ADJUST_AIM_IN},
    {"release not told", {SEEN(L, NOSE, ON_TIME, UNSAID)}, 1.5, 0.5, 0, ADJUST_MOVE_IN},
    {"bad release", {SEEN(L, NOSE, ON_TIME, INSIDE)}, 0, 0, 0, ADJUST_HOLD},
    {"a good one, then a bad one",
     {SEEN(L, NOSE, ON_TIME, GOOD), SEEN(L, NOSE, ON_TIME, SLOW)},
     0,
     0,
     0,
     ADJUST_HOLD},
    {"a bad one, then a good one",
     {SEEN(L, THIN, ON_TIME, SLOW), SEEN(L, NOSE, ON_TIME, GOOD)},
     1.5,
     0.5,
     0,
     ADJUST_MOVE_IN},
    {"on the other lane only", {SEEN(R, NOSE, ON_TIME, GOOD)}, 0, 0, 0, ADJUST_HOLD},
    {"and here before",
     {SEEN(L, THIN, ON_TIME, GOOD), SEEN(R, NOSE, ON_TIME, OFF)},
     -1.5,
     -0.5,
     0,
     ADJUST_MOVE_OUT},
    {"the last one alone counts",
     {SEEN(L, NOSE, EARLY, GOOD), SEEN(L, NOSE, EARLY, GOOD), SEEN(L, FLUSH, ON_TIME, GOOD)},
     0,
     0,
     0,
     ADJUST_HOLD},
    {"no ball is changed",
     {SEEN(L, NOSE, EARLY, GOOD), SEEN(L, NOSE, EARLY, GOOD)},
     1.5,
     0.5,
     0,
     ADJUST_MOVE_IN},
};

static void test_by_the_miss(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof BY_THE_MISS / sizeof BY_THE_MISS[0]; i++)
        assert_chooses(&PLAYER_BY_THE_MISS, &BY_THE_MISS[i]);
}

/* A move that would leave the lane is not made. */
static void test_not_off_the_lane(void **state)
{
    (void)state;
    Case out = {"", {SEEN(L, WIDE, LATE, GOOD)}, 0, 0, 0, ADJUST_HOLD};
    View view = view_of(&out);
    view.plan[SIDE_LEFT].stance = BAG.bowler.laydown_offset_boards + 4.0;
    Choice choice = PLAYER_BY_THE_MISS.choose(&view);
    assert_int_equal(choice.kind, ADJUST_HOLD);
    assert_true(plan_same(&choice.plan, &view.plan[SIDE_LEFT]));
    view.plan[SIDE_LEFT].stance += 0.5;
    assert_int_equal(PLAYER_BY_THE_MISS.choose(&view).kind, ADJUST_MOVE_OUT);
}

static const Case AS_A_COACH[] = {
    {"one early high: by the miss", {SEEN(L, NOSE, EARLY, GOOD)}, 1.5, 0.5, 0, ADJUST_MOVE_IN},
    {"two early highs: ball down, the line stays",
     {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, NOSE, EARLY, GOOD)},
     0,
     0,
     1,
     ADJUST_BALL_DOWN},
    {"the other lane's between",
     {SEEN(L, HIGH, EARLY, GOOD), SEEN(R, THIN, LATE, GOOD), SEEN(L, CROSSED, EARLY, GOOD)},
     0,
     0,
     1,
     ADJUST_BALL_DOWN},
    {"one on each lane",
     {SEEN(R, HIGH, EARLY, GOOD), SEEN(L, HIGH, EARLY, GOOD)},
     1.0,
     0.5,
     0,
     ADJUST_MOVE_IN},
    {"high, but one on time",
     {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, HIGH, ON_TIME, GOOD)},
     1.0,
     0.5,
     0,
     ADJUST_MOVE_IN},
    {"a flush one between",
     {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, FLUSH, ON_TIME, GOOD), SEEN(L, HIGH, EARLY, GOOD)},
     1.0,
     0.5,
     0,
     ADJUST_MOVE_IN},
    {"two late lights: ball up",
     {SEEN(L, LIGHT, LATE, GOOD), SEEN(L, THIN, NONE, GOOD)},
     0,
     0,
     -1,
     ADJUST_BALL_UP},
    {"light, but early",
     {SEEN(L, LIGHT, LATE, GOOD), SEEN(L, THIN, EARLY, GOOD)},
     -1.5,
     -0.5,
     0,
     ADJUST_MOVE_OUT},
    {"the first of the two was bad",
     {SEEN(L, HIGH, EARLY, SLOW), SEEN(L, HIGH, EARLY, GOOD)},
     1.0,
     0.5,
     0,
     ADJUST_MOVE_IN},
    {"hold after a bad release",
     {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, HIGH, EARLY, GOOD), SEEN(L, NOSE, EARLY, SLOW)},
     0,
     0,
     0,
     ADJUST_HOLD},
    {"in the pocket: hold", {SEEN(L, FLUSH, EARLY, GOOD)}, 0, 0, 0, ADJUST_HOLD},
};

static void test_coach(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof AS_A_COACH / sizeof AS_A_COACH[0]; i++)
        assert_chooses(&PLAYER_COACH, &AS_A_COACH[i]);
}

/* The rules' player does what they ask for by the usual step: two boards of feet and one of eyes, a
 * board of eyes alone, the next ball, half a mile an hour, two feet of loft (common practice, no
 * source); and one thing at a time. */
static void test_the_usual_step(void **state)
{
    (void)state;
    static const struct {
        double feet, eyes, mph, loft_ft;
        int places;
    } STEPS[ADJUST_COUNT] = {[ADJUST_MOVE_IN] = {.feet = 2, .eyes = 1},
                             [ADJUST_MOVE_OUT] = {.feet = -2, .eyes = -1},
                             [ADJUST_AIM_IN] = {.eyes = 1},
                             [ADJUST_AIM_OUT] = {.eyes = -1},
                             [ADJUST_BALL_DOWN] = {.places = 1},
                             [ADJUST_BALL_UP] = {.places = -1},
                             [ADJUST_ROUGHER] = {.places = -1},
                             [ADJUST_CLEANER] = {.places = 1},
                             [ADJUST_SMOOTHER] = {.places = -1},
                             [ADJUST_FASTER] = {.mph = 0.5},
                             [ADJUST_SLOWER] = {.mph = -0.5},
                             [ADJUST_LOFT_MORE] = {.loft_ft = 2}};
    static const Case SEQUENCES[] = {
        {"", {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, HIGH, EARLY, GOOD)}, 0, 0, 0, ADJUST_HOLD},
        {"", {SEEN(L, LIGHT, LATE, GOOD), SEEN(L, THIN, LATE, GOOD)}, 0, 0, 0, ADJUST_HOLD},
        {"", {SEEN(L, HIGH, ON_TIME, GOOD), SEEN(L, NOSE, ON_TIME, GOOD)}, 0, 0, 0, ADJUST_HOLD},
        {"", {SEEN(L, GUTTER, NONE, GOOD)}, 0, 0, 0, ADJUST_HOLD},
        {"", {SEEN(L, FLUSH, ON_TIME, GOOD)}, 0, 0, 0, ADJUST_HOLD}};
    int feet_moved = 0;
    AdviceJob *advice = advice_job_new();
    assert_non_null(advice);
    for (size_t i = 0; i < sizeof SEQUENCES / sizeof SEQUENCES[0]; i++) {
        View view = view_of(&SEQUENCES[i]);
        view.advice = advice;
        Choice choice = PLAYER_RULES.choose(&view);
        const Plan *was = &view.plan[SIDE_LEFT], *now = &choice.plan;
        feet_moved += now->stance != was->stance;
        assert_near(now->stance - was->stance, STEPS[choice.kind].feet, 0.0);
        assert_near(now->aim - was->aim, STEPS[choice.kind].eyes, 0.0);
        assert_near(now->mph_change, STEPS[choice.kind].mph, 0.0);
        assert_near(now->loft_change_ft, STEPS[choice.kind].loft_ft, 0.0);
        assert_int_equal(place_of(now->slot) - place_of(was->slot), STEPS[choice.kind].places);
        assert_near(now->rotation_change_deg, 0.0, 0.0);
    }
    assert_true(feet_moved > 0);
    advice_job_free(advice);
}

/* Two early highs of another ball say nothing of this one; and where no weaker strike ball is left,
 * the feet move. */
static void test_coach_and_the_bag(void **state)
{
    (void)state;
    Case c = {"", {SEEN(L, HIGH, EARLY, GOOD), SEEN(L, HIGH, EARLY, GOOD)}, 0, 0, 0, ADJUST_HOLD};
    c.shots[0].slot = 1;
    View view = view_of(&c);
    assert_int_equal(PLAYER_COACH.choose(&view).kind, ADJUST_MOVE_IN);
    int slots[BAG_SLOTS], last = order_of(slots) - 1;
    while (bag_slot(&BAG, slots[last])->cover == COVER_POLYESTER)
        last--; /* the weakest strike ball */
    c.shots[0].slot = c.shots[1].slot = view.plan[SIDE_LEFT].slot = slots[last];
    assert_int_equal(PLAYER_COACH.choose(&view).kind, ADJUST_MOVE_IN);
    c.shots[0].slot = c.shots[1].slot = view.plan[SIDE_LEFT].slot = slots[last - 1];
    Choice choice = PLAYER_COACH.choose(&view);
    assert_int_equal(choice.kind, ADJUST_BALL_DOWN);
    assert_int_equal(choice.plan.slot, slots[last]);
}

/* In a whole rehearsal every choice follows from what the bowler was told of the shots before: said
 * again to the player as a view made of those alone, it chooses the same. */
static void test_choices_follow_from_what_was_seen(void **state)
{
    (void)state;
    const Player *players[] = {&PLAYER_HOLD, &PLAYER_RULES, &PLAYER_ADVISOR, &PLAYER_BY_THE_MISS,
                               &PLAYER_COACH};
    Rehearsal *out = malloc(sizeof *out);
    Shot *seen = calloc(REHEARSE_SHOTS_MAX, sizeof *seen);
    AdviceJob *advice = advice_job_new();
    assert_true(out && seen && advice);
    for (size_t p = 0; p < sizeof players / sizeof players[0]; p++) {
        RehearseSetup setup = {.bag = &BAG,
                               .pattern = &PATTERN,
                               .rules = &RULES,
                               .world = &WORLD_KIN,
                               .player = players[p],
                               .games = 1,
                               .bowlers_on_pair = 3,
                               .seed = 4};
        rehearse_play(JOB, &setup, out);
        View view = {.bag = &BAG,
                     .pattern = &PATTERN,
                     .rules = &RULES,
                     .shots = seen,
                     .bowlers_on_pair = 3,
                     .advice = advice};
        Plan thrown[SIDE_COUNT];
        for (int i = 0; i < out->shot_count; i++) {
            const RehearseShot *shot = &out->shots[i];
            Plan plan = {
                shot->shot.slot,       shot->shot.stance,         shot->shot.aim,
                shot->shot.mph_change, shot->shot.loft_change_ft, shot->shot.rotation_change_deg};
            view.lane = shot->shot.lane;
            view.game = shot->game;
            view.frame = shot->frame;
            if (i >= 2) { /* a plan on each lane is known */
                Choice choice = players[p]->choose(&view);
                assert_true(plan_same(&choice.plan, &plan));
                assert_int_equal(choice.kind, shot->kind);
            }
            thrown[shot->shot.lane] = plan;
            view.plan[SIDE_LEFT] = thrown[SIDE_LEFT];
            view.plan[SIDE_RIGHT] = i > 0 ? thrown[SIDE_RIGHT] : thrown[SIDE_LEFT];
            seen[view.shot_count++] = shot->shot;
        }
    }
    advice_job_free(advice);
    free(seen);
    free(out);
}

static void test_names(void **state)
{
    (void)state;
    for (int i = 0; i < PLAYER_COUNT; i++) {
        const Player *player = PLAYERS[i];
        assert_ptr_equal(player_find(player->name), player);
        assert_true(strlen(player->sentence) > 10);
        assert_true((player->choose != NULL) != (player->know != NULL));
        assert_true((player->know != NULL) == (player == &PLAYER_KNOWS)); /* it alone is told */
    }
    assert_null(PLAYERS[PLAYER_COUNT]);
    assert_null(player_find("nobody"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_by_the_miss),
                                       cmocka_unit_test(test_not_off_the_lane),
                                       cmocka_unit_test(test_coach),
                                       cmocka_unit_test(test_coach_and_the_bag),
                                       cmocka_unit_test(test_the_usual_step),
                                       cmocka_unit_test(test_choices_follow_from_what_was_seen),
                                       cmocka_unit_test(test_names)};
    return cmocka_run_group_tests_name("players", tests, set_up, tear_down);
}
