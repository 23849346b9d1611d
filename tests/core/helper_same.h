/* helper_same.h - two results are the same to the last bit, compared by member: padding doesn't
 * count. */
#ifndef SETTEE_TESTS_HELPER_SAME_H
#define SETTEE_TESTS_HELPER_SAME_H

#include "core/advice/advice.h"

void assert_same_number(double a, double b); /* NAN is the same as NAN */
void assert_same_line(const Line *a, const Line *b);
void assert_same_roll(const Roll *a, const Roll *b);
void assert_same_plan(const Plan *a, const Plan *b);
void assert_same_shot(const Shot *a, const Shot *b);
void assert_same_advice(const Advice *a, const Advice *b);

#endif
