/* log_rows.c - a game as the Log screen lists it. */
#include "ui/log_rows.h"

int log_rows(const Session *session, int game, LogRow out[LOG_ROWS_MAX])
{
    int count = 0;
    for (int i = 0; i <= session->shot_count; i++) {
        int told[SESSION_TOLD_MAX],
            told_count = game > 0 ? session_told(session, game, i, told) : 0;
        for (int k = 0; k < told_count; k++)
            out[count++] = (LogRow){LOG_TOLD, told[k]};
        if (i < session->shot_count && session->shot_game[i] == game)
            out[count++] = (LogRow){LOG_SHOT, i};
    }
    if (game == log_game_now(session) && !session->game_over)
        out[count++] = (LogRow){LOG_NEXT, session->shot_count};
    return count;
}

bool log_closed(const Session *session, int game)
{
    return game > 0 && (game < session->game || session->game_over);
}

int log_game_now(const Session *session) { return session->warm_up ? 0 : session->game; }
