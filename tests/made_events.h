/* made_events.h - events of a bowler whose true numbers are known: bowled on hidden lanes with one
 * bag, logged as if by another whose numbers are presets. */
#ifndef SETTEE_TESTS_MADE_EVENTS_H
#define SETTEE_TESTS_MADE_EVENTS_H

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/line/first.h"
#include "core/rehearse/rehearse.h"
#include "store/files.h"

enum { MADE_BALLS = 3, MADE_GAMES = 3 };

/* What the bowler doesn't know. */
typedef struct MadeTruth {
    double mph;                  /* thrown more than the bag says */
    double scatter;              /* times that of the bag */
    double strength[MADE_BALLS]; /* of the balls in slots 1..3, more than the bag says */
} MadeTruth;

/* A world whose balls are the same at every event: its own draws of them are dropped. */
static const World *made_base;
static inline void made_draw(Truth *truth, const Oil *sheet, Rng *rng)
{
    made_base->draw(truth, sheet, rng);
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        MotionBody own;
        if (!truth->filled[slot])
            continue;
        motion_body(bag_slot(truth->bag, slot + 1), &own);
        truth->body[slot].friction.mu_film = own.friction.mu_film;
        batch_ball(&truth->body[slot], &truth->batch[slot]);
    }
}

/* A first line for one ball alone, and from then on two boards of feet and one of aim against the
 * last miss on that lane. */
static inline Plan made_plan(const View *view, int slot, const Plan *first)
{
    const Shot *last = NULL;
    for (int i = 0; i < view->shot_count; i++)
        if (view->shots[i].lane == view->lane)
            last = &view->shots[i];
    if (!last || last->slot != slot)
        return *first;
    Plan plan = shot_plan(last);
    int side = shot_side(last->hit);
    plan.stance += 2.0 * side;
    plan.aim += side;
    return plan;
}

static inline Plan made_first(const Bag *bag, const Pattern *pattern, int slot)
{
    Bag one = {.bowler = bag->bowler, .count = 1};
    Oil oil;
    one.balls[0] = *bag_slot(bag, slot);
    oil_lay(pattern, &oil);
    oil_for_hand(&oil, bag->bowler.hand, &oil);
    return first_plan(&one, &oil);
}

/* Whether a throw is the second one of its frame at all ten pins. */
static inline bool made_is_second(const Rehearsal *out, int i)
{
    return i < out->shot_count && out->shots[i - 1].shot.left == PINS_ALL &&
           out->shots[i].game == out->shots[i - 1].game &&
           out->shots[i].frame == out->shots[i - 1].frame;
}

/* Bowls an event and logs it under `bag`; false: out of memory. */
static inline bool made_event(const Bag *bag, const Pattern *pattern, const World *base,
                              const MadeTruth *truth, uint64_t seed, Session *session)
{
    static Bag real;
    static Rehearsal out;
    World world = *base;
    RehearseJob *job = rehearse_new();
    if (!job)
        return false;
    made_base = base;
    world.draw = made_draw;
    real = *bag;
    real.bowler.mph += truth->mph;
    real.bowler.scatter.launch_deg *= truth->scatter;
    real.bowler.scatter.laydown_boards *= truth->scatter;
    real.bowler.scatter.mph *= truth->scatter;
    real.bowler.scatter.rpm *= truth->scatter;
    for (int i = 0; i < real.count; i++)
        if (real.balls[i].slot >= 1 && real.balls[i].slot <= MADE_BALLS)
            real.balls[i].cover_strength += truth->strength[real.balls[i].slot - 1];
    RehearseSetup setup = {.bag = &real,
                           .pattern = pattern,
                           .world = &world,
                           .games = MADE_GAMES,
                           .bowlers_on_pair = 3,
                           .seed = seed};
    EventInfo event = {.pair = {1, 2}, .games = MADE_GAMES, .bowlers_on_pair = 3};
    Plan first[MADE_BALLS];
    for (int i = 0; i < MADE_BALLS; i++)
        first[i] = made_first(bag, pattern, i + 1);
    rehearse_begin(job, &setup, &out);
    while (!rehearse_over(job)) {
        const View *view = rehearse_view(job);
        int slot = 1 + (int)((seed + (uint64_t)view->game) % MADE_BALLS);
        Choice choice = {made_plan(view, slot, &first[slot - 1]), ADJUST_HOLD, NAN, NAN};
        rehearse_throw(job, &choice);
    }
    session_begin(session, &event, bag, pattern, &first[0]);
    int logged = 0;
    for (int i = 0; i < out.shot_count; i++) {
        Entry game = {.kind = ENTRY_GAME};
        Entry shot = {
            .kind = ENTRY_SHOT, .lane = out.shots[i].shot.lane, .shot = out.shots[i].shot};
        if (shot_impossible(&shot.shot)) /* the eye was a board off: nobody would enter it */
            shot.shot.hit = HIT_UNSAID;
        if (made_is_second(&out, i + 1)) { /* after a gutter ball at all ten */
            shot.shot.spare_said = true;
            shot.shot.spare_left = out.shots[i + 1].shot.left;
            i++;
        }
        if (out.shots[i].game > session->game)
            session_apply(session, &game);
        session_apply(session, &shot);
        logged++;
    }
    rehearse_free(job);
    return session->shot_count == logged;
}

#endif
