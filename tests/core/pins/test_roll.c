/* test_roll.c - the simulated rack as a function: valid for any hit and set, the same each time,
 * the same in the mirror. What it says about bowling is in tests/published/test_rack.c. */
#include "near.h"

#include "core/pins/rack_sim.h"

static RackHit any_hit(Rng *rng)
{
    return (RackHit){.board = rng_between(rng, 1.0, 39.0),
                     .degrees = rng_between(rng, -9.0, 9.0),
                     .mph = rng_between(rng, 10.0, 24.0),
                     .rpm = rng_uniform(rng) < 0.5 ? 0.0 : rng_between(rng, 50.0, 650.0),
                     .pounds = rng_between(rng, 6.0, 16.0)};
}

static void valid(const RackHit *hit, Pins set, Rng *rng)
{
    double exit_board;
    Pins touched;
    Pins left = rack_sim_roll(hit, set, rng, &exit_board, &touched);
    if ((left & ~set) || (touched & ~set))
        fail_msg("set %x: left %x, touched %x", set, left, touched);
    if (!isnan(exit_board) && !(exit_board > 0.4 && exit_board < 39.6))
        fail_msg("leaves the deck on board %g", exit_board);
    if (touched == 0)
        assert_int_equal(left, set); /* pins fall by the ball or not at all */
}

static void any_hit_gives_some_of_the_set(void **state)
{
    (void)state;
    Rng rng = rng_seed(41);
    for (int i = 0; i < 10000; i++) {
        RackHit hit = any_hit(&rng);
        valid(&hit, i % 2 ? PINS_ALL : (Pins)(rng_next(&rng) & PINS_ALL), &rng);
    }
}

/* Far outside of what anyone throws, and what is no number at all. */
static void extremes_are_survived(void **state)
{
    (void)state;
    const double boards[] = {-1e9, -3, 0.5, 1, 20, 39, 39.5, 43, 1e300, NAN, INFINITY};
    const double degrees[] = {-90, -45, 0, 45, 89, 1e9, NAN};
    const double speeds[] = {0, 0.01, 1, 17, 60, NAN};
    const double weights[] = {0.1, 6, 16, 100};
    Rng rng = rng_seed(42);
    for (size_t b = 0; b < sizeof boards / sizeof *boards; b++)
        for (size_t d = 0; d < sizeof degrees / sizeof *degrees; d++)
            for (size_t s = 0; s < sizeof speeds / sizeof *speeds; s++)
                for (size_t w = 0; w < sizeof weights / sizeof *weights; w++) {
                    RackHit hit = {boards[b], degrees[d], speeds[s], d % 2 ? 900.0 : 0.0,
                                   weights[w]};
                    Pins touched, left = rack_sim_roll(&hit, PINS_ALL, &rng, NULL, &touched);
                    assert_int_equal(left & ~PINS_ALL, 0);
                }
}

static void every_set_is_survived(void **state)
{
    (void)state;
    Rng rng = rng_seed(43);
    for (Pins set = 0; set <= PINS_ALL; set++) {
        for (int k = 0; k < 2; k++) {
            RackHit hit = any_hit(&rng);
            valid(&hit, set, &rng);
        }
    }
}

static void bits_above_the_ten_are_ignored(void **state)
{
    (void)state;
    Rng a = rng_seed(44), b = rng_seed(44);
    RackHit hit = {17.5, 5.0, 16.5, 0.0, 15.0};
    assert_int_equal(rack_sim_roll(&hit, 0xffff, &a, NULL, NULL),
                     rack_sim_roll(&hit, PINS_ALL, &b, NULL, NULL));
}

static void same_seed_same_rack(void **state)
{
    (void)state;
    for (unsigned seed = 0; seed < 200; seed++) {
        Rng rng = rng_seed(seed);
        RackHit hit = any_hit(&rng);
        Rng again = rng;
        double exit_a, exit_b;
        Pins touched_a, touched_b;
        Pins a = rack_sim_roll(&hit, PINS_ALL, &rng, &exit_a, &touched_a);
        Pins b = rack_sim_roll(&hit, PINS_ALL, &again, &exit_b, &touched_b);
        assert_int_equal(a, b);
        assert_int_equal(touched_a, touched_b);
        assert_memory_equal(&exit_a, &exit_b, sizeof exit_a);
        assert_memory_equal(&rng, &again, sizeof rng);
    }
}

/* A rack takes one number whatever pins stand, so common random numbers compare like with like. */
static void any_set_takes_one_number(void **state)
{
    (void)state;
    static const Pins SETS[] = {PINS_ALL, 0, 1 << 9, 1 << 2 | 1 << 9};
    static const double BOARDS[] = {17.5, 5.0}; /* on the table's boards, and beside them */
    for (size_t i = 0; i < sizeof SETS / sizeof *SETS; i++)
        for (int k = 0; k < 2; k++) {
            Rng a = rng_seed(45), b = rng_seed(45);
            RackHit hit = {BOARDS[k], 5.0, 16.5, 0.0, 15.0};
            rack_roll(&hit, SETS[i], &a);
            rng_next(&b);
            assert_memory_equal(&a, &b, sizeof a);
        }
}

/* Any other set than a full rack is the simulation's, with a number of its own. */
static void part_of_a_rack_is_simulated(void **state)
{
    (void)state;
    Rng a = rng_seed(50), b = rng_seed(50);
    for (int i = 0; i < 100; i++) {
        RackHit hit = any_hit(&a);
        any_hit(&b);
        Pins set = (Pins)(i * 10 + 3);
        Pins left = rack_roll(&hit, set, &a);
        Rng own = rng_seed(rng_next(&b));
        assert_int_equal(left, rack_sim_roll(&hit, set, &own, NULL, NULL));
    }
}

static RackHit mirrored(RackHit hit)
{
    hit.board = lane_mirror_board(hit.board);
    hit.degrees = -hit.degrees;
    return hit;
}

/* Boards in 1/64 so that the mirrored board is exact in binary. */
static RackHit mirror_hit(Rng *rng)
{
    RackHit hit = any_hit(rng);
    hit.board = floor(hit.board * 64.0) / 64.0;
    return hit;
}

static void mirrored_hit_gives_mirrored_pins(void **state)
{
    (void)state;
    Rng rng = rng_seed(46);
    for (int i = 0; i < 2000; i++) {
        RackHit hit = mirror_hit(&rng), other = mirrored(hit);
        if (i % 10 == 0) { /* straight down the middle: the jitter decides the side */
            hit.board = other.board = 20.0;
            hit.degrees = 0.0;
            other.degrees = -0.0;
        }
        Pins set = i % 2 ? PINS_ALL : (Pins)(rng_next(&rng) & PINS_ALL);
        RackJitter jitter = rack_jitter(&RACK_PARAMS, &rng);
        RackJitter jitter_other = rack_jitter_mirrored(&jitter);
        double exit_a, exit_b;
        Pins touched_a, touched_b;
        Pins a = rack_simulate(&RACK_PARAMS, &hit, set, &jitter, &exit_a, &touched_a);
        Pins b = rack_simulate(&RACK_PARAMS, &other, lane_mirror_pins(set), &jitter_other, &exit_b,
                               &touched_b);
        assert_int_equal(lane_mirror_pins(a), b);
        assert_int_equal(lane_mirror_pins(touched_a), touched_b);
        assert_true(isnan(exit_a) == isnan(exit_b));
        if (!isnan(exit_a))
            assert_near(lane_mirror_board(exit_a), exit_b, 1e-12); /* 40 - x rounds */
    }
}

/* The test above holds by construction; this one asks the physics itself. Only the order in which
 * simultaneous contacts are taken differs between the sides. Measured: 3,000 of 3,000 alike. */
static void physics_has_no_side(void **state)
{
    (void)state;
    Rng rng = rng_seed(47);
    int alike = 0;
    for (int i = 0; i < 1000; i++) {
        RackHit hit = mirror_hit(&rng), other = mirrored(hit);
        RackJitter jitter = rack_jitter(&RACK_PARAMS, &rng);
        RackJitter jitter_other = rack_jitter_mirrored(&jitter);
        Pins a = rack_simulate_as_is(&RACK_PARAMS, &hit, PINS_ALL, &jitter, NULL, NULL);
        Pins b = rack_simulate_as_is(&RACK_PARAMS, &other, PINS_ALL, &jitter_other, NULL, NULL);
        alike += lane_mirror_pins(a) == b;
    }
    assert_true(alike >= 990);
}

static void mirrored_jitter_twice_is_itself(void **state)
{
    (void)state;
    Rng rng = rng_seed(48);
    RackJitter jitter = rack_jitter(&RACK_PARAMS, &rng);
    RackJitter once = rack_jitter_mirrored(&jitter), twice = rack_jitter_mirrored(&once);
    assert_memory_equal(&jitter, &twice, sizeof jitter);
    assert_near(once.right_in[1], -jitter.right_in[2], 0.0);
    assert_near(once.restitution[6], jitter.restitution[9], 0.0);
}

/* A single pin met by the ball's middle goes down; missed by an inch, it stands. */
static void single_pins_fall_when_hit(void **state)
{
    (void)state;
    Rng rng = rng_seed(49);
    for (int pin = 1; pin <= 10; pin++) {
        double board = 20.0 - lane_pin_right_in(pin) * 0.0254 / LANE_BOARD_M;
        for (int k = 0; k < 20; k++) {
            RackHit hit = {board, 0.0, 16.0, 0.0, 15.0};
            assert_int_equal(rack_sim_roll(&hit, pin_bit(pin), &rng, NULL, NULL), 0);
            hit.board += (board > 20.0 ? -8.0 : 8.0); /* 8.5 in; together they are 6.7 wide */
            assert_int_equal(rack_sim_roll(&hit, pin_bit(pin), &rng, NULL, NULL), pin_bit(pin));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_hit_gives_some_of_the_set),
        cmocka_unit_test(extremes_are_survived),
        cmocka_unit_test(every_set_is_survived),
        cmocka_unit_test(bits_above_the_ten_are_ignored),
        cmocka_unit_test(same_seed_same_rack),
        cmocka_unit_test(any_set_takes_one_number),
        cmocka_unit_test(part_of_a_rack_is_simulated),
        cmocka_unit_test(mirrored_hit_gives_mirrored_pins),
        cmocka_unit_test(physics_has_no_side),
        cmocka_unit_test(mirrored_jitter_twice_is_itself),
        cmocka_unit_test(single_pins_fall_when_hit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
