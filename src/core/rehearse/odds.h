/* odds.h - what a full rack comes to on average, what a game of such racks comes to, and how the
 * difference between two such games is shared among their racks.
 *
 * So decisions are compared by what they were worth, whatever the luck then did. Pure. */
#ifndef SETTEE_CORE_REHEARSE_ODDS_H
#define SETTEE_CORE_REHEARSE_ODDS_H

#include "core/advice/frame.h"

typedef struct Odds {
    double strike, spare; /* chances, 0..1: of a strike, and of a spare where it is none */
    double first, second; /* mean pins of the first ball; of the second, 0 where none is thrown */
} Odds;

Odds odds_of(const Outlook *outlook, const Bowler *bowler, const Ball *ball);

/* The full racks of a game: one a frame, and two more that the tenth may have. */
enum { ODDS_RACKS = 12 };

/* The mean score of a game whose racks fall by these odds, independent of each other. The last two
 * are those of the tenth's fill balls. */
double odds_game(const Odds racks[ODDS_RACKS]);

/* By how many pins of the game's mean score each of the first `count` racks of `better` is better
 * than the same one of `chosen`, 10 <= count <= ODDS_RACKS. They add up to the difference of the
 * two games; racks from `count` on were not thrown, and are taken to be alike in both. Returns that
 * difference's two ends in `score`: chosen, better. */
void odds_costs(const Odds *chosen, const Odds *better, int count, double *costs, double score[2]);

#endif
