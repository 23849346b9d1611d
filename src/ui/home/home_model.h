/* home_model.h - what the welcome, Home and its forms show, and the keys that change it. What is on
 * disk changes only through HomeFiles. */
#ifndef SETTEE_UI_HOME_HOME_MODEL_H
#define SETTEE_UI_HOME_HOME_MODEL_H

#include "base/draft.h"
#include "ui/form/bowler_form.h"
#include "ui/form/form.h"
#include "ui/form/sheet_form.h"
#include "ui/home/home.h"
#include "ui/input/bound.h"
#include "ui/input/keytable.h"
#include "ui/search.h"

enum { HOME_ITEMS_MAX = 200, HOME_COLUMNS_MIN = 40, HOME_ROWS_MIN = 12 };

typedef enum HomeMode {
    HOME_WELCOME,
    HOME_LIST,   /* events, bags or patterns */
    HOME_BAG,    /* a bag: its bowler and balls */
    HOME_BALLS,  /* the kinds of ball, to add some */
    HOME_LEARNT, /* what the events say of a bag's numbers */
    HOME_FORM,
    HOME_NAME, /* a name is being typed, for a copy or a file */
    HOME_ASK,
    HOME_HELP,
    HOME_SEARCH /* from there */
} HomeMode;

typedef enum HomeForm {
    FORM_BOWLER,
    FORM_BALL,
    FORM_EVENT,
    FORM_MEASURE,
    FORM_SHEET,
    FORM_READING
} HomeForm;

/* What yes leads to. */
typedef enum HomeAsk { ASK_DELETE, ASK_LEAVE, ASK_REMOVE_BALL, ASK_DRAFT } HomeAsk;

typedef struct Home {
    HomeHost *host;
    int columns, rows;
    HomeMode mode, before; /* before: where help, a question and a name return to */
    char message[200];     /* until the next key */
    Role message_role;
    bool bell, all, over; /* for the loop */

    int menu; /* row of the welcome */
    HomeKind page;
    HomeItem items[HOME_KINDS][HOME_ITEMS_MAX];
    int count[HOME_KINDS], at[HOME_KINDS];
    bool all_shown; /* what was put away too */
    bool choosing;  /* a pattern or bag, for the event's form */
    Oil oil;        /* of the pattern chosen in the list, or of the sheet as it is typed */

    bool starting;     /* from the welcome on: bowler, balls, event */
    char bag_name[64]; /* of the bag at hand; "" a new one, not kept yet */
    Bag bag;
    int ball; /* chosen in it */
    int kind; /* of ball, chosen in HOME_BALLS */

    int learnt;           /* row chosen in HOME_LEARNT */
    HomeMode learnt_from; /* where it was opened */
    bool learn_again;     /* for the loop: a bag has changed */

    /* What a form fills in: copies, until they are done. */
    HomeForm filling;
    Form form, form_behind; /* behind the measuring, the bowler's */
    bool touched;           /* something was changed since it was opened */
    bool touched_behind;
    Draft draft, draft_behind; /* of the form, and of the event's behind a sheet */
    bool draft_changed;        /* since it was kept */
    Draft draft_offered;       /* of a form that was open when the program was ended */
    Bowler bowler;
    Ball ball_draft;
    EventInfo event;
    Measure measure;
    FormKind sheet_kind; /* the form has as many rows as the sheet */
    Sheet sheet;
    Pattern sheet_before; /* as it was read */
    char sheet_name[64];  /* of its file; "": a new one */
    bool sheet_chosen;    /* for the event's form, which is behind it */
    double sheet_ml, sheet_ratio;
    int reading_at; /* which one is filled in */
    SheetReading reading;

    HomeAsk ask;
    bool renaming; /* HOME_NAME: a new name; else that of a copy */
    char name[64];
    int help_top;
    Search search;
    Bound bound; /* the event's own keys */
} Home;

void home_begin(Home *home, HomeHost *host);
void home_key(Home *home, uint32_t key);
void home_draw(const Home *home, Canvas *canvas);

/* ---- reading ---- */

unsigned home_where(const Home *home);       /* one AT_* bit */
const HomeItem *home_item(const Home *home); /* the chosen one of the page; NULL: there is none */
void *home_subject(Home *home);              /* what the form fills in */
const void *home_filled(const Home *home);   /* the same, to read */
bool home_small(const Home *home);           /* too small to show anything */
bool home_compact(const Home *home);         /* below 80 by 24: the compact view */
const char *home_called(const Home *home);   /* the chosen file, as people call it */

void home_draft_words(const Home *home, char *out, size_t size); /* the question about it */
/* A row of HOME_LEARNT: a number of the bag that is offered, or was taken over, or both. */
typedef struct HomeLearntRow {
    LearntKind kind;
    int ball;                 /* index in the bag */
    const LearntValue *offer; /* NULL: it was taken over and stands */
    bool taken;               /* and can be put back */
} HomeLearntRow;
int home_learnt_rows(const Home *home, HomeLearntRow rows[LEARNT_MAX]); /* returns how many */
const HomeLearnt *home_learnt_of(const Home *home, const char *bag);    /* NULL: not known */
/* "2 values learnt from 3 events with mine: l looks", or "". */
void home_learnt_line(const Home *home, char *out, size_t size);

/* The rows of the welcome; returns how many. */
enum { HOME_MENU_MAX = 12 };
int home_menu(const Home *home, HomeDoor rows[HOME_MENU_MAX]);

extern const char *const HOME_TITLES[HOME_KINDS];

#endif
