/* pinned.h - a session and a model that are the same on every day: for golden screens and for
 * tests of update. Advice, film and paths are made by hand here, so that a better engine does not
 * change a picture. Every name is invented. */
#ifndef SETTEE_TESTS_PINNED_H
#define SETTEE_TESTS_PINNED_H

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "ui/model.h"
#include "ui/screens/screens.h"
#include "ui/view.h"

typedef struct Pinned {
    Session session;
    RuleSet rules;
    Theme theme;
    Advice advice;
    Model model;
} Pinned;

static inline void pinned_ball(Bag *bag, int slot, const char *name, double grit, Finish finish)
{
    Ball *ball = &bag->balls[bag->count++];
    *ball = ball_default();
    snprintf(ball->id, sizeof ball->id, "ball-%d", slot);
    snprintf(ball->name, sizeof ball->name, "%s", name);
    ball->slot = slot;
    ball->surface.finish = finish;
    ball->surface.grit = grit;
}

static inline void pinned_film(Oil *oil)
{
    oil->length_ft = 41.0;
    for (int s = 0; s < OIL_STATIONS; s++)
        for (int b = 0; b < LANE_BOARDS; b++) {
            double ft = s * OIL_STATION_FT, side = fmin(b + 1, LANE_BOARDS - b);
            double across = side < 5 ? 0.25 : side > 13 ? 1.0 : 0.25 + 0.75 * (side - 5) / 8.0;
            oil->units[s][b] = ft > 41.0 ? 0.0 : 30.0 * across * (1.0 - ft / 48.0);
        }
}

/* From the laydown straight out to the breakpoint and straight back to the pocket. */
static inline void pinned_path(Roll *roll, double laydown, double breakpoint)
{
    *roll = (Roll){.count = ROLL_POINTS_MAX,
                   .breakpoint_board = breakpoint,
                   .breakpoint_ft = 42.0,
                   .entry_board = 17.5,
                   .entry_deg = 4.4};
    for (int i = 0; i < ROLL_POINTS_MAX; i++) {
        double ft = i * OIL_STATION_FT;
        roll->path[i].ft = ft;
        roll->path[i].phase = ft < 36.0 ? PHASE_SKID : ft < 52.0 ? PHASE_HOOK : PHASE_ROLL;
        roll->path[i].board = ft < 42.0 ? laydown + (breakpoint - laydown) * ft / 42.0
                                        : breakpoint + (17.5 - breakpoint) * (ft - 42.0) / 18.0;
    }
}

static inline Adjustment pinned_adjustment(AdjustmentKind kind, Plan plan, double after,
                                           const char *words, const char *because)
{
    Adjustment adjustment = {.kind = kind,
                             .plan = plan,
                             .pocket_now = 0.48,
                             .pocket_after = after,
                             .strike_now = 0.31,
                             .strike_after = after * 0.7,
                             .vote = 0.6,
                             .entry_deg = 4.6,
                             .margin_in = 0.9,
                             .margin_out = 0.6,
                             .score = after};
    snprintf(adjustment.words, sizeof adjustment.words, "%s", words);
    snprintf(adjustment.because, sizeof adjustment.because, "%s", because);
    return adjustment;
}

static inline void pinned_advice(Advice *advice)
{
    static const double MOVES[BAG_SLOTS] = {39.5, 42.0, 41.4, 0, 47.2, NAN};
    static const double ENTRIES[BAG_SLOTS] = {3.9, 4.2, 4.6, 0, 5.1, 2.7};
    static const double POCKETS[BAG_SLOTS] = {0.48, 0.55, 0.63, 0, 0.41, 0.07};
    memset(advice, 0, sizeof *advice);
    pinned_film(&advice->film);
    advice->lane.scale = 0.93;
    advice->lane.scale_sd = 0.1;
    advice->lane.deliveries = 28;
    snprintf(advice->lane.words, sizeof advice->lane.words, "track at 8-13 about a third thinner");
    advice->signs.seen[SIGN_HIGH_TWICE] = advice->signs.seen[SIGN_EARLY] = true;
    for (int i = 0; i < BAG_SLOTS; i++) {
        advice->slot[i].filled = advice->slot[i].ready = i != 3;
        advice->slot[i].line = (Line){.found = i != 3 && i != 5,
                                      .stance = 28.0 + i,
                                      .aim = 14.0 + 0.5 * i,
                                      .hook_ft = MOVES[i],
                                      .entry_deg = ENTRIES[i],
                                      .pocket = POCKETS[i]};
        advice->slot[i].pocket_known = POCKETS[i] + 0.2;
    }
    advice->adjustment_count = 3;
    advice->adjustments[0] =
        pinned_adjustment(ADJUST_BALL_DOWN, (Plan){.slot = 3, .stance = 30.0, .aim = 15.5}, 0.63,
                          "Ball down, 3 Cinder Loom: 2 in with the feet, 1.5 in with the eyes",
                          "Two good shots in a row were high and early: the line is drying out.");
    advice->adjustments[1] =
        pinned_adjustment(ADJUST_MOVE_IN, (Plan){.slot = 1, .stance = 31.0, .aim = 15}, 0.58,
                          "Move in: 3 in with the feet, 1 in with the eyes", "Follow the oil.");
    advice->adjustments[2] =
        pinned_adjustment(ADJUST_HOLD, (Plan){.slot = 1, .stance = 28.0, .aim = 14.0}, 0.48,
                          "Hold: same ball, same line", "Nothing asks for a change.");
    advice->adjustments[0].pocket_known = 0.81;
    advice->adjustments[0].hit_boards = -1.5;
    snprintf(advice->adjustments[0].hits, sizeof advice->adjustments[0].hits,
             "hits about 1.5 boards lighter");
    advice->ready = advice->done = true;
}

static inline void pinned_shot(Session *session, Hit hit, Read read, Release release, Pins left)
{
    Entry entry = {.kind = ENTRY_SHOT, .shot = session_next_shot(session)};
    entry.shot.hit = hit;
    entry.shot.read = read;
    entry.shot.release = release;
    entry.shot.left = left;
    entry.shot.left_said = true;
    entry.lane = entry.shot.lane;
    session_apply(session, &entry);
}

/* A session without shots and a model without advice. */
static inline void pinned_begin(Pinned *pinned, Hand hand, int columns, int rows)
{
    memset(pinned, 0, sizeof *pinned);
    EventInfo event = {.id = "pinned",
                       .name = "Rope Walk Pairs",
                       .pair = {17, 18},
                       .games = 3,
                       .bowlers_on_pair = 4,
                       .certified = true};
    Bag bag = {.bowler = bowler_default()};
    bag.bowler.hand = hand;
    pinned_ball(&bag, 1, "Ash Rail", 2000, FINISH_GRIT);
    pinned_ball(&bag, 2, "Bell Crank and a Long Tail", 1000, FINISH_GRIT);
    pinned_ball(&bag, 3, "Cinder Loom", 3000, FINISH_GRIT);
    pinned_ball(&bag, 5, "Drift Plank", 0, FINISH_POLISH);
    pinned_ball(&bag, 6, "Eel Spout", 0, FINISH_COMPOUND);
    Pattern pattern = {.id = "pinned", .name = "Quay", .length_ft = 41.0, .stroke_count = 1};
    pattern.strokes[0] = (Stroke){.board_from = 5,
                                  .board_to = 35,
                                  .ft_start = 0,
                                  .ft_end = 41.0,
                                  .units_start = 25,
                                  .units_end = 5};
    session_begin(&pinned->session, &event, &bag, &pattern,
                  &(Plan){.slot = 1, .stance = 28.0, .aim = 14.0});
    pinned->theme = theme_plain();
    pinned_advice(&pinned->advice);
    model_init(&pinned->model, &pinned->session, &pinned->rules, &pinned->theme, 1, &GLYPHS_UTF8);
    update(&pinned->model, (Msg){.kind = MSG_SIZE, .columns = columns, .rows = rows});
}

/* Advice has come and the paths are drawn, as in the middle of a game. */
static inline void pinned_advise(Pinned *pinned)
{
    Model *model = &pinned->model;
    pinned->advice.revision = model->asked.advice;
    update(model, (Msg){.kind = MSG_ADVICE, .advice = &pinned->advice});
    pinned_path(&model->path, 22.0, 8.0);
    pinned_path(&model->path2, 24.0, 9.5);
    model->path_on = model->path2_on = true;
    model->paths_revision = model->asked.paths;
}

/* On the heap, before the first shot, with its advice. */
static inline Pinned *pinned_fresh(Hand hand)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, hand, 80, 24);
    pinned_advise(pinned);
    return pinned;
}

static inline void pinned_play(Pinned *pinned)
{
    Session *session = &pinned->session;
    pinned_shot(session, HIT_FLUSH, READ_ON_TIME, RELEASE_GOOD, 0);
    pinned_shot(session, HIT_LIGHT, READ_LATE, RELEASE_FAST, pin_bit(10));
    pinned_shot(session, HIT_HIGH, READ_EARLY, RELEASE_GOOD, pin_bit(4));
    pinned_shot(session, HIT_CROSSED, READ_EARLY, RELEASE_INSIDE,
                pin_bit(3) | pin_bit(6) | pin_bit(10));
    pinned_shot(session, HIT_HIGH, READ_EARLY, RELEASE_GOOD,
                pin_bit(2) | pin_bit(4) | pin_bit(7) | pin_bit(8) | pin_bit(10));
    pinned->model.lane = session->lane;
}

/* The spares view on the pins of the last shot (or those given), with an answer made by hand. */
static inline void pinned_spares(Pinned *pinned, Pins left, bool take)
{
    Model *model = &pinned->model;
    const Bag *bag = &pinned->session.bag;
    update(model, (Msg){.kind = MSG_KEY, .key = 'S'});
    model->spare_pins = left;
    Spare *spare = &model->spare;
    *spare = (Spare){.found = true, .left = left, .split = lane_split(left), .take = take};
    spare->line = (SpareLine){.ball = bag_slot(bag, 6),
                              .stance = 33.5,
                              .aim = 20.0,
                              .board = 10.5,
                              .degrees = 1.6,
                              .chance = take ? 0.004 : 0.91,
                              .falls = 2.8,
                              .pin = 3,
                              .side = SPARE_RIGHT_SIDE,
                              .across = 11.0,
                              .window_low = 8.2,
                              .window_high = 14.1};
    spare->sure = spare->line;
    spare->sure.stance = 26.0;
    spare->sure.board = 35.0;
    spare->sure.degrees = 3.0;
    spare->sure.falls = 0.96;
    spare->sure.pin = 7;
    spare->sure.across = 36.0;
    spare->sure.window_low = 30.8;
    spare->sure.window_high = 39.5;
    spare->move = (SpareMove){.known = true,
                              .boards = 3.0,
                              .stance = 31.0,
                              .aim = 14.0,
                              .chance = 0.66,
                              .computed_found = true,
                              .computed = 4.4,
                              .computed_chance = 0.88};
    pinned_path(&model->spare_path, 27.5, 9.0);
    model->spare_revision = model->asked.spare;
    double board = take ? spare->sure.board : spare->line.board;
    for (int i = 0; i < ROLL_POINTS_MAX; i++)
        model->spare_path.path[i].board = 24.0 + (board - 24.0) * i / (ROLL_POINTS_MAX - 1.0);
}

static inline Effects pinned_press(Pinned *pinned, uint32_t key)
{
    return update(&pinned->model, (Msg){.kind = MSG_KEY, .key = key});
}

static inline void pinned_type(Pinned *pinned, const char *keys)
{
    for (; *keys; keys++)
        pinned_press(pinned, (unsigned char)*keys);
}

/* The screen as text; the caller frees it. */
static inline char *pinned_screen(const Model *model)
{
    Canvas canvas;
    if (!canvas_init(&canvas, model->columns, model->rows))
        return NULL;
    view_draw(model, &canvas);
    size_t size = canvas_plain(&canvas, NULL, 0) + 1;
    char *text = malloc(size);
    if (text)
        canvas_plain(&canvas, text, size);
    canvas_fini(&canvas);
    return text;
}

#endif
