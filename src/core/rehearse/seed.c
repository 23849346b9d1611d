/* seed.c - see seed.h. */
#include "core/rehearse/seed.h"

#include <string.h>

#include "base/text.h"

static const char *const FIRST[SEED_WORDS + 1] = {
#define SEED_FIRST(word) word,
#define SEED_SECOND(word)
#include "core/rehearse/seed_words.def"
#undef SEED_FIRST
#undef SEED_SECOND
};

static const char *const SECOND[SEED_WORDS + 1] = {
#define SEED_FIRST(word)
#define SEED_SECOND(word) word,
#include "core/rehearse/seed_words.def"
#undef SEED_FIRST
#undef SEED_SECOND
};

/* An odd factor takes every number of 16 bits to another one; its inverse takes it back. */
#define SCATTER 40503u
#define GATHER 30599u
_Static_assert(((SCATTER * GATHER) & (SEED_PAIRS - 1)) == 1, "they undo each other");

void seed_text(uint64_t seed, char out[SEED_TEXT_MAX])
{
    out[0] = '\0';
    if (seed < 1 || seed > SEED_PAIRS) {
        text_append(out, SEED_TEXT_MAX, "%llu", (unsigned long long)seed);
        return;
    }
    unsigned pair = ((unsigned)(seed - 1) * SCATTER) & (SEED_PAIRS - 1);
    text_append(out, SEED_TEXT_MAX, "%s-%s", FIRST[pair / SEED_WORDS], SECOND[pair % SEED_WORDS]);
}

static int index_of(const char *const *words, const char *word)
{
    for (int i = 0; word && i < SEED_WORDS; i++)
        if (strcmp(words[i], word) == 0)
            return i;
    return -1;
}

bool seed_of_text(const char *text, uint64_t *seed, char near[SEED_TEXT_MAX])
{
    char word[2][SEED_TEXT_MAX] = {""};
    size_t hyphen = 0, length = strlen(text);
    near[0] = '\0';
    while (text[hyphen] && text[hyphen] != '-')
        hyphen++;
    if (hyphen == length || hyphen >= SEED_TEXT_MAX || length - hyphen > SEED_TEXT_MAX)
        return false;
    for (size_t i = 0; i < length; i++) {
        char c = text[i] >= 'A' && text[i] <= 'Z' ? (char)(text[i] - 'A' + 'a') : text[i];
        if (i < hyphen)
            word[0][i] = c;
        else if (i > hyphen)
            word[1][i - hyphen - 1] = c;
    }
    int first = index_of(FIRST, word[0]), second = index_of(SECOND, word[1]);
    if (first >= 0 && second >= 0) {
        unsigned pair = (unsigned)(first * SEED_WORDS + second);
        *seed = ((pair * GATHER) & (SEED_PAIRS - 1)) + UINT64_C(1);
        return true;
    }
    const char *one = first >= 0 ? FIRST[first] : text_nearest(word[0], FIRST);
    const char *two = second >= 0 ? SECOND[second] : text_nearest(word[1], SECOND);
    if (one && two)
        text_append(near, SEED_TEXT_MAX, "%s-%s", one, two);
    return false;
}
