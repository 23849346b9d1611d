/* known.c - see known.h. */
#include "core/rehearse/known.h"

/* Laydown boards tried: every second one, then those next to the best. */
#define KNOWN_LOW 10.0
#define KNOWN_STEP 2.0
enum { WIDE = 12, NEAR = 2 };
#define KNOWN_MARGIN 0.005 /* no change for less */

/* The best half board of aim from one laydown under the truth, if it beats the best so far. */
static void try_laydown(KnownSearch *search, double laydown)
{
    const Truth *truth = search->truth;
    const Bowler *bowler = &truth->bag->bowler;
    Delivery usual = delivery_of(bowler, delivery_stance(bowler, laydown), laydown - 8.0);
    double aim = truth->world->aim(truth, search->lane, search->slot, &usual, laydown);
    for (int i = -1; i <= 1; i++) {
        double half = lane_half_board(aim) + 0.5 * i;
        usual.launch_deg = delivery_launch_deg(laydown, half);
        Outlook outlook = truth_outlook(truth, search->lane, search->slot, &usual);
        if (outlook.strike > search->own.strike)
            search->own = (KnownLine){.plan = {.slot = search->slot,
                                               .stance = delivery_stance(bowler, laydown),
                                               .aim = half},
                                      .pocket = outlook.pocket,
                                      .strike = outlook.strike};
    }
}

/* Goes on to the next ball that is not kept for spares, or is thrown now. */
static void next_ball(KnownSearch *search)
{
    const Truth *truth = search->truth;
    do
        search->slot++;
    while (search->slot <= BAG_SLOTS &&
           (!truth->filled[search->slot - 1] ||
            (search->slot != search->best.plan.slot &&
             bag_slot(truth->bag, search->slot)->cover == COVER_POLYESTER)));
    search->tried = 0;
    search->own = (KnownLine){.strike = -1.0};
}

void known_begin(KnownSearch *search, Truth *truth, Side lane, int game, const Plan *now)
{
    Delivery usual = plan_delivery(&truth->bag->bowler, now);
    truth_prepare(truth, lane, game);
    Outlook outlook = truth_outlook(truth, lane, now->slot, &usual);
    *search =
        (KnownSearch){.truth = truth,
                      .lane = lane,
                      .to_beat = outlook.strike + KNOWN_MARGIN,
                      .best = {.plan = *now, .pocket = outlook.pocket, .strike = outlook.strike}};
    next_ball(search);
}

bool known_step(KnownSearch *search)
{
    if (search->slot > BAG_SLOTS)
        return true;
    if (search->tried < WIDE) {
        try_laydown(search, KNOWN_LOW + KNOWN_STEP * search->tried);
        search->middle = search->own.plan.stance - search->truth->bag->bowler.laydown_offset_boards;
    } else {
        try_laydown(search, search->middle + (search->tried == WIDE ? -1.0 : 1.0));
    }
    if (++search->tried < WIDE + NEAR)
        return false;
    if (search->own.strike > search->to_beat) {
        search->best = search->own;
        search->to_beat = search->own.strike;
    }
    next_ball(search);
    return search->slot > BAG_SLOTS;
}
