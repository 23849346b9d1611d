/* atomic.h - writes a whole file or nothing: temp in the same folder, fsync, rename, fsync folder. */
#ifndef SETTEE_STORE_ATOMIC_H
#define SETTEE_STORE_ATOMIC_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

bool atomic_write(const char *path, const void *bytes, size_t size, Error *error);

#endif
