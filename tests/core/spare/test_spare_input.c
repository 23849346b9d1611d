/* test_spare_input.c - what may be left unsaid of a spare, and what is assumed for it (spare.h).
 * Coarse searches: they are compared with each other. */
#include "near.h"

#include <string.h>

#include "core/spare/spare.h"
#include "core/spare/spare_hits.h"
#include "store/files.h"

static Bag BAG;
static Oil FILM;

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    Pattern pattern;
    if (!files_bag("demo", &BAG, &error) || !files_pattern("apron", &pattern, &error))
        return -1;
    oil_lay(&pattern, &FILM);
    return 0;
}

static Spare find(Pins left, int slot, double aim, const Ball *ball)
{
    SpareInput input = {.bag = &BAG,
                        .film = &FILM,
                        .left = left,
                        .slot = slot,
                        .stance = 26.0,
                        .aim = aim,
                        .ball = ball,
                        .effort = 3000.0};
    Spare spare;
    spare_find(&input, &spare);
    assert_true(spare.found);
    return spare;
}

static void assert_same_line(const SpareLine *a, const SpareLine *b)
{
    assert_ptr_equal(a->ball, b->ball);
    assert_near(a->stance, b->stance, 0.0);
    assert_near(a->aim, b->aim, 0.0);
    assert_near(a->chance, b->chance, 0.0);
}

static const Pins LEAVE = 1u << 0 | 1u << 1 | 1u << 4; /* 1, 2 and 5: an angle helps */

/* Whose line isn't known is taken to play over the third arrow, and gets no 3-6-9 move. */
static void an_aim_unsaid(void **state)
{
    (void)state;
    Spare unsaid = find(LEAVE, 1, 0.0, NULL), third = find(LEAVE, 1, 15.0, NULL),
          outside = find(LEAVE, 1, 8.0, NULL);
    assert_true(unsaid.strike_ball && third.strike_ball);
    assert_same_line(&unsaid.line, &third.line);
    assert_false(unsaid.move.known);
    assert_true(third.move.known && outside.move.known);
    assert_near(third.move.aim, 15.0, 0.0);
    assert_near(outside.move.aim, 8.0, 0.0);
    /* the search begins at the aim that is said, so another one finds another line */
    assert_true(outside.line.stance != third.line.stance || outside.line.aim != third.line.aim);
}

/* No slot, or one without a ball: the first that has one. */
static void a_slot_unsaid(void **state)
{
    (void)state;
    int first = 1;
    while (!bag_slot(&BAG, first))
        first++;
    Spare said = find(LEAVE, first, 15.0, NULL), unsaid = find(LEAVE, 0, 15.0, NULL);
    assert_same_line(&said.line, &unsaid.line);
    Bag whole = BAG;
    for (int i = 0; i < BAG.count; i++)
        if (BAG.balls[i].slot == first)
            BAG.balls[i].slot = 0;
    int second = first + 1;
    while (!bag_slot(&BAG, second))
        second++;
    said = find(LEAVE, second, 15.0, NULL);
    unsaid = find(LEAVE, first, 15.0, NULL);
    assert_same_line(&said.line, &unsaid.line);
    BAG = whole;
}

/* A ball that is asked for is thrown, and no other. */
static void a_ball_asked_for(void **state)
{
    (void)state;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&BAG, slot);
        if (!ball)
            continue;
        Spare spare = find(1u << 9, 1, 15.0, ball);
        assert_ptr_equal(spare.line.ball, ball);
        assert_false(spare.strike_ball);
        assert_true(spare.line.chance > 0.2 && spare.line.chance <= 1.0);
        assert_true(spare.line.window_low <= spare.line.window_high);
    }
}

/* A lone pin falls where ball and pin touch: over as many boards as both are wide together. A ball
 * is 8.5 inches wide and a pin 4.766 (USBC specifications). Half boards and smoothing widen that by
 * a quarter of a board to either side at most; past its ends nothing falls. */
static void a_lone_pin_is_as_wide_as_ball_and_pin(void **state)
{
    (void)state;
    static const int PINS[] = {1, 2, 3, 4, 5, 6, 8, 9}; /* not beside a gutter */
    enum { COUNT = sizeof PINS / sizeof *PINS };
    const double wide = (8.5 + 4.766) * 39.0 / 41.5;
    double all = 0.0;
    for (int i = 0; i < COUNT; i++) {
        static SpareHits hits;
        RackHit hit = {.degrees = 1.5, .mph = 16.0, .pounds = 15.0};
        spare_hits_roll(pin_bit(PINS[i]), &hit, 8000.0, &hits);
        double area = 0.0;
        for (int place = 0; place < SPARE_PLACES; place++) {
            double away = fabs(spare_place_board(place) - spare_pin_board(PINS[i]));
            area += 0.5 * hits.falls[place];
            assert_true(away < 0.5 * wide + 1.5 || hits.falls[place] == 0.0);
            assert_true(away > 0.5 * wide - 1.5 || hits.falls[place] > 0.98);
        }
        assert_near(area, wide, 0.6);
        all += area / COUNT;
    }
    assert_near(all, wide, 0.5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(an_aim_unsaid),
                                       cmocka_unit_test(a_slot_unsaid),
                                       cmocka_unit_test(a_ball_asked_for),
                                       cmocka_unit_test(a_lone_pin_is_as_wide_as_ball_and_pin)};
    return cmocka_run_group_tests_name("spare_input", tests, set_up, NULL);
}
