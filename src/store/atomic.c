/* atomic.c - writes a whole file or nothing. */
#define _XOPEN_SOURCE 700 /* realpath */
#include "store/atomic.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/text.h"

enum { PATH_BYTES_MAX = 4096 };

bool atomic_write_all(int fd, const void *bytes, size_t size)
{
    const char *at = bytes;
    while (size > 0) {
        ssize_t written = write(fd, at, size);
        if (written < 0 && errno == EINTR)
            continue;
        if (written <= 0) {
            if (written == 0)
                errno = ENOSPC;
            return false;
        }
        at += written;
        size -= (size_t)written;
    }
    return true;
}

bool atomic_sync_folder(const char *path)
{
    char folder[PATH_BYTES_MAX];
    const char *slash = strrchr(path, '/');
    size_t length = slash ? (size_t)(slash - path) : 0;
    snprintf(folder, sizeof folder, "%.*s", (int)length, path);
    int fd = open(!slash ? "." : length == 0 ? "/" : folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd < 0)
        return false;
    /* Some file systems have no fsync for folders and say EINVAL; nothing more can be done. */
    bool done = fsync(fd) == 0 || errno == EINVAL;
    int why = errno;
    close(fd);
    errno = why;
    return done;
}

/* A new file has the usual permissions, a replaced one those it had. */
static mode_t mode_for(const char *path)
{
    struct stat status;
    if (stat(path, &status) == 0)
        return status.st_mode & 0777;
    mode_t mask = umask(0);
    umask(mask);
    return 0666 & ~mask;
}

/* Gives the file its name, unless it is taken; where links are not possible, it looks first. */
static bool name_new(const char *temp, const char *path)
{
    struct stat status;
    if (link(temp, path) == 0)
        return unlink(temp) == 0;
    if (errno != EPERM && errno != EACCES && errno != ENOTSUP && errno != ENOSYS && errno != EMLINK)
        return false;
    if (lstat(path, &status) == 0)
        errno = EEXIST;
    return errno != EEXIST && rename(temp, path) == 0;
}

static bool write_and_name(int fd, const char *temp, const char *path, bool only_new,
                           const void *bytes, size_t size)
{
    bool done =
        atomic_write_all(fd, bytes, size) && fchmod(fd, mode_for(path)) == 0 && fsync(fd) == 0;
    int why = errno;
    if (close(fd) != 0 && done) {
        why = errno;
        done = false;
    }
    if (done && !(only_new ? name_new(temp, path) : rename(temp, path) == 0)) {
        why = errno;
        done = false;
    }
    if (!done)
        unlink(temp);
    errno = why;
    return done;
}

static bool write_file(const char *path, bool only_new, const void *bytes, size_t size,
                       Error *error)
{
    char temp[PATH_BYTES_MAX];
    if (error)
        text_clean(error->file, sizeof error->file, path);
    char *real = only_new ? NULL : realpath(path, NULL); /* NULL: not there yet */
    const char *target = real ? real : path;
    bool done = false;
    struct stat status;
    if (only_new && lstat(path, &status) == 0) {
        errno = EEXIST;
    } else if (stat(target, &status) == 0 && S_ISDIR(status.st_mode)) {
        errno = EISDIR;
    } else if (snprintf(temp, sizeof temp, "%s.XXXXXX", target) >= (int)sizeof temp) {
        errno = ENAMETOOLONG;
    } else {
        int fd = mkstemp(temp);
        done = fd >= 0 && write_and_name(fd, temp, target, only_new, bytes, size);
    }
    if (!done)
        error_set(error, "can't be written: %s", strerror(errno));
    else
        atomic_sync_folder(target); /* the file is whole either way; only a power cut could tell */
    free(real);
    return done;
}

bool atomic_write(const char *path, const void *bytes, size_t size, Error *error)
{
    return write_file(path, false, bytes, size, error);
}

bool atomic_write_new(const char *path, const void *bytes, size_t size, Error *error)
{
    return write_file(path, true, bytes, size, error);
}

bool atomic_move(const char *from, const char *to, Error *error)
{
    bool done = name_new(from, to);
    int why = errno;
    if (error)
        text_clean(error->file, sizeof error->file, from);
    if (!done)
        error_set(error, "can't be moved to %s: %s", to, strerror(why));
    else if (atomic_sync_folder(to))
        atomic_sync_folder(from);
    errno = why;
    return done;
}
