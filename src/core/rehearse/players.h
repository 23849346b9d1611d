/* players.h - who plays a rehearsal: a row each, with one function that chooses the next throw.
 *
 * A player sees what a bowler sees and no more: the hit and the read by name, the leave, the
 * reported release, the speed if it was shown. Only `knows-the-lane` gets the truth. To add a
 * player, add a row to players.c. */
#ifndef SETTEE_CORE_REHEARSE_PLAYERS_H
#define SETTEE_CORE_REHEARSE_PLAYERS_H

#include "core/advice/advice.h"
#include "core/rehearse/world.h"

/* What a player sees before a throw. */
typedef struct View {
    const Bag *bag;
    const Pattern *pattern; /* the sheet, true or not */
    const RuleSet *rules;
    const Shot *shots; /* as seen, oldest first, both lanes, practice too */
    int shot_count;
    Plan plan[SIDE_COUNT]; /* thrown last on each lane, or the first line */
    Side lane;             /* of the next throw */
    int game, frame, bowlers_on_pair;
    bool practice;     /* it won't count; game and frame are then 1 */
    FieldMix mix;      /* the others, as far as they are known */
    AdviceJob *advice; /* for players who ask for advice; kept from throw to throw */
    long question;     /* the throw's number among all of that job */
} View;

typedef struct Choice {
    Plan plan;
    AdjustmentKind kind;   /* what was done */
    double pocket, strike; /* chances the player states; NAN if none */
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

/* Asks the view's advice job what to throw next; the caller then takes its steps. */
void player_ask(const View *view);

const Player *player_find(const char *name); /* NULL: there is none */

#endif
