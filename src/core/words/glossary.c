/* glossary.c - the table of words, and one found in it. */
#include "core/words/glossary.h"

#include <stdbool.h>
#include <stddef.h>

const Word WORDS[WORD_COUNT] = {
#define WORD(word, means, like) {word, means, like},
#include "core/words/glossary.def"
#undef WORD
};
const char *const WORD_NAMES[WORD_COUNT + 1] = {
#define WORD(word, means, like) word,
#include "core/words/glossary.def"
#undef WORD
    0};

static char lower(char c) { return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c; }

static bool same(const char *a, const char *b)
{
    while (*a && lower(*a) == lower(*b)) {
        a++;
        b++;
    }
    return lower(*a) == lower(*b);
}

const Word *word_find(const char *word)
{
    for (int i = 0; i < WORD_COUNT; i++)
        if (same(WORDS[i].word, word))
            return &WORDS[i];
    return NULL;
}
