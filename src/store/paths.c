/* paths.c - where the user's files are. */
#include "store/paths.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "base/text.h"
#include "store/atomic.h"

/* The folder of one kind. The specification says to ignore relative values. */
static bool base_folder(const char *variable, const char *below_home, char *out, size_t size,
                        Error *error)
{
    const char *value = getenv(variable), *home = getenv("HOME");
    out[0] = '\0';
    bool whole;
    if (value && value[0] == '/')
        whole = text_append(out, size, "%s/settee", value);
    else if (home && home[0] == '/')
        whole = text_append(out, size, "%s/%s/settee", home, below_home);
    else
        return error_set(error, "neither %s nor HOME is an absolute path; set one of them",
                         variable);
    return whole ? true : error_set(error, "the path in %s is too long", variable);
}

static bool add_name(const char *name, char *out, size_t size, Error *error)
{
    if (text_append(out, size, "/%s", name))
        return true;
    return error_set(error, "the path of %s is too long", name);
}

static bool make_folders(char *path, bool sync, Error *error)
{
    for (char *slash = strchr(path + 1, '/'); slash; slash = strchr(slash + 1, '/')) {
        *slash = '\0';
        struct stat status;
        int made = mkdir(path, 0700);
        int why = errno;
        if (made != 0 && (stat(path, &status) != 0 || !S_ISDIR(status.st_mode))) {
            error_set(error, "can't make the folder %s: %s", path, strerror(why));
            *slash = '/';
            return false;
        }
        /* Settee's own folder may have been made by a journal that has no entries yet. */
        if (sync && (made == 0 || strcmp(strrchr(path, '/'), "/settee") == 0))
            atomic_sync_folder(path); /* else a power cut could take it, with what is saved in it */
        *slash = '/';
    }
    return true;
}

bool paths_make_folders(char *path, Error *error) { return make_folders(path, true, error); }

bool paths_config(const char *name, char *out, size_t size, Error *error)
{
    return base_folder("XDG_CONFIG_HOME", ".config", out, size, error) &&
           add_name(name, out, size, error);
}

bool paths_data_look(const char *name, char *out, size_t size, Error *error)
{
    return base_folder("XDG_DATA_HOME", ".local/share", out, size, error) &&
           add_name(name, out, size, error);
}

bool paths_data(const char *name, char *out, size_t size, Error *error)
{
    return paths_data_look(name, out, size, error) && make_folders(out, false, error);
}
