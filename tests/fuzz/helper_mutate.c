/* helper_mutate.c - see helper_mutate.h. */
#include "helper_mutate.h"

#include <stdbool.h>
#include <string.h>

/* Pieces that break readers elsewhere. */
static const char *const PIECES[] = {
    "\"",           "{",        "}",           "[",         "]",   ",",          ":",
    "\\",           "\\u",      "1e999",       "-",         "0.",  "null",       "true",
    "\n",           "\x1b",     "\xff",        "\xc3\xa9",  "NaN", "1e-400",     "\\ud800",
    "{}",           "[[[[[[[[", "\"format\":", "-0",        "1e9", "4294967296", "\\u202e",
    "\xe2\x80\xae", "[]",       "\"\"",        "2147483648"};
enum { PIECE_COUNT = sizeof PIECES / sizeof PIECES[0] };

static size_t below(Rng *rng, size_t limit) { return (size_t)(rng_next(rng) % limit); }

/* Makes room for `length` bytes at `at`; false: there is none. */
static bool widen(char *text, size_t *size, size_t room, size_t at, size_t length)
{
    if (*size + length > room)
        return false;
    memmove(text + at + length, text + at, *size - at);
    *size += length;
    return true;
}

static void change(Rng *rng, char *text, size_t *size, size_t room)
{
    size_t at = below(rng, *size), length = 1 + below(rng, 12);
    const char *piece = PIECES[below(rng, PIECE_COUNT)];
    length = length < *size - at ? length : *size - at;
    switch (below(rng, 6)) {
    case 0: /* another byte */
        text[at] = (char)(rng_next(rng) & 0xff);
        break;
    case 1: /* one bit */
        text[at] = (char)(text[at] ^ 1 << below(rng, 8));
        break;
    case 2: /* some lost */
        memmove(text + at, text + at + length, *size - at - length);
        *size -= length;
        break;
    case 3: /* some doubled */
        widen(text, size, room, at, length);
        break;
    case 4: /* some from elsewhere */
        memmove(text + at, text + below(rng, *size - length + 1), length);
        break;
    default: /* a piece put in */
        if (widen(text, size, room, at, strlen(piece)))
            memcpy(text + at, piece, strlen(piece));
    }
}

size_t mutate(Rng *rng, char *text, size_t size, size_t room)
{
    for (size_t changes = 1 + below(rng, 4); changes > 0 && size > 0; changes--)
        change(rng, text, &size, room);
    return size;
}
