/* audit_place.c - what each ball of a set is for, when it comes out, and who could stand in. */
#include <math.h>
#include <string.h>

#include "base/text.h"
#include "core/audit.h"

#define LEAD_LEAST 0.0005 /* worth: a ball that adds less has no job of its own; assumed */
#define WHEN_SCALE                                                                                 \
    0.02 /* worth: how far behind the best a ball still counts as in use; assumed                  \
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

static const double *worths(const Audit *audit, const Place *place)
{
    const BallAudit *ball = &audit->ball[place->ball];
    return place->surface < 0 ? ball->worth : ball->surface[place->surface].worth;
}

/* Worth before a game (0 the first); with another surface drawn from fresh, half and end. */
static double game_worth(const Audit *audit, const Place *place, int game)
{
    if (place->surface < 0)
        return audit->ball[place->ball].at[game].worth;
    const double *worth = worths(audit, place);
    double at = 2.0 * game / audit->games;
    int part = at < 1.0 ? 0 : 1;
    double low = worth[part * STATE_VOLUMES], high = worth[(part + 1) * STATE_VOLUMES];
    return low + (at - part) * (high - low);
}

static double first_move(const Audit *audit, const Place *place)
{
    const BallAudit *ball = &audit->ball[place->ball];
    double ft = place->surface < 0 ? ball->at[0].line.first_move_ft
                                   : ball->surface[place->surface].first_move_ft;
    return isnan(ft) ? LANE_LENGTH_FT : ft;
}

static double entry(const Audit *audit, const Place *place)
{
    const BallAudit *ball = &audit->ball[place->ball];
    double deg =
        place->surface < 0 ? ball->at[0].line.entry_deg : ball->surface[place->surface].entry_deg;
    return isnan(deg) ? 0.0 : deg;
}

/* A set's worth with `with` in place i (a ball as it is; -1: nothing). */
static double worth_with(const Audit *audit, const Set *set, int i, int with)
{
    double sum = 0.0;
    for (int f = 0; f < STATE_FILMS; f++) {
        double top = with >= 0 ? audit->ball[with].worth[f] : 0.0;
        for (int k = 0; k < set->count; k++)
            if (k != i && !set->place[k].spare)
                top = fmax(top, worths(audit, &set->place[k])[f]);
        sum += audit_film_weight(audit, f) * top;
    }
    return sum;
}

/* Where it does most that no other of the set does. */
static void find_lead(const Audit *audit, const Set *set, int i, Place *place)
{
    double most = 0.0, all = 0.0;
    place->lead = -1;
    place->share = 0.0;
    for (int s = 0; s < LANE_STATE_COUNT; s++) {
        double sum = 0.0;
        for (int v = 0; v < STATE_VOLUMES; v++) {
            int film = s * STATE_VOLUMES + v;
            double best = 0.0, weight = audit_film_weight(audit, film);
            for (int k = 0; k < set->count; k++)
                if (k != i && !set->place[k].spare)
                    best = fmax(best, worths(audit, &set->place[k])[film]);
            double lead = worths(audit, place)[film] - best;
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

static void find_when(const Audit *audit, const Set *set, Place *place)
{
    double sum = 0.0, games = 0.0;
    place->game_from = place->game_to = 0;
    for (int game = 1; game <= audit->games; game++) {
        double best = 0.0, mine = game_worth(audit, place, game - 1);
        for (int k = 0; k < set->count; k++)
            if (!set->place[k].spare)
                best = fmax(best, game_worth(audit, &set->place[k], game - 1));
        double use = exp((mine - best) / WHEN_SCALE);
        sum += use;
        games += use * game;
        if (mine >= best - 0.5 * AUDIT_NEAR) {
            place->game_from = place->game_from ? place->game_from : game;
            place->game_to = game;
        }
    }
    place->when = sum > 0.0 ? games / sum : 0.0;
}

static void find_like(const Audit *audit, const Set *set, int i, Place *place)
{
    double nearest = INFINITY;
    place->like = -1;
    for (int k = 0; k < set->count; k++) {
        double away = 0.0;
        for (int f = 0; f < STATE_FILMS; f++)
            away += audit_film_weight(audit, f) *
                    fabs(worths(audit, &set->place[k])[f] - worths(audit, place)[f]);
        if (k != i && !set->place[k].spare && away < nearest) {
            nearest = away;
            place->like = set->place[k].ball;
        }
    }
}

static void find_stand_in(const Audit *audit, const Bag *bag, const Set *set, int i, Place *place)
{
    double most = -1.0;
    place->stand_in = -1;
    for (int b = 0; b < bag->count; b++) {
        bool in_set = audit->ball[b].spare;
        for (int k = 0; k < set->count; k++)
            in_set = in_set || set->place[k].ball == b;
        double worth = in_set ? -1.0 : worth_with(audit, set, i, b);
        if (worth > most) {
            most = worth;
            place->stand_in = b;
        }
    }
    if (most < 0.0)
        place->stand_in = -1;
    place->loss = place->stand_in < 0 ? 0.0 : set->worth - most;
}

static Motion find_motion(const Audit *audit, const Set *set, const Place *place)
{
    int earlier = 0, later = 0, stronger = 0, smoother = 0, others = 0;
    for (int k = 0; k < set->count; k++) {
        const Place *other = &set->place[k];
        if (other == place || other->spare)
            continue;
        others++;
        earlier += first_move(audit, other) < first_move(audit, place);
        later += first_move(audit, other) > first_move(audit, place);
        stronger += entry(audit, other) > entry(audit, place);
        smoother += entry(audit, other) < entry(audit, place);
    }
    if (others == 0)
        return MOTION_BETWEEN;
    return earlier == 0    ? MOTION_EARLIEST
           : later == 0    ? MOTION_LATEST
           : stronger == 0 ? MOTION_STRONGEST
           : smoother == 0 ? MOTION_SMOOTHEST
                           : MOTION_BETWEEN;
}

static void say_job(const Bag *bag, Place *place)
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

void audit_place(const Audit *audit, const Bag *bag, Set *set)
{
    set->worth = worth_with(audit, set, -1, -1);
    for (int i = 0; i < set->count; i++) {
        Place *place = &set->place[i];
        place->lead = place->like = place->stand_in = -1;
        place->motion = MOTION_BETWEEN;
        place->when = audit->games + 1.0;
        if (!place->spare) {
            find_lead(audit, set, i, place);
            find_when(audit, set, place);
            find_like(audit, set, i, place);
            find_stand_in(audit, bag, set, i, place);
            place->gives = set->worth - worth_with(audit, set, i, -1);
            place->motion = find_motion(audit, set, place);
        }
        say_job(bag, place);
    }
    for (int i = 1; i < set->count; i++) { /* as they come out; the spare ball last */
        Place place = set->place[i];
        int at = i;
        for (; at > 0 &&
               (set->place[at - 1].spare > place.spare ||
                (set->place[at - 1].spare == place.spare && set->place[at - 1].when > place.when));
             at--)
            set->place[at] = set->place[at - 1];
        set->place[at] = place;
    }
}
