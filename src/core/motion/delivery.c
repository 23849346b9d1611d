/* delivery.c - from stance and aim to laydown and launch; from a plan to a throw. */
#include "core/motion/delivery.h"

#include <math.h>

#include "base/units.h"

double delivery_launch_deg(double laydown_board, double aim_board)
{
    return deg_from_rad(
        atan((laydown_board - aim_board) * LANE_BOARD_M / m_from_ft(LANE_ARROWS_FT)));
}

double delivery_aim_board(double laydown_board, double launch_deg)
{
    return laydown_board - tan(rad_from_deg(launch_deg)) * m_from_ft(LANE_ARROWS_FT) / LANE_BOARD_M;
}

double delivery_stance(const Bowler *bowler, double laydown_board)
{
    return laydown_board + bowler->laydown_offset_boards;
}

static double drawn_to(double value, double low, double high)
{
    return fmin(fmax(value, low), high);
}

void delivery_reach(const Bowler *bowler, double *low, double *high)
{
    double offset = bowler->laydown_offset_boards;
    double least = fmax(DELIVERY_LAYDOWN_LOW, ceil(DELIVERY_STANCE_LOW - offset));
    double most = fmin(DELIVERY_LAYDOWN_HIGH, floor(DELIVERY_STANCE_HIGH - offset));
    *low = drawn_to(*low, least, most);
    *high = drawn_to(*high, least, most);
}

Delivery delivery_of(const Bowler *bowler, double stance, double aim)
{
    double laydown = stance - bowler->laydown_offset_boards;
    return (Delivery){.laydown_board = laydown,
                      .launch_deg = delivery_launch_deg(laydown, aim),
                      .mph = bowler->mph,
                      .rpm = bowler->rpm,
                      .rotation_deg = bowler->rotation_deg,
                      .tilt_deg = bowler->tilt_deg,
                      .loft_ft = bowler->loft_ft};
}

Delivery delivery_offset(const Delivery *meant, const DeliveryOffset *offset)
{
    Delivery thrown = *meant;
    thrown.laydown_board += offset->laydown_boards;
    thrown.launch_deg += offset->launch_deg;
    thrown.mph = fmax(DELIVERY_MPH_LEAST, thrown.mph + offset->mph);
    thrown.rpm = fmax(0.0, thrown.rpm + offset->rpm);
    return thrown;
}

bool plan_same(const Plan *a, const Plan *b)
{
    return a->slot == b->slot && a->stance == b->stance && a->aim == b->aim &&
           a->mph_change == b->mph_change && a->loft_change_ft == b->loft_change_ft &&
           a->rotation_change_deg == b->rotation_change_deg;
}

Delivery plan_delivery(const Bowler *bowler, const Plan *plan)
{
    Delivery delivery = delivery_of(bowler, plan->stance, plan->aim);
    delivery.mph += plan->mph_change;
    delivery.loft_ft = fmax(0.0, delivery.loft_ft + plan->loft_change_ft);
    delivery.rotation_deg += plan->rotation_change_deg;
    return delivery;
}

Delivery plan_today(const Bowler *bowler, const Plan *plan, const DeliveryOffset *today)
{
    Delivery meant = plan_delivery(bowler, plan);
    return delivery_offset(&meant, today);
}

double plan_aim_today(double laydown_board, double crosses, const DeliveryOffset *today)
{
    double launch = delivery_launch_deg(laydown_board + today->laydown_boards, crosses);
    return delivery_aim_board(laydown_board, launch - today->launch_deg);
}
