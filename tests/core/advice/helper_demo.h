/* helper_demo.h - what the tests of advice begin with: the demo's bag, pattern and rules, each ball
 * on its own line, beliefs, and questions whose shots are said one by one. */
#ifndef SETTEE_TESTS_HELPER_DEMO_H
#define SETTEE_TESTS_HELPER_DEMO_H

#include "core/advice/advice.h"
#include "core/advice/candidates.h"
#include "core/advice/forecast.h"

extern Bag BAG;
extern Pattern PATTERN;
extern RuleSet RULES;
extern Oil SHEET; /* the pattern in a right-hander's frame */
extern MotionBody BODY[BAG_SLOTS];
extern BatchBall BATCH[BAG_SLOTS];
extern Line BEST[BAG_SLOTS]; /* each ball's own line on the sheet */

/* For cmocka: fills all of the above. */
int demo_set_up(void **state);

/* The ball of that slot on its own line. */
Shot shot_on(Side lane, int slot, Hit hit, Read read, Release release);

Belief *begin(uint64_t seed); /* heap, before any shot on the sheet */
void see(Belief *belief, const Shot *shot);
Estimate volume(const Belief *belief, Side lane);

/* The mean board on which the ball of that slot is expected to hit, on its own line. */
double expected_board(const Belief *belief, Side lane, int slot);

/* The plan 26 over 14.5; with TRAITS by which each slot hooks a board less and starts 3 ft later.
 */
extern SlotTrait TRAITS[BAG_SLOTS];
Setting setting_of(const Bag *bag, int slot);

/* A question that owns what it points to; starts as the demo's, on that plan. Heap. */
enum { ASKED_SHOTS_MAX = 32 };
typedef struct Asked {
    Bag bag;
    RuleSet rules;
    Shot shots[ASKED_SHOTS_MAX];
    AdviceInput in;
} Asked;
Asked *ask(void);
/* One shot more, as planned. */
void say(Asked *asked, Side lane, Hit hit, Read read, Release release);

/* The finished answer; heap. */
AdviceJob *answer(const AdviceInput *input);

#endif
