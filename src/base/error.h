/* error.h - one fault, in one line: where it is, what was found, what is allowed.
 *
 * Functions that can fail on a user's data return false and fill an Error that the caller
 * owns. Nothing here allocates. Must not know about bowling. */
#ifndef SETTEE_BASE_ERROR_H
#define SETTEE_BASE_ERROR_H

#include <stdbool.h>
#include <stddef.h>

enum { ERROR_FILE_MAX = 256, ERROR_WHERE_MAX = 128, ERROR_TEXT_MAX = 512, ERROR_LINE_MAX = 960 };

typedef struct Error {
    char file[ERROR_FILE_MAX];   /* as the user named it; "" when no file is involved */
    int line;                    /* 1-based; 0 when no line is involved */
    char where[ERROR_WHERE_MAX]; /* path inside the file, as $.balls[2].rg_in; may be "" */
    char text[ERROR_TEXT_MAX];   /* what was found and what is allowed, no newline */
} Error;

/* Fills `error` (which may be NULL) with a message and returns false, so that a function can
 * end with `return error_set(...)`. Keeps file, line and where as they are; control
 * characters in the result are replaced. */
bool error_set(Error *error, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Writes "file:line: where: text" without the parts that are empty into `out`. */
void error_line(const Error *error, char *out, size_t size);

#endif
