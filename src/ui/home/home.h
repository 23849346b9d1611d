/* home.h - what the welcome and Home are given, and what they end with. They know nothing about
 * files: main hands in the lists and the functions that read and keep. */
#ifndef SETTEE_UI_HOME_HOME_H
#define SETTEE_UI_HOME_HOME_H

#include "base/bindings.h"
#include "base/draft.h"
#include "core/advice/learnt.h"
#include "core/event/session.h"
#include "ui/stage.h"

typedef enum HomeKind { HOME_EVENTS, HOME_BAGS, HOME_PATTERNS, HOME_KINDS } HomeKind;

/* A file of one kind, as its list shows it. */
typedef struct HomeItem {
    char name[64];           /* of the file */
    char title[64];          /* an event's or pattern's own name, a bag's bowler; "": not known */
    bool own;                /* in the bowler's home; else built in */
    bool away;               /* put away */
    bool rough;              /* oil without a sheet: for a new event alone */
    char fault[160];         /* why it can't be read; "": it can */
    char date[16];           /* events: or "" */
    char bag[64];            /* events: names of their files */
    char pattern[64];        /* events: its own name */
    char scores[48];         /* events: "203 187 (95)", "" nothing bowled yet with its own bag */
    char others[96];         /* the same with other bags: "anna 203 187, ben (95)", or "" */
    double length_ft;        /* events and patterns */
    double volume_ml, ratio; /* patterns */
    char note[256];          /* patterns: how it plays */
    int balls;               /* bags */
} HomeItem;

/* Something else that can have the screen: a row of the welcome and of Home. */
typedef struct HomeDoor {
    uint32_t key;
    const char *shown, *name, *sentence;
} HomeDoor;

/* What the events bowled with a bag say of its numbers. */
typedef struct HomeLearnt {
    bool current; /* of the bag and the events as they are now */
    int events, count;
    LearntValue values[LEARNT_MAX];
    char ball[LEARNT_MAX][sizeof((Ball *)0)->id]; /* of the values of balls */
} HomeLearnt;

/* Every function returns false with error; `name` is that of a file. */
typedef struct HomeFiles {
    int (*list)(void *context, HomeKind kind, HomeItem *items, int max); /* returns how many */
    bool (*read_bag)(void *context, const char *name, Bag *bag, Error *error);
    bool (*read_pattern)(void *context, const char *name, Pattern *pattern, Error *error);
    /* Saves a bag; `name` "" receives one that is free. */
    bool (*keep_bag)(void *context, char name[64], const Bag *bag, Error *error);
    /* Saves a pattern; `name` "" receives one that is free, else `before` is what was read of it.
     */
    bool (*keep_pattern)(void *context, char name[64], const Pattern *before,
                         const Pattern *pattern, Error *error);
    /* Whether an event is on that pattern: its name. */
    bool (*pattern_event)(void *context, const char *name, char event[64]);
    /* Makes an event, with pattern and bag by name; `name` receives its file's. */
    bool (*new_event)(void *context, const EventInfo *event, char name[64], Error *error);
    /* The form that is being filled in; none to read: false. */
    bool (*keep_draft)(void *context, const Draft *draft, Error *error);
    bool (*read_draft)(void *context, Draft *draft);
    void (*drop_draft)(void *context);
    bool (*copy)(void *context, HomeKind kind, const char *from, const char *to, Error *error);
    bool (*rename)(void *context, HomeKind kind, const char *from, const char *to, Error *error);
    bool (*put_away)(void *context, HomeKind kind, const char *name, bool away, Error *error);
    bool (*trash)(void *context, HomeKind kind, const char *name, Error *error);
    /* Works out a bit of what the events say of the bowler's own bags; `again`: bags or events may
     * have changed. False: all is known. NULL: it never is. */
    bool (*learn)(void *context, bool again);
    /* What is known of a bag; NULL: nothing yet. With `learn` alone. */
    const HomeLearnt *(*learnt)(void *context, const char *bag);
} HomeFiles;

typedef enum HomeLeave { HOME_QUITS, HOME_OPENS, HOME_DOOR } HomeLeave;

typedef struct HomeHost {
    StageLook *look;
    const char *notice;    /* a line to show at the start, or "" */
    const char *today;     /* 2026-05-17 */
    const HomeDoor *doors; /* a row whose key is 0 ends them; NULL: none */
    const HomeFiles *files;
    const Bindings *keys; /* own keys of an event, for the search; NULL: none */
    void *context;        /* of the functions */
    /* How it ended: the event to open and come back to, the door to go through. May hold the event
     * that the list is to begin at. */
    HomeLeave leave;
    char event[64];
    int door;
} HomeHost;

#endif
