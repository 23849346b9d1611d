/* test_soak.c - shot after shot with advice through the real program: the more there are, the
 * memory stays and so does the time from Enter to the screen; and idle, it does nothing.
 *
 * 60 shots and 2 idle seconds; SETTEE_SOAK=10000 is the whole of it, with a minute. Says what it
 * measured; asserts counts of pages and of processor ticks, and no time. */
#define _XOPEN_SOURCE 700
#include "near.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "helper_pty.h"

enum {
    SHOTS_FEW = 60,
    IDLE_FEW = 2,
    IDLE_LONG = 60,
    EVENT_SHOTS = 240, /* 24 games of ten frames */
    SHOTS_MAX = 100000,
    GROWTH_KIB = 1024 /* of the resident memory, from a tenth of an event to its end */
};

static double ms[SHOTS_MAX];
static char event[] = "/tmp/settee-soak-XXXXXX/long.json";

static int begin(void **state)
{
    (void)state;
    char *slash = strrchr(event, '/');
    *slash = '\0';
    if (!mkdtemp(event))
        return 1;
    *slash = '/';
    FILE *file = fopen(event, "w");
    if (!file)
        return 1;
    fputs("{\"format\": \"settee-event/1\", \"name\": \"Long day\", \"pattern\": \"apron\","
          " \"bag\": \"demo\", \"games\": 24, \"certified\": true}",
          file);
    return fclose(file);
}

static int end(void **state)
{
    (void)state;
    unlink(event);
    *strrchr(event, '/') = '\0';
    return rmdir(event);
}

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec * 1e-6;
}

/* A number behind a word of /proc/PID/status. */
static long status_of(const Pty *pty, const char *word)
{
    char path[64], line[256];
    long value = -1;
    snprintf(path, sizeof path, "/proc/%ld/status", (long)pty->pid);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file))
        if (strncmp(line, word, strlen(word)) == 0)
            value = strtol(line + strlen(word) + 1, NULL, 10);
    fclose(file);
    return value;
}

/* Ticks of the processor, in the program and in the system for it. */
static long ticks_of(const Pty *pty)
{
    char path[64], line[1024];
    unsigned long user, system;
    snprintf(path, sizeof path, "/proc/%ld/stat", (long)pty->pid);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    assert_non_null(fgets(line, sizeof line, file));
    fclose(file);
    assert_int_equal(sscanf(strrchr(line, ')'),
                            ") %*c %*d %*d %*d %*d %*d %*u %*u %*u %*u %*u %lu %lu", &user,
                            &system),
                     2);
    return (long)(user + system);
}

/* Types the shot; the time until the screen has it; then waits for all answers. */
static double shot_ms(Pty *pty, int shot)
{
    static const char *const SEEN[] = {"heg4\r", "fogx\r", "hog6\r", "log0\r", "feg7\r"};
    char row[2][24]; /* of the frame in the list of shots */
    snprintf(row[0], sizeof row[0], "%2dL 2 ", (shot - 1) % 10 + 1);
    snprintf(row[1], sizeof row[1], "%2dR 2 ", (shot - 1) % 10 + 1);
    double begun = now_ms();
    pty_type(pty, SEEN[shot % 5]);
    pty_expect_either(pty, row[0], row[1]);
    double took = now_ms() - begun;
    pty_expect_gone(pty, "calculating");
    return took;
}

/* One event in a process of its own. Returns how much its memory grew after a tenth of it. */
static long play(int first, int count, int idle)
{
    Pty pty;
    long early = 0;
    pty_start_event(&pty, 80, 24, event);
    pty_expect(&pty, "q quit");
    pty_expect_gone(&pty, "calculating");
    for (int shot = 1; shot <= count; shot++) {
        ms[first + shot - 1] = shot_ms(&pty, shot);
        if (shot == (count + 9) / 10)
            early = status_of(&pty, "VmRSS:");
    }
    long late = status_of(&pty, "VmRSS:");
    if (idle > 0) {
        pty_quiet(&pty);
        long ticks = ticks_of(&pty), switches = status_of(&pty, "voluntary_ctxt_switches:");
        sleep((unsigned)idle);
        ticks = ticks_of(&pty) - ticks;
        switches = status_of(&pty, "voluntary_ctxt_switches:") - switches;
        print_message("idle for %d s: %ld ticks, %ld switches\n", idle, ticks, switches);
        assert_true(ticks <= 1);
        assert_true(switches <= 2);
    }
    print_message("%d shots: %ld KiB after a tenth, %ld at the end\n", count, early, late);
    pty_end(&pty);
    return late - early;
}

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The median over all events of their first tenth of shots, or of their last. */
static double median_ms(int total, bool last)
{
    static double some[SHOTS_MAX];
    int count = 0;
    for (int at = 0; at < total; at++) {
        int in_event = at % EVENT_SHOTS;
        int size = total - (at - in_event) < EVENT_SHOTS ? total - (at - in_event) : EVENT_SHOTS;
        if (last ? in_event >= size - size / 10 : in_event < size / 10)
            some[count++] = ms[at];
    }
    qsort(some, (size_t)count, sizeof *some, by_size);
    return some[count / 2];
}

static void nothing_grows(void **state)
{
    (void)state;
    const char *said = getenv("SETTEE_SOAK");
    int total = said ? atoi(said) : SHOTS_FEW;
    assert_in_range(total, 20, SHOTS_MAX);
    for (int done = 0; done < total; done += EVENT_SHOTS) {
        int count = total - done < EVENT_SHOTS ? total - done : EVENT_SHOTS;
        int idle = done > 0 ? 0 : said ? IDLE_LONG : IDLE_FEW;
        long grown = play(done, count, idle);
        if (grown > GROWTH_KIB)
            fail_msg("the memory grew by %ld KiB", grown);
    }
    double early = median_ms(total, false), late = median_ms(total, true);
    print_message("Enter to the screen: median %.1f ms in the first tenth of an event, %.1f in the "
                  "last: %.2f times\n",
                  early, late, late / early);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(nothing_grows)};
    return cmocka_run_group_tests_name("soak", tests, begin, end);
}
