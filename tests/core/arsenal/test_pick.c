/* test_pick.c - the exact search against every set there is. Numbers only: no balls, no lanes. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "base/rng.h"
#include "core/arsenal/pick.h"

enum { FILMS = 9 };

static PickJob *JOB;

/* Balls that each suit films near one of their own, on surfaces that shift it; with noise. */
static void make_problem(PickProblem *problem, uint64_t seed, int balls, int surfaces, int count)
{
    Rng rng = rng_seed(seed);
    memset(problem, 0, sizeof *problem);
    problem->films = FILMS;
    problem->count = count;
    for (int f = 0; f < FILMS; f++)
        problem->weight[f] = rng_uniform(&rng);
    for (int b = 0; b < balls; b++) {
        double home = rng_between(&rng, 0.0, FILMS - 1.0);
        for (int k = 0; k < surfaces; k++) {
            int c = problem->candidates++;
            problem->ball[c] = b;
            for (int f = 0; f < FILMS; f++)
                problem->value[c][f] =
                    0.7 - 0.03 * fabs(f - home - 0.8 * k) + 0.02 * rng_normal(&rng);
        }
    }
}

static void solve(void)
{
    pick_begin(JOB);
    while (!pick_step(JOB, 7)) /* few a slice: a slice must not matter */
        ;
}

/* Every set of `count` candidates of different balls; the most worth of any. */
static double try_all(const PickProblem *problem, int *set, int count, int from)
{
    if (count == problem->count)
        return pick_value(problem, set, count);
    double most = -1.0;
    for (int c = from; c < problem->candidates; c++) {
        if (count > 0 && problem->ball[set[count - 1]] == problem->ball[c])
            continue;
        set[count] = c;
        most = fmax(most, try_all(problem, set, count + 1, c + 1));
    }
    return most;
}

static void is_a_set(const PickProblem *problem, const Pick *pick)
{
    for (int i = 0; i < pick->count; i++) {
        assert_true(pick->candidate[i] >= 0 && pick->candidate[i] < problem->candidates);
        if (i > 0) {
            assert_true(pick->candidate[i - 1] < pick->candidate[i]);
            assert_int_not_equal(problem->ball[pick->candidate[i - 1]],
                                 problem->ball[pick->candidate[i]]);
        }
    }
    assert_near(pick_value(problem, pick->candidate, pick->count), pick->value, 1e-15);
}

static void equals_brute_force(void **state)
{
    (void)state;
    static const struct {
        int balls, surfaces, count;
    } SIZES[] = {{6, 1, 3}, {9, 1, 5}, {12, 1, 6}, {5, 3, 3}, {6, 4, 3}, {7, 2, 4}, {4, 7, 3}};
    for (size_t s = 0; s < sizeof SIZES / sizeof *SIZES; s++)
        for (uint64_t seed = 1; seed <= 20; seed++) {
            int set[PICK_MAX];
            make_problem(pick_problem(JOB), seed, SIZES[s].balls, SIZES[s].surfaces,
                         SIZES[s].count);
            solve();
            is_a_set(pick_problem(JOB), pick_result(JOB));
            assert_int_equal(pick_result(JOB)->count, SIZES[s].count);
            /* ties may cost a hundred-thousandth: the balls' own mean decides among equals */
            assert_near(pick_result(JOB)->value, try_all(pick_problem(JOB), set, 0, 0), 1e-4);
        }
}

static void none_of_many_random_sets_is_better(void **state)
{
    (void)state;
    for (uint64_t seed = 1; seed <= 3; seed++) {
        make_problem(pick_problem(JOB), seed, 20, 7, 6);
        solve();
        is_a_set(pick_problem(JOB), pick_result(JOB));
        Rng rng = rng_seed(seed + 100);
        double most = 0.0;
        for (int t = 0; t < 10000; t++) {
            int set[6];
            for (int i = 0; i < 6;) { /* six different balls, each with one of its surfaces */
                set[i] = (int)(rng_uniform(&rng) * pick_problem(JOB)->candidates);
                bool taken = false;
                for (int k = 0; k < i; k++)
                    taken =
                        taken || pick_problem(JOB)->ball[set[k]] == pick_problem(JOB)->ball[set[i]];
                i += !taken;
            }
            most = fmax(most, pick_value(pick_problem(JOB), set, 6));
        }
        printf("picked %.4f in %ld nodes, best of 10,000 at random %.4f\n", pick_result(JOB)->value,
               pick_result(JOB)->nodes, most);
        assert_true(pick_result(JOB)->value >= most - 1e-4);
    }
}

static void asks_for_no_more_than_there_is(void **state)
{
    (void)state;
    make_problem(pick_problem(JOB), 5, 3, 2, 6);
    solve();
    assert_int_equal(pick_result(JOB)->count, 3);
    is_a_set(pick_problem(JOB), pick_result(JOB));
    make_problem(pick_problem(JOB), 5, 0, 1, 6);
    solve();
    assert_int_equal(pick_result(JOB)->count, 0);
    make_problem(pick_problem(JOB), 5, 4, 1, 0);
    solve();
    assert_int_equal(pick_result(JOB)->count, 0);
    assert_near(pick_result(JOB)->value, 0.0, 0.0);
}

/* Balls that add nothing are still ranked: the one worth more by itself is picked. */
static void the_better_of_two_idle_balls_comes_along(void **state)
{
    (void)state;
    PickProblem *problem = pick_problem(JOB);
    memset(problem, 0, sizeof *problem);
    problem->films = 2;
    problem->count = 2;
    problem->candidates = 3;
    problem->weight[0] = problem->weight[1] = 0.5;
    for (int c = 0; c < 3; c++)
        problem->ball[c] = c;
    problem->value[0][0] = problem->value[0][1] = 0.4;
    problem->value[1][0] = problem->value[1][1] = 0.7;
    problem->value[2][0] = problem->value[2][1] = 0.5;
    solve();
    assert_int_equal(pick_result(JOB)->candidate[0], 1);
    assert_int_equal(pick_result(JOB)->candidate[1], 2);
}

static int job_new(void **state)
{
    (void)state;
    JOB = pick_new();
    return JOB ? 0 : -1;
}

static int job_free(void **state)
{
    (void)state;
    pick_free(JOB);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(equals_brute_force),
        cmocka_unit_test(none_of_many_random_sets_is_better),
        cmocka_unit_test(asks_for_no_more_than_there_is),
        cmocka_unit_test(the_better_of_two_idle_balls_comes_along),
    };
    return cmocka_run_group_tests(tests, job_new, job_free);
}
