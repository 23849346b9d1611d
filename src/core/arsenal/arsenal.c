/* arsenal.c - the job: films, every ball on every film, then the comparisons. */
#include "core/arsenal/arsenal_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/arsenal/pick.h"

const Surface SURFACE_SET[SURFACES] = {
    {FINISH_GRIT, 500, 0},  {FINISH_GRIT, 1000, 0},  {FINISH_GRIT, 2000, 0}, {FINISH_GRIT, 3000, 0},
    {FINISH_GRIT, 4000, 0}, {FINISH_COMPOUND, 0, 0}, {FINISH_POLISH, 0, 0}};

enum { PICK_NODES = 1000 }; /* a few milliseconds */

typedef enum ArsenalStage {
    STAGE_FILMS,
    STAGE_READY,    /* prepare films for batches */
    STAGE_VALUES,   /* ball by state film */
    STAGE_SHOWINGS, /* ball by game */
    STAGE_SURFACES,
    STAGE_IDEALS,
    STAGE_COMPARE,
    STAGE_PICK, /* prepare the search, then search */
    STAGE_SEARCH,
    STAGE_DONE
} ArsenalStage;

struct ArsenalJob {
    ArsenalInput in;
    Bag bag;
    Arsenal out;
    ArsenalStage stage;
    int at;
    LaneFilms films;
    BatchOil state[STATE_FILMS], game[BLOCK_GAMES_MAX + 1];
    MotionBody body[BAG_BALLS_MAX];
    BatchBall batch[BAG_BALLS_MAX];
    double ideal[IDEALS][STATE_FILMS];
    int spare;                           /* the ball with a reserved place; -1: none */
    int surface_of[PICK_CANDIDATES_MAX]; /* of the pick's candidates */
    PickJob *pick;
};
_Static_assert((int)SET_MAX <= (int)PICK_MAX && (int)STATE_FILMS <= (int)PICK_FILMS_MAX &&
                   BAG_BALLS_MAX * (SURFACES + 1) <= (int)PICK_CANDIDATES_MAX,
               "a pick has room for every ball with every surface");

ArsenalJob *arsenal_job_new(void)
{
    ArsenalJob *job = calloc(1, sizeof *job);
    if (job && !(job->pick = pick_new())) {
        free(job);
        job = NULL;
    }
    return job;
}

void arsenal_job_free(ArsenalJob *job)
{
    if (job)
        pick_free(job->pick);
    free(job);
}

const Arsenal *arsenal_result(const ArsenalJob *job) { return &job->out; }
const LaneFilms *arsenal_films(const ArsenalJob *job) { return &job->films; }

double arsenal_film_weight(const Arsenal *arsenal, int film)
{
    return arsenal->weight[film / STATE_VOLUMES] * STATE_VOLUME_SHARE[film % STATE_VOLUMES];
}

static double mean_of(const Arsenal *arsenal, const double value[STATE_FILMS])
{
    double sum = 0.0;
    for (int f = 0; f < STATE_FILMS; f++)
        sum += arsenal_film_weight(arsenal, f) * value[f];
    return sum;
}

void arsenal_begin(ArsenalJob *job, const ArsenalInput *input)
{
    Oil sheet, in_frame;
    PickJob *pick = job->pick;
    memset(job, 0, sizeof *job);
    job->pick = pick;
    job->in = *input;
    job->bag = *input->bag;
    job->in.bag = &job->bag;
    oil_lay(input->pattern, &sheet);
    job->in.pattern = NULL; /* not used again */
    oil_for_hand(&sheet, job->bag.bowler.hand, &in_frame);
    lane_films_begin(&job->films, &in_frame, &job->bag.bowler, input->games, input->bowlers,
                     &input->mix);
    Arsenal *out = &job->out;
    out->revision = input->revision;
    out->games = job->films.games;
    out->bowlers = job->films.bowlers;
    double sum = 0.0;
    for (int s = 0; s < LANE_STATE_COUNT; s++)
        sum += input->weight[s];
    if (sum > 0.0)
        for (int s = 0; s < LANE_STATE_COUNT; s++)
            out->weight[s] = input->weight[s] / sum;
    else
        lane_state_weights(out->games, out->weight);
    int balls = job->bag.count;
    for (int i = 0; i < balls; i++) {
        motion_body(&job->bag.balls[i], &job->body[i]);
        batch_ball(&job->body[i], &job->batch[i]);
        out->ball[i].strength = strength_of(&job->body[i], &job->films.game[0], &job->bag.bowler);
        out->ball[i].spare = bag_for_spares(&job->bag, &job->bag.balls[i], false);
    }
    out->steps_all = out->games + 1 + balls * (STATE_VOLUMES + 1) + (out->games + 1) +
                     (input->surfaces ? balls * SURFACES : 0) + IDEALS + 2;
}

static Showing show(const ArsenalJob *job, int ball, int game)
{
    const Bowler *bowler = &job->bag.bowler;
    Fit fit = fit_ball(&job->batch[ball], &job->game[game], bowler);
    Showing showing = {.ready = true, .found = fit.found};
    const Oil *oil = &job->films.game[game];
    showing.line = fit_line(&job->body[ball], oil, bowler, &fit);
    showing.value = fit.found ? line_value(&showing.line) : fit.value;
    Delivery delivery = delivery_of(bowler, showing.line.stance, showing.line.aim);
    Roll roll;
    motion_roll(&job->body[ball], oil, &delivery, &roll);
    showing.flare_in = roll.flare_in;
    showing.crossed_boards = roll.entry_board - roll.breakpoint_board;
    return showing;
}

/* The next item of a stage with `count` items; false if none is left. */
static bool next(ArsenalJob *job, int count, int *at)
{
    if (job->at >= count) {
        job->at = 0;
        job->stage++;
        return false;
    }
    *at = job->at++;
    return true;
}

static void do_value(ArsenalJob *job, int at) /* a ball's films of one volume */
{
    ArsenalBall *ball = &job->out.ball[at / STATE_VOLUMES];
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        int film = s * STATE_VOLUMES + at % STATE_VOLUMES;
        ball->value[film] =
            fit_ball(&job->batch[at / STATE_VOLUMES], &job->state[film], &job->bag.bowler).value;
    }
    ball->mean = mean_of(&job->out, ball->value);
}

static void do_surface(ArsenalJob *job, int at)
{
    const Bowler *bowler = &job->bag.bowler;
    Ball ball = job->bag.balls[at / SURFACES];
    SurfaceShow *show = &job->out.ball[at / SURFACES].surface[at % SURFACES];
    if (ball.cover == COVER_POLYESTER || (ball.slot == 0 && !job->in.pick_surfaces))
        return;
    MotionBody body;
    BatchBall batch;
    double now_um = ball_roughness_um(&ball.surface);
    ball.surface = SURFACE_SET[at % SURFACES];
    if (fabs(ball_roughness_um(&ball.surface) - now_um) < 0.01 * now_um) { /* its own surface */
        const ArsenalBall *arsenal = &job->out.ball[at / SURFACES];
        const Line *line = &arsenal->at[0].line;
        *show = (SurfaceShow){.ready = true,
                              .first_move_ft = line->first_move_ft,
                              .hook_ft = line->hook_ft,
                              .entry_deg = line->entry_deg,
                              .pocket = line->pocket,
                              .mean = arsenal->mean};
        memcpy(show->value, arsenal->value, sizeof show->value);
        return;
    }
    motion_body(&ball, &body);
    batch_ball(&body, &batch);
    for (int f = 0; f < STATE_FILMS; f++) {
        Fit fit = fit_ball(&batch, &job->state[f], bowler);
        show->value[f] = fit.value;
        if (f == 0) { /* fresh, as dressed */
            Line line = fit_line(&body, &job->films.state[LANE_FRESH], bowler, &fit);
            show->first_move_ft = line.first_move_ft;
            show->hook_ft = line.hook_ft;
            show->entry_deg = line.entry_deg;
            show->pocket = line.pocket;
        }
    }
    show->mean = mean_of(&job->out, show->value);
    show->ready = true;
}

static void do_ideal(ArsenalJob *job, int at)
{
    MotionBody body;
    BatchBall batch;
    motion_body(&arsenal_ideals()[at].ball, &body);
    batch_ball(&body, &batch);
    for (int f = 0; f < STATE_FILMS; f++)
        job->ideal[at][f] = fit_ball(&batch, &job->state[f], &job->bag.bowler).value;
}

static void do_ready(ArsenalJob *job)
{
    for (int f = 0; f < STATE_FILMS; f++) {
        Oil oil = job->films.state[f / STATE_VOLUMES];
        oil_scale(&oil, STATE_VOLUME[f % STATE_VOLUMES]);
        batch_oil(&oil, BATCH_QUICK, &job->state[f]);
    }
    for (int g = 0; g <= job->films.games; g++)
        batch_oil(&job->films.game[g], BATCH_QUICK, &job->game[g]);
}

/* The straightest ball: polyester, or else the one that hooks least on the fresh lane. */
static int spare_ball(const ArsenalJob *job)
{
    int best = -1;
    double least = INFINITY;
    for (int i = 0; i < job->bag.count; i++) {
        Delivery delivery = delivery_of(&job->bag.bowler, 0.0, 12.0);
        delivery.laydown_board = 20.0;
        delivery.launch_deg = delivery_launch_deg(20.0, 15.0);
        Arrival arrival = motion_arrive(&job->body[i], &job->films.game[0], &delivery);
        double hook = (arrival.gutter ? 0.0 : arrival.board) + (job->out.ball[i].spare ? 0.0 : 1e3);
        if (hook < least) {
            least = hook;
            best = i;
        }
    }
    return best;
}

/* Whether one place is reserved for a spare ball: if there is a ball only for spares, or there are
 * more balls than places. */
static bool keeps_spare(const ArsenalJob *job)
{
    bool any = job->bag.count > job->in.pick;
    for (int i = 0; i < job->bag.count; i++)
        any = any || job->out.ball[i].spare;
    return any && !job->in.spare_free && job->in.pick >= 2;
}

/* Every strike ball, as it is and with each surface that was tried. */
static void begin_pick(ArsenalJob *job)
{
    PickProblem *problem = pick_problem(job->pick);
    const Arsenal *out = &job->out;
    job->spare = keeps_spare(job) ? spare_ball(job) : -1;
    *problem = (PickProblem){.films = STATE_FILMS, .count = job->in.pick - (job->spare >= 0)};
    for (int f = 0; f < STATE_FILMS; f++)
        problem->weight[f] = arsenal_film_weight(out, f);
    for (int i = 0; i < job->bag.count; i++)
        for (int k = -1; k < (job->in.pick_surfaces ? SURFACES : 0); k++) {
            const ArsenalBall *ball = &out->ball[i];
            if (i == job->spare || ball->spare || (k >= 0 && !ball->surface[k].ready))
                continue;
            int c = problem->candidates++;
            problem->ball[c] = i;
            job->surface_of[c] = k;
            memcpy(problem->value[c], k < 0 ? ball->value : ball->surface[k].value,
                   sizeof ball->value);
        }
    pick_begin(job->pick);
}

static void take_pick(ArsenalJob *job)
{
    const Pick *pick = pick_result(job->pick);
    const int *ball = pick_problem(job->pick)->ball;
    Set *set = &job->out.picked;
    *set = (Set){0};
    for (int i = 0; i < pick->count; i++) {
        int c = pick->candidate[i];
        set->place[set->count++] = (SetBall){.ball = ball[c], .surface = job->surface_of[c]};
    }
    if (job->spare >= 0)
        set->place[set->count++] = (SetBall){.ball = job->spare, .surface = -1, .spare = true};
    arsenal_place(&job->out, &job->bag, set);
}

static void do_bag(ArsenalJob *job)
{
    Set *set = &job->out.bag;
    *set = (Set){0};
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(&job->bag, slot);
        if (!ball)
            continue;
        int i = (int)(ball - job->bag.balls);
        set->place[set->count++] =
            (SetBall){.ball = i, .surface = -1, .spare = job->out.ball[i].spare};
    }
    arsenal_place(&job->out, &job->bag, set);
    arsenal_compare(&job->out, &job->bag, &job->ideal[0][0], job->in.surfaces);
}

bool arsenal_step(ArsenalJob *job)
{
    Arsenal *out = &job->out;
    int at, balls = job->bag.count, games = job->films.games + 1;
    out->steps += out->steps < out->steps_all;
    switch (job->stage) {
    case STAGE_FILMS:
        if (lane_films_step(&job->films))
            job->stage++;
        break;
    case STAGE_READY:
        do_ready(job);
        job->stage++;
        break;
    case STAGE_VALUES:
        if (next(job, balls * STATE_VOLUMES, &at))
            do_value(job, at);
        break;
    case STAGE_SHOWINGS: /* a game's for all balls; fresh first */
        if (next(job, games, &at))
            for (int i = 0; i < balls; i++)
                out->ball[i].at[at] = show(job, i, at);
        break;
    case STAGE_SURFACES:
        if (next(job, job->in.surfaces || job->in.pick_surfaces ? balls * SURFACES : 0, &at))
            do_surface(job, at);
        break;
    case STAGE_IDEALS:
        if (next(job, IDEALS, &at))
            do_ideal(job, at);
        break;
    case STAGE_COMPARE:
        do_bag(job);
        job->stage++;
        break;
    case STAGE_PICK:
        if (job->in.pick > 0)
            begin_pick(job);
        job->stage = job->in.pick > 0 ? STAGE_SEARCH : STAGE_DONE;
        break;
    case STAGE_SEARCH:
        if (pick_step(job->pick, PICK_NODES)) {
            take_pick(job);
            job->stage++;
        }
        break;
    case STAGE_DONE:
        out->steps = out->steps_all;
        out->done = true;
        break;
    }
    return out->done;
}
