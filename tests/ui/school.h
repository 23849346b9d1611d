/* school.h - the lessons' stage on a terminal made of functions: keys are typed when it waits for
 * one, and the last screen is kept as text. For one test program each, since it stands in the place
 * of the terminal. */
#ifndef SETTEE_TESTS_UI_SCHOOL_H
#define SETTEE_TESTS_UI_SCHOOL_H

#include "near.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/builtin.h"
#include "store/files.h"
#include "ui/input/keys.h"
#include "ui/term/term.h"
#include "ui/ui.h"

static struct {
    int columns, rows;
    const uint32_t *keys; /* 0 ends */
    bool idle, over;
    int draws, bells, steps; /* steps: turns that did not wait */
    char *screen;            /* as last drawn, heap */
    Theme plain;
    StageLook look;
    int lesson_count, kept; /* kept: how often the juniors were saved */
    Lesson lessons[64];
    Juniors juniors;
    const Bag *bag;
    bool refuses; /* to save */
    bool moves;   /* motion is on: */
    int patience; /* ticks of a rolling ball before a key comes; 0: when it has stopped */
    int ticks;
    long clock_ms;
} school;

bool term_there(char *why, unsigned long size)
{
    (void)why;
    (void)size;
    return true;
}

bool term_init(char *why, unsigned long size)
{
    (void)why;
    (void)size;
    return true;
}

void term_fini(void) {}
void term_release(void) {}
static bool ascii_only;
bool term_utf8(void) { return !ascii_only; }
bool term_no_colour(void) { return false; }
bool term_still(void) { return !school.moves; }
long term_clock_ms(void) { return 1 + school.clock_ms; }
void term_theme(const Theme *theme) { (void)theme; }
void term_bell(void) { school.bells++; }
bool term_resized(void) { return false; }
int term_ending(void) { return school.over ? SIGTERM : 0; }

void term_size(int *columns, int *rows)
{
    *columns = school.columns;
    *rows = school.rows;
}

void term_draw(const Canvas *canvas, bool all)
{
    (void)all;
    size_t size = canvas_plain(canvas, NULL, 0) + 1;
    assert_int_equal(canvas->spilled, 0);
    free(school.screen);
    school.screen = malloc(size);
    assert_non_null(school.screen);
    canvas_plain(canvas, school.screen, size);
    school.draws++;
}

void term_wait(int milliseconds)
{
    bool tick = milliseconds > 0;
    school.clock_ms += tick ? milliseconds : 0;
    school.ticks = tick ? school.ticks + 1 : 0;
    school.idle = milliseconds < 0 || (tick && school.ticks == school.patience);
    school.steps += !school.idle;
}

uint32_t term_key(void)
{
    if (!school.idle)
        return PRESS_NONE;
    school.idle = false;
    if (*school.keys)
        return *school.keys++;
    school.over = true;
    return PRESS_NONE;
}

static bool school_patterns(void *context, const Lesson *lesson, Pattern *pattern, Pattern *learned,
                            Error *error)
{
    (void)context;
    return files_pattern(lesson->pattern, pattern, error) &&
           files_pattern(lesson->learned[0] ? lesson->learned : lesson->pattern, learned, error);
}

static bool school_keep(void *context, const Juniors *juniors, Error *error)
{
    (void)context;
    (void)juniors;
    school.kept++;
    return school.refuses ? error_set(error, "the disk is full") : true;
}

/* Nobody yet, and every built-in lesson. */
static void school_begin(int columns, int rows)
{
    free(school.screen);
    memset(&school, 0, sizeof school);
    school.columns = columns;
    school.rows = rows;
    school.plain = theme_plain();
    school.look = (StageLook){.themes = &school.plain, .theme_count = 1};
    for (const BuiltinFile *file = BUILTIN_FILES; file->kind; file++) {
        Error error = {0};
        if (strcmp(file->kind, "lessons") == 0)
            assert_true(files_lesson(file->id, &school.lessons[school.lesson_count++], &error));
    }
    lessons_sort(school.lessons, school.lesson_count);
}

/* Runs the stage from its start, types these keys, and leaves the last screen. */
static StageEnd school_keys(const uint32_t *keys)
{
    Error error = {0};
    TeachHost host = {.look = &school.look,
                      .lessons = school.lessons,
                      .lesson_count = school.lesson_count,
                      .juniors = &school.juniors,
                      .bag = school.bag,
                      .notice = "",
                      .seed = 7,
                      .patterns = school_patterns,
                      .keep = school_keep};
    school.keys = keys;
    school.idle = true;
    school.over = false;
    assert_true(stage_open(&school.look, &error));
    StageEnd end = ui_teach(&host, &error);
    stage_close();
    return end;
}

/* The same, with characters as keys: \r Enter, ^ up, v down, < left, ~ Esc, the rest themselves. */
static StageEnd school_type(const char *typed)
{
    static uint32_t keys[256];
    size_t count = 0;
    for (; typed[count] && count < 255; count++)
        keys[count] = typed[count] == '^'   ? PRESS_UP
                      : typed[count] == 'v' ? PRESS_DOWN
                      : typed[count] == '<' ? PRESS_LEFT
                      : typed[count] == '~' ? PRESS_ESC
                                            : (unsigned char)typed[count];
    keys[count] = 0;
    return school_keys(keys);
}

#endif
