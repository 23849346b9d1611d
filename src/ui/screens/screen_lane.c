/* screen_lane.c - the main screen: bag and shots, the lane, what to throw, the shot being typed. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/candidates.h"
#include "ui/draw/widgets.h"
#include "ui/input/commands.h"
#include "ui/view.h"

enum { LEFT_MIN = 25, RIGHT_MIN = 26, LEFT_MAX = 40, RIGHT_MAX = 56, EDGE = 1, GAP = 1 };

static const char *const SURE_WORDS[] = {"a guess", "fairly sure", "sure"};

/* The top line. */

void screen_lane_top(const Model *model, Canvas *canvas)
{
    const Session *session = model->session;
    char right[128] = "", lane[48] = "", pattern[96] = "";
    text_append(right, sizeof right, "game %d/%d  frame %d", session->game, session->event.games,
                session->frame);
    if (session->game_over)
        text_append(right, sizeof right, " over");
    else if (session->frame == 10 && session->ball_of_tenth > 1)
        text_append(right, sizeof right, ", rack %d", session->ball_of_tenth);
    text_append(right, sizeof right, "  %s  ", session->event.certified ? "scored" : "practice");
    text_append(lane, sizeof lane, "lane %d %s", session->event.pair[model->lane],
                SIDE_NAMES[model->lane]);
    int lane_width = canvas_width(lane), right_width = canvas_width(right);
    int at = canvas->columns - 1 - lane_width;
    canvas_text(canvas, 0, at, lane_width, ROLE_ACCENT, lane);
    canvas_text(canvas, 0, at - right_width, right_width, ROLE_PLAIN, right);

    int room = at - right_width - 3; /* the name, then the pattern, shorter where it must be */
    text_append(pattern, sizeof pattern, "%s %.0f ft", session->pattern.name,
                session->pattern.length_ft);
    int name_width = canvas_width(session->event.name);
    if (name_width + 2 + canvas_width(pattern) > room)
        text_copy(pattern, sizeof pattern, session->pattern.name);
    int used = canvas_text(canvas, 0, 1, room, ROLE_TITLE, session->event.name) + 2;
    if (room - used >= 4)
        canvas_text(canvas, 0, 1 + used, room - used, ROLE_DIM, pattern);
}

/* The bag: six slots, two lines each, figures under each other. */

static void surface_text(const Surface *surface, char *out, size_t size)
{
    ball_surface_words(surface, out, (unsigned long)size);
    char *space = strchr(out, ' '); /* "2000 grit" is 2000 to any bowler */
    if (space && strcmp(space, " grit") == 0)
        *space = '\0';
}

static void draw_slot(const Model *model, Canvas *canvas, Area area, int row, int slot)
{
    const Ball *ball = bag_slot(&model->session->bag, slot);
    Plan plan = model_plan(model);
    const Adjustment *adjustment = model_adjustment(model, 0);
    bool hand = plan.slot == slot, next = adjustment && adjustment->plan.slot == slot;
    Role role = !ball ? ROLE_DIM : hand ? ROLE_ACCENT : ROLE_PLAIN;
    int column = area.column, end = area.column + area.columns;
    if (hand && ball)
        canvas_put(canvas, row, column, model->glyphs->path, ROLE_PATH);
    else if (next && ball)
        canvas_put(canvas, row, column, model->glyphs->path2, ROLE_PATH2);
    canvas_print(canvas, row, column + 2, 1, ball ? ROLE_KEY : ROLE_DIM, "%d", slot);
    if (!ball) {
        canvas_text(canvas, row, column + 4, area.columns - 4, ROLE_DIM, "empty");
        return;
    }
    char surface[32];
    surface_text(&ball->surface, surface, sizeof surface);
    int width = canvas_width(surface);
    canvas_text_right(canvas, row, end, area.columns - 4, ROLE_DIM, surface);
    canvas_text(canvas, row, column + 4, area.columns - 5 - width, role, ball->name);
    const SlotNow *now = &model->slot[slot - 1].now;
    bool current = model_slot_current(model, slot);
    if (!current)
        canvas_put(canvas, row + 1, column + 2, model->glyphs->wait, ROLE_DIM);
    if (!now->ready)
        return;
    Role figures = hand && current ? ROLE_PLAIN : ROLE_DIM;
    if (!now->line.found) {
        canvas_text(canvas, row + 1, column + 4, area.columns - 4, ROLE_DIM,
                    "no line to the pocket");
        return;
    }
    char text[24];
    if (isfinite(now->line.first_move_ft))
        snprintf(text, sizeof text, "%.0f ft", now->line.first_move_ft);
    else
        snprintf(text, sizeof text, "never");
    canvas_text_right(canvas, row + 1, end - 14, 8, figures, text);
    snprintf(text, sizeof text, "%.1f°", now->line.entry_deg);
    canvas_text_right(canvas, row + 1, end - 7, 6, figures, text);
    snprintf(text, sizeof text, "%.0f%%", now->line.pocket * 100.0);
    canvas_text_right(canvas, row + 1, end, 6, figures, text);
}

/* Returns the rows it took. */
static int draw_bag(const Model *model, Canvas *canvas, Area area)
{
    int end = area.column + area.columns, row = area.row + 1;
    canvas_text(canvas, area.row, area.column, 4, ROLE_TITLE, "Bag");
    canvas_text_right(canvas, area.row, end - 14, 6, ROLE_DIM, "moves");
    canvas_text_right(canvas, area.row, end - 7, 6, ROLE_DIM, "entry");
    canvas_text_right(canvas, area.row, end, 6, ROLE_DIM, "pocket");
    int pitch = area.rows >= 30 ? 3 : 2;
    for (int slot = 1; slot <= BAG_SLOTS; slot++, row += pitch)
        draw_slot(model, canvas, area, row, slot);
    return row - area.row - (pitch - 2);
}

/* The last shots, newest first: frame and lane, slot, hit, read, release, leave. */

static const char *read_text(Read read, bool wide)
{
    static const char *const SHORT[READ_COUNT] = {"", "early", "on", "late", "none"};
    static const char *const LONG[READ_COUNT] = {"", "early", "on time", "late", "none"};
    return wide ? LONG[read] : SHORT[read];
}

static const char *release_text(Release release, bool wide)
{
    static const char *const SHORT[RELEASE_COUNT] = {"",     "good", "in", "out",
                                                     "fast", "slow", "off"};
    return wide ? RELEASE_NAMES[release] : SHORT[release];
}

static const char *hit_text(Hit hit, bool wide)
{
    static const char *const SHORT[HIT_COUNT] = {"",      "gutt", "wide", "thin", "light",
                                                 "flush", "high", "nose", "cross"};
    return wide ? HIT_NAMES[hit] : SHORT[hit];
}

/* Where the ball of a shot lies now: one that has left its slot has none. */
static void slot_text(char *out, size_t size, int slot)
{
    snprintf(out, size, slot ? "%d" : "-", slot);
}

static void draw_shot(const Model *model, Canvas *canvas, Area area, int row, int index)
{
    const Session *session = model->session;
    const Shot *shot = &session->shots[index];
    bool picked = (model->mode == MODE_PICK && model->pick == index) ||
                  (model->mode == MODE_ENTRY && model->typing.index == index);
    bool wide = area.columns >= 35;
    /* widths of frame and lane, slot, hit, read */
    static const int NARROW[] = {3, 1, 5, 5}, WIDE[] = {3, 1, 7, 7};
    const int *widths = wide ? WIDE : NARROW;
    Role role = picked ? ROLE_FIELD : shot_good(shot) ? ROLE_PLAIN : ROLE_DIM;
    if (picked) {
        canvas_put(canvas, row, area.column - 1, model->glyphs->breaks_right, ROLE_ACCENT);
        canvas_hline(canvas, row, area.column, area.columns, ' ', ROLE_FIELD);
    }
    char cells[4][16], leave[48];
    snprintf(cells[0], sizeof cells[0], "%2d%c", session->shot_frame[index],
             shot->lane == SIDE_LEFT ? 'L' : 'R');
    slot_text(cells[1], sizeof cells[1], shot->slot);
    snprintf(cells[2], sizeof cells[2], "%s", hit_text(shot->hit, wide));
    snprintf(cells[3], sizeof cells[3], "%s", read_text(shot->read, wide));
    int column = area.column, end = area.column + area.columns;
    for (int i = 0; i < 4; i++) {
        canvas_text(canvas, row, column, widths[i], !picked && i == 0 ? ROLE_DIM : role, cells[i]);
        column += widths[i] + 1;
    }
    /* where it is narrow a good release goes without saying */
    const char *release = wide || !shot_good(shot) ? release_text(shot->release, wide) : "";
    int release_width = wide ? 7 : canvas_width(release);
    canvas_text(canvas, row, wide ? column : end - release_width, release_width, role, release);
    int room = end - column - (release_width > 0 ? release_width + 1 : 0);
    widget_leave(leave, sizeof leave, shot, room);
    canvas_text(canvas, row, wide ? column + 8 : column, room,
                picked              ? ROLE_FIELD
                : shot_strike(shot) ? ROLE_GOOD
                                    : role,
                leave);
}

static void draw_shots(const Model *model, Canvas *canvas, Area area)
{
    const Session *session = model->session;
    if (area.rows < 2)
        return;
    int end = area.column + area.columns, strikes = 0, seen = 0;
    for (int i = 0; i < session->shot_count; i++)
        if (session->shot_game[i] == session->game) {
            seen++;
            strikes += shot_strike(&session->shots[i]);
        }
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE, "Last shots");
    if (seen > 0) { /* the score where all of it was said, else what is known */
        char text[48] = "";
        Score score;
        if (!session_score(session, session->game, &score))
            text_append(text, sizeof text, "strikes %d of %d", strikes, seen);
        else if (area.columns >= 35)
            text_append(text, sizeof text, "score %d, at best %d", score.total, score.best);
        else
            text_append(text, sizeof text, "score %d", score.total);
        canvas_text_right(canvas, area.row, end, area.columns - 11, ROLE_DIM, text);
    }
    if (session->shot_count == 0) {
        canvas_text(canvas, area.row + 1, area.column, area.columns, ROLE_DIM, "none yet");
        return;
    }
    int room = area.rows - 1, newest = session->shot_count - 1;
    int chosen = model->mode == MODE_PICK    ? model->pick
                 : model->mode == MODE_ENTRY ? model->typing.index
                                             : -1;
    if (chosen >= 0 && chosen <= newest - room) /* scroll to the shot that was chosen */
        newest = chosen + room - 1;
    for (int i = 0; i < room && newest - i >= 0; i++)
        draw_shot(model, canvas, area, area.row + 1 + i, newest - i);
}

/* What to throw. */

static void change_text(char *out, size_t size, double from, double to)
{
    double change = round((to - from) * 2.0) / 2.0;
    text_copy(out, size, "");
    if (change == 0.0)
        text_append(out, size, "same");
    else
        text_append(out, size, "%g %s", fabs(change), change > 0 ? "in" : "out");
}

/* Ball, feet and aim in large figures; returns the rows it took. */
static int draw_figures(const Model *model, Canvas *canvas, Area area, const Adjustment *adjustment,
                        Role role)
{
    Plan now = model_plan(model);
    const Plan *plan = &adjustment->plan;
    int spread = area.columns >= 40 ? 4 : area.columns >= 32 ? 2 : 0;
    int columns[3] = {area.column, area.column + 7 + spread, area.column + 17 + 2 * spread};
    static const char *const NAMES[3] = {"ball", "feet", "aim"};
    double values[3] = {plan->slot, plan->stance, plan->aim};
    char changes[3][24];
    if (plan->slot == now.slot)
        snprintf(changes[0], sizeof changes[0], "same");
    else
        snprintf(changes[0], sizeof changes[0], "was %d", now.slot);
    change_text(changes[1], sizeof changes[1], now.stance, plan->stance);
    change_text(changes[2], sizeof changes[2], now.aim, plan->aim);
    for (int i = 0; i < 3; i++) {
        int width = area.column + area.columns - columns[i];
        canvas_text(canvas, area.row, columns[i], width, ROLE_DIM, NAMES[i]);
        widget_figures(canvas, model->glyphs, area.row + 1, columns[i], role, values[i]);
        bool same = strcmp(changes[i], "same") == 0;
        canvas_text(canvas, area.row + 4, columns[i], width, same ? ROLE_DIM : role, changes[i]);
    }
    return 5;
}

/* What the three figures do not tell: speed, loft, rotation, surface; "" when nothing. */
static void other_changes(const Model *model, const Adjustment *adjustment, char *out, size_t size)
{
    Plan now = model_plan(model);
    candidate_changes(&now, &adjustment->plan, out, size);
    if (adjustment->surface_grit > 0.0)
        text_append(out, size, "%s%.0f grit", out[0] ? ", " : "", adjustment->surface_grit);
}

/* The release's part of it, short: "+0.5 mph, loft +2, axis -10°". */
static void short_changes(const Plan *from, const Plan *to, char *out, size_t size)
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

/* "Move in", or of a pair "Move in, more speed". */
static void kind_text(const Adjustment *adjustment, const char *between, char *out, size_t size)
{
    const char *name = ADJUST_WORDS[adjustment->kind];
    text_copy(out, size, "");
    text_append(out, size, "%c%s", name[0] - 'a' + 'A', name + 1);
    if (adjustment->with != ADJUST_HOLD)
        text_append(out, size, "%s%s", between, ADJUST_WORDS[adjustment->with]);
}

/* Returns the rows it took: a pair's may need two. */
static int draw_headline(const Model *model, Canvas *canvas, Area area,
                         const Adjustment *adjustment, Role role)
{
    char text[64];
    kind_text(adjustment, " and ", text, sizeof text);
    if (canvas_width(text) > area.columns)
        kind_text(adjustment, ", ", text, sizeof text);
    if (adjustment->with != ADJUST_HOLD)
        return canvas_wrap(canvas, area.row, area.column, area.columns, 2, role, text);
    int used = canvas_text(canvas, area.row, area.column, area.columns, role, text);
    if (area.columns - used > 12) { /* the ball's name belongs to it */
        const Ball *ball = bag_slot(&model->session->bag, adjustment->plan.slot);
        canvas_print(canvas, area.row, area.column + used + 2, area.columns - used - 2,
                     model_advice_current(model) ? ROLE_PLAIN : ROLE_DIM, "%s",
                     ball ? ball->name : "");
    }
    return 1;
}

static void draw_chance(const Model *model, Canvas *canvas, Area area, const Adjustment *adjustment,
                        Role role)
{
    int at = area.column, end = area.column + area.columns;
    double change = adjustment->pocket_after - adjustment->pocket_now;
    Role after = !model_advice_current(model) ? ROLE_DIM
                 : change > 0.005             ? ROLE_GOOD
                 : change < -0.005            ? ROLE_WARN
                                              : ROLE_PLAIN;
    at += canvas_text(canvas, area.row, at, 7, ROLE_DIM, "pocket") + 1;
    at += canvas_print(canvas, area.row, at, 8, role, "%2.0f → ", adjustment->pocket_now * 100.0);
    canvas_print(canvas, area.row, at, 5, after, "%.0f%%", adjustment->pocket_after * 100.0);
    int bar = area.columns - 18;
    widget_chance(canvas, model->glyphs, area.row, end - bar, bar, adjustment->pocket_now,
                  adjustment->pocket_after);
    if (area.rows > 2)
        canvas_print(canvas, area.row + 1, area.column, area.columns, ROLE_DIM,
                     "strike %.0f → %.0f%%, entry %.1f°", adjustment->strike_now * 100.0,
                     adjustment->strike_after * 100.0, adjustment->entry_deg);
    canvas_print(canvas, area.row + area.rows - 1, area.column, area.columns, ROLE_DIM,
                 "miss room %.1f in, %.1f out", adjustment->margin_in, adjustment->margin_out);
}

/* Ball and line of an answer and what else it changes, in words or, where these do not fit, short:
 * "ball 4  25 over 12", "4: 28.5/13.5, axis -10°". */
static void other_text(const Model *model, const Adjustment *adjustment, int room, char *out,
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
        short_changes(&now, plan, changes, sizeof changes);
    text_copy(out, size, "");
    text_append(out, size, "%d: %s/%s, %s", plan->slot, stance, aim, changes);
    if (canvas_width(out) > room) /* the line goes rather than what it stands for */
        text_copy(out, size, changes);
}

/* The second and third answer: what, and what of the pocket; on a second line the figures. */
static void draw_other(const Model *model, Canvas *canvas, Area area, int index)
{
    const Adjustment *adjustment = model_adjustment(model, index);
    Role role = model_advice_current(model) ? ROLE_PLAIN : ROLE_DIM;
    char text[160];
    int end = area.column + area.columns, room = area.columns - 7;
    snprintf(text, sizeof text, "%.0f%%", adjustment->pocket_after * 100.0);
    canvas_text(canvas, area.row, area.column, 1, ROLE_KEY, command_of(key_take, index)->shown);
    canvas_text_right(canvas, area.row, end, 5, role, text);
    kind_text(adjustment, ", ", text, sizeof text);
    if (canvas_width(text) > room && adjustment->with != ADJUST_HOLD) /* the line below tells it */
        snprintf(text, sizeof text, "%c%s +", ADJUST_WORDS[adjustment->kind][0] - 'a' + 'A',
                 ADJUST_WORDS[adjustment->kind] + 1);
    int used = canvas_text(canvas, area.row, area.column + 2, room, role, text);
    if (area.rows < 2) {
        char stance[16], aim[16];
        widget_board(stance, sizeof stance, adjustment->plan.stance);
        widget_board(aim, sizeof aim, adjustment->plan.aim);
        canvas_print(canvas, area.row, area.column + 4 + used, area.columns - used - 10, ROLE_DIM,
                     "%d, %s, %s", adjustment->plan.slot, stance, aim);
        return;
    }
    other_text(model, adjustment, area.columns - 2, text, sizeof text);
    canvas_text(canvas, area.row + 1, area.column + 2, area.columns - 2, ROLE_DIM, text);
}

/* Where there is room: what the shots say, and how well the lane is known. */
static void draw_evidence(const Model *model, Canvas *canvas, Area area)
{
    const Advice *shown = &model->shown;
    int row = area.row, bottom = area.row + area.rows;
    if (area.rows < 4)
        return;
    canvas_text(canvas, row++, area.column, area.columns, ROLE_TITLE, "What says so");
    for (int i = 0; i < SIGN_COUNT && row < bottom - 2; i++)
        if (shown->signs.seen[i])
            canvas_text(canvas, row++, area.column, area.columns, ROLE_DIM, SIGN_WORDS[i]);
    const char *words[2] = {shown->lane.words, shown->lane.off_words};
    for (int i = 0; i < 2 && row < bottom - 1; i++)
        if (words[i][0])
            row += canvas_wrap(canvas, row, area.column, area.columns, 2, ROLE_PLAIN, words[i]);
    if (row < bottom)
        canvas_print(canvas, row, area.column, area.columns, ROLE_DIM,
                     "film %.2f ± %.2f, %d balls thrown", shown->lane.scale, shown->lane.scale_sd,
                     shown->lane.deliveries);
}

static void draw_throw(const Model *model, Canvas *canvas, Area area)
{
    int row = area.row, end = area.column + area.columns, bottom = area.row + area.rows;
    const Adjustment *adjustment = model_adjustment(model, 0);
    int sure = model_sureness(model);
    bool air = area.rows >= 30, current = model_advice_current(model);
    canvas_text(canvas, row, area.column, area.columns, ROLE_TITLE, "Throw");
    if (!adjustment) {
        canvas_text(canvas, row + 2, area.column, area.columns, ROLE_DIM,
                    !current ? "calculating…" : "no answer");
        return;
    }
    Role main_role = current ? ROLE_ACCENT : ROLE_DIM;
    Role text_role = current ? ROLE_PLAIN : ROLE_DIM;
    if (!current)
        canvas_text_right(canvas, row, end, 14, ROLE_DIM, "calculating…");
    else
        canvas_text_right(canvas, row, end, 14, sure == 0 ? ROLE_WARN : ROLE_DIM, SURE_WORDS[sure]);
    row += 1 + air;
    row += air + draw_headline(model, canvas, (Area){row, area.column, 2, area.columns}, adjustment,
                               main_role);
    row += draw_figures(model, canvas, (Area){row, area.column, 5, area.columns}, adjustment,
                        main_role);
    row += air;
    draw_chance(model, canvas, (Area){row, area.column, 2 + air, area.columns}, adjustment,
                text_role);
    row += 2 + 2 * air;

    /* the other answers end the column, or follow where it is tall; the why has what is between */
    int others = model->shown.adjustment_count > 3 ? 2 : model->shown.adjustment_count - 1;
    int top = air ? bottom : bottom - others - 1;
    char extra[128];
    other_changes(model, adjustment, extra, sizeof extra);
    if (extra[0] && row < top)
        row += canvas_wrap(canvas, row, area.column, area.columns, 2, main_role, extra);
    int caution = (adjustment->caution != CAUTION_NONE ? 4 : 0) + adjustment->disagrees;
    int why = top - row - caution;
    row += canvas_wrap(canvas, row, area.column, area.columns, why > 8 ? 8 : why, text_role,
                       adjustment->because);
    if (adjustment->disagrees && row < top)
        canvas_text(canvas, row++, area.column, area.columns, ROLE_WARN,
                    "! rule and forecast differ");
    if (adjustment->caution != CAUTION_NONE && row < top) {
        canvas_put(canvas, row, area.column, model->glyphs->caution, ROLE_WARN);
        row += canvas_wrap(canvas, row, area.column + 2, area.columns - 2, air ? 4 : top - row,
                           ROLE_WARN, CAUTION_WORDS[adjustment->caution]);
    }
    if (!air && model->shown.lane.words[0] && bottom - 2 * others - row >= 3)
        row += 1 + canvas_wrap(canvas, row + 1, area.column, area.columns, 2, ROLE_DIM,
                               model->shown.lane.words);
    int lines = bottom - row >= 2 * others + air ? 2 : 1;
    row = air ? row + 1 : bottom - others * lines;
    for (int i = 1; i <= others && row + lines <= bottom; i++, row += lines)
        draw_other(model, canvas, (Area){row, area.column, lines, area.columns}, i);
    if (air)
        draw_evidence(model, canvas, (Area){row + 1, area.column, bottom - row - 1, area.columns});
}

/* The line where a shot is typed, and the one above it for what has to be said. */

static int draw_part(const Model *model, Canvas *canvas, int row, int column, Field field,
                     const char *label, const char *value, int width)
{
    bool active = model->typing.field == field;
    column += canvas_text(canvas, row, column, 12, ROLE_DIM, label) + 1;
    if (column + width >= canvas->columns)
        width = canvas->columns - column - 1;
    if (width < 1)
        return column;
    if (active)
        canvas_hline(canvas, row, column, width, ' ', ROLE_FIELD);
    canvas_text(canvas, row, column, width, active ? ROLE_FIELD : ROLE_PLAIN, value);
    if (active) {
        canvas->cursor_row = row;
        canvas->cursor_column = column;
    }
    return column + width + 2;
}

static void draw_typing(const Model *model, Canvas *canvas, int row)
{
    const Typing *typing = &model->typing;
    const Shot *shot = &typing->shot;
    char text[64], stance[16], aim[16], leave[64];
    int column = 1;
    bool seen = typing->field == FIELD_SEEN;
    widget_board(stance, sizeof stance, shot->stance);
    widget_board(aim, sizeof aim, shot->aim);
    snprintf(text, sizeof text, "%c %s/%s", shot->lane == SIDE_LEFT ? 'L' : 'R', stance, aim);
    if (!seen || canvas->columns >= 96) /* what is asked for takes its place where room is short */
        column += canvas_text(canvas, row, column, 14, ROLE_DIM, text) + 1;
    slot_text(text, sizeof text, shot->slot);
    column = draw_part(model, canvas, row, column, FIELD_SLOT, "ball",
                       typing->field == FIELD_SLOT ? "" : text, 1);
    column = draw_part(model, canvas, row, column, FIELD_HIT, "hit", HIT_NAMES[shot->hit], 7);
    column =
        draw_part(model, canvas, row, column, FIELD_READ, "read", read_text(shot->read, true), 7);
    column = draw_part(model, canvas, row, column, FIELD_RELEASE, "release",
                       release_text(shot->release, true), 7);
    if (seen) {
        column = draw_part(model, canvas, row, column, FIELD_SEEN, SEEN_ROWS[typing->seen].label,
                           typing->figures, 4);
        canvas->cursor_column += (int)strlen(typing->figures);
    }
    widget_leave(leave, sizeof leave, shot, 14);
    if (shot_strike(shot))
        snprintf(leave, sizeof leave, "X all down");
    else if (!shot->left_said)
        snprintf(leave, sizeof leave, "not seen");
    if (typing->field == FIELD_SPARE) {
        Shot after = {.left_said = true, .left = shot->spare_left};
        widget_leave(leave, sizeof leave, &after, 11);
        draw_part(model, canvas, row, column, FIELD_SPARE, "still up",
                  after.left == 0 ? "none: made" : leave, 11);
        return;
    }
    draw_part(model, canvas, row, column, FIELD_LEAVE, "leave", leave, 14);
}

/* How the plan's release differs from the usual one, at the right of the rule; its columns. */
static int draw_release(const Model *model, Canvas *canvas, int row)
{
    char changes[64], text[96] = "";
    Plan plan = model_plan(model);
    short_changes(&(Plan){0}, &plan, changes, sizeof changes);
    if (!changes[0])
        return 0;
    text_append(text, sizeof text, " plan: %s ", changes);
    int width = canvas_width(text);
    canvas_text_right(canvas, row, canvas->columns - 1, width, ROLE_ACCENT, text);
    return width;
}

/* What was seen of a shot, as far as it was said, at the end of a row's free part. */
static void draw_seen(Canvas *canvas, int row, int from, int end, const Shot *shot)
{
    char text[64] = "";
    Shot copy = *shot;
    for (Seen seen = 0; seen < SEEN_COUNT; seen++) {
        double value = *model_seen(&copy, seen);
        if (value > 0.0)
            text_append(text, sizeof text, "%s%s%g%s", text[0] ? ", " : " ", SEEN_ROWS[seen].before,
                        value, SEEN_ROWS[seen].after);
    }
    text_append(text, sizeof text, "%s", text[0] ? " " : "");
    int width = canvas_width(text);
    if (end - width > from)
        canvas_text(canvas, row, end - width, width, ROLE_DIM, text);
}

static void draw_bottom(const Model *model, Canvas *canvas)
{
    int last = canvas->rows - 1, entry = last - 1, rule = last - 2, used = 1;
    canvas_hline(canvas, rule, 0, canvas->columns, model->glyphs->rule, ROLE_DIM);
    int width = canvas->columns - 2;
    if (!model->unsaved)
        width -= draw_release(model, canvas, rule);
    if (model->unsaved)
        used +=
            canvas_print(canvas, rule, 1, width, ROLE_BAD, " NOT SAVED: %s ", model->unsaved_text);
    else if (model->message[0])
        used += canvas_print(canvas, rule, 1, width, model->message_role, " %s ", model->message);
    else if (model->mode == MODE_ENTRY && model->typing.index >= 0)
        used += canvas_text(canvas, rule, 1, 40, ROLE_ACCENT, " Saying a shot anew ");
    else if (model->session->game_over)
        used += canvas_text(canvas, rule, 1, 60, ROLE_PLAIN,
                            model->session->game < model->session->event.games
                                ? " This game is over; G, or the next shot, begins another "
                                : " The last game is over ");
    if (model->mode == MODE_ENTRY)
        draw_seen(canvas, rule, used, 1 + width, &model->typing.shot);
    else if (model->mode == MODE_PICK)
        draw_seen(canvas, rule, used, 1 + width, &model->session->shots[model->pick]);

    if (model->mode == MODE_ENTRY) {
        draw_typing(model, canvas, entry);
    } else if (model->mode == MODE_PICK) {
        canvas_text(canvas, entry, 1, canvas->columns - 2, ROLE_PLAIN, "Which shot to say anew?");
    } else {
        canvas_text(canvas, entry, 1, 4, ROLE_TITLE, "Shot");
        int column = 6;
        for (int hit = HIT_GUTTER; hit <= HIT_CROSSED; hit++) {
            const CommandRow *row = command_of(key_hit, hit);
            column += canvas_text(canvas, entry, column, 4, ROLE_KEY, row->shown) + 1;
            column += canvas_text(canvas, entry, column, 8, ROLE_DIM, row->name) + 1;
        }
        if (model->session->apart)
            canvas_text_right(canvas, entry, canvas->columns - 1, 12, ROLE_DIM, "lanes apart");
    }
    widget_footer(canvas, last, model_where(model));
}

void screen_lane(const Model *model, Canvas *canvas)
{
    int body = canvas->rows - 4, total = canvas->columns - 2 * EDGE - 2 * GAP;
    int lane = laneview_columns(total - LEFT_MIN - RIGHT_MIN);
    /* what is left over goes to both sides, up to where lines get too long to read */
    int extra = total - lane - LEFT_MIN - RIGHT_MIN;
    int left = LEFT_MIN + extra * 4 / 7;
    left = left > LEFT_MAX ? LEFT_MAX : left;
    int right = total - lane - left;
    right = right > RIGHT_MAX ? RIGHT_MAX : right;
    int margin = (total - left - lane - right) / 2;
    screen_lane_top(model, canvas);
    int used = draw_bag(model, canvas, (Area){1, EDGE, body, left});
    draw_shots(model, canvas, (Area){1 + used + 1, EDGE, body - used - 1, left});
    int at = EDGE + left + GAP + margin;
    laneview_draw(model, canvas, (Area){1, at, body, lane});
    draw_throw(model, canvas, (Area){1, canvas->columns - EDGE - right, body, right});
    draw_bottom(model, canvas);
    if (model->mode == MODE_ASK)
        view_prompt_line(model, canvas);
}
