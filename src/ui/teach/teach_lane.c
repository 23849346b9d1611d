/* teach_lane.c - see teach_lane.h. */
#include "ui/teach/teach_lane.h"

#include <math.h>

#include "base/units.h"

enum { DECK = 4, EDGES = 2, SOME = 3, MANY = 8 };

static int lane_rows(const TeachLane *lane) { return lane->area.rows - DECK - 1; }
static int boards(const TeachLane *lane) { return lane->area.columns - EDGES; }

static double ft_of(const TeachLane *lane, int row)
{
    return LANE_LENGTH_FT * (1.0 - (row + 0.5) / lane_rows(lane));
}

/* -1: not on the lane. */
static int column_of(const TeachLane *lane, double board)
{
    double from_own = (board - 0.5) / LANE_BOARDS;
    double u = lane->hand == HAND_RIGHT ? 1.0 - from_own : from_own;
    return u >= 0.0 && u < 1.0 ? (int)floor(u * boards(lane)) : -1; /* NAN too */
}

static void draw_pins(const TeachLane *lane, Canvas *canvas)
{
    Pins standing = lane->hand == HAND_LEFT ? lane_mirror_pins(lane->standing) : lane->standing;
    for (int pin = 1; pin <= 10; pin++) {
        int row = lane->area.row + 3 - (int)lround(lane_pin_back_in(pin) / LANE_ROW_PITCH_IN);
        double u = 0.5 + lane_pin_right_in(pin) / LANE_WIDTH_IN;
        int column = lane->area.column + 1 + (int)floor(u * boards(lane));
        if (standing & pin_bit(pin))
            canvas_print(canvas, row, column, 2, ROLE_PIN, "%d", pin);
        else
            canvas_put(canvas, row, column, lane->glyphs->pin_down, ROLE_DIM);
    }
}

static void draw_oil(const TeachLane *lane, const Oil *oil, Canvas *canvas)
{
    static const double UNITS[GLYPH_FILMS] = {0.0, 0.25, 4.0, 9.0, 16.0, 26.0};
    static const Role ROLES[GLYPH_FILMS] = {ROLE_BOARD, ROLE_OIL1, ROLE_OIL2,
                                            ROLE_OIL3,  ROLE_OIL4, ROLE_OIL5};
    for (int r = 0; r < lane_rows(lane); r++)
        for (int c = 0; c < boards(lane); c++) {
            double u = (c + 0.5) / boards(lane);
            double x = (lane->hand == HAND_RIGHT ? 1.0 - u : u) * LANE_WIDTH_M;
            double units = oil_at(oil, x, m_from_ft(ft_of(lane, r)));
            int shade = 0;
            while (shade + 1 < GLYPH_FILMS && units >= UNITS[shade + 1])
                shade++;
            canvas_put(canvas, lane->area.row + DECK + r, lane->area.column + 1 + c,
                       lane->glyphs->film[shade], ROLES[shade]);
        }
}

void teach_lane_draw(const TeachLane *lane, const Oil *oil, Canvas *canvas)
{
    int left = lane->area.column, right = left + lane->area.columns - 1;
    if (lane_rows(lane) < 1 || boards(lane) < 1)
        return;
    draw_pins(lane, canvas);
    if (oil)
        draw_oil(lane, oil, canvas);
    for (int r = 0; r < lane_rows(lane); r++) {
        canvas_put(canvas, lane->area.row + DECK + r, left, lane->glyphs->gutter, ROLE_DIM);
        canvas_put(canvas, lane->area.row + DECK + r, right, lane->glyphs->gutter, ROLE_DIM);
    }
    canvas_hline(canvas, lane->area.row + lane->area.rows - 1, left, lane->area.columns,
                 lane->glyphs->foul, ROLE_DIM);
    for (int board = 5; board <= 35; board += 5) { /* in a V, 12.5 to 16 ft */
        double ft = 16.0 - fabs(board - 20.0) / 15.0 * 3.5;
        int row = (int)floor((1.0 - ft / LANE_LENGTH_FT) * lane_rows(lane));
        canvas_over(canvas, lane->area.row + DECK + row, left + 1 + column_of(lane, board),
                    lane->glyphs->arrow, ROLE_PIN);
    }
}

void teach_lane_path(const TeachLane *lane, const Roll *roll, Role role, Canvas *canvas)
{
    for (int r = 0; r < lane_rows(lane); r++) {
        int at = (int)lround(ft_of(lane, r) / OIL_STATION_FT);
        int column = at < roll->count ? column_of(lane, roll->path[at].board) : -1;
        if (column >= 0)
            canvas_over(canvas, lane->area.row + DECK + r, lane->area.column + 1 + column,
                        lane->glyphs->path, role);
    }
}

void teach_lane_ball(const TeachLane *lane, const PathPoint *at, Canvas *canvas)
{
    int row = (int)((1.0 - at->ft / LANE_LENGTH_FT) * lane_rows(lane));
    int column = column_of(lane, at->board);
    row = row < 0 ? 0 : row < lane_rows(lane) ? row : lane_rows(lane) - 1;
    if (column >= 0)
        canvas_over(canvas, lane->area.row + DECK + row, lane->area.column + 1 + column,
                    lane->glyphs->both, ROLE_ACCENT);
}

/* The board of a throw at that distance; NAN: in the gutter. */
static double board_at(const TeachCloud *cloud, int ball, double ft)
{
    double at = ft / LANE_LENGTH_FT * (TEACH_PATH_POINTS - 1);
    int below = (int)at;
    below = below > TEACH_PATH_POINTS - 2 ? TEACH_PATH_POINTS - 2 : below;
    double low = (double)cloud->board[ball][below], high = (double)cloud->board[ball][below + 1];
    return low + (high - low) * (at - below);
}

void teach_lane_cloud(const TeachLane *lane, const TeachCloud *cloud, Role role, Canvas *canvas)
{
    enum { COLUMNS_MAX = 80 };
    for (int r = 0; r < lane_rows(lane); r++) {
        int count[COLUMNS_MAX] = {0};
        for (int ball = 0; ball < TEACH_SHOWN; ball++) {
            int column = column_of(lane, board_at(cloud, ball, ft_of(lane, r)));
            if (column >= 0 && column < COLUMNS_MAX)
                count[column]++;
        }
        for (int c = 0; c < boards(lane) && c < COLUMNS_MAX; c++)
            if (count[c])
                canvas_over(canvas, lane->area.row + DECK + r, lane->area.column + 1 + c,
                            count[c] >= MANY   ? lane->glyphs->path
                            : count[c] >= SOME ? lane->glyphs->path2
                                               : lane->glyphs->film[1],
                            role);
    }
}
