/* screen_lane.c - the main screen: bag and shots, the lane, the shot being typed. screen_throw.c
 * has what to throw. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/text.h"
#include "ui/draw/laneview.h"
#include "ui/draw/rolling.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

enum { LEFT_MIN = 25, RIGHT_MIN = 26, LEFT_MAX = 40, RIGHT_MAX = 56, EDGE = 1, GAP = 1 };
enum { HITS_NAMED = 70 }; /* with this many the keys of the hits have their names beside them */
enum { WIDE_LIST = 35 };  /* with this many columns a shot's words are written out */

/* The bag: six slots, two lines each, figures aligned. */

static void surface_text(const Surface *surface, char *out, size_t size)
{
    ball_surface_words(surface, out, (unsigned long)size);
    char *space = strchr(out, ' '); /* "2000 grit" is 2000 to any bowler */
    if (space && strcmp(space, " grit") == 0)
        *space = '\0';
}

/* A mark if it is the current or the suggested ball; its name, and its surface at the right. */
static void draw_slot_ball(const Model *model, Canvas *canvas, Area area, int slot,
                           const Ball *ball)
{
    const Adjustment *best = model_adjustment(model, 0);
    bool hand = model_plan(model).slot == slot;
    char surface[32];
    int row = area.row, column = area.column;
    if (hand)
        canvas_put(canvas, row, column, model->glyphs->path, ROLE_PATH);
    else if (best && best->plan.slot == slot)
        canvas_put(canvas, row, column, model->glyphs->path2,
                   model_advice_current(model) ? ROLE_PATH2 : ROLE_DIM);
    surface_text(&ball->surface, surface, sizeof surface);
    canvas_text_right(canvas, row, column + area.columns, area.columns - 4, ROLE_DIM, surface);
    canvas_text(canvas, row, column + 4, area.columns - 5 - canvas_width(surface),
                hand ? ROLE_ACCENT : ROLE_PLAIN, ball->name);
}

/* What it would do now on its own line. */
static void draw_slot_figures(const Model *model, Canvas *canvas, Area area, int slot)
{
    const SlotNow *now = &model->slot[slot - 1].now;
    if (model_hides(model))
        return;
    bool current = model_slot_current(model, slot), hand = model_plan(model).slot == slot;
    Role role = hand && current ? ROLE_PLAIN : ROLE_DIM;
    int row = area.row + 1, end = area.column + area.columns;
    char text[24];
    if (!current)
        canvas_put(canvas, row, area.column + 2, model->glyphs->wait, ROLE_DIM);
    if (!now->ready)
        return;
    if (!now->line.found) {
        canvas_text(canvas, row, area.column + 4, area.columns - 4, ROLE_DIM,
                    "no line to the pocket");
        return;
    }
    if (isfinite(now->line.hook_ft))
        snprintf(text, sizeof text, "%.0f ft", now->line.hook_ft);
    else
        snprintf(text, sizeof text, "never");
    canvas_text_right(canvas, row, end - 14, 8, role, text);
    snprintf(text, sizeof text, "%.1f°", now->line.entry_deg);
    canvas_text_right(canvas, row, end - 7, 6, role, text);
    screen_pocket(now->line.pocket, now->pocket_known, text, sizeof text);
    canvas_text_right(canvas, row, end, 6, role, text);
}

static void draw_slot(const Model *model, Canvas *canvas, Area area, int slot)
{
    const Ball *ball = bag_slot(&model->session->bag, slot);
    canvas_print(canvas, area.row, area.column + 2, 1, ball ? ROLE_KEY : ROLE_DIM, "%d", slot);
    if (!ball) {
        canvas_text(canvas, area.row, area.column + 4, area.columns - 4, ROLE_DIM, "empty");
        return;
    }
    draw_slot_ball(model, canvas, area, slot, ball);
    draw_slot_figures(model, canvas, area, slot);
}

/* Returns the rows it took. */
static int draw_bag(const Model *model, Canvas *canvas, Area area)
{
    int end = area.column + area.columns, row = area.row + 1;
    canvas_text(canvas, area.row, area.column, 4, ROLE_TITLE, "Bag");
    canvas_text_right(canvas, area.row, end - 14, 6, ROLE_DIM, "hooks");
    canvas_text_right(canvas, area.row, end - 7, 6, ROLE_DIM, "entry");
    canvas_text_right(canvas, area.row, end, 6, ROLE_DIM, "pocket");
    int pitch = area.rows >= 30 ? 3 : 2;
    for (int slot = 1; slot <= BAG_SLOTS; slot++, row += pitch)
        draw_slot(model, canvas, (Area){row, area.column, 2, area.columns}, slot);
    return row - area.row - (pitch - 2);
}

/* The last shots, newest first: frame and lane, slot, hit, read, release, leave. */

/* On a narrow list each has five columns. */
static const char *hit_text(Hit hit, bool wide)
{
    static const char *const SHORT[HIT_COUNT] = {"",      "gutt", "wide", "thin", "light",
                                                 "flush", "high", "nose", "cross"};
    return wide ? HIT_NAMES[hit] : SHORT[hit];
}

static const char *read_text(Read read, bool wide)
{
    static const char *const SHORT[READ_COUNT] = {"", "early", "ok", "late", "none"};
    static const char *const LONG[READ_COUNT] = {"", "early", "on time", "late", "none"};
    return wide ? LONG[read] : SHORT[read];
}

static const char *release_text(Release release, bool wide)
{
    static const char *const SHORT[RELEASE_COUNT] = {"",     "good", "in", "out",
                                                     "fast", "slow", "off"};
    return wide ? RELEASE_NAMES[release] : SHORT[release];
}

/* The shot that is picked or edited; -1: none. */
static int chosen_shot(const Model *model)
{
    return model->mode == MODE_PICK    ? model->pick
           : model->mode == MODE_ENTRY ? model->typing.index
                                       : -1;
}

/* The slot the ball of a shot is in now, if any. */
static void slot_text(char *out, size_t size, int slot)
{
    snprintf(out, size, slot ? "%d" : "-", slot);
}

/* How it read, and how it was released. On a narrow list a good release is not shown, and a bad one
 * replaces the read, which then says little about the lane. */
static int draw_feel(Canvas *canvas, int row, int column, Role role, const Shot *shot, bool wide)
{
    if (wide) {
        canvas_text(canvas, row, column, 7, role, read_text(shot->read, true));
        canvas_text(canvas, row, column + 8, 7, role, release_text(shot->release, true));
        return column + 16;
    }
    canvas_text(canvas, row, column, 5, role,
                shot_good(shot) ? read_text(shot->read, false)
                                : release_text(shot->release, false));
    return column + 6;
}

void screen_shot_row(const Model *model, Canvas *canvas, Area area, int index, bool picked)
{
    const Session *session = model->session;
    const Shot *shot = &session->shots[index];
    bool wide = area.columns >= WIDE_LIST;
    Role role = picked ? ROLE_FIELD : shot_good(shot) ? ROLE_PLAIN : ROLE_DIM;
    int row = area.row, column = area.column, words = wide ? 7 : 5;
    char slot[16], leave[48];
    if (picked) {
        canvas_put(canvas, row, column - 1, model->glyphs->breaks_right, ROLE_ACCENT);
        canvas_hline(canvas, row, column, area.columns, ' ', ROLE_FIELD);
    }
    char side = shot->lane == SIDE_LEFT ? 'L' : 'R';
    if (session->shot_frame[index] == 0) /* warm-up */
        canvas_print(canvas, row, column, 3, picked ? role : ROLE_DIM, " -%c", side);
    else
        canvas_print(canvas, row, column, 3, picked ? role : ROLE_DIM, "%2d%c",
                     session->shot_frame[index], side);
    slot_text(slot, sizeof slot, shot->slot);
    canvas_text(canvas, row, column + 4, 1, role, slot);
    canvas_text(canvas, row, column + 6, words, role, hit_text(shot->hit, wide));
    column = draw_feel(canvas, row, column + 7 + words, role, shot, wide);
    int room = area.column + area.columns - column;
    widget_leave(leave, sizeof leave, shot, room);
    canvas_text(canvas, row, column, room, !picked && shot_strike(shot) ? ROLE_GOOD : role, leave);
}

/* "180: 3 marks" */
static void need_text(const Score *score, int target, char *out, size_t size)
{
    ScoreNeed need = score_need(score, target);
    if (score->pins_so_far >= target)
        text_append(out, size, "%d is made", target);
    else if (!need.possible)
        text_append(out, size, "%d is out", target);
    else
        text_append(out, size, "%d: %d mark%s", target, need.marks, need.marks == 1 ? "" : "s");
}

void screen_score(const Model *model, ScoreLength length, char *out, size_t size)
{
    const Session *session = model->session;
    bool wide = length == SCORE_LONG;
    int strikes = 0, seen = 0;
    Score score;
    for (int i = 0; i < session->shot_count; i++)
        if (session->shot_game[i] == session->game) {
            seen++;
            strikes += shot_strike(&session->shots[i]);
        }
    text_copy(out, size, "");
    if (session->warm_up || session_frames(session, session->game) == 0)
        return;
    if (!session_score(session, session->game, &score)) {
        text_append(out, size, wide ? "strikes %d of %d" : "strikes %d/%d", strikes, seen);
    } else if (score.over) {
        text_append(out, size, "score %d", score.total);
    } else if (model->session->target > 0 && wide) {
        text_append(out, size, "%d; ", score.total);
        need_text(&score, model->session->target, out + strlen(out), size - strlen(out));
    } else if (model->session->target > 0) {
        need_text(&score, model->session->target, out, size);
    } else {
        text_append(out, size, wide ? "score %d, at most %d" : "%d, best %d", score.total,
                    score.best);
    }
}

/* Newest first, or scrolled to the chosen one. */
static void draw_shot_rows(const Model *model, Canvas *canvas, Area area)
{
    int newest = model->session->shot_count - 1, chosen = chosen_shot(model);
    if (chosen >= 0 && chosen <= newest - area.rows)
        newest = chosen + area.rows - 1;
    if (newest < 0 && area.rows > 0)
        canvas_text(canvas, area.row, area.column, area.columns, ROLE_DIM, "none yet");
    for (int i = 0; i < area.rows && newest - i >= 0; i++)
        screen_shot_row(model, canvas, (Area){area.row + i, area.column, 1, area.columns},
                        newest - i, newest - i == chosen);
}

static void draw_shots(const Model *model, Canvas *canvas, Area area)
{
    char text[48];
    if (area.rows < 2)
        return;
    canvas_text(canvas, area.row, area.column, area.columns, ROLE_TITLE, "Last shots");
    screen_score(model, area.columns >= WIDE_LIST ? SCORE_LONG : SCORE_SHORT, text, sizeof text);
    canvas_text_right(canvas, area.row, area.column + area.columns, area.columns - 11, ROLE_DIM,
                      text);
    area.row++;
    area.rows--;
    draw_shot_rows(model, canvas, area);
}

/* The line where a shot is typed, and the one above it for messages. */

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

/* What the shot leaves, or after it the spare ball. */
static void draw_typed_leave(const Model *model, Canvas *canvas, int row, int column)
{
    const Typing *typing = &model->typing;
    char text[64];
    if (typing->field == FIELD_SPARE) {
        Shot after = {.left_said = true, .left = typing->shot.spare_left};
        widget_leave(text, sizeof text, &after, 11);
        draw_part(model, canvas, row, column, FIELD_SPARE, "still up",
                  after.left == 0 ? "none: made" : text, 11);
        return;
    }
    widget_leave(text, sizeof text, &typing->shot, 14);
    draw_part(model, canvas, row, column, FIELD_LEAVE, "leave",
              shot_strike(&typing->shot) ? "X all down"
              : !typing->shot.left_said  ? "not seen"
                                         : text,
              14);
}

/* In the compact view a part that is not said yet shows its name. */
static int draw_short_part(const Model *model, Canvas *canvas, int row, int column, Field field,
                           const char *name, const char *value, int width)
{
    bool active = model->typing.field == field;
    if (active) {
        canvas_hline(canvas, row, column, width, ' ', ROLE_FIELD);
        canvas->cursor_row = row;
        canvas->cursor_column = column;
    }
    canvas_text(canvas, row, column, width,
                active     ? ROLE_FIELD
                : value[0] ? ROLE_PLAIN
                           : ROLE_DIM,
                value[0] ? value : name);
    return column + width + 1;
}

/* All of the shot, short; or the one figure that is asked for. */
static void draw_typing_compact(const Model *model, Canvas *canvas, int row)
{
    const Typing *typing = &model->typing;
    const Shot *shot = &typing->shot;
    char slot[16] = "", leave[48], stance[16], aim[16];
    int column = 1;
    if (typing->field == FIELD_SEEN) {
        draw_part(model, canvas, row, column, FIELD_SEEN, SEEN_ROWS[typing->seen].label,
                  typing->figures, 4);
        canvas->cursor_column += (int)strlen(typing->figures);
        return;
    }
    widget_board(stance, sizeof stance, shot->stance);
    widget_board(aim, sizeof aim, shot->aim);
    column += canvas_print(canvas, row, column, 11, ROLE_DIM, "%c%s/%s",
                           shot->lane == SIDE_LEFT ? 'L' : 'R', stance, aim) +
              1;
    if (typing->field != FIELD_SLOT)
        slot_text(slot, sizeof slot, shot->slot);
    column = draw_short_part(model, canvas, row, column, FIELD_SLOT, "?", slot, 1);
    column = draw_short_part(model, canvas, row, column, FIELD_HIT, "hit",
                             hit_text(shot->hit, false), 5);
    column = draw_short_part(model, canvas, row, column, FIELD_READ, "read",
                             read_text(shot->read, false), 5);
    column = draw_short_part(model, canvas, row, column, FIELD_RELEASE, "hand",
                             release_text(shot->release, false), 4);
    bool spare = typing->field == FIELD_SPARE;
    Shot after = {.left_said = true, .left = shot->spare_left};
    int room = canvas->columns - column - 1;
    widget_leave(leave, sizeof leave, spare ? &after : shot, room);
    draw_short_part(model, canvas, row, column, spare ? FIELD_SPARE : FIELD_LEAVE, "leave",
                    spare && after.left == 0 ? "made"
                    : shot->left_said        ? leave
                                             : "",
                    room);
}

static void draw_typing(const Model *model, Canvas *canvas, int row)
{
    if (canvas->columns < SCREEN_COLUMNS_MIN) {
        draw_typing_compact(model, canvas, row);
        return;
    }
    const Typing *typing = &model->typing;
    const Shot *shot = &typing->shot;
    char slot[16] = "", stance[16], aim[16];
    int column = 1;
    bool seen = typing->field == FIELD_SEEN;
    widget_board(stance, sizeof stance, shot->stance);
    widget_board(aim, sizeof aim, shot->aim);
    if (!seen || canvas->columns >= 96) /* otherwise the question takes its place */
        column += canvas_print(canvas, row, column, 14, ROLE_DIM, "%c %s/%s",
                               shot->lane == SIDE_LEFT ? 'L' : 'R', stance, aim) +
                  1;
    if (typing->field != FIELD_SLOT)
        slot_text(slot, sizeof slot, shot->slot);
    column = draw_part(model, canvas, row, column, FIELD_SLOT, "ball", slot, 1);
    column = draw_part(model, canvas, row, column, FIELD_HIT, "hit", hit_text(shot->hit, true), 7);
    column =
        draw_part(model, canvas, row, column, FIELD_READ, "read", read_text(shot->read, true), 7);
    column = draw_part(model, canvas, row, column, FIELD_RELEASE, "release",
                       release_text(shot->release, true), 7);
    if (seen) {
        column = draw_part(model, canvas, row, column, FIELD_SEEN, SEEN_ROWS[typing->seen].label,
                           typing->figures, 4);
        canvas->cursor_column += (int)strlen(typing->figures);
    }
    draw_typed_leave(model, canvas, row, column);
}

/* The plan's changes to the usual release, at the right of the rule. */
static void draw_release(Canvas *canvas, int row, const char *changes)
{
    char text[96] = "";
    text_append(text, sizeof text, " plan: %s ", changes);
    canvas_text_right(canvas, row, canvas->columns - 1, canvas_width(text), ROLE_ACCENT, text);
}

/* What was seen of a shot, right-aligned in a row's free part. */
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

/* The keys that begin a shot. */
static void draw_hits(const Model *model, Canvas *canvas, int row)
{
    int column = 1 + canvas_text(canvas, row, 1, 4, ROLE_TITLE, "Shot") + 1;
    for (int hit = HIT_GUTTER; hit <= HIT_CROSSED; hit++) {
        const KeyRow *key = &command_of(model->keys, IN_LANE, key_hit, hit)->key;
        column += canvas_text(canvas, row, column, 4, ROLE_KEY, key->shown) + 1;
        if (canvas->columns >= HITS_NAMED)
            column += canvas_text(canvas, row, column, 8, ROLE_DIM, key->name) + 1;
    }
}

/* The plan that waits on the other lane of the pair. */
static void draw_other_lane(const Model *model, Canvas *canvas, int row, int column, int width)
{
    const Session *session = model->session;
    Side other = model->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    const Plan *plan = &session->plan[other];
    if (plan->slot == 0)
        return;
    char stance[16], aim[16];
    widget_board(stance, sizeof stance, plan->stance);
    widget_board(aim, sizeof aim, plan->aim);
    canvas_print(canvas, row, column, width, ROLE_DIM,
                 width < LEFT_MIN + 4 ? "Lane %d: %d, %s over %s" : "Lane %d: ball %d, %s over %s",
                 session->pair[other], plan->slot, stance, aim);
}

/* What the rule shows while there is no message. */
static const char *hint(const Model *model)
{
    const Session *session = model->session;
    if (model->mode == MODE_ROLL)
        return ROLLING_HINT;
    if (model->mode == MODE_SUPPOSE || (model->mode == MODE_ENTRY && model->typing.supposed))
        return "What if: nothing of this is kept";
    if (model->mode == MODE_ENTRY && model->typing.index >= 0)
        return "Editing a shot";
    const char *file = session->event.file;
    if (model->read_only)
        return model_compact(model) ? "Follows another settee, read-only" : "";
    if (session->shot_count == 0 && file[0] && file[0] != '/')
        return model_compact(model)
                   ? "The demo: nothing of it counts"
                   : "The demo. Your own: settee new bag NAME, then settee new event NAME";
    if (!session->game_over || model->rehearsing.on)
        return "";
    return session->game < session->event.games
               ? "This game is over; G or the next shot starts the next one"
               : "The last game is over";
}

/* The shot that is supposed. */
static void draw_supposed(const Model *model, Canvas *canvas, int row)
{
    const Shot *shot = &model->supposed.shots[model->supposed.count - 1];
    bool brief = model_compact(model);
    char words[160] = "", leave[48], stance[16], aim[16];
    widget_leave(leave, sizeof leave, shot, 24);
    widget_board(stance, sizeof stance, shot->stance);
    widget_board(aim, sizeof aim, shot->aim);
    text_append(words, sizeof words,
                brief ? "If %d, %s/%s were %s" : "If ball %d, %s over %s, were %s", shot->slot,
                stance, aim, hit_text(shot->hit, !brief));
    if (shot->read)
        text_append(words, sizeof words, ", %s", read_text(shot->read, !brief));
    if (shot->release)
        text_append(words, sizeof words, brief ? ", %s" : ", released %s",
                    release_text(shot->release, !brief));
    if (shot->left_said)
        text_append(words, sizeof words, ": %s", leave);
    canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_ACCENT, words);
}

/* Where the hits would be typed. */
static void draw_rehearsing(const Model *model, Canvas *canvas, int row)
{
    const Session *session = model->session;
    bool over = session->game_over && session->game >= session->event.games;
    bool brief = model_compact(model);
    canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_DIM,
                model->mode == MODE_THROW ? "The ball is on its way"
                : over                    ? brief ? "The last ball: Enter shows the costs"
                                                  : "That was the last ball: Enter shows what your decisions cost"
                : brief                   ? "Ball, feet, aim; then Enter bowls"
                        : "Choose ball, feet and aim, then Enter: what would you throw?");
}

void screen_lane_bottom(const Model *model, Canvas *canvas)
{
    int entry = canvas->rows - 2, rule = entry - 1, width = canvas->columns - 2;
    bool typing = model->mode == MODE_ENTRY, picking = model->mode == MODE_PICK;
    bool supposing = model->mode == MODE_SUPPOSE;
    Role role = supposing || (typing && model->typing.supposed) ? ROLE_WARN
                : typing                                        ? ROLE_ACCENT
                                                                : ROLE_PLAIN;
    char changes[64];
    Plan plan = model_plan(model);
    screen_release_changes(&(Plan){0}, &plan, changes, sizeof changes);
    int release = changes[0] && !model->unsaved ? canvas_width(changes) + 8 : 0;
    if (canvas->columns < SCREEN_COLUMNS_MIN && model->message[0])
        release = 0; /* there is room for one of the two */
    int used = screen_frame_bottom(model, canvas, 1, width - release, role, hint(model));
    if (release)
        draw_release(canvas, rule, changes);
    if (typing)
        draw_seen(canvas, rule, 1 + used, 1 + width - release, &model->typing.shot);
    else if (picking)
        draw_seen(canvas, rule, 1 + used, 1 + width - release, &model->session->shots[model->pick]);
    if (typing)
        draw_typing(model, canvas, entry);
    else if (picking)
        canvas_text(canvas, entry, 1, width, ROLE_PLAIN, "Edit which shot?");
    else if (supposing)
        draw_supposed(model, canvas, entry);
    else if (model->rehearsing.on)
        draw_rehearsing(model, canvas, entry);
    else
        draw_hits(model, canvas, entry);
}

/* The plans of both lanes of the pair in a line. */
static void draw_plans(const Model *model, Canvas *canvas, int row)
{
    const Session *session = model->session;
    Side other = model->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    Plan plans[2] = {model_plan(model), session->plan[other]};
    char text[96] = "", stance[16], aim[16];
    for (int i = 0; i < 2; i++) {
        widget_board(stance, sizeof stance, plans[i].stance);
        widget_board(aim, sizeof aim, plans[i].aim);
        if (i == 0)
            text_append(text, sizeof text, "plan %d, %s/%s", plans[i].slot, stance, aim);
        else if (plans[i].slot)
            text_append(text, sizeof text, "  lane %d: %d, %s/%s", session->pair[other],
                        plans[i].slot, stance, aim);
    }
    if (plans[0].slot)
        canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_DIM, text);
}

/* What to throw, both plans, and as many of the last shots as there is room for; while one of them
 * is chosen, nothing but those. */
static void lane_compact(const Model *model, Canvas *canvas)
{
    int width = canvas->columns - 2, end = canvas->rows - 3, row = 1;
    screen_frame_event(model, canvas);
    if (model->mode != MODE_PICK) {
        row += screen_throw_compact(model, canvas, (Area){row, EDGE, end - row, width});
        if (end - row > 1)
            draw_plans(model, canvas, row++);
    }
    draw_shot_rows(model, canvas, (Area){row, EDGE, end - row, width});
    screen_lane_bottom(model, canvas);
    if (model->mode == MODE_ASK)
        screen_frame_prompt(model, canvas);
}

void screen_lane(const Model *model, Canvas *canvas)
{
    if (model_compact(model)) {
        lane_compact(model, canvas);
        return;
    }
    int body = canvas->rows - 4, total = canvas->columns - 2 * EDGE - 2 * GAP;
    int lane = laneview_columns(total - LEFT_MIN - RIGHT_MIN);
    /* spare columns go to both sides, until lines would get too long to read */
    int extra = total - lane - LEFT_MIN - RIGHT_MIN;
    int left = LEFT_MIN + extra * 4 / 7;
    left = left > LEFT_MAX ? LEFT_MAX : left;
    int right = total - lane - left;
    right = right > RIGHT_MAX ? RIGHT_MAX : right;
    int margin = (total - left - lane - right) / 2;
    screen_frame_event(model, canvas);
    int used = draw_bag(model, canvas, (Area){1, EDGE, body, left});
    draw_other_lane(model, canvas, 1 + used, EDGE, left);
    draw_shots(model, canvas, (Area){1 + used + 1, EDGE, body - used - 1, left});
    int at = EDGE + left + GAP + margin;
    laneview_draw(model, canvas, (Area){1, at, body, lane});
    screen_throw(model, canvas, (Area){1, canvas->columns - EDGE - right, body, right});
    screen_lane_bottom(model, canvas);
    if (model->mode == MODE_ASK)
        screen_frame_prompt(model, canvas);
}
