/* votes.c - the rules that fire, added up. */
#include "core/advice/votes.h"

#include <string.h>

/* A rule's first answer counts in full, the later ones a little less each. */
#define LATER_LESS 0.15

static void count_votes(Votes *votes, const Rule *rule)
{
    for (int k = 0; k < rule->avoid_count; k++)
        votes->avoided[rule->avoid[k]] = true;
    for (int k = 0; k < rule->try_count; k++) {
        double word = rule->weight / (RULE_WEIGHT_MAX + 1.0) * (1.0 - LATER_LESS * k);
        double *vote = &votes->vote[rule->try_[k]];
        *vote = 1.0 - (1.0 - *vote) * (1.0 - (word > 0.0 ? word : 0.0));
    }
}

static void note_rule(Votes *votes, const Rule *rule, int index)
{
    for (int k = 0; k < rule->try_count; k++) {
        int *count = &votes->rule_count[rule->try_[k]];
        if (*count < ADJUSTMENT_RULES_MAX)
            votes->rule[rule->try_[k]][(*count)++] = index;
    }
}

void votes_hear(Votes *votes, const RuleSet *rules, const Signs *signs)
{
    bool fires[RULES_MAX];
    memset(votes, 0, sizeof *votes);
    for (int i = 0; i < rules->count; i++) {
        fires[i] = rule_fires(&rules->rules[i], signs);
        if (fires[i])
            count_votes(votes, &rules->rules[i]);
    }
    for (int weight = RULE_WEIGHT_MAX; weight > 0; weight--)
        for (int i = 0; i < rules->count; i++)
            if (fires[i] && rules->rules[i].weight == weight)
                note_rule(votes, &rules->rules[i], i);
    votes->avoided[ADJUST_HOLD] = false;
}

AdjustmentKind votes_most(const Votes *votes)
{
    AdjustmentKind most = ADJUST_HOLD;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (!votes->avoided[kind] && votes->vote[kind] > votes->vote[most])
            most = (AdjustmentKind)kind;
    return most;
}

bool votes_for_change(const Votes *votes)
{
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (kind != ADJUST_HOLD && votes->vote[kind] > 0.0)
            return true;
    return false;
}

double votes_for(const Votes *votes, AdjustmentKind kind, AdjustmentKind with)
{
    double vote = votes->vote[kind];
    return with == ADJUST_HOLD ? vote : 1.0 - (1.0 - vote) * (1.0 - votes->vote[with]);
}

int votes_unasked(const Votes *votes, AdjustmentKind kind, AdjustmentKind with)
{
    return (votes->vote[kind] <= 0.0) + (with != ADJUST_HOLD && votes->vote[with] <= 0.0);
}

int votes_quote(const Votes *votes, AdjustmentKind kind, AdjustmentKind with,
                int rules[ADJUSTMENT_RULES_MAX])
{
    bool pair = with != ADJUST_HOLD;
    bool turned = pair && votes->vote[with] > votes->vote[kind];
    AdjustmentKind first = turned ? with : kind, second = turned ? kind : with;
    bool other = pair && votes->rule_count[second] > 0;
    int room = ADJUSTMENT_RULES_MAX - other;
    int count = votes->rule_count[first] < room ? votes->rule_count[first] : room;
    memcpy(rules, votes->rule[first], (size_t)count * sizeof rules[0]);
    for (int i = 0; i < count; i++) /* one rule may ask for both */
        other &= rules[i] != votes->rule[second][0];
    if (other)
        rules[count++] = votes->rule[second][0];
    return count;
}
