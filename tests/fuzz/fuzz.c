/* fuzz.c - what libFuzzer calls: the target that SETTEE_FUZZ names. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include "helper_targets.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size);

static const Target *target;

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
    (void)argc;
    (void)argv;
    const char *name = getenv("SETTEE_FUZZ");
    target = target_find(name ? name : "");
    if (!target) {
        fputs("SETTEE_FUZZ names no target\n", stderr);
        exit(2);
    }
    targets_begin();
    return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    target->try((const char *)bytes, size);
    return 0;
}
