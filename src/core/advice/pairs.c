/* pairs.c - which two changes go together, and how big each is. */
#include "core/advice/pairs.h"

#include <math.h>

/* What goes together with what, in the order in which the parts of a pair are named. */
typedef enum Facet {
    FACET_BALL,
    FACET_LINE,
    FACET_SPEED,
    FACET_LOFT,
    FACET_ROTATION,
    FACET_COUNT,
    FACET_ALONE /* holding; a surface, after which the lane is looked at again */
} Facet;

static Facet facet_of(AdjustmentKind kind)
{
    static const Facet OF[] = {[CHANGE_NOTHING] = FACET_ALONE,     [CHANGE_BALL] = FACET_BALL,
                               [CHANGE_FEET] = FACET_LINE,         [CHANGE_EYES] = FACET_LINE,
                               [CHANGE_SPEED] = FACET_SPEED,       [CHANGE_LOFT] = FACET_LOFT,
                               [CHANGE_ROTATION] = FACET_ROTATION, [CHANGE_SURFACE] = FACET_ALONE};
    return OF[ADJUSTMENTS[kind].changes];
}

/* Common practice, no source: a move goes with anything, a new ball with speed or the hand (its own
 * line comes with it anyway); the body changes one thing at a time. */
static bool go_together(Facet bigger, Facet with)
{
    if (bigger == FACET_BALL)
        return with == FACET_SPEED || with == FACET_ROTATION;
    return bigger == FACET_LINE && with > FACET_LINE;
}

typedef struct List {
    const Setting *setting;
    Candidate *out;
    int count, max;
} List;

static void add(List *list, const Candidate *candidate)
{
    if (list->count < list->max && candidate_on_lane(list->setting->bowler, &candidate->plan))
        list->out[list->count++] = *candidate;
}

/* Together with another change, half of a move may be enough. */
static double half_move(double boards)
{
    return boards > 0.0 ? ceil(boards / 2) : floor(boards / 2);
}

/* The bigger part at its best size and with half its move; the other part in each of its sizes. */
static void add_pair(List *list, const Candidate *bigger, const Candidate *with)
{
    const Plan *now = &list->setting->plan;
    Facet facet = facet_of(with->kind);
    Candidate sizes[2];
    int size_count = candidates_list(list->setting, with->kind, sizes, 2);
    double feet = bigger->plan.stance - now->stance;
    double moves[2] = {feet, half_move(feet)};
    for (int m = 0; m < (moves[1] == feet ? 1 : 2); m++)
        for (int i = 0; i < size_count; i++) {
            const Plan *other = &sizes[i].plan;
            Candidate pair = {
                .kind = bigger->kind, .with = with->kind, .plan = bigger->plan, .find_aim = true};
            pair.plan.stance = now->stance + moves[m];
            if (facet == FACET_SPEED)
                pair.plan.mph_change = other->mph_change;
            if (facet == FACET_LOFT)
                pair.plan.loft_change_ft = other->loft_change_ft;
            if (facet == FACET_ROTATION)
                pair.plan.rotation_change_deg = other->rotation_change_deg;
            add(list, &pair);
        }
}

int pairs_list(const Setting *setting, const Single *singles, int count, Candidate *out, int max)
{
    List list = {.setting = setting, .out = out, .max = max};
    const Single *best[FACET_COUNT] = {0};
    for (int i = 0; i < count; i++) {
        Facet facet = facet_of(singles[i].candidate.kind);
        if (facet < FACET_COUNT && (!best[facet] || singles[i].score > best[facet]->score))
            best[facet] = &singles[i];
    }
    for (int a = 0; a < FACET_COUNT; a++)
        for (int b = a + 1; b < FACET_COUNT; b++)
            if (best[a] && best[b] && go_together((Facet)a, (Facet)b))
                add_pair(&list, &best[a]->candidate, &best[b]->candidate);
    return list.count;
}
