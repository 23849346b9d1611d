/* screen_throw.c - the right side of the lane screen: what to throw next, why, and the other
 * answers. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/candidates.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

static const char *const SURE_WORDS[] = {"a guess", "fairly sure", "sure"};

/* The most lines each may take. */
enum {
    HEADLINE_LINES = 2,
    CHANGE_LINES = 2,
    POCKET_LINES = 2,
    WHY_LINES = 8,
    CAUTION_LINES = 4,
    LANE_LINES = 2,
    SIGN_LINES = 2
};

/* The column as it is filled from the top. */
typedef struct Pane {
    const Model *model;
    Canvas *canvas;
    const Adjustment *best;
    int column, columns, end; /* `end`: past the last column */
    int row, bottom;          /* `row`: the next free one */
    int others;               /* answers below the best */
    bool air;                 /* tall enough for empty lines between the parts */
    Role main, text;          /* dim while new answers are computed */
} Pane;

static Pane open_pane(const Model *model, Canvas *canvas, Area area)
{
    bool current = model_advice_current(model);
    int count = model->shown.adjustment_count;
    return (Pane){.model = model,
                  .canvas = canvas,
                  .best = model_adjustment(model, 0),
                  .column = area.column,
                  .columns = area.columns,
                  .end = area.column + area.columns,
                  .row = area.row,
                  .bottom = area.row + area.rows,
                  .others = count > 3 ? 2 : count - 1,
                  .air = area.rows >= 30,
                  .main = current ? ROLE_ACCENT : ROLE_DIM,
                  .text = current ? ROLE_PLAIN : ROLE_DIM};
}

static void draw_title(Pane *pane)
{
    int sure = model_sureness(pane->model);
    bool supposed = pane->model->supposed.count > 0;
    canvas_text(pane->canvas, pane->row, pane->column, pane->columns,
                supposed ? ROLE_WARN : ROLE_TITLE, supposed ? "What if: throw" : "Throw");
    if (pane->best && !model_advice_current(pane->model))
        canvas_text_right(pane->canvas, pane->row, pane->end, 14, ROLE_DIM, "calculating…");
    else if (pane->best)
        canvas_text_right(pane->canvas, pane->row, pane->end, 14, sure == 0 ? ROLE_WARN : ROLE_DIM,
                          SURE_WORDS[sure]);
    pane->row += 1 + pane->air;
}

static void draw_nothing(const Pane *pane)
{
    canvas_text(pane->canvas, pane->row + 1, pane->column, pane->columns, ROLE_DIM,
                model_plan(pane->model).slot == 0   ? "finding your first line…"
                : model_advice_current(pane->model) ? "no answer"
                                                    : "calculating…");
}

/* "Move in", or for a pair "Move in, more speed". */
static void kind_text(const Adjustment *adjustment, const char *between, char *out, size_t size)
{
    const char *name = ADJUST_WORDS[adjustment->kind];
    text_copy(out, size, "");
    text_append(out, size, "%c%s", name[0] - 'a' + 'A', name + 1);
    if (adjustment->with != ADJUST_HOLD)
        text_append(out, size, "%s%s", between, ADJUST_WORDS[adjustment->with]);
}

/* What to change and, for a single change, the ball's name; a pair may need two lines. */
static void draw_headline(Pane *pane)
{
    char text[64];
    bool pair = pane->best->with != ADJUST_HOLD;
    kind_text(pane->best, " and ", text, sizeof text);
    if (canvas_width(text) > pane->columns)
        kind_text(pane->best, ", ", text, sizeof text);
    int used = canvas_width(text), room = pane->columns - used - 2;
    pane->row += pane->air + canvas_wrap(pane->canvas, pane->row, pane->column, pane->columns,
                                         pair ? HEADLINE_LINES : 1, pane->main, text);
    if (!pair && room > 10) {
        const Ball *ball = bag_slot(&pane->model->session->bag, pane->best->plan.slot);
        canvas_text(pane->canvas, pane->row - 1 - pane->air, pane->column + used + 2, room,
                    pane->text, ball ? ball->name : "");
    }
}

static void change_text(char *out, size_t size, double from, double to)
{
    double change = round((to - from) * 2.0) / 2.0;
    if (change == 0.0)
        snprintf(out, size, "same");
    else
        snprintf(out, size, "%g %s", fabs(change), change > 0 ? "in" : "out");
}

/* Ball, feet and aim in large figures, and under them how each differs from the plan. */
static void draw_figures(Pane *pane)
{
    Plan now = model_plan(pane->model);
    const Plan *plan = &pane->best->plan;
    char changes[PLAN_FIGURES][24];
    int columns[PLAN_FIGURES];
    widget_plan(pane->canvas, pane->model->glyphs,
                (Area){pane->row, pane->column, 5, pane->columns}, pane->main,
                (const double[]){plan->slot, plan->stance, plan->aim}, columns);
    if (plan->slot == now.slot)
        snprintf(changes[0], sizeof changes[0], "same");
    else
        snprintf(changes[0], sizeof changes[0], "was %d", now.slot);
    change_text(changes[1], sizeof changes[1], now.stance, plan->stance);
    change_text(changes[2], sizeof changes[2], now.aim, plan->aim);
    for (int i = 0; i < PLAN_FIGURES; i++)
        canvas_text(pane->canvas, pane->row + 4, columns[i], pane->end - columns[i],
                    strcmp(changes[i], "same") == 0 ? ROLE_DIM : pane->main, changes[i]);
    pane->row += 5 + pane->air;
}

void screen_pocket(double believed, double known, char *out, size_t size)
{
    if (known < believed + 0.01)
        snprintf(out, size, "%.0f%%", believed * 100.0);
    else
        snprintf(out, size, "%.0f/%.0f%%", fmin(known * 100.0, 99.0), believed * 100.0);
}

/* The pocket's chance and how the hit moves: in full where there is room, else "pocket 77/39%, 1.5
 * lighter". */
static void draw_pocket(Pane *pane)
{
    const Adjustment *best = pane->best;
    char text[160], pocket[24];
    double halves = fabs(round(best->hit_boards * 2.0) / 2.0);
    screen_pocket(best->pocket_after, best->pocket_known, pocket, sizeof pocket);
    snprintf(text, sizeof text, "pocket %s", pocket);
    if (pane->air && strchr(pocket, '/'))
        snprintf(text, sizeof text, "pocket %.0f%% if the lane is as %s, %.0f%% as sure as we are",
                 best->pocket_known * 100.0,
                 pane->model->shown.lane.deliveries == 0 ? "on the sheet" : "estimated",
                 best->pocket_after * 100.0);
    if (!pane->air && best->hits[0] && halves > 0.0)
        text_append(text, sizeof text, ", %g %s", halves,
                    best->hit_boards > 0.0 ? "higher" : "lighter");
    pane->row += canvas_wrap(pane->canvas, pane->row, pane->column, pane->columns,
                             pane->air ? POCKET_LINES : 1, ROLE_DIM, text);
    if (pane->air && best->hits[0])
        canvas_text(pane->canvas, pane->row++, pane->column, pane->columns, ROLE_DIM, best->hits);
}

/* Chance of a strike now and then, the pocket's, and what may be missed by. */
static void draw_chance(Pane *pane)
{
    const Adjustment *best = pane->best;
    Canvas *canvas = pane->canvas;
    int at = pane->column, bar = pane->columns - 18;
    double change = best->strike_after - best->strike_now;
    Role after = pane->text == ROLE_DIM ? ROLE_DIM
                 : change > 0.005       ? ROLE_GOOD
                 : change < -0.005      ? ROLE_WARN
                                        : ROLE_PLAIN;
    at += canvas_text(canvas, pane->row, at, 7, ROLE_DIM, "strike") + 1;
    at += canvas_print(canvas, pane->row, at, 8, pane->text, "%2.0f → ", best->strike_now * 100.0);
    canvas_print(canvas, pane->row, at, 5, after, "%.0f%%", best->strike_after * 100.0);
    widget_chance(canvas, pane->model->glyphs, pane->row, pane->end - bar, bar, best->strike_now,
                  best->strike_after);
    pane->row++;
    draw_pocket(pane);
    canvas_print(canvas, pane->row++, pane->column, pane->columns, ROLE_DIM,
                 pane->air ? "area in %.1f, out %.1f, entry %.1f°" : "area in %.1f, out %.1f",
                 best->margin_in, best->margin_out, best->entry_deg);
    pane->row += pane->air;
}

/* Changes the three figures don't show: speed, loft, rotation, surface; "" if none. */
static void other_changes(const Model *model, const Adjustment *adjustment, char *out, size_t size)
{
    Plan now = model_plan(model);
    candidate_changes(&now, &adjustment->plan, out, size);
    if (adjustment->surface_grit > 0.0)
        text_append(out, size, "%s%.0f grit", out[0] ? ", " : "", adjustment->surface_grit);
}

static void wrap(Pane *pane, Role role, int lines, const char *text)
{
    pane->row +=
        canvas_wrap(pane->canvas, pane->row, pane->column, pane->columns, lines, role, text);
}

static void draw_caution(Pane *pane, int lines)
{
    canvas_put(pane->canvas, pane->row, pane->column, pane->model->glyphs->caution, ROLE_WARN);
    pane->row += canvas_wrap(pane->canvas, pane->row, pane->column + 2, pane->columns - 2, lines,
                             ROLE_WARN, CAUTION_WORDS[pane->best->caution]);
}

/* What else changes, why, and what speaks against it. The other answers are at the bottom, or
 * follow if the column is tall; this fills the space between. */
static void draw_why(Pane *pane)
{
    const Adjustment *best = pane->best;
    int top = pane->air ? pane->bottom : pane->bottom - pane->others - 1;
    int kept = (best->caution != CAUTION_NONE ? CAUTION_LINES : 0) + best->disagrees;
    char changes[128];
    other_changes(pane->model, best, changes, sizeof changes);
    if (changes[0] && pane->row < top)
        wrap(pane, pane->main, CHANGE_LINES, changes);
    int why = top - pane->row - kept;
    wrap(pane, pane->text, why > WHY_LINES ? WHY_LINES : why, best->because);
    if (best->disagrees && pane->row < top)
        wrap(pane, ROLE_WARN, 1, "! rules and numbers differ");
    if (best->caution != CAUTION_NONE && pane->row < top)
        draw_caution(pane, pane->air ? CAUTION_LINES : top - pane->row);
}

void screen_release_changes(const Plan *from, const Plan *to, char *out, size_t size)
{
    double mph = to->mph_change - from->mph_change;
    double loft = to->loft_change_ft - from->loft_change_ft;
    double turned = to->rotation_change_deg - from->rotation_change_deg;
    text_copy(out, size, "");
    if (mph != 0.0)
        text_append(out, size, "%+g mph", mph);
    if (loft != 0.0)
        text_append(out, size, "%sloft %+g", out[0] ? ", " : "", loft);
    if (turned != 0.0)
        text_append(out, size, "%saxis %+g°", out[0] ? ", " : "", turned);
}

/* Ball and line of an answer and what else it changes, in words or, if those don't fit, in short
 * form: "ball 4  25 over 12", "4: 28.5/13.5, axis -10°". */
static void line_text(const Model *model, const Adjustment *adjustment, int room, char *out,
                      size_t size)
{
    Plan now = model_plan(model);
    const Plan *plan = &adjustment->plan;
    char changes[128], stance[16], aim[16];
    widget_board(stance, sizeof stance, plan->stance);
    widget_board(aim, sizeof aim, plan->aim);
    other_changes(model, adjustment, changes, sizeof changes);
    text_copy(out, size, "");
    text_append(out, size, room < 28 ? "ball %d  %4s over %s" : "ball %d  feet %-4s  aim %s",
                plan->slot, stance, aim);
    if (!changes[0])
        return;
    text_append(out, size, "  %s", changes);
    if (canvas_width(out) <= room)
        return;
    if (adjustment->surface_grit == 0.0)
        screen_release_changes(&now, plan, changes, sizeof changes);
    text_copy(out, size, "");
    text_append(out, size, "%d: %s/%s, %s", plan->slot, stance, aim, changes);
    if (canvas_width(out) > room) /* drop the line rather than the changes */
        text_copy(out, size, changes);
}

/* The second or third answer and its chance of a strike; on a second line the figures. */
static void draw_other(Pane *pane, int index, int lines)
{
    const Adjustment *adjustment = model_adjustment(pane->model, index);
    Canvas *canvas = pane->canvas;
    char text[160];
    int row = pane->row, room = pane->columns - 7;
    snprintf(text, sizeof text, "%.0f%%", adjustment->strike_after * 100.0);
    if (pane->model->supposed.count == 0) /* what is only supposed can't be taken */
        canvas_text(canvas, row, pane->column, 1, ROLE_KEY,
                    command_of(pane->model->keys, IN_LANE, key_take, index)->key.shown);
    canvas_text_right(canvas, row, pane->end, 5, pane->text, text);
    kind_text(adjustment, ", ", text, sizeof text);
    if (canvas_width(text) > room && adjustment->with != ADJUST_HOLD) /* the next line shows it */
        snprintf(text, sizeof text, "%c%s +", ADJUST_WORDS[adjustment->kind][0] - 'a' + 'A',
                 ADJUST_WORDS[adjustment->kind] + 1);
    int used = canvas_text(canvas, row, pane->column + 2, room, pane->text, text);
    pane->row += lines;
    if (lines < 2) {
        char stance[16], aim[16];
        widget_board(stance, sizeof stance, adjustment->plan.stance);
        widget_board(aim, sizeof aim, adjustment->plan.aim);
        canvas_print(canvas, row, pane->column + 4 + used, room - used - 3, ROLE_DIM, "%d, %s, %s",
                     adjustment->plan.slot, stance, aim);
        return;
    }
    line_text(pane->model, adjustment, pane->columns - 2, text, sizeof text);
    canvas_text(canvas, row + 1, pane->column + 2, pane->columns - 2, ROLE_DIM, text);
}

static void draw_others(Pane *pane)
{
    int lines = pane->bottom - pane->row >= 2 * pane->others + pane->air ? 2 : 1;
    pane->row = pane->air ? pane->row + 1 : pane->bottom - pane->others * lines;
    for (int i = 1; i <= pane->others && pane->row + lines <= pane->bottom; i++)
        draw_other(pane, i, lines);
}

/* As much about the lane as fits above the other answers. */
static void draw_lane_words(Pane *pane)
{
    const char *words = pane->model->shown.lane.words;
    if (!words[0] || pane->bottom - 2 * pane->others - pane->row < 3)
        return;
    pane->row++;
    wrap(pane, ROLE_DIM, LANE_LINES, words);
}

/* On a tall screen: what the shots say, and how well the lane is known. */
static void draw_evidence(Pane *pane)
{
    const Advice *shown = &pane->model->shown;
    const char *words[2] = {shown->lane.words, shown->lane.off_words};
    Hand hand = pane->model->session->bag.bowler.hand;
    if (pane->bottom - pane->row < 5)
        return;
    pane->row++;
    wrap(pane, ROLE_TITLE, 1, "What your shots say");
    for (int i = 0; i < SIGN_COUNT && pane->row < pane->bottom - SIGN_LINES - 1; i++)
        if (shown->signs.seen[i])
            wrap(pane, ROLE_DIM, SIGN_LINES, sign_words((Sign)i, hand));
    for (int i = 0; i < 2 && pane->row < pane->bottom - 1; i++)
        if (words[i][0])
            wrap(pane, pane->text, LANE_LINES, words[i]);
    if (pane->row < pane->bottom)
        canvas_print(pane->canvas, pane->row, pane->column, pane->columns, ROLE_DIM,
                     "oil %.0f ± %.0f%% of sheet, %d balls", shown->lane.scale * 100.0,
                     shown->lane.scale_sd * 100.0, shown->lane.deliveries);
}

/* In a rehearsal: your own plan in large figures, and no word of advice. */
static void draw_hidden(Pane *pane)
{
    Plan plan = model_plan(pane->model);
    const Ball *ball = bag_slot(&pane->model->session->bag, plan.slot);
    int columns[PLAN_FIGURES];
    canvas_text(pane->canvas, pane->row++, pane->column, pane->columns, ROLE_ACCENT,
                ball ? ball->name : "");
    widget_plan(pane->canvas, pane->model->glyphs,
                (Area){pane->row, pane->column, 5, pane->columns}, ROLE_ACCENT,
                (const double[]){plan.slot, plan.stance, plan.aim}, columns);
    pane->row += 6;
    wrap(pane, ROLE_DIM, 4,
         "The answers are hidden. h shows them before this throw, and is counted.");
}

void screen_throw(const Model *model, Canvas *canvas, Area area)
{
    Pane pane = open_pane(model, canvas, area);
    /* what is shown until then would answer what really was */
    if (model->supposed.count > 0 && !model_advice_current(model))
        pane.best = NULL;
    draw_title(&pane);
    if (model_hides(model)) {
        draw_hidden(&pane);
        return;
    }
    if (!pane.best) {
        draw_nothing(&pane);
        return;
    }
    draw_headline(&pane);
    draw_figures(&pane);
    draw_chance(&pane);
    draw_why(&pane);
    if (!pane.air)
        draw_lane_words(&pane);
    draw_others(&pane);
    if (pane.air)
        draw_evidence(&pane);
}

/* ---- in less than 80 by 24: lines instead of figures ---- */

static void compact_title(Pane *pane)
{
    const Model *model = pane->model;
    char text[96] = "";
    int sure = model_sureness(model);
    const char *state = !model_advice_current(model) ? "calculating…"
                        : pane->best                 ? SURE_WORDS[sure]
                                                     : "";
    int room = pane->columns - canvas_width(state) - 1, used = 0;
    canvas_text_right(pane->canvas, pane->row, pane->end, 14, sure == 0 ? ROLE_WARN : ROLE_DIM,
                      state);
    if (model->supposed.count > 0)
        used = canvas_text(pane->canvas, pane->row, pane->column, room, ROLE_WARN, "What if") + 2;
    if (pane->best) {
        kind_text(pane->best, ", ", text, sizeof text);
        used += canvas_text(pane->canvas, pane->row, pane->column + used, room - used, pane->main,
                            text) +
                2;
        const Ball *ball = bag_slot(&model->session->bag, pane->best->plan.slot);
        if (ball && canvas_width(ball->name) <= room - used)
            canvas_text(pane->canvas, pane->row, pane->column + used, room - used, pane->text,
                        ball->name);
    } else {
        canvas_text(pane->canvas, pane->row, pane->column + used, room - used, ROLE_DIM,
                    model_plan(model).slot == 0   ? "finding your first line…"
                    : model_hides(model)          ? "h shows the answers"
                    : model_advice_current(model) ? "no answer"
                                                  : "Throw");
    }
    pane->row++;
}

/* "ball 3 (was 1)  feet 30 (2 in)  aim 15.5 (1.5 in)", the brackets where there is room. */
static void compact_plan(Pane *pane)
{
    Plan now = model_plan(pane->model);
    const Plan *plan = &pane->best->plan;
    char values[PLAN_FIGURES][16], changes[PLAN_FIGURES][24];
    static const char *const NAMES[PLAN_FIGURES] = {"ball", "feet", "aim"};
    int at = pane->column;
    snprintf(values[0], sizeof values[0], "%d", plan->slot);
    widget_board(values[1], sizeof values[1], plan->stance);
    widget_board(values[2], sizeof values[2], plan->aim);
    snprintf(changes[0], sizeof changes[0], plan->slot == now.slot ? "same" : "was %d", now.slot);
    change_text(changes[1], sizeof changes[1], now.stance, plan->stance);
    change_text(changes[2], sizeof changes[2], now.aim, plan->aim);
    for (int i = 0; i < PLAN_FIGURES; i++) {
        at += canvas_text(pane->canvas, pane->row, at, pane->end - at, ROLE_DIM, NAMES[i]) + 1;
        at += canvas_text(pane->canvas, pane->row, at, pane->end - at, pane->main, values[i]) + 1;
        if (strcmp(changes[i], "same") != 0 && i > 0)
            at += canvas_text(pane->canvas, pane->row, at, pane->end - at, pane->text, changes[i]) +
                  1;
        at++;
    }
    pane->row++;
}

static void compact_chance(Pane *pane)
{
    const Adjustment *best = pane->best;
    char pocket[24], changes[128];
    screen_pocket(best->pocket_after, best->pocket_known, pocket, sizeof pocket);
    canvas_print(pane->canvas, pane->row++, pane->column, pane->columns, pane->text,
                 "strike %.0f → %.0f%%  pocket %s", best->strike_now * 100.0,
                 best->strike_after * 100.0, pocket);
    other_changes(pane->model, best, changes, sizeof changes);
    if (changes[0])
        wrap(pane, pane->main, 1, changes);
}

static void compact_others(Pane *pane)
{
    int at = pane->column, row = pane->row++;
    for (int i = 1; i <= pane->others; i++) {
        const Adjustment *adjustment = model_adjustment(pane->model, i);
        char text[96] = "";
        kind_text(adjustment, ", ", text, sizeof text);
        text_append(text, sizeof text, " %.0f%%", adjustment->strike_after * 100.0);
        if (i > 1 && at + 2 + canvas_width(text) > pane->end)
            return;
        if (pane->model->supposed.count == 0)
            canvas_text(pane->canvas, row, at, 1, ROLE_KEY,
                        command_of(pane->model->keys, IN_LANE, key_take, i)->key.shown);
        at += 2 + canvas_text(pane->canvas, row, at + 2, pane->end - at - 2, pane->text, text) + 2;
    }
}

int screen_throw_compact(const Model *model, Canvas *canvas, Area area)
{
    Pane pane = open_pane(model, canvas, area);
    pane.air = false;
    if (model->supposed.count > 0 && !model_advice_current(model))
        pane.best = NULL;
    compact_title(&pane);
    if (!pane.best || model_hides(model))
        return pane.row - area.row;
    compact_plan(&pane);
    compact_chance(&pane);
    Caution caution = pane.best->caution;
    int caution_lines = caution ? canvas_lines(pane.columns - 2, CAUTION_WORDS[caution]) : 0;
    int left = pane.bottom - pane.row - caution_lines - 2; /* a line of why, and a shot */
    bool others = pane.others > 0 && left >= 2;
    int why = 1 + (left - 1 - others > 0 ? left - 1 - others : 0);
    pane.row +=
        widget_sentences(canvas, pane.row, pane.column, pane.columns,
                         why < WHY_LINES / 2 ? why : WHY_LINES / 2, pane.text, pane.best->because);
    if (pane.best->disagrees && left > 2 + others)
        wrap(&pane, ROLE_WARN, 1, "! rules and numbers differ");
    if (caution)
        draw_caution(&pane, pane.bottom - pane.row);
    if (others && pane.row < pane.bottom - 2)
        compact_others(&pane);
    return pane.row - area.row;
}
