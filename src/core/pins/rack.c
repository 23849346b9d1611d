/* rack.c - what a hit is worth, read from the table that src/tools/rackgen made. */
#include "core/pins/rack.h"

#include <math.h>
#include <string.h>

#include "core/pins/rack_table.h"

#include "core/pins/rack_table.inc"

/* Where a hit lies between cells. A hit whose heading is away from the bowler's other side is read
 * in the mirror. */
typedef struct TablePoint {
    bool mirrored;
    int cell[16];
    double weight[16]; /* sums to 1 */
    int list[4];
    double list_weight[4];
} TablePoint;

/* The cell below `value` and how far it is toward the next; drawn to the edges. */
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
    int w = below(pounds, RACK_POUNDS_LOW, RACK_POUNDS_STEP, RACK_WEIGHTS, &at[3]);
    for (int i = 0; i < 4; i++) {
        int up_b = i >> 1, up_d = i & 1;
        double weight = (up_b ? at[0] : 1.0 - at[0]) * (up_d ? at[1] : 1.0 - at[1]);
        int list = (b + up_b) * RACK_DEGREES + d + up_d;
        point.list[i] = list;
        point.list_weight[i] = weight;
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

/* The exact leaves near a hit: shares of all first balls, once each. */
enum { NEAR_MOST = 4 * RACK_LISTED };

static int leaves_near(const TablePoint *point, Pins *leave, double *chance)
{
    uint8_t seen[1024]; /* place in the list, plus one */
    memset(seen, 0, sizeof seen);
    double within[RACK_CLASSES] = {0};
    RackClass class_of[NEAR_MOST];
    int count = 0;
    for (int i = 0; i < 4; i++) {
        if (point->list_weight[i] <= 0.0)
            continue;
        const RackListed *listed = RACK_LISTS[point->list[i]];
        for (int k = 0; k < RACK_LISTED && listed[k].pins; k++) {
            int at = seen[listed[k].pins] - 1;
            if (at < 0) {
                at = count++;
                seen[listed[k].pins] = (uint8_t)count;
                leave[at] = listed[k].pins;
                chance[at] = 0.0;
                class_of[at] = rack_class(leave[at]);
            }
            double share = point->list_weight[i] * listed[k].within;
            chance[at] += share;
            within[class_of[at]] += share;
        }
    }
    /* What lies beyond the lists stays with what is listed of its class, but no list claims more
     * than its class has. */
    double scale[RACK_CLASSES];
    for (int c = 0; c < RACK_CLASSES; c++)
        scale[c] = within[c] > 0.0 ? place_class(point, (RackClass)c) / within[c] : 0.0;
    for (int k = 0; k < count; k++)
        chance[k] *= scale[class_of[k]];
    return count;
}

void rack_chances(double board, double degrees, double mph, double pounds, RackChances *out)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    Pins leave[NEAR_MOST];
    double chance[NEAR_MOST];
    int count = leaves_near(&point, leave, chance);
    out->strike = place_strike(&point);
    out->pinfall = place_pinfall(&point);
    out->leave_count = 0;
    for (int k = 0; k < count; k++) {
        int at = out->leave_count;
        if (at == RACK_LEAVES_MAX) {
            if (chance[k] <= out->leave_chance[at - 1])
                continue;
            at--;
        } else {
            out->leave_count++;
        }
        for (; at > 0 && out->leave_chance[at - 1] < chance[k]; at--) {
            out->leave[at] = out->leave[at - 1];
            out->leave_chance[at] = out->leave_chance[at - 1];
        }
        out->leave[at] = point.mirrored ? lane_mirror_pins(leave[k]) : leave[k];
        out->leave_chance[at] = chance[k];
    }
}

/* Share of a class that all its leaves have evenly, listed near the hit or not (assumed). */
static const double EVEN = 0.05;
/* Leaves that rack_class puts in each. */
static const uint16_t CLASS_SIZE[RACK_CLASSES] = {1, 1, 2, 2, 3, 7, 7, 101, 1, 23, 363, 387, 125};

double rack_leave_chance(Pins left, double board, double degrees, double mph, double pounds)
{
    TablePoint point = place_of(board, degrees, mph, pounds);
    left &= PINS_ALL;
    if (left == 0)
        return place_strike(&point);
    if (point.mirrored)
        left = lane_mirror_pins(left);
    RackClass class = rack_class(left);
    double within = 0.0;
    bool listed = false; /* anything of the class */
    for (int i = 0; i < 4; i++) {
        const RackListed *list = RACK_LISTS[point.list[i]];
        for (int k = 0; k < RACK_LISTED && list[k].pins; k++) {
            if (list[k].pins == left)
                within += point.list_weight[i] * list[k].within / RACK_WITHIN_ONE;
            listed = listed || rack_class(list[k].pins) == class;
        }
    }
    double even = listed ? EVEN : 1.0;
    return place_class(&point, class) * ((1.0 - even) * within + even / CLASS_SIZE[class]);
}

double rack_leave_likelihood(Pins left, double board, double degrees, double mph, double pounds)
{
    double chance = rack_leave_chance(left, board, degrees, mph, pounds);
    return pow(RACK_DOUBT + (1.0 - RACK_DOUBT) * chance, RACK_TEMPER);
}
