/* stays.h - which pair of lanes each game of an event is on, and which shots were thrown there.
 *
 * An event stays on one pair, or moves to another after some of its games. */
#ifndef SETTEE_CORE_EVENT_STAYS_H
#define SETTEE_CORE_EVENT_STAYS_H

#include "core/event/session.h"

#define EVENT_LANE_MAX 99 /* lane numbers go from 1 to this */

/* The two lanes of a game, from 1: event->pairs, and where that says nothing the pair before. */
const int *event_pair(const EventInfo *event, int game);

/* Whether a game, from 2, is on other lanes than the one before it. */
bool event_moves(const EventInfo *event, int game);

/* Fills event->pairs from event->pair and event->games: after each game the bowlers move by
 * `lanes` to the right (lower than 0: to the left). In a house of `house` lanes, who leaves one end
 * goes on at the other; 0: not known. False, with the reason: a game would be on lanes that there
 * are not. */
bool event_move(EventInfo *event, int lanes, int house, Error *error);

/* Games played in turn on one pair. */
typedef struct Stay {
    int shot;   /* index of the first shot thrown there; may be the next one */
    int frames; /* played there before that shot: by others before you came, and those of yours
                 * that no shot tells of */
} Stay;

/* The stays up to the current game, at least one; warm-up belongs to the first. */
int session_stays(const Session *session, Stay stays[SESSION_GAMES_MAX]);

#endif
