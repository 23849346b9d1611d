/* helper_pty.h - the real program on a pseudo-terminal, its screen read by libvterm.
 *
 * Nothing sleeps: everything waits for something to show, with a deadline. */
#ifndef SETTEE_TESTS_PTY_H
#define SETTEE_TESTS_PTY_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>
#include <termios.h>

#include <vterm.h>

typedef struct Pty {
    pid_t pid; /* 0 once it has been waited for */
    int master, slave;
    VTerm *vt;
    VTermScreen *screen;
    int columns, rows;
    bool alternate; /* alternate screen on */
    struct termios before;
    const char *event;        /* what it is started on, NULL: the demo */
    const char *const *words; /* instead of that: a command line, NULL ends, none to 6 */
    char home[64];            /* empty XDG folders, removed by pty_end */
    unsigned char *raw;       /* all bytes that came */
    size_t raw_size, raw_margin;
    int status;               /* of waitpid */
    int stopped[2], go_on[2]; /* pipes to a parent that does what a shell does; -1 without */
} Pty;

/* Starts the program with `name=value` settings (NULL ends) added to a small environment. */
void pty_start(Pty *pty, int columns, int rows, const char *const *settings);
void pty_start_event(Pty *pty, int columns, int rows, const char *event);
void pty_start_words(Pty *pty, int columns, int rows, const char *const *words);
/* On the same event in the other's folders, which must outlive it. */
void pty_start_beside(Pty *pty, int columns, int rows, const Pty *other);
/* The same under a parent that, like a shell, lets it be stopped by ^Z and go on. */
void pty_start_under_shell(Pty *pty, int columns, int rows);
void pty_expect_stopped(Pty *pty);
void pty_go_on(Pty *pty);
/* Ends it the hard way and starts it again in the same folders. */
void pty_kill_and_restart(Pty *pty);
/* Starts it again there once it has ended by itself. */
void pty_start_again(Pty *pty);
/* Kills it if it still runs, removes its folders. */
void pty_end(Pty *pty);

void pty_type(Pty *pty, const char *keys);
void pty_resize(Pty *pty, int columns, int rows);

/* The screen as text lines; static storage. */
const char *pty_text(Pty *pty);
/* Waits until the screen shows the text, or no longer shows it; fails the test after a while. */
void pty_expect(Pty *pty, const char *text);
void pty_expect_end(Pty *pty, const char *text); /* blanks at the end of the screen left out */
void pty_expect_gone(Pty *pty, const char *text);
/* Waits until the screen is as `is` asks for. For the failure's message: `what` that is, and
 * `why_not`, which `is` may write. */
void pty_expect_that(Pty *pty, bool (*is)(Pty *pty, const void *context), const void *context,
                     const char *what, const char *why_not);
/* Waits until one of two texts shows. */
void pty_expect_either(Pty *pty, const char *a, const char *b);
/* Reads until nothing comes for a moment; returns the bytes that came. */
size_t pty_quiet(Pty *pty);
/* Waits for its end. */
void pty_wait(Pty *pty);
/* Whether the cursor is visible, by what was sent: curses scrolls between ESC 7 and ESC 8 while it
 * is hidden, and libvterm takes that for what to come back to when the other screen is left. */
bool pty_cursor_shown(const Pty *pty);

/* Termios as before, alternate screen left, cursor visible. */
void pty_expect_restored(Pty *pty);

#endif
