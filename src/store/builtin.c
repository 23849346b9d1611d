/* builtin.c - finds a file inside the program. */
#include "store/builtin.h"

#include <string.h>

const BuiltinFile *builtin_find(const char *kind, const char *id)
{
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++)
        if (strcmp(file->kind, kind) == 0 && strcmp(file->id, id) == 0)
            return file;
    return NULL;
}

int builtin_ids(const char *kind, const char **ids, int max)
{
    int count = 0;
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind && count < max; file++)
        if (strcmp(file->kind, kind) == 0)
            ids[count++] = file->id;
    ids[count] = NULL;
    return count;
}
