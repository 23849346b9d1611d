/* log_rows.h - a game as the Log screen lists it: its shots and the frames known only by their
 * pins, as they were thrown, and the place where the next one goes. */
#ifndef SETTEE_UI_LOG_ROWS_H
#define SETTEE_UI_LOG_ROWS_H

#include "core/event/session.h"

enum { LOG_ROWS_MAX = SESSION_SHOTS_MAX + SESSION_TOLD_MAX + 1 };

typedef enum LogKind { LOG_SHOT, LOG_TOLD, LOG_NEXT } LogKind;

typedef struct LogRow {
    LogKind kind;
    int index; /* of the shot or told frame; LOG_NEXT: the number of shots */
} LogRow;

/* The rows of a game (0: the warm-up); returns how many. */
int log_rows(const Session *session, int game, LogRow out[LOG_ROWS_MAX]);

/* Whether a game is finished: it asks before it changes. */
bool log_closed(const Session *session, int game);

/* The game being bowled; 0: the warm-up. */
int log_game_now(const Session *session);

#endif
