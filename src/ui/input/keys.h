/* keys.h - what a terminal may send, as numbers: a character is its code point. */
#ifndef SETTEE_UI_INPUT_KEYS_H
#define SETTEE_UI_INPUT_KEYS_H

enum {
    PRESS_NONE = 0,
    PRESS_TAB = '\t',
    PRESS_ENTER = '\r',
    PRESS_ESC = 0x1b,
    PRESS_BACKSPACE = 0x7f,
    PRESS_LEFT = 0x110000, /* past the last code point */
    PRESS_RIGHT,
    PRESS_UP,
    PRESS_DOWN,
    PRESS_SHIFT_LEFT,
    PRESS_SHIFT_RIGHT,
    PRESS_PAGE_UP,
    PRESS_PAGE_DOWN,
    PRESS_HOME,
    PRESS_END,
    PRESS_DELETE,
    PRESS_REDRAW, /* the program was suspended and is back, or ^L */
    PRESS_PASTED, /* text was pasted, and swallowed */
    PRESS_LAST
};

#endif
