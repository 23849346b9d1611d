/* home.c - where the bowler's own files are, and which exist. */
#include "store/home.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/paths.h"

#define ENDING ".json"

const char *const HOME_KINDS[] = {"bags", "events", "patterns", "themes", "rules", "lessons", NULL};

static bool has_folder(const char *kind)
{
    for (const char *const *row = HOME_KINDS; *row; row++)
        if (strcmp(*row, kind) == 0)
            return true;
    return false;
}

static bool is_name(const char *name)
{
    size_t length = strlen(name), ending = strlen(ENDING);
    return length > 0 && length < HOME_NAME_MAX && name[0] != '.' && !strchr(name, '/') &&
           strcmp(name, "-") != 0 && /* standard input */
           !(length >= ending && strcmp(name + length - ending, ENDING) == 0);
}

bool home_path(const char *kind, const char *name, char *out, size_t size)
{
    char below[HOME_NAME_MAX + 32] = "";
    return kind && has_folder(kind) && is_name(name) &&
           text_append(below, sizeof below, "%s/%s" ENDING, kind, name) &&
           paths_config(below, out, size, NULL);
}

static int by_name(const void *a, const void *b) { return strcmp(a, b); }

int home_names(const char *kind, char (*names)[HOME_NAME_MAX], int max)
{
    char path[1024], clean[HOME_NAME_MAX];
    int count = 0;
    DIR *folder =
        has_folder(kind) && paths_config(kind, path, sizeof path, NULL) ? opendir(path) : NULL;
    if (!folder)
        return 0;
    for (struct dirent *row; count < max && (row = readdir(folder));) {
        size_t length = strlen(row->d_name), ending = strlen(ENDING);
        if (length <= ending || strcmp(row->d_name + length - ending, ENDING) != 0)
            continue;
        row->d_name[length - ending] = '\0';
        /* a name with control characters can't be typed either */
        if (is_name(row->d_name) && text_clean(clean, sizeof clean, row->d_name))
            memcpy(names[count++], clean, sizeof clean);
    }
    closedir(folder);
    qsort(names, (size_t)count, HOME_NAME_MAX, by_name);
    return count;
}

bool home_readable(const char *kind, Error *error)
{
    char path[1024];
    if (!has_folder(kind) || !paths_config(kind, path, sizeof path, NULL))
        return true;
    DIR *folder = opendir(path);
    int why = folder ? 0 : errno;
    if (folder)
        closedir(folder);
    if (why == 0 || why == ENOENT)
        return true;
    text_clean(error->file, sizeof error->file, path);
    return error_set(error, "the folder can't be read: %s", strerror(why));
}
