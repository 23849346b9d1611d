/* test_votes.c - what the rules together ask for and how strongly, what they forbid, and which are
 * quoted. */
#include "near.h"

#include <string.h>

#include "core/advice/votes.h"

/* Fires on a high hit; asks for `first`, then for `second`. */
static Rule rule(int weight, AdjustmentKind first, AdjustmentKind second)
{
    return (Rule){.when_count = 1,
                  .when = {SIGN_HIGH_ONCE},
                  .try_count = first == second ? 1 : 2,
                  .try_ = {first, second},
                  .weight = weight};
}

static Votes hear(const Rule *rules, int count)
{
    static RuleSet set;
    Votes votes;
    Signs signs = {0};
    signs.seen[SIGN_HIGH_ONCE] = true;
    set.count = count;
    for (int i = 0; i < count; i++)
        set.rules[i] = rules[i];
    memset(&votes, 0x5a, sizeof votes); /* nothing is left of what was there */
    votes_hear(&votes, &set, &signs);
    return votes;
}

/* Weight 5 of 1 to 5 is five sixths of a word; the second answer 15 % less; words add up as chances
 * do. */
static void test_how_much(void **state)
{
    (void)state;
    const Rule rules[] = {rule(5, ADJUST_MOVE_IN, ADJUST_BALL_DOWN),
                          rule(3, ADJUST_BALL_DOWN, ADJUST_BALL_DOWN),
                          {.when_count = 1,
                           .when = {SIGN_LATE}, /* not seen */
                           .try_count = 1,
                           .try_ = {ADJUST_SLOWER},
                           .weight = 5}};
    Votes votes = hear(rules, 3);
    assert_near(votes.vote[ADJUST_MOVE_IN], 5.0 / 6.0, 1e-15);
    assert_near(votes.vote[ADJUST_BALL_DOWN], 1.0 - (1.0 - 5.0 / 6.0 * 0.85) * (1.0 - 0.5), 1e-15);
    assert_near(votes.vote[ADJUST_SLOWER], 0.0, 0.0);
    assert_int_equal(votes_most(&votes), ADJUST_BALL_DOWN);
    assert_true(votes_for_change(&votes));
    assert_near(votes_for(&votes, ADJUST_MOVE_IN, ADJUST_HOLD), votes.vote[ADJUST_MOVE_IN], 0.0);
    assert_near(votes_for(&votes, ADJUST_MOVE_IN, ADJUST_SLOWER), votes.vote[ADJUST_MOVE_IN],
                1e-15);
    assert_int_equal(votes_unasked(&votes, ADJUST_MOVE_IN, ADJUST_HOLD), 0);
    assert_int_equal(votes_unasked(&votes, ADJUST_MOVE_IN, ADJUST_SLOWER), 1);
    assert_int_equal(votes_unasked(&votes, ADJUST_FASTER, ADJUST_SLOWER), 2);
}

static void test_nothing_asked(void **state)
{
    (void)state;
    Votes votes = hear(NULL, 0);
    assert_int_equal(votes_most(&votes), ADJUST_HOLD);
    assert_false(votes_for_change(&votes));
    const Rule holds[] = {rule(5, ADJUST_HOLD, ADJUST_HOLD)};
    votes = hear(holds, 1);
    assert_false(votes_for_change(&votes));
}

/* A forbidden adjustment gets no vote, whoever asks; holding can't be forbidden. */
static void test_forbidden(void **state)
{
    (void)state;
    Rule rules[] = {rule(5, ADJUST_MOVE_IN, ADJUST_MOVE_IN), rule(1, ADJUST_AIM_IN, ADJUST_AIM_IN)};
    rules[1].avoid_count = 2;
    rules[1].avoid[0] = ADJUST_MOVE_IN;
    rules[1].avoid[1] = ADJUST_HOLD;
    Votes votes = hear(rules, 2);
    assert_true(votes.avoided[ADJUST_MOVE_IN]);
    assert_false(votes.avoided[ADJUST_HOLD]);
    assert_int_equal(votes_most(&votes), ADJUST_AIM_IN);
}

/* Most insistent first, equal ones in the set's order; the fifth is not quoted. */
static void test_quotes(void **state)
{
    (void)state;
    const Rule rules[] = {
        rule(2, ADJUST_MOVE_IN, ADJUST_MOVE_IN), rule(4, ADJUST_MOVE_IN, ADJUST_MOVE_IN),
        rule(2, ADJUST_MOVE_IN, ADJUST_MOVE_IN), rule(5, ADJUST_MOVE_IN, ADJUST_MOVE_IN),
        rule(4, ADJUST_MOVE_IN, ADJUST_MOVE_IN), rule(3, ADJUST_FASTER, ADJUST_FASTER)};
    Votes votes = hear(rules, 6);
    int quoted[ADJUSTMENT_RULES_MAX];
    const int expected[] = {3, 1, 4, 0};
    assert_int_equal(votes_quote(&votes, ADJUST_MOVE_IN, ADJUST_HOLD, quoted), 4);
    for (int i = 0; i < 4; i++)
        assert_int_equal(quoted[i], expected[i]);
    /* of a pair the last place is the other part's */
    assert_int_equal(votes_quote(&votes, ADJUST_MOVE_IN, ADJUST_FASTER, quoted), 4);
    assert_int_equal(quoted[2], 4);
    assert_int_equal(quoted[3], 5);
    assert_int_equal(votes_quote(&votes, ADJUST_FASTER, ADJUST_HOLD, quoted), 1);
    /* the part that is asked for more speaks first */
    assert_int_equal(votes_quote(&votes, ADJUST_FASTER, ADJUST_MOVE_IN, quoted), 4);
    assert_int_equal(quoted[0], 3);
    assert_int_equal(votes_quote(&votes, ADJUST_SLOWER, ADJUST_HOLD, quoted), 0);
}

/* A rule that asks for both parts is quoted once. */
static void test_quoted_once(void **state)
{
    (void)state;
    const Rule rules[] = {rule(4, ADJUST_MOVE_IN, ADJUST_FASTER)};
    Votes votes = hear(rules, 1);
    int quoted[ADJUSTMENT_RULES_MAX];
    assert_int_equal(votes_quote(&votes, ADJUST_MOVE_IN, ADJUST_FASTER, quoted), 1);
    assert_int_equal(quoted[0], 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_how_much), cmocka_unit_test(test_nothing_asked),
        cmocka_unit_test(test_forbidden), cmocka_unit_test(test_quotes),
        cmocka_unit_test(test_quoted_once)};
    return cmocka_run_group_tests_name("votes", tests, NULL, NULL);
}
