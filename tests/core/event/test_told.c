/* Frames known only by their pins, and fouls: where they stand in a game, what they score, and
 * their lines in a journal. The scores are those of score.h, which tests/core/event/test_score.c
 * and tests/published hold to the rules. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/event/session.h"
#include "store/journal_line.h"

#define P(n) pin_bit(n)

static Session *begin(int games)
{
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    EventInfo event = {.id = "day", .games = games, .pair = {11, 12}, .bowlers_on_pair = 4};
    Bag bag = {.bowler = bowler_default(), .count = 1};
    bag.balls[0] = ball_default();
    bag.balls[0].slot = 1;
    Pattern pattern = {.length_ft = 40.0};
    session_begin(session, &event, &bag, &pattern, &(Plan){.slot = 1, .stance = 26, .aim = 15});
    return session;
}

static Entry a_frame(const Session *session, int index, const char *balls)
{
    Entry entry = {.kind = ENTRY_FRAME, .lane = session->lane, .index = index};
    snprintf(entry.balls, sizeof entry.balls, "%s", balls);
    return entry;
}

static Entry an_edit(int index, const char *balls)
{
    Entry entry = {.kind = ENTRY_FRAME_EDIT, .index = index};
    snprintf(entry.balls, sizeof entry.balls, "%s", balls);
    return entry;
}

static void apply(Session *session, Entry entry)
{
    const char *refused = session_refuses(session, &entry);
    if (refused)
        fail_msg("%s: refused: %s", entry.balls, refused);
    assert_true(session_apply(session, &entry));
}

static void tell(Session *session, const char *balls)
{
    apply(session, a_frame(session, session->shot_count, balls));
}

static void refuse(Session *session, Entry entry, const char *why)
{
    static Session before;
    before = *session;
    const char *refused = session_refuses(session, &entry);
    assert_non_null(refused);
    assert_string_equal(refused, why);
    assert_false(session_apply(session, &entry));
    assert_memory_equal(&before, session, sizeof before);
}

static Shot a_shot(const Session *session, Pins left)
{
    return (Shot){.lane = session->lane, .slot = 1, .left_said = true, .left = left};
}

static void throw_shot(Session *session, Shot shot)
{
    apply(session, (Entry){.kind = ENTRY_SHOT, .lane = shot.lane, .shot = shot});
}

/* A first ball that leaves pins, and the spare ball after it. */
static void bowl(Session *session, Pins left, Pins then)
{
    Shot shot = a_shot(session, left);
    shot.spare_said = left != 0;
    shot.spare_left = then;
    throw_shot(session, shot);
}

static void score_is(const Session *session, int game, const char *sheet)
{
    char why[96];
    Score score, expected = score_begin();
    if (!score_read(&expected, sheet, why, sizeof why))
        fail_msg("%s: %s", sheet, why);
    assert_true(session_score(session, game, &score));
    assert_int_equal(score.ball_count, expected.ball_count);
    for (int i = 0; i < score.ball_count; i++) {
        assert_int_equal(score.balls[i].pins, expected.balls[i].pins);
        assert_int_equal(score.balls[i].foul, expected.balls[i].foul);
    }
    assert_int_equal(score.total, expected.total);
    assert_int_equal(score.best, expected.best);
    assert_int_equal(score.over, expected.over);
}

static void frames_between_shots(void **state)
{
    (void)state;
    Session *s = begin(2);
    bowl(s, P(10), 0);
    tell(s, "X");
    assert_int_equal(s->frame, 3);
    assert_int_equal(s->lane, SIDE_LEFT); /* it took its turn on the right lane */
    tell(s, "81");
    bowl(s, P(4) | P(7), P(7));
    score_is(s, 1, "9/ X 81 81");
    assert_int_equal(s->shot_count, 2); /* no shot came of them */
    assert_int_equal(s->shot_frame[1], 4);
    apply(s, (Entry){.kind = ENTRY_UNDO});
    apply(s, (Entry){.kind = ENTRY_UNDO});
    score_is(s, 1, "9/ X");
    apply(s, (Entry){.kind = ENTRY_REDO});
    score_is(s, 1, "9/ X 81");
    free(s);
}

/* The bowler finds at the sixth that the third was never entered. */
static void a_frame_told_late(void **state)
{
    (void)state;
    Session *s = begin(2);
    bowl(s, 0, 0);
    bowl(s, P(7), 0);
    bowl(s, P(10), P(10));
    bowl(s, 0, 0);
    Entry late = a_frame(s, 2, "72");
    late.lane = SIDE_LEFT;
    apply(s, late);
    score_is(s, 1, "X 9/ 72 9- X");
    assert_int_equal(s->shot_frame[1], 2);
    assert_int_equal(s->shot_frame[2], 4);
    assert_int_equal(s->told[0].frame, 3);
    assert_int_equal(s->told[0].before, 2);
    assert_int_equal(s->frame, 6);
    tell(s, "-/");
    score_is(s, 1, "X 9/ 72 9- X -/");
    apply(s, an_edit(0, "7/"));
    score_is(s, 1, "X 9/ 7/ 9- X -/");
    apply(s, an_edit(0, "")); /* there was no such frame after all */
    score_is(s, 1, "X 9/ 9- X -/");
    assert_int_equal(s->frame, 6);
    apply(s, (Entry){.kind = ENTRY_UNDO});
    score_is(s, 1, "X 9/ 7/ 9- X -/");
    free(s);
}

static Entry ahead_of(const Session *s, int number, const char *balls)
{
    Entry entry = a_frame(s, s->told[number].before, balls);
    entry.ahead = number + 1;
    return entry;
}

/* Frames that were forgotten between frames that nobody logged either. */
static void a_frame_ahead_of_a_told_one(void **state)
{
    (void)state;
    Session *s = begin(2);
    tell(s, "X");  /* 0 */
    tell(s, "9/"); /* 1 */
    bowl(s, 0, 0);
    tell(s, "81"); /* 2 */
    apply(s, ahead_of(s, 1, "72"));
    score_is(s, 1, "X 72 9/ X 81");
    assert_int_equal(s->told[3].frame, 2);
    assert_int_equal(s->told[1].frame, 3);
    apply(s, ahead_of(s, 1, "63")); /* between that and the spare */
    score_is(s, 1, "X 72 63 9/ X 81");
    apply(s, ahead_of(s, 0, "54")); /* the very first */
    apply(s, ahead_of(s, 2, "45")); /* after the last shot */
    score_is(s, 1, "54 X 72 63 9/ X 45 81");
    int order[SESSION_TOLD_MAX];
    assert_int_equal(session_told(s, 1, 0, order), 5);
    assert_int_equal(order[0], 5);
    assert_int_equal(order[3], 4);
    apply(s, an_edit(3, "7/"));
    score_is(s, 1, "54 X 7/ 63 9/ X 45 81");
    apply(s, an_edit(1, "")); /* what it was ahead of goes; it stays */
    score_is(s, 1, "54 X 7/ 63 X 45 81");
    refuse(s, ahead_of(s, 2, "9"), "a frame is written X, 9/, 81, -/ or F9");
    Entry wrong = ahead_of(s, 2, "X");
    wrong.index = 0;
    refuse(s, wrong, "no such frame");
    wrong.ahead = 7;
    refuse(s, wrong, "no such frame");
    tell(s, "X");
    tell(s, "X");
    tell(s, "9/X");
    refuse(s, ahead_of(s, 2, "X"), "that game has its ten frames");
    tell(s, "X"); /* the next game, and ahead of its first frame */
    apply(s, ahead_of(s, s->told_count - 1, "81"));
    score_is(s, 2, "81 X");
    for (int i = 0; i < 2; i++)
        apply(s, (Entry){.kind = ENTRY_UNDO});
    score_is(s, 1, "54 X 7/ 63 X 45 81 X X 9/X");
    free(s);
}

static void the_tenth(void **state)
{
    (void)state;
    static const char *const TENTHS[] = {"81",  "XXX", "XX9", "X81", "X9/",
                                         "9/X", "9/8", "F/X", "--"};
    for (size_t i = 0; i < sizeof TENTHS / sizeof *TENTHS; i++) {
        Session *s = begin(2);
        char sheet[64] = "";
        for (int frame = 1; frame <= 9; frame++)
            tell(s, "9-");
        refuse(s, a_frame(s, 0, "X"), "the tenth is written to its end: XX9, X81, 9/X or 81");
        refuse(s, a_frame(s, 0, "9/"), "the tenth is written to its end: XX9, X81, 9/X or 81");
        tell(s, TENTHS[i]);
        assert_true(s->game_over);
        snprintf(sheet, sizeof sheet, "9-9-9-9-9-9-9-9-9- %s", TENTHS[i]);
        score_is(s, 1, sheet);
        refuse(s, an_edit(9, "X"), "the tenth is written to its end: XX9, X81, 9/X or 81");
        refuse(s, an_edit(0, "XX9"), "a frame is written X, 9/, 81, -/ or F9");
        tell(s, "X"); /* the next game */
        assert_int_equal(s->game, 2);
        score_is(s, 2, "X");
        free(s);
    }
}

/* What is told of a tenth whose first balls were logged. */
static void the_rest_of_the_tenth(void **state)
{
    (void)state;
    static const struct {
        int strikes;
        bool spare;
        const char *good, *bad, *sheet;
    } CASES[] = {
        {1, false, "9/", "X", "X9/"}, {2, false, "8", "81", "XX8"}, {0, true, "X", "9/", "9/X"}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        Session *s = begin(1);
        char sheet[64];
        for (int frame = 1; frame <= 9; frame++)
            tell(s, "X");
        for (int k = 0; k < CASES[i].strikes; k++)
            bowl(s, 0, 0);
        if (CASES[i].spare)
            bowl(s, P(10), 0);
        refuse(s, a_frame(s, s->shot_count, CASES[i].bad),
               "the tenth is written to its end: XX9, X81, 9/X or 81");
        tell(s, CASES[i].good);
        snprintf(sheet, sizeof sheet, "XXXXXXXXX %s", CASES[i].sheet);
        score_is(s, 1, sheet);
        assert_true(s->game_over);
        refuse(s, a_frame(s, s->shot_count, "X"), "the last game is over");
        refuse(s, a_frame(s, 0, "X"), "that game has its ten frames");
        free(s);
    }
}

static void what_is_no_frame(void **state)
{
    (void)state;
    static const char *const BAD[] = {"",    "9", "10", "X9",   "55x", "9 /",     "//",
                                      "8:7", "x", "/",  "XXXX", "7s2", "\xc3\xa9"};
    Session *s = begin(1);
    for (size_t i = 0; i < sizeof BAD / sizeof *BAD; i++)
        refuse(s, a_frame(s, 0, BAD[i]), "a frame is written X, 9/, 81, -/ or F9");
    refuse(s, a_frame(s, 1, "X"), "no such shot");
    refuse(s, a_frame(s, -1, "X"), "no such shot");
    refuse(s, an_edit(0, "X"), "no such frame");
    free(s);
}

static void no_surface_changes_after_it(void **state)
{
    (void)state;
    Session *s = begin(1);
    s->event.certified = true;
    assert_true(session_surfaces_free(s));
    tell(s, "X");
    assert_false(session_surfaces_free(s));
    free(s);
}

/* USBC rule 5: a foul counts no pins, and all ten stand for the next ball. */
static void fouls(void **state)
{
    (void)state;
    Session *s = begin(1);
    Shot shot = a_shot(s, 0);
    shot.foul = true;
    assert_false(shot_strike(&shot));
    throw_shot(s, shot);
    score_is(s, 1, "F");
    shot.spare_said = true; /* all ten with the second ball */
    apply(s, (Entry){.kind = ENTRY_EDIT, .index = 0, .shot = shot});
    assert_true(shot_spare(&s->shots[0]));
    score_is(s, 1, "F/");
    bowl(s, P(7), 0);
    shot = a_shot(s, P(6) | P(10));
    shot.spare_said = shot.spare_foul = true;
    shot.spare_left = P(6) | P(10);
    throw_shot(s, shot);
    score_is(s, 1, "F/ 9/ 8F");
    shot.spare_left = P(10);
    refuse(s, (Entry){.kind = ENTRY_SHOT, .shot = shot}, "a foul counts no pins");
    free(s);
}

/* A foul in the tenth earns the second ball, and all ten with that a third. */
static void a_foul_in_the_tenth(void **state)
{
    (void)state;
    Session *s = begin(1);
    for (int frame = 1; frame <= 9; frame++)
        tell(s, "9-");
    Shot shot = a_shot(s, P(10));
    shot.foul = shot.spare_said = true;
    throw_shot(s, shot);
    assert_false(s->game_over);
    bowl(s, 0, 0);
    assert_true(s->game_over);
    score_is(s, 1, "9-9-9-9-9-9-9-9-9- F/X");
    free(s);
}

/* A random game, each frame of it either logged or told, in any order of entering. */
static void any_mixture_scores_as_the_sheet(void **state)
{
    (void)state;
    int told = 0, late = 0, ahead = 0;
    for (uint64_t seed = 0; seed < 200; seed++) {
        Rng rng = rng_seed(seed);
        Session *s = begin(1);
        char frames[9][24], sheet[256] = "";
        bool logged[9];
        int told_here = 0;
        for (int i = 0; i < 9; i++) {
            int first = (int)rng_between(&rng, 0.0, 11.0);
            int second = first < 10 ? (int)rng_between(&rng, 0.0, 11.0 - first) : 0;
            if (first == 10)
                snprintf(frames[i], sizeof frames[i], "X");
            else if (first + second == 10)
                snprintf(frames[i], sizeof frames[i], "%d/", first);
            else
                snprintf(frames[i], sizeof frames[i], "%d%d", first, second);
            if (strcmp(frames[i], "10") == 0) /* score.h asks what that means */
                snprintf(frames[i], sizeof frames[i], "1-");
            logged[i] = rng_uniform(&rng) < 0.5;
            strcat(sheet, frames[i]);
            strcat(sheet, " ");
        }
        for (int i = 0; i < 9; i++) {
            if (!logged[i])
                continue;
            int first = frames[i][0] == 'X' ? 10 : frames[i][0] - '0';
            int second = frames[i][1] == '/'   ? 10 - first
                         : frames[i][1] >= '0' ? frames[i][1] - '0'
                                               : 0;
            Pins left = (Pins)(PINS_ALL << first & PINS_ALL);
            bowl(s, left, (Pins)(PINS_ALL << (first + second) & PINS_ALL));
        }
        int number[9], order[9];
        for (int i = 0; i < 9; i++) {
            number[i] = -1;
            order[i] = i;
        }
        for (int i = 8; i > 0; i--) { /* in any order of entering */
            int other = (int)rng_between(&rng, 0.0, i + 1.0), swap = order[i];
            order[i] = order[other];
            order[other] = swap;
        }
        for (int k = 0; k < 9; k++) {
            int i = order[k], before = 0, next = i + 1;
            if (logged[i])
                continue;
            for (int j = 0; j < i; j++)
                before += logged[j];
            while (next < 9 && !logged[next] && number[next] < 0)
                next++;
            Entry entry = a_frame(s, before, frames[i]);
            if (next < 9 && !logged[next])
                entry.ahead = number[next] + 1;
            entry.lane = i % 2 ? SIDE_RIGHT : SIDE_LEFT;
            ahead += entry.ahead > 0;
            late += before < s->shot_count;
            number[i] = told_here++;
            apply(s, entry);
        }
        told += told_here;
        score_is(s, 1, sheet);
        assert_int_equal(session_frames(s, 1), 9);
        assert_int_equal(s->frame, 10);
        free(s);
    }
    assert_true(told > 500 && late > 200 && ahead > 200);
}

/* A part of the event like any other: kept, taken back, and no lane is the wiser. */
static Entry through_a_journal(const Entry *entry);
static void a_score_to_aim_for(void **state)
{
    (void)state;
    Session *s = begin(2);
    Side lane = s->lane;
    Entry target = {.kind = ENTRY_TARGET, .index = 210};
    Entry read = through_a_journal(&target);
    assert_int_equal(read.kind, ENTRY_TARGET);
    assert_int_equal(read.index, 210);
    apply(s, read);
    assert_int_equal(s->target, 210);
    assert_int_equal(s->lane, lane);
    bowl(s, 0, 0);
    target.index = 220;
    apply(s, target);
    apply(s, a_frame(s, 0, "9/")); /* the state is computed again */
    assert_int_equal(s->target, 220);
    for (int i = 0; i < 2; i++)
        apply(s, (Entry){.kind = ENTRY_UNDO});
    assert_int_equal(s->target, 210);
    target.index = 301;
    refuse(s, target, "a score to aim for: 1 to 300, or 0 for none");
    target.index = 0;
    apply(s, target);
    assert_int_equal(s->target, 0);
    free(s);
}

static Entry through_a_journal(const Entry *entry)
{
    int number;
    Entry read;
    Error fault = {.line = 1};
    char *line = journal_entry_line(7, entry);
    assert_non_null(line);
    if (!journal_entry_read(line, strlen(line) - 1, &number, &read, &fault))
        fail_msg("%s", fault.text);
    assert_int_equal(number, 7);
    free(line);
    return read;
}

static void journal_lines(void **state)
{
    (void)state;
    Entry frame = {.kind = ENTRY_FRAME, .lane = SIDE_RIGHT, .index = 3, .balls = "9/"};
    Entry read = through_a_journal(&frame);
    assert_int_equal(read.kind, ENTRY_FRAME);
    assert_int_equal(read.lane, SIDE_RIGHT);
    assert_int_equal(read.index, 3);
    assert_string_equal(read.balls, "9/");
    assert_int_equal(read.ahead, 0);
    frame.ahead = 12;
    assert_int_equal(through_a_journal(&frame).ahead, 12);
    read = through_a_journal(&(Entry){.kind = ENTRY_FRAME_EDIT, .index = 2});
    assert_int_equal(read.kind, ENTRY_FRAME_EDIT);
    assert_string_equal(read.balls, "");
    Shot shot = {.slot = 1,
                 .hit = HIT_LIGHT,
                 .left_said = true,
                 .foul = true,
                 .spare_said = true,
                 .spare_left = PINS_ALL,
                 .spare_foul = true};
    read = through_a_journal(&(Entry){.kind = ENTRY_SHOT, .shot = shot});
    assert_true(read.shot.foul && read.shot.spare_foul);
    assert_int_equal(read.shot.spare_left, PINS_ALL);
    char *line =
        journal_entry_line(1, &(Entry){.kind = ENTRY_SHOT, .shot = {.slot = 1, .hit = HIT_LIGHT}});
    assert_null(strstr(line, "foul")); /* as before where there was none */
    free(line);
}

/* A journal that lost some shots: the frame comes after those that are left. */
static void shots_before_it_were_lost(void **state)
{
    (void)state;
    Session *s = begin(1);
    Entry entry = a_frame(s, 5, "X");
    assert_true(session_restore(s, &entry));
    assert_int_equal(s->told[0].before, 0);
    score_is(s, 1, "X");
    entry.ahead = 5; /* and so were frames that it came before */
    assert_true(session_restore(s, &entry));
    score_is(s, 1, "X X");
    free(s);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frames_between_shots),
        cmocka_unit_test(a_frame_told_late),
        cmocka_unit_test(a_frame_ahead_of_a_told_one),
        cmocka_unit_test(the_tenth),
        cmocka_unit_test(the_rest_of_the_tenth),
        cmocka_unit_test(what_is_no_frame),
        cmocka_unit_test(no_surface_changes_after_it),
        cmocka_unit_test(fouls),
        cmocka_unit_test(a_foul_in_the_tenth),
        cmocka_unit_test(any_mixture_scores_as_the_sheet),
        cmocka_unit_test(a_score_to_aim_for),
        cmocka_unit_test(journal_lines),
        cmocka_unit_test(shots_before_it_were_lost),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
