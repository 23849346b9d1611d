/* Spares in an event's log: frames, fill balls of the tenth, the score that follows, and journal
 * lines with and without them. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/event/session.h"
#include "store/journal_line.h"
#include "store/journal_tale.h"

#define P(n) pin_bit(n)

static Session *begin(void)
{
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    EventInfo event = {.id = "day", .games = 3, .pair = {11, 12}, .bowlers_on_pair = 4};
    Bag bag = {.bowler = bowler_default(), .count = 1};
    bag.balls[0] = ball_default();
    bag.balls[0].slot = 1;
    Pattern pattern = {.length_ft = 40.0};
    Plan first = {.slot = 1, .stance = 26.0, .aim = 15.0};
    session_begin(session, &event, &bag, &pattern, &first);
    return session;
}

static void apply(Session *session, Entry entry)
{
    const char *refused = session_refuses(session, &entry);
    if (refused)
        fail_msg("refused: %s", refused);
    assert_true(session_apply(session, &entry));
}

static void ball(Session *session, Pins left)
{
    Shot shot = {.lane = session->lane, .slot = 1, .left_said = true, .left = left};
    apply(session, (Entry){.kind = ENTRY_SHOT, .shot = shot});
}

/* What the spare ball left, of the last shot. */
static void spare(Session *session, Pins left)
{
    int last = session->shot_count - 1;
    Entry entry = {.kind = ENTRY_EDIT, .index = last, .shot = session->shots[last]};
    entry.shot.spare_said = true;
    entry.shot.spare_left = left;
    apply(session, entry);
}

static Score scored(const Session *session, int game)
{
    Score score;
    assert_true(session_score(session, game, &score));
    return score;
}

static void test_score_follows(void **state)
{
    (void)state;
    Session *s = begin();
    assert_int_equal(scored(s, 1).best, 300);
    ball(s, 0);
    ball(s, P(4) | P(7));
    Score score = scored(s, 1);
    assert_int_equal(score.pins_so_far, 10 + 8 + 8);
    assert_int_equal(score.standing, 2);
    assert_true(s->shot_second[1]);
    assert_false(s->shot_second[0]);
    spare(s, P(7));
    score = scored(s, 1);
    assert_int_equal(score.total, 19 + 9);
    ball(s, P(10));
    spare(s, 0);
    score = scored(s, 1);
    assert_int_equal(score.total, 28);
    assert_int_equal(score.pins_so_far, 38);
    assert_int_equal(score.best, 28 + 20 + 6 * 30 + 30);
    apply(s, (Entry){.kind = ENTRY_UNDO}); /* of the spare: the pin may still be made */
    assert_int_equal(scored(s, 1).standing, 1);
    apply(s, (Entry){.kind = ENTRY_REDO});
    assert_int_equal(scored(s, 1).pins_so_far, 38);
    free(s);
}

static void test_what_is_not_known(void **state)
{
    (void)state;
    Session *s = begin();
    Score score;
    ball(s, P(10));
    ball(s, 0); /* the spare of the first frame was never said */
    assert_false(session_score(s, 1, &score));
    assert_int_equal(score.ball_count, 1);
    Entry late = {.kind = ENTRY_EDIT, .index = 0, .shot = s->shots[0]};
    late.shot.spare_said = true;
    apply(s, late);
    assert_int_equal(scored(s, 1).total, 20);
    Shot unseen = {.lane = s->lane, .slot = 1, .hit = HIT_HIGH};
    apply(s, (Entry){.kind = ENTRY_SHOT, .shot = unseen});
    assert_false(session_score(s, 1, &score));
    free(s);
}

static void nine_frames(Session *s)
{
    for (int frame = 1; frame <= 9; frame++) {
        ball(s, P(10));
        spare(s, P(10));
    }
    assert_int_equal(s->frame, 10);
}

/* Tenth frame: a spare earns one ball, a strike two; the third ball has no spare of its own. */
static void test_tenth(void **state)
{
    (void)state;
    Session *s = begin();
    nine_frames(s);
    ball(s, P(10));
    assert_true(s->game_over);
    spare(s, 0); /* said after: the fill ball is still to come */
    assert_false(s->game_over);
    assert_int_equal(s->game, 1);
    assert_true(s->last_ball);
    ball(s, P(7) | P(10));
    assert_true(s->game_over);
    assert_false(s->shot_second[s->shot_count - 1]);
    assert_int_equal(scored(s, 1).total, 81 + 18);

    ball(s, 0); /* the next game */
    assert_int_equal(s->game, 2);
    free(s);

    s = begin();
    nine_frames(s);
    ball(s, 0);
    ball(s, P(10));
    assert_true(s->shot_second[s->shot_count - 1]);
    spare(s, 0);
    assert_true(s->game_over);
    assert_int_equal(scored(s, 1).total, 81 + 20);
    free(s);

    s = begin();
    nine_frames(s);
    ball(s, 0);
    ball(s, 0);
    assert_true(s->last_ball);
    ball(s, P(10));
    assert_true(s->game_over);
    assert_int_equal(scored(s, 1).total, 81 + 29);
    free(s);
}

static void test_refused(void **state)
{
    (void)state;
    Session *s = begin();
    ball(s, P(4));
    Entry entry = {.kind = ENTRY_EDIT, .shot = s->shots[0]};
    entry.shot.spare_said = true;
    entry.shot.spare_left = P(7);
    assert_string_equal(session_refuses(s, &entry), "a pin stands that was not left");
    entry.shot.left = entry.shot.spare_left = 0;
    assert_string_equal(session_refuses(s, &entry), "nothing was left to spare");
    free(s);
}

/* Through a journal's lines and back; lines of a program that knew no spares are read as ever. */
static void test_journal(void **state)
{
    (void)state;
    Session *s = begin(), *back = begin();
    ball(s, P(4) | P(7));
    spare(s, P(4));
    ball(s, P(10));
    spare(s, 0);
    char text[4096] = "";
    char *line = journal_header_line(&(JournalHead){.event = "spares"});
    strcat(text, line);
    free(line);
    for (int i = 0; i < s->entry_count; i++) {
        line = journal_entry_line(i + 1, &s->entries[i]);
        strcat(text, line);
        free(line);
    }
    assert_non_null(strstr(text, "\"spare\":[4]"));
    assert_non_null(strstr(text, "\"spare\":[]"));
    JournalTale tale;
    journal_tell(text, strlen(text), back, &tale);
    assert_int_equal(tale.entries, 4);
    assert_false(tale.bad || tale.torn);
    journal_tale_free(&tale);
    assert_int_equal(back->shot_count, 2);
    assert_true(back->shots[0].spare_said && back->shots[0].spare_left == P(4));
    assert_true(shot_spare(&back->shots[1]));
    assert_int_equal(scored(back, 1).pins_so_far, scored(s, 1).pins_so_far);

    Entry plain = s->entries[0]; /* without the field: as it was written before there was one */
    line = journal_entry_line(1, &plain);
    assert_null(strstr(line, "spare"));
    free(line);
    free(s);
    free(back);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_score_follows), cmocka_unit_test(test_what_is_not_known),
        cmocka_unit_test(test_tenth),         cmocka_unit_test(test_refused),
        cmocka_unit_test(test_journal),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
