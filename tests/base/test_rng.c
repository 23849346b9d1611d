/* The random generator: its published first numbers, its moments, and that a seed is a promise. */
#include "near.h"

#include <stdio.h>

#include "base/rng.h"

/* splitmix64's outputs for seed 0 become the state. From memory: the first four outputs of the
 * authors' C for that seed, as quoted in many test suites. */
static void test_splitmix_of_zero(void **state)
{
    (void)state;
    Rng rng = rng_seed(0);
    assert_true(rng.s[0] == UINT64_C(0xe220a8397b1dcdaf));
    assert_true(rng.s[1] == UINT64_C(0x6e789e6aa1b965f4));
    assert_true(rng.s[2] == UINT64_C(0x06c45d188009454f));
    assert_true(rng.s[3] == UINT64_C(0xf88bb8a8724c81ec));
}

/* From memory: the worked example for seed 1234567 that circulates with the algorithm. */
static void test_splitmix_of_1234567(void **state)
{
    (void)state;
    Rng rng = rng_seed(1234567);
    assert_true(rng.s[0] == UINT64_C(6457827717110365317));
    assert_true(rng.s[1] == UINT64_C(3203168211198807973));
    assert_true(rng.s[2] == UINT64_C(9817491932198370423));
    assert_true(rng.s[3] == UINT64_C(4593380528125082431));
}

/* From memory: outputs of the reference xoshiro256** from the state 1 2 3 4. The first three are
 * also arithmetic by hand: rotl(2 * 5, 7) * 9 = 11520, then s[1] = 0 gives 0. */
static void test_xoshiro_from_1234(void **state)
{
    (void)state;
    static const uint64_t EXPECTED[] = {UINT64_C(11520),
                                        UINT64_C(0),
                                        UINT64_C(1509978240),
                                        UINT64_C(1215971899390074240),
                                        UINT64_C(1216172134540287360),
                                        UINT64_C(607988272756665600),
                                        UINT64_C(16172922978634559625),
                                        UINT64_C(8476171486693032832),
                                        UINT64_C(10595114339597558777),
                                        UINT64_C(2904607092377533576)};
    Rng rng = {{1, 2, 3, 4}};
    for (size_t i = 0; i < sizeof EXPECTED / sizeof EXPECTED[0]; i++)
        assert_true(rng_next(&rng) == EXPECTED[i]);
}

static void test_same_seed_same_numbers(void **state)
{
    (void)state;
    Rng a = rng_seed(42), b = rng_seed(42), c = rng_seed(43);
    int differ = 0;
    for (int i = 0; i < 1000; i++) {
        uint64_t x = rng_next(&a);
        assert_true(x == rng_next(&b));
        differ += x != rng_next(&c);
    }
    assert_true(differ >= 999);
    Rng copy = a; /* a value: a copy goes its own way */
    assert_true(rng_normal(&a) == rng_normal(&copy));
}

enum { MANY = 200000 };

/* Moments within five standard errors. */
static void test_uniform(void **state)
{
    (void)state;
    Rng rng = rng_seed(7);
    double sum = 0.0, square = 0.0, low = 1.0, high = 0.0;
    int tenth[10] = {0};
    for (int i = 0; i < MANY; i++) {
        double u = rng_uniform(&rng);
        assert_true(u >= 0.0 && u < 1.0);
        sum += u;
        square += u * u;
        low = fmin(low, u);
        high = fmax(high, u);
        tenth[(int)(10.0 * u)]++;
    }
    double mean = sum / MANY;
    assert_near(mean, 0.5, 5.0 * sqrt(1.0 / 12.0 / MANY));
    assert_near(square / MANY - mean * mean, 1.0 / 12.0, 5.0 * sqrt(1.0 / 180.0 / MANY));
    assert_less(low, 1e-3);
    assert_less(0.999, high);
    for (int k = 0; k < 10; k++)
        assert_near(tenth[k], 0.1 * MANY, 5.0 * sqrt(0.09 * MANY));
}

static void test_between(void **state)
{
    (void)state;
    Rng rng = rng_seed(8);
    double sum = 0.0;
    for (int i = 0; i < MANY; i++) {
        double u = rng_between(&rng, -3.0, 5.0);
        assert_true(u >= -3.0 && u < 5.0);
        sum += u;
    }
    assert_near(sum / MANY, 1.0, 5.0 * 8.0 * sqrt(1.0 / 12.0 / MANY));
    assert_near(rng_between(&rng, 2.0, 2.0), 2.0, 0.0);
}

static void test_normal(void **state)
{
    (void)state;
    Rng rng = rng_seed(9);
    double sum = 0.0, square = 0.0, cube = 0.0, fourth = 0.0, product = 0.0, last = 0.0;
    int within = 0;
    for (int i = 0; i < MANY; i++) {
        double z = rng_normal(&rng);
        assert_true(isfinite(z));
        sum += z;
        square += z * z;
        cube += z * z * z;
        fourth += z * z * z * z;
        product += z * last;
        last = z;
        within += fabs(z) < 1.0;
    }
    assert_near(sum / MANY, 0.0, 5.0 * sqrt(1.0 / MANY));
    assert_near(square / MANY, 1.0, 5.0 * sqrt(2.0 / MANY));
    assert_near(cube / MANY, 0.0, 5.0 * sqrt(15.0 / MANY));
    assert_near(fourth / MANY, 3.0, 5.0 * sqrt(96.0 / MANY));
    assert_near(product / MANY, 0.0, 5.0 * sqrt(1.0 / MANY)); /* one tells nothing of the next */
    assert_near((double)within / MANY, 0.68268949, 5.0 * sqrt(0.2166 / MANY));
}

/* Neighbouring seeds give unrelated streams. */
static void test_neighbouring_seeds(void **state)
{
    (void)state;
    double sum = 0.0;
    enum { SEEDS = 20000 };
    for (uint64_t seed = 0; seed < SEEDS; seed++) {
        Rng a = rng_seed(seed), b = rng_seed(seed + 1);
        sum += (rng_uniform(&a) - 0.5) * (rng_uniform(&b) - 0.5);
    }
    assert_near(sum / SEEDS, 0.0, 5.0 / 12.0 / sqrt(SEEDS));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_splitmix_of_zero),
        cmocka_unit_test(test_splitmix_of_1234567),
        cmocka_unit_test(test_xoshiro_from_1234),
        cmocka_unit_test(test_same_seed_same_numbers),
        cmocka_unit_test(test_uniform),
        cmocka_unit_test(test_between),
        cmocka_unit_test(test_normal),
        cmocka_unit_test(test_neighbouring_seeds),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
