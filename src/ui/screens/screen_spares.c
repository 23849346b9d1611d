/* screen_spares.c - how to pick up what is left: the deck and the lane, what to throw, why. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "ui/draw/laneview.h"
#include "ui/screens/screens.h"

enum { EDGE = 1, GAP = 2, RIGHT_MIN = 31, RIGHT_MAX = 48, LABEL = 8 };

/* "93%", "under 2%", never 0 or 100: a forecast is not that sure. */
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

static void headline(const Spare *spare, char *out, size_t size)
{
    int sure = (int)lround(spare->sure.falls);
    if (spare->take)
        snprintf(out, size, "Make sure of %d", sure < 1 ? 1 : sure);
    else if (spare->strike_ball)
        snprintf(out, size, "Strike ball");
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

/* The column as it is filled from the top. */
typedef struct Pane {
    const Model *model;
    Canvas *canvas;
    const Spare *spare;
    const SpareLine *line;    /* what to throw; NULL: not known */
    int column, columns, end; /* `end`: past the last column */
    int row, bottom;          /* `row`: the next free one */
    bool air;                 /* tall enough for empty lines between the parts */
} Pane;

static void draw_labelled(Pane *pane, const char *label, Role role, const char *text)
{
    int rows = pane->bottom - pane->row;
    canvas_text(pane->canvas, pane->row, pane->column, LABEL - 1, ROLE_DIM, label);
    if (rows > 0)
        pane->row += canvas_wrap(pane->canvas, pane->row, pane->column + LABEL,
                                 pane->columns - LABEL, rows < 3 ? rows : 3, role, text);
}

/* With the pins at the right, and a mark if the answer is outdated. */
static void draw_title(Pane *pane)
{
    char text[48], pins[32];
    const Model *model = pane->model;
    int used =
        canvas_text(pane->canvas, pane->row, pane->column, pane->columns, ROLE_TITLE, "Throw");
    if (pane->line && !model_advice_current(model))
        canvas_put(pane->canvas, pane->row, pane->column + used + 1, model->glyphs->wait, ROLE_DIM);
    if (pane->line) {
        pins_text(pins, sizeof pins, model->spare_pins);
        snprintf(text, sizeof text, "%s%s", pins, pane->spare->split ? " split" : "");
        canvas_text_right(pane->canvas, pane->row, pane->end, pane->columns - 8,
                          pane->spare->split ? ROLE_WARN : ROLE_PLAIN, text);
    }
    pane->row += 1 + pane->air;
}

static void draw_nothing(const Pane *pane)
{
    canvas_wrap(pane->canvas, pane->row + 1, pane->column, pane->columns, 4, ROLE_DIM,
                pane->model->spare_pins == 0 ? "Type the pins still standing (0 or 10 is the ten)."
                : !model_spare_current(pane->model) ? "calculating…"
                                                    : "no ball in a slot");
}

static void draw_headline(Pane *pane)
{
    char text[48];
    headline(pane->spare, text, sizeof text);
    int used = canvas_text(pane->canvas, pane->row, pane->column, pane->columns, ROLE_ACCENT, text);
    canvas_text(pane->canvas, pane->row, pane->column + used + 2, pane->columns - used - 2,
                ROLE_PLAIN, pane->line->ball->name);
    pane->row += 1 + pane->air;
}

static void draw_figures(Pane *pane)
{
    const SpareLine *line = pane->line;
    if (model_compact(pane->model)) {
        char stance[16], aim[16];
        widget_board(stance, sizeof stance, line->stance);
        widget_board(aim, sizeof aim, line->aim);
        canvas_print(pane->canvas, pane->row++, pane->column, pane->columns, ROLE_ACCENT,
                     "ball %d  feet %s  aim %s", line->ball->slot, stance, aim);
        return;
    }
    int columns[PLAN_FIGURES];
    widget_plan(pane->canvas, pane->model->glyphs,
                (Area){pane->row, pane->column, 4, pane->columns}, ROLE_ACCENT,
                (const double[]){line->ball->slot, line->stance, line->aim}, columns);
    pane->row += 4 + pane->air;
}

static void draw_chance(Pane *pane)
{
    double chance = pane->spare->line.chance;
    char text[16];
    chance_text(text, sizeof text, chance);
    canvas_text(pane->canvas, pane->row, pane->column, LABEL - 1, ROLE_DIM, "chance");
    canvas_text(pane->canvas, pane->row, pane->column + LABEL, 8,
                chance >= 0.5 ? ROLE_GOOD : ROLE_WARN, text);
    widget_chance(pane->canvas, pane->model->glyphs, pane->row, pane->column + LABEL + 9,
                  pane->columns - LABEL - 9, chance, chance);
    pane->row += 1 + pane->air;
}

/* Which pin to hit, and between which boards. */
static void draw_target(Pane *pane)
{
    const SpareLine *line = pane->line;
    char text[64];
    draw_labelled(pane, "over", ROLE_PLAIN, pane->spare->system);
    hit_text(line, text, sizeof text);
    draw_labelled(pane, "hit", ROLE_PLAIN, text);
    if (line->window_high > line->window_low) {
        snprintf(text, sizeof text, "%.1f to %.1f, best %.1f", line->window_low, line->window_high,
                 line->across);
        draw_labelled(pane, "window", ROLE_PLAIN, text);
    }
    pane->row += pane->air;
}

/* The 3-6-9 move, and the model's move for the same ball and aim. */
static void draw_move(Pane *pane)
{
    const SpareMove *move = &pane->spare->move;
    char text[96], chance[16], feet[16], aim[16];
    if (pane->spare->take || !move->known || move->boards == 0.0)
        return;
    chance_text(chance, sizeof chance, move->chance);
    widget_board(feet, sizeof feet, move->stance);
    widget_board(aim, sizeof aim, move->aim);
    snprintf(text, sizeof text, "ball %d, %s over %s: %s", model_plan(pane->model).slot, feet, aim,
             chance);
    draw_labelled(pane, "3-6-9", ROLE_PLAIN, text);
    if (move->computed_found && pane->row < pane->bottom) {
        chance_text(chance, sizeof chance, move->computed_chance);
        snprintf(text, sizeof text, "%.0f %s; model %.0f %s: %s", fabs(move->boards),
                 move->boards > 0.0 ? "in" : "out", fabs(move->computed),
                 move->computed > 0.0 ? "in" : "out", chance);
        canvas_text(pane->canvas, pane->row++, pane->column + LABEL, pane->columns - LABEL,
                    ROLE_DIM, text);
    }
    pane->row += pane->air;
}

static void draw_why(Pane *pane)
{
    char text[96];
    if (pane->spare->take)
        snprintf(text, sizeof text, "more pins on average than going for all of them");
    else if (pane->spare->strike_ball)
        snprintf(text, sizeof text, "its angle carries; with the straightest ball %.0f%%",
                 100.0 * pane->spare->straight_chance);
    else
        return;
    draw_labelled(pane, "why", ROLE_PLAIN, text);
    pane->row += pane->air;
}

/* What the leave says about the last shot and, if there is room, what the shots before say. */
static void draw_tells(Pane *pane)
{
    const Session *session = pane->model->session;
    const Shot *last = session->shot_count ? &session->shots[session->shot_count - 1] : NULL;
    bool ringing = last && last->left == pane->model->spare_pins && last->ringing;
    const char *tells = spare_tells(pane->model->spare_pins, ringing, session->bag.bowler.hand);
    if (tells[0])
        draw_labelled(pane, "says", ROLE_DIM, tells);
    const Signs *signs = &pane->model->shown.signs;
    for (int i = 0; pane->air && i < SIGN_COUNT && pane->row < pane->bottom; i++)
        if (signs->seen[i])
            pane->row += canvas_wrap(pane->canvas, pane->row, pane->column + LABEL,
                                     pane->columns - LABEL, pane->bottom - pane->row, ROLE_DIM,
                                     sign_words((Sign)i, session->bag.bowler.hand));
}

static void draw_throw(const Model *model, Canvas *canvas, Area area)
{
    Pane pane = {.model = model,
                 .canvas = canvas,
                 .spare = &model->spare,
                 .line = model_spare_line(model),
                 .column = area.column,
                 .columns = area.columns,
                 .end = area.column + area.columns,
                 .row = area.row,
                 .bottom = area.row + area.rows,
                 .air = area.rows >= 30};
    draw_title(&pane);
    if (!pane.line) {
        draw_nothing(&pane);
        return;
    }
    draw_headline(&pane);
    draw_figures(&pane);
    draw_chance(&pane);
    draw_target(&pane);
    draw_move(&pane);
    draw_why(&pane);
    draw_tells(&pane);
}

static void draw_bottom(const Model *model, Canvas *canvas)
{
    int entry = canvas->rows - 2;
    screen_frame_bottom(model, canvas, 1, canvas->columns - 2, ROLE_PLAIN, "");
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
}

void screen_spares(const Model *model, Canvas *canvas)
{
    int body = canvas->rows - 4, total = canvas->columns - 2 * EDGE - GAP;
    if (model_compact(model)) {
        screen_frame_event(model, canvas);
        draw_throw(model, canvas, (Area){1, EDGE, body, canvas->columns - 2 * EDGE});
        draw_bottom(model, canvas);
        return;
    }
    int lane = laneview_columns(total - RIGHT_MIN);
    int right = total - lane;
    right = right > RIGHT_MAX ? RIGHT_MAX : right;
    int margin = (total - lane - right) / 2;
    screen_frame_event(model, canvas);
    laneview_draw(model, canvas, (Area){1, EDGE + margin, body, lane});
    draw_throw(model, canvas, (Area){1, EDGE + margin + lane + GAP, body, right});
    draw_bottom(model, canvas);
}
