/* screen_search.c - every action of the event that has the words typed so far, with its keys and
 * where it works. */
#include <stdio.h>

#include "ui/draw/flow.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

enum { ABOVE = 3, BELOW = 2, FIELD_AT = 10 };

int screen_search_room(int rows) { return rows - ABOVE - BELOW > 1 ? rows - ABOVE - BELOW : 1; }

int screen_search_lines(const Model *model)
{
    Flow flow = {.columns = model->columns};
    flow_found(&flow, model->keys, model->sought);
    return flow.line;
}

/* Where the words are typed. */
static void draw_field(const Model *model, Canvas *canvas)
{
    int room = (int)sizeof model->sought;
    canvas_text(canvas, 1, 1, FIELD_AT - 2, ROLE_TITLE, "Look for");
    canvas_hline(canvas, 1, FIELD_AT, room, ' ', ROLE_FIELD);
    canvas->cursor_row = 1;
    canvas->cursor_column =
        FIELD_AT + canvas_text(canvas, 1, FIELD_AT, room, ROLE_FIELD, model->sought);
}

void screen_search(const Model *model, Canvas *canvas)
{
    int room = screen_search_room(canvas->rows);
    int top = model->search_top, last = screen_search_lines(model) - room;
    char right[40];
    top = top < last ? top : last;
    Flow flow = {.canvas = canvas,
                 .columns = canvas->columns,
                 .top = top > 0 ? top : 0,
                 .row = ABOVE,
                 .row_count = room};
    int found = flow_found(&flow, model->keys, model->sought);
    if (found == 0)
        flow_sentence(&flow, 3, ROLE_PLAIN,
                      "No action has these words. Fewer letters find more: \"spare\", \"feet\".");
    snprintf(right, sizeof right, "%d of %d", found, model->keys->count);
    screen_frame_top(canvas, "All actions", right);
    draw_field(model, canvas);
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN, "");
}
