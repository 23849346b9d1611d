/* laneview.h - the lane from above, with its oil, its pins and the planned paths. */
#ifndef SETTEE_UI_DRAW_LANEVIEW_H
#define SETTEE_UI_DRAW_LANEVIEW_H

#include "ui/draw/widgets.h"
#include "ui/model.h"

void laneview_draw(const Model *model, Canvas *canvas, Area area);

/* Which of the film's glyphs (glyphs.h) a film of that thickness is drawn with. */
int laneview_shade(double units);

/* The columns it needs if it may have at most `columns`: labels, gutters, 20 or 39 or 78. */
int laneview_columns(int columns);

#endif
