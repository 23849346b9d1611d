/* glossary.h - what the trade's words mean, for a reader who is new to them: one table for the
 * command line, the help screen and docs/words.md. */
#ifndef SETTEE_CORE_WORDS_GLOSSARY_H
#define SETTEE_CORE_WORDS_GLOSSARY_H

typedef struct Word {
    const char *word;
    const char *means; /* one sentence */
    const char *like;  /* words of the table that go with it, separated by ", " */
} Word;

enum {
    WORD_COUNT = 0
#define WORD(word, means, like) +1
#include "core/words/glossary.def"
#undef WORD
};
extern const Word WORDS[WORD_COUNT];                 /* in alphabetical order */
extern const char *const WORD_NAMES[WORD_COUNT + 1]; /* for text_nearest; NULL ends */

/* The entry of a word in any case, or NULL. */
const Word *word_find(const char *word);

#endif
