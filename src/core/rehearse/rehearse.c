/* rehearse.c - the block: frames, racks and results. */
#include "core/rehearse/rehearse.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/event/score.h"
#include "core/line/first.h"
#include "core/pins/rack.h"
#include "core/spare/spare.h"
#include "core/spare/spare_ball.h"

struct RehearseJob {
    Truth *truth;
    AdviceJob *advice;
    Plan plan[SIDE_COUNT];
    Shot shots[REHEARSE_SHOTS_MAX + REHEARSE_PRACTICE_MAX];
    int shot_count; /* practice too */
    Rng wrong;      /* for the error of the player that knows the lane */
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

static Choice choose(RehearseJob *job, const RehearseSetup *setup, Side lane, int game, int frame)
{
    View view = {.bag = setup->bag,
                 .pattern = setup->pattern,
                 .rules = setup->rules,
                 .shots = job->shots,
                 .shot_count = job->shot_count,
                 .plan = {job->plan[SIDE_LEFT], job->plan[SIDE_RIGHT]},
                 .lane = lane,
                 .game = game,
                 .frame = frame,
                 .bowlers_on_pair = setup->bowlers_on_pair,
                 .mix = setup->mix,
                 .advice = job->advice};
    job->truth->off_boards = 0.0;
    if (!setup->player->know)
        return setup->player->choose(&view);
    Choice choice = setup->player->know(&view, job->truth);
    job->truth->off_boards = setup->known_off_boards * rng_normal(&job->wrong);
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

static double mean_under_track(const Oil *oil, int low, int high)
{
    double sum = 0.0;
    for (int j = 30; j <= 70; j++) /* 15 to 35 ft */
        for (int b = low; b <= high; b++)
            sum += oil->units[j][b - 1];
    return sum / (41.0 * (high - low + 1));
}

/* Does the belief's 80 % interval for the film in the track hold the truth? */
static void check_interval(RehearseJob *job, Side lane, const Roll *roll, Rehearsal *out)
{
    int low = LANE_BOARDS, high = 1;
    for (int i = 30; i <= 70 && i < roll->count; i++) {
        low = (int)fmin(low, floor(roll->path[i].board));
        high = (int)fmax(high, ceil(roll->path[i].board));
    }
    if (low > high || low < 1 || high > LANE_BOARDS)
        return;
    Estimate film = belief_track(advice_belief(job->advice), lane, low, high, 15.0, 35.0);
    double truth = mean_under_track(&job->truth->oil[lane], low, high);
    out->intervals++;
    out->inside += fabs(truth - film.mean) <= 1.2816 * film.sd;
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

/* Where the next full rack is played. */
typedef struct Turn {
    Side lane;
    int game, frame; /* frame 0 is practice: seen and felt by the lane, not counted */
    int rack;        /* full racks before it in the frame; practice: shots before it */
} Turn;

/* Each throw has its own luck, whatever the player did before. */
static uint64_t seed_of(const RehearseSetup *setup, const Turn *turn)
{
    int throw = turn->frame > 0 ? turn->game * 100 + turn->frame * 4 : 5000;
    return setup->seed * 1000003u + (uint64_t)(throw +turn->rack);
}

/* Throws the lane's plan and records what the bowler sees; returns the pins left, numbered from the
 * bowler's own side. */
static Pins throw_ball(RehearseJob *job, const RehearseSetup *setup, const Turn *turn, Rng *luck,
                       RehearseShot *record, Roll *roll)
{
    Truth *truth = job->truth;
    const Plan *plan = &job->plan[turn->lane];
    const Ball *ball = bag_slot(setup->bag, plan->slot);
    Shot *shot = &record->shot;
    *shot = session_shot(turn->lane, plan);
    Delivery d = truth_throw(truth, plan, turn->game, luck, &shot->release);
    truth->world->roll(truth, turn->lane, plan->slot, &d, luck, roll);
    roll->entry_board += truth->off_boards; /* NAN in the gutter stays so */
    truth_see(truth, roll, &d, setup->sights, luck, shot);
    Pins left = roll_rack(roll, ball, luck);
    shot->left_said = true;
    shot->left = setup->bag->bowler.hand == HAND_LEFT ? lane_mirror_pins(left) : left;
    record->board = roll->entry_board;
    record->degrees = roll->entry_deg;
    record->pocket = roll->entry_board >= LANE_POCKET_LOW && roll->entry_board <= LANE_POCKET_HIGH;
    record->strike = left == 0;
    return left;
}

/* One full rack; returns the pins left. */
static Pins play_rack(RehearseJob *job, const RehearseSetup *setup, const Turn *turn,
                      Rehearsal *out)
{
    bool counts = turn->frame > 0;
    RehearseShot *record = &out->shots[out->shot_count];
    Roll roll;
    if (setup->world->happen) {
        Rng chance = rng_seed(seed_of(setup, turn) ^ HAPPENING);
        setup->world->happen(job->truth, turn->lane, &chance);
    }
    Choice choice = choose(job, setup, turn->lane, turn->game, counts ? turn->frame : 1);
    job->plan[turn->lane] = choice.plan;
    *record = (RehearseShot){.game = turn->game,
                             .frame = turn->frame,
                             .kind = choice.kind,
                             .stated = choice.pocket,
                             .stated_strike = choice.strike,
                             .value = true_value(job, turn->lane, turn->game)};
    Rng luck = rng_seed(seed_of(setup, turn));
    Pins left = throw_ball(job, setup, turn, &luck, record, &roll);
    if (counts && setup->player == &PLAYER_ADVISOR && out->shot_count % 3 == 2)
        check_interval(job, turn->lane, &roll, out);
    truth_wear(job->truth, turn->lane, turn->game, &roll,
               bag_slot(setup->bag, choice.plan.slot)->cover, setup->bowlers_on_pair, &luck);
    job->shots[job->shot_count++] = record->shot;
    if (counts) {
        out->pockets += record->pocket;
        out->strikes += record->strike;
        out->shot_count++;
    }
    return left;
}

static int play_game(RehearseJob *job, const RehearseSetup *setup, int game, Rehearsal *out)
{
    Score score = score_begin();
    Rng spare = rng_seed(setup->seed * 7919u + (uint64_t)game);
    char why[80];
    Pins standing = PINS_ALL;
    int racks = 0; /* full racks in this frame: the tenth may have three */
    while (!score.over) {
        Side lane = (score.frame % 2 == 1) ? SIDE_LEFT : SIDE_RIGHT;
        Turn turn = {lane, game, score.frame, racks};
        Pins left = standing == PINS_ALL ? play_rack(job, setup, &turn, out)
                                         : roll_spare(setup->bag, standing, &spare);
        racks += standing == PINS_ALL;
        int frame = score.frame;
        if (!score_add(&score, score_ball_of(standing, left), why, sizeof why))
            break;
        racks = score.frame != frame ? 0 : racks;
        standing = score.frame != frame || left == 0 ? PINS_ALL : left;
    }
    return score.total;
}

void rehearse_play(RehearseJob *job, const RehearseSetup *setup, Rehearsal *out)
{
    Oil sheet;
    memset(out, 0, sizeof *out);
    oil_lay(setup->pattern, &sheet);
    oil_for_hand(&sheet, setup->bag->bowler.hand, &sheet);
    truth_draw(job->truth, setup->world, setup->bag, &sheet, setup->seed);
    truth_meet(job->truth, &setup->mix, setup->bowlers_on_pair - 1, setup->seed + 41u);
    job->plan[SIDE_LEFT] = job->plan[SIDE_RIGHT] = first_plan(setup->bag, &sheet);
    job->shot_count = 0;
    job->wrong = rng_seed(setup->seed + 77u);
    for (int i = 0; i < setup->practice; i++)
        play_rack(job, setup, &(Turn){i % 2 == 0 ? SIDE_LEFT : SIDE_RIGHT, 1, 0, i}, out);
    for (int game = 1; game <= setup->games; game++) {
        out->score[game - 1] = play_game(job, setup, game, out);
        out->mean_pins += out->score[game - 1] / (double)setup->games;
    }
    out->games = setup->games;
    for (int i = 0; i < out->shot_count; i++)
        out->value += out->shots[i].value / out->shot_count;
}
