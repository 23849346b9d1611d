/* files.h - every file the program reads, checked to the last key.
 *
 * `name` is a path, "-" for standard input, or the name of a file of that kind: in the bowler's
 * home ($XDG_CONFIG_HOME/settee/KIND/NAME.json), else built in. A path that exists wins. On a
 * fault: false, and one Error with file, line, JSON path, what was found and what is allowed. The
 * caller owns everything; no result points elsewhere. */
#ifndef SETTEE_STORE_FILES_H
#define SETTEE_STORE_FILES_H

#include <stdint.h>

#include "base/error.h"
#include "base/theme.h"
#include "core/advice/rules.h"
#include "core/bag/bag.h"
#include "core/event/session.h"
#include "core/lane/oil.h"
#include "core/teach/lesson.h"

enum { FILES_BYTES_MAX = 1 << 20 }; /* larger files are refused unread */

bool files_bag(const char *name, Bag *bag, Error *error);
/* A pattern also goes by what is known of it: "about:41ft" (core/lane/about.h). */
bool files_pattern(const char *name, Pattern *pattern, Error *error);
bool files_event(const char *name, EventInfo *event, Error *error);
bool files_theme(const char *name, Theme *theme, Error *error);
bool files_rules(const char *name, RuleSet *rules, Error *error);
bool files_lesson(const char *name, Lesson *lesson, Error *error);

/* A shots file: a JSON array, or one object per line. At most `max` shots. */
bool files_shots(const char *name, Shot *shots, int max, int *count, Error *error);

/* Takes that bag in place of the event's own; the event's journal then belongs to that bag alone.
 * Naming the event's own bag changes nothing. */
bool files_event_bag(const char *name, EventInfo *event, Error *error);

/* A name that exists. `kind`: "bags", "events", "patterns", "themes", "rules" or "lessons". */
typedef struct FileName {
    char name[64];
    bool home;     /* a file in the home */
    bool built_in; /* with `home`: the built-in one that it hides */
} FileName;

/* The names of one kind, the home's first, at most `max`; returns how many. */
int files_names(const char *kind, FileName *names, int max);

/* False: the home's folder of that kind is there and can't be read, so its names are missing. */
bool files_names_known(const char *kind, Error *error);

/* A name for a file of that kind that works from any folder: its absolute path or a built-in id. */
bool files_place(const char *kind, const char *name, char *out, size_t size, Error *error);

/* The shortest name for such a place: one in the home or built in, else the path. */
void files_short(const char *kind, const char *place, char *out, size_t size);

/* Copies a file of that kind into the home under a new name; `path` receives where. Refused when
 * the file has faults or the name is taken. Files that an event names relative to its own folder
 * are named by their whole path in the copy. */
bool files_copy(const char *kind, const char *from, const char *to, char *path, size_t size,
                Error *error);

/* Whether it is a day as events have it: 2026-05-17. */
bool files_date(const char *date);

/* Whether a file of that kind and name may be made in the home: a good name that is not taken. */
bool files_new_free(const char *kind, const char *name, Error *error);

/* Makes a file in the home; `path` receives where. Refused when it would not read back or the name
 * is taken. The event's bag and pattern are places, as files_place gives them. */
bool files_new_bag(const char *name, const Bag *bag, char *path, size_t size, Error *error);
bool files_new_event(const char *name, const EventInfo *event, char *path, size_t size,
                     Error *error);
bool files_new_pattern(const char *name, const Pattern *pattern, char *path, size_t size,
                       Error *error);

/* Replaces the home's pattern of that name, which was read as `before`. Refused when it would not
 * read back, or reads otherwise by now: somebody else's work is not overwritten. */
bool files_pattern_keep(const char *name, const Pattern *before, const Pattern *pattern,
                        Error *error);

/* Reads `name`, finds its kind by its format key (or shots) and checks it. `kind` receives a word
 * for people: "bag", "pattern", ... (static text). */
bool files_check(const char *name, const char **kind, Error *error);

/* Where a bag is kept, and what its file held when it was last read or written. */
typedef struct BagFile {
    char path[1024];
    bool there; /* it was a file; `sum` is that of its bytes */
    uint32_t sum;
} BagFile;

/* Reads a bag that will be saved again: to the file that `name` led to, or for a built-in bag to
 * $XDG_CONFIG_HOME/settee/bags/ID.json. */
bool files_bag_open(const char *name, Bag *bag, BagFile *file, Error *error);

/* Saves it there, whole or not at all, making folders as needed. Refused when the file has changed
 * since it was last read or written: somebody else's work is not overwritten. */
bool files_bag_keep(BagFile *file, const Bag *bag, Error *error);

/* Writes a bag as a file, whole or not at all; refused where files_bag would refuse it. */
bool files_save_bag(const char *path, const Bag *bag, Error *error);

#endif
