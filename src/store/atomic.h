/* atomic.h - writes a whole file or nothing: temp in the same folder, fsync, rename, fsync folder.
 */
#ifndef SETTEE_STORE_ATOMIC_H
#define SETTEE_STORE_ATOMIC_H

#include <stdbool.h>
#include <stddef.h>

#include "base/error.h"

/* Replaces the file at `path` (what a link points to, not the link). False: it is unchanged. */
bool atomic_write(const char *path, const void *bytes, size_t size, Error *error);

/* The same, but only where nothing has that name yet. */
bool atomic_write_new(const char *path, const void *bytes, size_t size, Error *error);

/* Moves a file to a name that nothing has yet (errno EEXIST: something has), on the same disk. */
bool atomic_move(const char *from, const char *to, Error *error);

/* Writes all of it, however many calls that takes; false with errno. */
bool atomic_write_all(int fd, const void *bytes, size_t size);

/* Makes a rename or a new file in the folder of `path` survive a power cut; false with errno. */
bool atomic_sync_folder(const char *path);

#endif
