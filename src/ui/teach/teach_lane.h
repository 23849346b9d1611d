/* teach_lane.h - a lane from above for a lesson: one shot's path on the oil, or the throws of a
 * choice as a cloud. Mirrored for a left-hander, here alone. */
#ifndef SETTEE_UI_TEACH_TEACH_LANE_H
#define SETTEE_UI_TEACH_TEACH_LANE_H

#include "ui/draw/widgets.h"
#include "ui/teach/teach_model.h"

typedef struct TeachLane {
    const Glyphs *glyphs;
    Area area; /* the deck's four rows, the lane, and the foul line's row */
    Hand hand;
    Pins standing; /* as a right-hander numbers them */
} TeachLane;

/* Pins, gutters, foul line; and the oil, if not NULL. */
void teach_lane_draw(const TeachLane *lane, const Oil *oil, Canvas *canvas);
void teach_lane_path(const TeachLane *lane, const Roll *roll, Role role, Canvas *canvas);
/* The ball itself, on its way. */
void teach_lane_ball(const TeachLane *lane, const PathPoint *at, Canvas *canvas);
/* Few balls on a cell, some, many: three glyphs. */
void teach_lane_cloud(const TeachLane *lane, const TeachCloud *cloud, Role role, Canvas *canvas);

#endif
