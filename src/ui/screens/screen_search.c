/* screen_search.c - every action that has the words typed so far, with its keys and where it works.
 */
#include "ui/screens/screens.h"

void screen_search(const Model *model, Canvas *canvas)
{
    char right[40];
    search_draw(&model->search, model->keys, canvas, right, sizeof right);
    screen_frame_top(canvas, SEARCH_TITLE, right);
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN, "");
}
