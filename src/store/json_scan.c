/* json_scan.c - a strict look at JSON text. Allocates nothing and does not recurse, so that no
 * text, however deep, can exhaust the stack. Must not know what the values mean. */
#include "store/json_scan.h"

#include <stdio.h>
#include <string.h>

#include "base/text.h"

typedef struct Scan {
    const char *text;
    size_t length, at;
    int depth;
    char open[JSON_DEPTH_MAX]; /* '{' or '[' of each value around this place */
    JsonSpot *spot;
} Scan;

int json_line(const char *text, size_t offset)
{
    int line = 1;
    for (size_t i = 0; i < offset; i++)
        line += text[i] == '\n';
    return line;
}

static bool at_end(const Scan *scan) { return scan->at >= scan->length; }
static char here(const Scan *scan) { return at_end(scan) ? '\0' : scan->text[scan->at]; }
static bool is_digit(char c) { return c >= '0' && c <= '9'; }
static bool is_hex(char c)
{
    return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}
static bool is_word(char c)
{
    return is_digit(c) || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' ||
           c == '-' || c == '+' || c == '.';
}

static bool fault(Scan *scan, size_t at, const char *words)
{
    scan->spot->fault = at;
    scan->spot->words[0] = '\0';
    text_append(scan->spot->words, sizeof scan->spot->words, "%s", words);
    return false;
}

/* "found X; expected Y" where X is the word or the character at this place. */
static bool unexpected(Scan *scan, const char *expected)
{
    size_t at = scan->at;
    char found[48] = "the end of the text";
    if (!at_end(scan)) {
        size_t size = 0;
        while (size < 24 && scan->at + size < scan->length && is_word(scan->text[scan->at + size]))
            size++;
        unsigned char c = (unsigned char)here(scan);
        if (size > 0)
            snprintf(found, sizeof found, "%.*s", (int)size, scan->text + scan->at);
        else if (c == '"')
            snprintf(found, sizeof found, "a string");
        else if (c > ' ' && c < 0x7f)
            snprintf(found, sizeof found, "'%c'", c);
        else
            snprintf(found, sizeof found, "byte 0x%02x", c);
    }
    while (at_end(scan) && at > 0 && strchr(" \t\r\n", scan->text[at - 1]))
        at--; /* what is missing at the end is reported on the last line that holds anything */
    fault(scan, at, "");
    text_append(scan->spot->words, sizeof scan->spot->words, "found %s; expected %s", found,
                expected);
    return false;
}

static void skip_space(Scan *scan)
{
    while (!at_end(scan) && strchr(" \t\r\n", here(scan)))
        scan->at++;
}

/* Four hex digits at `at`; -1 if they are not. */
static long hex4(const Scan *scan, size_t at)
{
    long value = 0;
    for (size_t i = at; i < at + 4; i++) {
        if (i >= scan->length || !is_hex(scan->text[i]))
            return -1;
        char c = scan->text[i];
        value = value * 16 + (is_digit(c) ? c - '0' : (c | 0x20) - 'a' + 10);
    }
    return value;
}

/* Past the backslash of an escape. */
static bool scan_escape(Scan *scan)
{
    size_t start = scan->at - 1;
    char c = here(scan);
    if (c != 'u') {
        if (c == '\0' || !strchr("\"\\/bfnrt", c))
            return fault(scan, start,
                         "found an escape that JSON does not have; allowed: \\\" \\\\ "
                         "\\/ \\b \\f \\n \\r \\t \\uXXXX");
        scan->at++;
        return true;
    }
    long value = hex4(scan, scan->at + 1);
    if (value < 0)
        return fault(scan, start, "found \\u without four hexadecimal digits");
    if (value == 0)
        return fault(scan, start, "found \\u0000; text must not contain it");
    scan->at += 5;
    if (value >= 0xdc00 && value <= 0xdfff)
        return fault(scan, start, "found the second half of a surrogate pair without its first");
    if (value >= 0xd800 && value <= 0xdbff) {
        long low = scan->at + 1 < scan->length && scan->text[scan->at] == '\\' &&
                           scan->text[scan->at + 1] == 'u'
                       ? hex4(scan, scan->at + 2)
                       : -1;
        if (low < 0xdc00 || low > 0xdfff)
            return fault(scan, start,
                         "found the first half of a surrogate pair without its second");
        scan->at += 6;
    }
    return true;
}

static bool scan_string(Scan *scan)
{
    size_t start = scan->at++;
    while (!at_end(scan) && here(scan) != '"') {
        unsigned char c = (unsigned char)here(scan);
        if (c < 0x20) {
            char words[80];
            if (c == '\n' || c == '\r')
                return fault(scan, start, "found a string that does not end on its line");
            snprintf(words, sizeof words, "found a raw control character 0x%02x in a string", c);
            return fault(scan, scan->at, words);
        }
        scan->at++;
        if (c == '\\' && !scan_escape(scan))
            return false;
    }
    if (at_end(scan))
        return fault(scan, start, "found a string that never ends");
    scan->at++;
    return true;
}

static bool scan_digits(Scan *scan)
{
    size_t start = scan->at;
    while (is_digit(here(scan)))
        scan->at++;
    return scan->at > start;
}

static bool scan_number(Scan *scan)
{
    size_t start = scan->at;
    if (here(scan) == '-')
        scan->at++;
    bool zero = here(scan) == '0';
    size_t first = scan->at;
    bool good = scan_digits(scan) && !(zero && scan->at > first + 1);
    if (good && here(scan) == '.') {
        scan->at++;
        good = scan_digits(scan);
    }
    if (good && (here(scan) == 'e' || here(scan) == 'E')) {
        scan->at++;
        if (here(scan) == '+' || here(scan) == '-')
            scan->at++;
        good = scan_digits(scan);
    }
    if (!good || is_word(here(scan))) {
        scan->at = start;
        return unexpected(scan, "a number as JSON writes it, such as 12, -0.5 or 1e3");
    }
    if (scan->at - start > JSON_NUMBER_CHARACTERS_MAX)
        return fault(scan, start, "found a number of more than 60 characters");
    return true;
}

static bool scan_literal(Scan *scan)
{
    static const char *const LITERALS[] = {"true", "false", "null"};
    for (int i = 0; i < 3; i++) {
        size_t size = strlen(LITERALS[i]);
        if (scan->length - scan->at >= size &&
            memcmp(scan->text + scan->at, LITERALS[i], size) == 0 &&
            (scan->at + size == scan->length || !is_word(scan->text[scan->at + size]))) {
            scan->at += size;
            return true;
        }
    }
    if (here(scan) == '/' || here(scan) == '#')
        return unexpected(scan, "a value; JSON has no comments");
    return unexpected(scan, "a value: an object, array, string, number, true, false or null");
}

/* A key and its colon, up to its value. */
static bool scan_key(Scan *scan)
{
    skip_space(scan);
    if (here(scan) != '"')
        return unexpected(scan, here(scan) == '}' ? "a key; no comma may stand before }"
                                                  : "a key in double quotes");
    scan->spot->key = scan->at;
    if (!scan_string(scan))
        return false;
    skip_space(scan);
    if (here(scan) != ':')
        return unexpected(scan, "a colon after the key");
    scan->at++;
    return true;
}

/* After a value: closes what ends here, and moves past the comma and key of the next value.
 * `*more`: there is one. */
static bool scan_after(Scan *scan, bool *more)
{
    *more = false;
    while (scan->depth > 0) {
        skip_space(scan);
        bool object = scan->open[scan->depth - 1] == '{';
        if (here(scan) == ',') {
            scan->at++;
            *more = true;
            return object ? scan_key(scan) : true;
        }
        if (at_end(scan) || here(scan) != (object ? '}' : ']'))
            return unexpected(scan, object ? "a comma or }" : "a comma or ]");
        scan->at++;
        scan->depth--;
    }
    skip_space(scan);
    return at_end(scan) ? true : unexpected(scan, "nothing more after the end of the value");
}

/* Opens the object or array here. `*empty`: it holds nothing and has been closed again. */
static bool scan_open(Scan *scan, bool *empty)
{
    char open = here(scan);
    if (scan->depth == JSON_DEPTH_MAX)
        return fault(scan, scan->at, "found values nested more than 32 deep");
    scan->open[scan->depth++] = open;
    scan->at++;
    skip_space(scan);
    *empty = here(scan) == (open == '{' ? '}' : ']') && !at_end(scan);
    if (*empty) {
        scan->at++;
        scan->depth--;
        return true;
    }
    return open == '{' ? scan_key(scan) : true;
}

bool json_scan(const char *text, size_t length, size_t stop, JsonSpot *spot)
{
    *spot = (JsonSpot){0};
    Scan scan = {.text = text, .length = length, .spot = spot};
    bool in_array = false, more = true;
    for (size_t index = 0; more; index++) {
        skip_space(&scan);
        in_array = scan.depth > 0 && scan.open[scan.depth - 1] == '[';
        if (scan.depth == 0 || in_array)
            spot->key = scan.at;
        spot->value = scan.at;
        if (index == stop)
            return true;
        char c = here(&scan);
        if (c == '{' || c == '[') {
            bool empty = false;
            if (!scan_open(&scan, &empty))
                return false;
            if (!empty)
                continue;
        } else if (in_array && c == ']') {
            return unexpected(&scan, "a value; no comma may stand before ]");
        } else if (!(c == '"'                  ? scan_string(&scan)
                     : c == '-' || is_digit(c) ? scan_number(&scan)
                                               : scan_literal(&scan))) {
            return false;
        }
        if (!scan_after(&scan, &more))
            return false;
    }
    return true;
}

size_t json_scalar_size(const char *text, size_t length, size_t offset)
{
    size_t end = offset;
    if (text[offset] == '"') {
        for (end = offset + 1; end < length && text[end] != '"'; end++)
            if (text[end] == '\\')
                end++;
        return (end < length ? end + 1 : length) - offset;
    }
    while (end < length && is_word(text[end]))
        end++;
    return end - offset;
}
