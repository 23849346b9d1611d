/* view.h - draws the right screen, as a pure function from a const model to a canvas. */
#ifndef SETTEE_UI_VIEW_H
#define SETTEE_UI_VIEW_H

#include "ui/draw/canvas.h"
#include "ui/model.h"

/* Draws what the model shows now, at the canvas's size (which the model must know). */
void view_draw(const Model *model, Canvas *canvas);

#endif
