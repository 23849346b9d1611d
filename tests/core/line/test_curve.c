/* test_curve.c - a sieved curve is the whole one near the pocket, and what a curve says between its
 * aims. The whole curve is the check; no source outside. */
#include "near.h"

#include "core/line/curve.h"
#include "store/files.h"

static Bag BAG;
static const char *const PATTERNS[] = {"apron", "parlour", "slant", "kerb", "lintel"};
enum { PATTERN_COUNT = sizeof PATTERNS / sizeof PATTERNS[0] };

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    return files_bag("demo", &BAG, &error) ? 0 : -1;
}

static void film_of(const char *id, double scale, BatchOil *film)
{
    Pattern pattern;
    Oil oil;
    Error error = {0};
    assert_true(files_pattern(id, &pattern, &error));
    oil_lay(&pattern, &oil);
    oil_scale(&oil, scale);
    batch_oil(&oil, BATCH_QUICK, film);
}

/* Strong and weak, on much oil and on little. */
static void a_sieve_loses_nothing(void **state)
{
    (void)state;
    static const double RPM[] = {120.0, 350.0, 560.0};
    static CurveBatch batch;
    static BatchOil film;
    static BatchBall ball;
    int near = 0, lost = 0, rolled = 0, whole_rolled = 0;
    for (int n = 0; n < PATTERN_COUNT * 2 * 3 * BAG_SLOTS; n++) {
        int slot = 1 + n % BAG_SLOTS, kind = n / BAG_SLOTS % 3, p = n / BAG_SLOTS / 3;
        Delivery usual = delivery_of(&BAG.bowler, 26.0, 15.0);
        MotionBody body;
        motion_body(bag_slot(&BAG, slot), &body);
        batch_ball(&body, &ball);
        film_of(PATTERNS[p % PATTERN_COUNT], p < PATTERN_COUNT ? 1.0 : 0.4, &film);
        usual.rpm = RPM[kind];
        for (double laydown = 2.0; laydown <= 38.0; laydown += 4.0) {
            ArrivalCurve whole = curve_over_all(laydown, 0.5), sieved = whole;
            curve_batch_begin(&batch, &ball, &film, &usual, 0.0);
            curves_roll(&batch, &whole, 1);
            curves_sieve(&batch, &sieved, 1, -INFINITY);
            for (int i = 0; i < whole.count; i++) {
                bool close = fabs(whole.board[i] - LANE_POCKET_BEST) < CURVE_POCKET_NEAR;
                bool says = fabs(sieved.board[i] - LANE_POCKET_BEST) < CURVE_POCKET_NEAR;
                near += close;
                lost += close && sieved.board[i] != whole.board[i];
                assert_true(close || !says);
                rolled += isfinite(sieved.degrees[i]);
                whole_rolled += isfinite(whole.degrees[i]);
            }
        }
    }
    print_message("%d aims near the pocket, %d of them lost; %d of %d rolled to the pins\n", near,
                  lost, rolled, whole_rolled);
    assert_true(near > 5000);
    assert_true(lost <= near / 500);
}

static void what_lies_between_aims(void **state)
{
    (void)state;
    double board, degrees;
    ArrivalCurve curve = curve_over(20.0, 10.0, 0.5, 4);
    for (int i = 0; i < 4; i++) {
        curve.board[i] = i == 0 ? 0.0 : 14.0 + 2.0 * i;
        curve.degrees[i] = i == 0 ? (double)NAN : i;
    }
    curve_at(&curve, 10.75, &board, &degrees);
    assert_near(board, 17.0, 1e-12);
    assert_near(degrees, 2.0, 0.0);
    curve_at(&curve, 10.5, &board, &degrees);
    assert_near(board, 16.0, 0.0);
    curve_at(&curve, 10.4, &board, NULL); /* one falls: nothing is known in between */
    assert_near(board, 0.0, 0.0);
    curve_at(&curve, 2.0, &board, NULL);
    assert_near(board, 0.0, 0.0);
    curve_at(&curve, 40.0, &board, NULL);
    assert_near(board, 20.0, 0.0);
    /* from board 17, four boards a board of aim, to the pocket's edges: 18.7 and 16 */
    assert_near(curve_margin(&curve, 10.75, 1.0, 2.0), 0.40, 1e-12);
    assert_near(curve_margin(&curve, 10.75, -1.0, 2.0), 0.25, 1e-12);
    assert_near(curve_margin(&curve, 10.75, 1.0, 0.2), 0.20, 1e-12);
}

/* From every laydown, on the lane or beside it, there are at least two aims and never too many. */
static void aims_from_everywhere(void **state)
{
    (void)state;
    for (double laydown = -40.0; laydown <= 80.0; laydown += 0.3)
        for (double step = 0.5; step <= 0.75; step += 0.25) {
            ArrivalCurve curve = curve_over_all(laydown, step);
            assert_in_range(curve.count, 2, CURVE_AIMS_MAX);
        }
    ArrivalCurve curve = curve_over_all(36.0, 0.5); /* a strong hand swings it that far */
    assert_true(curve.first <= 16.0);
    curve = curve_over_all(2.0, 0.5); /* straight from the edge to the pocket: a quarter by 15 ft */
    assert_true(curve.first + (curve.count - 1) * curve.step >= 2.0 + 0.25 * (17.5 - 2.0));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sieve_loses_nothing),
        cmocka_unit_test(what_lies_between_aims),
        cmocka_unit_test(aims_from_everywhere),
    };
    return cmocka_run_group_tests_name("curve", tests, set_up, NULL);
}
