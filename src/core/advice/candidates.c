/* candidates.c - how much to move, turn or speed up, where the rules only say what. */
#include "core/advice/candidates.h"

#include <math.h>

#include "base/text.h"
#include "core/line/strength.h"

#define READ_FT 1.0 /* balls whose moves are closer together than this read alike */
#define SMOOTHER_DIFFERENTIAL_IN 0.006
#define MOVE_MAX 14 /* boards with the feet at once */
#define LOFT_MIN_FT 0.5
#define LOFT_MAX_FT 6.0 /* nobody is asked for more */
#define MPH_CHANGE_MAX 1.5
/* Who throws slower is most often a child, or old: such a one is not asked to throw harder or to
 * loft it (common practice, no source). */
#define FORCE_MPH_LEAST 15.0

typedef struct List {
    Candidate *out;
    int count, max;
} List;

/* Nobody stands or aims finer than half a board, whatever the plan says that a change begins from.
 */
static void add(List *list, Candidate candidate)
{
    if (candidate.kind != ADJUST_HOLD) {
        candidate.plan.stance = lane_half_board(candidate.plan.stance);
        candidate.plan.aim = lane_half_board(candidate.plan.aim);
    }
    if (list->count < list->max)
        list->out[list->count++] = candidate;
}

double candidate_feet_in(const Plan *from, const Plan *to)
{
    return lane_half_board(to->stance) - lane_half_board(from->stance);
}

double candidate_eyes_in(const Plan *from, const Plan *to)
{
    return lane_half_board(to->aim) - lane_half_board(from->aim);
}

bool candidate_on_lane(const Bowler *bowler, const Plan *plan)
{
    double laydown = plan->stance - bowler->laydown_offset_boards;
    return laydown >= 2.0 && laydown <= LANE_BOARDS - 1.0 && plan->stance >= DELIVERY_STANCE_LOW &&
           plan->stance <= DELIVERY_STANCE_HIGH;
}

/* 1 in, -1 out. */
static int way_of(AdjustmentKind kind) { return ADJUSTMENTS[kind].step > 0.0 ? 1 : -1; }

static void add_moves(List *list, const Setting *setting, AdjustmentKind kind)
{
    for (int boards = setting->least_move; boards <= MOVE_MAX; boards += boards < 6 ? 1 : 2) {
        Candidate candidate = {.kind = kind, .plan = setting->plan, .find_aim = true};
        candidate.plan.stance += way_of(kind) * boards;
        if (candidate_on_lane(setting->bowler, &candidate.plan))
            add(list, candidate);
    }
}

static void add_aims(List *list, const Setting *setting, AdjustmentKind kind)
{
    static const double BOARDS[] = {0.5, 1.0, 1.5, 2.0, 3.0};
    for (int i = 0; i < 5; i++) {
        Candidate candidate = {.kind = kind, .plan = setting->plan};
        candidate.plan.aim += way_of(kind) * BOARDS[i];
        add(list, candidate);
    }
}

static bool smoother(const Ball *ball, const Ball *than)
{
    if (ball->cover == COVER_URETHANE && than->cover != COVER_URETHANE)
        return true;
    if (ball->differential_in < than->differential_in - SMOOTHER_DIFFERENTIAL_IN)
        return ball->cover <= than->cover || ball->cover == COVER_URETHANE;
    return ball->cover == COVER_SOLID &&
           (than->cover == COVER_PEARL || than->cover == COVER_HYBRID);
}

static bool slot_fits(const Setting *setting, AdjustmentKind kind, int slot)
{
    const SlotTrait *trait = &setting->traits[slot - 1];
    const SlotTrait *in_hand = &setting->traits[setting->plan.slot - 1];
    const Ball *ball = bag_slot(setting->bag, slot);
    const Ball *current = bag_slot(setting->bag, setting->plan.slot);
    if (slot == setting->plan.slot || !trait->strikes || !ball || !current)
        return false;
    switch (kind) {
    case ADJUST_BALL_DOWN:
        return trait->strength < in_hand->strength - STRENGTH_ALIKE;
    case ADJUST_BALL_UP:
        return trait->strength > in_hand->strength + STRENGTH_ALIKE;
    case ADJUST_ROUGHER:
        return trait->hook_ft < in_hand->hook_ft - READ_FT;
    case ADJUST_CLEANER:
        return trait->hook_ft > in_hand->hook_ft + READ_FT;
    case ADJUST_SMOOTHER:
        return smoother(ball, current);
    default:
        return false;
    }
}

static AdjustmentKind name_of_slot(const Setting *setting, int slot, const double *vote,
                                   const bool *avoided)
{
    AdjustmentKind best = ADJUST_HOLD;
    for (int kind = 0; kind < ADJUST_COUNT; kind++)
        if (!avoided[kind] && slot_fits(setting, (AdjustmentKind)kind, slot) &&
            (best == ADJUST_HOLD || vote[kind] > vote[best]))
            best = (AdjustmentKind)kind;
    return best;
}

void candidates_name_balls(Setting *setting, const double *vote, const bool *avoided)
{
    for (int slot = 1; slot <= BAG_SLOTS; slot++)
        setting->slot_kind[slot - 1] = name_of_slot(setting, slot, vote, avoided);
}

static void add_balls(List *list, const Setting *setting, AdjustmentKind kind)
{
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        if (setting->slot_kind[slot - 1] != kind)
            continue;
        for (int i = 0; i <= MOVE_MAX; i++) { /* here, then 2 out, 2 in, 4 out, ... */
            int boards = (i % 2 ? -2 : 2) * ((i + 1) / 2);
            Candidate candidate = {.kind = kind, .plan = setting->plan, .find_aim = true};
            candidate.plan.slot = slot;
            candidate.plan.stance += boards;
            candidate.plan.mph_change = candidate.plan.loft_change_ft = 0.0;
            candidate.plan.rotation_change_deg = 0.0;
            if (boards == 0 || candidate_on_lane(setting->bowler, &candidate.plan))
                add(list, candidate);
        }
    }
}

/* Speed, loft and hand are tried at one and two steps. Each shifts the hit by a board or more, so a
 * new aim is found. */
static void add_speeds(List *list, const Setting *setting, AdjustmentKind kind)
{
    if (way_of(kind) > 0 && setting->bowler->mph < FORCE_MPH_LEAST)
        return;
    for (int i = 1; i <= 2; i++) {
        Candidate candidate = {.kind = kind, .plan = setting->plan, .find_aim = true};
        candidate.plan.mph_change += ADJUSTMENTS[kind].step * i;
        if (fabs(candidate.plan.mph_change) <= MPH_CHANGE_MAX)
            add(list, candidate);
    }
}

static void add_lofts(List *list, const Setting *setting, AdjustmentKind kind)
{
    if (way_of(kind) > 0 && setting->bowler->mph < FORCE_MPH_LEAST)
        return;
    for (int i = 1; i <= 2; i++) {
        Candidate candidate = {.kind = kind, .plan = setting->plan, .find_aim = true};
        candidate.plan.loft_change_ft += ADJUSTMENTS[kind].step * i;
        double loft = setting->bowler->loft_ft + candidate.plan.loft_change_ft;
        if (loft >= LOFT_MIN_FT && loft <= LOFT_MAX_FT)
            add(list, candidate);
    }
}

/* Only as far as the bowler says they can. */
static void add_rotations(List *list, const Setting *setting, AdjustmentKind kind)
{
    const Bowler *bowler = setting->bowler;
    for (int i = 1; i <= 2 && bowler_turns(bowler); i++) {
        Candidate candidate = {.kind = kind, .plan = setting->plan, .find_aim = true};
        candidate.plan.rotation_change_deg += ADJUSTMENTS[kind].step * i;
        double rotation = bowler->rotation_deg + candidate.plan.rotation_change_deg;
        if (rotation >= bowler->rotation_least_deg && rotation <= bowler->rotation_most_deg)
            add(list, candidate);
    }
}

/* The next abrasive of a usual set, rougher or finer; only outside certified play. */
static void add_surface(List *list, const Setting *setting, AdjustmentKind kind)
{
    static const double SET[] = {500, 1000, 1500, 2000, 3000, 4000};
    enum { SETS = 6 };
    const Ball *ball = bag_slot(setting->bag, setting->plan.slot);
    if (setting->certified || !ball || ball->cover == COVER_POLYESTER)
        return;
    double grit = ball->surface.finish == FINISH_GRIT ? ball->surface.grit : 5000.0, chosen = 0.0;
    for (int i = 0; i < SETS; i++) {
        bool finer = ADJUSTMENTS[kind].step > 0.0;
        if (!finer && SET[i] < grit - 1.0)
            chosen = SET[i]; /* the nearest below */
        if (finer && SET[i] > grit + 1.0 && chosen == 0.0)
            chosen = SET[i]; /* the nearest above */
    }
    if (chosen > 0.0)
        add(list,
            (Candidate){
                .kind = kind, .plan = setting->plan, .find_aim = true, .surface_grit = chosen});
}

bool candidate_unasked(AdjustmentKind kind)
{
    Change changes = ADJUSTMENTS[kind].changes;
    return changes == CHANGE_FEET || changes == CHANGE_EYES || changes == CHANGE_BALL;
}

static void add_hold(List *list, const Setting *setting, AdjustmentKind kind)
{
    add(list, (Candidate){.kind = kind, .plan = setting->plan});
}

int candidates_list(const Setting *setting, AdjustmentKind kind, Candidate *out, int max)
{
    static void (*const ADD[])(List *, const Setting *, AdjustmentKind) = {
        [CHANGE_NOTHING] = add_hold,       [CHANGE_BALL] = add_balls,     [CHANGE_FEET] = add_moves,
        [CHANGE_EYES] = add_aims,          [CHANGE_SPEED] = add_speeds,   [CHANGE_LOFT] = add_lofts,
        [CHANGE_ROTATION] = add_rotations, [CHANGE_SURFACE] = add_surface};
    List list = {out, 0, max};
    ADD[ADJUSTMENTS[kind].changes](&list, setting, kind);
    return list.count;
}

/* Whether moving feet and eyes that many boards in is still that move: the eyes follow the feet,
 * but less far. */
static bool still(AdjustmentKind kind, double feet, double eyes)
{
    bool in = way_of(kind) > 0;
    if (ADJUSTMENTS[kind].changes == CHANGE_FEET)
        return in ? eyes >= 0.0 && eyes <= feet + 0.5 : eyes <= 0.5 && eyes >= feet - 0.5;
    if (ADJUSTMENTS[kind].changes == CHANGE_EYES)
        return in ? eyes > 0.0 : eyes < 0.0;
    return true;
}

bool candidate_fits(const Setting *setting, const Candidate *candidate)
{
    double feet = candidate_feet_in(&setting->plan, &candidate->plan);
    double eyes = candidate_eyes_in(&setting->plan, &candidate->plan);
    return still(candidate->kind, feet, eyes) && still(candidate->with, feet, eyes) &&
           candidate->plan.aim > -1.0;
}

double candidate_cost(const Setting *setting, const Candidate *candidate)
{
    const Plan *to = &candidate->plan, *from = &setting->plan;
    double cost = 0.001 * (fabs(to->stance - from->stance) + fabs(to->aim - from->aim));
    if (to->slot != from->slot)
        cost += 0.01;
    cost += 0.05 * fabs(to->mph_change - from->mph_change);
    cost += 0.02 * fabs(to->loft_change_ft - from->loft_change_ft);
    cost += 0.003 * fabs(to->rotation_change_deg - from->rotation_change_deg);
    if (candidate->surface_grit > 0.0)
        cost += 0.02;
    if (setting->strikes_rare && ADJUSTMENTS[candidate->kind].changes == CHANGE_EYES)
        cost += 0.03; /* a straight ball follows the feet: the target stays (common practice) */
    return cost;
}

void candidate_changes(const Plan *from, const Plan *to, char *out, size_t size)
{
    double mph = to->mph_change - from->mph_change;
    double loft = to->loft_change_ft - from->loft_change_ft;
    double turned = to->rotation_change_deg - from->rotation_change_deg;
    out[0] = '\0';
    if (mph != 0.0)
        text_append(out, size, "%+g mph", mph);
    if (loft != 0.0)
        text_append(out, size, "%s%+g ft of loft", out[0] ? ", " : "", loft);
    if (turned != 0.0)
        text_append(out, size, "%s%g degrees %s rotation", out[0] ? ", " : "", fabs(turned),
                    turned > 0.0 ? "more" : "less");
}

static void add_line_words(const Plan *from, const Plan *to, const char *before, char *out,
                           size_t size)
{
    const double boards[2] = {candidate_feet_in(from, to), candidate_eyes_in(from, to)};
    static const char *const WITH[2] = {"feet", "eyes"};
    if (boards[0] == 0.0 && boards[1] == 0.0)
        text_append(out, size, ", same line");
    for (int i = 0; i < 2; i++)
        if (boards[i] != 0.0) {
            text_append(out, size, "%s%g %s with the %s", before, fabs(boards[i]),
                        boards[i] > 0.0 ? "in" : "out", WITH[i]);
            before = ", ";
        }
}

static const char *add_words(const char *before, const char *words, char *out, size_t size)
{
    if (!words[0])
        return before;
    text_append(out, size, "%s%s", before, words);
    return ", ";
}

/* How bowlers call a move of feet and eyes, boards in: feet only, parallel, 2-and-1, 3-and-2. */
static void add_move_name(const Plan *from, const Plan *to, char *out, size_t size)
{
    double feet = fabs(to->stance - from->stance), eyes = fabs(to->aim - from->aim);
    if (eyes == 0.0)
        text_append(out, size, ", feet only");
    else if (eyes == feet)
        text_append(out, size, ", parallel");
    else if (feet == floor(feet) && eyes == floor(eyes))
        text_append(out, size, " %g-and-%g", feet, eyes);
}

void candidate_words(const Setting *setting, const Candidate *candidate, char *out, size_t size)
{
    const Plan *to = &candidate->plan, *from = &setting->plan;
    const char *name = ADJUST_WORDS[candidate->kind], *before = ": ";
    bool pair = candidate->with != ADJUST_HOLD;
    char changes[96], grit[32] = "";
    out[0] = '\0';
    text_append(out, size, "%c%s", name[0] - 'a' + 'A', name + 1);
    if (to->slot != from->slot) {
        const Ball *ball = bag_slot(setting->bag, to->slot);
        text_append(out, size, ", %d %s", to->slot, ball ? ball->name : "");
    }
    if (candidate->kind == ADJUST_HOLD) {
        text_append(out, size, ": same ball, same line");
        return;
    }
    if (ADJUSTMENTS[candidate->kind].changes == CHANGE_FEET)
        add_move_name(from, to, out, size);
    candidate_changes(from, to, changes, sizeof changes);
    if (candidate->surface_grit > 0.0)
        text_append(grit, sizeof grit, "%.0f grit", candidate->surface_grit);
    before = add_words(before, pair ? "" : changes, out, size);
    before = add_words(before, grit, out, size);
    add_line_words(from, to, before, out, size);
    if (pair)
        text_append(out, size, "; and %s", changes);
}
