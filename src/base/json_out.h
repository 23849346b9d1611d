/* json_out.h - writes JSON into a buffer that grows; adds commas and escapes by itself.
 *
 *     JsonOut out = json_out_start();
 *     json_out_object(&out, NULL);
 *     json_out_number(&out, "ft", 12.5);
 *     json_out_array(&out, "boards");
 *     json_out_number(&out, NULL, 20);
 *     json_out_end(&out);
 *     json_out_end(&out);
 *     if (json_out_text(&out)) puts(json_out_text(&out));
 *     json_out_free(&out);
 *
 * Every call takes the key of its value; NULL inside an array and at the top. The result is one
 * line (unless `lines` is set), valid UTF-8, without raw control characters. Must not know about
 * bowling. */
#ifndef SETTEE_BASE_JSON_OUT_H
#define SETTEE_BASE_JSON_OUT_H

#include <stdbool.h>
#include <stddef.h>

enum { JSON_OUT_DEPTH_MAX = 32 };

typedef struct JsonOut {
    char *text; /* heap, owned by this; NULL until something is written */
    size_t length, room;
    int depth;
    int lines;   /* for files people read: values down to this depth get a line each */
    bool failed; /* out of memory, or begins and ends did not match */
    char close[JSON_OUT_DEPTH_MAX];
    bool filled[JSON_OUT_DEPTH_MAX]; /* a comma is due before the next value at this depth */
} JsonOut;

JsonOut json_out_start(void);
void json_out_free(JsonOut *out);

/* The text so far, owned by `out`; NULL if something failed or is still open. */
const char *json_out_text(const JsonOut *out);

void json_out_object(JsonOut *out, const char *key); /* begins one; json_out_end ends it */
void json_out_array(JsonOut *out, const char *key);
void json_out_end(JsonOut *out);

/* The fewest digits that read back as the same double; NAN and infinities become null. */
void json_out_number(JsonOut *out, const char *key, double value);
/* The same, rounded to at most `decimals` places first: 17.5, not 17.499999999999996. */
void json_out_rounded(JsonOut *out, const char *key, double value, int decimals);
void json_out_integer(JsonOut *out, const char *key, long long value);
void json_out_string(JsonOut *out, const char *key, const char *text); /* NULL becomes null */
void json_out_bool(JsonOut *out, const char *key, bool value);
void json_out_null(JsonOut *out, const char *key);

#endif
