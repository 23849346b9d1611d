/* An event computed from its entries: frames and lanes, the tenth, edits, undo and redo. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/event/session.h"
#include "helper_same.h"

static Bag a_bag(void)
{
    Bag bag = {.bowler = bowler_default(), .count = 4};
    for (int i = 0; i < 4; i++) {
        bag.balls[i] = ball_default();
        bag.balls[i].slot = i; /* the first lies in the locker; slots 1, 2, 3 are filled */
        snprintf(bag.balls[i].id, sizeof bag.balls[i].id, "ball-%d", i);
    }
    return bag;
}

static const Plan FIRST = {.slot = 1, .stance = 26.0, .aim = 15.0};

/* Heap: a Session is too large for a test's stack. */
static Session *begin(int games)
{
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    EventInfo event = {.id = "day", .games = games, .pair = {11, 12}, .bowlers_on_pair = 4};
    Bag bag = a_bag();
    Pattern pattern = {.length_ft = 40.0};
    session_begin(session, &event, &bag, &pattern, &FIRST);
    return session;
}

static Shot open_shot(Side lane)
{
    return (Shot){.lane = lane,
                  .slot = 1,
                  .stance = 26.0,
                  .aim = 15.0,
                  .hit = HIT_HIGH,
                  .left_said = true,
                  .left = pin_bit(4)};
}

static Shot strike_shot(Side lane)
{
    Shot shot = open_shot(lane);
    shot.hit = HIT_FLUSH;
    shot.left = 0;
    return shot;
}

static void apply(Session *session, Entry entry)
{
    const char *refused = session_refuses(session, &entry);
    if (refused)
        fail_msg("refused: %s", refused);
    assert_true(session_apply(session, &entry));
}

static void refuse(Session *session, Entry entry, const char *why)
{
    static Session before; /* too large for the stack */
    before = *session;
    const char *refused = session_refuses(session, &entry);
    assert_non_null(refused);
    assert_string_equal(refused, why);
    assert_false(session_apply(session, &entry));
    assert_memory_equal(&before, session, sizeof before); /* nothing has changed */
}

static void throw_shot(Session *session, Shot shot)
{
    apply(session, (Entry){.kind = ENTRY_SHOT, .shot = shot});
}
static void throw_open(Session *session) { throw_shot(session, open_shot(session->lane)); }
static void throw_strike(Session *session) { throw_shot(session, strike_shot(session->lane)); }
static void undo(Session *session) { apply(session, (Entry){.kind = ENTRY_UNDO}); }
static void redo(Session *session) { apply(session, (Entry){.kind = ENTRY_REDO}); }

static void play_nine(Session *session)
{
    for (int frame = 1; frame <= 9; frame++)
        throw_open(session);
    assert_int_equal(session->frame, 10);
}

/* The part of a session that is the fold, to compare two of them. */
static void assert_same_fold(const Session *a, const Session *b)
{
    assert_same_plan(&a->plan[SIDE_LEFT], &b->plan[SIDE_LEFT]);
    assert_same_plan(&a->plan[SIDE_RIGHT], &b->plan[SIDE_RIGHT]);
    assert_int_equal(a->apart, b->apart);
    assert_int_equal(a->lane, b->lane);
    assert_int_equal(a->game, b->game);
    assert_int_equal(a->frame, b->frame);
    assert_int_equal(a->ball_of_tenth, b->ball_of_tenth);
    assert_int_equal(a->game_over, b->game_over);
    assert_int_equal(a->told_count, b->told_count);
    for (int i = 0; i < a->told_count; i++)
        assert_memory_equal(&a->told[i], &b->told[i], sizeof a->told[i]);
    assert_int_equal(a->shot_count, b->shot_count);
    for (int i = 0; i < a->shot_count; i++) {
        assert_same_shot(&a->shots[i], &b->shots[i]);
        assert_int_equal(a->shot_game[i], b->shot_game[i]);
        assert_int_equal(a->shot_frame[i], b->shot_frame[i]);
    }
}

static void test_begin(void **state)
{
    (void)state;
    Session *s = begin(3);
    assert_int_equal(s->game, 1);
    assert_int_equal(s->frame, 1);
    assert_int_equal(s->ball_of_tenth, 1);
    assert_int_equal(s->lane, SIDE_LEFT); /* the left lane starts */
    assert_false(s->game_over || s->apart || s->can_undo || s->can_redo);
    assert_int_equal(s->shot_count, 0);
    assert_same_plan(&s->plan[SIDE_LEFT], &FIRST);
    assert_same_plan(&s->plan[SIDE_RIGHT], &FIRST);
    Shot next = session_next_shot(s);
    assert_int_equal(next.slot, 1);
    assert_near(next.stance, 26.0, 0.0);
    assert_near(next.aim, 15.0, 0.0);
    free(s);
}

static void test_frames_and_lanes_alternate(void **state)
{
    (void)state;
    Session *s = begin(2);
    for (int game = 1; game <= 2; game++)
        for (int frame = 1; frame <= 10; frame++) {
            if (!(game == 2 && frame == 1)) /* the old game's end shows until the next ball */
                assert_int_equal(s->frame, frame);
            if (s->game_over)
                assert_int_equal(game, 2);
            Side lane = frame % 2 ? SIDE_LEFT : SIDE_RIGHT;
            throw_shot(s, open_shot(lane));
            int last = s->shot_count - 1;
            assert_int_equal(s->shot_game[last], game);
            assert_int_equal(s->shot_frame[last], frame);
            if (frame < 10)
                assert_int_equal(s->lane, lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT);
        }
    assert_true(s->game_over);
    refuse(s, (Entry){.kind = ENTRY_SHOT, .shot = open_shot(SIDE_LEFT)}, "the last game is over");
    free(s);
}

/* A shot after the tenth begins the next game, whether that was entered or not. */
static void test_next_game_on_its_first_lane(void **state)
{
    (void)state;
    Session *s = begin(2);
    for (int frame = 1; frame <= 10; frame++)
        throw_open(s);
    assert_true(s->game_over);
    assert_int_equal(s->shots[9].lane, SIDE_RIGHT);
    assert_int_equal(session_next_shot(s).lane, SIDE_LEFT);
    throw_open(s);
    assert_int_equal(s->game, 2);
    assert_int_equal(s->shots[10].lane, SIDE_LEFT);
    assert_int_equal(s->lane, SIDE_RIGHT);
    free(s);
}

static void test_a_lane_out_of_turn(void **state)
{
    (void)state;
    Session *s = begin(1);
    throw_shot(s, open_shot(SIDE_RIGHT));
    assert_int_equal(s->lane, SIDE_LEFT); /* the other one is next */
    throw_shot(s, open_shot(SIDE_RIGHT));
    assert_int_equal(s->lane, SIDE_LEFT);
    assert_int_equal(s->frame, 3);
    free(s);
}

/* USBC 2a-2g: a strike in the tenth earns two more balls, a second one another full rack. */
static void test_tenth_three_strikes(void **state)
{
    (void)state;
    Session *s = begin(1);
    play_nine(s);
    Side lane = s->lane;
    for (int ball = 1; ball <= 3; ball++) {
        assert_int_equal(s->ball_of_tenth, ball);
        assert_false(s->game_over);
        assert_int_equal(s->lane, lane); /* fill balls stay on the tenth's lane */
        throw_strike(s);
    }
    assert_true(s->game_over);
    assert_int_equal(s->shot_count, 12);
    for (int i = 9; i < 12; i++)
        assert_int_equal(s->shot_frame[i], 10);
    free(s);
}

static void test_tenth_strike_then_open(void **state)
{
    (void)state;
    Session *s = begin(1);
    play_nine(s);
    throw_strike(s);
    assert_false(s->game_over);
    throw_open(s);
    assert_true(s->game_over);
    refuse(s, (Entry){.kind = ENTRY_SHOT, .shot = open_shot(s->lane)}, "the last game is over");
    free(s);
}

static void test_tenth_open(void **state)
{
    (void)state;
    Session *s = begin(1);
    play_nine(s);
    throw_open(s);
    assert_true(s->game_over);
    free(s);
}

/* A hit alone says nothing about the leave: it doesn't count as a strike. */
static void test_tenth_leave_unsaid(void **state)
{
    (void)state;
    Session *s = begin(1);
    play_nine(s);
    Shot shot = strike_shot(s->lane);
    shot.left_said = false;
    throw_shot(s, shot);
    assert_true(s->game_over);
    free(s);
}

static void test_games(void **state)
{
    (void)state;
    Session *s = begin(3);
    throw_open(s);
    throw_open(s);
    apply(s, (Entry){.kind = ENTRY_GAME}); /* a game broken off */
    assert_int_equal(s->game, 2);
    assert_int_equal(s->frame, 1);
    assert_int_equal(s->lane, SIDE_LEFT);
    play_nine(s);
    throw_open(s);
    assert_true(s->game_over);
    assert_int_equal(s->game, 2);
    apply(s, (Entry){.kind = ENTRY_GAME}); /* said by hand: no second time when the ball comes */
    assert_false(s->game_over);
    throw_open(s);
    assert_int_equal(s->game, 3);
    assert_int_equal(s->frame, 2);
    refuse(s, (Entry){.kind = ENTRY_GAME}, "that was the last game");
    free(s);
}

static void test_refusals(void **state)
{
    (void)state;
    Session *s = begin(1);
    refuse(s, (Entry){.kind = ENTRY_UNDO}, "nothing to undo");
    refuse(s, (Entry){.kind = ENTRY_REDO}, "nothing to redo");
    refuse(s, (Entry){.kind = ENTRY_KINDS}, "no such entry");
    refuse(s, (Entry){.kind = (EntryKind)99}, "no such entry");
    refuse(s, (Entry){.kind = ENTRY_APART, .apart = false}, "nothing would change");
    refuse(s, (Entry){.kind = ENTRY_EDIT, .index = 0, .shot = open_shot(SIDE_LEFT)},
           "no such shot");
    refuse(s, (Entry){.kind = ENTRY_EDIT, .index = -1, .shot = open_shot(SIDE_LEFT)},
           "no such shot");
    refuse(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_COUNT, .plan = FIRST}, "no such lane");
    refuse(s, (Entry){.kind = ENTRY_GAME}, "that was the last game");
    throw_open(s);
    refuse(s, (Entry){.kind = ENTRY_EDIT, .index = 1, .shot = open_shot(SIDE_LEFT)},
           "no such shot");
    free(s);
}

static void test_refused_plans(void **state)
{
    (void)state;
    Session *s = begin(1);
    static const struct {
        Plan plan;
        const char *why;
    } CASES[] = {
        {{.slot = 0, .stance = 26, .aim = 15}, "no ball in that slot"}, /* the locker's ball */
        {{.slot = 4, .stance = 26, .aim = 15}, "no ball in that slot"},
        {{.slot = 7, .stance = 26, .aim = 15}, "no ball in that slot"},
        {{.slot = -1, .stance = 26, .aim = 15}, "no ball in that slot"},
        {{.slot = 1, .stance = 60.5, .aim = 15}, "stance outside -10 to 60"},
        {{.slot = 1, .stance = -10.5, .aim = 15}, "stance outside -10 to 60"},
        {{.slot = 1, .stance = NAN, .aim = 15}, "stance outside -10 to 60"},
        {{.slot = 1, .stance = 26, .aim = 60.5}, "aim outside -10 to 60"},
        {{.slot = 1, .stance = 26, .aim = NAN}, "aim outside -10 to 60"},
        {{.slot = 1, .stance = 26, .aim = 15, .mph_change = 2.1},
         "speed change outside -2 to 2 mph"},
        {{.slot = 1, .stance = 26, .aim = 15, .mph_change = NAN},
         "speed change outside -2 to 2 mph"},
        {{.slot = 1, .stance = 26, .aim = 15, .loft_change_ft = -3.1},
         "loft change outside -3 to 5 ft"},
        {{.slot = 1, .stance = 26, .aim = 15, .loft_change_ft = 5.1},
         "loft change outside -3 to 5 ft"},
        {{.slot = 1, .stance = 26, .aim = 15, .rotation_change_deg = -110.5},
         "rotation change outside -110 to 110 degrees"},
        {{.slot = 1, .stance = 26, .aim = 15, .rotation_change_deg = NAN},
         "rotation change outside -110 to 110 degrees"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++)
        refuse(s, (Entry){.kind = ENTRY_PLAN, .plan = CASES[i].plan}, CASES[i].why);
    /* on the limits */
    apply(s, (Entry){.kind = ENTRY_PLAN, .plan = {3, -10.0, 50.0, 2.0, -3.0, 110.0}});
    apply(s, (Entry){.kind = ENTRY_PLAN, .plan = {3, 60.0, -10.0, -2.0, 5.0, -110.0}});
    free(s);
}

static void test_refused_shots(void **state)
{
    (void)state;
    Session *s = begin(1);
    refuse(s, (Entry){.kind = ENTRY_SHOT, .shot = {.slot = 1, .hit = HIT_FLUSH, .mph_change = 2.5}},
           "speed change outside -2 to 2 mph");
    refuse(s,
           (Entry){.kind = ENTRY_SHOT,
                   .shot = {.slot = 1, .hit = HIT_FLUSH, .rotation_change_deg = NAN}},
           "rotation change outside -110 to 110 degrees");
    throw_open(s);
    for (int way = 0; way < 2; way++) { /* thrown, and put in place of the first */
        Entry entry = {.kind = way == 0 ? ENTRY_SHOT : ENTRY_EDIT};
        Shot good = open_shot(SIDE_LEFT);
        static const int NO_SLOTS[] = {0, 4, 7, -3};
        for (int i = 0; i < 4; i++) {
            entry.shot = good;
            entry.shot.slot = NO_SLOTS[i];
            refuse(s, entry, "no ball in that slot");
        }
        const char *no_word = "no such word for a shot";
        entry.shot = good;
        entry.shot.lane = SIDE_COUNT;
        refuse(s, entry, no_word);
        entry.shot = good;
        entry.shot.hit = HIT_COUNT;
        refuse(s, entry, no_word);
        entry.shot = good;
        entry.shot.read = READ_COUNT;
        refuse(s, entry, no_word);
        entry.shot = good;
        entry.shot.release = RELEASE_COUNT;
        refuse(s, entry, no_word);
        entry.shot = good;
        entry.shot.left = 0x400;
        refuse(s, entry, no_word);
        entry.shot = good;
        entry.shot.hit = HIT_UNSAID;
        entry.shot.left_said = false;
        refuse(s, entry, "neither hit nor leave");
        entry.shot.left_said = true;
        assert_null(session_refuses(s, &entry)); /* the leave alone will do */
        entry.shot = good;
        entry.shot.left_said = false;
        assert_null(session_refuses(s, &entry)); /* so does the hit */
        static const struct {
            Hit hit;
            Pins left;
            const char *why; /* NULL: possible */
        } LEAVES[] = {
            {HIT_FLUSH, 0x003,
             "that hit takes the 1 pin down; allowed with the 1: wide, thin or "
             "crossed"},
            {HIT_LIGHT, 0x001,
             "that hit takes the 1 pin down; allowed with the 1: wide, thin or "
             "crossed"},
            {HIT_NOSE, PINS_ALL,
             "that hit takes the 1 pin down; allowed with the 1: wide, thin or "
             "crossed"},
            {HIT_WIDE, 0,
             "wide misses the head pin, so no strike; allowed: thin, or what was "
             "left"},
            {HIT_GUTTER, 0x007, "a gutter ball leaves all ten; allowed: 1 to 10, or another hit"},
            {HIT_THIN, 0x203, NULL}, /* a washout */
            {HIT_CROSSED, 0x005, NULL},
            {HIT_GUTTER, PINS_ALL, NULL},
            {HIT_WIDE, PINS_ALL, NULL},
            {HIT_NOSE, 0, NULL},
            {HIT_UNSAID, 0x001, NULL},
        };
        for (size_t i = 0; i < sizeof LEAVES / sizeof LEAVES[0]; i++) {
            entry.shot = good;
            entry.shot.hit = LEAVES[i].hit;
            entry.shot.left = LEAVES[i].left;
            if (LEAVES[i].why)
                refuse(s, entry, LEAVES[i].why);
            else
                assert_null(session_refuses(s, &entry));
        }
    }
    free(s);
}

static void test_limits(void **state)
{
    (void)state;
    Session *s = begin(SESSION_GAMES_MAX);
    s->event.games = 1000; /* more than an event may have: the shots' limit comes first */
    while (s->shot_count < SESSION_SHOTS_MAX)
        throw_open(s);
    refuse(s, (Entry){.kind = ENTRY_SHOT, .shot = open_shot(s->lane)}, "the event's log is full");
    undo(s); /* takes one back: room again */
    throw_open(s);
    assert_int_equal(s->shot_count, SESSION_SHOTS_MAX);
    /* Entries have their own limit; what they fill it with does not matter. */
    bool apart = true;
    while (s->entry_count < SESSION_ENTRIES_MAX) {
        s->entries[s->entry_count++] = (Entry){.kind = ENTRY_APART, .apart = apart};
        apart = !apart;
    }
    refuse(s, (Entry){.kind = ENTRY_UNDO}, "the event's log is full");
    refuse(s, (Entry){.kind = ENTRY_PLAN, .plan = FIRST}, "the event's log is full");
    free(s);
}

static Plan other_plan(void)
{
    return (Plan){.slot = 2, .stance = 28.5, .aim = 16.0, .mph_change = 0.5};
}

static void test_plans_together(void **state)
{
    (void)state;
    Session *s = begin(1);
    Plan plan = other_plan();
    apply(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_RIGHT, .plan = plan});
    assert_same_plan(&s->plan[SIDE_LEFT], &plan);
    assert_same_plan(&s->plan[SIDE_RIGHT], &plan);
    assert_int_equal(session_next_shot(s).slot, 2);
    assert_near(session_next_shot(s).stance, 28.5, 0.0);
    free(s);
}

static void test_plans_apart(void **state)
{
    (void)state;
    Session *s = begin(1);
    Plan plan = other_plan();
    apply(s, (Entry){.kind = ENTRY_APART, .apart = true});
    apply(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_RIGHT, .plan = plan});
    assert_same_plan(&s->plan[SIDE_LEFT], &FIRST);
    assert_same_plan(&s->plan[SIDE_RIGHT], &plan);
    assert_int_equal(session_next_shot(s).slot, 1);
    assert_int_equal(session_next_shot(s).lane, SIDE_LEFT);
    throw_open(s);
    assert_int_equal(session_next_shot(s).slot, 2);
    assert_int_equal(session_next_shot(s).lane, SIDE_RIGHT);
    refuse(s, (Entry){.kind = ENTRY_APART, .apart = true}, "nothing would change");
    /* together: as on the lane that the entry names, whichever comes next */
    apply(s, (Entry){.kind = ENTRY_APART, .lane = SIDE_RIGHT, .apart = false});
    assert_same_plan(&s->plan[SIDE_LEFT], &plan);
    undo(s);
    assert_same_plan(&s->plan[SIDE_LEFT], &FIRST);
    assert_true(s->apart);
    apply(s, (Entry){.kind = ENTRY_APART, .lane = SIDE_LEFT, .apart = false});
    assert_same_plan(&s->plan[SIDE_RIGHT], &FIRST);
    assert_same_plan(&s->plan[SIDE_LEFT], &FIRST);
    free(s);
}

/* As plans are entered now: of one lane alone, until both take one. */
static void test_plan_of_one_lane(void **state)
{
    (void)state;
    Session *s = begin(1);
    Plan plan = other_plan();
    apply(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_RIGHT, .apart = true, .plan = plan});
    assert_same_plan(&s->plan[SIDE_LEFT], &FIRST);
    assert_same_plan(&s->plan[SIDE_RIGHT], &plan);
    apply(s, (Entry){.kind = ENTRY_APART, .lane = SIDE_RIGHT});
    assert_same_plan(&s->plan[SIDE_LEFT], &plan);
    apply(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_LEFT, .apart = true, .plan = FIRST});
    assert_same_plan(&s->plan[SIDE_RIGHT], &plan);
    undo(s);
    assert_same_plan(&s->plan[SIDE_LEFT], &plan);
    free(s);
}

/* Undo gives back the fold of before, redo that of after, for an entry of every kind. */
static void test_undo_redo_of_every_kind(void **state)
{
    (void)state;
    const Entry entries[] = {
        {.kind = ENTRY_SHOT, .shot = strike_shot(SIDE_RIGHT)},
        {.kind = ENTRY_EDIT, .index = 0, .shot = strike_shot(SIDE_RIGHT)},
        {.kind = ENTRY_PLAN, .lane = SIDE_LEFT, .plan = other_plan()},
        {.kind = ENTRY_APART, .apart = true},
        {.kind = ENTRY_GAME},
    };
    assert_int_equal(sizeof entries / sizeof entries[0], ENTRY_UNDO); /* every kind that folds */
    for (size_t i = 0; i < sizeof entries / sizeof entries[0]; i++) {
        Session *s = begin(2), *before = calloc(1, sizeof *before),
                *after = calloc(1, sizeof *after);
        assert_non_null(before);
        assert_non_null(after);
        throw_open(s);
        *before = *s;
        apply(s, entries[i]);
        *after = *s;
        assert_true(s->can_undo && !s->can_redo);
        undo(s);
        assert_same_fold(s, before);
        assert_true(s->can_redo);
        redo(s);
        assert_same_fold(s, after);
        assert_false(s->can_redo);
        undo(s);
        assert_same_fold(s, before);
        undo(s); /* the shot before it */
        assert_int_equal(s->shot_count, 0);
        assert_false(s->can_undo);
        redo(s);
        redo(s);
        assert_same_fold(s, after);
        undo(s);
        throw_open(s); /* a new entry clears what could be redone */
        assert_false(s->can_redo);
        refuse(s, (Entry){.kind = ENTRY_REDO}, "nothing to redo");
        free(s);
        free(before);
        free(after);
    }
}

static void test_edit(void **state)
{
    (void)state;
    Session *s = begin(1);
    throw_open(s);
    throw_open(s);
    Shot better = strike_shot(SIDE_LEFT);
    better.mph = 17.9;
    better.arrows = 12.5;
    better.breakpoint = 7.0;
    apply(s, (Entry){.kind = ENTRY_EDIT, .index = 0, .shot = better});
    assert_same_shot(&s->shots[0], &better);
    assert_int_equal(s->shots[1].left, pin_bit(4));
    assert_int_equal(s->shot_count, 2);
    assert_int_equal(s->frame, 3);
    better.mph = 18.1; /* the latest edit counts */
    apply(s, (Entry){.kind = ENTRY_EDIT, .index = 0, .shot = better});
    assert_near(s->shots[0].mph, 18.1, 0.0);
    undo(s);
    assert_near(s->shots[0].mph, 17.9, 0.0);
    assert_near(s->shots[0].arrows, 12.5, 0.0);
    undo(s);
    assert_near(s->shots[0].mph, 0.0, 0.0);
    assert_near(s->shots[0].arrows, 0.0, 0.0);
    assert_near(s->shots[0].breakpoint, 0.0, 0.0);
    free(s);
}

/* The first ball of the last game's tenth was no strike after all: the balls that followed stay in
 * that frame and that game, and the game is over. */
static void test_edit_of_a_strike_in_the_tenth(void **state)
{
    (void)state;
    for (int games = 1; games <= 2; games++) {
        Session *s = begin(games), *before = calloc(1, sizeof *before);
        assert_non_null(before);
        for (int game = 1; game < games; game++) {
            play_nine(s);
            throw_open(s);
            apply(s, (Entry){.kind = ENTRY_GAME});
        }
        play_nine(s);
        int tenth = s->shot_count;
        throw_strike(s);
        throw_strike(s);
        assert_false(s->game_over);
        *before = *s;
        apply(s,
              (Entry){.kind = ENTRY_EDIT, .index = tenth, .shot = open_shot(s->shots[tenth].lane)});
        assert_true(s->game <= s->event.games);
        assert_int_equal(s->game, games);
        assert_int_equal(s->frame, 10);
        assert_true(s->game_over);
        assert_int_equal(s->shot_frame[tenth + 1], 10);
        assert_int_equal(s->shot_game[tenth + 1], games);
        undo(s);
        assert_same_fold(s, before);
        throw_strike(s);
        assert_true(s->game_over);
        free(s);
        free(before);
    }
}

/* The other way about: an open ball that ended the game was a strike, so the game goes on. */
static void test_edit_to_a_strike_in_the_tenth(void **state)
{
    (void)state;
    Session *s = begin(1);
    play_nine(s);
    throw_open(s);
    assert_true(s->game_over);
    apply(s, (Entry){.kind = ENTRY_EDIT, .index = 9, .shot = strike_shot(SIDE_RIGHT)});
    assert_false(s->game_over);
    assert_int_equal(s->ball_of_tenth, 2);
    throw_strike(s);
    throw_open(s);
    assert_true(s->game_over);
    free(s);
}

/* Whatever the entries and edits, the event never gets more games than it has. */
static void test_never_more_games_than_the_event(void **state)
{
    (void)state;
    Session *s = begin(2);
    play_nine(s);
    throw_strike(s);
    throw_strike(s);
    throw_strike(s);
    apply(s, (Entry){.kind = ENTRY_GAME});
    throw_open(s);
    apply(s, (Entry){.kind = ENTRY_EDIT, .index = 9, .shot = open_shot(SIDE_RIGHT)});
    assert_true(s->game <= 2);
    for (int i = 0; i < s->shot_count; i++)
        assert_true(s->shot_game[i] >= 1 && s->shot_game[i] <= 2 && s->shot_frame[i] <= 10);
    free(s);
}

static Entry random_entry(Rng *rng, const Session *s)
{
    Entry entry = {.kind = (EntryKind)rng_between(rng, 0.0, ENTRY_KINDS),
                   .lane = rng_uniform(rng) < 0.5 ? SIDE_LEFT : SIDE_RIGHT,
                   .apart = rng_uniform(rng) < 0.5,
                   .index = (int)rng_between(rng, -1.0, s->shot_count + 1.0)};
    if (rng_uniform(rng) < 0.5)
        entry.kind = ENTRY_SHOT;
    entry.shot = rng_uniform(rng) < 0.5 ? strike_shot(entry.lane) : open_shot(s->lane);
    entry.shot.slot = (int)rng_between(rng, 0.0, 5.0);
    entry.shot.read = (Read)rng_between(rng, 0.0, READ_COUNT);
    entry.plan = (Plan){.slot = (int)rng_between(rng, 0.0, 5.0),
                        .stance = rng_between(rng, -12.0, 62.0),
                        .aim = rng_between(rng, 0.0, 40.0)};
    static const char *const BALLS[] = {"X", "9/", "81", "XX9", "", "?"};
    if (entry.kind == ENTRY_FRAME && rng_uniform(rng) < 0.5)
        entry.index = s->shot_count;
    snprintf(entry.balls, sizeof entry.balls, "%s", BALLS[(int)rng_between(rng, 0.0, 6.0)]);
    return entry;
}

static void test_fold_after_undo_is_fold_without(void **state)
{
    (void)state;
    for (uint64_t seed = 0; seed < 60; seed++) {
        Rng rng = rng_seed(seed);
        Session *s = begin(1 + (int)(seed % 4)), *plain = calloc(1, sizeof *plain);
        assert_non_null(plain);
        for (int i = 0; i < 150; i++) {
            Entry entry = random_entry(&rng, s);
            bool allowed = session_refuses(s, &entry) == NULL;
            assert_true(session_apply(s, &entry) == allowed);

            /* invariants */
            assert_true(s->game >= 1 && s->game <= s->event.games);
            assert_true(s->frame >= 1 && s->frame <= 10);
            assert_true(s->ball_of_tenth >= 1 && s->ball_of_tenth <= 3);
            assert_true(s->can_undo == (s->standing_count > 0));
            assert_true(s->can_redo == (s->taken_count > 0));
            int shots = 0;
            for (int k = 0; k < s->standing_count; k++)
                shots += s->entries[s->standing[k]].kind == ENTRY_SHOT;
            assert_int_equal(s->shot_count, shots);

            if (i % 10 != 9)
                continue;
            /* the active entries in a new session give the same state */
            session_begin(plain, &s->event, &s->bag, &s->pattern, &s->first);
            for (int k = 0; k < s->standing_count; k++)
                apply(plain, s->entries[s->standing[k]]);
            assert_same_fold(s, plain);
            assert_int_equal(plain->entry_count, s->standing_count);
        }
        /* all the way back, and forth again */
        *plain = *s;
        int standing = s->standing_count;
        while (s->can_undo)
            undo(s);
        assert_int_equal(s->shot_count, 0);
        for (int k = 0; k < standing; k++)
            redo(s);
        assert_same_fold(s, plain);
        free(s);
        free(plain);
    }
}

/* Entries made before the first plan is known mean the same, whatever they are and whenever the
 * plan comes. Until then a lane has a plan only if one was entered. */
static void test_the_first_plan_said_later(void **state)
{
    (void)state;
    const Plan unknown = {0};
    for (uint64_t seed = 0; seed < 40; seed++) {
        Rng rng = rng_seed(seed);
        Session *s = begin(2), *later = calloc(1, sizeof *later);
        assert_non_null(later);
        session_begin(later, &s->event, &s->bag, &s->pattern, &unknown);
        assert_int_equal(later->plan[SIDE_LEFT].slot, 0);
        assert_int_equal(later->plan[SIDE_RIGHT].slot, 0);
        int entries = (int)rng_between(&rng, 0.0, 40.0);
        for (int i = 0; i < entries; i++) {
            Entry entry = random_entry(&rng, s);
            assert_true(session_apply(later, &entry) == session_apply(s, &entry));
            for (int lane = 0; lane < SIDE_COUNT; lane++)
                if (later->plan[lane].slot != 0)
                    assert_same_plan(&later->plan[lane], &s->plan[lane]);
        }
        session_say_first(later, &FIRST);
        assert_same_fold(later, s);
        free(s);
        free(later);
    }
}

static void test_fold_again_changes_nothing(void **state)
{
    (void)state;
    Session *s = begin(2), *again = calloc(1, sizeof *again);
    assert_non_null(again);
    play_nine(s);
    throw_strike(s);
    apply(s, (Entry){.kind = ENTRY_APART, .apart = true});
    apply(s, (Entry){.kind = ENTRY_PLAN, .lane = SIDE_RIGHT, .plan = other_plan()});
    *again = *s;
    session_fold(again);
    assert_same_fold(again, s);
    assert_int_equal(again->entry_count, s->entry_count); /* the log only grows */
    free(s);
    free(again);
}

static void test_the_log_only_grows(void **state)
{
    (void)state;
    Session *s = begin(1);
    throw_open(s);
    undo(s);
    redo(s);
    assert_int_equal(s->entry_count, 3);
    assert_int_equal(s->entries[1].kind, ENTRY_UNDO);
    assert_int_equal(s->entries[2].kind, ENTRY_REDO);
    for (int kind = 0; kind < ENTRY_KINDS; kind++)
        assert_non_null(ENTRY_NAMES[kind]);
    assert_null(ENTRY_NAMES[ENTRY_KINDS]);
    free(s);
}

/* Every game of the longest event, twelve balls each, after a log that was filled with plans and a
 * warm-up that never ended: no shot in play is refused. */
static void a_shot_in_play_is_never_refused(void **state)
{
    (void)state;
    Session *session = begin(SESSION_GAMES_MAX);
    EventInfo event = session->event;
    event.warm_up = true;
    Bag bag = session->bag;
    Pattern pattern = session->pattern;
    session_begin(session, &event, &bag, &pattern, &FIRST);
    Entry shot = {.kind = ENTRY_SHOT, .shot = strike_shot(SIDE_LEFT)};
    Entry plan = {.kind = ENTRY_PLAN, .plan = FIRST, .apart = true}, next = {.kind = ENTRY_GAME};
    while (session_apply(session, &shot))
        ;
    assert_true(session->warm_up && session->shot_count > 100);
    while (session_apply(session, &plan))
        ;
    assert_string_equal(session_refuses(session, &plan), "the log is full but for shots");
    int warm = session->shot_count;
    apply(session, next);
    for (int ball = 0; ball < 12 * SESSION_GAMES_MAX; ball++)
        apply(session, shot);
    assert_int_equal(session->shot_count, warm + 12 * SESSION_GAMES_MAX);
    assert_true(session->game == SESSION_GAMES_MAX && session->game_over);
    free(session);
}

/* What session_apply adds to the state is what all entries together make of it. */
static void one_more_entry_is_the_same_as_all_of_them(void **state)
{
    (void)state;
    enum { COMPUTED = sizeof(Session) - offsetof(Session, plan) };
    static char added[COMPUTED];
    Rng rng = rng_seed(11);
    Session *session = begin(3);
    session->event.warm_up = true;
    session_fold(session);
    int taken = 0;
    for (int i = 0; i < 1000 && session->entry_count < SESSION_ENTRIES_MAX; i++) {
        Side lane = (Side)(rng_next(&rng) % 2);
        Entry entry = {.kind = (EntryKind)(rng_next(&rng) % ENTRY_KINDS),
                       .lane = lane,
                       .shot = rng_next(&rng) % 2 ? strike_shot(lane) : open_shot(lane)};
        entry.apart = rng_next(&rng) % 2;
        entry.index = (int)(rng_next(&rng) % (unsigned)(session->shot_count + 1));
        entry.plan = (Plan){.slot = 1 + (int)(rng_next(&rng) % 3), .stance = 20, .aim = 10};
        snprintf(entry.balls, sizeof entry.balls, "%s", rng_next(&rng) % 2 ? "9/" : "X");
        if (entry.kind == ENTRY_GAME && rng_next(&rng) % 8)
            continue;
        if (!session_apply(session, &entry))
            continue;
        taken++;
        memcpy(added, session->plan, COMPUTED);
        session_fold(session);
        assert_memory_equal(added, session->plan, COMPUTED);
    }
    assert_true(taken > 300);
    free(session);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_shot_in_play_is_never_refused),
        cmocka_unit_test(one_more_entry_is_the_same_as_all_of_them),
        cmocka_unit_test(test_begin),
        cmocka_unit_test(test_frames_and_lanes_alternate),
        cmocka_unit_test(test_next_game_on_its_first_lane),
        cmocka_unit_test(test_a_lane_out_of_turn),
        cmocka_unit_test(test_tenth_three_strikes),
        cmocka_unit_test(test_tenth_strike_then_open),
        cmocka_unit_test(test_tenth_open),
        cmocka_unit_test(test_tenth_leave_unsaid),
        cmocka_unit_test(test_games),
        cmocka_unit_test(test_refusals),
        cmocka_unit_test(test_refused_plans),
        cmocka_unit_test(test_refused_shots),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_plans_together),
        cmocka_unit_test(test_plans_apart),
        cmocka_unit_test(test_plan_of_one_lane),
        cmocka_unit_test(test_undo_redo_of_every_kind),
        cmocka_unit_test(test_edit),
        cmocka_unit_test(test_edit_of_a_strike_in_the_tenth),
        cmocka_unit_test(test_edit_to_a_strike_in_the_tenth),
        cmocka_unit_test(test_never_more_games_than_the_event),
        cmocka_unit_test(test_fold_after_undo_is_fold_without),
        cmocka_unit_test(test_the_first_plan_said_later),
        cmocka_unit_test(test_fold_again_changes_nothing),
        cmocka_unit_test(test_the_log_only_grows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
