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
#define INSIST 0.5       /* with a vote of this or more the rules insist */
#define DISAGREE_BY 0.03 /* forecast against rule, chance of a strike */

static bool is_pair(const Candidate *candidate) { return candidate->with != ADJUST_HOLD; }

static double value_at_the_pins(const Outlook *outlook)
{
    return outlook->strike + PIN_VALUE * outlook->pinfall;
}

/* A plan's value, roughly in chances of a strike: strikes, pinfall, and a little for area. */
static double value_of(const Outlook *outlook, const Line *line)
{
    return value_at_the_pins(outlook) +
           MARGIN_VALUE * fmin(line->margin_in + line->margin_out, MARGIN_MAX);
}

double ranking_promise(const Setting *setting, const Candidate *candidate, const Outlook *outlook)
{
    return value_at_the_pins(outlook) - candidate_cost(setting, candidate);
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

void ranking_take(Ranking *ranking, const Candidate *candidate, const Line *line,
                  const Outlook *outlook)
{
    int place = is_pair(candidate) ? PLACE_PAIR : (int)candidate->kind;
    double value = value_of(outlook, line) - candidate_cost(ranking->setting, candidate);
    double score = score_of(ranking, candidate, value);
    if (ranking->have[place] && score <= ranking->best[place].score)
        return;
    ranking->have[place] = true;
    ranking->best[place] = (Tried){.candidate = *candidate,
                                   .line = *line,
                                   .outlook = *outlook,
                                   .value = value,
                                   .score = score};
}

void ranking_begin(Ranking *ranking, const Setting *setting, const Votes *votes,
                   const RuleSet *rules, const Outlook *now, const Line *line)
{
    memset(ranking, 0, sizeof *ranking);
    ranking->setting = setting;
    ranking->votes = votes;
    ranking->rules = rules;
    ranking->now = *now;
    ranking->value_now = value_of(now, line);
    Candidate hold = {.kind = ADJUST_HOLD, .plan = setting->plan};
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

static const char *because(const Ranking *ranking, const Adjustment *adjustment)
{
    if (adjustment->rule_count > 0)
        return ranking->rules->rules[adjustment->rules[0]].because;
    if (adjustment->kind != ADJUST_HOLD)
        return "The numbers like it; the usual rules don't say so.";
    return votes_for_change(ranking->votes) ? "Only if you doubt what you saw: no rule says hold."
                                            : "Nothing asks for a change.";
}

static Adjustment adjustment_of(const Ranking *ranking, const Tried *tried)
{
    const Candidate *chosen = &tried->candidate;
    double gain = tried->value - ranking->value_now;
    Caution caution = ADJUSTMENTS[chosen->with].caution; /* a pair has one at most */
    Adjustment adjustment = {.kind = chosen->kind,
                             .with = chosen->with,
                             .plan = chosen->plan,
                             .surface_grit = chosen->surface_grit,
                             .pocket_now = ranking->now.pocket,
                             .pocket_after = tried->outlook.pocket,
                             .strike_now = ranking->now.strike,
                             .strike_after = tried->outlook.strike,
                             .entry_deg = tried->outlook.degrees,
                             .margin_in = tried->line.margin_in,
                             .margin_out = tried->line.margin_out,
                             .vote = vote_of(ranking, chosen),
                             .score = tried->score,
                             .caution = caution ? caution : ADJUSTMENTS[chosen->kind].caution};
    adjustment.disagrees =
        chosen->kind != ADJUST_HOLD && adjustment.vote >= INSIST && gain < -DISAGREE_BY;
    candidate_words(ranking->setting, chosen, adjustment.words, sizeof adjustment.words);
    adjustment.rule_count =
        votes_quote(ranking->votes, chosen->kind, chosen->with, adjustment.rules);
    text_copy(adjustment.because, sizeof adjustment.because, because(ranking, &adjustment));
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
    for (int i = most; i > place; i--)
        out->adjustments[i] = out->adjustments[i - 1];
    out->adjustments[place] = insisted;
}

/* Leaves that add up on flush hits say that the table's carry is not today's: holding, which was
 * forecast by it, gives way to the best change that the rules ask for. */
static void hold_gives_way(Advice *out)
{
    if (!out->signs.seen[SIGN_ADDS_UP] || out->adjustments[0].kind != ADJUST_HOLD)
        return;
    int best = 1;
    while (best < out->adjustment_count && out->adjustments[best].vote <= 0.0)
        best++;
    if (best == out->adjustment_count)
        return;
    Adjustment asked = out->adjustments[best];
    for (int i = best; i > 0; i--)
        out->adjustments[i] = out->adjustments[i - 1];
    out->adjustments[0] = asked;
}

void ranking_write(const Ranking *ranking, Advice *out)
{
    out->adjustment_count = 0;
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
    hold_gives_way(out);
    keep_in_sight(out);
}
