/* screen_block.c - the games ahead: ball and line for each, the laydown moving, what to watch. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "ui/screens/screens.h"

enum { TOP = 1, WATCH = 5, TABLE_COLUMNS = 62 };

static void line_text(const BlockGame *plan, char *out, size_t size)
{
    char stance[16], aim[16];
    widget_board(stance, sizeof stance, plan->line.stance);
    widget_board(aim, sizeof aim, plan->line.aim);
    snprintf(out, size, "%s over %s", stance, aim);
}

/* The other lane's line, with its ball if that differs. */
static void other_text(const BlockGame *plan, const BlockGame *other, char *out, size_t size)
{
    char line[48];
    line_text(other, line, sizeof line);
    text_copy(out, size, "");
    if (other->slot == 0)
        text_append(out, size, "none");
    else if (other->slot != plan->slot)
        text_append(out, size, "%d: %s", other->slot, line);
    else
        text_append(out, size, "%s", line);
}

/* Feet, and balls if there are several, from the slowest wear to the fastest. */
static void spread_text(const BlockSpread *spread, char *out, size_t size)
{
    char low[16], high[16];
    widget_board(low, sizeof low, spread->stance_low);
    widget_board(high, sizeof high, spread->stance_high);
    text_copy(out, size, "");
    text_append(out, size, "%s to %s", low, high);
    for (int i = 0; spread->slots > 1 && i < PACE_COUNT; i++)
        text_append(out, size, "%s%d", i ? "," : " ", spread->slot[i]);
}

static void draw_game(const Model *model, Canvas *canvas, int row, int column, int game)
{
    const Block *block = model_block(model);
    const BlockGame *plan = &block->game[PACE_USUAL][SIDE_LEFT][game];
    const BlockGame *other = &block->game[PACE_USUAL][SIDE_RIGHT][game];
    const Ball *ball = bag_slot(&model->session->bag, plan->slot);
    bool chosen = game == model->block_game;
    Role role = chosen ? ROLE_ACCENT : ROLE_PLAIN;
    char text[64];
    if (chosen)
        canvas_put(canvas, row, column, model->glyphs->path, ROLE_PATH);
    canvas_print(canvas, row, column + 2, 3, role, "%2d", game + 1);
    if (!plan->ready || !other->ready) {
        canvas_put(canvas, row, column + 6, model->glyphs->wait, ROLE_DIM);
        return;
    }
    if (!ball) {
        canvas_text(canvas, row, column + 6, 30, ROLE_DIM, "no ball finds the pocket");
        return;
    }
    canvas_print(canvas, row, column + 6, 1, ROLE_KEY, "%d", plan->slot);
    canvas_text(canvas, row, column + 8, 15, role, ball->name);
    line_text(plan, text, sizeof text);
    canvas_text(canvas, row, column + 24, 14, role, text);
    other_text(plan, other, text, sizeof text);
    canvas_text(canvas, row, column + 38, 17, other->slot ? role : ROLE_DIM, text);
    snprintf(text, sizeof text, "%.0f%%", 100.0 * plan->line.pocket);
    canvas_text_right(canvas, row, column + TABLE_COLUMNS, 6, role, text);
    if (!block->done)
        return;
    BlockSpread spread = block_spread(block, SIDE_LEFT, game);
    spread_text(&spread, text, sizeof text);
    canvas_text(canvas, row, column + TABLE_COLUMNS + 2, canvas->columns - TABLE_COLUMNS - 4,
                ROLE_DIM, text);
}

/* Games from `first` on: the lane at the foul line, the ball at its laydown board. */
static void draw_picture(const Model *model, Canvas *canvas, Area area, int first)
{
    bool left_hand = model->session->bag.bowler.hand == HAND_LEFT;
    int cell = area.columns >= 2 * LANE_BOARDS + 12 ? 2 : 1, left = area.column + 6;
    canvas_text(canvas, area.row, area.column, 8, ROLE_TITLE, "Laydown");
    for (int board = 5; board < LANE_BOARDS; board += 5) {
        int place = left_hand ? board - 1 : LANE_BOARDS - board;
        canvas_print(canvas, area.row, left + place * cell - (board >= 10), 2, ROLE_DIM, "%d",
                     board);
    }
    for (int i = 0; i + 1 < area.rows && first + i < model_block(model)->games; i++) {
        const BlockGame *plan = &model_block(model)->game[PACE_USUAL][SIDE_LEFT][first + i];
        int row = area.row + 1 + i;
        canvas_print(canvas, row, area.column + 2, 3, ROLE_DIM, "%2d", first + i + 1);
        for (int b = 0; b < LANE_BOARDS * cell; b++)
            canvas_put(canvas, row, left + b, model->glyphs->film[1], ROLE_DIM);
        if (!plan->ready || plan->slot == 0)
            continue;
        int board = (int)lround(plan->line.laydown_board);
        int place = left_hand ? board - 1 : LANE_BOARDS - board;
        if (place >= 0 && place < LANE_BOARDS)
            canvas_put(canvas, row, left + place * cell, (uint32_t)('0' + plan->slot),
                       first + i == model->block_game ? ROLE_ACCENT : ROLE_PATH);
    }
}

static void draw_watch(const Model *model, Canvas *canvas, Area area)
{
    char text[320], title[64];
    snprintf(title, sizeof title, "What to watch for in game %d", model->block_game + 1);
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE, title);
    if (!model_block(model)->game[PACE_USUAL][SIDE_LEFT][model->block_game].ready)
        return;
    block_watch(model_block(model), &model->session->bag, SIDE_LEFT, model->block_game, text,
                sizeof text);
    widget_sentences(canvas, area.row + 1, area.column, area.columns < 90 ? area.columns : 90,
                     area.rows - 1, ROLE_PLAIN, text);
}

/* The progress, or what it is based on. */
static void draw_frame(const Model *model, Canvas *canvas, const Block *block)
{
    const Session *session = model->session;
    char right[48] = "from the sheet", title[200] = "";
    if (!block || !block->done)
        snprintf(right, sizeof right, "calculating, %d%%",
                 block ? 100 * block->steps / (block->steps_all ? block->steps_all : 1) : 0);
    text_append(title, sizeof title, "Block on %s, %.0f ft", session->pattern.name,
                session->pattern.length_ft);
    if (!model_compact(model))
        text_append(title, sizeof title, ": %d games, %d on the pair", session->event.games,
                    session->event.bowlers_on_pair);
    screen_frame_top(canvas, title, right);
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN, "");
}

static void draw_table(const Model *model, Canvas *canvas, int first, int shown)
{
    const int *pair = model->session->pair;
    canvas_print(canvas, TOP, 1 + 6, 30, ROLE_DIM, "ball");
    canvas_print(canvas, TOP, 1 + 24, 12, ROLE_DIM, "lane %d", pair[SIDE_LEFT]);
    canvas_print(canvas, TOP, 1 + 38, 12, ROLE_DIM, "lane %d", pair[SIDE_RIGHT]);
    canvas_text_right(canvas, TOP, 1 + TABLE_COLUMNS, 6, ROLE_DIM, "pocket");
    canvas_text(canvas, TOP, 1 + TABLE_COLUMNS + 2, canvas->columns - TABLE_COLUMNS - 4, ROLE_DIM,
                "feet by wear");
    for (int i = 0; i < shown; i++)
        draw_game(model, canvas, TOP + 1 + i, 1, first + i);
}

/* In the compact view: a line a game, and what to watch for. */
static void block_compact(const Model *model, Canvas *canvas, const Block *block)
{
    int width = canvas->columns - 2, bottom = canvas->rows - 2, watch = (bottom - 1) / 2;
    int shown = bottom - 1 - watch < block->games ? bottom - 1 - watch : block->games;
    int first = model->block_game - shown + 1;
    first = first < 0 ? 0 : first;
    for (int i = 0; i < shown; i++) {
        const BlockGame *plan = &block->game[PACE_USUAL][SIDE_LEFT][first + i];
        const Ball *ball = plan->slot ? bag_slot(&model->session->bag, plan->slot) : NULL;
        Role role = first + i == model->block_game ? ROLE_ACCENT : ROLE_PLAIN;
        char line[48] = "";
        int row = 1 + i;
        canvas_print(canvas, row, 1, 3, role, "%2d", first + i + 1);
        if (!plan->ready || !ball) {
            canvas_text(canvas, row, 4, width - 3, ROLE_DIM,
                        plan->ready ? "no ball finds the pocket" : "…");
            continue;
        }
        line_text(plan, line, sizeof line);
        canvas_print(canvas, row, 4, width - canvas_width(line) - 5, role, "%d %s", plan->slot,
                     ball->name);
        canvas_text_right(canvas, row, 1 + width, canvas_width(line), role, line);
    }
    draw_watch(model, canvas, (Area){1 + shown, 1, bottom - 1 - shown, width});
}

void screen_block(const Model *model, Canvas *canvas)
{
    const Block *block = model_block(model);
    if (model_compact(model)) {
        if (block)
            block_compact(model, canvas, block);
        draw_frame(model, canvas, block);
        return;
    }
    int bottom = canvas->rows - 2, columns = canvas->columns - 2;
    draw_frame(model, canvas, block);
    if (!block)
        return;
    /* Table and picture share what the watch leaves: two rows of titles, then the games. */
    int room = (bottom - TOP - WATCH - 3) / 2;
    int shown = block->games < room ? block->games : room;
    int first = model->block_game - shown + 1;
    first = first < 0 ? 0 : first;
    draw_table(model, canvas, first, shown);
    draw_picture(model, canvas, (Area){TOP + 2 + shown, 1, shown + 1, columns}, first);
    int below = TOP + 2 + shown + 1 + shown + (room > shown);
    draw_watch(model, canvas, (Area){below, 1, bottom - below, columns});
}
