/* pick.c - a greedy set to beat, then branch and bound. */
#include "core/arsenal/pick.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/sort.h"

/* Breaks ties between sets: the balls' own mean value counts with this weight. */
#define TIE_SHARE 1e-5
#define HAIR 1e-12

struct PickJob {
    PickProblem problem;
    Pick best;
    double bar; /* what a set must beat: value plus tie-break */
    double mean[PICK_CANDIDATES_MAX];
    /* A price for each film, and what a candidate brings in above the prices (pick.c). */
    double price[PICK_FILMS_MAX], prices, above[PICK_CANDIDATES_MAX];
    /* Candidates still in the running, ball by ball, those of most `above` first. */
    int live, order[PICK_CANDIDATES_MAX], place[PICK_CANDIDATES_MAX]; /* place: of its ball */
    int balls, first[PICK_CANDIDATES_MAX + 1];                        /* of a ball, in order */
    double sums[PICK_CANDIDATES_MAX + 1]; /* of the best `above` of the first balls, by how many */
    double later[PICK_CANDIDATES_MAX + 1][PICK_FILMS_MAX]; /* best value from there on */
    int level, next[PICK_MAX + 1], chosen[PICK_MAX];
    double top[PICK_MAX + 1][PICK_FILMS_MAX]; /* best of the chosen, by film */
    double brought[PICK_MAX + 1];             /* `above` of the chosen, added up */
};

PickJob *pick_new(void) { return calloc(1, sizeof(PickJob)); }
void pick_free(PickJob *job) { free(job); }
PickProblem *pick_problem(PickJob *job) { return &job->problem; }
const Pick *pick_result(const PickJob *job) { return &job->best; }

static double weigh(const PickProblem *problem, const double *film)
{
    double sum = 0.0;
    for (int f = 0; f < problem->films; f++)
        sum += problem->weight[f] * film[f];
    return sum;
}

double pick_value(const PickProblem *problem, const int *candidates, int count)
{
    double top[PICK_FILMS_MAX] = {0.0};
    for (int i = 0; i < count; i++)
        for (int f = 0; f < problem->films; f++)
            top[f] = fmax(top[f], problem->value[candidates[i]][f]);
    return weigh(problem, top);
}

static double score(const PickJob *job, const int *candidates, int count)
{
    double sum = pick_value(&job->problem, candidates, count);
    for (int i = 0; i < count; i++)
        sum += TIE_SHARE * job->mean[candidates[i]];
    return sum;
}

static bool is_less(const void *a, const void *b) { return *(const int *)a < *(const int *)b; }

static void keep(PickJob *job, const int *candidates, int count)
{
    double value = score(job, candidates, count);
    if (count < job->best.count || (count == job->best.count && value <= job->bar + HAIR))
        return;
    job->bar = value;
    job->best.count = count;
    memcpy(job->best.candidate, candidates, (unsigned long)count * sizeof *candidates);
    sort_items(job->best.candidate, (size_t)count, sizeof *candidates, is_less);
}

static bool taken(const PickJob *job, const int *set, int count, int skip, int candidate)
{
    for (int i = 0; i < count; i++)
        if (i != skip && job->problem.ball[set[i]] == job->problem.ball[candidate])
            return true;
    return false;
}

/* The best candidate for place i of a set; -1 if none is free. */
static int best_at(const PickJob *job, int *set, int count, int i)
{
    int kept = set[i], best = -1;
    double most = -1.0;
    for (int c = 0; c < job->problem.candidates; c++) {
        if (taken(job, set, count, i, c))
            continue;
        set[i] = c;
        double value = score(job, set, count);
        if (value > most + HAIR) {
            most = value;
            best = c;
        }
    }
    set[i] = kept;
    return best;
}

/* Adds the best next ball until the set is full, then improves each place as long as that gains. */
static void greedy(PickJob *job, int count)
{
    int set[PICK_MAX];
    for (int n = 0; n < count; n++) {
        set[n] = 0;
        set[n] = best_at(job, set, n + 1, n);
    }
    for (int round = 0; round < 8; round++) {
        double before = score(job, set, count);
        for (int i = 0; i < count; i++)
            set[i] = best_at(job, set, count, i);
        if (score(job, set, count) <= before + HAIR)
            break;
    }
    keep(job, set, count);
}

/* The bound. Put a price on every film, and let each ball bring in its value above the prices,
 * on its best surface. No set has more value than all prices and what its balls bring in,
 * and so none more than the prices and the `count` balls that bring in most: Lagrange's bound for
 * the choice of places, which is tight once the prices are right. They are sought by steps along
 * the slope: a film that more of those balls want than one gets dearer (textbook subgradient). */
static double bring(PickJob *job)
{
    const PickProblem *problem = &job->problem;
    job->prices = 0.0;
    for (int f = 0; f < problem->films; f++)
        job->prices += job->price[f];
    for (int c = 0; c < problem->candidates; c++) {
        job->above[c] = TIE_SHARE * job->mean[c];
        for (int f = 0; f < problem->films; f++)
            job->above[c] += fmax(problem->weight[f] * problem->value[c][f] - job->price[f], 0.0);
    }
    /* Balls by what their best candidate brings in: first[] holds that candidate for now. */
    job->balls = 0;
    for (int c = 0; c < problem->candidates;) {
        int best = c, ball = problem->ball[c];
        for (; c < problem->candidates && problem->ball[c] == ball; c++)
            if (job->above[c] > job->above[best])
                best = c;
        int at = job->balls++;
        for (; at > 0 && job->above[job->first[at - 1]] < job->above[best]; at--)
            job->first[at] = job->first[at - 1];
        job->first[at] = best;
    }
    job->sums[0] = 0.0;
    for (int b = 0; b < job->balls; b++)
        job->sums[b + 1] = job->sums[b] + job->above[job->first[b]];
    return job->prices + job->sums[problem->count];
}

static void seek_prices(PickJob *job)
{
    const PickProblem *problem = &job->problem;
    double kept[PICK_FILMS_MAX], least = INFINITY, pace = 1.0;
    for (int f = 0; f < problem->films; f++) {
        double most = 0.0;
        for (int i = 0; i < job->best.count; i++)
            most = fmax(most, problem->value[job->best.candidate[i]][f]);
        job->price[f] = kept[f] = problem->weight[f] * most;
    }
    for (int step = 0, idle = 0; step < 600; step++) {
        double here = bring(job), slope[PICK_FILMS_MAX], square = 0.0;
        if (here < least - HAIR) {
            least = here;
            memcpy(kept, job->price, sizeof kept);
            idle = 0;
        } else if (++idle >= 15) {
            pace *= 0.6;
            idle = 0;
        }
        for (int f = 0; f < problem->films; f++) {
            slope[f] = 1.0;
            for (int b = 0; b < problem->count; b++)
                slope[f] -= problem->weight[f] * problem->value[job->first[b]][f] > job->price[f];
            square += slope[f] * slope[f];
        }
        if (square < HAIR || here <= job->bar)
            break;
        double stride = pace * (here - job->bar) / square;
        for (int f = 0; f < problem->films; f++)
            job->price[f] = fmax(job->price[f] - stride * slope[f], 0.0);
    }
    memcpy(job->price, kept, sizeof kept);
}

/* Keeps and sorts the candidates that may still be in a better set. */
static void line_up(PickJob *job)
{
    const PickProblem *problem = &job->problem;
    double most = bring(job);
    int best[PICK_CANDIDATES_MAX], balls = job->balls;
    memcpy(best, job->first, (unsigned long)balls * sizeof *best);
    job->live = job->balls = 0;
    for (int b = 0; b < balls; b++) {
        int out = b < problem->count ? b : problem->count - 1; /* the one it would replace */
        int ball = problem->ball[best[b]], live = job->live;
        for (int c = 0; c < problem->candidates; c++) {
            if (problem->ball[c] != ball ||
                most - job->above[best[out]] + job->above[c] <= job->bar + HAIR)
                continue;
            job->place[job->live] = job->balls;
            job->order[job->live++] = c;
        }
        if (job->live > live) {
            job->sums[job->balls + 1] = job->sums[job->balls] + job->above[best[b]];
            job->first[job->balls++] = live;
        }
    }
    job->first[job->balls] = job->live;
    memset(job->later[job->live], 0, sizeof job->later[0]);
    for (int i = job->live - 1; i >= 0; i--)
        for (int f = 0; f < problem->films; f++)
            job->later[i][f] = fmax(job->later[i + 1][f], problem->value[job->order[i]][f]);
}

void pick_begin(PickJob *job)
{
    PickProblem *problem = &job->problem;
    int balls = 0;
    for (int c = 0; c < problem->candidates; c++) {
        balls += c == 0 || problem->ball[c] != problem->ball[c - 1];
        job->mean[c] = weigh(problem, problem->value[c]);
    }
    problem->count = problem->count > PICK_MAX ? PICK_MAX : problem->count;
    problem->count = problem->count > balls ? balls : problem->count;
    job->best = (Pick){0};
    job->bar = -1.0;
    job->level = job->next[0] = 0;
    job->brought[0] = job->sums[0] = 0.0;
    memset(job->top, 0, sizeof job->top);
    if (problem->count <= 0) {
        job->level = -1;
        return;
    }
    greedy(job, problem->count);
    seek_prices(job);
    line_up(job);
}

/* Whether no set that continues from here, with candidates from place `at` on, beats the bar. */
static bool hopeless(const PickJob *job, int level, int at)
{
    const PickProblem *problem = &job->problem;
    int more = problem->count - level, place = at < job->live ? job->place[at] : job->balls;
    if (place + more > job->balls)
        return true;
    if (job->prices + job->brought[level] + job->sums[place + more] - job->sums[place] <=
        job->bar + HAIR)
        return true;
    /* the sum of what each would add alone is at least what they add together */
    const double *top = job->top[level];
    double gains[PICK_MAX] = {0.0}, sum = 0.0, loose = TIE_SHARE * more;
    for (int i = 0; i < level; i++)
        sum += TIE_SHARE * job->mean[job->chosen[i]];
    for (int f = 0; f < problem->films; f++) {
        sum += problem->weight[f] * top[f];
        loose += problem->weight[f] * (fmax(top[f], job->later[at][f]) - top[f]);
    }
    if (sum + loose <= job->bar + HAIR)
        return true;
    for (int b = place; b < job->balls; b++) {
        double most = 0.0;
        for (int i = b == place ? at : job->first[b]; i < job->first[b + 1]; i++) {
            const double *value = problem->value[job->order[i]];
            double gain = TIE_SHARE * job->mean[job->order[i]];
            for (int f = 0; f < problem->films; f++)
                gain += problem->weight[f] * fmax(value[f] - top[f], 0.0);
            most = fmax(most, gain);
        }
        for (int i = 0; i < more; i++) /* kept falling */
            if (most > gains[i]) {
                double other = gains[i];
                gains[i] = most;
                most = other;
            }
    }
    for (int i = 0; i < more; i++)
        sum += gains[i];
    return sum <= job->bar + HAIR;
}

bool pick_step(PickJob *job, long nodes)
{
    const PickProblem *problem = &job->problem;
    for (; nodes > 0 && job->level >= 0; nodes--) {
        int level = job->level, at = job->next[level];
        if (level == problem->count) {
            keep(job, job->chosen, level);
            job->level--;
            continue;
        }
        job->best.nodes++;
        if (hopeless(job, level, at)) {
            job->level--;
            continue;
        }
        int c = job->order[at];
        job->next[level] = at + 1;
        job->chosen[level] = c;
        job->brought[level + 1] = job->brought[level] + job->above[c];
        for (int f = 0; f < problem->films; f++)
            job->top[level + 1][f] = fmax(job->top[level][f], problem->value[c][f]);
        job->next[level + 1] = job->first[job->place[at] + 1];
        job->level++;
    }
    if (job->level >= 0)
        return false;
    job->best.value = pick_value(problem, job->best.candidate, job->best.count);
    return true;
}
