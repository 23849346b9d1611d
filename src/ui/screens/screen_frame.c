/* screen_frame.c - what every screen has around it: the title line, the rule with its message, the
 * footer; and the yes-or-no question above it. */
#include <string.h>

#include "base/text.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

void screen_frame_top(Canvas *canvas, const char *title, const char *right)
{
    int width = canvas_width(right);
    canvas_text_right(canvas, 0, canvas->columns - 1, width, ROLE_DIM, right);
    canvas_text(canvas, 0, 1, canvas->columns - width - 4, ROLE_TITLE, title);
}

/* In the compact view: game, frame, score, lane. */
static void frame_compact(const Model *model, Canvas *canvas)
{
    const Session *session = model->session;
    char lane[48] = "", words[96] = "";
    text_append(lane, sizeof lane, "lane %d %c", session->pair[model->lane],
                model->lane == SIDE_LEFT ? 'L' : 'R');
    int width = canvas_width(lane);
    canvas_text_right(canvas, 0, canvas->columns - 1, width, ROLE_ACCENT, lane);
    if (session->warm_up)
        text_append(words, sizeof words, "warm-up");
    else
        text_append(words, sizeof words, "game %d frame %d%s  ", session->game, session->frame,
                    session->game_over ? " over" : "");
    screen_score(model, SCORE_SHORT, words + strlen(words), sizeof words - strlen(words));
    canvas_text(canvas, 0, 1, canvas->columns - width - 3, ROLE_TITLE, words);
}

void screen_frame_event(const Model *model, Canvas *canvas)
{
    if (canvas->columns < SCREEN_COLUMNS_MIN) {
        frame_compact(model, canvas);
        return;
    }
    const Session *session = model->session;
    char right[128] = "", lane[48] = "", pattern[96] = "";
    if (session->warm_up)
        text_append(right, sizeof right, "warm-up");
    else
        text_append(right, sizeof right, "game %d/%d  frame %d", session->game,
                    session->event.games, session->frame);
    if (session->game_over)
        text_append(right, sizeof right, " over");
    else if (session->frame == 10 && session->ball_of_tenth > 1)
        text_append(right, sizeof right, ", rack %d", session->ball_of_tenth);
    text_append(right, sizeof right, "  %s  ",
                model->read_only                 ? "follows, read-only"
                : event_is_demo(&session->event) ? "demo"
                : session->event.certified       ? "scored"
                                                 : "practice");
    text_append(lane, sizeof lane, "lane %d %s", session->pair[model->lane],
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

/* Up to half of the window, down to `row`, over whatever is there. */
static int draw_lines(Canvas *canvas, int row, int width, Role role, const char *text)
{
    int lines = canvas_lines(width, text), most = canvas->rows / 2;
    int first = row + 1 - (lines < most ? lines : most);
    for (int i = first; i <= row; i++)
        canvas_hline(canvas, i, 0, canvas->columns, ' ', ROLE_PLAIN);
    canvas_wrap(canvas, first, 1, width, row + 1 - first, role, text);
    return width;
}

/* What is said on the rule; what is longer takes lines above it too. */
static int draw_on_rule(Canvas *canvas, int rule, int width, Role role, const char *text)
{
    if (canvas_width(text) + 2 > width)
        return draw_lines(canvas, rule, width, role, text);
    return canvas_print(canvas, rule, 1, width, role, " %s ", text);
}

int screen_frame_bottom(const Model *model, Canvas *canvas, int between, int width, Role role,
                        const char *hint)
{
    int rule = canvas->rows - 2 - between, used = 0;
    canvas_hline(canvas, rule, 0, canvas->columns, model->glyphs->rule, ROLE_DIM);
    char unsaved[sizeof model->unsaved_text + 16] = "";
    text_append(unsaved, sizeof unsaved, "NOT SAVED: %s", model->unsaved_text);
    if (model->unsaved)
        used = draw_on_rule(canvas, rule, width, ROLE_BAD, unsaved);
    else if (model->message[0])
        used = draw_on_rule(canvas, rule, width, model->message_role, model->message);
    else if (hint[0])
        used = canvas_print(canvas, rule, 1, width, role, " %s ", hint);
    unsigned where = model_where(model);
    if (!model->unsaved && !model->message[0]) {
        int column = used > 0 ? used + 2 : 1;
        int end = key_above(model->keys, where, canvas, rule, column, 1 + width);
        used = end > column ? end - 1 : used;
    }
    /* on the lane the line above lists the hits */
    key_footer(model->keys, where, where == IN_LANE ? GROUP_HIT : -1, canvas);
    return used;
}

void screen_prompt(const Model *model, char *out, size_t size)
{
    text_copy(out, size, "");
    switch (model->prompt) {
    case PROMPT_NEXT_GAME:
        text_append(out, size,
                    model->session->warm_up ? "End the warm-up and start game 1?"
                                            : "Start the next game?");
        break;
    case PROMPT_QUIT_TYPING:
        text_append(out, size, "A shot is half typed. Drop it and quit?");
        break;
    case PROMPT_QUIT_UNSAVED:
        text_append(out, size, "Not everything is saved. Quit anyway?");
        break;
    case PROMPT_AGAIN:
        text_append(out, size, "Begin the demo again? What you logged in it is dropped.");
        break;
    case PROMPT_CLOSED_GAME:
        text_append(out, size, "That game is finished. Change it?");
        break;
    case PROMPT_REMOVE_BALL:
        text_append(out, size, "Take %s out of the bag?",
                    model->session->bag.balls[model->ball].name);
        break;
    }
}

void screen_frame_prompt(const Model *model, Canvas *canvas)
{
    char text[160];
    int row = canvas->rows - 2;
    screen_prompt(model, text, sizeof text);
    if (canvas_width(text) > canvas->columns - 2) {
        draw_lines(canvas, row, canvas->columns - 2, ROLE_ACCENT, text);
        return;
    }
    canvas_hline(canvas, row, 0, canvas->columns, ' ', ROLE_PLAIN);
    canvas_text(canvas, row, 1, canvas->columns - 2, ROLE_ACCENT, text);
}
