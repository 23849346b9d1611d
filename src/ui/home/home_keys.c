/* home_keys.c - the table made from home_keys.def. */
#include "ui/home/home_keys.h"

static const HomeRow ROWS[] = {
#define HOME_COMMAND(group, where, from, to, also, run, argument, foot, shown, name, help)         \
    {{OF_##group, where, from, to, also, foot, shown, name, help}, run, argument},
#include "ui/home/home_keys.def"
#undef HOME_COMMAND
};

static const char *const TITLES[HOME_GROUPS] = {[OF_HOME] = "Events, bags and patterns",
                                                [OF_BAG] = "A bag",
                                                [OF_FORM] = "Filling in a form",
                                                [OF_SCREEN] = "The screen"};

static const KeyPlace PLACES[] = {{AT_WELCOME, "welcome"},
                                  {AT_EVENTS, "events"},
                                  {AT_BAGS, "bags"},
                                  {AT_PATTERNS, "patterns"},
                                  {AT_CHOICE | AT_OILS, "choosing for an event"},
                                  {AT_BAG, "a bag"},
                                  {AT_KINDS, "balls by kind"},
                                  {AT_LEARNT, "learnt"},
                                  {AT_FIELDS | AT_USUAL | AT_MEASURES | AT_ROW | AT_TAKEN, "forms"},
                                  {AT_NAME, "a name"},
                                  {AT_ASK, "when asked"},
                                  {AT_HELP, "help"},
                                  {AT_SEARCH, "search"},
                                  {AT_SMALL, "a small window"}};

const KeyTable HOME_TABLE = {.of = "Home",
                             .places = PLACES,
                             .place_count = sizeof PLACES / sizeof *PLACES,
                             .rows = ROWS,
                             .row_size = sizeof ROWS[0],
                             .count = sizeof ROWS / sizeof ROWS[0],
                             .titles = TITLES,
                             .group_count = HOME_GROUPS};
