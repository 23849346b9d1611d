/* runtime.c - the loop between terminal, model and engine. */
#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "core/line/first.h"
#include "ui/draw/canvas.h"
#include "ui/model.h"
#include "ui/term/term.h"
#include "ui/ui.h"
#include "ui/view.h"

enum { KEYS_A_TURN = 32 };

typedef struct Runtime {
    UiHost *host;
    Model *model;
    Canvas canvas;
    /* What is computed a slice at a time, and whether slices are left. */
    FirstJob first; /* the line to start with */
    AdviceJob *advice;
    AdviceInput input; /* of the advice */
    SpareJob *spare;
    ArsenalJob *arsenal; /* created when first shown */
    BlockJob *block;
    bool finding_first, advising, sorting_arsenal, blocking;
    int slots_ready;  /* of the advice, as last shown */
    long spare_asked; /* revision of the question the spare job works on; 0: none */
    int kept;         /* entries of the session handed over so far */
    bool draw, redraw, quit;
    bool no_room; /* for a screen of the terminal's size */
    Theme plain;
} Runtime;

static void send(Runtime *run, Msg msg);

/* Hands over each new entry once. If the disk refuses one, the keeper holds on to it and writes it
 * before the next, so success means everything is saved. */
static void keep(Runtime *run)
{
    Session *session = run->host->session;
    Error error = {0};
    bool ok = true;
    for (; run->kept < session->entry_count; run->kept++) {
        char news[ERROR_LINE_MAX] = "";
        if (run->host->keep)
            ok = run->host->keep(run->host->context, &session->entries[run->kept], news,
                                 sizeof news, &error);
        if (news[0])
            send(run, (Msg){.kind = MSG_NOTICE, .text = news});
    }
    send(run, (Msg){.kind = MSG_KEPT, .ok = ok, .text = error.text});
}

static void save_bag(Runtime *run)
{
    char where[200] = "", why[ERROR_LINE_MAX] = "";
    Error error = {0};
    bool ok =
        !run->host->save_bag || run->host->save_bag(run->host->context, &run->host->session->bag,
                                                    where, sizeof where, &error);
    text_append(why, sizeof why, "%s (%s)", error.text, error.file); /* a path may be long */
    send(run, (Msg){.kind = MSG_SAVED, .ok = ok, .text = ok ? where : why});
}

static void set_theme(Runtime *run)
{
    const Model *model = run->model;
    bool plain = term_no_colour() || model->theme_count == 0;
    term_theme(plain ? &run->plain : &model->themes[model->theme]);
    run->draw = true;
}

/* A choice the bowler couldn't see is not saved. */
static void keep_theme(Runtime *run)
{
    const UiHost *host = run->host;
    Error error = {0};
    if (!host->keep_theme || term_no_colour() || run->model->theme_count == 0)
        return;
    if (!host->keep_theme(host->context, &run->model->themes[run->model->theme], &error)) {
        char line[ERROR_LINE_MAX];
        error_line(&error, line, sizeof line);
        send(run, (Msg){.kind = MSG_NOTICE, .text = line});
    }
}

/* The screen is drawn before the first line is known, since that takes longest at the start. Until
 * then there is no advice, and the film shown is the sheet. */
static void begin_first(Runtime *run)
{
    run->first = first_begin(&run->host->session->bag, &run->model->shown.film);
    run->finding_first = true;
}

static void find_first(Runtime *run)
{
    run->finding_first = !first_step(&run->first);
    if (!run->finding_first)
        send(run, (Msg){.kind = MSG_FIRST, .plan = &run->first.plan});
}

static void advise(Runtime *run)
{
    run->input = model_advice_input(run->model);
    advice_begin(run->advice, &run->input);
    run->advising = true;
    run->slots_ready = 0;
}

static void begin_arsenal(Runtime *run)
{
    if (!run->arsenal && !(run->arsenal = arsenal_job_new())) {
        send(run, (Msg){.kind = MSG_NOTICE, .text = "not enough memory to look at the bag"});
        return;
    }
    ArsenalInput input = model_arsenal_input(run->model);
    arsenal_begin(run->arsenal, &input);
    run->sorting_arsenal = true;
    send(run, (Msg){.kind = MSG_ARSENAL, .arsenal = arsenal_result(run->arsenal)});
}

static void begin_block(Runtime *run)
{
    if (!run->block && !(run->block = block_job_new())) {
        send(run, (Msg){.kind = MSG_NOTICE, .text = "not enough memory to look ahead"});
        return;
    }
    BlockInput input = model_block_input(run->model);
    block_begin(run->block, &input);
    run->blocking = true;
    send(run, (Msg){.kind = MSG_BLOCK, .block = block_result(run->block)});
}

static void send(Runtime *run, Msg msg)
{
    Effects effects = update(run->model, msg);
    run->draw = run->draw || effects.draw;
    run->redraw = run->redraw || effects.redraw;
    run->quit = run->quit || effects.quit;
    if (effects.keep)
        keep(run);
    if (effects.save_bag)
        save_bag(run);
    if (effects.theme) {
        set_theme(run);
        keep_theme(run);
    }
    if (effects.advise)
        advise(run);
    if (effects.arsenal)
        begin_arsenal(run);
    if (effects.block)
        begin_block(run);
    if (effects.bell)
        term_bell();
}

static void find_advice(Runtime *run)
{
    run->advising = !advice_step(run->advice);
    const Advice *advice = advice_result(run->advice);
    int ready = 0;
    for (int i = 0; i < BAG_SLOTS; i++)
        ready += advice->slot[i].ready;
    if (!run->advising || ready != run->slots_ready) {
        run->slots_ready = ready;
        Msg msg = {.kind = MSG_ADVICE, .advice = advice};
        Roll roll;
        if (advice->done && advice->adjustment_count > 0) { /* with today's throw as estimated */
            advice_roll(run->advice, &advice->adjustments[0].plan, &roll);
            msg.first_roll = &roll;
        }
        send(run, msg);
    }
}

/* Two rolls, a fraction of a millisecond: done before the screen is drawn, so that a path doesn't
 * lag behind the feet it starts from. */
static void find_paths(Runtime *run)
{
    const Model *model = run->model;
    const Adjustment *first = model_adjustment(model, 0);
    Plan plan = model_plan(model);
    Roll roll, first_roll;
    bool on = model_roll(model, &plan, &roll);
    bool first_on = first && model_roll(model, &first->plan, &first_roll);
    send(run, (Msg){.kind = MSG_PATHS,
                    .roll = on ? &roll : NULL,
                    .first_roll = first_on ? &first_roll : NULL,
                    .revision = model->asked.paths});
}

static bool spare_waits(const Runtime *run)
{
    const Model *model = run->model;
    return model->mode == MODE_SPARES && model->spare_pins != 0 && !model_spare_current(model);
}

static void find_spare(Runtime *run)
{
    const Model *model = run->model;
    if (run->spare_asked != model->asked.spare) {
        SpareInput input = model_spare_input(model);
        spare_begin(run->spare, &input);
        run->spare_asked = model->asked.spare;
    }
    if (!spare_step(run->spare))
        return;
    const Spare *spare = spare_result(run->spare);
    Roll roll;
    if (spare->found)
        model_roll_spare(model, spare->take ? &spare->sure : &spare->line, &roll);
    send(run, (Msg){.kind = MSG_SPARE,
                    .spare = spare,
                    .roll = spare->found ? &roll : NULL,
                    .revision = run->spare_asked});
}

/* Whether the bag's or the block's screen is shown and waits for slices. */
static bool looking(const Runtime *run)
{
    return (run->sorting_arsenal && model_at_bag(run->model)) ||
           (run->blocking && run->model->mode == MODE_BLOCK);
}

static void look(Runtime *run)
{
    if (run->sorting_arsenal && model_at_bag(run->model)) {
        run->sorting_arsenal = !arsenal_step(run->arsenal);
        send(run, (Msg){.kind = MSG_ARSENAL, .arsenal = arsenal_result(run->arsenal)});
    } else {
        run->blocking = !block_step(run->block);
        send(run, (Msg){.kind = MSG_BLOCK, .block = block_result(run->block)});
    }
}

static bool fit(Runtime *run)
{
    int columns, rows;
    term_size(&columns, &rows);
    if (columns != run->canvas.columns || rows != run->canvas.rows || !run->canvas.cells) {
        canvas_fini(&run->canvas);
        if (!canvas_init(&run->canvas, columns, rows)) {
            run->no_room = true;
            return false;
        }
    }
    send(run, (Msg){.kind = MSG_SIZE, .columns = run->canvas.columns, .rows = run->canvas.rows});
    return true;
}

static void draw(Runtime *run)
{
    view_draw(run->model, &run->canvas);
    term_draw(&run->canvas, run->redraw);
    run->draw = run->redraw = false;
}

/* Takes the waiting keys, up to a limit: a paste or a held key must not keep the screen from being
 * drawn. True: there may be more. */
static bool take_keys(Runtime *run)
{
    for (int i = 0; i < KEYS_A_TURN && !run->quit && !term_ending(); i++) {
        uint32_t key = term_key();
        if (key == PRESS_NONE)
            return false;
        if (key == PRESS_PASTED)
            send(run, (Msg){.kind = MSG_NOTICE, .text = "Pasted text was ignored"});
        else
            send(run, (Msg){.kind = MSG_KEY, .key = key});
    }
    return true;
}

static void slice(Runtime *run)
{
    if (run->finding_first)
        find_first(run);
    else if (spare_waits(run))
        find_spare(run);
    else if (run->advising)
        find_advice(run);
    else if (looking(run))
        look(run);
}

/* Keys wait for the first line: what is logged must not depend on how soon that is found. */
static void loop(Runtime *run)
{
    while (!term_ending()) {
        bool more = !run->finding_first && take_keys(run);
        if (term_resized() && !fit(run))
            return;
        if (run->quit)
            return;
        if (!model_paths_current(run->model))
            find_paths(run);
        if (run->draw)
            draw(run);
        bool busy = run->finding_first || run->advising || spare_waits(run) || looking(run);
        term_wait(more || busy ? 0 : -1);
        slice(run);
    }
}

static bool fail(const char *why)
{
    fprintf(stderr, "settee: %s\n", why);
    return false;
}

bool ui_ready(void)
{
    char why[160];
    return term_there(why, sizeof why) || fail(why);
}

/* Allocates memory and starts the terminal; false after saying why not. */
static bool begin(Runtime *run)
{
    char why[160];
    UiHost *host = run->host;
    run->model = malloc(sizeof *run->model);
    run->advice = advice_job_new();
    run->spare = spare_job_new();
    if (!run->model || !run->advice || !run->spare)
        return fail("not enough memory");
    if (!term_init(why, sizeof why))
        return fail(why);
    model_init(run->model, host->session, host->rules, host->themes, host->theme_count,
               term_utf8() ? &GLYPHS_UTF8 : &GLYPHS_ASCII);
    return true;
}

static void end(Runtime *run)
{
    term_fini();
    canvas_fini(&run->canvas);
    advice_job_free(run->advice);
    spare_job_free(run->spare);
    arsenal_job_free(run->arsenal);
    block_job_free(run->block);
    free(run->model);
}

int ui_run(UiHost *host)
{
    Runtime run = {.host = host, .kept = host->session->entry_count, .plain = theme_plain()};
    bool begun = begin(&run);
    if (begun) {
        set_theme(&run);
        if (host->notice && host->notice[0])
            send(&run, (Msg){.kind = MSG_NOTICE, .text = host->notice});
        if (host->session->first.slot == 0)
            begin_first(&run);
        else
            advise(&run);
        if (fit(&run))
            loop(&run);
    }
    end(&run);
    if (run.no_room)
        return fail("not enough memory for a screen of this size"), 1;
    return begun ? 0 : 1;
}

void ui_end(void) { term_release(); }
