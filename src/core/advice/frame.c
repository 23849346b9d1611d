/* frame.c - the leaves of a spread of hits, and how often a straight ball makes them. */
#include "core/advice/frame.h"

#include <math.h>

#include "base/normal.h"
#include "core/pins/rack.h"
#include "core/spare/spare.h"

const char *const NEED_NAMES[NEED_COUNT + 1] = {"score", "strike", "clean", 0};

#define PINS_MPH 0.88     /* of the speed at release, at the pins (assumed, as 16 of 18) */
#define SPLIT_BOARDS 0.75 /* half a window that makes a split (assumed) */
#define OPEN_SHARE 0.5    /* of what a missed spare ball was thrown at, it takes (assumed) */

/* The spread of hits in even steps of the bell. */
enum { NODES = 9 };
static double node_z(int k) { return -2.4 + 4.8 * k / (NODES - 1); }
static double node_weight(int k) { return exp(-0.5 * node_z(k) * node_z(k)); }

/* Half the window at the pins, in boards, of a straight ball by how many pins a leave has
 * (assumed: ball and pin are 13 in across, 12 boards; every further pin takes of it). */
static double half_window(Pins leave)
{
    static const double BOARDS[] = {0.0, 6.0, 4.0, 3.0, 2.2, 1.6};
    int count = lane_pin_count(leave);
    return lane_split(leave) ? SPLIT_BOARDS : BOARDS[count < 5 ? count : 5];
}

static double made(Pins leave, double miss_boards)
{
    return erf(half_window(leave) / (miss_boards * sqrt(2.0)));
}

/* Of the leaves at one hit, the share that becomes a spare. */
static double converted(const RackChances *rack, double miss_boards)
{
    double left = 0.0, spares = 0.0;
    for (int i = 0; i < rack->leave_count; i++) {
        left += rack->leave_chance[i];
        spares += rack->leave_chance[i] * made(rack->leave[i], miss_boards);
    }
    return left > 0.0 ? spares / left : 0.0;
}

/* Chance of a spare where it is no strike. A gutter ball has no board: its part is a full rack. */
static double spare_chance(const Outlook *outlook, const Bowler *bowler, const Ball *ball)
{
    double miss = spare_miss(bowler), open = 0.0, spares = 0.0, weights = 0.0, pins = 0.0;
    for (int k = 0; k < NODES; k++) {
        double weight = node_weight(k);
        RackChances rack;
        rack_chances(outlook->board + node_z(k) * outlook->board_sd, outlook->degrees,
                     PINS_MPH * bowler->mph, ball->pounds, &rack);
        open += weight * (1.0 - rack.strike);
        spares += weight * (1.0 - rack.strike) * converted(&rack, miss);
        pins += weight * rack.pinfall;
        weights += weight;
    }
    double on_lane = fmin(1.0, outlook->pinfall * weights / fmax(pins, 1e-9));
    return open > 0.0 ? on_lane * spares / open : 0.0;
}

FrameOutlook frame_of(const Outlook *outlook, const Bowler *bowler, const Ball *ball)
{
    double strike = outlook->strike, first = outlook->pinfall;
    if (isnan(outlook->board))
        return (FrameOutlook){.clean = 0.0, .score = OPEN_SHARE * 10.0};
    double clean = strike + (1.0 - strike) * spare_chance(outlook, bowler, ball);
    double not_strike = strike < 1.0 ? (first - 10.0 * strike) / (1.0 - strike) : 10.0;
    double open = not_strike + OPEN_SHARE * (10.0 - not_strike);
    double next = first + strike * first + (1.0 - strike) * (10.0 - first) * OPEN_SHARE;
    return (FrameOutlook){.clean = clean,
                          .score = strike * (10.0 + next) + (clean - strike) * (10.0 + first) +
                                   (1.0 - clean) * open};
}

/* An outlook with its mean hit on that board. */
static Outlook hit_at(const Outlook *outlook, double board, const Bowler *bowler, const Ball *ball)
{
    Outlook at = *outlook;
    double weights = 0.0, mph = PINS_MPH * bowler->mph;
    at.board = board;
    at.strike = at.pinfall = 0.0;
    for (int k = 0; k < NODES; k++) {
        double weight = node_weight(k), hit = board + node_z(k) * outlook->board_sd;
        at.strike += weight * rack_strike(hit, outlook->degrees, mph, ball->pounds);
        at.pinfall += weight * rack_pinfall(hit, outlook->degrees, mph, ball->pounds);
        weights += weight;
    }
    at.pocket = normal_below((LANE_POCKET_HIGH - board) / outlook->board_sd) -
                normal_below((LANE_POCKET_LOW - board) / outlook->board_sd);
    at.strike /= weights;
    at.pinfall /= weights;
    return at;
}

double frame_best_strike(const Outlook *outlook, const Bowler *bowler, const Ball *ball)
{
    if (isnan(outlook->board))
        return 1.0;
    return hit_at(outlook, LANE_POCKET_BEST, bowler, ball).strike;
}

Outlook frame_as_seen(const Outlook *outlook, double seen_board, const Bowler *bowler,
                      const Ball *ball)
{
    Outlook seen = {.board = NAN, .board_sd = NAN, .degrees = outlook->degrees};
    if (isnan(outlook->board))
        return *outlook;
    if (!isnan(seen_board))
        seen = hit_at(outlook, seen_board, bowler, ball);
    seen.pocket = fmin(seen.pocket, outlook->pocket);
    seen.strike = fmin(seen.strike, outlook->strike);
    seen.pinfall = fmin(seen.pinfall, outlook->pinfall);
    return seen;
}
