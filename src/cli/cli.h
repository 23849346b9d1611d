/* cli.h - the same engine without the screen, for scripts, coaches and tests. */
#ifndef SETTEE_CLI_CLI_H
#define SETTEE_CLI_CLI_H

#include <stdbool.h>

/* Whether the first word is for cli_run: a command, a call for help, or a typing mistake. */
bool cli_knows(const char *word);

/* Reads the screen's arguments, [EVENT] [--bag BAG]; `bag` is NULL if none was named. False after
 * printing the fault. */
bool cli_screen(int argc, char **argv, const char **event, const char **bag);

/* Runs it. Exit status: 0 done, 1 a fault in the data or no answer, 2 wrong usage. */
int cli_run(int argc, char **argv);

#endif
