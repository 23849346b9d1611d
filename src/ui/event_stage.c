/* event_stage.c - an event as a stage: its model, and what is computed for it slice by slice. */
#include <stdlib.h>

#include "base/text.h"
#include "core/line/first.h"
#include "ui/draw/rolling.h"
#include "ui/event_stage.h"
#include "ui/input/bound.h"
#include "ui/view.h"

typedef struct EventStage {
    Stage stage;
    UiHost *host;
    Model *model;
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
    EventAsks asks;   /* and not told yet */
    int kept;         /* entries of the session handed over so far */
    Bound bound;      /* the keys, if some are the bowler's own */
} EventStage;

static void send(EventStage *event, Msg msg);

/* Hands over each new entry once. If the disk refuses one, the keeper holds on to it and writes it
 * before the next, so success means everything is saved. */
static void keep(EventStage *event)
{
    Session *session = event->host->session;
    Error error = {0};
    bool ok = true;
    for (; event->kept < session->entry_count; event->kept++) {
        char news[ERROR_LINE_MAX] = "";
        if (event->host->keep)
            ok = event->host->keep(event->host->context, &session->entries[event->kept], news,
                                   sizeof news, &error);
        if (news[0])
            send(event, (Msg){.kind = MSG_NOTICE, .text = news});
    }
    send(event, (Msg){.kind = MSG_KEPT, .ok = ok, .text = error.text});
}

static void save_bag(EventStage *event)
{
    char where[200] = "", why[ERROR_LINE_MAX] = "";
    Error error = {0};
    bool ok = !event->host->save_bag ||
              event->host->save_bag(event->host->context, &event->host->session->bag, where,
                                    sizeof where, &error);
    text_append(why, sizeof why, "%s (%s)", error.text, error.file); /* a path may be long */
    send(event, (Msg){.kind = MSG_SAVED, .ok = ok, .text = ok ? where : why});
}

/* The screen is drawn before the first line is known, since that takes longest at the start. Until
 * then there is no advice, and the film shown is the sheet. */
static void begin_first(EventStage *event)
{
    event->first = first_begin(&event->host->session->bag, &event->model->shown.film);
    event->finding_first = true;
}

static void find_first(EventStage *event)
{
    event->finding_first = !first_step(&event->first);
    if (!event->finding_first)
        send(event, (Msg){.kind = MSG_FIRST, .plan = &event->first.plan});
}

static void advise(EventStage *event)
{
    event->input = model_advice_input(event->model);
    advice_begin(event->advice, &event->input);
    event->advising = true;
    event->slots_ready = 0;
}

static void begin_arsenal(EventStage *event)
{
    if (!event->arsenal && !(event->arsenal = arsenal_job_new())) {
        send(event, (Msg){.kind = MSG_NOTICE, .text = "not enough memory to look at the bag"});
        return;
    }
    ArsenalInput input = model_arsenal_input(event->model);
    arsenal_begin(event->arsenal, &input);
    event->sorting_arsenal = true;
    send(event, (Msg){.kind = MSG_ARSENAL, .arsenal = arsenal_result(event->arsenal)});
}

static void begin_block(EventStage *event)
{
    if (!event->block && !(event->block = block_job_new())) {
        send(event, (Msg){.kind = MSG_NOTICE, .text = "not enough memory to look ahead"});
        return;
    }
    BlockInput input = model_block_input(event->model);
    block_begin(event->block, &input);
    event->blocking = true;
    send(event, (Msg){.kind = MSG_BLOCK, .block = block_result(event->block)});
}

static void send(EventStage *event, Msg msg)
{
    Stage *stage = &event->stage;
    Effects effects = update(event->model, msg);
    stage->draw = stage->draw || effects.draw || effects.redraw;
    stage->all = stage->all || effects.redraw;
    stage->bell = stage->bell || effects.bell;
    stage->end = stage->end || effects.quit;
    event->host->again = event->host->again || effects.again;
    event->asks.bowl = event->asks.bowl || effects.bowl;
    event->asks.land = event->asks.land || effects.land;
    if (effects.keep)
        keep(event);
    if (effects.save_bag)
        save_bag(event);
    if (effects.theme)
        stage->look->theme = event->model->theme;
    if (effects.motion)
        stage->look->still = event->model->still;
    if (effects.advise)
        advise(event);
    if (effects.arsenal)
        begin_arsenal(event);
    if (effects.block)
        begin_block(event);
}

static void find_advice(EventStage *event)
{
    event->advising = !advice_step(event->advice);
    const Advice *advice = advice_result(event->advice);
    int ready = 0;
    for (int i = 0; i < BAG_SLOTS; i++)
        ready += advice->slot[i].ready;
    if (!event->advising || ready != event->slots_ready) {
        event->slots_ready = ready;
        Msg msg = {.kind = MSG_ADVICE, .advice = advice};
        Roll roll;
        if (advice->done && advice->adjustment_count > 0) { /* with today's throw as estimated */
            const Adjustment *first = &advice->adjustments[0];
            advice_roll(advice, &event->host->session->bag, &first->plan, first->surface_grit,
                        &roll);
            msg.first_roll = &roll;
        }
        send(event, msg);
    }
}

/* Two rolls, a fraction of a millisecond: done before the screen is drawn, so that a path doesn't
 * lag behind the feet it starts from. */
static void find_paths(EventStage *event)
{
    const Model *model = event->model;
    const Adjustment *first = model_adjustment(model, 0);
    Plan plan = model_plan(model);
    Roll roll, first_roll;
    bool on = model_roll(model, &plan, 0.0, &roll);
    bool first_on = first && model_roll(model, &first->plan, first->surface_grit, &first_roll);
    send(event, (Msg){.kind = MSG_PATHS,
                      .roll = on ? &roll : NULL,
                      .first_roll = first_on ? &first_roll : NULL,
                      .revision = model->asked.paths});
}

static bool spare_waits(const EventStage *event)
{
    const Model *model = event->model;
    return model->mode == MODE_SPARES && model->spare_pins != 0 && !model_spare_current(model);
}

static void find_spare(EventStage *event)
{
    const Model *model = event->model;
    if (event->spare_asked != model->asked.spare) {
        SpareInput input = model_spare_input(model);
        spare_begin(event->spare, &input);
        event->spare_asked = model->asked.spare;
    }
    if (!spare_step(event->spare))
        return;
    const Spare *spare = spare_result(event->spare);
    Roll roll;
    if (spare->found)
        model_roll_spare(model, spare->take ? &spare->sure : &spare->line, &roll);
    send(event, (Msg){.kind = MSG_SPARE,
                      .spare = spare,
                      .roll = spare->found ? &roll : NULL,
                      .revision = event->spare_asked});
}

enum { FOLLOW_MS = 1000 };

/* What is being typed or chosen first comes to its end. */
static void follow(EventStage *event)
{
    const Session *now =
        model_may_follow(event->model) ? event->host->follow(event->host->context) : NULL;
    if (now)
        send(event, (Msg){.kind = MSG_FOLLOW, .session = now});
    event->kept = event->host->session->entry_count;
}

/* Whether the bag's or the block's screen is shown and waits for slices. */
static bool looking(const EventStage *event)
{
    return (event->sorting_arsenal && model_at_bag(event->model)) ||
           (event->blocking && event->model->mode == MODE_BLOCK);
}

static void look(EventStage *event)
{
    if (event->sorting_arsenal && model_at_bag(event->model)) {
        event->sorting_arsenal = !arsenal_step(event->arsenal);
        send(event, (Msg){.kind = MSG_ARSENAL, .arsenal = arsenal_result(event->arsenal)});
    } else {
        event->blocking = !block_step(event->block);
        send(event, (Msg){.kind = MSG_BLOCK, .block = block_result(event->block)});
    }
}

/* ---- the stage ---- */

/* Keys wait for the first line: what is logged must not depend on how soon that is found. */
static void settle(EventStage *event)
{
    event->stage.deaf = event->finding_first;
    event->stage.tick_ms = event->model->mode == MODE_ROLL ? ROLLING_FRAME_MS
                           : event->host->follow           ? FOLLOW_MS
                                                           : 0;
    event->stage.busy =
        event->finding_first || event->advising || spare_waits(event) || looking(event);
}

static void take_size(Stage *stage, int columns, int rows)
{
    EventStage *event = (EventStage *)stage;
    send(event, (Msg){.kind = MSG_SIZE, .columns = columns, .rows = rows});
    settle(event);
}

static void take_key(Stage *stage, uint32_t key)
{
    EventStage *event = (EventStage *)stage;
    send(event, (Msg){.kind = MSG_KEY, .key = key});
    settle(event);
}

static void take_notice(Stage *stage, const char *line)
{
    send((EventStage *)stage, (Msg){.kind = MSG_NOTICE, .text = line});
}

static void step(Stage *stage)
{
    EventStage *event = (EventStage *)stage;
    if (event->finding_first)
        find_first(event);
    else if (spare_waits(event))
        find_spare(event);
    else if (event->advising)
        find_advice(event);
    else if (looking(event))
        look(event);
    settle(event);
}

static void draw(Stage *stage, Canvas *canvas)
{
    EventStage *event = (EventStage *)stage;
    if (!model_paths_current(event->model))
        find_paths(event);
    view_draw(event->model, canvas);
}

static void take_tick(Stage *stage, int milliseconds)
{
    EventStage *event = (EventStage *)stage;
    if (event->model->mode == MODE_ROLL)
        send(event, (Msg){.kind = MSG_TICK, .milliseconds = milliseconds});
    else if (event->host->follow && !event->finding_first)
        follow(event);
    settle(event);
}

static const StageKind EVENT_STAGE = {.tick = take_tick,
                                      .size = take_size,
                                      .key = take_key,
                                      .notice = take_notice,
                                      .step = step,
                                      .draw = draw};

static bool begin(EventStage *event)
{
    UiHost *host = event->host;
    StageLook *look = host->look;
    event->model = malloc(sizeof *event->model);
    event->advice = advice_job_new();
    event->spare = spare_job_new();
    if (!event->model || !event->advice || !event->spare)
        return false;
    model_init(event->model, host->session, host->rules, look->themes, look->theme_count,
               look->glyphs);
    event->model->theme = look->theme;
    const KeyTable *own = bound_table(&event->bound, host->keys);
    if (own)
        event->model->keys = own;
    event->model->read_only = host->read_only;
    event->model->still = look->still;
    event->model->still_fixed = look->still_fixed;
    event->model->rehearsing.on = host->rehearsal;
    if (host->notice && host->notice[0])
        take_notice(&event->stage, host->notice);
    if (host->session->first.slot == 0)
        begin_first(event);
    else
        advise(event);
    settle(event);
    return true;
}

Stage *event_stage_new(UiHost *host)
{
    EventStage *event = calloc(1, sizeof *event);
    if (!event)
        return NULL;
    event->stage = (Stage){.kind = &EVENT_STAGE, .look = host->look};
    event->host = host;
    event->kept = host->session->entry_count;
    if (begin(event))
        return &event->stage;
    event_stage_free(&event->stage);
    return NULL;
}

void event_stage_free(Stage *stage)
{
    EventStage *event = (EventStage *)stage;
    if (!event)
        return;
    advice_job_free(event->advice);
    spare_job_free(event->spare);
    arsenal_job_free(event->arsenal);
    block_job_free(event->block);
    free(event->model);
    free(event);
}

const Model *event_stage_model(const Stage *stage) { return ((const EventStage *)stage)->model; }

void event_stage_send(Stage *stage, Msg msg)
{
    EventStage *event = (EventStage *)stage;
    send(event, msg);
    settle(event);
}

EventAsks event_stage_asks(Stage *stage)
{
    EventStage *event = (EventStage *)stage;
    EventAsks asks = event->asks;
    event->asks = (EventAsks){0};
    return asks;
}

StageEnd ui_event(UiHost *host, Error *error)
{
    Stage *stage = event_stage_new(host);
    if (!stage)
        return error_set(error, "not enough memory"), STAGE_FAILED;
    StageEnd end = stage_run(stage, error);
    event_stage_free(stage);
    return end;
}
