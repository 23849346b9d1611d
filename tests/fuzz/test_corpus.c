/* test_corpus.c - every target on what is kept in tests/fuzz/corpus and on its good files, as they
 * are and each changed at random from fixed seeds. tests/fuzz/run tries many more. */
#include "near.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_mutate.h"
#include "helper_targets.h"

enum { ROOM = 1 << 14, CHANGES = 8 };

/* Counts as one file. */
static int try_file(const Target *target, const char *path)
{
    static char text[ROOM], changed[ROOM];
    FILE *file = fopen(path, "rb");
    if (!file)
        fail_msg("%s can't be read", path);
    size_t size = fread(text, 1, ROOM, file);
    assert_true(size < ROOM);
    fclose(file);
    target->try(text, size);
    Rng rng = rng_seed(size);
    for (int i = 0; i < CHANGES; i++) {
        memcpy(changed, text, size);
        target->try(changed, mutate(&rng, changed, size, ROOM));
    }
    return 1;
}

static int try_folder(const Target *target)
{
    char folder[256], path[512];
    int count = 0;
    snprintf(folder, sizeof folder, "%s/tests/fuzz/corpus/%s", SETTEE_SOURCE_DIR, target->name);
    DIR *dir = opendir(folder);
    if (!dir)
        fail_msg("no corpus in %s", folder);
    for (struct dirent *entry = readdir(dir); entry; entry = readdir(dir)) {
        if (entry->d_name[0] == '.')
            continue;
        snprintf(path, sizeof path, "%.250s/%.250s", folder, entry->d_name);
        count += try_file(target, path);
    }
    closedir(dir);
    return count;
}

static void corpus_holds(void **state)
{
    const Target *target = *state;
    char seeds[128], path[512];
    int count = try_folder(target);
    snprintf(seeds, sizeof seeds, "%s", target->seeds);
    for (char *seed = strtok(seeds, " "); seed; seed = strtok(NULL, " ")) {
        snprintf(path, sizeof path, "%s/tests/data/good/%s", SETTEE_SOURCE_DIR, seed);
        count += try_file(target, path);
    }
    assert_true(count > 3);
}

int main(void)
{
    struct CMUnitTest tests[32] = {{0}};
    int count = 0;
    targets_begin();
    for (const Target *target = TARGETS; target->name; target++)
        tests[count++] =
            (struct CMUnitTest){target->name, corpus_holds, NULL, NULL, (void *)(uintptr_t)target};
    return _cmocka_run_group_tests("fuzz", tests, (size_t)count, NULL, NULL);
}
