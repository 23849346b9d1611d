/* app_teach.c - the lessons' screen: what is loaded for it, and where what juniors did is saved. */
#include <stdlib.h>
#include <time.h>

#include "app/app.h"
#include "store/juniors.h"

enum { LESSONS_MAX = 256 };

/* What the screen works on; large. */
typedef struct Schoolroom {
    int lesson_count;
    Lesson lessons[LESSONS_MAX];
    Juniors juniors;
    Bag bag;
} Schoolroom;

static bool read_patterns(void *context, const Lesson *lesson, Pattern *pattern, Pattern *learned,
                          Error *error)
{
    (void)context;
    return files_pattern(lesson->pattern, pattern, error) &&
           files_pattern(lesson->learned[0] ? lesson->learned : lesson->pattern, learned, error);
}

static bool keep_juniors(void *context, const Juniors *juniors, Error *error)
{
    (void)context;
    return juniors_write(juniors, error);
}

/* A lesson with faults is reported and left out. */
static void load_lessons(App *app, Schoolroom *room)
{
    FileName names[LESSONS_MAX];
    int count = files_names("lessons", names, LESSONS_MAX);
    for (int i = 0; i < count; i++) {
        Error error = {0};
        if (files_lesson(names[i].name, &room->lessons[room->lesson_count], &error))
            room->lesson_count++;
        else
            app_note(app, "", &error);
    }
    lessons_sort(room->lessons, room->lesson_count);
}

static bool show(App *app, Schoolroom *room, const char *bag, StageEnd *end, Error *error)
{
    Error broken = {0};
    if (bag && !files_bag(bag, &room->bag, error))
        return false;
    load_lessons(app, room);
    bool usable = juniors_read(&room->juniors, &broken);
    if (!usable) /* never overwrite it */
        app_note(app, "Nothing is kept: ", &broken);
    TeachHost host = {.look = &app->look,
                      .lessons = room->lessons,
                      .lesson_count = room->lesson_count,
                      .juniors = &room->juniors,
                      .bag = bag ? &room->bag : NULL,
                      .keys = &app->keys,
                      .notice = app->notice,
                      .seed = (uint64_t)time(NULL),
                      .patterns = read_patterns,
                      .keep = usable ? keep_juniors : NULL};
    if (!app_open(app, error))
        return false;
    *end = ui_teach(&host, error);
    app->notice[0] = '\0';
    return *end != STAGE_FAILED;
}

bool app_teach(App *app, const char *bag, StageEnd *end, Error *error)
{
    Schoolroom *room = calloc(1, sizeof *room);
    bool done = room ? show(app, room, bag, end, error) : error_set(error, "out of memory");
    free(room);
    return done;
}

int app_run_teach(const char *bag)
{
    App *app = app_new();
    Error error = {0};
    StageEnd end;
    if (app)
        app_look(app);
    bool done = app ? app_teach(app, bag, &end, &error) : error_set(&error, "out of memory");
    return app_end(app, done ? NULL : &error);
}
