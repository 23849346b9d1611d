/* signs.h - what the last shots say, before asking what to do about it. */
#ifndef SETTEE_CORE_ADVICE_SIGNS_H
#define SETTEE_CORE_ADVICE_SIGNS_H

#include "core/event/session.h"
#include "core/event/shot.h"
#include "core/lane/oil.h"

typedef enum Sign {
#define SIGN(id, name, words) SIGN_##id,
#include "core/advice/signs.def"
#undef SIGN
    SIGN_COUNT
} Sign;
extern const char *const SIGN_NAMES[SIGN_COUNT + 1]; /* as in rules files; NULL ends */

/* What it means, for people: pins as that hand names them. */
const char *sign_words(Sign sign, Hand hand);

enum { SIGN_SHOTS_MAX = 6 };

typedef struct Signs {
    bool seen[SIGN_COUNT];
    int shot_count[SIGN_COUNT];              /* shots it is based on, newest first */
    short shots[SIGN_COUNT][SIGN_SHOTS_MAX]; /* indices into the shots given */
} Signs;

/* What is known besides the shots. */
typedef struct SignsContext {
    Hand hand;
    double laydown_offset_boards;
    double length_ft, ratio; /* of the sheet */
    Side lane;               /* lane of the next shot */
    Plan plan;               /* what would be thrown there next */
    int game, frame;
    int deliveries;          /* thrown on the pair so far, all bowlers */
    bool practice;           /* nothing is scored: surfaces may still be changed */
    bool strongest, weakest; /* whether the current ball hooks most or least of the strike balls */
    bool apart;              /* each lane of the pair has a plan of its own */
    int bowlers_on_pair;     /* with the bowler */
    int urethane_others;     /* of the others, as far as it is known */
    double revs_per_mph;     /* at release; 0: not known */
    double scatter_boards;   /* of the bowler's own throws at the pins, a deviation */
    double outside_share;    /* film outside over film in the track; 0: not known */
} SignsContext;

/* Reads shots[0..count-1], oldest first, SESSION_SHOTS_MAX at most. A hit that was not reported is
 * the one its leave tells (leaves.h). "Good" shots are those whose release was not reported as bad;
 * shots "of this line" have the plan's ball, line and release, or nearly. While each lane has a
 * plan of its own, the other lane's shots count only if they were of this line; once the lanes have
 * been seen to differ, not at all. */
void signs_read(const SignsContext *context, const Shot *shots, int count, Signs *signs);

#endif
