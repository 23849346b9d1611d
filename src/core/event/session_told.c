/* session_told.c - frames known only by their pins, and the score, which they are part of. */
#include "core/event/session.h"

static const char NO_FRAME[] = "a frame is written X, 9/, 81, -/ or F9";
static const char NO_TENTH[] = "the tenth is written to its end: XX9, X81, 9/X or 81";

/* Whether the balls are one frame, neither more nor less; `thrown`: balls of the tenth before them,
 * NULL: of a frame before the tenth. */
static bool is_frame(const char *balls, const char *thrown)
{
    char why[8];
    Score score = score_begin();
    for (const char *at = balls; *at;
         at++) /* no gaps, pins or splits, which a sheet may hold too */
        if (!((*at >= '0' && *at <= '9') || *at == 'X' || *at == '/' || *at == '-' || *at == 'F'))
            return false;
    for (int frame = 1; thrown && frame < SCORE_FRAMES; frame++)
        score_read(&score, "--", why, sizeof why);
    if (!score_read(&score, thrown ? thrown : "", why, sizeof why) ||
        !score_read(&score, balls, why, sizeof why))
        return false;
    return thrown ? score.over : score.frame_count == 1 && score.frames[0].done;
}

static bool is_some_frame(const char *balls)
{
    return is_frame(balls, NULL) || is_frame(balls, "") || is_frame(balls, "X") ||
           is_frame(balls, "9/") || is_frame(balls, "XX");
}

const char *session_told_fault(const Session *session, const Entry *entry)
{
    if (entry->kind == ENTRY_FRAME_EDIT) {
        if (entry->index < 0 || entry->index >= session->told_count)
            return "no such frame";
        return entry->balls[0] && !is_some_frame(entry->balls) ? NO_FRAME : NULL;
    }
    if (session->told_count >= SESSION_TOLD_MAX)
        return "the event's log is full";
    if (entry->index < 0 || entry->index > session->shot_count)
        return "no such shot";
    if (entry->ahead < 0 || entry->ahead > session->told_count ||
        (entry->ahead > 0 && session->told[entry->ahead - 1].before != entry->index))
        return "no such frame";
    if (entry->ahead == 0 && entry->index == session->shot_count && session->game_over &&
        session->game >= session->event.games)
        return "the last game is over";
    return is_some_frame(entry->balls) ? NULL : NO_FRAME;
}

/* The balls of the tenth that were logged before what is told of it. */
static const char *tenth_so_far(const Session *session)
{
    return session->ball_of_tenth == 1   ? ""
           : session->ball_of_tenth == 3 ? "XX"
           : session->last_ball          ? "9/"
                                         : "X";
}

const char *session_told_misplaced(const Session *session, const Entry *entry)
{
    if (entry->kind == ENTRY_FRAME_EDIT) {
        int frame = session->told[entry->index].frame;
        bool whole = frame != SCORE_FRAMES;
        return !entry->balls[0] || is_frame(entry->balls, NULL) == whole ? NULL
               : whole                                                   ? NO_FRAME
                                                                         : NO_TENTH;
    }
    if (entry->index < session->warm_up_count)
        return "a warm-up has no frames";
    if (entry->ahead > 0) {
        const ToldFrame *next = &session->told[entry->ahead - 1];
        if (session_frames(session, next->game) == SCORE_FRAMES)
            return "that game has its ten frames";
        return is_frame(entry->balls, NULL) ? NULL : NO_FRAME;
    }
    bool latest = entry->index == session->shot_count;
    if (latest && session->frame == SCORE_FRAMES && !session->game_over)
        return is_frame(entry->balls, tenth_so_far(session)) ? NULL : NO_TENTH;
    if (!latest && session_frames(session, session->shot_game[entry->index]) == SCORE_FRAMES)
        return "that game has its ten frames";
    return is_frame(entry->balls, NULL) ? NULL : NO_FRAME;
}

int session_told(const Session *session, int game, int before, int out[SESSION_TOLD_MAX])
{
    int count = 0;
    for (int frame = 1; frame <= SCORE_FRAMES; frame++)
        for (int i = 0; i < session->told_count; i++) {
            const ToldFrame *told = &session->told[i];
            if (told->balls[0] && told->game == game && told->before == before &&
                told->frame == frame)
                out[count++] = i;
        }
    return count;
}

int session_frames(const Session *session, int game)
{
    int last = 0;
    for (int i = 0; i < session->shot_count; i++)
        if (session->shot_game[i] == game && session->shot_frame[i] > last)
            last = session->shot_frame[i];
    for (int i = 0; i < session->told_count; i++)
        if (session->told[i].game == game && session->told[i].frame > last)
            last = session->told[i].frame;
    return last;
}

static bool score_shot(Score *score, const Session *session, int index)
{
    static const ScoreBall FOUL = {.foul = true};
    char why[8]; /* not shown: what can't be scored counts as unknown */
    const Shot *shot = &session->shots[index];
    if (score->ball > 1 && score->frame < SCORE_FRAMES)
        return false; /* the spare before it was not entered */
    if (!shot->left_said && !shot->foul)
        return false;
    if (!score_add(score, shot->foul ? FOUL : score_ball_of(PINS_ALL, shot->left), why, sizeof why))
        return false;
    if (!session->shot_second[index] || !shot->spare_said)
        return true;
    return score_add(score,
                     shot->spare_foul ? FOUL : score_ball_of(shot_standing(shot), shot->spare_left),
                     why, sizeof why);
}

/* Those of a game that were thrown between two shots. */
static bool score_told(Score *score, const Session *session, int game, int before)
{
    char why[8];
    int told[SESSION_TOLD_MAX], count = session_told(session, game, before, told);
    for (int i = 0; i < count; i++) {
        if (score->ball > 1 && score->frame < SCORE_FRAMES)
            return false;
        if (!score_read(score, session->told[told[i]].balls, why, sizeof why))
            return false;
    }
    return true;
}

bool session_score(const Session *session, int game, Score *score)
{
    *score = score_begin();
    for (int i = 0; i <= session->shot_count; i++) {
        if (!score_told(score, session, game, i))
            return false;
        if (i < session->shot_count && session->shot_game[i] == game &&
            !score_shot(score, session, i))
            return false;
    }
    return true;
}
