/* pick.h - so many balls out of a locker: the set whose best ball is worth most over the films.
 *
 * A candidate is a ball with a surface; a set holds at most one candidate of a ball. What a set is
 * worth on a film is what its best ball is worth there, and its worth the weighted mean over the
 * films. Exact: branch and bound. Knows numbers only, no balls. Done in slices; allocates nothing.
 */
#ifndef SETTEE_CORE_ARSENAL_PICK_H
#define SETTEE_CORE_ARSENAL_PICK_H

#include <stdbool.h>

enum { PICK_FILMS_MAX = 32, PICK_CANDIDATES_MAX = 328, PICK_MAX = 12 };

typedef struct PickProblem {
    int films, candidates, count; /* count: balls to pick */
    double weight[PICK_FILMS_MAX];
    double value[PICK_CANDIDATES_MAX][PICK_FILMS_MAX];
    int ball[PICK_CANDIDATES_MAX]; /* candidates of one ball stand together */
} PickProblem;

typedef struct Pick {
    int count;               /* fewer than asked for when there are no more balls */
    int candidate[PICK_MAX]; /* rising */
    double value;
    long nodes; /* partial sets looked at */
} Pick;

/* A set's worth; of none 0. */
double pick_value(const PickProblem *problem, const int *candidates, int count);

typedef struct PickJob {
    PickProblem problem; /* fill this in, then pick_begin */
    Pick best;
    double bar; /* what a set must beat: worth with the tie's share */
    double mean[PICK_CANDIDATES_MAX];
    /* A price for each film, and what a candidate brings in above the prices (pick.c). */
    double price[PICK_FILMS_MAX], prices, above[PICK_CANDIDATES_MAX];
    /* Candidates still in the running, ball by ball, those of most `above` first. */
    int live, order[PICK_CANDIDATES_MAX], place[PICK_CANDIDATES_MAX]; /* place: of its ball */
    int balls, first[PICK_CANDIDATES_MAX + 1];                        /* of a ball, in order */
    double sums[PICK_CANDIDATES_MAX + 1]; /* of the best `above` of the first so many balls */
    double later[PICK_CANDIDATES_MAX + 1][PICK_FILMS_MAX]; /* best worth from there on */
    int level, next[PICK_MAX + 1], chosen[PICK_MAX];
    double top[PICK_MAX + 1][PICK_FILMS_MAX]; /* best of the chosen, by film */
    double brought[PICK_MAX + 1];             /* `above` of the chosen, added up */
} PickJob;

void pick_begin(PickJob *job);
bool pick_step(PickJob *job, long nodes); /* looks at so many; true when done: `best` stands */

#endif
