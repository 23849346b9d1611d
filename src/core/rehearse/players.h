/* players.h - who plays a rehearsal: each a row with one function that chooses the next throw.
 *
 * A player sees what a bowler sees and no more: the hit and the read by name, the leave, what was
 * told of the release, the speed when it was shown. Only `knows-the-lane` is handed the truth. A
 * player is added as a row of players.c. */
#ifndef SETTEE_CORE_REHEARSE_PLAYERS_H
#define SETTEE_CORE_REHEARSE_PLAYERS_H

#include "core/advice/advice.h"
#include "core/rehearse/world.h"

/* What is in sight before a throw. */
typedef struct View {
    const Bag *bag;
    const Pattern *pattern; /* the sheet, true or not */
    const RuleSet *rules;
    const Shot *shots; /* as seen, oldest first, both lanes, practice too */
    int shot_count;
    Plan plan[SIDE_COUNT]; /* thrown last on each lane, or the first line */
    Side lane;             /* of the next throw */
    int game, frame, bowlers_on_pair;
    AdviceJob *advice; /* a job to ask, for those that do; kept from throw to throw */
} View;

typedef struct Choice {
    Plan plan;
    AdjustmentKind kind;   /* what was done */
    double pocket, strike; /* chances as stated by the player; NAN where it states none */
} Choice;

typedef struct Player {
    const char *name, *sentence;
    Choice (*choose)(const View *view);             /* NULL for one that knows: */
    Choice (*know)(const View *view, Truth *truth); /* NULL for all others */
} Player;

extern const Player PLAYER_HOLD, PLAYER_RULES, PLAYER_ADVISOR, PLAYER_KNOWS, PLAYER_BY_THE_MISS,
    PLAYER_COACH;
extern const Player *const PLAYERS[]; /* NULL ends */
enum { PLAYER_COUNT = 6 };
const Player *player_find(const char *name); /* NULL: there is none */

#endif
