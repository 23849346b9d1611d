/* rehearse_end.c - see rehearse_end.h. */
#include "ui/rehearse/rehearse_end.h"

#include <math.h>

#include "base/text.h"
#include "core/rehearse/seed.h"
#include "ui/draw/flow.h"
#include "ui/rehearse/rehearse_keys.h"
#include "ui/screens/screens.h"

enum { TOP = 2, GROUP_BOARDS = 5, GROUPS = 4, LINE_SIZE = 200 };

static void line_words(const Bag *bag, const Plan *plan, char *out, size_t size)
{
    const Ball *ball = bag_slot(bag, plan->slot);
    char stance[16], aim[16];
    widget_board(stance, sizeof stance, plan->stance);
    widget_board(aim, sizeof aim, plan->aim);
    text_append(out, size, "%d %s, %s over %s", plan->slot, ball ? ball->name : "", stance, aim);
    if (plan->mph_change != 0.0)
        text_append(out, size, ", %+.1f mph", plan->mph_change);
}

/* "1-5 104  6-10 71  ...": oil by five boards, per cent of the sheet's. */
static void film_words(const EndPage *page, const double film[LANE_BOARDS], char *out, size_t size)
{
    for (int group = 0; group < GROUPS; group++) {
        double lane = 0.0, sheet = 0.0;
        int low = group * GROUP_BOARDS;
        for (int b = low; b < low + GROUP_BOARDS; b++) {
            lane += film[b];
            sheet += page->sheet[b];
        }
        text_append(out, size, "%s%d-%d %.0f", group ? "  " : "", low + 1, low + GROUP_BOARDS,
                    sheet > 0.0 ? 100.0 * lane / sheet : 0.0);
    }
}

static void flow_named(Flow *flow, Role role, const char *name, const char *line)
{
    char text[LINE_SIZE] = "";
    text_append(text, sizeof text, "%-6s %s", name, line);
    flow_sentence(flow, 3, role, text);
}

/* Beside each other, or below where there is no room for that. */
static void flow_both(Flow *flow, const char *yours, const char *better)
{
    enum { YOURS_AT = 9, BETTER_AT = 7 };
    int row = flow_row(flow), half = flow->columns / 2;
    if (YOURS_AT + canvas_width(yours) >= half || BETTER_AT + canvas_width(better) >= half) {
        flow_named(flow, ROLE_PLAIN, "yours", yours);
        flow_named(flow, ROLE_GOOD, "better", better);
        return;
    }
    if (row >= 0) {
        canvas_text(flow->canvas, row, 3, 6, ROLE_DIM, "yours");
        canvas_text(flow->canvas, row, YOURS_AT, half - YOURS_AT, ROLE_PLAIN, yours);
        canvas_text(flow->canvas, row, half, BETTER_AT, ROLE_DIM, "better");
        canvas_text(flow->canvas, row, half + BETTER_AT, half - BETTER_AT, ROLE_GOOD, better);
    }
    flow->line++;
}

/* Feet and aim: yours, and the better ones. */
static void flow_dearest(Flow *flow, const EndPage *page, int k)
{
    int index = page->dearest[k];
    const RehearseShot *shot = &page->block->shots[index];
    const Decision *decision = &page->judgement->decisions[index];
    Plan own = shot_plan(&shot->shot);
    char text[LINE_SIZE] = "", yours[80] = "", better[80] = "", why[240];
    text_append(text, sizeof text, "%d. Game %d, frame %d, %s lane: %.1f pins", k + 1, shot->game,
                shot->frame, SIDE_NAMES[shot->shot.lane], decision->by[JUDGE_LANE].cost);
    flow_sentence(flow, 1, ROLE_ACCENT, text);
    line_words(page->setup->bag, &own, yours, sizeof yours);
    line_words(page->setup->bag, &decision->by[JUDGE_LANE].better, better, sizeof better);
    flow_both(flow, yours, better);
    text[0] = '\0';
    text_append(text, sizeof text, "oil then, %% of the sheet: ");
    film_words(page, page->dear_film[k], text, sizeof text);
    flow_sentence(flow, 3, ROLE_DIM, text);
    judge_why(decision, why, sizeof why);
    flow_sentence(flow, 3, ROLE_PLAIN, why);
    flow_line(flow, ROLE_PLAIN, "");
}

static void flow_scores(Flow *flow, const EndPage *page)
{
    const Judgement *judgement = page->judgement;
    char text[LINE_SIZE] = "";
    for (int game = 1; game <= page->block->games; game++) {
        const JudgedGame *judged = &judgement->game[game - 1];
        text[0] = '\0';
        text_append(text, sizeof text, "Game %d: %d.", game, page->block->score[game - 1]);
        if (game <= judgement->games)
            text_append(text, sizeof text,
                        " On average your decisions score %.0f; the best ball and line each time, "
                        "%.0f.",
                        judged->mean[JUDGE_LANE], judged->best[JUDGE_LANE]);
        flow_sentence(flow, 1, ROLE_PLAIN, text);
    }
    flow_line(flow, ROLE_PLAIN, "");
}

static void flow_costs(Flow *flow, const EndPage *page)
{
    const Judgement *judgement = page->judgement;
    char text[LINE_SIZE] = "";
    text_append(text, sizeof text, "Decisions cost %.1f pins a game on that lane.",
                judge_cost(judgement, JUDGE_LANE));
    flow_sentence(flow, 1, ROLE_TITLE, text);
    text[0] = '\0';
    text_append(text, sizeof text,
                "Against the best you could know at the time: %.1f. The rest was "
                "the lane's secret, and no mistake.",
                judge_cost(judgement, JUDGE_BELIEF));
    flow_sentence(flow, 1, ROLE_PLAIN, text);
    text[0] = '\0';
    if (page->help > 0)
        text_append(text, sizeof text, "You looked at the answers before %d of %d throws.",
                    page->help, page->block->shot_count + page->block->practice_count);
    else
        text_append(text, sizeof text, "You never looked at the answers.");
    flow_sentence(flow, 1, ROLE_PLAIN, text);
    text[0] = '\0';
    text_append(text, sizeof text, "On the same block: you %.0f", page->block->mean_pins);
    for (int i = 0; i < page->others; i++)
        text_append(text, sizeof text, ", %s %.0f",
                    page->other[i] == &PLAYER_ADVISOR ? "the program" : page->other[i]->name,
                    page->other_pins[i]);
    text_append(text, sizeof text, " pins a game.");
    flow_sentence(flow, 1, ROLE_PLAIN, text);
    flow_line(flow, ROLE_PLAIN, "");
}

static void flow_page(Flow *flow, const EndPage *page)
{
    char text[LINE_SIZE] = "";
    if (page->block->games == 0) {
        flow_sentence(flow, 1, ROLE_PLAIN,
                      "No game was bowled to its end, so there is nothing to judge or to keep.");
        return;
    }
    flow_scores(flow, page);
    if (!page->done) {
        flow_sentence(flow, 1, ROLE_DIM, page->work);
        return;
    }
    flow_costs(flow, page);
    if (page->dearest_count > 0)
        flow_line(flow, ROLE_TITLE, "The dearest decisions");
    for (int k = 0; k < page->dearest_count; k++)
        flow_dearest(flow, page, k);
    flow_sentence(flow, 1, ROLE_TITLE, "The hidden lane: oil from 15 to 35 ft, % of the sheet");
    for (int game = 0; game < page->block->games; game++) {
        text[0] = '\0';
        text_append(text, sizeof text, "before game %d, left: ", game + 1);
        film_words(page, page->game_film[game], text, sizeof text);
        flow_sentence(flow, 1, ROLE_PLAIN, text);
    }
}

int end_lines(const EndPage *page, int columns)
{
    Flow flow = {.columns = columns};
    flow_page(&flow, page);
    return flow.line;
}

int end_room(int rows) { return rows - TOP - 2; }

void end_draw(const EndPage *page, const Glyphs *glyphs, Canvas *canvas, const char *message)
{
    char title[160] = "", words[SEED_TEXT_MAX];
    seed_text(page->setup->seed, words);
    text_append(title, sizeof title, "Block %s on %s, %.0f ft", words, page->setup->pattern->name,
                page->setup->pattern->length_ft);
    char lane[64] = "";
    text_append(lane, sizeof lane, "hidden lane: %s", page->setup->world->name);
    if (canvas->columns < SCREEN_COLUMNS_MIN) /* the sheet and the world were chosen */
        screen_frame_top(canvas, words, "");
    else
        screen_frame_top(canvas, title, lane);
    Flow flow = {.canvas = canvas,
                 .columns = canvas->columns,
                 .top = page->top,
                 .row = TOP,
                 .row_count = end_room(canvas->rows)};
    flow_page(&flow, page);
    canvas_hline(canvas, canvas->rows - 2, 0, canvas->columns, glyphs->rule, ROLE_DIM);
    if (message[0])
        canvas_print(canvas, canvas->rows - 2, 1, canvas->columns - 2, ROLE_GOOD, " %s ", message);
    else if (flow.line - page->top > flow.row_count)
        canvas_print(canvas, canvas->rows - 2, 1, canvas->columns - 2, ROLE_DIM, " more below ");
    key_footer(&REHEARSE_KEYS, AT_END, -1, canvas);
}
