/* screen_help.c - two pages: every key with its sentence, from the table of actions, and the
 * cautions; and what the words mean. */
#include <stdio.h>

#include "core/advice/rules.h"
#include "core/words/glossary.h"
#include "ui/draw/flow.h"
#include "ui/input/commands.h"
#include "ui/screens/screens.h"

enum { WORD_COLUMNS = 15, ABOVE = 2, BELOW = 4 };

static const char STANDING[] = "The event's rules and a licensed or certified coach, pro shop or "
                               "physician come first.";

/* The same where two lines hold no more. */
static const char STANDING_SHORT[] =
    "Rules and a certified coach, pro shop or physician come first.";

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

static void flow_words(Flow *flow)
{
    for (int i = 0; i < WORD_COUNT; i++) {
        int row = flow_row(flow);
        if (row >= 0)
            canvas_text(flow->canvas, row, 1, WORD_COLUMNS - 1, ROLE_KEY, WORDS[i].word);
        flow_sentence(flow, 1 + WORD_COLUMNS, ROLE_PLAIN, WORDS[i].means);
    }
}

static void flow_help(Flow *flow, const KeyTable *keys)
{
    flow_keys(flow, keys, GROUP_COUNT);
    flow_line(flow, ROLE_PLAIN, "");
    flow_line(flow, ROLE_TITLE, "Take care");
    for (int i = CAUTION_NONE + 1; i < CAUTION_COUNT; i++)
        flow_sentence(flow, 3, ROLE_WARN, CAUTION_WORDS[i]);
    flow_line(flow, ROLE_PLAIN, "");
    flow_line(flow, ROLE_TITLE, "How to read the lane screen");
    for (size_t i = 0; i < sizeof READING / sizeof *READING; i++)
        flow_sentence(flow, 3, ROLE_PLAIN, READING[i]);
}

static void flow_page(Flow *flow, const KeyTable *keys, bool words)
{
    if (words)
        flow_words(flow);
    else
        flow_help(flow, keys);
}

int screen_help_lines(const Model *model, bool words)
{
    Flow flow = {.columns = model->columns};
    flow_page(&flow, model->keys, words);
    return flow.line;
}

int screen_help_top(const Model *model, unsigned where)
{
    int group = where & IN_READ                          ? GROUP_READ
                : where & IN_RELEASE                     ? GROUP_RELEASE
                : where & (IN_LEAVE | IN_SPARE)          ? GROUP_LEAVE
                : where & IN_SPARES                      ? GROUP_SPARES
                : where & IN_PICK                        ? GROUP_PICK
                : where & (IN_BAG | IN_KINDS)            ? GROUP_BAG
                : where & IN_FORM                        ? GROUP_FORM
                : where & IN_BLOCK                       ? GROUP_LOOK
                : where & IN_SUPPOSE                     ? GROUP_SUPPOSE
                : where & (IN_BOWL | IN_ROLL)            ? GROUP_BOWL
                : where & (IN_LOG | IN_TOLD | IN_TARGET) ? GROUP_LOG
                : where & IN_OIL                         ? GROUP_OIL
                                                         : GROUP_HIT;
    if (group == GROUP_HIT)
        return 0;
    Flow flow = {.columns = model->columns};
    flow_keys(&flow, model->keys, group);
    return flow.line + 1; /* past the empty line before its title */
}

void screen_help(const Model *model, Canvas *canvas)
{
    bool words = model->mode == MODE_WORDS;
    int room = screen_help_room(canvas->rows), lines = screen_help_lines(model, words);
    int top = model->help_top, last = canvas->rows - 1;
    char where[32];
    if (top > lines - room)
        top = lines - room;
    if (top < 0)
        top = 0;
    Flow flow = {
        .canvas = canvas, .columns = canvas->columns, .top = top, .row = ABOVE, .row_count = room};
    flow_page(&flow, model->keys, words);
    int shown = top + room < lines ? top + room : lines;
    snprintf(where, sizeof where, "lines %3d-%3d of %3d", top + 1, shown, lines);
    screen_frame_top(canvas, words ? "Words" : "Keys", where);
    screen_frame_bottom(model, canvas, 2, canvas->columns - 2, ROLE_PLAIN, "");
    canvas_wrap(canvas, last - 2, 1, canvas->columns - 2, 2, ROLE_WARN,
                canvas->columns < SCREEN_COLUMNS_MIN ? STANDING_SHORT : STANDING);
}
