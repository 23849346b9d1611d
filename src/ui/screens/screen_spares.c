/* screen_spares.c - how to pick up what is left: the deck and the lane, what to throw, why. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "ui/draw/widgets.h"
#include "ui/view.h"

enum { EDGE = 1, GAP = 2, RIGHT_MIN = 31, RIGHT_MAX = 48, LABEL = 8 };

/* "93%", "under 2%": a forecast is never sure of all or nothing. */
static void chance_text(char *out, size_t size, double chance)
{
    if (chance < 0.02)
        snprintf(out, size, "under 2%%");
    else
        snprintf(out, size, "%.0f%%", 100.0 * fmin(chance, 0.99));
}

static void pins_text(char *out, size_t size, Pins pins)
{
    Shot shot = {.left_said = true, .left = pins};
    widget_leave(out, size, &shot, 24);
}

/* Ball, feet and aim in large figures. */
static void draw_figures(const Model *model, Canvas *canvas, Area area, const SpareLine *line)
{
    static const char *const NAMES[3] = {"ball", "feet", "aim"};
    double values[3] = {line->ball->slot, line->stance, line->aim};
    int spread = area.columns >= 36 ? 3 : 1;
    int columns[3] = {area.column, area.column + 7 + spread, area.column + 17 + 2 * spread};
    for (int i = 0; i < 3; i++) {
        canvas_text(canvas, area.row, columns[i], 6, ROLE_DIM, NAMES[i]);
        widget_figures(canvas, model->glyphs, area.row + 1, columns[i], ROLE_ACCENT, values[i]);
    }
}

static void headline(const Spare *spare, char *out, size_t size)
{
    int sure = (int)lround(spare->sure.falls);
    if (spare->take)
        snprintf(out, size, "Make sure of %d", sure < 1 ? 1 : sure);
    else if (spare->strike_ball)
        snprintf(out, size, "The strike ball");
    else
        snprintf(out, size, "Pick it up");
}

static void hit_text(const SpareLine *line, char *out, size_t size)
{
    if (line->pin == 0)
        snprintf(out, size, "nothing to hit");
    else if (line->side == SPARE_FULL)
        snprintf(out, size, "the %d, full", line->pin);
    else
        snprintf(out, size, "the %d, on its %s side", line->pin, SPARE_SIDE_NAMES[line->side]);
}

static int draw_labelled(Canvas *canvas, Area area, int row, const char *label, Role role,
                         const char *text)
{
    canvas_text(canvas, row, area.column, LABEL - 1, ROLE_DIM, label);
    int rows = area.row + area.rows - row;
    if (rows < 1)
        return 0;
    return canvas_wrap(canvas, row, area.column + LABEL, area.columns - LABEL, rows < 3 ? rows : 3,
                       role, text);
}

/* The move of common practice, and the model's for the same ball and aim. */
static int draw_move(const Model *model, Canvas *canvas, Area area, int row)
{
    const SpareMove *move = &model->spare.move;
    char text[96], chance[16], feet[16], aim[16];
    chance_text(chance, sizeof chance, move->chance);
    widget_board(feet, sizeof feet, move->stance);
    widget_board(aim, sizeof aim, move->aim);
    snprintf(text, sizeof text, "ball %d, %s over %s: %s", model_plan(model).slot, feet, aim,
             chance);
    int used = draw_labelled(canvas, area, row, "3-6-9", ROLE_PLAIN, text);
    if (!move->computed_found || row + used >= area.row + area.rows)
        return used;
    chance_text(chance, sizeof chance, move->computed_chance);
    snprintf(text, sizeof text, "%.0f %s; model %.0f %s: %s", fabs(move->boards),
             move->boards > 0.0 ? "in" : "out", fabs(move->computed),
             move->computed > 0.0 ? "in" : "out", chance);
    canvas_text(canvas, row + used, area.column + LABEL, area.columns - LABEL, ROLE_DIM, text);
    return used + 1;
}

static void draw_adjustment(const Model *model, Canvas *canvas, Area area)
{
    const Spare *spare = &model->spare;
    const SpareLine *line = model_spare_line(model);
    char text[160], pins[32];
    int row = area.row, end = area.column + area.columns;
    bool air = area.rows >= 30;
    int title = canvas_text(canvas, row, area.column, area.columns, ROLE_TITLE, "Throw");
    if (line && !model_advice_current(model)) /* on the film as it was thought to be */
        canvas_put(canvas, row, area.column + title + 1, model->glyphs->wait, ROLE_DIM);
    if (!line) {
        canvas_wrap(canvas, row + 2, area.column, area.columns, 4, ROLE_DIM,
                    model->spare_pins == 0        ? "Type the pins that stand: 0 is the 10."
                    : !model_spare_current(model) ? "calculating…"
                                                  : "no ball in a slot");
        return;
    }
    pins_text(pins, sizeof pins, model->spare_pins);
    snprintf(text, sizeof text, "%s%s", pins, spare->split ? " split" : "");
    canvas_text_right(canvas, row, end, area.columns - 8, spare->split ? ROLE_WARN : ROLE_PLAIN,
                      text);
    row += 1 + air;
    headline(spare, text, sizeof text);
    int used = canvas_text(canvas, row, area.column, area.columns, ROLE_ACCENT, text);
    canvas_text(canvas, row, area.column + used + 2, area.columns - used - 2, ROLE_PLAIN,
                line->ball->name);
    row += 1 + air;
    draw_figures(model, canvas, (Area){row, area.column, 4, area.columns}, line);
    row += 4 + air;

    chance_text(text, sizeof text, spare->line.chance);
    canvas_text(canvas, row, area.column, LABEL - 1, ROLE_DIM, "made");
    canvas_text(canvas, row, area.column + LABEL, 8,
                spare->line.chance >= 0.5 ? ROLE_GOOD : ROLE_WARN, text);
    widget_chance(canvas, model->glyphs, row, area.column + LABEL + 9, area.columns - LABEL - 9,
                  spare->line.chance, spare->line.chance);
    row += 1 + air;
    hit_text(line, text, sizeof text);
    row += draw_labelled(canvas, area, row, "hit", ROLE_PLAIN, text);
    if (line->window_high > line->window_low) {
        snprintf(text, sizeof text, "%.1f to %.1f, meant %.1f", line->window_low, line->window_high,
                 line->across);
        row += draw_labelled(canvas, area, row, "window", ROLE_PLAIN, text);
    }
    row += air;
    if (!spare->take && spare->move.known && spare->move.boards != 0.0)
        row += draw_move(model, canvas, area, row) + air;
    if (spare->take) {
        snprintf(text, sizeof text, "worth more pins than going for all of them");
        row += draw_labelled(canvas, area, row, "why", ROLE_PLAIN, text) + air;
    } else if (spare->strike_ball) {
        snprintf(text, sizeof text, "its angle carries: %.0f%% with the straight ball",
                 100.0 * spare->straight_chance);
        row += draw_labelled(canvas, area, row, "why", ROLE_PLAIN, text) + air;
    }
    const Session *session = model->session;
    const Shot *last = session->shot_count ? &session->shots[session->shot_count - 1] : NULL;
    bool ringing = last && last->left == model->spare_pins && last->ringing;
    const char *tells = spare_tells(model->spare_pins, ringing, session->bag.bowler.hand);
    if (tells[0])
        row += draw_labelled(canvas, area, row, "says", ROLE_DIM, tells);
    const Signs *signs = &model->shown.signs; /* where there is room: with the shots before it */
    for (int i = 0; air && i < SIGN_COUNT && row < area.row + area.rows; i++)
        if (signs->seen[i])
            canvas_text(canvas, row++, area.column + LABEL, area.columns - LABEL, ROLE_DIM,
                        SIGN_WORDS[i]);
}

static void draw_bottom(const Model *model, Canvas *canvas)
{
    int last = canvas->rows - 1, entry = last - 1, rule = last - 2;
    canvas_hline(canvas, rule, 0, canvas->columns, model->glyphs->rule, ROLE_DIM);
    if (model->unsaved)
        canvas_print(canvas, rule, 1, canvas->columns - 2, ROLE_BAD, " NOT SAVED: %s ",
                     model->unsaved_text);
    else if (model->message[0])
        canvas_print(canvas, rule, 1, canvas->columns - 2, model->message_role, " %s ",
                     model->message);
    char pins[32] = "";
    if (model->spare_pins)
        pins_text(pins, sizeof pins, model->spare_pins);
    int column = 1 + canvas_text(canvas, entry, 1, 16, ROLE_TITLE, "Pins standing") + 1;
    canvas_hline(canvas, entry, column, 24, ' ', ROLE_FIELD);
    canvas->cursor_row = entry;
    canvas->cursor_column = column + canvas_text(canvas, entry, column, 24, ROLE_FIELD, pins);
    if (model->spare_slot) {
        const Ball *ball = bag_slot(&model->session->bag, model->spare_slot);
        canvas_print(canvas, entry, column + 26, canvas->columns - column - 27, ROLE_DIM,
                     "with ball %d, %s", model->spare_slot, ball ? ball->name : "");
    }
    widget_footer(canvas, last, model_where(model));
}

void screen_spares(const Model *model, Canvas *canvas)
{
    int body = canvas->rows - 4, total = canvas->columns - 2 * EDGE - GAP;
    int lane = laneview_columns(total - RIGHT_MIN);
    int right = total - lane;
    right = right > RIGHT_MAX ? RIGHT_MAX : right;
    int margin = (total - lane - right) / 2;
    screen_lane_top(model, canvas);
    laneview_draw(model, canvas, (Area){1, EDGE + margin, body, lane});
    draw_adjustment(model, canvas, (Area){1, EDGE + margin + lane + GAP, body, right});
    draw_bottom(model, canvas);
}
