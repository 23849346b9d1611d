/* bindings.c - names of the places and keys. */
#include "base/bindings.h"

const char *const PLACE_NAMES[PLACE_COUNT + 1] = {
    [PLACE_LANE] = "lane",     [PLACE_SHOT] = "shot", [PLACE_WHAT_IF] = "what-if",
    [PLACE_SPARES] = "spares", [PLACE_BAG] = "bag",   [PLACE_BLOCK] = "block",
    [PLACE_OIL] = "oil",       [PLACE_LOG] = "log"};

const char *const NAMED_KEYS[NAMED_COUNT + 1] = {
    [NAMED_SPACE] = "Space",  [NAMED_TAB] = "Tab",        [NAMED_UP] = "Up",
    [NAMED_DOWN] = "Down",    [NAMED_LEFT] = "Left",      [NAMED_RIGHT] = "Right",
    [NAMED_PAGE_UP] = "PgUp", [NAMED_PAGE_DOWN] = "PgDn", [NAMED_HOME] = "Home",
    [NAMED_END] = "End",      [NAMED_DELETE] = "Delete"};
