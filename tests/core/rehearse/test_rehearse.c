/* test_rehearse.c - blocks against a hidden lane: the same for every player, counted as they
 * should be, and worth more to those who know more. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

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

static RehearseSetup setup_of(const Player *player, uint64_t seed)
{
    return (RehearseSetup){.bag = &BAG,
                           .pattern = &PATTERN,
                           .rules = &RULES,
                           .games = 1,
                           .bowlers_on_pair = 2,
                           .world = &WORLD_KIN,
                           .player = player,
                           .seed = seed};
}

static Rehearsal *play(RehearseSetup setup)
{
    Rehearsal *out = malloc(sizeof *out);
    assert_non_null(out);
    rehearse_play(JOB, &setup, out);
    return out;
}

/* First balls of a game are 10 to 12, a score 0 to 300; what is counted is what is listed. */
static void assert_counted(const Rehearsal *out)
{
    int strikes = 0, pockets = 0;
    assert_int_equal(out->games, 1);
    assert_in_range(out->shot_count, 10, 12);
    assert_in_range(out->score[0], 0, 300);
    assert_near(out->mean_pins, out->score[0], 0.0);
    for (int i = 0; i < out->shot_count; i++) {
        const RehearseShot *s = &out->shots[i];
        assert_int_equal(s->game, 1);
        assert_in_range(s->frame, 1, 10);
        assert_true(s->value >= 0.0 && s->value <= 1.0);
        assert_int_equal(s->shot.lane, s->frame % 2 ? SIDE_LEFT : SIDE_RIGHT);
        assert_true(s->shot.left_said);
        strikes += s->strike;
        pockets += s->pocket;
    }
    assert_int_equal(strikes, out->strikes);
    assert_int_equal(pockets, out->pockets);
}

static void test_same_seed_same_block(void **state)
{
    (void)state;
    for (int player = 0; player < PLAYER_COUNT; player++) {
        if (PLAYERS[player] == &PLAYER_KNOWS) /* slow, and of the same stuff */
            continue;
        Rehearsal *a = play(setup_of(PLAYERS[player], 7)), *b = play(setup_of(PLAYERS[player], 7));
        assert_counted(a);
        assert_int_equal(a->shot_count, b->shot_count);
        for (int i = 0; i < a->shot_count; i++) {
            assert_true(plan_same(&(Plan){a->shots[i].shot.slot, a->shots[i].shot.stance,
                                          a->shots[i].shot.aim, 0, 0, 0},
                                  &(Plan){b->shots[i].shot.slot, b->shots[i].shot.stance,
                                          b->shots[i].shot.aim, 0, 0, 0}));
            assert_true(a->shots[i].value == b->shots[i].value);
        }
        assert_int_equal(a->score[0], b->score[0]);
        free(a);
        free(b);
    }
}

/* Every player begins on the same line of the same lane with the same luck; who holds stays there.
 */
static void test_players_meet_the_same_lane(void **state)
{
    (void)state;
    Rehearsal *hold = play(setup_of(&PLAYER_HOLD, 11)), *rules = play(setup_of(&PLAYER_RULES, 11));
    for (int i = 0; i < hold->shot_count; i++) {
        const Shot *shot = &hold->shots[i].shot, *first = &hold->shots[0].shot;
        assert_int_equal(hold->shots[i].kind, ADJUST_HOLD);
        assert_int_equal(shot->slot, first->slot);
        assert_near(shot->stance, first->stance, 0.0);
        assert_near(shot->aim, first->aim, 0.0);
    }
    const RehearseShot *a = &hold->shots[0], *b = &rules->shots[0];
    if (b->shot.stance == a->shot.stance && b->shot.slot == a->shot.slot)
        assert_near(a->board, b->board, 0.0);
    free(hold);
    free(rules);
}

/* What each choice was worth on the hidden lane, over some blocks: who knows the lane chooses
 * better than who follows advice, and that one better than who never changes. */
static void test_knowing_is_worth_more(void **state)
{
    (void)state;
    const Player *players[] = {&PLAYER_HOLD, &PLAYER_ADVISOR, &PLAYER_KNOWS};
    double value[3] = {0};
    for (uint64_t seed = 1; seed <= 2; seed++)
        for (int i = 0; i < 3; i++) {
            Rehearsal *out = play(setup_of(players[i], seed));
            assert_counted(out);
            value[i] += out->value / 2.0;
            free(out);
        }
    assert_less(value[0] + 0.02, value[1]);
    assert_less(value[1] + 0.02, value[2]);
    RehearseSetup wrong = setup_of(&PLAYER_KNOWS, 1);
    wrong.known_off_boards = 2.0; /* and who is wrong about it by two boards, worse */
    Rehearsal *out = play(wrong);
    assert_less(out->value + 0.05, value[2]);
    free(out);
}

/* Practice is seen by the bowler and felt by the lane, and not counted. */
static void test_practice(void **state)
{
    (void)state;
    RehearseSetup setup = setup_of(&PLAYER_ADVISOR, 3);
    setup.practice = 6;
    Rehearsal *with = play(setup);
    assert_counted(with);
    setup.player = &PLAYER_HOLD; /* the line is the same, the lane is not */
    setup.practice = REHEARSE_PRACTICE_MAX;
    Rehearsal *held = play(setup);
    assert_counted(held);
    setup.practice = 0;
    Rehearsal *fresh = play(setup);
    assert_true(with->shots[0].shot.stance != fresh->shots[0].shot.stance ||
                with->shots[0].shot.aim != fresh->shots[0].shot.aim ||
                with->shots[0].shot.slot != fresh->shots[0].shot.slot); /* something was learnt */
    assert_near(held->shots[0].shot.stance, fresh->shots[0].shot.stance, 0.0);
    assert_true(held->shots[0].value != fresh->shots[0].value);
    free(with);
    free(held);
    free(fresh);
}

/* Boards on the way are told only when asked for, in half boards, near where it was sent. */
static void test_sights(void **state)
{
    (void)state;
    RehearseSetup setup = setup_of(&PLAYER_HOLD, 5);
    Rehearsal *blind = play(setup);
    setup.sights = true;
    Rehearsal *seen = play(setup);
    for (int i = 0; i < seen->shot_count; i++) {
        const Shot *a = &blind->shots[i].shot, *b = &seen->shots[i].shot;
        assert_near(a->arrows, 0.0, 0.0);
        assert_near(a->breakpoint, 0.0, 0.0);
        if (b->hit == HIT_GUTTER)
            continue;
        assert_near(2.0 * b->arrows, round(2.0 * b->arrows), 0.0);
        assert_near(b->arrows, b->aim, 4.0);
        assert_true(b->breakpoint >= 1.0 && b->breakpoint <= LANE_BOARDS);
        assert_near(blind->shots[i].board, seen->shots[i].board, 0.0); /* looking changes nothing */
    }
    free(blind);
    free(seen);
}

/* In every world a block is played through, and the same one again; and who is advised in a world
 * of other laws is told chances. */
static void test_every_world(void **state)
{
    (void)state;
    for (int i = 0; WORLDS[i]; i++) {
        RehearseSetup setup = setup_of(&PLAYER_HOLD, 9);
        setup.world = WORLDS[i];
        Rehearsal *hold = play(setup), *again = play(setup);
        setup.player = &PLAYER_COACH;
        Rehearsal *coach = play(setup);
        assert_counted(hold);
        assert_counted(coach);
        assert_int_equal(hold->score[0], again->score[0]);
        assert_true(hold->value == again->value);
        free(hold);
        free(again);
        free(coach);
    }
    RehearseSetup setup = setup_of(&PLAYER_ADVISOR, 9);
    setup.world = &WORLD_STRANGER;
    Rehearsal *advised = play(setup);
    assert_counted(advised);
    for (int i = 0; i < advised->shot_count; i++) {
        assert_true(advised->shots[i].stated >= 0.0 && advised->shots[i].stated <= 1.0);
        assert_true(advised->shots[i].stated_strike >= 0.0 &&
                    advised->shots[i].stated_strike <= 1.0);
    }
    free(advised);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_same_seed_same_block),
                                       cmocka_unit_test(test_players_meet_the_same_lane),
                                       cmocka_unit_test(test_knowing_is_worth_more),
                                       cmocka_unit_test(test_practice),
                                       cmocka_unit_test(test_sights),
                                       cmocka_unit_test(test_every_world)};
    return cmocka_run_group_tests_name("rehearse", tests, set_up, tear_down);
}
