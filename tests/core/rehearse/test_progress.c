/* test_progress.c - the history of rehearsals: means, intervals and changes. Source outside: the
 * GNU Scientific Library's Student t. */
#include "near.h"

#include <string.h>

#include <gsl/gsl_cdf.h>

#include "base/rng.h"
#include "core/rehearse/progress.h"

/* The expansion ends with n^-4: what is missing is a fifth power, and its factor is below 1. A
 * wrong coefficient would be a lower power, and shows where n is large. */
static void test_t_is_students(void **state)
{
    (void)state;
    for (int n = 1; n <= 200; n++)
        assert_near(progress_t95(n), gsl_cdf_tdist_Pinv(0.975, n),
                    n <= 2 ? 1e-6 : pow(n, -5.0) + 1e-9);
}

static RehearsalRecord record(const char *player, const char *pattern, const double *costs,
                              int games)
{
    RehearsalRecord out = {.bowler = "Ada Quill", .length_ft = 40.0, .games = games};
    strcpy(out.player, player);
    strcpy(out.pattern, pattern);
    for (int i = 0; i < games; i++)
        out.game[i] = (RecordGame){.score = 180 + i,
                                   .expected = 150.0,
                                   .best = 150.0 + 2.0 * costs[i],
                                   .expected_as_known = 140.0,
                                   .best_as_known = 140.0 + costs[i]};
    return out;
}

static void test_rows(void **state)
{
    (void)state;
    const double early[] = {10, 12, 14}, late[] = {4, 6, 2}, one[] = {7};
    const RehearsalRecord records[] = {
        record("you", "Apron", early, 3), record("coach", "Apron", one, 1),
        record("you", "Kerb", one, 1), record("you", "Apron", late, 3)};
    ProgressRow rows[8];
    assert_int_equal(progress_rows(records, 4, rows, 8), 3);
    assert_string_equal(rows[0].player, "you");
    assert_string_equal(rows[1].player, "coach");
    assert_string_equal(rows[2].pattern, "Kerb");
    assert_int_equal(rows[0].blocks, 2);
    assert_int_equal(rows[0].games, 6);
    assert_near(rows[0].score, 181.0, 1e-12);
    const CostMean *cost = &rows[0].cost[JUDGE_BELIEF];
    assert_near(cost->mean, 8.0, 1e-12);
    /* squares about 8: 4 16 36 16 4 36 = 112; 112 / 5 / 6 under the root, times t of 5 */
    double half = gsl_cdf_tdist_Pinv(0.975, 5) * sqrt(112.0 / 5.0 / 6.0);
    assert_near(cost->low, 8.0 - half, 0.01);
    assert_near(cost->high, 8.0 + half, 0.01);
    assert_near(rows[0].cost[JUDGE_LANE].mean, 16.0, 1e-12);
    /* 4 less 12; each half's squares are 8, so (8 + 8) / 4 and a third of it twice */
    half = gsl_cdf_tdist_Pinv(0.975, 4) * sqrt(4.0 / 3.0 + 4.0 / 3.0);
    assert_near(rows[0].change.mean, -8.0, 1e-12);
    assert_near(rows[0].change.low, -8.0 - half, 0.01);
    assert_near(rows[0].change.high, -8.0 + half, 0.01);
    assert_near(rows[1].cost[JUDGE_BELIEF].mean, 7.0, 1e-12);
    assert_true(isnan(rows[1].cost[JUDGE_BELIEF].low) && isnan(rows[1].change.mean));
    assert_int_equal(progress_rows(records, 4, rows, 1), 1); /* no room for more */
    assert_int_equal(progress_rows(records, 0, rows, 8), 0);
}

/* Of 95 intervals in 100 the true mean is one. */
static void test_interval_holds_the_mean(void **state)
{
    (void)state;
    Rng rng = rng_seed(3);
    int held = 0;
    for (int i = 0; i < 4000; i++) {
        double costs[6];
        ProgressRow row;
        for (int k = 0; k < 6; k++)
            costs[k] = 10.0 + 3.0 * rng_normal(&rng);
        RehearsalRecord one = record("you", "Apron", costs, 6);
        assert_int_equal(progress_rows(&one, 1, &row, 1), 1);
        held += row.cost[JUDGE_BELIEF].low <= 10.0 && row.cost[JUDGE_BELIEF].high >= 10.0;
    }
    assert_near(held / 4000.0, 0.95, 0.014); /* four deviations of a share of 4,000 */
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_t_is_students),
                                       cmocka_unit_test(test_rows),
                                       cmocka_unit_test(test_interval_holds_the_mean)};
    return cmocka_run_group_tests_name("progress", tests, NULL, NULL);
}
