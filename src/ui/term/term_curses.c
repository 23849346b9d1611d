/* term_curses.c - the terminal by ncurses: the only file that includes it. */
#include "ui/term/term.h"

#include <curses.h>
#include <errno.h>
#include <fcntl.h>
#include <langinfo.h>
#include <locale.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <termios.h>
#include <time.h>
#include <unistd.h>

#include "base/text.h"
#include "ui/input/keys.h"

/* From <term.h>, which also makes macros of words like "columns" and "lines". */
extern char *tigetstr(const char *name);

enum {
    PAIRS_MAX = 250,
    SILENT_READS_MAX = 50,
    ESC_DELAY_MS = 25,
    ANSWER_PAUSE_MS = 500, /* between two characters of an answer, over a slow line */
    PASTE_PAUSE_MS = 5000,
    SWALLOWED_A_TURN = 4096
};

/* What a terminal sends that is no key: an answer, a mouse's report, pasted text. */
typedef enum Swallow {
    SWALLOW_NOTHING,
    SWALLOW_CONTROL, /* parameters, then a letter */
    SWALLOW_TEXT,    /* up to a bell or Esc backslash */
    SWALLOW_END,     /* after an Esc in it */
    SWALLOW_MOUSE,   /* three characters */
    SWALLOW_PASTE    /* up to its mark */
} Swallow;

static struct {
    SCREEN *screen;
    bool utf8, no_colour;
    int colours; /* 0: none are used */
    attr_t weight[ROLE_COUNT];
    int foreground[ROLE_COUNT], background[ROLE_COUNT]; /* curses colour numbers */
    int pair_count;
    int pairs[PAIRS_MAX][2];
    int columns, rows; /* of `shown` */
    Cell *shown;       /* what the terminal shows; NULL: unknown */
    int cursor_row, cursor_column;
    bool theme_changed;
    bool lost;           /* its size has changed: unknown what it shows */
    bool announced;      /* the last wait reported input */
    int silent_reads;    /* it said so and none came */
    char kind_mouse[16]; /* what a mouse's report begins with; "": it has none */
    Swallow swallow;     /* what is being read that is no key */
    int count;      /* characters of it: of a mouse's report still to come, of a mark matched */
    char number[8]; /* a control sequence's first number */
    struct timespec last; /* when the last character of it came */
    int wake[2];          /* written to by signal handlers, read by term_wait */
} term = {.wake = {-1, -1}};

static volatile sig_atomic_t ending, resized, continued;
static struct termios before;
static bool before_known;
static char give_back[128]; /* prepared for the signal handler, which may look nothing up */
static size_t give_back_size;

static const int ENDING[] = {SIGINT, SIGTERM, SIGHUP};
static const int CRASHES[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT, SIGTRAP, SIGSYS};
/* These end nothing by default, or can't be caught. */
static const int HARMLESS[] = {SIGCHLD, SIGCONT, SIGURG,  SIGWINCH, SIGKILL,
                               SIGSTOP, SIGTSTP, SIGTTIN, SIGTTOU};
static sigset_t caught; /* signals that end the program, once caught */

static void wake_up(void)
{
    int saved = errno;
    if (term.wake[1] >= 0) {
        ssize_t n = write(term.wake[1], "", 1);
        (void)n; /* a full pipe wakes it too */
    }
    errno = saved;
}

static void on_ending(int number)
{
    ending = number;
    wake_up();
}

static void on_size(int number)
{
    (void)number;
    resized = 1;
    wake_up();
}

static void on_continue(int number)
{
    (void)number;
    continued = 1;
    resized = 1; /* its size may have changed */
    wake_up();
}

/* Only calls that are safe in a signal handler; then the default action. */
static void on_crash(int number)
{
    ssize_t n = write(STDOUT_FILENO, give_back, give_back_size);
    (void)n;
    if (before_known)
        tcsetattr(STDIN_FILENO, TCSANOW, &before);
    raise(number);
}

#define ANY(numbers, number) any(numbers, sizeof(numbers) / sizeof *(numbers), number)
static bool any(const int *numbers, size_t count, int number)
{
    for (size_t i = 0; i < count; i++)
        if (numbers[i] == number)
            return true;
    return false;
}

/* Those that end a program, by whatever name a system has for them; not those that whoever started
 * it wants ignored, except the usual ones. */
static void catch_endings(const struct sigaction *action)
{
    sigemptyset(&caught);
    for (int number = 1; number <= SIGRTMAX; number++) {
        struct sigaction now;
        if (ANY(HARMLESS, number) || ANY(CRASHES, number) || number == SIGXFSZ ||
            sigaction(number, NULL, &now) != 0)
            continue;
        if ((ANY(ENDING, number) || now.sa_handler == SIG_DFL) &&
            sigaction(number, action, NULL) == 0)
            sigaddset(&caught, number);
    }
    signal(SIGXFSZ, SIG_IGN); /* the write fails instead, and that is told */
}

static void catch_signals(void)
{
    struct sigaction action = {.sa_handler = on_ending};
    sigemptyset(&action.sa_mask);
    catch_endings(&action);
    action.sa_handler = on_size;
    sigaction(SIGWINCH, &action, NULL);
    action.sa_handler = on_continue;
    sigaction(SIGCONT, &action, NULL);
    action.sa_handler = on_crash;
    action.sa_flags = (int)(SA_RESETHAND | SA_NODEFER);
    for (size_t i = 0; i < sizeof CRASHES / sizeof *CRASHES; i++)
        sigaction(CRASHES[i], &action, NULL);
}

static void release_signals(void)
{
    for (size_t i = 0; i < sizeof CRASHES / sizeof *CRASHES; i++)
        signal(CRASHES[i], SIG_DFL);
    signal(SIGWINCH, SIG_DFL);
    signal(SIGCONT, SIG_DFL);
}

/* A terminal of xterm's kind, which has a mouse: no reports of that, and pasted text is marked. */
static const char MODES_ON[] = "\033[?1000l\033[?1002l\033[?1003l\033[?2004h";
static const char MODES_OFF[] = "\033[?2004l";

static void write_modes(const char *modes)
{
    ssize_t n = term.kind_mouse[0] ? write(STDOUT_FILENO, modes, strlen(modes)) : 0;
    (void)n;
}

static const char *capability(const char *name)
{
    const char *text = tigetstr(name);
    /* NOLINTNEXTLINE(performance-no-int-to-ptr): how curses says that it is no string */
    return text == (const char *)-1 ? NULL : text;
}

/* The bytes that restore the terminal, without terminfo's padding marks. */
static void prepare_give_back(void)
{
    static const char *const NAMES[] = {"sgr0", "cnorm", "rmkx", "rmcup"};
    const char *mouse = capability("kmous");
    text_copy(term.kind_mouse, sizeof term.kind_mouse, mouse ? mouse : "");
    if (mouse) {
        memcpy(give_back, MODES_OFF, sizeof MODES_OFF - 1);
        give_back_size = sizeof MODES_OFF - 1;
    }
    for (size_t i = 0; i < sizeof NAMES / sizeof *NAMES; i++) {
        const char *text = capability(NAMES[i]);
        if (!text)
            continue;
        for (; *text && give_back_size < sizeof give_back; text++) {
            if (text[0] == '$' && text[1] == '<') {
                const char *end = strchr(text, '>');
                if (!end)
                    break;
                text = end;
                continue;
            }
            give_back[give_back_size++] = *text;
        }
    }
}

static bool open_wake(void)
{
    if (pipe(term.wake) != 0)
        return false;
    for (int i = 0; i < 2; i++) {
        fcntl(term.wake[i], F_SETFL, O_NONBLOCK);
        fcntl(term.wake[i], F_SETFD, FD_CLOEXEC);
    }
    return true;
}

static bool too_large(void)
{
    struct winsize size;
    const char *columns = getenv("COLUMNS"), *lines = getenv("LINES");
    return (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 &&
            (size.ws_col > CANVAS_COLUMNS_MAX || size.ws_row > CANVAS_ROWS_MAX)) ||
           (columns && strtol(columns, NULL, 10) > CANVAS_COLUMNS_MAX) ||
           (lines && strtol(lines, NULL, 10) > CANVAS_ROWS_MAX);
}

bool term_there(char *why, unsigned long size)
{
    if (isatty(STDIN_FILENO) && isatty(STDOUT_FILENO))
        return true;
    text_copy(why, size, "the screen needs a terminal; settee --help lists what works without");
    return false;
}

static bool refuse(const char *reason, char *why, unsigned long size)
{
    const char *name = getenv("TERM");
    text_copy(why, size, "");
    text_append(why, size, "the terminal \"%s\" %s; set TERM", name ? name : "", reason);
    return false;
}

bool term_init(char *why, unsigned long size)
{
    setlocale(LC_CTYPE, ""); /* numbers stay in the C locale */
    if (!term_there(why, size))
        return false;
    const char *no_colour = getenv("NO_COLOR");
    term.no_colour = no_colour && no_colour[0];
    term.utf8 = strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
    before_known = tcgetattr(STDIN_FILENO, &before) == 0;
    if (!open_wake()) {
        text_copy(why, size, "no pipe could be opened");
        return false;
    }
    if (!getenv("ESCDELAY"))
        set_escdelay(ESC_DELAY_MS);
    if (too_large())
        use_env(FALSE); /* curses would have no memory for it; term_size says what is used */
    term.screen = newterm(NULL, stdout, stdin);
    if (!term.screen)
        return refuse("is not known", why, size);
    if (!capability("cup")) {
        endwin();
        delscreen(term.screen);
        term.screen = NULL;
        return refuse("can't move its cursor", why, size);
    }
    prepare_give_back();
    catch_signals();
    write_modes(MODES_ON);
    cbreak();
    noecho();
    nonl();
    keypad(stdscr, TRUE);
    nodelay(stdscr, TRUE);
    leaveok(stdscr, FALSE);
    curs_set(0);
    if (!term.no_colour && has_colors() && start_color() == OK) {
        use_default_colors();
        term.colours = COLORS;
    }
    return true;
}

void term_fini(void)
{
    if (!term.screen)
        return;
    write_modes(MODES_OFF);
    endwin();
    release_signals();
    delscreen(term.screen);
    free(term.shown);
    int wake[2] = {term.wake[0], term.wake[1]};
    term.screen = NULL;
    term.shown = NULL;
    term.wake[0] = term.wake[1] = -1; /* so that no handler writes to a closed pipe */
    close(wake[0]);
    close(wake[1]);
}

void term_release(void)
{
    for (int number = 1; number <= SIGRTMAX; number++)
        if (sigismember(&caught, number) == 1)
            signal(number, SIG_DFL);
    if (ending > 0)
        raise(ending);
}

bool term_utf8(void) { return term.utf8; }
bool term_no_colour(void) { return term.no_colour; }

bool term_still(void)
{
    const char *motion = getenv("SETTEE_MOTION");
    return motion && strcmp(motion, "off") == 0;
}

long term_clock_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (long)now.tv_sec * 1000 + now.tv_nsec / 1000000 + 1;
}

/* Colours. */

static int square(int x) { return x * x; }

static int distance(int rgb, int r, int g, int b)
{
    return square((rgb >> 16 & 0xff) - r) + square((rgb >> 8 & 0xff) - g) +
           square((rgb & 0xff) - b);
}

/* The usual values of the sixteen; terminals differ, so the cube is preferred if there is one. */
static const int SIXTEEN[16] = {0x000000, 0xcd0000, 0x00cd00, 0xcdcd00, 0x0000ee, 0xcd00cd,
                                0x00cdcd, 0xe5e5e5, 0x7f7f7f, 0xff0000, 0x00ff00, 0xffff00,
                                0x5c5cff, 0xff00ff, 0x00ffff, 0xffffff};

static int nearest(int rgb)
{
    static const int LEVELS[6] = {0, 95, 135, 175, 215, 255};
    int best = 0, least = 1 << 30;
    if (rgb < 0)
        return -1;
    if (term.colours > 256)
        return rgb < 8 ? 0 : rgb; /* direct colour; the lowest numbers are a palette's */
    int few = term.colours >= 16 ? 16 : 8;
    for (int i = 0; term.colours < 256 && i < few; i++) {
        int d = distance(rgb, SIXTEEN[i] >> 16, SIXTEEN[i] >> 8 & 0xff, SIXTEEN[i] & 0xff);
        if (d < least) {
            least = d;
            best = i;
        }
    }
    for (int i = 16; term.colours == 256 && i < 256; i++) {
        int r, g, b;
        if (i < 232) {
            r = LEVELS[(i - 16) / 36];
            g = LEVELS[(i - 16) / 6 % 6];
            b = LEVELS[(i - 16) % 6];
        } else {
            r = g = b = 8 + (i - 232) * 10;
        }
        int d = distance(rgb, r, g, b);
        if (d < least) {
            least = d;
            best = i;
        }
    }
    return best;
}

void term_theme(const Theme *theme)
{
    for (int i = 0; i < ROLE_COUNT; i++) {
        const RoleStyle *style = &theme->role[i];
        term.weight[i] = (style->bold ? A_BOLD : 0) | (style->underline ? A_UNDERLINE : 0) |
                         (style->reverse ? A_REVERSE : 0);
        term.foreground[i] = term.colours ? nearest(style->foreground) : -1;
        term.background[i] = term.colours ? nearest(style->background) : -1;
        /* too few colours: show reversed what would be invisible */
        if (term.colours && term.foreground[i] == term.background[i] && term.foreground[i] >= 0) {
            term.foreground[i] = term.background[i] = -1;
            if (style->foreground != style->background && (i == ROLE_FIELD))
                term.weight[i] |= A_REVERSE;
        }
    }
    term.pair_count = 0;
    term.theme_changed = true;
}

/* Number of the pair of these colours; 0, the terminal's own, if there is no room for more. */
static int pair_of(int foreground, int background)
{
    if (!term.colours || (foreground < 0 && background < 0))
        return 0;
    for (int i = 0; i < term.pair_count; i++)
        if (term.pairs[i][0] == foreground && term.pairs[i][1] == background)
            return i + 1;
    if (term.pair_count >= PAIRS_MAX || term.pair_count + 1 >= COLOR_PAIRS)
        return 0;
    term.pairs[term.pair_count][0] = foreground;
    term.pairs[term.pair_count][1] = background;
    init_extended_pair(term.pair_count + 1, foreground, background);
    return ++term.pair_count;
}

/* Drawing. */

void term_size(int *columns, int *rows)
{
    struct winsize size;
    if (ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0 && size.ws_row > 0) {
        int row_count = size.ws_row < CANVAS_ROWS_MAX ? size.ws_row : CANVAS_ROWS_MAX;
        int column_count = size.ws_col < CANVAS_COLUMNS_MAX ? size.ws_col : CANVAS_COLUMNS_MAX;
        if (row_count != LINES || column_count != COLS)
            (void)resize_term(row_count, column_count); /* refused: it stays as it was */
    }
    getmaxyx(stdscr, *rows, *columns);
}

static void draw_cell(int row, int column, const Cell *cell)
{
    wchar_t text[2] = {(wchar_t)cell->glyph, 0};
    cchar_t out;
    int pair = pair_of(term.foreground[cell->role], term.background[cell->ground]);
    setcchar(&out, text, term.weight[cell->role], (short)pair, NULL);
    mvadd_wch(row, column, &out);
}

static bool same_cell(const Cell *a, const Cell *b)
{
    return a->glyph == b->glyph && a->role == b->role && a->ground == b->ground;
}

/* A terminal that shrinks keeps the lines around its cursor, and what it cuts off doesn't come back
 * when it grows; curses assumes that the upper left part stays. So after any resize, even back to
 * the old size, everything is drawn again. */
void term_draw(const Canvas *canvas, bool all)
{
    int count = canvas->columns * canvas->rows;
    all = all || term.lost;
    bool changed = all || term.theme_changed || !term.shown || term.columns != canvas->columns ||
                   term.rows != canvas->rows;
    if (changed) {
        free(term.shown);
        term.shown = malloc((size_t)count * sizeof(Cell));
        term.columns = canvas->columns;
        term.rows = canvas->rows;
        erase();
        cchar_t blank;
        Cell plain = {.glyph = ' ', .role = ROLE_PLAIN, .ground = ROLE_PLAIN};
        setcchar(&blank, L" ", term.weight[ROLE_PLAIN],
                 (short)pair_of(term.foreground[plain.role], term.background[plain.ground]), NULL);
        bkgrndset(&blank);
        if (all)
            clearok(stdscr, TRUE);
    }
    bool drawn = changed;
    for (int i = 0; i < count; i++) {
        const Cell *cell = &canvas->cells[i];
        if (cell->glyph == 0 || (!changed && term.shown && same_cell(cell, &term.shown[i])))
            continue;
        draw_cell(i / canvas->columns, i % canvas->columns, cell);
        drawn = true;
    }
    if (term.shown)
        memcpy(term.shown, canvas->cells, (size_t)count * sizeof(Cell));
    term.theme_changed = term.lost = false;
    bool moved =
        canvas->cursor_row != term.cursor_row || canvas->cursor_column != term.cursor_column;
    if (!drawn && !moved)
        return; /* nothing differs: don't write a byte */
    if ((canvas->cursor_row >= 0) != (term.cursor_row >= 0) || changed)
        curs_set(canvas->cursor_row >= 0 ? 1 : 0);
    if (canvas->cursor_row >= 0)
        move(canvas->cursor_row, canvas->cursor_column);
    term.cursor_row = canvas->cursor_row;
    term.cursor_column = canvas->cursor_column;
    refresh();
}

void term_bell(void) { beep(); }

/* Input. */

void term_wait(int milliseconds)
{
    struct pollfd fds[2] = {{.fd = STDIN_FILENO, .events = POLLIN},
                            {.fd = term.wake[0], .events = POLLIN}};
    if (poll(fds, 2, milliseconds) <= 0)
        return;
    if (fds[1].revents & POLLIN) {
        char drain[64];
        while (read(term.wake[0], drain, sizeof drain) > 0)
            continue;
    }
    if (fds[0].revents & (POLLERR | POLLNVAL | POLLHUP))
        ending = ending ? ending : -1;
    term.announced = fds[0].revents & POLLIN;
}

/* A character or key that is there; ERR when none is. */
static int next_key(wint_t *c)
{
    int result = get_wch(c);
    if (result == KEY_CODE_YES && *c == KEY_RESIZE)
        resized = 1;
    return result;
}

static void swallow(Swallow what, int count)
{
    term.swallow = what;
    term.count = count;
    term.number[0] = '\0';
    clock_gettime(CLOCK_MONOTONIC, &term.last);
}

/* What an escape begins, by the character after it, or by a single character of eight bits. */
static Swallow begun_by(wint_t c)
{
    switch (c) {
    case '[':
    case 'O':
        return SWALLOW_CONTROL;
    case 'P':
    case ']':
    case '_':
    case '^':
    case 'X':
        return SWALLOW_TEXT;
    default:
        return SWALLOW_NOTHING;
    }
}

/* After a lone Esc nothing follows at once. When something does, it is a key that ncurses does not
 * know, or no key at all: its letters must not be taken for ours. */
static uint32_t after_escape(void)
{
    wint_t c;
    if (next_key(&c) == ERR)
        return PRESS_ESC;
    swallow(begun_by(c), 0);
    return PRESS_NONE;
}

static uint32_t swallow_control(wint_t c)
{
    size_t length = strlen(term.number);
    if (c >= '0' && c <= '9' && length + 1 < sizeof term.number && term.count == 0) {
        term.number[length] = (char)c;
        term.number[length + 1] = '\0';
        return PRESS_NONE;
    }
    bool bare = term.count == 0 && length == 0;
    term.count = 1; /* the first number has ended */
    if (c >= 0x20 && c < 0x40)
        return PRESS_NONE;
    if (c == '~' && strcmp(term.number, "200") == 0)
        swallow(SWALLOW_PASTE, 0);
    else if (c == 'M' && bare)
        swallow(SWALLOW_MOUSE, 3);
    else
        swallow(SWALLOW_NOTHING, 0);
    return PRESS_NONE;
}

/* One more character of what is swallowed; the press that its end stands for. */
static uint32_t swallow_one(wint_t c)
{
    static const char MARK[] = "\033[201~";
    switch (term.swallow) {
    case SWALLOW_CONTROL:
        return swallow_control(c);
    case SWALLOW_TEXT:
        if (c == PRESS_ESC)
            term.swallow = SWALLOW_END;
        else if (c == 0x07 || c == 0x18 || c == 0x1a || c == 0x9c) /* bell, given up, ended */
            term.swallow = SWALLOW_NOTHING;
        return PRESS_NONE;
    case SWALLOW_END:
        swallow(begun_by(c), 0);
        return PRESS_NONE;
    case SWALLOW_MOUSE:
        if (--term.count == 0)
            term.swallow = SWALLOW_NOTHING;
        return PRESS_NONE;
    case SWALLOW_PASTE:
        term.count = c == (wint_t)MARK[term.count] ? term.count + 1 : c == PRESS_ESC;
        if (MARK[term.count])
            return PRESS_NONE;
        term.swallow = SWALLOW_NOTHING;
        return PRESS_PASTED;
    default:
        return PRESS_NONE;
    }
}

/* What was begun may have been a key after all, and its end may never come. */
static bool is_stale(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    long waited =
        (long)(now.tv_sec - term.last.tv_sec) * 1000 + (now.tv_nsec - term.last.tv_nsec) / 1000000;
    term.last = now;
    return waited > (term.swallow == SWALLOW_PASTE ? PASTE_PAUSE_MS : ANSWER_PAUSE_MS);
}

static uint32_t press_of(int code)
{
    switch (code) {
    case KEY_LEFT:
        return PRESS_LEFT;
    case KEY_RIGHT:
        return PRESS_RIGHT;
    case KEY_UP:
        return PRESS_UP;
    case KEY_DOWN:
        return PRESS_DOWN;
    case KEY_SLEFT:
        return PRESS_SHIFT_LEFT;
    case KEY_SRIGHT:
        return PRESS_SHIFT_RIGHT;
    case KEY_PPAGE:
        return PRESS_PAGE_UP;
    case KEY_NPAGE:
        return PRESS_PAGE_DOWN;
    case KEY_HOME:
        return PRESS_HOME;
    case KEY_DC:
        return PRESS_DELETE;
    case KEY_END:
        return PRESS_END;
    case KEY_ENTER:
        return PRESS_ENTER;
    case KEY_BACKSPACE:
        return PRESS_BACKSPACE;
    default:
        return PRESS_LAST;
    }
}

/* A character or a key of curses, as a press; PRESS_NONE: it is swallowed. */
static uint32_t take(int result, wint_t c)
{
    bool code = result == KEY_CODE_YES;
    if (term.swallow != SWALLOW_NOTHING && !is_stale()) {
        if (!code)
            return swallow_one(c);
        if (term.swallow != SWALLOW_CONTROL)
            return PRESS_NONE; /* a key amid text */
    }
    term.swallow = SWALLOW_NOTHING;
    if (code && c == KEY_MOUSE) {
        bool three = strcmp(term.kind_mouse, "\033[M") == 0;
        swallow(three ? SWALLOW_MOUSE : SWALLOW_CONTROL, three ? 3 : 1);
        return PRESS_NONE;
    }
    if (code)
        return press_of((int)c);
    if (c >= 0x80 && c < 0xa0) {
        swallow(begun_by(c - 0x40), 0);
        return PRESS_NONE;
    }
    if (c == PRESS_ESC)
        return after_escape();
    if (c == 0x0c)
        return PRESS_REDRAW;
    return c == 0 ? PRESS_LAST : (uint32_t)c;
}

uint32_t term_key(void)
{
    if (continued) {
        continued = 0;
        reset_prog_mode(); /* after a SIGSTOP, which curses doesn't see, the shell's are on */
        write_modes(MODES_ON);
        return PRESS_REDRAW;
    }
    for (int i = 0; i < SWALLOWED_A_TURN; i++) {
        wint_t c;
        int result = next_key(&c);
        if (result == ERR) {
            if (term.announced && i == 0 && ++term.silent_reads > SILENT_READS_MAX)
                ending = ending ? ending : -1; /* end of file */
            term.announced = false;
            return PRESS_NONE;
        }
        term.silent_reads = 0;
        uint32_t press = take(result, c);
        if (press != PRESS_NONE)
            return press;
    }
    return PRESS_LAST; /* and there may be more */
}

bool term_resized(void)
{
    if (!resized)
        return false;
    resized = 0; /* before the size is asked for: a signal from here on is another one */
    return term.lost = true;
}

int term_ending(void) { return ending; }
