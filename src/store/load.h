/* load.h - reads a file into memory, and the parsers that continue from there. For the store's own
 * use. */
#ifndef SETTEE_STORE_LOAD_H
#define SETTEE_STORE_LOAD_H

#include <stdint.h>

#include "base/json_out.h"
#include "store/builtin.h"
#include "store/draft_file.h"
#include "store/files.h"
#include "store/json.h"
#include "store/juniors.h"
#include "store/keys_file.h"
#include "store/rehearsals.h"
#include "store/settings.h"

/* What a name leads to. */
typedef struct Found {
    const BuiltinFile *builtin; /* NULL: a file at `path` */
    bool home;                  /* it is in the home */
    bool about;                 /* no file: a pattern's name that says all (core/lane/about.h) */
    char path[1024];            /* with `about` that name */
} Found;

/* The only place where a name becomes a file: a path that exists, else the home's file of that kind
 * and name, else the built-in one. `kind` NULL: any kind. */
bool load_find(const char *kind, const char *name, Found *found, Error *error);
bool load_find_carried(const char *kind, const char *name, Found *found); /* without the path */

/* A name for what was found that works from any folder: a built-in file's id, or the absolute path
 * without links; "" when it has none that can be written down. */
void load_place(const Found *found, char *out, size_t size);

typedef struct Loaded {
    char *text; /* heap; a 0 follows that is not counted; without a byte order mark */
    size_t length;
    Found found;       /* empty for standard input */
    char id[64];       /* from the file's name: letters, digits, - and _ */
    uint32_t sum;      /* load_crc32 of the file's bytes, as they were read */
    char folder[1024]; /* of the file, "." when the name has none */
} Loaded;

/* Reads `name` as files.h says; `kind` is the kind of built-in files to look among, or NULL for
 * all of them. Fills error->file always. */
bool load_file(const char *kind, const char *name, Loaded *loaded, Error *error);
void load_free(Loaded *loaded);

/* Reads what the program keeps for itself (settings, keys, a draft, juniors) into `into`. A path of
 * "", or nothing there: nothing was kept, which is no fault. False: it can't be read. */
bool load_kept(const char *path, bool (*parse)(const Json *root, void *into), void *into,
               Error *error);

/* Writes it whole to `path`, with its folders, and frees `out`. */
bool load_keep(char *path, JsonOut *out, Error *error);

/* Opens a file to read; -1 with `error` and errno. What is no file (a pipe, a device) is refused:
 * to read it may take for ever. A folder is for load_descriptor to refuse. */
int load_open(const char *path, Error *error);
bool load_is_file(int fd, Error *error);

/* Reads a descriptor to its end, but at most max + 1 bytes; NULL with `error`. */
char *load_descriptor(int fd, size_t max, size_t *length, Error *error);

/* An id from a path: the file's name without its ending. Characters an id can't hold become -, and
 * a name that was changed or cut gets a unique mark, so that no two names share an id. */
void load_id(const char *path, char *out, size_t size);

/* Whether it is a complete, valid file of that kind. */
bool load_check(const char *kind, const Loaded *file, Error *error);

/* "not found", with the names of that kind, or the nearest. */
bool load_missing(const char *kind, const char *name, Error *error);

/* CRC-32 (ISO 3309, as in zip): finds every single flipped bit. */
uint32_t load_crc32(const char *bytes, size_t size);

/* Its register after a byte of zeros. */
uint32_t load_crc32_zeros(uint32_t crc);

/* A ball's surface, in a bag or a journal: read, and written under the key "surface". */
bool surface_parse(const Json *value, Surface *surface);
void surface_out(JsonOut *out, const Surface *surface);

bool bag_parse(const Json *root, Bag *bag);
/* Writes it as a file; false, with `error`, where it would not read back. */
bool bag_out(JsonOut *out, const Bag *bag, Error *error);
bool pattern_parse(const Json *root, const Loaded *file, Pattern *pattern);
char *pattern_text(const Pattern *pattern); /* as a file, heap; NULL: out of memory */
bool event_parse(const Json *root, const Loaded *file, EventInfo *event);
/* Replaces an event's file. */
bool event_keep(const char *path, const EventInfo *event, Error *error);
bool theme_parse(const Json *root, const Loaded *file, Theme *theme);
bool rules_parse(const Json *root, RuleSet *rules);
bool lesson_parse(const Json *root, const Loaded *file, Lesson *lesson);
bool juniors_parse(const Json *root, Juniors *juniors);
bool settings_parse(const Json *root, Settings *settings);
bool draft_parse(const Json *root, Draft *draft);
bool keys_parse(const Json *root, Bindings *bindings);
bool rehearsal_parse(const Json *root, RehearsalRecord *record);
bool shots_parse(const Loaded *file, Shot *shots, int max, int *count, Error *error);
bool shots_are_lines(const Loaded *file); /* begins with an object whose first key is a shot's */
bool shot_knows_key(const char *key);

/* One shot, by the limits of a shots file if `strict`, else by those of a journal. */
bool shot_parse(const Json *value, bool strict, Shot *shot);

#endif
