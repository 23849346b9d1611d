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

/* Characters that show nothing and change how their neighbours show, or end a line. */
static const uint32_t UNSEEN[][2] = {
    {0x00, 0x1f},     {0x7f, 0x9f},      {0x61c, 0x61c},   /* C0, C1; Arabic mark */
    {0x200e, 0x200f}, {0x2028, 0x202e},  {0x2066, 0x206f}, /* marks, line ends, directions */
    {0xfff9, 0xfffb}, {0xe0000, 0xe0fff}};                 /* notes between lines; tags */

static bool is_unseen(uint32_t character)
{
    for (size_t i = 0; i < sizeof UNSEEN / sizeof *UNSEEN; i++)
        if (character >= UNSEEN[i][0] && character <= UNSEEN[i][1])
            return true;
    return false;
}

static bool ends_line(uint32_t character)
{
    return character == '\t' || character == '\n' || character == '\r' || character == 0x2028 ||
           character == 0x2029;
}

bool text_clean(char *out, size_t size, const char *from)
{
    size_t used = 0;
    bool same = true;
    while (*from) {
        const char *piece = from;
        bool whole = character_size((const unsigned char *)from, strlen(from)) > 0;
        uint32_t character = text_next(&from);
        size_t n = (size_t)(from - piece);
        bool unseen = !whole || is_unseen(character);
        same = same && !unseen;
        if (unseen && ends_line(character)) {
            piece = " ";
            n = 1;
        } else if (unseen) {
            continue;
        }
        if (used + n >= size) {
            same = false;
            break;
        }
        memcpy(out + used, piece, n);
        used += n;
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
