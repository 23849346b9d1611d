/* builtin.h - the files inside the program: patterns, themes, the demo's bag
 * and event, the rules. Made at build time by src/builtin/embed.cmake. */
#ifndef SETTEE_STORE_BUILTIN_H
#define SETTEE_STORE_BUILTIN_H

#include <stddef.h>

typedef struct BuiltinFile {
    const char *kind;           /* "patterns", "themes", "bags", "events", "rules", "lessons" */
    const char *id;             /* file name without its ending */
    const unsigned char *bytes; /* followed by a 0 that is not counted */
    size_t size;
} BuiltinFile;

extern const BuiltinFile BUILTIN_FILES[]; /* ends with a row whose kind is NULL */

const BuiltinFile *builtin_find(const char *kind, const char *id); /* NULL: there is none */

/* The ids of one kind, at most `max` of them, then NULL; `ids` has room for max + 1. */
int builtin_ids(const char *kind, const char **ids, int max);

#endif
