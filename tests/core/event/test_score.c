/* The score of a game: the governing bodies' own sheets, every rule of the tenth frame, what is
 * refused, and what a target asks for. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/rng.h"
#include "core/event/score.h"

static Score game(const char *text)
{
    Score score = score_begin();
    char why[160];
    if (!score_read(&score, text, why, sizeof why))
        fail_msg("'%s': %s", text, why);
    return score;
}

static void totals_are(const char *text, const int totals[SCORE_FRAMES])
{
    Score score = game(text);
    assert_true(score.over);
    assert_int_equal(score.frame_count, SCORE_FRAMES);
    for (int i = 0; i < SCORE_FRAMES; i++)
        if (score.frames[i].total != totals[i])
            fail_msg("'%s': frame %d is %d, expected %d", text, i + 1, score.frames[i].total,
                     totals[i]);
    assert_int_equal(score.total, totals[SCORE_FRAMES - 1]);
    assert_int_equal(score.best, score.total);
    assert_int_equal(score.pins_so_far, score.total);
}

/* The IBF rulebook's own sheet, with a foul and a split in it (text), and the Scottish edition
 * with a 7 for its last ball (page). */
static void test_rulebook_sheet(void **state)
{
    (void)state;
    static const int SHEET[] = {30, 57, 76, 85, 95, 104, 124, 143, 152, 180};
    static const int SCOTTISH[] = {30, 57, 76, 85, 95, 104, 124, 143, 152, 179};
    totals_are("X X X 7 2 8s / F 9 X 7 / 9 - X X 8", SHEET);
    totals_are("X X X 7 2 8:7-10 / F 9 X 7 / 9 - X X 7", SCOTTISH);
    totals_are("XXX72 8:0-7/ f9 x7/9-xx8", SHEET); /* however it is spaced */
    Score score = game("X X X 7 2 8s / F 9 X 7 / 9 - X X 8");
    for (int i = 0; i < SCORE_FRAMES; i++)
        assert_int_equal(score.frames[i].split, i == 4);
    assert_true(score.frames[4].spare);
    assert_true(score.balls[score.frames[5].first].foul);
    assert_int_equal(score.frames[5].score, 9);
}

/* USBC rules 2a to 2g and the arithmetic of them (text): the round games. */
static void test_round_games(void **state)
{
    (void)state;
    assert_int_equal(game("XXXXXXXXXXXX").total, 300);
    assert_int_equal(game("9- 9- 9- 9- 9- 9- 9- 9- 9- 9-").total, 90);
    assert_int_equal(game("5/ 5/ 5/ 5/ 5/ 5/ 5/ 5/ 5/ 5/ 5").total, 150);
    assert_int_equal(game("X 9/ X 9/ X 9/ X 9/ X 9/ X").total,
                     200); /* strikes and spares in turn */
    assert_int_equal(game("5/ X 5/ X 5/ X 5/ X 5/ X 5/").total, 200);
    assert_int_equal(game("-- -- -- -- -- -- -- -- -- --").total, 0);
    assert_int_equal(game("FF FF FF FF FF FF FF FF FF FF").total, 0);
}

/* A worked game well known among programmers (page). */
static void test_another_sheet(void **state)
{
    (void)state;
    static const int SHEET[] = {5, 14, 29, 49, 60, 61, 77, 97, 117, 133};
    totals_are("1 4 4 5 6 / 5 / X 0 1 7 / 6 / X 2 / 6", SHEET);
}

/* Until the balls that decide it have been thrown, a frame has no score. */
static void test_undecided(void **state)
{
    (void)state;
    Score score = game("X");
    assert_int_equal(score.frames[0].total, SCORE_UNKNOWN);
    assert_true(score.frames[0].done);
    assert_int_equal(score.total, 0);
    assert_int_equal(score.pins_so_far, 10);
    assert_int_equal(score.best, 300);
    assert_int_equal(score.frame, 2);
    score = game("X 7");
    assert_int_equal(score.frames[0].total, SCORE_UNKNOWN);
    assert_int_equal(score.standing, 3);
    assert_int_equal(score.ball, 2);
    score = game("X 7 /");
    assert_int_equal(score.frames[0].total, 20);
    assert_int_equal(score.frames[1].total, SCORE_UNKNOWN);
    assert_int_equal(score.total, 20);
    assert_int_equal(score.best, 20 + 20 + 8 * 30);
    score = game("9-");
    assert_int_equal(score.frames[0].total, 9);
    assert_int_equal(score.best, 279);
    score = score_begin();
    assert_int_equal(score.best, 300);
    assert_int_equal(score.frame, 1);
    assert_int_equal(score.standing, 10);
}

static void test_tenth(void **state)
{
    (void)state;
    const char *nine = "9- 9- 9- 9- 9- 9- 9- 9- 9- ";
    static const struct {
        const char *tenth;
        int total;
        bool over;
    } CASES[] = {{"8 1", 90, true},    {"8 /", 81, false},   {"8 / 7", 98, true},
                 {"X", 81, false},     {"X X", 81, false},   {"X X X", 111, true},
                 {"X 8 1", 100, true}, {"X 8 /", 101, true}, {"X 8", 81, false},
                 {"- / X", 101, true}, {"F / 3", 94, true},  {"X F /", 101, true},
                 {"X X -", 101, true}, {"- -", 81, true}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char text[80];
        snprintf(text, sizeof text, "%s%s", nine, CASES[i].tenth);
        Score score = game(text);
        if (score.over != CASES[i].over || score.total != CASES[i].total)
            fail_msg("%s: %d %s", CASES[i].tenth, score.total, score.over ? "over" : "not over");
    }
}

static void refuses(const char *text, const char *says)
{
    Score score = score_begin();
    char why[160];
    if (score_read(&score, text, why, sizeof why))
        fail_msg("'%s' was taken", text);
    if (!strstr(why, says))
        fail_msg("'%s': '%s' does not say '%s'", text, why, says);
}

static void test_refused(void **state)
{
    (void)state;
    refuses("7 4", "frame 1, ball 2: 4 pins, but only 3 stand");
    refuses("X 9 2", "frame 2, ball 2: 2 pins, but only 1 stands");
    refuses("X X X X X X X X X X X X X", "a ball too many");
    refuses("9- 9- 9- 9- 9- 9- 9- 9- 9- 9- 1", "a ball too many");
    refuses("9- 9- 9- 9- 9- 9- 9- 9- 9- 9- /", "a ball too many");
    refuses("9- 9- 9- 9- 9- 9- 9- 9- 9- X 4 7", "frame 10, ball 3: 7 pins, but only 6 stand");
    refuses("/", "frame 1, ball 1");
    refuses("X /", "this is a first ball");
    refuses("9- 9- 9- 9- 9- 9- 9- 9- 9- X /", "this is a first ball");
    refuses("7 X", "cleared with /");
    refuses("10", "write X");
    refuses("8 q", "'q'");
    refuses("8:7-11 /", "behind a colon");
    refuses("8:7 /", "leave 2, not 1");
    refuses("8: /", "behind a colon");
    Score score = score_begin();
    char why[160];
    assert_false(score_add(&score, (ScoreBall){.pins = 11}, why, sizeof why));
    assert_non_null(strstr(why, "there are ten"));
    assert_false(score_add(&score, (ScoreBall){.pins = -1}, why, sizeof why));
    assert_false(score_add(&score, (ScoreBall){.pins = 3, .foul = true}, why, sizeof why));
    assert_non_null(strstr(why, "foul"));
    assert_int_equal(score.ball_count, 0);
}

static void test_splits(void **state)
{
    (void)state;
    assert_true(game("8:7-10").frames[0].split);
    assert_true(game("8:0-7").frames[0].split);
    assert_false(game("7:1,2,10").frames[0].split); /* a washout */
    assert_false(game("8:3-6").frames[0].split);
    assert_true(game("8S").frames[0].split);
    assert_false(game("7:1-7-10 1:7-10").frames[0].split); /* of first balls only */
}

/* The same pins seen as sets: what a bowler logs. */
static void test_balls_of_leaves(void **state)
{
    (void)state;
    ScoreBall first = score_ball_of(PINS_ALL, (Pins)(pin_bit(3) | pin_bit(10)));
    assert_int_equal(first.pins, 8);
    ScoreBall second = score_ball_of(first.left, pin_bit(10));
    assert_int_equal(second.pins, 1);
    assert_int_equal(score_ball_of(PINS_ALL, 0).pins, 10);
    Score score = score_begin();
    char why[160];
    assert_true(score_add(&score, first, why, sizeof why));
    assert_true(score_add(&score, second, why, sizeof why));
    assert_true(score.frames[0].split);
    assert_int_equal(score.total, 9);
}

static void test_written_back(void **state)
{
    (void)state;
    const char *text = "X|X|X|72|8s/|F9|X|7/|9-|XX8";
    Score score = game(text);
    char out[64] = "", ball[8];
    for (int i = 0; i < score.frame_count; i++) {
        if (i)
            strcat(out, "|");
        for (int k = 0; k < score.frames[i].balls; k++) {
            score_ball_words(&score, score.frames[i].first + k, ball, sizeof ball);
            strcat(out, ball);
        }
    }
    assert_string_equal(out, text);
}

/* Any game the rules allow: the running total never falls, the best possible never rises, the pins
 * so far end as the total, and the two ways to compute the score agree. */
static void test_random_games(void **state)
{
    (void)state;
    Rng rng = rng_seed(7);
    for (int n = 0; n < 20000; n++) {
        Score score = score_begin();
        char why[160];
        int total = 0, best = 300;
        while (!score.over) {
            int pins = (int)(rng_uniform(&rng) * (score.standing + 1));
            if (rng_uniform(&rng) < 0.4)
                pins = score.standing;
            assert_true(score_add(&score, (ScoreBall){.pins = pins}, why, sizeof why));
            assert_true(score.total >= total && score.best <= best);
            assert_true(score.pins_so_far >= score.total && score.pins_so_far <= score.best);
            total = score.total;
            best = score.best;
        }
        assert_int_equal(score.total, score.pins_so_far);
        assert_int_equal(score.total, score.best);
        assert_in_range(score.ball_count, 11, SCORE_BALLS_MAX);
    }
}

static void need_is(const char *text, int target, int strikes, int spares)
{
    Score score = game(text);
    ScoreNeed need = score_need(&score, target);
    if (!need.possible || need.strikes != strikes || need.spares != spares)
        fail_msg("'%s' for %d: %s", text, target, need.words);
    /* the way it names does reach the target, and then ends */
    char why[160];
    Score on = score;
    assert_true(score_read(&on, need.way, why, sizeof why));
    assert_true(on.pins_so_far >= target);
    on = score;
    if (need.way[0])
        need.way[strlen(need.way) - 1] = '\0'; /* its last ball */
    assert_true(score_read(&on, need.way, why, sizeof why));
    assert_true(!need.way[0] || on.pins_so_far < target);
}

static void test_targets(void **state)
{
    (void)state;
    need_is("", 300, 12, 0);
    need_is("", 90, 0, 0);
    need_is("", 91, 0, 1);
    need_is("9- 9- 9- 9- 9- 9- 9- 9- 9- 9", 82, 0, 0);
    need_is("9- 9- 9- 9- 9- 9- 9- 9- 9- 9", 91, 0, 1);
    need_is("X X X X X X X X X", 300, 3, 0);
    need_is("X X X X X X X X X X X", 299, 0, 0);      /* nine is enough */
    need_is("9- 9- 9- 9- 9- 9- 9- 9- 9-", 101, 1, 1); /* X 9/ */
    need_is("9- 9- 9- 9- 9- 9- 9- 9- 9-", 100, 0, 1); /* 9/ 9 is 100 */
    need_is("9- 9- 9- 9- 9- 9- 9- 9- 9-", 110, 2, 0); /* X X 9 */
    Score score = game("9-");
    ScoreNeed need = score_need(&score, 280);
    assert_false(need.possible);
    assert_non_null(strstr(need.words, "279 is the best"));
    score = game("XXX");
    need = score_need(&score, 20);
    assert_true(need.possible);
    assert_int_equal(need.marks, 0);
    assert_non_null(strstr(need.words, "already"));
    score = game("9- 9- 9- 9- 9- 9- 9- 9- 9-");
    assert_string_equal(score_need(&score, 110).words,
                        "110: two strikes at the least, the rest nines: X X 9, for one");
}

/* No way with fewer marks reaches it, checked by trying every game of the last three frames. */
static int fewest_marks(const Score *score, int target)
{
    if (score->pins_so_far >= target)
        return 0;
    if (score->over)
        return 99;
    int best = 99;
    for (int miss = 0; miss < 2; miss++) {
        Score on = *score;
        char why[160];
        assert_true(score_add(&on, (ScoreBall){.pins = score->standing - miss}, why, sizeof why));
        int marks = !miss + fewest_marks(&on, target);
        if (marks < best)
            best = marks;
    }
    return best;
}

static void test_targets_by_trying_all(void **state)
{
    (void)state;
    static const char *const STARTS[] = {"9- 9- 9- 9- 9- 9- 9-", "X X X X X X X",
                                         "9/ 9/ 9/ 9/ 9/ 9/ 9/", "9/ 9/ 9/ 9/ X X X 7"};
    for (size_t i = 0; i < sizeof STARTS / sizeof *STARTS; i++) {
        Score score = game(STARTS[i]);
        for (int target = score.total; target <= score.best; target++) {
            ScoreNeed need = score_need(&score, target);
            assert_true(need.possible);
            assert_int_equal(need.marks, fewest_marks(&score, target));
            assert_int_equal(need.marks, need.strikes + need.spares);
        }
        assert_false(score_need(&score, score.best + 1).possible);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_rulebook_sheet), cmocka_unit_test(test_round_games),
        cmocka_unit_test(test_another_sheet),  cmocka_unit_test(test_undecided),
        cmocka_unit_test(test_tenth),          cmocka_unit_test(test_refused),
        cmocka_unit_test(test_splits),         cmocka_unit_test(test_balls_of_leaves),
        cmocka_unit_test(test_written_back),   cmocka_unit_test(test_random_games),
        cmocka_unit_test(test_targets),        cmocka_unit_test(test_targets_by_trying_all),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
