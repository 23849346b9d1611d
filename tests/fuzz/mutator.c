/* mutator.c - where there is no libFuzzer: mutator TARGET COUNT SEED FILE... tries the target on
 * COUNT changed copies of the files. The last text stands in mutator-last, for a crash. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_mutate.h"
#include "helper_targets.h"

enum { ROOM = 1 << 16 };

int main(int argc, char **argv)
{
    static char text[ROOM];
    const Target *target = argc > 4 ? target_find(argv[1]) : NULL;
    if (!target) {
        fputs("usage: mutator TARGET COUNT SEED FILE...\n", stderr);
        return 2;
    }
    targets_begin();
    Rng rng = rng_seed(strtoull(argv[3], NULL, 10));
    unsigned long long count = strtoull(argv[2], NULL, 10);
    for (unsigned long long i = 0; i < count; i++) {
        FILE *file = fopen(argv[4 + rng_next(&rng) % (unsigned)(argc - 4)], "rb");
        size_t size = file ? fread(text, 1, ROOM, file) : 0;
        if (file)
            fclose(file);
        size = mutate(&rng, text, size, ROOM);
        FILE *last = fopen("mutator-last", "wb");
        if (last) {
            fwrite(text, 1, size, last);
            fclose(last);
        }
        target->try(text, size);
    }
    printf("%s: %llu runs\n", target->name, count);
    return 0;
}
