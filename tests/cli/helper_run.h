/* helper_run.h - runs the real program and keeps what it said. */
#ifndef SETTEE_TESTS_CLI_HELPER_RUN_H
#define SETTEE_TESTS_CLI_HELPER_RUN_H

#include <stdbool.h>

#include <cjson/cJSON.h>

typedef struct Run {
    int status;        /* exit status; -1 when it did not end by itself */
    char *out, *fault; /* standard output and error, heap */
} Run;

/* Runs settee with these words (NULL ends). `input` is its standard input; NULL: empty. The
 * user's folders are empty ones of the test's own. */
Run run_with(const char *input, const char *const *words);
/* The same in a home of the test's own, with its folders config and data. */
Run run_at(const char *home, const char *input, const char *const *words);
void run_free(Run *run);

#define RUN(...) run_with(NULL, (const char *const[]){__VA_ARGS__, NULL})

/* Its status is `status`; no escape byte anywhere; at most one line of fault, and that begins
 * with "settee: " and is there exactly when the status is not 0. */
void run_is(const Run *run, int status);

/* Standard output is one JSON object and nothing else; freed by the caller. */
cJSON *run_json(const Run *run);

/* A number at a path like "entry.board" or "path.3.ft"; fails the test when there is none. */
double json_at(const cJSON *object, const char *path);

/* Number of columns of the longest line, in characters. */
int widest_line(const char *text);

#define FIXTURE(name) SETTEE_SOURCE_DIR "/tests/data/cli/" name

#endif
