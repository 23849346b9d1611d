/* place.c - what each ball of a set is for, when it comes out, and who could stand in. */
#include <math.h>
#include <string.h>

#include "base/sort.h"
#include "base/text.h"
#include "core/arsenal/arsenal_parts.h"

#define LEAD_LEAST 0.0005 /* value: a ball that adds less has no job of its own; assumed */
#define WHEN_SCALE                                                                                 \
    0.02 /* of value: how far behind the best a ball still counts as in use; assumed               \
          */

static const char *const LEADS[LANE_STATE_COUNT] = {"first out on fresh oil",
                                                    "the middle of the block",
                                                    "the end of the block, oil gone",
                                                    "oil that was carried down",
                                                    "a lane that plays long",
                                                    "a lane that plays short",
                                                    "a cliff: much oil inside, little out"};
static const char *const MOTIONS[] = {"moves first", "moves last", "turns the corner most",
                                      "smoothest, least angle", "between"};

static const double *values(const Arsenal *arsenal, const SetBall *place)
{
    const ArsenalBall *ball = &arsenal->ball[place->ball];
    return place->surface < 0 ? ball->value : ball->surface[place->surface].value;
}

/* Value before a game (0: the first); with another surface interpolated from fresh, half and end.
 */
static double game_value(const Arsenal *arsenal, const SetBall *place, int game)
{
    if (place->surface < 0)
        return arsenal->ball[place->ball].at[game].value;
    const double *value = values(arsenal, place);
    double at = 2.0 * game / arsenal->games;
    int part = at < 1.0 ? 0 : 1;
    value += (size_t)part * STATE_VOLUMES;
    double low = value[0], high = value[STATE_VOLUMES];
    return low + (at - part) * (high - low);
}

static double first_move(const Arsenal *arsenal, const SetBall *place)
{
    const ArsenalBall *ball = &arsenal->ball[place->ball];
    double ft =
        place->surface < 0 ? ball->at[0].line.hook_ft : ball->surface[place->surface].hook_ft;
    return isnan(ft) ? LANE_LENGTH_FT : ft;
}

static double entry(const Arsenal *arsenal, const SetBall *place)
{
    const ArsenalBall *ball = &arsenal->ball[place->ball];
    double deg =
        place->surface < 0 ? ball->at[0].line.entry_deg : ball->surface[place->surface].entry_deg;
    return isnan(deg) ? 0.0 : deg;
}

/* A set's value with `with` in place i (a ball as it is; -1: nothing). */
static double value_with(const Arsenal *arsenal, const Set *set, int i, int with)
{
    double sum = 0.0;
    for (int f = 0; f < STATE_FILMS; f++) {
        double top = with >= 0 ? arsenal->ball[with].value[f] : 0.0;
        for (int k = 0; k < set->count; k++)
            if (k != i && !set->place[k].spare)
                top = fmax(top, values(arsenal, &set->place[k])[f]);
        sum += arsenal_film_weight(arsenal, f) * top;
    }
    return sum;
}

/* The lane state where it adds most to the set. */
static void find_lead(const Arsenal *arsenal, const Set *set, int i, SetBall *place)
{
    double most = 0.0, all = 0.0;
    place->lead = -1;
    place->share = 0.0;
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        double sum = 0.0;
        for (int v = 0; v < STATE_VOLUMES; v++) {
            int film = s * STATE_VOLUMES + v;
            double best = 0.0, weight = arsenal_film_weight(arsenal, film);
            for (int k = 0; k < set->count; k++)
                if (k != i && !set->place[k].spare)
                    best = fmax(best, values(arsenal, &set->place[k])[film]);
            double lead = values(arsenal, place)[film] - best;
            sum += lead > 0.0 ? weight * lead : 0.0;
            place->share += lead > 0.0 ? weight : 0.0;
        }
        all += sum;
        if (sum > most) {
            most = sum;
            place->lead = s;
        }
    }
    if (all < LEAD_LEAST)
        place->lead = -1;
}

static void find_when(const Arsenal *arsenal, const Set *set, SetBall *place)
{
    double sum = 0.0, games = 0.0;
    place->game_from = place->game_to = 0;
    for (int game = 1; game <= arsenal->games; game++) {
        double best = 0.0, mine = game_value(arsenal, place, game - 1);
        for (int k = 0; k < set->count; k++)
            if (!set->place[k].spare)
                best = fmax(best, game_value(arsenal, &set->place[k], game - 1));
        double use = exp((mine - best) / WHEN_SCALE);
        sum += use;
        games += use * game;
        if (mine >= best - 0.5 * ARSENAL_NEAR) {
            place->game_from = place->game_from ? place->game_from : game;
            place->game_to = game;
        }
    }
    place->when = sum > 0.0 ? games / sum : 0.0;
}

static void find_like(const Arsenal *arsenal, const Set *set, int i, SetBall *place)
{
    double nearest = INFINITY;
    place->like = -1;
    for (int k = 0; k < set->count; k++) {
        double away = 0.0;
        for (int f = 0; f < STATE_FILMS; f++)
            away += arsenal_film_weight(arsenal, f) *
                    fabs(values(arsenal, &set->place[k])[f] - values(arsenal, place)[f]);
        if (k != i && !set->place[k].spare && away < nearest) {
            nearest = away;
            place->like = set->place[k].ball;
        }
    }
}

static void find_stand_in(const Arsenal *arsenal, const Bag *bag, const Set *set, int i,
                          SetBall *place)
{
    double most = -1.0;
    place->stand_in = -1;
    for (int b = 0; b < bag->count; b++) {
        bool in_set = arsenal->ball[b].spare;
        for (int k = 0; k < set->count; k++)
            in_set = in_set || set->place[k].ball == b;
        double value = in_set ? -1.0 : value_with(arsenal, set, i, b);
        if (value > most) {
            most = value;
            place->stand_in = b;
        }
    }
    if (most < 0.0)
        place->stand_in = -1;
    place->loss = place->stand_in < 0 ? 0.0 : set->value - most;
}

static Reaction find_motion(const Arsenal *arsenal, const Set *set, const SetBall *place)
{
    int earlier = 0, later = 0, stronger = 0, smoother = 0, others = 0;
    for (int k = 0; k < set->count; k++) {
        const SetBall *other = &set->place[k];
        if (other == place || other->spare)
            continue;
        others++;
        earlier += first_move(arsenal, other) < first_move(arsenal, place);
        later += first_move(arsenal, other) > first_move(arsenal, place);
        stronger += entry(arsenal, other) > entry(arsenal, place);
        smoother += entry(arsenal, other) < entry(arsenal, place);
    }
    if (others == 0)
        return REACTION_BETWEEN;
    return earlier == 0    ? REACTION_EARLIEST
           : later == 0    ? REACTION_LATEST
           : stronger == 0 ? REACTION_STRONGEST
           : smoother == 0 ? REACTION_SMOOTHEST
                           : REACTION_BETWEEN;
}

static void say_job(const Bag *bag, SetBall *place)
{
    place->job[0] = '\0';
    if (place->spare)
        text_append(place->job, sizeof place->job, "spares: the straightest");
    else if (place->lead >= 0)
        text_append(place->job, sizeof place->job, "%s; %s", LEADS[place->lead],
                    MOTIONS[place->motion]);
    else if (place->like >= 0)
        text_append(place->job, sizeof place->job, "in reserve: adds little, nearest to %s",
                    bag->balls[place->like].name);
    else
        text_append(place->job, sizeof place->job, "in reserve");
}

/* The spare ball comes out last. */
static bool comes_out_before(const void *a, const void *b)
{
    const SetBall *one = a, *other = b;
    return one->spare != other->spare ? other->spare : one->when < other->when;
}

void arsenal_place(const Arsenal *arsenal, const Bag *bag, Set *set)
{
    set->value = value_with(arsenal, set, -1, -1);
    for (int i = 0; i < set->count; i++) {
        SetBall *place = &set->place[i];
        place->lead = place->like = place->stand_in = -1;
        place->motion = REACTION_BETWEEN;
        place->when = arsenal->games + 1.0;
        if (!place->spare) {
            find_lead(arsenal, set, i, place);
            find_when(arsenal, set, place);
            find_like(arsenal, set, i, place);
            find_stand_in(arsenal, bag, set, i, place);
            place->gives = set->value - value_with(arsenal, set, i, -1);
            place->motion = find_motion(arsenal, set, place);
        }
        say_job(bag, place);
    }
    sort_items(set->place, (size_t)set->count, sizeof set->place[0], comes_out_before);
}
