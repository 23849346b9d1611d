/* update_log.c - the score sheet and its shots: looking back, changing them in place, frames known
 * only by their pins, the score to aim for. */
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "ui/input/update.h"
#include "ui/log_rows.h"

/* Undo may have taken what was chosen. */
static LogRow chosen(Model *model)
{
    LogRow rows[LOG_ROWS_MAX];
    int now = log_game_now(model->session);
    if (model->log_game > now)
        model->log_game = now;
    int count = log_rows(model->session, model->log_game, rows);
    if (model->log_row >= count)
        model->log_row = count > 0 ? count - 1 : 0;
    return count > 0 ? rows[model->log_row] : (LogRow){LOG_NEXT, -1};
}

static void choose_game(Model *model, int game)
{
    model->log_game = game;
    model->log_row = LOG_ROWS_MAX; /* the last one */
    chosen(model);
}

bool update_log_at_end(Model *model)
{
    LogRow rows[LOG_ROWS_MAX];
    return model->log_game == log_game_now(model->session) &&
           model->log_row + 1 >= log_rows(model->session, model->log_game, rows);
}

void update_log_to_end(Model *model) { choose_game(model, log_game_now(model->session)); }

void key_log(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (!update_enter_draft(model, effects))
        return;
    model->mode = MODE_LOG;
    update_log_to_end(model);
}

void key_log_row(Model *model, Effects *effects, int argument, uint32_t key)
{
    int step = key == PRESS_UP || key == 'k' ? -1 : 1;
    chosen(model);
    if (model->log_row + step >= 0)
        model->log_row += step;
    chosen(model);
}

void key_log_game(Model *model, Effects *effects, int argument, uint32_t key)
{
    const Session *session = model->session;
    int game = model->log_game + (key == PRESS_LEFT ? -1 : 1);
    int first = session->warm_up_count > 0 || session->warm_up ? 0 : 1;
    if (game >= first && game <= log_game_now(session))
        choose_game(model, game);
}

/* ---- changes ---- */

static void edit_shot(Model *model)
{
    bool log = model->mode == MODE_LOG;
    int index = log ? chosen(model).index : model->pick;
    model->typing = (Typing){.shot = model->session->shots[index],
                             .index = index,
                             .field = FIELD_HIT,
                             .back = log ? MODE_LOG : MODE_LANE};
    model->mode = MODE_ENTRY;
}

static Entry told_entry(Model *model, const char *balls)
{
    const Session *session = model->session;
    LogRow row = chosen(model);
    bool edit = row.kind == LOG_TOLD && model->change != LOG_ADD_FRAME;
    Entry entry = {
        .kind = edit ? ENTRY_FRAME_EDIT : ENTRY_FRAME, .lane = session->lane, .index = row.index};
    text_copy(entry.balls, sizeof entry.balls, balls);
    if (edit) {
        entry.lane = session->told[row.index].lane;
    } else if (row.kind == LOG_TOLD) { /* ahead of it */
        const ToldFrame *next = &session->told[row.index];
        entry.lane = next->lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
        entry.index = next->before;
        entry.ahead = row.index + 1;
    } else if (row.kind == LOG_SHOT) /* lanes take turns */
        entry.lane = session->shots[row.index].lane == SIDE_LEFT ? SIDE_RIGHT : SIDE_LEFT;
    return entry;
}

void update_change(Model *model, Effects *effects)
{
    LogRow row = chosen(model);
    switch (model->change) {
    case LOG_EDIT_SHOT:
        edit_shot(model);
        break;
    case LOG_EDIT_FRAME:
    case LOG_ADD_FRAME:
        text_copy(model->typed, sizeof model->typed,
                  model->change == LOG_EDIT_FRAME ? model->session->told[row.index].balls : "");
        model->mode = MODE_TOLD;
        break;
    case LOG_REMOVE_FRAME: {
        Entry entry = told_entry(model, "");
        if (update_enter(model, effects, &entry))
            update_say(model, ROLE_PLAIN, "Frame removed; u brings it back");
        break;
    }
    }
}

/* A finished game is closed: it asks. */
static void change(Model *model, Effects *effects, LogChange change, int game)
{
    model->change = change;
    if (log_closed(model->session, game))
        update_prompt(model, PROMPT_CLOSED_GAME);
    else
        update_change(model, effects);
}

void key_pick_take(Model *model, Effects *effects, int argument, uint32_t key)
{
    change(model, effects, LOG_EDIT_SHOT, model->session->shot_game[model->pick]);
}

void key_log_edit(Model *model, Effects *effects, int argument, uint32_t key)
{
    LogRow row = chosen(model);
    if (row.index >= 0)
        change(model, effects,
               row.kind == LOG_SHOT   ? LOG_EDIT_SHOT
               : row.kind == LOG_TOLD ? LOG_EDIT_FRAME
                                      : LOG_ADD_FRAME,
               model->log_game);
}

void key_log_add(Model *model, Effects *effects, int argument, uint32_t key)
{
    LogRow row = chosen(model);
    if (model->log_game == 0)
        update_refuse(model, effects, "the warm-up has no frames");
    else if (row.index >= 0)
        change(model, effects, LOG_ADD_FRAME, model->log_game);
}

void key_log_remove(Model *model, Effects *effects, int argument, uint32_t key)
{
    if (chosen(model).kind == LOG_TOLD)
        change(model, effects, LOG_REMOVE_FRAME, model->log_game);
    else
        update_refuse(model, effects, "a logged shot stays: edit it, or undo it with u");
}

/* ---- typing a frame or a target ---- */

static void type(Model *model, size_t most, char character)
{
    size_t n = strlen(model->typed);
    if (n < most) {
        model->typed[n] = character;
        model->typed[n + 1] = '\0';
    }
}

void key_told_type(Model *model, Effects *effects, int argument, uint32_t key)
{
    type(model, TOLD_SIZE - 1, (char)(key >= 'a' ? key - 'a' + 'A' : key));
}

void key_told_take(Model *model, Effects *effects, int argument, uint32_t key)
{
    Entry entry = told_entry(model, model->typed);
    if (!update_enter(model, effects, &entry))
        return;
    model->mode = MODE_LOG;
    model->log_row += entry.kind == ENTRY_FRAME; /* on what comes after it */
    chosen(model);
    update_say(model, ROLE_GOOD,
               entry.kind == ENTRY_FRAME ? "Frame added; u undoes it" : "Frame changed");
}

void key_target(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->typed[0] = '\0';
    if (model->session->target > 0)
        text_append(model->typed, sizeof model->typed, "%d", model->session->target);
    model->mode = MODE_TARGET;
}

void key_target_type(Model *model, Effects *effects, int argument, uint32_t key)
{
    type(model, 3, (char)key);
}

void key_target_take(Model *model, Effects *effects, int argument, uint32_t key)
{
    Entry entry = {.kind = ENTRY_TARGET, .index = (int)strtol(model->typed, NULL, 10)};
    if (entry.index == model->session->target || update_enter(model, effects, &entry))
        model->mode = MODE_LOG;
}

void key_log_back(Model *model, Effects *effects, int argument, uint32_t key)
{
    size_t n = strlen(model->typed);
    if (n > 0)
        model->typed[n - 1] = '\0';
}

void key_log_cancel(Model *model, Effects *effects, int argument, uint32_t key)
{
    model->mode = MODE_LOG;
}
