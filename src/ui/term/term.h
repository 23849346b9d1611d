/* term.h - the terminal, without a word of curses: term_curses.c is the only file that knows it. */
#ifndef SETTEE_UI_TERM_TERM_H
#define SETTEE_UI_TERM_TERM_H

#include <stdbool.h>
#include <stdint.h>

#include "base/theme.h"
#include "ui/draw/canvas.h"

/* Takes the terminal over; false with one line for people in `why`. Signals that end a program
 * are caught from here to term_release, so that the terminal is given back in all cases. */
bool term_init(char *why, unsigned long size);
void term_fini(void); /* gives the terminal back; signals that end a program are still held off */
/* Signals do again what they do by default; the one that came meanwhile is raised, so that whoever
 * sent it learns that it worked. */
void term_release(void);

bool term_utf8(void);      /* whether the locale's characters are UTF-8 */
bool term_no_colour(void); /* NO_COLOR is set */
void term_theme(const Theme *theme);
void term_size(int *columns, int *rows);

/* Brings the screen to what the canvas holds; writes nothing when nothing differs. */
void term_draw(const Canvas *canvas, bool afresh);
void term_bell(void);

/* Waits for a key, a signal or a new size, at most `milliseconds` (-1: for ever). */
void term_wait(int milliseconds);
/* The next key that is there, PRESS_NONE when none is. */
uint32_t term_key(void);
/* True once after the size has changed. */
bool term_resized(void);
/* The signal that asks the program to end, 0: none, -1: the terminal is gone. */
int term_ending(void);

#endif
