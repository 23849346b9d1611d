/* files.h - every file the program reads, checked to the last key.
 *
 * `name` is a path, "-" for standard input, or the id of a built-in file of that kind (a path wins
 * when both exist). On a fault: false, and one Error with file, line, JSON path, what was found
 * and what is allowed. The caller owns everything; nothing of the result points elsewhere. */
#ifndef SETTEE_STORE_FILES_H
#define SETTEE_STORE_FILES_H

#include "base/error.h"
#include "base/theme.h"
#include "core/bag.h"
#include "core/oil.h"
#include "core/rules.h"
#include "core/session.h"

enum { FILES_BYTES_MAX = 1 << 20 }; /* larger files are refused unread */

bool files_bag(const char *name, Bag *bag, Error *error);
bool files_pattern(const char *name, Pattern *pattern, Error *error);
bool files_event(const char *name, EventInfo *event, Error *error);
bool files_theme(const char *name, Theme *theme, Error *error);
bool files_rules(const char *name, RuleSet *rules, Error *error);

/* A shots file: a JSON array, or an object a line. At most `max` shots. */
bool files_shots(const char *name, Shot *shots, int max, int *count, Error *error);

/* Reads `name`, finds its kind by its format key (or shots) and checks it. `kind` receives a word
 * for people: "bag", "pattern", ... (static text). */
bool files_check(const char *name, const char **kind, Error *error);

/* Writes a bag as a file, whole or not at all; refused where files_bag would refuse it. */
bool files_save_bag(const char *path, const Bag *bag, Error *error);

#endif
