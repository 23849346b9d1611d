/* home_edit.c - the bowler's own files renamed and thrown away. */
#include "store/home_edit.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/text.h"
#include "store/atomic.h"
#include "store/files.h"
#include "store/home.h"
#include "store/journal.h"
#include "store/load.h"
#include "store/paths.h"

enum { PATH_BYTES_MAX = 1024, NAMES_TRIED = 1000, EVENTS_MAX = 256 };

static bool own_path(const char *kind, const char *name, char *out, size_t size, Error *error)
{
    Found found;
    if (!home_path(kind, name, out, size) || !load_find_carried(kind, name, &found) || !found.home)
        return error_set(error, "there is no file of that name in your home");
    return true;
}

bool files_in_use(const char *kind, const char *name, char *event, size_t size)
{
    char path[PATH_BYTES_MAX], names[EVENTS_MAX][HOME_NAME_MAX];
    bool bag = strcmp(kind, "bags") == 0;
    int count = home_path(kind, name, path, sizeof path) && strcmp(kind, "events") != 0
                    ? home_names("events", names, EVENTS_MAX)
                    : 0;
    for (int i = 0; i < count; i++) {
        EventInfo info;
        if (files_event(names[i], &info, NULL) && strcmp(bag ? info.bag : info.pattern, path) == 0)
            return text_copy(event, size, info.name), true;
    }
    return false;
}

static bool not_in_use(const char *kind, const char *name, Error *error)
{
    char event[sizeof((EventInfo *)0)->name];
    return !files_in_use(kind, name, event, sizeof event) ||
           error_set(error, "the event \"%s\" names it", event);
}

/* A file's place in the trash; `ending` may hold dots. Fails only for want of room in the path. */
static bool move_to_trash(const char *from, bool (*place)(const char *, char *, size_t, Error *),
                          const char *below, const char *name, const char *ending, char *path,
                          size_t size, Error *error)
{
    for (int n = 1; n <= NAMES_TRIED; n++) {
        char file[2 * HOME_NAME_MAX + 256] = "trash/";
        text_append(file, sizeof file, "%s%s", below, name);
        if (n > 1)
            text_append(file, sizeof file, "-%d", n);
        text_append(file, sizeof file, "%s", ending);
        errno = 0;
        if (!place(file, path, size, error) || !paths_make_folders(path, error))
            return false;
        if (atomic_move(from, path, error))
            return true;
        if (errno != EEXIST)
            return false;
    }
    return error_set(error, "the trash has %d files of that name", NAMES_TRIED);
}

static bool trash_journal(const JournalHead *head, Error *error)
{
    char from[PATH_BYTES_MAX], to[PATH_BYTES_MAX], file[2 * HOME_NAME_MAX + 256];
    if (!journal_file(head->name, file, sizeof file) ||
        !paths_data_look(file, from, sizeof from, error))
        return false;
    const char *name = strrchr(file, '/') + 1;
    return move_to_trash(from, paths_data_look, "events/", name, "", to, sizeof to, error);
}

bool files_trash_journals(const char *place, Error *error)
{
    int count;
    JournalHead *heads = journal_list(&count, error);
    bool done = count >= 0;
    for (int i = 0; done && i < count; i++)
        if (strcmp(heads[i].file, place) == 0)
            done = trash_journal(&heads[i], error);
    free(heads);
    return done;
}

bool files_trash(const char *kind, const char *name, char *path, size_t size, Error *error)
{
    char from[PATH_BYTES_MAX], below[HOME_NAME_MAX] = "", place[PATH_BYTES_MAX];
    *error = (Error){0};
    text_append(below, sizeof below, "%s/", kind);
    if (!own_path(kind, name, from, sizeof from, error) || !not_in_use(kind, name, error))
        return false;
    if (strcmp(kind, "events") == 0 && (!files_place(kind, name, place, sizeof place, error) ||
                                        !files_trash_journals(place, error)))
        return false;
    return move_to_trash(from, paths_config, below, name, ".json", path, size, error);
}

bool files_rename(const char *kind, const char *from, const char *to, Error *error)
{
    char before[PATH_BYTES_MAX], after[PATH_BYTES_MAX];
    *error = (Error){0};
    return own_path(kind, from, before, sizeof before, error) && not_in_use(kind, from, error) &&
           files_new_free(kind, to, error) &&
           (home_path(kind, to, after, sizeof after) ||
            error_set(error, "that can't be a name; choose another")) &&
           atomic_move(before, after, error);
}

bool files_retitle(const char *name, const char *title, Error *error)
{
    char path[PATH_BYTES_MAX];
    EventInfo event;
    *error = (Error){0};
    if (!own_path("events", name, path, sizeof path, error) || !files_event(name, &event, error))
        return false;
    text_copy(event.name, sizeof event.name, title);
    return event_keep(path, &event, error);
}
