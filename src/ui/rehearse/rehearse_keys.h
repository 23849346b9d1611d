/* rehearse_keys.h - the keys of a rehearsal's own pages, from rehearse_keys.def. */
#ifndef SETTEE_UI_REHEARSE_REHEARSE_KEYS_H
#define SETTEE_UI_REHEARSE_REHEARSE_KEYS_H

#include "ui/input/keytable.h"

enum { AT_FORM = 1, AT_END = 2, AT_SEED = 4 }; /* AT_SEED: the block's words are typed */

typedef enum RehearseAct {
    ACT_UP,
    ACT_DOWN,
    ACT_LESS,
    ACT_MORE,
    ACT_START,
    ACT_PAGE,
    ACT_AGAIN,
    ACT_QUIT,
    ACT_SEED, /* type a block's words: the next four */
    ACT_TYPE,
    ACT_ERASE,
    ACT_TAKE,
    ACT_DROP
} RehearseAct;

typedef struct RehearseKey {
    KeyRow key;
    RehearseAct act;
} RehearseKey;

extern const KeyTable REHEARSE_KEYS;

#endif
