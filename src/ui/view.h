/* view.h - which screen it is, as a pure function: a const model in, a canvas filled. */
#ifndef SETTEE_UI_VIEW_H
#define SETTEE_UI_VIEW_H

#include "ui/draw/canvas.h"
#include "ui/model.h"

/* Draws what the model shows now, at the canvas's size (which the model must have been told). */
void view_draw(const Model *model, Canvas *canvas);

#endif
