/* test_readme.c - README's picture is what the demo event shows after the shots that README names.
 *
 * SETTEE_GOLDEN_UPDATE=1 puts the screen into README; read the difference before keeping it. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define README SETTEE_SOURCE_DIR "/README.md"
#define FENCE "\n```text\n"
enum { PAGE_MAX = 1 << 16 };

static char *page_read(void)
{
    FILE *file = fopen(README, "rb");
    char *page = calloc(1, PAGE_MAX);
    assert_true(file && page);
    assert_true(fread(page, 1, PAGE_MAX - 1, file) > 0 && feof(file));
    fclose(file);
    return page;
}

/* The screen without the blanks at the ends of its lines; static storage. */
static const char *screen_trimmed(Pty *pty)
{
    static char out[1 << 14];
    size_t used = 0;
    for (const char *at = pty_text(pty); *at; at++) {
        while (*at == '\n' && used > 0 && out[used - 1] == ' ')
            used--;
        assert_true(used < sizeof out - 1);
        out[used++] = *at;
    }
    out[used] = '\0';
    return out;
}

/* Puts `screen` in place of the picture between its fences. */
static void page_renew(const char *page, const char *picture, const char *end, const char *screen)
{
    FILE *file = fopen(README, "wb");
    assert_non_null(file);
    fprintf(file, "%.*s%s%s", (int)(picture - page), page, screen, end);
    assert_int_equal(fclose(file), 0);
}

static void the_picture_is_the_demo_after_four_shots(void **state)
{
    (void)state;
    static const char *const SHOTS[] = {"fogx", "hog4", "heg60", "heg4"};
    char *page = page_read(), picture[16384], named[64];
    const char *start = strstr(page, FENCE), *end = start ? strstr(start + 1, "\n```\n") : NULL;
    assert_true(start && end);
    start += strlen(FENCE);
    end++;
    assert_true(snprintf(picture, sizeof picture, "%.*s", (int)(end - start), start) <
                (int)sizeof picture);
    Pty pty;
    pty_start(&pty, 80, 24, NULL);
    pty_expect_either(&pty, "a guess", "sure"); /* the first answer */
    for (int i = 0; i < 4; i++) {
        char frame[16];
        snprintf(named, sizeof named, "`%s`", SHOTS[i]);
        assert_non_null(strstr(page, named));
        pty_type(&pty, SHOTS[i]);
        pty_type(&pty, "\r");
        snprintf(frame, sizeof frame, "frame %d", i + 2);
        pty_expect(&pty, frame);
    }
    const char *update = getenv("SETTEE_GOLDEN_UPDATE");
    if (update && update[0] == '1') {
        pty_expect_either(&pty, "a guess", "sure");
        while (pty_quiet(&pty) > 0)
            continue;
        page_renew(page, start, end, screen_trimmed(&pty));
    } else {
        for (int i = 0; i < 60 && strcmp(screen_trimmed(&pty), picture) != 0; i++)
            pty_quiet(&pty); /* answers and paths are still on their way */
        assert_string_equal(screen_trimmed(&pty), picture);
    }
    pty_end(&pty);
    free(page);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_picture_is_the_demo_after_four_shots),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
