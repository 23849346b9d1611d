/* The line a ball wants: it hits the pocket, its room is what it says, and its chance is what
 * throwing it over and over gives. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/rng.h"
#include "core/line/fit.h"
#include "core/line/line.h"
#include "core/motion/batch.h"
#include "helper_same.h"
#include "store/files.h"

static Bag BAG;
static const char *const PATTERNS[] = {"apron", "parlour", "slant", "kerb"};
enum { PATTERNS_COUNT = sizeof PATTERNS / sizeof PATTERNS[0], STRIKE_BALLS = 5 };
static Oil OIL[PATTERNS_COUNT]; /* a right-hander's frame */
static MotionBody BODY[BAG_SLOTS];

static int set_up(void **state)
{
    (void)state;
    Error error = {0};
    if (!files_bag("demo", &BAG, &error))
        return -1;
    for (int i = 0; i < BAG_SLOTS; i++)
        motion_body(bag_slot(&BAG, i + 1), &BODY[i]);
    for (int i = 0; i < PATTERNS_COUNT; i++) {
        Pattern pattern;
        if (!files_pattern(PATTERNS[i], &pattern, &error)) {
            print_error("%s\n", error.text);
            return -1;
        }
        oil_lay(&pattern, &OIL[i]);
    }
    return 0;
}

static Delivery usual(void) { return delivery_of(&BAG.bowler, 26.0, 15.0); }

static Line search(int slot, const Oil *oil, double laydown)
{
    Delivery delivery = usual();
    return line_search(&BODY[slot - 1], oil, &BAG.bowler, &delivery, laydown, 0.0);
}

static Arrival arrive(int slot, const Oil *oil, double stance, double aim)
{
    Delivery delivery = delivery_of(&BAG.bowler, stance, aim);
    return motion_arrive(&BODY[slot - 1], oil, &delivery);
}

static bool in_pocket(double board)
{
    return board >= LANE_POCKET_LOW && board <= LANE_POCKET_HIGH;
}

static void test_found_lines_hit_the_pocket(void **state)
{
    (void)state;
    for (int p = 0; p < PATTERNS_COUNT; p++)
        for (int slot = 1; slot <= BAG_SLOTS; slot++)
            for (double laydown = 14.0; laydown <= 30.0; laydown += 4.0) {
                Line line = search(slot, &OIL[p], laydown);
                assert_true(line.pocket >= 0.0 && line.pocket <= 1.0);
                assert_near(line.laydown_board, laydown, 0.0);
                assert_near(line.stance, delivery_stance(&BAG.bowler, laydown), 0.0);
                assert_near(delivery_launch_deg(laydown, line.aim), line.launch_deg, 1e-9);
                if (!line.found) {
                    assert_true(line.margin_in == 0.0 && line.margin_out == 0.0);
                    continue;
                }
                Arrival arrival = arrive(slot, &OIL[p], line.stance, line.aim);
                assert_true(in_pocket(arrival.board));
                assert_near(arrival.board, line.entry_board, 1e-6);
                assert_near(arrival.degrees, line.entry_deg, 1e-6);
            }
}

/* On the demo's own pattern every strike ball of the bag has a way from the usual place. */
static void test_every_ball_has_a_way(void **state)
{
    (void)state;
    for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
        Line line = search(slot, &OIL[0], 20.0);
        assert_true(line.found);
        assert_less(0.3, line.pocket);
    }
}

/* No other aim from there does better, computed the same way. */
static void test_no_better_aim(void **state)
{
    (void)state;
    for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
        Line best = search(slot, &OIL[0], 20.0);
        for (double away = -6.0; away <= 6.0; away += 0.5) {
            Delivery delivery = delivery_of(&BAG.bowler, best.stance, best.aim + away);
            Line line = line_measure(&BODY[slot - 1], &OIL[0], &BAG.bowler, &delivery, 0.0);
            assert_less(line.pocket, best.pocket + 0.05);
        }
    }
}

static void test_no_line(void **state)
{
    (void)state;
    Oil dry = {.length_ft = 20.0};
    Delivery delivery = usual();
    delivery.mph = 13.0;
    delivery.rpm = 600.0;
    Line line = line_search(&BODY[0], &dry, &BAG.bowler, &delivery, 3.0, 0.0);
    assert_false(line.found);
    assert_true(isfinite(line.aim) && isfinite(line.pocket));
    assert_less(line.pocket, 0.3);
    assert_near(line.margin_in + line.margin_out, 0.0, 0.0);
}

static void test_gutter_is_no_line(void **state)
{
    (void)state;
    Delivery delivery = delivery_of(&BAG.bowler, 26.0, 2.0);
    Line line = line_measure(&BODY[5], &OIL[0], &BAG.bowler, &delivery, 0.0);
    assert_false(line.found);
    assert_true(isnan(line.entry_board) && isnan(line.entry_deg));
    assert_near(line.pocket, 0.0, 1e-6);
}

static void test_chance_falls_with_scatter(void **state)
{
    (void)state;
    for (int p = 0; p < 2; p++)
        for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
            Line best = search(slot, &OIL[p], 20.0);
            if (!best.found)
                continue;
            Delivery delivery = delivery_of(&BAG.bowler, best.stance, best.aim);
            double last = 1.0 + 1e-9;
            for (double times = 0.25; times <= 8.0; times *= 2.0) {
                Bowler bowler = BAG.bowler;
                bowler.scatter.launch_deg *= times;
                bowler.scatter.mph *= times;
                bowler.scatter.rpm *= times;
                bowler.scatter.laydown_boards *= times;
                double pocket =
                    line_measure(&BODY[slot - 1], &OIL[p], &bowler, &delivery, 0.0).pocket;
                assert_less(pocket, last);
                last = pocket;
            }
        }
}

/* Just inside the room it still hits, a little past it no longer does. */
static void test_room_is_what_it_says(void **state)
{
    (void)state;
    for (int p = 0; p < PATTERNS_COUNT; p++)
        for (int slot = 1; slot <= BAG_SLOTS; slot++) {
            Line line = search(slot, &OIL[p], 20.0);
            if (!line.found)
                continue;
            for (int side = -1; side <= 1; side += 2) {
                double room = side > 0 ? line.margin_in : line.margin_out;
                assert_true(room >= 0.0 && room <= 3.0);
                double inside = fmax(room - 0.1, 0.0);
                assert_true(
                    in_pocket(arrive(slot, &OIL[p], line.stance, line.aim + side * inside).board));
                if (room < 2.7)
                    assert_false(in_pocket(
                        arrive(slot, &OIL[p], line.stance, line.aim + side * (room + 0.15)).board));
            }
        }
}

/* An aim a bit further in has that much less room in and that much more out: the window stays. */
static void test_window_stays_where_it_is(void **state)
{
    (void)state;
    for (int slot = 1; slot <= STRIKE_BALLS; slot++) {
        Line line = search(slot, &OIL[0], 20.0);
        assert_true(line.found);
        double window = line.margin_in + line.margin_out;
        for (double away = -0.2; away <= 0.2; away += 0.1) {
            Delivery delivery = delivery_of(&BAG.bowler, line.stance, line.aim + away);
            Line near = line_measure(&BODY[slot - 1], &OIL[0], &BAG.bowler, &delivery, 0.0);
            if (!near.found)
                continue;
            assert_near(near.margin_in + near.margin_out, window, 0.21);
            assert_near(near.margin_in, line.margin_in - away, 0.16);
        }
    }
}

/* A left-hander on the mirrored lane has the same line, to the last bit. */
static void test_mirrored_hand(void **state)
{
    (void)state;
    Oil mirrored, back;
    oil_for_hand(&OIL[2], HAND_LEFT, &mirrored); /* the lane as it would lie the other way about */
    oil_for_hand(&mirrored, HAND_LEFT, &back);
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        Line right = search(slot, &OIL[2], 20.0), left = search(slot, &back, 20.0);
        assert_same_line(&right, &left);
    }
    Line here = search(1, &OIL[2], 20.0), there = search(1, &mirrored, 20.0);
    assert_true(here.aim != there.aim); /* a lopsided pattern is another lane from the other side */
}

static void test_best_of_laydowns(void **state)
{
    (void)state;
    Delivery delivery = usual();
    for (int slot = 1; slot <= 3; slot++) {
        Line best = line_best(&BODY[slot - 1], &OIL[0], &BAG.bowler, &delivery, 17.0, 22.0);
        double most = 0.0;
        assert_true(best.found);
        for (double laydown = 17.0; laydown <= 22.0; laydown += 1.0) {
            Line line = search(slot, &OIL[0], laydown);
            if (line.found)
                most = fmax(most, line_value(&line));
        }
        assert_near(line_value(&best), most, 0.0);
        assert_true(best.laydown_board >= 17.0 && best.laydown_board <= 22.0);
    }
    Line one = line_best(&BODY[0], &OIL[0], &BAG.bowler, &delivery, 19.0, 19.0);
    assert_near(one.laydown_board, 19.0, 0.0);
}

/* Whether any of a grid of deliveries hits the pocket: every whole board that this bowler can play,
 * every quarter of a degree. */
static bool any_hits(const MotionBody *body, const Oil *oil, const Delivery *usual, double low,
                     double high)
{
    enum { LAUNCHES = 81, MOST = LANE_BOARDS * LAUNCHES };
    static BatchThrow throws[MOST];
    static Arrival arrivals[MOST];
    static BatchBall ball;
    static BatchOil film;
    int count = 0;
    batch_ball(body, &ball);
    batch_oil(oil, BATCH_FINE, &film);
    for (double laydown = low; laydown <= high; laydown += 1.0)
        for (int i = 0; i < LAUNCHES; i++) {
            throws[count] = (BatchThrow){.delivery = *usual, .film_scale = 1.0f, .dry_scale = 1.0f};
            throws[count].delivery.laydown_board = laydown;
            throws[count++].delivery.launch_deg = -10.0 + 0.25 * i;
        }
    batch_arrive(&ball, &film, throws, count, arrivals);
    for (int i = 0; i < count; i++)
        if (!arrivals[i].gutter && arrivals[i].board > LANE_POCKET_LOW + 0.1 &&
            arrivals[i].board < LANE_POCKET_HIGH - 0.1)
            return true;
    return false;
}

/* Straight, slow, strong and two-handed bowlers: where a delivery that can be thrown hits the
 * pocket, a line is found, and one that can be stood on. */
static void test_what_can_be_thrown_is_found(void **state)
{
    (void)state;
    static const struct {
        double mph, rpm, rotation, offset;
    } BOWLERS[] = {{17.6, 540.0, 45.0, 4.0}, {20.0, 620.0, 60.0, 2.0}, {14.0, 80.0, 10.0, 6.0},
                   {10.0, 60.0, 0.0, 8.0},   {12.0, 450.0, 80.0, 6.0}, {24.0, 250.0, 30.0, -5.0},
                   {17.0, 350.0, 50.0, 20.0}};
    int possible = 0;
    for (size_t b = 0; b < sizeof BOWLERS / sizeof BOWLERS[0]; b++)
        for (int p = 0; p <= PATTERNS_COUNT; p++)
            for (int slot = 1; slot <= BAG_SLOTS; slot += 5) {
                const Oil bare = {.length_ft = 20.0}, *oil = p < PATTERNS_COUNT ? &OIL[p] : &bare;
                Bowler bowler = BAG.bowler;
                bowler.mph = BOWLERS[b].mph;
                bowler.rpm = BOWLERS[b].rpm;
                bowler.rotation_deg = BOWLERS[b].rotation;
                bowler.laydown_offset_boards = BOWLERS[b].offset;
                Delivery delivery = delivery_of(&bowler, 26.0, 15.0);
                double low = LINE_LAYDOWN_LOW, high = LINE_LAYDOWN_HIGH;
                delivery_reach(&bowler, &low, &high);
                if (!any_hits(&BODY[slot - 1], oil, &delivery, low, high))
                    continue;
                possible++;
                Line line = line_best(&BODY[slot - 1], oil, &bowler, &delivery, LINE_LAYDOWN_LOW,
                                      LINE_LAYDOWN_HIGH);
                if (!line.found)
                    fail_msg("bowler %zu, pattern %d, slot %d: no line", b, p, slot);
                assert_true(line.laydown_board >= low && line.laydown_board <= high);
                assert_true(line.stance >= 1.0 && line.stance <= 50.0);
            }
    assert_true(possible > 50);
}

/* A range out of reach is drawn to what is in it. */
static void test_reach(void **state)
{
    (void)state;
    Bowler bowler = BAG.bowler;
    bowler.laydown_offset_boards = 20.0;
    double low = 31.0, high = 39.0;
    delivery_reach(&bowler, &low, &high);
    assert_near(low, 30.0, 0.0);
    assert_near(high, 30.0, 0.0);
    bowler.laydown_offset_boards = -4.5;
    low = LINE_LAYDOWN_LOW, high = LINE_LAYDOWN_HIGH;
    delivery_reach(&bowler, &low, &high);
    assert_near(low, 6.0, 0.0);
    assert_near(high, 39.0, 0.0);
    Delivery delivery = usual();
    Line line = line_best(&BODY[0], &OIL[0], &bowler, &delivery, 1.0, 3.0);
    assert_near(line.laydown_board, 6.0, 0.0);
}

/* Reaching the pocket goes before keeping clear of the gutter, that before worth. */
static void test_better(void **state)
{
    (void)state;
    Line good = {
        .found = true, .pocket = 0.5, .entry_deg = 4.0, .aim = 12.0, .breakpoint_board = 7.0};
    Line more = good, edge = good, none = good;
    more.pocket = 0.6;
    edge.pocket = 0.9;
    edge.breakpoint_board = 2.0;
    none.pocket = 0.9;
    none.found = false;
    assert_true(line_better(&more, &good) && !line_better(&good, &more));
    assert_true(line_better(&good, &edge) && !line_better(&edge, &good));
    edge = more;
    edge.aim = 4.9; /* outside the first arrow */
    assert_true(line_better(&good, &edge) && !line_better(&edge, &good));
    assert_true(line_better(&edge, &none) && !line_better(&none, &edge));
    assert_false(line_better(&good, &good));
}

/* A line is worth more with more pocket, more angle up to six degrees, and more room. */
static void test_value(void **state)
{
    (void)state;
    Line line = {
        .found = true, .pocket = 0.6, .entry_deg = 4.0, .margin_in = 0.5, .margin_out = 0.5};
    double value = line_value(&line);
    Line more = line;
    more.pocket = 0.7;
    assert_less(value, line_value(&more));
    more = line;
    more.entry_deg = 5.0;
    assert_less(value, line_value(&more));
    more = line;
    more.margin_out = 1.0;
    assert_less(value, line_value(&more));
    line.entry_deg = NAN; /* in the gutter */
    assert_true(isfinite(line_value(&line)));
    assert_less(line_value(&line), value);
}

static void test_deterministic(void **state)
{
    (void)state;
    Line a = search(3, &OIL[1], 19.0), b = search(3, &OIL[1], 19.0);
    assert_same_line(&a, &b);
}

/* What the chance stands for, thrown: launch, speed, rev rate and laydown scattered together, the
 * mark of the eyes kept as launch says. */
static double thrown(int slot, const Oil *oil, const Line *line, uint64_t seed)
{
    enum { SAMPLES = 5000 };
    const Scatter *s = &BAG.bowler.scatter;
    Rng rng = rng_seed(seed);
    int hits = 0;
    for (int i = 0; i < SAMPLES; i++) {
        Delivery delivery = delivery_of(&BAG.bowler, line->stance, line->aim);
        delivery.launch_deg += s->launch_deg * rng_normal(&rng);
        delivery.mph += s->mph * rng_normal(&rng);
        delivery.rpm += s->rpm * rng_normal(&rng);
        delivery.laydown_board += s->laydown_boards * rng_normal(&rng);
        Arrival arrival = motion_arrive(&BODY[slot - 1], oil, &delivery);
        hits += !arrival.gutter && in_pocket(arrival.board);
    }
    return (double)hits / SAMPLES;
}

static void test_chance_against_throwing(void **state)
{
    (void)state;
    static const struct {
        int pattern, slot;
        double laydown, away; /* aim off the best by so much */
    } CASES[] = {{0, 1, 20.0, 0.0}, {0, 3, 19.0, 0.0}, {0, 5, 18.0, 0.0}, {1, 4, 22.0, 0.0},
                 {1, 1, 24.0, 0.5}, {2, 2, 18.0, 0.0}, {3, 3, 20.0, -0.4}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        const Oil *oil = &OIL[CASES[i].pattern];
        Line line = search(CASES[i].slot, oil, CASES[i].laydown);
        Delivery delivery = delivery_of(&BAG.bowler, line.stance, line.aim + CASES[i].away);
        line = line_measure(&BODY[CASES[i].slot - 1], oil, &BAG.bowler, &delivery, 0.0);
        double share = thrown(CASES[i].slot, oil, &line, 100 + i);
        if (getenv("SETTEE_SHOW"))
            print_message("%s slot %d: said %.3f, thrown %.3f\n", PATTERNS[CASES[i].pattern],
                          CASES[i].slot, line.pocket, share);
        assert_near(line.pocket, share, 0.03);
    }
}

/* Those who scatter widely: what a line and a fit say of them is what throwing gives, too. */
static void test_wide_scatter_against_throwing(void **state)
{
    (void)state;
    static const double LAUNCH[] = {0.1, 0.25, 0.4, 0.7}, RPM[] = {330.0, 140.0};
    const Scatter usual_scatter = BAG.bowler.scatter;
    const double usual_rpm = BAG.bowler.rpm;
    static BatchBall ball;
    static BatchOil film;
    batch_oil(&OIL[0], BATCH_QUICK, &film);
    for (int i = 0; i < 4; i++)
        for (int k = 0; k < 2; k++) {
            int slot = k == 0 ? 1 : 6;
            const MotionBody *body = &BODY[slot - 1];
            BAG.bowler.scatter.launch_deg = LAUNCH[i];
            BAG.bowler.rpm = RPM[k];
            Delivery delivery = usual();
            Line line = line_search(body, &OIL[0], &BAG.bowler, &delivery, k ? 8.0 : 19.0, 0.0);
            batch_ball(body, &ball);
            Fit fit = fit_ball(&ball, &film, &BAG.bowler);
            Line fitted = fit_line(body, &OIL[0], &BAG.bowler, &fit);
            double share = thrown(slot, &OIL[0], &line, 200 + (uint64_t)i);
            double fit_share = thrown(slot, &OIL[0], &fitted, 300 + (uint64_t)i);
            if (getenv("SETTEE_SHOW"))
                print_message(
                    "launch %.2f slot %d: line %.3f, thrown %.3f; fit %.3f, thrown %.3f\n",
                    LAUNCH[i], slot, line.pocket, share, fit.pocket, fit_share);
            assert_near(line.pocket, share, 0.03);
            assert_near(fitted.pocket, fit_share, 0.03);
            assert_near(fit.pocket, fit_share, 0.05);
        }
    BAG.bowler.scatter = usual_scatter;
    BAG.bowler.rpm = usual_rpm;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_found_lines_hit_the_pocket),
        cmocka_unit_test(test_every_ball_has_a_way),
        cmocka_unit_test(test_no_better_aim),
        cmocka_unit_test(test_no_line),
        cmocka_unit_test(test_gutter_is_no_line),
        cmocka_unit_test(test_chance_falls_with_scatter),
        cmocka_unit_test(test_room_is_what_it_says),
        cmocka_unit_test(test_window_stays_where_it_is),
        cmocka_unit_test(test_mirrored_hand),
        cmocka_unit_test(test_best_of_laydowns),
        cmocka_unit_test(test_what_can_be_thrown_is_found),
        cmocka_unit_test(test_reach),
        cmocka_unit_test(test_better),
        cmocka_unit_test(test_value),
        cmocka_unit_test(test_deterministic),
        cmocka_unit_test(test_chance_against_throwing),
        cmocka_unit_test(test_wide_scatter_against_throwing),
    };
    return cmocka_run_group_tests(tests, set_up, NULL);
}
