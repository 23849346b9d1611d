/* screen_oil.c - the oil: the lane from above in units, cut across at a distance, the sheet beside
 * the estimate, and what follows from them. Boards count from the bowler's own side. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "base/units.h"
#include "ui/draw/laneview.h"
#include "ui/screens/screens.h"

enum { EDGE = 1, GAP = 2, RIGHT_MIN = 49, RIGHT_MAX = 92, AXIS = 6, GRAPH_MIN = 4, GRAPH_MAX = 12 };
enum { PHONE = 48 }; /* with fewer columns words are left out */
enum { LABEL = 7, FIGURE = 9, CARRIED = 11 };

/* The right side as it is filled from the top. */
typedef struct Pane {
    const Model *model;
    Canvas *canvas;
    const Oil *film; /* as estimated */
    Oil sheet;
    int column, columns, row, bottom;
    int boards; /* columns of the graph: 39 or 78 */
} Pane;

static int text(Pane *pane, Role role, const char *words)
{
    if (pane->row >= pane->bottom)
        return 0;
    return canvas_text(pane->canvas, pane->row++, pane->column, pane->columns, role, words);
}

static void wrap(Pane *pane, Role role, const char *words)
{
    int rows = pane->bottom - pane->row;
    if (rows > 0)
        pane->row += canvas_wrap(pane->canvas, pane->row, pane->column, pane->columns,
                                 rows < 2 ? rows : 2, role, words);
}

static double units_at(const Oil *oil, double board, double ft)
{
    return oil_at(oil, lane_x_of_board(board), m_from_ft(ft));
}

static void draw_title(Pane *pane)
{
    const Model *model = pane->model;
    const LaneNow *lane = &model->shown.lane;
    char words[96] = "";
    canvas_text(pane->canvas, pane->row, pane->column, pane->columns, ROLE_TITLE, "Oil");
    if (!model_advice_current(model))
        text_append(words, sizeof words, "calculating…");
    else if (lane->deliveries == 0)
        text_append(words, sizeof words,
                    pane->columns < PHONE ? "before the first ball"
                                          : "what to expect, before the first ball");
    else
        text_append(words, sizeof words,
                    pane->columns < PHONE ? "%.0f ± %.0f%%, %d balls"
                                          : "%.0f ± %.0f%% of the worn sheet, %d balls",
                    lane->scale * 100.0, lane->scale_sd * 100.0, lane->deliveries);
    canvas_text_right(pane->canvas, pane->row++, pane->column + pane->columns, pane->columns - 4,
                      ROLE_DIM, words);
}

/* Volume, length, ratio: the sheet's and those of now; and how far balls have carried the oil. */
static void draw_figures(Pane *pane)
{
    static const char *const NAMES[] = {"volume", "length", "ratio"};
    const Oil *oils[] = {&pane->sheet, pane->film};
    double carried = oil_carried_ft(pane->film, pane->film->length_ft);
    int end = pane->column + LABEL + 3 * FIGURE + CARRIED;
    bool told = carried >= pane->film->length_ft + 1.0 && end <= pane->column + pane->columns;
    for (int i = 0; i < 3; i++)
        canvas_text_right(pane->canvas, pane->row, pane->column + LABEL + (i + 1) * FIGURE, FIGURE,
                          ROLE_DIM, NAMES[i]);
    if (told)
        canvas_text_right(pane->canvas, pane->row, end, CARRIED, ROLE_DIM, "carried to");
    pane->row++;
    for (int k = 0; k < 2; k++, pane->row++) {
        char figures[3][24], to[24];
        double ratio = oil_ratio(oils[k]);
        double length = fmin(oil_length_ft(oils[k]), oils[k]->length_ft); /* none carried */
        snprintf(figures[0], sizeof figures[0], "%.1f mL", oil_volume_ml(oils[k]));
        snprintf(figures[1], sizeof figures[1], "%.1f ft", length);
        snprintf(figures[2], sizeof figures[2], isfinite(ratio) ? "%.1f:1" : "dry out", ratio);
        canvas_text(pane->canvas, pane->row, pane->column, LABEL, ROLE_DIM, k ? "now" : "sheet");
        for (int i = 0; i < 3; i++)
            canvas_text_right(pane->canvas, pane->row, pane->column + LABEL + (i + 1) * FIGURE,
                              FIGURE, k ? ROLE_PLAIN : ROLE_DIM, figures[i]);
        snprintf(to, sizeof to, "%.0f ft", carried);
        if (told && k == 1)
            canvas_text_right(pane->canvas, pane->row, end, CARRIED, ROLE_PLAIN, to);
    }
}

/* Common practice, no source. */
static void draw_rule_of_31(Pane *pane)
{
    double length = pane->model->session->pattern.length_ft, board = length - 31.0;
    char words[160] = "";
    if (board >= 1.0)
        text_append(
            words, sizeof words,
            "Rule of 31: %.0f ft less 31, so breakpoint near board %.0f. Common practice, a "
            "place to start.",
            length, board);
    else
        text_append(words, sizeof words,
                    "Rule of 31: %.0f ft is too short for it; the ball turns at the edge.", length);
    wrap(pane, ROLE_DIM, words);
}

static double most_at(const Oil *oil, double ft)
{
    double most = 0.0;
    for (int board = 1; board <= LANE_BOARDS; board++)
        most = fmax(most, units_at(oil, board, ft));
    return most;
}

/* A round number at or above it. */
static double round_up(double most)
{
    static const double TOPS[] = {1, 2, 4, 6, 8, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150};
    for (size_t i = 0; i < sizeof TOPS / sizeof *TOPS; i++)
        if (most <= TOPS[i])
            return TOPS[i];
    return OIL_UNITS_MAX;
}

/* The board in the middle of a column of the graph, as the bowler sees the lane. */
static double board_of(const Pane *pane, int column)
{
    double own = 0.5 + (column + 0.5) * LANE_BOARDS / pane->boards;
    bool right = pane->model->session->bag.bowler.hand == HAND_RIGHT;
    return right ? LANE_BOARDS + 1 - own : own;
}

static int column_of(const Pane *pane, double board)
{
    bool right = pane->model->session->bag.bowler.hand == HAND_RIGHT;
    double own = right ? LANE_BOARDS + 1 - board : board;
    int column = (int)floor((own - 0.5) * pane->boards / LANE_BOARDS);
    column = column < 0 ? 0 : column >= pane->boards ? pane->boards - 1 : column;
    return pane->column + AXIS + column;
}

/* Filled up to the film of now; a line at the height of the sheet. */
static void draw_graph(Pane *pane, int rows)
{
    const Glyphs *glyphs = pane->model->glyphs;
    double ft = pane->model->oil_ft;
    double top = round_up(fmax(most_at(&pane->sheet, ft), most_at(pane->film, ft)));
    for (int r = 0; r < rows; r++) {
        double low = top * (rows - 1 - r) / rows, high = top * (rows - r) / rows;
        int row = pane->row + r;
        if (r == 0 || r == rows / 2)
            canvas_print(pane->canvas, row, pane->column, AXIS - 2, ROLE_DIM, "%4g",
                         round(high * 10.0) / 10.0);
        canvas_put(pane->canvas, row, pane->column + AXIS - 1, glyphs->gutter, ROLE_DIM);
        for (int c = 0; c < pane->boards; c++) {
            double board = board_of(pane, c), now = units_at(pane->film, board, ft);
            double sheet = units_at(&pane->sheet, board, ft);
            if (sheet > 0.05 && sheet > low && sheet <= high)
                canvas_put(pane->canvas, row, pane->column + AXIS + c, glyphs->rule, ROLE_ACCENT);
            else if (now >= (low + high) / 2.0)
                canvas_put(pane->canvas, row, pane->column + AXIS + c, glyphs->film[5], ROLE_OIL4);
        }
    }
    pane->row += rows;
}

/* The boards under the graph, and where the planned ball crosses it. */
static void draw_boards(Pane *pane)
{
    const Model *model = pane->model;
    canvas_hline(pane->canvas, pane->row, pane->column + AXIS - 1, pane->boards + 1,
                 model->glyphs->foul, ROLE_DIM);
    for (int board = 5; board < LANE_BOARDS; board += 5) {
        char number[8];
        int width = snprintf(number, sizeof number, "%d", board);
        canvas_text(pane->canvas, pane->row, column_of(pane, board) - (width > 1), width, ROLE_DIM,
                    number);
    }
    int point = model->oil_ft * 2;
    if (model->path_on && point < model->path.count)
        canvas_put(pane->canvas, pane->row, column_of(pane, model->path.path[point].board),
                   model->glyphs->path, ROLE_PATH);
    pane->row++;
}

/* A tape at the distance: the figures stand under their boards. */
static void draw_tape(Pane *pane, const char *label, Role role, const Oil *oil, double ft)
{
    int step = pane->boards >= 2 * LANE_BOARDS ? 3 : 6;
    if (pane->row >= pane->bottom)
        return;
    canvas_text(pane->canvas, pane->row, pane->column, AXIS - 1, ROLE_DIM, label);
    for (int board = 2; board <= LANE_BOARDS; board += step) {
        char figure[16];
        snprintf(figure, sizeof figure, oil ? "%.1f" : "%.0f",
                 oil ? units_at(oil, board, ft) : (double)board);
        int at = column_of(pane, board) - canvas_width(figure) / 2;
        canvas_text(pane->canvas, pane->row, at, 6, role, figure);
    }
    pane->row++;
}

/* Where the planned ball is there, and the oil under it. */
static void draw_ball(Pane *pane)
{
    const Model *model = pane->model;
    const Ball *ball = bag_slot(&model->session->bag, model_plan(model).slot);
    int point = model->oil_ft * 2;
    char words[160] = "";
    if (!model->path_on || point >= model->path.count || !ball)
        return;
    double board = model->path.path[point].board;
    text_append(words, sizeof words,
                pane->columns < PHONE ? "%s on %.1f: %.1f, sheet %.1f"
                                      : "%s is on board %.1f there: %.1f units, %.1f on the sheet",
                ball->name, board, units_at(pane->film, board, model->oil_ft),
                units_at(&pane->sheet, board, model->oil_ft));
    wrap(pane, ROLE_PLAIN, words);
}

/* On a tall screen: tapes along the lane. */
static void draw_tapes(Pane *pane)
{
    char label[16];
    if (pane->bottom - pane->row < 6)
        return;
    pane->row++;
    text(pane, ROLE_TITLE, "Tapes along the lane, now");
    draw_tape(pane, "board", ROLE_DIM, NULL, 0);
    for (int ft = 0; ft <= (int)pane->film->length_ft && pane->row < pane->bottom; ft += 5) {
        snprintf(label, sizeof label, "%2d ft", ft);
        draw_tape(pane, label, ROLE_PLAIN, pane->film, ft);
    }
}

static void lay_sheet(const Model *model, Oil *sheet)
{
    Oil from_right;
    oil_lay(&model->session->pattern, &from_right);
    oil_for_hand(&from_right, model->session->bag.bowler.hand, sheet);
}

static void draw_pane(const Model *model, Canvas *canvas, Area area)
{
    Pane pane = {.model = model,
                 .canvas = canvas,
                 .film = &model->shown.film,
                 .column = area.column,
                 .columns = area.columns,
                 .row = area.row,
                 .bottom = area.row + area.rows,
                 .boards = area.columns >= AXIS + 2 * LANE_BOARDS ? 2 * LANE_BOARDS : LANE_BOARDS};
    bool tall = area.rows >= 30;
    lay_sheet(model, &pane.sheet);
    draw_title(&pane);
    draw_figures(&pane);
    draw_rule_of_31(&pane);
    if (model->shown.lane.words[0])
        wrap(&pane, ROLE_PLAIN, model->shown.lane.words);
    pane.row += tall;
    char words[96] = "";
    text_append(words, sizeof words, "Across at %d ft, units: %s now, %s sheet", model->oil_ft,
                model->glyphs->ascii ? "#" : "▒", model->glyphs->ascii ? "-" : "─");
    text(&pane, ROLE_TITLE, words);
    int rows = pane.bottom - pane.row - 6; /* boards, two tapes, the ball, which may take two */
    rows = rows > GRAPH_MAX ? GRAPH_MAX : rows;
    draw_graph(&pane, rows < GRAPH_MIN ? GRAPH_MIN : rows / 2 * 2);
    draw_boards(&pane);
    draw_tape(&pane, "board", ROLE_DIM, NULL, 0);
    draw_tape(&pane, "sheet", ROLE_DIM, &pane.sheet, model->oil_ft);
    draw_tape(&pane, "now", ROLE_PLAIN, pane.film, model->oil_ft);
    draw_ball(&pane);
    if (tall)
        draw_tapes(&pane);
}

/* A tape in the compact view: seven boards, whole units from ten on. */
static void tape_compact(Pane *pane, const char *label, Role role, const Oil *oil)
{
    int column = pane->column + 5;
    if (pane->row >= pane->bottom)
        return;
    canvas_text(pane->canvas, pane->row, pane->column, 5, ROLE_DIM, label);
    bool right = pane->model->session->bag.bowler.hand == HAND_RIGHT;
    for (int i = 0; i < 7; i++) {
        int board = right ? 38 - 6 * i : 2 + 6 * i;
        double units = oil ? units_at(oil, board, pane->model->oil_ft) : board;
        char figure[16];
        snprintf(figure, sizeof figure, oil && units < 9.95 ? "%.1f" : "%.0f", units);
        column += 4;
        canvas_text_right(pane->canvas, pane->row, column, 4, role, figure);
    }
    pane->row++;
}

/* Figures alone: on a phone there is no room for a picture of the lane. */
static void oil_compact(const Model *model, Canvas *canvas, Pane *pane)
{
    char words[96] = "";
    draw_title(pane);
    draw_figures(pane);
    text_append(words, sizeof words, "Across at %d ft, units", model->oil_ft);
    text(pane, ROLE_TITLE, words);
    tape_compact(pane, "board", ROLE_DIM, NULL);
    tape_compact(pane, "sheet", ROLE_DIM, &pane->sheet);
    tape_compact(pane, "now", ROLE_PLAIN, pane->film);
    draw_ball(pane);
    draw_rule_of_31(pane);
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN, "");
}

void screen_oil(const Model *model, Canvas *canvas)
{
    if (model_compact(model)) {
        Pane pane = {.model = model,
                     .canvas = canvas,
                     .film = &model->shown.film,
                     .column = EDGE,
                     .columns = canvas->columns - 2 * EDGE,
                     .row = 1,
                     .bottom = canvas->rows - 2,
                     .boards = LANE_BOARDS};
        lay_sheet(model, &pane.sheet);
        screen_frame_event(model, canvas);
        oil_compact(model, canvas, &pane);
        return;
    }
    int body = canvas->rows - 3, total = canvas->columns - 2 * EDGE - GAP;
    int lane = laneview_columns(total - RIGHT_MIN);
    int right = total - lane;
    right = right > RIGHT_MAX ? RIGHT_MAX : right;
    int margin = (total - lane - right) / 2;
    screen_frame_event(model, canvas);
    laneview_draw(model, canvas, (Area){1, EDGE + margin, body, lane});
    draw_pane(model, canvas, (Area){1, EDGE + margin + lane + GAP, body, right});
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN, "");
}
