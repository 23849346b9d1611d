/* test_resize.c - the real program in a terminal that changes its size: every cell is what a fresh
 * screen of that size holds, whatever the terminal did to what stood there.
 *
 * What it should be is drawn here by the same view, of the same event and advice; that the terminal
 * holds it, cell by cell, is up to the program. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>

#include "base/rng.h"
#include "core/line/first.h"
#include "store/files.h"
#include "ui/model.h"
#include "ui/view.h"

enum { SIZES = 200 };

static Session session;
static RuleSet rules;
static Model model;
static AdviceJob *job;

/* The demo once its first advice is ready. */
static int set_up(void **state)
{
    (void)state;
    static EventInfo event;
    static Bag bag;
    static Pattern pattern;
    static Theme theme;
    Error error = {0};
    if (!files_event("demo", &event, &error) || !files_bag(event.bag, &bag, &error) ||
        !files_pattern(event.pattern, &pattern, &error) || !files_rules("coach", &rules, &error))
        return -1;
    Oil sheet, oil;
    oil_lay(&pattern, &sheet);
    oil_for_hand(&sheet, bag.bowler.hand, &oil);
    Plan first = first_plan(&bag, &oil);
    session_begin(&session, &event, &bag, &pattern, &first);
    model_init(&model, &session, &rules, &theme, 1, &GLYPHS_UTF8);
    job = advice_job_new();
    if (!job)
        return -1;
    AdviceInput input = model_advice_input(&model);
    advice_begin(job, &input);
    while (!advice_step(job))
        continue;
    Roll roll;
    const Advice *advice = advice_result(job);
    advice_roll(advice, &session.bag, &advice->adjustments[0].plan, 0.0, &roll);
    update(&model, (Msg){.kind = MSG_ADVICE, .advice = advice, .first_roll = &roll});
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    advice_job_free(job);
    return 0;
}

/* How the terminal shows a role on a ground, learnt where it is first seen. */
typedef struct Look {
    bool known;
    VTermScreenCellAttrs attrs;
    VTermColor fg, bg;
} Look;
static Look looks[ROLE_COUNT][ROLE_COUNT];

static bool same_attrs(VTermScreenCellAttrs a, VTermScreenCellAttrs b)
{
    return a.bold == b.bold && a.underline == b.underline && a.reverse == b.reverse;
}

/* Of a blank only what can be seen of it counts. */
static bool same_look(const Look *look, const VTermScreenCell *cell, bool blank)
{
    if (!vterm_color_is_equal(&look->bg, &cell->bg) || look->attrs.reverse != cell->attrs.reverse ||
        look->attrs.underline != cell->attrs.underline)
        return false;
    return blank ||
           (same_attrs(look->attrs, cell->attrs) && vterm_color_is_equal(&look->fg, &cell->fg));
}

static char difference[96]; /* what kept the screen from being equal when it was last compared */

static bool differs(int row, int column, const char *in, uint32_t is, uint32_t wanted)
{
    snprintf(difference, sizeof difference, "row %d column %d: its %s is %x, not %x", row, column,
             in, is, wanted);
    return false;
}

static bool holds(Pty *pty, const Canvas *canvas, bool learn)
{
    for (int row = 0; row < canvas->rows; row++)
        for (int column = 0; column < canvas->columns; column++) {
            const Cell *wanted = canvas_at(canvas, row, column);
            Look *look = &looks[wanted->role][wanted->ground];
            VTermScreenCell cell;
            assert_true(
                vterm_screen_get_cell(pty->screen, (VTermPos){.row = row, .col = column}, &cell));
            uint32_t glyph = cell.chars[0] ? cell.chars[0] : ' ';
            bool blank = wanted->glyph == ' ';
            if (glyph != wanted->glyph)
                return differs(row, column, "character", glyph, wanted->glyph);
            if (look->known && !same_look(look, &cell, blank))
                return differs(row, column, "look", wanted->role, wanted->ground);
            if (learn && !blank)
                *look = (Look){true, cell.attrs, cell.fg, cell.bg};
        }
    return true;
}

static bool is_drawn(Pty *pty, const void *canvas) { return holds(pty, canvas, false); }

static Canvas drawn(int columns, int rows)
{
    Canvas canvas;
    assert_true(canvas_init(&canvas, columns, rows));
    update(&model, (Msg){.kind = MSG_SIZE, .columns = columns, .rows = rows});
    view_draw(&model, &canvas);
    return canvas;
}

static void expect_drawn(Pty *pty)
{
    char what[64];
    Canvas canvas = drawn(pty->columns, pty->rows);
    snprintf(what, sizeof what, "a fresh screen of %dx%d", pty->columns, pty->rows);
    pty_expect_that(pty, is_drawn, &canvas, what, difference);
    holds(pty, &canvas, true);
    canvas_fini(&canvas);
}

static int between(Rng *rng, int low, int high)
{
    return low + (int)(rng_uniform(rng) * (high - low + 1));
}

static void every_size_is_a_fresh_screen(void **state)
{
    (void)state;
    Rng rng = rng_seed(8024);
    Pty pty;
    pty_start(&pty, 100, 30, NULL);
    expect_drawn(&pty);
    for (int i = 0; i < SIZES; i++) {
        int columns = pty.columns, rows = pty.rows;
        if (i % 4 == 0) { /* away and back before anyone can have drawn */
            pty_resize(&pty, columns - between(&rng, 1, 15), rows - between(&rng, 1, 8));
            pty_resize(&pty, columns, rows);
        } else if (i % 10 == 1) { /* too small for any screen */
            pty_resize(&pty, between(&rng, 16, 79), between(&rng, 9, 30));
        } else {
            pty_resize(&pty, between(&rng, 80, 140), between(&rng, 24, 50));
        }
        expect_drawn(&pty);
    }
    pty_quiet(&pty);
    expect_drawn(&pty);
    pty_type(&pty, "q");
    pty_wait(&pty);
    pty_expect_restored(&pty);
    pty_end(&pty);
}

/* A size that no memory holds, said to the program alone, then a usual one. */
static void claim_size(Pty *pty, unsigned short columns, unsigned short rows)
{
    struct winsize size = {.ws_col = columns, .ws_row = rows};
    assert_int_equal(ioctl(pty->master, TIOCSWINSZ, &size), 0);
    kill(pty->pid, SIGWINCH);
    pty_quiet(pty);
}

static void sizes_beyond_reason(void **state)
{
    (void)state;
    static const unsigned short CLAIMS[][2] = {
        {65535, 24}, {80, 65535}, {65535, 65535}, {32768, 1}};
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect(&pty, "q quit");
    for (size_t i = 0; i < sizeof CLAIMS / sizeof *CLAIMS; i++)
        claim_size(&pty, CLAIMS[i][0], CLAIMS[i][1]);
    claim_size(&pty, 80, 24);
    pty_type(&pty, "?");
    pty_expect(&pty, "Log a shot, first key");
    pty_type(&pty, "qq");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    assert_int_equal(WEXITSTATUS(pty.status), 0);
    pty_end(&pty);
}

static void starts_beyond_reason(void **state)
{
    (void)state;
    static const char *const SETTINGS[] = {"COLUMNS=65535", "LINES=65535", NULL};
    Pty pty;
    pty_start(&pty, 80, 24, SETTINGS);
    pty_expect(&pty, "q quit");
    pty_type(&pty, "q");
    pty_wait(&pty);
    assert_true(WIFEXITED(pty.status));
    pty_end(&pty);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sizes_beyond_reason),
        cmocka_unit_test(starts_beyond_reason),
        cmocka_unit_test(every_size_is_a_fresh_screen),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
