/* near.h - cmocka and a comparison of doubles that prints all digits. */
#ifndef SETTEE_TESTS_NEAR_H
#define SETTEE_TESTS_NEAR_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>

#define assert_near(actual, expected, tolerance)                                                   \
    do {                                                                                           \
        double near_a = (actual), near_e = (expected), near_t = (tolerance);                       \
        if (!(fabs(near_a - near_e) <= near_t))                                                    \
            fail_msg("%s is %.17g, expected %.17g within %g", #actual, near_a, near_e, near_t);    \
    } while (0)

#define assert_less(smaller, larger)                                                               \
    do {                                                                                           \
        double near_s = (smaller), near_l = (larger);                                              \
        if (!(near_s < near_l))                                                                    \
            fail_msg("%s (%.17g) is not less than %s (%.17g)", #smaller, near_s, #larger, near_l); \
    } while (0)

#endif
