/* screen_kinds.c - what ball to add to the bag: a copy of the chosen one, or one of a kind. */
#include "base/text.h"
#include "ui/form/kinds.h"
#include "ui/screens/screens.h"

void screen_kinds(const Model *model, Canvas *canvas)
{
    const Bag *bag = &model->session->bag;
    bool compact = model_compact(model);
    int row = compact ? 1 : 4, columns = canvas->columns - 2;
    char copy[96] = "", right[48] = "";
    text_append(copy, sizeof copy, "a copy of %s", bag->balls[model->ball].name);
    text_append(right, sizeof right, "%d ball%s in the bag", bag->count,
                bag->count == 1 ? "" : "s");
    screen_frame_top(canvas, "Add a ball", right);
    screen_frame_bottom(model, canvas, 0, columns, ROLE_PLAIN,
                        compact && model->kind > 0 ? BALL_PRESETS[model->kind - 1].means : "");
    if (!compact)
        canvas_text(canvas, 2, 3, columns - 2, ROLE_DIM,
                    "A kind has usual numbers. It goes into the locker; change what you know.");
    kinds_draw(copy, model->kind, !compact, model->glyphs, canvas,
               (Area){row, 1, canvas->rows - 2 - row, columns});
}
