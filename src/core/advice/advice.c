/* advice.c - signs, rules, forecast, ranking: a job in slices. */
#include "core/advice/advice.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"
#include "core/advice/ranking.h"
#include "core/advice/recall.h"
#include "core/line/strength.h"

typedef enum AdviceStage {
    STAGE_BODIES,
    STAGE_SHOTS,
    STAGE_SIGNS,
    STAGE_ROUGH,
    STAGE_TRY,
    STAGE_PAIRS,
    STAGE_SLOTS,
    STAGE_DONE
} AdviceStage;

/* How many candidates of each adjustment, the best by a rough forecast, get a full one. */
enum { PROMISING = 3 };
/* Boards with the feet at least, after a ball that crossed over (common practice, no source). */
enum { CROSSED_MOVE = 3 };
/* Half boards at which an aim may stand so that the hit leaves the last misses: three boards. */
enum { AIMS_MAX = 7 };

/* The ball of a slot. */
typedef struct SlotBall {
    bool filled;
    MotionBody body;
    BatchBall batch;
} SlotBall;

/* One question, from advice_begin on. */
typedef struct Question {
    AdviceInput in;
    Shot shots[SESSION_SHOTS_MAX];
    AdviceStage stage;
    int at;                    /* slot or candidate that is next */
    SlotBall balls[BAG_SLOTS]; /* by slot, from 0 */
    SlotTrait traits[BAG_SLOTS];
    BatchOil film; /* as estimated, ready to be rolled on */
    Forecast forecast;
    Setting setting;
    Votes votes;
    Restraint restraint;
    Ranking ranking;
    int candidate_count;
    Candidate candidates[CANDIDATES_MAX];
    Advice out;
} Question;

struct AdviceJob {
    Question question;
    Memory memory;
};

AdviceJob *advice_job_new(void)
{
    AdviceJob *job = calloc(1, sizeof *job);
    if (job)
        memory_init(&job->memory);
    return job;
}

void advice_job_free(AdviceJob *job) { free(job); }
const Advice *advice_result(const AdviceJob *job) { return &job->question.out; }
const Belief *advice_belief(const AdviceJob *job) { return &job->memory.belief; }

/* Signs compare shots with the next throw by slot: a ball thrown with a different surface than it
 * has now is not the one in the slot. */
static void in_slot(const Bag *bag, Shot *shot)
{
    Ball thrown;
    const Ball *now = bag_slot(bag, shot->slot);
    if (!now || !shot_ball(shot, bag, &thrown) || strcmp(now->id, thrown.id) != 0 ||
        !ball_same_surface(&now->surface, &thrown.surface))
        shot->slot = 0;
}

/* Copies the latest shots; what was not given was as planned. */
static void copy_shots(Question *q, const AdviceInput *input)
{
    int skip = input->shot_count > SESSION_SHOTS_MAX ? input->shot_count - SESSION_SHOTS_MAX : 0;
    q->in.shot_count = input->shot_count - skip;
    q->in.shots = q->shots;
    for (int i = 0; i < q->in.shot_count; i++) {
        Shot *shot = &q->shots[i];
        *shot = input->shots[skip + i];
        if (shot->stance == 0.0)
            shot->stance = input->plan.stance;
        if (shot->aim == 0.0)
            shot->aim = input->plan.aim;
        in_slot(input->bag, shot);
    }
}

AdviceInput advice_input(const Session *session, Side lane, const Plan *plan, const RuleSet *rules)
{
    AdviceInput input = {.bag = &session->bag,
                         .pattern = &session->pattern,
                         .rules = rules,
                         .shots = session->shots,
                         .shot_count = session->shot_count,
                         .lane = lane,
                         .plan = *plan,
                         .apart = session->apart,
                         .warm_up_count = session->warm_up_count,
                         .game = session->game,
                         .frame = session->frame,
                         .bowlers_on_pair = session->event.bowlers_on_pair,
                         .mix = session->event.field,
                         /* until the first scored ball a surface may change */
                         .certified = session->event.certified && !session->warm_up};
    input.stay_count = session_stays(session, input.stays);
    return input;
}

/* The stays. The frames that no shot tells of were on the line of the stay's first shot, else on
 * the plan's. */
static int list_played(const Question *q, Played played[SESSION_GAMES_MAX])
{
    const AdviceInput *in = &q->in;
    int count = in->stay_count > 1 ? in->stay_count : 1;
    for (int i = 0; i < count; i++) {
        played[i] = (Played){.shot = in->stays[i].shot, .frames = in->stays[i].frames};
        if (count == 1) {
            int scored = in->shot_count - in->warm_up_count;
            int frames = 10 * (in->game - 1) + in->frame - 1 - scored;
            played[i] = (Played){.frames = frames > 0 ? frames : 0};
        }
        played[i].as = played[i].shot < in->shot_count ? q->shots[played[i].shot]
                                                       : session_shot(in->lane, &in->plan);
    }
    return count;
}

/* The shots on the pair of the next one. */
static const Shot *shots_here(const Question *q, int *count)
{
    int first = q->in.stay_count > 1 ? q->in.stays[q->in.stay_count - 1].shot : 0;
    *count = q->in.shot_count - first;
    return q->shots + first;
}

void advice_begin(AdviceJob *job, const AdviceInput *input)
{
    Question *q = &job->question;
    Oil sheet;
    Played played[SESSION_GAMES_MAX];
    memset(q, 0, sizeof *q);
    q->in = *input;
    q->out.revision = input->revision;
    copy_shots(q, input);
    oil_lay(input->pattern, &sheet);
    oil_for_hand(&sheet, input->bag->bowler.hand, &sheet);
    int played_count = list_played(q, played);
    memory_recall(&job->memory, input->bag, &sheet, &input->pattern->about, input->bowlers_on_pair,
                  &input->mix, played, played_count, q->shots, q->in.shot_count);
}

static void step_bodies(AdviceJob *job)
{
    Question *q = &job->question;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *lies = bag_slot(q->in.bag, slot);
        SlotBall *ball = &q->balls[slot - 1];
        ball->filled = lies != NULL;
        q->out.slot[slot - 1].filled = lies != NULL;
        if (!lies)
            continue;
        motion_body(lies, &ball->body);
        batch_ball(&ball->body, &ball->batch);
    }
    q->stage = STAGE_SHOTS;
}

bool advice_weigh(AdviceJob *job)
{
    return memory_weigh(&job->memory, job->question.shots, job->question.in.shot_count);
}

static void step_shot(AdviceJob *job)
{
    if (!advice_weigh(job))
        job->question.stage = STAGE_SIGNS;
}

/* A plan as the bowler is thought to be throwing today. */
static Delivery todays(const Question *q, const Plan *plan)
{
    return plan_today(&q->in.bag->bowler, plan, &q->out.lane.today);
}

static SlotBall *in_hand(Question *q) { return &q->balls[q->in.plan.slot - 1]; }

static int which_of(const Question *q, int slot) { return q->out.lane.which[slot - 1]; }

/* Looks up each slot's ball in the belief, and what lines are off by: once per question. */
static void read_offsets(AdviceJob *job)
{
    Question *q = &job->question;
    LaneNow *lane = &q->out.lane;
    const Belief *belief = &job->memory.belief;
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        const Ball *lies = bag_slot(q->in.bag, slot + 1);
        lane->which[slot] = lies ? belief_ball(belief, lies->id) : 0;
    }
    lane->side = q->in.lane;
    belief_offsets(belief, lane->offsets);
}

/* A throw on the film as estimated. */
static Arrival arrive(const Question *q, const BatchBall *batch, const Delivery *delivery)
{
    BatchThrow throw = {.delivery = *delivery, .film_scale = 1.0f, .dry_scale = 1.0f};
    Arrival at;
    batch_arrive(batch, &q->film, &throw, 1, &at);
    return at;
}

/* By how many boards a slot's ball is thought to hit higher than its numbers say, laid down there
 * and turning over that board. */
static double off_at(const LaneNow *lane, int slot, double laydown_board, double turns_over)
{
    OffsetsAt at = offsets_at(lane->side, lane->which[slot - 1], laydown_board, turns_over);
    return offsets_mean(&at, lane->offsets);
}

static LineOn on_the_mean(const Question *q, const MotionBody *body, const BatchBall *batch)
{
    return (LineOn){body, &q->out.film, batch, &q->film};
}

static double off_of(const Question *q, int slot, const BatchBall *batch, const Delivery *delivery)
{
    return off_at(&q->out.lane, slot, delivery->laydown_board,
                  arrive(q, batch, delivery).breakpoint);
}

/* Bends a path from its breakpoint on, so that it ends where the ball is thought to hit; a straight
 * ball, which has none before the pins, from the arrows on. */
static void bend(Roll *roll, double off_boards)
{
    double from = roll->breakpoint_ft;
    if (!(from < LANE_LENGTH_FT - 1.0))
        from = LANE_ARROWS_FT;
    double way = LANE_LENGTH_FT - from;
    if (roll->gutter)
        return;
    for (int i = 0; i < roll->count; i++)
        if (roll->path[i].ft > from)
            roll->path[i].board += off_boards * (roll->path[i].ft - from) / way;
    roll->entry_board += off_boards;
}

/* The current plan's line and path on the estimated film. Returns its outlook. */
static Outlook read_now(Question *q)
{
    const Bowler *bowler = &q->in.bag->bowler;
    const SlotBall *ball = in_hand(q);
    Delivery meant = plan_delivery(bowler, &q->in.plan), today = todays(q, &q->in.plan);
    Outlook now =
        forecast_delivery(&q->forecast, which_of(q, q->in.plan.slot), &ball->batch, &meant);
    if (restraint_must_move(&q->restraint)) /* three balls say what the fourth would do */
        now = frame_as_seen(&now, q->restraint.seen_board, bowler,
                            bag_slot(q->in.bag, q->in.plan.slot));
    double off = off_of(q, q->in.plan.slot, &ball->batch, &today);
    LineOn on = on_the_mean(q, &ball->body, &ball->batch);
    q->out.now = line_measure_on(&on, bowler, &today, off);
    q->out.now.stance = q->in.plan.stance;
    q->out.now.aim = q->in.plan.aim;
    q->out.now_known = q->out.now.pocket;
    q->out.now.pocket = now.pocket;
    motion_roll(&ball->body, &q->out.film, &today, &q->out.now_roll);
    bend(&q->out.now_roll, off);
    return now;
}

static void describe_lane(AdviceJob *job)
{
    Question *q = &job->question;
    LaneNow *lane = &q->out.lane;
    const Belief *belief = &job->memory.belief;
    Side side = q->in.lane;
    Estimate volume = belief_part(belief, PART_VOLUME + (int)side);
    lane->scale = volume.mean;
    lane->scale_sd = volume.sd;
    lane->dry = belief_part(belief, PART_DRY + (int)side);
    lane->wear = belief_wear(belief);
    lane->mph = belief_part(belief, PART_MPH);
    lane->deliveries = belief->deliveries[side];
    belief_words(belief, side, &q->out.now_roll, lane->words, sizeof lane->words);
    lane->sheet_count = belief_sheets(belief, lane->sheets);
    belief_sheet_words(belief, lane->sheet_words, sizeof lane->sheet_words);
    if (lane->sheet_count > 0) /* there is no sheet to compare it with */
        memcpy(lane->words, lane->sheet_words, sizeof lane->words);
    Delivery today = todays(q, &q->in.plan);
    OffsetsAt at = offsets_at(side, which_of(q, q->in.plan.slot), today.laydown_board,
                              arrive(q, &in_hand(q)->batch, &today).breakpoint);
    lane->off = belief_off(belief, &at);
    belief_off_words(lane->off, lane->off_words, sizeof lane->off_words);
}

static void read_traits(Question *q, const Oil *sheet)
{
    Delivery today = todays(q, &q->in.plan);
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        if (!q->balls[slot].filled)
            continue;
        Arrival at = motion_arrive(&q->balls[slot].body, &q->out.film, &today);
        q->traits[slot] = (SlotTrait){
            .strikes = bag_slot(q->in.bag, slot + 1)->cover != COVER_POLYESTER,
            .strength = strength_of(&q->balls[slot].body, sheet, &q->in.bag->bowler).score,
            .hook_ft = isnan(at.hook_ft) ? LANE_LENGTH_FT : at.hook_ft};
    }
}

/* Whether the current ball is the strongest or the weakest of the strike balls. */
static void place_in_bag(const Question *q, SignsContext *context)
{
    const SlotTrait *mine = &q->traits[q->in.plan.slot - 1];
    context->strongest = context->weakest = mine->strikes;
    for (int i = 0; i < BAG_SLOTS; i++) {
        if (!q->traits[i].strikes || i == q->in.plan.slot - 1)
            continue;
        context->strongest &= q->traits[i].strength < mine->strength;
        context->weakest &= q->traits[i].strength > mine->strength;
    }
}

/* Boards at the pins by which the bowler's throws scatter, as if they went straight (assumed). */
static double scatter_at_pins(const Scatter *scatter)
{
    double launch_boards = LANE_LENGTH_M * tan(rad_from_deg(scatter->launch_deg)) / LANE_BOARD_M;
    return hypot(launch_boards, scatter->laydown_boards);
}

/* Film on boards 2 to 6 over film on boards 10 to 15, from 20 ft to the end of the oil. */
static double outside_share(const Oil *film)
{
    double outside = 0.0, track = 0.0;
    for (int j = (int)(20.0 / OIL_STATION_FT); j < OIL_STATIONS; j++)
        for (int board = 2; board <= 15; board++)
            *(board <= 6 ? &outside : &track) +=
                board <= 6 || board >= 10 ? film->units[j][board - 1] : 0.0;
    return track > 0.0 ? (outside / 5.0) / (track / 6.0) : 0.0;
}

static void read_signs(AdviceJob *job)
{
    Question *q = &job->question;
    const AdviceInput *in = &q->in;
    const int *deliveries = job->memory.belief.deliveries;
    Oil sheet, mine;
    oil_lay(in->pattern, &sheet);
    belief_likely_sheet(&job->memory.belief, &mine);
    if (in->pattern->about.only)
        sheet = mine; /* alike on both sides */
    SignsContext context = {.hand = in->bag->bowler.hand,
                            .laydown_offset_boards = in->bag->bowler.laydown_offset_boards,
                            .length_ft = sheet.length_ft,
                            .ratio = oil_ratio(&sheet),
                            .lane = in->lane,
                            .plan = in->plan,
                            .game = in->game,
                            .frame = in->frame,
                            .deliveries = deliveries[SIDE_LEFT] + deliveries[SIDE_RIGHT],
                            .practice = !in->certified,
                            .apart = in->apart,
                            .bowlers_on_pair = in->bowlers_on_pair,
                            .urethane_others = in->mix.urethane,
                            .revs_per_mph = in->bag->bowler.rpm / in->bag->bowler.mph,
                            .scatter_boards = scatter_at_pins(&in->bag->bowler.scatter),
                            .outside_share = outside_share(&mine)};
    place_in_bag(q, &context);
    int count;
    const Shot *here = shots_here(q, &count);
    signs_read(&context, here, count, &q->out.signs);
    for (int sign = 0; sign < SIGN_COUNT; sign++)
        for (int i = 0; i < q->out.signs.shot_count[sign]; i++)
            q->out.signs.shots[sign][i] = (short)(q->out.signs.shots[sign][i] + (here - q->shots));
}

/* Under that chance with the mean hit where it is best, strikes are too rare to choose by
 * (assumed). */
#define RARE_STRIKE 0.25

static bool strikes_rare(const Question *q, const Outlook *now)
{
    const Ball *ball = bag_slot(q->in.bag, q->in.plan.slot);
    return frame_best_strike(now, &q->in.bag->bowler, ball) < RARE_STRIKE;
}

/* What to try: everything the rules name and, asked for or not, every ball and every move, since
 * the best line may be far from here. */
static void list_candidates(Question *q, const Outlook *now)
{
    q->setting = (Setting){.bag = q->in.bag,
                           .bowler = &q->in.bag->bowler,
                           .plan = q->in.plan,
                           .traits = q->traits,
                           .least_move = q->out.signs.seen[SIGN_CROSSED] &&
                                                 !restraint_must_move(&q->restraint)
                                             ? CROSSED_MOVE
                                             : 1,
                           .certified = q->in.certified,
                           .need = q->in.need,
                           .strikes_rare = strikes_rare(q, now)};
    candidates_name_balls(&q->setting, q->votes.vote, q->votes.avoided);
    for (int kind = 0; kind < ADJUST_COUNT; kind++) {
        bool asked = q->votes.vote[kind] > 0.0 || candidate_unasked((AdjustmentKind)kind);
        if (kind == ADJUST_HOLD || q->votes.avoided[kind] || !asked)
            continue;
        q->candidate_count +=
            candidates_list(&q->setting, (AdjustmentKind)kind, q->candidates + q->candidate_count,
                            CANDIDATES_MAX - q->candidate_count);
    }
}

/* The share of its flush hits that struck lately, with one of each added. When one leave adds up,
 * the table's carry is not today's, and this is what the next flush hit is worth. */
static double carried(const Question *q)
{
    enum { LATELY = 6 };
    int hits = 0, strikes = 0, count;
    const Shot *here = shots_here(q, &count);
    for (int i = count - 1; i >= 0 && hits < LATELY; i--) {
        const Shot *shot = &here[i];
        if (shot->slot != q->in.plan.slot || shot->hit != HIT_FLUSH || !shot->left_said)
            continue;
        hits++;
        strikes += shot->left == 0;
    }
    return (strikes + 1.0) / (hits + 2.0);
}

static void step_signs(AdviceJob *job)
{
    Question *q = &job->question;
    belief_film(&job->memory.belief, q->in.lane, &q->out.film);
    batch_oil(&q->out.film, BATCH_QUICK, &q->film);
    forecast_prepare(&q->forecast, &job->memory.belief, q->in.lane, &q->in.bag->bowler);
    q->out.lane.today = belief_today(&job->memory.belief);
    read_offsets(job);
    int count;
    const Shot *here = shots_here(q, &count);
    q->restraint = restraint_read(here, count, q->in.lane, q->in.apart, &q->in.plan);
    Outlook now = read_now(q);
    describe_lane(job);
    Oil sheet;
    belief_likely_sheet(&job->memory.belief, &sheet);
    read_traits(q, &sheet);
    read_signs(job);
    q->restraint.swings = q->out.signs.seen[SIGN_ALTERNATING];
    if (q->out.signs.seen[SIGN_ADDS_UP])
        now.strike = fmin(now.strike, carried(q));
    votes_hear(&q->votes, q->in.rules, &q->out.signs);
    list_candidates(q, &now);
    Line line = q->out.now;
    line.pocket = q->out.now_known;
    ranking_begin(&q->ranking, &q->setting, &q->votes, q->in.rules, &q->restraint, &now, &line);
    ranking_write(&q->ranking, &q->out);
    q->out.ready = true;
    q->stage = STAGE_ROUGH;
}

/* The ball of a slot of that bag with the surface that it would get. */
static void sanded_body(const Bag *bag, int slot, double grit, MotionBody *body)
{
    Ball sanded = *bag_slot(bag, slot);
    sanded.surface = (Surface){.finish = FINISH_GRIT, .grit = grit};
    motion_body(&sanded, body);
}

/* The ball of a slot, with the surface it would get; 0: as it is. */
static void body_of(const Question *q, int slot, double grit, MotionBody *body, BatchBall *batch)
{
    const SlotBall *ball = &q->balls[slot - 1];
    *body = ball->body;
    *batch = ball->batch;
    if (grit > 0.0) {
        sanded_body(q->in.bag, slot, grit, body);
        batch_ball(body, batch);
    }
}

/* The half board of aim that is best on the mean film, with today's throw. */
static void aim_on_the_mean(const Question *q, const MotionBody *body, const BatchBall *batch,
                            Candidate *candidate)
{
    Delivery today = todays(q, &candidate->plan);
    LineOn on = on_the_mean(q, body, batch);
    double crosses = line_aim_on(&on, &q->in.bag->bowler, &today, today.laydown_board,
                                 off_of(q, candidate->plan.slot, batch, &today));
    candidate->plan.aim =
        lane_half_board(plan_aim_today(today.laydown_board, crosses, &q->out.lane.today));
}

/* Which of `count` aims may be answered, by where each rolls on the mean film. */
static void may_roll(const Question *q, const BatchBall *batch, const Candidate *candidate,
                     const double *aims, int count, bool may[AIMS_MAX])
{
    BatchThrow throws[AIMS_MAX] = {0};
    Arrival at[AIMS_MAX];
    for (int i = 0; i < count; i++) {
        Plan plan = candidate->plan;
        plan.aim = aims[i];
        throws[i] =
            (BatchThrow){.delivery = todays(q, &plan), .film_scale = 1.0f, .dry_scale = 1.0f};
    }
    batch_arrive(batch, &q->film, throws, count, at);
    for (int i = 0; i < count; i++) {
        double laydown = throws[i].delivery.laydown_board;
        double board =
            at[i].board + off_at(&q->out.lane, candidate->plan.slot, laydown, at[i].breakpoint);
        may[i] = !at[i].gutter && ranking_allows_roll(&q->ranking, board, at[i].breakpoint);
    }
}

/* Takes the aim on, by half boards, until the hit goes away from the last misses as it must. */
static bool aim_away(const Question *q, const BatchBall *batch, Candidate *candidate)
{
    double aims[AIMS_MAX];
    bool may[AIMS_MAX], fixed = q->restraint.side == 0 || !candidate->find_aim;
    int count = fixed ? 1 : AIMS_MAX, i = 0;
    for (int halves = 0; halves < count; halves++)
        aims[halves] = candidate->plan.aim - 0.5 * halves * q->restraint.side;
    may_roll(q, batch, candidate, aims, count, may);
    while (i < count - 1 && !may[i])
        i++;
    candidate->plan.aim = aims[i];
    return may[i];
}

/* The half board of aim with the best outlook, near the one that is best on the mean film, which
 * may be answered. */
static Outlook look_about(const Question *q, const BatchBall *batch, Candidate *candidate)
{
    double aim = candidate->plan.aim, aims[3] = {aim, aim - 0.5, aim + 0.5};
    Delivery meant = plan_delivery(&q->in.bag->bowler, &candidate->plan);
    int which = which_of(q, candidate->plan.slot), count = candidate->find_aim ? 3 : 1;
    bool may[AIMS_MAX] = {true};
    Outlook best = {0};
    if (count > 1)
        may_roll(q, batch, candidate, aims, count, may);
    for (int i = 0; i < count; i++) {
        Candidate tried = *candidate;
        tried.plan.aim = aims[i];
        if (!may[i])
            continue;
        meant.launch_deg = delivery_launch_deg(meant.laydown_board, tried.plan.aim);
        Outlook outlook = forecast_delivery(&q->forecast, which, batch, &meant);
        if (i == 0 || ranking_promise(&q->setting, &tried, &outlook) >
                          ranking_promise(&q->setting, candidate, &best)) {
            best = outlook;
            *candidate = tried;
        }
    }
    return best;
}

static bool promises(const Question *q, int index)
{
    const Candidate *one = &q->candidates[index];
    int better = 0;
    for (int k = 0; k < q->candidate_count; k++) {
        const Candidate *other = &q->candidates[k];
        better += k != index && other->kind == one->kind &&
                  (other->promise > one->promise || (other->promise == one->promise && k < index));
    }
    return better < PROMISING && one->promise > -1.0;
}

/* Keeps the most promising candidates of each adjustment, in the order they were listed. */
static void keep_promising(Question *q)
{
    bool promising[CANDIDATES_MAX];
    int kept = 0;
    for (int i = 0; i < q->candidate_count; i++)
        promising[i] = promises(q, i);
    for (int i = 0; i < q->candidate_count; i++)
        if (promising[i])
            q->candidates[kept++] = q->candidates[i];
    q->candidate_count = kept;
}

static void step_rough(Question *q)
{
    if (q->at >= q->candidate_count) {
        keep_promising(q);
        q->stage = STAGE_TRY;
        q->at = 0;
        return;
    }
    Candidate *candidate = &q->candidates[q->at++];
    MotionBody body;
    BatchBall batch;
    body_of(q, candidate->plan.slot, candidate->surface_grit, &body, &batch);
    if (candidate->find_aim)
        aim_on_the_mean(q, &body, &batch, candidate);
    candidate->promise = -1.0; /* not allowed, or it has become another adjustment */
    if (!aim_away(q, &batch, candidate) || !candidate_fits(&q->setting, candidate))
        return;
    Delivery meant = plan_delivery(&q->in.bag->bowler, &candidate->plan);
    Outlook outlook =
        forecast_rough(&q->forecast, which_of(q, candidate->plan.slot), &batch, &meant);
    candidate->promise = ranking_promise(&q->setting, candidate, &outlook);
}

/* Once the single answers are done: which of them to combine. */
static void list_pairs(Question *q)
{
    Single singles[ADJUST_COUNT];
    int count = ranking_singles(&q->ranking, singles);
    q->candidate_count = pairs_list(&q->setting, singles, count, q->candidates, CANDIDATES_MAX);
}

/* The path of a plan on the film as estimated, with the ball of its slot as `body` has it. Returns
 * by how many boards it hits higher than the ball's numbers say. */
static double roll_plan(const Advice *advice, const Bowler *bowler, const MotionBody *body,
                        const Plan *plan, Roll *roll)
{
    Delivery today = plan_today(bowler, plan, &advice->lane.today);
    motion_roll(body, &advice->film, &today, roll);
    double off = off_at(&advice->lane, plan->slot, today.laydown_board, roll->breakpoint_board);
    bend(roll, off);
    return off;
}

static bool stays_on_lane(const Question *q, const MotionBody *body, const Plan *plan, double *off)
{
    Roll roll;
    *off = roll_plan(&q->out, &q->in.bag->bowler, body, plan, &roll);
    for (int i = 0; i < roll.count; i++)
        if (roll.path[i].board < RANKING_EDGE_LAST)
            return false;
    return true;
}

static void step_try(Question *q)
{
    if (q->at >= q->candidate_count) {
        if (q->stage == STAGE_TRY)
            list_pairs(q);
        q->stage++;
        q->at = 0;
        return;
    }
    Candidate candidate = q->candidates[q->at++];
    const Bowler *bowler = &q->in.bag->bowler;
    MotionBody body;
    BatchBall batch;
    body_of(q, candidate.plan.slot, candidate.surface_grit, &body, &batch);
    if (q->stage == STAGE_PAIRS)
        aim_on_the_mean(q, &body, &batch, &candidate);
    if (!aim_away(q, &batch, &candidate))
        return;
    Outlook outlook = look_about(q, &batch, &candidate);
    if (!candidate_fits(&q->setting, &candidate))
        return;
    double off;
    if (!stays_on_lane(q, &body, &candidate.plan, &off))
        return;
    Delivery today = todays(q, &candidate.plan);
    LineOn on = on_the_mean(q, &body, &batch);
    Line line = line_measure_on(&on, bowler, &today, off);
    ranking_take(&q->ranking, &candidate, &line, &outlook);
    ranking_write(&q->ranking, &q->out);
}

static void step_slot(Question *q)
{
    if (q->at >= BAG_SLOTS) {
        q->stage = STAGE_DONE;
        q->out.done = true;
        return;
    }
    SlotNow *now = &q->out.slot[q->at];
    const SlotBall *ball = &q->balls[q->at++];
    if (!ball->filled)
        return;
    const Bowler *bowler = &q->in.bag->bowler;
    Delivery meant = plan_delivery(bowler, &q->in.plan), today = todays(q, &q->in.plan);
    LineOn on = on_the_mean(q, &ball->body, &ball->batch);
    now->line = line_search_on(&on, bowler, &today, meant.laydown_board,
                               off_of(q, q->at, &ball->batch, &today));
    now->line.aim = plan_aim_today(meant.laydown_board, now->line.aim, &q->out.lane.today);
    now->line.launch_deg = meant.launch_deg =
        delivery_launch_deg(meant.laydown_board, now->line.aim);
    now->pocket_known = now->line.pocket;
    now->line.pocket =
        forecast_delivery(&q->forecast, which_of(q, q->at), &ball->batch, &meant).pocket;
    now->ready = true;
}

bool advice_step(AdviceJob *job)
{
    switch (job->question.stage) {
    case STAGE_BODIES:
        step_bodies(job);
        break;
    case STAGE_SHOTS:
        step_shot(job);
        break;
    case STAGE_SIGNS:
        step_signs(job);
        break;
    case STAGE_ROUGH:
        step_rough(&job->question);
        break;
    case STAGE_TRY:
    case STAGE_PAIRS:
        step_try(&job->question);
        break;
    case STAGE_SLOTS:
        step_slot(&job->question);
        break;
    case STAGE_DONE:
        break;
    }
    return job->question.stage == STAGE_DONE;
}

void advice_roll(const Advice *advice, const Bag *bag, const Plan *plan, double surface_grit,
                 Roll *roll)
{
    MotionBody body;
    if (surface_grit > 0.0)
        sanded_body(bag, plan->slot, surface_grit, &body);
    else
        motion_body(bag_slot(bag, plan->slot), &body);
    roll_plan(advice, &bag->bowler, &body, plan, roll);
}

bool advice_adjustments_done(const AdviceJob *job) { return job->question.stage >= STAGE_SLOTS; }

AdjustmentKind advice_asked(const AdviceJob *job) { return votes_most(&job->question.votes); }
