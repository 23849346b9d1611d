/* home_keys.h - every key of the welcome, Home and its forms, from home_keys.def. */
#ifndef SETTEE_UI_HOME_HOME_KEYS_H
#define SETTEE_UI_HOME_HOME_KEYS_H

#include "ui/home/home_model.h"

/* States in which keys are read; one bit each. */
enum {
    AT_WELCOME = 1 << 0,
    AT_EVENTS = 1 << 1,
    AT_BAGS = 1 << 2,
    AT_PATTERNS = 1 << 3,
    AT_LISTS = AT_EVENTS | AT_BAGS | AT_PATTERNS,
    AT_CHOICE = 1 << 4, /* a list, to choose from for the form */
    AT_BAG = 1 << 5,
    AT_KINDS = 1 << 6,
    AT_FIGURE = 1 << 7, /* fields of a form: a number, */
    AT_WORD = 1 << 8,   /* one of a closed set of words, */
    AT_TEXT = 1 << 9,   /* a text, */
    AT_OPENS = 1 << 10, /* or something chosen from a list */
    AT_FIELDS = AT_FIGURE | AT_WORD | AT_TEXT | AT_OPENS,
    AT_NAME = 1 << 11,
    AT_ASK = 1 << 12,
    AT_HELP = 1 << 13,
    AT_SMALL = 1 << 14,
    AT_USUAL = 1 << 15,    /* with a field: something is usual for it, */
    AT_MEASURES = 1 << 16, /* or it can be measured */
    AT_OILS = 1 << 17,     /* the list to choose from is of patterns */
    AT_ROW = 1 << 18,      /* the field is a stroke or reading */
    AT_SEARCH = 1 << 19,
    AT_TAKEN = 1 << 20, /* it is learnt and can be put back */
    AT_LEARNT = 1 << 21,
    AT_ANY = (1 << 22) - 1
};

typedef enum HomeGroup { OF_HOME, OF_BAG, OF_FORM, OF_SCREEN, HOME_GROUPS } HomeGroup;

typedef void HomeRun(Home *home, int argument, uint32_t key);
#define HOME_COMMAND(group, where, from, to, also, run, argument, foot, shown, name, help)         \
    HomeRun run;
#include "ui/home/home_keys.def"
#undef HOME_COMMAND

typedef struct HomeRow {
    KeyRow key;
    HomeRun *run;
    int argument;
} HomeRow;

extern const KeyTable HOME_TABLE; /* of HomeRows */

#endif
