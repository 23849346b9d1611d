/* home_stage.c - the welcome and Home as a stage. */
#include <stdlib.h>

#include "base/text.h"
#include "ui/home/home_model.h"
#include "ui/ui.h"

typedef struct HomeStage {
    Stage stage;
    Home *home;
} HomeStage;

static void take_size(Stage *stage, int columns, int rows)
{
    Home *home = ((HomeStage *)stage)->home;
    home->columns = columns;
    home->rows = rows;
    stage->draw = true;
}

/* A bit of what the events say; false: all is known. */
static bool learn(Stage *stage, bool again)
{
    const HomeHost *host = ((HomeStage *)stage)->home->host;
    return host->files->learn && host->files->learn(host->context, again);
}

static void take_key(Stage *stage, uint32_t key)
{
    Home *home = ((HomeStage *)stage)->home;
    home_key(home, key);
    stage->draw = true;
    stage->all = stage->all || home->all;
    stage->bell = home->bell;
    stage->end = home->over;
    home->all = home->bell = false;
    if (home->learn_again)
        stage->busy = learn(stage, true);
    home->learn_again = false;
}

/* Between keys: what the events say of the bags. */
static void take_step(Stage *stage)
{
    stage->busy = learn(stage, false);
    stage->draw = stage->draw || !stage->busy;
}

static void take_notice(Stage *stage, const char *line)
{
    Home *home = ((HomeStage *)stage)->home;
    text_clean(home->message, sizeof home->message, line);
    home->message_role = ROLE_WARN;
    stage->draw = true;
}

static void draw(Stage *stage, Canvas *canvas) { home_draw(((HomeStage *)stage)->home, canvas); }

static const StageKind HOME_STAGE = {
    .size = take_size, .key = take_key, .notice = take_notice, .step = take_step, .draw = draw};

StageEnd ui_home(HomeHost *host, Error *error)
{
    HomeStage stage = {.stage = {.kind = &HOME_STAGE, .look = host->look},
                       .home = malloc(sizeof(Home))};
    if (!stage.home)
        return error_set(error, "not enough memory"), STAGE_FAILED;
    home_begin(stage.home, host);
    stage.stage.busy = learn(&stage.stage, true);
    StageEnd end = stage_run(&stage.stage, error);
    free(stage.home);
    return end;
}
