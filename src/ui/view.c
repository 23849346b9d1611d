/* view.c - which screen to draw, and what to show if none fits. */
#include "ui/view.h"

#include <stdio.h>

#include "base/text.h"
#include "ui/screens/screens.h"

static void draw_small(const Model *model, Canvas *canvas)
{
    char text[200];
    screen_prompt(model, text, sizeof text);
    if (model->mode == MODE_ASK)
        text_append(text, sizeof text, " y/n");
    else
        snprintf(text, sizeof text,
                 "settee needs %dx%d; this is %dx%d. Make the window larger, or press q to quit.",
                 SCREEN_COLUMNS_MIN, SCREEN_ROWS_MIN, canvas->columns, canvas->rows);
    int row = canvas->rows > 4 ? canvas->rows / 3 : 0;
    canvas_wrap(canvas, row, 0, canvas->columns, canvas->rows - row, ROLE_PLAIN, text);
}

void view_draw(const Model *model, Canvas *canvas)
{
    canvas_erase(canvas);
    canvas->ascii = model->glyphs->ascii;
    if (canvas->columns < SCREEN_COLUMNS_MIN || canvas->rows < SCREEN_ROWS_MIN)
        draw_small(model, canvas);
    else if (model->mode == MODE_HELP || model->mode == MODE_WORDS)
        screen_help(model, canvas);
    else if (model->mode == MODE_SPARES)
        screen_spares(model, canvas);
    else if (model->mode == MODE_BALL)
        screen_ball(model, canvas);
    else if (model->mode == MODE_BAG ||
             (model->mode == MODE_ASK && model->prompt == PROMPT_REMOVE_BALL))
        screen_bag(model, canvas);
    else if (model->mode == MODE_BLOCK)
        screen_block(model, canvas);
    else if (model->mode == MODE_OIL)
        screen_oil(model, canvas);
    else
        screen_lane(model, canvas);
}
