/* test_runtime.c - the loop between terminal, model and engine, on a terminal made of functions
 * here in the place of curses: what is asked of it, and in which order. */
#include "near.h"

#include <signal.h>
#include <string.h>

#include "ui/pinned.h"
#include "ui/term/term.h"
#include "ui/ui.h"

/* ---- the terminal ---- */

static struct {
    uint32_t (*key)(void);  /* what is typed next */
    int (*ending)(void);    /* asked once a turn and before every key */
    int keys, draws, waits; /* keys given, screens drawn, waits begun */
    char *screen;           /* as last drawn, heap */
} fake;

bool term_init(char *why, unsigned long size)
{
    (void)why;
    (void)size;
    return true;
}

void term_fini(void) {}
void term_release(void) {}
bool term_utf8(void) { return true; }
bool term_no_colour(void) { return false; }
void term_theme(const Theme *theme) { (void)theme; }
void term_bell(void) {}
bool term_resized(void) { return false; }

void term_size(int *columns, int *rows)
{
    *columns = 80;
    *rows = 24;
}

void term_draw(const Canvas *canvas, bool afresh)
{
    (void)afresh;
    size_t size = canvas_plain(canvas, NULL, 0) + 1;
    free(fake.screen);
    fake.screen = malloc(size);
    assert_non_null(fake.screen);
    canvas_plain(canvas, fake.screen, size);
    fake.draws++;
}

void term_wait(int milliseconds)
{
    (void)milliseconds;
    fake.waits++;
}

uint32_t term_key(void)
{
    uint32_t key = fake.key();
    fake.keys += key != PRESS_NONE;
    return key;
}

int term_ending(void) { return fake.ending(); }

/* ---- the program on it ---- */

static void run_pinned(uint32_t (*key)(void), int (*ending)(void))
{
    static Pinned pinned;
    pinned_begin(&pinned, HAND_RIGHT, 80, 24);
    free(fake.screen);
    memset(&fake, 0, sizeof fake);
    fake.key = key;
    fake.ending = ending;
    UiHost host = {.session = &pinned.session,
                   .rules = &pinned.rules,
                   .themes = &pinned.theme,
                   .theme_count = 1,
                   .notice = ""};
    assert_int_equal(ui_run(&host), 0);
}

/* ---- tests ---- */

enum { MANY = 1000, FAR_TOO_MANY = 100000 };

static uint32_t no_pause(void) { return fake.keys < FAR_TOO_MANY ? 'z' : 'q'; }
static int after_many_keys(void) { return fake.keys >= MANY ? SIGTERM : 0; }

static void keys_without_a_pause_hold_up_nothing(void **state)
{
    (void)state;
    run_pinned(no_pause, after_many_keys);
    assert_in_range(fake.keys, MANY, MANY + 1); /* a signal is seen at once */
    assert_true(fake.draws >= MANY / 100);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(keys_without_a_pause_hold_up_nothing),
    };
    int failed = cmocka_run_group_tests(tests, NULL, NULL);
    free(fake.screen);
    return failed;
}
