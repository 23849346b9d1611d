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
#include <unistd.h>

#include "base/text.h"
#include "ui/input/keys.h"

/* From <term.h>, which also makes macros of words like "columns" and "lines". */
extern char *tigetstr(const char *name);

enum { PAIRS_MAX = 250, SILENT_READS_MAX = 50, ESC_DELAY_MS = 25 };

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
    bool lost;        /* its size has changed: unknown what it shows */
    bool announced;   /* the last wait reported input */
    int silent_reads; /* how often it did and none came */
    int wake[2];      /* written to by signal handlers, read by term_wait */
} term = {.wake = {-1, -1}};

static volatile sig_atomic_t ending, resized, continued;
static struct termios before;
static bool before_known;
static char give_back[128]; /* prepared for the signal handler, which may look nothing up */
static size_t give_back_size;

static const int ENDING[] = {SIGINT, SIGTERM, SIGHUP};
static const int CRASHES[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT};

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

static void catch_signals(void)
{
    struct sigaction action = {.sa_handler = on_ending};
    sigemptyset(&action.sa_mask);
    for (size_t i = 0; i < sizeof ENDING / sizeof *ENDING; i++)
        sigaction(ENDING[i], &action, NULL);
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

/* The bytes that restore the terminal, without terminfo's padding marks. */
static void prepare_give_back(void)
{
    static const char *const NAMES[] = {"sgr0", "cnorm", "rmkx", "rmcup"};
    for (size_t i = 0; i < sizeof NAMES / sizeof *NAMES; i++) {
        const char *text = tigetstr(NAMES[i]);
        /* NOLINTNEXTLINE(performance-no-int-to-ptr): how curses says that it is no string */
        if (!text || text == (const char *)-1)
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

bool term_init(char *why, unsigned long size)
{
    setlocale(LC_CTYPE, ""); /* numbers stay in the C locale */
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO)) {
        text_copy(why, size, "the screen needs a terminal; settee --help lists what works without");
        return false;
    }
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
    term.screen = newterm(NULL, stdout, stdin);
    if (!term.screen) {
        const char *name = getenv("TERM");
        text_copy(why, size, "");
        text_append(why, size, "the terminal \"%s\" is not known; set TERM", name ? name : "");
        return false;
    }
    prepare_give_back();
    catch_signals();
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
    for (size_t i = 0; i < sizeof ENDING / sizeof *ENDING; i++)
        signal(ENDING[i], SIG_DFL);
    if (ending > 0)
        raise(ending);
}

bool term_utf8(void) { return term.utf8; }
bool term_no_colour(void) { return term.no_colour; }

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
        if (size.ws_row != LINES || size.ws_col != COLS)
            resize_term(size.ws_row, size.ws_col);
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

/* Nothing follows a lone Esc at once. If something does, it is a key that ncurses doesn't know, and
 * its letters must not be taken for ours. */
static uint32_t after_escape(void)
{
    wint_t c;
    if (get_wch(&c) == ERR)
        return PRESS_ESC;
    if (c == '[' || c == 'O')
        while (get_wch(&c) != ERR && !(c >= 0x40 && c <= 0x7e))
            continue;
    return PRESS_LAST; /* a key that does nothing */
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

uint32_t term_key(void)
{
    wint_t c;
    if (continued) {
        continued = 0;
        return PRESS_REDRAW;
    }
    int result = get_wch(&c);
    if (result == ERR) {
        if (term.announced && ++term.silent_reads > SILENT_READS_MAX) /* end of file */
            ending = ending ? ending : -1;
        term.announced = false;
        return PRESS_NONE;
    }
    term.silent_reads = 0;
    if (result == KEY_CODE_YES) {
        if (c == KEY_RESIZE) {
            resized = 1;
            return PRESS_LAST;
        }
        return press_of((int)c);
    }
    if (c == PRESS_ESC)
        return after_escape();
    if (c == 0x0c)
        return PRESS_REDRAW;
    return c == 0 ? PRESS_LAST : (uint32_t)c;
}

bool term_resized(void)
{
    if (!resized)
        return false;
    resized = 0; /* before the size is asked for: a signal from here on is another one */
    return term.lost = true;
}

int term_ending(void) { return ending; }
