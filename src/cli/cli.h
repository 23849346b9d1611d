/* cli.h - the same engine without the screen, for scripts, coaches and tests. */
#ifndef SETTEE_CLI_CLI_H
#define SETTEE_CLI_CLI_H

#include <stdbool.h>

#include "cli/options.h"

/* Whether the first word is for cli_run: a command, a call for help, or a typing mistake. */
bool cli_knows(const char *word);

/* Reads the screen's arguments, [EVENT] [--bag BAG]. `bag` is NULL if none was named, `event` if
 * neither was: then Home is shown. False after printing the fault. */
bool cli_screen(int argc, char **argv, const char **event, const char **bag);

/* Whether it is `rehearse EVENT [--seed N]`, a rehearsal on the screen; seed 0: none was named. */
bool cli_rehearses(int argc, char **argv, const char **event, unsigned long *seed);

/* A row of the table of commands, for the manual and the completions; static texts. */
typedef struct CliCommand {
    const char *name;  /* "screen": what runs if no command is named */
    const char *words; /* the plain words it takes, as the usage line shows them; "" none */
    const char *help;  /* one line */
    OptionSet options;
} CliCommand;

/* The command of that number, from 0; the screen is the first. False: there are no more. */
bool cli_command(int number, CliCommand *command);

/* Whether it is "teach" alone, perhaps with --bag BAG: then the lessons' screen is meant, where
 * there is a terminal for it. */
bool cli_teach_screen(int argc, char **argv, const char **bag);

/* Runs it. Exit status: 0 done, 1 a fault in the data or no answer, 2 wrong usage. */
int cli_run(int argc, char **argv);

#endif
