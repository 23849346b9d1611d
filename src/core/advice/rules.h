/* rules.h - the advice rules as data: signs in, answers to try out, and the coach's sentence. */
#ifndef SETTEE_CORE_ADVICE_RULES_H
#define SETTEE_CORE_ADVICE_RULES_H

#include "core/advice/adjustment.h"
#include "core/advice/signs.h"

enum { RULES_MAX = 128, RULE_SIGNS_MAX = 8, RULE_ADJUSTMENTS_MAX = 12, RULE_WEIGHT_MAX = 5 };

typedef struct Rule {
    char id[48];
    int when_count, unless_count, try_count, avoid_count;
    Sign when[RULE_SIGNS_MAX];   /* all of them seen; at least one */
    Sign unless[RULE_SIGNS_MAX]; /* none of them seen */
    AdjustmentKind
        try_[RULE_ADJUSTMENTS_MAX]; /* first is what a coach would say first; at least one */
    AdjustmentKind avoid[RULE_ADJUSTMENTS_MAX]; /* never proposed while this rule fires */
    int weight; /* 1..RULE_WEIGHT_MAX, how much a coach would insist */
    char because[200];
    char source[96]; /* "common practice" or a publication */
} Rule;

typedef struct RuleSet {
    int count;
    Rule rules[RULES_MAX];
} RuleSet;

bool rule_fires(const Rule *rule, const Signs *signs);

#endif
