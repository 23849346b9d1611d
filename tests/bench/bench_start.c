/* bench_start.c - how long each program takes from its start to its first full screen in a terminal
 * of 80x24: settee on a new event, on one that goes on, and on the last of ten events of six games,
 * vi and nano where they are installed, and programs named as arguments. In turns, so that a busy
 * machine is as busy for all; the median of each, and ratios. */
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

#include <vterm.h>

#include "store/files.h"
#include "store/journal.h"

extern char *ptsname(int fd);
extern int grantpt(int fd);
extern int unlockpt(int fd);
extern int posix_openpt(int flags);
extern char *mkdtemp(char *template);
extern int setenv(const char *name, const char *value, int overwrite);

enum {
    RUNS = 31,
    ROWS = 24,
    COLUMNS = 80,
    GIVE_UP_MS = 10000,
    HOME_MAX = 64,
    PROGRAMS_MAX = 8,
    DAYS = 10,
    GAMES = 6
};

typedef struct Program {
    const char *name, *path;
    bool goes_on; /* in the home of its first run, else in a new one each time */
    bool played;  /* where ten events were bowled */
    char home[HOME_MAX];
    double ms[RUNS];
} Program;

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* A day of strikes, bowled and logged as the screen does it. */
static void play_day(const char *home, int day)
{
    static EventInfo event;
    static Bag bag;
    static Pattern pattern;
    Error error = {0};
    Plan first = {.slot = 1, .stance = 25, .aim = 12};
    char name[16], path[HOME_MAX + 64], notice[512];
    Session *session = calloc(1, sizeof *session);
    snprintf(name, sizeof name, "day-%d", day);
    snprintf(path, sizeof path, "%s/settee/events/%s.json", home, name);
    FILE *file = fopen(path, "w");
    if (!session || !file)
        exit(1);
    fprintf(file,
            "{\"format\": \"settee-event/1\", \"name\": \"Day %d\", \"pattern\": \"apron\", "
            "\"bag\": \"demo\", \"games\": %d, \"certified\": true}\n",
            day, GAMES);
    fclose(file);
    if (!files_event(name, &event, &error) || !files_bag(event.bag, &bag, &error) ||
        !files_pattern(event.pattern, &pattern, &error))
        exit(1);
    session_begin(session, &event, &bag, &pattern, &first);
    Journal *journal = journal_open(session, notice, sizeof notice, &error);
    while (journal && !(session->game == GAMES && session->game_over)) {
        Entry entry = {.kind = ENTRY_SHOT, .shot = session_next_shot(session)};
        entry.shot.hit = HIT_FLUSH;
        entry.shot.left_said = true;
        if (!session_apply(session, &entry) || !journal_append(journal, &entry, &error))
            exit(1);
    }
    if (!journal || journal_close(journal) != 0)
        exit(1);
    free(session);
}

static void play_days(const char *home)
{
    char folder[HOME_MAX + 32];
    snprintf(folder, sizeof folder, "%s/settee", home);
    mkdir(folder, 0700);
    snprintf(folder, sizeof folder, "%s/settee/events", home);
    mkdir(folder, 0700);
    setenv("XDG_CONFIG_HOME", home, 1);
    setenv("XDG_DATA_HOME", home, 1);
    for (int day = 1; day <= DAYS; day++)
        play_day(home, day);
}

static void run_child(const char *path, const char *home, bool played, int master)
{
    static const char *const NAMES[] = {"HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME",
                                        "XDG_STATE_HOME"};
    char homes[4][HOME_MAX + 20];
    char *env[] = {homes[0],
                   homes[1],
                   homes[2],
                   homes[3],
                   "PATH=/usr/bin:/bin",
                   "LC_ALL=C.UTF-8",
                   "TERM=xterm-256color",
                   NULL};
    bool ours = strcmp(path, SETTEE_BINARY) == 0;
    char last[16];
    char *const arguments[] = {(char *)path, played ? last : ours ? "demo" : NULL, NULL};
    snprintf(last, sizeof last, "day-%d", DAYS);
    for (int i = 0; i < 4; i++)
        snprintf(homes[i], sizeof homes[i], "%s=%s", NAMES[i], home);
    setsid();
    int slave = open(ptsname(master), O_RDWR);
    ioctl(slave, TIOCSCTTY, 0);
    for (int i = 0; i < 3; i++)
        dup2(slave, i);
    close(master);
    execve(path, arguments, env);
    _exit(127);
}

/* All three draw from the top down, and have something to show above their last row. */
static bool is_full(VTermScreen *screen)
{
    char text[COLUMNS * 4 + 1];
    VTermRect row = {
        .start_row = ROWS - 2, .end_row = ROWS - 1, .start_col = 0, .end_col = COLUMNS};
    size_t size = vterm_screen_get_text(screen, text, sizeof text, row);
    for (size_t i = 0; i < size; i++)
        if (text[i] != ' ' && text[i] != '\0')
            return true;
    return false;
}

/* Milliseconds to the first full screen; less than 0: it never came. */
static double first_screen(const char *path, const char *home, bool played)
{
    int master = posix_openpt(O_RDWR | O_NOCTTY);
    struct winsize size = {.ws_col = COLUMNS, .ws_row = ROWS};
    if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0)
        return -1.0;
    ioctl(master, TIOCSWINSZ, &size);
    VTerm *vt = vterm_new(ROWS, COLUMNS);
    vterm_set_utf8(vt, 1);
    VTermScreen *screen = vterm_obtain_screen(vt);
    vterm_screen_enable_altscreen(screen, 1);
    vterm_screen_reset(screen, 1);
    double begun = now_ms(), ms = -1.0;
    pid_t pid = fork();
    if (pid == 0)
        run_child(path, home, played, master);
    while (pid > 0 && ms < 0.0) {
        char bytes[16384];
        struct pollfd fd = {.fd = master, .events = POLLIN};
        ssize_t n = poll(&fd, 1, GIVE_UP_MS) > 0 ? read(master, bytes, sizeof bytes) : 0;
        if (n <= 0)
            break;
        double at = now_ms();
        vterm_input_write(vt, bytes, (size_t)n);
        if (is_full(screen))
            ms = at - begun;
    }
    if (pid > 0) {
        kill(pid, SIGKILL);
        waitpid(pid, NULL, 0);
    }
    vterm_free(vt);
    close(master);
    return ms;
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

static bool measure(Program *program, int run)
{
    if (run == 0 || !program->goes_on) {
        snprintf(program->home, sizeof program->home, "/tmp/settee-bench-XXXXXX");
        if (!mkdtemp(program->home))
            return false;
    }
    if (run == 0 && program->played)
        play_days(program->home);
    if (run == 0 && program->goes_on) /* there must be something to go on with */
        first_screen(program->path, program->home, program->played);
    program->ms[run] = first_screen(program->path, program->home, program->played);
    if (run == RUNS - 1 || !program->goes_on)
        remove_tree(program->home);
    return program->ms[run] >= 0.0;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

int main(int argc, char **argv)
{
    Program programs[PROGRAMS_MAX] = {
        {.name = "settee, a new event", .path = SETTEE_BINARY},
        {.name = "settee, one that goes on", .path = SETTEE_BINARY, .goes_on = true},
        {.name = "settee, after ten events",
         .path = SETTEE_BINARY,
         .goes_on = true,
         .played = true},
        {.name = "vi", .path = "/usr/bin/vi"},
        {.name = "nano", .path = "/usr/bin/nano"}};
    int count = 5;
    for (int i = 1; i < argc && count < PROGRAMS_MAX; i++)
        programs[count++] = (Program){.name = argv[i], .path = argv[i]};
    for (int run = 0; run < RUNS; run++)
        for (int i = 0; i < count; i++)
            if (access(programs[i].path, X_OK) == 0 && !measure(&programs[i], run)) {
                printf("%s shows nothing\n", programs[i].name);
                return 1;
            }
    for (int i = 0; i < count; i++)
        qsort(programs[i].ms, RUNS, sizeof *programs[i].ms, by_size);
    double ours = programs[0].ms[RUNS / 2];
    for (int i = 0; i < count; i++) {
        if (access(programs[i].path, X_OK) != 0) {
            printf("%-26s not installed\n", programs[i].name);
            continue;
        }
        double median = programs[i].ms[RUNS / 2];
        printf("%-26s %6.1f ms to the first full screen (%.1f to %.1f)", programs[i].name, median,
               programs[i].ms[RUNS / 10], programs[i].ms[RUNS - 1 - RUNS / 10]);
        if (programs[i].path != programs[0].path)
            printf("; a new event takes %.2f times that, %+.1f ms", ours / median, ours - median);
        printf("\n");
    }
    return 0;
}
