/* term.h - the terminal, without curses: term_curses.c is the only file that knows about it. */
#ifndef SETTEE_UI_TERM_TERM_H
#define SETTEE_UI_TERM_TERM_H

#include <stdbool.h>
#include <stdint.h>

#include "base/theme.h"
#include "ui/draw/canvas.h"

/* Whether there is one; false with one line for people in `why`. */
bool term_there(char *why, unsigned long size);
/* Takes over the terminal; false with one line for people in `why`. Signals that end a program are
 * caught from here to term_release, so that the terminal is always restored. */
bool term_init(char *why, unsigned long size);
void term_fini(void); /* restores the terminal; signals that end a program are still blocked */
/* Restores the signals' default actions; one that came meanwhile is raised, so that its sender sees
 * that it worked. */
void term_release(void);

bool term_utf8(void);      /* whether the locale's characters are UTF-8 */
bool term_no_colour(void); /* NO_COLOR is set */
bool term_still(void);     /* SETTEE_MOTION is off: nothing may move by itself */
long term_clock_ms(void);  /* milliseconds, from 1 on; only differences mean something */
void term_theme(const Theme *theme);
void term_size(int *columns, int *rows);

/* Makes the screen show the canvas; writes nothing if nothing differs, unless `all` is set. */
void term_draw(const Canvas *canvas, bool all);
void term_bell(void);

/* Waits for a key, a signal or a new size, at most `milliseconds` (-1: for ever). */
void term_wait(int milliseconds);
/* The next waiting key, PRESS_NONE if there is none. */
uint32_t term_key(void);
/* True once after the size has changed. */
bool term_resized(void);
/* The signal that asks the program to end, 0: none, -1: the terminal is gone. */
int term_ending(void);

#endif
