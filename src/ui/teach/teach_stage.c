/* teach_stage.c - the lessons as a stage: the lane and the throws are computed here, a bit at a
 * time. */
#include <math.h>
#include <stdlib.h>

#include "base/text.h"
#include "ui/draw/rolling.h"
#include "ui/input/bound.h"
#include "ui/teach/teach_model.h"
#include "ui/ui.h"

enum { DRAWS_MOST = 20 /* of a question that holds */ };

typedef struct TeachStage {
    Stage stage;
    TeachHost *host;
    Bound bound; /* the event's own keys */
    TeachModel model;
    TeachScene scene;
    Bag own; /* the lesson's */
    Pattern pattern, learned;
    bool setting, fresh; /* a lane is to be prepared, for a question drawn now */
    int draws;           /* of the question so far */
    int rolling;         /* the choice whose throws come next; -1: none */
} TeachStage;

static void keep(TeachStage *teach)
{
    Error error = {0};
    char line[ERROR_LINE_MAX];
    if (!teach->host->keep || teach->host->keep(teach->host->context, teach->host->juniors, &error))
        return;
    error_line(&error, line, sizeof line);
    teach_say(&teach->model, ROLE_BAD, line);
}

static void take(TeachStage *teach, TeachEffects effects)
{
    Stage *stage = &teach->stage;
    stage->draw = stage->draw || effects.draw;
    stage->bell = stage->bell || effects.bell;
    stage->end = stage->end || effects.end;
    if (effects.theme)
        stage->look->theme = teach->model.theme;
    if (effects.motion)
        stage->look->still = teach->model.still;
    if (effects.keep)
        keep(teach);
    if (effects.set) {
        teach->setting = true;
        teach->fresh = effects.fresh;
        teach->draws = 0;
    }
    if (effects.roll)
        teach->rolling = 0;
    if (teach->model.view < TEACH_LESSON) { /* left before it was ready */
        teach->setting = false;
        teach->rolling = -1;
    }
    stage->tick_ms = teach_on_its_way(&teach->model) ? ROLLING_FRAME_MS : 0;
    stage->busy = teach->setting || teach->rolling >= 0;
}

/* On the reader's own bag if it can show the lesson, and the engine bears it out there. */
static bool set_with(TeachStage *teach, const Bag *bag, bool check, Error *error)
{
    TeachInput input = {&teach->model.lesson, bag, &teach->pattern, &teach->learned};
    TeachCheck checked;
    return teach_scene(&input, &teach->scene, error) &&
           (!check || teach_check(&teach->scene, &checked, error));
}

static bool holds_for(const Lesson *lesson, bool hook)
{
    return hook ? lesson->hook : lesson->straight;
}

static TeachEffects set(TeachStage *teach)
{
    TeachModel *model = &teach->model;
    const Junior *junior = teach_junior(model);
    const Bag *bag = teach->host->bag;
    Lesson *lesson = &model->lesson;
    Error error = {0};
    bool hook = bag ? teach_hooks(bag) : junior->hook;
    if (lesson->kind != LESSON_SCORE &&
        !teach->host->patterns(teach->host->context, lesson, &teach->pattern, &teach->learned,
                               &error))
        return teach_refused(model, error.text);
    if (bag && holds_for(lesson, hook) && set_with(teach, bag, true, &error))
        return teach_set(model, &teach->scene, false, "");
    bool own = !holds_for(lesson, junior->hook);
    teach_own_bag(own ? !junior->hook : junior->hook, junior->hand, &teach->own);
    error = (Error){0};
    if (set_with(teach, &teach->own, true, &error))
        return teach_set(model, &teach->scene, own || bag, "");
    char doubt[sizeof model->message] = "The engine doesn't bear this lesson out: ";
    text_append(doubt, sizeof doubt, "%s", error.text);
    if (set_with(teach, &teach->own, false, &error))
        return teach_set(model, &teach->scene, own || bag, doubt);
    return teach_refused(model, error.text);
}

/* The next draw of a level's question; false: it doesn't hold for this reader, so another. */
static bool draw_question(TeachStage *teach, TeachEffects *effects)
{
    TeachModel *model = &teach->model;
    const Junior *junior = teach_junior(model);
    Error error = {0};
    quiz_draw(model->items[model->item].level, junior->hook,
              model->seed * 1000u + (uint64_t)junior->play_count * 50u + (uint64_t)teach->draws,
              &model->lesson);
    teach->draws++;
    if (teach->host->patterns(teach->host->context, &model->lesson, &teach->pattern,
                              &teach->learned, &error)) {
        teach_own_bag(junior->hook, junior->hand, &teach->own);
        if (set_with(teach, &teach->own, true, &error)) {
            *effects = teach_set(model, &teach->scene, false, "");
            return true;
        }
    }
    if (teach->draws < DRAWS_MOST)
        return false;
    *effects = teach_refused(model, error.text);
    return true;
}

static void roll_choice(TeachStage *teach, int choice)
{
    TeachCloud *cloud = &teach->model.cloud[choice];
    cloud->good = 0;
    teach_throws(&teach->scene, choice, TEACH_SHOWN, cloud->balls);
    for (int i = 0; i < TEACH_SHOWN; i++) {
        Roll roll;
        teach_path(&teach->scene, choice, i, &roll);
        cloud->good += cloud->balls[i].good;
        for (int k = 0; k < TEACH_PATH_POINTS; k++) {
            int at = k * (ROLL_POINTS_MAX - 1) / (TEACH_PATH_POINTS - 1);
            cloud->board[i][k] = at < roll.count ? (float)roll.path[at].board : NAN;
        }
    }
    cloud->ready = true;
}

static void step(Stage *stage)
{
    TeachStage *teach = (TeachStage *)stage;
    TeachEffects effects = {0};
    if (teach->setting) {
        bool done = true;
        if (teach->fresh)
            done = draw_question(teach, &effects);
        else
            effects = set(teach);
        teach->setting = !done;
    } else if (teach->rolling >= 0) {
        roll_choice(teach, teach->rolling++);
        if (teach->rolling == teach->model.lesson.choice_count) {
            teach->rolling = -1;
            effects = teach_rolled(&teach->model);
        }
    }
    take(teach, effects);
}

static void take_size(Stage *stage, int columns, int rows)
{
    TeachStage *teach = (TeachStage *)stage;
    teach->model.columns = columns;
    teach->model.rows = rows;
    stage->draw = true;
}

static void take_key(Stage *stage, uint32_t key)
{
    TeachStage *teach = (TeachStage *)stage;
    stage->all = key == PRESS_REDRAW;
    stage->draw = stage->draw || stage->all;
    take(teach, teach_key(&teach->model, key));
}

static void take_notice(Stage *stage, const char *line)
{
    TeachStage *teach = (TeachStage *)stage;
    teach_say(&teach->model, ROLE_WARN, line);
    stage->draw = true;
}

static void take_tick(Stage *stage, int milliseconds)
{
    TeachStage *teach = (TeachStage *)stage;
    take(teach, teach_pass(&teach->model, milliseconds));
}

static void draw(Stage *stage, Canvas *canvas)
{
    teach_draw(&((TeachStage *)stage)->model, canvas);
}

static const StageKind TEACH_STAGE = {.size = take_size,
                                      .key = take_key,
                                      .notice = take_notice,
                                      .step = step,
                                      .tick = take_tick,
                                      .draw = draw};

StageEnd ui_teach(TeachHost *host, Error *error)
{
    TeachStage *teach = calloc(1, sizeof *teach);
    if (!teach)
        return error_set(error, "not enough memory"), STAGE_FAILED;
    teach->stage = (Stage){.kind = &TEACH_STAGE, .look = host->look};
    teach->host = host;
    teach->rolling = -1;
    teach_model_init(&teach->model, host->lessons, host->lesson_count, host->juniors,
                     host->look->glyphs);
    teach->model.search.event = bound_table(&teach->bound, host->keys);
    teach->model.theme = host->look->theme;
    teach->model.theme_count = host->look->theme_count;
    teach->model.seed = host->seed;
    teach->model.still = host->look->still;
    teach->model.still_fixed = host->look->still_fixed;
    if (host->notice && host->notice[0])
        take_notice(&teach->stage, host->notice);
    StageEnd end = stage_run(&teach->stage, error);
    free(teach);
    return end;
}
