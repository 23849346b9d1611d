/* keys_file.h - the bowler's own keys: keys.json in the home. */
#ifndef SETTEE_STORE_KEYS_FILE_H
#define SETTEE_STORE_KEYS_FILE_H

#include <stdbool.h>

#include "base/bindings.h"
#include "base/error.h"

/* Reads them; having none is not an error. `refuses` knows the actions. False with `error`: the
 * file can't be used, and `bindings` is empty. */
bool keys_read(Bindings *bindings, BindingsRefuse *refuses, Error *error);

#endif
