/* test_carry.c - what a flush hit is worth where one leave adds up. Source outside: Laplace's rule
 * of succession, (strikes + 1) / (hits + 2); how many are lately enough is the program's own. */
#include "near.h"

#include <stdlib.h>

#include "core/advice/advice.h"
#include "helper_demo.h"

/* A flush hit on the left lane with a leave, 0: a strike. */
static void flush(Asked *asked, Pins left)
{
    say(asked, SIDE_LEFT, HIT_FLUSH, READ_ON_TIME, RELEASE_GOOD);
    Shot *shot = &asked->shots[asked->in.shot_count - 1];
    shot->left_said = true;
    shot->left = left;
}

/* The chance of a strike as it is; whether the leave was found to add up. */
static double strike_now(const Asked *asked, bool *adds_up)
{
    AdviceJob *job = advice_job_new();
    assert_non_null(job);
    advice_begin(job, &asked->in);
    while (!advice_result(job)->ready)
        advice_step(job);
    const Advice *out = advice_result(job);
    *adds_up = out->signs.seen[SIGN_ADDS_UP];
    assert_true(out->adjustment_count > 0);
    double strike = out->adjustments[0].strike_now;
    advice_job_free(job);
    return strike;
}

static void as_the_last_six_carried(void **state)
{
    (void)state;
    const Pins nine = pin_bit(9);
    bool adds_up;
    Asked *asked = ask();
    flush(asked, 0);
    flush(asked, 0);
    double table = strike_now(asked, &adds_up);
    assert_false(adds_up);
    assert_less(1.0 / 8.0, table);

    flush(asked, nine);
    flush(asked, nine);
    assert_true(strike_now(asked, &adds_up) <= 3.0 / 6.0);
    assert_true(adds_up);
    flush(asked, nine);
    flush(asked, nine); /* six: two of them strikes */
    assert_near(strike_now(asked, &adds_up), fmin(3.0 / 8.0, table), 0.02);
    flush(asked, nine);
    flush(asked, nine); /* the first two are long ago */
    assert_near(strike_now(asked, &adds_up), 1.0 / 8.0, 1e-12);

    /* no flush hit, another ball, or a leave not said: it doesn't count */
    say(asked, SIDE_LEFT, HIT_HIGH, READ_ON_TIME, RELEASE_GOOD);
    asked->shots[asked->in.shot_count - 1].left_said = true;
    flush(asked, 0);
    asked->shots[asked->in.shot_count - 1].slot = 2;
    flush(asked, 0);
    asked->shots[asked->in.shot_count - 1].left_said = false;
    flush(asked, nine);
    double strike = strike_now(asked, &adds_up);
    assert_true(!adds_up || fabs(strike - 1.0 / 8.0) < 1e-12);
    free(asked);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(as_the_last_six_carried)};
    return cmocka_run_group_tests_name("carry", tests, demo_set_up, NULL);
}
