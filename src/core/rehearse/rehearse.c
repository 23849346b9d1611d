/* rehearse.c - the hidden lane, four players, and what they score. */
#include "core/rehearse/rehearse.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"
#include "core/event/score.h"
#include "core/line/first.h"
#include "core/pins/rack.h"

const char *const PLAYER_NAMES[PLAYER_COUNT + 1] = {"hold", "rules", "advisor", "knows-the-lane",
                                                    0};

/* The hidden truth: spreads wider than the belief's priors (all assumed). */
#define TRUE_VOLUME_SD 0.20 /* log */
#define TRUE_LANE_SD 0.10
#define TRUE_BOARD_SD 0.08 /* each board as dressed, log */
#define TRUE_DRY_SD 0.10
#define TRUE_FILM_SD 0.12 /* friction in a full film, log, each ball */
#define TRUE_FADE_SD 0.12 /* film at which dry contact fades, log */
#define TRUE_PICK_SD 0.45 /* rate of wear, log */
#define TRUE_CARRY_SD 0.8
#define TRUE_MPH_SD 0.30
#define TRUE_LAUNCH_SD_DEG 0.10
#define TRUE_FIELD_SD_BOARDS 4.0 /* other bowlers' lines about this one */
#define TIRED_MPH_A_GAME 0.10    /* at most; drawn evenly from 0 */
/* The bowler's eye and hand. */
#define BAD_SHARE 0.08 /* of releases */
#define BAD_DEVIATIONS 2.5
#define RELEASE_KNOWN 0.85 /* of bad releases that are told as such */
#define EYE_BOARDS 0.5
#define EYE_FEET 1.0
#define READ_FT 2.0
#define SPEED_SHOWN 0.5 /* share of shots whose speed is shown */
#define ARROWS_EYE_BOARDS 0.5
#define BREAKPOINT_EYE_BOARDS 1.0

enum { FIELD_MAX = 9 };

typedef struct Truth {
    Oil oil[SIDE_COUNT];
    MotionBody body[BAG_SLOTS];
    BatchBall batch[BAG_SLOTS];
    bool filled[BAG_SLOTS];
    WearRate rate;
    double mph, launch_deg, tired; /* the bowler's day */
    double field_boards[FIELD_MAX];
    double expected_ft[BAG_SLOTS]; /* first move that the bowler has come to expect */
} Truth;

struct RehearseJob {
    Truth truth;
    AdviceJob *advice;
    Forecast forecast;
    Oil sheet;
    Plan plan[SIDE_COUNT];
    Shot shots[REHEARSE_SHOTS_MAX + REHEARSE_PRACTICE_MAX];
    Rng world, luck;   /* what the lane is; what each throw draws */
    Rng wrong;         /* and how wrong who knows the lane is */
    int shot_count;    /* practice too */
    double off_boards; /* by which the hit is not where who knows the lane thinks */
    bool sights;       /* the bowler says what board it crossed, and its breakpoint */
};

RehearseJob *rehearse_new(void)
{
    RehearseJob *job = calloc(1, sizeof *job);
    if (job && !(job->advice = advice_job_new())) {
        free(job);
        job = NULL;
    }
    return job;
}

void rehearse_free(RehearseJob *job)
{
    if (job)
        advice_job_free(job->advice);
    free(job);
}

/* The grip of another friction law: less or more in the film and on the dry, fading elsewhere. */
static void alter_friction(FrictionCurve *friction, Rng *rng, double dry, double fade)
{
    friction->mu_film *= exp(TRUE_FILM_SD * rng_normal(rng));
    friction->mu_dry *= dry;
    friction->reach_units *= fade;
}

static void draw_truth(RehearseJob *job, const RehearseSetup *setup)
{
    Truth *truth = &job->truth;
    Rng *rng = &job->world;
    double volume = TRUE_VOLUME_SD * rng_normal(rng), board[LANE_BOARDS];
    for (int b = 0; b < LANE_BOARDS; b++)
        board[b] = rng_normal(rng);
    for (int lane = 0; lane < SIDE_COUNT; lane++) {
        double own = TRUE_LANE_SD * rng_normal(rng);
        truth->oil[lane] = job->sheet;
        for (int b = 0; b < LANE_BOARDS; b++) {
            int left = b > 0 ? b - 1 : b, right = b < LANE_BOARDS - 1 ? b + 1 : b;
            double rough = (board[left] + 2.0 * board[b] + board[right]) / 4.0; /* smooth across */
            double scale = exp(volume + own + TRUE_BOARD_SD * rough);
            for (int j = 0; j < OIL_STATIONS; j++)
                truth->oil[lane].units[j][b] *= scale;
        }
    }
    double dry = exp(TRUE_DRY_SD * rng_normal(rng)), fade = exp(TRUE_FADE_SD * rng_normal(rng));
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(setup->bag, slot + 1);
        truth->filled[slot] = ball != NULL;
        truth->expected_ft[slot] = NAN;
        if (!ball)
            continue;
        motion_body(ball, &truth->body[slot]);
        alter_friction(&truth->body[slot].friction, rng, dry, fade);
        batch_ball(&truth->body[slot], &truth->batch[slot]);
    }
    truth->rate.pick = exp(TRUE_PICK_SD * rng_normal(rng));
    truth->rate.carry = exp(TRUE_CARRY_SD * rng_normal(rng));
    truth->mph = TRUE_MPH_SD * rng_normal(rng);
    truth->launch_deg = TRUE_LAUNCH_SD_DEG * rng_normal(rng);
    truth->tired = TIRED_MPH_A_GAME * rng_uniform(rng);
    for (int i = 0; i < FIELD_MAX; i++)
        truth->field_boards[i] = TRUE_FIELD_SD_BOARDS * rng_normal(rng);
}

typedef struct Known {
    Plan plan;
    double strike, pocket;
} Known;

/* The best half board of aim from one laydown under the truth, if it beats what is known. */
static void try_laydown(RehearseJob *job, const Bowler *bowler, Side lane, int slot, double laydown,
                        Known *best)
{
    const Truth *truth = &job->truth;
    Delivery usual = delivery_of(bowler, delivery_stance(bowler, laydown), laydown - 8.0);
    double aim = line_aim(&truth->body[slot], &truth->oil[lane], bowler, &usual, laydown, 0.0);
    for (int i = -1; i <= 1; i++) {
        double half = 0.5 * round(2.0 * aim) + 0.5 * i;
        usual.launch_deg = delivery_launch_deg(laydown, half);
        Outlook outlook = forecast_delivery(&job->forecast, 0, &truth->batch[slot], &usual);
        if (outlook.strike > best->strike)
            *best =
                (Known){{.slot = slot + 1, .stance = delivery_stance(bowler, laydown), .aim = half},
                        outlook.strike,
                        outlook.pocket};
    }
}

/* What a bowler who knew the lane would throw: every ball, every laydown, under the truth. */
static Plan known_plan(RehearseJob *job, const RehearseSetup *setup, Side lane, int game,
                       double *stated)
{
    const Bowler *bowler = &setup->bag->bowler;
    const Truth *truth = &job->truth;
    forecast_of_truth(&job->forecast, &truth->oil[lane], truth->mph - truth->tired * (game - 1),
                      truth->launch_deg, bowler);
    Known best = {.plan = job->plan[lane]};
    Delivery now = delivery_of(bowler, best.plan.stance, best.plan.aim);
    Outlook outlook = forecast_delivery(&job->forecast, 0, &truth->batch[best.plan.slot - 1], &now);
    best.strike = outlook.strike + 0.005; /* no change for a hair */
    best.pocket = outlook.pocket;
    /* every ball from every second board, then the board on either side of the best of each */
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        if (!truth->filled[slot] || bag_slot(setup->bag, slot + 1)->cover == COVER_POLYESTER)
            continue;
        Known own = {.strike = -1.0};
        for (double laydown = 10.0; laydown <= 33.0; laydown += 2.0)
            try_laydown(job, bowler, lane, slot, laydown, &own);
        double middle = own.plan.stance - bowler->laydown_offset_boards;
        try_laydown(job, bowler, lane, slot, middle - 1.0, &own);
        try_laydown(job, bowler, lane, slot, middle + 1.0, &own);
        if (own.strike > best.strike)
            best = own;
    }
    *stated = best.pocket;
    return best.plan;
}

static void advise(RehearseJob *job, const RehearseSetup *setup, int shot_count, Side lane,
                   int game, int frame)
{
    AdviceInput input = {.bag = setup->bag,
                         .pattern = setup->pattern,
                         .rules = setup->rules,
                         .shots = job->shots,
                         .shot_count = shot_count,
                         .lane = lane,
                         .plan = job->plan[lane],
                         .game = game,
                         .frame = frame,
                         .bowlers_on_pair = setup->bowlers_on_pair,
                         .certified = true};
    advice_begin(job->advice, &input);
}

/* What the rules ask for most, done by the usual sizes: two boards of feet and one of aim, the
 * neighbouring ball, half a mile an hour. */
static Plan plan_by_rules(RehearseJob *job, const RehearseSetup *setup, Side lane,
                          AdjustmentKind *kind)
{
    Plan plan = job->plan[lane];
    while (!advice_result(job->advice)->ready && !advice_step(job->advice))
        ;
    AdjustmentKind asked = advice_asked(job->advice);
    *kind = asked;
    int step = 0;
    switch (asked) {
    case ADJUST_MOVE_IN:
        plan.stance += 2.0;
        plan.aim += 1.0;
        break;
    case ADJUST_MOVE_OUT:
        plan.stance -= 2.0;
        plan.aim -= 1.0;
        break;
    case ADJUST_AIM_IN:
        plan.aim += 1.0;
        break;
    case ADJUST_AIM_OUT:
        plan.aim -= 1.0;
        break;
    case ADJUST_BALL_DOWN:
    case ADJUST_CLEANER:
        step = 1;
        break;
    case ADJUST_BALL_UP:
    case ADJUST_ROUGHER:
    case ADJUST_SMOOTHER:
        step = -1;
        break;
    case ADJUST_FASTER:
        plan.mph_change = fmin(plan.mph_change + 0.5, 1.5);
        break;
    case ADJUST_SLOWER:
        plan.mph_change = fmax(plan.mph_change - 0.5, -1.5);
        break;
    case ADJUST_LOFT_MORE:
        plan.loft_change_ft = fmin(plan.loft_change_ft + 2.0, 4.0);
        break;
    default:
        break;
    }
    const Ball *next = step ? bag_slot(setup->bag, plan.slot + step) : NULL;
    if (next && next->cover != COVER_POLYESTER)
        plan.slot += step;
    double laydown = plan.stance - setup->bag->bowler.laydown_offset_boards;
    return laydown >= 2.0 && laydown <= 38.0 ? plan : job->plan[lane];
}

static Plan choose(RehearseJob *job, const RehearseSetup *setup, int shot_count, Side lane,
                   int game, int frame, RehearseShot *record)
{
    record->kind = ADJUST_HOLD;
    record->stated = NAN;
    switch (setup->player) {
    case PLAYER_RULES:
        advise(job, setup, shot_count, lane, game, frame);
        return plan_by_rules(job, setup, lane, &record->kind);
    case PLAYER_ADVISOR: {
        advise(job, setup, shot_count, lane, game, frame);
        while (!advice_adjustments_done(job->advice))
            advice_step(job->advice);
        const Adjustment *best = &advice_result(job->advice)->adjustments[0];
        record->kind = best->kind;
        record->stated = best->pocket_after;
        return best->plan;
    }
    case PLAYER_KNOWS: {
        job->off_boards = setup->known_off_boards * rng_normal(&job->wrong);
        return known_plan(job, setup, lane, game, &record->stated);
    }
    default:
        return job->plan[lane];
    }
}

/* What a throw turns out as: meant, plus the day, the scatter, and now and then a bad release. */
static Delivery thrown(RehearseJob *job, const Bowler *bowler, const Plan *plan, int game,
                       Release *release)
{
    const Truth *truth = &job->truth;
    Rng *rng = &job->luck;
    const Scatter *s = &bowler->scatter;
    Delivery d = plan_delivery(bowler, plan);
    d.mph += truth->mph - truth->tired * (game - 1) + s->mph * rng_normal(rng);
    d.launch_deg += truth->launch_deg + s->launch_deg * rng_normal(rng);
    d.rpm += s->rpm * rng_normal(rng);
    d.laydown_board += s->laydown_boards * rng_normal(rng);
    double bad = rng_uniform(rng), kind = rng_uniform(rng), told = rng_uniform(rng);
    *release = RELEASE_GOOD;
    if (bad < BAD_SHARE) {
        Release what = kind < 0.3   ? RELEASE_INSIDE
                       : kind < 0.6 ? RELEASE_OUTSIDE
                       : kind < 0.8 ? RELEASE_FAST
                                    : RELEASE_SLOW;
        d.launch_deg += what == RELEASE_INSIDE    ? -BAD_DEVIATIONS * s->launch_deg
                        : what == RELEASE_OUTSIDE ? BAD_DEVIATIONS * s->launch_deg
                                                  : 0.0;
        d.mph += what == RELEASE_FAST   ? BAD_DEVIATIONS * s->mph
                 : what == RELEASE_SLOW ? -BAD_DEVIATIONS * s->mph
                                        : 0.0;
        if (told < RELEASE_KNOWN)
            *release = what;
    }
    return d;
}

static double half_board(double board)
{
    return fmax(1.0, fmin(0.5 * round(2.0 * board), LANE_BOARDS));
}

/* What the bowler sees of it. */
static void see(RehearseJob *job, const Roll *roll, const Delivery *d, Shot *shot)
{
    Rng *rng = &job->luck;
    double *expected = &job->truth.expected_ft[shot->slot - 1];
    double eye = EYE_BOARDS * rng_normal(rng), feet = EYE_FEET * rng_normal(rng);
    double shown = rng_uniform(rng);
    double move = isnan(roll->first_move_ft) ? LANE_LENGTH_FT : roll->first_move_ft;
    shot->hit = roll->gutter ? HIT_GUTTER : shot_hit_of_board(roll->entry_board + eye);
    if (isnan(*expected))
        *expected = move; /* the first of a ball is what it is */
    double later = move + feet - *expected;
    shot->read = isnan(roll->first_move_ft) ? READ_NONE
                 : later < -READ_FT         ? READ_EARLY
                 : later > READ_FT          ? READ_LATE
                                            : READ_ON_TIME;
    *expected += 0.2 * (move - *expected); /* one gets used to what is */
    shot->mph = shown < SPEED_SHOWN ? 0.1 * round(10.0 * d->mph) : 0.0;
    double arrows = ARROWS_EYE_BOARDS * rng_normal(rng);
    double far = BREAKPOINT_EYE_BOARDS * rng_normal(rng);
    const int arrows_at = (int)(LANE_ARROWS_FT / OIL_STATION_FT);
    if (!job->sights || roll->gutter || roll->count <= arrows_at)
        return;
    shot->arrows = half_board(roll->path[arrows_at].board + arrows);
    shot->breakpoint = half_board(roll->breakpoint_board + far);
}

/* Chance to convert a leave, by its kind (assumed until spares are simulated for each). */
static double conversion(Pins left, const Bowler *bowler)
{
    double skill = fmin(1.0, 0.12 / fmax(bowler->scatter.launch_deg, 0.05));
    if (lane_split(left))
        return lane_pin_count(left) == 2 ? 0.2 * skill : 0.05;
    return lane_pin_count(left) == 1 ? 0.80 + 0.15 * skill : 0.60 + 0.22 * skill;
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
    return rack_roll(&hit, PINS_ALL, rng, NULL, NULL);
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
    double truth = mean_under_track(&job->truth.oil[lane], low, high);
    out->intervals++;
    out->inside += fabs(truth - film.mean) <= 1.2816 * film.sd;
}

static void wear_lane(RehearseJob *job, const RehearseSetup *setup, Side lane, const Roll *roll,
                      const Ball *ball)
{
    Track track;
    Oil *oil = &job->truth.oil[lane];
    track_of(roll, 0.0, &track);
    wear_track(oil, &track, ball->cover, job->truth.rate);
    for (int i = 1; i < setup->bowlers_on_pair; i++) {
        double shift = job->truth.field_boards[i - 1] + rng_normal(&job->luck);
        track_of(roll, shift, &track);
        wear_track(oil, &track, COVER_SOLID, job->truth.rate);
    }
}

static double true_value(RehearseJob *job, const RehearseSetup *setup, Side lane, int game)
{
    const Bowler *bowler = &setup->bag->bowler;
    const Truth *truth = &job->truth;
    const Plan *plan = &job->plan[lane];
    forecast_of_truth(&job->forecast, &truth->oil[lane], truth->mph - truth->tired * (game - 1),
                      truth->launch_deg, bowler);
    Delivery meant = plan_delivery(bowler, plan);
    for (int i = 0; i < FORECAST_DRAWS; i++)
        job->forecast.draw[i].boards[0] = job->off_boards;
    return forecast_delivery(&job->forecast, 0, &truth->batch[plan->slot - 1], &meant).strike;
}

/* One full rack; returns what stands. Frame 0 is practice: seen and felt by the lane, not counted.
 */
static Pins play_rack(RehearseJob *job, const RehearseSetup *setup, Side lane, int game, int frame,
                      int rack, Rehearsal *out)
{
    bool counts = frame > 0;
    RehearseShot *record = &out->shots[out->shot_count];
    *record = (RehearseShot){.game = game, .frame = frame};
    job->plan[lane] = choose(job, setup, job->shot_count, lane, game, counts ? frame : 1, record);
    const Plan *plan = &job->plan[lane];
    const Ball *ball = bag_slot(setup->bag, plan->slot);
    record->value = true_value(job, setup, lane, game);
    Shot *shot = &record->shot;
    *shot = session_shot(lane, plan);
    /* each throw has luck of its own, whatever the player did before */
    job->luck = rng_seed(setup->seed * 1000003u +
                         (uint64_t)((counts ? game * 100 + frame * 4 : 5000) + rack));
    Delivery d = thrown(job, &setup->bag->bowler, plan, game, &shot->release);
    Roll roll;
    motion_roll(&job->truth.body[plan->slot - 1], &job->truth.oil[lane], &d, &roll);
    roll.entry_board += job->off_boards; /* NAN in the gutter stays so */
    see(job, &roll, &d, shot);
    if (counts && setup->player == PLAYER_ADVISOR && out->shot_count % 3 == 2)
        check_interval(job, lane, &roll, out);
    shot->left_said = true;
    shot->left = roll_rack(&roll, ball, &job->luck);
    record->board = roll.entry_board;
    record->degrees = roll.entry_deg;
    record->pocket = roll.entry_board >= LANE_POCKET_LOW && roll.entry_board <= LANE_POCKET_HIGH;
    record->strike = shot->left == 0;
    Pins left = shot->left;
    if (setup->bag->bowler.hand == HAND_LEFT)
        shot->left = lane_mirror_pins(shot->left);
    wear_lane(job, setup, lane, &roll, ball);
    job->shots[job->shot_count++] = *shot;
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
        Pins left;
        if (standing == PINS_ALL) {
            left = play_rack(job, setup, lane, game, score.frame, racks++, out);
        } else {
            bool made = rng_uniform(&spare) < conversion(standing, &setup->bag->bowler);
            left = made ? 0 : (Pins)(standing & (Pins)(-standing)); /* a miss leaves one pin */
        }
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
    memset(out, 0, sizeof *out);
    job->world = rng_seed(setup->seed);
    Oil sheet;
    oil_lay(setup->pattern, &sheet);
    oil_for_hand(&sheet, setup->bag->bowler.hand, &job->sheet);
    draw_truth(job, setup);
    job->plan[SIDE_LEFT] = first_plan(setup->bag, &job->sheet);
    job->plan[SIDE_RIGHT] = job->plan[SIDE_LEFT];
    job->shot_count = 0;
    job->sights = setup->sights;
    job->off_boards = 0.0;
    job->wrong = rng_seed(setup->seed + 77u);
    for (int i = 0; i < setup->practice; i++)
        play_rack(job, setup, i % 2 == 0 ? SIDE_LEFT : SIDE_RIGHT, 1, 0, i, out);
    for (int game = 1; game <= setup->games; game++) {
        out->score[game - 1] = play_game(job, setup, game, out);
        out->mean_pins += out->score[game - 1] / (double)setup->games;
    }
    out->games = setup->games;
    for (int i = 0; i < out->shot_count; i++)
        out->value += out->shots[i].value / out->shot_count;
}
