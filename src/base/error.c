/* error.c - one fault, in one line. */
#include "base/error.h"

#include <stdarg.h>
#include <stdio.h>

#include "base/text.h"

bool error_set(Error *error, const char *format, ...)
{
    if (error) {
        char raw[ERROR_TEXT_MAX];
        va_list args;
        va_start(args, format);
        vsnprintf(raw, sizeof raw, format, args);
        va_end(args);
        text_clean(error->text, sizeof error->text, raw);
    }
    return false;
}

void error_line(const Error *error, char *out, size_t size)
{
    /* A file's name and its keys are untrusted text too. */
    char file[ERROR_FILE_MAX], where[ERROR_WHERE_MAX], text[ERROR_TEXT_MAX];
    text_clean(file, sizeof file, error->file);
    text_clean(where, sizeof where, error->where);
    text_clean(text, sizeof text, error->text);
    out[0] = '\0';
    if (file[0])
        text_append(out, size, "%s:", file);
    if (error->line > 0)
        text_append(out, size, "%d:", error->line);
    if (out[0])
        text_append(out, size, " ");
    if (where[0])
        text_append(out, size, "%s: ", where);
    text_append(out, size, "%s", text);
}
