/* delivery.c - stance and aim to laydown and launch. */
#include "core/delivery.h"

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
