/* votes.h - what the rules ask for, how strongly, and what they forbid. */
#ifndef SETTEE_CORE_ADVICE_VOTES_H
#define SETTEE_CORE_ADVICE_VOTES_H

#include "core/advice/rules.h"

enum { ADJUSTMENT_RULES_MAX = 4 };

typedef struct Votes {
    double vote[ADJUST_COUNT];  /* chance-like, 0..1: 1 - product of (1 - rule's word) */
    bool avoided[ADJUST_COUNT]; /* forbidden; never ADJUST_HOLD: holding is always an answer */
    int rule_count[ADJUST_COUNT];
    int rule[ADJUST_COUNT][ADJUSTMENT_RULES_MAX]; /* that ask for it, most insistent first */
} Votes;

/* Adds up every rule that fires. */
void votes_hear(Votes *votes, const RuleSet *rules, const Signs *signs);

/* What is asked for most and not forbidden; ADJUST_HOLD when nothing is. */
AdjustmentKind votes_most(const Votes *votes);

/* Whether anything but holding is asked for. */
bool votes_for_change(const Votes *votes);

/* How much the rules ask for both parts of a pair; `with` is ADJUST_HOLD for a single one. And how
 * many of its parts no rule asks for. */
double votes_for(const Votes *votes, AdjustmentKind kind, AdjustmentKind with);
int votes_unasked(const Votes *votes, AdjustmentKind kind, AdjustmentKind with);

/* The rules that ask for it, most insistent first; of a pair the other part's first one too.
 * Returns how many. */
int votes_quote(const Votes *votes, AdjustmentKind kind, AdjustmentKind with,
                int rules[ADJUSTMENT_RULES_MAX]);

#endif
