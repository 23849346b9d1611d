/* rules.h - the advice rules as data: signs in, answers to try out, and the coach's sentence. */
#ifndef SETTEE_CORE_ADVICE_RULES_H
#define SETTEE_CORE_ADVICE_RULES_H

#include "core/advice/signs.h"

typedef enum AdjustmentKind {
#define ADJUSTMENT(id, name, words) ADJUST_##id,
#include "core/advice/adjustments.def"
#undef ADJUSTMENT
    ADJUST_COUNT
} AdjustmentKind;
extern const char *const ADJUST_NAMES[ADJUST_COUNT + 1]; /* as in rules files; NULL ends */
extern const char *const ADJUST_WORDS[ADJUST_COUNT];

enum { RULES_MAX = 128, RULE_SIGNS_MAX = 6, RULE_ADJUSTMENTS_MAX = 8 };

/* What to be careful of; each has one fixed sentence. Junior and approach go with no answer, since
 * neither a bag nor a shot tells of them: help alone says these two. */
typedef enum Caution {
    CAUTION_NONE,
    CAUTION_LOFT,
    CAUTION_SPEED,
    CAUTION_HAND,
    CAUTION_SURFACE,
    CAUTION_JUNIOR,
    CAUTION_APPROACH,
    CAUTION_COUNT
} Caution;
extern const char *const CAUTION_NAMES[CAUTION_COUNT + 1]; /* "", loft, speed, hand, surface, ... */
extern const char *const CAUTION_WORDS[CAUTION_COUNT];     /* the sentence; "" for none */

typedef struct Rule {
    char id[48];
    int when_count, unless_count, try_count, avoid_count;
    Sign when[RULE_SIGNS_MAX];   /* all of them seen; at least one */
    Sign unless[RULE_SIGNS_MAX]; /* none of them seen */
    AdjustmentKind
        try_[RULE_ADJUSTMENTS_MAX]; /* first is what a coach would say first; at least one */
    AdjustmentKind avoid[RULE_ADJUSTMENTS_MAX]; /* never proposed while this rule fires */
    int weight;                                 /* 1..5, how much a coach would insist */
    char because[200];
    char source[96]; /* "common practice" or a publication */
} Rule;

typedef struct RuleSet {
    int count;
    Rule rules[RULES_MAX];
} RuleSet;

bool rule_fires(const Rule *rule, const Signs *signs);

#endif
