/* ranking.c - value, score, order, and the words of each answer. */
#include "core/advice/ranking.h"

#include <math.h>
#include <string.h>

#include "base/sort.h"
#include "base/text.h"

/* How much the rules' vote counts against the forecast's gain. With more, rehearsals score lower
 * (docs/advice.md): rules ask for moves that gain nothing. keep_in_sight shows the coach's advice
 * near the top all the same. */
#define VOTE_WEIGHT 0.05
#define UNASKED_COST 0.03 /* an answer no rule asks for must gain this much more */
/* A pair must beat holding and the better of its parts by this much, beyond what both changes cost:
 * changing one thing at a time is common practice, since after two changes nobody knows which one
 * did it. */
#define PAIR_MARGIN 0.02
#define PIN_VALUE 0.03    /* of a pin of the first ball, in chances of a strike (assumed) */
#define MARGIN_VALUE 0.01 /* of a board of area (assumed), up to MARGIN_MAX boards */
#define MARGIN_MAX 4.0
/* Where strikes are rare: a strike is worth about that many pins of the frame more than none, and
 * every board by which the mean hit is off the pocket costs a little, since there lines differ in
 * little else (both assumed). */
#define STRIKE_PINS 12.0
#define OFF_VALUE 0.02
#define OFF_MAX 6.0
/* A breakpoint outside of EDGE_BOARD has the gutter beside it, which costs the more the nearer it
 * is (assumed); outside of RANKING_EDGE_LAST no ball is sent. */
#define EDGE_BOARD 5.0
/* Boards between which a ball touches the head pin: 20 and half of ball and pin. */
#define HEAD_PIN_LOW 13.5
#define HEAD_PIN_HIGH 26.5
#define EDGE_VALUE 0.01  /* a board */
#define INSIST 0.5       /* with a vote of this or more the rules insist */
#define DISAGREE_BY 0.03 /* forecast against rule, chance of a strike */

static bool is_pair(const Candidate *candidate) { return candidate->with != ADJUST_HOLD; }

static double off_pocket(const Outlook *outlook)
{
    double off = fabs(outlook->board - LANE_POCKET_BEST);
    return isnan(off) ? OFF_MAX : fmin(off, OFF_MAX);
}

static FrameOutlook frame_for(const Setting *setting, const Candidate *candidate,
                              const Outlook *outlook)
{
    return frame_of(outlook, setting->bowler, bag_slot(setting->bag, candidate->plan.slot));
}

/* What an outlook is worth, about in chances of a strike: what the frame is to come to. */
static double value_at_the_pins(const Setting *setting, const Outlook *outlook,
                                const FrameOutlook *frame)
{
    if (setting->need == NEED_STRIKE)
        return outlook->strike;
    if (setting->need == NEED_CLEAN)
        return frame->clean;
    if (setting->strikes_rare)
        return frame->score / STRIKE_PINS - OFF_VALUE * off_pocket(outlook);
    return outlook->strike + PIN_VALUE * outlook->pinfall;
}

/* A plan's value: the same with a little for area, less what the gutter beside it costs. */
static double value_of(const Setting *setting, const Outlook *outlook, const FrameOutlook *frame,
                       const Line *line)
{
    double edge = isnan(line->breakpoint_board) ? 0.0 : EDGE_BOARD - line->breakpoint_board;
    return value_at_the_pins(setting, outlook, frame) +
           MARGIN_VALUE * fmin(line->margin_in + line->margin_out, MARGIN_MAX) -
           EDGE_VALUE * fmin(fmax(edge, 0.0), EDGE_BOARD);
}

double ranking_promise(const Setting *setting, const Candidate *candidate, const Outlook *outlook)
{
    FrameOutlook frame = {0};
    if (setting->strikes_rare || setting->need == NEED_CLEAN)
        frame = frame_for(setting, candidate, outlook);
    return value_at_the_pins(setting, outlook, &frame) - candidate_cost(setting, candidate);
}

static double vote_of(const Ranking *ranking, const Candidate *candidate)
{
    return votes_for(ranking->votes, candidate->kind, candidate->with);
}

static double score_of(const Ranking *ranking, const Candidate *candidate, double value)
{
    int unasked = votes_unasked(ranking->votes, candidate->kind, candidate->with);
    return value - ranking->value_now + VOTE_WEIGHT * vote_of(ranking, candidate) -
           unasked * UNASKED_COST;
}

/* Whether the plan as it stands is thought to miss the head pin altogether: then there is no hit to
 * compare with, and what was seen of it says that the lane is another. */
static bool now_misses(const Ranking *ranking)
{
    double board = ranking->line_now.entry_board;
    return !(board >= HEAD_PIN_LOW && board <= HEAD_PIN_HIGH);
}

static double hit_boards(const Ranking *ranking, double board)
{
    return now_misses(ranking) ? 0.0 : board - ranking->line_now.entry_board;
}

/* By how many boards a hit is farther from the pocket than holding would be. */
static double off_boards(const Ranking *ranking, double moved_boards)
{
    double board = ranking->line_now.entry_board;
    return now_misses(ranking)
               ? 0.0
               : fabs(board + moved_boards - LANE_POCKET_BEST) - fabs(board - LANE_POCKET_BEST);
}

bool ranking_allows_roll(const Ranking *ranking, double board, double breakpoint)
{
    return breakpoint >= RANKING_EDGE_LAST &&
           (now_misses(ranking) ||
            restraint_allows_hit(ranking->restraint, hit_boards(ranking, board)));
}

/* Whether it may be answered at all; holding always may. */
static bool may_answer(const Ranking *ranking, const Candidate *candidate, const Line *line)
{
    return candidate->kind == ADJUST_HOLD ||
           (!isnan(line->entry_board) &&
            ranking_allows_roll(ranking, line->entry_board, line->breakpoint_board));
}

void ranking_take(Ranking *ranking, const Candidate *candidate, const Line *line,
                  const Outlook *outlook)
{
    const Setting *setting = ranking->setting;
    int place = is_pair(candidate) ? PLACE_PAIR : (int)candidate->kind;
    if (!may_answer(ranking, candidate, line))
        return;
    FrameOutlook frame = frame_for(setting, candidate, outlook);
    double value = value_of(setting, outlook, &frame, line) - candidate_cost(setting, candidate);
    double score = score_of(ranking, candidate, value);
    Tried *best = &ranking->best[place];
    bool near = restraint_allows_off(ranking->restraint,
                                     off_boards(ranking, hit_boards(ranking, line->entry_board)));
    if (ranking->have[place] && (near == best->near ? score <= best->score : best->near))
        return;
    ranking->have[place] = true;
    *best = (Tried){.candidate = *candidate,
                    .line = *line,
                    .outlook = *outlook,
                    .frame = frame,
                    .value = value,
                    .score = score,
                    .near = near};
}

void ranking_begin(Ranking *ranking, const Setting *setting, const Votes *votes,
                   const RuleSet *rules, const Restraint *restraint, const Outlook *now,
                   const Line *line)
{
    Candidate hold = {.kind = ADJUST_HOLD, .plan = setting->plan};
    memset(ranking, 0, sizeof *ranking);
    ranking->setting = setting;
    ranking->votes = votes;
    ranking->rules = rules;
    ranking->restraint = restraint;
    ranking->now = *now;
    ranking->line_now = *line;
    ranking->frame_now = frame_for(setting, &hold, now);
    ranking->value_now = value_of(setting, now, &ranking->frame_now, line);
    ranking_take(ranking, &hold, line, now);
}

int ranking_singles(const Ranking *ranking, Single out[ADJUST_COUNT])
{
    int count = 0;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (ranking->have[kind])
            out[count++] = (Single){ranking->best[kind].candidate, ranking->best[kind].score};
    return count;
}

/* The sentence of the first rule that asks for this before all else: a rule that names a move
 * second says "wait" first, and one that names holding second says "move". NULL: there is none. */
static const char *quoted(const Ranking *ranking, const Adjustment *adjustment)
{
    bool hold = adjustment->kind == ADJUST_HOLD;
    for (int i = 0; i < adjustment->rule_count; i++) {
        const Rule *rule = &ranking->rules->rules[adjustment->rules[i]];
        if ((rule->try_[0] == ADJUST_HOLD) == hold)
            return rule->because;
    }
    return NULL;
}

static const char *because(const Ranking *ranking, const Adjustment *adjustment, double gain)
{
    const char *quote = quoted(ranking, adjustment);
    if (quote)
        return quote;
    if (adjustment->kind == ADJUST_HOLD)
        return votes_for_change(ranking->votes)
                   ? "Hold only if you doubt what you saw: the usual rules would change something."
                   : "Nothing asks for a change.";
    if (adjustment->rule_count > 0)
        return gain > 0.0 ? "The numbers like it already; the usual rules would see one more first."
                          : "The usual rules keep it for the next ball that comes in like that.";
    return gain > 0.0 ? "The numbers like it; the usual rules don't say so."
                      : "Neither the rules nor the numbers ask for it.";
}

/* "hits about 1.5 boards lighter". */
static void hit_words(const Ranking *ranking, double boards, char *out, size_t size)
{
    double halves = lane_half_board(fabs(boards));
    const char *way = boards > 0.0 ? "higher" : "lighter";
    out[0] = '\0';
    if (now_misses(ranking))
        text_append(out, size, "comes back to the head pin");
    else if (halves == 0.0)
        text_append(out, size, "hits about where it does now");
    else if (halves == 0.5)
        text_append(out, size, "hits about half a board %s", way);
    else
        text_append(out, size, "hits about %g board%s %s", halves, halves == 1.0 ? "" : "s", way);
}

static Adjustment adjustment_of(const Ranking *ranking, const Tried *tried)
{
    const Setting *setting = ranking->setting;
    const Candidate *chosen = &tried->candidate;
    double gain = tried->value - ranking->value_now;
    Caution caution = ADJUSTMENTS[chosen->with].caution; /* a pair has one at most */
    Adjustment adjustment = {.kind = chosen->kind,
                             .with = chosen->with,
                             .plan = chosen->plan,
                             .surface_grit = chosen->surface_grit,
                             .pocket_now = ranking->now.pocket,
                             .pocket_after = tried->outlook.pocket,
                             .pocket_known = tried->line.pocket,
                             .strike_now = ranking->now.strike,
                             .strike_after = tried->outlook.strike,
                             .frame_now = ranking->frame_now,
                             .frame_after = tried->frame,
                             .entry_deg = tried->outlook.degrees,
                             .hit_boards = hit_boards(ranking, tried->line.entry_board),
                             .margin_in = tried->line.margin_in,
                             .margin_out = tried->line.margin_out,
                             .vote = vote_of(ranking, chosen),
                             .score = tried->score,
                             .caution = caution ? caution : ADJUSTMENTS[chosen->kind].caution};
    adjustment.disagrees =
        chosen->kind != ADJUST_HOLD && adjustment.vote >= INSIST && gain < -DISAGREE_BY;
    candidate_words(setting, chosen, adjustment.words, sizeof adjustment.words);
    if (chosen->kind != ADJUST_HOLD)
        hit_words(ranking, adjustment.hit_boards, adjustment.hits, sizeof adjustment.hits);
    adjustment.rule_count =
        votes_quote(ranking->votes, chosen->kind, chosen->with, adjustment.rules);
    text_copy(adjustment.because, sizeof adjustment.because, because(ranking, &adjustment, gain));
    return adjustment;
}

static bool scores_more(const void *a, const void *b)
{
    const Adjustment *x = a, *y = b;
    return x->score > y->score;
}

static bool same_throw(const Adjustment *a, const Adjustment *b)
{
    return a->surface_grit == b->surface_grit && a->plan.slot != 0 && plan_same(&a->plan, &b->plan);
}

/* Shows the same ball on the same line only once if it has two names (ball down and cleaner): the
 * one that ranks first. */
static void drop_doubles(Advice *out)
{
    int kept = 0;
    for (int i = 0; i < out->adjustment_count; i++) {
        int k = 0;
        while (k < kept && !same_throw(&out->adjustments[i], &out->adjustments[k]))
            k++;
        if (k == kept)
            out->adjustments[kept++] = out->adjustments[i];
    }
    out->adjustment_count = kept;
}

/* Whether the best pair is worth changing two things at once. */
static bool pair_pays(const Ranking *ranking)
{
    if (!ranking->have[PLACE_PAIR])
        return false;
    const Tried *best = ranking->best, *pair = &best[PLACE_PAIR];
    double without = fmax(best[ADJUST_HOLD].score,
                          fmax(best[pair->candidate.kind].score, best[pair->candidate.with].score));
    return pair->score > without + PAIR_MARGIN;
}

/* The single adjustment the rules ask for most (no rule asks for a pair). */
static int most_asked(const Advice *out)
{
    int most = 0;
    for (int i = 0; i < out->adjustment_count; i++)
        if (out->adjustments[i].with == ADJUST_HOLD &&
            (out->adjustments[most].with != ADJUST_HOLD ||
             out->adjustments[i].vote > out->adjustments[most].vote))
            most = i;
    return most;
}

static void move_up(Advice *out, int from, int to)
{
    Adjustment moved = out->adjustments[from];
    for (int i = from; i > to; i--)
        out->adjustments[i] = out->adjustments[i - 1];
    out->adjustments[to] = moved;
}

/* Rules speak first: what they insist on most is shown second at worst, whatever the forecast says;
 * and after a bad throw their "hold" comes first, since one bad throw is no reason to move. */
static void keep_in_sight(Advice *out)
{
    int most = most_asked(out);
    Adjustment insisted = out->adjustments[most];
    int place = insisted.kind == ADJUST_HOLD && out->signs.seen[SIGN_BAD_RELEASE] ? 0 : 1;
    if (most <= place || insisted.vote < INSIST)
        return;
    for (int i = 0; i <= place; i++) { /* unless a pair already contains it */
        const Adjustment *pair = &out->adjustments[i];
        if (pair->with != ADJUST_HOLD &&
            (pair->kind == insisted.kind || pair->with == insisted.kind))
            return;
    }
    move_up(out, most, place);
}

static FirstAnswer first_answer(const Ranking *ranking, const Adjustment *adjustment)
{
    const Setting *setting = ranking->setting;
    const FrameOutlook *after = &adjustment->frame_after, *now = &adjustment->frame_now;
    double strike = adjustment->strike_after - adjustment->strike_now;
    double pocket = adjustment->pocket_after - adjustment->pocket_now;
    double frame = (after->score - now->score) / STRIKE_PINS;
    FirstAnswer answer = {.kind = adjustment->kind,
                          .with = adjustment->with,
                          .asked = adjustment->vote > 0.0,
                          .feet = candidate_feet_in(&setting->plan, &adjustment->plan),
                          .gain = strike,
                          .gain_at_best = strike,
                          .off_boards = off_boards(ranking, adjustment->hit_boards)};
    if (setting->need == NEED_CLEAN) {
        answer.gain = answer.gain_at_best = after->clean - now->clean;
    } else if (setting->need == NEED_SCORE && setting->strikes_rare) {
        answer.gain = frame;
        answer.gain_at_best = fmax(frame, fmax(strike, pocket));
    }
    return answer;
}

static bool may_be_first(const Ranking *ranking, const Adjustment *adjustment)
{
    FirstAnswer answer = first_answer(ranking, adjustment);
    return restraint_allows_first(ranking->restraint, &answer);
}

static bool gains_more(const Ranking *ranking, const Adjustment *a, const Adjustment *b)
{
    return first_answer(ranking, a).gain > first_answer(ranking, b).gain;
}

/* Of the changes the one that costs least; 0 where there is none. */
static int least_loss(const Ranking *ranking, const Advice *out)
{
    int least = 0;
    for (int i = 0; i < out->adjustment_count; i++) {
        const Adjustment *now = &out->adjustments[least], *other = &out->adjustments[i];
        if (other->kind != ADJUST_HOLD &&
            (now->kind == ADJUST_HOLD || gains_more(ranking, other, now)))
            least = i;
    }
    return least;
}

static bool changes_hand(const Adjustment *adjustment)
{
    return ADJUSTMENTS[adjustment->kind].changes == CHANGE_ROTATION ||
           ADJUSTMENTS[adjustment->with].changes == CHANGE_ROTATION;
}

/* The next change that may be first and leaves the hand as it is; the count where there is none. */
static int next_without_hand(const Ranking *ranking, const Advice *out, int first)
{
    int next = first;
    while (next < out->adjustment_count &&
           (out->adjustments[next].kind == ADJUST_HOLD || changes_hand(&out->adjustments[next]) ||
            !may_be_first(ranking, &out->adjustments[next])))
        next++;
    return next;
}

/* What comes first where the best answer changes the hand: the next change, unless the hand gains
 * clearly more. */
static int hand_last(const Ranking *ranking, const Advice *out, int first)
{
    int next = next_without_hand(ranking, out, first);
    if (!changes_hand(&out->adjustments[first]) || next == out->adjustment_count)
        return first;
    FirstAnswer hand = first_answer(ranking, &out->adjustments[first]);
    FirstAnswer other = first_answer(ranking, &out->adjustments[next]);
    return restraint_hand_pays(&hand, &other) ? first : next;
}

/* The first answer is the best of those that a coach would let stand there. Where none would do
 * (three misses, and every change costs something) it is the change that costs least, and says so:
 * the next ball shall not be the fourth. */
static void put_first(const Ranking *ranking, Advice *out)
{
    int first = 0;
    while (first < out->adjustment_count && !may_be_first(ranking, &out->adjustments[first]))
        first++;
    bool none = first == out->adjustment_count;
    move_up(out, none ? least_loss(ranking, out) : hand_last(ranking, out, first), 0);
    Adjustment *top = &out->adjustments[0];
    if (top->kind == ADJUST_HOLD && !quoted(ranking, top) && votes_for_change(ranking->votes))
        text_copy(top->because, sizeof top->because,
                  "Hold: the usual rules ask for a change, but the numbers do not.");
    if (top->kind != ADJUST_HOLD && none) {
        top->disagrees = true;
        text_copy(top->because, sizeof top->because,
                  "Three good misses to one side: don't throw the fourth, even if the numbers see "
                  "nothing better.");
    }
}

/* Leaves that add up on flush hits say that the table's carry is not today's. The forecast of every
 * change rests on that table too, so the best of those that the rules ask for comes first. */
static void asked_first(const Ranking *ranking, Advice *out)
{
    if (!out->signs.seen[SIGN_ADDS_UP])
        return;
    int best = 0;
    while (best < out->adjustment_count &&
           (out->adjustments[best].kind == ADJUST_HOLD || out->adjustments[best].vote <= 0.0 ||
            !may_be_first(ranking, &out->adjustments[best])))
        best++;
    if (best < out->adjustment_count)
        move_up(out, best, 0);
}

void ranking_write(const Ranking *ranking, Advice *out)
{
    out->adjustment_count = 0;
    out->strikes_rare = ranking->setting->strikes_rare;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (ranking->have[kind])
            out->adjustments[out->adjustment_count++] =
                adjustment_of(ranking, &ranking->best[kind]);
    if (pair_pays(ranking))
        out->adjustments[out->adjustment_count++] =
            adjustment_of(ranking, &ranking->best[PLACE_PAIR]);
    sort_items(out->adjustments, (size_t)out->adjustment_count, sizeof out->adjustments[0],
               scores_more); /* equal ones keep the table's order */
    drop_doubles(out);
    put_first(ranking, out);
    asked_first(ranking, out);
    keep_in_sight(out);
}
