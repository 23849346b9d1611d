/* screen_log.c - the score sheet as bowlers write it, every shot under it, and the hits by lane and
 * game as a chart. */
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/event/stays.h"
#include "ui/log_rows.h"
#include "ui/screens/screens.h"

enum {
    EDGE = 1,
    GAP = 2,
    LABEL = 8,
    LIST_MIN = 38,
    LIST_MAX = 46,
    CHART_MIN = 38,
    CHART_LABEL = 9
};
enum { SHEET_ROWS = 3, CHART_HITS = HIT_COUNT - 1 };

static bool typing(const Model *model)
{
    return model->mode == MODE_ENTRY ||
           (model->mode == MODE_ASK && model->mode_before == MODE_ENTRY);
}

/* ---- the sheet ---- */

/* "7 2", "8s /", "X X 8" */
static void frame_balls(const Score *score, const ScoreFrame *frame, char *out, size_t size)
{
    text_copy(out, size, "");
    for (int k = 0; k < frame->balls; k++) {
        char ball[8];
        score_ball_words(score, frame->first + k, ball, sizeof ball);
        text_append(out, size, "%s%s", k ? " " : "", ball);
    }
}

/* A column a frame, the tenth last; `now`: the frame of the chosen row. */
static void draw_sheet(Canvas *canvas, Area area, int game, const Score *score, int now)
{
    int width = (area.columns - LABEL) / SCORE_FRAMES;
    canvas_print(canvas, area.row, area.column, LABEL - 1, ROLE_TITLE, "Game %d", game);
    for (int i = 0; i < SCORE_FRAMES; i++) {
        char text[24] = "";
        int end = area.column + LABEL + (i + 1) * width - 1;
        Role role = i + 1 == now ? ROLE_ACCENT : ROLE_PLAIN;
        text_append(text, sizeof text, "%d", i + 1);
        canvas_text_right(canvas, area.row, end, width - 1, ROLE_DIM, text);
        if (i >= score->frame_count)
            continue;
        frame_balls(score, &score->frames[i], text, sizeof text);
        canvas_text_right(canvas, area.row + 1, end, width, role, text);
        text_copy(text, sizeof text, "");
        if (score->frames[i].total != SCORE_UNKNOWN)
            text_append(text, sizeof text, "%d", score->frames[i].total);
        canvas_text_right(canvas, area.row + 2, end, width - 1, role, text);
    }
}

/* The same in two lines that wrap: "9/ X 81 F/". */
static void draw_sheet_compact(Canvas *canvas, Area area, const Score *score)
{
    char text[160] = "";
    for (int i = 0; i < score->frame_count; i++) {
        text_append(text, sizeof text, "%s", i ? " " : "");
        for (int k = 0; k < score->frames[i].balls; k++) {
            char ball[8];
            score_ball_words(score, score->frames[i].first + k, ball, sizeof ball);
            text_append(text, sizeof text, "%s", ball);
        }
    }
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_PLAIN,
                text[0] ? text : "no frame yet");
}

/* "Score 84, best possible 242", and what a target takes. Returns the rows. */
static int draw_score(const Model *model, Canvas *canvas, Area area, const Score *score, bool known)
{
    char text[200] = "";
    if (!known)
        text_append(text, sizeof text,
                    "From there on a leave or a spare was not entered: no score.");
    else if (score->over)
        text_append(text, sizeof text, "Score %d", score->total);
    else
        text_append(text, sizeof text, "Score %d, best possible %d", score->total, score->best);
    if (known && model->session->target > 0 && !score->over) {
        ScoreNeed need = score_need(score, model->session->target);
        text_append(text, sizeof text, ". %s", need.words);
    }
    return canvas_wrap(canvas, area.row, area.column, area.columns, area.rows,
                       known ? ROLE_PLAIN : ROLE_WARN, text);
}

/* ---- the shots ---- */

static void draw_told(const Model *model, Canvas *canvas, Area area, const ToldFrame *told,
                      bool picked)
{
    Role role = picked ? ROLE_FIELD : ROLE_PLAIN;
    if (picked) {
        canvas_put(canvas, area.row, area.column - 1, model->glyphs->breaks_right, ROLE_ACCENT);
        canvas_hline(canvas, area.row, area.column, area.columns, ' ', ROLE_FIELD);
    }
    canvas_print(canvas, area.row, area.column, area.columns, role, "%2d%c   pins only: %s",
                 told->frame, told->lane == SIDE_LEFT ? 'L' : 'R', told->balls);
}

static void draw_next(const Model *model, Canvas *canvas, Area area, bool picked)
{
    const Session *session = model->session;
    char side = session->lane == SIDE_LEFT ? 'L' : 'R';
    if (picked)
        canvas_put(canvas, area.row, area.column - 1, model->glyphs->breaks_right, ROLE_ACCENT);
    if (session->warm_up)
        canvas_print(canvas, area.row, area.column, area.columns, ROLE_DIM, " -%c   next", side);
    else
        canvas_print(canvas, area.row, area.column, area.columns, ROLE_DIM,
                     "%2d%c   next; Enter adds it by its pins", session->frame, side);
}

static void draw_list(const Model *model, Canvas *canvas, Area area)
{
    LogRow rows[LOG_ROWS_MAX];
    int count = log_rows(model->session, model->log_game, rows);
    int picked = model->log_row < count ? model->log_row : count - 1;
    int top = count - area.rows;
    top = picked < top ? picked : top;
    for (int i = top < 0 ? 0 : top; i < count && i - (top < 0 ? 0 : top) < area.rows; i++) {
        Area line = {area.row + i - (top < 0 ? 0 : top), area.column, 1, area.columns};
        if (rows[i].kind == LOG_SHOT)
            screen_shot_row(model, canvas, line, rows[i].index, i == picked);
        else if (rows[i].kind == LOG_TOLD)
            draw_told(model, canvas, line, &model->session->told[rows[i].index], i == picked);
        else
            draw_next(model, canvas, line, i == picked);
    }
}

/* The frame of the chosen row, 0: none. */
static int chosen_frame(const Model *model)
{
    LogRow rows[LOG_ROWS_MAX];
    const Session *session = model->session;
    int count = log_rows(session, model->log_game, rows);
    if (count == 0)
        return 0;
    LogRow row = rows[model->log_row < count ? model->log_row : count - 1];
    return row.kind == LOG_SHOT   ? session->shot_frame[row.index]
           : row.kind == LOG_TOLD ? session->told[row.index].frame
                                  : session->frame;
}

/* ---- the chart ---- */

/* The shots up to the end of the chosen game, a column each, as many as there is room for; a line
 * between games. */
static void draw_chart_shots(const Model *model, Canvas *canvas, Area area)
{
    const Session *session = model->session;
    int last = session->shot_count - 1, column = area.column + area.columns - 1;
    while (last >= 0 && session->shot_game[last] > model->log_game)
        last--;
    int shown = 0, width = 0, first = last + 1;
    for (int i = last; i >= 0; i--) { /* how many there is room for */
        int need = 1 + (i < last && session->shot_game[i] != session->shot_game[i + 1]);
        if (width + need > area.columns)
            break;
        width += need;
        first = i;
        shown++;
    }
    column = area.column;
    for (int i = first; i <= last; i++, column++) {
        const Shot *shot = &session->shots[i];
        bool begins = i == first || session->shot_game[i] != session->shot_game[i - 1];
        if (i > first && begins) {
            for (int r = 0; r < CHART_HITS; r++)
                canvas_put(canvas, area.row + r, column, model->glyphs->gutter, ROLE_DIM);
            column++;
        }
        if (begins)
            canvas_print(canvas, area.row + CHART_HITS, column, 3, ROLE_DIM,
                         session->shot_game[i] ? "%d" : "w", session->shot_game[i]);
        if (shot->hit == HIT_UNSAID)
            continue;
        char mark = shot->lane == SIDE_LEFT ? 'L' : 'R';
        canvas_put(canvas, area.row + HIT_CROSSED - (int)shot->hit, column,
                   (uint32_t)(shot_good(shot) ? mark : mark - 'A' + 'a'),
                   shot->lane == SIDE_LEFT ? ROLE_PATH : ROLE_PATH2);
    }
}

/* The hits of a game on one lane. */
typedef struct Counts {
    int hits, pocket, high, light;
} Counts;

static Counts count_hits(const Session *session, int game, Side side)
{
    Counts counts = {0};
    for (int i = 0; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        if (session->shot_game[i] != game || shot->lane != side || !shot->hit)
            continue;
        counts.hits++;
        counts.pocket += shot_pocket(shot);
        counts.high += !shot_pocket(shot) && shot_side(shot->hit) > 0;
        counts.light += !shot_pocket(shot) && shot_side(shot->hit) < 0;
    }
    return counts;
}

static void draw_lane_counts(const Model *model, Canvas *canvas, Area area, Side side)
{
    const int *pair = event_pair(&model->session->event, model->log_game > 0 ? model->log_game : 1);
    Counts counts = count_hits(model->session, model->log_game, side);
    canvas_print(canvas, area.row, area.column, area.columns, ROLE_PLAIN,
                 "%c %d: pocket %d of %d, high %d, light %d", side == SIDE_LEFT ? 'L' : 'R',
                 pair[side], counts.pocket, counts.hits, counts.high, counts.light);
}

/* On a tall screen every game: its lanes, its score, the pocket hits on each lane. */
static void draw_games(const Model *model, Canvas *canvas, Area area)
{
    const Session *session = model->session;
    int row = area.row, now = log_game_now(session);
    canvas_text(canvas, row++, area.column, area.columns, ROLE_TITLE,
                "game  lanes   score  pocket L  pocket R");
    for (int game = now > area.rows - 1 ? now - area.rows + 2 : 1; game <= now; game++, row++) {
        const int *pair = event_pair(&session->event, game);
        char total[16] = "?", text[96] = "";
        Score score;
        Counts left = count_hits(session, game, SIDE_LEFT);
        Counts right = count_hits(session, game, SIDE_RIGHT);
        if (session_score(session, game, &score))
            snprintf(total, sizeof total, "%d", score.over ? score.total : score.pins_so_far);
        text_append(text, sizeof text, "%4d  %2d %2d  %6s  %3d of %2d %3d of %2d", game, pair[0],
                    pair[1], total, left.pocket, left.hits, right.pocket, right.hits);
        canvas_text(canvas, row, area.column, area.columns,
                    game == model->log_game ? ROLE_ACCENT : ROLE_PLAIN, text);
    }
}

static void draw_chart(const Model *model, Canvas *canvas, Area area)
{
    if (area.rows < CHART_HITS + 2)
        return;
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE, "Hits by lane and game");
    for (int hit = HIT_GUTTER; hit <= HIT_CROSSED; hit++) {
        bool pocket = hit == HIT_LIGHT || hit == HIT_FLUSH;
        int row = area.row + 1 + HIT_CROSSED - hit;
        canvas_text(canvas, row, area.column, CHART_LABEL - 1, pocket ? ROLE_PLAIN : ROLE_DIM,
                    HIT_NAMES[hit]);
        canvas_put(canvas, row, area.column + CHART_LABEL - 1, model->glyphs->gutter, ROLE_DIM);
    }
    canvas_text(canvas, area.row + 1 + CHART_HITS, area.column, CHART_LABEL - 1, ROLE_DIM, "game");
    draw_chart_shots(
        model, canvas,
        (Area){area.row + 1, area.column + CHART_LABEL, CHART_HITS, area.columns - CHART_LABEL});
    int row = area.row + CHART_HITS + 2, end = area.row + area.rows;
    for (int side = 0; side < SIDE_COUNT && row < end; side++, row++)
        draw_lane_counts(model, canvas, (Area){row, area.column, 1, area.columns}, (Side)side);
    if (row < end)
        canvas_text(canvas, row++, area.column, area.columns, ROLE_DIM,
                    "small: the release was not good");
    if (end - row > 4)
        draw_games(model, canvas, (Area){row + 1, area.column, end - row - 1, area.columns});
}

/* ---- the whole ---- */

/* A field of the log's own: a frame's balls, or the target. */
static void draw_field(const Model *model, Canvas *canvas, int row)
{
    bool told = model->mode == MODE_TOLD;
    int column = 1;
    column += canvas_text(canvas, row, column, 24, ROLE_TITLE,
                          told ? "Pins of the frame" : "Score to aim for") +
              1;
    canvas_hline(canvas, row, column, TOLD_SIZE, ' ', ROLE_FIELD);
    canvas->cursor_row = row;
    canvas->cursor_column =
        column + canvas_text(canvas, row, column, TOLD_SIZE, ROLE_FIELD, model->typed);
    column += TOLD_SIZE + 1;
    canvas_text(canvas, row, column, canvas->columns - column - 1, ROLE_DIM,
                told ? "X, 9/, 81, -/" : "0 to 300");
}

static void draw_bottom(const Model *model, Canvas *canvas)
{
    int row = canvas->rows - 2;
    if (typing(model)) {
        screen_lane_bottom(model, canvas);
        return;
    }
    screen_frame_bottom(model, canvas, 1, canvas->columns - 2, ROLE_PLAIN, "");
    if (model->mode == MODE_TOLD || model->mode == MODE_TARGET)
        draw_field(model, canvas, row);
    else if (model->mode != MODE_ASK)
        canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_DIM,
                    log_closed(model->session, model->log_game)
                        ? "This game is finished: a change asks first"
                        : "In a shot F marks a foul");
}

void screen_log(const Model *model, Canvas *canvas)
{
    const Session *session = model->session;
    int width = canvas->columns - 2 * EDGE, row = 1, end = canvas->rows - 3;
    bool compact = model_compact(model);
    Score score;
    bool known = session_score(session, model->log_game, &score);
    screen_frame_event(model, canvas);
    if (model->log_game == 0) {
        canvas_text(canvas, row++, EDGE, width, ROLE_TITLE, "Warm-up: not scored");
    } else if (compact) {
        draw_sheet_compact(canvas, (Area){row++, EDGE, 1, width}, &score);
        row += draw_score(model, canvas, (Area){row, EDGE, 2, width}, &score, known);
    } else {
        draw_sheet(canvas, (Area){row, EDGE, SHEET_ROWS, width}, model->log_game, &score,
                   chosen_frame(model));
        row += SHEET_ROWS;
        row += draw_score(model, canvas, (Area){row, EDGE, 2, width}, &score, known);
        row++;
    }
    int list = width;
    if (!compact) {
        list = width - GAP - CHART_MIN;
        list = list > LIST_MAX ? LIST_MAX : list < LIST_MIN ? LIST_MIN : list;
        draw_chart(model, canvas, (Area){row, EDGE + list + GAP, end - row, width - list - GAP});
        canvas_text(canvas, row++, EDGE, list, ROLE_TITLE, "Shots");
    }
    draw_list(model, canvas, (Area){row, EDGE, end - row, list});
    draw_bottom(model, canvas);
    if (model->mode == MODE_ASK)
        screen_frame_prompt(model, canvas);
}
