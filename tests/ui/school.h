/* school.h - the lessons' stage on a terminal made of functions (fake_term.h): keys are typed when
 * it waits for one. For one test program each. */
#ifndef SETTEE_TESTS_UI_SCHOOL_H
#define SETTEE_TESTS_UI_SCHOOL_H

#include "near.h"

#include <signal.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/builtin.h"
#include "store/files.h"
#include "ui/fake_term.h"
#include "ui/ui.h"

static struct {
    const uint32_t *keys; /* 0 ends */
    bool idle, over;
    int steps; /* turns that did not wait */
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

static void school_wait(int milliseconds)
{
    bool tick = milliseconds > 0;
    school.clock_ms += tick ? milliseconds : 0;
    school.ticks = tick ? school.ticks + 1 : 0;
    school.idle = milliseconds < 0 || (tick && school.ticks == school.patience);
    school.steps += !school.idle;
}

static uint32_t school_key(void)
{
    if (!school.idle)
        return PRESS_NONE;
    school.idle = false;
    if (*school.keys)
        return *school.keys++;
    school.over = true;
    return PRESS_NONE;
}

static int school_ending(void) { return school.over ? SIGTERM : 0; }
static long school_clock(void) { return 1 + school.clock_ms; }

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
    fake_forget();
    memset(&school, 0, sizeof school);
    fake.columns = columns;
    fake.rows = rows;
    fake.key = school_key;
    fake.ending = school_ending;
    fake.clock = school_clock;
    fake.wait = school_wait;
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
    fake.still = !school.moves;
    school.look.still = false; /* as nobody has chosen */
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
