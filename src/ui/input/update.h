/* update.h - what the files of update() share; for them alone. */
#ifndef SETTEE_UI_INPUT_UPDATE_H
#define SETTEE_UI_INPUT_UPDATE_H

#include "ui/model.h"

/* Where the steps of a key stop: past these no one can stand or aim. */
#define STANCE_MIN 1.0
#define STANCE_MAX 50.0
#define AIM_MIN 1.0
#define AIM_MAX 39.0

void say(Model *model, Role role, const char *text);
void refuse(Model *model, Effects *effects, const char *why); /* says it, and the bell */
void reckon(Model *model, Effects *effects);                  /* advice and paths are stale */
double bounded(double value, double low, double high);
double left_is(const Model *model);

bool enter(Model *model, Effects *effects, const Entry *entry);
bool enter_plan(Model *model, Effects *effects, Plan plan);
bool enter_draft(Model *model, Effects *effects);

/* Actions by the state they belong to. Each returns false when the action is not of its kind. */
bool do_shot(Model *model, Effects *effects, CommandId id, uint32_t key);
bool do_plan(Model *model, Effects *effects, CommandId id, uint32_t key);
bool do_spares(Model *model, Effects *effects, CommandId id, uint32_t key);
bool do_bag(Model *model, Effects *effects, CommandId id, uint32_t key);

void ask(Model *model, Question question);
void remove_ball(Model *model, Effects *effects); /* the chosen one, once that was asked */
void begin_edit(Model *model);                    /* of the shot that MODE_PICK has chosen */
void last_spare(Model *model, Effects *effects, bool made);
void bring_spare(Model *model);

#endif
