/* eyes_best.c - the best ball and line over some lanes, in four rounds: every ball and line on few
 * lanes, many of them on more, the best and their neighbours on more, the best of these on all. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "core/advice/candidates.h"
#include "core/advice/forecast.h"
#include "core/pins/rack.h"
#include "eyes.h"

#define LAYDOWN_LOW 8.0
#define LAYDOWN_HIGH 36.0
#define LAYDOWN_STEP 2.0
#define AIM_OUT 15.0 /* boards from the laydown to the first aim tried */
enum { AIMS = 17, TRIES_MAX = 1600, MANY = 300, KEPT = 32, LAST = 24 };
#define PIN_WORTH 0.03 /* of a strike, for each pin of the first ball: as the advisor ranks */

typedef struct Try {
    Plan plan;
    double strike, value; /* sums over the lanes */
} Try;

typedef struct Search {
    const Bag *bag;
    const EyesLane *lanes;
    int lane_count;
    BatchBall ball[BAG_SLOTS];
    double shift[4]; /* of the throws */
    int count;
    Try tries[TRIES_MAX]; /* those of a ball together */
} Search;

static void add_try(Search *s, int slot, double laydown, double aim)
{
    const Bowler *bowler = &s->bag->bowler;
    Plan plan = {.slot = slot, .stance = delivery_stance(bowler, laydown), .aim = aim};
    if (s->count == TRIES_MAX || !candidate_on_lane(bowler, &plan))
        return;
    for (int i = 0; i < s->count; i++)
        if (plan_same(&s->tries[i].plan, &plan))
            return;
    s->tries[s->count++] = (Try){.plan = plan};
}

static int by_slot(const void *a, const void *b)
{
    return ((const Try *)a)->plan.slot - ((const Try *)b)->plan.slot;
}

static int by_value(const void *a, const void *b)
{
    double x = ((const Try *)a)->value, y = ((const Try *)b)->value;
    return x < y ? 1 : x > y ? -1 : 0;
}

/* All tries of one ball on one lane, with one throw's scatter. */
static void roll_tries(Search *s, int first, int last, const EyesLane *lane, const BatchOil *oil,
                       const DeliveryOffset *off)
{
    static BatchThrow tosses[TRIES_MAX];
    static Arrival at[TRIES_MAX];
    int slot = s->tries[first].plan.slot, count = last - first;
    double pounds = bag_slot(s->bag, slot)->pounds;
    DeliveryOffset day = {.mph = lane->mph, .launch_deg = lane->launch_deg};
    BatchBall ball;
    eyes_ball(&s->ball[slot - 1], lane->mu_film[slot - 1], lane->dry, lane->fade, &ball);
    for (int i = 0; i < count; i++) {
        Delivery meant = plan_delivery(&s->bag->bowler, &s->tries[first + i].plan);
        meant = delivery_offset(&meant, &day);
        tosses[i] = (BatchThrow){
            .delivery = delivery_offset(&meant, off), .film_scale = 1.0f, .dry_scale = 1.0f};
    }
    batch_arrive(&ball, oil, tosses, count, at);
    for (int i = 0; i < count; i++) {
        Try *try = &s->tries[first + i];
        if (at[i].gutter)
            continue;
        double strike = rack_strike(at[i].board, at[i].degrees, at[i].mph, pounds);
        try->strike += strike;
        try->value +=
            strike + PIN_WORTH * rack_pinfall(at[i].board, at[i].degrees, at[i].mph, pounds);
    }
}

/* Every try on `count` of the lanes, each with its own throw. */
static void roll_all(Search *s, int count)
{
    static BatchOil oil;
    for (int i = 0; i < s->count; i++)
        s->tries[i].strike = s->tries[i].value = 0.0;
    for (int d = 0; d < count; d++) {
        const EyesLane *lane = &s->lanes[d % s->lane_count];
        DeliveryOffset off = eyes_scatter(d, s->shift, &s->bag->bowler.scatter);
        if (d == 0 || s->lane_count > 1)
            batch_oil(lane->film, BATCH_ROUGH, &oil);
        for (int first = 0, last; first < s->count; first = last) {
            int slot = s->tries[first].plan.slot;
            for (last = first; last < s->count && s->tries[last].plan.slot == slot; last++)
                ;
            roll_tries(s, first, last, lane, &oil, &off);
        }
    }
}

/* The same, and the best come first. */
static void rank_all(Search *s, int count)
{
    qsort(s->tries, (size_t)s->count, sizeof *s->tries, by_slot);
    roll_all(s, count);
    qsort(s->tries, (size_t)s->count, sizeof *s->tries, by_value);
}

static void add_neighbours(Search *s)
{
    int best = s->count;
    for (int i = 0; i < best; i++) {
        Plan plan = s->tries[i].plan;
        double laydown = plan.stance - s->bag->bowler.laydown_offset_boards;
        for (int half = -1; half <= 1; half++) {
            add_try(s, plan.slot, laydown, plan.aim + 0.5 * half);
            add_try(s, plan.slot, laydown - 1.0, plan.aim + 0.5 * half);
            add_try(s, plan.slot, laydown + 1.0, plan.aim + 0.5 * half);
        }
    }
}

static void list_all(Search *s, const Plan *now)
{
    double low = LAYDOWN_LOW, high = LAYDOWN_HIGH;
    for (int slot = 1; slot <= BAG_SLOTS; slot++) {
        const Ball *ball = bag_slot(s->bag, slot);
        if (!ball || (slot != now->slot && ball->cover == COVER_POLYESTER))
            continue;
        for (double laydown = low; laydown <= high; laydown += LAYDOWN_STEP)
            for (int i = 0; i < AIMS; i++)
                add_try(s, slot, laydown, laydown - AIM_OUT + i);
    }
}

/* What the choice is worth on all lanes, by other throws than those it was chosen by. */
static void state(Search *s, const Plan *plan, EyesBest *best)
{
    static const double SHARE[5] = {0.0, 0.3, 0.3, 0.2, 0.2}; /* of bad releases; 0: none */
    const Bowler *bowler = &s->bag->bowler;
    double by = WORLD_KIN_SENSES.bad_deviations, bad = WORLD_KIN_SENSES.bad_share, spoilt = 0.0;
    double laydown = plan->stance - bowler->laydown_offset_boards;
    double launch = delivery_launch_deg(laydown, plan->aim), off = by * bowler->scatter.launch_deg;
    for (int k = 0; k < 5; k++)
        s->tries[k] = (Try){.plan = *plan};
    s->tries[1].plan.aim = delivery_aim_board(laydown, launch - off);
    s->tries[2].plan.aim = delivery_aim_board(laydown, launch + off);
    s->tries[3].plan.mph_change += by * bowler->scatter.mph;
    s->tries[4].plan.mph_change -= by * bowler->scatter.mph;
    s->count = 5;
    roll_all(s, EYES_DRAWS);
    for (int k = 1; k < 5; k++)
        spoilt += SHARE[k] * s->tries[k].strike / EYES_DRAWS;
    best->strike = s->tries[0].strike / EYES_DRAWS;
    best->strike_bad = (1.0 - bad) * best->strike + bad * spoilt;
}

/* The balls of a bag, and nothing tried. */
static void begin(Search *s, const Bag *bag)
{
    memset(s, 0, sizeof *s);
    s->bag = bag;
    for (int slot = 0; slot < BAG_SLOTS; slot++)
        if (bag_slot(bag, slot + 1)) {
            MotionBody body;
            motion_body(bag_slot(bag, slot + 1), &body);
            batch_ball(&body, &s->ball[slot]);
        }
}

/* Only the best of them. */
static void keep(Search *s, int count) { s->count = s->count < count ? s->count : count; }

EyesBest eyes_best(const Bag *bag, const EyesLane *lanes, int count, const Plan *now, uint64_t seed)
{
    static Search s;
    EyesBest best;
    Rng rng = rng_seed(seed);
    begin(&s, bag);
    s.lanes = lanes;
    s.lane_count = count;
    for (int d = 0; d < 4; d++)
        s.shift[d] = rng_uniform(&rng);
    list_all(&s, now);
    rank_all(&s, 8);
    keep(&s, MANY);
    rank_all(&s, 24);
    keep(&s, KEPT);
    s.tries[s.count++] = (Try){.plan = *now};
    add_neighbours(&s);
    rank_all(&s, 64);
    keep(&s, LAST);
    rank_all(&s, EYES_DRAWS);
    best.plan = s.tries[0].plan;
    for (int d = 0; d < 4; d++)
        s.shift[d] = rng_uniform(&rng);
    state(&s, &best.plan, &best);
    return best;
}

/* Every try by the belief's forecast, and the best come first. */
static void rank_believed(Search *s, const Forecast *forecast, const Belief *belief, bool rough)
{
    for (int i = 0; i < s->count; i++) {
        Try *try = &s->tries[i];
        const Ball *ball = bag_slot(s->bag, try->plan.slot);
        const BatchBall *batch = &s->ball[try->plan.slot - 1];
        Delivery meant = plan_delivery(&s->bag->bowler, &try->plan);
        int which = belief_ball(belief, ball->id);
        Outlook outlook = rough ? forecast_rough(forecast, which, batch, &meant)
                                : forecast_delivery(forecast, which, batch, &meant);
        try->strike = outlook.strike;
        try->value = outlook.strike + PIN_WORTH * outlook.pinfall;
    }
    qsort(s->tries, (size_t)s->count, sizeof *s->tries, by_value);
}

EyesBest eyes_believed(const Bag *bag, const Belief *belief, Side lane, const Plan *now)
{
    static Search s;
    static Forecast forecast;
    forecast_prepare(&forecast, belief, lane, &bag->bowler);
    begin(&s, bag);
    list_all(&s, now);
    rank_believed(&s, &forecast, belief, true);
    keep(&s, KEPT);
    s.tries[s.count++] = (Try){.plan = *now};
    add_neighbours(&s);
    rank_believed(&s, &forecast, belief, true);
    keep(&s, LAST);
    rank_believed(&s, &forecast, belief, false);
    return (EyesBest){.plan = s.tries[0].plan, .strike = s.tries[0].strike};
}
