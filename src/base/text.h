/* text.h - text that fits a fixed buffer, is valid UTF-8 and has no control characters.
 *
 * Everything from a user's file goes through here before it reaches a terminal. Nothing
 * allocates. Must not know about bowling. */
#ifndef SETTEE_BASE_TEXT_H
#define SETTEE_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Copies `from` into `out`, cut after a whole UTF-8 character if it doesn't fit; returns false if
 * it was cut. `size` includes the closing NUL and must be at least 1. */
bool text_copy(char *out, size_t size, const char *from);

/* Appends printf-style to the text in `out`; returns false if it was cut. */
bool text_append(char *out, size_t size, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Copies `from` into `out`, dropping control characters (C0, C1, DEL), marks that turn the
 * direction of text, tags, notes between lines and invalid UTF-8, and turning tabs and line ends
 * into a space. Returns false if it was cut or changed. */
bool text_clean(char *out, size_t size, const char *from);

/* Offset of the first byte that is not valid UTF-8 (overlong forms, surrogates and values past
 * U+10FFFF are invalid), or `length` if all of it is valid. */
size_t text_utf8_fault(const char *text, size_t length);

/* Decodes one character at *text and moves past it; 0 at the end, U+FFFD for a bad byte. */
uint32_t text_next(const char **text);

/* Encodes one code point with a closing NUL; returns its length, 1 to 4 bytes. */
size_t text_encode(uint32_t character, char out[5]);

/* The number of characters (code points) in a valid UTF-8 string. */
size_t text_length(const char *text);

/* The entry of `names` (NULL-terminated) nearest to `word` by edit distance, or else one that
 * starts with it; NULL if none is close enough. */
const char *text_nearest(const char *word, const char *const *names);

#endif
