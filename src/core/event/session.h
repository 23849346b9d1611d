/* session.h - an event under way: the state that follows from what the bowler entered.
 *
 * A Session is computed from its entries. Undo is an entry too; the log only grows. The bag has its
 * own log, kept in its file and not in the event's. Nothing here reads a file or the clock. */
#ifndef SETTEE_CORE_EVENT_SESSION_H
#define SETTEE_CORE_EVENT_SESSION_H

#include "core/bag/bag_edit.h"
#include "core/event/score.h"
#include "core/event/shot.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

/* A day of 24 games, its warm-up and some 40 entries a shot. A shot in play is never refused: the
 * warm-up leaves room for twelve balls a game, and what is no shot leaves room for all shots. */
enum {
    SESSION_GAMES_MAX = 24,
    SESSION_GAME_SHOTS_MAX = 12, /* a strike in each frame and two more in the tenth */
    SESSION_SHOTS_MAX = 600,
    SESSION_TOLD_MAX = 240,
    SESSION_ENTRIES_MAX = 12000,
    SESSION_ROOM_FOR_SHOTS = SESSION_SHOTS_MAX + SESSION_GAMES_MAX /* of those, for nothing else */
};

/* The balls of a frame and a NUL. */
enum { TOLD_SIZE = 8 };

/* What is in an event's file (settee-event/1). */
typedef struct EventInfo {
    char id[64]; /* names its journal: letters, digits, - and _ */
    char name[64];
    char date[16];      /* 2026-05-17, or "" */
    char file[512];     /* its own absolute path, a built-in event's id, or "": not known */
    char pattern[1024]; /* a built-in pattern's id, or a path */
    char bag[1024];     /* a built-in bag's id, or a path */
    char other_bag[64]; /* id of the bag used instead of its own, or "" */
    int pair[2];        /* lane numbers, left and right; of the first game (stays.h) */
    int pairs[SESSION_GAMES_MAX][2]; /* of each game, from the first; 0: as in the game before */
    int games;                       /* 1..SESSION_GAMES_MAX */
    bool warm_up;                    /* unscored balls come first, until ENTRY_GAME starts game 1 */
    int bowlers_on_pair;             /* 1..10 */
    FieldMix field;                  /* what is known of the others; nothing: all 0 */
    bool certified;                  /* scored play: no surface may change */
} EventInfo;

/* Whether it is a day as events have it: 2026-05-17. */
bool event_is_date(const char *date);

/* Whether it is built in, to look round with: nothing of it counts. */
static inline bool event_is_demo(const EventInfo *event)
{
    return event->file[0] && event->file[0] != '/';
}

typedef enum EntryKind {
    ENTRY_SHOT,  /* shot thrown */
    ENTRY_EDIT,  /* shot `index` replaced by `shot` */
    ENTRY_PLAN,  /* plan changed on `lane`; `apart` set: on that lane alone, as all are now entered.
                  * Older journals: on the other one too, unless the lanes were apart */
    ENTRY_APART, /* `apart` not set: both lanes take the plan of `lane`. Set, in older journals:
                  * each keeps its own from then on */
    ENTRY_GAME,  /* next game begins; in warm-up: the first */
    ENTRY_UNDO,  /* undoes the last active entry */
    ENTRY_REDO,  /* redoes the last entry undone */
    ENTRY_GAP,   /* does nothing: an entry that was lost stood here, of a kind not known */
    ENTRY_FRAME, /* a frame whose shots nobody logged, known by `balls`; it was thrown before shot
                  * `index`, which is the number of shots if it is the latest; among such frames
                  * before the one that `ahead` counts, from 1; 0: after them */
    ENTRY_FRAME_EDIT, /* `balls` of the told frame `index` replaced; "": there was no such frame */
    ENTRY_TARGET,     /* `index`: the score to aim for in each game, 0: none */
    ENTRY_KINDS
} EntryKind;
extern const char *const ENTRY_NAMES[ENTRY_KINDS + 1];

typedef struct Entry {
    EntryKind kind;
    Side lane;
    bool apart;
    int index, ahead;
    Shot shot;
    Plan plan;
    char balls[TOLD_SIZE];
} Entry;

/* A frame known only by its pins. */
typedef struct ToldFrame {
    char balls[TOLD_SIZE]; /* as on a score sheet: "X", "9/", "81", "XX9"; "": there was none */
    Side lane;
    int before; /* how many shots were thrown before it */
    int game, frame;
} ToldFrame;

typedef struct Session {
    EventInfo event;
    Bag bag; /* as edited */
    BagLog bag_log;
    Pattern pattern;
    Plan first; /* plans at the start of the event; slot 0: not known yet */
    int entry_count;
    Entry entries[SESSION_ENTRIES_MAX];
    /* Indices of the active entries, and of those undone, latest last. */
    int standing_count, taken_count;
    short standing[SESSION_ENTRIES_MAX], taken[SESSION_ENTRIES_MAX];
    /* below: computed from the active entries */
    Plan plan[SIDE_COUNT];
    bool apart;        /* a plan was entered for one lane alone since both last took one */
    Side lane;         /* lane of the pair for the next shot */
    bool warm_up;      /* before game 1: shots are not scored */
    int pair[2];       /* lane numbers, left and right, of the current game */
    int game, frame;   /* 1-based; frame 1..10; in warm-up both are 1 */
    int ball_of_tenth; /* 1..3 within the tenth frame's full racks */
    bool last_ball;    /* the next ball is the tenth's third: no spare ball follows it */
    bool game_over;
    int shot_count, warm_up_count; /* the first warm_up_count shots are warm-up */
    Shot shots[SESSION_SHOTS_MAX];
    /* Both 0 in warm-up. */
    unsigned char shot_game[SESSION_SHOTS_MAX], shot_frame[SESSION_SHOTS_MAX];
    bool shot_second[SESSION_SHOTS_MAX]; /* a spare ball belongs to the shot: it left pins, and
                                          * it was not the third ball of the tenth */
    int told_count;
    ToldFrame told[SESSION_TOLD_MAX]; /* as they were entered, which may not be as thrown */
    int target;                       /* score to aim for, 0: none */
    bool can_undo, can_redo;
} Session;

/* Starts an event with both plans at `first`; frame 1 is on the left lane. If `first` is not known
 * yet (slot 0) it is given later; until then a lane has no plan unless one is entered. */
void session_begin(Session *session, const EventInfo *event, const Bag *bag, const Pattern *pattern,
                   const Plan *first);
void session_say_first(Session *session, const Plan *first);

/* Adds one entry and updates the state. False if it can't (log full, nothing to undo, no such slot
 * or shot): then nothing has changed. */
bool session_apply(Session *session, const Entry *entry);

/* The same for an entry saved earlier: the bag may have changed since. A shot keeps the ball it
 * names, and a slot that is empty now is not an error. */
bool session_restore(Session *session, const Entry *entry);

/* Recomputes the state from the active entries; session_apply calls it. */
void session_fold(Session *session);

/* Why session_apply would refuse the entry, in a few words (static text); NULL: it wouldn't. */
const char *session_refuses(const Session *session, const Entry *entry);

/* Edits the bag, with its own undo and redo. Shots keep the ball and surface they were thrown with;
 * a plan whose slot is now empty goes to the first filled one. False, with the reason in one line,
 * if the event doesn't allow it: a ball that was thrown stays in the bag, at least one ball stays
 * in a slot, and no surface changes once scored play has begun. */
bool session_bag_edit(Session *session, const BagEdit *edit, Error *error);
bool session_bag_allows(const Session *session, const BagEdit *edit, Error *error); /* would it? */
bool session_bag_undo(Session *session, Error *error);
bool session_bag_redo(Session *session, Error *error);

/* Whether surfaces may still be changed (until the first scored ball, and in an event that is not
 * certified always), and the message if not. */
bool session_surfaces_free(const Session *session);
extern const char *const SESSION_SURFACES_CLOSED;

/* For session_fold: puts the ball's id into a shot that only has a slot; finds the slot a named
 * ball is in now; moves a plan to a filled slot. */
void session_say_ball(const Session *session, Shot *shot);
void session_find_slot(const Session *session, Shot *shot);
void session_fill_plan(const Session *session, Plan *plan);

/* The told frames of a game that were thrown after shot `before` - 1 and before the next, as they
 * were thrown: indices of `told`; returns how many. */
int session_told(const Session *session, int game, int before, int out[SESSION_TOLD_MAX]);

/* The last frame of a game that was entered, 0: none. */
int session_frames(const Session *session, int game);

/* For session_refuses: what is wrong with a told frame or its edit, as text for a frame at all, and
 * at its place in the game; NULL: nothing. */
const char *session_told_fault(const Session *session, const Entry *entry);
const char *session_told_misplaced(const Session *session, const Entry *entry);

/* The score of a game as far as it was entered. False if something is missing before its last ball
 * (a leave or a spare not entered): then `score` holds what comes before that. */
bool session_score(const Session *session, int game, Score *score);

/* A shot thrown as planned. */
Shot session_shot(Side lane, const Plan *plan);

/* The ball a shot names, or else the one in its slot, as it is in the bag now (shot_ball: with the
 * surface it had then); NULL: no longer in the bag. */
const Ball *session_ball(const Session *session, const Shot *shot);

/* The next shot, as planned. */
Shot session_next_shot(const Session *session);

#endif
