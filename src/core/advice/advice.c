/* advice.c - signs, rules, forecast, ranking: a job in slices. */
#include "core/advice/advice.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "core/advice/pairs.h"

#define BELIEF_SEED 0x5e77ee
/* How far the rules' word counts against the forecast's gain. Rehearsals (docs/advice.md) lose with
 * more: a rule asks for moves that gain nothing. The coach's word is kept in sight another way, by
 * keep_in_sight. */
#define VOTE_WEIGHT 0.05
#define UNASKED_COST 0.01 /* an answer that no rule asks for must gain that much more */
/* A pair must score that much more than holding and than the better of its parts, beyond what both
 * changes cost: one new thing at a time is common practice, since of two nobody knows which one did
 * it. */
#define PAIR_MARGIN 0.02
#define PIN_VALUE 0.03   /* of a pin of the first ball, in chances of a strike (assumed) */
#define INSIST 0.5       /* a vote from which the rules insist */
#define DISAGREE_BY 0.03 /* forecast against rule, chance of a strike */

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

/* Where the best candidate of each action is kept, and after them the best pair. */
enum { PLACE_PAIR = ADJUST_COUNT, PLACES };

/* Of each action so many candidates get a full forecast, by what a rough one makes of them. */
enum { PROMISING = 3 };

struct AdviceJob {
    AdviceInput in;
    Advice out;
    AdviceStage stage;
    int at; /* shot, slot or candidate that is next */
    bool filled[BAG_SLOTS];
    int which[BAG_SLOTS];    /* the ball's number in the belief; 0: none */
    Estimate off[BAG_SLOTS]; /* boards by which it is thought to hit higher than its numbers say */
    MotionBody body[BAG_SLOTS];
    BatchBall batch[BAG_SLOTS];
    SlotTrait trait[BAG_SLOTS];
    Forecast forecast;
    Setting setting;
    double vote[ADJUST_COUNT]; /* chance-like: 1 - product of (1 - rule's word) */
    bool avoided[ADJUST_COUNT];
    int rule_count[ADJUST_COUNT], rule[ADJUST_COUNT][ADJUSTMENT_RULES_MAX];
    int candidate_count;
    Candidate candidates[CANDIDATES_MAX];
    bool promising[CANDIDATES_MAX];
    bool have[PLACES]; /* best candidate of the place so far */
    Candidate best[PLACES];
    Line best_line[PLACES];
    Outlook best_outlook[PLACES], now;
    double best_value[PLACES], best_score[PLACES];
    double value_now;
    double speed_today; /* mph against the usual */
    Shot shots[SESSION_SHOTS_MAX];
    /* What outlasts a question: the belief after `seen` shots, and before the last of them. */
    Belief belief, before;
    int seen, before_seen; /* -1: nothing there yet */
    Shot seen_shots[SESSION_SHOTS_MAX];
    Bag seen_bag;
    Oil seen_sheet;
    int seen_bowlers;
};

AdviceJob *advice_job_new(void)
{
    AdviceJob *job = calloc(1, sizeof *job);
    if (job)
        job->seen = job->before_seen = -1;
    return job;
}

void advice_job_free(AdviceJob *job) { free(job); }
const Advice *advice_result(const AdviceJob *job) { return &job->out; }

static Delivery meant_by(const AdviceJob *job, const Plan *plan)
{
    return plan_delivery(&job->in.bag->bowler, plan);
}

/* As the bowler is thought to throw it today, on the mean. */
static Delivery todays(const AdviceJob *job, Delivery delivery)
{
    delivery.mph += belief_part(&job->belief, PART_MPH).mean;
    delivery.launch_deg += belief_part(&job->belief, PART_LAUNCH_DEG).mean;
    return delivery;
}

/* Whether a shot was thrown with the same ball by one bag as by another, whatever its name is and
 * where it lies. Bytes between members may differ: then the shots are only weighed anew. */
static bool same_ball(const Shot *a, const Bag *bag_a, const Shot *b, const Bag *bag_b)
{
    Ball x = {0}, y = {0};
    if (shot_ball(a, bag_a, &x) != shot_ball(b, bag_b, &y))
        return false;
    memset(x.name, 0, sizeof x.name);
    memset(y.name, 0, sizeof y.name);
    x.slot = y.slot = 0;
    return memcmp(&x, &y, sizeof x) == 0;
}

/* The new question's first shots against those seen last. */
static bool same_shots(const AdviceJob *job, int count)
{
    const Shot *a = job->seen_shots, *b = job->shots;
    for (int i = 0; i < count; i++)
        if (!same_ball(&a[i], &job->seen_bag, &b[i], job->in.bag) || a[i].lane != b[i].lane ||
            a[i].stance != b[i].stance || a[i].aim != b[i].aim || a[i].mph != b[i].mph ||
            a[i].arrows != b[i].arrows || a[i].breakpoint != b[i].breakpoint ||
            a[i].mph_change != b[i].mph_change || a[i].loft_change_ft != b[i].loft_change_ft ||
            a[i].rotation_change_deg != b[i].rotation_change_deg || a[i].hit != b[i].hit ||
            a[i].read != b[i].read || a[i].release != b[i].release ||
            a[i].left_said != b[i].left_said || a[i].left != b[i].left)
            return false;
    return true;
}

/* Goes on from what is believed already, where the new question's shots begin like the last's. */
static void recall(AdviceJob *job)
{
    Oil sheet, in_frame;
    oil_lay(job->in.pattern, &sheet);
    oil_for_hand(&sheet, job->in.bag->bowler.hand, &in_frame);
    bool same = job->seen >= 0 && job->seen_bowlers == job->in.bowlers_on_pair &&
                memcmp(&job->seen_bag.bowler, &job->in.bag->bowler, sizeof(Bowler)) == 0 &&
                memcmp(&job->seen_sheet, &in_frame, sizeof in_frame) == 0;
    int count = job->in.shot_count;
    bool all = same && job->seen <= count && same_shots(job, job->seen);
    bool but_last = !all && same && job->before_seen >= 0 && job->before_seen <= count &&
                    same_shots(job, job->before_seen);
    job->seen_bag = *job->in.bag;
    if (but_last) { /* the last shot was taken back or edited */
        job->belief = job->before;
        job->seen = job->before_seen;
    }
    if (all || but_last)
        return;
    belief_begin(&job->belief, &in_frame, BELIEF_SEED);
    job->seen = 0;
    job->before_seen = -1;
    job->seen_sheet = in_frame;
    job->seen_bowlers = job->in.bowlers_on_pair;
}

/* Signs compare shots with what would be thrown next by the slot: a ball thrown with another
 * surface than it has now is not the one that lies there. */
static void in_slot(const Bag *bag, Shot *shot)
{
    Ball thrown;
    const Ball *now = bag_slot(bag, shot->slot);
    if (!now || !shot_ball(shot, bag, &thrown) || strcmp(now->id, thrown.id) != 0 ||
        !ball_same_surface(&now->surface, &thrown.surface))
        shot->slot = 0;
}

void advice_begin(AdviceJob *job, const AdviceInput *input)
{
    memset(job, 0, offsetof(AdviceJob, belief));
    job->in = *input;
    job->out.revision = input->revision;
    int skip = input->shot_count > SESSION_SHOTS_MAX ? input->shot_count - SESSION_SHOTS_MAX : 0;
    job->in.shot_count -= skip;
    for (int i = 0; i < job->in.shot_count; i++) { /* what was not said was as planned */
        Shot *shot = &job->shots[i];
        *shot = input->shots[skip + i];
        if (shot->stance == 0.0)
            shot->stance = input->plan.stance;
        if (shot->aim == 0.0)
            shot->aim = input->plan.aim;
        in_slot(input->bag, shot);
    }
    job->in.shots = job->shots;
    recall(job);
    job->stage = STAGE_BODIES;
}

static void prepare_ball(AdviceJob *job, int slot, const Ball *ball)
{
    motion_body(ball, &job->body[slot]);
    batch_ball(&job->body[slot], &job->batch[slot]);
}

static void step_bodies(AdviceJob *job)
{
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(job->in.bag, slot);
        job->filled[slot - 1] = ball != NULL;
        job->out.slot[slot - 1].filled = ball != NULL;
        if (ball)
            prepare_ball(job, slot - 1, ball);
    }
    job->stage = STAGE_SHOTS;
}

static void step_shot(AdviceJob *job)
{
    if (job->seen >= job->in.shot_count) {
        job->stage = STAGE_SIGNS;
        return;
    }
    if (job->seen == job->in.shot_count - 1) {
        job->before = job->belief;
        job->before_seen = job->seen;
    }
    const Shot *shot = &job->shots[job->seen];
    job->seen_shots[job->seen++] = *shot;
    Ball ball;
    MotionBody body;
    BatchBall batch;
    if (!shot_ball(shot, job->in.bag, &ball))
        return; /* it has left the bag: it says nothing that can be used */
    motion_body(&ball, &body);
    batch_ball(&body, &batch);
    Bowler bowler = job->in.bag->bowler; /* what is expected is what was meant */
    bowler.mph += shot->mph_change;
    bowler.loft_ft = fmax(0.0, bowler.loft_ft + shot->loft_change_ft);
    bowler.rotation_deg += shot->rotation_change_deg;
    belief_see(&job->belief, &bowler, &ball, &body, &batch, shot, job->in.bowlers_on_pair);
}

/* What the rules ask for and forbid. The first of a rule's answers counts in full, later ones a
 * little less each. */
static void hear_rules(AdviceJob *job)
{
    for (int i = 0; i < job->in.rules->count; i++) {
        const Rule *rule = &job->in.rules->rules[i];
        if (!rule_fires(rule, &job->out.signs))
            continue;
        for (int k = 0; k < rule->avoid_count; k++)
            job->avoided[rule->avoid[k]] = true;
        for (int k = 0; k < rule->try_count; k++) {
            AdjustmentKind kind = rule->try_[k];
            double word = rule->weight / 6.0 * (1.0 - 0.15 * k);
            job->vote[kind] = 1.0 - (1.0 - job->vote[kind]) * (1.0 - fmax(word, 0.0));
            int at = job->rule_count[kind];
            while (at > 0 && job->in.rules->rules[job->rule[kind][at - 1]].weight < rule->weight)
                at--; /* most insistent first */
            if (at >= ADJUSTMENT_RULES_MAX)
                continue;
            if (job->rule_count[kind] < ADJUSTMENT_RULES_MAX)
                job->rule_count[kind]++;
            for (int m = job->rule_count[kind] - 1; m > at; m--)
                job->rule[kind][m] = job->rule[kind][m - 1];
            job->rule[kind][at] = i;
        }
    }
    job->avoided[ADJUST_HOLD] = false; /* holding is always an answer */
}

static void read_traits(AdviceJob *job)
{
    Delivery delivery = todays(job, meant_by(job, &job->in.plan));
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        if (!job->filled[slot - 1])
            continue;
        Arrival arrival = motion_arrive(&job->body[slot - 1], &job->out.film, &delivery);
        job->trait[slot - 1] = (SlotTrait){
            .strikes = bag_slot(job->in.bag, slot)->cover != COVER_POLYESTER,
            .hook_board = arrival.gutter ? 0.0 : arrival.board,
            .first_move_ft = isnan(arrival.first_move_ft) ? LANE_LENGTH_FT : arrival.first_move_ft};
    }
}

static void read_signs(AdviceJob *job)
{
    const Bowler *bowler = &job->in.bag->bowler;
    const SlotTrait *in_hand = &job->trait[job->in.plan.slot - 1];
    Oil sheet;
    oil_lay(job->in.pattern, &sheet);
    SignsContext context = {.hand = bowler->hand,
                            .laydown_offset_boards = bowler->laydown_offset_boards,
                            .length_ft = job->in.pattern->length_ft,
                            .ratio = oil_ratio(&sheet),
                            .lane = job->in.lane,
                            .plan = job->in.plan,
                            .game = job->in.game,
                            .frame = job->in.frame,
                            .deliveries = job->belief.deliveries[SIDE_LEFT] +
                                          job->belief.deliveries[SIDE_RIGHT],
                            .practice = !job->in.certified,
                            .strongest = in_hand->strikes,
                            .weakest = in_hand->strikes,
                            .apart = job->in.apart};
    for (int i = 0; i < BAG_SLOTS; i++) {
        if (!job->trait[i].strikes || i == job->in.plan.slot - 1)
            continue;
        context.strongest &= job->trait[i].hook_board < in_hand->hook_board;
        context.weakest &= job->trait[i].hook_board > in_hand->hook_board;
    }
    signs_read(&context, job->shots, job->in.shot_count, &job->out.signs);
}

/* What is to be tried: all that the rules name and, asked or not, every ball and every move, since
 * the best line may be far from here. */
static void list_candidates(AdviceJob *job)
{
    job->setting = (Setting){.bag = job->in.bag,
                             .bowler = &job->in.bag->bowler,
                             .plan = job->in.plan,
                             .traits = job->trait,
                             .certified = job->in.certified};
    candidates_name_balls(&job->setting, job->vote, job->avoided);
    for (int kind = 0; kind < ADJUST_COUNT; kind++) {
        if (job->avoided[kind] || kind == ADJUST_HOLD ||
            (job->vote[kind] <= 0.0 && !candidate_unasked((AdjustmentKind)kind)))
            continue;
        /* The usual small move is two boards of feet; less when the rules only murmur, more when
         * the ball crossed over. */
        job->setting.least_move = job->out.signs.seen[SIGN_CROSSED] ? 3
                                  : job->vote[kind] >= 0.5          ? 2
                                                                    : 1;
        job->candidate_count += candidates_list(&job->setting, (AdjustmentKind)kind,
                                                job->candidates + job->candidate_count,
                                                CANDIDATES_MAX - job->candidate_count);
    }
}

/* What a plan is worth, about in chances of a strike: strikes, pins that fall otherwise, and a
 * little for miss room. */
static double value_of(const Outlook *outlook, const Line *line)
{
    return outlook->strike + PIN_VALUE * outlook->pinfall +
           0.01 * fmin(line->margin_in + line->margin_out, 4.0);
}

static bool is_pair(const Candidate *candidate) { return candidate->with != ADJUST_HOLD; }

/* How much the rules ask for all of it. */
static double vote_of(const AdviceJob *job, const Candidate *candidate)
{
    double vote = job->vote[candidate->kind];
    return is_pair(candidate) ? 1.0 - (1.0 - vote) * (1.0 - job->vote[candidate->with]) : vote;
}

/* What a candidate of that value is ranked by. */
static double score_of(const AdviceJob *job, const Candidate *candidate, double value)
{
    int unasked = job->vote[candidate->kind] <= 0.0;
    if (is_pair(candidate))
        unasked += job->vote[candidate->with] <= 0.0;
    return value - job->value_now + VOTE_WEIGHT * vote_of(job, candidate) - unasked * UNASKED_COST;
}

static void take(AdviceJob *job, const Candidate *candidate, const Line *line,
                 const Outlook *outlook)
{
    int place = is_pair(candidate) ? PLACE_PAIR : (int)candidate->kind;
    double value = value_of(outlook, line) - candidate_cost(&job->setting, candidate);
    double score = score_of(job, candidate, value);
    if (job->have[place] && score <= job->best_score[place])
        return;
    job->have[place] = true;
    job->best[place] = *candidate;
    job->best_line[place] = *line;
    job->best_outlook[place] = *outlook;
    job->best_value[place] = value;
    job->best_score[place] = score;
}

static void rank(AdviceJob *job);

/* The belief's number of each slot's ball, and what it is off by here: once a question. */
static void read_offs(AdviceJob *job)
{
    for (int slot = 0; slot < BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(job->in.bag, slot + 1);
        job->which[slot] = ball ? belief_ball(&job->belief, ball->id) : 0;
        job->off[slot] = belief_off(&job->belief, job->in.lane, job->which[slot]);
    }
}

/* A path bent from its breakpoint on, so that it ends where the ball is thought to hit. */
static void bend(Roll *roll, double off_boards)
{
    double from = roll->breakpoint_ft, way = LANE_LENGTH_FT - from;
    if (roll->gutter || !(way > 0.0))
        return;
    for (int i = 0; i < roll->count; i++)
        if (roll->path[i].ft > from)
            roll->path[i].board += off_boards * (roll->path[i].ft - from) / way;
    roll->entry_board += off_boards;
}

static void describe_lane(AdviceJob *job)
{
    LaneNow *lane = &job->out.lane;
    Side side = job->in.lane;
    Estimate volume = belief_part(&job->belief, PART_VOLUME + (int)side);
    lane->scale = volume.mean;
    lane->scale_sd = volume.sd;
    lane->dry = belief_part(&job->belief, PART_DRY + (int)side);
    lane->wear = belief_wear(&job->belief);
    lane->mph = belief_part(&job->belief, PART_MPH);
    lane->deliveries = job->belief.deliveries[side];
    belief_words(&job->belief, side, &job->out.now_roll, lane->words, sizeof lane->words);
    lane->off = job->off[job->in.plan.slot - 1];
    belief_off_words(lane->off, lane->off_words, sizeof lane->off_words);
}

static void step_signs(AdviceJob *job)
{
    const Bowler *bowler = &job->in.bag->bowler;
    int slot = job->in.plan.slot - 1;
    belief_film(&job->belief, job->in.lane, &job->out.film);
    forecast_prepare(&job->forecast, &job->belief, job->in.lane, bowler);
    Delivery meant = meant_by(job, &job->in.plan), delivery = todays(job, meant);
    read_offs(job);
    double off = job->off[slot].mean;
    job->now = forecast_delivery(&job->forecast, job->which[slot], &job->batch[slot], &meant);
    job->out.now = line_measure(&job->body[slot], &job->out.film, bowler, &delivery, off);
    job->out.now.stance = job->in.plan.stance;
    job->out.now.aim = job->in.plan.aim;
    job->out.now.pocket = job->now.pocket;
    motion_roll(&job->body[slot], &job->out.film, &delivery, &job->out.now_roll);
    bend(&job->out.now_roll, off);
    job->value_now = value_of(&job->now, &job->out.now);
    describe_lane(job);
    read_traits(job);
    read_signs(job);
    hear_rules(job);
    list_candidates(job);
    Candidate hold = {.kind = ADJUST_HOLD, .plan = job->in.plan};
    take(job, &hold, &job->out.now, &job->now);
    rank(job);
    job->out.ready = true;
    job->stage = STAGE_ROUGH;
    job->at = 0;
}

/* The ball of a candidate's slot, with the surface that it would be given. */
static void body_of(const AdviceJob *job, const Candidate *candidate, MotionBody *body,
                    BatchBall *batch)
{
    *body = job->body[candidate->plan.slot - 1];
    *batch = job->batch[candidate->plan.slot - 1];
    if (candidate->surface_grit > 0.0) {
        Ball ball = *bag_slot(job->in.bag, candidate->plan.slot);
        ball.surface = (Surface){.finish = FINISH_GRIT, .grit = candidate->surface_grit};
        motion_body(&ball, body);
        batch_ball(body, batch);
    }
}

/* The half board of aim that is best on the mean film; nobody aims finer. */
static void aim_on_the_mean(const AdviceJob *job, const MotionBody *body, Candidate *candidate)
{
    Delivery meant = meant_by(job, &candidate->plan);
    double aim = line_aim(body, &job->out.film, &job->in.bag->bowler, &meant, meant.laydown_board,
                          job->off[candidate->plan.slot - 1].mean);
    candidate->plan.aim = 0.5 * round(2.0 * aim);
}

/* The half board of aim with the best outlook, about the one that is best on the mean film. */
static Outlook look_about(const AdviceJob *job, const BatchBall *batch, Candidate *candidate)
{
    static const double ABOUT[3] = {0.0, -0.5, 0.5};
    Delivery meant = meant_by(job, &candidate->plan);
    int which = job->which[candidate->plan.slot - 1];
    double aim = candidate->plan.aim;
    Outlook best = {0};
    for (int i = 0; i < 3; i++) {
        meant.launch_deg = delivery_launch_deg(meant.laydown_board, aim + ABOUT[i]);
        Outlook outlook = forecast_delivery(&job->forecast, which, batch, &meant);
        if (i == 0 || outlook.strike > best.strike) {
            best = outlook;
            candidate->plan.aim = aim + ABOUT[i];
        }
        if (!candidate->find_aim)
            break;
    }
    return best;
}

/* Of each action the candidates that promise most, in the order they were listed. */
static void keep_promising(AdviceJob *job)
{
    int kept = 0;
    for (int i = 0; i < job->candidate_count; i++) {
        const Candidate *one = &job->candidates[i];
        int better = 0;
        for (int k = 0; k < job->candidate_count; k++) {
            const Candidate *other = &job->candidates[k];
            better += k != i && other->kind == one->kind &&
                      (other->promise > one->promise || (other->promise == one->promise && k < i));
        }
        job->promising[i] = better < PROMISING && one->promise > -1.0;
    }
    for (int i = 0; i < job->candidate_count; i++)
        if (job->promising[i])
            job->candidates[kept++] = job->candidates[i];
    job->candidate_count = kept;
}

static void step_rough(AdviceJob *job)
{
    if (job->at >= job->candidate_count) {
        keep_promising(job);
        job->stage = STAGE_TRY;
        job->at = 0;
        return;
    }
    Candidate *candidate = &job->candidates[job->at++];
    MotionBody body;
    BatchBall batch;
    body_of(job, candidate, &body, &batch);
    if (candidate->find_aim)
        aim_on_the_mean(job, &body, candidate);
    Delivery meant = meant_by(job, &candidate->plan);
    Outlook outlook =
        forecast_rough(&job->forecast, job->which[candidate->plan.slot - 1], &batch, &meant);
    candidate->promise =
        outlook.strike + PIN_VALUE * outlook.pinfall - candidate_cost(&job->setting, candidate);
    if (!candidate_fits(&job->setting, candidate))
        candidate->promise = -1.0; /* another action by now */
}

/* When the single answers are reckoned: which of them to put together. */
static void list_pairs(AdviceJob *job)
{
    Single singles[ADJUST_COUNT];
    int count = 0;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (job->have[kind])
            singles[count++] = (Single){job->best[kind], job->best_score[kind]};
    job->candidate_count =
        pairs_list(&job->setting, singles, count, job->candidates, CANDIDATES_MAX);
}

static void step_try(AdviceJob *job)
{
    if (job->at >= job->candidate_count) {
        if (job->stage == STAGE_TRY)
            list_pairs(job);
        job->stage++;
        job->at = 0;
        return;
    }
    Candidate candidate = job->candidates[job->at++];
    MotionBody body;
    BatchBall batch;
    body_of(job, &candidate, &body, &batch);
    if (job->stage == STAGE_PAIRS)
        aim_on_the_mean(job, &body, &candidate);
    Outlook outlook = look_about(job, &batch, &candidate);
    if (!candidate_fits(&job->setting, &candidate))
        return;
    Delivery delivery = todays(job, meant_by(job, &candidate.plan));
    Line line = line_measure(&body, &job->out.film, &job->in.bag->bowler, &delivery,
                             job->off[candidate.plan.slot - 1].mean);
    take(job, &candidate, &line, &outlook);
    rank(job);
}

static void step_slot(AdviceJob *job)
{
    if (job->at >= BAG_SLOTS) {
        job->stage = STAGE_DONE;
        job->out.done = true;
        return;
    }
    int slot = job->at++;
    if (!job->filled[slot])
        return;
    Line *line = &job->out.slot[slot].line;
    Delivery usual = meant_by(job, &job->in.plan);
    usual.mph += belief_part(&job->belief, PART_MPH).mean;
    *line = line_search(&job->body[slot], &job->out.film, &job->in.bag->bowler, &usual,
                        usual.laydown_board, job->off[slot].mean);
    Delivery meant = meant_by(job, &job->in.plan);
    meant.launch_deg = line->launch_deg;
    line->pocket =
        forecast_delivery(&job->forecast, job->which[slot], &job->batch[slot], &meant).pocket;
    job->out.slot[slot].ready = true;
}

/* The rules that ask for it, most insistent first; of a pair the other part's first one too. */
static void quote_rules(const AdviceJob *job, const Candidate *candidate, Adjustment *adjustment)
{
    AdjustmentKind first = candidate->kind, second = candidate->with;
    if (is_pair(candidate) && job->vote[second] > job->vote[first]) {
        first = candidate->with;
        second = candidate->kind;
    }
    int margin = ADJUSTMENT_RULES_MAX, count = job->rule_count[first];
    bool other = is_pair(candidate) && job->rule_count[second] > 0;
    if (count > margin - other)
        count = margin - other;
    memcpy(adjustment->rules, job->rule[first], (size_t)count * sizeof adjustment->rules[0]);
    for (int i = 0; i < count; i++) /* one rule may ask for both */
        other &= adjustment->rules[i] != job->rule[second][0];
    if (other)
        adjustment->rules[count++] = job->rule[second][0];
    adjustment->rule_count = count;
}

static void write_because(const AdviceJob *job, AdjustmentKind kind, Adjustment *adjustment)
{
    bool asked = false; /* whether a rule asks for anything else */
    for (int other = 0; other < ADJUST_COUNT; other++)
        asked |= other != ADJUST_HOLD && job->vote[other] > 0.0;
    const char *hold =
        asked ? "Only if you doubt what you saw: no rule says hold." : "Nothing asks for a change.";
    const char *words =
        kind == ADJUST_HOLD ? hold : "No rule asks for it; the forecast alone does.";
    if (adjustment->rule_count > 0)
        words = job->in.rules->rules[adjustment->rules[0]].because;
    text_copy(adjustment->because, sizeof adjustment->because, words);
}

static Adjustment adjustment_of(const AdviceJob *job, int place)
{
    const Candidate *best = &job->best[place];
    const Line *line = &job->best_line[place];
    double gain = job->best_value[place] - job->value_now;
    Caution caution = candidate_caution(best->with); /* a pair has one at most */
    Adjustment adjustment = {.kind = best->kind,
                             .with = best->with,
                             .plan = best->plan,
                             .surface_grit = best->surface_grit,
                             .pocket_now = job->now.pocket,
                             .pocket_after = job->best_outlook[place].pocket,
                             .strike_now = job->now.strike,
                             .strike_after = job->best_outlook[place].strike,
                             .entry_deg = job->best_outlook[place].degrees,
                             .margin_in = line->margin_in,
                             .margin_out = line->margin_out,
                             .vote = vote_of(job, best),
                             .score = job->best_score[place],
                             .caution = caution ? caution : candidate_caution(best->kind)};
    adjustment.disagrees =
        best->kind != ADJUST_HOLD && adjustment.vote >= INSIST && gain < -DISAGREE_BY;
    candidate_words(&job->setting, best, adjustment.words, sizeof adjustment.words);
    quote_rules(job, best, &adjustment);
    write_because(job, best->kind, &adjustment);
    return adjustment;
}

static int by_score(const void *a, const void *b)
{
    const Adjustment *x = a, *y = b;
    if (x->score != y->score)
        return x->score < y->score ? 1 : -1;
    if (x->kind != y->kind)
        return (int)x->kind - (int)y->kind;
    return (int)x->with - (int)y->with;
}

/* The same ball on the same line under two names (ball down and cleaner) is said once, by the
 * name that ranks first. */
static void drop_doubles(Advice *out)
{
    int kept = 0;
    for (int i = 0; i < out->adjustment_count; i++) {
        const Plan *plan = &out->adjustments[i].plan;
        bool double_of_other = false;
        for (int k = 0; k < kept && !double_of_other; k++) {
            const Plan *other = &out->adjustments[k].plan;
            double_of_other =
                out->adjustments[i].surface_grit == out->adjustments[k].surface_grit &&
                plan->slot != 0 && plan_same(plan, other);
        }
        if (!double_of_other)
            out->adjustments[kept++] = out->adjustments[i];
    }
    out->adjustment_count = kept;
}

/* Whether the best pair is worth the doubt of changing two things at once. */
static bool pair_pays(const AdviceJob *job)
{
    const Candidate *pair = &job->best[PLACE_PAIR];
    const double *score = job->best_score;
    double without = fmax(score[ADJUST_HOLD], fmax(score[pair->kind], score[pair->with]));
    return job->have[PLACE_PAIR] && score[PLACE_PAIR] > without + PAIR_MARGIN;
}

/* Rules speak first: what they insist on most stands at least second, whatever the forecast says
 * of it; and after a bad throw their "hold" stands first, since one is no reason to move. */
static void keep_in_sight(Advice *out)
{
    int most = 0;
    for (int i = 0; i < out->adjustment_count; i++) /* no rule asks for two things at once */
        if (out->adjustments[i].with == ADJUST_HOLD &&
            (out->adjustments[most].with != ADJUST_HOLD ||
             out->adjustments[i].vote > out->adjustments[most].vote))
            most = i;
    Adjustment insisted = out->adjustments[most];
    int place = insisted.kind == ADJUST_HOLD && out->signs.seen[SIGN_BAD_RELEASE] ? 0 : 1;
    if (most <= place || insisted.vote < INSIST)
        return;
    for (int i = 0; i <= place; i++) { /* a pair that has it in it says it already */
        const Adjustment *pair = &out->adjustments[i];
        if (pair->with != ADJUST_HOLD &&
            (pair->kind == insisted.kind || pair->with == insisted.kind))
            return;
    }
    for (int i = most; i > place; i--)
        out->adjustments[i] = out->adjustments[i - 1];
    out->adjustments[place] = insisted;
}

static void rank(AdviceJob *job)
{
    Advice *out = &job->out;
    out->adjustment_count = 0;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (job->have[kind])
            out->adjustments[out->adjustment_count++] = adjustment_of(job, kind);
    if (pair_pays(job))
        out->adjustments[out->adjustment_count++] = adjustment_of(job, PLACE_PAIR);
    qsort(out->adjustments, (size_t)out->adjustment_count, sizeof out->adjustments[0], by_score);
    drop_doubles(out);
    keep_in_sight(out);
}

bool advice_step(AdviceJob *job)
{
    switch (job->stage) {
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
        step_rough(job);
        break;
    case STAGE_TRY:
    case STAGE_PAIRS:
        step_try(job);
        break;
    case STAGE_SLOTS:
        step_slot(job);
        break;
    case STAGE_DONE:
        break;
    }
    return job->stage == STAGE_DONE;
}

void advice_roll(const AdviceJob *job, const Plan *plan, Roll *roll)
{
    Delivery delivery = todays(job, meant_by(job, plan));
    motion_roll(&job->body[plan->slot - 1], &job->out.film, &delivery, roll);
    bend(roll, job->off[plan->slot - 1].mean);
}

bool advice_adjustments_done(const AdviceJob *job) { return job->stage >= STAGE_SLOTS; }

AdjustmentKind advice_asked(const AdviceJob *job)
{
    AdjustmentKind most = ADJUST_HOLD;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (!job->avoided[kind] && job->vote[kind] > job->vote[most])
            most = (AdjustmentKind)kind;
    return most;
}

const Belief *advice_belief(const AdviceJob *job) { return &job->belief; }
