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

const KeyTable HOME_TABLE = {.rows = ROWS,
                             .row_size = sizeof ROWS[0],
                             .count = sizeof ROWS / sizeof ROWS[0],
                             .titles = TITLES,
                             .group_count = HOME_GROUPS};
