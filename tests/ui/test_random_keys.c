/* test_random_keys.c - a hundred thousand random keys at random sizes, and every size of screen:
 * nothing breaks, nothing is drawn outside, no refused key changes a shot, nothing is shown as
 * current that is not. */
#include "near.h"

#include "base/rng.h"
#include "base/text.h"
#include "ui/form/ball_form.h"
#include "ui/input/commands.h"
#include "ui/pinned_bag.h"

static uint32_t random_key(Rng *rng)
{
    static const uint32_t OTHERS[] = {PRESS_TAB,   PRESS_ENTER, PRESS_ESC, PRESS_BACKSPACE,
                                      PRESS_ENTER, 0x1f600,     0xe9,      0};
    double u = rng_uniform(rng);
    if (u < 0.15)
        return PRESS_LEFT + (uint32_t)(rng_uniform(rng) * (PRESS_LAST + 1 - PRESS_LEFT));
    if (u < 0.35)
        return OTHERS[(int)(rng_uniform(rng) * 8)];
    return 0x20 + (uint32_t)(rng_uniform(rng) * 95);
}

/* Whatever was typed, the bag would pass its file's checks. */
static void bag_is_sound(const Model *model)
{
    const Session *session = model->session;
    const Bag *bag = &session->bag;
    int slots = 0;
    assert_in_range(bag->count, 1, BAG_BALLS_MAX);
    assert_in_range(model->ball, 0, bag->count - 1);
    assert_in_range(model->form.row, 0, BALL_ROWS - 1);
    assert_in_range(session->bag_log.standing, 0, session->bag_log.count);
    for (int i = 0; i < bag->count; i++) {
        Ball ball = bag->balls[i];
        char text[64];
        assert_true(text_utf8_fault(ball.name, strlen(ball.name)) == strlen(ball.name));
        assert_ptr_equal(bag_find(bag, ball.id), &bag->balls[i]);
        assert_true(ball.slot == 0 || bag_slot(bag, ball.slot) == &bag->balls[i]);
        slots += ball.slot > 0;
        for (int row = 0; row < BALL_ROWS; row++) {
            Error why = {0};
            BALL_FORM.show(&ball, row, text, sizeof text);
            if (text[0] && !BALL_FORM.put(&ball, row, text, &why))
                fail_msg("%s", why.text);
        }
    }
    assert_true(slots > 0);
    for (int i = 0; i < session->shot_count; i++)
        assert_non_null(bag_find(bag, session->shots[i].ball));
}

static void session_is_sound(const Model *model)
{
    const Session *session = model->session;
    assert_in_range(session->frame, 1, 10);
    assert_in_range(session->game, 1, session->event.games);
    assert_in_range(session->shot_count, 0, SESSION_SHOTS_MAX);
    assert_in_range(session->entry_count, 0, SESSION_ENTRIES_MAX);
    Plan plan = model_plan(model);
    assert_non_null(bag_slot(&session->bag, plan.slot));
    assert_true(plan.stance >= 1.0 && plan.stance <= 50.0);
    assert_true(plan.aim >= 1.0 && plan.aim <= 39.0);
    assert_in_range(model->lane, SIDE_LEFT, SIDE_RIGHT);
    assert_true(model->help_top >= 0);
    if (model->mode == MODE_PICK)
        assert_in_range(model->pick, 0, session->shot_count - 1);
    if (model->mode == MODE_ENTRY && model->typing.index >= 0)
        assert_true(model->typing.index < session->shot_count);
    for (int i = 0; i < session->shot_count; i++) {
        const Shot *shot = &session->shots[i];
        assert_true(shot->hit != HIT_UNSAID || shot->left_said);
        assert_true((shot->left & ~PINS_ALL) == 0);
        assert_true((shot->spare_left & ~shot_standing(shot)) == 0);
        assert_true(!shot->spare_said || shot_leaves(shot));
        assert_true(!shot->spare_foul || shot->spare_left == shot_standing(shot));
        assert_true(shot->mph == 0.0 || (shot->mph >= 5.0 && shot->mph <= 35.0));
        assert_true(shot->arrows == 0.0 || (shot->arrows >= 1.0 && shot->arrows <= 39.0));
        assert_true(shot->breakpoint == 0.0 ||
                    (shot->breakpoint >= 1.0 && shot->breakpoint <= 39.0));
        assert_true(!shot->ringing || shot->left == pin_bit(7) || shot->left == pin_bit(10));
    }
}

static void drawn_inside(const Model *model)
{
    Canvas canvas;
    assert_true(canvas_init(&canvas, model->columns, model->rows));
    view_draw(model, &canvas);
    if (canvas.spilled)
        fail_msg("%d cells outside at %dx%d", canvas.spilled, model->columns, model->rows);
    assert_true(canvas.cursor_row < canvas.rows && canvas.cursor_column < canvas.columns);
    canvas_fini(&canvas);
}

/* ---- a walk over keys, sizes and answers that come when they like ---- */

/* What was stored, and what was to be thrown next. */
typedef struct Stored {
    int shot_count, entry_count;
    Side lane; /* the one looked at */
    Plan plan;
    Shot shots[SESSION_SHOTS_MAX];
} Stored;

/* What the walk remembers beside the model. */
typedef struct Walk {
    Pinned *pinned;
    Rng rng;
    long question; /* revision of the last advice that was asked for */
    Advice late;   /* an answer to an earlier question, still under way */
    bool refused;  /* a shot's first key was refused and no key has worked since */
    Stored before; /* as it was then */
    int kept, asked, shots, edits, refusals, late_answers, told, fouls, supposed;
} Walk;

static bool chance(Walk *walk, double p) { return rng_uniform(&walk->rng) < p; }

/* An answer whose every number says which question it is to. */
static void date(Advice *advice, long revision)
{
    double board = 15.0 + (double)(revision % 40) * 0.5;
    pinned_advice(advice);
    advice->revision = revision;
    advice->lane.deliveries = (int)revision;
    for (int i = 0; i < BAG_SLOTS; i++)
        advice->slot[i].line.laydown_board = (double)revision;
    for (int i = 0; i < advice->adjustment_count; i++) {
        advice->adjustments[i].plan.stance = board;
        advice->adjustments[i].entry_deg = (double)revision;
    }
}

static void new_event(Walk *walk, int round)
{
    Pinned *pinned = walk->pinned;
    pinned_begin(pinned, round % 2 ? HAND_LEFT : HAND_RIGHT, 80, 24);
    if (round % 4 == 3) { /* an event that is over */
        pinned_type(pinned, "GyGy");
        for (int frame = 0; frame < 10; frame++)
            pinned_type(pinned, "log4\r");
    }
    walk->question = model_advice_input(&pinned->model).revision;
    walk->refused = false;
    date(&walk->late, walk->question);
}

/* Some of it, all of it, or what comes too late. */
static void answer(Walk *walk)
{
    Model *model = &walk->pinned->model;
    Advice advice;
    if (chance(walk, 0.3)) {
        walk->late_answers += walk->late.revision != walk->question;
        update(model, (Msg){.kind = MSG_ADVICE, .advice = &walk->late});
        date(&walk->late, walk->question);
        return;
    }
    date(&advice, walk->question);
    advice.done = chance(walk, 0.5);
    for (int i = 0; !advice.done && i < BAG_SLOTS; i++)
        advice.slot[i].ready = advice.slot[i].ready && chance(walk, 0.5);
    update(model, (Msg){.kind = MSG_ADVICE, .advice = &advice});
}

/* Mostly sizes that show something. */
static void resize(Walk *walk)
{
    bool small = chance(walk, 0.1);
    update(&walk->pinned->model,
           (Msg){.kind = MSG_SIZE,
                 .columns = 1 + (int)(rng_uniform(&walk->rng) * 150) + (small ? 0 : 79),
                 .rows = 1 + (int)(rng_uniform(&walk->rng) * 40) + (small ? 0 : 23)});
}

static void remember(Stored *stored, const Model *model)
{
    const Session *session = model->session;
    stored->shot_count = session->shot_count;
    stored->entry_count = session->entry_count;
    stored->lane = model->lane;
    stored->plan = model_plan(model);
    memcpy(stored->shots, session->shots, (size_t)session->shot_count * sizeof *session->shots);
}

static bool shots_same(const Session *a, const Stored *b)
{
    bool same = a->shot_count == b->shot_count && a->entry_count == b->entry_count;
    for (int i = 0; same && i < a->shot_count; i++) {
        const Shot *x = &a->shots[i], *y = &b->shots[i];
        same = x->hit == y->hit && x->read == y->read && x->release == y->release &&
               x->left_said == y->left_said && x->left == y->left &&
               x->spare_said == y->spare_said && x->spare_left == y->spare_left &&
               x->lane == y->lane && x->slot == y->slot && x->stance == y->stance &&
               x->aim == y->aim && x->mph == y->mph && x->arrows == y->arrows &&
               x->breakpoint == y->breakpoint && x->ringing == y->ringing;
    }
    return same;
}

/* A shot key that is refused, and those that go on with it, change nothing that is stored. */
static void refusal_is_harmless(Walk *walk, unsigned where, uint32_t key, bool bell)
{
    const Model *model = &walk->pinned->model;
    const CommandRow *shot = command_find(&COMMAND_TABLE, IN_ENTRY, key);
    bool of_shot = shot && shot->key.group <= GROUP_SHOT && key != PRESS_ESC;
    Plan plan = model_plan(model);
    if (where == IN_SMALL && key == 'q') /* it would have ended there, with the moves entered */
        walk->refused = false;
    if (where != IN_LANE)
        return;
    if (bell && of_shot && !walk->refused)
        walk->refused =
            shot->key.group == GROUP_HIT && command_find(&COMMAND_TABLE, IN_LANE, key) == shot;
    if (walk->refused && (of_shot || bell)) {
        walk->refusals++;
        assert_true(shots_same(model->session, &walk->before));
        assert_true(plan_same(&plan, &walk->before.plan));
        assert_int_equal(model->mode, MODE_LANE);
        assert_int_equal(model->lane, walk->before.lane);
    } else {
        walk->refused = walk->refused && !command_find(&COMMAND_TABLE, IN_LANE, key);
    }
}

/* Whatever is shown as current answers the current question, and no answer mixes two. */
static void answers_are_of_one_date(const Walk *walk)
{
    const Model *model = &walk->pinned->model;
    const Advice *shown = &model->shown;
    assert_int_equal(model_advice_input(model).revision, walk->question);
    if (model_advice_current(model))
        assert_int_equal(shown->revision, walk->question);
    for (int i = 0; shown->done && i < shown->adjustment_count; i++)
        assert_true(shown->adjustments[i].entry_deg == (double)shown->revision);
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const SlotShown *of = &model->slot[slot - 1];
        assert_true(!of->now.ready || of->now.line.laydown_board == (double)of->revision);
        assert_true(!model_advice_current(model) || model_slot_current(model, slot));
    }
    const Arsenal *arsenal = model_arsenal(model);
    assert_true(!arsenal || arsenal->revision == model_arsenal_input(model).revision);
    assert_true(model_spare_current(model) || !model_spare_line(model));
}

/* And what is not current says so. */
static void what_is_of_before_is_marked(const Walk *walk)
{
    const Model *model = &walk->pinned->model;
    if (model_small(model) || model->mode != MODE_LANE)
        return;
    char *screen = pinned_screen(model);
    bool marked = strstr(screen, "calculating…") != NULL;
    assert_int_equal(marked, !model_advice_current(model));
    free(screen);
}

static void step(Walk *walk, int i)
{
    static Arsenal arsenal, earlier;
    Pinned *pinned = walk->pinned;
    Model *model = &pinned->model;
    unsigned where = model_where(model);
    uint32_t key = random_key(&walk->rng);
    if (!walk->refused)
        remember(&walk->before, model);
    Effects effects = pinned_press(pinned, key);
    if (effects.advise)
        walk->question = model_advice_input(model).revision;
    walk->kept += effects.keep;
    walk->asked += effects.quit;
    walk->edits += effects.save_bag;
    if (pinned->session.shot_count > walk->shots)
        walk->shots = pinned->session.shot_count;
    walk->told += where == IN_TOLD && effects.keep;
    walk->fouls += (where & IN_PARTS) && key == 'F';
    walk->supposed += where != IN_SUPPOSE && model->mode == MODE_SUPPOSE;
    if (model->supposed.count > 0) /* nothing of it is kept */
        assert_true(!effects.keep);
    refusal_is_harmless(walk, where, key, effects.bell);
    if (effects.bell) /* no key that is refused changes a shot */
        assert_true(walk->refused || shots_same(&pinned->session, &walk->before));
    if (chance(walk, 0.15))
        answer(walk);
    if (chance(walk, 0.01))
        resize(walk);
    if (chance(walk, 0.1))
        update(model, (Msg){.kind = MSG_TICK, .milliseconds = 50});
    if (effects.arsenal && pinned->session.bag.count > 4) { /* it speaks of five balls */
        update(model, (Msg){.kind = MSG_ARSENAL, .arsenal = &earlier});
        if (chance(walk, 0.3)) {
            earlier = arsenal;
            pinned_show_arsenal(pinned, &arsenal);
        }
    }
    answers_are_of_one_date(walk);
    if (i % 25 == 0) {
        session_is_sound(model);
        bag_is_sound(model);
        drawn_inside(model);
        what_is_of_before_is_marked(walk);
    }
}

static void random_keys(void **state)
{
    (void)state;
    Walk *walk = calloc(1, sizeof *walk);
    assert_non_null(walk);
    walk->pinned = malloc(sizeof *walk->pinned);
    assert_non_null(walk->pinned);
    walk->rng = rng_seed(20261125);
    for (int i = 0; i < 100000; i++) {
        if (i % 1000 == 0) /* else the event is over and little happens */
            new_event(walk, i / 1000);
        step(walk, i);
    }
    print_message("%d entries, at most %d shots at once, %d edits of the bag, %d wishes to quit, "
                  "%d keys refused with a shot, %d answers too late, %d frames told, %d fouls, %d "
                  "shots supposed\n",
                  walk->kept, walk->shots, walk->edits, walk->asked, walk->refusals,
                  walk->late_answers, walk->told, walk->fouls, walk->supposed);
    assert_true(walk->kept > 1000 && walk->shots > 3 && walk->edits > 200 && walk->asked > 10 &&
                walk->refusals > 100 && walk->late_answers > 100 && walk->told > 5 &&
                walk->fouls > 5 && walk->supposed > 5); /* the walk got about */
    free(walk->pinned);
    free(walk);
}

static void every_size(void **state)
{
    (void)state;
    static const char *const STATES[] = {
        "",      "l",       "log", "logb", "e",        "?",  "G",
        "logm1", "log36.6", "B",   "B\r1", "B+Q",      "B-", "la12.5\rp7.5\rm17.4\rp39",
        "S",     "K",       "O",   "Whe",  "Wheg47\r", "L",  "L+9/",
        "Lt300", "Lk\r"};
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    for (size_t s = 0; s < sizeof STATES / sizeof *STATES; s++) {
        pinned_begin(pinned, HAND_RIGHT, 80, 24);
        pinned_play(pinned);
        pinned_advise(pinned);
        pinned->model.shown.adjustments[0].caution = CAUTION_SURFACE;
        pinned->model.shown.adjustments[0].disagrees = true;
        pinned_type(pinned, STATES[s]);
        for (int rows = 1; rows <= 60; rows += rows < 30 ? 1 : 7)
            for (int columns = 1; columns <= 200; columns += columns < 130 ? 3 : 9) {
                update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = columns, .rows = rows});
                drawn_inside(&pinned->model);
            }
    }
    free(pinned);
}

/* Names of the greatest length, wide characters, figures that are not numbers. */
static void unusual_contents(void **state)
{
    (void)state;
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, HAND_LEFT, 80, 24);
    pinned_play(pinned);
    Session *session = &pinned->session;
    snprintf(session->event.name, sizeof session->event.name, "%s",
             "葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉葉");
    snprintf(session->pattern.name, sizeof session->pattern.name, "%s",
             "A name of a pattern so long that no screen of usual size has it");
    for (int i = 0; i < session->bag.count; i++)
        snprintf(session->bag.balls[i].name, sizeof session->bag.balls[i].name, "%s",
                 "木の葉木の葉木の葉木の葉木の葉");
    Advice *advice = &pinned->advice;
    for (int i = 0; i < BAG_SLOTS; i++)
        advice->slot[i].line =
            (Line){.found = true, .hook_ft = NAN, .entry_deg = NAN, .pocket = 1.0};
    for (int i = 0; i < 3; i++) {
        memset(advice->adjustments[i].words, 'w', sizeof advice->adjustments[i].words - 1);
        memset(advice->adjustments[i].because, 'b', sizeof advice->adjustments[i].because - 1);
        advice->adjustments[i].plan.stance = -7.3;
        advice->adjustments[i].plan.aim = 1e9;
        advice->adjustments[i].margin_in = INFINITY;
    }
    pinned_advise(pinned);
    pinned->model.path.gutter = true;
    pinned->model.path.count = 40;
    static const int SIZES[][2] = {{80, 24}, {100, 30}, {120, 40}, {200, 60}};
    for (int i = 0; i < 4; i++) {
        update(&pinned->model,
               (Msg){.kind = MSG_SIZE, .columns = SIZES[i][0], .rows = SIZES[i][1]});
        drawn_inside(&pinned->model);
    }
    free(pinned);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_keys),
        cmocka_unit_test(every_size),
        cmocka_unit_test(unusual_contents),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
