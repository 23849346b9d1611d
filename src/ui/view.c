/* view.c - which screen it is; and what is shown where no screen fits. */
#include "ui/view.h"

#include <stdio.h>

const char *view_question(const Model *model)
{
    switch (model->question) {
    case ASK_NEXT_GAME:
        return "Begin the next game?";
    case ASK_QUIT_TYPING:
        return "A shot is half typed. Leave it and quit?";
    case ASK_QUIT_UNSAVED:
        return "Not all of it is saved. Quit all the same?";
    }
    return "";
}

static void draw_small(const Model *model, Canvas *canvas)
{
    char text[160];
    if (model->mode == MODE_ASK)
        snprintf(text, sizeof text, "%s y/n", view_question(model));
    else
        snprintf(text, sizeof text,
                 "settee needs %dx%d; this is %dx%d. Make it larger, or q quits.",
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
    else if (model->mode == MODE_HELP)
        screen_help(model, canvas);
    else if (model->mode == MODE_SPARES)
        screen_spares(model, canvas);
    else if (model->mode == MODE_BAG)
        screen_bag(model, canvas);
    else if (model->mode == MODE_BLOCK)
        screen_block(model, canvas);
    else
        screen_lane(model, canvas);
}
