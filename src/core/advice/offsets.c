/* offsets.c - knots, their prior, and how they are learnt. */
#include "core/advice/offsets.h"

#include <math.h>
#include <string.h>

/* Prior deviations, boards (assumed; rehearsals tune them, docs/advice.md). */
#define LANES_SD 1.2   /* wherever it is thrown, on both lanes alike */
#define LANE_SD 0.8    /* and on either lane of its own */
#define LAYDOWN_SD 1.2 /* from line to line */
#define TURN_SD 1.2
#define LINES_ALIKE 0.5 /* of the variance from line to line, what both lanes share */
#define BALL_SD 1.2
#define LAYDOWN_FAR 6.0 /* boards over which lines are alike: correlation exp(-1/2) */
#define TURN_FAR 4.0
#define DRIFT_SD 0.3 /* a shot's, of a lane as a whole */
#define LINE_DRIFT_SD 0.4
#define JUMP_SD 2.5   /* of a jump, boards */
#define JUMP_BOTH 0.6 /* of jumps, those of the bowler: on both lanes */

#define LAYDOWN_FIRST 5.0 /* boards of the knots */
#define LAYDOWN_STEP 4.0
#define TURN_FIRST 0.0
#define TURN_STEP 3.0

static void add_share(OffsetsAt *at, int index, double share)
{
    at->index[at->count] = index;
    at->share[at->count++] = share;
}

/* The knots on either side; the last one's value beyond it. */
static void add_knots(OffsetsAt *at, int first, int count, double place)
{
    place = fmin(fmax(0.0, place), count - 1.0); /* NAN as 0: it turned in the gutter */
    int low = (int)fmin(place, count - 2.0);
    add_share(at, first + low, 1.0 - (place - low));
    add_share(at, first + low + 1, place - low);
}

OffsetsAt offsets_at(Side lane, int ball, double laydown_board, double turn_board)
{
    OffsetsAt at = {0};
    int first = (int)lane * OFFSETS_OF_LANE;
    add_knots(&at, first, OFFSETS_LAYDOWNS, (laydown_board - LAYDOWN_FIRST) / LAYDOWN_STEP);
    add_knots(&at, first + OFFSETS_LAYDOWNS, OFFSETS_TURNS, (turn_board - TURN_FIRST) / TURN_STEP);
    if (ball > 0)
        add_share(&at, OFFSETS_FIRST_BALL + ball - 1, 1.0);
    return at;
}

double offsets_mean(const OffsetsAt *at, const double *means)
{
    double sum = 0.0;
    for (int i = 0; i < at->count; i++)
        sum += at->share[i] * means[at->index[i]];
    return sum;
}

static double alike(double boards, double far) { return exp(-0.5 * boards * boards / (far * far)); }

/* Covariance of two knots of one lane, in variances of a line. */
static double knots_alike(int a, int b)
{
    if ((a < OFFSETS_LAYDOWNS) != (b < OFFSETS_LAYDOWNS))
        return 0.0;
    return a < OFFSETS_LAYDOWNS
               ? LAYDOWN_SD * LAYDOWN_SD * alike((a - b) * LAYDOWN_STEP, LAYDOWN_FAR)
               : TURN_SD * TURN_SD * alike((a - b) * TURN_STEP, TURN_FAR);
}

void offsets_begin(Doubt *doubt)
{
    memset(doubt, 0, sizeof *doubt);
    for (int i = 0; i < OFFSETS_FIRST_BALL; i++)
        for (int j = 0; j < OFFSETS_FIRST_BALL; j++) {
            int a = i % OFFSETS_OF_LANE, b = j % OFFSETS_OF_LANE;
            bool same = i / OFFSETS_OF_LANE == j / OFFSETS_OF_LANE;
            double whole = LANES_SD * LANES_SD + (same ? LANE_SD * LANE_SD : 0.0);
            doubt->of[i][j] = (same ? 1.0 : LINES_ALIKE) * knots_alike(a, b);
            if (a < OFFSETS_LAYDOWNS && b < OFFSETS_LAYDOWNS) /* the whole lane, as all of these */
                doubt->of[i][j] += whole;
        }
    for (int i = OFFSETS_FIRST_BALL; i < OFFSETS_COUNT; i++)
        doubt->of[i][i] = BALL_SD * BALL_SD;
}

void offsets_drift(Doubt *doubt, Side lane)
{
    int first = (int)lane * OFFSETS_OF_LANE;
    double line = LINE_DRIFT_SD * LINE_DRIFT_SD / (LAYDOWN_SD * LAYDOWN_SD);
    for (int a = 0; a < OFFSETS_OF_LANE; a++)
        for (int b = 0; b < OFFSETS_OF_LANE; b++) {
            bool whole = a < OFFSETS_LAYDOWNS && b < OFFSETS_LAYDOWNS;
            doubt->of[first + a][first + b] +=
                line * knots_alike(a, b) + (whole ? DRIFT_SD * DRIFT_SD : 0.0);
        }
}

void offsets_jumped(const Doubt *doubt, Side lane, Doubt *jumped)
{
    *jumped = *doubt;
    for (int a = 0; a < SIDE_COUNT; a++)
        for (int b = 0; b < SIDE_COUNT; b++) {
            bool own = a == (int)lane && b == (int)lane;
            for (int i = 0; i < OFFSETS_LAYDOWNS; i++)
                for (int j = 0; j < OFFSETS_LAYDOWNS; j++)
                    jumped->of[a * OFFSETS_OF_LANE + i][b * OFFSETS_OF_LANE + j] +=
                        (own ? 1.0 : JUMP_BOTH) * JUMP_SD * JUMP_SD;
        }
}

/* What two lanes have alike is, on the mean, this share of the sum of both: one over two and the
 * variance that is a lane's own against what is common (of lines 1, so 1/3; of whole lanes 0.44, so
 * 0.41). The lower is taken for all. */
#define CARRIED (1.0 / 3.0)
/* What stays unknown of it, of its variance. */
#define CARRIED_LESS (1.0 - 2.0 * CARRIED)

void offsets_carry(double means[OFFSETS_COUNT])
{
    for (int k = 0; k < OFFSETS_OF_LANE; k++)
        means[k] = means[OFFSETS_OF_LANE + k] = CARRIED * (means[k] + means[OFFSETS_OF_LANE + k]);
}

void offsets_next_pair(Doubt *doubt)
{
    double half[OFFSETS_COUNT][OFFSETS_COUNT];
    for (int i = 0; i < OFFSETS_COUNT; i++) { /* carry along the columns, then along the rows */
        memcpy(half[i], doubt->of[i], sizeof half[i]);
        offsets_carry(half[i]);
    }
    for (int j = 0; j < OFFSETS_COUNT; j++) {
        double column[OFFSETS_COUNT];
        for (int i = 0; i < OFFSETS_COUNT; i++)
            column[i] = half[i][j];
        offsets_carry(column);
        for (int i = 0; i < OFFSETS_COUNT; i++)
            doubt->of[i][j] = column[i];
    }
    for (int i = 0; i < OFFSETS_FIRST_BALL; i++)
        for (int j = 0; j < OFFSETS_FIRST_BALL; j++) {
            int a = i % OFFSETS_OF_LANE, b = j % OFFSETS_OF_LANE;
            bool same = i / OFFSETS_OF_LANE == j / OFFSETS_OF_LANE;
            double line = LINES_ALIKE * CARRIED_LESS + (same ? 1.0 - LINES_ALIKE : 0.0);
            doubt->of[i][j] += line * knots_alike(a, b);
            if (a < OFFSETS_LAYDOWNS && b < OFFSETS_LAYDOWNS)
                doubt->of[i][j] +=
                    CARRIED_LESS * LANES_SD * LANES_SD + (same ? LANE_SD * LANE_SD : 0.0);
        }
}

double offsets_variance(const Doubt *doubt, const OffsetsAt *at, double with[OFFSETS_COUNT])
{
    double sum = 0.0;
    for (int i = 0; i < OFFSETS_COUNT; i++) {
        with[i] = 0.0;
        for (int k = 0; k < at->count; k++)
            with[i] += doubt->of[i][at->index[k]] * at->share[k];
    }
    for (int k = 0; k < at->count; k++)
        sum += at->share[k] * with[at->index[k]];
    return sum;
}

double offsets_doubt(const Doubt *doubt, const OffsetsAt *at)
{
    double sum = 0.0;
    for (int i = 0; i < at->count; i++)
        for (int k = 0; k < at->count; k++)
            sum += at->share[i] * at->share[k] * doubt->of[at->index[i]][at->index[k]];
    return fmax(sum, 0.0);
}

void offsets_learn(Doubt *doubt, const double with[OFFSETS_COUNT], double was, double is)
{
    double less = (was - is) / (was * was);
    for (int i = 0; i < OFFSETS_COUNT; i++)
        for (int j = 0; j < OFFSETS_COUNT; j++)
            doubt->of[i][j] -= less * with[i] * with[j];
}

void offsets_mix(Doubt *doubt, const Doubt *other, double share, const double apart[OFFSETS_COUNT],
                 const double other_apart[OFFSETS_COUNT], double xx, double yy, double xy)
{
    for (int i = 0; i < OFFSETS_COUNT; i++)
        for (int j = 0; j < OFFSETS_COUNT; j++)
            doubt->of[i][j] += share * (other->of[i][j] - doubt->of[i][j]) +
                               xx * apart[i] * apart[j] + yy * other_apart[i] * other_apart[j] +
                               xy * (apart[i] * other_apart[j] + other_apart[i] * apart[j]);
}
