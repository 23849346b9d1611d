/* stays.c - pairs of lanes over the games of an event. */
#include "core/event/stays.h"

const int *event_pair(const EventInfo *event, int game)
{
    for (int i = game < SESSION_GAMES_MAX ? game - 1 : SESSION_GAMES_MAX - 1; i >= 0; i--)
        if (event->pairs[i][0] != 0)
            return event->pairs[i];
    return event->pair;
}

bool event_moves(const EventInfo *event, int game)
{
    const int *was = event_pair(event, game - 1), *is = event_pair(event, game);
    return was[0] != is[0] || was[1] != is[1];
}

static int lane_after(int lane, int lanes, int house)
{
    int at = lane + lanes;
    return house > 0 ? (at - 1 + house * SESSION_GAMES_MAX * EVENT_LANE_MAX) % house + 1 : at;
}

bool event_move(EventInfo *event, int lanes, int house, Error *error)
{
    if (house > 0 && (event->pair[0] > house || event->pair[1] > house))
        return error_set(error, "lanes %d and %d are not in a house of %d lanes", event->pair[0],
                         event->pair[1], house);
    for (int game = 1; game <= event->games; game++) {
        int *pair = event->pairs[game - 1];
        for (int side = 0; side < SIDE_COUNT; side++) {
            pair[side] = lane_after(event->pair[side], (game - 1) * lanes, house);
            if (pair[side] < 1 || pair[side] > EVENT_LANE_MAX)
                return error_set(error, "game %d would be on lane %d; allowed: 1 to %d", game,
                                 pair[side], EVENT_LANE_MAX);
        }
    }
    return true;
}

/* Frames of a game, up to the current one, that no shot tells of. */
static int untold(const Session *session, int game)
{
    int frames = game < session->game ? 10 : session->frame - 1;
    bool told[11] = {false};
    for (int i = 0; i < session->shot_count; i++)
        if (session->shot_game[i] == game && session->shot_frame[i] <= frames)
            told[session->shot_frame[i]] = true;
    int count = frames;
    for (int frame = 1; frame <= frames; frame++)
        count -= told[frame];
    return count;
}

int session_stays(const Session *session, Stay stays[SESSION_GAMES_MAX])
{
    int count = 0, shot = 0;
    for (int game = 1; game <= session->game; game++) {
        if (game == 1 || event_moves(&session->event, game))
            stays[count++] = (Stay){.shot = game == 1 ? 0 : shot, .frames = 10 * (game - 1)};
        stays[count - 1].frames += untold(session, game);
        while (shot < session->shot_count && session->shot_game[shot] <= game)
            shot++;
    }
    return count;
}
