/* cli.h - the same engine without the screen, for scripts, coaches and tests. */
#ifndef SETTEE_CLI_CLI_H
#define SETTEE_CLI_CLI_H

#include <stdbool.h>

/* Whether argv[1] names a command (or asks for help or the version). */
bool cli_knows(const char *word);

/* Runs it. Exit status: 0 done, 1 a fault in the data or no answer, 2 wrong usage. */
int cli_run(int argc, char **argv);

#endif
