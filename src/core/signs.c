/* signs.c - names for now */
#include "core/signs.h"
const char *const SIGN_NAMES[SIGN_COUNT + 1] = {
#define SIGN(id, name, words) name,
#include "core/signs.def"
#undef SIGN
    0};
const char *const SIGN_WORDS[SIGN_COUNT] = {
#define SIGN(id, name, words) words,
#include "core/signs.def"
#undef SIGN
};
