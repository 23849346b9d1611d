/* test_ranking.c - which of a few written forecasts comes first, and in which words. The forecasts
 * are made up; what must follow from them is in docs/advice.md and ranking.h, in the order of more
 * and less, not in numbers. */
#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "core/advice/ranking.h"
#include "helper_demo.h"

static Setting SETTING;
static Votes VOTES;
static Restraint RESTRAINT;
static RuleSet ASKS; /* rule 0 says move in, rule 1 hold */
static Advice OUT;

/* A plan like the one now; its hit on the best board of the pocket. */
typedef struct Told {
    Candidate candidate;
    Line line;
    Outlook outlook;
} Told;

static Told told(AdjustmentKind kind, double strike, double board)
{
    return (Told){
        .candidate = {.kind = kind, .plan = SETTING.plan},
        .line = {.found = true, .entry_board = board, .breakpoint_board = 8.0, .margin_in = 1.0},
        .outlook = {.pocket = 0.6,
                    .strike = strike,
                    .pinfall = 9.0,
                    .board = board,
                    .board_sd = 1.0,
                    .degrees = 5.0}};
}

static Told move(AdjustmentKind kind, double strike, double board)
{
    Told move = told(kind, strike, board);
    double step = ADJUSTMENTS[kind].step;
    if (ADJUSTMENTS[kind].changes == CHANGE_FEET)
        move.candidate.plan.stance += step, move.candidate.plan.aim += 0.5 * step;
    if (ADJUSTMENTS[kind].changes == CHANGE_EYES)
        move.candidate.plan.aim += step;
    if (ADJUSTMENTS[kind].changes == CHANGE_ROTATION)
        move.candidate.plan.rotation_change_deg += step;
    return move;
}

static int set_up(void **state)
{
    (void)state;
    static const Rule MOVE = {
        .id = "move", .try_count = 1, .try_ = {ADJUST_MOVE_IN}, .weight = 3, .because = "Move in."};
    static const Rule WAIT = {
        .id = "wait", .try_count = 1, .try_ = {ADJUST_HOLD}, .weight = 3, .because = "Wait."};
    SETTING = setting_of(&BAG, 1);
    memset(&VOTES, 0, sizeof VOTES);
    memset(&OUT, 0, sizeof OUT);
    RESTRAINT = (Restraint){.thrown = 8, .seen_board = NAN};
    ASKS.count = 2;
    ASKS.rules[0] = MOVE;
    ASKS.rules[1] = WAIT;
    return 0;
}

static void begin_with(Ranking *ranking, Told now)
{
    ranking_begin(ranking, &SETTING, &VOTES, &ASKS, &RESTRAINT, &now.outlook, &now.line);
}

static void take(Ranking *ranking, Told tried)
{
    ranking_take(ranking, &tried.candidate, &tried.line, &tried.outlook);
}

static void asked_for(AdjustmentKind kind, int rule, double vote)
{
    VOTES.vote[kind] = vote;
    VOTES.rule_count[kind] = 1;
    VOTES.rule[kind][0] = rule;
}

static const Adjustment *answer_of(AdjustmentKind kind)
{
    for (int i = 0; i < OUT.adjustment_count; i++)
        if (OUT.adjustments[i].kind == kind && OUT.adjustments[i].with == ADJUST_HOLD)
            return &OUT.adjustments[i];
    return NULL;
}

static void holding_is_always_an_answer(void **state)
{
    (void)state;
    Ranking ranking;
    Told nowhere = told(ADJUST_HOLD, 0.0, NAN);
    begin_with(&ranking, nowhere);
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 1);
    assert_int_equal(OUT.adjustments[0].kind, ADJUST_HOLD);
    assert_string_equal(OUT.adjustments[0].hits, "");
    assert_string_equal(OUT.adjustments[0].because, "Nothing asks for a change.");
    assert_near(OUT.adjustments[0].hit_boards, 0.0, 0.0);
    assert_true(plan_same(&OUT.adjustments[0].plan, &SETTING.plan));

    begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 1);
    assert_near(OUT.adjustments[0].strike_now, 0.4, 0.0);
    assert_near(OUT.adjustments[0].strike_after, 0.4, 0.0);
    assert_false(OUT.adjustments[0].disagrees);
}

/* The half boards that a bowler sees, and which way. */
static void says_where_it_hits(void **state)
{
    (void)state;
    static const struct {
        double from, to;
        const char *says;
    } HITS[] = {{17.5, 17.6, "hits about where it does now"},
                {17.5, 18.0, "hits about half a board higher"},
                {18.0, 17.5, "hits about half a board lighter"},
                {18.5, 17.5, "hits about 1 board lighter"},
                {16.0, 17.5, "hits about 1.5 boards higher"},
                {19.5, 17.5, "hits about 2 boards lighter"},
                {12.9, 17.5, "comes back to the head pin"},
                {27.1, 17.5, "comes back to the head pin"},
                {NAN, 17.5, "comes back to the head pin"}};
    for (size_t i = 0; i < sizeof HITS / sizeof *HITS; i++) {
        Ranking ranking;
        begin_with(&ranking, told(ADJUST_HOLD, 0.1, HITS[i].from));
        take(&ranking, move(ADJUST_MOVE_IN, 0.6, HITS[i].to));
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustment_count, 2);
        const Adjustment *in = answer_of(ADJUST_MOVE_IN);
        assert_string_equal(in->hits, HITS[i].says);
        assert_string_equal(answer_of(ADJUST_HOLD)->hits, "");
        bool misses = HITS[i].says[0] == 'c';
        assert_near(in->hit_boards, misses ? 0.0 : HITS[i].to - HITS[i].from, 1e-12);
    }
}

static double score_when(Told change)
{
    Ranking ranking;
    begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
    take(&ranking, change);
    ranking_write(&ranking, &OUT);
    assert_non_null(answer_of(change.candidate.kind));
    return answer_of(change.candidate.kind)->score;
}

/* More strikes, more pins, more room are worth more; room past four boards is not, nor is a
 * breakpoint farther in than the fifth board. Nearer the gutter is worth less, and beyond the
 * second board it is no answer. */
static void what_is_worth_more(void **state)
{
    (void)state;
    Told usual = move(ADJUST_MOVE_IN, 0.5, 17.5), other = usual;
    double plain = score_when(usual);
    other.outlook.strike = 0.51;
    assert_less(plain, score_when(other));
    other = usual;
    other.outlook.pinfall = 9.1;
    assert_less(plain, score_when(other));
    SETTING.need = NEED_STRIKE; /* then pins alone are worth nothing */
    assert_near(score_when(other), score_when(usual), 1e-12);
    SETTING.need = NEED_SCORE;

    double last = -1.0;
    for (int half = 0; half <= 8; half++) {
        other = usual;
        other.line.margin_in = 0.2 * half;
        other.line.margin_out = 0.3 * half;
        double score = score_when(other);
        assert_less(last, score);
        last = score;
    }
    other.line.margin_in = 5.0;
    assert_near(score_when(other), last, 1e-12); /* 4 boards and 9 */

    other = usual;
    for (double board = 5.0; board <= 20.0; board += 2.5) {
        other.line.breakpoint_board = board;
        assert_near(score_when(other), plain, 1e-12);
    }
    last = plain;
    for (double board = 4.5; board >= 2.0; board -= 0.5) {
        other.line.breakpoint_board = board;
        double score = score_when(other);
        assert_less(score, last);
        last = score;
    }
    Ranking ranking;
    begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
    other.line.breakpoint_board = 1.99;
    take(&ranking, other);
    other = usual;
    other.line.entry_board = NAN;
    take(&ranking, other);
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 1);
}

/* Of one adjustment the best is kept, whichever was tried first; a hit near the pocket before one
 * that is not. */
static void the_best_of_its_kind(void **state)
{
    (void)state;
    for (int first = 0; first < 3; first++) {
        Ranking ranking;
        begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
        for (int i = 0; i < 3; i++)
            take(&ranking, move(ADJUST_MOVE_IN, 0.5 + 0.1 * ((first + i) % 3), 17.5));
        take(&ranking, move(ADJUST_MOVE_IN, 0.9, 19.5)); /* two boards farther off */
        ranking_write(&ranking, &OUT);
        assert_near(answer_of(ADJUST_MOVE_IN)->strike_after, 0.7, 1e-12);
        Single singles[ADJUST_COUNT];
        assert_int_equal(ranking_singles(&ranking, singles), 2);
        assert_int_equal(singles[0].candidate.kind, ADJUST_HOLD);
        assert_int_equal(singles[1].candidate.kind, ADJUST_MOVE_IN);
        assert_near(singles[1].score, answer_of(ADJUST_MOVE_IN)->score, 0.0);
    }
}

/* What the rules ask for counts a little, what nobody asks for must gain more; and each answer says
 * whose word it is. */
static void a_vote_counts(void **state)
{
    (void)state;
    Told change = move(ADJUST_MOVE_IN, 0.5, 17.5);
    double unasked = score_when(change);
    assert_string_equal(answer_of(ADJUST_MOVE_IN)->because,
                        "The numbers like it; the usual rules don't say so.");
    asked_for(ADJUST_MOVE_IN, 0, 0.2);
    double little = score_when(change);
    assert_string_equal(answer_of(ADJUST_MOVE_IN)->because, "Move in.");
    asked_for(ADJUST_MOVE_IN, 0, 0.9);
    double much = score_when(change);
    assert_less(unasked, little);
    assert_less(little, much);
    assert_near(answer_of(ADJUST_MOVE_IN)->vote, 0.9, 0.0);
    assert_string_equal(
        answer_of(ADJUST_HOLD)->because,
        "Hold only if you doubt what you saw: the usual rules would change something.");
    assert_int_equal(OUT.adjustments[0].kind, ADJUST_MOVE_IN);
    assert_false(OUT.adjustments[0].disagrees);

    /* asked for and losing: it stays in sight, and says that the numbers are against it */
    change.outlook.strike = 0.3;
    score_when(change);
    assert_int_equal(OUT.adjustments[0].kind, ADJUST_HOLD);
    assert_string_equal(OUT.adjustments[0].because,
                        "Hold: the usual rules ask for a change, but the numbers do not.");
    assert_int_equal(OUT.adjustments[1].kind, ADJUST_MOVE_IN);
    assert_true(OUT.adjustments[1].disagrees);

    memset(&VOTES, 0, sizeof VOTES);
    score_when(change);
    assert_string_equal(answer_of(ADJUST_MOVE_IN)->because,
                        "Neither the rules nor the numbers ask for it.");
    assert_string_equal(answer_of(ADJUST_HOLD)->because, "Nothing asks for a change.");
    asked_for(ADJUST_HOLD, 1, 0.6);
    score_when(change);
    assert_string_equal(answer_of(ADJUST_HOLD)->because, "Wait.");
}

/* What the rules insist on is second at worst; their hold is first after a bad throw. */
static void rules_are_kept_in_sight(void **state)
{
    (void)state;
    for (int insist = 0; insist < 2; insist++) {
        Ranking ranking;
        asked_for(ADJUST_MOVE_OUT, 0, insist ? 0.5 : 0.49);
        begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
        take(&ranking, move(ADJUST_MOVE_IN, 0.7, 17.5));
        take(&ranking, move(ADJUST_AIM_IN, 0.65, 17.5));
        take(&ranking, move(ADJUST_AIM_OUT, 0.6, 17.5));
        take(&ranking, move(ADJUST_MOVE_OUT, 0.3, 17.5));
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustment_count, 5);
        static const AdjustmentKind ORDER[2][5] = {
            {ADJUST_MOVE_IN, ADJUST_AIM_IN, ADJUST_AIM_OUT, ADJUST_HOLD, ADJUST_MOVE_OUT},
            {ADJUST_MOVE_IN, ADJUST_MOVE_OUT, ADJUST_AIM_IN, ADJUST_AIM_OUT, ADJUST_HOLD}};
        for (int i = 0; i < 5; i++)
            assert_int_equal(OUT.adjustments[i].kind, ORDER[insist][i]);
    }
    for (int bad = 0; bad < 2; bad++) {
        Ranking ranking;
        memset(&VOTES, 0, sizeof VOTES);
        asked_for(ADJUST_HOLD, 1, 0.8);
        OUT.signs.seen[SIGN_BAD_RELEASE] = bad;
        begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
        take(&ranking, move(ADJUST_MOVE_IN, 0.7, 17.5));
        take(&ranking, move(ADJUST_AIM_IN, 0.6, 17.5));
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustments[!bad].kind, ADJUST_HOLD);
        assert_int_equal(OUT.adjustments[bad].kind, ADJUST_MOVE_IN);
        assert_int_equal(OUT.adjustments[2].kind, ADJUST_AIM_IN);
    }
}

/* One ball on one line is one answer, by the name that ranks first. */
static void one_throw_is_one_answer(void **state)
{
    (void)state;
    Ranking ranking;
    Told down = told(ADJUST_BALL_DOWN, 0.6, 17.5), cleaner = down;
    down.candidate.plan.slot = 2;
    cleaner.candidate.plan.slot = 2;
    cleaner.candidate.kind = ADJUST_CLEANER;
    for (int better = 0; better < 2; better++) {
        begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
        cleaner.outlook.strike = better ? 0.61 : 0.59;
        take(&ranking, down);
        take(&ranking, cleaner);
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustment_count, 2);
        assert_int_equal(OUT.adjustments[0].kind, better ? ADJUST_CLEANER : ADJUST_BALL_DOWN);
    }
    cleaner.candidate.plan.slot = 3; /* another ball is another answer */
    begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
    take(&ranking, down);
    take(&ranking, cleaner);
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 3);
}

/* Two changes at once have to be worth more than the better of them. */
static void a_pair_must_pay(void **state)
{
    (void)state;
    for (int pays = 0; pays < 2; pays++) {
        Ranking ranking;
        Told ball = told(ADJUST_BALL_DOWN, 0.6, 17.5), pair = ball;
        ball.candidate.plan.slot = 2;
        pair.candidate = move(ADJUST_MOVE_IN, 0.0, 0.0).candidate;
        pair.candidate.kind = ADJUST_BALL_DOWN;
        pair.candidate.with = ADJUST_MOVE_IN;
        pair.candidate.plan.slot = 2;
        pair.outlook.strike = pays ? 0.75 : 0.62;
        begin_with(&ranking, told(ADJUST_HOLD, 0.4, 17.5));
        take(&ranking, ball);
        take(&ranking, move(ADJUST_MOVE_IN, 0.5, 17.5));
        take(&ranking, pair);
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustment_count, 3 + pays);
        assert_int_equal(OUT.adjustments[0].kind, ADJUST_BALL_DOWN);
        assert_int_equal(OUT.adjustments[0].with, pays ? ADJUST_MOVE_IN : ADJUST_HOLD);
    }
}

/* The hand is changed last: only where it gains clearly more than any other change. */
static void the_hand_comes_last(void **state)
{
    (void)state;
    for (int clearly = 0; clearly < 2; clearly++) {
        Ranking ranking;
        begin_with(&ranking, told(ADJUST_HOLD, 0.3, 17.5));
        take(&ranking, move(ADJUST_ROTATION_LESS, clearly ? 0.7 : 0.62, 17.5));
        take(&ranking, move(ADJUST_MOVE_IN, 0.58, 17.5));
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustments[!clearly].kind, ADJUST_ROTATION_LESS);
        assert_int_equal(OUT.adjustments[!clearly].caution, CAUTION_HAND);
        assert_int_equal(OUT.adjustments[clearly].kind, ADJUST_MOVE_IN);
        assert_int_equal(OUT.adjustments[clearly].caution, CAUTION_NONE);
    }
}

/* After three good misses to one side the same again is no answer: of the changes the one that
 * loses least, and it says so. */
static void not_the_fourth_miss(void **state)
{
    (void)state;
    Ranking ranking;
    RESTRAINT.side = 1;
    RESTRAINT.in_a_row = 3;
    begin_with(&ranking, told(ADJUST_HOLD, 0.5, 19.5));
    take(&ranking, move(ADJUST_AIM_IN, 0.2, 18.5));
    take(&ranking, move(ADJUST_MOVE_IN, 0.3, 18.5));
    take(&ranking, move(ADJUST_MOVE_OUT, 0.6, 20.0)); /* higher still: not said at all */
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 3);
    assert_int_equal(OUT.adjustments[0].kind, ADJUST_MOVE_IN);
    assert_true(OUT.adjustments[0].disagrees);
    assert_non_null(strstr(OUT.adjustments[0].because, "don't throw the fourth"));
    assert_int_equal(OUT.adjustments[1].kind, ADJUST_HOLD);
    assert_int_equal(OUT.adjustments[2].kind, ADJUST_AIM_IN);
    assert_false(OUT.adjustments[2].disagrees);

    begin_with(&ranking, told(ADJUST_HOLD, 0.5, 19.5)); /* with nothing else it stays */
    ranking_write(&ranking, &OUT);
    assert_int_equal(OUT.adjustment_count, 1);
    assert_false(OUT.adjustments[0].disagrees);
}

/* Leaves that add up on flush hits: what the rules ask for comes before what the table likes. */
static void when_leaves_add_up(void **state)
{
    (void)state;
    for (int seen = 0; seen < 2; seen++) {
        Ranking ranking;
        OUT.signs.seen[SIGN_ADDS_UP] = seen;
        asked_for(ADJUST_AIM_IN, 0, 0.3);
        begin_with(&ranking, told(ADJUST_HOLD, 0.5, 17.5));
        take(&ranking, move(ADJUST_MOVE_IN, 0.7, 17.5));
        take(&ranking, move(ADJUST_AIM_IN, 0.52, 17.5));
        ranking_write(&ranking, &OUT);
        assert_int_equal(OUT.adjustments[seen].kind, ADJUST_MOVE_IN);
        assert_int_equal(OUT.adjustments[!seen].kind, ADJUST_AIM_IN);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test_setup(holding_is_always_an_answer, set_up),
                                       cmocka_unit_test_setup(says_where_it_hits, set_up),
                                       cmocka_unit_test_setup(what_is_worth_more, set_up),
                                       cmocka_unit_test_setup(the_best_of_its_kind, set_up),
                                       cmocka_unit_test_setup(a_vote_counts, set_up),
                                       cmocka_unit_test_setup(rules_are_kept_in_sight, set_up),
                                       cmocka_unit_test_setup(one_throw_is_one_answer, set_up),
                                       cmocka_unit_test_setup(a_pair_must_pay, set_up),
                                       cmocka_unit_test_setup(the_hand_comes_last, set_up),
                                       cmocka_unit_test_setup(not_the_fourth_miss, set_up),
                                       cmocka_unit_test_setup(when_leaves_add_up, set_up)};
    return cmocka_run_group_tests_name("ranking", tests, demo_set_up, NULL);
}
