/* model.c - reading the model. */
#include "ui/model.h"

#include <stddef.h>

/* Spread of the film estimate (share of the sheet) under which the lane counts as well known, and
 * over which as hardly known; assumed: a tenth of the film moves the hit by about a board. */
#define SURE_SD 0.07
#define UNSURE_SD 0.14
/* A first answer that leads by less pocket chance than this is a close call (assumed). */
#define CLOSE_LEAD 0.02

void model_init(Model *model, Session *session, const RuleSet *rules, const Theme *themes,
                int theme_count, const Glyphs *glyphs)
{
    *model = (Model){.session = session,
                     .rules = rules,
                     .themes = themes,
                     .theme_count = theme_count,
                     .glyphs = glyphs,
                     .columns = SCREEN_COLUMNS_MIN,
                     .rows = SCREEN_ROWS_MIN,
                     .lane = session->lane,
                     .typing = {.index = -1},
                     .thinking = true,
                     .paths_stale = true};
}

bool model_small(const Model *model)
{
    return model->columns < SCREEN_COLUMNS_MIN || model->rows < SCREEN_ROWS_MIN;
}

unsigned model_where(const Model *model)
{
    static const unsigned FIELDS[] = {
        [FIELD_HIT] = IN_HIT,     [FIELD_READ] = IN_READ,   [FIELD_RELEASE] = IN_RELEASE,
        [FIELD_LEAVE] = IN_LEAVE, [FIELD_SLOT] = IN_NUMBER, [FIELD_SPEED] = IN_NUMBER};
    if (model->mode == MODE_ASK)
        return IN_ASK;
    if (model_small(model))
        return IN_SMALL;
    switch (model->mode) {
    case MODE_ENTRY:
        return FIELDS[model->typing.field];
    case MODE_PICK:
        return IN_PICK;
    case MODE_HELP:
        return IN_HELP;
    default:
        return IN_LANE;
    }
}

Plan model_plan(const Model *model)
{
    return model->draft_on ? model->draft : model->session->plan[model->lane];
}

AdviceInput model_advice_input(const Model *model)
{
    const Session *session = model->session;
    return (AdviceInput){.bag = &session->bag,
                         .pattern = &session->pattern,
                         .rules = model->rules,
                         .shots = session->shots,
                         .shot_count = session->shot_count,
                         .lane = model->lane,
                         .plan = model_plan(model),
                         .game = session->game,
                         .frame = session->frame,
                         .bowlers_on_pair = session->event.bowlers_on_pair,
                         .certified = session->event.certified};
}

const Answer *model_answer(const Model *model, int index)
{
    if (!model->advised || index < 0 || index >= model->shown.answer_count)
        return NULL;
    return &model->shown.answers[index];
}

int model_sureness(const Model *model)
{
    const Answer *best = model_answer(model, 0), *next = model_answer(model, 1);
    if (!best)
        return -1;
    double sd = model->shown.lane.scale_sd;
    int sure = sd < SURE_SD ? 2 : sd < UNSURE_SD ? 1 : 0;
    if (best->disagrees && sure > 0)
        sure = 0;
    if (next && sure == 2 && best->pocket_after - next->pocket_after < CLOSE_LEAD)
        sure = 1;
    return sure;
}
