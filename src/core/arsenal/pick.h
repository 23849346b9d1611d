/* pick.h - picks the few balls of a locker that together have the most value over the films.
 *
 * A candidate is a ball with a surface; a set has at most one candidate per ball. A set's value on
 * a film is that of its best ball there; its value is the weighted mean over the films. Exact, by
 * branch and bound. Knows numbers only, no balls. Works in slices; allocates nothing but the job.
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
    int count;               /* fewer than asked for if there are no more balls */
    int candidate[PICK_MAX]; /* rising */
    double value;
    long nodes; /* partial sets looked at */
} Pick;

/* A set's value; 0 for an empty set. */
double pick_value(const PickProblem *problem, const int *candidates, int count);

typedef struct PickJob PickJob;
PickJob *pick_new(void); /* heap, owned by the caller; NULL if out of memory */
void pick_free(PickJob *job);
PickProblem *pick_problem(PickJob *job); /* owned by the job: fill it in, then pick_begin */
void pick_begin(PickJob *job);
bool pick_step(PickJob *job, long nodes);    /* looks at that many partial sets; true when done */
const Pick *pick_result(const PickJob *job); /* once done; owned by the job */

#endif
