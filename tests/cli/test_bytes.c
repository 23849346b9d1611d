/* test_bytes.c - what the commands say of the demo, byte for byte as kept in tests/golden/bytes.
 *
 * A change that is not meant to change a number must not change a byte. The same bytes come from
 * gcc and clang, optimised or not. SETTEE_GOLDEN_UPDATE=1 writes the files again; read the
 * difference before you keep it. No source outside: this holds the program against itself. */
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "helper_run.h"

static const struct {
    const char *name; /* of the file that keeps it */
    const char *words[16];
} KEPT[] = {
    {"roll.json", {"roll", "--json"}},
    {"roll.txt", {"roll", "--slot", "4", "--stance", "23", "--aim", "10.5"}},
    {"roll-left.json",
     {"roll", "--bag", "demo-left", "--pattern", "slant", "--slot", "2", "--json"}},
    {"line.json", {"line", "--json"}},
    {"line.txt", {"line", "--pattern", "lintel"}},
    {"line-left.txt", {"line", "--bag", "demo-left", "--pattern", "parlour"}},
    {"rack.json", {"rack", "--board", "17.5", "--degrees", "5", "--json"}},
    {"rack.txt", {"rack", "--board", "18.5", "--degrees", "4", "--mph", "16", "--pounds", "14"}},
    {"spare-3-6-10.json", {"spare", "3", "6", "10", "--json"}},
    {"spare-7.txt", {"spare", "7"}},
    {"rehearse.json",
     {"rehearse", "--games", "1", "--practice", "4", "--sights", "--seed", "5", "--json"}},
    {"rehearse-hold.txt", {"rehearse", "--player", "hold", "--games", "2", "--pattern", "parlour"}},
};
enum { KEPT_COUNT = sizeof KEPT / sizeof KEPT[0] };

/* NULL when there is none; heap. */
static char *kept(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = calloc(1, 1 << 20);
    assert_non_null(text);
    fread(text, 1, (1 << 20) - 1, file);
    fclose(file);
    return text;
}

static void same_bytes(void **state)
{
    (void)state;
    int different = 0;
    for (int i = 0; i < KEPT_COUNT; i++) {
        char path[512];
        snprintf(path, sizeof path, SETTEE_SOURCE_DIR "/tests/golden/bytes/%s", KEPT[i].name);
        Run run = run_with(NULL, KEPT[i].words);
        run_is(&run, 0);
        if (getenv("SETTEE_GOLDEN_UPDATE")) {
            FILE *file = fopen(path, "wb");
            assert_non_null(file);
            fputs(run.out, file);
            assert_int_equal(fclose(file), 0);
        }
        char *before = kept(path);
        size_t at = 0;
        while (before && before[at] && before[at] == run.out[at])
            at++;
        if (!before || before[at] || run.out[at]) {
            different++;
            print_error("%s differs from byte %zu: now \"%.60s\", was \"%.60s\"\n", KEPT[i].name,
                        at, run.out + at, before ? before + at : "(not there)");
        }
        free(before);
        run_free(&run);
    }
    assert_int_equal(different, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(same_bytes)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
