/* What the last shots say: for every sign a case where it is seen and near ones where it is not.
 * The thresholds are common practice, no source. */
#include "near.h"

#include <stdio.h>
#include <string.h>

#include "core/advice/signs.h"

enum { SHOTS_MAX = 30 };

/* What is 0 or false is as usual: game 2, frame 5, 60 deliveries, 40 ft, 3:1, feet on 26 with a
 * laydown of 20, the right hand, the left lane next. */
typedef struct Case {
    Sign sign;
    bool seen;
    const char *name;
    int game, frame, deliveries;
    double length_ft, ratio, stance;
    bool left_handed, practice, strongest, weakest;
    bool apart; /* each lane has a plan of its own */
    int bowlers, urethane;
    double revs_per_mph, scatter, outside;
    Side lane;
    Shot shots[8]; /* oldest first; slot, stance and aim 0: as planned; `hit` and leave unsaid ends
                    */
} Case;

#define L SIDE_LEFT
#define R SIDE_RIGHT
#define GOOD(side, h, rd)                                                                          \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .read = READ_##rd, .release = RELEASE_GOOD                   \
    }
#define THROWN(side, h, rl)                                                                        \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .release = RELEASE_##rl                                      \
    }
#define LEFT(side, h, pins)                                                                        \
    {                                                                                              \
        .lane = side, .hit = HIT_##h, .left_said = true, .left = pins                              \
    }
#define RANG(side)                                                                                 \
    {                                                                                              \
        .lane = side, .hit = HIT_FLUSH, .left_said = true, .left = P(10), .ringing = true          \
    }
#define MPH(side, speed)                                                                           \
    {                                                                                              \
        .lane = side, .hit = HIT_FLUSH, .mph = speed                                               \
    }
#define LANES_THAT_DIFFER                                                                          \
    GOOD(L, HIGH, EARLY), GOOD(R, LIGHT, LATE), GOOD(L, HIGH, EARLY), GOOD(R, LIGHT, LATE)
#define P(n) (Pins)(1 << ((n)-1))
#define YES true
#define NO false

static const Case CASES[] = {
    {SIGN_FIRST_SHOTS, YES, "none yet", .game = 2},
    {SIGN_FIRST_SHOTS, YES, "one on this lane",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_FIRST_SHOTS, NO, "two on this lane",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_FIRST_SHOTS, YES, "two, but on the other",
     .shots = {GOOD(R, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME)}},

    {SIGN_JUST_CHANGED, YES, "another ball", .shots = {{.slot = 2, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, YES, "two boards of feet", .shots = {{.stance = 24.0, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, YES, "two boards of aim", .shots = {{.aim = 13.0, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, NO, "one board is the same line",
     .shots = {{.stance = 25.0, .aim = 16.0, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, NO, "thrown once since",
     .shots = {{.slot = 2, .hit = HIT_HIGH}, GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_JUST_CHANGED, NO, "nothing thrown", .game = 2},

    {SIGN_CHANGE_FLUSH, YES, "another ball, then flush with this one",
     .shots = {{.slot = 2, .hit = HIT_HIGH}, GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, YES, "lanes kept apart, changed here", .apart = true,
     .shots = {{.stance = 23.0, .hit = HIT_HIGH}, GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, NO, "not flush",
     .shots = {{.slot = 2, .hit = HIT_HIGH}, GOOD(L, LIGHT, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, NO, "twice",
     .shots = {{.slot = 2, .hit = HIT_HIGH}, GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, NO, "nothing before it", .shots = {GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, NO, "a board is no change",
     .shots = {{.stance = 25.0, .hit = HIT_HIGH}, GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_CHANGE_FLUSH, NO, "lanes kept apart, changed there", .apart = true,
     .shots = {{.lane = R, .stance = 23.0, .hit = HIT_HIGH}, GOOD(L, FLUSH, ON_TIME)}},

    {SIGN_FRESH, YES, "first game, few deliveries", .game = 1, .deliveries = 39},
    {SIGN_FRESH, NO, "forty deliveries", .game = 1, .deliveries = 40},
    {SIGN_FRESH, NO, "second game", .game = 2, .deliveries = 10},

    {SIGN_WORN, YES, "third game", .game = 3},
    {SIGN_WORN, YES, "a hundred deliveries", .deliveries = 100},
    {SIGN_WORN, NO, "second game, fewer", .deliveries = 99},

    {SIGN_LAST_FRAMES, YES, "ninth", .frame = 9},
    {SIGN_LAST_FRAMES, YES, "tenth", .frame = 10},
    {SIGN_LAST_FRAMES, NO, "eighth", .frame = 8},

    {SIGN_POCKET_TWICE, YES, "one on each lane",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_POCKET_TWICE, YES, "both here, one high there between",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, HIGH, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_POCKET_TWICE, NO, "one only", .shots = {GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_POCKET_TWICE, NO, "light is not flush",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, LIGHT, ON_TIME)}},
    {SIGN_POCKET_TWICE, NO, "the second slipped",
     .shots = {GOOD(L, FLUSH, ON_TIME), THROWN(L, FLUSH, OFF)}},

    {SIGN_POCKET_ONCE, YES, "one on the other lane", .shots = {GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_POCKET_ONCE, NO, "two are more",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_POCKET_ONCE, NO, "high since",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, HIGH, ON_TIME)}},

    {SIGN_HIGH_ONCE, YES, "high", .shots = {GOOD(L, HIGH, ON_TIME)}},
    {SIGN_HIGH_ONCE, YES, "nose", .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, NOSE, ON_TIME)}},
    {SIGN_HIGH_ONCE, NO, "two are more", .shots = {GOOD(L, HIGH, ON_TIME), GOOD(L, HIGH, ON_TIME)}},
    {SIGN_HIGH_ONCE, NO, "flush since", .shots = {GOOD(L, HIGH, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_HIGH_ONCE, NO, "pulled inside", .shots = {THROWN(L, HIGH, INSIDE)}},

    {SIGN_HIGH_TWICE, YES, "high and nose",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, NOSE, EARLY)}},
    {SIGN_HIGH_TWICE, YES, "a bad release between is passed over",
     .shots = {GOOD(L, HIGH, ON_TIME), THROWN(R, WIDE, OUTSIDE), GOOD(L, CROSSED, ON_TIME)}},
    {SIGN_HIGH_TWICE, NO, "a flush one between",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(L, FLUSH, ON_TIME), GOOD(L, HIGH, ON_TIME)}},
    {SIGN_HIGH_TWICE, NO, "the first was of another ball",
     .shots = {{.slot = 2, .hit = HIT_HIGH}, GOOD(L, HIGH, ON_TIME)}},
    {SIGN_HIGH_TWICE, NO, "the first was on another line",
     .shots = {{.stance = 23.0, .hit = HIT_HIGH}, GOOD(L, HIGH, ON_TIME)}},

    {SIGN_LIGHT_ONCE, YES, "light", .shots = {GOOD(L, LIGHT, ON_TIME)}},
    {SIGN_LIGHT_ONCE, YES, "thin", .shots = {GOOD(L, HIGH, ON_TIME), GOOD(L, THIN, ON_TIME)}},
    {SIGN_LIGHT_ONCE, NO, "two are more",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(R, LIGHT, ON_TIME)}},
    {SIGN_LIGHT_ONCE, NO, "thrown fast", .shots = {THROWN(L, LIGHT, FAST)}},

    {SIGN_LIGHT_TWICE, YES, "light and thin",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(R, THIN, ON_TIME)}},
    {SIGN_LIGHT_TWICE, YES, "light and wide",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(L, WIDE, ON_TIME)}},
    {SIGN_LIGHT_TWICE, NO, "light and flush",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_LIGHT_TWICE, NO, "a gutter ball is none",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(L, GUTTER, ON_TIME)}},

    {SIGN_EARLY, YES, "early", .shots = {GOOD(L, FLUSH, EARLY)}},
    {SIGN_EARLY, NO, "on time since", .shots = {GOOD(L, FLUSH, EARLY), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_EARLY, NO, "a slow one",
     .shots = {{.hit = HIT_HIGH, .read = READ_EARLY, .release = RELEASE_SLOW}}},
    {SIGN_LATE, YES, "late", .shots = {GOOD(L, FLUSH, LATE)}},
    {SIGN_LATE, NO, "never is more than late", .shots = {GOOD(L, FLUSH, NONE)}},

    {SIGN_HIGH_EARLY, YES, "high and early", .shots = {GOOD(L, HIGH, EARLY)}},
    {SIGN_HIGH_EARLY, NO, "high and on time", .shots = {GOOD(L, HIGH, ON_TIME)}},
    {SIGN_HIGH_EARLY, NO, "flush and early", .shots = {GOOD(L, FLUSH, EARLY)}},
    {SIGN_HIGH_LATE, YES, "nose and late", .shots = {GOOD(L, NOSE, LATE)}},
    {SIGN_HIGH_LATE, NO, "light and late", .shots = {GOOD(L, LIGHT, LATE)}},
    {SIGN_LIGHT_EARLY, YES, "thin and early", .shots = {GOOD(L, THIN, EARLY)}},
    {SIGN_LIGHT_EARLY, NO, "high and early", .shots = {GOOD(L, HIGH, EARLY)}},
    {SIGN_LIGHT_LATE, YES, "light and late", .shots = {GOOD(L, LIGHT, LATE)}},
    {SIGN_LIGHT_LATE, YES, "light, never read", .shots = {GOOD(L, LIGHT, NONE)}},
    {SIGN_LIGHT_LATE, NO, "light and on time", .shots = {GOOD(L, LIGHT, ON_TIME)}},

    {SIGN_NEVER_READ, YES, "never", .shots = {GOOD(L, WIDE, NONE)}},
    {SIGN_NEVER_READ, NO, "late", .shots = {GOOD(L, WIDE, LATE)}},

    {SIGN_WIDE, YES, "wide", .shots = {GOOD(L, WIDE, ON_TIME)}},
    {SIGN_WIDE, YES, "gutter", .shots = {GOOD(L, GUTTER, ON_TIME)}},
    {SIGN_WIDE, NO, "thin", .shots = {GOOD(L, THIN, ON_TIME)}},
    {SIGN_WIDE, NO, "thrown outside", .shots = {THROWN(L, WIDE, OUTSIDE)}},

    {SIGN_CROSSED, YES, "crossed", .shots = {GOOD(L, CROSSED, ON_TIME)}},
    {SIGN_CROSSED, NO, "nose", .shots = {GOOD(L, NOSE, ON_TIME)}},
    {SIGN_CROSSED, NO, "flush since",
     .shots = {GOOD(L, CROSSED, ON_TIME), GOOD(R, FLUSH, ON_TIME)}},

    {SIGN_ALTERNATING, YES, "high, light, high",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME), GOOD(L, HIGH, ON_TIME)}},
    {SIGN_ALTERNATING, YES, "with a flush one between",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(R, HIGH, ON_TIME), GOOD(L, FLUSH, ON_TIME),
               GOOD(R, THIN, ON_TIME)}},
    {SIGN_ALTERNATING, NO, "high, light",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME)}},
    {SIGN_ALTERNATING, NO, "one change of four",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, HIGH, ON_TIME), GOOD(L, LIGHT, ON_TIME),
               GOOD(R, LIGHT, ON_TIME)}},

    {SIGN_BAD_RELEASE, YES, "off", .shots = {GOOD(L, FLUSH, ON_TIME), THROWN(R, HIGH, OFF)}},
    {SIGN_BAD_RELEASE, NO, "a good one since",
     .shots = {THROWN(R, HIGH, OFF), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_BAD_RELEASE, NO, "nothing said of it", .shots = {{.hit = HIT_HIGH}}},
    {SIGN_BAD_RELEASES, YES, "two of three",
     .shots = {GOOD(L, FLUSH, ON_TIME), THROWN(R, HIGH, OFF), THROWN(L, THIN, FAST)}},
    {SIGN_BAD_RELEASES, NO, "one of three",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME), THROWN(R, HIGH, OFF)}},
    {SIGN_BAD_RELEASES, NO, "two and then a good one",
     .shots = {THROWN(R, HIGH, OFF), THROWN(L, THIN, FAST), GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_BAD_RELEASES, NO, "two in all", .shots = {THROWN(R, HIGH, OFF), THROWN(L, THIN, FAST)}},

    {SIGN_SPEED_FALLING, YES, "half a mph",
     .shots = {MPH(L, 18.2), MPH(R, 18.2), MPH(L, 18.2), MPH(R, 17.7), MPH(L, 17.7), MPH(R, 17.7)}},
    {SIGN_SPEED_FALLING, NO, "a fifth of a mph",
     .shots = {MPH(L, 18.2), MPH(R, 18.2), MPH(L, 18.2), MPH(R, 18.0), MPH(L, 18.0), MPH(R, 18.0)}},
    {SIGN_SPEED_FALLING, NO, "too few seen",
     .shots = {MPH(L, 18.2), MPH(R, 17.7), MPH(L, 17.7), MPH(R, 17.7)}},
    {SIGN_SPEED_FALLING, YES, "called slow twice of four",
     .shots = {THROWN(L, HIGH, SLOW), GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME),
               THROWN(R, HIGH, SLOW)}},
    {SIGN_SPEED_FALLING, NO, "called slow once",
     .shots = {GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME), THROWN(R, HIGH, SLOW)}},
    {SIGN_SPEED_RISING, YES, "half a mph",
     .shots = {MPH(L, 17.7), MPH(R, 17.7), MPH(L, 17.7), MPH(R, 18.2), MPH(L, 18.2), MPH(R, 18.2)}},
    {SIGN_SPEED_RISING, NO, "falling",
     .shots = {MPH(L, 18.2), MPH(R, 18.2), MPH(L, 18.2), MPH(R, 17.7), MPH(L, 17.7), MPH(R, 17.7)}},
    {SIGN_SPEED_RISING, YES, "called fast twice",
     .shots = {THROWN(L, LIGHT, FAST), THROWN(R, LIGHT, FAST)}},
    {SIGN_SPEED_RISING, NO, "fast and slow",
     .shots = {THROWN(L, LIGHT, FAST), THROWN(R, HIGH, SLOW)}},

    {SIGN_LANE_TIGHTER, YES, "light here, flush there",
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, LIGHT, ON_TIME),
               GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_LANE_TIGHTER, NO, "the other lane is next", .lane = R,
     .shots = {GOOD(L, LIGHT, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, LIGHT, ON_TIME),
               GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_LANE_TIGHTER, NO, "one only here",
     .shots = {GOOD(R, FLUSH, ON_TIME), GOOD(L, LIGHT, ON_TIME), GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_LANE_TIGHTER, NO, "alike",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME),
               GOOD(R, FLUSH, ON_TIME)}},
    {SIGN_LANE_LOOSER, YES, "high here, light there",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME), GOOD(L, HIGH, ON_TIME),
               GOOD(R, LIGHT, ON_TIME)}},
    {SIGN_LANE_LOOSER, NO, "bad releases there",
     .shots = {GOOD(L, HIGH, ON_TIME), THROWN(R, LIGHT, FAST), GOOD(L, HIGH, ON_TIME),
               THROWN(R, LIGHT, FAST)}},
    {SIGN_LANE_LOOSER, NO, "another ball there",
     .shots = {GOOD(L, HIGH, ON_TIME),
               {.lane = R, .slot = 2, .hit = HIT_LIGHT},
               GOOD(L, HIGH, ON_TIME),
               {.lane = R, .slot = 2, .hit = HIT_LIGHT}}},
    {SIGN_LANE_LOOSER, NO, "another line there",
     .shots = {GOOD(L, HIGH, ON_TIME),
               {.lane = R, .stance = 12.0, .hit = HIT_LIGHT},
               GOOD(L, HIGH, ON_TIME),
               {.lane = R, .stance = 12.0, .hit = HIT_LIGHT}}},
    {SIGN_LANE_LOOSER, NO, "what changed, changed on both",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME),
               GOOD(R, LIGHT, LATE), GOOD(L, LIGHT, LATE), GOOD(R, THIN, LATE)}},
    {SIGN_LANE_LOOSER, YES, "light there, of late",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, FLUSH, ON_TIME),
               GOOD(R, LIGHT, LATE), GOOD(L, FLUSH, ON_TIME), GOOD(R, THIN, LATE)}},

    {SIGN_CORNER_FLAT, YES, "the 10 on a pocket hit", .shots = {LEFT(L, FLUSH, P(10))}},
    {SIGN_CORNER_FLAT, YES, "the 7 for a left-hander", .left_handed = true,
     .shots = {LEFT(L, FLUSH, P(7))}},
    {SIGN_CORNER_FLAT, NO, "the 7 for a right-hander", .shots = {LEFT(L, FLUSH, P(7))}},
    {SIGN_CORNER_FLAT, NO, "it rang",
     .shots = {{.hit = HIT_FLUSH, .left_said = true, .left = P(10), .ringing = true}}},
    {SIGN_CORNER_FLAT, NO, "no pocket hit", .shots = {LEFT(L, THIN, P(10))}},
    {SIGN_CORNER_RING, YES, "a ringing 10",
     .shots = {{.hit = HIT_FLUSH, .left_said = true, .left = P(10), .ringing = true}}},
    {SIGN_CORNER_RING, NO, "a flat one", .shots = {LEFT(L, FLUSH, P(10))}},

    {SIGN_LIGHT_LEAVE, YES, "8-10", .shots = {LEFT(L, UNSAID, P(8) | P(10))}},
    {SIGN_LIGHT_LEAVE, YES, "the 5", .shots = {LEFT(L, LIGHT, P(5))}},
    {SIGN_LIGHT_LEAVE, YES, "7-9 for a left-hander", .left_handed = true,
     .shots = {LEFT(L, UNSAID, P(7) | P(9))}},
    {SIGN_LIGHT_LEAVE, NO, "the hit was seen high", .shots = {LEFT(L, HIGH, P(8) | P(10))}},
    {SIGN_LIGHT_LEAVE, NO, "a high leave", .shots = {LEFT(L, UNSAID, P(4))}},
    {SIGN_LIGHT_LEAVE, NO, "a strike", .shots = {LEFT(L, LIGHT, 0)}},
    {SIGN_HIGH_LEAVE, YES, "the 4", .shots = {LEFT(L, UNSAID, P(4))}},
    {SIGN_HIGH_LEAVE, YES, "3-6-10", .shots = {LEFT(L, HIGH, P(3) | P(6) | P(10))}},
    {SIGN_HIGH_LEAVE, YES, "the 6 for a left-hander", .left_handed = true,
     .shots = {LEFT(L, UNSAID, P(6))}},
    {SIGN_HIGH_LEAVE, NO, "the 8, from either side", .shots = {LEFT(L, UNSAID, P(8))}},
    {SIGN_HIGH_LEAVE, NO, "the hit was seen light", .shots = {LEFT(L, LIGHT, P(4))}},
    {SIGN_SPLIT, YES, "7-10", .shots = {LEFT(L, FLUSH, P(7) | P(10))}},
    {SIGN_SPLIT, NO, "3-6-10", .shots = {LEFT(L, FLUSH, P(3) | P(6) | P(10))}},
    {SIGN_SPLIT, NO, "a washout", .shots = {LEFT(L, LIGHT, P(1) | P(2) | P(10))}},
    {SIGN_SPLIT, NO, "thrown off",
     .shots = {{.hit = HIT_NOSE, .release = RELEASE_OFF, .left_said = true, .left = P(7) | P(10)}}},

    {SIGN_LIGHT_LEAVE, NO, "flush was seen", .shots = {LEFT(L, FLUSH, P(8) | P(10))}},
    {SIGN_HIGH_LEAVE, NO, "flush was seen", .shots = {LEFT(L, FLUSH, P(9))}},
    {SIGN_LIGHT_LEAVE, NO, "a 7 comes from either side", .shots = {LEFT(L, UNSAID, P(7))}},

    /* A hit that was not said is the one its leave tells. */
    {SIGN_HIGH_TWICE, YES, "the big four twice",
     .shots = {LEFT(L, UNSAID, P(4) | P(6) | P(7) | P(10)),
               LEFT(R, UNSAID, P(4) | P(6) | P(7) | P(10))}},
    {SIGN_LIGHT_ONCE, YES, "a washout", .shots = {LEFT(L, UNSAID, P(1) | P(2) | P(10))}},
    {SIGN_HIGH_ONCE, NO, "7-10 is no nose hit", .shots = {LEFT(L, UNSAID, P(7) | P(10))}},
    {SIGN_HIGH_ONCE, NO, "what was said stands", .shots = {LEFT(L, LIGHT, P(4))}},
    {SIGN_POCKET_TWICE, YES, "two strikes", .shots = {LEFT(L, UNSAID, 0), LEFT(R, UNSAID, 0)}},
    {SIGN_POCKET_TWICE, NO, "a corner pin tells nothing",
     .shots = {LEFT(L, UNSAID, P(10)), LEFT(R, UNSAID, P(10))}},

    {SIGN_FLAT_TENS, YES, "two of two", .shots = {LEFT(L, FLUSH, P(10)), LEFT(R, FLUSH, P(10))}},
    {SIGN_FLAT_TENS, YES, "sevens of a left-hander", .left_handed = true,
     .shots = {LEFT(L, FLUSH, P(7)), LEFT(R, FLUSH, P(7))}},
    {SIGN_FLAT_TENS, YES, "two of four, a strike and a 4 between",
     .shots = {LEFT(L, FLUSH, P(10)), LEFT(R, FLUSH, P(4)), LEFT(L, FLUSH, 0),
               LEFT(R, FLUSH, P(10))}},
    {SIGN_FLAT_TENS, NO, "one", .shots = {LEFT(L, FLUSH, P(4)), LEFT(R, FLUSH, P(10))}},
    {SIGN_FLAT_TENS, NO, "a strike since",
     .shots = {LEFT(L, FLUSH, P(10)), LEFT(R, FLUSH, P(10)), LEFT(L, FLUSH, 0)}},
    {SIGN_FLAT_TENS, NO, "two of five",
     .shots = {LEFT(L, FLUSH, P(10)), LEFT(R, FLUSH, 0), LEFT(L, FLUSH, 0), LEFT(R, FLUSH, 0),
               LEFT(L, FLUSH, P(10))}},
    {SIGN_FLAT_TENS, NO, "light", .shots = {LEFT(L, LIGHT, P(10)), LEFT(R, LIGHT, P(10))}},
    {SIGN_FLAT_TENS, NO, "plans apart, one on another line there", .apart = true,
     .shots = {LEFT(L, FLUSH, P(10)),
               {.lane = R, .stance = 23.0, .hit = HIT_FLUSH, .left_said = true, .left = P(10)}}},
    {SIGN_RINGING_TENS, YES, "two of two", .shots = {RANG(L), RANG(R)}},
    {SIGN_RINGING_TENS, NO, "one rang, one was flat", .shots = {RANG(L), LEFT(R, FLUSH, P(10))}},
    {SIGN_FOURS, YES, "two of three",
     .shots = {LEFT(L, FLUSH, P(4)), LEFT(R, FLUSH, 0), LEFT(L, FLUSH, P(4))}},
    {SIGN_FOURS, NO, "sixes of a right-hander",
     .shots = {LEFT(L, FLUSH, P(6)), LEFT(R, FLUSH, P(6))}},
    {SIGN_NINES, YES, "two of two", .shots = {LEFT(L, FLUSH, P(9)), LEFT(R, FLUSH, P(9))}},
    {SIGN_NINES, NO, "6-9", .shots = {LEFT(L, FLUSH, P(6) | P(9)), LEFT(R, FLUSH, P(9))}},
    {SIGN_SEVENS, YES, "two of two", .shots = {LEFT(L, FLUSH, P(7)), LEFT(R, FLUSH, P(7))}},
    {SIGN_SEVENS, NO, "tens", .shots = {LEFT(L, FLUSH, P(10)), LEFT(R, FLUSH, P(10))}},
    {SIGN_EIGHT_TENS, YES, "two of two",
     .shots = {LEFT(L, FLUSH, P(8) | P(10)), LEFT(R, FLUSH, P(8) | P(10))}},
    {SIGN_EIGHT_TENS, NO, "an 8 and a 10", .shots = {LEFT(L, FLUSH, P(8)), LEFT(R, FLUSH, P(10))}},
    {SIGN_SEVEN_TENS, YES, "two of two",
     .shots = {LEFT(L, FLUSH, P(7) | P(10)), LEFT(R, FLUSH, P(7) | P(10))}},
    {SIGN_SEVEN_TENS, NO, "one", .shots = {LEFT(L, FLUSH, 0), LEFT(R, FLUSH, P(7) | P(10))}},
    {SIGN_STONE_EIGHTS, YES, "two of two", .shots = {LEFT(L, FLUSH, P(8)), LEFT(R, FLUSH, P(8))}},
    {SIGN_STONE_EIGHTS, NO, "one was off",
     .shots = {{.hit = HIT_FLUSH, .release = RELEASE_OFF, .left_said = true, .left = P(8)},
               LEFT(R, FLUSH, P(8))}},
    {SIGN_ADDS_UP, YES, "nines", .shots = {LEFT(L, FLUSH, P(9)), LEFT(R, FLUSH, P(9))}},
    {SIGN_ADDS_UP, NO, "stone eights are bad luck",
     .shots = {LEFT(L, FLUSH, P(8)), LEFT(R, FLUSH, P(8))}},

    {SIGN_CARRYDOWN, YES, "flush, then light and late twice",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, LIGHT, LATE), GOOD(L, LIGHT, LATE)}},
    {SIGN_CARRYDOWN, NO, "once only",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, FLUSH, ON_TIME), GOOD(L, LIGHT, LATE)}},
    {SIGN_CARRYDOWN, NO, "never flush",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, LATE), GOOD(L, LIGHT, LATE)}},
    {SIGN_CARRYDOWN, NO, "light and late before the flush as well, once since",
     .shots = {GOOD(L, LIGHT, LATE), GOOD(R, FLUSH, ON_TIME), GOOD(L, LIGHT, LATE)}},
    {SIGN_CARRYDOWN, NO, "light but on time",
     .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, LIGHT, ON_TIME), GOOD(L, LIGHT, ON_TIME)}},

    /* Left always high and early, right always light and late: what is said of the left lane is
     * said of its own shots. */
    {SIGN_HIGH_EARLY, YES, "lanes that differ, left is next", .shots = {LANES_THAT_DIFFER}},
    {SIGN_LIGHT_LATE, NO, "lanes that differ, left is next", .shots = {LANES_THAT_DIFFER}},
    {SIGN_LIGHT_LATE, YES, "lanes that differ, right is next", .lane = R,
     .shots = {LANES_THAT_DIFFER}},
    {SIGN_ALTERNATING, NO, "lanes that differ", .shots = {LANES_THAT_DIFFER}},
    {SIGN_ALTERNATING, YES, "on this one of two that differ",
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, THIN, ON_TIME), GOOD(L, LIGHT, ON_TIME),
               GOOD(R, THIN, ON_TIME), GOOD(L, NOSE, ON_TIME)}},
    {SIGN_HIGH_LEAVE, YES, "lanes that differ, left is next",
     .shots = {LEFT(L, HIGH, P(4)), LEFT(R, THIN, P(5)), LEFT(L, HIGH, P(4)), LEFT(R, THIN, P(5))}},
    {SIGN_LIGHT_LEAVE, NO, "lanes that differ, left is next",
     .shots = {LEFT(L, HIGH, P(4)), LEFT(R, THIN, P(5)), LEFT(L, HIGH, P(4)), LEFT(R, THIN, P(5))}},
    {SIGN_CARRYDOWN, NO, "on the other of two that differ",
     .shots = {GOOD(L, NOSE, EARLY), GOOD(L, NOSE, EARLY), GOOD(R, FLUSH, ON_TIME),
               GOOD(R, LIGHT, LATE), GOOD(R, LIGHT, LATE)}},
    {SIGN_CARRYDOWN, YES, "on this one of two that differ", .lane = R,
     .shots = {GOOD(L, NOSE, EARLY), GOOD(L, NOSE, EARLY), GOOD(R, FLUSH, ON_TIME),
               GOOD(R, LIGHT, LATE), GOOD(R, LIGHT, LATE)}},
    /* Each lane has a plan of its own: one shot says something of its lane; two on this plan's line
     * count together whichever lane they were on; of another line there nothing counts. */
    {SIGN_HIGH_ONCE, YES, "lanes kept apart, light there since", .apart = true,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME)}},
    {SIGN_LIGHT_ONCE, NO, "lanes kept apart, light there", .apart = true,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME)}},
    {SIGN_HIGH_TWICE, YES, "lanes kept apart, one on each, one line", .apart = true,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, HIGH, ON_TIME)}},
    {SIGN_HIGH_TWICE, NO, "lanes kept apart, one on each, lines differ", .apart = true,
     .shots = {GOOD(L, HIGH, ON_TIME), {.lane = R, .stance = 23.0, .hit = HIT_HIGH}}},
    {SIGN_POCKET_TWICE, NO, "lanes kept apart, one on each, lines differ", .apart = true,
     .shots = {GOOD(L, FLUSH, ON_TIME), {.lane = R, .stance = 23.0, .hit = HIT_FLUSH}}},
    {SIGN_ALTERNATING, NO, "lanes kept apart", .apart = true,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, LIGHT, ON_TIME), GOOD(L, HIGH, ON_TIME)}},
    {SIGN_LIGHT_LEAVE, NO, "lanes kept apart, left there on another line", .apart = true,
     .shots = {{.lane = R, .stance = 23.0, .left_said = true, .left = P(8) | P(10)}}},
    {SIGN_CARRYDOWN, NO, "lanes kept apart, light there on another line", .apart = true,
     .shots = {GOOD(L, FLUSH, ON_TIME),
               {.lane = R, .stance = 23.0, .hit = HIT_LIGHT, .read = READ_LATE},
               GOOD(L, LIGHT, LATE)}},
    {SIGN_JUST_CHANGED, NO, "lanes kept apart, the other lane's line is another", .apart = true,
     .shots = {GOOD(L, FLUSH, ON_TIME), {.lane = R, .stance = 23.0, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, NO, "lanes kept apart, nothing thrown here", .apart = true,
     .shots = {{.lane = R, .stance = 23.0, .hit = HIT_HIGH}}},
    {SIGN_JUST_CHANGED, YES, "lanes kept apart, changed here", .apart = true,
     .shots = {{.stance = 23.0, .hit = HIT_HIGH}, GOOD(R, FLUSH, ON_TIME)}},

    {SIGN_SPEED_RISING, NO, "meant faster",
     .shots = {MPH(L, 17.5),
               MPH(R, 17.5),
               MPH(L, 17.5),
               {.hit = HIT_FLUSH, .mph = 18.5, .mph_change = 1.0},
               {.hit = HIT_FLUSH, .mph = 18.5, .mph_change = 1.0},
               {.hit = HIT_FLUSH, .mph = 18.5, .mph_change = 1.0}}},
    {SIGN_HIGH_ONCE, YES, "meant a little otherwise",
     .shots = {{.hit = HIT_HIGH, .loft_change_ft = 1.0, .rotation_change_deg = -5.0}}},
    {SIGN_HIGH_ONCE, NO, "meant faster", .shots = {{.hit = HIT_HIGH, .mph_change = 0.5}}},
    {SIGN_HIGH_ONCE, NO, "meant with more loft",
     .shots = {{.hit = HIT_HIGH, .loft_change_ft = 2.0}}},
    {SIGN_HIGH_ONCE, NO, "meant with another hand",
     .shots = {{.hit = HIT_HIGH, .rotation_change_deg = -10.0}}},
    {SIGN_JUST_CHANGED, YES, "meant faster until now",
     .shots = {{.hit = HIT_HIGH, .mph_change = 0.5}}},
    {SIGN_PRACTICE, YES, "not scored", .practice = true},
    {SIGN_PRACTICE, NO, "scored", .game = 1},
    {SIGN_DEEP_INSIDE, YES, "laydown 29", .stance = 35.0},
    {SIGN_DEEP_INSIDE, NO, "laydown 28", .stance = 34.0},
    {SIGN_DEEP_INSIDE, NO, "laydown 29 with 26 rpm for each mph", .stance = 35.0,
     .revs_per_mph = 26.0},
    {SIGN_DEEP_INSIDE, YES, "laydown 27 with 14 rpm for each mph", .stance = 33.0,
     .revs_per_mph = 14.0},
    {SIGN_NEW_PAIR, YES, "third game, nothing thrown", .game = 3},
    {SIGN_NEW_PAIR, NO, "first game, nothing thrown", .game = 1},
    {SIGN_NEW_PAIR, NO, "third game, one thrown", .game = 3, .shots = {GOOD(L, FLUSH, ON_TIME)}},
    {SIGN_CROWDED, YES, "four", .bowlers = 4},
    {SIGN_CROWDED, NO, "three", .bowlers = 3},
    {SIGN_URETHANE, YES, "one of the others", .urethane = 1},
    {SIGN_URETHANE, NO, "none known", .bowlers = 4},
    {SIGN_NO_RECOVERY, YES, "as wet outside", .outside = 0.9},
    {SIGN_NO_RECOVERY, NO, "a little drier outside", .outside = 0.89},
    {SIGN_OWN_SCATTER, YES, "two high, a league's arm", .scatter = 2.5,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, HIGH, ON_TIME)}},
    {SIGN_OWN_SCATTER, NO, "two high, a steady arm", .scatter = 1.2,
     .shots = {GOOD(L, HIGH, ON_TIME), GOOD(R, HIGH, ON_TIME)}},
    {SIGN_OWN_SCATTER, NO, "two on the nose, a league's arm", .scatter = 2.5,
     .shots = {GOOD(L, NOSE, ON_TIME), GOOD(R, NOSE, ON_TIME)}},
    {SIGN_OWN_SCATTER, NO, "one", .scatter = 9.0, .shots = {GOOD(L, HIGH, ON_TIME)}},
    {SIGN_OFF_TARGET, YES, "inside and outside",
     .shots = {THROWN(L, HIGH, INSIDE), GOOD(R, FLUSH, ON_TIME), THROWN(L, LIGHT, OUTSIDE)}},
    {SIGN_OFF_TARGET, NO, "inside and fast",
     .shots = {THROWN(L, HIGH, INSIDE), GOOD(R, FLUSH, ON_TIME), THROWN(L, LIGHT, FAST)}},
    {SIGN_DOUBLE_WOOD, YES, "2-8", .shots = {LEFT(L, LIGHT, P(2) | P(8))}},
    {SIGN_DOUBLE_WOOD, YES, "3-9 among others", .shots = {LEFT(L, NOSE, P(3) | P(9) | P(10))}},
    {SIGN_DOUBLE_WOOD, NO, "2-4-5", .shots = {LEFT(L, LIGHT, P(2) | P(4) | P(5))}},
    {SIGN_SHORT_OIL, YES, "36 ft", .length_ft = 36.0},
    {SIGN_SHORT_OIL, NO, "37 ft", .length_ft = 37.0},
    {SIGN_LONG_OIL, YES, "43 ft", .length_ft = 43.0},
    {SIGN_LONG_OIL, NO, "42 ft", .length_ft = 42.0},
    {SIGN_FLAT_OIL, YES, "2:1", .ratio = 2.0},
    {SIGN_FLAT_OIL, NO, "2.1:1", .ratio = 2.1},
    {SIGN_HOUSE_OIL, YES, "4.5:1", .ratio = 4.5},
    {SIGN_HOUSE_OIL, YES, "nothing outside", .ratio = INFINITY},
    {SIGN_HOUSE_OIL, NO, "4:1", .ratio = 4.0},
    {SIGN_STRONG_BALL, YES, "strongest", .strongest = true},
    {SIGN_STRONG_BALL, NO, "weakest", .weakest = true},
    {SIGN_WEAK_BALL, YES, "weakest", .weakest = true},
    {SIGN_WEAK_BALL, NO, "strongest", .strongest = true},
};
enum { CASES_COUNT = sizeof CASES / sizeof CASES[0] };

static SignsContext context_of(const Case *c)
{
    return (SignsContext){
        .hand = c->left_handed ? HAND_LEFT : HAND_RIGHT,
        .laydown_offset_boards = 6.0,
        .length_ft = c->length_ft != 0.0 ? c->length_ft : 40.0,
        .ratio = c->ratio != 0.0 ? c->ratio : 3.0,
        .lane = c->lane,
        .plan = {.slot = 1, .stance = c->stance != 0.0 ? c->stance : 26.0, .aim = 15.0},
        .game = c->game ? c->game : 2,
        .frame = c->frame ? c->frame : 5,
        .deliveries = c->deliveries ? c->deliveries : 60,
        .practice = c->practice,
        .strongest = c->strongest,
        .weakest = c->weakest,
        .apart = c->apart,
        .bowlers_on_pair = c->bowlers,
        .urethane_others = c->urethane,
        .revs_per_mph = c->revs_per_mph,
        .scatter_boards = c->scatter,
        .outside_share = c->outside};
}

static int shots_of(const Case *c, const SignsContext *context, Shot *shots)
{
    int count = 0;
    for (; count < 8 && (c->shots[count].hit != HIT_UNSAID || c->shots[count].left_said); count++) {
        Shot *shot = &shots[count];
        *shot = c->shots[count];
        shot->slot = shot->slot ? shot->slot : context->plan.slot;
        shot->stance = shot->stance != 0.0 ? shot->stance : context->plan.stance;
        shot->aim = shot->aim != 0.0 ? shot->aim : context->plan.aim;
    }
    return count;
}

static void assert_sound(const Signs *signs, int count)
{
    for (int sign = 0; sign < SIGN_COUNT; sign++) {
        assert_true(signs->shot_count[sign] >= 0 && signs->shot_count[sign] <= SIGN_SHOTS_MAX);
        for (int i = 0; i < signs->shot_count[sign]; i++)
            assert_true(signs->shots[sign][i] >= 0 && signs->shots[sign][i] < count);
        if (!signs->seen[sign])
            assert_int_equal(signs->shot_count[sign], 0);
    }
}

static void test_cases(void **state)
{
    (void)state;
    int wrong = 0;
    for (int i = 0; i < CASES_COUNT; i++) {
        const Case *c = &CASES[i];
        SignsContext context = context_of(c);
        Shot shots[8];
        int count = shots_of(c, &context, shots);
        Signs signs;
        memset(&signs, 0x5a, sizeof signs);
        signs_read(&context, shots, count, &signs);
        assert_sound(&signs, count);
        if (signs.seen[c->sign] != c->seen) {
            wrong++;
            print_error("%s, %s: %s\n", SIGN_NAMES[c->sign], c->name,
                        c->seen ? "not seen" : "seen");
        }
    }
    assert_int_equal(wrong, 0);
}

static void test_every_sign_has_both(void **state)
{
    (void)state;
    int seen[SIGN_COUNT] = {0}, unseen[SIGN_COUNT] = {0};
    for (int i = 0; i < CASES_COUNT; i++)
        (CASES[i].seen ? seen : unseen)[CASES[i].sign]++;
    for (int sign = 0; sign < SIGN_COUNT; sign++)
        if (!seen[sign] || !unseen[sign])
            fail_msg("%s has no %s case", SIGN_NAMES[sign], seen[sign] ? "unseen" : "seen");
}

/* A left-hander who leaves the mirrored pins reads the same signs. */
static void test_mirrored(void **state)
{
    (void)state;
    for (int i = 0; i < CASES_COUNT; i++) {
        SignsContext context = context_of(&CASES[i]);
        Shot shots[8];
        int count = shots_of(&CASES[i], &context, shots);
        Signs signs, mirrored;
        signs_read(&context, shots, count, &signs);
        context.hand = context.hand == HAND_LEFT ? HAND_RIGHT : HAND_LEFT;
        for (int k = 0; k < count; k++)
            shots[k].left = lane_mirror_pins(shots[k].left);
        signs_read(&context, shots, count, &mirrored);
        assert_memory_equal(&signs, &mirrored, sizeof signs);
    }
}

/* Bad releases say nothing of the lane, wherever they stand. */
static void test_bad_releases_say_nothing(void **state)
{
    (void)state;
    for (int i = 0; i < CASES_COUNT; i++) {
        SignsContext context = context_of(&CASES[i]);
        Shot shots[8], with[16];
        int count = shots_of(&CASES[i], &context, shots), n = 0;
        Signs plain, mixed;
        signs_read(&context, shots, count, &plain);
        for (int k = 0; k < count; k++) { /* one before each */
            with[n] = (Shot){.lane = shots[k].lane,
                             .slot = 1,
                             .stance = context.plan.stance,
                             .aim = 15.0,
                             .hit = k % 2 ? HIT_WIDE : HIT_CROSSED,
                             .release = RELEASE_OFF};
            n++;
            with[n++] = shots[k];
        }
        signs_read(&context, with, n, &mixed);
        assert_sound(&mixed, n);
        static const Sign OF_LANE[] = {
            SIGN_POCKET_TWICE, SIGN_HIGH_ONCE,   SIGN_HIGH_TWICE,  SIGN_LIGHT_ONCE,
            SIGN_LIGHT_TWICE,  SIGN_EARLY,       SIGN_LATE,        SIGN_HIGH_EARLY,
            SIGN_HIGH_LATE,    SIGN_LIGHT_EARLY, SIGN_LIGHT_LATE,  SIGN_NEVER_READ,
            SIGN_WIDE,         SIGN_CROSSED,     SIGN_ALTERNATING, SIGN_LANE_TIGHTER,
            SIGN_LANE_LOOSER,  SIGN_CORNER_FLAT, SIGN_CORNER_RING, SIGN_LIGHT_LEAVE,
            SIGN_HIGH_LEAVE,   SIGN_SPLIT,       SIGN_CARRYDOWN,   SIGN_FLAT_TENS,
            SIGN_NINES,        SIGN_ADDS_UP};
        for (size_t k = 0; k < sizeof OF_LANE / sizeof OF_LANE[0]; k++)
            if (plain.seen[OF_LANE[k]] != mixed.seen[OF_LANE[k]])
                fail_msg("%s, %s: bad releases changed %s", SIGN_NAMES[CASES[i].sign],
                         CASES[i].name, SIGN_NAMES[OF_LANE[k]]);
    }
}

/* What a sign stands on: the newest first, and those that made it. */
static void test_stands_on(void **state)
{
    (void)state;
    Case c = {SIGN_HIGH_TWICE, YES, "",
              .shots = {GOOD(L, FLUSH, ON_TIME), GOOD(R, HIGH, ON_TIME), THROWN(L, WIDE, OFF),
                        GOOD(R, NOSE, ON_TIME)}};
    SignsContext context = context_of(&c);
    Shot shots[8];
    int count = shots_of(&c, &context, shots);
    Signs signs;
    signs_read(&context, shots, count, &signs);
    assert_int_equal(signs.shot_count[SIGN_HIGH_TWICE], 2);
    assert_int_equal(signs.shots[SIGN_HIGH_TWICE][0], 3);
    assert_int_equal(signs.shots[SIGN_HIGH_TWICE][1], 1);
}

/* Of lanes that differ no sign of one stands on a shot of the other, but those about the pair and
 * about the bowler. */
static void test_stands_on_its_own_lane(void **state)
{
    (void)state;
    static const Case DIFFERENT[] = {
        {.name = "as seen", .shots = {LANES_THAT_DIFFER}},
        {.name = "kept apart", .apart = true, .shots = {LANES_THAT_DIFFER}},
        {.name = "with leaves",
         .shots = {LEFT(L, HIGH, P(4)), LEFT(R, THIN, P(5)), LEFT(L, HIGH, P(6) | P(10)),
                   LEFT(R, THIN, P(2) | P(8))}},
    };
    for (size_t i = 0; i < sizeof DIFFERENT / sizeof DIFFERENT[0]; i++)
        for (int lane = 0; lane < SIDE_COUNT; lane++) {
            SignsContext context = context_of(&DIFFERENT[i]);
            Shot shots[8];
            int count = shots_of(&DIFFERENT[i], &context, shots);
            Signs signs;
            context.lane = (Side)lane;
            signs_read(&context, shots, count, &signs);
            assert_true(signs.seen[SIGN_LANE_TIGHTER] || signs.seen[SIGN_LANE_LOOSER]);
            for (int sign = 0; sign < SIGN_COUNT; sign++)
                for (int k = 0; k < signs.shot_count[sign]; k++)
                    if (sign != SIGN_LANE_TIGHTER && sign != SIGN_LANE_LOOSER &&
                        shots[signs.shots[sign][k]].lane != (Side)lane)
                        fail_msg("%s: %s of the %s lane stands on shot %d of the other",
                                 DIFFERENT[i].name, SIGN_NAMES[sign], SIDE_NAMES[lane],
                                 signs.shots[sign][k]);
        }
}

/* Nothing older than the memory counts, however long the day. */
static void test_long_ago(void **state)
{
    (void)state;
    enum { MANY = 60 };
    static Shot shots[MANY];
    Case c = {SIGN_HIGH_ONCE, YES, "", .game = 2};
    SignsContext context = context_of(&c);
    for (int i = 0; i < MANY; i++)
        shots[i] = (Shot){.slot = i < 30 ? 1 : 2, .stance = 26.0, .aim = 15.0, .hit = HIT_HIGH};
    Signs signs;
    signs_read(&context, shots, MANY, &signs);
    assert_sound(&signs, MANY);
    assert_false(signs.seen[SIGN_HIGH_ONCE] || signs.seen[SIGN_HIGH_TWICE]);
    assert_true(signs.seen[SIGN_JUST_CHANGED]);
}

static void test_words(void **state)
{
    (void)state;
    for (int sign = 0; sign < SIGN_COUNT; sign++) {
        assert_true(SIGN_NAMES[sign][0] != '\0');
        assert_true(sign_words((Sign)sign, HAND_RIGHT)[0] != '\0');
        assert_true(sign_words((Sign)sign, HAND_LEFT)[0] != '\0');
        for (int other = 0; other < sign; other++)
            assert_string_not_equal(SIGN_NAMES[sign], SIGN_NAMES[other]);
    }
    assert_null(SIGN_NAMES[SIGN_COUNT]);
    assert_string_equal(sign_words(SIGN_CORNER_FLAT, HAND_RIGHT), "a flat ten");
    assert_string_equal(sign_words(SIGN_CORNER_FLAT, HAND_LEFT), "a flat seven");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cases),     cmocka_unit_test(test_every_sign_has_both),
        cmocka_unit_test(test_mirrored),  cmocka_unit_test(test_bad_releases_say_nothing),
        cmocka_unit_test(test_stands_on), cmocka_unit_test(test_stands_on_its_own_lane),
        cmocka_unit_test(test_long_ago),  cmocka_unit_test(test_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
