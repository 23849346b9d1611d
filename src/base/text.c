/* text.c - text that is safe to show. */
#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

/* Length in bytes of the valid UTF-8 character at s (1..4), or 0 if there is none. */
static size_t character_size(const unsigned char *s, size_t left)
{
    if (s[0] < 0x80)
        return 1;
    size_t size = s[0] >= 0xf0 ? 4 : s[0] >= 0xe0 ? 3 : 2;
    if (s[0] < 0xc2 || s[0] > 0xf4 || left < size)
        return 0;
    for (size_t i = 1; i < size; i++)
        if ((s[i] & 0xc0) != 0x80)
            return 0;
    if ((s[0] == 0xe0 && s[1] < 0xa0) || (s[0] == 0xf0 && s[1] < 0x90)) /* overlong */
        return 0;
    if ((s[0] == 0xed && s[1] >= 0xa0) || (s[0] == 0xf4 && s[1] >= 0x90)) /* surrogate, too large */
        return 0;
    return size;
}

size_t text_utf8_fault(const char *text, size_t length)
{
    size_t at = 0;
    while (at < length) {
        size_t size = character_size((const unsigned char *)text + at, length - at);
        if (size == 0)
            break;
        at += size;
    }
    return at;
}

bool text_copy(char *out, size_t size, const char *from)
{
    size_t length = strlen(from);
    bool whole = length < size;
    if (!whole) {
        length = size - 1;
        while (length > 0 && ((unsigned char)from[length] & 0xc0) == 0x80)
            length--;
    }
    memmove(out, from, length);
    out[length] = '\0';
    return whole;
}

bool text_append(char *out, size_t size, const char *format, ...)
{
    size_t used = strlen(out);
    if (used + 1 >= size)
        return false;
    va_list args;
    va_start(args, format);
    int wanted = vsnprintf(out + used, size - used, format, args);
    va_end(args);
    if (wanted >= 0 && (size_t)wanted < size - used)
        return true;
    size_t end = used + strlen(out + used); /* don't end in half a character */
    while (end > used && text_utf8_fault(out + used, end - used) != end - used)
        end--;
    out[end] = '\0';
    return false;
}

bool text_clean(char *out, size_t size, const char *from)
{
    size_t used = 0, left = strlen(from);
    bool same = true;
    const unsigned char *s = (const unsigned char *)from;
    while (left > 0) {
        size_t n = character_size(s, left);
        bool drop = n == 0 || s[0] == 0x7f || (n == 2 && s[0] == 0xc2 && s[1] < 0xa0);
        unsigned char space = ' ';
        const unsigned char *piece = s;
        if (n == 0)
            n = 1;
        if (!drop && s[0] < 0x20) {
            drop = s[0] != '\t' && s[0] != '\n' && s[0] != '\r';
            piece = &space;
            same = false;
        }
        if (drop) {
            same = false;
        } else {
            if (used + n >= size) {
                same = false;
                break;
            }
            memcpy(out + used, piece, n);
            used += n;
        }
        s += n;
        left -= n;
    }
    out[used] = '\0';
    return same;
}

uint32_t text_next(const char **text)
{
    const unsigned char *s = (const unsigned char *)*text;
    if (!s[0])
        return 0;
    size_t size = character_size(s, strlen(*text));
    if (size == 0) {
        *text += 1;
        return 0xfffd;
    }
    *text += size;
    if (size == 1)
        return s[0];
    uint32_t value = s[0] & (0xffu >> (size + 1));
    for (size_t i = 1; i < size; i++)
        value = value << 6 | (s[i] & 0x3fu);
    return value;
}

size_t text_encode(uint32_t character, char out[5])
{
    static const unsigned FIRST[] = {0, 0, 0xc0, 0xe0, 0xf0};
    size_t size = character < 0x80 ? 1 : character < 0x800 ? 2 : character < 0x10000 ? 3 : 4;
    for (size_t i = size; i-- > 1; character >>= 6)
        out[i] = (char)(0x80 | (character & 0x3f));
    out[0] = (char)(FIRST[size] | character);
    out[size] = '\0';
    return size;
}

size_t text_length(const char *text)
{
    size_t n = 0;
    while (text_next(&text))
        n++;
    return n;
}

/* Edit distance; swapping two neighbours counts as one. Only words up to 47 bytes are compared. */
static int distance(const char *a, const char *b)
{
    enum { MAX = 48 };
    int la = (int)strlen(a), lb = (int)strlen(b);
    if (la >= MAX || lb >= MAX)
        return MAX;
    int row[3][MAX];
    for (int j = 0; j <= lb; j++)
        row[0][j] = j;
    for (int i = 1; i <= la; i++) {
        int *now = row[i % 3], *last = row[(i - 1) % 3], *before = row[(i + 1) % 3];
        now[0] = i;
        for (int j = 1; j <= lb; j++) {
            int best = last[j - 1] + (a[i - 1] != b[j - 1]);
            if (last[j] + 1 < best)
                best = last[j] + 1;
            if (now[j - 1] + 1 < best)
                best = now[j - 1] + 1;
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
                before[j - 2] + 1 < best)
                best = before[j - 2] + 1;
            now[j] = best;
        }
    }
    return row[la % 3][lb];
}

const char *text_nearest(const char *word, const char *const *names)
{
    const char *nearest = NULL, *longer = NULL;
    size_t length = strlen(word);
    int best = length < 48 ? (int)length / 2 + 1 : 0; /* at least half must be right */
    for (; *names; names++) {
        int d = distance(word, *names);
        if ((*names)[0] && d < best) {
            best = d;
            nearest = *names;
        }
        if (length >= 2 && strncmp(*names, word, length) == 0 &&
            (!longer || strlen(*names) < strlen(longer)))
            longer = *names;
    }
    return nearest ? nearest : longer; /* or the name it is the start of */
}
