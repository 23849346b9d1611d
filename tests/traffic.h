/* traffic.h - a lane worn by many: sideways shifts against one line, nearer as often as farther. */
#ifndef SETTEE_TESTS_TRAFFIC_H
#define SETTEE_TESTS_TRAFFIC_H

/* Boards; `turn` counts deliveries. */
static inline double traffic_shift(int turn)
{
    static const double SHIFT[] = {2.0, -2.0, 4.0, -3.0, 1.0, -1.0, 6.0, -5.0, 3.0};
    return SHIFT[turn % (int)(sizeof SHIFT / sizeof SHIFT[0])];
}

#endif
