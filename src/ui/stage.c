/* stage.c - the loop between the terminal and the stage that has the screen. */
#include "ui/stage.h"

#include "ui/input/keys.h"
#include "ui/term/term.h"

enum { KEYS_A_TURN = 32 };

/* The theme in use; NULL: the terminal shows no colours, or there is none. */
static const Theme *theme_of(const StageLook *look)
{
    return term_no_colour() || look->theme_count == 0 ? NULL : &look->themes[look->theme];
}

static void show_theme(Stage *stage)
{
    Theme plain = theme_plain();
    const Theme *theme = theme_of(stage->look);
    term_theme(theme ? theme : &plain);
    stage->draw = true;
}

/* A choice the bowler can't see is not saved, and they hear why they can't. */
static void keep_theme(Stage *stage)
{
    const StageLook *look = stage->look;
    const Theme *theme = theme_of(look);
    Error error = {0};
    if (term_no_colour())
        stage->kind->notice(stage, "No colours are shown: NO_COLOR is set");
    if (!theme || !look->keep_theme || look->keep_theme(look->context, theme, &error))
        return;
    char line[ERROR_LINE_MAX];
    error_line(&error, line, sizeof line);
    stage->kind->notice(stage, line);
}

/* Makes the canvas as large as the terminal; false: there is no memory for it. */
static bool fit(Stage *stage, Canvas *canvas)
{
    int columns, rows;
    term_size(&columns, &rows);
    if (columns != canvas->columns || rows != canvas->rows || !canvas->cells) {
        canvas_fini(canvas);
        if (!canvas_init(canvas, columns, rows))
            return false;
    }
    stage->kind->size(stage, canvas->columns, canvas->rows);
    return true;
}

static void draw(Stage *stage, Canvas *canvas)
{
    canvas_erase(canvas);
    canvas->ascii = stage->look->glyphs->ascii;
    stage->kind->draw(stage, canvas);
    term_draw(canvas, stage->all);
    stage->draw = stage->all = false;
}

/* Takes the waiting keys, up to a limit: a paste or a held key must not keep the screen from being
 * drawn. True: there may be more. */
static bool take_keys(Stage *stage)
{
    for (int i = 0; i < KEYS_A_TURN && !stage->end && !term_ending(); i++) {
        uint32_t key = term_key();
        if (key == PRESS_NONE)
            return false;
        if (key == PRESS_PASTED)
            stage->kind->notice(stage, "Pasted text was ignored");
        else
            stage->kind->key(stage, key);
        if (stage->bell)
            term_bell();
        stage->bell = false;
    }
    return true;
}

static void keep_motion(Stage *stage)
{
    const StageLook *look = stage->look;
    Error error = {0};
    if (!look->keep_motion || look->keep_motion(look->context, look->still, &error))
        return;
    char line[ERROR_LINE_MAX];
    error_line(&error, line, sizeof line);
    stage->kind->notice(stage, line);
}

/* What of the look the stage has changed is shown and saved; `seen` is how it was. */
static void look_again(Stage *stage, StageLook *seen)
{
    bool theme = stage->look->theme != seen->theme, still = stage->look->still != seen->still;
    *seen = *stage->look;
    if (theme) {
        show_theme(stage);
        keep_theme(stage);
    }
    if (still)
        keep_motion(stage);
}

/* How long to wait for a key: not beyond the next tick. `ticked`: when the last one was; it starts
 * when the stage asks for the first. */
static int patience(const Stage *stage, long *ticked)
{
    if (stage->tick_ms <= 0) {
        *ticked = 0;
        return -1;
    }
    long now = term_clock_ms();
    *ticked = *ticked ? *ticked : now;
    long left = *ticked + stage->tick_ms - now;
    return left > 0 ? (int)left : 0;
}

static void tick(Stage *stage, long *ticked)
{
    long now = *ticked ? term_clock_ms() : 0;
    if (now - *ticked < stage->tick_ms || stage->tick_ms <= 0 || !*ticked)
        return;
    stage->kind->tick(stage, (int)(now - *ticked));
    *ticked = now;
}

StageEnd stage_run(Stage *stage, Error *error)
{
    Canvas canvas = {0};
    StageLook seen = *stage->look;
    long ticked = 0;
    show_theme(stage);
    bool room = fit(stage, &canvas);
    while (room && !stage->end && !term_ending()) {
        bool more = !stage->deaf && take_keys(stage);
        look_again(stage, &seen);
        if (term_resized() && !(room = fit(stage, &canvas)))
            break;
        if (stage->end)
            break;
        if (stage->draw)
            draw(stage, &canvas);
        int wait = patience(stage, &ticked);
        term_wait(more || stage->busy ? 0 : wait);
        tick(stage, &ticked);
        if (stage->busy)
            stage->kind->step(stage);
    }
    canvas_fini(&canvas);
    if (!room)
        return error_set(error, "not enough memory for a screen of this size"), STAGE_FAILED;
    return stage->end ? STAGE_OVER : STAGE_STOPPED;
}

bool stage_ready(Error *error)
{
    char why[160];
    return term_there(why, sizeof why) || error_set(error, "%s", why);
}

bool stage_open(StageLook *look, Error *error)
{
    char why[160];
    if (!term_init(why, sizeof why))
        return error_set(error, "%s", why);
    look->glyphs = term_utf8() ? &GLYPHS_UTF8 : &GLYPHS_ASCII;
    look->still_fixed = term_still();
    look->still = look->still || look->still_fixed;
    return true;
}

void stage_close(void) { term_fini(); }
void stage_release(void) { term_release(); }
