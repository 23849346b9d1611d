/* home_edit.h - the bowler's own files renamed and thrown away. Nothing is ever deleted: what goes
 * is kept in trash/ beside what it came from. */
#ifndef SETTEE_STORE_HOME_EDIT_H
#define SETTEE_STORE_HOME_EDIT_H

#include "core/event/session.h"

/* Moves the home's file of that kind ("bags", "events", "patterns") to trash/KIND/NAME.json, or
 * NAME-2.json and so on where that is taken; `path` receives where. An event takes its journals
 * with it, to trash/ in the data folder. Refused for a bag or pattern that an event of the home
 * names. */
bool files_trash(const char *kind, const char *name, char *path, size_t size, Error *error);

/* Moves the journals of an event to the trash; it then begins again. `place` is its file's, as
 * EventInfo.file has it. */
bool files_trash_journals(const char *place, Error *error);

/* Gives the home's bag or pattern another name. Refused when that is taken, or when an event of
 * the home names the file. */
bool files_rename(const char *kind, const char *from, const char *to, Error *error);

/* Gives an event of the home another title; its file and journals keep their names. */
bool files_retitle(const char *event, const char *title, Error *error);

/* The event of the home that names this bag or pattern, in `event`; false: none. */
bool files_in_use(const char *kind, const char *name, char *event, size_t size);

#endif
