/* session.h - an event under way: the state that follows from what the bowler entered.
 *
 * A Session is the fold of its entries. Undo is an entry too; the log only grows. The bag has a log
 * of its own: its file keeps it, not the event's. Nothing here reads a file or the clock. */
#ifndef SETTEE_CORE_EVENT_SESSION_H
#define SETTEE_CORE_EVENT_SESSION_H

#include "core/bag/bag_edit.h"
#include "core/event/score.h"
#include "core/event/shot.h"
#include "core/lane/oil.h"
#include "core/motion/delivery.h"

enum { SESSION_SHOTS_MAX = 400, SESSION_ENTRIES_MAX = 4000, SESSION_GAMES_MAX = 24 };

/* What is in an event's file (settee-event/1). */
typedef struct EventInfo {
    char id[64]; /* names its journal: letters, digits, - and _ */
    char name[64];
    char date[16];       /* 2026-05-17, or "" */
    char file[512];      /* its own absolute path, a built-in event's id, or "": not known */
    char pattern[1024];  /* a built-in pattern's id, or a path */
    char bag[1024];      /* a built-in bag's id, or a path */
    char other_bag[64];  /* id of the bag that was taken in place of its own, or "" */
    int pair[2];         /* lane numbers, left and right */
    int games;           /* 1..SESSION_GAMES_MAX */
    int bowlers_on_pair; /* 1..10 */
    FieldMix field;      /* the others among them that are known; none: all 0 */
    bool certified;      /* scored play: no ball's surface may change */
} EventInfo;

typedef enum EntryKind {
    ENTRY_SHOT,  /* shot thrown */
    ENTRY_EDIT,  /* shot `index` replaced by `shot` */
    ENTRY_PLAN,  /* plan changed on `lane`; `apart` set: on that lane alone, as all are now entered.
                  * Older journals: on the other one too, unless the lanes were apart */
    ENTRY_APART, /* `apart` not set: both lanes take the plan of `lane`. Set, in older journals:
                  * each keeps its own from then on */
    ENTRY_GAME,  /* next game begins */
    ENTRY_UNDO,  /* takes back the last entry that still stands */
    ENTRY_REDO,  /* gives back the last entry taken back */
    ENTRY_KINDS
} EntryKind;
extern const char *const ENTRY_NAMES[ENTRY_KINDS + 1];

typedef struct Entry {
    EntryKind kind;
    Side lane;
    bool apart;
    int index;
    Shot shot;
    Plan plan;
} Entry;

typedef struct Session {
    EventInfo event;
    Bag bag; /* as edited */
    BagLog bag_log;
    Pattern pattern;
    Plan first; /* plans at the start of the event; slot 0: not known yet */
    int entry_count;
    Entry entries[SESSION_ENTRIES_MAX];
    /* Entries (indices) that stand, and those taken back, latest last. */
    int standing_count, taken_count;
    short standing[SESSION_ENTRIES_MAX], taken[SESSION_ENTRIES_MAX];
    /* below: the fold of the entries that stand */
    Plan plan[SIDE_COUNT];
    bool apart;        /* a plan was entered for one lane alone since both last took one */
    Side lane;         /* lane of the pair for the next shot */
    int game, frame;   /* 1-based; frame 1..10 */
    int ball_of_tenth; /* 1..3 within the tenth frame's full racks */
    bool last_ball;    /* the next ball is the tenth's third: no spare ball follows it */
    bool game_over;
    int shot_count;
    Shot shots[SESSION_SHOTS_MAX];
    unsigned char shot_game[SESSION_SHOTS_MAX], shot_frame[SESSION_SHOTS_MAX];
    bool shot_second[SESSION_SHOTS_MAX]; /* a spare ball belongs to the shot: it left pins, and
                                          * it was not the third ball of the tenth */
    bool can_undo, can_redo;
} Session;

/* Starts an event: first ball in hand, plans at `first`. Left lane starts frame 1. Where `first` is
 * not known yet (slot 0) it is said later; until then a lane whose plan was never entered has none.
 */
void session_begin(Session *session, const EventInfo *event, const Bag *bag, const Pattern *pattern,
                   const Plan *first);
void session_say_first(Session *session, const Plan *first);

/* Adds one entry and brings the fold up to date. False when it can't be (log full, nothing to
 * undo, no such slot or shot): then nothing has changed. */
bool session_apply(Session *session, const Entry *entry);

/* The same for an entry that was kept earlier: the bag may have changed since. A shot stays with
 * the ball it names; a slot that is empty now is no fault. */
bool session_restore(Session *session, const Entry *entry);

/* Recomputes the state from the active entries; session_apply does so by itself. */
void session_fold(Session *session);

/* Whether session_apply would take it, and why not in a few words (static text; NULL if it would).
 */
const char *session_refuses(const Session *session, const Entry *entry);

/* Edits of the bag, with undo and redo of their own. Shots stay with the ball and the surface they
 * were thrown with; a plan whose slot is empty goes to the first that is filled. False, with why
 * not in one line, when the event does not allow it: a ball that was thrown stays in the bag, one
 * ball stays in a slot, no surface changes once scored play has begun. */
bool session_bag_edit(Session *session, const BagEdit *edit, Error *error);
bool session_bag_allows(const Session *session, const BagEdit *edit, Error *error); /* would it? */
bool session_bag_undo(Session *session, Error *error);
bool session_bag_redo(Session *session, Error *error);

/* Whether a surface may still be changed: until scored play has begun. And the words for it. */
bool session_surfaces_free(const Session *session);
extern const char *const SESSION_SURFACES_CLOSED;

/* For the fold: names the ball of a shot's slot, unless it is named already; finds the slot where a
 * named ball lies; brings a plan to a filled slot. */
void session_say_ball(const Session *session, Shot *shot);
void session_find_slot(const Session *session, Shot *shot);
void session_fill_plan(const Session *session, Plan *plan);

/* The score of a game as far as it was logged. False when something is missing before its last
 * ball (a leave not seen, a spare not said): then `score` holds what comes before that. */
bool session_score(const Session *session, int game, Score *score);

/* A shot that is thrown as planned. */
Shot session_shot(Side lane, const Plan *plan);

/* The ball that a shot names, or else the one in its slot, as the bag has it now (shot_ball: with
 * the surface it had then); NULL: the bag has it no more. */
const Ball *session_ball(const Session *session, const Shot *shot);

/* A shot as the plan says it will be thrown next. */
Shot session_next_shot(const Session *session);

#endif
