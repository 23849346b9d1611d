/* test_batch.c - deliveries rolled in batches (single precision, side by side) against the one at
 * a time in double: what a search sees is what a report says. Derived; no outside source. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "core/motion/batch.h"
#include "helper_cases.h"

enum { BALLS = 250, EACH = 8, GRADES = 3 };
static const double STEP_FT[GRADES] = {BATCH_QUICK, BATCH_FINE, BATCH_ROUGH};
static const char *const GRADE[GRADES] = {"quick", "fine", "rough"};

static double board[GRADES][BALLS * EACH], degree[GRADES][BALLS * EACH], move[GRADES][BALLS * EACH];
static int count[GRADES], apart[GRADES];

/* Eight releases of each ball on its lane, near one another, as a search makes them. */
static void releases(Rng *rng, const Case *c, BatchThrow throws[EACH])
{
    for (int i = 0; i < EACH; i++) {
        throws[i] = (BatchThrow){c->delivery, 1.0f, 1.0f, 0.0f};
        throws[i].delivery.launch_deg += rng_between(rng, -0.5, 0.5);
        throws[i].delivery.mph += rng_between(rng, -0.5, 0.5);
        throws[i].delivery.rpm += rng_between(rng, -20.0, 20.0);
    }
}

static int roll_all(void **unused)
{
    (void)unused;
    static BatchOil oil;
    static BatchBall ball;
    Rng rng = rng_seed(81);
    for (int n = 0; n < BALLS; n++) {
        Case c;
        MotionBody body;
        BatchThrow throws[EACH];
        Arrival ends[EACH];
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        batch_ball(&body, &ball);
        releases(&rng, &c, throws);
        for (int grade = 0; grade < GRADES; grade++) {
            batch_oil(&c.oil, STEP_FT[grade], &oil);
            batch_arrive(&ball, &oil, throws, EACH, ends);
            for (int i = 0; i < EACH; i++) {
                Arrival one = motion_arrive(&body, &c.oil, &throws[i].delivery);
                if (one.gutter != ends[i].gutter)
                    apart[grade]++;
                if (one.gutter || ends[i].gutter)
                    continue;
                int at = count[grade]++;
                board[grade][at] = fabs(one.board - ends[i].board);
                degree[grade][at] = fabs(one.degrees - ends[i].degrees);
                bool moved = !isnan(one.hook_ft) && !isnan(ends[i].hook_ft);
                move[grade][at] = moved ? fabs(one.hook_ft - ends[i].hook_ft) : 0.0;
            }
        }
    }
    return 0;
}

static void tell(int grade, const char *what, double *values)
{
    double median = case_quantile(values, count[grade], 0.5);
    double most = case_quantile(values, count[grade], 0.99);
    printf("batch, %s steps, against one at a time, %s: median %.5f, 99 %% %.5f, worst %.5f\n",
           GRADE[grade], what, median, most, values[count[grade] - 1]);
}

static void test_fine_batches(void **unused)
{
    (void)unused;
    printf("%d and %d deliveries reach the pins; one way says gutter and the other not: quick %d, "
           "fine %d\n",
           count[0], count[1], apart[0], apart[1]);
    tell(1, "board", board[1]);
    tell(1, "degree", degree[1]);
    tell(1, "first move, ft", move[1]);
    assert_true(count[1] >= 500);
    assert_less(case_quantile(board[1], count[1], 0.5), 0.002);
    assert_less(case_quantile(board[1], count[1], 0.99), 0.01);
    assert_true(apart[1] <= count[1] / 100);
}

static void test_quick_batches(void **unused)
{
    (void)unused;
    tell(0, "board", board[0]);
    tell(0, "degree", degree[0]);
    tell(0, "first move, ft", move[0]);
    assert_less(case_quantile(board[0], count[0], 0.5), 0.01);
    assert_less(case_quantile(board[0], count[0], 0.99), 0.1);
    assert_true(apart[0] <= count[0] / 100);
}

/* With fewer steps on a worn film, but hardly less exact. */
static void test_rough_batches(void **unused)
{
    (void)unused;
    tell(2, "board", board[2]);
    tell(2, "degree", degree[2]);
    tell(2, "first move, ft", move[2]);
    assert_less(case_quantile(board[2], count[2], 0.5), 0.01);
    assert_less(case_quantile(board[2], count[2], 0.99), 0.2);
    assert_true(apart[2] <= count[2] / 50);
}

/* A delivery's answer does not depend on its neighbours or on its place in the batch. */
static void test_answer_does_not_depend_on_company(void **unused)
{
    (void)unused;
    static BatchOil oil;
    static BatchBall ball;
    Rng rng = rng_seed(82);
    for (int n = 0; n < 60; n++) {
        Case c;
        MotionBody body;
        BatchThrow throws[EACH * 5];
        Arrival together[EACH * 5], alone;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        batch_ball(&body, &ball);
        batch_oil(&c.oil, BATCH_QUICK, &oil);
        for (int i = 0; i < 5; i++)
            releases(&rng, &c, throws + i * EACH);
        batch_arrive(&ball, &oil, throws, EACH * 5, together);
        for (int i = 0; i < EACH * 5; i++) {
            batch_arrive(&ball, &oil, &throws[i], 1, &alone);
            assert_true(alone.gutter == together[i].gutter);
            assert_memory_equal(&alone.board, &together[i].board, sizeof alone.board);
            assert_memory_equal(&alone.degrees, &together[i].degrees, sizeof alone.degrees);
        }
    }
}

/* Scales of a throw are those of the lane and of the ball's dry friction. */
static void test_scales(void **unused)
{
    (void)unused;
    static BatchOil oil, scaled;
    static BatchBall ball, drier;
    Rng rng = rng_seed(83);
    for (int n = 0; n < 200; n++) {
        Case c;
        MotionBody body;
        Arrival a, b;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        double film = rng_between(&rng, 0.7, 1.3), dry = rng_between(&rng, 0.9, 1.1);
        BatchThrow with = {c.delivery, (float)film, (float)dry, 0.0f},
                   plain = {c.delivery, 1.0f, 1.0f, 0.0f};
        batch_ball(&body, &ball);
        body.friction.mu_dry *= dry;
        batch_ball(&body, &drier);
        batch_oil(&c.oil, BATCH_FINE, &oil);
        oil_scale(&c.oil, film);
        batch_oil(&c.oil, BATCH_FINE, &scaled);
        batch_arrive(&ball, &oil, &with, 1, &a);
        batch_arrive(&drier, &scaled, &plain, 1, &b);
        if (a.gutter || b.gutter)
            continue;
        assert_near(a.board, b.board, 0.03);
        assert_near(a.degrees, b.degrees, 0.03);
    }
}

/* No NaN but in the gutter, whatever the release and the lane. */
static void test_extremes(void **unused)
{
    (void)unused;
    static BatchOil oil;
    static BatchBall ball;
    static Oil film;
    Rng rng = rng_seed(84);
    for (int n = 0; n < 1500; n++) {
        Case c;
        MotionBody body;
        Arrival end;
        case_random(&rng, &c);
        motion_body(&c.ball, &body);
        batch_ball(&body, &ball);
        double units = n % 3 == 0 ? 0.0 : n % 3 == 1 ? OIL_UNITS_MAX : 12.0;
        for (int j = 0; j < OIL_STATIONS; j++)
            for (int b = 0; b < LANE_BOARDS; b++)
                film.units[j][b] = units;
        batch_oil(&film, BATCH_QUICK, &oil);
        BatchThrow throw = {c.delivery, 1.0f, 1.0f, 0.0f};
        throw.delivery.launch_deg = rng_between(&rng, -3.0, 3.0);
        throw.delivery.rpm = n % 5 == 0 ? 0.0 : rng_between(&rng, 0.0, 650.0);
        throw.delivery.rotation_deg = n % 7 == 0 ? 90.0 : rng_between(&rng, 0.0, 90.0);
        throw.delivery.mph = rng_between(&rng, 8.0, 28.0);
        throw.delivery.loft_ft = rng_between(&rng, 0.0, 15.0);
        batch_arrive(&ball, &oil, &throw, 1, &end);
        if (end.gutter) {
            assert_true(isnan(end.board));
            continue;
        }
        assert_true(end.board >= 0.5 && end.board <= 39.5);
        assert_true(fabs(end.degrees) < 45.0 && end.mph > 2.0 && end.mph < 40.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fine_batches),
        cmocka_unit_test(test_quick_batches),
        cmocka_unit_test(test_rough_batches),
        cmocka_unit_test(test_answer_does_not_depend_on_company),
        cmocka_unit_test(test_scales),
        cmocka_unit_test(test_extremes),
    };
    return cmocka_run_group_tests(tests, roll_all, NULL);
}
