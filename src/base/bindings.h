/* bindings.h - own keys for actions as plain data, read by store, used by ui. */
#ifndef SETTEE_BASE_BINDINGS_H
#define SETTEE_BASE_BINDINGS_H

#include <stddef.h>

/* Where a key may be bound. */
typedef enum BindingPlace {
    PLACE_LANE,
    PLACE_SHOT,
    PLACE_WHAT_IF,
    PLACE_SPARES,
    PLACE_BAG,
    PLACE_BLOCK,
    PLACE_OIL,
    PLACE_LOG,
    PLACE_COUNT
} BindingPlace;
extern const char *const PLACE_NAMES[PLACE_COUNT + 1]; /* NULL ends */

/* Keys that are no character. */
typedef enum NamedKey {
    NAMED_SPACE,
    NAMED_TAB,
    NAMED_UP,
    NAMED_DOWN,
    NAMED_LEFT,
    NAMED_RIGHT,
    NAMED_PAGE_UP,
    NAMED_PAGE_DOWN,
    NAMED_HOME,
    NAMED_END,
    NAMED_DELETE,
    NAMED_COUNT
} NamedKey;
extern const char *const NAMED_KEYS[NAMED_COUNT + 1]; /* NULL ends */

typedef struct Binding {
    BindingPlace place;
    char action[32];
    char key[16]; /* one of ASCII's characters that show, or a named key */
} Binding;

enum { BINDINGS_MAX = 100 };
typedef struct Bindings {
    int count;
    Binding item[BINDINGS_MAX];
} Bindings;

/* The first one that can't be, and in `why` the reason and what is allowed; -1: all can. */
typedef int BindingsRefuse(const Bindings *bindings, char *why, size_t size);

#endif
