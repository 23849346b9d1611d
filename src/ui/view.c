/* view.c - which screen it is; and what is shown where no screen fits. */
#include "ui/view.h"

#include <stdio.h>

#include "base/text.h"

void view_prompt(const Model *model, char *out, size_t size)
{
    const Bag *bag = &model->session->bag;
    text_copy(out, size, "");
    switch (model->prompt) {
    case PROMPT_NEXT_GAME:
        text_append(out, size, "Begin the next game?");
        break;
    case PROMPT_QUIT_TYPING:
        text_append(out, size, "A shot is half typed. Leave it and quit?");
        break;
    case PROMPT_QUIT_UNSAVED:
        text_append(out, size, "Not all of it is saved. Quit all the same?");
        break;
    case PROMPT_REMOVE_BALL:
        text_append(out, size, "Take %s out of the bag?", bag->balls[model->ball].name);
        break;
    }
}

void view_prompt_line(const Model *model, Canvas *canvas)
{
    char text[160];
    int row = canvas->rows - 2;
    view_prompt(model, text, sizeof text);
    canvas_hline(canvas, row, 0, canvas->columns, ' ', ROLE_PLAIN);
    canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_ACCENT, text);
}

static void draw_small(const Model *model, Canvas *canvas)
{
    char text[200];
    view_prompt(model, text, sizeof text);
    if (model->mode == MODE_ASK)
        text_append(text, sizeof text, " y/n");
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
    else if (model->mode == MODE_BALL)
        screen_ball(model, canvas);
    else if (model->mode == MODE_BAG ||
             (model->mode == MODE_ASK && model->prompt == PROMPT_REMOVE_BALL))
        screen_bag(model, canvas);
    else if (model->mode == MODE_BLOCK)
        screen_block(model, canvas);
    else
        screen_lane(model, canvas);
}
