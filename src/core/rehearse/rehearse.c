/* rehearse.c - the block: frames, racks and results. */
#include "core/rehearse/rehearse.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/line/first.h"
#include "core/pins/rack.h"
#include "core/spare/spare.h"
#include "core/spare/spare_ball.h"

/* Where the next full rack is played. */
typedef struct Turn {
    Side lane;
    int game, frame; /* frame 0 is practice: seen and felt by the lane, not counted */
    int rack;        /* full racks before it in the frame; practice: shots before it */
} Turn;

struct RehearseJob {
    Truth *truth;
    AdviceJob *advice;
    RehearseSetup setup;
    Rehearsal *out;
    Oil sheet; /* in the bowler's frame */
    Plan plan[SIDE_COUNT];
    Shot shots[SESSION_SHOTS_MAX + REHEARSE_SHOTS_MAX + REHEARSE_PRACTICE_MAX];
    int shot_count; /* practice too */
    long turns;     /* of all blocks: no two questions of the job have the same number */
    Turn turn;      /* the next one */
    bool over;
    Score score;
    Roll roll; /* of the last throw */
    View view; /* of the next one */
    Rng spare; /* for the game's spare balls */
    Rng wrong; /* for the error of the player that knows the lane */
};

RehearseJob *rehearse_new(void)
{
    RehearseJob *job = calloc(1, sizeof *job);
    if (!job)
        return NULL;
    job->truth = truth_new();
    job->advice = advice_job_new();
    if (!job->truth || !job->advice) {
        rehearse_free(job);
        return NULL;
    }
    return job;
}

void rehearse_free(RehearseJob *job)
{
    if (!job)
        return;
    truth_free(job->truth);
    advice_job_free(job->advice);
    free(job);
}

static Choice choose(RehearseJob *job)
{
    const Player *player = job->setup.player;
    job->truth->off_boards = 0.0;
    if (!player->know)
        return player->choose(&job->view);
    Choice choice = player->know(&job->view, job->truth);
    job->truth->off_boards = job->setup.known_off_boards * rng_normal(&job->wrong);
    return choice;
}

static Pins roll_rack(const Roll *roll, const Ball *ball, Rng *rng)
{
    if (roll->gutter)
        return PINS_ALL;
    RackHit hit = {.board = roll->entry_board,
                   .degrees = roll->entry_deg,
                   .mph = roll->entry_mph,
                   .rpm = 0.0,
                   .pounds = ball->pounds};
    return rack_roll(&hit, PINS_ALL, rng);
}

/* What the spare ball leaves: a straight ball with the weight of the first slot's ball, which keeps
 * SPARE_SLOWER of its speed until the pins (about like the demo bag's polyester ball). */
#define SPARE_SLOWER 0.87
static Pins roll_spare(const Bag *bag, Pins standing, Rng *rng)
{
    double pounds = 15.0;
    for (int slot = BAG_SLOTS; slot >= 1; slot--)
        if (bag_slot(bag, slot))
            pounds = bag_slot(bag, slot)->pounds;
    double mph = SPARE_SLOWER * bowler_spare_release(&bag->bowler).mph;
    return spare_ball(standing, spare_miss(&bag->bowler), mph, pounds, rng);
}

double rehearse_film(const Oil *oil, int low, int high)
{
    double sum = 0.0;
    for (int j = 30; j <= 70; j++) /* 15 to 35 ft */
        for (int b = low; b <= high; b++)
            sum += oil->units[j][b - 1];
    return sum / (41.0 * (high - low + 1));
}

/* Does the belief's 80 % interval for the film in the track hold the truth? */
static void check_interval(RehearseJob *job, Side lane)
{
    const Roll *roll = &job->roll;
    int low = LANE_BOARDS, high = 1;
    for (int i = 30; i <= 70 && i < roll->count; i++) {
        low = (int)fmin(low, floor(roll->path[i].board));
        high = (int)fmax(high, ceil(roll->path[i].board));
    }
    if (low > high || low < 1 || high > LANE_BOARDS)
        return;
    Estimate film = belief_track(advice_belief(job->advice), lane, low, high, 15.0, 35.0);
    double truth = rehearse_film(&job->truth->oil[lane], low, high);
    job->out->intervals++;
    job->out->inside += fabs(truth - film.mean) <= 1.2816 * film.sd;
}

/* The plan's value under the truth: its chance of a strike, whatever the luck. */
static double true_value(RehearseJob *job, Side lane, int game)
{
    const Plan *plan = &job->plan[lane];
    Delivery meant = plan_delivery(&job->truth->bag->bowler, plan);
    truth_prepare(job->truth, lane, game);
    return truth_outlook(job->truth, lane, plan->slot, &meant).strike;
}

#define HAPPENING 0x68617070656eu /* seeds what happens between shots */

/* Each throw has its own luck, whatever the player did before. */
static uint64_t seed_of(const RehearseSetup *setup, const Turn *turn)
{
    int throw = turn->frame > 0 ? turn->game * 100 + turn->frame * 4 : 5000;
    return setup->seed * 1000003u + (uint64_t)(throw +turn->rack);
}

/* Throws the lane's plan and records what the bowler sees; returns the pins left, numbered from the
 * bowler's own side. */
static Pins throw_ball(RehearseJob *job, Rng *luck, RehearseShot *record)
{
    Truth *truth = job->truth;
    const Turn *turn = &job->turn;
    const Plan *plan = &job->plan[turn->lane];
    const Bag *bag = job->setup.bag;
    Shot *shot = &record->shot;
    Roll *roll = &job->roll;
    *shot = session_shot(turn->lane, plan);
    Delivery d = truth_throw(truth, plan, turn->game, luck, &shot->release);
    truth->world->roll(truth, turn->lane, plan->slot, &d, luck, roll);
    roll->entry_board += truth->off_boards; /* NAN in the gutter stays so */
    truth_see(truth, roll, &d, job->setup.sights, luck, shot);
    Pins left = roll_rack(roll, bag_slot(bag, plan->slot), luck);
    shot->left_said = true;
    shot->left = bag->bowler.hand == HAND_LEFT ? lane_mirror_pins(left) : left;
    record->board = roll->entry_board;
    record->degrees = roll->entry_deg;
    record->pocket = roll->entry_board >= LANE_POCKET_LOW && roll->entry_board <= LANE_POCKET_HIGH;
    record->strike = left == 0;
    return left;
}

/* One full rack as chosen; returns the pins left. */
static Pins play_rack(RehearseJob *job, const Choice *choice)
{
    const Turn *turn = &job->turn;
    const RehearseSetup *setup = &job->setup;
    Rehearsal *out = job->out;
    bool counts = turn->frame > 0;
    RehearseShot *record = &out->shots[out->shot_count];
    job->plan[turn->lane] = choice->plan;
    *record = (RehearseShot){.game = turn->game,
                             .frame = turn->frame,
                             .kind = choice->kind,
                             .stated = choice->pocket,
                             .stated_strike = choice->strike,
                             .value = true_value(job, turn->lane, turn->game)};
    Rng luck = rng_seed(seed_of(setup, turn));
    Pins left = throw_ball(job, &luck, record);
    if (counts && setup->player == &PLAYER_ADVISOR && out->shot_count % 3 == 2)
        check_interval(job, turn->lane);
    truth_wear(job->truth, turn->lane, turn->game, &job->roll,
               bag_slot(setup->bag, choice->plan.slot)->cover, setup->bowlers_on_pair, &luck);
    job->shots[job->shot_count++] = record->shot;
    if (counts) {
        out->pockets += record->pocket;
        out->strikes += record->strike;
        out->shot_count++;
    } else {
        out->practice[out->practice_count++] = choice->plan;
    }
    return left;
}

static void begin_game(RehearseJob *job, int game)
{
    job->score = score_begin();
    job->spare = rng_seed(job->setup.seed * 7919u + (uint64_t)game);
    job->turn = (Turn){SIDE_LEFT, game, 1, 0};
}

static void end_game(RehearseJob *job)
{
    Rehearsal *out = job->out;
    out->score[out->games++] = job->score.total;
    out->mean_pins = out->value = 0.0;
    for (int i = 0; i < out->games; i++)
        out->mean_pins += out->score[i] / (double)out->games;
    for (int i = 0; i < out->shot_count; i++)
        out->value += out->shots[i].value / out->shot_count;
    job->over = job->turn.game == job->setup.games;
    if (!job->over)
        begin_game(job, job->turn.game + 1);
}

/* Scores the first ball and the spare ball that follows it, which the shot then tells of. */
static void score_rack(RehearseJob *job, Pins left)
{
    char why[80];
    int frame = job->score.frame;
    job->turn.rack++;
    score_add(&job->score, score_ball_of(PINS_ALL, left), why, sizeof why);
    if (left != 0 && !job->score.over && job->score.standing < 10) {
        Pins after = roll_spare(job->setup.bag, left, &job->spare);
        bool mirror = job->setup.bag->bowler.hand == HAND_LEFT;
        Shot *shot = &job->shots[job->shot_count - 1];
        score_add(&job->score, score_ball_of(left, after), why, sizeof why);
        shot->spare_said = true;
        shot->spare_left = mirror ? lane_mirror_pins(after) : after;
        job->out->shots[job->out->shot_count - 1].shot = *shot;
    }
    if (job->score.frame != frame)
        job->turn = (Turn){!job->turn.lane, job->turn.game, job->score.frame, 0};
    if (job->score.over)
        end_game(job);
}

/* What may happen before the next throw, and what is known then. */
static void await(RehearseJob *job)
{
    const RehearseSetup *setup = &job->setup;
    const Turn *turn = &job->turn;
    if (job->over)
        return;
    if (setup->world->happen) {
        Rng chance = rng_seed(seed_of(setup, turn) ^ HAPPENING);
        setup->world->happen(job->truth, turn->lane, &chance);
    }
    job->view = (View){.bag = setup->bag,
                       .pattern = setup->pattern,
                       .rules = setup->rules,
                       .shots = job->shots,
                       .shot_count = job->shot_count,
                       .plan = {job->plan[SIDE_LEFT], job->plan[SIDE_RIGHT]},
                       .lane = turn->lane,
                       .game = turn->game,
                       .frame = turn->frame > 0 ? turn->frame : 1,
                       .practice = turn->frame == 0,
                       .bowlers_on_pair = setup->bowlers_on_pair,
                       .mix = setup->mix,
                       .advice = job->advice,
                       .question = ++job->turns};
}

/* Takes the place of an event. */
static void go_on(RehearseJob *job, const RehearseStart *start)
{
    begin_game(job, start->game);
    memcpy(job->shots, start->shots, (size_t)start->shot_count * sizeof *job->shots);
    memcpy(job->plan, start->plan, sizeof job->plan);
    job->shot_count = start->shot_count;
    job->score = start->score;
    job->turn = (Turn){start->lane, start->game, start->score.frame, 0};
}

void rehearse_begin(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out)
{
    Truth *truth = job->truth;
    job->setup = *setup;
    job->out = out;
    memset(out, 0, sizeof *out);
    oil_lay(setup->pattern, &job->sheet);
    oil_for_hand(&job->sheet, setup->bag->bowler.hand, &job->sheet);
    truth->given = setup->start ? setup->start->given : NULL;
    truth_draw(truth, setup->world, setup->bag, &job->sheet, setup->seed);
    truth_meet(truth, &setup->mix, setup->bowlers_on_pair - 1, setup->seed + 41u);
    truth->steady = setup->steady;
    job->shot_count = 0;
    job->over = false;
    job->wrong = rng_seed(setup->seed + 77u);
    begin_game(job, 1);
    if (setup->start)
        go_on(job, setup->start);
    else
        job->plan[SIDE_LEFT] = job->plan[SIDE_RIGHT] = first_plan(setup->bag, &job->sheet);
    if (setup->practice > 0 && !setup->start)
        job->turn = (Turn){SIDE_LEFT, 1, 0, 0};
    await(job);
}

void rehearse_throw(RehearseJob *job, const Choice *choice)
{
    Turn *turn = &job->turn;
    Pins left = play_rack(job, choice);
    if (turn->frame > 0)
        score_rack(job, left);
    else if (++turn->rack < job->setup.practice)
        turn->lane = turn->rack % 2 == 0 ? SIDE_LEFT : SIDE_RIGHT;
    else
        begin_game(job, 1);
    await(job);
}

void rehearse_play(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out)
{
    rehearse_begin(job, setup, out);
    while (!job->over) {
        Choice choice = choose(job);
        rehearse_throw(job, &choice);
    }
}

Plan shot_plan(const Shot *shot)
{
    return (Plan){.slot = shot->slot,
                  .stance = shot->stance,
                  .aim = shot->aim,
                  .mph_change = shot->mph_change,
                  .loft_change_ft = shot->loft_change_ft,
                  .rotation_change_deg = shot->rotation_change_deg};
}

bool rehearse_over(const RehearseJob *job) { return job->over; }
const View *rehearse_view(const RehearseJob *job) { return &job->view; }
const Score *rehearse_score(const RehearseJob *job) { return &job->score; }
Truth *rehearse_truth(RehearseJob *job) { return job->truth; }

const Shot *rehearse_seen(const RehearseJob *job)
{
    return job->shot_count > 0 ? &job->shots[job->shot_count - 1] : NULL;
}

const Roll *rehearse_roll(const RehearseJob *job)
{
    return job->shot_count > 0 ? &job->roll : NULL;
}
