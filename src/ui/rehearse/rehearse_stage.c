/* rehearse_stage.c - a rehearsal as a stage: what is chosen, the block on the event's own screen
 * with the ball rolling, and what it came to. The hidden lane is in here alone. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/rehearse/seed.h"
#include "ui/draw/rolling.h"
#include "ui/event_stage.h"
#include "ui/rehearse/rehearse_choices.h"
#include "ui/rehearse/rehearse_end.h"
#include "ui/ui_rehearse.h"

typedef enum Page { PAGE_CHOICES, PAGE_LOAD, PAGE_BOWL, PAGE_END } Page;

#define LEAST_DEAR 0.05 /* pins; what costs less is not told */

typedef struct RehearseStage {
    Stage stage;
    UiRehearsal *host;
    Page page;
    int columns, rows;
    char message[160]; /* until the next key */
    Choices choices;
    /* The block. */
    Bag bag;
    Pattern pattern;
    Session *session;
    UiHost event_host;
    Stage *event; /* NULL outside PAGE_BOWL */
    RehearseSetup setup;
    RehearseJob *job;
    Rehearsal *block;
    JudgeJob *judge;
    Judgement *judgement;
    bool judged; /* all that was bowled so far */
    /* The ball on its way. */
    bool rolling;
    Roll roll;
    double roll_s; /* how long it has rolled */
    /* The end. */
    EndPage end;
    RehearseJob *other;
    Rehearsal *other_block;
    bool other_on; /* the next of the others is playing */
} RehearseStage;

static void settle(RehearseStage *self)
{
    Stage *stage = &self->stage, *event = self->event;
    if (event) {
        stage->draw = stage->draw || event->draw;
        stage->all = stage->all || event->all;
        stage->bell = stage->bell || event->bell;
        event->draw = event->all = event->bell = false;
    }
    stage->deaf = self->page == PAGE_LOAD;
    stage->busy = self->page == PAGE_LOAD || (self->page == PAGE_END && !self->end.done) ||
                  (self->page == PAGE_BOWL && (event->busy || !self->judged));
    stage->tick_ms = self->rolling ? ROLLING_FRAME_MS : 0;
}

/* ---- the block ---- */

static void close_block(RehearseStage *self)
{
    event_stage_free(self->event);
    self->event = NULL;
    self->rolling = false;
}

static EventInfo event_of(const RehearseStage *self)
{
    EventInfo event = {.id = "rehearsal",
                       .name = "Rehearsal",
                       .pair = {1, 2},
                       .games = self->choices.games,
                       .bowlers_on_pair = self->choices.bowlers,
                       .warm_up = self->choices.practice > 0,
                       .certified = true};
    char words[SEED_TEXT_MAX];
    seed_text(self->choices.seed, words);
    text_append(event.name, sizeof event.name, " %s", words);
    return event;
}

/* Draws the lane and opens the event's screen on it; false: the choices are shown again. */
static bool open_block(RehearseStage *self)
{
    const UiRehearsal *host = self->host;
    const Choices *choices = &self->choices;
    Error error = {0};
    if (!host->load(host->context, host->bags[choices->bag].name, choices_pattern(choices, host),
                    &self->bag, &self->pattern, &error)) {
        error_line(&error, self->message, sizeof self->message);
        return false;
    }
    self->setup = (RehearseSetup){.bag = &self->bag,
                                  .pattern = &self->pattern,
                                  .rules = host->rules,
                                  .world = WORLDS[choices->world],
                                  .games = choices->games,
                                  .bowlers_on_pair = choices->bowlers,
                                  .practice = choices->practice,
                                  .steady = choices->steady,
                                  .seed = choices->seed};
    rehearse_begin(self->job, &self->setup, self->block);
    judge_begin(self->judge, &self->setup, self->block, self->judgement);
    self->judged = true;
    EventInfo event = event_of(self);
    session_begin(self->session, &event, &self->bag, &self->pattern,
                  &rehearse_view(self->job)->plan[SIDE_LEFT]);
    self->event_host = (UiHost){.session = self->session,
                                .look = self->stage.look,
                                .rules = host->rules,
                                .keys = host->keys,
                                .notice = "",
                                .rehearsal = true};
    self->event = event_stage_new(&self->event_host);
    if (!self->event) {
        text_copy(self->message, sizeof self->message, "not enough memory");
        return false;
    }
    self->event->kind->size(self->event, self->columns, self->rows);
    return true;
}

static void load(RehearseStage *self)
{
    close_block(self);
    self->page = open_block(self) ? PAGE_BOWL : PAGE_CHOICES;
    self->stage.draw = self->stage.all = true;
}

/* ---- the ball ---- */

static void arrive(RehearseStage *self)
{
    const Shot *seen = rehearse_seen(self->job);
    bool practice = self->session->warm_up;
    bool last = practice && self->block->practice_count == self->setup.practice;
    self->rolling = false;
    event_stage_send(self->event, (Msg){.kind = MSG_SEEN, .shot = seen, .ok = last});
}

static void show_roll(RehearseStage *self)
{
    double ft = rolling_ft(&self->roll, self->roll_s);
    event_stage_send(self->event, (Msg){.kind = MSG_ROLL, .roll = &self->roll, .ft = ft});
}

static void bowl(RehearseStage *self)
{
    const Session *session = self->session;
    if (rehearse_over(self->job))
        return;
    Choice choice = {session->plan[session->lane], ADJUST_HOLD, NAN, NAN};
    rehearse_throw(self->job, &choice);
    self->judged = false;
    self->roll = *rehearse_roll(self->job);
    if (self->choices.still || self->roll.count < 2) {
        arrive(self);
        return;
    }
    self->rolling = true;
    self->roll_s = 0.0;
    show_roll(self);
}

/* ---- the end ---- */

static void film_of(const Oil *oil, double film[LANE_BOARDS])
{
    for (int b = 0; b < LANE_BOARDS; b++)
        film[b] = rehearse_film(oil, b + 1, b + 1);
}

static void begin_end(RehearseStage *self)
{
    Oil sheet;
    self->end = (EndPage){.setup = &self->setup,
                          .block = self->block,
                          .judgement = self->judgement,
                          .help = event_stage_model(self->event)->rehearsing.help};
    oil_lay(&self->pattern, &sheet);
    oil_for_hand(&sheet, self->bag.bowler.hand, &sheet);
    film_of(&sheet, self->end.sheet);
    self->end.done = self->block->games == 0;
    self->other_on = false;
    self->page = PAGE_END;
    close_block(self);
    self->stage.draw = self->stage.all = true;
}

/* The lanes before the dearest decisions and before each game. */
static void find_lanes(RehearseStage *self)
{
    EndPage *end = &self->end;
    Oil lane;
    int game = 0;
    end->dearest_count = judge_dearest(self->judgement, LEAST_DEAR, end->dearest, END_DEAREST);
    for (int k = 0; k < end->dearest_count; k++) {
        judge_lane(self->judge, &self->setup, self->block, end->dearest[k], &lane);
        film_of(&lane, end->dear_film[k]);
    }
    for (int i = 0; i < self->block->shot_count; i++)
        if (self->block->shots[i].game > game && game < self->block->games) {
            judge_lane(self->judge, &self->setup, self->block, i, &lane);
            film_of(&lane, end->game_film[game++]);
        }
}

static void keep(RehearseStage *self)
{
    const UiRehearsal *host = self->host;
    RehearsalRecord record;
    Error error = {0};
    record_of(&self->setup, self->block, self->judgement, &record);
    text_copy(record.player, sizeof record.player, RECORD_YOU);
    record.help = self->end.help;
    if (host->keep && !host->keep(host->context, &record, &error))
        error_line(&error, self->message, sizeof self->message);
    else if (host->keep)
        text_copy(self->message, sizeof self->message,
                  "Kept apart from your events: settee rehearse --history");
}

/* One throw of whoever is still to play it; true: all have. */
static bool others_done(RehearseStage *self)
{
    static const Player *const OTHERS[END_OTHERS] = {&PLAYER_HOLD, &PLAYER_ADVISOR};
    EndPage *end = &self->end;
    if (end->others == END_OTHERS)
        return true;
    if (!self->other_on) {
        rehearse_begin(self->other, &self->setup, self->other_block);
        self->other_on = true;
        return false;
    }
    const View *view = rehearse_view(self->other);
    Choice choice = OTHERS[end->others]->choose(view);
    rehearse_throw(self->other, &choice);
    if (self->other_block->games < self->block->games)
        return false;
    end->other[end->others] = OTHERS[end->others];
    end->other_pins[end->others++] = self->other_block->mean_pins;
    self->other_on = false;
    return false;
}

static void step_end(RehearseStage *self)
{
    EndPage *end = &self->end;
    char before[sizeof end->work];
    text_copy(before, sizeof before, end->work);
    end->work[0] = '\0';
    if (!judge_step(self->judge)) {
        text_append(end->work, sizeof end->work, "Judging your decisions: %d of %d",
                    self->judgement->count, self->block->shot_count);
    } else if (!others_done(self)) {
        text_append(end->work, sizeof end->work, "Others bowl the same block: %d of %d",
                    self->other_block->shot_count, self->block->shot_count);
    } else {
        find_lanes(self);
        end->done = true;
        keep(self);
    }
    self->stage.draw = self->stage.draw || end->done || strcmp(before, end->work) != 0;
}

/* ---- the stage ---- */

static void take_size(Stage *stage, int columns, int rows)
{
    RehearseStage *self = (RehearseStage *)stage;
    self->columns = columns;
    self->rows = rows;
    if (self->event)
        self->event->kind->size(self->event, columns, rows);
    stage->draw = true;
    settle(self);
}

static void act(RehearseStage *self, RehearseAct what)
{
    int most =
        self->page == PAGE_END ? end_lines(&self->end, self->columns) - end_room(self->rows) : 0;
    int by = what == ACT_UP     ? -1
             : what == ACT_DOWN ? 1
             : what == ACT_PAGE ? end_room(self->rows) - 1
                                : 0;
    if (what == ACT_QUIT) {
        self->stage.end = true;
    } else if (self->page == PAGE_CHOICES && what == ACT_START) {
        self->page = PAGE_LOAD;
        text_copy(self->message, sizeof self->message, "Finding your first line…");
    } else if (self->page == PAGE_CHOICES) {
        choices_act(&self->choices, self->host, what);
    } else if (what == ACT_AGAIN) {
        self->page = PAGE_CHOICES;
    } else {
        self->end.top += by;
        self->end.top = self->end.top > most ? most : self->end.top;
        self->end.top = self->end.top < 0 ? 0 : self->end.top;
    }
}

static void key_page(RehearseStage *self, uint32_t key)
{
    unsigned where = self->page == PAGE_END ? AT_END : self->choices.typing ? AT_SEED : AT_FORM;
    const RehearseKey *row = (const RehearseKey *)key_find(&REHEARSE_KEYS, where, key);
    self->message[0] = '\0';
    self->stage.draw = true;
    self->stage.all = self->stage.all || key == PRESS_REDRAW;
    if (row && row->act >= ACT_SEED) {
        choices_type(&self->choices, row->act, key, self->message, sizeof self->message);
        self->stage.bell = self->message[0] != '\0';
    } else if (row) {
        act(self, row->act);
    }
}

static void key_bowling(RehearseStage *self, uint32_t key)
{
    bool still = self->stage.look->still;
    self->event->kind->key(self->event, key);
    if (self->stage.look->still != still)
        self->choices.still = !still;
    EventAsks asks = event_stage_asks(self->event);
    if (asks.land && self->rolling)
        arrive(self);
    if (asks.bowl && rehearse_over(self->job))
        begin_end(self);
    else if (asks.bowl)
        bowl(self);
    if (self->event && self->event->end)
        begin_end(self);
}

static void take_key(Stage *stage, uint32_t key)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (self->page == PAGE_BOWL)
        key_bowling(self, key);
    else
        key_page(self, key);
    settle(self);
}

static void take_notice(Stage *stage, const char *line)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (self->event)
        self->event->kind->notice(self->event, line);
    else
        text_clean(self->message, sizeof self->message, line);
    stage->draw = true;
    settle(self);
}

static void step(Stage *stage)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (self->page == PAGE_LOAD)
        load(self);
    else if (self->page == PAGE_END)
        step_end(self);
    else if (self->event->busy)
        self->event->kind->step(self->event);
    else
        self->judged = judge_step(self->judge);
    settle(self);
}

static void take_tick(Stage *stage, int milliseconds)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (self->rolling) {
        self->roll_s += milliseconds / 1000.0;
        if (self->roll_s >= rolling_seconds(&self->roll))
            arrive(self);
        else
            show_roll(self);
    }
    settle(self);
}

/* What its own pages need. */
enum { COLUMNS_MIN = 40, ROWS_MIN = 12 };

static void draw(Stage *stage, Canvas *canvas)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (self->page == PAGE_BOWL)
        self->event->kind->draw(self->event, canvas);
    else if (canvas->columns < COLUMNS_MIN || canvas->rows < ROWS_MIN)
        canvas_wrap(canvas, 0, 0, canvas->columns, canvas->rows, ROLE_PLAIN,
                    "This page needs 40x12: make the window larger, or press q to leave.");
    else if (self->page == PAGE_END)
        end_draw(&self->end, stage->look->glyphs, canvas, self->message);
    else
        choices_draw(&self->choices, self->host, stage->look->glyphs, canvas, self->message);
}

static const StageKind REHEARSE_STAGE = {.size = take_size,
                                         .key = take_key,
                                         .notice = take_notice,
                                         .step = step,
                                         .tick = take_tick,
                                         .draw = draw};

Stage *rehearse_stage_new(UiRehearsal *host)
{
    RehearseStage *self = calloc(1, sizeof *self);
    if (!self)
        return NULL;
    self->stage = (Stage){.kind = &REHEARSE_STAGE, .look = host->look, .draw = true};
    self->host = host;
    self->choices = choices_begin(host);
    self->session = calloc(1, sizeof *self->session);
    self->job = rehearse_new();
    self->judge = judge_new();
    self->other = rehearse_new();
    self->block = malloc(sizeof *self->block);
    self->other_block = malloc(sizeof *self->other_block);
    self->judgement = malloc(sizeof *self->judgement);
    if (self->session && self->job && self->judge && self->other && self->block &&
        self->other_block && self->judgement)
        return &self->stage;
    rehearse_stage_free(&self->stage);
    return NULL;
}

void rehearse_stage_free(Stage *stage)
{
    RehearseStage *self = (RehearseStage *)stage;
    if (!self)
        return;
    close_block(self);
    rehearse_free(self->job);
    rehearse_free(self->other);
    judge_free(self->judge);
    free(self->session);
    free(self->block);
    free(self->other_block);
    free(self->judgement);
    free(self);
}

StageEnd ui_rehearse(UiRehearsal *host, Error *error)
{
    Stage *stage = rehearse_stage_new(host);
    if (!stage)
        return error_set(error, "not enough memory"), STAGE_FAILED;
    StageEnd end = stage_run(stage, error);
    rehearse_stage_free(stage);
    return end;
}
