/* helper_pty.c - see helper_pty.h. */
#include "near.h"

#include "terminal/helper_pty.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

extern char *ptsname(int fd);
extern int grantpt(int fd);
extern int unlockpt(int fd);
extern int posix_openpt(int flags);
extern char *mkdtemp(char *template);

enum { DEADLINE_MS = 60000, QUIET_MS = 250, ENV_MAX = 24 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

static int on_property(VTermProp property, VTermValue *value, void *user)
{
    Pty *pty = user;
    if (property == VTERM_PROP_ALTSCREEN)
        pty->alternate = value->boolean;
    return 1;
}

static const VTermScreenCallbacks CALLBACKS = {.settermprop = on_property};

/* Runs as leader of the session: the program in a group of its own, in front. When it is stopped,
 * the terminal is set as a shell needs it, and left so. Ends as it ended. */
static void be_shell(Pty *pty)
{
    signal(SIGTTOU, SIG_IGN);
    pid_t pid = fork();
    if (pid == 0) {
        setpgid(0, 0);
        tcsetpgrp(0, getpid());
        signal(SIGTTOU, SIG_DFL);
        return;
    }
    setpgid(pid, pid);
    for (;;) {
        int status;
        char byte = 's';
        if (waitpid(pid, &status, WUNTRACED) < 0)
            _exit(126);
        if (!WIFSTOPPED(status))
            _exit(WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status));
        tcsetpgrp(0, getpid());
        tcsetattr(0, TCSADRAIN, &pty->before);
        if (write(pty->stopped[1], &byte, 1) != 1 || read(pty->go_on[0], &byte, 1) != 1)
            _exit(126);
        tcsetpgrp(0, pid);
        kill(-pid, SIGCONT);
    }
}

/* Copies of what has been started and not ended. A test that fails never comes to pty_end, and its
 * own Pty is gone with its stack: the copy is ended when another Pty starts in the same place, or
 * at exit. */
static struct Held {
    const Pty *of;
    Pty copy;
} held[8];
enum { HELD_COUNT = sizeof held / sizeof held[0] };

static struct Held *held_for(const Pty *pty)
{
    for (int i = 0; i < HELD_COUNT; i++)
        if (held[i].of == pty)
            return &held[i];
    return NULL;
}

/* After each change to what has to be released. */
static void hold(const Pty *pty) { held_for(pty)->copy = *pty; }

static void run_child(Pty *pty, const char *const *settings)
{
    static char xdg[4][128];
    const char *env[ENV_MAX] = {"PATH=/usr/bin:/bin"};
    int count = 1;
    static const char *const NAMES[] = {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME",
                                        "XDG_STATE_HOME"};
    for (int i = 0; i < 4; i++) {
        snprintf(xdg[i], sizeof xdg[i], "%s=%s", NAMES[i], pty->home);
        env[count++] = xdg[i];
    }
    bool locale = false, term = false; /* settings win: of two the program would see the first */
    for (; settings && *settings && count < ENV_MAX - 2; settings++) {
        locale = locale || strncmp(*settings, "LC_ALL=", 7) == 0;
        term = term || strncmp(*settings, "TERM=", 5) == 0;
        env[count++] = *settings;
    }
    if (!locale)
        env[count++] = "LC_ALL=C.UTF-8";
    if (!term)
        env[count++] = "TERM=xterm-256color";
    env[count] = NULL;
    setsid();
    int fd = open(ptsname(pty->master), O_RDWR); /* becomes the controlling terminal */
    ioctl(fd, TIOCSCTTY, 0);
    for (int i = 0; i < 3; i++)
        dup2(fd, i);
    close(pty->master);
    close(pty->slave);
    if (fd > 2)
        close(fd);
    if (pty->stopped[0] >= 0)
        be_shell(pty);
    char *arguments[8] = {SETTEE_BINARY};
    if (!pty->words)
        arguments[1] = (char *)(pty->event ? pty->event : "demo");
    for (int i = 0; pty->words && pty->words[i] && i < 6; i++)
        arguments[1 + i] = (char *)pty->words[i];
    execve(SETTEE_BINARY, arguments, (char *const *)env);
    _exit(127);
}

static void set_size(Pty *pty, int columns, int rows)
{
    struct winsize size = {.ws_col = (unsigned short)columns, .ws_row = (unsigned short)rows};
    ioctl(pty->master, TIOCSWINSZ, &size);
    pty->columns = columns;
    pty->rows = rows;
}

/* Reads what is there, waiting for it at most so long; false when nothing came. */
static bool pump(Pty *pty, int milliseconds)
{
    struct pollfd fd = {.fd = pty->master, .events = POLLIN};
    if (poll(&fd, 1, milliseconds) <= 0 || !(fd.revents & POLLIN))
        return false;
    char bytes[8192];
    ssize_t n = read(pty->master, bytes, sizeof bytes);
    if (n <= 0)
        return false;
    if (pty->raw_size + (size_t)n > pty->raw_margin) {
        pty->raw_margin = (pty->raw_size + (size_t)n) * 2;
        pty->raw = realloc(pty->raw, pty->raw_margin);
        assert_non_null(pty->raw);
        hold(pty);
    }
    memcpy(pty->raw + pty->raw_size, bytes, (size_t)n);
    pty->raw_size += (size_t)n;
    vterm_input_write(pty->vt, bytes, (size_t)n);
    return true;
}

static void remove_tree(const char *path)
{
    pid_t pid = fork();
    if (pid == 0) {
        execl("/bin/rm", "rm", "-rf", "--", path, (char *)NULL);
        _exit(127);
    }
    waitpid(pid, NULL, 0);
}

static void release(Pty *pty)
{
    if (pty->pid > 0) {
        kill(pty->pid, SIGKILL);
        waitpid(pty->pid, NULL, 0);
    }
    for (int i = 0; i < 2 && pty->stopped[0] >= 0; i++) {
        close(pty->stopped[i]);
        close(pty->go_on[i]);
    }
    close(pty->master);
    close(pty->slave);
    vterm_free(pty->vt);
    free(pty->raw);
    remove_tree(pty->home);
}

void pty_end(Pty *pty)
{
    struct Held *of_it = held_for(pty);
    release(pty);
    if (of_it)
        of_it->of = NULL;
}

static void end_all(void)
{
    for (int i = 0; i < HELD_COUNT; i++)
        if (held[i].of)
            release(&held[i].copy);
}

/* Takes a place for `pty`, which no test that goes on has. */
static void begin_holding(const Pty *pty)
{
    static bool at_exit;
    if (!at_exit)
        assert_int_equal(atexit(end_all), 0);
    at_exit = true;
    struct Held *place = held_for(pty);
    if (place)
        release(&place->copy);
    else
        place = held_for(NULL);
    assert_non_null(place);
    place->of = pty;
}

static void start(Pty *pty, int columns, int rows, const char *const *settings)
{
    begin_holding(pty);
    if (!pty->home[0]) {
        snprintf(pty->home, sizeof pty->home, "/tmp/settee-test-XXXXXX");
        assert_non_null(mkdtemp(pty->home));
    }
    pty->master = posix_openpt(O_RDWR | O_NOCTTY);
    assert_true(pty->master >= 0);
    assert_int_equal(grantpt(pty->master), 0);
    assert_int_equal(unlockpt(pty->master), 0);
    pty->slave = open(ptsname(pty->master), O_RDWR | O_NOCTTY);
    assert_true(pty->slave >= 0);
    assert_int_equal(tcgetattr(pty->slave, &pty->before), 0);
    set_size(pty, columns, rows);
    pty->vt = vterm_new(rows, columns);
    vterm_set_utf8(pty->vt, 1);
    pty->screen = vterm_obtain_screen(pty->vt);
    vterm_screen_set_callbacks(pty->screen, &CALLBACKS, pty);
    vterm_screen_enable_altscreen(pty->screen, 1);
    vterm_screen_reset(pty->screen, 1);
    pty->pid = fork();
    assert_true(pty->pid >= 0);
    if (pty->pid == 0)
        run_child(pty, settings);
    hold(pty);
}

void pty_start(Pty *pty, int columns, int rows, const char *const *settings)
{
    *pty = (Pty){.stopped = {-1, -1}, .go_on = {-1, -1}};
    start(pty, columns, rows, settings);
}

void pty_start_event(Pty *pty, int columns, int rows, const char *event)
{
    *pty = (Pty){.event = event, .stopped = {-1, -1}, .go_on = {-1, -1}};
    start(pty, columns, rows, NULL);
}

void pty_start_beside(Pty *pty, int columns, int rows, const Pty *other)
{
    *pty = (Pty){.event = other->event, .stopped = {-1, -1}, .go_on = {-1, -1}};
    memcpy(pty->home, other->home, sizeof pty->home);
    start(pty, columns, rows, NULL);
}

void pty_start_words(Pty *pty, int columns, int rows, const char *const *words)
{
    *pty = (Pty){.words = words, .stopped = {-1, -1}, .go_on = {-1, -1}};
    start(pty, columns, rows, NULL);
}

void pty_start_under_shell(Pty *pty, int columns, int rows)
{
    *pty = (Pty){0};
    assert_int_equal(pipe(pty->stopped), 0);
    assert_int_equal(pipe(pty->go_on), 0);
    start(pty, columns, rows, NULL);
}

void pty_expect_stopped(Pty *pty)
{
    double end = now_ms() + DEADLINE_MS;
    struct pollfd fd = {.fd = pty->stopped[0], .events = POLLIN};
    while (poll(&fd, 1, 0) == 0) {
        pump(pty, 20);
        if (now_ms() > end)
            fail_msg("the program was not stopped:\n%s", pty_text(pty));
    }
    char byte;
    assert_int_equal(read(pty->stopped[0], &byte, 1), 1);
    while (pump(pty, 20))
        continue;
}

void pty_go_on(Pty *pty) { assert_int_equal(write(pty->go_on[1], "g", 1), 1); }

void pty_kill_and_restart(Pty *pty)
{
    kill(pty->pid, SIGKILL);
    waitpid(pty->pid, &pty->status, 0);
    while (pump(pty, 20))
        continue;
    pty_start_again(pty);
}

void pty_start_again(Pty *pty)
{
    tcsetattr(pty->slave, TCSANOW, &pty->before);
    vterm_screen_reset(pty->screen, 1);
    pty->pid = fork();
    assert_true(pty->pid >= 0);
    if (pty->pid == 0)
        run_child(pty, NULL);
    hold(pty);
}

void pty_type(Pty *pty, const char *keys)
{
    size_t length = strlen(keys);
    assert_int_equal(write(pty->master, keys, length), (ssize_t)length);
}

void pty_resize(Pty *pty, int columns, int rows)
{
    vterm_set_size(pty->vt, rows, columns);
    set_size(pty, columns, rows); /* the kernel sends SIGWINCH */
}

const char *pty_text(Pty *pty)
{
    static char text[200 * 520 * 4];
    size_t used = 0;
    for (int row = 0; row < pty->rows; row++) {
        VTermRect line = {
            .start_row = row, .end_row = row + 1, .start_col = 0, .end_col = pty->columns};
        size_t n = vterm_screen_get_text(pty->screen, text + used, sizeof text - used - 2, line);
        used += n;
        text[used++] = '\n';
    }
    text[used] = '\0';
    return text;
}

static bool ends_with(const char *text, const char *end)
{
    size_t length = strlen(text), size = strlen(end);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\n'))
        length--;
    return length >= size && memcmp(text + length - size, end, size) == 0;
}

void pty_expect_end(Pty *pty, const char *text)
{
    double end = now_ms() + DEADLINE_MS;
    while (!ends_with(pty_text(pty), text))
        if (!pump(pty, 50) && now_ms() > end)
            fail_msg("the screen does not end with \"%s\"", text);
}

/* A failure's message is cut after some thousand bytes: its end says more. */
static const char *end_of(const char *text)
{
    const char *end = text + strlen(text), *at = end;
    while (at > text && end - at < 900)
        at--;
    return at;
}

static void wait_for(Pty *pty, const char *a, const char *b, bool there)
{
    double end = now_ms() + DEADLINE_MS;
    for (;;) {
        const char *text = pty_text(pty);
        bool found = strstr(text, a) || (b && strstr(text, b));
        if (found == there)
            return;
        if (!pump(pty, 50) && now_ms() > end)
            fail_msg("\"%s\" is %s on the screen:\n%s", a, there ? "not" : "still", end_of(text));
    }
}

void pty_expect(Pty *pty, const char *text) { wait_for(pty, text, NULL, true); }
void pty_expect_gone(Pty *pty, const char *text) { wait_for(pty, text, NULL, false); }
void pty_expect_either(Pty *pty, const char *a, const char *b) { wait_for(pty, a, b, true); }

void pty_expect_that(Pty *pty, bool (*is)(Pty *pty, const void *context), const void *context,
                     const char *what, const char *why_not)
{
    double end = now_ms() + DEADLINE_MS;
    while (!is(pty, context))
        if (!pump(pty, 50) && now_ms() > end)
            fail_msg("the screen is not %s: %s", what, why_not);
}

size_t pty_quiet(Pty *pty)
{
    size_t before = pty->raw_size;
    while (pump(pty, QUIET_MS))
        continue;
    return pty->raw_size - before;
}

void pty_wait(Pty *pty)
{
    double end = now_ms() + DEADLINE_MS;
    while (waitpid(pty->pid, &pty->status, WNOHANG) == 0) {
        pump(pty, 20);
        if (now_ms() > end)
            fail_msg("the program does not end:\n%s", pty_text(pty));
    }
    pty->pid = 0;
    hold(pty);
    while (pump(pty, 20))
        continue;
}

bool pty_cursor_shown(const Pty *pty)
{
    static const char HIDE[] = "\033[?25l", SHOW[] = "\033[?25h";
    const size_t size = sizeof HIDE - 1;
    for (size_t at = pty->raw_size; at-- > 0;) {
        if (pty->raw_size - at < size)
            continue;
        if (memcmp(pty->raw + at, SHOW, size) == 0)
            return true;
        if (memcmp(pty->raw + at, HIDE, size) == 0)
            return false;
    }
    return true;
}

void pty_expect_restored(Pty *pty)
{
    struct termios after;
    double end = now_ms() + DEADLINE_MS; /* its last bytes may still be under way */
    while ((pty->alternate || !pty_cursor_shown(pty)) && now_ms() < end)
        pump(pty, 20);
    assert_int_equal(tcgetattr(pty->slave, &after), 0);
    assert_int_equal(after.c_iflag, pty->before.c_iflag);
    assert_int_equal(after.c_oflag, pty->before.c_oflag);
    assert_int_equal(after.c_cflag, pty->before.c_cflag);
    assert_int_equal(after.c_lflag, pty->before.c_lflag);
    assert_memory_equal(after.c_cc, pty->before.c_cc, sizeof after.c_cc);
    assert_false(pty->alternate);
    assert_true(pty_cursor_shown(pty));
}
