/* helper_targets.h - every reader of what comes from outside, with what must hold whatever it is
 * given. A broken promise aborts; memory is the sanitizers' to watch. */
#ifndef SETTEE_TESTS_FUZZ_TARGETS_H
#define SETTEE_TESTS_FUZZ_TARGETS_H

#include <stddef.h>

typedef struct Target {
    const char *name;
    const char *seeds; /* files below tests/data/good to begin with, separated by spaces */
    void (*try)(const char *bytes, size_t size);
} Target;
extern const Target TARGETS[]; /* ends with a NULL name */

const Target *target_find(const char *name); /* NULL: there is none */

/* The targets read no home but an empty one; call it first. */
void targets_begin(void);

#endif
