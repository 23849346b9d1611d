/* fake_term.h - a terminal made of functions, in the place of curses: what is typed, how time
 * passes and when it all ends is the test's; the screens are kept as text. For one test program
 * each. */
#ifndef SETTEE_TESTS_UI_FAKE_TERM_H
#define SETTEE_TESTS_UI_FAKE_TERM_H

#include "near.h"

#include <stdlib.h>
#include <string.h>

#include "ui/input/keys.h"
#include "ui/term/term.h"

static struct {
    int columns, rows;
    bool ascii, still;
    uint32_t (*key)(void);          /* what is typed next */
    int (*ending)(void);            /* asked once a turn and before every key */
    bool (*resized)(void);          /* NULL: never */
    long (*clock)(void);            /* in ms, not 0 */
    void (*wait)(int milliseconds); /* as term_wait; NULL: returns at once */
    int keys, draws, bells;         /* keys given, screens drawn */
    char *first, *screen;           /* as first and as last drawn, heap */
} fake;

static void fake_forget(void)
{
    free(fake.first);
    free(fake.screen);
    memset(&fake, 0, sizeof fake);
    fake.columns = 80;
    fake.rows = 24;
}

bool term_there(char *why, unsigned long size)
{
    (void)why;
    (void)size;
    return true;
}

bool term_init(char *why, unsigned long size)
{
    (void)why;
    (void)size;
    return true;
}

void term_fini(void) {}
void term_release(void) {}
bool term_utf8(void) { return !fake.ascii; }
bool term_no_colour(void) { return false; }
bool term_still(void) { return fake.still; }
long term_clock_ms(void) { return fake.clock(); }
void term_theme(const Theme *theme) { (void)theme; }
void term_bell(void) { fake.bells++; }
bool term_resized(void) { return fake.resized && fake.resized(); }
int term_ending(void) { return fake.ending(); }

void term_size(int *columns, int *rows)
{
    *columns = fake.columns;
    *rows = fake.rows;
}

void term_draw(const Canvas *canvas, bool all)
{
    (void)all;
    size_t size = canvas_plain(canvas, NULL, 0) + 1;
    assert_int_equal(canvas->spilled, 0);
    free(fake.screen);
    fake.screen = malloc(size);
    assert_non_null(fake.screen);
    canvas_plain(canvas, fake.screen, size);
    if (fake.draws++ == 0)
        fake.first = strdup(fake.screen);
}

void term_wait(int milliseconds)
{
    if (fake.wait)
        fake.wait(milliseconds);
}

uint32_t term_key(void)
{
    uint32_t key = fake.key();
    fake.keys += key != PRESS_NONE;
    return key;
}

#endif
