/* delivery.h - what leaves the hand, from what the bowler can see: stance and aim. */
#ifndef SETTEE_CORE_DELIVERY_H
#define SETTEE_CORE_DELIVERY_H

#include "core/bag.h"

typedef struct Delivery {
    double laydown_board; /* ball's centre at the foul line, bowler's own side first */
    double launch_deg;    /* + toward the bowler's own gutter */
    double mph, rpm;
    double rotation_deg; /* 0 end over end, 90 side roll, from the direction of travel */
    double tilt_deg;
    double loft_ft; /* foul line to touchdown */
} Delivery;

/* The bowler's usual release, played from `stance` over `aim` (board at the arrows, 15 ft). */
Delivery delivery_of(const Bowler *bowler, double stance, double aim);

double delivery_launch_deg(double laydown_board, double aim_board);
double delivery_aim_board(double laydown_board, double launch_deg);
double delivery_stance(const Bowler *bowler, double laydown_board);

#endif
