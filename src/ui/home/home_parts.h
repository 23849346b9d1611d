/* home_parts.h - shared by home_update.c, home_fill.c and home_sheet.c. */
#ifndef SETTEE_UI_HOME_HOME_PARTS_H
#define SETTEE_UI_HOME_HOME_PARTS_H

#include "ui/home/home_keys.h"

/* The functions of the keys share one signature; few need all of it. */
#pragma GCC diagnostic ignored "-Wunused-parameter"

void home_say(Home *home, Role role, const char *text);
void home_refuse(Home *home, const char *why); /* says it, with the bell */
int home_step(uint32_t key);                   /* of an arrow: -1 or 1 */
void home_ask(Home *home, HomeAsk ask);

/* Reads a list again; the chosen file stays chosen. */
void home_refresh(Home *home, HomeKind kind);
void home_go(Home *home, HomeMode mode);
/* To the list of that kind, at that file ("": as it was), or to the welcome. */
void home_to_list(Home *home, HomeKind kind, const char *name);

/* From the welcome or the list: what a new event needs first, the bowler and the balls or, where
 * there is a bag, the event's form; or a new bag alone. */
void home_start(Home *home);
void home_new_bag(Home *home);
bool home_edit_bag(Home *home, const char *name); /* false after saying why not */

void home_open_form(Home *home, HomeForm which, const FormKind *kind, int row);
bool home_take_field(Home *home); /* what was typed; false after saying why not */

/* A sheet: opened, a built-in one as a copy; its reading opened; its picture as it is typed; kept;
 * left. */
void home_sheet_edit(Home *home, const HomeItem *item);
void home_reading(Home *home);
void home_sheet_look(Home *home);
Sheet home_sheet_typed(const Home *home); /* with the row being typed */
void home_sheet_rows(Home *home);         /* rows come and go as it is typed */
void home_sheet_done(Home *home);
void home_reading_done(Home *home);
void home_sheet_leave(Home *home);
void home_reading_leave(Home *home);
void home_keep_bag(Home *home); /* a new one once there is a ball in it */

void home_new_event(Home *home);

/* A form begins: of which file, and what in it. A field was taken, as typed, or "don't know"; kept
 * at the end of each key; dropped when the form is done or left. Offered at the start, and gone on
 * with. */
void home_draft_begin(Home *home, DraftForm form, const char *of, const char *part);
void home_draft_note(Home *home, int row, const char *value);
void home_draft_unknown(Home *home, int row);
void home_draft_keep(Home *home);
void home_draft_drop(Home *home);
void home_draft_offer(Home *home);
void home_draft_resume(Home *home);

/* The form is left without what it holds; the ball is taken out. */
void home_leave_form(Home *home);
void home_remove_ball(Home *home);

#endif
