/* files.h - every file the program reads, checked to the last key.
 *
 * `name` is a path, "-" for standard input, or the name of a file of that kind: in the bowler's
 * home
 * ($XDG_CONFIG_HOME/settee/KIND/NAME.json), else built in. A path that is there wins. On a fault:
 * false, and one Error with file, line, JSON path, what was found and what is allowed. The caller
 * owns everything; nothing of the result points elsewhere. */
#ifndef SETTEE_STORE_FILES_H
#define SETTEE_STORE_FILES_H

#include <stdint.h>

#include "base/error.h"
#include "base/theme.h"
#include "core/advice/rules.h"
#include "core/bag/bag.h"
#include "core/event/session.h"
#include "core/lane/oil.h"

enum { FILES_BYTES_MAX = 1 << 20 }; /* larger files are refused unread */

bool files_bag(const char *name, Bag *bag, Error *error);
bool files_pattern(const char *name, Pattern *pattern, Error *error);
bool files_event(const char *name, EventInfo *event, Error *error);
bool files_theme(const char *name, Theme *theme, Error *error);
bool files_rules(const char *name, RuleSet *rules, Error *error);

/* A shots file: a JSON array, or an object a line. At most `max` shots. */
bool files_shots(const char *name, Shot *shots, int max, int *count, Error *error);

/* Takes that bag in place of the event's own; the event's journal is then that bag's alone. Naming
 * the event's own changes nothing. */
bool files_event_bag(const char *name, EventInfo *event, Error *error);

/* A name that there is. `kind`: "bags", "events", "patterns", "themes" or "rules". */
typedef struct FileName {
    char name[64];
    bool home;     /* the home's file */
    bool built_in; /* with `home`: the built-in one that it hides */
} FileName;

/* The names of one kind, the home's first, at most `max`; how many. */
int files_names(const char *kind, FileName *names, int max);

/* A name for a file of that kind that holds from anywhere: its absolute path, or a built-in id. */
bool files_place(const char *kind, const char *name, char *out, size_t size, Error *error);

/* The shortest name that stands for such a place: of the home or built in, else the path. */
void files_short(const char *kind, const char *place, char *out, size_t size);

/* Copies a file of that kind into the home under a new name; `path` receives where. Refused when
 * it has faults, or when there is one of that name. What an event names beside itself is named by
 * its whole path in the copy. */
bool files_copy(const char *kind, const char *from, const char *to, char *path, size_t size,
                Error *error);

/* Reads `name`, finds its kind by its format key (or shots) and checks it. `kind` receives a word
 * for people: "bag", "pattern", ... (static text). */
bool files_check(const char *name, const char **kind, Error *error);

/* Where a bag is kept, and what its file held when it was last read or written. */
typedef struct BagFile {
    char path[1024];
    bool there; /* it was a file, and this is the sum of its bytes */
    uint32_t sum;
} BagFile;

/* Reads a bag that shall be kept again: in the file that `name` led to, or for a built-in bag in
 * $XDG_CONFIG_HOME/settee/bags/ID.json. */
bool files_bag_open(const char *name, Bag *bag, BagFile *file, Error *error);

/* Keeps it there, whole or not at all; folders are made. Refused when the file is no longer what it
 * was when last read or written: somebody else's work is not overwritten. */
bool files_bag_keep(BagFile *file, const Bag *bag, Error *error);

/* Writes a bag as a file, whole or not at all; refused where files_bag would refuse it. */
bool files_save_bag(const char *path, const Bag *bag, Error *error);

#endif
