/* screen_bag_compact.c - the bag on a small screen: the balls, what they are for, pairs, lanes and
 * surfaces, a page each. Every page follows the chosen ball. */
#include <math.h>
#include <stdio.h>

#include "base/text.h"
#include "core/advice/caution.h"
#include "ui/screens/screens.h"

typedef struct CompactPage {
    const char *title;
    /* Whether there is something to show; the list is always there. */
    bool (*there)(const Model *model);
    void (*draw)(const Model *model, Canvas *canvas, Area area);
} CompactPage;

static const Bag *bag_of(const Model *model) { return &model->session->bag; }
static double hundredth(double value) { return round(1000.0 * value) / 10.0; }

static bool all_known(const Model *model)
{
    return model_arsenal(model) && model_arsenal(model)->done;
}

/* A ball's letter and name, the chosen one marked. */
static void draw_name(const Model *model, Canvas *canvas, int row, Area area, int width, int ball)
{
    bool chosen = ball == model->ball;
    Role role = chosen ? ROLE_ACCENT : bag_of(model)->balls[ball].slot ? ROLE_PLAIN : ROLE_DIM;
    if (chosen)
        canvas_put(canvas, row, area.column, model->glyphs->breaks_right, ROLE_ACCENT);
    canvas_print(canvas, row, area.column + 2, 1, ROLE_KEY, "%c",
                 screen_bag_letter(bag_of(model), ball));
    canvas_text(canvas, row, area.column + 4, width - 4, role, bag_of(model)->balls[ball].name);
}

/* ---- the balls ---- */

enum { FIGURES = 17 };

static void draw_figures(Canvas *canvas, int row, int end, Role role, const Showing *show)
{
    char move[16] = "never", text[48];
    if (!show->ready)
        return;
    if (!show->found) {
        canvas_text_right(canvas, row, end, FIGURES, ROLE_DIM, "no line");
        return;
    }
    if (!isnan(show->line.hook_ft))
        snprintf(move, sizeof move, "%.0f ft", show->line.hook_ft);
    snprintf(text, sizeof text, "%5s%6.1f%5.0f%%", move, show->line.entry_deg,
             100.0 * show->line.pocket);
    canvas_text_right(canvas, row, end, FIGURES, role, text);
}

/* "15 lb solid, 2000 grit, 3 games on it" */
static void draw_equipment(const Model *model, Canvas *canvas, int row, Area area)
{
    const Ball *ball = &bag_of(model)->balls[model->ball];
    char surface[32], text[120] = "";
    ball_surface_words(&ball->surface, surface, sizeof surface);
    text_append(text, sizeof text, "%.4g lb %s, %s", ball->pounds, COVER_NAMES[ball->cover],
                surface);
    if (ball->surface_usual)
        text_append(text, sizeof text, " as usual");
    else if (ball->surface.games_since > 0.0)
        text_append(text, sizeof text, ", %.4g game%s", ball->surface.games_since,
                    ball->surface.games_since == 1.0 ? "" : "s");
    canvas_text(canvas, row, area.column, area.columns, ROLE_PLAIN, text);
}

static void draw_balls(const Model *model, Canvas *canvas, Area area)
{
    int order[BAG_BALLS_MAX], count = model_bag_order(model, order), at = 0;
    int end = area.column + area.columns, room = area.rows - 3;
    for (int i = 0; i < count; i++)
        at = order[i] == model->ball ? i : at;
    int top = at - room / 2 < count - room ? at - room / 2 : count - room;
    top = top < 0 ? 0 : top;
    char title[32] = "Your bag";
    if (room < count)
        snprintf(title, sizeof title, "Ball %d of %d", at + 1, count);
    canvas_text(canvas, area.row, area.column, area.columns - FIGURES, ROLE_TITLE, title);
    canvas_text_right(canvas, area.row, end, FIGURES, ROLE_DIM, "hook entry pocket");
    int row = area.row + 1;
    for (int i = top; i < count && i < top + room; i++, row++) {
        draw_name(model, canvas, row, area, area.columns - FIGURES - 1, order[i]);
        if (model_arsenal(model))
            draw_figures(canvas, row, end, order[i] == model->ball ? ROLE_ACCENT : ROLE_PLAIN,
                         &model_arsenal(model)->ball[order[i]].at[0]);
    }
    row = area.row + area.rows - 2;
    draw_equipment(model, canvas, row, area);
    screen_ball_order(model, canvas, row + 1, area.column, area.columns);
}

/* ---- what they are for ---- */

static void draw_set(const Model *model, Canvas *canvas, Area area, const Set *set)
{
    enum { GAMES = 8, JOB = 54 }; /* a job on its own line is not cut */
    const SetBall *mine = NULL;
    int row = area.row, two = area.columns > JOB && area.rows > 2 * set->count;
    for (int i = 0; i < set->count && row < area.row + area.rows; i++, row += 1 + two) {
        const SetBall *place = &set->place[i];
        char games[24] = "";
        mine = place->ball == model->ball ? place : mine;
        draw_name(model, canvas, row, area, area.columns - GAMES - 1, place->ball);
        if (place->game_from)
            snprintf(games, sizeof games, place->game_from == place->game_to ? "g %d" : "g %d-%d",
                     place->game_from, place->game_to);
        canvas_text_right(canvas, row, area.column + area.columns, GAMES, ROLE_ACCENT, games);
        if (two)
            canvas_text(canvas, row + 1, area.column + 4, area.columns - 4, ROLE_DIM, place->job);
    }
    if (two)
        return;
    char job[sizeof mine->job];
    int left = area.row + area.rows - row;
    text_copy(job, sizeof job, mine ? mine->job : "This ball stays in the locker.");
    if (left == 1)
        widget_brief(job, sizeof job, job, area.columns);
    canvas_wrap(canvas, row, area.column, area.columns, left, ROLE_PLAIN, job);
}

static void draw_jobs(const Model *model, Canvas *canvas, Area area)
{
    draw_set(model, canvas, area, &model_arsenal(model)->bag);
}

static bool picked(const Model *model)
{
    return all_known(model) && model_arsenal(model)->picked.count > 0 &&
           model_arsenal(model)->picked.count < bag_of(model)->count;
}

static void draw_pick(const Model *model, Canvas *canvas, Area area)
{
    draw_set(model, canvas, area, &model_arsenal(model)->picked);
}

/* ---- pairs and lanes ---- */

/* The balls that do the chosen one's job, the most alike first. */
static void draw_pairs(const Model *model, Canvas *canvas, Area area)
{
    enum { SHARE = 12 };
    static const char MEANS[] = "On how many lanes either would do about as well.";
    const Arsenal *arsenal = model_arsenal(model);
    int row = area.row, means = canvas_lines(area.columns, MEANS);
    bool slot = bag_of(model)->balls[model->ball].slot > 0;
    canvas_print(canvas, row++, area.column, area.columns, ROLE_ACCENT, slot ? "%s and" : "%s",
                 bag_of(model)->balls[model->ball].name);
    for (int i = 0; i < arsenal->overlap_count && row < area.row + area.rows - means; i++) {
        const Overlap *pair = &arsenal->overlap[i];
        char text[32];
        if (pair->a != model->ball && pair->b != model->ball)
            continue;
        int other = pair->a == model->ball ? pair->b : pair->a;
        Role role = pair->share >= 0.65 ? ROLE_WARN : pair->share >= 0.35 ? ROLE_PLAIN : ROLE_DIM;
        draw_name(model, canvas, row, area, area.columns - SHARE - 1, other);
        snprintf(text, sizeof text, "%.0f%% %s", 100.0 * pair->share,
                 arsenal_overlap_word(pair->share));
        canvas_text_right(canvas, row++, area.column + area.columns, SHARE, role, text);
    }
    canvas_wrap(canvas, row, area.column, area.columns, area.row + area.rows - row, ROLE_DIM,
                slot ? MEANS : "It is in the locker: only balls in slots are paired.");
}

static void draw_lanes(const Model *model, Canvas *canvas, Area area)
{
    enum { NAME_AT = 17, RIGHT = 6 };
    const Arsenal *arsenal = model_arsenal(model);
    int row = area.row, end = area.column + area.columns;
    canvas_text(canvas, row, area.column, NAME_AT, ROLE_DIM, "lane       share");
    canvas_text(canvas, row, area.column + NAME_AT, area.columns, ROLE_DIM, "best ball");
    canvas_text_right(canvas, row++, end, RIGHT, ROLE_DIM, "lost");
    for (int s = 0; s < LANE_STATE_COUNT; s++, row++) {
        const Gap *gap = &arsenal->gap[s];
        char text[96] = "";
        Role role = gap->open ? ROLE_WARN : gap->ball == model->ball ? ROLE_ACCENT : ROLE_PLAIN;
        canvas_text(canvas, row, area.column, 11, role, LANE_STATE_NAMES[s]);
        canvas_print(canvas, row, area.column + 11, 5, ROLE_DIM, "%4.0f%%",
                     100.0 * arsenal->weight[s]);
        screen_bag_name(model, gap->ball, text, sizeof text);
        canvas_text(canvas, row, area.column + NAME_AT, area.columns - NAME_AT - RIGHT - 1, role,
                    text);
        snprintf(text, sizeof text, "%.1f", hundredth(gap->ideal) - hundredth(gap->best));
        canvas_text_right(canvas, row, end, RIGHT, role, text);
    }
}

/* ---- surfaces ---- */

/* The chosen ball with each surface, three to a row. */
static int draw_shows(const Model *model, Canvas *canvas, Area area)
{
    enum { ACROSS = 3 };
    const SurfaceShow *shows = model_arsenal(model)->ball[model->ball].surface;
    int wide = area.columns / ACROSS;
    for (int k = 0; k < SURFACES; k++) {
        char surface[32], move[8] = "-";
        ball_surface_words(&SURFACE_SET[k], surface, sizeof surface);
        if (SURFACE_SET[k].finish == FINISH_GRIT)
            snprintf(surface, sizeof surface, "%.0f", SURFACE_SET[k].grit);
        if (!isnan(shows[k].hook_ft))
            snprintf(move, sizeof move, "%.0f", shows[k].hook_ft);
        int row = area.row + k / ACROSS, column = area.column + k % ACROSS * wide;
        int end = k % ACROSS == ACROSS - 1 ? area.column + area.columns : column + wide;
        int used = canvas_text(canvas, row, column, end - column, ROLE_DIM, surface);
        canvas_print(canvas, row, column + used + 1, end - column - used - 1, ROLE_PLAIN, "%s/%.0f",
                     move, 100.0 * shows[k].pocket);
    }
    return (SURFACES + ACROSS - 1) / ACROSS;
}

static bool surfaces(const Model *model) { return all_known(model) && model->arsenal_surfaces; }

static void draw_surfaces(const Model *model, Canvas *canvas, Area area)
{
    const Arsenal *arsenal = model_arsenal(model);
    const Ball *ball = &bag_of(model)->balls[model->ball];
    int row = area.row, left = area.rows, care = 0;
    char text[240] = "No change of its surface sets it apart or closes a gap.";
    if (!ball->slot || !arsenal->ball[model->ball].surface[0].ready) {
        canvas_text(canvas, row, area.column, area.columns, ROLE_DIM,
                    "Only for balls in a slot: choose one.");
        return;
    }
    for (int i = arsenal->advice_count - 1; i >= 0; i--)
        if (arsenal->advice[i].ball == model->ball)
            screen_bag_advice(model, &arsenal->advice[i], false, text, sizeof text);
    canvas_text_right(canvas, row, area.column + area.columns, 16, ROLE_DIM, "hook ft/pocket %");
    canvas_text(canvas, row++, area.column, area.columns - 18, ROLE_ACCENT, ball->name);
    row += draw_shows(model, canvas, (Area){row, area.column, 0, area.columns});
    care = canvas_lines(area.columns - 2, CAUTION_WORDS[CAUTION_SURFACE]);
    left = area.row + area.rows - row - care;
    row += canvas_wrap(canvas, row, area.column, area.columns, left, ROLE_PLAIN, text);
    canvas_put(canvas, row, area.column, model->glyphs->caution, ROLE_WARN);
    canvas_wrap(canvas, row, area.column + 2, area.columns - 2, care, ROLE_WARN,
                CAUTION_WORDS[CAUTION_SURFACE]);
}

/* ---- the pages ---- */

static const CompactPage PAGES[] = {{"", NULL, draw_balls},
                                    {"What each is for", all_known, draw_jobs},
                                    {"The best of your locker", picked, draw_pick},
                                    {"Pairs", all_known, draw_pairs},
                                    {"Lanes: strikes in 100 you give away", all_known, draw_lanes},
                                    {"", surfaces, draw_surfaces}};
enum { PAGE_COUNT = sizeof PAGES / sizeof *PAGES };

int screen_bag_compact_pages(const Model *model)
{
    int count = 0;
    for (int i = 0; i < PAGE_COUNT; i++)
        count += !PAGES[i].there || PAGES[i].there(model);
    return count;
}

void screen_bag_compact(const Model *model, Canvas *canvas, int page)
{
    int at = 0;
    Area area = {1, 1, canvas->rows - 3, canvas->columns - 2};
    for (int i = 0; i < PAGE_COUNT; i++) {
        if (PAGES[i].there && !PAGES[i].there(model))
            continue;
        if (at++ != page)
            continue;
        if (PAGES[i].title[0]) {
            canvas_text(canvas, area.row++, area.column, area.columns, ROLE_TITLE, PAGES[i].title);
            area.rows--;
        }
        PAGES[i].draw(model, canvas, area);
    }
}
