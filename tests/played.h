/* played.h - a home of the test's own: files in it, and events that were played there.
 *
 * The folders are HOME/config and HOME/data; both are in the environment of the test's process. */
#ifndef SETTEE_TESTS_PLAYED_H
#define SETTEE_TESTS_PLAYED_H

#include "near.h"

#include <ftw.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "store/files.h"
#include "store/journal.h"
#include "store/paths.h"

static char played_home[64];

static inline int played_begin(void **state)
{
    char path[96];
    (void)state;
    strcpy(played_home, "/tmp/settee-home-XXXXXX");
    if (!mkdtemp(played_home))
        return 1;
    setenv("HOME", played_home, 1);
    snprintf(path, sizeof path, "%s/config", played_home);
    setenv("XDG_CONFIG_HOME", path, 1);
    snprintf(path, sizeof path, "%s/data", played_home);
    return setenv("XDG_DATA_HOME", path, 1);
}

static inline int played_remove(const char *path, const struct stat *status, int kind,
                                struct FTW *walk)
{
    (void)status;
    (void)kind;
    (void)walk;
    return remove(path);
}

static inline int played_end(void **state)
{
    (void)state;
    return nftw(played_home, played_remove, 8, FTW_DEPTH | FTW_PHYS);
}

/* The absolute path of a file below the test's home; static, four at a time. */
static inline char *played_path(const char *below)
{
    static char paths[4][512];
    static int turn;
    turn = (turn + 1) % 4;
    snprintf(paths[turn], sizeof paths[turn], "%s/%s", played_home, below);
    return paths[turn];
}

static inline void played_write(const char *below, const char *text)
{
    char *path = played_path(below);
    Error error = {0};
    assert_true(paths_make_folders(path, &error));
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

/* A file's text, heap; NULL: it is not there. */
static inline char *played_read(const char *below)
{
    FILE *file = fopen(played_path(below), "rb");
    if (!file)
        return NULL;
    char *text = calloc(1, 1 << 16);
    assert_non_null(text);
    assert_true(fread(text, 1, (1 << 16) - 1, file) < (1 << 16) - 1);
    fclose(file);
    return text;
}

static inline void played_event(const char *below, const char *name, const char *date,
                                const char *pattern, const char *bag)
{
    char text[1024];
    snprintf(
        text, sizeof text,
        "{\"format\": \"settee-event/1\", \"name\": \"%s\", %s%s%s\"pattern\": \"%s\", \"bag\": "
        "\"%s\", \"pair\": [7, 8], \"games\": 4, \"certified\": true}\n",
        name, date ? "\"date\": \"" : "", date ? date : "", date ? "\", " : "", pattern, bag);
    played_write(below, text);
}

/* Two balls in slots 1 and 3, one in the locker. */
static inline void played_bag(const char *below, const char *bowler, const char *hand)
{
    char text[1024];
    snprintf(text, sizeof text,
             "{\"format\": \"settee-bag/1\", \"bowler\": {\"name\": \"%s\", \"hand\": \"%s\"}, "
             "\"balls\": [{\"id\": \"flint\", \"name\": \"Flint Basin\", \"slot\": 1}, "
             "{\"id\": \"moss\", \"name\": \"Moss Ferry\", \"slot\": 3}, "
             "{\"id\": \"husk\", \"name\": \"Husk Lamp\"}]}\n",
             bowler, hand);
    played_write(below, text);
}

static inline void played_load(const char *event, const char *bag, Session *session)
{
    static EventInfo info;
    static Bag balls;
    static Pattern pattern;
    Plan first = {.slot = 1, .stance = 25, .aim = 12};
    Error error = {0};
    if (!files_event(event, &info, &error) || (bag && !files_event_bag(bag, &info, &error)) ||
        !files_bag(info.bag, &balls, &error) || !files_pattern(info.pattern, &pattern, &error))
        fail_msg("%s: %s", error.file, error.text);
    session_begin(session, &info, &balls, &pattern, &first);
}

/* Goes on in the event as the screen does: each letter of `shots` is a first ball with the ball of
 * slot 1 (a capital: of slot 3): x a flush strike, s a spare of the 10 pin after a light hit, n a
 * nose hit that leaves 4 and 6, of which 6 stays, h a high hit whose leave was not seen, w a wide
 * one that leaves the head pin alone, m a flush strike of 19.2 mph, f a foul after which all ten
 * fall; t is a frame of which only "72" is known. `notice` (or NULL) receives what was told at the
 * start. */
static inline void played_shots(const char *event, const char *bag, const char *shots,
                                char notice[512])
{
    char unheard[512];
    Error error = {0};
    Session *session = calloc(1, sizeof *session);
    assert_non_null(session);
    played_load(event, bag, session);
    Journal *journal = journal_open(session, notice ? notice : unheard, 512, &error);
    if (!journal)
        fail_msg("%s: %s", error.file, error.text);
    for (; *shots; shots++) {
        Shot shot = session_next_shot(session);
        shot.slot = *shots >= 'a' ? 1 : 3;
        shot.release = RELEASE_GOOD;
        shot.left_said = true;
        switch (*shots | 0x20) {
        case 'x':
            shot.hit = HIT_FLUSH;
            shot.read = READ_ON_TIME;
            break;
        case 's':
            shot.hit = HIT_LIGHT;
            shot.left = pin_bit(10);
            shot.spare_said = true;
            break;
        case 'n':
            shot.hit = HIT_NOSE;
            shot.left = (Pins)(pin_bit(4) | pin_bit(6));
            shot.spare_said = true;
            shot.spare_left = pin_bit(6);
            break;
        case 'h':
            shot.hit = HIT_HIGH;
            shot.left_said = false;
            break;
        case 'p': /* a spare as s, thrown otherwise than usual and watched on its way */
            shot.hit = HIT_LIGHT;
            shot.left = pin_bit(10);
            shot.spare_said = true;
            shot.mph_change = 0.5;
            shot.rotation_change_deg = -10.0;
            shot.arrows = 12.5;
            shot.breakpoint = 7.0;
            break;
        case 'w':
            shot.hit = HIT_WIDE;
            shot.left = pin_bit(1);
            break;
        case 'm': /* a strike that the monitor showed */
            shot.hit = HIT_FLUSH;
            shot.mph = 19.2;
            break;
        case 'f':
            shot.hit = HIT_FLUSH;
            shot.foul = shot.spare_said = true;
            break;
        case 't':
            break;
        default:
            fail_msg("no such shot");
        }
        Entry entry = {.kind = ENTRY_SHOT, .lane = shot.lane, .shot = shot};
        if ((*shots | 0x20) == 't')
            entry = (Entry){.kind = ENTRY_FRAME,
                            .lane = shot.lane,
                            .index = session->shot_count,
                            .balls = "72"};
        assert_true(session_apply(session, &entry));
        assert_true(journal_append(journal, &entry, &error));
    }
    journal_close(journal);
    free(session);
}

#endif
