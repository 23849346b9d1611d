/* delivery.h - what leaves the hand, from what the bowler sees and intends: stance, aim, and
 * changes to the usual release. */
#ifndef SETTEE_CORE_MOTION_DELIVERY_H
#define SETTEE_CORE_MOTION_DELIVERY_H

#include "core/bag/bag.h"

typedef struct Delivery {
    double laydown_board; /* ball's centre at the foul line, bowler's own side first */
    double launch_deg;    /* + toward the bowler's own gutter */
    double mph, rpm;
    double rotation_deg; /* 0 end over end, 90 side roll, from the direction of travel */
    double tilt_deg;
    double loft_ft; /* foul line to touchdown */
} Delivery;

/* How a throw differs from what was intended: scatter, and the bowler's day. */
typedef struct DeliveryOffset {
    double launch_deg, mph, rpm, laydown_boards;
} DeliveryOffset;

/* The delivery with the offset: never slower than DELIVERY_MPH_LEAST and never with backspin,
 * however wide the scatter the offset was drawn from. */
#define DELIVERY_MPH_LEAST 5.0 /* assumed: nobody bowls slower */
Delivery delivery_offset(const Delivery *meant, const DeliveryOffset *offset);

/* The bowler's usual release, played from `stance` over `aim` (board at the arrows, 15 ft). */
Delivery delivery_of(const Bowler *bowler, double stance, double aim);

/* What the bowler intends to throw. Changes are relative to the usual release. */
typedef struct Plan {
    int slot; /* 1..6 */
    double stance, aim;
    double mph_change, loft_change_ft, rotation_change_deg;
} Plan;

/* Limits of a plan and of a shot thrown by one, in files, screens and sessions (assumed: wider than
 * anyone plays). Plain numbers, since messages spell them out. */
#define PLAN_BOARD_LOW -10 /* stance and aim */
#define PLAN_BOARD_HIGH 60
#define PLAN_MPH_CHANGE_LOW -2
#define PLAN_MPH_CHANGE_HIGH 2
#define PLAN_LOFT_CHANGE_LOW -3 /* feet */
#define PLAN_LOFT_CHANGE_HIGH 5
#define PLAN_ROTATION_CHANGE_LOW -110 /* degrees */
#define PLAN_ROTATION_CHANGE_HIGH 110

/* Equal to the last bit, member by member. */
bool plan_same(const Plan *a, const Plan *b);

/* The delivery when thrown as planned; loft is never below 0. */
Delivery plan_delivery(const Bowler *bowler, const Plan *plan);

/* The same as the bowler is throwing today: `today` is how speed, launch and the rest are thought
 * to differ from the usual. Every path and search about what a plan would do today starts here. */
Delivery plan_today(const Bowler *bowler, const Plan *plan, const DeliveryOffset *today);

/* The board to aim at, from that laydown, for today's throw to cross board `crosses` at the arrows.
 */
double plan_aim_today(double laydown_board, double crosses, const DeliveryOffset *today);

/* Boards that can be played: the ball's centre on the lane, and the feet on the approach, which is
 * about as wide as lane and gutters (assumed). */
#define DELIVERY_LAYDOWN_LOW 1.0
#define DELIVERY_LAYDOWN_HIGH ((double)LANE_BOARDS)
#define DELIVERY_STANCE_LOW 1.0
#define DELIVERY_STANCE_HIGH 50.0

/* Narrows laydown boards low..high to those this bowler can play; whole boards stay whole. */
void delivery_reach(const Bowler *bowler, double *low, double *high);

double delivery_launch_deg(double laydown_board, double aim_board);
double delivery_aim_board(double laydown_board, double launch_deg);
double delivery_stance(const Bowler *bowler, double laydown_board);

#endif
