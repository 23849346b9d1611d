/* screen_help.c - two pages: every key with its sentence, from the table of actions, and the
 * cautions; and what the words mean. */
#include <stdio.h>

#include "core/advice/rules.h"
#include "core/words/glossary.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

enum { KEY_COLUMNS = 9, NAME_COLUMNS = 12, WORD_COLUMNS = 15, ABOVE = 2, BELOW = 4 };

static const char STANDING[] = "The event's rules and a licensed or certified coach, pro shop or "
                               "physician come first.";

static const char *const READING[] = {
    "Boards count from your own side: 1 is at your edge. In means away from your edge, out toward "
    "it. Feet is the board you stand on, aim your target: the board you cross at the arrows.",
    "Beside each ball: where it makes its move, its entry angle and its chance of the pocket, on "
    "that ball's best line from about where you stand. 77/39%: 77 if the lane is just as estimated "
    "(at "
    "first, as on the sheet), 39 as sure as we are of it.",
    "Area is how far you can miss your target, in and out, and still hit the pocket. In the list "
    "of "
    "shots at 80 columns, ok is a read on time.",
    "An answer that is dim, or marked with dots, is from before your last key and is being "
    "calculated again.",
    "Chances are forecasts from a model of the lane and from what you logged. Sure: the rules and "
    "the numbers agree, the lane is well known and the answer leads clearly. Fairly sure: they "
    "agree, and one of the other two. Otherwise a guess. Hold is an answer too."};

int screen_help_room(int rows) { return rows - ABOVE - BELOW > 1 ? rows - ABOVE - BELOW : 1; }

/* Goes through the lines of the help; draws those from `top` on when there is a canvas. */
typedef struct Flow {
    Canvas *canvas;
    int columns, line, top, room;
    int stop_at; /* group before which to stop, -1: none */
} Flow;

static int flow_row(const Flow *flow)
{
    int row = flow->line - flow->top;
    return flow->canvas && row >= 0 && row < flow->room ? row + ABOVE : -1;
}

static void flow_line(Flow *flow, Role role, const char *text)
{
    int row = flow_row(flow);
    if (row >= 0)
        canvas_text(flow->canvas, row, 1, flow->columns - 2, role, text);
    flow->line++;
}

static void flow_command(Flow *flow, const CommandRow *command)
{
    int row = flow_row(flow), column = 3 + KEY_COLUMNS;
    if (row >= 0) {
        canvas_text(flow->canvas, row, 3, KEY_COLUMNS, ROLE_KEY, command->shown);
        canvas_text(flow->canvas, row, column, NAME_COLUMNS, ROLE_DIM, command->name);
        column += NAME_COLUMNS;
        canvas_text(flow->canvas, row, column, flow->columns - column - 1, ROLE_PLAIN,
                    command->help);
    }
    flow->line++;
}

/* A sentence from `left` on, wrapped. */
static void flow_sentence(Flow *flow, int left, Role role, const char *text)
{
    enum { LINES_MAX = 8 };
    int width = flow->columns - left - 1;
    Canvas probe;
    if (width < 1 || !canvas_init(&probe, flow->columns, LINES_MAX))
        return;
    int lines = canvas_wrap(&probe, 0, 0, width, LINES_MAX, role, text);
    for (int i = 0; i < lines; i++, flow->line++) {
        int row = flow_row(flow);
        for (int c = 0; row >= 0 && c < width; c++) {
            const Cell *cell = canvas_at(&probe, i, c);
            if (cell && cell->glyph > ' ')
                canvas_put(flow->canvas, row, c + left, cell->glyph, role);
        }
    }
    canvas_fini(&probe);
}

static void flow_words(Flow *flow)
{
    for (int i = 0; i < WORD_COUNT; i++) {
        int row = flow_row(flow);
        if (row >= 0)
            canvas_text(flow->canvas, row, 1, WORD_COLUMNS - 1, ROLE_KEY, WORDS[i].word);
        flow_sentence(flow, 1 + WORD_COLUMNS, ROLE_PLAIN, WORDS[i].means);
    }
}

static void flow_keys(Flow *flow)
{
    for (int group = 0; group < GROUP_COUNT && group != flow->stop_at; group++) {
        if (group > 0)
            flow_line(flow, ROLE_PLAIN, "");
        flow_line(flow, ROLE_TITLE, GROUP_TITLES[group]);
        for (int i = 0; i < COMMAND_COUNT; i++)
            if ((int)COMMAND_ROWS[i].group == group)
                flow_command(flow, &COMMAND_ROWS[i]);
    }
    if (flow->stop_at >= 0)
        return;
    flow_line(flow, ROLE_PLAIN, "");
    flow_line(flow, ROLE_TITLE, "Take care");
    for (int i = CAUTION_NONE + 1; i < CAUTION_COUNT; i++)
        flow_sentence(flow, 3, ROLE_WARN, CAUTION_WORDS[i]);
    flow_line(flow, ROLE_PLAIN, "");
    flow_line(flow, ROLE_TITLE, "How to read the lane screen");
    for (size_t i = 0; i < sizeof READING / sizeof *READING; i++)
        flow_sentence(flow, 3, ROLE_PLAIN, READING[i]);
}

static void flow_page(Flow *flow, bool words)
{
    if (words)
        flow_words(flow);
    else
        flow_keys(flow);
}

int screen_help_lines(int columns, bool words)
{
    Flow flow = {.columns = columns, .stop_at = -1};
    flow_page(&flow, words);
    return flow.line;
}

int screen_help_top(int columns, unsigned where)
{
    int group = where & IN_READ                 ? GROUP_READ
                : where & IN_RELEASE            ? GROUP_RELEASE
                : where & (IN_LEAVE | IN_SPARE) ? GROUP_LEAVE
                : where & IN_SPARES             ? GROUP_SPARES
                : where & IN_PICK               ? GROUP_PICK
                : where & IN_BAG                ? GROUP_BAG
                : where & IN_FORM               ? GROUP_FORM
                : where & IN_BLOCK              ? GROUP_LOOK
                                                : GROUP_HIT;
    if (group == GROUP_HIT)
        return 0;
    Flow flow = {.columns = columns, .stop_at = group};
    flow_keys(&flow);
    return flow.line + 1; /* past the empty line before its title */
}

void screen_help(const Model *model, Canvas *canvas)
{
    bool words = model->mode == MODE_WORDS;
    int room = screen_help_room(canvas->rows), lines = screen_help_lines(canvas->columns, words);
    int top = model->help_top, last = canvas->rows - 1;
    char where[32];
    if (top > lines - room)
        top = lines - room;
    if (top < 0)
        top = 0;
    Flow flow = {
        .canvas = canvas, .columns = canvas->columns, .top = top, .room = room, .stop_at = -1};
    flow_page(&flow, words);
    int shown = top + room < lines ? top + room : lines;
    snprintf(where, sizeof where, "lines %3d-%3d of %3d", top + 1, shown, lines);
    screen_frame_top(canvas, words ? "Words" : "Keys", where);
    screen_frame_bottom(model, canvas, 2, canvas->columns - 2, ROLE_PLAIN, "");
    canvas_wrap(canvas, last - 2, 1, canvas->columns - 2, 2, ROLE_WARN, STANDING);
}
