/* update_look.c - the bag, the games ahead, the help and the search in it; the colours. */
#include "ui/input/update.h"

#include <string.h>

#include "base/text.h"
#include "ui/draw/rolling.h"
#include "ui/screens/screens.h"

static void choose_in_hand(Model *model)
{
    const Bag *bag = &model->session->bag;
    const Ball *hand = bag_slot(bag, model_plan(model).slot);
    if (hand)
        model->ball = (int)(hand - bag->balls);
}

/* What the bag's and the block's screens show is computed when they are first opened. */

void key_bag(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_BAG;
    choose_in_hand(model);
    if (!model_arsenal(model) || model->arsenal_surfaces != model_surfaces_free(model))
        update_ask_arsenal(model, effects);
}

void key_bag_page(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->bag_page = (model->bag_page + 1) % screen_bag_pages(model);
}

void key_block(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_BLOCK;
    model->block_game = model->session->game - 1;
    if (!model_block(model))
        update_ask_block(model, effects);
}

void key_game(Model *model, Effects *effects, int step, uint32_t key)
{
    int game = model->block_game + step;
    if (game >= 0 && game < model->session->event.games)
        model->block_game = game;
}

void key_oil(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (update_enter_draft(model, effects))
        model->mode = MODE_OIL;
}

void key_oil_cut(Model *model, Effects *effects, int feet, uint32_t key)
{
    int ft = model->oil_ft + feet;
    model->oil_ft = ft < 0 ? 0 : ft > (int)LANE_LENGTH_FT ? (int)LANE_LENGTH_FT : ft;
}

void key_help(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->help_top = screen_help_top(model, model_where(model));
    model->mode_before = model->mode;
    model->mode = MODE_HELP;
    search_clear(&model->search);
}

void key_help_line(Model *model, Effects *effects, int lines, uint32_t key)
{
    bool words = model->mode == MODE_WORDS;
    int last = screen_help_lines(model, words) - screen_help_room(model->rows);
    int top = (model->help_top < last ? model->help_top : last) + lines;
    top = top < last ? top : last;
    model->help_top = top > 0 ? top : 0;
}

void key_help_page(Model *model, Effects *effects, int pages, uint32_t key)
{
    key_help_line(model, effects, pages * screen_help_room(model->rows), key);
}

void key_help_turn(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = model->mode == MODE_HELP ? MODE_WORDS : MODE_HELP;
    model->help_top = 0;
}

void key_help_close(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = model->mode_before;
}

/* The search keeps its word while the help is open. */
void key_search(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_SEARCH;
    model->search.top = 0;
}

void key_search_type(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!search_type(&model->search, key))
        update_refuse(model, effects, SEARCH_FULL);
}

void key_search_back(Model *model, Effects *effects, int argument, uint32_t key)
{
    search_back(&model->search);
}

void key_search_line(Model *model, Effects *effects, int lines, uint32_t key)
{
    search_lines(&model->search, model->keys, model->columns, model->rows, lines);
}

void key_search_page(Model *model, Effects *effects, int pages, uint32_t key)
{
    search_pages(&model->search, model->keys, model->columns, model->rows, pages);
}

void key_search_close(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_HELP;
}

void key_theme(Model *model, Effects *effects, int argument, uint32_t key)
{
    char text[80] = "";
    if (model->theme_count > 0) {
        model->theme = (model->theme + 1) % model->theme_count;
        text_append(text, sizeof text, "Colours: %s", model->themes[model->theme].name);
        update_say(model, ROLE_PLAIN, text);
    }
    effects->theme = true;
}

void key_motion(Model *model, Effects *effects, int argument, uint32_t key)
{
    bool before = model->still;
    update_say(model, ROLE_PLAIN, rolling_turn(&model->still, model->still_fixed));
    effects->motion = model->still != before;
}

void key_redraw(Model *model, Effects *effects, int argument, uint32_t key)
{
    effects->redraw = true;
}
