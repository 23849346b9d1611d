/* coach.h - the page a coach reads about a junior, line by line, for the command and the screen. */
#ifndef SETTEE_CORE_TEACH_COACH_H
#define SETTEE_CORE_TEACH_COACH_H

#include "core/teach/progress.h"

enum { COACH_COLUMNS = 76 }; /* no line of a table is wider; a sentence may be */

typedef enum CoachLine { COACH_TITLE, COACH_HEAD, COACH_ROW, COACH_SENTENCE } CoachLine;

/* Calls `line` for each; an empty row parts the tables. */
void coach_page(const Junior *junior, const Lesson *lessons, int count,
                void (*line)(void *context, CoachLine kind, const char *text), void *context);

#endif
