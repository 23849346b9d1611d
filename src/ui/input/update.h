/* update.h - shared by the files of update(), and only for them. commands.h declares what keys do.
 */
#ifndef SETTEE_UI_INPUT_UPDATE_H
#define SETTEE_UI_INPUT_UPDATE_H

#include "ui/input/commands.h"
#include "ui/model.h"

/* The functions of the keys share one signature; few need all of it. */
#pragma GCC diagnostic ignored "-Wunused-parameter"

/* Where the steps of a key stop: beyond these nobody can stand or aim. */
#define STANCE_MIN 1.0
#define STANCE_MAX 50.0
#define AIM_MIN 1.0
#define AIM_MAX 39.0

void update_say(Model *model, Role role, const char *text);
void update_refuse(Model *model, Effects *effects, const char *why); /* says it, and the bell */
void update_prompt(Model *model, Prompt prompt);                     /* asks yes or no */

/* The question has changed: its answers are outdated from now on. */
void update_ask_advice(Model *model, Effects *effects);
void update_ask_paths(Model *model);
void update_ask_spare(Model *model);
void update_ask_arsenal(Model *model, Effects *effects);
void update_ask_block(Model *model, Effects *effects);

double update_bounded(double value, double low, double high);
/* What a step does to a board, for a key that points to the left or right of the screen: + toward
 * the bowler's other side. */
double update_step(const Model *model, uint32_t key);
Pins update_pin(uint32_t key);
/* Stands it up, or knocks it down; a 0 right after a 1 makes the two the ten pin. */
void update_toggle_pin(const Model *model, Pins *pins, uint32_t key); /* of a digit; 0 is the 10 */

/* Enters one change. False: the session refuses it, and the reason is shown. */
bool update_enter(Model *model, Effects *effects, const Entry *entry);
bool update_enter_plan(Model *model, Effects *effects, Plan plan);
/* Whether entries and edits may be made at all; says why not. */
bool update_may_write(Model *model, Effects *effects);
/* Moves of feet and aim become one entry once the bowler does something else. */
bool update_enter_draft(Model *model, Effects *effects);

void update_roll(Model *model, const Roll *roll, double ft); /* the ball has come so far */
/* What was seen of it, entered as a typed shot is; `last`: practice is over. */
void update_seen(Model *model, Effects *effects, const Shot *shot, bool last);

/* Takes the event over as another program has it now. */
void update_follow(Model *model, Effects *effects, const Session *now);
void update_suppose(Model *model, Effects *effects); /* asks for the answers to the typed shot */
void update_change(Model *model, Effects *effects);  /* in the log: what was asked for */
void update_last_spare(Model *model, Effects *effects, bool made);
void update_bag_changed(Model *model, Effects *effects); /* the session's, by whatever */
bool update_log_at_end(Model *model); /* whether the latest row of the log is chosen */
void update_log_to_end(Model *model);
void update_remove_ball(Model *model, Effects *effects); /* the chosen one, after asking */

#endif
