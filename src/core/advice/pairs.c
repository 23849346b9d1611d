/* pairs.c - which two changes go together, and in what sizes. */
#include "core/advice/pairs.h"

#include <math.h>

/* What an action changes, in the order in which the parts of a pair are named. */
typedef enum Facet {
    KIND_BALL,
    KIND_LINE,
    KIND_SPEED,
    KIND_LOFT,
    KIND_ROTATION,
    KIND_COUNT,
    KIND_ALONE /* holding; a surface, after which the lane is looked at anew */
} Facet;

static Facet facet_of(AdjustmentKind kind)
{
    switch (kind) {
    case ADJUST_BALL_DOWN:
    case ADJUST_BALL_UP:
    case ADJUST_ROUGHER:
    case ADJUST_CLEANER:
    case ADJUST_SMOOTHER:
        return KIND_BALL;
    case ADJUST_MOVE_IN:
    case ADJUST_MOVE_OUT:
    case ADJUST_AIM_IN:
    case ADJUST_AIM_OUT:
        return KIND_LINE;
    case ADJUST_FASTER:
    case ADJUST_SLOWER:
        return KIND_SPEED;
    case ADJUST_LOFT_MORE:
    case ADJUST_LOFT_LESS:
        return KIND_LOFT;
    case ADJUST_ROTATION_MORE:
    case ADJUST_ROTATION_LESS:
        return KIND_ROTATION;
    default:
        return KIND_ALONE;
    }
}

/* Common practice, no source: a move goes with anything, a new ball with speed or the hand (its own
 * line comes with it anyway); the body changes one thing at a time. */
static bool go_together(Facet bigger, Facet with)
{
    if (bigger == KIND_BALL)
        return with == KIND_SPEED || with == KIND_ROTATION;
    return bigger == KIND_LINE && with > KIND_LINE;
}

typedef struct List {
    const Setting *setting;
    Candidate *out;
    int count, max;
} List;

static void add(List *list, const Candidate *candidate)
{
    double laydown = candidate->plan.stance - list->setting->bowler->laydown_offset_boards;
    if (list->count < list->max && laydown >= 2.0 && laydown <= 38.0)
        list->out[list->count++] = *candidate;
}

/* A change alone does the whole work; beside another half of it may do. */
static double half_move(double boards)
{
    return boards > 0.0 ? ceil(boards / 2) : floor(boards / 2);
}

/* The bigger part as it was best, and once with half its move; the other in each of its sizes. */
static void add_pair(List *list, const Candidate *bigger, const Candidate *with)
{
    const Plan *now = &list->setting->plan;
    Facet kind = facet_of(with->kind);
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
            if (kind == KIND_SPEED)
                pair.plan.mph_change = other->mph_change;
            if (kind == KIND_LOFT)
                pair.plan.loft_change_ft = other->loft_change_ft;
            if (kind == KIND_ROTATION)
                pair.plan.rotation_change_deg = other->rotation_change_deg;
            add(list, &pair);
        }
}

int pairs_list(const Setting *setting, const Single *singles, int count, Candidate *out, int max)
{
    List list = {.setting = setting, .out = out, .max = max};
    const Single *best[KIND_COUNT] = {0};
    for (int i = 0; i < count; i++) {
        Facet kind = facet_of(singles[i].candidate.kind);
        if (kind < KIND_COUNT && (!best[kind] || singles[i].score > best[kind]->score))
            best[kind] = &singles[i];
    }
    for (int a = 0; a < KIND_COUNT; a++)
        for (int b = a + 1; b < KIND_COUNT; b++)
            if (best[a] && best[b] && go_together((Facet)a, (Facet)b))
                add_pair(&list, &best[a]->candidate, &best[b]->candidate);
    return list.count;
}
