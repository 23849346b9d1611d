/* helper_golden.c - whole screens as text, compared with files in tests/golden. */
#include "golden/helper_golden.h"

static char *slurp(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = calloc(1, 1 << 16);
    size_t n = text ? fread(text, 1, (1 << 16) - 1, file) : 0;
    (void)n;
    fclose(file);
    return text;
}

void compare_text(const char *name, const char *screen)
{
    char path[512];
    snprintf(path, sizeof path, "%s/tests/golden/%s.txt", SETTEE_SOURCE_DIR, name);
    assert_non_null(screen);
    const char *renew = getenv("SETTEE_GOLDEN_UPDATE");
    if (renew && renew[0] == '1') {
        FILE *file = fopen(path, "wb");
        assert_non_null(file);
        fputs(screen, file);
        assert_int_equal(fclose(file), 0);
    }
    char *expected = slurp(path);
    if (!expected)
        fail_msg("%s is missing: run with SETTEE_GOLDEN_UPDATE=1", path);
    if (strcmp(screen, expected) != 0)
        print_error("%s: expected\n%s\ngot\n%s\n", name, expected, screen);
    assert_string_equal(screen, expected);
    free(expected);
}

void compare(const char *name, const Model *model)
{
    char *screen = pinned_screen(model);
    assert_non_null(screen);
    compare_text(name, screen);
    free(screen);
}

Pinned *playing(Hand hand, int columns, int rows)
{
    Pinned *pinned = malloc(sizeof *pinned);
    assert_non_null(pinned);
    pinned_begin(pinned, hand, columns, rows);
    pinned_play(pinned);
    pinned_advise(pinned);
    return pinned;
}
