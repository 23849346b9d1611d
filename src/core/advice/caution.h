/* caution.h - what to be careful of: where a change can hurt someone or something, one fixed
 * sentence.
 *
 * Junior and approach go with no adjustment, since neither a bag nor a shot tells of them: help
 * alone says these two. */
#ifndef SETTEE_CORE_ADVICE_CAUTION_H
#define SETTEE_CORE_ADVICE_CAUTION_H

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

#endif
