/* spare_hits.c - simulated racks for each place of a hit, more of them where it matters. */
#include "core/spare/spare_hits.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"

#define BOARD_IN (LANE_WIDTH_IN / LANE_BOARDS)
/* Ball and pin touch when their centres pass this near: radii 4.2975 and 2.383 in (standards). */
#define TOUCH_IN (4.2975 + 2.383)
#define SPOT_SLACK_IN 0.15 /* how far pins may be off their spots */

/* Rough cost of simulating a rack, microseconds, measured on one core. */
static double rack_cost(int pins) { return 6.0 + 1.75 * pins * pins; }

double spare_pin_board(int pin)
{
    return 0.5 * (LANE_BOARDS + 1) - lane_pin_right_in(pin) / BOARD_IN;
}

/* Boards a path moves toward the other side over that many inches. */
static double drift(double in, double degrees)
{
    return in * tan(rad_from_deg(degrees)) / BOARD_IN;
}

static double foremost_in(Pins left)
{
    for (int pin = 1; pin <= 10; pin++)
        if (left & pin_bit(pin))
            return lane_pin_back_in(pin);
    return 0.0;
}

double spare_hits_across(const SpareHits *hits, double board, double degrees)
{
    return board + drift(hits->back_in, degrees);
}

double spare_board_before(Pins left, double across, double degrees)
{
    return across - drift(foremost_in(left), degrees);
}

int spare_first_pin(Pins left, double board, double degrees, double *right_in)
{
    double way = rad_from_deg(degrees), soonest = INFINITY;
    int first = 0;
    for (int pin = 1; pin <= 10; pin++) {
        if (!(left & pin_bit(pin)))
            continue;
        double back = lane_pin_back_in(pin);
        double off = (spare_pin_board(pin) - board - drift(back, degrees)) * BOARD_IN;
        double aside = off * cos(way); /* at a right angle to the path */
        if (!(fabs(aside) < TOUCH_IN))
            continue;
        double at = back - sqrt(TOUCH_IN * TOUCH_IN - aside * aside);
        if (at < soonest) {
            soonest = at;
            first = pin;
            *right_in = off; /* a higher board is farther left */
        }
    }
    return first;
}

/* Whether a ball on this path may touch a standing pin. */
static bool may_touch(Pins left, double board, double degrees)
{
    for (int pin = 1; pin <= 10; pin++)
        if ((left & pin_bit(pin)) &&
            fabs(spare_pin_board(pin) - board - drift(lane_pin_back_in(pin), degrees)) * BOARD_IN <
                TOUCH_IN + SPOT_SLACK_IN)
            return true;
    return false;
}

/* `times` more racks at one place, spread over its half board. */
static void roll_at(const RackHit *usual, SpareHits *hits, SpareCount *count, int place, int times)
{
    for (int k = 0; k < times; k++) {
        int n = count->racks;
        Rng rng = rng_seed(UINT64_C(0x73706172) + (uint64_t)place * 4099 + (uint64_t)n);
        double within = 0.5 * (rng_uniform(&rng) - 0.5);
        RackHit hit = *usual;
        hit.degrees = hits->degrees;
        hit.board =
            spare_board_before(hits->left, spare_place_board(place) + within, hits->degrees);
        Pins stand = rack_roll(&hit, hits->left, &rng);
        count->racks++;
        count->made += stand == 0;
        count->falls += lane_pin_count(hits->left) - lane_pin_count(stand);
        hits->racks++;
    }
}

/* Averages with the neighbours' racks, weighted by a triangle of that half-width in places. */
static void smooth(SpareHits *hits, const SpareCount *counts, double width)
{
    for (int i = 0; i < SPARE_PLACES; i++) {
        double weights = 0.0, made = 0.0, falls = 0.0;
        for (int j = 0; j < SPARE_PLACES; j++) {
            double weight = width - fabs((double)(i - j));
            if (weight <= 0.0 || counts[j].racks == 0)
                continue;
            weights += weight * counts[j].racks;
            made += weight * counts[j].made;
            falls += weight * counts[j].falls;
        }
        hits->made[i] = weights > 0.0 ? made / weights : 0.0;
        hits->falls[i] = weights > 0.0 ? falls / weights : 0.0;
    }
}

static int best_place(const SpareHits *hits)
{
    int best = 0;
    double most = -1.0;
    for (int i = 0; i < SPARE_PLACES; i++) {
        double value = SPARE_BONUS * hits->made[i] + hits->falls[i];
        if (value > most) {
            most = value;
            best = i;
        }
    }
    return best;
}

/* Places where the ball can't touch a pin count as this many racks without a pin: that holds the
 * curve down at its ends and costs nothing. */
enum { MISSES = 4, NEAR_PLACES = 7 };
/* A step ends after this many microseconds of rack_cost. */
#define STEP_EFFORT 2000.0

void spare_hits_begin(SpareRoll *roll, Pins left, const RackHit *hit, double effort,
                      SpareHits *hits)
{
    *hits = (SpareHits){.left = left, .back_in = foremost_in(left), .degrees = hit->degrees};
    *roll = (SpareRoll){.hit = *hit, .place_last = SPARE_PLACES - 1, .stride = 1};
    int places = 0, pins = lane_pin_count(left);
    for (int i = 0; i < SPARE_PLACES; i++) {
        double board = spare_board_before(left, spare_place_board(i), hits->degrees);
        roll->may[i] = may_touch(left, board, hits->degrees);
        places += roll->may[i];
        if (!roll->may[i])
            roll->count[i].racks = MISSES;
    }
    int most = (int)(effort / rack_cost(pins));
    most = most < 8 ? 8 : most > 1000 ? 1000 : most;
    /* half of the racks evenly, the other half around the best place */
    while (places > roll->stride * most / 2)
        roll->stride++;
    int each = most / 2 * roll->stride / (places > 0 ? places : 1);
    roll->racks_most = most;
    roll->each = each > 0 ? each : 1;
    roll->width = pins == 1 ? 1.5 * roll->stride : 1.0 + 1.5 * roll->stride;
}

/* False if too few racks are left to learn more. */
static bool turn_to_best(SpareRoll *roll, const SpareHits *hits)
{
    int best = best_place(hits), near = 0;
    roll->place = best > NEAR_PLACES ? best - NEAR_PLACES : 0;
    roll->place_last = best + NEAR_PLACES < SPARE_PLACES ? best + NEAR_PLACES : SPARE_PLACES - 1;
    for (int i = roll->place; i <= roll->place_last; i++)
        near += roll->may[i];
    int rest = roll->racks_most - hits->racks;
    if (near == 0 || rest < near)
        return false;
    roll->each = rest / near;
    roll->stride = 1;
    roll->nth = 0;
    roll->about_best = true;
    return true;
}

bool spare_hits_step(SpareRoll *roll, SpareHits *hits)
{
    double cost = roll->each * rack_cost(lane_pin_count(hits->left));
    for (double spent = 0.0; roll->place <= roll->place_last && spent < STEP_EFFORT;
         roll->place++) {
        int i = roll->place;
        if (!roll->may[i] || roll->nth++ % roll->stride != roll->stride / 2)
            continue;
        roll_at(&roll->hit, hits, &roll->count[i], i, roll->each);
        spent += cost;
    }
    if (roll->place <= roll->place_last)
        return false;
    smooth(hits, roll->count, roll->width);
    return roll->about_best || !turn_to_best(roll, hits);
}

void spare_hits_roll(Pins left, const RackHit *hit, double effort, SpareHits *hits)
{
    SpareRoll roll;
    spare_hits_begin(&roll, left, hit, effort, hits);
    while (!spare_hits_step(&roll, hits))
        ;
}

static double between(const double *curve, double across)
{
    double at = (across - spare_place_board(0)) * 2.0;
    if (!(at >= 0.0 && at <= SPARE_PLACES - 1))
        return 0.0;
    int i = (int)at;
    if (i > SPARE_PLACES - 2)
        i = SPARE_PLACES - 2;
    return curve[i] + (at - i) * (curve[i + 1] - curve[i]);
}

int spare_hits_best(const SpareHits *hits, double deviation, double *made)
{
    double weight[SPARE_PLACES]; /* by distance from the aim */
    for (int k = 0; k < SPARE_PLACES; k++)
        weight[k] = exp(-0.125 * k * k / (deviation * deviation));
    int best = 0;
    double most = -1.0;
    for (int aim = 0; aim < SPARE_PLACES; aim++) {
        double value = 0.0, all = 0.0, sum = weight[0];
        for (int k = 1; k < SPARE_PLACES; k++)
            sum += 2.0 * weight[k]; /* in the gutter too */
        for (int i = 0; i < SPARE_PLACES; i++) {
            double part = weight[i > aim ? i - aim : aim - i] / sum;
            all += part * hits->made[i];
            value += part * (SPARE_BONUS * hits->made[i] + hits->falls[i]);
        }
        if (value > most) {
            most = value;
            best = aim;
            if (made)
                *made = all;
        }
    }
    return best;
}

double spare_hits_made(const SpareHits *hits, double across) { return between(hits->made, across); }
double spare_hits_falls(const SpareHits *hits, double across)
{
    return between(hits->falls, across);
}
