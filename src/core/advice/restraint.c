/* restraint.c - the last misses, and what may be said after them. */
#include "core/advice/restraint.h"

#include <math.h>

#define LOSS_MOST 0.01  /* chance that a first answer may lose: within the noise */
#define GAIN_LEAST 0.02 /* of a first answer that no rule asks for: less is no reason to change */
#define CLEARLY 0.05    /* what an answer must gain that otherwise would not come first */
#define AWAY_LEAST 0.5  /* boards away from two misses: less nobody sees */
#define OFF_MOST                                                                                   \
    0.5 /* boards farther from the pocket by its own roll, with no miss to answer; none before the \
           first ball */
#define FIRST_MOVE_MOST 1 /* boards with the feet after one ball */
enum { MISSES_TWO = 2, MISSES_ENOUGH = 3 };

static bool is_gross(Hit hit)
{
    return hit == HIT_GUTTER || hit == HIT_WIDE || hit == HIT_NOSE || hit == HIT_CROSSED;
}

/* The good balls of the line, the last ones on that lane, that missed to one side; false: none was
 * seen to hit there. */
static bool read_row(const Shot *shots, int count, Side lane, const Plan *plan,
                     Restraint *restraint)
{
    bool any = false;
    double boards = 0.0;
    int hits = 0;
    for (int i = count - 1; i >= 0; i--) {
        if (shots[i].lane != lane || !shot_good(&shots[i]) || !shot_of_line(&shots[i], plan))
            continue;
        if (shots[i].hit == HIT_UNSAID) /* says nothing of a side: what was seen before stands */
            continue;
        int side = shot_side(shots[i].hit);
        any = true;
        if (side == 0 || (restraint->in_a_row > 0 && side != restraint->side))
            break;
        restraint->side = side;
        restraint->in_a_row++;
        if (shots[i].hit != HIT_GUTTER) {
            boards += shot_hit_board(shots[i].hit);
            hits++;
        }
    }
    restraint->seen_board = hits > 0 ? boards / hits : (double)NAN;
    return any;
}

/* The side of the last good ball on either lane, or on that one; of that line, NULL: of any. */
static int side_of_last(const Shot *shots, int count, Side lane, bool apart, const Plan *plan)
{
    for (int i = count - 1; i >= 0; i--)
        if ((!apart || shots[i].lane == lane) && shot_good(&shots[i]) &&
            shots[i].hit != HIT_UNSAID && (!plan || shot_of_line(&shots[i], plan)))
            return shot_side(shots[i].hit);
    return 0;
}

Restraint restraint_read(const Shot *shots, int count, Side lane, bool apart, const Plan *plan)
{
    Restraint restraint = {.thrown = count};
    if (count == 0)
        return restraint;
    restraint.gross = is_gross(shots[count - 1].hit);
    restraint.bad = !shot_good(&shots[count - 1]);
    bool any = read_row(shots, count, lane, plan, &restraint);
    if (restraint.in_a_row == 0) /* then what comes nearest: the other lane with this line */
        restraint.side = side_of_last(shots, count, lane, apart || any, plan);
    if (restraint.side == 0)
        restraint.side = side_of_last(shots, count, lane, apart || any, NULL);
    return restraint;
}

bool restraint_allows_hit(const Restraint *restraint, double boards)
{
    double least = restraint->in_a_row >= MISSES_TWO ? AWAY_LEAST : 0.0;
    return restraint->side == 0 || -restraint->side * boards >= least;
}

bool restraint_must_move(const Restraint *restraint)
{
    return restraint->in_a_row >= MISSES_ENOUGH && !restraint->bad;
}

/* Before the first ball nothing is known but the sheet: another ball or line then has to be clearly
 * better, and nothing of the body is changed. One ball is no trend: a small move at most. */
static bool allows_early(const Restraint *restraint, const FirstAnswer *answer)
{
    Change changes = ADJUSTMENTS[answer->kind].changes;
    bool clear = answer->gain >= CLEARLY, ball = changes == CHANGE_BALL;
    bool line = changes == CHANGE_FEET || changes == CHANGE_EYES;
    if (restraint->thrown == 0)
        return answer->with == ADJUST_HOLD && (ball || line) && clear;
    if (restraint->thrown == 1 && !restraint->gross)
        return fabs(answer->feet) <= FIRST_MOVE_MOST && (clear || (line && restraint->side != 0));
    return true;
}

/* Over/under is not chased with the feet or the eyes, unless that is clearly better. */
static bool chases(const Restraint *restraint, const FirstAnswer *answer)
{
    Change changes = ADJUSTMENTS[answer->kind].changes;
    return restraint->swings && !restraint_must_move(restraint) && answer->with == ADJUST_HOLD &&
           (changes == CHANGE_FEET || changes == CHANGE_EYES) && answer->gain < CLEARLY;
}

bool restraint_allows_off(const Restraint *restraint, double off_boards)
{
    double most = restraint->thrown == 0 ? 0.0 : OFF_MOST;
    return restraint->side != 0 || off_boards <= most;
}

bool restraint_allows_first(const Restraint *restraint, const FirstAnswer *answer)
{
    if (answer->kind == ADJUST_HOLD)
        return !restraint_must_move(restraint);
    if (!restraint_allows_off(restraint, answer->off_boards))
        return false;
    if (chases(restraint, answer))
        return false;
    if (!answer->asked && answer->gain < GAIN_LEAST && !restraint_must_move(restraint))
        return false;
    return answer->gain_at_best >= -LOSS_MOST && allows_early(restraint, answer);
}

bool restraint_hand_pays(const FirstAnswer *hand, const FirstAnswer *other)
{
    return hand->gain - other->gain >= CLEARLY;
}
