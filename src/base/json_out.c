/* json_out.c - writes JSON into a buffer that grows. Numbers rely on LC_NUMERIC being "C". */
#include "base/json_out.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"

JsonOut json_out_start(void) { return (JsonOut){0}; }

void json_out_free(JsonOut *out)
{
    free(out->text);
    *out = json_out_start();
}

const char *json_out_text(const JsonOut *out)
{
    return out->failed || out->depth > 0 ? NULL : out->text;
}

static void put(JsonOut *out, const char *bytes, size_t size)
{
    if (out->failed)
        return;
    if (size >= SIZE_MAX / 4 - out->length) {
        out->failed = true;
        return;
    }
    if (out->length + size + 1 > out->room) {
        size_t room = (out->length + size + 1) * 2;
        char *grown = realloc(out->text, room < 256 ? 256 : room);
        if (!grown) {
            out->failed = true;
            return;
        }
        out->text = grown;
        out->room = room < 256 ? 256 : room;
    }
    memcpy(out->text + out->length, bytes, size);
    out->length += size;
    out->text[out->length] = '\0';
}

static void put_text(JsonOut *out, const char *text) { put(out, text, strlen(text)); }

/* Quotes and escapes. DEL and C1 controls are legal in JSON, but a terminal obeys them, so they
 * are escaped as well; bytes that are not UTF-8 become U+FFFD. */
static void put_quoted(JsonOut *out, const char *text)
{
    put_text(out, "\"");
    const char *at = text;
    for (;;) {
        const char *from = at;
        uint32_t c = text_next(&at);
        if (c == 0)
            break;
        char escape[16];
        if (c == '"' || c == '\\')
            snprintf(escape, sizeof escape, "\\%c", (char)c);
        else if (c < 0x20 || (c >= 0x7f && c < 0xa0))
            snprintf(escape, sizeof escape, "\\u%04x", (unsigned)c);
        else if (c == 0xfffd)
            snprintf(escape, sizeof escape, "\\ufffd");
        else {
            put(out, from, (size_t)(at - from));
            continue;
        }
        put_text(out, escape);
    }
    put_text(out, "\"");
}

static void put_line(JsonOut *out, int depth)
{
    put_text(out, "\n");
    for (int i = 0; i < depth; i++)
        put_text(out, "  ");
}

/* What comes before a value: the comma after the one before it, and its key. */
static void put_key(JsonOut *out, const char *key)
{
    if (out->depth > 0) {
        if (out->filled[out->depth - 1])
            put_text(out, out->lines > 0 && out->depth > out->lines ? ", " : ",");
        if (out->depth <= out->lines)
            put_line(out, out->depth);
        out->filled[out->depth - 1] = true;
        if ((key != NULL) != (out->close[out->depth - 1] == '}'))
            out->failed = true;
    } else if (key || out->length > 0) {
        out->failed = true; /* only one value at the top, without a key */
    }
    if (key) {
        put_quoted(out, key);
        put_text(out, out->lines > 0 ? ": " : ":");
    }
}

static void begin(JsonOut *out, const char *key, char open, char close)
{
    put_key(out, key);
    put(out, &open, 1);
    if (out->depth == JSON_OUT_DEPTH_MAX) {
        out->failed = true;
        return;
    }
    out->close[out->depth] = close;
    out->filled[out->depth] = false;
    out->depth++;
}

void json_out_object(JsonOut *out, const char *key) { begin(out, key, '{', '}'); }
void json_out_array(JsonOut *out, const char *key) { begin(out, key, '[', ']'); }

void json_out_end(JsonOut *out)
{
    if (out->depth == 0) {
        out->failed = true;
        return;
    }
    out->depth--;
    if (out->depth < out->lines && out->filled[out->depth])
        put_line(out, out->depth);
    put(out, &out->close[out->depth], 1);
    if (out->depth == 0 && out->lines > 0)
        put_text(out, "\n");
}

void json_out_number(JsonOut *out, const char *key, double value)
{
    if (!isfinite(value)) {
        json_out_null(out, key);
        return;
    }
    char digits[32];
    for (int precision = 15; precision <= 17; precision++) {
        snprintf(digits, sizeof digits, "%.*g", precision, value);
        if (strtod(digits, NULL) == value)
            break;
    }
    put_key(out, key);
    put_text(out, digits);
}

void json_out_rounded(JsonOut *out, const char *key, double value, int decimals)
{
    char digits[400];
    if (isfinite(value)) {
        snprintf(digits, sizeof digits, "%.*f",
                 decimals < 0    ? 0
                 : decimals > 17 ? 17
                                 : decimals,
                 value);
        value = strtod(digits, NULL) + 0.0; /* + 0.0: no "-0" */
    }
    json_out_number(out, key, value);
}

void json_out_integer(JsonOut *out, const char *key, long long value)
{
    char digits[32];
    snprintf(digits, sizeof digits, "%lld", value);
    put_key(out, key);
    put_text(out, digits);
}

void json_out_string(JsonOut *out, const char *key, const char *text)
{
    if (!text) {
        json_out_null(out, key);
        return;
    }
    put_key(out, key);
    put_quoted(out, text);
}

void json_out_bool(JsonOut *out, const char *key, bool value)
{
    put_key(out, key);
    put_text(out, value ? "true" : "false");
}

void json_out_null(JsonOut *out, const char *key)
{
    put_key(out, key);
    put_text(out, "null");
}
