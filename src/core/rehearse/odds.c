/* odds.c - see odds.h. */
#include "core/rehearse/odds.h"

#include <math.h>
#include <string.h>

#define OPEN_SHARE 0.5 /* a missed spare ball takes it of its pins (assumed, as in frame.c) */

Odds odds_of(const Outlook *outlook, const Bowler *bowler, const Ball *ball)
{
    if (isnan(outlook->board)) /* the gutter, every time */
        return (Odds){.second = OPEN_SHARE * 10.0};
    FrameOutlook frame = frame_of(outlook, bowler, ball);
    Odds odds = {.strike = outlook->strike,
                 .spare = frame.clean - outlook->strike,
                 .first = outlook->pinfall};
    double stand = 10.0 * (1.0 - odds.strike) - (odds.first - 10.0 * odds.strike);
    double open = 1.0 - frame.clean, no_strike = 1.0 - odds.strike;
    if (no_strike > 0.0) /* spares and misses are thrown at as many pins, on the mean */
        odds.second = stand * (odds.spare + OPEN_SHARE * open) / no_strike;
    return odds;
}

/* What the frames before a rack still wait for. */
enum { WAIT_NOTHING, WAIT_SPARE, WAIT_STRIKE, WAIT_STRIKES, WAITS };
/* How many times more the rack's first and second ball count for it. */
static const double FIRST_MORE[WAITS] = {0.0, 1.0, 1.0, 2.0}, SECOND_MORE[WAITS] = {0, 0, 1, 1};

double odds_game(const Odds racks[ODDS_RACKS])
{
    enum { TENTH = 9 };
    double wait[WAITS] = {1.0}, score = 0.0; /* the chances of each */
    for (int frame = 0; frame < TENTH; frame++) {
        const Odds *rack = &racks[frame];
        for (int k = 0; k < WAITS; k++)
            score += wait[k] *
                     ((1.0 + FIRST_MORE[k]) * rack->first + (1.0 + SECOND_MORE[k]) * rack->second);
        double struck = wait[WAIT_STRIKE] + wait[WAIT_STRIKES];
        wait[WAIT_STRIKES] = struck * rack->strike;
        wait[WAIT_STRIKE] = (1.0 - struck) * rack->strike;
        wait[WAIT_SPARE] = rack->spare;
        wait[WAIT_NOTHING] = 1.0 - rack->strike - rack->spare;
    }
    const Odds *rack = &racks[TENTH], *fill = rack + 1, *last = rack + 2;
    for (int k = 0; k < WAITS; k++) {
        double first = 1.0 + FIRST_MORE[k], second = 1.0 + SECOND_MORE[k];
        double struck = second * fill->first + fill->strike * last->first + fill->second;
        score += wait[k] * (first * rack->first + second * rack->second +
                            rack->spare * fill->first + rack->strike * struck);
    }
    return score;
}

/* What the game comes to if the racks before `from` fall by `before` and the others by `after`. */
static double spliced(const Odds *before, const Odds *after, int from)
{
    Odds racks[ODDS_RACKS];
    memcpy(racks, after, sizeof racks);
    memcpy(racks, before, (size_t)from * sizeof *racks);
    return odds_game(racks);
}

/* A rack's part depends on what the others are: they are replaced one by one, from the first to the
 * last and from the last to the first, and each counts half. Either way adds up. */
void odds_costs(const Odds *chosen, const Odds *better, int count, double *costs, double score[2])
{
    Odds own[ODDS_RACKS], best[ODDS_RACKS];
    for (int i = 0; i < ODDS_RACKS; i++) {
        own[i] = i < count ? chosen[i] : better[count - 1];
        best[i] = better[i < count ? i : count - 1];
    }
    for (int i = 0; i < count; i++)
        costs[i] = 0.5 * (spliced(best, own, i + 1) - spliced(best, own, i) +
                          spliced(own, best, i) - spliced(own, best, i + 1));
    score[0] = odds_game(own);
    score[1] = odds_game(best);
}
