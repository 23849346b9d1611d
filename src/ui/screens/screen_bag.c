/* screen_bag.c - the bag: balls and their motion, pairs, lanes, jobs, the best six, surfaces.
 *
 * Parts are laid out page by page, as many per page as fit. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/rules.h"
#include "ui/screens/screens.h"

enum { MAP_HIGH = 9, SURFACE_COLUMNS = 7 };
/* The map's range: where balls hook, and their entry angles. */
#define MAP_FT_FIRST 28.0
#define MAP_FT_LAST 60.0
#define MAP_DEG_TOP 7.0
#define MAP_DEG_STEP 0.5

typedef struct Section {
    int (*rows)(const Model *model, int columns);
    void (*draw)(const Model *model, Canvas *canvas, Area area);
} Section;

static const Bag *bag_of(const Model *model) { return &model->session->bag; }
static int hundredths(double value) { return (int)lround(1000.0 * value); }

/* Whether there is room for the locker's balls too. */
static bool whole_locker(const Model *model)
{
    return model->rows >= 34 && bag_of(model)->count <= model->rows - 18;
}

/* The balls of a table, without the locker's if there is no room. */
static int listed(const Model *model, int out[BAG_BALLS_MAX])
{
    int count = model_bag_order(model, out);
    while (!whole_locker(model) && count > 0 && bag_of(model)->balls[out[count - 1]].slot == 0)
        count--;
    return count;
}

char screen_bag_letter(const Bag *bag, int ball)
{
    int locker = 0;
    if (bag->balls[ball].slot)
        return (char)('0' + bag->balls[ball].slot);
    for (int i = 0; i < ball; i++)
        locker += bag->balls[i].slot == 0;
    return (char)(locker < 26 ? 'a' + locker : 'A' + locker % 26);
}

void screen_bag_name(const Model *model, int ball, char *out, size_t size)
{
    out[0] = '\0';
    if (ball >= 0)
        text_append(out, size, "%c %s", screen_bag_letter(bag_of(model), ball),
                    bag_of(model)->balls[ball].name);
}

static int balls_rows(const Model *model, int columns)
{
    int balls[BAG_BALLS_MAX];
    (void)columns;
    return 2 + listed(model, balls);
}

enum { BALLS_WIDE = 96, FIGURES_WIDE = 54 };

static void draw_ball_titles(Canvas *canvas, int row, int end)
{
    static const char *const TITLES[2][7] = {
        {"", "break-", "entry", "boards", "", "pocket", ""},
        {"hooks", "point", "deg", "crossed", "flare", "chance", "area"}};
    for (int i = 0; i < 2; i++) {
        const char *const *t = TITLES[i];
        char text[96];
        snprintf(text, sizeof text, "%5s  %8s %6s%9s%7s%8s%6s", t[0], t[1], t[2], t[3], t[4], t[5],
                 t[6]);
        canvas_text_right(canvas, row + i, end, FIGURES_WIDE, ROLE_DIM, text);
    }
}

static void draw_ball_figures(Canvas *canvas, int row, int end, Role role, const Showing *show)
{
    const Line *line = &show->line;
    char text[96] = "";
    if (!show->ready)
        return;
    if (!show->found) {
        canvas_text_right(canvas, row, end, 30, ROLE_DIM, "no line to the pocket");
        return;
    }
    if (isnan(line->hook_ft))
        text_append(text, sizeof text, "never");
    else
        text_append(text, sizeof text, "%2.0f ft", line->hook_ft);
    if (!motion_breaks(line->breakpoint_ft))
        text_append(text, sizeof text, "  straight");
    else
        text_append(text, sizeof text, "  %4.1f @%2.0f ", line->breakpoint_board,
                    line->breakpoint_ft);
    text_append(text, sizeof text, "%6.1f%9.1f%7.1f%7.0f%%%6.1f", line->entry_deg,
                show->crossed_boards, show->flare_in, 100.0 * line->pocket,
                line->margin_in + line->margin_out);
    canvas_text_right(canvas, row, end, FIGURES_WIDE, role, text);
}

static void draw_balls(const Model *model, Canvas *canvas, Area area)
{
    int balls[BAG_BALLS_MAX], count = listed(model, balls), row = area.row + 2;
    int end = area.column + (area.columns < BALLS_WIDE ? area.columns : BALLS_WIDE);
    canvas_text(canvas, area.row, area.column, 25, ROLE_TITLE, "Each on its own line");
    draw_ball_titles(canvas, area.row, end);
    for (int i = 0; i < count; i++, row++) {
        const Ball *ball = &bag_of(model)->balls[balls[i]];
        Role role = ball->slot ? ROLE_PLAIN : ROLE_DIM;
        canvas_print(canvas, row, area.column, 1, ROLE_KEY, "%c",
                     screen_bag_letter(bag_of(model), balls[i]));
        canvas_text(canvas, row, area.column + 2, 24, role, ball->name);
        draw_ball_figures(canvas, row, end, role, &model_arsenal(model)->ball[balls[i]].at[0]);
    }
}

static int map_rows(const Model *model, int columns)
{
    (void)model;
    (void)columns;
    return MAP_HIGH + 3;
}

/* The map's place on the canvas: its top left corner and width. */
typedef struct Map {
    int top, left, width;
} Map;

static void draw_axes(const Model *model, Canvas *canvas, const Map *map)
{
    int foot = map->top + MAP_HIGH;
    for (int y = 0; y < MAP_HIGH; y++) {
        if (y % 2 == 0)
            canvas_print(canvas, map->top + y, map->left - 5, 4, ROLE_DIM, "%2.0f",
                         MAP_DEG_TOP - MAP_DEG_STEP * y);
        canvas_put(canvas, map->top + y, map->left - 1, model->glyphs->gutter, ROLE_DIM);
    }
    canvas_hline(canvas, foot, map->left, map->width, model->glyphs->rule, ROLE_DIM);
    for (int ft = 30; ft <= 55; ft += 5) {
        int x = (int)lround((ft - MAP_FT_FIRST) / (MAP_FT_LAST - MAP_FT_FIRST) * (map->width - 1));
        canvas_print(canvas, foot + 1, map->left + x - 1, 5, ROLE_DIM, ft == 55 ? "%d ft" : "%d",
                     ft);
    }
}

/* If a ball's place is taken, it goes further right. */
static void draw_on_map(Canvas *canvas, const Map *map, const Line *line, char letter, Role role)
{
    double share = (line->hook_ft - MAP_FT_FIRST) / (MAP_FT_LAST - MAP_FT_FIRST);
    int x = (int)lround(share * (map->width - 1));
    int y = (int)lround((MAP_DEG_TOP - line->entry_deg) / MAP_DEG_STEP);
    x = x < 0 ? 0 : x > map->width - 1 ? map->width - 1 : x;
    y = y < 0 ? 0 : y > MAP_HIGH - 1 ? MAP_HIGH - 1 : y;
    for (; x < map->width - 1; x++) {
        const Cell *cell = canvas_at(canvas, map->top + y, map->left + x);
        if (!cell || cell->glyph == ' ')
            break;
    }
    canvas_put(canvas, map->top + y, map->left + x, (uint32_t)letter, role);
}

static void draw_map(const Model *model, Canvas *canvas, Area area)
{
    const Bag *bag = bag_of(model);
    int width = area.columns - 6 < 100 ? area.columns - 6 : 100;
    Map map = {area.row + 1, area.column + 5, width};
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE,
                "Motion map: entry angle in degrees by where it hooks");
    draw_axes(model, canvas, &map);
    for (int pass = 0; pass < 2; pass++) /* the slots first */
        for (int i = 0; i < bag->count; i++) {
            const Showing *show = &model_arsenal(model)->ball[i].at[0];
            bool slot = bag->balls[i].slot > 0;
            if (slot == (pass == 0) && show->found && !isnan(show->line.hook_ft))
                draw_on_map(canvas, &map, &show->line, screen_bag_letter(bag, i),
                            slot ? ROLE_ACCENT : ROLE_DIM);
        }
}

static int pairs_rows(const Model *model, int columns)
{
    (void)columns;
    int most = model->rows >= 34 ? 10 : 7;
    return 1 + (model_arsenal(model)->overlap_count < most ? model_arsenal(model)->overlap_count
                                                           : most);
}

static void draw_pairs(const Model *model, Canvas *canvas, Area area)
{
    const Arsenal *arsenal = model_arsenal(model);
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE,
                "Pairs: on how many lanes either would do about as well");
    canvas_text_right(canvas, area.row, area.column + area.columns, 24, ROLE_DIM,
                      "second: move, entry");
    for (int i = 0; i < area.rows - 1 && i < arsenal->overlap_count; i++) {
        const Overlap *pair = &arsenal->overlap[i];
        char a[64], b[64], text[200] = "";
        int row = area.row + 1 + i;
        Role role = pair->share >= 0.65 ? ROLE_WARN : pair->share >= 0.35 ? ROLE_PLAIN : ROLE_DIM;
        screen_bag_name(model, pair->a, a, sizeof a);
        screen_bag_name(model, pair->b, b, sizeof b);
        canvas_print(canvas, row, area.column, 6, role, "%4.0f%%", 100.0 * pair->share);
        canvas_text(canvas, row, area.column + 7, 7, role, arsenal_overlap_word(pair->share));
        text_append(text, sizeof text, "%s and %s", a, b);
        canvas_text(canvas, row, area.column + 15, area.columns - 40, role, text);
        snprintf(text, sizeof text, "%+.1f ft, %+.1f deg", pair->move_ft, pair->entry_deg);
        canvas_text_right(canvas, row, area.column + area.columns, 24, ROLE_DIM, text);
    }
}

static int lanes_rows(const Model *model, int columns)
{
    (void)model;
    (void)columns;
    return 2 + LANE_STATE_COUNT;
}

static void draw_lanes(const Model *model, Canvas *canvas, Area area)
{
    const Arsenal *arsenal = model_arsenal(model);
    int row = area.row, column = area.column;
    canvas_text(canvas, row++, column, area.columns, ROLE_TITLE,
                "Lanes: the best ball for each, strikes in 100 shots");
    canvas_text(canvas, row++, column, area.columns, ROLE_DIM,
                "lane       share  best ball        slots  locker  ideal  short");
    for (int s = 0; s < LANE_STATE_COUNT; s++, row++) {
        const Gap *gap = &arsenal->gap[s];
        char name[64];
        screen_bag_name(model, gap->ball, name, sizeof name);
        Role role = gap->open ? ROLE_WARN : ROLE_PLAIN;
        canvas_text(canvas, row, column, 11, role, LANE_STATE_NAMES[s]);
        canvas_print(canvas, row, column + 11, 6, ROLE_DIM, "%4.0f%%", 100.0 * arsenal->weight[s]);
        canvas_text(canvas, row, column + 18, 17, role, name);
        canvas_print(canvas, row, column + 35, 30, role, "%5.1f%8.1f%7.1f%7.1f",
                     hundredths(gap->best) / 10.0, hundredths(gap->locker) / 10.0,
                     hundredths(gap->ideal) / 10.0, hundredths(gap->ideal - gap->best) / 10.0);
        GapAnswer answer = arsenal_gap_answer(gap);
        if (answer == GAP_BY_LOCKER)
            screen_bag_name(model, gap->locker_ball, name, sizeof name);
        else if (answer == GAP_BY_IDEAL)
            text_copy(name, sizeof name, arsenal_ideals()[gap->ideal_ball].words);
        else
            text_copy(name, sizeof name, "two balls");
        if (gap->open)
            canvas_print(canvas, row, column + 64, area.columns - 64, ROLE_WARN, "gap: %s", name);
    }
}

/* A ball of a set takes one line, or two if there is room. */
static int set_rows(const Model *model, const Set *set)
{
    return 1 + set->count * (model->rows >= 34 ? 2 : 1);
}

static int jobs_rows(const Model *model, int columns)
{
    (void)columns;
    return set_rows(model, &model_arsenal(model)->bag);
}

static int pick_rows(const Model *model, int columns)
{
    (void)columns;
    return set_rows(model, &model_arsenal(model)->picked);
}

static void draw_set(const Model *model, Canvas *canvas, Area area, const Set *set)
{
    bool two = model->rows >= 34;
    for (int i = 0; i < set->count; i++) {
        const SetBall *place = &set->place[i];
        int row = area.row + 1 + i * (two ? 2 : 1), column = area.column;
        char name[64], text[200] = "", games[16] = "";
        Role role = place->spare || place->lead < 0 ? ROLE_DIM : ROLE_PLAIN;
        screen_bag_name(model, place->ball, name, sizeof name);
        if (place->game_from)
            snprintf(games, sizeof games, place->game_from == place->game_to ? "g %d" : "g %d-%d",
                     place->game_from, place->game_to);
        canvas_text(canvas, row, column, 17, role, name);
        canvas_text(canvas, row, column + 18, 7, ROLE_ACCENT, games);
        canvas_text(canvas, row, column + 26, area.columns - 26, role, place->job);
        if (!two || place->stand_in < 0)
            continue;
        screen_bag_name(model, place->stand_in, name, sizeof name);
        text_append(text, sizeof text, "stand-in %s, %s %.1f", name,
                    place->loss < 0.0 ? "gains" : "costs", hundredths(fabs(place->loss)) / 10.0);
        canvas_text(canvas, row + 1, column + 26, area.columns - 26, ROLE_DIM, text);
    }
}

static void draw_jobs(const Model *model, Canvas *canvas, Area area)
{
    canvas_print(canvas, area.row, area.column, area.columns, ROLE_TITLE,
                 "In the slots, in the order they come out: value %.1f",
                 hundredths(model_arsenal(model)->bag.value) / 10.0);
    draw_set(model, canvas, area, &model_arsenal(model)->bag);
}

static void draw_pick(const Model *model, Canvas *canvas, Area area)
{
    canvas_print(canvas, area.row, area.column, area.columns, ROLE_TITLE,
                 "The best %d of %d: value %.1f", model_arsenal(model)->picked.count,
                 bag_of(model)->count, hundredths(model_arsenal(model)->picked.value) / 10.0);
    draw_set(model, canvas, area, &model_arsenal(model)->picked);
}

static int surfaces_rows(const Model *model, int columns)
{
    (void)columns;
    return model->arsenal_surfaces ? 2 + BAG_SLOTS + 1 + 2 * model_arsenal(model)->advice_count + 2
                                   : 2;
}

void screen_bag_advice(const Model *model, const SurfaceAdvice *advice, bool named, char *out,
                       size_t size)
{
    char surface[32], name[64], other[64];
    ball_surface_words(&SURFACE_SET[advice->surface], surface, sizeof surface);
    screen_bag_name(model, advice->ball, name, sizeof name);
    screen_bag_name(model, advice->other, other, sizeof other);
    out[0] = '\0';
    text_append(out, size, "%s%s%s: ", named ? name : "", named ? " to " : "To ", surface);
    if (advice->other >= 0)
        text_append(out, size, "like %s on %.0f%% of lanes, not %.0f%%", other,
                    100.0 * advice->after, 100.0 * advice->before);
    else
        text_append(out, size, "short by %.1f on a %s lane, not %.1f",
                    hundredths(advice->after) / 10.0, LANE_STATE_NAMES[advice->state],
                    hundredths(advice->before) / 10.0);
    text_append(out, size, "; value %+.1f", hundredths(advice->value_gain) / 10.0);
}

/* A ball in a slot with each surface; returns whether there was anything to draw. */
static bool draw_surface_row(const Model *model, Canvas *canvas, int row, int column, int slot)
{
    const Ball *ball = bag_slot(bag_of(model), slot);
    const SurfaceShow *shows =
        ball ? model_arsenal(model)->ball[ball - bag_of(model)->balls].surface : NULL;
    if (!shows || !shows[0].ready)
        return false;
    canvas_print(canvas, row, column, 1, ROLE_KEY, "%d", slot);
    canvas_text(canvas, row, column + 2, 14, ROLE_PLAIN, ball->name);
    for (int k = 0; k < SURFACES; k++) {
        char move[8] = "-", text[24];
        if (!isnan(shows[k].hook_ft))
            snprintf(move, sizeof move, "%.0f", shows[k].hook_ft);
        snprintf(text, sizeof text, "%s/%2.0f", move, 100.0 * shows[k].pocket);
        canvas_text_right(canvas, row, column + 23 + 9 * k, 8, ROLE_PLAIN, text);
    }
    return true;
}

static void draw_surface_advice(const Model *model, Canvas *canvas, Area area)
{
    const Arsenal *arsenal = model_arsenal(model);
    int row = area.row, end = area.row + area.rows;
    for (int i = 0; i < arsenal->advice_count && row < end - 2; i++) {
        char text[240];
        screen_bag_advice(model, &arsenal->advice[i], true, text, sizeof text);
        row += canvas_wrap(canvas, row, area.column, area.columns, 2, ROLE_PLAIN, text);
    }
    if (arsenal->advice_count == 0)
        canvas_text(canvas, row++, area.column, area.columns, ROLE_DIM,
                    "No small change of surface sets two balls apart or closes a gap.");
    canvas_put(canvas, row, area.column, model->glyphs->caution, ROLE_WARN);
    canvas_wrap(canvas, row, area.column + 2, area.columns - 2, end - row, ROLE_WARN,
                CAUTION_WORDS[CAUTION_SURFACE]);
}

static void draw_surfaces(const Model *model, Canvas *canvas, Area area)
{
    static const char *const TITLES[SURFACE_COLUMNS] = {"500",  "1000",     "2000",  "3000",
                                                        "4000", "compound", "polish"};
    int row = area.row + 1, column = area.column;
    canvas_text(canvas, area.row, column, area.columns, ROLE_TITLE,
                "Surfaces: where it hooks in feet / pocket chance, fresh oil");
    if (!model->arsenal_surfaces) {
        canvas_text(canvas, row, column, area.columns, ROLE_DIM,
                    "Scored play has begun: no ball's surface may change.");
        return;
    }
    for (int k = 0; k < SURFACE_COLUMNS; k++)
        canvas_text_right(canvas, row, column + 23 + 9 * k, 8, ROLE_DIM, TITLES[k]);
    row++;
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        row += draw_surface_row(model, canvas, row, column, slot);
    row++;
    draw_surface_advice(model, canvas,
                        (Area){row, column, area.row + area.rows - row, area.columns});
}

static const Section PARTS[] = {{screen_ball_list_rows, screen_ball_list},
                                {balls_rows, draw_balls},
                                {map_rows, draw_map},
                                {pairs_rows, draw_pairs},
                                {lanes_rows, draw_lanes},
                                {jobs_rows, draw_jobs},
                                {pick_rows, draw_pick},
                                {surfaces_rows, draw_surfaces}};
enum {
    SECTIONS = sizeof PARTS / sizeof *PARTS,
    LIST_PARTS = 1,
    BALL_PARTS = 3,
    TOP = 1,
    BELOW = 2
};

/* Goes through the pages; draws the parts of page `page` when there is a canvas. */
static int lay_out(const Model *model, Canvas *canvas, int page)
{
    int room = model->rows - TOP - BELOW, used = 0, at = 0;
    int columns = model->columns - 2;
    for (int i = 0; i < SECTIONS; i++) {
        if (i >= LIST_PARTS &&
            (!model_arsenal(model) || (i >= BALL_PARTS && !model_arsenal(model)->done)))
            break; /* these need all the figures */
        int rows = PARTS[i].rows(model, columns);
        rows = rows > room ? room : rows;
        int gap = used > 0 && used + 1 + rows <= room; /* an empty line if there is room */
        if (used > 0 && used + gap + rows > room) {
            at++;
            used = gap = 0;
        }
        if (canvas && at == page)
            PARTS[i].draw(model, canvas, (Area){TOP + used + gap, 1, rows, columns});
        used += gap + rows;
    }
    return at + 1;
}

int screen_bag_pages(const Model *model)
{
    return model_compact(model) ? screen_bag_compact_pages(model) : lay_out(model, NULL, 0);
}

void screen_bag_frame(const Model *model, Canvas *canvas, const char *page)
{
    const Session *session = model->session;
    const Arsenal *arsenal = model_arsenal(model);
    char right[64] = "", title[200] = "";
    text_append(title, sizeof title, "Bag on %s, %.0f ft", session->pattern.name,
                session->pattern.length_ft);
    if (!model_compact(model))
        text_append(title, sizeof title, ": %d games, %d on the pair", session->event.games,
                    session->event.bowlers_on_pair);
    if (arsenal && arsenal->done)
        text_append(right, sizeof right, "%s", page);
    else
        text_append(right, sizeof right, "calculating, %d%%",
                    arsenal ? 100 * arsenal->steps / (arsenal->steps_all ? arsenal->steps_all : 1)
                            : 0);
    screen_frame_top(canvas, title, right);
    screen_frame_bottom(model, canvas, 0, canvas->columns - 2, ROLE_PLAIN,
                        model_compact(model) && arsenal && arsenal->done ? "Tab next page" : "");
    if (model->mode == MODE_ASK)
        screen_frame_prompt(model, canvas);
}

void screen_bag(const Model *model, Canvas *canvas)
{
    int pages = screen_bag_pages(model);
    int page = model->bag_page < pages ? model->bag_page : pages - 1;
    char words[32];
    snprintf(words, sizeof words, "page %d of %d", page + 1, pages);
    if (model_compact(model))
        screen_bag_compact(model, canvas, page);
    else
        lay_out(model, canvas, page);
    screen_bag_frame(model, canvas, words);
}
