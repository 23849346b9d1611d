/* view.c - which screen to draw, and what to show if none fits. */
#include "ui/view.h"

#include "ui/draw/widgets.h"
#include "ui/screens/screens.h"

/* What it needs, and what can still be done. */
static void draw_small(const Model *model, Canvas *canvas)
{
    char question[180] = "";
    if (model->mode == MODE_ASK)
        screen_prompt(model, question, sizeof question);
    widget_too_small(canvas, question, COMPACT_COLUMNS_MIN, COMPACT_ROWS_MIN);
}

/* The screen that a question or a shot being typed stands on. */
static Mode shown_mode(const Model *model)
{
    Mode mode = model->mode == MODE_ASK ? model->mode_before : model->mode;
    if (mode == MODE_ENTRY)
        mode = model->typing.back;
    if (mode == MODE_TOLD || mode == MODE_TARGET)
        return MODE_LOG;
    if (model->mode == MODE_ASK && mode != MODE_LOG && mode != MODE_BAG)
        return MODE_LANE;
    return mode;
}

void view_draw(const Model *model, Canvas *canvas)
{
    canvas_erase(canvas);
    canvas->ascii = model->glyphs->ascii;
    if (model_small(model)) {
        draw_small(model, canvas);
        return;
    }
    switch (shown_mode(model)) {
    case MODE_HELP:
    case MODE_WORDS:
        screen_help(model, canvas);
        break;
    case MODE_SEARCH:
        screen_search(model, canvas);
        break;
    case MODE_SPARES:
        screen_spares(model, canvas);
        break;
    case MODE_KINDS:
        screen_kinds(model, canvas);
        break;
    case MODE_BALL:
        screen_ball(model, canvas);
        break;
    case MODE_BAG:
        screen_bag(model, canvas);
        break;
    case MODE_BLOCK:
        screen_block(model, canvas);
        break;
    case MODE_LOG:
        screen_log(model, canvas);
        break;
    case MODE_OIL:
        screen_oil(model, canvas);
        break;
    default:
        screen_lane(model, canvas);
    }
}
