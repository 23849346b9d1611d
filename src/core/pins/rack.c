/* rack.c - what a hit does, read and drawn from the table that src/tools/rackgen made. */
#include "core/pins/rack.h"

#include <math.h>
#include <string.h>

#include "core/pins/rack_sim.h"
#include "core/pins/rack_table.h"

#include "core/pins/rack_table.inc"

/* Where a hit lies between cells. A hit heading toward the bowler's own side is read mirrored. */
typedef struct TablePoint {
    bool mirrored;
    int cell[16];
    double weight[16]; /* sums to 1 */
    int list[4 * RACK_BANDS];
    double list_weight[4 * RACK_BANDS];
} TablePoint;

/* The cell below `value`, and in `part` how far it is toward the next; clamped to the edges. */
static int below(double value, double low, double step, int count, double *part)
{
    double at = (value - low) / step;
    if (!(at > 0.0)) /* NAN too */
        at = 0.0;
    if (at > count - 1)
        at = count - 1;
    int i = (int)at;
    if (i > count - 2)
        i = count - 2;
    *part = at - i;
    return i;
}

static TablePoint place_of(double board, double degrees, double mph, double pounds)
{
    TablePoint point;
    point.mirrored = degrees < 0.0;
    if (point.mirrored) {
        board = lane_mirror_board(board);
        degrees = -degrees;
    }
    double at[4];
    int b = below(board, RACK_BOARD_LOW, RACK_BOARD_STEP, RACK_BOARDS, &at[0]);
    int d = below(degrees, 0.0, RACK_DEGREE_STEP, RACK_DEGREES, &at[1]);
    int s = below(mph, RACK_MPH_LOW, RACK_MPH_STEP, RACK_SPEEDS, &at[2]);
    int w = 0;
    while (w < RACK_WEIGHTS - 2 && pounds >= RACK_POUNDS[w + 1])
        w++;
    below(pounds, RACK_POUNDS[w], RACK_POUNDS[w + 1] - RACK_POUNDS[w], 2, &at[3]);
    double usual;
    below(mph, RACK_SLOW_MPH, RACK_USUAL_MPH - RACK_SLOW_MPH, RACK_BANDS, &usual);
    for (int i = 0; i < 4; i++) {
        int up_b = i >> 1, up_d = i & 1;
        double weight = (up_b ? at[0] : 1.0 - at[0]) * (up_d ? at[1] : 1.0 - at[1]);
        int list = (b + up_b) * RACK_DEGREES + d + up_d;
        for (int band = 0; band < RACK_BANDS; band++) {
            point.list[RACK_BANDS * i + band] = RACK_BANDS * list + band;
            point.list_weight[RACK_BANDS * i + band] =
                weight * (band == RACK_USUAL ? usual : 1.0 - usual);
        }
        for (int j = 0; j < 4; j++) {
            int up_s = j >> 1, up_w = j & 1;
            point.cell[4 * i + j] = (list * RACK_SPEEDS + s + up_s) * RACK_WEIGHTS + w + up_w;
            point.weight[4 * i + j] =
                weight * (up_s ? at[2] : 1.0 - at[2]) * (up_w ? at[3] : 1.0 - at[3]);
        }
    }
    return point;
}

static double place_strike(const TablePoint *point)
{
    double sum = 0.0;
    for (int i = 0; i < 16; i++)
        sum += point->weight[i] * RACK_CELLS[point->cell[i]].strike;
    return sum / RACK_SHARE_ONE;
}

static double place_pinfall(const TablePoint *point)
{
    double sum = 0.0;
    for (int i = 0; i < 16; i++)
        sum += point->weight[i] * RACK_CELLS[point->cell[i]].pinfall;
    return sum / RACK_PIN_ONE;
}

static double place_class(const TablePoint *point, RackClass class)
{
    double sum = 0.0;
    for (int i = 0; i < 16; i++)
        sum += point->weight[i] * RACK_CELLS[point->cell[i]].share[class];
    return sum / RACK_SHARE_ONE;
}

double rack_strike(double board, double degrees, double mph, double pounds)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    return place_strike(&point);
}

double rack_pinfall(double board, double degrees, double mph, double pounds)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    return place_pinfall(&point);
}

RackMeans rack_means(const double *boards, const double *weights, int count, double degrees,
                     double mph, double pounds)
{
    enum { CORNERS = 8, ROW = RACK_DEGREES * RACK_SPEEDS * RACK_WEIGHTS };
    TablePoint point = place_of(LANE_POCKET_BEST, fabs(degrees), mph, pounds);
    RackMeans sum = {0};
    int first = point.cell[0] / ROW, corner[CORNERS];
    double share[CORNERS];
    for (int i = 0; i < CORNERS; i++) { /* the cells but for their board */
        corner[i] = point.cell[i] - first * ROW;
        share[i] = point.weight[i] + point.weight[i + CORNERS];
    }
    for (int k = 0; k < count; k++) {
        double board = degrees < 0.0 ? lane_mirror_board(boards[k]) : boards[k], up;
        int at = below(board, RACK_BOARD_LOW, RACK_BOARD_STEP, RACK_BOARDS, &up);
        const RackCell *row = &RACK_CELLS[(size_t)at * ROW];
        for (int i = 0; i < CORNERS; i++) {
            const RackCell *low = &row[corner[i]], *high = low + ROW;
            double weight = weights[k] * share[i];
            sum.strike += weight * ((1.0 - up) * low->strike + up * high->strike);
            sum.pinfall += weight * ((1.0 - up) * low->pinfall + up * high->pinfall);
        }
    }
    return (RackMeans){sum.strike / RACK_SHARE_ONE, sum.pinfall / RACK_PIN_ONE};
}

RackClass rack_class(Pins left)
{
    static const Pins RIGHT = 1 << 2 | 1 << 5 | 1 << 8 | 1 << 9; /* 3 6 9 10 */
    static const Pins LEFT = 1 << 1 | 1 << 3 | 1 << 6 | 1 << 7;  /* 2 4 7 8 */
    int pins = lane_pin_count(left);
    if (left & pin_bit(1))
        return lane_split((Pins)(left & ~pin_bit(1))) ? RACK_WASHOUT : RACK_HEAD;
    if (pins == 1) {
        if (left == pin_bit(10))
            return RACK_TEN;
        if (left == pin_bit(7))
            return RACK_SEVEN;
        if (left & (pin_bit(4) | pin_bit(6)))
            return RACK_FOUR_SIX;
        return left & (pin_bit(8) | pin_bit(9)) ? RACK_EIGHT_NINE : RACK_FIVE;
    }
    if (lane_split(left)) {
        if (pins > 2)
            return RACK_SPLIT_MORE;
        return left == (pin_bit(7) | pin_bit(10)) ? RACK_CORNERS : RACK_SPLIT_TWO;
    }
    if ((left & ~RIGHT) == 0 && (left & (pin_bit(6) | pin_bit(10))))
        return RACK_PAIR_RIGHT;
    if ((left & ~LEFT) == 0 && (left & (pin_bit(4) | pin_bit(7))))
        return RACK_PAIR_LEFT;
    return RACK_CLUSTER;
}

/* The part of a class's share that goes to the listed leaves; the rest is spread evenly over all
 * leaves of the class, listed or not (assumed). */
static const double LISTED = 0.95;
/* How many leaves each class has by rack_class. */
static const uint16_t CLASS_SIZE[RACK_CLASSES] = {1, 1, 2, 2, 3, 7, 7, 101, 1, 23, 363, 387, 125};

/* The exact leaves listed near a hit, once each, with their share of their class. */
enum { NEAR_MOST = 4 * RACK_BANDS * RACK_LISTED };
typedef struct Near {
    int count;
    Pins leave[NEAR_MOST];
    uint8_t class_of[NEAR_MOST];
    double within[NEAR_MOST];
    double even[RACK_CLASSES]; /* the share of its class that every leave gets, listed or not */
} Near;

static void near_of(const TablePoint *point, Near *near)
{
    uint8_t seen[1024]; /* place in the list, plus one */
    memset(seen, 0, sizeof seen);
    near->count = 0;
    for (int c = 0; c < RACK_CLASSES; c++)
        near->even[c] = 1.0;
    for (int i = 0; i < 4 * RACK_BANDS; i++) {
        if (point->list_weight[i] <= 0.0)
            continue;
        const RackListed *listed = RACK_LISTS[point->list[i]];
        for (int k = 0; k < RACK_LISTED && listed[k].pins; k++) {
            int at = seen[listed[k].pins] - 1;
            if (at < 0) {
                at = near->count++;
                seen[listed[k].pins] = (uint8_t)near->count;
                near->leave[at] = listed[k].pins;
                near->class_of[at] = listed[k].class;
                near->within[at] = 0.0;
            }
            double share = LISTED * point->list_weight[i] * listed[k].within / RACK_WITHIN_ONE;
            near->within[at] += share;
            near->even[near->class_of[at]] -= share;
        }
    }
    for (int c = 0; c < RACK_CLASSES; c++)
        near->even[c] = fmax(near->even[c], 0.0) / CLASS_SIZE[c];
}

void rack_chances(double board, double degrees, double mph, double pounds, RackChances *out)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    Near near;
    near_of(&point, &near);
    out->strike = place_strike(&point);
    out->pinfall = place_pinfall(&point);
    out->leave_count = 0;
    double share[RACK_CLASSES];
    for (int c = 0; c < RACK_CLASSES; c++)
        share[c] = place_class(&point, (RackClass)c);
    for (int k = 0; k < near.count; k++) {
        int class = near.class_of[k];
        double chance = share[class] * (near.within[k] + near.even[class]);
        int at = out->leave_count;
        if (at == RACK_LEAVES_MAX) {
            if (chance <= out->leave_chance[at - 1])
                continue;
            at--;
        } else {
            out->leave_count++;
        }
        for (; at > 0 && out->leave_chance[at - 1] < chance; at--) {
            out->leave[at] = out->leave[at - 1];
            out->leave_chance[at] = out->leave_chance[at - 1];
        }
        out->leave[at] = point.mirrored ? lane_mirror_pins(near.leave[k]) : near.leave[k];
        out->leave_chance[at] = chance;
    }
}

double rack_leave_chance(Pins left, double board, double degrees, double mph, double pounds)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    left &= PINS_ALL;
    if (left == 0)
        return place_strike(&point);
    if (point.mirrored)
        left = lane_mirror_pins(left);
    RackClass class = rack_class(left);
    double within = 0.0,
           listed = 0.0; /* this leave's share; the share of all listed in its class */
    for (int i = 0; i < 4 * RACK_BANDS; i++) {
        if (point.list_weight[i] <= 0.0)
            continue;
        const RackListed *list = RACK_LISTS[point.list[i]];
        for (int k = 0; k < RACK_LISTED && list[k].pins; k++) {
            if (list[k].class != class)
                continue;
            double share = LISTED * point.list_weight[i] * list[k].within / RACK_WITHIN_ONE;
            listed += share;
            if (list[k].pins == left)
                within += share;
        }
    }
    double even = fmax(1.0 - listed, 0.0) / CLASS_SIZE[class];
    return place_class(&point, class) * (within + even);
}

/* The leave at `part`, 0 to 1, of the class's cumulative chance. */
static Pins leave_within(const Near *near, RackClass class, double part)
{
    for (int k = 0; k < near->count; k++)
        if (near->class_of[k] == class && (part -= near->within[k]) < 0.0)
            return near->leave[k];
    for (int left = 1; left <= PINS_ALL; left++)
        if (rack_class((Pins)left) == class && (part -= near->even[class]) < 0.0)
            return (Pins)left;
    return near->count ? near->leave[0] : 0; /* only reached through rounding */
}

/* One full rack drawn from the table. */
static Pins roll_table(const RackHit *hit, double part)
{
    TablePoint point = place_of(hit->board, hit->degrees, hit->mph, hit->pounds);
    if ((part -= place_strike(&point)) < 0.0)
        return 0;
    for (int c = 0; c < RACK_CLASSES; c++) {
        double share = place_class(&point, (RackClass)c);
        if (part >= share && c < RACK_CLASSES - 1) {
            part -= share;
            continue;
        }
        Near near;
        near_of(&point, &near);
        Pins left = leave_within(&near, (RackClass)c, share > 0.0 ? part / share : 0.0);
        return point.mirrored ? lane_mirror_pins(left) : left;
    }
    return 0;
}

Pins rack_roll(const RackHit *hit, Pins set, Rng *rng)
{
    Rng own = rng_seed(rng_next(rng));
    const double high = RACK_BOARD_LOW + RACK_BOARD_STEP * (RACK_BOARDS - 1);
    if ((set & PINS_ALL) == PINS_ALL && hit->board >= RACK_BOARD_LOW && hit->board <= high)
        return roll_table(hit, rng_uniform(&own));
    return rack_sim_roll(hit, set, &own, NULL, NULL);
}

double rack_leave_likelihood(Pins left, double board, double degrees, double mph, double pounds)
{
    double chance = rack_leave_chance(left, board, degrees, mph, pounds);
    return pow(RACK_DOUBT + (1.0 - RACK_DOUBT) * chance, RACK_TEMPER);
}
