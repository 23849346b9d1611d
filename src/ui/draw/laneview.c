/* laneview.c - the lane from above: pins at the top, the foul line at the bottom.
 *
 * The picture is what the bowler sees, so it is mirrored for a left-hander, here and nowhere else:
 * board 1 is at the right edge for a right-hander, at the left for a left-hander. */
#include "ui/draw/laneview.h"

#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "base/units.h"
#include "ui/draw/rolling.h"

enum { LABELS = 3, GUTTERS = 2, DECK_ROWS = 4, SCALE_ROWS = 1, LEGEND_ROWS = 2, SHADE_ROWS = 2 };
enum { SHAPES_FROM = 30 /* rows of the area */ };

/* The film, in units, at which each shade begins (assumed, by eye; usual sheets have up to about
 * thirty units at the heads). */
static const double SHADE_UNITS[GLYPH_FILMS] = {0.0, 0.25, 4.0, 9.0, 16.0, 26.0};

int laneview_columns(int columns)
{
    int room = columns - LABELS - GUTTERS;
    int boards = room >= 2 * LANE_BOARDS ? 2 * LANE_BOARDS : room >= LANE_BOARDS ? LANE_BOARDS : 20;
    return boards + LABELS + GUTTERS;
}

/* Where things are on the canvas. */
typedef struct Picture {
    int left, columns; /* of the boards */
    int pitch;         /* rows from one row of pins to the next */
    int deck, top, rows, scale, legend;
    bool right_hand;
} Picture;

static Picture picture_of(const Model *model, Area area)
{
    bool spares = model->mode == MODE_SPARES; /* no legend, but a larger deck */
    bool oil = model->mode == MODE_OIL;       /* no deck, but what the shades mean */
    int pitch = oil ? 0 : spares ? 2 : 1, deck = DECK_ROWS * pitch;
    int rows = area.rows - deck - SCALE_ROWS -
               (spares ? 0
                : oil  ? 1 + SHADE_ROWS
                       : LEGEND_ROWS + (area.rows >= SHAPES_FROM));
    return (Picture){.left = area.column + LABELS + 1,
                     .columns = area.columns - LABELS - GUTTERS,
                     .pitch = pitch,
                     .deck = area.row,
                     .top = area.row + deck,
                     .rows = rows,
                     .scale = area.row + deck + rows,
                     .legend = area.row + deck + rows + SCALE_ROWS,
                     .right_hand = model->session->bag.bowler.hand == HAND_RIGHT};
}

/* Share of the way across the screen, 0 left edge .. 1 right edge. */
static double across(const Picture *picture, double board)
{
    double from_own = (board - 0.5) / LANE_BOARDS;
    return picture->right_hand ? 1.0 - from_own : from_own;
}

static int column_of(const Picture *picture, double board)
{
    int column = (int)floor(across(picture, board) * picture->columns);
    if (column < 0)
        column = 0;
    if (column >= picture->columns)
        column = picture->columns - 1;
    return picture->left + column;
}

static int row_of(const Picture *picture, double ft)
{
    int row = (int)floor((1.0 - ft / LANE_LENGTH_FT) * picture->rows);
    return picture->top + (row < 0 ? 0 : row >= picture->rows ? picture->rows - 1 : row);
}

/* Feet at the middle of a row. */
static double ft_of(const Picture *picture, int row)
{
    return LANE_LENGTH_FT * (1.0 - (row - picture->top + 0.5) / picture->rows);
}

int laneview_shade(double units)
{
    int shade = 0;
    while (shade + 1 < GLYPH_FILMS && units >= SHADE_UNITS[shade + 1])
        shade++;
    return shade;
}

static void draw_film(const Model *model, Canvas *canvas, const Picture *picture)
{
    static const Role ROLES[GLYPH_FILMS] = {ROLE_BOARD, ROLE_OIL1, ROLE_OIL2,
                                            ROLE_OIL3,  ROLE_OIL4, ROLE_OIL5};
    const Oil *oil = &model->shown.film;
    for (int r = 0; r < picture->rows; r++) {
        double y = m_from_ft(ft_of(picture, picture->top + r));
        for (int c = 0; c < picture->columns; c++) {
            double u = (c + 0.5) / picture->columns;
            double x = (picture->right_hand ? 1.0 - u : u) * LANE_WIDTH_M;
            int shade = laneview_shade(oil_at(oil, x, y));
            canvas_put(canvas, picture->top + r, picture->left + c, model->glyphs->film[shade],
                       ROLES[shade]);
        }
    }
}

static void draw_edges(const Model *model, Canvas *canvas, const Picture *picture)
{
    for (int r = 0; r < picture->rows; r++) {
        canvas_put(canvas, picture->top + r, picture->left - 1, model->glyphs->gutter, ROLE_DIM);
        canvas_put(canvas, picture->top + r, picture->left + picture->columns,
                   model->glyphs->gutter, ROLE_DIM);
    }
    for (int ft = 0; ft <= 60; ft += 15) {
        char text[8];
        snprintf(text, sizeof text, "%d", ft);
        canvas_text_right(canvas, row_of(picture, ft), picture->left - 2, 2, ROLE_DIM, text);
    }
    for (int board = 5; board <= 35; board += 5) { /* arrows lie in a V, 12.5 to 16 ft */
        double ft = 16.0 - fabs(board - 20.0) / 15.0 * 3.5;
        canvas_over(canvas, row_of(picture, ft), column_of(picture, board), model->glyphs->arrow,
                    ROLE_PIN);
    }
}

static int pin_row(const Picture *picture, int pin)
{
    return picture->deck +
           picture->pitch * (3 - (int)lround(lane_pin_back_in(pin) / LANE_ROW_PITCH_IN));
}

static void draw_pins(const Model *model, Canvas *canvas, const Picture *picture)
{
    bool typing = model->mode == MODE_ENTRY && model->typing.shot.left_said;
    bool fell = model->rehearsing.fell && !typing;
    Pins standing = model->mode == MODE_SPARES           ? model->spare_pins
                    : fell                               ? model->rehearsing.left
                    : !typing                            ? PINS_ALL
                    : model->typing.field == FIELD_SPARE ? model->typing.shot.spare_left
                                                         : model->typing.shot.left;
    for (int pin = 1; pin <= 10; pin++) {
        int row = pin_row(picture, pin);
        double u = 0.5 + lane_pin_right_in(pin) / LANE_WIDTH_IN;
        int column = picture->left + (int)floor(u * picture->columns);
        if (standing & pin_bit(pin))
            canvas_print(canvas, row, column, 2, ROLE_PIN, "%d", pin);
        else
            canvas_put(canvas, row, column, model->glyphs->pin_down, ROLE_DIM);
    }
}

/* It goes inside from the hand on: there is no breakpoint to speak of. */
static bool straight(const Roll *roll) { return !motion_breaks(roll->breakpoint_ft); }

/* Marks a path's cells: every row it passes, and the cells between if it crosses quickly. */
static void draw_path(const Model *model, Canvas *canvas, const Picture *picture, const Roll *roll,
                      const uint32_t glyphs[GLYPH_PHASES], Role role)
{
    int last_row = -1;
    for (int i = 0; i < roll->count; i++) {
        const PathPoint *point = &roll->path[i];
        int row = row_of(picture, point->ft);
        if (row == last_row || point->ft > LANE_LENGTH_FT)
            continue;
        last_row = row;
        /* the row shows the point at its middle */
        int middle = (int)lround(ft_of(picture, row) / OIL_STATION_FT);
        if (middle >= roll->count)
            middle = roll->count - 1;
        int column = column_of(picture, roll->path[middle].board);
        const Cell *cell = canvas_at(canvas, row, column);
        bool both = cell && cell->role == ROLE_PATH2 && role == ROLE_PATH;
        canvas_over(canvas, row, column,
                    both ? model->glyphs->both : glyphs[roll->path[middle].phase], role);
    }
    if (roll->count > 0 && !roll->gutter &&
        !straight(roll)) { /* a mark at the gutter points at the breakpoint */
        int row = row_of(picture, roll->breakpoint_ft);
        int column = picture->right_hand ? picture->left + picture->columns : picture->left - 1;
        canvas_put(canvas, row, column,
                   picture->right_hand ? model->glyphs->breaks_left : model->glyphs->breaks_right,
                   role);
    }
}

/* What the first answer may be missed by, as a band from the arrows to the breakpoint: it widens as
 * two lines from one laydown do. Edges that fall on the path's own cells are not drawn. */
static void draw_area(const Model *model, Canvas *canvas, const Picture *picture, const Roll *roll,
                      const Adjustment *best)
{
    double end = roll->breakpoint_ft;
    double miss_in = fmin(best->margin_in, LANE_BOARDS),
           miss_out = fmin(best->margin_out, LANE_BOARDS);
    for (int row = picture->top; row < picture->top + picture->rows; row++) {
        double ft = ft_of(picture, row), widens = ft / LANE_ARROWS_FT;
        int point = (int)lround(ft / OIL_STATION_FT);
        if (ft < LANE_ARROWS_FT || ft > end || point >= roll->count)
            continue;
        double board = roll->path[point].board;
        int on = column_of(picture, board);
        int in = column_of(picture, board + miss_in * widens);
        int out = column_of(picture, board - miss_out * widens);
        int left = in < out ? in : out, right = in < out ? out : in;
        if (left < on)
            canvas_over(canvas, row, left, model->glyphs->area_left, ROLE_DIM);
        if (right > on)
            canvas_over(canvas, row, right, model->glyphs->area_right, ROLE_DIM);
    }
}

/* The shapes of a path, where there is a row to spare. */
static void draw_shapes(const Model *model, Canvas *canvas, int row, int column, int width)
{
    char text[64] = "";
    for (int phase = 0; phase < GLYPH_PHASES; phase++) {
        char shape[5] = "";
        text_encode(model->glyphs->path_at[phase], shape);
        text_append(text, sizeof text, "%s %s  ", shape, PHASE_NAMES[phase]);
    }
    text_append(text, sizeof text, "( ) area");
    canvas_text(canvas, row, column, width, ROLE_DIM, text);
}

/* The path over the deck to the pin that is hit. */
static void draw_over_deck(const Model *model, Canvas *canvas, const Picture *picture,
                           const SpareLine *line)
{
    for (int row = pin_row(picture, line->pin) + 1; row < picture->top; row++) {
        double back =
            (picture->deck + 3 * picture->pitch - row) * LANE_ROW_PITCH_IN / picture->pitch;
        double board =
            line->board + m_from_in(back) * tan(rad_from_deg(line->degrees)) / LANE_BOARD_M;
        const Cell *cell = canvas_at(canvas, row, column_of(picture, board));
        if (cell && cell->glyph == ' ')
            canvas_put(canvas, row, column_of(picture, board), model->glyphs->path, ROLE_PATH);
    }
}

/* The window as brackets in front of the pin. */
static void draw_window(Canvas *canvas, const Picture *picture, const SpareLine *line)
{
    int row = pin_row(picture, line->pin) + 1;
    double ends[2] = {picture->right_hand ? line->window_high : line->window_low,
                      picture->right_hand ? line->window_low : line->window_high};
    for (int i = 0; i < 2; i++) {
        int column = column_of(picture, ends[i]);
        const Cell *cell = canvas_at(canvas, row, column);
        if (cell && cell->glyph == ' ')
            canvas_put(canvas, row, column, i ? ']' : '[', ROLE_ACCENT);
    }
}

static void draw_spare(const Model *model, Canvas *canvas, const Picture *picture)
{
    const SpareLine *line = model_spare_line(model);
    if (!line)
        return;
    draw_path(model, canvas, picture, &model->spare_path, model->glyphs->path_at, ROLE_PATH);
    if (line->pin == 0)
        return;
    draw_over_deck(model, canvas, picture, line);
    if (line->window_high > line->window_low)
        draw_window(canvas, picture, line);
}

static void draw_scale(const Model *model, Canvas *canvas, const Picture *picture)
{
    int step = picture->columns >= LANE_BOARDS ? 5 : 10;
    canvas_hline(canvas, picture->scale, picture->left - 1, picture->columns + 2,
                 model->glyphs->foul, ROLE_DIM);
    for (int board = step; board < LANE_BOARDS; board += step) {
        char text[8];
        int width = snprintf(text, sizeof text, "%d", board);
        canvas_text(canvas, picture->scale, column_of(picture, board) - (width > 1), width,
                    ROLE_DIM, text);
    }
}

/* Marks a path whose film or plan is outdated. */
static void draw_legend_row(Canvas *canvas, int row, int column, int width, uint32_t glyph,
                            Role role, const Roll *roll, const char *word, bool current)
{
    char text[96];
    const char *mark = current ? ":" : "…";
    canvas_put(canvas, row, column, glyph, role);
    if (roll->gutter)
        snprintf(text, sizeof text, "%s%s in the gutter", word, mark);
    else if (straight(roll))
        snprintf(text, sizeof text, "%s%s straight from %.0f", word, mark, roll->breakpoint_board);
    else
        snprintf(text, sizeof text, "%s%s breaks %.0f at %.0f ft", word, mark,
                 roll->breakpoint_board, roll->breakpoint_ft);
    canvas_text(canvas, row, column + 2, width - 2, ROLE_DIM, text);
}

static bool same_throw(const Plan *a, const Plan *b)
{
    return a->slot == b->slot && fabs(a->stance - b->stance) < 0.25 &&
           fabs(a->aim - b->aim) < 0.25 && fabs(a->mph_change - b->mph_change) < 0.1 &&
           fabs(a->loft_change_ft - b->loft_change_ft) < 0.1 &&
           fabs(a->rotation_change_deg - b->rotation_change_deg) < 0.5;
}

/* The plan, and the first answer if it differs. */
static void draw_plans(const Model *model, Canvas *canvas, const Picture *picture, Area area)
{
    const Adjustment *best = model_adjustment(model, 0);
    const Glyphs *glyphs = model->glyphs;
    Plan plan = model_plan(model);
    bool current = model_advice_current(model) && model_paths_current(model);
    if (best && model->path2_on && !model->path2.gutter && !straight(&model->path2))
        draw_area(model, canvas, picture, &model->path2, best);
    if (area.rows >= SHAPES_FROM)
        draw_shapes(model, canvas, picture->legend + LEGEND_ROWS, area.column, area.columns);
    if (model->path2_on && best && !same_throw(&best->plan, &plan)) {
        draw_path(model, canvas, picture, &model->path2, glyphs->path2_at, ROLE_PATH2);
        draw_legend_row(canvas, picture->legend + 1, area.column, area.columns, glyphs->path2,
                        ROLE_PATH2, &model->path2, "new", current);
    }
    if (model->path_on) {
        draw_path(model, canvas, picture, &model->path, glyphs->path_at, ROLE_PATH);
        draw_legend_row(canvas, picture->legend, area.column, area.columns, glyphs->path, ROLE_PATH,
                        &model->path, "now", current);
    }
}

/* The planned ball on its way: the path behind it, its time and speed. */
static void draw_rolling(const Model *model, Canvas *canvas, const Picture *picture, Area area)
{
    Roll behind;
    rolling_behind(&model->path, model->roll_s, &behind);
    const PathPoint *at = &behind.path[behind.count - 1];
    draw_path(model, canvas, picture, &behind, model->glyphs->path_at, ROLE_PATH);
    canvas_over(canvas, row_of(picture, at->ft), column_of(picture, at->board), model->glyphs->both,
                ROLE_ACCENT);
    rolling_words(&model->path, model->roll_s, canvas, picture->legend, area.column, area.columns);
}

/* The path of the plan, and where the film is cut: its distance at the left edge, and a mark at the
 * gutter that has none for the breakpoint. */
static void draw_cut(const Model *model, Canvas *canvas, const Picture *picture, Area area)
{
    const Glyphs *glyphs = model->glyphs;
    int row = row_of(picture, model->oil_ft);
    if (model->path_on) {
        draw_path(model, canvas, picture, &model->path, glyphs->path_at, ROLE_PATH);
        draw_legend_row(canvas, picture->legend, area.column, area.columns, glyphs->path, ROLE_PATH,
                        &model->path, "now",
                        model_advice_current(model) && model_paths_current(model));
    }
    canvas_print(canvas, row, picture->left - 4, 2, ROLE_ACCENT, "%2d", model->oil_ft);
    if (picture->right_hand)
        canvas_put(canvas, row, picture->left - 1, glyphs->breaks_right, ROLE_ACCENT);
    else
        canvas_put(canvas, row, picture->left + picture->columns, glyphs->breaks_left, ROLE_ACCENT);
}

/* What the shades mean: from how many units on. */
static void draw_shades(const Model *model, Canvas *canvas, const Picture *picture, Area area)
{
    static const Role ROLES[GLYPH_FILMS] = {ROLE_BOARD, ROLE_OIL1, ROLE_OIL2,
                                            ROLE_OIL3,  ROLE_OIL4, ROLE_OIL5};
    int row = picture->legend + 1, column = area.column;
    for (int shade = 1; shade < GLYPH_FILMS; shade++) {
        char text[48];
        if (shade == GLYPH_FILMS - 1)
            snprintf(text, sizeof text, "%g+ units", SHADE_UNITS[shade]);
        else
            snprintf(text, sizeof text, "%g-%g", SHADE_UNITS[shade], SHADE_UNITS[shade + 1]);
        int width = canvas_width(text) + 2;
        if (column + width > area.column + area.columns) {
            row++;
            column = area.column;
        }
        canvas_put(canvas, row, column, model->glyphs->film[shade], ROLES[shade]);
        canvas_text(canvas, row, column + 2, width, ROLE_DIM, text);
        column += width + 1;
    }
}

/* The ball on its way, and where it has been. */
static void draw_ball(const Model *model, Canvas *canvas, const Picture *picture)
{
    Roll roll = model->rehearsing.roll; /* as far as it has come */
    int come = (int)(model->rehearsing.ft / OIL_STATION_FT) + 1;
    roll.count = come < roll.count ? come : roll.count;
    roll.gutter = true; /* no mark at a breakpoint that isn't known yet */
    if (roll.count == 0)
        return;
    draw_path(model, canvas, picture, &roll, model->glyphs->path_at, ROLE_PATH);
    const PathPoint *at = &roll.path[roll.count - 1];
    canvas_over(canvas, row_of(picture, at->ft), column_of(picture, at->board), 'O', ROLE_ACCENT);
}

void laneview_draw(const Model *model, Canvas *canvas, Area area)
{
    Picture picture = picture_of(model, area);
    if (picture.rows < 1 || picture.columns < 1)
        return;
    if (model->mode == MODE_OIL) {
        draw_film(model, canvas, &picture);
        draw_edges(model, canvas, &picture);
        draw_scale(model, canvas, &picture);
        draw_shades(model, canvas, &picture, area);
        draw_cut(model, canvas, &picture, area);
        return;
    }
    draw_pins(model, canvas, &picture);
    draw_film(model, canvas, &picture);
    draw_edges(model, canvas, &picture);
    draw_scale(model, canvas, &picture);
    if (model->mode == MODE_SPARES)
        draw_spare(model, canvas, &picture);
    else if (model->mode == MODE_ROLL && model->path_on)
        draw_rolling(model, canvas, &picture, area);
    else if (model->mode == MODE_THROW)
        draw_ball(model, canvas, &picture);
    else
        draw_plans(model, canvas, &picture, area);
}
