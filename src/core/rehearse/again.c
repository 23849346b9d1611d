/* again.c - see again.h. */
#include "core/rehearse/again.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/sort.h"
#include "core/advice/recall.h"
#include "core/event/stays.h"
#include "core/line/first.h"
#include "core/rehearse/world_day.h"

typedef enum Stage { STAGE_BEFORE, STAGE_AFTER, STAGE_PLAY, STAGE_DONE } Stage;
enum { BOWLED, OTHER, WAYS };

struct AgainJob {
    AgainSetup setup;
    Again *out;
    Stage stage;
    int first, from, last; /* shots: the first on that pair, the first to be played again, and one
                            * past the last */
    Played played;
    Session early; /* as it was at that frame */
    Oil sheet;     /* in the bowler's frame */
    Memory memory;
    Day day;
    int particles[AGAIN_DRAWS_MAX];
    RehearseStart start;
    RehearseSetup block;
    RehearseJob *rehearse;
    Rehearsal rehearsal;
    double pins[WAYS][AGAIN_DRAWS_MAX], strike[WAYS][AGAIN_DRAWS_MAX];
};

AgainJob *again_new(void)
{
    AgainJob *job = calloc(1, sizeof *job);
    if (job && !(job->rehearse = rehearse_new())) {
        free(job);
        return NULL;
    }
    return job;
}

void again_free(AgainJob *job)
{
    if (!job)
        return;
    rehearse_free(job->rehearse);
    free(job);
}

/* The shots of the frame's pair, and those from the frame on. */
static bool find_shots(AgainJob *job, Error *error)
{
    const Session *session = job->setup.session;
    Stay stays[SESSION_GAMES_MAX];
    int count = session_stays(session, stays), at = 0;
    job->from = -1;
    for (int i = session->shot_count - 1; i >= 0; i--)
        if (session->shot_game[i] == job->setup.game && session->shot_frame[i] == job->setup.frame)
            job->from = i;
    if (job->from < 0)
        return error_set(error, "no first ball was entered in game %d, frame %d", job->setup.game,
                         job->setup.frame);
    while (at + 1 < count && stays[at + 1].shot <= job->from)
        at++;
    job->first = stays[at].shot;
    job->last = at + 1 < count ? stays[at + 1].shot : session->shot_count;
    job->played = (Played){.frames = stays[at].frames, .as = session->shots[job->first]};
    job->out->first_game = job->setup.game;
    job->out->last_game = session->shot_game[job->last - 1];
    job->out->shots = job->last - job->first;
    return true;
}

/* What was thrown, as far as it was said: the rest as on that lane before. */
static Plan plan_then(const Session *session, const Shot *shot, const Plan *before)
{
    Plan plan = shot_plan(shot);
    if (!bag_slot(&session->bag, plan.slot))
        plan.slot = before->slot;
    if (shot->stance == 0.0)
        plan.stance = before->stance;
    if (shot->aim == 0.0)
        plan.aim = before->aim;
    return plan;
}

/* The game's score before that frame. */
static bool score_before(AgainJob *job, Score *score, Error *error)
{
    Session *early = &job->early;
    *early = *job->setup.session;
    early->shot_count = job->from;
    int told = 0;
    for (int i = 0; i < early->told_count; i++)
        if (early->told[i].before <= job->from &&
            (early->told[i].game < job->setup.game || early->told[i].frame < job->setup.frame))
            early->told[told++] = early->told[i];
    early->told_count = told;
    bool known = session_score(early, job->setup.game, score) && score->frame == job->setup.frame &&
                 score->ball == 1;
    return known || error_set(error,
                              "the score of game %d before frame %d isn't known: a leave or a "
                              "spare was not entered",
                              job->setup.game, job->setup.frame);
}

static bool find_start(AgainJob *job, Error *error)
{
    const Session *session = job->setup.session;
    RehearseStart *start = &job->start;
    start->given = &job->day;
    start->shots = session->shots + job->first;
    start->shot_count = job->from - job->first;
    start->lane = session->shots[job->from].lane;
    start->game = job->setup.game;
    if (!score_before(job, &start->score, error))
        return false;
    Plan first = session->first.slot != 0 ? session->first : first_plan(&session->bag, &job->sheet);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        start->plan[lane] = first;
        for (int i = job->first; i < job->from; i++)
            if (session->shots[i].lane == (Side)lane)
                start->plan[lane] = plan_then(session, &session->shots[i], &start->plan[lane]);
    }
    return true;
}

static void recall(AgainJob *job, int count)
{
    const Session *session = job->setup.session;
    memory_recall(&job->memory, &session->bag, &job->sheet, &session->pattern.about,
                  session->event.bowlers_on_pair, &session->event.field, &job->played, 1,
                  session->shots + job->first, count);
}

bool again_begin(AgainJob *job, const AgainSetup *setup, Again *out, Error *error)
{
    const Session *session = setup->session;
    job->setup = *setup;
    job->out = out;
    memset(out, 0, sizeof *out);
    oil_lay(&session->pattern, &job->sheet);
    oil_for_hand(&job->sheet, session->bag.bowler.hand, &job->sheet);
    if (!find_shots(job, error) || !find_start(job, error))
        return false;
    job->block = (RehearseSetup){.bag = &session->bag,
                                 .pattern = &session->pattern,
                                 .rules = setup->rules,
                                 .world = &WORLD_DAY,
                                 .games = out->last_game,
                                 .bowlers_on_pair = session->event.bowlers_on_pair,
                                 .mix = session->event.field,
                                 .start = &job->start};
    memory_init(&job->memory);
    recall(job, job->from - job->first);
    job->stage = STAGE_BEFORE;
    return true;
}

/* What was bowled at this place of the event; what was not goes on as before. */
static Plan as_bowled(const AgainJob *job, const View *view, int rack)
{
    const Session *session = job->setup.session;
    for (int i = job->from; i < job->last; i++)
        if (session->shot_game[i] == view->game && session->shot_frame[i] == view->frame &&
            rack-- == 0)
            return plan_then(session, &session->shots[i], &view->plan[view->lane]);
    return view->plan[view->lane];
}

/* The other way: on each lane the change first, then the player goes on. */
static Choice the_other_way(const AgainJob *job, const View *view, int rack, bool *changed)
{
    const AgainSetup *setup = &job->setup;
    if (changed[view->lane])
        return setup->player->choose(view);
    Choice choice = {as_bowled(job, view, rack), ADJUST_HOLD, NAN, NAN};
    changed[view->lane] = true;
    if (setup->slot != 0)
        choice.plan.slot = setup->slot;
    if (!isnan(setup->stance))
        choice.plan.stance = setup->stance;
    if (!isnan(setup->aim))
        choice.plan.aim = setup->aim;
    return choice;
}

/* Whether the other way begins with a change; if not, the player chooses from the first throw. */
static bool changes(const AgainSetup *setup)
{
    return setup->slot != 0 || !isnan(setup->stance) || !isnan(setup->aim);
}

static void play(AgainJob *job, int way, int draw)
{
    const Rehearsal *out = &job->rehearsal;
    bool asked = !changes(&job->setup), changed[SIDE_COUNT] = {asked, asked};
    int game = 0, frame = 0, rack = 0;
    rehearse_begin(job->rehearse, &job->block, &job->rehearsal);
    while (!rehearse_over(job->rehearse)) {
        const View *view = rehearse_view(job->rehearse);
        rack = view->game == game && view->frame == frame ? rack + 1 : 0;
        game = view->game;
        frame = view->frame;
        Choice choice = {as_bowled(job, view, rack), ADJUST_HOLD, NAN, NAN};
        if (way == OTHER)
            choice = the_other_way(job, view, rack, changed);
        rehearse_throw(job->rehearse, &choice);
    }
    job->pins[way][draw] = 0.0;
    for (int i = 0; i < out->games; i++)
        job->pins[way][draw] += out->score[i];
    job->strike[way][draw] = out->value;
}

static bool less(const void *a, const void *b) { return *(const double *)a < *(const double *)b; }

static AgainSpread spread_of(const double *values, int count)
{
    double sorted[AGAIN_DRAWS_MAX], square = 0.0;
    AgainSpread spread = {0};
    memcpy(sorted, values, (size_t)count * sizeof *values);
    sort_items(sorted, (size_t)count, sizeof *sorted, less);
    for (int i = 0; i < count; i++)
        spread.mean += sorted[i] / count;
    for (int i = 0; i < count; i++)
        square += (sorted[i] - spread.mean) * (sorted[i] - spread.mean);
    spread.low = sorted[(count - 1) / 10];
    spread.high = sorted[count - 1 - (count - 1) / 10];
    spread.error = count > 1 ? sqrt(square / (count - 1) / count) : 0.0;
    return spread;
}

static void sum_up(AgainJob *job)
{
    Again *out = job->out;
    int count = out->draws;
    double by[AGAIN_DRAWS_MAX], gain[AGAIN_DRAWS_MAX];
    int better = 0;
    for (int i = 0; i < count; i++) {
        by[i] = job->pins[OTHER][i] - job->pins[BOWLED][i];
        gain[i] = job->strike[OTHER][i] - job->strike[BOWLED][i];
        better += by[i] > 0.0;
    }
    out->bowled = spread_of(job->pins[BOWLED], count);
    out->other = spread_of(job->pins[OTHER], count);
    out->difference = spread_of(by, count);
    out->better = (double)better / count;
    out->strikes[BOWLED] = spread_of(job->strike[BOWLED], count).mean;
    out->strikes[OTHER] = spread_of(job->strike[OTHER], count).mean;
    AgainSpread strike = spread_of(gain, count);
    out->strike_gain = strike.mean;
    out->strike_gain_error = strike.error;
}

bool again_step(AgainJob *job)
{
    const Shot *shots = job->setup.session->shots + job->first;
    int before = job->from - job->first, all = job->last - job->first;
    switch (job->stage) {
    case STAGE_BEFORE:
        if (memory_weigh(&job->memory, shots, before))
            break;
        memcpy(job->day.film, job->memory.belief.film, sizeof job->day.film);
        recall(job, all);
        job->stage = STAGE_AFTER;
        break;
    case STAGE_AFTER:
        if (memory_weigh(&job->memory, shots, all))
            break;
        job->day.after = &job->memory.belief;
        belief_draw(&job->memory.belief, job->particles, job->setup.draws);
        job->stage = STAGE_PLAY;
        break;
    case STAGE_PLAY:
        job->day.particle = job->particles[job->out->draws];
        job->block.seed = job->setup.seed + (uint64_t)job->out->draws;
        play(job, BOWLED, job->out->draws);
        play(job, OTHER, job->out->draws);
        if (++job->out->draws < job->setup.draws)
            break;
        sum_up(job);
        job->stage = STAGE_DONE;
        break;
    case STAGE_DONE:
        break;
    }
    return job->stage == STAGE_DONE;
}
