/* log_rows.c - a game as the Log screen lists it. */
#include "ui/log_rows.h"

static int told_before(const Session *session, int game, int before, LogRow *out)
{
    int count = 0;
    for (int i = 0; i < session->told_count; i++)
        if (session->told[i].balls[0] && session->told[i].game == game &&
            session->told[i].before == before)
            out[count++] = (LogRow){LOG_TOLD, i};
    return count;
}

int log_rows(const Session *session, int game, LogRow out[LOG_ROWS_MAX])
{
    int count = 0;
    for (int i = 0; i <= session->shot_count; i++) {
        if (game > 0)
            count += told_before(session, game, i, out + count);
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
